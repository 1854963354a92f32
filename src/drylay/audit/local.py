"""Local rules: each is named with its release, and whoever found something is one of them."""

from collections.abc import Iterator

from drylay.audit.flaws import conventions, need
from drylay.audit.model import ClosedCheck, Flaw, Witness, WitnessedCheck
from drylay.findings import Finding
from drylay.plan.model import Plan

FINDINGS = conventions("Findings")
#: What stands between a local rule's name and its own code.
BETWEEN = "/"


def is_local(finding: Finding) -> bool:
    """Return whether a finding is that of a local rule: its code says whose."""
    return BETWEEN in finding.code


def local_rules_are_named(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each local rule without name or release, and each speaker that is none."""
    for index, rule in enumerate(plan.local_rules):
        if not all((rule.name, rule.package, rule.version)):
            message = "a local rule without name, package or release"
            yield Flaw(subject=f"local_rules[{index}]", message=message, source=FINDINGS)
    names = {rule.name for rule in plan.local_rules}
    for index, finding in enumerate(plan.findings):
        speaker = finding.code.partition(BETWEEN)[0]
        if is_local(finding) and speaker not in names:
            message = f"found by {speaker!r}, no local rule that was asked"
            yield Flaw(subject=f"findings[{index}]", message=message, source=FINDINGS)


def local_findings_as_found(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each finding that the local rules have now, or the plan had from them."""
    need(plan.buying, "purchase")  # a blocked plan has nothing left to ask them about
    found = need(witness.local_findings, "local rules")
    told = tuple(finding for finding in plan.findings if is_local(finding))
    for finding in dict.fromkeys((*found, *told)):
        if (finding in found) != (finding in told):
            message = "left out" if finding in found else "no local rule finds this now"
            subject = f"{finding.code} {finding.subject}"
            yield Flaw(subject=subject, message=message, source=FINDINGS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-012", "local rules are named, and speak under their names", local_rules_are_named),
)
HELD: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W19", "local rules find what the plan says they found", local_findings_as_found),
)
