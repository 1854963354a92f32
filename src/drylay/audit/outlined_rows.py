"""Rows on an outline: in order, gaps in their limits at both ends, fanned no more than told."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import evolve, frozen

from drylay.audit.exact import Fraction, mark_of, mm, ticks
from drylay.audit.flaws import off_by, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    OFF,
    SLACK,
    cover,
    fault,
    laying_of,
    outlines,
    place,
    run_at,
    shape,
    zones_of,
)
from drylay.audit.outlined_strips import strip_of
from drylay.audit.plane import UNIT, Place, Shape, box, squared_to_edge
from drylay.laying.model import LaidRow, Zone
from drylay.plan.model import Plan

ROWS = outlines("Laying: rows")
GAPS = outlines("Laying: gap_mm and the limits of gaps")
FAN = outlines("Laying: fan_mm")
#: A row reaches into a zone by more than this, or it is none there.
REACHES_MM = 0.5


@frozen(kw_only=True)
class Lain:
    """A row of a zone: how far its edge is from the zone's first, at the start and at the end."""

    row: LaidRow
    starts: Fraction
    ends: Fraction
    first: Fraction
    last: Fraction

    @property
    def width(self) -> int:
        """How wide it is, in 1/320 mm."""
        return ticks(self.row.width_mm)


def lain_in(plan: Plan, zone: Zone) -> tuple[list[Lain], tuple[Fraction, Fraction, Fraction]]:
    """Return the rows of a zone in order, and from where to where it reaches, and how deep.

    All are counts of 1/320 mm: along the run, and away from the side that rows are counted from.
    """
    run = run_at(zone.angle_deg)
    left, low, right, high = (Fraction(each) / UNIT for each in box(run.all_told(_corners(zone))))
    rows = []
    for row in laying_of(plan).rows:
        if row.zone == zone.mark:
            (u, v), (w, x) = run.told(place(row.start)), run.told(place(row.end))
            starts, ends = (Fraction(each) / UNIT for each in (v, x))
            if zone.first_row == "far":
                starts, ends = high - starts, high - ends
            else:
                starts, ends = starts - low, ends - low
            rows.append(
                Lain(row=row, starts=starts, ends=ends, first=Fraction(u) / UNIT,
                     last=Fraction(w) / UNIT)
            )  # fmt: skip
    return rows, (left, right, high - low)


def _corners(zone: Zone) -> tuple[tuple[int | Fraction, int | Fraction], ...]:
    return shape(zone.corners)


def rows_are_marked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless rows are counted, marked in order through all zones, and of a zone."""
    laying, zones = laying_of(plan), zones_of(plan)
    found, message = len(laying.rows), "not the rows there are"
    yield from same_count("laying.row_count", message, laying.row_count, found, ROWS)
    order = [row.zone for row in laying.rows]
    if [*dict.fromkeys(order)] != [*zones] or order != sorted(order, key=[*zones].index):
        yield fault("laying.rows", "rows do not go through all zones in their order", ROWS)
    for index, row in enumerate(laying.rows, 1):
        yield from same_text(row.mark, "wrong mark", row.mark, f"B{index}", ROWS)


def rows_reach(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each row's edge runs the zone's way from one end of it to the other."""
    for zone in laying_of(plan).zones:
        rows, (left, right, deep) = lain_in(plan, zone)
        for lain in rows:
            for at, wanted in ((lain.first, left), (lain.last, right)):
                if abs(at - wanted) > SLACK:
                    message = "its edge does not reach to the zone's end"
                    yield off_by(lain.row.mark, message, float(at), float(wanted), ROWS)
            turned, most = abs(lain.ends - lain.starts), abs(ticks(zone.fan_mm)) + LONG_OFF
            if turned > most:
                message = "it does not run the way of its zone"
                yield off_by(lain.row.mark, message, float(turned), most, ROWS)
        if rows:
            gap = ticks(laying_of(plan).gap_most_mm)
            yield from _outer_rows(rows, deep, gap, _own(plan, zone))


