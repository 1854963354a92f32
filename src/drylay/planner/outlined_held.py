"""What holds a board along its length: timbers under its middle, or under both its edges."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.geometry import Place
from drylay.laying.axes import place_of, seen
from drylay.laying.parts import Part, corners_of
from drylay.outline.model import Spot
from drylay.subframe.grid import Grid, grid_of, near
from drylay.subframe.model import Member

#: Of a board that has more corners each part so wide is looked at for itself: less is never a tip
#: to tread on. Assumption.
STRIP_MM = 20.0
#: A line this near to a face lies along it, in mm: less than any place is rounded by.
HAIR_MM = 0.001

Stretch = tuple[float, float]


@frozen
class Wood:
    """All that bears boards, seen from above."""

    shapes: tuple[tuple[Place, ...], ...]
    grid: Grid


def wood_of(members: Sequence[Member], faces: Sequence[Sequence[Spot]] = ()) -> Wood:
    """Return what bears boards: members, and fascia that is planted on them."""
    shapes = (
        *(tuple(map(place_of, each.corners)) for each in members if each.kind != "splice"),
        *(tuple(map(place_of, each)) for each in faces),
    )
    return Wood(shapes, grid_of(shapes))


def free_end_mm(part: Part, wood: Wood) -> float:
    """Return the furthest that an end is off what carries its strip; endless where nothing does.

    Source: docs/outline-conventions.md, Frame.
    """
    levels = sorted({v for _, v in part.ring})
    low, high = levels[0], levels[-1]
    strips = [(a, b) for a, b in pairwise(levels) if STRIP_MM <= b - a < high - low]
    under = _seen_under(part, wood)
    return max(_free_of_strip(part, under, strip) for strip in [(low, high), *strips])


def hanging(part: Part, wood: Wood, most_mm: float) -> list[Stretch]:
    """Return the stretches of a part's middle line that hang free over more than they may.

    Source: docs/outline-conventions.md, Frame.
    """
    strip = _whole(part)
    held = _held(_seen_under(part, wood), strip)
    found = []
    for start, end in _stretches(part.ring, sum(strip) / 2):
        inner = [each for each in held if each[1] > start and each[0] < end]
        found += [(one[1], two[0]) for one, two in pairwise(inner) if two[0] - one[1] > most_mm]
    return found


def _whole(part: Part) -> Stretch:
    return min(v for _, v in part.ring), max(v for _, v in part.ring)


@frozen
class _Seen:
    """A shape as boards see it, and from where to where across them it lies."""

    ring: Sequence[Place]
    low_mm: float
    high_mm: float


def _seen_under(part: Part, wood: Wood) -> list[_Seen]:
    """Return the shapes that may lie under a part, as the boards see them."""
    numbers = near(wood.grid, corners_of(part))
    found = []
    for number in numbers:
        ring = [seen(part.band.axes, place) for place in wood.shapes[number]]
        levels = [v for _, v in ring]
        found.append(_Seen(ring, min(levels), max(levels)))
    return found


def _free_of_strip(part: Part, under: Sequence[_Seen], strip: Stretch) -> float:
    held = _held(under, strip)
    worst = 0.0
    for start, end in _stretches(part.ring, sum(strip) / 2):
        beneath = [each for each in held if each[1] > start and each[0] < end]
        if not beneath:
            return math.inf
        worst = max(worst, beneath[0][0] - start, end - beneath[-1][1])
    return worst


def _held(under: Sequence[_Seen], strip: Stretch) -> list[Stretch]:
    """Return where a strip is held, in order: those stretches that meet as one."""
    low, high = strip
    eighth = (high - low) / 8
    near_edge, far_edge = _carried(under, low + eighth), _carried(under, high - eighth)
    both = [
        (max(a, c), min(b, d)) for a, b in near_edge for c, d in far_edge if max(a, c) < min(b, d)
    ]
    found: list[Stretch] = []
    for start, end in sorted([*both, *_carried(under, (low + high) / 2)]):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return found


def _carried(under: Sequence[_Seen], level_mm: float) -> list[Stretch]:
    """Return where a line lies over shapes: one along a face of a shape does, whichever it is."""
    return [
        stretch
        for each in under
        if each.low_mm - HAIR_MM <= level_mm <= each.high_mm + HAIR_MM
        for stretch in _stretches(
            each.ring, min(max(level_mm, each.low_mm + HAIR_MM), each.high_mm - HAIR_MM)
        )
    ]


def _stretches(ring: Sequence[Place], level_mm: float) -> list[Stretch]:
    """Return from where to where a line at one level lies in a shape."""
    crossed = sorted(
        u + (w - u) * (level_mm - v) / (x - v)
        for (u, v), (w, x) in zip(ring, [*ring[1:], ring[0]], strict=True)
        if (v > level_mm) != (x > level_mm)
    )
    return list(zip(crossed[::2], crossed[1::2], strict=False))
