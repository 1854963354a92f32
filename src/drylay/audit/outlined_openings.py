"""Openings: inside the outline, apart, as far from what stands in them as they have to be."""

from collections.abc import Iterator
from math import inf

from drylay.audit.exact import ticks
from drylay.audit.flaws import off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    cover,
    fault,
    laying_of,
    outline_of,
    outlines,
    shape,
)
from drylay.audit.outlined import (
    place as at,
)
from drylay.audit.plane import (
    Place,
    Shape,
    inside,
    is_simple,
    root,
    segments_meet,
    sides_of,
    squared_apart,
    squared_reach,
    squared_to_edge,
    twice_area,
)
from drylay.laying.model import LaidPiece
from drylay.outline.model import OPENING_KINDS, Opening
from drylay.plan.model import Plan

OPENINGS = outlines("Outline: openings")
CLEAR = outlines("Outline: clear_mm")
HATCH = outlines("Outline: a hatch's hole and panel")
#: The least clear way there is for each kind, and the most that boards reach over water, in mm.
CLEAR_LEAST = {"post": 6.0, "tree": 0.0, "hatch": 40.0}
CLEAR_MOST_MM = 100.0
OVER_WATER_MM = 40.0
PANEL_MOST_KG = 20.0


def openings_lie_apart(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for an opening that is no shape, touches a side, or another opening."""
    corners = cover(plan)
    before: list[tuple[str, Shape]] = []
    for opening in outline_of(plan).openings:
        hole = shape(opening.corners)
        if opening.kind not in OPENING_KINDS:
            yield fault(opening.mark, f"no kind of opening is {opening.kind!r}", OPENINGS)
        for name, each in (("hole", hole), ("what stands in it", shape(opening.within))):
            if not is_simple(each) or twice_area(each) <= 0:
                yield fault(opening.mark, f"{name} is no shape, or the wrong way round", OPENINGS)
                return
        out = any(inside(place, corners) <= 0 for place in hole)
        if out or _edges_meet(hole, corners):
            yield fault(opening.mark, "it does not lie inside the outline", OPENINGS)
        yield from _room_for_timber(plan, opening.mark, hole, before)
        before.append((opening.mark, hole))


def _room_for_timber(
    plan: Plan, mark: str, hole: Shape, before: list[tuple[str, Shape]]
) -> Iterator[Flaw]:
    """Yield a flaw unless a rim and a doubled trimmer fit beside a hole, or two doubled ones."""
    thick = 0 if plan.subframe is None else ticks(plan.subframe.timber_thickness_mm)
    for side in outline_of(plan).sides:
        line = (at(side.start), at(side.end))
        apart, least = float(root(squared_apart(hole, line))), ticks(side.facing_mm) + 3 * thick
        if apart < least - SLACK:
            yield off_by(mark, f"no room for timber between it and {side.mark}", apart, least,
                         OPENINGS)  # fmt: skip
    for other_mark, other in before:
        apart = float(root(squared_apart(hole, other)))
        if apart < 4 * thick - SLACK or apart == 0:
            message = f"no room for timber between it and {other_mark}"
            yield off_by(mark, message, apart, 4 * thick, OPENINGS)


def _edges_meet(one: tuple[Place, ...], other: tuple[Place, ...]) -> bool:
    return any(segments_meet(*a, *b) for a in sides_of(one) for b in sides_of(other))


def clear_ways(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless what stands in an opening is as clear of its edge as told and asked."""
    for opening in outline_of(plan).openings:
        hole, thing = shape(opening.corners), shape(opening.within)
        if opening.kind == "pool":
            yield from _over_water(opening, hole, thing)
            continue
        if any(inside(place, hole) < 0 for place in thing):
            yield fault(opening.mark, "what stands in it reaches out of its hole", CLEAR)
        clear = min(edges_apart(hole, thing), *_off_ledges(plan, opening, thing))
        told = ticks(opening.clear_mm)
        if abs(told - clear) > SLACK:
            message = "not the least way from what stands there to the edge of the hole"
            yield off_by(opening.mark, message, told, clear, CLEAR)
        yield from _limits(opening, clear)


def _off_ledges(plan: Plan, opening: Opening, thing: Shape) -> list[float]:
    """Return how far a hatch's cover is from all that stands for it; nothing is ever nearer."""
    if opening.kind != "hatch" or plan.subframe is None:
        return [inf]
    own = [member for member in plan.subframe.members if member.side == opening.mark]
    return [inf, *(float(root(squared_apart(shape(each.corners), thing))) for each in own)]


def edges_apart(one: tuple[Place, ...], other: tuple[Place, ...]) -> float:
    """Return the least way between the edges of two shapes, in 1/320 mm."""
    ways = [squared_reach(place, a, b) for place in one for a, b in sides_of(other)]
    ways += [squared_reach(place, a, b) for place in other for a, b in sides_of(one)]
    return float(root(min(ways)))


def _over_water(
    opening: Opening, hole: tuple[Place, ...], water: tuple[Place, ...]
) -> Iterator[Flaw]:
    """Yield a flaw where boards stop short of the water, or reach too far over it."""
    most = ticks(OVER_WATER_MM)
    if any(inside(place, water) < 0 for place in hole):
        yield fault(opening.mark, "boards do not reach to the water's edge", CLEAR)
    for start, end in sides_of(hole):
        middle = ((start[0] + end[0]) // 2, (start[1] + end[1]) // 2)
        over = float(root(squared_to_edge(middle, water)))
        if over > most + SLACK:
            yield off_by(opening.mark, "boards reach too far over the water", over, most, CLEAR)
    told, over = abs(ticks(opening.clear_mm)), edges_apart(hole, water)
    if abs(told - over) > SLACK:
        message = "not the least way from the water's edge to the edge of the hole"
        yield off_by(opening.mark, message, told, over, CLEAR)


def _limits(opening: Opening, clear: float) -> Iterator[Flaw]:
    """Yield a flaw where a clear way is outside its limits, or these are looser than practice."""
    least, most = ticks(opening.clear_least_mm), opening.clear_most_mm
    if clear < least - SLACK:
        yield off_by(opening.mark, "too little room round what stands there", clear, least, CLEAR)
    if most is not None and clear > ticks(most) + SLACK:
        yield off_by(opening.mark, "too far from what stands there", clear, ticks(most), CLEAR)
    practice = ticks(CLEAR_LEAST.get(opening.kind, 0.0))
    if least < practice:
        yield off_by(opening.mark, "its least way is below practice", least, practice, CLEAR)
    if most is not None and most > CLEAR_MOST_MM:
        practice = ticks(CLEAR_MOST_MM)
        yield off_by(opening.mark, "its most is above practice", ticks(most), practice, CLEAR)


def panels(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each hatch has a panel light enough for one, and no other opening one."""
    for opening in outline_of(plan).openings:
        panel, most = opening.panel_kg, opening.panel_most_kg
        if opening.kind != "hatch":
            if panel is not None or most is not None:
                yield fault(opening.mark, "a panel, but it is no hatch", HATCH)
            continue
        if panel is None or most is None:
            yield fault(opening.mark, "its panel's mass or the most of it is not told", HATCH)
            continue
        for found, limit, message in (
            (panel, most, "its panel is too heavy for one person"),
            (most, PANEL_MOST_KG, "more than one person may lift"),
        ):
            if found > limit:
                yield Flaw(subject=opening.mark, message=message, measured=found, limit=limit,
                           unit="kg", source=HATCH)  # fmt: skip
        if plan.tiles is None:  # tiles lift out one by one, see outlined_tiles
            if not panel_of(plan, opening):
                yield fault(opening.mark, "no boards lie in its panel", HATCH)
            yield from _span_is_told(plan, opening)


def _span_is_told(plan: Plan, opening: Opening) -> Iterator[Flaw]:
    """Yield a flaw unless a panel that spans more than loose boards may is told, and no other."""
    if plan.subframe is None or len(opening.corners) != 4:
        return
    right, right_end, left_end, left = shape(opening.corners)  # along the boards, from gap to gap
    sides = ((right, right_end), (left, left_end))
    hole = max(root((u - w) ** 2 + (v - x) ** 2) for (u, v), (w, x) in sides)
    bears = 2 * ticks(plan.subframe.timber_thickness_mm) + ticks(laying_of(plan).end_gap_mm)
    span, most = float(hole) - bears / 2, ticks(plan.subframe.square_centres_mm)
    told = [each.measured for each in plan.findings
            if each.code == "OUT-025" and each.subject == opening.mark]  # fmt: skip
    if abs(span - most) > SLACK and bool(told) != (span > most):
        message = "its boards span so much, and that is not told" if not told else "told to span"
        yield off_by(opening.mark, message, span, most, HATCH)
    for measured in told:
        if abs(ticks(measured or 0.0) - span) > SLACK:
            message = "its panel spans another way than told"
            yield off_by(opening.mark, message, ticks(measured or 0.0), span, HATCH)


def panel_of(plan: Plan, opening: Opening) -> list[LaidPiece]:
    """Return the pieces of a hatch's panel: those that lie in its hole."""
    hole = shape(opening.corners)
    return [
        piece
        for piece in laying_of(plan).pieces
        if piece.kind == "hatch" and inside(shape(piece.corners)[0], hole) >= 0
    ]


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-756", "openings lie inside the outline, apart from sides and others", openings_lie_apart),
    ("AUD-757", "openings are clear of what stands in them, within limits", clear_ways),
    ("AUD-758", "hatches have a panel that one person lifts", panels),
)
