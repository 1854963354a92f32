"""What joists closer under each tile would do where strength stops a deck: told, not chosen."""

from drylay.findings import Finding, Severity
from drylay.marks import MARK_320, ceil_mark, exact, to_mm
from drylay.planner.buy import Blocked, Shape
from drylay.planner.job import Job
from drylay.planner.legs import stood_of
from drylay.planner.rows import PRACTICE
from drylay.planner.tile_build import Laid, lines_under
from drylay.planner.tile_built import BuiltTiles
from drylay.units import length_text

#: So many bays more under a tile are tried at most: closer than that, another timber is cheaper.
MOST_MORE = 4


def closer_told(job: Job, built: BuiltTiles) -> tuple[Finding, ...]:
    """Return the nearest change that carries a deck, where closer joists do: STR-014.

    Under tiles joists stand under every joint, so they come closer by a whole bay under each tile.
    Nothing is told where strength does not stop the deck, or no number of bays helps.
    """
    bedding = built.tiling.bedding
    if bedding is None or not built.stood.short_of_strength:
        return ()
    laid = Laid(surface=built.surface, tiling=built.tiling, edges=built.edges)
    module = exact(laid.tiling.tile_length_mm) + exact(laid.surface.gap_preferred_mm)
    for bays in range(bedding.bays_per_tile + 1, bedding.bays_per_tile + MOST_MORE + 1):
        most_mm = to_mm(ceil_mark(-(-module // bays), MARK_320[job.brief.units]))
        supports = lines_under(job, laid, most_mm)
        if isinstance(supports, Blocked):
            return ()
        shaped = Shape(surface=laid.surface, edges=laid.edges, supports=supports)
        if not stood_of(job, shaped, built.site).short_of_strength:
            return (_told(job, bays, most_mm),)
    return ()


def _told(job: Job, bays: int, most_mm: float) -> Finding:
    return Finding(
        code="STR-014", severity=Severity.NOTE, subject="joists", source=PRACTICE,
        message=f"nearest change: frame.most_centres of {length_text(most_mm, job.brief.units)} "
        f"puts {bays} bays under each whole tile, and timber then passes",
    )  # fmt: skip
