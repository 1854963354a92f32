"""The dig under an outline: its sides grown by their margins, less pools and the roots of trees."""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import evolve, frozen

from drylay.geometry import (
    Place,
    Region,
    bounds,
    crossing,
    hole_rings,
    minus,
    parts_of,
    region,
    ring_of,
    shifted,
    whole,
)
from drylay.groundwork.dig import dig_of
from drylay.groundwork.model import Dig, RootZone
from drylay.groundwork.rounding import said
from drylay.marks import PER_MM, exact, to_mm
from drylay.rings import twice_area

#: A root zone is taken as the shape of so many corners that goes just round its circle.
ROUND_CORNERS = 64
#: Corners are all kept, however near the straight: a margin may be as little as 1/320 mm.
EVERY_CORNER_MM = 0.0


@frozen(kw_only=True)
class DigSide:
    """One side of an outline as it is dug: how far beyond it."""

    start_mm: Place
    end_mm: Place
    margin_mm: float


@frozen(kw_only=True)
class Dug:
    """What is dug: the outline grown by its margins, and what of that the dig leaves out."""

    grown: Region
    area: Region
    roots: tuple[RootZone, ...] = ()


def dug_of(
    sides: Sequence[DigSide],
    *,
    roots: Sequence[RootZone] = (),
    water: Sequence[Sequence[Place]] = (),
) -> Dug:
    """Return what is dug under an outline: nothing within roots, nor where water lies."""
    area = grown_by_margins(sides)
    for ring in water:
        area = minus(area, region(ring))
    dug = area
    for zone in roots:
        dug = minus(dug, region(round_zone(zone)))
    return Dug(grown=_snapped(area), area=_snapped(dug), roots=tuple(roots))


def round_zone(zone: RootZone) -> tuple[Place, ...]:
    """Return the regular shape that goes just round a root zone, its first side square to along."""
    reach = zone.radius_mm / math.cos(math.pi / ROUND_CORNERS)
    middle = zone.middle
    return tuple(
        (middle.along_mm + reach * math.cos(turn), middle.across_mm + reach * math.sin(turn))
        for turn in ((2 * k + 1) * math.pi / ROUND_CORNERS for k in range(ROUND_CORNERS))
    )


def grown_by_margins(sides: Sequence[DigSide]) -> Region:
    """Return an outline with the margin of each side beyond it, corners kept sharp."""
    rings = [tuple(side.start_mm for side in sides)]
    for number, side in enumerate(sides):
        outer = shifted(side.start_mm, side.end_mm, -side.margin_mm)
        rings.append((side.start_mm, outer[0], outer[1], side.end_mm))
        rings += _corner(sides[number - 1], side)
    return whole(region(ring) for ring in rings if len(set(ring)) > 2)


def _corner(before: DigSide, side: DigSide) -> Iterator[tuple[Place, ...]]:
    """Yield what lies between the margins of two sides at a convex corner; nothing at others.

    Their outer lines run on until they meet; where they meet before the corner they are joined
    straight across.
    """
    (ax, ay), (bx, by), (cx, cy) = before.start_mm, side.start_mm, side.end_mm
    one, two = (bx - ax, by - ay), (cx - bx, cy - by)
    if one[0] * two[1] - one[1] * two[0] <= 0:
        return
    first = shifted(before.start_mm, before.end_mm, -before.margin_mm)
    second = shifted(side.start_mm, side.end_mm, -side.margin_mm)
    met = crossing(*first, *second)
    beyond = met is not None and all(
        sign * ((met[0] - bx) * way[0] + (met[1] - by) * way[1]) >= -1e-6
        for way, sign in ((one, 1), (two, -1))
    )
    middle = (met,) if met is not None and beyond else ()
    yield ((bx, by), first[1], *middle, second[0])


def _snapped(area: Region) -> Region:
    """Return an area with its corners in whole 1/320 mm."""
    return whole(
        region(
            _on_320(ring_of(part, EVERY_CORNER_MM)), [_on_320(hole) for hole in hole_rings(part)]
        )
        for part in parts_of(area)
    )


def _on_320(ring: Sequence[Place]) -> list[Place]:
    return [(to_mm(exact(along)), to_mm(exact(across))) for along, across in ring]


def area_m2(area: Region) -> float:
    """Return an area, up to the next mm2: exactly that of its corners in whole 1/320 mm."""
    parts = [part for part in parts_of(area) if not part.is_empty]
    outer = sum(abs(_twice(ring_of(part, EVERY_CORNER_MM))) for part in parts)
    twice = outer - sum(abs(_twice(hole)) for part in parts for hole in hole_rings(part))
    return math.ceil(Fraction(twice, 2 * PER_MM**2)) / 1_000_000


def _twice(ring: Sequence[Place]) -> int:
    return twice_area(tuple((exact(along), exact(across)) for along, across in ring))


def lay_outlined_dig(
    dug: Dug, *, margin_mm: float, house_margin_mm: float, depth_mm: float, spoil: str
) -> Dig | None:
    """Return the dig under an outline and the earth that comes out; None where nothing is dug.

    `along_mm` and `across_mm` are those of the grown outline from end to end.
    """
    square_m2 = area_m2(dug.area)
    if not square_m2:
        return None
    u1, v1, u2, v2 = bounds(dug.grown)
    dig = dig_of(
        along_mm=to_mm(exact(u2) - exact(u1)),
        across_mm=to_mm(exact(v2) - exact(v1)),
        area_m2=said(square_m2),
        margin_mm=margin_mm,
        house_margin_mm=house_margin_mm,
        depth_mm=depth_mm,
        spoil=spoil,
    )
    left_m2 = to_micro(said(area_m2(dug.grown)) - said(square_m2))
    left = left_m2 if dug.roots else None
    return evolve(dig, area_m2=square_m2, roots=dug.roots, roots_m2=left)


def to_micro(square_m2: Fraction) -> float:
    """Return an area in whole mm2 as m2."""
    return int(square_m2 * 1_000_000) / 1_000_000
