"""The ground between the points measured: straight between them, and nothing invented.

Three points make a triangle when no fourth lies inside the circle through them; the ground is
flat on each. Four points on one circle (a square) make two such pairs of triangles, and nobody
knows which way the ground folds: the lower fold answers for the lowest ground, the higher for
the highest. Beyond the points nothing is known, and the nearest point's level stands in; that
is told of a corner where it lies further away than a stride's half. Points that make no triangle
of some height and width tell nothing: what they measured across their line is chance.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from math import ceil, floor, isqrt
from typing import TypeVar

from attrs import frozen

from drylay.brief.model import GroundPoint
from drylay.marks import exact, to_mm

CORNERS = ("house left", "house right", "front right", "front left")
#: A point within this of a corner is taken as measured at it. Common practice, no source.
NEAR_MM = 300.0
#: Three points are out of line when their triangle is so high over its longest side, and the sine
#: of its sharpest corner is not below 1 in 57, which is 1 degree. Assumption.
HIGH_MM, SLENDER = 300.0, 57
Spot = tuple[Fraction, Fraction, Fraction]
Place = tuple[int, int, int]
Number = TypeVar("Number", int, Fraction)
Flat = tuple[int, int] | tuple[Fraction, Fraction]


@frozen(kw_only=True)
class Ground:
    """The ground under a cover; `beyond` names corners outside the points measured."""

    most_mm: float
    least_mm: float
    edge_least_mm: float
    fall_to_house_mm: float
    beyond: tuple[str, ...]


@frozen(kw_only=True)
class Survey:
    """Points measured, in 1/320 mm, and the triangles that they make."""

    places: list[Place]
    triangles: list[tuple[Place, Place, Place]]


def survey_of(points: tuple[GroundPoint, ...]) -> Survey | None:
    """Return the points with their triangles; None unless three lie well out of line."""
    places = [(exact(p.along_mm), exact(p.across_mm), exact(p.level_mm)) for p in points]
    if not any(_is_wide(*three) for three in combinations(places, 3)):
        return None
    return Survey(places=places, triangles=_triangles(places))


def levels_on(survey: Survey, spot: Flat) -> list[Fraction]:
    """Return the levels at a spot, one for every triangle that holds it; none beside all."""
    found = (_level_in(*three, spot) for three in survey.triangles)
    return [level for level in found if level is not None]


def ground_under(
    points: tuple[GroundPoint, ...], along_mm: float, across_mm: float
) -> Ground | None:
    """Return the ground under a cover; None unless three points lie well out of line."""
    survey = survey_of(points)
    if survey is None:
        return None
    places, triangles = survey.places, survey.triangles
    size = (exact(along_mm), exact(across_mm))
    spots = {spot for triangle in triangles for spot in _clipped(triangle, size)}
    corners = [(0, 0), (size[0], 0), size, (0, size[1])]
    levels = [sorted(z for x, y, z in spots if x == at and y == out) for at, out in corners]
    beyond = tuple(
        name
        for name, corner, found in zip(CORNERS, corners, levels, strict=True)
        if not found and far_320(places, corner) > exact(NEAR_MM) ** 2
    )
    known = [
        found or nearest_levels(places, corner)
        for found, corner in zip(levels, corners, strict=True)
    ]
    edge = [z for x, y, z in spots if x in {0, size[0]} or y in {0, size[1]}]
    edge += [z for found in known for z in found]
    inside = [*edge, *(z for _, _, z in spots)]
    falls = (known[3][-1] - known[0][0], known[2][-1] - known[1][0])
    return Ground(
        most_mm=to_mm(ceil(max(inside))),
        least_mm=to_mm(floor(min(inside))),
        edge_least_mm=to_mm(floor(min(edge))),
        fall_to_house_mm=to_mm(ceil(max(falls))),
        beyond=beyond,
    )


def levels_at(
    points: tuple[GroundPoint, ...], spots_mm: tuple[tuple[float, float], ...], ground: Ground
) -> tuple[float, ...]:
    """Return the ground's level at every spot, along and across: the lower of two ways to fold it.

    A spot that no triangle of points holds has the level of the nearest point, kept within the
    highest and lowest of the ground under the cover.
    """
    places = [(exact(p.along_mm), exact(p.across_mm), exact(p.level_mm)) for p in points]
    triangles = _triangles(places)
    low, high = exact(ground.least_mm), exact(ground.most_mm)
    found = []
    for along_mm, across_mm in spots_mm:
        spot = (exact(along_mm), exact(across_mm))
        inside = [level for three in triangles if (level := _level_in(*three, spot)) is not None]
        level = min(inside or nearest_levels(places, spot))
        found.append(to_mm(min(max(floor(level), low), high)))
    return tuple(found)


def _level_in(a: Place, b: Place, c: Place, spot: Flat) -> Fraction | None:
    """Return the level at a spot within a triangle that turns one way round, None beside it."""
    at = (Fraction(spot[0]), Fraction(spot[1]))
    first, second, third = ((Fraction(p[0]), Fraction(p[1])) for p in (a, b, c))
    shares = (_turn(at, second, third), _turn(first, at, third), _turn(first, second, at))
    if min(shares) < 0:
        return None
    level = sum((s * p[2] for s, p in zip(shares, (a, b, c), strict=True)), Fraction(0))
    return level / sum(shares)


def far_320(places: list[Place], corner: tuple[Number, Number]) -> Number:
    """Return how far the nearest point is from a corner, squared."""
    return min((x - corner[0]) ** 2 + (y - corner[1]) ** 2 for x, y, _ in places)


def nearest_levels(places: list[Place], corner: tuple[Number, Number]) -> list[Fraction]:
    """Return the levels of the points nearest to a corner, lowest first."""
    far = far_320(places, corner)
    return sorted(Fraction(p[2]) for p in places if far_320([p], corner) == far)


def _triangles(places: list[Place]) -> list[tuple[Place, Place, Place]]:
    return [
        (a, b, c) if _turn(a, b, c) > 0 else (a, c, b)
        for a, b, c in combinations(places, 3)
        if _turn(a, b, c) and _empty(a, b, c, places)
    ]


def _is_wide(a: Place, b: Place, c: Place) -> bool:
    """Whether three points lie well out of line."""
    pairs = ((a, b), (b, c), (c, a))
    _, longer, longest = sorted((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 for p, q in pairs)
    twice = abs(_turn(a, b, c))
    high = twice**2 >= exact(HIGH_MM) ** 2 * longest
    return high and (SLENDER * twice) ** 2 >= longer * longest


def nearest_mm(
    points: tuple[GroundPoint, ...], along_mm: float, across_mm: float
) -> tuple[str, float]:
    """Return the corner that a point was measured nearest to, and how far off, rounded up."""
    places = [(exact(p.along_mm), exact(p.across_mm), exact(p.level_mm)) for p in points]
    wide, deep = exact(along_mm), exact(across_mm)
    corners = zip(CORNERS, ((0, 0), (wide, 0), (wide, deep), (0, deep)), strict=True)
    far, name = min((far_320(places, corner), name) for name, corner in corners)
    return name, to_mm(isqrt(far - 1) + 1 if far else 0)


def _turn(a: tuple[Number, ...], b: tuple[Number, ...], c: tuple[Number, ...]) -> Number:
    """Return twice the area of a triangle, below 0 where it runs the other way round."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def _empty(a: Place, b: Place, c: Place, places: list[Place]) -> bool:
    """Whether no point lies inside the circle through three."""
    sign = 1 if _turn(a, b, c) > 0 else -1
    return all(sign * _within(a, b, c, d) <= 0 for d in places)


