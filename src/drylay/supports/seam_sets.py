"""Sets of joint lines worth trying, drawn from the lengths on sale: a bounded list."""

from collections.abc import Iterator
from itertools import combinations

from attrs import frozen

from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, nearest_mark, to_mm

#: So many sets are tried at most, and so many parts more than the fewest. Assumption.
MOST_SETS, MORE_PARTS = 24, 4


@frozen(kw_only=True)
class Rows:
    """What joint lines are drawn from: the rows, and the usable lengths of board on sale.

    `allowance_mm` is how much longer outer pieces are sawn than they are laid; `staggered` whether
    rows side by side may not share a line.
    """

    length_mm: float
    lengths_mm: tuple[float, ...]
    end_gap_mm: float
    allowance_mm: float = 0.0
    staggered: bool = True
    units: str = "metric"


Set = tuple[int, ...]


@frozen(kw_only=True)
class _Exact:
    """The same in 1/320 mm, lengths longest first."""

    end: int
    lengths: Set
    gap: int
    allowance: int
    mark: int


def seam_sets(rows: Rows) -> tuple[tuple[float, ...], ...]:
    """Return sets of joint lines, in order of how likely they are to be cheap.

    No line where a board reaches; then for each length on sale whole lengths from one end, and
    the same mirrored; equal parts, with more joints than needed too; whole lengths after half a
    length; whole lengths of two kinds. All on marks, none twice, MOST_SETS of them at most.

    Source: common practice; that no others are tried is an assumption.
    """
    found = _Exact(
        end=exact(rows.length_mm),
        lengths=tuple(sorted({exact(each) for each in rows.lengths_mm}, reverse=True)),
        gap=exact(rows.end_gap_mm),
        allowance=exact(rows.allowance_mm),
        mark=MARK_320[rows.units],
    )
    if not found.lengths or found.lengths[0] <= found.gap:
        return ()
    sets = dict.fromkeys(tuple(sorted(set(lines))) for lines in _sets(found))
    alone = 1 if rows.staggered else 0  # a line that no neighbour may share is of no use alone
    inside = [
        lines for lines in sets
        if (not lines or len(lines) > alone) and all(0 < line < found.end for line in lines)
    ]  # fmt: skip
    return tuple(tuple(map(to_mm, lines)) for lines in inside[:MOST_SETS])


def _sets(rows: _Exact) -> Iterator[Set]:
    longest = rows.lengths[0]
    if rows.end + 2 * rows.allowance <= longest:
        yield ()
    for length in rows.lengths:
        near = _chain(rows, length, length)
        yield (*near, *_mirrored(rows, near))
    fewest = -(-(rows.end + rows.gap) // (longest + rows.gap))
    for parts in range(max(2, fewest), fewest + MORE_PARTS + 1):
        yield tuple(nearest_mark(rows.end * n // parts, rows.mark) for n in range(1, parts))
    for length in rows.lengths:
        yield (*_chain(rows, length, length), *_chain(rows, length, length // 2))
    for one, other in combinations(rows.lengths, 2):
        yield (*_chain(rows, one, longest), *_chain(rows, other, longest))


def _chain(rows: _Exact, first: int, then: int) -> Set:
    """Return joints after whole lengths from the near end, until one more length reaches."""
    at = floor_mark(first - rows.allowance + rows.gap // 2, rows.mark)
    lines = [at]
    while rows.end - at - rows.gap // 2 + rows.allowance > rows.lengths[0]:
        at = floor_mark(at + then + rows.gap, rows.mark)
        if at <= lines[-1]:
            break
        lines.append(at)
    return tuple(lines)


def _mirrored(rows: _Exact, lines: Set) -> Set:
    return tuple(ceil_mark(rows.end - line, rows.mark) for line in lines)
