"""How far a deck's place is from what lies near, and the nearest shift that clears it, exactly.

Of a thing that must not be met, all shifts that would meet it are one region: the thing, grown by
the distance to keep, swept back over the deck's own rectangle. Where the way of a shift leaves that
region the place is clear. Source: geometry.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import ceil, hypot

from attrs import evolve, frozen

from drylay.geometry import (
    Place,
    Region,
    area_of,
    between_mm,
    bounds,
    box,
    common,
    grown,
    minus,
    moved_by,
    near_area,
    near_line,
    nearest_in,
    region,
    stretches,
    swept,
    to_line_mm,
    whole,
)
from drylay.siting.model import Caster, DeckPlace, Garden, SitingChange
from drylay.siting.told import move_change, moved

#: Shifts are looked for so far, along and across. Assumption.
FAR_MM = 50_000.0
#: So far beyond a plot reaches what is outside of it: no garden file tells a place further off.
OUTSIDE_MM = 1_200_000.0
#: What has no breadth and no distance to keep is taken as so far across either way.
POINT_MM = 1.0
#: A way along the very edge of what must not be met does not meet it: edges are drawn in by this.
EDGE_MM = 0.01
#: Arcs are drawn a little inside: a shift that falls short by that is lengthened, and asked again.
ARC_MM = (1.0, 2.0, 3.0)
Box = tuple[float, float, float, float]


@frozen(kw_only=True)
class Thing:
    """Something that a deck, or what is dug for it, must stay clear of: a line or an area.

    `inside_mm` is a ring to stay inside of. `keep_mm` is the distance to keep; `dug`: from what is
    dug, else from the whole cover.
    """

    line_mm: tuple[Place, ...] = ()
    area: Region | None = None
    inside_mm: tuple[Place, ...] = ()
    keep_mm: float = 0.0
    dug: bool = True


def boxes_of(place: DeckPlace, *, dug: bool) -> tuple[Box, ...]:
    """Return the rectangles that a deck takes up, or that are dug for it: low, then high corner.

    Of a deck on legs whose holes are told only these are dug.
    """
    low, high = (
        (place.along_mm, place.across_mm),
        (place.along_mm + place.size_along_mm, place.across_mm + place.size_across_mm),
    )
    if not dug:
        return ((*low, *high),)
    if place.stands == "legs" and place.holes_mm and place.hole_mm is not None:
        half = place.hole_mm / 2
        return tuple(
            (low[0] + x - half, low[1] + y - half, low[0] + x + half, low[1] + y + half)
            for x, y in place.holes_mm
        )
    margin = place.margin_mm
    return ((low[0] - margin, low[1] - margin, high[0] + margin, high[1] + margin),)


def apart_mm(place: DeckPlace, thing: Thing) -> float:
    """Return how far a place, or what is dug for it, is from a thing; 0 where they meet."""
    boxes = [box(*one) for one in boxes_of(place, dug=thing.dug)]
    area = area_to_miss(thing)
    if area is None:
        return min(to_line_mm(one, thing.line_mm) for one in boxes)
    return min(between_mm(one, area) for one in boxes)


def area_to_miss(thing: Thing) -> Region | None:
    """Return the area that must not be met, all outside of a ring to stay in; None for a line."""
    return outside(region(thing.inside_mm)) if thing.inside_mm else thing.area


def met_by(place: DeckPlace, thing: Thing) -> Region:
    """Return all shifts after which a place comes nearer to a thing than it may."""
    at = (place.along_mm, place.across_mm)
    boxes = tuple(
        (u1 - at[0], v1 - at[1], u2 - at[0], v2 - at[1])
        for u1, v1, u2, v2 in boxes_of(place, dug=thing.dug)
    )
    return moved_by(_met(thing, boxes), -at[0], -at[1])


@lru_cache(maxsize=256)  # many places of one size are asked about the same things
def _met(thing: Thing, boxes: tuple[Box, ...]) -> Region:
    zone = _zone(thing)
    return whole(_back(zone, one) for one in boxes)


def _zone(thing: Thing) -> Region:
    """Return all that is nearer to a thing than it may be."""
    if thing.inside_mm:
        return outside(near_area(region(thing.inside_mm), -thing.keep_mm))
    if thing.area is None:
        return near_line(thing.line_mm, max(thing.keep_mm, POINT_MM))
    return near_area(thing.area, thing.keep_mm) if thing.keep_mm else thing.area


def _back(zone: Region, one: Box) -> Region:
    """Return a zone swept back over a rectangle: the shifts that bring the one into the other."""
    u1, v1, u2, v2 = one
    over = swept(swept(zone, u1 - u2, 0.0), 0.0, v1 - v2)
    return moved_by(over, -u1, -v1)


def outside(area: Region) -> Region:
    """Return all that lies outside of an area, further than anything may be told or shifted."""
    far_mm = OUTSIDE_MM
    if area.is_empty:
        return box(-far_mm, -far_mm, far_mm, far_mm)
    u1, v1, u2, v2 = bounds(area)
    return minus(box(u1 - far_mm, v1 - far_mm, u2 + far_mm, v2 + far_mm), area)


def boundary(garden: Garden) -> tuple[Thing, ...]:
    """Return the plot as a ring to stay in, with what is to be left to it; () if not told."""
    if not garden.plot_mm:
        return ()
    return (Thing(inside_mm=garden.plot_mm, keep_mm=garden.clear_mm, dug=False),)


def solids(garden: Garden) -> tuple[Caster, ...]:
    """Return the buildings that a deck cannot stand in: those that reach down to their foot."""
    return tuple(
        caster for caster in garden.casters if len(caster.corners_mm) > 2 and not caster.clear_mm
    )


def solid_things(garden: Garden) -> tuple[Thing, ...]:
    """Return these as things to keep off."""
    return tuple(Thing(area=region(one.corners_mm), dug=False) for one in solids(garden))


def never(garden: Garden) -> tuple[Thing, ...]:
    """Return what no shift may end in: beyond the plot, and in a building."""
    return (*boundary(garden), *solid_things(garden))


def clearing(place: DeckPlace, things: Sequence[Thing]) -> SitingChange | None:
    """Return the nearest shift after which a place keeps clear of all things; None if none is.

    Along or across where that can be, in whole mm, up; else both. None where it is clear already.
    """
    if _clear(place, things, (0.0, 0.0)):
        return None
    met = grown(whole(met_by(place, thing) for thing in things), -EDGE_MM)
    ways = sorted(_axis_ways(met), key=lambda way: (way[0], way[1]))
    for far_mm, along, across in ways:
        for far in (far_mm, *(far_mm + more for more in ARC_MM)):
            if far and _clear(place, things, (along * far, across * far)):
                return move_change((along, across), far)
    return _slanting(place, things, met)


def _axis_ways(met: Region) -> Iterator[tuple[float, int, int]]:
    """Yield the shortest shifts along and across that leave a region: how far, and which way."""
    for along, across in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        end = (along * FAR_MM, across * FAR_MM)
        far = 0.0
        for start_mm, end_mm in stretches(met, (0.0, 0.0), end):
            if start_mm > far:
                break
            far = float(ceil(round(end_mm, 3)))
        if far < FAR_MM:
            yield far, along, across


def _slanting(place: DeckPlace, things: Sequence[Thing], met: Region) -> SitingChange | None:
    free = minus(box(-FAR_MM, -FAR_MM, FAR_MM, FAR_MM), met)
    near = nearest_in(free, (0.0, 0.0))
    if near is None:
        return None
    for extra in (0.0, *ARC_MM):
        along, across = (_outwards(way, extra) for way in near)
        if _clear(place, things, (along, across)):
            text = moved(along, across)
            return SitingChange(
                kind="move", subject="place", along_mm=along, across_mm=across, text=text
            )
    return None


def _outwards(way_mm: float, extra_mm: float) -> float:
    far = float(ceil(round(abs(way_mm), 2)))
    far += extra_mm if far else 0.0
    return far if way_mm >= 0 else -far


def _clear(place: DeckPlace, things: Sequence[Thing], shift_mm: Place) -> bool:
    there = shifted(place, *shift_mm)
    return all(keeps(there, thing) for thing in things)


def keeps(place: DeckPlace, thing: Thing) -> bool:
    """Whether a place keeps clear of a thing; it may touch what it has to keep no distance to."""
    if thing.keep_mm > 0:
        return apart_mm(place, thing) >= thing.keep_mm
    area = area_to_miss(thing)
    if area is None:
        return apart_mm(place, thing) > 0
    boxes = [box(*one) for one in boxes_of(place, dug=thing.dug)]
    return all(area_of(common(one, area)) == 0 for one in boxes)


def shifted(place: DeckPlace, along_mm: float, across_mm: float) -> DeckPlace:
    """Return a place moved; the ground's levels there are others, so that they are not known."""
    if not hypot(along_mm, across_mm):
        return place
    return evolve(
        place,
        along_mm=place.along_mm + along_mm,
        across_mm=place.across_mm + across_mm,
        ground_most_mm=None,
        ground_least_mm=None,
    )
