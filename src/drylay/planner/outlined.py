"""Design of a deck on an outline: built through, explained, told with what is worth telling."""

from drylay.brief.codec import brief_digest
from drylay.findings import Finding, Severity
from drylay.materials.lookup import catalogue_digest
from drylay.plan.model import Digests, Plan
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.job import Job, step
from drylay.planner.notes import not_checked
from drylay.planner.outlined_build import BuiltOutlined, build_outlined
from drylay.planner.outlined_notes import outlined_remarks
from drylay.planner.outlined_reasons import explain_outlined
from drylay.planner.tile_rules import paths_of
from drylay.planner.used import families_of, families_used, own_version
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
    told = (*job.rules.findings, *blocked, *(outlined_remarks(job, built) if built else ()))
    if any(finding.severity is Severity.STOP for finding in told):
        built, reasons = None, None
    return Plan(
        drylay_version=own_version(),
        title=job.brief.title,
        units=job.brief.units,
        use=job.brief.use,
        digests=Digests(brief=brief_digest(job.asked), stock=catalogue_digest(job.stock)),
        families=families_used(families_of(job.articles, families)),
        surface=None,
        edges=None,
        supports=None,
        pieces=None,
        frame=None,
        fixings=built.fixings if built else None,
        buying=built.buying if built else None,
        site=built.site if built else None,
        groundwork=built.groundwork if built else None,
        work=built.work if built else None,
        outline=built.outline if built else None,
        laying=built.laying if built else None,
        subframe=built.subframe if built else None,
        reasons=reasons or Reasons(),
        findings=told,
        cautions=job.cautions,
        not_checked=not_checked(job.asked),
    )
