"""Joists: the parts of every line between rims, and rims that run on as joists."""

from collections.abc import Mapping, Sequence

from attrs import evolve, frozen

from drylay.subframe.plane import NEAR_MM, Axis, Corners, Place, is_inside, spread
from drylay.subframe.sizes import is_upright, length_of
from drylay.subframe.strips import free_parts
from drylay.subframe.wants import Timber


@frozen
class Claim:
    """A stretch over which a line must have its joist: where a rim or a seam lies on it."""

    number: int
    low_mm: float
    high_mm: float


@frozen(kw_only=True)
class Room:
    """What joists stand in: rims all round, the lines, and which of them must be where.

    Of two claims the earlier goes first.
    """

    rims: tuple[Timber, ...]
    lines_mm: tuple[float, ...]
    claims: tuple[Claim, ...]
    thickness_mm: float
    ring: tuple[Place, ...]


def place_joists(room: Room, obstacles: Sequence[Sequence[Place]] = ()) -> list[Timber]:
    """Return the joists of all lines, as they fit between rims and obstacles, line by line.

    Lines that are nearer than a thickness share the room: those that claim a stretch have the
    whole room it lies in. Parts with less than a thickness clear are left out.
    """
    stand = [*(rim.corners for rim in room.rims), *obstacles]
    taken: dict[int, list[Corners]] = {}
    for claim in room.claims:
        taken.setdefault(claim.number, []).extend(
            part
            for part in _parts(room, claim.number, stand, taken)
            if _meets(part, claim) and part not in taken[claim.number]
        )
    for number in range(len(room.lines_mm)):
        taken[number] = _parts(room, number, stand, taken)
    return [
        Timber(kind="joist", corners=part, number=number)
        for number in range(len(room.lines_mm))
        for part in taken[number]
    ]


def _parts(
    room: Room,
    number: int,
    stand: Sequence[Sequence[Place]],
    taken: Mapping[int, Sequence[Corners]],
) -> list[Corners]:
    """Return where a line has room beside what stands and what other lines have taken."""
    line, thick = room.lines_mm[number], room.thickness_mm
    near = [
        part
        for other, parts in taken.items()
        if other != number and abs(room.lines_mm[other] - line) < thick - NEAR_MM
        for part in parts
    ]
    axis = Axis((line, min(v for _, v in room.ring) - thick), (0.0, 1.0))
    # holes are among what stands: a part is either in the frame or outside it
    return free_parts(axis, thick, [*stand, *near], lambda at: is_inside(at, room.ring), thick)


def _meets(part: Corners, claim: Claim) -> bool:
    low, high = spread(v for _, v in part)
    return low < claim.high_mm and high > claim.low_mm


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
