"""Noggins: under board ends that nothing carries, and in rows that keep joists upright."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.marks import exact, nearest_mark, to_mm
from drylay.outline.model import Spot
from drylay.subframe.bays import MIDDLE_MM, Bay, Upright, bays_of, is_free, upright_of
from drylay.subframe.bearing import loose_ends
from drylay.subframe.grid import Grid, grid_of, near
from drylay.subframe.plane import (
    NEAR_MM,
    Axis,
    Corners,
    Place,
    along,
    clipped,
    moved,
    place_of,
    spread,
)
from drylay.subframe.sizes import is_upright
from drylay.subframe.strips import free_parts, open_stretches
from drylay.subframe.wants import BoardEnd, Placed, Timber

#: How far inside a board's edges its end is looked at, in mm.
INSET_MM = 1.0
#: How far a noggin of a row stays off a joint of the joists beside it, in mm. Assumption.
CLEAR_MM = 30.0


def noggin_rows(placed: Placed, others: Sequence[Timber] = ()) -> tuple[Timber, ...]:
    """Return the regular noggins: evenly in every bay longer than the spacing allows.

    What crosses a bay already parts it. Neighbouring bays have theirs to either side of the row's
    line: that leaves room to drive a fixing through the joist.

    Source: docs/outline-conventions.md, Frame; rows and their spacing by common practice.
    """
    wants = placed.wants
    thick = wants.timber_thickness_mm
    found = []
    for bay in bays_of(placed, (*placed.timbers, *others)):
        clear = bay.last_mm - bay.first_mm
        if bay.high_mm - bay.low_mm < 2 * thick:
            continue
        splices = _splices_in(placed, bay)
        joints = _joints_in(placed, bay)
        # a noggin is moved a little, wholly onto a splice or off it, and off joints
        moves = (thick if splices else 0.0) + (thick + 2 * CLEAR_MM if joints else 0.0)
        spacing = wants.noggin_spacing_most_mm - moves
        rows = max(0, -(-exact(clear) // exact(spacing)) - 1)
        for row in range(1, rows + 1):
            even = bay.first_mm + clear * row / (rows + 1)
            first = nearest_mark(exact(even - thick / 2), exact(wants.mark_mm))
            wanted = to_mm(first) + (thick if bay.number % 2 else 0.0)
            centre = min(max(wanted, bay.low_mm + thick / 2), bay.high_mm - thick / 2)
            found.append(_noggin(bay, centre, thick, splices, joints))
    return tuple(found + _beside_slants(placed, [*placed.timbers, *others, *found]))


def _beside_slants(placed: Placed, timbers: Sequence[Timber]) -> list[Timber]:
    """Return noggins between joists and slanted rims, where nothing ties them for too far."""
    found: list[Timber] = []
    low, high = spread(v for _, v in placed.ring)
    # a splice of a rim ties no joists
    ties = [timber.corners for timber in timbers if timber.kind != "splice" or is_upright(timber)]
    for one, other in pairwise(placed.lines_mm):
        if other - one <= 2 * placed.wants.timber_thickness_mm:
            continue
        axis = Axis(((one + other) / 2, low), (0.0, 1.0))
        for start, end in open_stretches(axis, MIDDLE_MM, ties, high - low):
            if is_free(placed, (axis.origin[0], low + (start + end) / 2)):
                standing = [timber.corners for timber in (*timbers, *found)]
                found += _tied(placed, axis.origin[0], (low + start, low + end), standing)
    return found


def _tied(
    placed: Placed, middle_mm: float, untied_mm: tuple[float, float], standing: Sequence[Corners]
) -> list[Timber]:
    """Return the noggins that part what is untied, each where it has room nearest to even."""
    thick, most = placed.wants.timber_thickness_mm, placed.wants.noggin_spacing_most_mm
    found: list[Timber] = []
    start, end = untied_mm
    while (rows := -(-exact(end - start) // exact(most)) - 1) > 0:
        even = start + (end - start) / (rows + 1)
        steps = range(int((start + most - even) // (thick / 2)) + 1)
        tries = [even + way * step * thick / 2 for step in steps for way in (1.0, -1.0)]
        shapes = [*standing, *(noggin.corners for noggin in found)]
        fitting = (
            noggin
            for at in tries
            if end - at <= rows * most
            and (noggin := _under(placed, _Loose((middle_mm, at), at, at, at), at, shapes))
        )
        noggin = next(fitting, None)
        if noggin is None:
            break
        found.append(noggin)
        start = noggin.corners[3][1]
    return found


def _splices_in(placed: Placed, bay: Bay) -> list[Upright]:
    """Return the splices beside either neighbour of a bay."""
    uprights = (
        upright_of(one) for one in placed.timbers if one.kind == "splice" and is_upright(one)
    )
    return [
        one
        for one in uprights
        if bay.left_mm - NEAR_MM < one.left_mm
        and one.right_mm < bay.right_mm + NEAR_MM
        and one.low_mm < bay.high_mm
        and one.high_mm > bay.low_mm
    ]


def _joints_in(placed: Placed, bay: Bay) -> list[float]:
    """Return how far along a bay its neighbours are jointed."""
    found = []
    for one in placed.timbers:
        if "joint" not in one.ends:
            continue
        upright = upright_of(one)
        if (
            min(abs(upright.right_mm - bay.left_mm), abs(upright.left_mm - bay.right_mm)) < NEAR_MM
            and one.ends[1] == "joint"
        ):
            found.append(upright.high_mm)
    return [at for at in found if bay.low_mm < at < bay.high_mm]


def _noggin(
    bay: Bay,
    centre_mm: float,
    thickness_mm: float,
    splices: Sequence[Upright],
    joints: Sequence[float],
) -> Timber:
    """Return a noggin from neighbour to neighbour, or from the splice beside one of them."""
    half = thickness_mm / 2
    for at in joints:
        off = half + CLEAR_MM
        if abs(centre_mm - at) < off:
            centre_mm = at + math.copysign(off, centre_mm - at)
    for one in splices:
        if one.low_mm <= centre_mm <= one.high_mm:
            centre_mm = min(max(centre_mm, one.low_mm + half), one.high_mm - half)
        elif one.low_mm - half < centre_mm < one.high_mm + half:
            centre_mm = one.low_mm - half if centre_mm < one.low_mm else one.high_mm + half
    low, high = centre_mm - half, centre_mm + half
    left_mm, right_mm = bay.left_mm, bay.right_mm
    for one in splices:
        if one.low_mm < high - NEAR_MM and one.high_mm > low + NEAR_MM:
            if abs(one.left_mm - bay.left_mm) < NEAR_MM:
                left_mm = one.right_mm
            else:
                right_mm = one.left_mm
    return Timber(
        kind="noggin",
        corners=((left_mm, low), (right_mm, low), (right_mm, high), (left_mm, high)),
    )


@frozen
class _Loose:
    """A board end that nothing carries: where, and where along v a noggin would carry it.

    `best_mm` is where it would lie all under the board, as near to its end as can be. With its
    middle in `reach_mm` it bears under the board's middle line at least.
    """

    at: Place
    low_mm: float
    best_mm: float
    high_mm: float
    reach_mm: tuple[float, float] = (0.0, 0.0)


def support_ends(
    placed: Placed, ends: Sequence[BoardEnd], faces: Sequence[Sequence[Spot]] = ()
) -> tuple[Timber, ...]:
    """Return the noggins under board ends that no timber is near enough to, along the board.

    Ends in one bay that one noggin can carry share it. `faces` is the fascia seen from above: it
    carries what lies over it.

    Source: docs/outline-conventions.md, Frame.
    """
    shapes = [timber.corners for timber in placed.timbers]
    run = placed.wants.joist_run
    under = [*shapes, *(tuple(place_of(at, run) for at in face) for face in faces)]
    grid = grid_of(under)
    loose = [found for end in ends if (found := _loose(placed, end, under, grid))]
    return tuple(_shared(placed, sorted(loose, key=lambda one: (one.high_mm, one.at)), shapes))


def _loose(
    placed: Placed, end: BoardEnd, shapes: Sequence[Sequence[Place]], grid: Grid
) -> _Loose | None:
    """Return what a board end wants, None where each part of it is carried."""
    run, most = placed.wants.joist_run, placed.wants.end_support_most_mm
    start, last = place_of(end.start, run), place_of(end.end, run)
    turn = math.radians(end.inwards_deg)
    along_house = (math.cos(turn), math.sin(turn))
    way = along_house if run == "across" else (along_house[1], -along_house[0])
    length = math.dist(start, last)
    parts = (min(0.5, INSET_MM / max(length, INSET_MM)), 0.5)
    places = [
        (start[0] + (last[0] - start[0]) * part, start[1] + (last[1] - start[1]) * part)
        for part in (parts[1], parts[0], 1.0 - parts[0])
    ]
    if all(_is_carried(Axis(place, way), most, shapes, grid) for place in places):
        return None
    windows = [spread((v, v + most * way[1])) for _, v in places]
    half = placed.wants.timber_thickness_mm / 2 - 2 * INSET_MM
    reach = (windows[0][0] - half, windows[0][1] + half)
    low, high = max(low for low, _ in windows), min(high for _, high in windows)
    if low > high:
        low, high = windows[0]
        if _is_carried(Axis(places[0], way), most, shapes, grid):
            return None
    best = places[0][1] + math.copysign(placed.wants.timber_thickness_mm / 2, way[1])
    return _Loose(moved(places[0], way, INSET_MM), low, min(max(best, low), high), high, reach)


def _is_carried(axis: Axis, most_mm: float, shapes: Sequence[Sequence[Place]], grid: Grid) -> bool:
    """Return whether a shape lies on an axis no further from its start than so far."""
    reach = (axis.origin, moved(axis.origin, axis.way, most_mm))
    for number in near(grid, reach):
        corners = clipped([along(axis, corner) for corner in shapes[number]], INSET_MM / 100)
        if corners:
            low, high = spread(s for s, _ in corners)
            if low <= most_mm and high >= 0.0:
                return True
    return False


def _shared(placed: Placed, loose: list[_Loose], shapes: Sequence[Corners]) -> list[Timber]:
    """Return noggins that carry all loose ends which have room for one, each as many as it can."""
    found: list[Timber] = []
    while loose:
        standing = [*shapes, *(one.corners for one in found)]
        noggin = _under(placed, loose[0], loose[0].high_mm, standing)
        served = [one for one in loose if noggin and _carries(noggin, one)] or loose[:1]
        low, high = max(one.low_mm for one in served), min(one.high_mm for one in served)
        best = sum(one.best_mm for one in served) / len(served)
        best = min(max(best, low), high)
        tries = [low + (high - low) * part / 8 for part in range(9)]
        for centre in (best, *sorted(tries, key=lambda at: abs(at - best))):
            nearer = _under(placed, served[0], centre, standing)
            if nearer and all(_carries(nearer, one) for one in served):
                found.append(nearer)
                break
        else:
            served = loose[:1]
            found += _barely(placed, served[0], standing)
        loose = [one for one in loose if one not in served]
    return found


def _barely(placed: Placed, end: _Loose, standing: Sequence[Corners]) -> list[Timber]:
    """Return the noggin that bears an end's middle line at least, where there is room for one."""
    low, high = end.reach_mm
    tries = [low + (high - low) * part / 16 for part in range(17)]
    nearest = sorted(tries, key=lambda at: abs(at - end.best_mm))
    noggins = (_under(placed, end, centre, standing) for centre in nearest)
    return [noggin for noggin in noggins if noggin][:1]


