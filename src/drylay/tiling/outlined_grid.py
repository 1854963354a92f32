"""The set-out of tiles on an outline: where the grid begins, so that no side leaves a sliver."""

import math
from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from drylay.geometry import Region, Ring, hole_rings, parts_of, ring_of
from drylay.marks import PER_MM, exact, to_mm
from drylay.tiling.outlined_lines import Begun, Course, LineSide, beginnings
from drylay.tiling.outlined_places import Grid, Part, parts_on

#: So many pairs of beginnings are laid out and compared.
LAID = 24
#: A side is in line with the grid where its ends are no further off than this.
IN_LINE_MM = 1.5 / PER_MM


@frozen(kw_only=True)
class TileRules:
    """What a grid keeps to, in 1/320 mm; `joints` are those to try, the one aimed for first.

    `prefer` is the order of ways out on a rectangle.
    """

    length: int
    width: int
    joints: tuple[int, ...]
    least_length: int
    least_width: int
    kerf: int
    thick: int
    prefer: tuple[str, ...]


@frozen(kw_only=True)
class HatchBlock:
    """The tiles of a hatch: columns and rows of the grid, ends among them, all whole or not."""

    first_column: int
    last_column: int
    first_row: int
    last_row: int
    whole: bool


@frozen(kw_only=True)
class SetOut:
    """A grid laid on an outline: its tiles, its hatches, and what is held against it.

    `bad` is how long the sides are that lie in a joint or along one, `thin` how long those that a
    thin strip comes off at.
    """

    grid: Grid
    parts: tuple[Part, ...]
    hatches: tuple[HatchBlock, ...]
    bad: int
    thin: int
    along_way: str
    across_way: str
    slivers: int
    cut: int

    @property
    def shut(self) -> int:
        """How many hatches do not lift out in whole tiles."""
        return sum(not hatch.whole for hatch in self.hatches)


def set_outs(area: Region, covers: Sequence[Ring], rules: TileRules) -> tuple[SetOut, ...]:
    """Return grids laid on an area, the best first; `covers` are what hatches must lie clear of.

    The area is in the grid's axes. The joint aimed for is laid first; others are tried, the nearest
    first, until one leaves no sliver.
    """
    best: tuple[SetOut, ...] = ()
    for joint in rules.joints:
        found = _with_joint(area, covers, rules, joint)
        if not best or (found[0].slivers == found[0].bad == 0 and found[0].shut <= best[0].shut):
            best = found
        if best[0].slivers == best[0].bad == 0:
            break
    return best


def _with_joint(
    area: Region, covers: Sequence[Ring], rules: TileRules, joint: int
) -> tuple[SetOut, ...]:
    along, left = (
        Course(size=size, joint=joint, least=least, kerf=rules.kerf, thick=rules.thick)
        for size, least in (
            (rules.length, rules.least_length), (rules.width, rules.least_width)
        )
    )  # fmt: skip
    sides = _sides(area)
    corners = [place for ring in _rings(area) for place in ring]
    columns = beginnings(sides[0], along, [round(u * PER_MM) for u, _ in corners])
    rows = beginnings(sides[1], left, [round(v * PER_MM) for _, v in corners])
    pairs = sorted(
        ((one, other) for one in columns for other in rows),
        key=lambda pair: _at_sides(pair, rules),
    )
    laid = [_laid(area, covers, rules, joint, pair) for pair in pairs[:LAID]]
    return tuple(sorted(laid, key=lambda each: rank(each, rules)))


def _at_sides(pair: tuple[Begun, Begun], rules: TileRules) -> tuple[float, ...]:
    one, other = pair
    cut = one.cut / (rules.width or 1) + other.cut / (rules.length or 1)
    return (one.bad + other.bad, one.slim + other.slim, *_by_way((one.way, other.way), rules), cut)


def _by_way(ways: tuple[str, str], rules: TileRules) -> tuple[int, int]:
    """Return how late a pair's ways out come in the brief's order: the worse, then the other.

    Of a rectangle alone; of any other outline no way out has a name.
    """
    if not all(ways):
        return 0, 0
    late = [rules.prefer.index(way) if way in rules.prefer else len(rules.prefer) for way in ways]
    return max(late), min(late)


def rank(laid: SetOut, rules: TileRules) -> tuple[float, ...]:
    """Return what set-outs are compared by, the least first."""
    sizes = sorted(round(part.length_mm * part.width_mm) for part in laid.parts if part.cut)
    narrow = min((part.narrow_mm for part in laid.parts), default=0.0)
    flush = sum(part.narrow_mm for part in laid.parts)
    return (
        laid.bad, laid.shut, laid.slivers, *_by_way((laid.along_way, laid.across_way), rules),
        laid.cut, laid.thin, len(laid.parts), -round(narrow, 2), -round(flush), *sizes,
    )  # fmt: skip


