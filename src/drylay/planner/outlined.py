"""Design of a deck on an outline: built through, explained, told with what is worth telling."""

from attrs import evolve

from drylay.findings import Finding
from drylay.plan.model import Plan
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.head import empty_plan, is_stopped
from drylay.planner.job import Job, step
from drylay.planner.outlined_build import BuiltOutlined, build_outlined
from drylay.planner.outlined_notes import outlined_remarks
from drylay.planner.outlined_reasons import explain_outlined
from drylay.planner.tile_rules import paths_of
from drylay.plugins.model import FamilySet
from drylay.reasons import Reasons

#: What is told while a deck on an outline is planned, before the audit.
STEPS = ("dry lay", "boards and frame")


def plan_outlined(job: Job, families: FamilySet) -> Plan:
    """Return the plan of a deck on an outline, or one that is blocked with its findings."""
    steps = len(STEPS) + 2
    step(job, STEPS[0], 1, steps)
    if not all(governed.path in job.rules.rulings for governed in paths_of(job.brief)):
        return _plan(job, families)
    step(job, STEPS[1], 2, steps)
    built = build_outlined(Cutter(job=job))
    if isinstance(built, Blocked):
        return _plan(job, families, blocked=built.findings)
    return _plan(job, families, built=built, reasons=explain_outlined(job, built))


def _plan(
    job: Job,
    families: FamilySet,
    *,
    built: BuiltOutlined | None = None,
    reasons: Reasons | None = None,
    blocked: tuple[Finding, ...] = (),
) -> Plan:
    """Return the plan; one with a stop in it carries no cut list and no order."""
    told = (
        *job.rules.findings,
        *blocked,
        *(outlined_remarks(job, built) if built else ()),
    )
    plan = empty_plan(job, families, told, job.cautions)
    if built is None or is_stopped(told):
        return plan
    return evolve(
        plan,
        fixings=built.fixings,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        work=built.work,
        outline=built.outline,
        laying=built.laying,
        subframe=built.subframe,
        raised=built.stood.raised,
        strength=built.stood.strength,
        footings=built.stood.footings,
        guards=built.stood.guards,
        steps=built.stood.steps,
        reasons=reasons or Reasons(),
    )
