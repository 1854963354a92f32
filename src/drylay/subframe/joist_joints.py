"""Joists longer than the timber to be had: where they are jointed, and the splices beside them."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve, frozen

from drylay.marks import exact, nearest_mark, to_mm
from drylay.subframe.plane import Axis, Corners, Place, is_inside, spread
from drylay.subframe.sizes import is_upright, length_of, may_be_jointed
from drylay.subframe.strips import open_stretches
from drylay.subframe.wants import Placed, Timber

#: How far apart joints of neighbours are, and how long a splice is. Common practice.
STAGGER_MM = 600.0
#: The shortest length of a jointed joist. Common practice.
LEAST_LENGTH_MM = 1200.0
#: How far a joint, or a splice's end, stays off what bears on the joist. Assumption.
CLEAR_MM = 50.0
#: How far a joint stays off a place where a board is screwed to the joist. Assumption.
SCREW_MM = 25.0
#: How finely places for joints are looked for.
STEP_MM = 10.0

Stretch = tuple[float, float]


@frozen
class _Upright:
    """A member that runs the joists' way: its middle line, tip to tip."""

    u_mm: float
    low_mm: float
    high_mm: float


def with_joist_joints(placed: Placed, keep_off: Sequence[Place] = ()) -> Placed:
    """Return the frame with long joists in the fewest lengths, each joint beside a splice.

    Joints of neighbours are `STAGGER_MM` apart at least, clear of openings' trimmers and of what
    bears on the joist, and of the places in `keep_off` where boards are screwed. A joist for which
    there are no such places stays whole.

    Source: docs/outline-conventions.md, Frame; staggered joints over a packer, backed by a splice,
    by common practice, no source.
    """
    reach = placed.wants.reach_mm
    long = [one for one in placed.timbers if may_be_jointed(one) and _is_over(one, reach)]
    if not long:
        return placed
    us = sorted({_upright(one).u_mm for one in long})
    pieces: dict[Corners, list[Timber]] = {}
    joints, splices = _rim_joints(placed), list[Timber]()
    for timber in sorted(long, key=lambda one: (_upright(one).u_mm, _upright(one).low_mm)):
        lean = STAGGER_MM / 2 * (1 if us.index(_upright(timber).u_mm) % 2 else -1)
        shapes = _Beside(evolve(placed, timbers=(*placed.timbers, *splices)), timber)
        open_to = {way: _room_beside(shapes, way) for way in (1.0, -1.0)}
        shut = [*_shut(shapes, joints), *_screwed(shapes, keep_off)]
        at = _chosen(shapes, [*open_to[1.0], *open_to[-1.0]], shut, lean)
        if at is None:
            continue
        pieces[timber.corners] = _pieces(timber, at)
        splices += [_splice(shapes, v, open_to) for v in at]
        joints += [(_upright(timber).u_mm, v) for v in at]
    timbers = [part for one in placed.timbers for part in pieces.get(one.corners, [one])]
    return evolve(placed, timbers=(*timbers, *splices))


@frozen
class _Beside:
    """A long joist in its frame."""

    placed: Placed
    timber: Timber

    @property
    def middle(self) -> _Upright:
        """Its middle line."""
        return _upright(self.timber)

    @property
    def thick(self) -> float:
        """How thick timbers are."""
        return self.placed.wants.timber_thickness_mm

    @property
    def others(self) -> list[Timber]:
        """All other timbers."""
        return [one for one in self.placed.timbers if one is not self.timber]


def _is_over(timber: Timber, reach_mm: float) -> bool:
    return exact(length_of(timber)) > exact(reach_mm)


def _upright(timber: Timber) -> _Upright:
    left, right = spread(u for u, _ in timber.corners)
    return _Upright((left + right) / 2, *spread(v for _, v in timber.corners))


def _rim_joints(placed: Placed) -> list[Place]:
    """Return where rims that run the joists' way are jointed."""
    found = []
    for rim in placed.timbers:
        if rim.kind == "rim" and is_upright(rim):
            for how, corner in zip(rim.ends, rim.corners[:2], strict=True):
                if how == "splice":
                    found.append((_upright(rim).u_mm, corner[1]))
    return found


def _open(shapes: _Beside, u_mm: float, width_mm: float, timbers: list[Timber]) -> list[Stretch]:
    """Return the stretches along a joist over which a strip beside it is open."""
    middle = shapes.middle
    stand: list[Sequence[Place]] = [one.corners for one in timbers]
    stand += shapes.placed.holes
    axis = Axis((u_mm, middle.low_mm), (0.0, 1.0))
    found = open_stretches(axis, width_mm, stand, middle.high_mm - middle.low_mm)
    return [(middle.low_mm + low, middle.low_mm + high) for low, high in found]


def _room_beside(shapes: _Beside, way: float) -> list[Stretch]:
    """Return from where to where there may be joints with a splice on one side of a joist."""
    u = shapes.middle.u_mm + way * 1.5 * shapes.thick
    half = STAGGER_MM / 2 + CLEAR_MM
    return [
        (low + half, high - half)
        for low, high in _open(shapes, u, 2 * shapes.thick, shapes.others)
        if high - low > 2 * half and is_inside((u, (low + high) / 2), shapes.placed.ring)
    ]