def _own(plan: Plan, zone: Zone) -> tuple[Fraction, Fraction] | None:
    """Return between which distances off its side a zone's first row begins: its field's edge.

    That lies further out where a breaker board, or the gap beside one, takes the field's corner.
    None where another zone laid the same way reaches further.
    """
    run, laying = run_at(zone.angle_deg), laying_of(plan)

    def least(corners: Shape) -> Fraction:
        _, low, _, high = box(run.all_told(corners))
        return Fraction(low if zone.first_row == "near" else -high) / UNIT

    ends = [
        (least(_corners(other)), other.mark) for other in laying.zones
        if (other.angle_deg, other.first_row) == (zone.angle_deg, zone.first_row)
    ]  # fmt: skip
    if min(ends)[1] != zone.mark:
        return None
    side = least(_corners(zone))
    breakers = [shape(p.corners) for p in laying.pieces if p.kind == "breaker"]
    beyond = [least(each) - side for each in breakers]
    beyond += [least((at,)) - side for at in _in_gaps(plan, breakers)]
    if zone.angle_deg != laying.angle_deg or min(beyond, default=Fraction(0)) >= -SLACK:
        return Fraction(0), Fraction(0)
    # inside a border boards that run along it keep another gap than a breaker board's end
    last = Fraction(0) if laying.border_courses else min(beyond)
    return min(beyond) - ticks(laying.end_gap_mm), last


def _in_gaps(plan: Plan, breakers: list[Shape]) -> Iterator[Place]:
    """Yield the corners of the outline that the gap beside a breaker board takes.

    Off the board's own corner, which a side cuts, that is as far as the diagonal of the gap.
    """
    near = 2 * (ticks(laying_of(plan).end_gap_mm) + SLACK) ** 2
    for corner in cover(plan):
        if any(squared_to_edge(corner, each) <= near for each in breakers):
            yield corner


def _outer_rows(
    rows: list[Lain], deep: Fraction, gap: int, own: tuple[Fraction, Fraction] | None
) -> Iterator[Flaw]:
    """Yield a flaw unless the first row begins at the zone's side, and the last ends there.

    Breaker boards part a field into zones that share its rows: there, and where rows go on in line
    from a deeper part, a row may begin before the side, or up to a gap off it. A row that would
    only just reach into the zone is none.
    """
    first, last = rows[0], rows[-1]
    begins, most = min(first.starts, first.ends), gap + ticks(REACHES_MM)
    off = max(begins - most, -begins - first.width)
    if own is not None:
        off = min(max(own[0] - at, at - own[1]) for at in (first.starts, first.ends))
    if off > SLACK:
        message = "the first row's edge is not the zone's own"
        yield off_by(first.row.mark, message, float(first.starts), 0, ROWS)
    far = max(last.starts, last.ends) + last.width
    if far < deep - most - SLACK:
        message = "the last row stops short of the zone's far side"
        yield off_by(last.row.mark, message, float(far), float(deep), ROWS)
    if min(last.starts, last.ends) >= deep:
        message = "the last row lies beyond the zone's far side"
        yield off_by(last.row.mark, message, float(last.starts), float(deep), ROWS)


