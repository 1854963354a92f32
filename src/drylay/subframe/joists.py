"""Joists: the parts of every line between rims, and rims that run on as joists."""

from collections.abc import Callable, Sequence

from attrs import evolve

from drylay.subframe.plane import NEAR_MM, Axis, Corners, Place
from drylay.subframe.sizes import is_upright, length_of
from drylay.subframe.strips import free_parts
from drylay.subframe.wants import Timber


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

    Only a rim that runs the joists' way on the joist's own line takes it over. Where two such rims
    run towards one another the longer runs on to the other: a joint that a splice has to back.
    """
    longer, left = list(rims), []
    for joist in joists:
        ends = {n: end for n, rim in enumerate(longer) if (end := _end_at(rim, joist)) is not None}
        if not ends:
            left.append(joist)
            continue
        taker = max(ends, key=lambda n: (length_of(longer[n]), -n))
        longer[taker] = _with(longer[taker], joist, ends[taker])
        if len(ends) > 1:
            for number, end in ends.items():
                longer[number] = _backed(longer[number], end)
    return longer, left


def _end_at(rim: Timber, joist: Timber) -> int | None:
    """Return which end of a rim a joist goes on from, 0 or 1, None where from neither."""
    right, end_right, end_left, left = rim.corners
    low_right, high_right, high_left, low_left = joist.corners
    low, high = {low_right, low_left}, {high_right, high_left}
    if not is_upright(rim):
        return None
    up = end_right[1] > right[1]
    for end, ours, theirs in ((0, (right, left), high), (1, (end_right, end_left), low)):
        against = theirs if up else (low if theirs is high else high)
        if all(any(_same(one, other) for other in against) for one in ours):
            return end
    return None


def _with(rim: Timber, joist: Timber, end: int) -> Timber:
    """Return a rim that goes on over a joist from one of its ends."""
    right, end_right, end_left, left = rim.corners
    low_right, high_right, high_left, low_left = joist.corners
    if end_right[1] < right[1]:  # the rim runs the other way than the joist
        low_right, high_right, high_left, low_left = high_left, low_left, low_right, high_right
    if end == 0:
        return evolve(rim, corners=(low_right, end_right, end_left, low_left))
    return evolve(rim, corners=(right, high_right, high_left, left))


def _backed(rim: Timber, end: int) -> Timber:
    start, last = rim.ends
    return evolve(rim, ends=("splice", last) if end == 0 else (start, "splice"))


def _same(one: Place, other: Place) -> bool:
    return abs(one[0] - other[0]) < NEAR_MM and abs(one[1] - other[1]) < NEAR_MM
