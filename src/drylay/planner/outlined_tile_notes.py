"""What is worth telling of tiles on pads over an outline."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.outline.notes import opening_notes, own_line_note
from drylay.planner import (
    lorry,
    notes,
    outlined_ground,
    outlined_site,
    slip_notes,
    stock_notes,
    tile_notes,
    unwise,
    working,
)
from drylay.planner.job import Job
from drylay.planner.outlined_tile_build import BuiltOutlinedTiles
from drylay.planner.outlined_work import stopped_tapes
from drylay.planner.rows import ARITHMETIC, PRACTICE
from drylay.reasons import Source

STOP, CAUTION, NOTE = Severity.STOP, Severity.CAUTION, Severity.NOTE
UNCUT = "sides that whole tiles and joints come to want no cut"
ASSUMED = Source(
    kind="assumption", title="docs/outline-conventions.md", clause="Tiles on an outline"
)


def not_to_be_had(job: Job) -> tuple[Finding, ...]:
    """Return the stops for what tiles on an outline are not planned with."""
    wish, found = job.brief.laying, []
    if job.brief.board.support == "frame":
        found.append(_told("TIL-030", STOP, "tiles", "tiles on a frame are planned on plain "
                           'rectangles only for now: board.support = "pads" over a prepared base, '
                           "or a rectangle as [cover]", ASSUMED))  # fmt: skip
    for what, wished, fix in (
        ("a border", wish.border_courses > 0, "leave border_courses out"),
        ("breaker boards", wish.breakers == "as_needed" or bool(wish.breakers_mm),
         "leave breakers out: joints of tiles are in line anyway"),
        ("fields of their own", bool(wish.fields), "leave fields out, or plan each as a deck"),
    ):  # fmt: skip
        if wished:
            found.append(_told("TIL-035", STOP, "laying", f"{what} is not to be had with tiles on "
                               f"an outline: {fix}", ASSUMED))  # fmt: skip
    return tuple(found)


def outlined_tile_remarks(job: Job, built: BuiltOutlinedTiles) -> tuple[Finding, ...]:
    """Return everything worth telling, worst first."""
    tiles, brought = built.tiles, built.buying.delivery
    found = [
        *built.stops,
        *tile_notes.roof(job),
        *tile_notes.of_pads(job, tiles.pads),
        *_slivers(built),
        *_sides_in_joints(built),
        *_sawing(built),
        *tile_notes.of_tiles(job, tiles, brought, UNCUT),
        *notes.gaps_to_bound(built),
        *slip_notes.told(job, tiles.wet_slip_least, "tiles"),
        *own_line_note(built.outline),
        *opening_notes(job.brief.outline.openings),
        *_hatches(built),
        *_sides(built),
        *outlined_site.remarks(job, built),
        *unwise.remarks(job),
        *_of_the_ground(job, built),
        *stock_notes.remarks(job, built),
        *stopped_tapes(built.outline, built.work),
        *working.lift_told(job, built),
    ]
    order = (STOP, CAUTION, NOTE)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def _told(  # noqa: PLR0917 - read as the row of a table
    code: str, severity: Severity, subject: str, message: str, source: Source = PRACTICE,
    measured: float | None = None, unit: str = "", limit: float | None = None,
) -> Finding:  # fmt: skip
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured, limit=limit, unit=unit, source=source)  # fmt: skip


def _slivers(built: BuiltOutlinedTiles) -> Iterator[Finding]:
    """Yield the caution on cut tiles that are left too small, whichever way the grid is set out."""
    tiles = built.tiles
    if not tiles.sliver_count:
        return
    least = min(tiles.sliver_limit_mm, tiles.least_rip_mm, tiles.least_cut_mm)
    slim = [tile for tile in tiles.tiles if tile.cut]
    slim.sort(key=lambda tile: tile.narrow_mm)
    marks = ", ".join(tile.mark for tile in slim[: min(5, tiles.sliver_count)])
    more = " and others" if tiles.sliver_count > 5 else ""
    yield _told("TIL-031", CAUTION, "cut tiles", f"{tiles.sliver_count} are left smaller than "
                f"one may be, the least of them told ({marks}{more}), and no set-out of this grid "
                "leaves none: move the side, lay at another angle (laying.angle_deg), or fill "
                "those places with gravel or a trim", PRACTICE, tiles.narrowest_mm, "mm",
                least)  # fmt: skip


def _sides_in_joints(built: BuiltOutlinedTiles) -> Iterator[Finding]:
    if built.laid.chosen.bad:
        yield _told("TIL-037", CAUTION, "sides", "a side in line with the grid lies in a joint or "
                    "has one along it, whichever way the grid is set out: move that side by a "
                    "joint's width, lest tiles end short of it", PRACTICE)  # fmt: skip


def _sawing(built: BuiltOutlinedTiles) -> Iterator[Finding]:
    tiles = built.tiles
    if tiles.need > tiles.least:
        yield _told("TIL-034", NOTE, "tiles", "not proven to be the fewest: by the boxes about cut "
                    "tiles so many would do at the least", ARITHMETIC, float(tiles.need),
                    "tiles", float(tiles.least))  # fmt: skip


def _hatches(built: BuiltOutlinedTiles) -> Iterator[Finding]:
    for opening in built.outline.openings:
        if opening.kind == "hatch":
            yield _told("TIL-038", CAUTION, opening.mark, "its tiles lift out one by one, pads "
                        "after them; some of these stand on the cover, which has to bear them and "
                        "whoever walks there", PRACTICE, opening.panel_kg, "kg",
                        opening.panel_most_kg)  # fmt: skip


def _sides(built: BuiltOutlinedTiles) -> Iterator[Finding]:
    kinds = {side.kind for side in built.outline.sides}
    if "house" in kinds:
        yield _told("SIT-020", NOTE, "house wall", "the gap to the house wall is kept along every "
                    "part of it: the outline is the deck's own edge, not the wall", PRACTICE,
                    built.site.wall_gap_mm, "mm")  # fmt: skip
    if "pool" in kinds:
        yield _told("OUT-011", CAUTION, "pool side", "tiles end at the pool's edge, none reaches "
                    "over it; a barrier round the pool is the rule in many places (AS 1926.1, from "
                    "memory), and whatever is electric near it is a licensed electrician's (BS "
                    "7671 section 702, from memory): ask your building control body")  # fmt: skip
    if "boundary" in kinds:
        yield _told("OUT-012", NOTE, "boundary", "a deck along a boundary: make sure where it "
                    "runs, and what the neighbour and local rules ask")  # fmt: skip


def _of_the_ground(job: Job, built: BuiltOutlinedTiles) -> Iterator[Finding]:
    """Yield what is told of ground and delivery, but not that a tile takes two: TIL-011 does."""
    brought = built.buying.delivery
    by_tile = brought is not None and brought.lift_article == built.tiles.article
    for finding in (*outlined_ground.remarks(job, built), *lorry.remarks(built)):
        if not (by_tile and finding.code == "BUY-004"):
            yield finding
