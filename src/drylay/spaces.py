"""Where on an outline something finds room, and the nearest place that gives it."""

from collections.abc import Sequence

from attrs import frozen

from drylay.rings import Place, Ring, about, apart, holds, sides

#: What a place is looked for on: pencil marks of 0.5 mm.
MARK = 160
#: So many marks each way around the nearest free place are tried, which may be off a mark itself.
AROUND = 3


@frozen(kw_only=True)
class Room:
    """What something takes about its middle, and how far its edge keeps off the outline's sides.

    `off_others` is how far it keeps off each other thing that stands there.
    """

    size: Place
    off_sides: int = 0
    off_others: int = 0


def stands_in(size: Place, off_sides: int, off_others: int = 0) -> Room:
    """Return the room something takes."""
    return Room(size=size, off_sides=off_sides, off_others=off_others)


def fits(ring: Ring, others: Sequence[Ring], middle: Place, room: Room) -> bool:
    """Return whether something finds its room about a place, on the deck and beside others."""
    own = about(middle, room.size)
    if not holds(ring, own) or (room.off_sides and apart(ring, own) < room.off_sides):
        return False
    return all(
        not holds(other, own) and not holds(own, other) and apart(own, other) >= room.off_others
        and apart(own, other) > 0
        for other in others
    )  # fmt: skip


def nearest_place(ring: Ring, others: Sequence[Ring], middle: Place, room: Room) -> Place | None:
    """Return the mark nearest to a place where something finds its room; None if there is none.

    Near a skew side the next mark may be a few marks nearer than the one told.
    """
    from drylay.geometry import hull, minus, nearest_in, region, whole  # heavy, seldom wanted

    blocked = [_swept(side, room.size, room.off_sides) for side in sides(ring)]
    blocked += [_swept(other, room.size, room.off_others + 1) for other in others]
    near = nearest_in(minus(region(ring), whole(hull(each) for each in blocked)), middle)
    if near is None:
        return None
    start = (round(near[0] / MARK), round(near[1] / MARK))
    around = range(-AROUND, AROUND + 1)
    marks = [((start[0] + i) * MARK, (start[1] + j) * MARK) for i in around for j in around]
    return _first(sorted(marks, key=lambda at: (_way_2(at, middle), at)), ring, others, room)


def _way_2(one: Place, other: Place) -> int:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2


def _first(
    marks: Sequence[Place], ring: Ring, others: Sequence[Ring], room: Room
) -> Place | None:  # fmt: skip
    return next((mark for mark in marks if fits(ring, others, mark, room)), None)


def _swept(places: Sequence[Place], size: Place, off: int) -> list[tuple[float, float]]:
    """Return where a middle may not lie for what takes `size` to keep `off` these places."""
    half = (size[0] / 2 + off, size[1] / 2 + off)
    return [(x + i * half[0], y + j * half[1]) for x, y in places for i in (-1, 1) for j in (-1, 1)]
