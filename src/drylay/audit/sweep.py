"""Areas cut into trapezia between parallel lines: what of some shapes lies in others, exactly.

Shapes are told along a run and to its left, as `plane.Run` tells them. Between two neighbouring
corners or crossings to the left of the run no side begins, ends or crosses another, so that each
stretch between two sides lies inside or outside each shape as a whole.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import Fraction
from drylay.audit.plane import Number, Place, Shape, sides_of

#: Whether a stretch is wanted: asked with the numbers of the shapes it lies in.
Wanted = Callable[[frozenset[int]], bool]


@frozen(kw_only=True)
class Trapezium:
    """From `low` to `high` to the left of the run, and along it from the first to the second."""

    low: Number
    high: Number
    at_low: tuple[Number, Number]
    at_high: tuple[Number, Number]

    @property
    def corners(self) -> Shape:
        """Its corners, round the way that turns from along towards across."""
        (a, b), (c, d) = self.at_low, self.at_high
        return ((a, self.low), (b, self.low), (d, self.high), (c, self.high))

    @property
    def twice_area(self) -> Number:
        """Twice its area."""
        (a, b), (c, d) = self.at_low, self.at_high
        return (b - a + d - c) * (self.high - self.low)


@frozen(kw_only=True)
class _Edge:
    low: Place
    high: Place
    shape: int

    def at(self, level: Number) -> Fraction:
        (u, v), (w, x) = self.low, self.high
        return u + Fraction((w - u) * (level - v)) / (x - v)


def trapezia(shapes: Sequence[Shape], wanted: Wanted, low: Number, high: Number) -> list[Trapezium]:
    """Return what is wanted of some shapes between two levels, as trapezia from low to high."""
    edges = _edges(shapes, low, high)
    levels = sorted(_levels(edges, low, high))
    found: list[Trapezium] = []
    for below, above in pairwise(levels):
        found += _between(edges, wanted, below, above)
    return found


def _edges(shapes: Sequence[Shape], low: Number, high: Number) -> list[_Edge]:
    edges = []
    for index, shape in enumerate(shapes):
        for start, end in sides_of(shape):
            if start[1] == end[1] or max(start[1], end[1]) <= low or min(start[1], end[1]) >= high:
                continue
            first, second = (start, end) if start[1] < end[1] else (end, start)
            edges.append(_Edge(low=first, high=second, shape=index))
    return edges


def _levels(edges: list[_Edge], low: Number, high: Number) -> set[Number]:
    levels: set[Number] = {low, high}
    for edge in edges:
        levels |= {level for level in (edge.low[1], edge.high[1]) if low < level < high}
    for index, one in enumerate(edges):
        for other in edges[:index]:
            level = _crossing(one, other, low, high)
            if level is not None:
                levels.add(level)
    return levels


def _crossing(one: _Edge, other: _Edge, low: Number, high: Number) -> Number | None:
    """Return where two edges cross between their ends, None where they do not."""
    below, above = max(one.low[1], other.low[1], low), min(one.high[1], other.high[1], high)
    if below >= above or _apart(one, other):
        return None
    first, last = one.at(below) - other.at(below), one.at(above) - other.at(above)
    if (first < 0 < last) or (last < 0 < first):
        return below + (above - below) * first / (first - last)
    return None


def _apart(one: _Edge, other: _Edge) -> bool:
    """Whether all of one edge lies before all of the other: the quick answer."""
    a, b = (one.low[0], one.high[0]), (other.low[0], other.high[0])
    return max(a) < min(b) or max(b) < min(a)


def _between(edges: list[_Edge], wanted: Wanted, below: Number, above: Number) -> list[Trapezium]:
    here = [
        (edge.at(below), edge.at(above), edge.shape)
        for edge in edges
        if edge.low[1] <= below and edge.high[1] >= above
    ]
    here.sort(key=lambda edge: (edge[0] + edge[1], edge[2]))
    found: list[Trapezium] = []
    into: frozenset[int] = frozenset()
    start: tuple[Fraction, Fraction] | None = None
    for at_low, at_high, shape in here:
        was, into = into, into ^ {shape}
        if wanted(into) and not wanted(was):
            start = (at_low, at_high)
        elif wanted(was) and not wanted(into) and start is not None:
            _add(found, below, above, start, (at_low, at_high))
            start = None
    return found


def _add(
    found: list[Trapezium], below: Number, above: Number,
    start: tuple[Number, Number], end: tuple[Number, Number],
) -> None:  # fmt: skip
    """Add a stretch between two levels, unless it is nothing, to the one that it goes on from."""
    if sum(end) <= sum(start):
        return
    if found and (found[-1].at_low[1], found[-1].at_high[1]) == start:
        last = found.pop()
        start = (last.at_low[0], last.at_high[0])
    found.append(
        Trapezium(low=below, high=above, at_low=(start[0], end[0]), at_high=(start[1], end[1]))
    )


def joined(parts: list[Trapezium]) -> list[list[Trapezium]]:
    """Return trapezia that hang together, each lot in order, lots by their start along the run."""
    lots: list[list[Trapezium]] = []
    for part in parts:
        touching = [lot for lot in lots if any(_touch(one, part) for one in lot)]
        lots = [lot for lot in lots if lot not in touching]
        lots.append([one for lot in touching for one in lot] + [part])
    return sorted(lots, key=lambda lot: (span(lot)[0], lot[0].low))


def _touch(one: Trapezium, other: Trapezium) -> bool:
    if one.high == other.low:
        first, second = one.at_high, other.at_low
    elif other.high == one.low:
        first, second = one.at_low, other.at_high
    else:
        return False
    return min(first[1], second[1]) > max(first[0], second[0])


def span(lot: Sequence[Trapezium]) -> tuple[Number, Number]:
    """Return from where to where along the run some trapezia reach."""
    ends = [end for part in lot for end in (*part.at_low, *part.at_high)]
    return min(ends), max(ends)


def twice_area_of(parts: Sequence[Trapezium]) -> Number:
    """Return twice the area of some trapezia."""
    total: Number = 0
    for part in parts:
        total += part.twice_area
    return total
