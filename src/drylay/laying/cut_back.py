"""Where a row is cut back, lest what an opening or a corner parts ends nearer than ends may.

All places are told along the row's run and to the left of it.
"""

import math
from collections.abc import Iterator, Sequence

from drylay.geometry import Place, Region, Ring, bounds, box, minus, parts_of, ring_of, shifted
from drylay.laying.rows import FAN_DEG

#: An opening takes what it takes of a row's edges so far inside them; an end less off square is
#: square.
JUST_MM = 0.1
#: How much more than an end gap an opening takes of a row's edge, where it is left as it is.
PINCH_MM = 1.0
#: How far past a zone what lies beyond its ends is drawn.
PAST_MM = 1_000.0


def pinches(
    shape: Sequence[Place], low_mm: float, high_mm: float, gap_mm: float
) -> Iterator[float]:
    """Yield where a shape that parts a row takes less of one of its edges than an end gap."""
    taken = [_taken(shape, level) for level in (low_mm + JUST_MM, high_mm - JUST_MM)]
    if all(taken):
        for us in taken:
            if max(us) - min(us) < gap_mm + PINCH_MM:
                yield (min(us) + max(us)) / 2


def _taken(shape: Sequence[Place], level: float) -> list[float]:
    """Return where the sides of a shape cross a level."""
    return [
        u1 + (level - v1) / (v2 - v1) * (u2 - u1)
        for (u1, v1), (u2, v2) in _sides(shape)
        if (v1 > level) != (v2 > level)
    ]


def _sides(ring: Sequence[Place]) -> Iterator[tuple[Place, Place]]:
    return zip(ring, (*ring[1:], ring[0]), strict=True)


def beyond(area: Region, low_mm: float, high_mm: float) -> Iterator[Ring]:
    """Yield the shapes outside an area beside a row: past its ends, and between parts of it."""
    u1, _, u2, _ = bounds(area)
    half = JUST_MM / 2  # a side that the row's own edge lies on joins none of them
    strip = box(u1 - PAST_MM, low_mm + half, u2 + PAST_MM, high_mm - half)
    for part in parts_of(minus(strip, area)):
        yield ring_of(part)


def ends_cut_back(
    area: Region, hole: Sequence[Place], low_mm: float, high_mm: float, gap_mm: float
) -> Iterator[Ring]:
    """Yield what is cut off a row's ends, in line with a side of its zone that a hole reaches over.

    Where the hole takes less of that side than an end gap, boards end further in, where it takes
    one.

    Source: docs/outline-conventions.md, Laying.
    """
    for part in parts_of(area):
        for start, end in _sides(ring_of(part)):
            level = shifted(start, end, JUST_MM)
            crossings = _crossings(level, hole)
            if _lies_along(start, end) or len(crossings) != 2:
                continue
            (at, widens), (after, widens_after) = sorted(crossings)
            grows, lacks = widens_after - widens, gap_mm - (after - at)
            within = all(low_mm < _on(level, each)[1] < high_mm for each in (at, after))
            if within and lacks > 0 and grows > 0:
                inner = shifted(start, end, JUST_MM + lacks / grows)
                yield (start, end, inner[1], inner[0])


def _lies_along(start: Place, end: Place) -> bool:
    """Whether a row lies along a side, but for a fan."""
    u, v = (abs(b - a) for a, b in zip(start, end, strict=True))
    return v <= u * math.tan(math.radians(FAN_DEG))


def _on(line: tuple[Place, Place], at_mm: float) -> Place:
    (u1, v1), (u2, v2) = line
    share = at_mm / math.dist(*line)
    return u1 + (u2 - u1) * share, v1 + (v2 - v1) * share


def _crossings(line: tuple[Place, Place], hole: Sequence[Place]) -> list[tuple[float, float]]:
    """Return where along a line a hole's sides cross it, and by how much that moves to its left."""
    (u1, v1), (u2, v2) = line
    long = math.dist(*line)
    cos, sin = (u2 - u1) / long, (v2 - v1) / long
    told = [((u - u1) * cos + (v - v1) * sin, (v - v1) * cos - (u - u1) * sin) for u, v in hole]
    found = []
    for (a, left), (b, left_after) in _sides(told):
        if (left > 0) != (left_after > 0):
            moves = (b - a) / (left_after - left)
            at = a - left * moves
            if 0 < at < long:
                found.append((at, moves))
    return found
