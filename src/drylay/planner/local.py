"""Local rules, of a region or a site: asked of the finished plan, and what they find added to it.

They may add findings, and change nothing: a stop of theirs blocks the plan as any other does.
"""

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.plan.model import LocalRuleUsed, Plan
from drylay.planner.used import NO_RELEASE
from drylay.plugins.guard import hear
from drylay.plugins.model import (
    OFFERED,
    InstalledLocalRule,
    LocalRuleSet,
    Origin,
    PluginFault,
)
from drylay.reasons import Reasons, Source

TOLD_ONLY = Source(kind="assumption", title="a local rule that fails is told, and stops nothing")


def with_local_rules(plan: Plan, local_rules: LocalRuleSet) -> Plan:
    """Return a plan with what the local rules find in it, and which of them were asked.

    A plan that is blocked already is no whole deck: none is asked about it.
    """
    if not plan.buildable:
        return plan
    asked = evolve(plan, local_rules=tuple(map(_used, local_rules.rules)))
    found = local_findings(plan, local_rules)
    if any(finding.severity is Severity.STOP for finding in found):
        asked = _without_rooms(asked)
    return evolve(asked, findings=(*plan.findings, *found))


def local_findings(plan: Plan, local_rules: LocalRuleSet) -> tuple[Finding, ...]:
    """Return what the local rules find in a whole plan, and which of them failed."""
    lost = [_lost(fault) for fault in local_rules.faults if fault.kind in OFFERED]
    heard = [finding for rule in local_rules.rules for finding in _heard(rule, plan)]
    return (*heard, *lost)


def _heard(rule: InstalledLocalRule, plan: Plan) -> tuple[Finding, ...]:
    found = hear(rule, plan)
    return (_lost(found),) if isinstance(found, PluginFault) else found


def _used(rule: InstalledLocalRule) -> LocalRuleUsed:
    return LocalRuleUsed(
        name=rule.name,
        package=rule.origin.package or rule.origin.plugin,
        version=rule.origin.version or NO_RELEASE,
    )


def _lost(fault: PluginFault) -> Finding:
    return Finding(
        code="LOC-001",
        severity=Severity.CAUTION,
        subject=_subject(fault.origin),
        message=f"its local rules were not held against this plan: {fault.wrong}",
        source=TOLD_ONLY,
    )


def _subject(origin: Origin) -> str:
    return f"plugin {origin.plugin}"


def _without_rooms(plan: Plan) -> Plan:
    """Return a plan that a stop blocks: half a plan invites sawing."""
    return evolve(
        plan,
        surface=None,
        edges=None,
        supports=None,
        pieces=None,
        frame=None,
        fixings=None,
        buying=None,
        site=None,
        groundwork=None,
        work=None,
        reasons=Reasons(),
    )
