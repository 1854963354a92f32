"""Plane geometry in millimetres, over shapely: for rooms that lay out what is no rectangle.

A `Place` is a pair of millimetres, a `Ring` the corners of a shape in order, a `Region` any area,
in one part or several. The auditor never sees this file.
"""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import shapely
from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

Place = tuple[float, float]
Ring = tuple[Place, ...]
Region = Polygon | MultiPolygon
#: An area in one part.
OnePart = Polygon

#: Areas smaller than this are what rounding leaves of nothing: 1 mm2.
NOTHING_MM2 = 1.0
#: Places are snapped to this where areas are cut: two lines that cross at a hair's breadth would
#: else leave a spike.
GRID_MM = 1e-4
#: Two places nearer than this are one: rounding to 1/320 mm moves either by no more.
SAME_MM = 0.01


def region(ring: Iterable[Place], holes: Iterable[Sequence[Place]] = ()) -> Region:
    """Return the area inside a ring, less that inside the holes."""
    return Polygon(list(ring), [list(hole) for hole in holes])


def whole(areas: Iterable[Region]) -> Region:
    """Return all areas together as one."""
    return _areas_of(shapely.union_all(list(areas), grid_size=GRID_MM))


def common(one: Region, other: Region) -> Region:
    """Return what two areas share."""
    return _areas_of(one.intersection(other, grid_size=GRID_MM))


def shared_across(one: Region, other: Region) -> float:
    """Return how far what two areas share reaches up the second axis, dust counted; 0 if none."""
    shared = one.intersection(other)
    return 0.0 if shared.is_empty else float(shared.bounds[3] - shared.bounds[1])


def minus(one: Region, other: Region) -> Region:
    """Return what is left of an area without another."""
    return _areas_of(one.difference(other, grid_size=GRID_MM))


def grown(one: Region, by_mm: float) -> Region:
    """Return an area grown by so much all round, corners kept sharp; shrunk where below 0."""
    return _areas_of(one.buffer(by_mm, join_style="mitre", mitre_limit=20.0))


def _areas_of(found: BaseGeometry) -> Region:
    """Return the areas of what an operation left, without lines, points and dust."""
    parts = [
        part
        for part in getattr(found, "geoms", [found])
        if isinstance(part, Polygon) and part.area > NOTHING_MM2
    ]
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def parts_of(area: Region) -> tuple[Polygon, ...]:
    """Return the parts of an area that do not touch, as polygons."""
    return tuple(area.geoms) if isinstance(area, MultiPolygon) else (area,)


def ring_of(part: Polygon, straight_mm: float = SAME_MM) -> Ring:
    """Return a part's corners, along turning towards across, without any on a straight side."""
    places = list(shapely.orient_polygons(part).exterior.coords)[:-1]
    return without_straight([(float(x), float(y)) for x, y in places], straight_mm)


def without_straight(places: Sequence[Place], straight_mm: float = SAME_MM) -> Ring:
    """Return corners without those that lie on the straight between their neighbours."""
    kept = list(places)
    at = 0
    while at < len(kept) and len(kept) > 3:
        before, here, after = kept[at - 1], kept[at], kept[(at + 1) % len(kept)]
        if math.dist(before, here) < straight_mm or off_line(before, after, here) < straight_mm:
            del kept[at]
            at = max(0, at - 1)
        else:
            at += 1
    return tuple(kept)