def _laid(
    area: Region, covers: Sequence[Ring], rules: TileRules, joint: int, pair: tuple[Begun, Begun]
) -> SetOut:
    grid = Grid(
        length=rules.length, width=rules.width, joint=joint, along=pair[0].at, left=pair[1].at
    )
    parts = parts_on(area, grid)
    return SetOut(
        grid=grid,
        parts=parts,
        hatches=_blocks(grid, parts, covers),
        bad=pair[0].bad + pair[1].bad,
        thin=pair[0].thin + pair[1].thin,
        along_way=pair[0].way,
        across_way=pair[1].way,
        slivers=sum(is_sliver(part, rules) for part in parts),
        cut=sum(part.cut for part in parts),
    )


def is_sliver(part: Part, rules: TileRules) -> bool:
    """Return whether a cut tile is left too short, too slim or too narrow anywhere."""
    if not part.cut:
        return False
    long, wide = exact(part.length_mm), exact(part.width_mm)
    least = min(rules.least_length, rules.least_width)
    return (
        (long < rules.length - 2 and long < rules.least_length - 2)
        or (wide < rules.width - 2 and wide < rules.least_width - 2)
        or exact(part.narrow_mm) < least - 2
    )


def _blocks(
    grid: Grid, parts: Sequence[Part], covers: Sequence[Ring]
) -> tuple[HatchBlock, ...]:  # fmt: skip
    """Return the fewest whole tiles over every hatch; one tile is of one hatch alone."""
    whole = {(part.column, part.row) for part in parts if not part.cut}
    found = []
    for cover in covers:
        block = block_over(grid, cover)
        taken = {
            (column, row)
            for column in range(block[0], block[1] + 1)
            for row in range(block[2], block[3] + 1)
        }
        found.append(
            HatchBlock(
                first_column=block[0],
                last_column=block[1],
                first_row=block[2],
                last_row=block[3],
                whole=taken <= whole,
            )
        )
        whole -= taken
    return tuple(found)


def block_over(grid: Grid, cover: Ring) -> tuple[int, int, int, int]:
    """Return the first and last column, then row, whose places and half joints hold a ring."""
    us, vs = zip(*cover, strict=True)
    ends = []
    for low, high, begin, size in (
        (min(us), max(us), grid.along, grid.length),
        (min(vs), max(vs), grid.left, grid.width),
    ):
        module, start = size + grid.joint, begin - grid.joint / 2
        ends += [
            math.floor((low * PER_MM - start) / module + 1e-9),
            math.ceil((high * PER_MM - start) / module - 1e-9) - 1,
        ]
    return ends[0], ends[1], ends[2], ends[3]


def hole_of(grid: Grid, block: HatchBlock) -> tuple[float, float, float, float]:
    """Return the box of a hatch's hole: to the middle of the joints round its tiles."""
    half = to_mm(grid.joint) / 2
    u1, v1, _, _ = grid.place(block.first_column, block.first_row)
    _, _, u2, v2 = grid.place(block.last_column, block.last_row)
    return u1 - half, v1 - half, u2 + half, v2 + half


def _rings(area: Region) -> Iterator[Ring]:
    for part in parts_of(area):
        yield ring_of(part)
        yield from hole_rings(part)


def _beside(area: Region) -> Iterator[tuple[Ring, bool]]:
    """Yield each ring of an area with the area to the left of its sides, and if it is outermost."""
    for part in parts_of(area):
        yield ring_of(part), True
        yield from ((_turned_back(hole), False) for hole in hole_rings(part))


def _sides(area: Region) -> tuple[list[LineSide], list[LineSide]]:
    """Return the sides across the run, and those along it: of outline and holes."""
    across: list[LineSide] = []
    along: list[LineSide] = []
    for ring, outer in _beside(area):
        for start, end in zip(ring, (*ring[1:], ring[0]), strict=True):
            du, dv = end[0] - start[0], end[1] - start[1]
            if abs(du) <= IN_LINE_MM < abs(dv):
                middle = (start[0] + end[0]) / 2
                across.append(_line(middle, abs(dv), beyond=dv < 0, outer=outer))
            elif abs(dv) <= IN_LINE_MM < abs(du):
                middle = (start[1] + end[1]) / 2
                along.append(_line(middle, abs(du), beyond=du > 0, outer=outer))
    if not _is_rectangle(area, across, along):
        across, along = ([evolve(side, outer=False) for side in each] for each in (across, along))
    return across, along


def _is_rectangle(area: Region, across: list[LineSide], along: list[LineSide]) -> bool:
    """Return whether an area's outer sides are those of one rectangle in line with the grid."""
    outer = [sum(side.outer for side in sides) for sides in (across, along)]
    return outer == [2, 2] and [len(ring_of(part)) for part in parts_of(area)] == [4]


def _turned_back(ring: Ring) -> Ring:
    """Return a hole's ring so that the deck lies to the left of its sides."""
    twice = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    return tuple(reversed(ring)) if twice > 0 else ring


def _line(at_mm: float, long_mm: float, *, beyond: bool, outer: bool) -> LineSide:
    return LineSide(at=round(at_mm * PER_MM), beyond=beyond, long=exact(long_mm), outer=outer)
