"""Tiles on an outline: every place of the grid filled with what the outline leaves of it."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import need, off_by, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    cover,
    fault,
    holes,
    near,
    outline_of,
    outlines,
    run_at,
    shape,
    square_m,
)
from drylay.audit.plane import (
    UNIT,
    Number,
    Run,
    Shape,
    box,
    inside,
    is_simple,
    squared_to_edge,
    twice_area,
    twice_common,
)
from drylay.audit.plane import size as magnitude
from drylay.plan.model import Plan
from drylay.tiling.outline_model import LaidTile, OutlineTiles

GRID = outlines("Tiles on an outline: the grid")
TILES = outlines("Tiles on an outline: a tile in each place")


def tiles_of(plan: Plan) -> OutlineTiles:
    """Return the plan's tiles on an outline, if it has any."""
    return need(plan.tiles, "tiles on an outline")


@frozen(kw_only=True)
class Lattice:
    """The grid in whole 1/320 mm: its run, a tile's two sizes, the joint, where C1 and B1 begin."""

    run: Run
    length: int
    width: int
    joint: int
    along: int
    left: int

    def place(self, column: int, row: int) -> Shape:
        """Return the corners of a place, told along the run and to its left, x `UNIT`."""
        u = (self.along + (column - 1) * (self.length + self.joint)) * UNIT
        v = (self.left + (row - 1) * (self.width + self.joint)) * UNIT
        du, dv = self.length * UNIT, self.width * UNIT
        return (u, v), (u + du, v), (u + du, v + dv), (u, v + dv)


def lattice_of(plan: Plan) -> Lattice:
    """Return the grid that the plan tells."""
    tiles = tiles_of(plan)
    return Lattice(
        run=run_at(tiles.angle_deg),
        length=ticks(tiles.tile_length_mm),
        width=ticks(tiles.tile_width_mm),
        joint=ticks(tiles.joint_mm),
        along=ticks(tiles.first_column_mm),
        left=ticks(tiles.first_row_mm),
    )


def told(plan: Plan, tile: LaidTile) -> Shape:
    """Return a tile's corners along the run and to its left, x `UNIT`."""
    return lattice_of(plan).run.all_told(shape(tile.corners))


def in_places(plan: Plan) -> dict[tuple[int, int], list[LaidTile]]:
    """Return the tiles by the row and the column of their place."""
    found: dict[tuple[int, int], list[LaidTile]] = defaultdict(list)
    for tile in tiles_of(plan).tiles:
        found[tile.row, tile.column].append(tile)
    return found


