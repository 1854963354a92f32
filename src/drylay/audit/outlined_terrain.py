"""The ground within an outline measured again: corners, points and crossings, one by one."""

from collections.abc import Sequence
from itertools import combinations
from math import ceil, floor

from drylay.audit.exact import Fraction
from drylay.audit.outlined import place
from drylay.audit.plane import inside, meeting, on_segment
from drylay.audit.terrain import Point, Terrain, Triangle, found_on, levels_near
from drylay.brief.model import GroundPoint
from drylay.outline.model import Outline

Spot = tuple[Fraction, Fraction]


def beside_mm(outline: Outline) -> tuple[float, float]:
    """Return from where to where along the house a deck lies at its house sides, else at all."""
    sides = [side for side in outline.sides if side.kind == "house"] or list(outline.sides)
    alongs = [spot.along_mm for side in sides for spot in (side.start, side.end)]
    return min(alongs), max(alongs)


def terrain_within(points: tuple[GroundPoint, ...], outline: Outline) -> Terrain | None:
    """Return the ground within an outline, None where the points are as good as in line."""
    survey = found_on(points)
    if survey is None:
        return None
    places, found = survey
    ring = [_exactly(place(side.start)) for side in outline.sides]
    edge: list[Fraction] = []
    beyond = []
    for index, corner in enumerate(ring):
        levels, far = levels_near(found, places, corner)
        edge += levels
        sides = outline.sides
        beyond += [f"{sides[index - 1].mark}-{sides[index].mark}"] if far else []
    edge += [z for x, y, z in places if inside((x, y), ring) == 0]
    edge += _crossings(found, ring)
    every = edge + [z for x, y, z in places if inside((x, y), ring) > 0]
    return Terrain(
        most=ceil(max(every)),
        least=floor(min(every)),
        edge_least=floor(min(edge)),
        fall_to_house=ceil(_fall(found, places, outline)),
        beyond=tuple(beyond),
    )


def _exactly(corner: tuple[int, int]) -> Spot:
    return Fraction(corner[0]), Fraction(corner[1])


def _crossings(found: Sequence[Triangle], ring: Sequence[Spot]) -> list[Fraction]:
    """Return the ground's levels where triangles' sides cross those of the outline."""
    levels = []
    for three in found:
        for one, other in combinations(three, 2):
            for index, corner in enumerate(ring):
                met = meeting(one[:2], other[:2], ring[index - 1], corner)
                if met is None or not on_segment(met, ring[index - 1], corner):
                    continue
                axis = 0 if one[0] != other[0] else 1
                share = (met[axis] - one[axis]) / (other[axis] - one[axis])
                if 0 <= share <= 1:
                    levels.append(one[2] + share * (other[2] - one[2]))
    return levels


def _fall(found: list[Triangle], places: list[Point], outline: Outline) -> Fraction:
    """Return how far the ground falls to the house, from the corner where that is most."""
    walls = [
        (_exactly(place(side.start)), _exactly(place(side.end)))
        for side in outline.sides
        if side.kind == "house"
    ]
    if not walls:
        return Fraction(0)
    corners = [_exactly(place(side.start)) for side in outline.sides]
    away = [corner for corner in corners if all(corner not in wall for wall in walls)]
    if not away:
        others = [side for side in outline.sides if side.kind != "house"]
        ends = [(_exactly(place(side.start)), _exactly(place(side.end))) for side in others]
        away = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ends]
    falls = []
    for corner in away:
        feet = [_nearest(corner, *wall) for wall in walls]
        near = min(_way(corner, foot) for foot in feet)
        low = min(min(levels_near(found, places, foot)[0])
                  for foot in feet if _way(corner, foot) == near)  # fmt: skip
        falls.append(max(levels_near(found, places, corner)[0]) - low)
    return max(falls, default=Fraction(0))


def _way(one: Spot, other: Spot) -> Fraction:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2


def _nearest(spot: Spot, start: Spot, end: Spot) -> Spot:
    """Return the place of a wall nearest to a spot."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = ((spot[0] - start[0]) * dx + (spot[1] - start[1]) * dy) / (dx * dx + dy * dy)
    share = max(Fraction(0), min(Fraction(1), share))
    return start[0] + share * dx, start[1] + share * dy
