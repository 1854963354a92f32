"""Rows: do they fill the cover exactly, within the range of gaps, without a sliver?"""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.edged import field_rows, ranges, taken_by_border
from drylay.audit.exact import PER_MM, ceil_div, mark_of, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    of_boards,
    off_by,
    practice,
    same_count,
    same_length,
    same_text,
)
from drylay.audit.model import ClosedCheck, Flaw
from drylay.plan.model import Plan
from drylay.surface.model import Row, Surface

ROWS = conventions("Rows (surface)")
AXES = conventions("Axes and datum")
MARKS = conventions("Lengths, marks, money")
FALL = conventions("Rows (surface): fall_least_ratio")
#: Findings on gaps that cannot close, or open, by what boards may be off.
TIGHT = ("GAP-003", "GAP-004")
SLIVER = practice("a strip under 60 mm or half a board is a sliver; the plan quotes the limit")


def surface_of(plan: Plan) -> Surface:
    """Return the plan's surface, if it has one."""
    return need(plan.surface, "surface")


def rows_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless rows and gaps add up to the rows' depth exactly."""
    surface = surface_of(plan)
    summed = sum(ticks(row.width_mm) + ticks(row.gap_mm) for row in surface.rows)
    depth = ticks(surface.rows_depth_mm)
    if summed != depth:
        message = "rows and gaps do not add up to the depth of the cover"
        yield off_by("surface.rows", message, summed, depth, ROWS)


