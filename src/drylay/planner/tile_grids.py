"""Grids of tiles to build: a way out in either direction, either way round, the best first."""

from collections.abc import Iterator

from attrs import frozen

from drylay.marks import MARK_320, exact
from drylay.planner.job import Job
from drylay.surface.courses import courses_in_order, fit_courses
from drylay.surface.limits import RowLimits
from drylay.surface.model import RowFit, WayOut


@frozen(kw_only=True)
class Directions:
    """What may be done in both directions of a grid: across its rows, and along them."""

    rows: RowFit
    columns: RowFit


@frozen(kw_only=True)
class Grid:
    """One grid: the way out across the rows and the one along them."""

    job: Job
    fits: Directions
    rows: WayOut
    columns: WayOut

    @property
    def run(self) -> str:
        """Which way the tiles' longer side runs."""
        return self.job.brief.board.run


def row_limits(job: Job) -> RowLimits:
    """Return what limits the rows of a grid, in exact units."""
    rules = job.rules
    return _limits(
        job,
        across=True,
        sliver_320=exact(rules.value("surface.sliver_limit_mm")),
        least_320=exact(rules.value("surface.least_rip_mm")),
        path="surface.least_rip_mm",
    )


def column_limits(job: Job) -> RowLimits:
    """Return what limits the columns of a grid: a cut shorter than the least is a sliver too."""
    least = exact(job.rules.value("tiling.least_cut_mm"))
    return _limits(
        job, across=False, sliver_320=least, least_320=least, path="tiling.least_cut_mm"
    )  # fmt: skip


def _limits(
    job: Job, *, across: bool, sliver_320: int, least_320: int, path: str
) -> RowLimits:  # fmt: skip
    brief, rules, tile = job.brief, job.rules, job.articles.tile
    assert tile is not None
    cover, from_house = brief.cover, (brief.board.run == "along") == across
    sliver_path = "surface.sliver_limit_mm" if across else path
    return RowLimits(
        run=brief.board.run,
        depth_320=exact(cover.across_mm if from_house else cover.along_mm),
        board_320=exact(tile.width_mm if across else tile.length_mm),
        least_320=exact(rules.value("surface.gap_least_mm")),
        preferred_320=exact(rules.value("surface.gap_preferred_mm")),
        most_320=exact(rules.value("surface.gap_most_mm")),
        grow_320=exact(cover.grow_across_mm if from_house else cover.grow_along_mm),
        shrink_320=exact(cover.shrink_across_mm if from_house else cover.shrink_along_mm),
        sliver_320=sliver_320,
        least_rip_320=least_320,
        least_off_320=exact(brief.cutting.kerf_mm),
        may_rip=brief.rows.may_rip and bool(rules.value("surface.may_rip")),
        mark_320=MARK_320[brief.units],
        gap_least_source=rules.source("surface.gap_least_mm"),
        gap_most_source=rules.source("surface.gap_most_mm"),
        sliver_source=rules.source(sliver_path),
        rip_source=rules.source(path),
    )


def directions(job: Job) -> Directions:
    """Return what may be done in both directions."""
    return Directions(rows=fit_courses(row_limits(job)), columns=fit_courses(column_limits(job)))


def all_grids(main: Job, turned: Job | None) -> tuple[Grid, ...]:
    """Return every grid of honest ways out that the brief asks for, the best first.

    A grid is as good as the worse of its two ways out in the brief's order, one turned against the
    wish no better than turning; then the tiles stay as wished; then the other way out counts, then
    how few courses there are.
    """
    prefer = main.brief.rows.prefer
    found = [*_grids(main, prefer)]
    if turned is not None and "turn" in prefer:
        found += _grids(turned, prefer)

    def rank(grid: Grid) -> tuple[int, bool, int, int]:
        both = sorted(prefer.index(way.kind) for way in (grid.rows, grid.columns))
        turns = grid.job is not main
        worst = max(both[1], prefer.index("turn")) if turns else both[1]
        return worst, turns, both[0], grid.rows.rows * grid.columns.rows

    return tuple(sorted(found, key=rank))


def _grids(job: Job, prefer: tuple[str, ...]) -> Iterator[Grid]:
    fits = directions(job)
    columns = courses_in_order(fits.columns.ways_out, prefer)
    for row_way in courses_in_order(fits.rows.ways_out, prefer):
        for column_way in columns:
            yield Grid(job=job, fits=fits, rows=row_way, columns=column_way)
