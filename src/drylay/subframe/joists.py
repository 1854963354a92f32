"""Joists: the parts of every line between rims, and rims that run on as joists."""

from collections.abc import Callable, Sequence

from attrs import evolve

from drylay.subframe.plane import NEAR_MM, Axis, Corners, Place
from drylay.subframe.strips import free_parts
from drylay.subframe.wants import Timber

#: The kinds of timber that run the joists' way and stand on a line.
ON_LINES = ("joist", "pair")


def place_joists(  # noqa: PLR0917 - all that a joist stands between
    rims: Sequence[Timber],
    lines_mm: Sequence[float],
    first: Sequence[int],
    thickness_mm: float,
    is_free: Callable[[Place], bool],
    obstacles: Sequence[Sequence[Place]] = (),
) -> list[Timber]:
    """Return the joists of all lines, as they fit between rims and obstacles, line by line.

    Lines that are nearer than a thickness share the room: those whose numbers are in `first` have
    it before the others. Parts with less than a thickness clear are left out.
    """
    bounds: list[Sequence[Place]] = [*(rim.corners for rim in rims), *obstacles]
    start = min(corner[1] for rim in rims for corner in rim.corners) - thickness_mm
    taken: dict[int, list[Corners]] = {}
    order = sorted(range(len(lines_mm)), key=lambda number: (number not in first, number))
    for number in order:
        near = [
            part
            for other, parts in taken.items()
            if abs(lines_mm[other] - lines_mm[number]) < thickness_mm
            for part in parts
        ]
        axis = Axis((lines_mm[number], start), (0.0, 1.0))
        stand = [*bounds, *near]
        taken[number] = free_parts(axis, thickness_mm, stand, is_free, thickness_mm)
    return [
        Timber(kind="joist", corners=part, number=number)
        for number in range(len(lines_mm))
        for part in taken[number]
    ]


def run_on(rims: Sequence[Timber], joists: Sequence[Timber]) -> tuple[list[Timber], list[Timber]]:
    """Return rims and joists with every joist that goes on from a rim's square end made part of it.

    Only a rim that runs the joists' way on the joist's own line takes it over.
    """
    longer, left = list(rims), list(joists)
    for number, rim in enumerate(rims):
        if abs(rim.corners[0][0] - rim.corners[1][0]) > NEAR_MM:
            continue
        for joist in joists:
            joined = _joined(longer[number].corners, joist.corners)
            if joined and joist in left:
                longer[number] = evolve(longer[number], corners=joined)
                left.remove(joist)
    return longer, left


def _joined(rim: Corners, joist: Corners) -> Corners | None:
    """Return a rim with the joist that goes on from either of its ends, None if it does not."""
    right, end_right, end_left, left = rim
    up = end_right[1] > right[1]
    low_left, high_left, high_right, low_right = (
        (joist[3], joist[2], joist[1], joist[0]) if up else (joist[1], joist[0], joist[3], joist[2])
    )
    if _same(end_right, low_right) and _same(end_left, low_left):
        return (right, high_right, high_left, left)
    if _same(right, high_right) and _same(left, high_left):
        return (low_right, end_right, end_left, low_left)
    return None


def _same(one: Place, other: Place) -> bool:
    return abs(one[0] - other[0]) < NEAR_MM and abs(one[1] - other[1]) < NEAR_MM
