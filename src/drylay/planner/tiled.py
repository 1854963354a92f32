"""Design of a deck of tiles: the best grid that can be built, the others beside it."""

from attrs import evolve, frozen

from drylay.buying.model import Buying
from drylay.findings import Finding
from drylay.plan.model import Plan
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.head import empty_plan, is_stopped
from drylay.planner.job import Job, step
from drylay.planner.no_way_out import Courses, no_way_out
from drylay.planner.not_yet import hung_not_yet, not_yet
from drylay.planner.tile_build import build_tiles
from drylay.planner.tile_built import BuiltTiles
from drylay.planner.tile_closer import closer_told
from drylay.planner.tile_grids import Grid, all_grids, directions
from drylay.planner.tile_notes import tile_remarks, tile_stops
from drylay.planner.tile_reasons import explain_tiles
from drylay.planner.tile_rules import paths_of
from drylay.planner.tile_work import cautions_told, makes_silica
from drylay.plugins.model import FamilySet
from drylay.reasons import Reasons
from drylay.surface.model import WayOut
from drylay.tiling.model import OtherLay

#: What is told while a deck of tiles is planned, before the audit.
STEPS = ("dry lay", "grids", "ways out")


@frozen(kw_only=True)
class Choice:
    """The grid that is built, and its deck."""

    grid: Grid
    built: BuiltTiles


def plan_tiles(main: Job, turned: Job | None, families: FamilySet) -> Plan:
    """Return the plan of a deck of tiles, or one that is blocked with its findings."""
    steps = len(STEPS) + 2
    step(main, STEPS[0], 1, steps)
    if not _ruled(main):
        return _plan(main, families)
    other = turned if turned is not None and not _square(main) and _ruled(turned) else None
    grids = all_grids(main, other)
    if not grids:
        return _plan(main, families, blocked=(_nothing_fits(main),))
    step(main, STEPS[1], 2, steps)
    chosen = _first_that_stands(grids)
    if isinstance(chosen, Blocked):
        return _plan(main, families, blocked=chosen.findings)
    step(main, STEPS[2], 3, steps)
    built = _beside_others(chosen, grids, main if chosen.grid.job is other else other)
    job = chosen.grid.job
    closer = closer_told(job, built)
    return _plan(job, families, built=built, reasons=explain_tiles(job, built), blocked=closer)


def _ruled(job: Job) -> bool:
    return all(governed.path in job.rules.rulings for governed in paths_of(job.brief))


def _square(job: Job) -> bool:
    tile = job.articles.tile
    return tile is not None and tile.length_mm == tile.width_mm


def _first_that_stands(grids: tuple[Grid, ...]) -> Choice | Blocked:
    """Return the best grid that nothing stops; else the best that could be laid; else why not."""
    stopped: Choice | None = None
    blocked: Blocked | None = None
    cutters: dict[str, Cutter] = {}
    for grid in grids:
        cutter = cutters.setdefault(grid.run, Cutter(job=grid.job))
        built = build_tiles(cutter, grid)
        if isinstance(built, Blocked):
            blocked = blocked or built
            continue
        choice = Choice(grid=grid, built=built)
        if not tile_stops(grid.job, built):
            return choice
        stopped = stopped or choice
    found = stopped or blocked
    assert found is not None
    return found


def _beside_others(chosen: Choice, grids: tuple[Grid, ...], other: Job | None) -> BuiltTiles:
    """Return the deck with every way out, each priced with the other direction as chosen."""
    grid, built = chosen.grid, chosen.built
    cutter = Cutter(job=grid.job, mode="quick")
    rows = tuple(
        _priced(cutter, chosen, evolve(grid, rows=way), way, way == grid.rows)
        for way in grid.fits.rows.ways_out
    )
    columns = tuple(
        _priced(cutter, chosen, evolve(grid, columns=way), way, way == grid.columns)
        for way in grid.fits.columns.ways_out
    )
    return evolve(
        built,
        surface=evolve(built.surface, ways_out=rows),
        tiling=evolve(built.tiling, ways_out=columns, other=_other(grids, other)),
    )