def _carries(noggin: Timber, end: _Loose) -> bool:
    middle = (noggin.corners[0][1] + noggin.corners[3][1]) / 2
    return _lies_under(noggin, end) and end.low_mm - INSET_MM <= middle <= end.high_mm + INSET_MM


def _lies_under(noggin: Timber, end: _Loose) -> bool:
    """Whether an end lies between those of a noggin, at its own level: these may be aslant."""
    right, right_end, left_end, left = noggin.corners
    share = (end.at[1] - right[1]) / (left[1] - right[1])
    share = min(max(share, 0.0), 1.0)
    first = right[0] + (left[0] - right[0]) * share
    last = right_end[0] + (left_end[0] - right_end[0]) * share
    return first <= end.at[0] <= last


def _under(
    placed: Placed, end: _Loose, centre_mm: float, standing: Sequence[Corners]
) -> Timber | None:
    """Return the noggin that lies under an end, on the mark nearest to where it is wanted."""
    thick, mark = placed.wants.timber_thickness_mm, exact(placed.wants.mark_mm)
    centre = to_mm(nearest_mark(exact(centre_mm), mark))
    axis = Axis((end.at[0] - 1e5, centre), (1.0, 0.0))
    for part in free_parts(axis, thick, standing, lambda at: is_free(placed, at), thick):
        noggin = Timber(kind="noggin", corners=part)
        if _lies_under(noggin, end) and not loose_ends(noggin, standing):
            return noggin
    return None
