"""Rims longer than the timber to be had: where they may be jointed, and what backs the joints."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve, frozen

from drylay.cutting.model import Line
from drylay.marks import exact, floor_mark, nearest_mark, to_mm
from drylay.subframe.plane import (
    NEAR_MM,
    Axis,
    Corners,
    along,
    axis_through,
    back,
    beside,
    crossing,
    left_of,
)
from drylay.subframe.sizes import length_of
from drylay.subframe.strips import open_stretches
from drylay.subframe.wants import Placed, Timber

#: The shortest splice worth its fixings, in mm. Assumption.
LEAST_SPLICE_MM = 100.0


@frozen
class _Bay:
    """Where a rim may be jointed: its middle from the rim's tip, and how much is clear there."""

    at: int
    clear_mm: float


def long_rims(placed: Placed, reach_mm: float) -> list[Timber]:
    """Return the rims that are longer than the timber to be had, in the order of `rim_lines`."""
    return [
        timber
        for timber in placed.timbers
        if timber.kind == "rim" and exact(length_of(timber)) > exact(reach_mm)
    ]


def rim_lines(placed: Placed, reach_mm: float) -> tuple[Line, ...]:
    """Return a line of its own for every rim longer than the timber to be had, in their order.

    A line runs from the rim's one tip to the other; its stations are the marks nearest the middle
    of every bay that what stands against the rim leaves open behind it. Where nothing stands, bays
    are no wider than those of joists.

    Source: joints of rims in bays, backed by a splice, by common practice, no source.
    """
    return tuple(
        Line(
            count=1,
            start=0,
            end=exact(length_of(rim)),
            stations=tuple(bay.at for bay in _bays(placed, rim)),
        )
        for rim in long_rims(placed, reach_mm)
    )


def with_rim_joints(
    placed: Placed,
    joints: Sequence[Sequence[int]],
    reach_mm: float,
    *,
    beside_mm: float = 0.0,
) -> Placed:
    """Return the frame with rims in pieces that meet at the stations named, each over a splice.

    `joints` run in step with `rim_lines`. A splice leaves `beside_mm` of its bay free, for the
    flanges of hangers.
    """
    pieces: dict[int, list[Timber]] = {}
    splices: list[Timber] = []
    for rim, stations in zip(long_rims(placed, reach_mm), joints, strict=True):
        bays = _bays(placed, rim)
        chosen = [bays[station] for station in stations]
        pieces[rim.number] = _pieces(rim, [to_mm(bay.at) for bay in chosen])
        splices += [_splice(placed, rim, bay, beside_mm) for bay in chosen]
    timbers = [
        piece
        for timber in placed.timbers
        for piece in (pieces.get(timber.number, [timber]) if timber.kind == "rim" else [timber])
    ]
    return evolve(placed, timbers=(*timbers, *splices))


def with_meeting_splices(placed: Placed) -> Placed:
    """Return the frame with a splice behind every joint where one rim runs on to another.

    As long as a bay may be wide, or as what stands behind the rim lets it be; where that is too
    short for one, the rims carry each other.
    """
    rims = [timber for timber in placed.timbers if timber.kind == "rim"]
    timbers = list(placed.timbers)
    for rim in rims:
        for end, how in enumerate(rim.ends):
            other = next(
                (one for one in rims if one is not rim and _starts_at(one, rim, end)), None
            )
            if how != "splice" or other is None or rim.number > other.number:
                continue
            at = along(_tip_axis(rim), rim.corners[end])[0]
            clear = _room(evolve(placed, timbers=tuple(timbers)), rim, at)
            if clear >= LEAST_SPLICE_MM:
                timbers.append(_splice(placed, rim, _Bay(exact(at), clear), 0.0))
            else:
                timbers = [_unbacked(_unbacked(one, rim, end), other, 1 - end) for one in timbers]
    return evolve(placed, timbers=tuple(timbers))


