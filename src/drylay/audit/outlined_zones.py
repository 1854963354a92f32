"""Zones: each inside the outline, apart from others, and reaching up to what lies beside it."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import need, off_by, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    cover,
    fault,
    holes,
    laying_of,
    outlines,
    run_at,
    shape,
)
from drylay.audit.outlined_strips import ALONGSIDE
from drylay.audit.plane import (
    UNIT,
    Place,
    Shape,
    inside,
    is_simple,
    root,
    sides_of,
    size,
    squared_apart,
    squared_to_edge,
    twice_area,
)
from drylay.laying.model import Zone
from drylay.plan.model import Plan

ZONES = outlines("Laying: zones")


def zones_lie_inside(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a zone that is no shape, reaches out of the outline, or meets another."""
    laying, corners = laying_of(plan), cover(plan)
    zones = need(laying.zones or None, "zones")
    found, message = len(zones), "not the zones there are"
    yield from same_count("laying.zone_count", message, laying.zone_count, found, ZONES)
    least = min(ticks(laying.gap_least_mm), ticks(laying.end_gap_mm)) - SLACK
    shapes: list[Shape] = []
    for index, zone in enumerate(zones, 1):
        yield from same_text(zone.mark, "wrong mark", zone.mark, f"Z{index}", ZONES)
        rows = sum(row.zone == zone.mark for row in laying.rows)
        yield from same_count(zone.mark, "rows of the zone", zone.row_count, rows, ZONES)
        if zone.first_row not in {"near", "far"}:
            yield fault(zone.mark, f"no first row is {zone.first_row!r}", ZONES)
        if not 0 <= zone.angle_deg < 180:
            yield fault(zone.mark, "its angle is not from 0 to under 180", ZONES)
        told = shape(zone.corners)
        if not is_simple(told) or twice_area(told) <= 0:
            yield fault(zone.mark, "it is no shape, or runs the wrong way round", ZONES)
            return
        yield from out_of(zone.mark, told, corners)
        for before, other in enumerate(shapes, 1):
            apart = float(root(squared_apart(told, other)))
            if apart < least:
                yield off_by(zone.mark, f"too near to Z{before}", apart, least, ZONES)
        shapes.append(told)


def out_of(subject: str, part: Shape, whole: Shape) -> Iterator[Flaw]:
    """Yield a flaw where a shape reaches out of another by more than rounding."""
    for place in part:
        if inside(place, whole) < 0:
            out = squared_to_edge(place, whole)
            if out > SLACK**2:
                yield off_by(subject, "it reaches out of the outline", float(root(out)), 0, ZONES)
                return
    for place in whole:
        if inside(place, part) > 0 and squared_to_edge(place, part) > SLACK**2:
            yield fault(subject, "a corner of the outline lies inside it", ZONES)
            return


def zones_reach_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a zone's side is neither on the outline nor a gap from what is beside."""
    laying, corners = laying_of(plan), cover(plan)
    pieces = [
        shape(piece.corners) for piece in laying.pieces if piece.kind in {"border", "breaker"}
    ]
    for zone in laying.zones:
        others = [shape(other.corners) for other in laying.zones if other.mark != zone.mark]
        for start, end in sides_of(shape(zone.corners)):
            for place in samples(start, end):
                if squared_to_edge(place, corners) > (SLACK + 1) ** 2:
                    yield from _beside(plan, zone, (start, end, place), (pieces, others))


def samples(start: Place, end: Place) -> Iterator[Place]:
    """Yield three places along a side, well between its ends."""
    for quarter in (1, 2, 3):
        yield (
            start[0] + (end[0] - start[0]) * quarter // 4,
            start[1] + (end[1] - start[1]) * quarter // 4,
        )


#: How much further a corner is than a side: the square root of 2, up.
ACROSS_A_CORNER = 1.415


def _beside(
    plan: Plan, zone: Zone, side: tuple[Place, Place, Place],
    beside: tuple[list[Shape], list[Shape]],
) -> Iterator[Flaw]:  # fmt: skip
    """Yield a flaw unless a place on a zone's side is a gap off a board or another zone."""
    laying, (start, end, place) = laying_of(plan), side
    everything = [(shape_of, kind) for kind in (0, 1) for shape_of in beside[kind]]
    if any(_within_a_gap(place, hole, ticks(laying.end_gap_mm)) for hole in holes(plan)):
        return
    ways = [(squared_to_edge(place, other), kind) for other, kind in everything]
    if not ways:
        yield fault(zone.mark, "a side is not on the outline, and nothing lies beside it", ZONES)
        return
    square, kind = min(ways)
    apart, end_gap = float(root(square)), ticks(laying.end_gap_mm)
    least, most = ticks(laying.gap_least_mm), ticks(laying.gap_most_mm)
    if kind == 1:  # boards of the one may end where those of the other lie alongside
        least, most = min(least, end_gap), max(most, end_gap)
    elif not runs_along(zone, start, end):
        least = most = end_gap
    # at a corner of what lies beside it is as far as the diagonal of the gap
    if not least - SLACK <= apart <= most * ACROSS_A_CORNER + SLACK:
        message = "a side is not a gap off what lies beside it"
        yield off_by(zone.mark, message, apart, least if apart < least else most, ZONES)


def _within_a_gap(at: Place, hole: Shape, gap: int) -> bool:
    """Whether a place lies in an opening, or no further from it than a gap."""
    return inside(at, hole) >= 0 or squared_to_edge(at, hole) <= (gap + SLACK) ** 2


def runs_along(zone: Zone, start: Place, end: Place) -> bool:
    """Return whether the boards of a zone lie along a side, or lean from it by no more than 2."""
    run = run_at(zone.angle_deg)
    (u, v), (w, x) = run.told(start), run.told(end)
    return size(x - v) <= size(w - u) * ALONGSIDE + LONG_OFF * UNIT


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-760", "zones lie inside the outline, apart from one another", zones_lie_inside),
    ("AUD-761", "zones reach to the outline or to a gap before what lies beside", zones_reach_up),
)
