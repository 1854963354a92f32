"""Rows of a deck on an outline as strips, and what of them boards have to cover."""

from collections.abc import Iterator, Sequence
from math import radians, tan

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.outlined import SLACK, holes, laying_of, outline_of, shape, zones_of
from drylay.audit.outlined import place as at
from drylay.audit.plane import (
    UNIT,
    Number,
    Place,
    Run,
    Shape,
    box,
    meeting,
    root,
    run_of,
    sides_of,
    size,
    turn,
)
from drylay.audit.sweep import Trapezium, joined, span, trapezia, twice_area_of
from drylay.laying.model import LaidPiece, LaidRow, Zone
from drylay.plan.model import Plan

#: What only just reaches is told as not reaching, by so much, and what an opening takes of a row's
#: edge so far inside it: 0.1 mm in 1/320 mm.
JUST = 32

#: Boards lie along a side that leans from them by no more than this: the tangent of 2 degrees.
ALONGSIDE = Fraction(tan(radians(2)))


@frozen(kw_only=True)
class Strip:
    """A row as it lies: its own run, and from `low` to `high` to the left of that, x `UNIT`."""

    row: LaidRow
    zone: Zone
    run: Run
    low: Number
    high: Number

    @property
    def middle(self) -> Fraction:
        """Its middle line."""
        return Fraction(self.low + self.high) / 2


def strip_of(row: LaidRow, zone: Zone) -> Strip | None:
    """Return a row as a strip, None where it begins where it ends."""
    run = run_of(at(row.start), at(row.end))
    if run is None:
        return None
    edge, width = run.told(at(row.start))[1], ticks(row.width_mm) * UNIT
    low = edge if zone.first_row == "near" else edge - width
    return Strip(row=row, zone=zone, run=run, low=low, high=low + width)


def strips_of(plan: Plan, mark: str | None = None) -> Iterator[Strip]:
    """Yield every row of a known zone as a strip, or those of one mark."""
    zones = zones_of(plan)
    for row in laying_of(plan).rows:
        if row.zone in zones and mark in (None, row.mark):
            strip = strip_of(row, zones[row.zone])
            if strip is not None:
                yield strip


def by_row(plan: Plan, kind: str = "field") -> dict[str, list[LaidPiece]]:
    """Return pieces of one kind by their rows."""
    found: dict[str, list[LaidPiece]] = {}
    for piece in laying_of(plan).pieces:
        if piece.kind == kind:
            found.setdefault(piece.row, []).append(piece)
    return found


def room_for(plan: Plan, strip: Strip) -> list[Shape]:
    """Return the zone as told along a strip, then all that boards of it have to leave free."""
    left_free = (*holes(plan), *hatch_holes(plan, strip.run, grown=1))
    told = [strip.run.all_told(each) for each in (shape(strip.zone.corners), *left_free)]
    return told + joint_gaps(plan, strip) + parted(plan, strip) + cut_back(plan, strip)


def cut_back(plan: Plan, strip: Strip) -> list[Shape]:
    """Return what is cut back of a row, as told along it, where parts of it would end too near."""
    left_free = (*holes(plan), *hatch_holes(plan, strip.run, grown=1))
    found = [gap for hole in left_free for gap in pinched(plan, strip, hole)]
    found += cornered(plan, strip)
    return found + [end for hole in left_free for end in ends_cut_back(plan, strip, hole)]


def hatch_holes(plan: Plan, run: Run, *, grown: int) -> list[Shape]:
    """Return hatches' holes as places, half an end gap longer or shorter at either end.

    Boards outside end half an end gap before the hole's edge, those of the panel half of one
    behind it: the edge is the middle of the gap.
    """
    half = Fraction(ticks(laying_of(plan).end_gap_mm) * UNIT, 2) * grown
    found = []
    for opening in outline_of(plan).openings:
        if opening.kind == "hatch":
            told = run.all_told(shape(opening.corners))
            left, _, right, _ = box(told)
            # rows of a fan lie aslant to its ends: each is moved as it lies
            longer = ((u + (half if 2 * u > left + right else -half), v) for u, v in told)
            found.append(tuple(run.place(corner) for corner in longer))
    return found


