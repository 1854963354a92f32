"""Shapes cut off along straights and by a height above them, and sums over what is left.

A shape is a ring of spots: along, across, and a height that runs straight over it. A ring cut
off may run along its own edge and back; sums with a sign hold all the same. Only plain sums,
products and quotients of floats are used: they give the same figure on every machine.
"""

from collections.abc import Callable, Sequence
from math import fsum

Spot = tuple[float, float, float]
Shape = tuple[Spot, ...]


def cut_off(shape: Shape, above: Callable[[Spot], float]) -> Shape:
    """Return what of a shape lies where a straight function of its spots is 0 or more."""
    kept: list[Spot] = []
    for at, spot in enumerate(shape):
        before = shape[at - 1]
        here, was = above(spot), above(before)
        if here * was < 0:
            share = was / (was - here)
            x, y, z = (one + (other - one) * share for one, other in zip(before, spot, strict=True))
            kept.append((x, y, z))
        if here >= 0:
            kept.append(spot)
    return tuple(kept)


def within_triangle(ring: Sequence[tuple[float, float]], corners: Shape) -> Shape:
    """Return what of a ring lies on a triangle that runs round, with heights of the triangle."""
    shape: Shape = tuple((x, y, 0.0) for x, y in ring)
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        shape = cut_off(shape, _left_of(start, end))
    rise = slope_of(corners)
    x0, y0, z0 = corners[0]
    return tuple((x, y, z0 + (x - x0) * rise[0] + (y - y0) * rise[1]) for x, y, _ in shape)


def _left_of(start: Spot, end: Spot) -> Callable[[Spot], float]:
    (ax, ay, _), (bx, by, _) = start, end
    return lambda spot: (bx - ax) * (spot[1] - ay) - (by - ay) * (spot[0] - ax)


def slope_of(corners: Shape) -> tuple[float, float]:
    """Return how a triangle rises along and across, as ratios."""
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = corners
    twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    along = ((bz - az) * (cy - ay) - (cz - az) * (by - ay)) / twice
    across = ((bx - ax) * (cz - az) - (cx - ax) * (bz - az)) / twice
    return along, across


def area_of(shape: Shape) -> float:
    """Return the area of a shape, below 0 where it runs the other way round."""
    return fsum(_area(*three) for three in _fan(shape))


def volume_of(shape: Shape) -> float:
    """Return what lies between a shape and height 0, below 0 where the height is."""
    return fsum(_area(a, b, c) * (a[2] + b[2] + c[2]) / 3 for a, b, c in _fan(shape))


def _fan(shape: Shape) -> list[tuple[Spot, Spot, Spot]]:
    return [(shape[0], shape[at], shape[at + 1]) for at in range(1, len(shape) - 1)]


def _area(a: Spot, b: Spot, c: Spot) -> float:
    return ((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])) / 2
