"""The frame's own axes: joists run along v, their lines stand at u. A turn, never a mirror."""

import math
from collections.abc import Iterable, Sequence

from attrs import frozen

from drylay.marks import exact, to_mm
from drylay.outline.model import Spot

Place = tuple[float, float]
#: Start right, end right, end left, start left: round from u towards v.
Corners = tuple[Place, Place, Place, Place]

#: What places rounded to 1/320 mm may be off by and still be one place, in mm.
NEAR_MM = 0.02


@frozen
class Axis:
    """A straight line with a beginning and a way along it, of length 1."""

    origin: Place
    way: Place


def place_of(spot: Spot, joist_run: str) -> Place:
    """Return a spot in the frame's own axes."""
    if joist_run == "across":
        return (spot.along_mm, spot.across_mm)
    return (spot.across_mm, -spot.along_mm)


def spot_of(place: Place, joist_run: str) -> Spot:
    """Return a place of the frame's own axes as a spot, on whole 1/320 mm."""
    u, v = (to_mm(exact(number)) for number in place)
    if joist_run == "across":
        return Spot(along_mm=u, across_mm=v)
    return Spot(along_mm=to_mm(-exact(place[1])), across_mm=u)


def axis_through(start: Place, end: Place) -> Axis:
    """Return the axis from one place towards another."""
    length = math.dist(start, end)
    return Axis(start, ((end[0] - start[0]) / length, (end[1] - start[1]) / length))


def left_of(way: Place) -> Place:
    """Return the way that is a quarter turn from u towards v of another."""
    return (-way[1], way[0])


def moved(place: Place, way: Place, by_mm: float) -> Place:
    """Return a place moved along a way."""
    return (place[0] + way[0] * by_mm, place[1] + way[1] * by_mm)


def beside(axis: Axis, by_mm: float) -> Axis:
    """Return the parallel axis so far to the left."""
    return Axis(moved(axis.origin, left_of(axis.way), by_mm), axis.way)


def turn_of(one: Place, other: Place) -> float:
    """Return the sine of the turn from one way to another, above 0 to the left."""
    return one[0] * other[1] - one[1] * other[0]


def dot(one: Place, other: Place) -> float:
    """Return the cosine between two ways, or how far one place lies along a way."""
    return one[0] * other[0] + one[1] * other[1]


def crossing(one: Axis, other: Axis) -> Place:
    """Return where two axes cross, which are not parallel."""
    gap = (other.origin[0] - one.origin[0], other.origin[1] - one.origin[1])
    return moved(one.origin, one.way, turn_of(gap, other.way) / turn_of(one.way, other.way))


def along(axis: Axis, place: Place) -> Place:
    """Return how far a place lies along an axis, and how far to its left."""
    from_start = (place[0] - axis.origin[0], place[1] - axis.origin[1])
    return (dot(from_start, axis.way), turn_of(axis.way, from_start))


def back(axis: Axis, local: Place) -> Place:
    """Return the place that lies so far along an axis and to its left."""
    return moved(moved(axis.origin, axis.way, local[0]), left_of(axis.way), local[1])


def is_inside(place: Place, ring: Sequence[Place]) -> bool:
    """Return whether a place lies inside a ring; for places clear of the ring itself."""
    inside = False
    u, v = place
    for (u1, v1), (u2, v2) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (v1 > v) != (v2 > v) and u < u1 + (v - v1) / (v2 - v1) * (u2 - u1):
            inside = not inside
    return inside


def clipped(shape: Sequence[Place], half_mm: float) -> list[Place]:
    """Return the part of a convex shape that is no further than so far to either side of 0.

    The shape's places are told along an axis and to its left.
    """
    for way in (1.0, -1.0):
        kept: list[Place] = []
        for here, there in zip(shape, (*shape[1:], *shape[:1]), strict=True):
            a, b = half_mm - way * here[1], half_mm - way * there[1]
            if a >= 0:
                kept.append(here)
            if (a < 0) != (b < 0):
                part = a / (a - b)
                kept.append((here[0] + part * (there[0] - here[0]), way * half_mm))
        shape = kept
    return list(shape)


def spread(values: Iterable[float]) -> tuple[float, float]:
    """Return the least and the greatest of some values."""
    listed = list(values)
    return min(listed), max(listed)