def _within(a: Place, b: Place, c: Place, d: Place) -> int:
    """Return the determinant that is above 0 where d lies inside the circle a, b, c."""
    rows = [(p[0] - d[0], p[1] - d[1]) for p in (a, b, c)]
    (ax, ay, aa), (bx, by, bb), (cx, cy, cc) = ((x, y, x * x + y * y) for x, y in rows)
    return ax * (by * cc - bb * cy) - ay * (bx * cc - bb * cx) + aa * (bx * cy - by * cx)


def _clipped(triangle: tuple[Place, Place, Place], size: tuple[int, int]) -> list[Spot]:
    """Return the corners of what of a triangle lies over the cover, with their levels."""
    spots: list[Spot] = [(Fraction(x), Fraction(y), Fraction(z)) for x, y, z in triangle]
    for axis in (0, 1):
        for limit, sign in ((0, 1), (size[axis], -1)):
            spots = list(_kept(spots, axis, limit, sign))
    return spots


def _kept(spots: list[Spot], axis: int, limit: int, sign: int) -> Iterator[Spot]:
    """Yield the corners of a figure cut off straight along one side of the cover."""
    for at, spot in enumerate(spots):
        before = spots[at - 1]
        over, was = sign * (spot[axis] - limit), sign * (before[axis] - limit)
        if over * was < 0:
            share = was / (was - over)
            x, y, z = (one + (other - one) * share for one, other in zip(before, spot, strict=True))
            yield x, y, z
        if over >= 0:
            yield spot