def gaps_keep_their_limits(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each gap between rows outside its limits, at the one end or the other."""
    laying = laying_of(plan)
    least, most = ticks(laying.gap_least_mm), ticks(laying.gap_most_mm)
    for zone in laying.zones:
        rows, _ = lain_in(plan, zone)
        for one, other in pairwise(rows):
            for end, gap in zip(("start", "end"), gaps_between(one, other), strict=True):
                limit = least if gap < least else most
                if not least - LONG_OFF <= gap <= most + LONG_OFF:
                    subject = f"{one.row.mark}-{other.row.mark}"
                    message = f"the gap between them is out of its limits at the {end}"
                    yield off_by(subject, message, float(gap), limit, GAPS)
    if not least <= ticks(laying.gap_preferred_mm) <= most:
        message, found = "not within the limits of gaps", ticks(laying.gap_preferred_mm)
        yield off_by("laying.gap_preferred_mm", message, found, least, GAPS)


def gaps_between(one: Lain, other: Lain) -> tuple[Fraction, Fraction]:
    """Return the gap between two rows at the start and at the end."""
    return other.starts - one.starts - one.width, other.ends - one.ends - one.width


def zones_tell_their_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a zone tells the mean gap and the widths of its outer rows."""
    for zone in laying_of(plan).zones:
        rows, _ = lain_in(plan, zone)
        if not rows:
            yield fault(zone.mark, "no rows lie in it", ROWS)
            continue
        gaps = [gaps_between(one, other)[0] for one, other in pairwise(rows)]
        if gaps:
            mean, told = sum(gaps, Fraction(0)) / len(gaps), ticks(zone.gap_mm)
            # marks move either outer edge: by half of one, the last by a whole one
            if abs(told - mean) > Fraction(3 * mark_of(plan), 2 * len(gaps)) + LONG_OFF:
                message = "not the mean of the gaps, marks apart"
                yield off_by(zone.mark, message, told, float(mean), GAPS)
        for name, told_mm, lain in (
            ("first_row_mm", zone.first_row_mm, rows[0]),
            ("last_row_mm", zone.last_row_mm, rows[-1]),
        ):
            wanted = _width_inside(zone, lain)
            if abs(ticks(told_mm) - wanted) > SLACK:
                message = f"{name} is not the width inside the zone"
                yield off_by(zone.mark, message, ticks(told_mm), float(wanted), ROWS)


def _width_inside(zone: Zone, lain: Lain) -> Fraction:
    """Return how wide a row is inside its zone, square to its own run: in a fan not the zone's."""
    strip = strip_of(lain.row, zone)
    if strip is None:
        return Fraction(lain.width)
    _, low, _, high = box(strip.run.all_told(_corners(zone)))
    return Fraction(min(high, strip.high) - max(low, strip.low)) / UNIT


def fans_are_even(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless gaps of a fan grow alike, by no more than they may, and as told."""
    laying = laying_of(plan)
    most, mark = ticks(laying.fan_most_mm), mark_of(plan)
    for zone in laying.zones:
        rows, _ = lain_in(plan, zone)
        grown = [end - start for start, end in (gaps_between(*two) for two in pairwise(rows))]
        whole, told = sum(grown, Fraction(0)), ticks(zone.fan_mm)
        if abs(whole - told) > LONG_OFF:
            message = "gaps do not grow by as much together"
            yield off_by(zone.mark, message, told, float(whole), FAN)
        for one, growth in zip(rows, grown, strict=False):
            if abs(growth) > most + LONG_OFF:
                message = "the gap after it grows by more than one may"
                yield off_by(one.row.mark, message, float(growth), most, FAN)
            even = whole / len(grown)
            if abs(growth - even) > mark + LONG_OFF:
                message = "the gap after it does not grow like the others"
                yield off_by(one.row.mark, message, float(growth), float(even), FAN)
    fans = [abs(ticks(zone.fan_mm)) for zone in laying.zones]
    if abs(ticks(laying.fan_mm)) not in fans:
        yield fault("laying.fan_mm", "no zone is fanned by as much", FAN)
    if laying.fan_most_mm > 1:
        message = "a gap may grow by more than practice lets it"
        yield off_by("laying.fan_most_mm", message, most, ticks(1), FAN)


def _lie_evenly(rows: Sequence[Lain]) -> bool:
    """Whether all gaps of a zone are alike: off marks, where these would take one out of range."""
    gaps = [after.starts - one.starts - one.width for one, after in pairwise(rows)]
    # each lies between two rounded places
    return not gaps or max(gaps) - min(gaps) <= 2 * LONG_OFF


def edges_on_marks(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a row's edge off the pencil marks where a mark was within reach.

    Marks are counted from the first row: of the zone, or of the field that breaker boards part.
    """
    for zone in laying_of(plan).zones:
        rows, _ = lain_in(plan, zone)
        if not _lie_evenly(rows):
            ways = (_off_marks(plan, rows, origin) for origin in _origins(plan, zone))
            yield from min((list(way) for way in ways), key=len)


def _origins(plan: Plan, zone: Zone) -> Iterator[Fraction]:
    """Yield from where marks of a zone may be counted: its side, the first row laid its way."""
    yield Fraction(0)
    alike = [
        other.mark for other in laying_of(plan).zones
        if (other.angle_deg, other.first_row) == (zone.angle_deg, zone.first_row)
    ]  # fmt: skip
    rows = [evolve(row, zone=zone.mark) for row in laying_of(plan).rows if row.zone in alike]
    shared = evolve(plan, laying=evolve(laying_of(plan), rows=tuple(rows)))
    if len(alike) > 1:
        yield min(row.starts for row in lain_in(shared, zone)[0])


def _off_marks(plan: Plan, rows: list[Lain], origin: Fraction) -> Iterator[Flaw]:
    laying, mark = laying_of(plan), mark_of(plan)
    least, most = ticks(laying.gap_least_mm), ticks(laying.gap_most_mm)
    for before, one, after in zip(rows, rows[1:], rows[2:], strict=False):
        for edge, low, high in (
            (one.starts, before.starts + before.width, after.starts - one.width),
            (one.ends, before.ends + before.width, after.ends - one.width),
        ):
            at = edge - origin
            off = abs(at - round(at / mark) * mark)
            first, last = max(low + least, high - most), min(low + most, high - least)
            if off > OFF and (last - origin) // mark * mark >= first - origin:
                message = "its edge is on no pencil mark"
                yield off_by(one.row.mark, message, float(at), round(at / mark) * mark, ROWS)


def rows_are_wide_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a row is a whole board, or ripped, told so, and wide enough."""
    laying = laying_of(plan)
    board, least = ticks(laying.board_width_mm), ticks(laying.least_rip_mm)
    for row in laying.rows:
        width = ticks(row.width_mm)
        if width > board or row.ripped != (width < board):
            message = "it is wider than the board" if width > board else "it is told wrong: ripped"
            yield off_by(row.mark, message, width, board, ROWS)
        if width < board and width < least:
            yield off_by(row.mark, "narrower than a board may be ripped", width, least, ROWS)
    marks = _outer_marks(plan)
    for row in laying.rows:
        if row.ripped and row.mark not in marks:
            yield fault(row.mark, "it is ripped, but no outer row of its zone", ROWS)


def _outer_marks(plan: Plan) -> set[str]:
    found: set[str] = set()
    for zone in laying_of(plan).zones:
        marks = [row.mark for row in laying_of(plan).rows if row.zone == zone.mark]
        found |= {*marks[:1], *marks[-1:]}
    return found


def told_of_main_field(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the laying tells angle and way out of a zone of its own."""
    laying = laying_of(plan)
    alike = [zone for zone in laying.zones if abs(zone.angle_deg - laying.angle_deg) < mm(1)]
    if not any(zone.way_out == laying.way_out for zone in alike):
        yield fault("laying.angle_deg", "no zone is laid at this angle by this way out", ROWS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-762", "rows on an outline are counted and marked zone by zone", rows_are_marked),
    ("AUD-763", "rows run from end to end of their zone, and cover it", rows_reach),
    ("AUD-764", "gaps on an outline keep their limits at both ends", gaps_keep_their_limits),
    ("AUD-765", "zones tell their mean gap and outer rows", zones_tell_their_rows),
    ("AUD-766", "fans are even, small enough, and as told", fans_are_even),
    ("AUD-767", "row edges on an outline lie on pencil marks", edges_on_marks),
    ("AUD-768", "rows on an outline are boards or rips wide enough", rows_are_wide_enough),
    ("AUD-769", "the main field's angle and way out are a zone's", told_of_main_field),
)
