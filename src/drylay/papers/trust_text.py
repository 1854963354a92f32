"""What a plan stands on: whether anything stops it, who overrode what, what is from memory."""

import re

from drylay.findings import Finding, Severity
from drylay.papers.wording import clean, many, said_by, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.reasons import Decision, Scalar

#: No finding is printed longer than this: its figures stand last.
FINDING_MOST = 1200
#: Kinds of sources that somebody should check before money is spent.
UNSURE = ("assumption", "from memory")
LEFT_OUT = "a trait left out has its plain value"
PERSON = "named person's override"
#: A rule told as the question that families are asked: "1 if boards are waxed, else 0".
ASKED = re.compile(r"^1 if (.*), (?:else )?0(?: if .*)?$")
LONGEST_RULE = 400


def state_told(plan: Plan) -> str:
    """Return whether anything stops the plan."""
    if not plan.buildable:
        return "BLOCKED. Do not buy or saw anything from this plan: see the findings."
    if plan.buying is None:
        return "INCOMPLETE. This is no whole plan: audit it. Do not buy or saw anything from it."
    if count := sum(not _tightens(decision) for decision in _by_person(plan)):
        places = many(count, "limit that a named person", "limits that named persons")
        return (
            f"Nothing stops this plan within the screened limits BUT FOR {places} overrode: "
            "see below. Local rules come first."
        )
    return "Nothing stops this plan within the screened limits. Local rules come first."


def _by_person(plan: Plan) -> list[Decision]:
    return [d for d in plan.reasons.decisions if d.source.kind == PERSON]


def _tightens(decision: Decision) -> bool:
    """Whether an override asks for more than what it replaces: less of a most, more of a least."""
    value, before = decision.value, dict(decision.inputs).get("otherwise")
    if not isinstance(value, int | float) or not isinstance(before, int | float):
        return False
    name = decision.path.rsplit(".", 1)[-1]
    return value <= before if "most" in name else "least" in name and value >= before


def trust_told(plan: Plan) -> list[str]:
    """Return what rests on a named person, on memory or on an assumption."""
    unsure = [d for d in plan.reasons.decisions if d.source.kind in UNSURE and _bears(plan, d)]
    texts = [_overridden(decision, plan.units) for decision in _by_person(plan)]
    metals = [d for d in unsure if d.path.startswith("fixings.metals[")]
    texts += dict.fromkeys(_taken(each, plan.units) for each in unsure if each not in metals)
    return texts + ([_metals(metals)] if metals else [])


def _metals(decisions: list[Decision]) -> str:
    """Return in one breath which metals are taken to last, and who says so."""
    metals = ", ".join(dict.fromkeys(clean(str(decision.value)) for decision in decisions))
    source = decisions[0].source
    return (
        f"metals that last in this timber and place: {metals} "
        f"({source.kind}: {clean(source.title)})"
    )


def _bears(plan: Plan, decision: Decision) -> bool:
    """Whether a decision bears on this plan.

    A joint's price does not where none is made, nor a trait that the boards do not have, nor how
    coach screws stand where none are driven.
    """
    if decision.source.title == LEFT_OUT:
        return False
    coach = plan.fixings.coach_screws if plan.fixings is not None else None
    if decision.path.startswith("fixings.coach_screws.") and coach is not None and not coach.count:
        return False
    return decision.path != "pieces.joint_price" or bool(plan.pieces and plan.pieces.joints)


def _overridden(decision: Decision, units: str) -> str:
    """Return a named person's override, with what it replaces and who says that."""
    inputs = dict(decision.inputs)
    text = f"{decision.path}: {_figure(decision.value, decision.unit, units)}"
    if inputs.get("otherwise") is not None:
        replaced = _figure(inputs["otherwise"], decision.unit, units)
        text += f" instead of {replaced} ({clean(str(inputs.get('otherwise_by', '')))})"
    elif "otherwise" in inputs:
        text += f" instead of {clean(str(inputs.get('otherwise_by', '')))}"
    reason = clean(decision.rule.removeprefix("override: "))
    return f"{text}: {reason} ({said_by(decision)})"


def _taken(decision: Decision, units: str) -> str:
    value = _figure(decision.value, decision.unit, units)
    if decision.unit == "mm" and isinstance(decision.value, float):  # never beyond a limit
        ending = decision.path.removesuffix("_mm").rsplit("_", 1)[-1]
        told = {"least": size_least, "most": size_most}.get(ending, size)
        value = told(decision.value, units)
    rule = ASKED.sub(r"\1?", clean(decision.rule, LONGEST_RULE))
    return f"{rule}: {value} ({said_by(decision)})"


def _figure(value: Scalar, unit: str, units: str) -> str:
    if unit == "mm" and isinstance(value, float):
        return size(value, units)
    if unit == "yes/no":
        return "yes" if value else "no"
    unit = "" if unit in {"count", "ratio"} else unit
    return clean(f"{value:g} {unit}".strip() if isinstance(value, float) else f"{value} {unit}")


def local_rules_told(plan: Plan) -> list[str]:
    """Return the local rules a plan was held against, each with its package and release."""
    return [clean(f"{rule.name} ({rule.package} {rule.version})") for rule in plan.local_rules]


def findings_told(plan: Plan) -> list[str]:
    """Return the findings, the worst first."""
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    found = sorted(plan.findings, key=lambda finding: order.index(finding.severity))
    return [finding_told(finding, plan.units) for finding in found]


def finding_told(finding: Finding, units: str) -> str:
    """Return a finding with its figures in the plan's own units."""
    if finding.unit == "mm" and finding.measured is None and finding.limit is not None:
        return f"{finding} (limit {size(finding.limit, units)})"
    if finding.unit != "mm" or finding.measured is None:
        return str(finding)
    figures = size(finding.measured, units)
    if finding.limit is not None:
        figures += f" against {size(finding.limit, units)}"
    return (
        f"{finding.severity.value} {finding.code} {finding.subject}: {finding.message} ({figures})"
    )
