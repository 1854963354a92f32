"""What keeps a grid of tiles from being built at all."""

from itertools import pairwise

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.tile_grids import Grid
from drylay.reasons import Source
from drylay.supports.model import Supports

ASSUMED = Source(kind="assumption", title="docs/conventions.md", clause="Tiles (tiling)")
#: More tiles than these are a slip, or a yard for a firm of pavers. Assumption.
MOST_TILES = 4000
#: A splice shorter than this holds nothing. Assumption.
SPLICE_LEAST_MM = 150.0


def too_many(grid: Grid) -> Finding | None:
    """Return the stop for more tiles than anybody lays by a plan like this."""
    count = grid.rows.rows * grid.columns.rows
    if count <= MOST_TILES:
        return None
    return Finding(
        code="TIL-001",
        severity=Severity.STOP,
        subject="tiles",
        message="so many tiles in one deck are not planned here: name larger tiles, or plan the "
        "deck in parts",
        measured=float(count),
        limit=float(MOST_TILES),
        unit="tiles",
        source=ASSUMED,
    )


def joists_too_near(supports: Supports) -> tuple[Finding, ...]:
    """Return the stop for joists between which nobody can drive a screw.

    What is left between two must be as wide as one is thick: assumption.
    """
    lines = [exact(line.offset_mm) for line in supports.lines]
    nearest = min(after - before for before, after in pairwise(lines))
    least = 2 * exact(supports.joist_thickness_mm)
    if nearest >= least:
        return ()
    return (
        Finding(
            code="TIL-002",
            severity=Severity.STOP,
            subject="joists",
            message="the tiles' joints put two joists so near each other that no screw can be "
            "driven between them: name larger tiles, change the cover so that edge tiles are "
            "larger, or name thinner timber",
            measured=to_mm(nearest),
            limit=to_mm(least),
            unit="mm",
            source=ASSUMED,
        ),
    )
