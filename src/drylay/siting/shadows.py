"""Shadows on the level of a deck's top, in closed form: plane geometry over upright walls.

A shadow reaches h / tan(altitude) away from the sun, h being how far the caster's top lies over the
level asked about. What hangs over it, such as a crown, throws one that starts away from its foot.
Source: geometry. The sun is taken as a point, and what throws a shadow as solid: half-shade, and
light through leaves and slats, are not reckoned.
"""

from collections.abc import Iterable, Sequence
from math import cos, pi, radians, sin, tan

from drylay.geometry import (
    Place,
    Region,
    area_of,
    hull,
    region,
    shared_mm2,
    swept,
    whole,
    within,
)
from drylay.siting.model import Caster, DeckPlace, Fence, Garden, SunPosition, Tree

#: A lower sun than this throws shadows without an end: nothing is taken to be in the sun.
LOWEST_DEG = 0.5
#: A round crown is drawn with so many straights about it, none inside: its shadow is never less.
CROWN_SIDES = 24


def shadow_mm(height_mm: float, altitude_deg: float) -> float:
    """Return how long the shadow of an upright is on level ground, in mm.

    Source: geometry, h / tan(altitude).
    """
    return height_mm / tan(radians(altitude_deg))


def shadow_way(sun: SunPosition, along_bearing_deg: float) -> tuple[float, float]:
    """Return which way shadows fall, as parts of a length: along, across.

    Along runs in the bearing told, and across a right angle clockwise of it. Source: geometry.
    """
    turn = radians(sun.azimuth_deg + 180 - along_bearing_deg)
    return cos(turn), sin(turn)


def shadow_of(
    caster: Caster, sun: SunPosition, along_bearing_deg: float, level_mm: float
) -> Region | None:
    """Return a caster's shadow on a level; None where it throws none there.

    None too where the sun is below LOWEST_DEG: then all lies in shade. Source: geometry.
    """
    top_mm = caster.foot_mm + caster.height_mm - level_mm
    if sun.altitude_deg < LOWEST_DEG or top_mm <= 0:
        return None
    under_mm = max(0.0, caster.foot_mm + caster.clear_mm - level_mm)
    along, across = shadow_way(sun, along_bearing_deg)
    near_mm = shadow_mm(under_mm, sun.altitude_deg)
    far_mm = shadow_mm(top_mm, sun.altitude_deg)
    moved = [(x + along * near_mm, y + across * near_mm) for x, y in caster.corners_mm]
    reach = ((far_mm - near_mm) * along, (far_mm - near_mm) * across)
    if len(moved) == 2:
        return hull([*moved, *((x + reach[0], y + reach[1]) for x, y in moved)])
    return swept(region(moved), *reach)


def casters_of(garden: Garden) -> tuple[Caster, ...]:
    """Return everything in a garden that throws shadows: walls, fences, crowns of trees."""
    fences = (_fence(fence) for fence in garden.fences)
    crowns = (crown for tree in garden.trees for crown in _crown(tree))
    return (*garden.casters, *fences, *crowns)


def _fence(fence: Fence) -> Caster:
    return Caster(
        name=fence.name,
        corners_mm=(fence.start_mm, fence.end_mm),
        height_mm=fence.height_mm,
        foot_mm=fence.foot_mm,
    )


def _crown(tree: Tree) -> Iterable[Caster]:
    """Yield a tree's crown as an upright drum; nothing where height or crown are not known.

    A crown whose underside nobody told reaches to the ground: never more sun than there is.
    """
    if tree.height_mm is None or tree.crown_mm is None:
        return
    radius_mm = tree.crown_mm / 2 / cos(pi / CROWN_SIDES)
    yield Caster(
        name=tree.name,
        corners_mm=tuple(
            (
                tree.at_mm[0] + radius_mm * cos(2 * pi * side / CROWN_SIDES),
                tree.at_mm[1] + radius_mm * sin(2 * pi * side / CROWN_SIDES),
            )
            for side in range(CROWN_SIDES)
        ),
        height_mm=tree.height_mm,
        clear_mm=tree.clear_mm or 0.0,
        foot_mm=tree.foot_mm,
    )


def shade(
    casters: Sequence[Caster], sun: SunPosition, along_bearing_deg: float, level_mm: float
) -> Region | None:
    """Return all shadows on a level together; None where the sun is too low for any of it."""
    if sun.altitude_deg < LOWEST_DEG:
        return None
    found = (shadow_of(caster, sun, along_bearing_deg, level_mm) for caster in casters)
    return whole([one for one in found if one is not None])


def sunny_ratio(cover: Region, shaded: Region | None) -> float:
    """Return which share of an area is in the sun, 0 where the sun is down, never above 1."""
    if shaded is None:
        return 0.0
    return max(0.0, 1.0 - shared_mm2(cover, shaded) / area_of(cover))


def in_sun(spot_mm: Place, shaded: Region | None) -> bool:
    """Whether a place is in the sun; on a shadow's edge it is not."""
    return shaded is not None and not within(spot_mm, shaded)


def cover_of(place: DeckPlace) -> Region:
    """Return the rectangle that a deck covers at a place."""
    low = (place.along_mm, place.across_mm)
    high = (low[0] + place.size_along_mm, low[1] + place.size_across_mm)
    return region((low, (high[0], low[1]), high, (low[0], high[1])))