def off_line(start: Place, end: Place, place: Place) -> float:
    """Return how far a place lies off the straight through two others."""
    (x1, y1), (x2, y2), (x, y) = start, end, place
    long = math.dist(start, end)
    if long < SAME_MM:
        return math.dist(start, place)
    return abs((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / long


def crossing(a: Place, b: Place, c: Place, d: Place) -> Place | None:
    """Return where the straights through a, b and c, d meet; None where they are parallel."""
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = a, b, c, d
    turn = (x2 - x1) * (y4 - y3) - (y2 - y1) * (x4 - x3)
    if abs(turn) < 1e-9 * math.dist(a, b) * math.dist(c, d):
        return None
    part = ((x3 - x1) * (y4 - y3) - (y3 - y1) * (x4 - x3)) / turn
    return (x1 + part * (x2 - x1), y1 + part * (y2 - y1))


def shifted(start: Place, end: Place, left_mm: float) -> tuple[Place, Place]:
    """Return a straight moved to its left, from along towards across; to its right below 0."""
    (x1, y1), (x2, y2) = start, end
    long = math.dist(start, end)
    dx, dy = -(y2 - y1) / long * left_mm, (x2 - x1) / long * left_mm
    return (x1 + dx, y1 + dy), (x2 + dx, y2 + dy)


def inset(ring: Sequence[Place], off_mm: Sequence[float]) -> Ring:
    """Return a ring with each side moved inwards by its own distance, corners where sides meet.

    `off_mm` runs in step with the sides, the first from the first corner to the second. Where two
    neighbours lie in one straight the corner moves square to them, by the first's distance.
    """
    lines = [shifted(ring[at], ring[(at + 1) % len(ring)], off) for at, off in enumerate(off_mm)]
    corners = []
    for at, line in enumerate(lines):
        before = lines[at - 1]
        corners.append(crossing(*before, *line) or before[1])
    return tuple(corners)


def area_mm2(ring: Sequence[Place]) -> float:
    """Return the area a ring encloses, below 0 where it runs the other way round."""
    twice = sum(
        x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(ring, [*ring[1:], ring[0]], strict=True)
    )
    return twice / 2


def stretches(area: Region, start: Place, end: Place) -> tuple[tuple[float, float], ...]:
    """Return the parts of a straight inside an area, each as distances from its start."""
    found = area.intersection(shapely.LineString([start, end]))
    spans = []
    for part in getattr(found, "geoms", [found]):
        if isinstance(part, shapely.LineString) and part.length > SAME_MM:
            reach = sorted(math.dist(start, place) for place in part.coords)
            spans.append((reach[0], reach[-1]))
    return tuple(sorted(spans))


def shared_edges(part: Polygon, beyond: Region) -> tuple[tuple[Place, Place], ...]:
    """Return the straights along which an area beyond touches a part, round the part."""
    found = []
    for ring in (ring_of(part), *hole_rings(part)):
        for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], *ring[:1]), strict=True):
            long = math.dist((x1, y1), (x2, y2))
            for span in stretches(beyond, (x1, y1), (x2, y2)):
                one, other = (
                    (x1 + (x2 - x1) * at / long, y1 + (y2 - y1) * at / long) for at in span
                )
                found.append((one, other))
    return tuple(found)


def turned(area: Region, cos_ratio: float, sin_ratio: float) -> Region:
    """Return an area as seen along a run of that cosine and sine: run first, then left of it."""
    return shapely.transform(
        area, lambda xy: xy @ [[cos_ratio, -sin_ratio], [sin_ratio, cos_ratio]]
    )


def box(u1: float, v1: float, u2: float, v2: float) -> Region:
    """Return the rectangle between two corners."""
    return shapely.box(u1, v1, u2, v2)


def bounds(area: Region) -> tuple[float, float, float, float]:
    """Return the least and the greatest of both coordinates: u, v, then u, v."""
    u1, v1, u2, v2 = area.bounds
    return (float(u1), float(v1), float(u2), float(v2))


def hole_rings(part: Polygon) -> tuple[Ring, ...]:
    """Return the holes inside a part."""
    return tuple(
        tuple((float(x), float(y)) for x, y in list(hole.coords)[:-1]) for hole in part.interiors
    )


def hull(places: Iterable[Place]) -> Region:
    """Return the least area without re-entrant corners that holds all places."""
    return _areas_of(shapely.MultiPoint(list(places)).convex_hull)


def nearest_in(area: Region, place: Place) -> Place | None:
    """Return the place of an area nearest to a place, itself where it lies within; None if none."""
    if area.is_empty:
        return None
    near = nearest_points(area, shapely.Point(place))[0]
    return (float(near.x), float(near.y))


def within(place: Place, area: Region) -> bool:
    """Whether a place lies inside an area or on its edge."""
    return bool(area.covers(shapely.Point(place)))


def boxes_in(area: Region, boxes: Sequence[tuple[float, float, float, float]]) -> list[bool | None]:
    """Return of each box (u, v, then u, v) whether it lies in an area: None where it only meets it.

    A box that shares no more than its edge with the area lies outside, or meets it.
    """
    if not boxes:
        return []
    u1, v1, u2, v2 = ([float(edge) for edge in edges] for edges in zip(*boxes, strict=True))
    drawn = shapely.box(u1, v1, u2, v2)
    shapely.prepare(area)
    held, met = shapely.covers(area, drawn), shapely.intersects(area, drawn)
    return [
        True if covered else None if touched else False
        for covered, touched in zip(held, met, strict=True)
    ]


