"""Rings of corners in whole 1/320 mm, and what their sides are called: exact, over integers.

A ring's side at an index runs from the corner there to the next. "Round" is the way that turns
from along towards across.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import atan2, degrees, hypot

from attrs import frozen

Place = tuple[int, int]
Ring = tuple[Place, ...]
#: What is called a side; None where nothing is said of it.
Label = tuple[str, bool]


@frozen(kw_only=True)
class Block:
    """A rectangle added to a shape or taken from it, and what its edges are called."""

    low: Place
    high: Place
    adds: bool = True
    label: Label | None = None


@frozen(kw_only=True)
class Traced:
    """What blocks add up to: loops round, holes the other way; places that touch at a corner only.

    Each loop is of corners with what the side from there on is called.
    """

    loops: tuple[tuple[tuple[Place, Label | None], ...], ...]
    touching: Ring = ()


def twice_area(ring: Ring) -> int:
    """Return twice the area a ring encloses, below 0 where it runs the other way."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in sides(ring))


def sides(ring: Ring) -> Iterator[tuple[Place, Place]]:
    """Yield the two ends of every side of a ring."""
    return zip(ring, (*ring[1:], *ring[:1]), strict=True)


def turn(a: Place, b: Place, c: Place) -> int:
    """Return twice the area of a triangle: above 0 where it runs round, 0 where it has none."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def on_side(a: Place, b: Place, c: Place) -> bool:
    """Return whether `c` lies on the straight from `a` to `b`, its ends among it."""
    between = all(min(a[i], b[i]) <= c[i] <= max(a[i], b[i]) for i in (0, 1))
    return between and turn(a, b, c) == 0


def meet(a: Place, b: Place, c: Place, d: Place) -> bool:
    """Return whether the straights from `a` to `b` and from `c` to `d` share any place."""
    apart = _sign(turn(a, b, c)) * _sign(turn(a, b, d))
    across = _sign(turn(c, d, a)) * _sign(turn(c, d, b))
    if apart < 0 and across < 0:
        return True
    touched = ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    return any(on_side(*three) for three in touched)


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)


def clashing_sides(ring: Ring) -> tuple[tuple[int, int], ...]:
    """Return every two sides that cross, touch or fold back on each other, by their indices."""
    straight = list(sides(ring))
    count = len(straight)
    found = []
    for i in range(count):
        for j in range(i + 1, count):
            if j == i + 1 or (i == 0 and j == count - 1):
                first, second = (i, j) if j == i + 1 else (j, i)
                if _folds_back(*straight[first], straight[second][1]):
                    found.append((i, j))
            elif meet(*straight[i], *straight[j]):
                found.append((i, j))
    return tuple(found)


def _folds_back(a: Place, b: Place, c: Place) -> bool:
    ahead = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
    return turn(a, b, c) == 0 and ahead < 0


def is_straight(ring: Ring, at: int) -> bool:
    """Return whether a corner lies on the straight between its neighbours."""
    before, after = ring[at - 1], ring[(at + 1) % len(ring)]
    return turn(before, ring[at], after) == 0


def inside(ring: Ring, place: Place) -> int:
    """Return 1 for a place inside a ring, 0 for one on its sides, -1 for one outside."""
    within = False
    for a, b in sides(ring):
        if on_side(a, b, place):
            return 0
        if (a[1] > place[1]) != (b[1] > place[1]):
            rises = b[1] > a[1]
            within ^= (turn(a, b, place) > 0) == rises
    return 1 if within else -1


def holds(outer: Ring, inner: Ring) -> bool:
    """Return whether no part of a ring lies outside another; it may touch its sides."""
    if any(inside(outer, place) < 0 for place in inner):
        return False
    if any(_cross(*one, *other) for one in sides(inner) for other in sides(outer)):
        return False
    return not any(_runs_out(outer, *one) for one in sides(inner))


def _cross(a: Place, b: Place, c: Place, d: Place) -> bool:
    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def _runs_out(outer: Ring, a: Place, b: Place) -> bool:
    """Return whether a side whose ends lie within runs outside between places that it touches."""
    on = sorted({a, b, *(place for place in outer if on_side(a, b, place))})
    twice = tuple((2 * x, 2 * y) for x, y in outer)
    return any(inside(twice, (p[0] + q[0], p[1] + q[1])) < 0 for p, q in pairwise(on))


def apart(one: Ring, other: Ring) -> float:
    """Return how far the sides of two rings are from each other, in 1/320 mm; 0 if they meet."""
    return min(_apart(*a, *b) for a in sides(one) for b in sides(other))


def _apart(a: Place, b: Place, c: Place, d: Place) -> float:
    if meet(a, b, c, d):
        return 0.0
    return min(off_side(a, b, c), off_side(a, b, d), off_side(c, d, a), off_side(c, d, b))


def off_side(a: Place, b: Place, place: Place) -> float:
    """Return how far a place is from the straight from `a` to `b`, in 1/320 mm."""
    along = (b[0] - a[0], b[1] - a[1])
    gone = (place[0] - a[0], place[1] - a[1])
    length_2 = along[0] ** 2 + along[1] ** 2
    ahead = gone[0] * along[0] + gone[1] * along[1]
    if length_2 == 0 or ahead <= 0:
        return hypot(*gone)
    if ahead >= length_2:
        return hypot(place[0] - b[0], place[1] - b[1])
    return float(abs(turn(a, b, place)) / length_2**0.5)


def corner_deg(before: Place, at: Place, after: Place) -> float:
    """Return the angle inside a corner of a ring that runs round; over 180 at a re-entrant one."""
    come = (before[0] - at[0], before[1] - at[1])
    go = (after[0] - at[0], after[1] - at[1])
    cross = go[0] * come[1] - come[0] * go[1]
    dot = come[0] * go[0] + come[1] * go[1]
    return degrees(atan2(cross, dot)) % 360.0


def box(ring: Sequence[Place]) -> tuple[int, int, int, int]:
    """Return the least along and across of places, then the greatest."""
    alongs, acrosses = zip(*ring, strict=True)
    return min(alongs), min(acrosses), max(alongs), max(acrosses)


def rectangle(low: Place, high: Place) -> Ring:
    """Return the ring of a rectangle from its lowest and its highest corner."""
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def about(middle: Place, size: Place) -> Ring:
    """Return the ring of a rectangle about its middle; odd sizes are made even, upwards."""
    half = (-(-size[0] // 2), -(-size[1] // 2))
    low = (middle[0] - half[0], middle[1] - half[1])
    return rectangle(low, (middle[0] + half[0], middle[1] + half[1]))


def on_line(readings: Sequence[Place], along: int) -> int:
    """Return how far off a wall is where it was not read: straight between two readings.

    Readings are (along, off), each further along than the one before, and reach past `along`.
    """
    for (x, off), (beyond, next_off) in pairwise(readings):
        if x <= along <= beyond:
            return round(off + Fraction((next_off - off) * (along - x), beyond - x))
    return readings[0][1]


def traced(blocks: Sequence[Block]) -> Traced:
    """Return what blocks add up to, each added or taken in turn.

    A side is called what the last block on whose edge it lies calls its own.
    """
    xs, ys = _lines(blocks)
    cells = _cells(blocks, xs, ys)
    steps: dict[Place, list[Place]] = {}
    for a, b in _steps(cells, list(xs), list(ys)):
        steps.setdefault(a, []).append(b)
    touching = tuple(sorted(place for place, ends in steps.items() if len(ends) > 1))
    return Traced(loops=tuple(_loops(steps, blocks)), touching=touching)


def idle(blocks: Sequence[Block]) -> tuple[int, ...]:
    """Return which blocks are taken from where nothing is so far, by their indices."""
    xs, ys = _lines(blocks)
    cells: set[Place] = set()
    found = []
    for at, block in enumerate(blocks):
        covered = _covered(block, xs, ys)
        if not block.adds and not cells & covered:
            found.append(at)
        cells = cells | covered if block.adds else cells - covered
    return tuple(found)


def _lines(blocks: Sequence[Block]) -> tuple[dict[int, int], dict[int, int]]:
    """Return the lines of the grid that blocks make, each with its number, either way."""
    xs, ys = (
        sorted({end[way] for block in blocks for end in (block.low, block.high)}) for way in (0, 1)
    )
    return {x: i for i, x in enumerate(xs)}, {y: j for j, y in enumerate(ys)}


def _covered(block: Block, xs: dict[int, int], ys: dict[int, int]) -> set[Place]:
    columns = range(xs[block.low[0]], xs[block.high[0]])
    rows = range(ys[block.low[1]], ys[block.high[1]])
    return {(i, j) for i in columns for j in rows}


def _cells(blocks: Sequence[Block], xs: dict[int, int], ys: dict[int, int]) -> set[Place]:
    cells: set[Place] = set()
    for block in blocks:
        covered = _covered(block, xs, ys)
        cells = cells | covered if block.adds else cells - covered
    return cells


def _steps(cells: set[Place], xs: list[int], ys: list[int]) -> Iterator[tuple[Place, Place]]:
    """Yield each stretch of an edge between two lines of the grid, the shape on its left."""
    for i, j in sorted(cells):
        low, high = (xs[i], ys[j]), (xs[i + 1], ys[j + 1])
        ring = rectangle(low, high)
        beside = ((i, j - 1), (i + 1, j), (i, j + 1), (i - 1, j))
        for side, cell in zip(sides(ring), beside, strict=True):
            if cell not in cells:
                yield side


def _loops(
    steps: dict[Place, list[Place]], blocks: Sequence[Block]
) -> Iterator[tuple[tuple[Place, Label | None], ...]]:
    while steps:
        start = at = min(steps)
        loop: list[tuple[Place, Label | None]] = []
        while True:
            on = steps[at].pop(0)
            if not steps[at]:
                del steps[at]
            loop.append((at, _label(at, on, blocks)))
            at = on
            if at == start:
                break
        yield tuple(loop)


def _label(a: Place, b: Place, blocks: Sequence[Block]) -> Label | None:
    """Return what the last block that says anything of a stretch of its edge calls it."""
    level = 1 if a[1] == b[1] else 0
    along = 1 - level
    low, high = min(a[along], b[along]), max(a[along], b[along])
    for block in reversed(blocks):
        on_edge = a[level] in {block.low[level], block.high[level]}
        within = block.low[along] <= low and high <= block.high[along]
        if block.label is not None and on_edge and within:
            return block.label
    return None