def _unbacked(timber: Timber, rim: Timber, end: int) -> Timber:
    """Return a timber as it is, but a rim with no splice behind that end."""
    if timber.kind != "rim" or timber.number != rim.number:
        return timber
    start, last = timber.ends
    return evolve(timber, ends=("", last) if end == 0 else (start, ""))


def _starts_at(other: Timber, rim: Timber, end: int) -> bool:
    """Return whether the other end of another rim is where a rim has one."""
    return math.dist(other.corners[1 - end], rim.corners[end]) < NEAR_MM


def _room(placed: Placed, rim: Timber, at_mm: float) -> float:
    """Return how long a splice behind a place of a rim may be, as far to either side."""
    thick, most = placed.wants.timber_thickness_mm, placed.wants.most_centres_mm
    others = [
        timber.corners
        for timber in placed.timbers
        if timber.kind != "rim" or timber.number != rim.number
    ]
    axis = beside(_tip_axis(rim), 1.5 * thick)
    start = Axis(back(axis, (at_mm - most / 2, 0.0)), axis.way)
    for low, high in open_stretches(start, thick, others, most):
        if low < most / 2 < high:
            return 2 * min(most / 2 - low, high - most / 2)
    return 0.0


def _tip_axis(rim: Timber) -> Axis:
    """Return the axis along a rim's outer face, from the level of its first tip."""
    axis = axis_through(rim.corners[0], rim.corners[1])
    return Axis(back(axis, (min(along(axis, place)[0] for place in rim.corners), 0.0)), axis.way)


def _bays(placed: Placed, rim: Timber) -> list[_Bay]:
    """Return the bays behind a rim in which it may be jointed, from its first tip on."""
    thick, mark = placed.wants.timber_thickness_mm, exact(placed.wants.mark_mm)
    axis = _tip_axis(rim)
    behind = beside(axis, 1.5 * thick)
    others = [timber.corners for timber in placed.timbers if timber is not rim]
    right, end_right, end_left, left = (along(axis, place)[0] for place in rim.corners)
    low, high = max(right, left), min(end_right, end_left)
    found = []
    for start, end in open_stretches(behind, thick, others, length_of(rim)):
        near, far = max(start, low), min(end, high)
        count = max(1, math.ceil((far - near) / placed.wants.most_centres_mm - 1e-9))
        if count <= 2:
            count = 1
        clear = (far - near) / count
        if clear >= LEAST_SPLICE_MM:
            middles = [near + clear * (step + 0.5) for step in range(count)]
            found += [_Bay(nearest_mark(exact(at), mark), clear) for at in middles]
    return found


def _pieces(rim: Timber, at_mm: Sequence[float]) -> list[Timber]:
    """Return a rim's pieces, cut square where they meet."""
    axis = _tip_axis(rim)
    inner = axis_through(rim.corners[3], rim.corners[2])
    right, end_right, end_left, left = rim.corners
    cuts = [(right, left, rim.ends[0])]
    for at in at_mm:
        place = back(axis, (at, 0.0))
        cuts.append((place, crossing(Axis(place, left_of(axis.way)), inner), "splice"))
    cuts.append((end_right, end_left, rim.ends[1]))
    return [
        evolve(rim, corners=(one[0], two[0], two[1], one[1]), ends=(one[2], two[2]))
        for one, two in pairwise(cuts)
    ]


def _splice(placed: Placed, rim: Timber, bay: _Bay, beside_mm: float) -> Timber:
    """Return the splice behind a joint, as long as its bay lets it be, down to a mark."""
    thick, mark = placed.wants.timber_thickness_mm, exact(placed.wants.mark_mm)
    room = min(bay.clear_mm, placed.wants.most_centres_mm) - beside_mm
    half = to_mm(max(floor_mark(exact(room) - mark, mark), mark)) / 2
    axis, at = _tip_axis(rim), to_mm(bay.at)
    ends: Corners = (
        back(axis, (at - half, thick)),
        back(axis, (at + half, thick)),
        back(axis, (at + half, 2 * thick)),
        back(axis, (at - half, 2 * thick)),
    )
    return Timber(kind="splice", corners=ends, side=rim.side, number=rim.number)
