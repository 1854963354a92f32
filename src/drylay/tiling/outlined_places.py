"""Tiles in the places of a grid over an outline: whole, cut, shaped; and how narrow each is left.

All lengths are mm, all places are in the grid's axes: along the run, and to the left of it.
"""

import math
from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from drylay.geometry import (
    OnePart,
    Place,
    Region,
    Ring,
    bounds,
    box,
    boxes_in,
    common,
    grown,
    hole_rings,
    minus,
    parts_of,
    region,
    ring_of,
    slimmest_mm,
    to_side_mm,
    within,
)
from drylay.marks import PER_MM, to_mm

#: A way across a tile runs within it where its middle lies so far off all sides.
OFF_SIDES_MM = 0.02
#: What rounding to 1/320 mm takes off a tile's edges, or leaves of them: no wider than twice this.
HAIR_MM = 0.0035
#: A corner of a tile is there where it is no further off than this.
CORNER_MM = 0.01


@frozen(kw_only=True)
class Grid:
    """A grid of tiles: their size, the joint, and where one of its places begins, in 1/320 mm."""

    length: int
    width: int
    joint: int
    along: int
    left: int

    def place(self, column: int, row: int) -> tuple[float, float, float, float]:
        """Return the box of a place."""
        u = self.along + column * (self.length + self.joint)
        v = self.left + row * (self.width + self.joint)
        return to_mm(u), to_mm(v), to_mm(u + self.length), to_mm(v + self.width)


@frozen(kw_only=True)
class Part:
    """What lies in one place: its ring, the box about it, how narrow it is; `letter` of several."""

    column: int
    row: int
    letter: str
    ring: Ring
    length_mm: float
    width_mm: float
    narrow_mm: float
    cut: bool
    shaped: bool


def parts_on(area: Region, grid: Grid) -> tuple[Part, ...]:
    """Return the tile, or tiles, in every place that holds some of an area, row by row."""
    places = [(column, row) for row, column in _reach(area, grid)]
    boxes = [grid.place(*place) for place in places]
    found: list[Part] = []
    for place, about, held in zip(places, boxes, boxes_in(area, boxes), strict=True):
        if held:
            found.append(_whole(place, about))
        elif held is None:
            found += _some(area, grid, place, about)
    return tuple(found)


def _reach(area: Region, grid: Grid) -> Iterator[tuple[int, int]]:
    """Yield row and column of every place that may hold some of an area."""
    u1, v1, u2, v2 = (edge * PER_MM for edge in bounds(area))
    along, across = grid.length + grid.joint, grid.width + grid.joint
    columns = range(math.floor((u1 - grid.along) / along), math.ceil((u2 - grid.along) / along))
    rows = range(math.floor((v1 - grid.left) / across), math.ceil((v2 - grid.left) / across))
    yield from ((row, column) for row in rows for column in columns)


def _whole(place: tuple[int, int], about: tuple[float, float, float, float]) -> Part:
    u1, v1, u2, v2 = about
    return Part(
        column=place[0],
        row=place[1],
        letter="",
        ring=((u1, v1), (u2, v1), (u2, v2), (u1, v2)),
        length_mm=u2 - u1,
        width_mm=v2 - v1,
        narrow_mm=min(u2 - u1, v2 - v1),
        cut=False,
        shaped=False,
    )


def _some(
    area: Region, grid: Grid, place: tuple[int, int], about: tuple[float, float, float, float]
) -> list[Part]:
    """Return what an area leaves of a place, in parts where it is parted."""
    place_area = box(*about)
    left = [
        part
        for each in parts_of(common(area, place_area))
        for part in _unthreaded(each, to_mm(grid.joint), along=grid.length >= grid.width)
        if not _is_hair(part)
    ]
    if len(left) == 1 and _fills(left[0], place_area):
        return [_whole(place, about)]
    found = sorted((_part(place, part) for part in left), key=_first)
    if len(found) == 1:
        return found
    return [evolve(each, letter=chr(ord("a") + at)) for at, each in enumerate(found)]


def _is_hair(area: Region) -> bool:
    """Return whether nothing of an area is wider than rounding may make it."""
    return area.is_empty or grown(area, -HAIR_MM).is_empty


def _fills(part: Region, whole: Region) -> bool:
    """Return whether a part is the whole of a box, but for what rounding takes off it.

    Corners are looked at on their own: what is cut off one may be less than 1 mm2.
    """
    u1, v1, u2, v2 = bounds(whole)
    nearly = grown(part, CORNER_MM)
    corners = ((u1, v1), (u2, v1), (u2, v2), (u1, v2))
    return all(within(at, nearly) for at in corners) and _is_hair(minus(whole, part))


def _first(part: Part) -> tuple[float, float]:
    us, vs = zip(*part.ring, strict=True)
    return round(min(us), 2), round(min(vs), 2)


def _unthreaded(part: OnePart, joint_mm: float, *, along: bool) -> Iterator[OnePart]:
    """Yield a tile parted by a joint through the middle of each opening that it lies round."""
    holes = hole_rings(part)
    if not holes:
        yield part
        return
    u1, v1, u2, v2 = bounds(region(holes[0]))
    middle, half = ((u1 + u2) / 2 if along else (v1 + v2) / 2), joint_mm / 2
    low, high, far = middle - half, middle + half, 1e7
    strip = box(low, -far, high, far) if along else box(-far, low, far, high)
    for each in parts_of(minus(part, strip)):
        yield from _unthreaded(each, joint_mm, along=along)


def _part(place: tuple[int, int], part: OnePart) -> Part:
    ring = ring_of(part)
    u1, v1, u2, v2 = bounds(part)
    shaped = not _fills(part, box(u1, v1, u2, v2))
    narrow = narrowest_mm(ring) if shaped else min(u2 - u1, v2 - v1)
    return Part(
        column=place[0],
        row=place[1],
        letter="",
        ring=ring,
        length_mm=u2 - u1,
        width_mm=v2 - v1,
        narrow_mm=narrow,
        cut=True,
        shaped=shaped,
    )


def narrowest_mm(ring: Sequence[Place]) -> float:
    """Return the least way across a shape: between parallels, and from its re-entrant corners.

    A way from a corner counts where it runs within the shape: where its middle lies in it, and not
    on a side.
    """
    return min([slimmest_mm(ring), *_necks_mm(ring)])


def _necks_mm(ring: Sequence[Place]) -> Iterator[float]:
    count = len(ring)
    inside = grown(region(ring), -OFF_SIDES_MM)
    for at, corner in enumerate(ring):
        before, after = ring[at - 1], ring[(at + 1) % count]
        if _turn(before, corner, after) >= 0:
            continue
        for other in range(count):
            start, end = ring[other], ring[(other + 1) % count]
            if at in {other, (other + 1) % count}:
                continue
            foot = _foot(corner, start, end)
            middle = ((corner[0] + foot[0]) / 2, (corner[1] + foot[1]) / 2)
            if within(middle, inside):
                yield to_side_mm(corner, start, end)


def _turn(a: Place, b: Place, c: Place) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _foot(place: Place, start: Place, end: Place) -> Place:
    (x1, y1), (x2, y2), (x, y) = start, end, place
    square = (x2 - x1) ** 2 + (y2 - y1) ** 2
    share = ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / square if square else 0.0
    share = min(1.0, max(0.0, share))
    return x1 + share * (x2 - x1), y1 + share * (y2 - y1)
