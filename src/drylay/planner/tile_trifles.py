"""Edge tiles that next to nothing comes off: they chip, and a slightly larger cover saves it."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.job import Job
from drylay.planner.tile_built import BuiltTiles
from drylay.planner.tile_stops import ASSUMED
from drylay.surface.model import WayOut
from drylay.units import length_text


def trifles(job: Job, built: BuiltTiles) -> Iterator[Finding]:
    """Yield, for either direction, that less comes off its edge tiles than they are thick.

    Assumption: a strip narrower than the tile is thick breaks out in splinters.
    """
    surface, tiling = built.surface, built.tiling
    outer_rows = _outer([row.width_mm for row in surface.rows])
    outer_columns = _outer([column.length_mm for column in tiling.columns])
    yield from _trifle(job, built, "rows", surface.board_width_mm, outer_rows, surface.ways_out)
    yield from _trifle(
        job, built, "columns", tiling.tile_length_mm, outer_columns, tiling.ways_out
    )  # fmt: skip


def _outer(sizes_mm: list[float]) -> list[float]:
    """Return the first size and the last, the one size of a single course."""
    return sizes_mm if len(sizes_mm) < 2 else [sizes_mm[0], sizes_mm[-1]]


def _trifle(  # noqa: PLR0917 - read as the row of a table
    job: Job, built: BuiltTiles, name: str, side_mm: float, outer_mm: list[float],
    ways: tuple[WayOut, ...],
) -> Iterator[Finding]:  # fmt: skip
    off = min((exact(side_mm) - exact(each) for each in outer_mm if each != side_mm), default=0)
    if not 0 < off < exact(built.surface.board_thickness_mm):
        return
    units = job.brief.units
    others = [
        f"{way.rows} {name}, cut to {length_text(way.first_row_mm, units)}"
        for way in ways
        if way.honest and not way.chosen and way.kind == "rip_both"
    ]
    instead = f", or by {', '.join(others)} (see the ways out)" if others else ""
    whole_mm = _whole_change_mm(side_mm, outer_mm)
    yield Finding(
        code="TIL-022",
        severity=Severity.NOTE,
        subject=f"outer {name}",
        message=f"less comes off these tiles than they are thick, and so narrow a strip splinters: "
        f"avoid it by a cover {length_text(whole_mm, units)} larger, whole tiles{instead}",
        measured=to_mm(off),
        limit=built.surface.board_thickness_mm,
        unit="mm",
        source=ASSUMED,
    )


def _whole_change_mm(side_mm: float, outer_mm: list[float]) -> float:
    """Return by how much a cover has to grow for its outer tiles to be whole."""
    return to_mm(sum(exact(side_mm) - exact(each) for each in outer_mm))