def _shut(shapes: _Beside, joints: Sequence[Place]) -> list[Stretch]:
    """Return the stretches of a joist where it must not be jointed, splice or none."""
    middle, thick = shapes.middle, shapes.thick
    found: list[Stretch] = []
    for one in shapes.others:
        left, right = spread(u for u, _ in one.corners)
        near = min(abs(left - middle.u_mm), abs(right - middle.u_mm)) < thick
        if near and not is_upright(one):
            low, high = spread(v for _, v in one.corners)
            found.append((low - CLEAR_MM, high + CLEAR_MM))
    for low_u, high_u, low, high in _trimmed(shapes.placed):
        if low_u - 2.1 * thick < middle.u_mm < high_u + 2.1 * thick:
            found.append((low - STAGGER_MM / 2, high + STAGGER_MM / 2))
    uprights = [_upright(one) for one in shapes.others if is_upright(one) and one.kind != "splice"]
    for u, v in joints:
        if not _is_parted(middle.u_mm, u, v, uprights):
            found.append((v - STAGGER_MM, v + STAGGER_MM))
    return found


def _is_parted(one_mm: float, other_mm: float, at_mm: float, uprights: Sequence[_Upright]) -> bool:
    """Return whether a third member stands between two lines at a place."""
    near, far = sorted((one_mm, other_mm))
    return any(
        near + 1.0 < each.u_mm < far - 1.0 and each.low_mm <= at_mm <= each.high_mm
        for each in uprights
    )


def _trimmed(placed: Placed) -> list[tuple[float, float, float, float]]:
    """Return the boxes round each opening's trimmers: left, right, low, high."""
    found = []
    for mark in sorted({one.side for one in placed.timbers if one.kind == "trimmer"}):
        own = [
            one.corners
            for one in placed.timbers
            if one.side == mark and (one.kind == "trimmer" or not is_upright(one))
        ]
        found.append((*spread(u for c in own for u, _ in c), *spread(v for c in own for _, v in c)))
    return found


def _screwed(shapes: _Beside, keep_off: Sequence[Place]) -> list[Stretch]:
    """Return the stretches of a joist round the places where boards are screwed to it."""
    middle = shapes.middle
    return [
        (v - SCREW_MM, v + SCREW_MM)
        for u, v in keep_off
        if abs(u - middle.u_mm) < shapes.thick / 2 and middle.low_mm < v < middle.high_mm
    ]


def _chosen(
    shapes: _Beside, room: Sequence[Stretch], shut: Sequence[Stretch], lean_mm: float
) -> list[float] | None:
    """Return where a joist is jointed: the fewest places, as near to even as can be, but leaning.

    None where no places will do.
    """
    low, high = shapes.middle.low_mm, shapes.middle.high_mm
    mark, reach = exact(shapes.placed.wants.mark_mm), shapes.placed.wants.reach_mm
    places = sorted(
        {
            to_mm(nearest_mark(exact(low + step * STEP_MM), mark))
            for step in range(1, int((high - low) / STEP_MM))
        }
    )
    good = [
        at
        for at in places
        if any(a <= at <= b for a, b in room) and not any(a < at < b for a, b in shut)
    ]
    to_end: list[list[float]] = [[high]]
    while to_end[-1]:
        after = to_end[-1]
        firsts = [at for at in good if _next(after, at, reach)]
        if _next(after, low, reach):
            break
        to_end.append(firsts)
    if not to_end[-1]:
        return None
    found, count = [low], len(to_end)
    for number, choice in enumerate(reversed(to_end[1:]), start=1):
        wish = low + (high - low) * number / count + lean_mm
        found.append(min(_next(choice, found[-1], reach), key=lambda at: (abs(at - wish), at)))
    return found[1:]


def _next(places: Sequence[float], from_mm: float, reach_mm: float) -> Sequence[float]:
    """Return the places that one length reaches from another."""
    first = bisect_left(places, from_mm + LEAST_LENGTH_MM)
    return places[first : bisect_right(places, from_mm + reach_mm)]


def _pieces(timber: Timber, at_mm: Sequence[float]) -> list[Timber]:
    """Return a joist's lengths, cut square where they meet."""
    right, end_right, end_left, left = timber.corners
    cuts = [(right, left, timber.ends[0])]
    cuts += [((right[0], at), (left[0], at), "joint") for at in at_mm]
    cuts.append((end_right, end_left, timber.ends[1]))
    return [
        evolve(timber, corners=(one[0], two[0], two[1], one[1]), ends=(one[2], two[2]))
        for one, two in pairwise(cuts)
    ]


def _splice(shapes: _Beside, at_mm: float, open_to: dict[float, list[Stretch]]) -> Timber:
    """Return the splice beside a joint, on a side that is open to it."""
    way = next(way for way, room in open_to.items() if any(a <= at_mm <= b for a, b in room))
    near = shapes.middle.u_mm + way * shapes.thick / 2
    left, right = sorted((near, near + way * shapes.thick))
    low, high = at_mm - STAGGER_MM / 2, at_mm + STAGGER_MM / 2
    return Timber(
        kind="splice",
        corners=((right, low), (right, high), (left, high), (left, low)),
        number=shapes.timber.number,
    )