def rows_follow(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row whose near edge is not one gap beyond the row before it."""
    surface = surface_of(plan)
    edge = 0
    for index, row in enumerate(surface.rows):
        gap = ticks(row.gap_mm)
        if index == 0:
            message = "the first row has a gap before it"
            yield from same_length(row.mark, message, row.gap_mm, 0, ROWS)
        message = "its near edge is not one gap beyond the row before it"
        yield from same_length(row.mark, message, row.near_mm, edge + gap, ROWS)
        edge = ticks(row.near_mm) + ticks(row.width_mm)
    message = "the last row's far edge is not at the depth of the cover"
    yield from same_length("surface.rows_depth_mm", message, surface.rows_depth_mm, edge, ROWS)


def gaps_in_range(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each gap outside the range, ends included."""
    surface = surface_of(plan)
    for row, (least, most) in zip(surface.rows[1:], ranges(surface), strict=True):
        gap = ticks(row.gap_mm)
        if gap < least:
            yield off_by(row.mark, "the gap before it is too narrow", gap, least, ROWS)
        if gap > most:
            yield off_by(row.mark, "the gap before it is too wide", gap, most, ROWS)


def gap_range_is_one(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless least <= preferred <= most gap, none below 0."""
    surface = surface_of(plan)
    least, most = ticks(surface.gap_least_mm), ticks(surface.gap_most_mm)
    wished = ticks(surface.gap_preferred_mm)
    if not 0 <= least <= most:
        yield off_by("surface.gap_least_mm", "the range of gaps is empty", least, most, ROWS)
    if not least <= wished <= most:
        message = "the preferred gap lies outside the range"
        nearest = least if wished < least else most
        yield off_by("surface.gap_preferred_mm", message, wished, nearest, ROWS)


def rows_are_boards(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row that is neither a whole board nor an allowed rip."""
    surface = surface_of(plan)
    for row in field_rows(surface):
        yield from _board_or_rip(row, ticks(surface.board_width_mm), ticks(surface.least_rip_mm))


def _board_or_rip(row: Row, board: int, least: int) -> Iterator[Flaw]:
    width = ticks(row.width_mm)
    if not row.ripped and width != board:
        yield off_by(row.mark, "not ripped, yet not the board's width", width, board, ROWS)
    if row.ripped and width >= board:
        yield off_by(row.mark, "ripped, yet not narrower than the board", width, board, ROWS)
    if row.ripped and width < least:
        yield off_by(row.mark, "ripped too narrow", width, least, ROWS)


def rips_at_the_edges(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each ripped row that is neither the first nor the last of its board."""
    for row in field_rows(surface_of(plan))[1:-1]:
        if row.ripped:
            yield Flaw(subject=row.mark, message="ripped, but not at an edge", source=ROWS)


def a_fall_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where boards want a fall and no finding tells it as a limit.

    Where the reasons hold the smaller fall of a border or its field, that has to be told too.
    """
    ratio = surface_of(plan).fall_least_ratio or 0.0
    built = ratio if surface_of(plan).low_side else 0.0
    falls = {(f.code, f.measured, f.limit) for f in plan.findings}
    if ratio and ("BRD-007", built, ratio) not in falls:
        message = "no finding tells the fall that boards want"
        yield Flaw(subject="BRD-007", message=message, measured=built, limit=ratio, unit="ratio",
                   source=FALL)  # fmt: skip
    for decision in plan.reasons.decisions:
        others = decision.turned_down if decision.path == "surface.fall_least_ratio" else ()
        for other in others:
            if ("BDR-015", other.value, ratio) not in falls:
                message = "no finding tells that field and border want unlike falls"
                yield Flaw(subject="BDR-015", message=message, source=FALL)


def no_sliver_left(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row that is a sliver; a whole board is none, however narrow."""
    surface = surface_of(plan)
    limit = min(ticks(surface.sliver_limit_mm), ticks(surface.board_width_mm))
    for row in field_rows(surface):
        if ticks(row.width_mm) < limit:
            yield off_by(row.mark, "this row is a sliver", ticks(row.width_mm), limit, SLIVER)


def rows_are_marked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row not marked B1, B2, ... in order from the datum."""
    for index, row in enumerate(surface_of(plan).rows, 1):
        yield from same_text(
            f"surface.rows[{index - 1}]", "wrong mark", row.mark, f"B{index}", ROWS
        )


def rows_on_pencil_marks(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each near edge off the pencil marks where a mark was within reach.

    Within reach is what both gaps beside the row allow; the last gap takes what is over.
    """
    of_boards(plan)
    surface, mark = surface_of(plan), mark_of(plan)
    gaps = [(0, 0), *ranges(surface)]
    for index, (row, after) in enumerate(zip(surface.rows, surface.rows[1:], strict=False)):
        near, far = ticks(row.near_mm), ticks(after.near_mm) - ticks(row.width_mm)
        edge = _far_edge(surface.rows[index - 1]) if index else 0
        (least, most), (least_after, most_after) = gaps[index], gaps[index + 1]
        low, high = max(edge + least, far - most_after), min(edge + most, far - least_after)
        if near % mark and low <= (reached := high // mark * mark):
            yield off_by(row.mark, "its near edge is on no pencil mark", near, reached, MARKS)


def _far_edge(row: Row) -> int:
    return ticks(row.near_mm) + ticks(row.width_mm)


def naive_count(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless whole rows, remainder and strip are those of the wished cover."""
    surface = surface_of(plan)
    gap, board = ticks(surface.gap_preferred_mm), ticks(surface.board_width_mm)
    depth = ticks(surface.rows_depth_mm) - ticks(surface.cover_change_mm)
    depth -= taken_by_border(surface.border)
    rows = (depth + gap) // (board + gap)
    left = depth - rows * board - max(rows - 1, 0) * gap
    wanted = "not what the wished cover and the preferred gap give"
    yield from same_count("surface.whole_rows", wanted, surface.whole_rows, rows, ROWS)
    yield from same_length("surface.remainder_mm", wanted, surface.remainder_mm, left, ROWS)
    strip = max(left - gap, 0) if rows else left  # no row yet, so no gap before it
    yield from same_length("surface.strip_mm", wanted, surface.strip_mm, strip, ROWS)


def cover_is_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the cover's two sizes are the rows' length and depth, by the run."""
    surface = surface_of(plan)
    along, across = surface.row_length_mm, surface.rows_depth_mm
    if surface.run == "across":
        along, across = across, along
    elif surface.run != "along":
        message = f"boards run {surface.run!r}, neither 'along' nor 'across'"
        yield Flaw(subject="surface.run", message=message, source=AXES)
    message = "the cover is not the rows' own size"
    yield from same_length(
        "surface.cover_along_mm", message, surface.cover_along_mm, ticks(along), AXES
    )
    yield from same_length(
        "surface.cover_across_mm", message, surface.cover_across_mm, ticks(across), AXES
    )


def rows_are_there(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where there is no row, or a size that no deck can have."""
    surface = surface_of(plan)
    sizes = ("row_length_mm", "rows_depth_mm", "board_width_mm", "board_thickness_mm")
    for name in sizes:
        value = ticks(getattr(surface, name))
        if value <= 0:
            yield off_by(f"surface.{name}", "a size must be above nothing", value, 1, ROWS)
    if not surface.rows:
        board, depth = ticks(surface.board_width_mm), ticks(surface.rows_depth_mm)
        fewest = ceil_div(depth, board) if board > 0 else 1
        yield from same_count("surface.rows", "the deck has no rows", 0, fewest, ROWS)


def gap_rooms(surface: Surface) -> dict[str, tuple[int, int]]:
    """Return what the field's gaps can take, and what boards may be off: by finding, 1/320 mm."""
    field = field_rows(surface)
    beside = {b.mark for a, b in pairwise(surface.rows) if not a.border and not b.border}
    gaps = [ticks(row.gap_mm) for row in field if row.mark in beside]
    least, most = ticks(surface.gap_least_mm), ticks(surface.gap_most_mm)
    rooms = sum(gaps) - least * len(gaps), most * len(gaps) - sum(gaps)
    return {code: (room, 160 * len(field)) for code, room in zip(TIGHT, rooms, strict=True)}


def tight_gaps_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where gaps cannot take what boards may be off by, and no finding tells it."""
    surface = surface_of(plan)
    if plan.tiling is not None or ticks(surface.gap_least_mm) == ticks(surface.gap_most_mm):
        return
    told = {finding.code: (finding.measured, finding.limit) for finding in plan.findings}
    for code, (room, off) in gap_rooms(surface).items():
        if room < off and told.get(code) != (room / PER_MM, off / PER_MM):
            message = "gaps with less room than the boards' own tolerance, and no finding tells it"
            yield off_by(code, message, room, off, ROWS)


def rows_fall(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless rows fall as far as their family asks, to the front or the right."""
    surface = surface_of(plan)
    ratio = need(surface.fall_least_ratio if plan.tiling is None else None, "least fall of boards")
    mark = mark_of(plan)
    drop = ceil_div(ticks(ratio * surface.row_length_mm), mark) * mark
    low = {"along": "right", "across": "front"}.get(surface.run, "") if drop else ""
    if surface.fall_mm is None and not surface.low_side and drop:
        told = any(finding.code == "BRD-007" for finding in plan.findings)
        if told:  # an older plan, which told the fall among its findings alone
            return
    message = "not the least fall over a row"
    yield from same_length("surface.fall_mm", message, surface.fall_mm or 0.0, drop, ROWS)
    yield from same_text("surface.low_side", "not the end that is built lower", surface.low_side,
                         low, ROWS)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-101", "rows and gaps add up to the cover exactly", rows_add_up),
    ("AUD-102", "each row begins one gap beyond the row before it", rows_follow),
    ("AUD-103", "every gap lies within the range, edge to edge", gaps_in_range),
    ("AUD-104", "least <= preferred <= most gap", gap_range_is_one),
    ("AUD-105", "every row is a whole board or a rip that is wide enough", rows_are_boards),
    ("AUD-106", "only the first and the last row are ripped", rips_at_the_edges),
    ("AUD-107", "no row is a sliver", no_sliver_left),
    ("AUD-108", "rows are marked in order from the datum", rows_are_marked),
    ("AUD-109", "near edges of rows lie on pencil marks", rows_on_pencil_marks),
    ("AUD-110", "naive count, remainder and strip are exact", naive_count),
    ("AUD-111", "the cover is as long and deep as its rows", cover_is_rows),
    ("AUD-114", "gaps with too little room stand among the findings", tight_gaps_are_told),
    ("AUD-115", "rows fall as far as their boards ask", rows_fall),
    ("AUD-112", "there are rows, and every size is above nothing", rows_are_there),
    ("AUD-113", "a fall that boards want is told, with its number", a_fall_is_told),
)
