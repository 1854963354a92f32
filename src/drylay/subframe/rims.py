"""Rims: one whole timber inside every side, and how two of them meet at a corner."""

import math
from collections.abc import Sequence

from attrs import evolve

from drylay.outline.model import Side
from drylay.subframe.plane import (
    NEAR_MM,
    Axis,
    Place,
    axis_through,
    beside,
    crossing,
    dot,
    left_of,
    place_of,
    turn_of,
)
from drylay.subframe.wants import Timber

#: Corners within this of square are square: what rounding to 1/320 mm does to a short side.
SQUARE_DEG = 0.05
#: The least turn at which a rim runs on as a joist and the other is cut to end against it.
RUN_ON_DEG = 45.0


def straights(sides: Sequence[Side]) -> list[tuple[int, Side]]:
    """Return the sides with those in one straight as one, each with its number from 0.

    Where only the kind of a side changes its rim goes on; it is numbered like the first of them.
    """
    first = next(n for n in range(len(sides)) if not _goes_on(sides[n - 1], sides[n]))
    found: list[tuple[int, Side]] = []
    for number in [*range(first, len(sides)), *range(first)]:
        side = sides[number]
        if found and _goes_on(sides[number - 1], side):
            start, whole = found[-1]
            length = whole.length_mm + side.length_mm
            found[-1] = (start, evolve(whole, end=side.end, length_mm=length))
        else:
            found.append((number, side))
    return sorted(found, key=lambda one: one[0])


def _goes_on(before: Side, after: Side) -> bool:
    one, other = (
        axis_through(place_of(side.start, "across"), place_of(side.end, "across"))
        for side in (before, after)
    )
    shorter = min(before.length_mm, after.length_mm)
    return dot(one.way, other.way) > 0 and abs(turn_of(one.way, other.way)) * shorter < NEAR_MM


def side_axes(sides: Sequence[Side], joist_run: str) -> list[Axis]:
    """Return each side as an axis in the frame's own axes, in order."""
    return [
        _trued(place_of(side.start, joist_run), place_of(side.end, joist_run)) for side in sides
    ]


def _trued(start: Place, end: Place) -> Axis:
    """Return the axis from one place to another, turned onto u or v where rounding put it off."""
    axis = axis_through(start, end)
    if abs(end[0] - start[0]) < NEAR_MM:
        return Axis(axis.origin, (0.0, math.copysign(1.0, axis.way[1])))
    if abs(end[1] - start[1]) < NEAR_MM:
        return Axis(axis.origin, (math.copysign(1.0, axis.way[0]), 0.0))
    return axis


def face_axes(sides: Sequence[Side], joist_run: str) -> list[Axis]:
    """Return the frame's face inside each side: as far back as its fascia is thick."""
    axes = side_axes(sides, joist_run)
    return [beside(axis, side.facing_mm) for axis, side in zip(axes, sides, strict=True)]


def ring_of(axes: Sequence[Axis]) -> tuple[Place, ...]:
    """Return the corners that axes all round make, each at the start of its axis."""
    return tuple(crossing(axes[number - 1], axis) for number, axis in enumerate(axes))


def is_joists_way(axis: Axis) -> bool:
    """Return whether an axis of `side_axes` runs the joists' way."""
    return axis.way[0] == 0.0


def place_rims(
    numbered: Sequence[tuple[int, Side]], joist_run: str, thickness_mm: float
) -> list[Timber]:
    """Return a rim inside every side of `straights`, in order, whole.

    Source: docs/outline-conventions.md, Frame.
    """
    axes = face_axes([side for _, side in numbered], joist_run)
    cuts = [_corner(axes, number, thickness_mm) for number in range(len(axes))]
    return [
        _rim(axis, side, number, (cuts[at][1], cuts[(at + 1) % len(axes)][0]), thickness_mm)
        for at, (axis, (number, side)) in enumerate(zip(axes, numbered, strict=True))
    ]


def _rim(
    axis: Axis,
    side: Side,
    number: int,
    cuts: tuple[tuple[Axis, bool], tuple[Axis, bool]],
    thickness_mm: float,
) -> Timber:
    inner = beside(axis, thickness_mm)
    (start, start_mitred), (end, end_mitred) = cuts
    return Timber(
        kind="rim",
        corners=(
            crossing(axis, start),
            crossing(axis, end),
            crossing(inner, end),
            crossing(inner, start),
        ),
        side=side.mark,
        number=number,
        ends=("mitre" if start_mitred else "", "mitre" if end_mitred else ""),
    )


def _corner(
    axes: Sequence[Axis], number: int, thickness_mm: float
) -> tuple[tuple[Axis, bool], tuple[Axis, bool]]:
    """Return the cuts of the rims before and after a corner, and whether they are mitred."""
    before, after = axes[number - 1], axes[number]
    inner_before, inner_after = beside(before, thickness_mm), beside(after, thickness_mm)
    turn_deg = math.degrees(math.atan2(turn_of(before.way, after.way), dot(before.way, after.way)))
    if abs(turn_deg - 90.0) <= SQUARE_DEG:
        lead = abs(before.way[0]) - abs(after.way[0])
        if abs(lead) > 1e-3:  # at 45 degrees neither runs more across than the other
            if lead > 0:
                return (after, False), (inner_before, False)
            return (inner_after, False), (before, False)
    elif turn_deg <= -RUN_ON_DEG:
        corner = crossing(before, after)
        if is_joists_way(before):
            return (Axis(corner, (1.0, 0.0)), False), (before, False)
        if is_joists_way(after):
            return (after, False), (Axis(corner, (1.0, 0.0)), False)
    mitre = axis_through(crossing(before, after), crossing(inner_before, inner_after))
    return (mitre, True), (mitre, True)


def is_whole(rim: Timber, axis: Axis) -> bool:
    """Return whether a rim has length left at both faces once its corners are cut."""
    return room_mm(rim, axis) > NEAR_MM


def room_mm(rim: Timber, axis: Axis) -> float:
    """Return what is left of a rim along its shorter face, below 0 where its cuts cross."""
    start_right, end_right, end_left, start_left = (dot(place, axis.way) for place in rim.corners)
    return min(end_right - start_right, end_left - start_left)


def lines_of_rims(axes: Sequence[Axis], thickness_mm: float) -> list[float]:
    """Return the centres of all rims that run the joists' way."""
    return [
        axis.origin[0] + left_of(axis.way)[0] * thickness_mm / 2
        for axis in axes
        if is_joists_way(axis)
    ]
