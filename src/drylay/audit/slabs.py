"""Areas of shapes laid over one another, slab by slab: what an outline's ground is measured with.

Between two heights at which no side begins, ends or crosses another, what lies within any of some
shapes and within none of others is a row of trapezoids. Counts are of 1/320 mm, as `float`.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

Flat = tuple[float, float]
Edge = tuple[Flat, Flat]
#: Ends nearer than this are one, in 1/320 mm.
ONE = 0.01


@frozen(kw_only=True)
class Trapezoid:
    """What lies between two heights: from where to where at the lower, and at the upper."""

    low: float
    high: float
    at_low: Flat
    at_high: Flat


def turned(shape: Sequence[Flat]) -> tuple[Flat, ...]:
    """Return a shape with its two axes changed over."""
    return tuple((y, x) for x, y in shape)


def trapezoids(
    within: Sequence[Sequence[Flat]],
    without: Sequence[Sequence[Flat]] = (),
    also: Sequence[float] = (),
) -> list[Trapezoid]:
    """Return what lies within any of some shapes and in none of others, cut at `also` too."""
    shapes = [(shape, True) for shape in within] + [(shape, False) for shape in without]
    sides = [(_edges(shape), inside) for shape, inside in shapes if len(shape) > 2]
    levels = sorted({*_levels([edge for edges, _ in sides for edge in edges]), *also})
    found = []
    for low, high in pairwise(levels):
        if high - low > ONE / 100:
            found += list(_slab(sides, low, high))
    return found


def _edges(shape: Sequence[Flat]) -> list[Edge]:
    return [(shape[index - 1], corner) for index, corner in enumerate(shape)]


def _levels(edges: Sequence[Edge]) -> Iterator[float]:
    """Yield every height at which a side ends, or crosses another."""
    for index, (one, two) in enumerate(edges):
        yield two[1]
        for three, four in edges[:index]:
            height = _crossing(one, two, three, four)
            if height is not None:
                yield height


def _crossing(a: Flat, b: Flat, c: Flat, d: Flat) -> float | None:
    under = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    if abs(under) < 1e-6:
        return None
    here = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / under
    there = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / under
    return a[1] + here * (b[1] - a[1]) if 0 <= here <= 1 and 0 <= there <= 1 else None


def _slab(
    sides: Sequence[tuple[list[Edge], bool]], low: float, high: float
) -> Iterator[Trapezoid]:  # fmt: skip
    """Yield the trapezoids between two heights, from left to right."""
    middle = (low + high) / 2
    steps: list[tuple[float, int, int, Edge]] = []
    for edges, inside in sides:
        cut = sorted((_at(edge, middle), edge) for edge in edges if _spans(edge, middle))
        for number, (place, edge) in enumerate(cut):
            step = 1 if number % 2 == 0 else -1
            steps.append((place, step if inside else 0, 0 if inside else step, edge))
    covered = taken = 0
    start: Edge | None = None
    for _, more, less, edge in sorted(steps, key=lambda step: step[0]):
        was = covered > 0 and taken == 0
        covered, taken = covered + more, taken + less
        now = covered > 0 and taken == 0
        if now and not was:
            start = edge
        elif was and not now and start is not None:
            yield Trapezoid(
                low=low, high=high, at_low=(_at(start, low), _at(edge, low)),
                at_high=(_at(start, high), _at(edge, high)),
            )  # fmt: skip


def _spans(edge: Edge, height: float) -> bool:
    return (edge[0][1] > height) != (edge[1][1] > height)


def _at(edge: Edge, height: float) -> float:
    """Return where a side lies at a height."""
    (ax, ay), (bx, by) = edge
    return ax + (bx - ax) * (height - ay) / (by - ay)


def area(parts: Sequence[Trapezoid]) -> float:
    """Return the area of trapezoids."""
    return sum(
        (part.high - part.low)
        * ((part.at_low[1] - part.at_low[0]) + (part.at_high[1] - part.at_high[0])) / 2
        for part in parts
    )  # fmt: skip


def reaches(parts: Sequence[Trapezoid]) -> list[Flat]:
    """Return from where to where trapezoids reach, those that touch or lie over another as one."""
    ends = sorted(
        (min(part.at_low[0], part.at_high[0]), max(part.at_low[1], part.at_high[1]))
        for part in parts
    )
    found: list[Flat] = []
    for low, high in ends:
        if found and low <= found[-1][1] + ONE:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found