def _priced(
    cutter: Cutter, chosen: Choice, grid: Grid, way: WayOut, is_chosen: bool
) -> WayOut:  # fmt: skip
    if is_chosen:
        return evolve(way, chosen=True, cost=chosen.built.buying.order_total)
    if not way.honest:
        return evolve(way, cost_note="not priced: a rule is not met")
    built = build_tiles(cutter, grid)
    stops = built.findings if isinstance(built, Blocked) else tile_stops(grid.job, built)
    if stops or isinstance(built, Blocked):
        why = "; ".join(finding.message for finding in stops)
        return evolve(way, cost_note=f"cannot be built: {why}")
    return evolve(way, cost=built.buying.order_total, cost_note=_loosely(built.buying))


def _loosely(buying: Buying) -> str:
    gap = sum(bought.gap for bought in buying.purchases)
    return f"could be up to {gap} cheaper" if gap else ""


def _other(grids: tuple[Grid, ...], other: Job | None) -> OtherLay | None:
    """Return the best grid the other way round, priced; None where tiles cannot turn."""
    if other is None:
        return None
    run = other.brief.board.run
    best = next((grid for grid in grids if grid.job is other), None)
    if best is None:
        note = "no way out that the brief asks for fills the cover"
        return OtherLay(run=run, rows_way="", columns_way="", cut=0, note=note)
    built = build_tiles(Cutter(job=other, mode="quick"), best)
    stops = built.findings if isinstance(built, Blocked) else tile_stops(other, built)
    stands = not stops and not isinstance(built, Blocked)
    why = "; ".join(finding.message for finding in stops)
    return OtherLay(
        run=run,
        rows_way=best.rows.kind,
        columns_way=best.columns.kind,
        cut=0 if isinstance(built, Blocked) else built.tiling.cut,
        cost=built.buying.order_total if stands and not isinstance(built, Blocked) else None,
        note="" if stands else f"cannot be built: {why}",
    )


def _nothing_fits(job: Job) -> Finding:
    """Return the stop for a cover that no honest ways out fill both ways."""
    fits, prefer = directions(job), job.brief.rows.prefer
    along = job.brief.board.run == "along"
    by_rule = bool(job.rules.value("surface.may_rip"))
    cut = "tiles may not be cut" + (", by the brief (rows.may_rip)" if by_rule else "")
    courses = [
        Courses(name=name, side=side, ways=fit.ways_out, cut=cut, left_mm=fit.remainder_mm)
        for name, side, fit in (
            ("columns of tiles", "along" if along else "across", fits.columns),
            ("rows of tiles", "across" if along else "along", fits.rows),
        )
        if not any(way.honest and way.kind in prefer for way in fit.ways_out)
    ]
    return no_way_out(job.brief, courses, subject="tiles")


def _plan(
    job: Job,
    families: FamilySet,
    *,
    built: BuiltTiles | None = None,
    reasons: Reasons | None = None,
    blocked: tuple[Finding, ...] = (),
) -> Plan:
    """Return the plan; one with a stop in it carries no cut list and no order."""
    told = (
        *job.rules.findings,
        *(not_yet(job, "tiles on pads") if job.brief.board.support == "pads" else ()),
        *hung_not_yet(job),
        *blocked,
        *(tile_remarks(job, built) if built else ()),
    )
    if is_stopped(told):
        built = None
    silica = built is None or (built.tiling.cut > 0 and makes_silica(job))
    framed = job.brief.board.support == "frame"
    plan = empty_plan(
        job, families, told, cautions_told(job.cautions, silica=silica, framed=framed)
    )
    if built is None:
        return plan
    return evolve(
        plan,
        surface=built.surface,
        edges=built.edges,
        supports=built.supports,
        frame=built.frame,
        fixings=built.fixings,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        work=built.work,
        tiling=built.tiling,
        raised=built.stood.raised,
        strength=built.stood.strength,
        footings=built.stood.footings,
        guards=built.stood.guards,
        steps=built.stood.steps,
        reasons=reasons or Reasons(),
    )
