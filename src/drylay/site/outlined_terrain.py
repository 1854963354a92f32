"""The ground under an outline: highest, lowest, along its sides, and how it falls to the house.

As `terrain` has it, but within the sides of an outline. The ground is flat on each triangle of
points, so that it is highest and lowest at a corner of the outline, at a point measured within it,
or where a triangle's side crosses one of its sides: all of these are looked at, exactly.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations
from math import ceil, floor, isqrt

from attrs import frozen

from drylay.brief.model import GroundPoint
from drylay.marks import exact, to_mm
from drylay.rings import Ring, inside
from drylay.site.terrain import (
    NEAR_MM,
    Ground,
    Survey,
    far_320,
    levels_on,
    nearest_levels,
    survey_of,
)

At = tuple[Fraction, Fraction]


@frozen(kw_only=True)
class GroundSide:
    """One side of an outline over the ground: its ends, along and across, and if a house is at it.

    `corner` names the corner that it starts at.
    """

    corner: str
    start_mm: tuple[float, float]
    end_mm: tuple[float, float]
    house: bool = False


def ground_within(points: tuple[GroundPoint, ...], sides: Sequence[GroundSide]) -> Ground | None:
    """Return the ground under an outline; None unless three points lie well out of line."""
    survey = survey_of(points)
    if survey is None:
        return None
    ring = tuple((exact(side.start_mm[0]), exact(side.start_mm[1])) for side in sides)
    corners = [levels_on(survey, corner) for corner in ring]
    known = [_known(survey, _flat(corner)) for corner in ring]
    edge = [level for found in known for level in found]
    edge += [Fraction(z) for x, y, z in survey.places if inside(ring, (x, y)) == 0]
    edge += _crossed(survey, ring)
    every = [*edge, *(Fraction(z) for x, y, z in survey.places if inside(ring, (x, y)) > 0)]
    return Ground(
        most_mm=to_mm(ceil(max(every))),
        least_mm=to_mm(floor(min(every))),
        edge_least_mm=to_mm(floor(min(edge))),
        fall_to_house_mm=to_mm(ceil(_fall(survey, sides))),
        beyond=tuple(
            side.corner
            for side, corner, found in zip(sides, ring, corners, strict=True)
            if not found and far_320(survey.places, corner) > exact(NEAR_MM) ** 2
        ),
    )


def _crossed(survey: Survey, ring: Ring) -> Iterator[Fraction]:
    """Yield the ground's levels where triangles' sides cross those of a ring."""
    lines = {frozenset(pair) for three in survey.triangles for pair in combinations(three, 2)}
    for first, second in (sorted(line) for line in lines):
        for start, end in zip(ring, (*ring[1:], ring[0]), strict=True):
            share = _share(first[:2], second[:2], start, end)
            if share is not None:
                yield first[2] + (second[2] - first[2]) * share


def _share(
    a: tuple[int, int], b: tuple[int, int], c: tuple[int, int], d: tuple[int, int]
) -> Fraction | None:
    """Return how far along a, b it crosses c, d, 0 to 1; None where it does not."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = a, b, c, d
    under = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if under == 0:
        return None
    here = Fraction((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx), under)
    there = Fraction((cx - ax) * (by - ay) - (cy - ay) * (bx - ax), under)
    return here if 0 <= here <= 1 and 0 <= there <= 1 else None


def _fall(survey: Survey, sides: Sequence[GroundSide]) -> Fraction:
    """Return how much lower the ground lies at the house than away from it, at the worst place.

    Every corner that no house side ends at, its highest ground, against the lowest of the place
    of a house side nearest to it. Where all corners are the house's, the middles of the other
    sides stand in. Source: assumption.
    """
    walls = [(_at(side.start_mm), _at(side.end_mm)) for side in sides if side.house]
    if not walls:
        return Fraction(0)
    ends = {end for wall in walls for end in wall}
    away = [_at(side.start_mm) for side in sides if _at(side.start_mm) not in ends]
    away = away or [_middle(side) for side in sides if not side.house]
    return max((_falls(survey, place, walls) for place in away), default=Fraction(0))


def _falls(survey: Survey, place: At, walls: Sequence[tuple[At, At]]) -> Fraction:
    """Return how much lower than a place the ground lies at the wall nearest to it."""
    feet = [_foot(place, *wall) for wall in walls]
    near = min(_square(place, foot) for foot in feet)
    at_wall = min(min(_known(survey, foot)) for foot in feet if _square(place, foot) == near)
    return max(_known(survey, place)) - at_wall


def _known(survey: Survey, spot: At) -> list[Fraction]:
    """Return the levels at a spot, else those of the points nearest to it."""
    return levels_on(survey, spot) or nearest_levels(survey.places, spot)


def _flat(place: tuple[int, int]) -> At:
    return Fraction(place[0]), Fraction(place[1])


def _at(place_mm: tuple[float, float]) -> At:
    return Fraction(exact(place_mm[0])), Fraction(exact(place_mm[1]))


def _middle(side: GroundSide) -> At:
    (ax, ay), (bx, by) = _at(side.start_mm), _at(side.end_mm)
    return (ax + bx) / 2, (ay + by) / 2


def _square(one: At, other: At) -> Fraction:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2


def _foot(place: At, start: At, end: At) -> At:
    """Return the place of a straight nearest to a place."""
    way = (end[0] - start[0], end[1] - start[1])
    reach = (place[0] - start[0]) * way[0] + (place[1] - start[1]) * way[1]
    share = min(max(reach / (way[0] ** 2 + way[1] ** 2), Fraction(0)), Fraction(1))
    return start[0] + way[0] * share, start[1] + way[1] * share


def nearest_corner(
    points: tuple[GroundPoint, ...], sides: Sequence[GroundSide]
) -> tuple[str, float]:
    """Return the corner that a point was measured nearest to, and how far off, rounded up."""
    far, name = min(
        (_square(_at(side.start_mm), _at((point.along_mm, point.across_mm))), side.corner)
        for side in sides
        for point in points
    )
    whole = int(far)
    return name, to_mm(isqrt(whole - 1) + 1 if whole else 0)
