"""Flat shapes by their corners: what lies in them, what two share. Places are (along, across)."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import dist

from drylay.outline.model import Spot

Place = tuple[float, float]
Ring = tuple[Place, ...]
#: Places nearer than this to an edge lie on it, and shapes that share less than a strip so wide
#: only touch: plans are told to 1/320 mm.
TOUCH_MM = 0.01


def ring_of(corners: Iterable[Spot]) -> Ring:
    """Return the corners of a shape as places."""
    return tuple((spot.along_mm, spot.across_mm) for spot in corners)


def spots_of(ring: Iterable[Place]) -> tuple[Spot, ...]:
    """Return places as spots, to a thousandth of a mm."""
    return tuple(Spot(along_mm=round(x, 3), across_mm=round(y, 3)) for x, y in ring)


def box(x1: float, y1: float, x2: float, y2: float) -> Ring:
    """Return the ring of a rectangle between two corners."""
    return ((x1, y1), (x2, y1), (x2, y2), (x1, y2))


def sides(ring: Sequence[Place]) -> Iterable[tuple[Place, Place]]:
    """Return the sides of a ring, each from corner to corner."""
    return pairwise([*ring, ring[0]])


def area_mm2(ring: Sequence[Place]) -> float:
    """Return the area a ring encloses, below 0 where it runs the other way round."""
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in sides(ring)) / 2 if ring else 0.0


def off_mm(ring: Sequence[Place], place: Place) -> float:
    """Return how far a place lies outside a ring, 0 inside it and on its edge."""
    return 0.0 if holds(ring, place) else _edge_mm(ring, place)


def holds(ring: Sequence[Place], place: Place) -> bool:
    """Return whether a place lies in a ring or on its edge."""
    if _edge_mm(ring, place) <= TOUCH_MM:
        return True
    x, y = place
    crossed = False
    for (x1, y1), (x2, y2) in sides(ring):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            crossed = not crossed
    return crossed


def _edge_mm(ring: Sequence[Place], place: Place) -> float:
    return min(_from_line_mm(one, other, place) for one, other in sides(ring))


def _from_line_mm(one: Place, other: Place, place: Place) -> float:
    (x1, y1), (x2, y2), (x, y) = one, other, place
    long = (x2 - x1) ** 2 + (y2 - y1) ** 2
    part = ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / long if long else 0.0
    part = min(1.0, max(0.0, part))
    return dist(place, (x1 + part * (x2 - x1), y1 + part * (y2 - y1)))


def common(ring: Sequence[Place], convex: Sequence[Place]) -> Ring:
    """Return what a ring shares with a convex one; () where they do no more than touch.

    Source: Sutherland and Hodgman's clipping, from memory. Of a ring that is not convex parts may
    hang together by edges without area, which counts for nothing.
    """
    if _apart(ring, convex):
        return ()
    turn = 1.0 if area_mm2(convex) > 0 else -1.0
    kept = list(ring)
    for one, other in sides(convex):
        kept = _clipped(kept, one, other, turn)
    least = TOUCH_MM * max((dist(a, b) for a, b in sides(kept)), default=0.0) if kept else 0.0
    return tuple(kept) if kept and abs(area_mm2(kept)) > least else ()


def _apart(one: Sequence[Place], other: Sequence[Place]) -> bool:
    """Whether two rings lie apart by their boxes alone."""
    return any(
        max(place[axis] for place in a) <= min(place[axis] for place in b)
        for axis in (0, 1)
        for a, b in ((one, other), (other, one))
    )


def _clipped(ring: list[Place], one: Place, other: Place, turn: float) -> list[Place]:
    """Return the part of a ring on the inner side of a straight."""
    (x1, y1), (x2, y2) = one, other

    def inward(place: Place) -> float:
        return turn * ((x2 - x1) * (place[1] - y1) - (y2 - y1) * (place[0] - x1))

    kept: list[Place] = []
    for a, b in sides(ring) if ring else ():
        ins, out = inward(a), inward(b)
        if ins >= 0:
            kept.append(a)
        if (ins > 0 > out) or (ins < 0 < out):
            part = ins / (ins - out)
            kept.append((a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])))
    return kept


def middle(ring: Sequence[Place]) -> Place:
    """Return the middle of the box about a ring."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def level_span(ring: Sequence[Place], place: Place, axis: int) -> tuple[float, float] | None:
    """Return from where to where a straight through a place, along one axis, crosses a ring.

    Told as distances from the place, below 0 before it; None where it does not cross. `axis` 0 runs
    along, 1 across.
    """
    other, found = 1 - axis, []
    for a, b in sides(ring):
        low, high = sorted((a[other], b[other]))
        if low - TOUCH_MM <= place[other] <= high + TOUCH_MM:
            part = (place[other] - a[other]) / (b[other] - a[other]) if high > low else 0.0
            found.append(a[axis] + min(1.0, max(0.0, part)) * (b[axis] - a[axis]) - place[axis])
            if high == low:
                found.append(b[axis] - place[axis])
    return (min(found), max(found)) if found else None