def slimmest_mm(ring: Sequence[Place]) -> float:
    """Return how far apart the nearest two parallels are that hold a ring between them."""
    outer = shapely.MultiPoint(list(ring)).convex_hull
    if not isinstance(outer, Polygon):
        return 0.0
    corners = [(float(x), float(y)) for x, y in outer.exterior.coords]
    return min(
        max(off_line(start, end, place) for place in corners) for start, end in pairwise(corners)
    )


def to_side_mm(place: Place, start: Place, end: Place) -> float:
    """Return how far a place is from a straight between two others, its ends among it."""
    (x1, y1), (x2, y2), (x, y) = start, end, place
    square = (x2 - x1) ** 2 + (y2 - y1) ** 2
    if square == 0:
        return math.dist(place, start)
    share = min(1.0, max(0.0, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / square))
    return math.dist(place, (x1 + share * (x2 - x1), y1 + share * (y2 - y1)))


#: Arcs are drawn with so many straights to a quarter, inside of the true one: less than 1 in
#: 10,000 short.
QUARTER = 64


def near_line(line: Sequence[Place], by_mm: float) -> Region:
    """Return all that lies within so much of a line through places, or of one place."""
    found = shapely.LineString(line) if len(line) > 1 else shapely.Point(line[0])
    return _areas_of(found.buffer(by_mm, quad_segs=QUARTER))


def near_area(area: Region, by_mm: float) -> Region:
    """Return an area with all that lies within so much of it."""
    return _areas_of(area.buffer(by_mm, quad_segs=QUARTER))


def to_line_mm(area: Region, line: Sequence[Place]) -> float:
    """Return how far an area is from a line through places, or from one place; 0 if they meet."""
    found = shapely.LineString(line) if len(line) > 1 else shapely.Point(line[0])
    return float(area.distance(found))


def swept(area: Region, along_mm: float, across_mm: float) -> Region:
    """Return all places that an area passes over when it is moved straight by so much."""
    return whole(one for part in parts_of(area) for one in _swept_parts(part, along_mm, across_mm))


def _swept_parts(part: Polygon, along_mm: float, across_mm: float) -> list[Region]:
    """Return areas that make up what a part passes over: one where it has no re-entrant corner."""
    moved = shapely.transform(part, lambda xy: xy + [along_mm, across_mm])
    outer = part.convex_hull
    if part.area >= outer.area * (1 - 1e-12):
        return [hull([*part.exterior.coords, *moved.exterior.coords])]
    shift = (along_mm, across_mm)
    corners = [
        [one, other, _moved(one, shift), _moved(other, shift)]
        for ring in (part.exterior, *part.interiors)
        for one, other in pairwise(ring.coords)
    ]
    hulls = shapely.convex_hull(shapely.multipoints(corners))
    return [part, moved, *(one for one in hulls if isinstance(one, Polygon))]


def _moved(place: Sequence[float], shift: Place) -> Place:
    return (place[0] + shift[0], place[1] + shift[1])


def moved_by(area: Region, along_mm: float, across_mm: float) -> Region:
    """Return an area moved straight by so much."""
    return shapely.transform(area, lambda xy: xy + [along_mm, across_mm])


def between_mm(one: Region, other: Region) -> float:
    """Return how far two areas are apart; 0 where they meet."""
    return float(one.distance(other))


def area_of(area: Region) -> float:
    """Return how large an area is, in mm2."""
    return float(area.area)


def shared_mm2(one: Region, other: Region) -> float:
    """Return how large the area is that two areas share, in mm2, dust counted."""
    return float(one.intersection(other).area)


def apart_mm(area: Region, start: Place, end: Place) -> float:
    """Return how far a straight is from an area, 0 where they touch; endless where it is none."""
    return math.inf if area.is_empty else float(area.distance(shapely.LineString([start, end])))


def all_apart(
    straights: Sequence[tuple[Place, Place]], areas: Sequence[tuple[Region, float]]
) -> list[bool]:
    """Return of each straight whether it is at least so far from every area as told of it."""
    if not straights:
        return []
    lines = shapely.linestrings(list(straights))
    apart = [~(shapely.distance(area, lines) < least_mm) for area, least_mm in areas]
    return [all(each) for each in zip(*apart, strict=True)]


def straights_apart_mm(one: tuple[Place, Place], other: tuple[Place, Place]) -> float:
    """Return how far two straights are from each other, 0 where they touch or cross."""
    return float(shapely.LineString(one).distance(shapely.LineString(other)))