def tiles_lie_in_their_places(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a tile that is no shape, out of its place, marked or measured wrongly."""
    grid, seen = lattice_of(plan), Counter(tile.mark for tile in tiles_of(plan).tiles)
    need(grid.length if min(grid.length, grid.width) > 0 else None, "size of a tile")
    for index, tile in enumerate(tiles_of(plan).tiles):
        corners = shape(tile.corners)
        if len(corners) < 3 or not is_simple(corners) or twice_area(corners) <= 0:
            yield fault(tile.mark, "no shape, or the wrong way round", TILES)
            continue
        place = box(grid.place(tile.column, tile.row))
        u1, v1, u2, v2 = box(told(plan, tile))
        slack = SLACK * UNIT
        if (
            u1 < place[0] - slack
            or v1 < place[1] - slack
            or u2 > place[2] + slack
            or (v2 > place[3] + slack)
        ):
            yield fault(tile.mark, "it reaches out of its place of the grid", TILES)
        sizes: tuple[tuple[str, Number], ...] = (("length_mm", u2 - u1), ("width_mm", v2 - v1))
        for name, size in sizes:
            found = ticks(getattr(tile, name))
            if magnitude(found * UNIT - size) > SLACK * UNIT:
                yield off_by(f"tiles.tiles[{index}].{name}", "not the box about it", found,
                             float(Fraction(size) / UNIT), TILES)  # fmt: skip
        if seen[tile.mark] != 1 or tile.mark.rstrip("abcdefghijklmnopqrstuvwxyz") != (
            f"B{tile.row}.{tile.column}"
        ):
            yield fault(tile.mark, "not the mark of its row and column, or there twice", TILES)


def tiles_fill_the_outline(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each place holds just what outline and openings leave of it."""
    grid, laid = lattice_of(plan), in_places(plan)
    deck = grid.run.all_told(cover(plan))
    gaps = [grid.run.all_told(hole) for hole in holes(plan)]
    u1, v1, u2, v2 = box(deck)
    columns = range(_course(u1, grid.along, grid.length + grid.joint),
                    _course(u2, grid.along, grid.length + grid.joint) + 1)  # fmt: skip
    rows = range(_course(v1, grid.left, grid.width + grid.joint),
                 _course(v2, grid.left, grid.width + grid.joint) + 1)  # fmt: skip
    slack = 2 * (grid.length + grid.width) * SLACK
    for row in rows:
        for column in columns:
            place, tiles = grid.place(column, row), laid.get((row, column), [])
            left: Number = twice_common(place, deck)
            left -= sum((twice_common(place, gap) for gap in gaps), 0)
            lies = sum((twice_area(told(plan, tile)) for tile in tiles), Fraction(0))
            missing = float(Fraction(left - lies) / UNIT**2) / 2
            most = slack + (len(tiles) > 1) * len(tiles) * grid.joint * (grid.length + grid.width)
            if not -slack <= missing <= most:
                mark = f"B{row}.{column}"
                yield Flaw(subject=mark, message="what lies there is not what is left of its place",
                           measured=float(Fraction(lies) / UNIT**2) / 2 / PER_MM**2,
                           limit=float(Fraction(left) / UNIT**2) / 2 / PER_MM**2, unit="mm2",
                           source=TILES)  # fmt: skip
    for row, column in laid:
        if row not in rows or column not in columns:
            yield fault(f"B{row}.{column}", "beyond the outline", TILES)


def _course(at: Number, begin: int, module: int) -> int:
    """Return the number of the course that a place lies in, or in the joint after it."""
    return int((Fraction(at) / UNIT - begin) // module) + 1


def tiles_keep_off(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a tile outside the outline, in an opening, or over another in its place."""
    deck, gaps = cover(plan), holes(plan)
    for tile in tiles_of(plan).tiles:
        for corner in shape(tile.corners):
            if inside(corner, deck) < 0 and squared_to_edge(corner, deck) > (2 * SLACK) ** 2:
                yield fault(tile.mark, "it lies outside the outline", TILES)
                break
            if any(inside(corner, gap) > 0 and squared_to_edge(corner, gap) > (2 * SLACK) ** 2
                   for gap in gaps):  # fmt: skip
                yield fault(tile.mark, "it lies in an opening", TILES)
                break
    for (row, column), lot in in_places(plan).items():
        for index, tile in enumerate(lot):
            for other in lot[:index]:
                if any(inside(at, shape(other.corners)) > 0 for at in shape(tile.corners)):
                    yield fault(f"B{row}.{column}", "two tiles lie over each other", TILES)


def _whole(plan: Plan, tile: LaidTile) -> bool:
    """Whether a tile is the whole of its place: it has a corner at each of the place's."""
    corners, slack = told(plan, tile), 2 * SLACK * UNIT
    return len(corners) == 4 and all(
        any(magnitude(u - x) <= slack and magnitude(v - y) <= slack for u, v in corners)
        for x, y in lattice_of(plan).place(tile.column, tile.row)
    )


def cuts_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless tiles are told cut and shaped where they are, and counted."""
    tiles = tiles_of(plan)
    for index, tile in enumerate(tiles.tiles):
        path, whole = f"tiles.tiles[{index}]", _whole(plan, tile)
        if tile.cut == whole:
            yield fault(f"{path}.cut", "not so", TILES)
        u1, v1, u2, v2 = box(told(plan, tile))
        missing = Fraction(2 * (u2 - u1) * (v2 - v1) - twice_area(told(plan, tile)), UNIT**2)
        slack = 2 * Fraction(u2 - u1 + v2 - v1, UNIT) * SLACK
        if (tile.shaped and (whole or missing == 0)) or (not tile.shaped and missing > slack):
            yield fault(f"{path}.shaped", "not so", TILES)
    counts = {
        "tile_count": len(tiles.tiles),
        "whole": sum(not tile.cut for tile in tiles.tiles),
        "cut": sum(tile.cut for tile in tiles.tiles),
        "shaped_count": sum(tile.shaped for tile in tiles.tiles),
        "column_count": max((tile.column for tile in tiles.tiles), default=0),
        "row_count": max((tile.row for tile in tiles.tiles), default=0),
    }
    for name, count in counts.items():
        found = getattr(tiles, name)
        yield from same_count(f"tiles.{name}", "not so many", found, count, TILES)
    for name in ("row", "column"):
        least = min((getattr(tile, name) for tile in tiles.tiles), default=1)
        yield from same_count(f"tiles: first {name}", "not the first", least, 1, GRID)


def areas_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless tiles, joints and openings are together as large as the outline."""
    tiles, outline = tiles_of(plan), outline_of(plan)
    face = sum(square_m(shape(tile.corners)) for tile in tiles.tiles)
    lost = sum(square_m(hole) for hole in holes(plan))
    gross = square_m(cover(plan))
    slack = 1e-6 + 1e-9 * len(tiles.tiles)
    yield from near("tiles.face_m2", "not the area of all tiles", tiles.face_m2, face,
                    slack=slack, unit="m2", source=TILES)  # fmt: skip
    yield from near("tiles.joint_m2", "not what tiles and openings leave", tiles.joint_m2,
                    gross - lost - face, slack=slack, unit="m2", source=TILES)  # fmt: skip
    if tiles.joint_m2 < -slack:
        yield fault("tiles.joint_m2", "tiles are larger than the deck", TILES)
    yield from same_text("tiles.support", "nothing else is planned on an outline", tiles.support,
                         "pads", TILES)  # fmt: skip
    if outline.openings and outline.net_m2 > outline.gross_m2:
        yield fault("outline.net_m2", "larger than the whole", TILES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-940", "each tile lies in its place of the grid, marked by it", tiles_lie_in_their_places),
    ("AUD-941", "each place holds what the outline leaves of it", tiles_fill_the_outline),
    ("AUD-942", "tiles lie inside the outline, in no opening, over no other", tiles_keep_off),
    ("AUD-943", "tiles are told cut and shaped where they are", cuts_are_told),
    ("AUD-946", "tiles, joints and openings make up the outline", areas_add_up),
)