def parted(plan: Plan, strip: Strip) -> list[Shape]:
    """Return the gaps, as told along a row, that part it at openings which lie wholly inside it."""
    half = Fraction(ticks(laying_of(plan).end_gap_mm) * UNIT, 2)
    found: list[Shape] = []
    for hole in holes(plan):
        left, low, right, high = box(strip.run.all_told(hole))
        if strip.low + SLACK * UNIT < low and high < strip.high - SLACK * UNIT:
            a, b = Fraction(left + right) / 2 - half, Fraction(left + right) / 2 + half
            found.append(((a, strip.low), (b, strip.low), (b, strip.high), (a, strip.high)))
    return found


def pinched(plan: Plan, strip: Strip, hole: Shape) -> Iterator[Shape]:
    """Yield the gaps, as told along a row, where an opening takes less of its edge than a gap.

    Only where it parts the row: it reaches both edges, but for 0.1 mm, and lies not inside.
    """
    told, gap = strip.run.all_told(hole), ticks(laying_of(plan).end_gap_mm) * UNIT
    _, low, _, high = box(told)
    taken = [_taken(told, strip.low + JUST * UNIT), _taken(told, strip.high - JUST * UNIT)]
    if (strip.low < low and high < strip.high) or not all(taken):
        return
    yield from _gaps(strip, taken, gap)


def _gaps(strip: Strip, taken: Sequence[Sequence[Number]], gap: int) -> Iterator[Shape]:
    """Yield a gap across a row in the middle of what is taken of an edge, where that is less."""
    for ends in taken:
        if max(ends) - min(ends) < gap + PER_MM * UNIT:
            middle = Fraction(min(ends) + max(ends)) / 2
            a, b = middle - Fraction(gap, 2), middle + Fraction(gap, 2)
            yield ((a, strip.low), (b, strip.low), (b, strip.high), (a, strip.high))


def cornered(plan: Plan, strip: Strip) -> Iterator[Shape]:
    """Yield the gaps, as told along a row, where its zone's corners take less of it than a gap.

    Only where what lies outside the zone parts the row: it reaches both edges, but for 0.1 mm.
    """
    zone, gap = strip.run.all_told(shape(strip.zone.corners)), ticks(laying_of(plan).end_gap_mm)
    low, high = strip.low + JUST * UNIT, strip.high - JUST * UNIT
    if min(len(_taken(zone, level)) for level in (low, high)) <= 2:
        return
    left, _, right, _ = box(zone)
    past = 1000 * PER_MM * UNIT
    a, b = left - past, right + past
    around = ((a, strip.low), (b, strip.low), (b, strip.high), (a, strip.high))
    for lot in joined(trapezia((around, zone), is_free, low, high)):
        taken = [
            [u for each in lot if each.low == low for u in each.at_low],
            [u for each in lot if each.high == high for u in each.at_high],
        ]
        if all(taken):
            yield from _gaps(strip, taken, gap * UNIT)


