"""Facings: the fascia planted on the sides that are faced, corner by corner."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.marks import exact, nearest_mark, to_mm
from drylay.outline.model import Outline, Side
from drylay.subframe.model import Facing
from drylay.subframe.plane import (
    NEAR_MM,
    Axis,
    Place,
    along,
    back,
    beside,
    crossing,
    dot,
    left_of,
    spot_of,
    turn_of,
)
from drylay.subframe.rims import SQUARE_DEG, side_axes


@frozen
class _Cut:
    """How a facing ends: the line it is cut along, and the word for it."""

    line: Axis
    word: str


def facings(
    outline: Outline,
    *,
    thickness_mm: float,
    longest_mm: float,
    mark_mm: float,
) -> tuple[Facing, ...]:
    """Return the fascia of every faced side; in equal parts where no board is long enough.

    Source: docs/outline-conventions.md, Frame.
    """
    axes = side_axes(outline.sides, "across")
    found: list[Facing] = []
    for number, side in enumerate(outline.sides):
        if side.facing_mm:
            after = (number + 1) % len(axes)
            start = _corner(outline.sides, axes, number, thickness_mm)[1]
            end = _corner(outline.sides, axes, after, thickness_mm)[0]
            found += _parts(side, axes[number], (start, end), thickness_mm, longest_mm, mark_mm)
    return tuple(found)


def facing_run_mm(outline: Outline) -> float:
    """Return the length of all faced sides together."""
    return to_mm(sum(exact(side.length_mm) for side in outline.sides if side.facing_mm))


def _corner(
    sides: Sequence[Side], axes: Sequence[Axis], number: int, thickness_mm: float
) -> tuple[_Cut, _Cut]:
    """Return how the facings before and after a corner end there."""
    earlier, later = (number - 1) % len(axes), number
    before, after = axes[earlier], axes[later]
    if not (sides[earlier].facing_mm and sides[later].facing_mm):
        return _Cut(after, "free"), _Cut(before, "free")
    inner_before, inner_after = beside(before, thickness_mm), beside(after, thickness_mm)
    turn_deg = math.degrees(math.atan2(turn_of(before.way, after.way), dot(before.way, after.way)))
    if abs(turn_deg) <= SQUARE_DEG:  # in one straight
        joint = Axis(after.origin, left_of(after.way))
        return _Cut(joint, "butt"), _Cut(joint, "butt")
    if abs(turn_deg - 90.0) <= SQUARE_DEG:
        if _is_longer(sides, earlier, later):
            return _Cut(after, "lap"), _Cut(inner_before, "butt")
        return _Cut(inner_after, "butt"), _Cut(before, "lap")
    if turn_deg < 0.0:
        if earlier < later:
            return _Cut(inner_after, "lap"), _Cut(before, "butt")
        return _Cut(after, "butt"), _Cut(inner_before, "lap")
    mitre = crossing(before, after), crossing(inner_before, inner_after)
    line = Axis(mitre[0], _way(*mitre))
    return _Cut(line, "mitre"), _Cut(line, "mitre")


def _is_longer(sides: Sequence[Side], one: int, other: int) -> bool:
    """Return whether a side is the longer of two, of equal ones the earlier."""
    lead = sides[one].length_mm - sides[other].length_mm
    return lead > NEAR_MM or (abs(lead) <= NEAR_MM and one < other)


def _way(start: Place, end: Place) -> Place:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _parts(  # noqa: PLR0917 - all that shapes a facing
    side: Side,
    axis: Axis,
    cuts: tuple[_Cut, _Cut],
    thickness_mm: float,
    longest_mm: float,
    mark_mm: float,
) -> list[Facing]:
    """Return a side's facing whole, or in the fewest equal parts that can be had."""
    inner = beside(axis, thickness_mm)
    (outer_start, inner_start), (outer_end, inner_end) = (
        [along(axis, crossing(face, cut.line))[0] for face in (axis, inner)] for cut in cuts
    )
    low, high = min(outer_start, inner_start), max(outer_end, inner_end)
    joints = [low + at for at in _joints(high - low, longest_mm, mark_mm)]
    starts = [(outer_start, inner_start, cuts[0].word), *((at, at, "butt") for at in joints)]
    ends = [*((at, at, "butt") for at in joints), (outer_end, inner_end, cuts[1].word)]
    marks = _marks(side, len(starts))
    return [
        Facing(
            mark=mark,
            side=side.mark,
            start=spot_of(back(axis, (start[0], 0.0)), "across"),
            end=spot_of(back(axis, (end[0], 0.0)), "across"),
            length_mm=to_mm(exact(max(end[:2]) - min(start[:2]))),
            start_end=start[2],
            end_end=end[2],
            start_deg=_degrees(start[1] - start[0], thickness_mm),
            end_deg=_degrees(end[1] - end[0], thickness_mm),
        )
        for mark, start, end in zip(marks, starts, ends, strict=True)
    ]


def _joints(length_mm: float, longest_mm: float, mark_mm: float) -> list[float]:
    """Return where the fewest parts meet that are as equal as marks allow, none too long."""
    length, longest, mark = exact(length_mm), exact(longest_mm), exact(mark_mm)
    count = max(1, -(-length // longest))
    while True:
        joints = [nearest_mark(length * part // count, mark) for part in range(1, count)]
        parts = [far - near for near, far in pairwise([0, *joints, length])]
        if max(parts) <= longest or longest <= mark:
            return [to_mm(joint) for joint in joints]
        count += 1


def _marks(side: Side, count: int) -> list[str]:
    mark = f"F{side.mark.removeprefix('E')}"
    return [mark] if count == 1 else [f"{mark}.{part}" for part in range(1, count + 1)]


def _degrees(lead_mm: float, thickness_mm: float) -> float:
    if abs(lead_mm) < NEAR_MM:
        return 0.0
    return round(math.degrees(math.atan2(lead_mm, thickness_mm)), 4)
