"""The ground measured again: every place where it can be highest or lowest, one by one.

Worked from docs/conventions.md: triangles whose circle holds no other point, all of them; then
points under the cover, corners within a triangle, and where triangles' sides cross the edges.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from math import ceil, floor

from attrs import frozen

from drylay.audit.exact import ticks
from drylay.brief.model import GroundPoint

Point = tuple[Fraction, Fraction, Fraction]
Triangle = tuple[Point, Point, Point]
NAMES = ("house left", "house right", "front right", "front left")
NEAR = 300
#: Least height of a triangle that is out of line; the sine of its sharpest corner: 1 in so many.
HIGH, SLENDER = 300, 57


@frozen(kw_only=True)
class Terrain:
    """The ground under a cover, in 1/320 mm."""

    most: int
    least: int
    edge_least: int
    fall_to_house: int
    beyond: tuple[str, ...]


def found_on(points: tuple[GroundPoint, ...]) -> tuple[list[Point], list[Triangle]] | None:
    """Return the points and their triangles, None where the points are as good as in line."""
    places = [
        (Fraction(ticks(p.along_mm)), Fraction(ticks(p.across_mm)), Fraction(ticks(p.level_mm)))
        for p in points
    ]
    found = [three for three in combinations(places, 3) if _counts(three, places)]
    if not found or not any(_out_of_line(three) for three in combinations(places, 3)):
        return None
    return places, found


def terrain(points: tuple[GroundPoint, ...], along_mm: float, across_mm: float) -> Terrain | None:
    """Return the ground under a cover, None where the points are as good as in line."""
    survey = found_on(points)
    if survey is None:
        return None
    places, found = survey
    wide, deep = Fraction(ticks(along_mm)), Fraction(ticks(across_mm))
    corners = ((Fraction(0), Fraction(0)), (wide, Fraction(0)), (wide, deep), (Fraction(0), deep))
    at_corners, beyond = [], []
    for name, corner in zip(NAMES, corners, strict=True):
        levels, far = levels_near(found, places, corner)
        at_corners.append(levels)
        beyond += [name] if far else []
    edge = [level for levels in at_corners for level in levels]
    edge += [level for three in found for level in _crossings(three, (wide, deep))]
    edge += [z for x, y, z in places if _inside(x, y, (wide, deep)) and _on_edge(x, y, wide, deep)]
    every = edge + [z for x, y, z in places if _inside(x, y, (wide, deep))]
    left = max(at_corners[3]) - min(at_corners[0])
    right = max(at_corners[2]) - min(at_corners[1])
    return Terrain(
        most=ceil(max(every)),
        least=floor(min(every)),
        edge_least=floor(min(edge)),
        fall_to_house=ceil(max(left, right)),
        beyond=tuple(beyond),
    )


def level_at(
    points: tuple[GroundPoint, ...], spots: tuple[tuple[int, int], ...], ground: Terrain
) -> tuple[int, ...]:
    """Return the lowest that the ground may lie at each spot, held within that under the cover."""
    places = [
        (Fraction(ticks(p.along_mm)), Fraction(ticks(p.across_mm)), Fraction(ticks(p.level_mm)))
        for p in points
    ]
    found = [three for three in combinations(places, 3) if _counts(three, places)]
    levels = []
    for x, y in spots:
        lowest = min(levels_near(found, places, (Fraction(x), Fraction(y)))[0])
        levels.append(min(max(floor(lowest), ground.least), ground.most))
    return tuple(levels)


def _counts(three: Triangle, places: list[Point]) -> bool:
    """Whether three points are out of line, and no other lies within their circle."""
    (ax, ay, _), (bx, by, _), (cx, cy, _) = three
    twice = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if not twice:
        return False
    a, b, c = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a * (by - cy) + b * (cy - ay) + c * (ay - by)) / twice
    y = (a * (cx - bx) + b * (ax - cx) + c * (bx - ax)) / twice
    round_it = (ax - x) ** 2 + (ay - y) ** 2
    return all((px - x) ** 2 + (py - y) ** 2 >= round_it for px, py, _ in places)


def _out_of_line(three: Triangle) -> bool:
    """Whether a triangle is high enough over each side, and none of its corners too sharp."""
    for at, (x, y, _) in enumerate(three):
        (ax, ay, _), (bx, by, _) = three[at - 2], three[at - 1]
        area = abs((ax - x) * (by - y) - (bx - x) * (ay - y))
        across = (bx - ax) ** 2 + (by - ay) ** 2
        beside = ((ax - x) ** 2 + (ay - y) ** 2) * ((bx - x) ** 2 + (by - y) ** 2)
        if area**2 < ticks(HIGH) ** 2 * across or area**2 * SLENDER**2 < beside:
            return False
    return True


def _shares(three: Triangle, x: Fraction, y: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Return how much each corner of a triangle has of a place: all at least 0 if it is within."""
    (ax, ay, _), (bx, by, _), (cx, cy, _) = three
    whole = (by - cy) * (ax - cx) + (cx - bx) * (ay - cy)
    first = ((by - cy) * (x - cx) + (cx - bx) * (y - cy)) / whole
    second = ((cy - ay) * (x - cx) + (ax - cx) * (y - cy)) / whole
    return first, second, 1 - first - second


def levels_near(
    found: list[Triangle], places: list[Point], corner: tuple[Fraction, Fraction]
) -> tuple[list[Fraction], bool]:
    """Return the levels at a corner of the cover, and whether it lies far beyond the points."""
    levels = []
    for three in found:
        shares = _shares(three, *corner)
        if min(shares) >= 0:
            levels.append(sum((s * p[2] for s, p in zip(shares, three, strict=True)), Fraction(0)))
    if levels:
        return levels, False
    away = [((x - corner[0]) ** 2 + (y - corner[1]) ** 2, z) for x, y, z in places]
    near = min(away)[0]
    return [z for far, z in away if far == near], near > ticks(NEAR) ** 2


def _inside(x: Fraction, y: Fraction, size: tuple[Fraction, Fraction]) -> bool:
    return 0 <= x <= size[0] and 0 <= y <= size[1]


def _on_edge(x: Fraction, y: Fraction, wide: Fraction, deep: Fraction) -> bool:
    return x in {Fraction(0), wide} or y in {Fraction(0), deep}


def _crossings(three: Triangle, size: tuple[Fraction, Fraction]) -> Iterator[Fraction]:
    """Yield the ground's levels where a triangle's sides cross the cover's edges."""
    for one, other in combinations(three, 2):
        for axis in (0, 1):
            for line in (Fraction(0), size[axis]):
                if one[axis] == other[axis]:
                    continue
                share = (line - one[axis]) / (other[axis] - one[axis])
                if 0 <= share <= 1:
                    x, y, z = (p + (q - p) * share for p, q in zip(one, other, strict=True))
                    if _inside(x, y, size):
                        yield z