def ends_cut_back(plan: Plan, strip: Strip, hole: Shape) -> Iterator[Shape]:
    """Yield what is cut off a row's ends where a hole takes less than an end gap of a zone's side.

    That is in line with the side, as deep in as the hole takes an end gap there: told along the
    row. Sides that the row lies along are none of its ends.
    """
    told = strip.run.all_told(hole)
    gap = ticks(laying_of(plan).end_gap_mm) * UNIT
    for start, end in sides_of(strip.run.all_told(shape(strip.zone.corners))):
        long = root((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2)
        if size(end[1] - start[1]) <= size(end[0] - start[0]) * ALONGSIDE:
            continue
        level = _inwards(start, end, Fraction(JUST * UNIT) / long)
        meet = sorted(_met(level, told))
        if len(meet) != 2 or not all(strip.low < v < strip.high for _, _, v in meet):
            continue
        lacks = gap - (meet[1][0] - meet[0][0]) * long
        grows = meet[1][1] - meet[0][1]
        if lacks > 0 and grows > 0:
            inner = _inwards(start, end, (JUST * UNIT + lacks / grows) / long)
            yield (start, end, inner[1], inner[0])


def _inwards(start: Place, end: Place, share: Fraction) -> tuple[Place, Place]:
    """Return a shape's side moved inwards by a share of its own length."""
    u, v = (share * (b - a) for a, b in zip(start, end, strict=True))
    return (start[0] - v, start[1] + u), (end[0] - v, end[1] + u)


def _met(side: tuple[Place, Place], told: Shape) -> Iterator[tuple[Fraction, Fraction, Number]]:
    """Yield where a hole's sides cross a side: at what share of it, with two more.

    These are how far it moves on for each step inwards, and how far left of the run it is.
    """
    (u, v), (w, x) = side
    du, dv = w - u, x - v
    for a, b in sides_of(told):
        before, after = turn(*side, a), turn(*side, b)
        if (before > 0) == (after > 0):
            continue
        at = meeting(*side, a, b)
        assert at is not None
        share = Fraction((at[0] - u) * du + (at[1] - v) * dv) / (du**2 + dv**2)
        moves = Fraction((b[0] - a[0]) * du + (b[1] - a[1]) * dv) / (after - before)
        if 0 < share < 1:
            yield share, moves, at[1]


def _taken(told: Shape, level: Number) -> list[Fraction]:
    """Return where along a run the sides of a hole cross a level."""
    return [
        u + Fraction((w - u) * (level - v)) / (x - v)
        for (u, v), (w, x) in sides_of(told)
        if (v > level) != (x > level)
    ]


def joint_gaps(plan: Plan, strip: Strip) -> list[Shape]:
    """Return the gaps at the joints of a row, as told along it."""
    half = Fraction(ticks(laying_of(plan).end_gap_mm) * UNIT, 2)
    found: list[Shape] = []
    for joint in laying_of(plan).joints:
        if joint.row == strip.row.mark:
            u = strip.run.told(at(joint.at))[0]
            a, b = u - half, u + half
            found.append(((a, strip.low), (b, strip.low), (b, strip.high), (a, strip.high)))
    return found


def is_free(into: frozenset[int]) -> bool:
    """Return whether a stretch lies in the zone, the first shape, and in nothing else."""
    return into == frozenset({0})


def boards_of(plan: Plan, strip: Strip) -> list[list[Trapezium]]:
    """Return the pieces that a row has to have, each cut into trapezia, by their start."""
    parts = trapezia(room_for(plan, strip), is_free, strip.low, strip.high)
    return [lot for lot in joined(parts) if not is_rounding(lot)]


def panels_of(plan: Plan, strip: Strip) -> list[list[Trapezium]]:
    """Return the pieces of hatches' panels that lie in a row, by their start."""
    found = []
    for hole in hatch_holes(plan, strip.run, grown=-1):
        told = [strip.run.all_told(each) for each in (shape(strip.zone.corners), hole)]
        lot = trapezia(told, _is_in_both, strip.low, strip.high)
        found += [lot] if lot and not is_rounding(lot) else []
    return sorted(found, key=lambda lot: span(lot)[0])


def _is_in_both(into: frozenset[int]) -> bool:
    """Return whether a stretch lies in the zone and in a hole, the two shapes there are."""
    return into == frozenset({0, 1})


def is_rounding(lot: list[Trapezium]) -> bool:
    """Return whether a part is less than 1 mm2, or what rounded corners leave between shapes."""
    start, end = span(lot)
    least = 2 * SLACK * UNIT * max(end - start, lot[-1].high - lot[0].low)
    return twice_area_of(lot) <= max(least, 2 * (320 * UNIT) ** 2)
