"""Design of tiles on pads over an outline: built through, explained, told with what is worth it."""

from attrs import evolve

from drylay.findings import Finding
from drylay.plan.model import Plan
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.head import empty_plan, is_stopped
from drylay.planner.job import Job, step
from drylay.planner.not_yet import not_yet
from drylay.planner.outlined_tile_build import BuiltOutlinedTiles, build_outlined_tiles
from drylay.planner.outlined_tile_notes import not_to_be_had, outlined_tile_remarks
from drylay.planner.outlined_tile_reasons import explain_outlined_tiles
from drylay.planner.tile_rules import paths_of
from drylay.planner.tile_work import cautions_told, makes_silica
from drylay.plugins.model import FamilySet
from drylay.reasons import Reasons

#: What is told while tiles on an outline are planned, before the audit.
STEPS = ("dry lay", "set-outs")


def plan_outlined_tiles(job: Job, families: FamilySet) -> Plan:
    """Return the plan of tiles on an outline, or one that is blocked with its findings."""
    steps = len(STEPS) + 2
    step(job, STEPS[0], 1, steps)
    stops = not_to_be_had(job)
    if stops or not all(governed.path in job.rules.rulings for governed in paths_of(job.brief)):
        return _plan(job, families, blocked=stops)
    step(job, STEPS[1], 2, steps)
    built = build_outlined_tiles(Cutter(job=job))
    if isinstance(built, Blocked):
        return _plan(job, families, blocked=built.findings)
    return _plan(job, families, built=built, reasons=explain_outlined_tiles(job, built))


def _plan(
    job: Job,
    families: FamilySet,
    *,
    built: BuiltOutlinedTiles | None = None,
    reasons: Reasons | None = None,
    blocked: tuple[Finding, ...] = (),
) -> Plan:
    """Return the plan; one with a stop in it carries no cut list and no order."""
    told = (
        *job.rules.findings,
        *not_yet(job, "tiles"),
        *blocked,
        *(outlined_tile_remarks(job, built) if built else ()),
    )
    if is_stopped(told):
        built = None
    silica = built is None or (built.tiles.cut > 0 and makes_silica(job))
    framed = job.brief.board.support == "frame"
    plan = empty_plan(
        job, families, told, cautions_told(job.cautions, silica=silica, framed=framed)
    )
    if built is None:
        return plan
    return evolve(
        plan,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        work=built.work,
        outline=built.outline,
        tiles=built.tiles,
        reasons=reasons or Reasons(),
    )
