"""Tiles on an outline: how narrow each is left, how a rectangle is cut, hatches that lift out."""

from collections.abc import Iterator
from math import isqrt

from drylay.audit.exact import Fraction, ticks
from drylay.audit.flaws import off_by, same_count, same_length
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    fault,
    outline_of,
    outlines,
    shape,
)
from drylay.audit.outlined_tiles import Lattice, lattice_of, tiles_of
from drylay.audit.plane import (
    UNIT,
    Place,
    Shape,
    box,
    inside,
    sides_of,
    squared_reach,
    squared_to_edge,
    turn,
)
from drylay.outline.model import Opening
from drylay.plan.model import Plan
from drylay.tiling.outline_model import LaidTile, OutlineTiles

NARROW = outlines("Tiles on an outline: narrow_mm")
HATCHES = outlines("Tiles on an outline: a hatch")
SET_OUT = outlines("Tiles on an outline: the set-out")
#: A way across a tile counts where its middle lies so far off all sides, in 1/320 mm.
OFF_SIDES = 6
CLEAR_MM = 40.0
WAYS = ("as_wished", "rip_both", "rip_last", "set_out")


def narrow(corners: Shape) -> Fraction:
    """Return the least way across a shape, in 1/320 mm: see the conventions on `narrow_mm`."""
    outer = hull(corners)
    squares: list[Fraction] = []
    for start, end in sides_of(outer):
        long = Fraction((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2)
        far = max(turn(start, end, place) for place in outer)
        squares.append(Fraction(far * far) / long)
    squares += _necks(corners)
    least = min(squares)
    return Fraction(isqrt((least.numerator << 32) // least.denominator), 1 << 16)


def _necks(corners: Shape) -> Iterator[Fraction]:
    sides = list(sides_of(corners))
    for index, corner in enumerate(corners):
        if turn(corners[index - 1], corner, corners[(index + 1) % len(corners)]) >= 0:
            continue
        for start, end in sides:
            if corner in {start, end}:
                continue
            foot = _foot(corner, start, end)
            middle = (Fraction(corner[0] + foot[0]) / 2, Fraction(corner[1] + foot[1]) / 2)
            if inside(middle, corners) > 0 and (squared_to_edge(middle, corners) > OFF_SIDES**2):
                yield Fraction(squared_reach(corner, start, end))


def _foot(place: Place, start: Place, end: Place) -> Place:
    (x, y), (ax, ay), (bx, by) = place, start, end
    long = (bx - ax) ** 2 + (by - ay) ** 2
    share = Fraction((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / long
    share = min(Fraction(1), max(Fraction(0), share))
    return ax + share * (bx - ax), ay + share * (by - ay)


def hull(corners: Shape) -> Shape:
    """Return the corners of the least shape without re-entrant corners that holds some places."""
    order = sorted(set(corners))
    half: list[list[Place]] = []
    for places in (order, order[::-1]):
        kept: list[Place] = []
        for place in places:
            while len(kept) > 1 and turn(kept[-2], kept[-1], place) <= 0:
                kept.pop()
            kept.append(place)
        half.append(kept[:-1])
    return (*half[0], *half[1])


def is_sliver(tiles: OutlineTiles, tile: LaidTile) -> bool:
    """Whether a tile is left smaller than a cut one may be."""
    wide = max(ticks(tiles.least_rip_mm), ticks(tiles.sliver_limit_mm))
    long = ticks(tiles.least_cut_mm)
    length, width = ticks(tile.length_mm), ticks(tile.width_mm)
    return tile.cut and (
        (length < ticks(tiles.tile_length_mm) - LONG_OFF and length < long - LONG_OFF)
        or (width < ticks(tiles.tile_width_mm) - LONG_OFF and width < wide - LONG_OFF)
        or ticks(tile.narrow_mm) < min(long, wide) - LONG_OFF
    )


def slivers_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each tile is as narrow as told, and what is too narrow is cautioned."""
    tiles = tiles_of(plan)
    for index, tile in enumerate(tiles.tiles):
        found, wanted = ticks(tile.narrow_mm), narrow(shape(tile.corners))
        if abs(found - wanted) > SLACK + 1:
            yield off_by(f"tiles.tiles[{index}].narrow_mm", "not the least way across it", found,
                         float(wanted), NARROW)  # fmt: skip
    least = min((ticks(tile.narrow_mm) for tile in tiles.tiles), default=0)
    yield from same_length("tiles.narrowest_mm", "not the narrowest", tiles.narrowest_mm, least,
                           NARROW)  # fmt: skip
    count = sum(is_sliver(tiles, tile) for tile in tiles.tiles)
    if abs(count - tiles.sliver_count) > (0 if tiles.angle_deg in {0.0, 90.0} else 1):
        yield from same_count("tiles.sliver_count", "not so many", tiles.sliver_count, count,
                              NARROW)  # fmt: skip
    if (tiles.sliver_count > 0) != ("TIL-031" in {finding.code for finding in plan.findings}):
        yield fault("TIL-031", "slivers are not told, or told for nothing", NARROW)


def joints_and_ways(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the joint is in its range and rectangles are cut as their ways say."""
    tiles, grid = tiles_of(plan), lattice_of(plan)
    least, most = ticks(tiles.gap_least_mm), ticks(tiles.gap_most_mm)
    if not least <= grid.joint <= most:
        yield off_by("tiles.joint_mm", "out of its range", grid.joint, least, SET_OUT)
    ends = (
        ("along_way", "column", "length_mm", grid.length, tiles.column_count),
        ("across_way", "row", "width_mm", grid.width, tiles.row_count),
    )
    for name, course, size, whole, count in ends:
        way = getattr(tiles, name)
        if way not in WAYS:
            yield fault(f"tiles.{name}", f"no way out is {way!r}", SET_OUT)
        outer = [
            max((ticks(getattr(t, size)) for t in tiles.tiles if getattr(t, course) == number),
                default=0)
            for number in (1, count)
        ]  # fmt: skip
        cut = [whole - each > LONG_OFF for each in outer]
        fits = {
            "as_wished": not any(cut),
            "rip_both": all(cut) and abs(outer[0] - outer[1]) <= LONG_OFF,
            "rip_last": sum(cut) == 1 or (count == 1 and all(cut)),
        }
        if len(outline_of(plan).sides) == 4 and not fits.get(way, True):
            yield fault(f"tiles.{name}", "the outer tiles are not cut so", SET_OUT)


def hatches_lift_out(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a hatch is whole tiles, its hole in the middle of joints round them."""
    tiles, grid = tiles_of(plan), lattice_of(plan)
    marks = {tile.hatch for tile in tiles.tiles if tile.hatch}
    hatches = {each.mark: each for each in outline_of(plan).openings if each.kind == "hatch"}
    for mark in sorted(marks ^ set(hatches)):
        yield fault(mark, "tiles of no hatch, or a hatch without tiles", HATCHES)
    for mark, opening in hatches.items():
        lot = [tile for tile in tiles.tiles if tile.hatch == mark]
        if not lot:
            continue
        if any(tile.cut for tile in lot):
            yield fault(mark, "a cut tile does not lift out whole", HATCHES)
        around = [grid.place(tile.column, tile.row) for tile in lot]
        u1, v1, u2, v2 = box([place for each in around for place in each])
        half = Fraction(grid.joint * UNIT, 2)
        low, high = (u1 - half, v1 - half), (u2 + half, v2 + half)
        wanted = (low, (high[0], low[1]), high, (low[0], high[1]))
        hole = grid.run.all_told(shape(opening.corners))
        if len(hole) != len(wanted) or any(_off(*pair) for pair in zip(hole, wanted, strict=True)):
            yield fault(mark, "its hole is not that round its tiles", HATCHES)
        yield from _fewest(grid, opening, lot)
        for kg in (opening.panel_kg or 0.0,):
            if not tiles.tile_mass_kg <= kg < tiles.tile_mass_kg + 0.11:
                yield Flaw(subject=mark, message="not what one of its tiles weighs", measured=kg,
                           limit=tiles.tile_mass_kg, unit="kg", source=HATCHES)  # fmt: skip


def _off(one: Place, other: Place) -> bool:
    """Whether two places, told along a run, are further apart than rounding leaves them."""
    return any(abs(Fraction(one[axis] - other[axis])) > SLACK * UNIT for axis in (0, 1))


def _fewest(grid: Lattice, opening: Opening, lot: list[LaidTile]) -> Iterator[Flaw]:
    """Yield a flaw unless the tiles of a hatch are the fewest that keep clear of its cover."""
    u1, v1, u2, v2 = box(grid.run.all_told(shape(opening.within)))
    clear = ticks(CLEAR_MM) * UNIT
    ways = (
        (u1 - clear, u2 + clear, grid.along, grid.length),
        (v1 - clear, v2 + clear, grid.left, grid.width),
    )
    count = 1
    for low, high, begin, size in ways:
        start = begin * UNIT - Fraction(grid.joint * UNIT, 2)
        module = (size + grid.joint) * UNIT
        first, last = (low - start + UNIT) // module, -((start + UNIT - high) // module) - 1
        count *= int(last - first + 1)
    yield from same_count(opening.mark, "tiles that lift out for it", len(lot), count, HATCHES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-939", "hatches among tiles are whole tiles, the fewest clear of the cover",
     hatches_lift_out),
    ("AUD-944", "slivers are measured, counted and told", slivers_are_told),
    ("AUD-945", "the joint is within its range, a rectangle cut as its way out says",
     joints_and_ways),
)  # fmt: skip
