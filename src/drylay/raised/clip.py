"""What of a strip lies within a ring, or is taken by an opening: exact, over whole 1/320 mm.

A strip is what a member covers: from `low` to `high` along one axis (0 along, 1 across), endless
along the other. Looked at half a 1/320 mm within its edges and beside every corner in it, where
no line meets a corner.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

from drylay.rings import Ring, sides

HALF = Fraction(1, 2)
Range = tuple[int, int]


def free_of(ring: Ring, low: int, high: int, axis: int) -> list[Range]:
    """Return the ranges along the other axis over which the whole strip lies within a ring."""
    found: list[tuple[Fraction, Fraction]] | None = None
    for at in _looks(ring, low, high, axis):
        cuts = _cuts(ring, at, axis)
        found = cuts if found is None else _both(found, cuts)
    whole = [(ceil(start), floor(end)) for start, end in found or ()]
    return [(start, end) for start, end in whole if start < end]


def taken_by(opening: Ring, low: int, high: int, axis: int) -> Range | None:
    """Return the range along the other axis that an opening takes of a strip; None if nothing."""
    ends = [
        end
        for at in _looks(opening, low, high, axis)
        for cut in _cuts(opening, at, axis)
        for end in cut
    ]
    return (floor(min(ends)), ceil(max(ends))) if ends else None


def less(ranges: Sequence[Range], taken: Range) -> list[Range]:
    """Return ranges less what is taken of them."""
    found = []
    for start, end in ranges:
        found += [(start, min(end, taken[0])), (max(start, taken[1]), end)]
    return [(start, end) for start, end in found if start < end]


def _looks(ring: Ring, low: int, high: int, axis: int) -> list[Fraction]:
    corners = {corner[axis] for corner in ring if low < corner[axis] < high}
    looks = {low + HALF, high - HALF, *(at + side for at in corners for side in (-HALF, HALF))}
    return sorted(looks)


def _cuts(ring: Ring, at: Fraction, axis: int) -> list[tuple[Fraction, Fraction]]:
    """Return where a line, off all corners, runs within a ring."""
    crossed = []
    for a, b in sides(ring):
        if (a[axis] > at) != (b[axis] > at):
            share = (at - a[axis]) / (b[axis] - a[axis])
            crossed.append(a[1 - axis] + share * (b[1 - axis] - a[1 - axis]))
    crossed.sort()
    return list(zip(crossed[::2], crossed[1::2], strict=True))


def _both(
    one: list[tuple[Fraction, Fraction]], other: list[tuple[Fraction, Fraction]]
) -> list[tuple[Fraction, Fraction]]:
    shared = [(max(a, c), min(b, d)) for a, b in one for c, d in other]
    return [(start, end) for start, end in shared if start < end]
