"""Where a timber has room: the free parts of a strip between what stands in its way."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from attrs import frozen

from drylay.subframe.plane import Axis, Corners, Place, along, back, clipped

#: How much narrower than its timber a strip is looked at, so that what only touches is no
#: obstacle, and how far a cut may reach into what it meets. In mm.
SLACK_MM = 0.01


@frozen
class Blocked:
    """Where an obstacle stands in the strip: from, to, and its corners there, along the axis."""

    start_mm: float
    end_mm: float
    corners: tuple[Place, ...]


def free_parts(
    axis: Axis,
    thickness_mm: float,
    obstacles: Sequence[Sequence[Place]],
    is_free: Callable[[Place], bool],
    least_mm: float,
) -> list[Corners]:
    """Return the timbers, from the axis's start on, that fit between convex obstacles.

    A timber's ends are cut along what they meet where that is one straight line, else square.
    Those shorter than `least_mm` at the full thickness, or whose middle is not free, are left out.

    Source: geometry.
    """
    half = thickness_mm / 2
    blocked = _blocked(axis, half - SLACK_MM, obstacles)
    found = []
    gaps = _gaps(blocked, least_mm)
    ends = [-math.inf, *(end for gap in gaps for end in gap), math.inf]
    for number, (low, high) in enumerate(gaps):
        middle = (low + high) / 2
        if not is_free(back(axis, (middle, 0.0))):
            continue
        # what stands before the gap before, or after the next, is not met
        first, last = ends[2 * number] - SLACK_MM, ends[2 * number + 3] + SLACK_MM
        before = [one for one in blocked if one.start_mm < middle and one.start_mm >= first]
        after = [_mirrored(one) for one in blocked if one.start_mm > middle and one.end_mm <= last]
        start_right, start_left = _cut(before, low, half)
        end_right, end_left = (-end for end in _cut(after, -high, half))
        if end_right - start_right < SLACK_MM or end_left - start_left < SLACK_MM:
            (start_right, end_right), (start_left, end_left) = (low, high), (low, high)
        local = ((start_right, -half), (end_right, -half), (end_left, half), (start_left, half))
        one, two, three, four = (back(axis, place) for place in local)
        found.append((one, two, three, four))
    return found


def _blocked(axis: Axis, half_mm: float, obstacles: Sequence[Sequence[Place]]) -> list[Blocked]:
    found = []
    for obstacle in obstacles:
        local = [along(axis, corner) for corner in obstacle]
        if all(w >= half_mm for _, w in local) or all(w <= -half_mm for _, w in local):
            continue
        corners = clipped(local, half_mm)
        if corners:
            ends = [s for s, _ in corners]
            found.append(Blocked(min(ends), max(ends), tuple(corners)))
    return sorted(found, key=lambda one: (one.start_mm, one.end_mm))


def _gaps(blocked: list[Blocked], least_mm: float) -> list[tuple[float, float]]:
    """Return the stretches between obstacles over which the whole thickness is free."""
    found = []
    reached = blocked[0].end_mm if blocked else 0.0
    for one in blocked[1:]:
        if one.start_mm - reached >= least_mm - SLACK_MM:
            found.append((reached, one.start_mm))
        reached = max(reached, one.end_mm)
    return found


def _mirrored(one: Blocked) -> Blocked:
    return Blocked(-one.end_mm, -one.start_mm, tuple((-s, w) for s, w in one.corners))


def _cut(before: list[Blocked], square_mm: float, half_mm: float) -> tuple[float, float]:
    """Return where the right and the left edge of a timber start, by all that lies before it.

    The cut follows the face that its middle meets, at whatever angle; where the middle meets none
    it is no steeper than a saw can be set.
    """
    hull = _hull([(w, s) for one in before for s, w in one.corners])
    edge = half_mm - 2 * SLACK_MM
    if not hull or hull[0][0] > -edge or hull[-1][0] < edge:
        return square_mm, square_mm
    (w, s), (w2, s2), met = max(
        (
            (one, two, _met(one, two, before))
            for one, two in pairwise(hull)
            if one[0] <= SLACK_MM and two[0] >= -SLACK_MM
        ),
        key=lambda cut: (cut[2], cut[1][0] - cut[0][0]),
    )
    slope = (s2 - s) / (w2 - w)
    if abs(slope) > 1.0 and not met:
        return square_mm, square_mm
    return s + slope * (-half_mm - w), s + slope * (half_mm - w)


def _met(one: Place, two: Place, before: Sequence[Blocked]) -> float:
    """Return over how much of its width a cut from one corner to another meets one face."""
    for each in before:
        if all(
            any(abs(w - at[0]) < SLACK_MM and abs(s - at[1]) < SLACK_MM for s, w in each.corners)
            for at in (one, two)
        ):
            return two[0] - one[0]
    return 0.0


def _hull(places: Sequence[Place]) -> list[Place]:
    """Return the upper hull of places, from the right edge to the left."""
    found: list[Place] = []
    for place in sorted(set(places)):
        if found and place[0] - found[-1][0] < SLACK_MM / 2:
            if place[1] <= found[-1][1]:
                continue
            found.pop()
        while len(found) > 1 and _is_under(found[-1], found[-2], place):
            found.pop()
        found.append(place)
    return found


def _is_under(middle: Place, one: Place, two: Place) -> bool:
    rise = (two[1] - one[1]) * (middle[0] - one[0])
    return (middle[1] - one[1]) * (two[0] - one[0]) <= rise


def open_stretches(
    axis: Axis, width_mm: float, obstacles: Sequence[Sequence[Place]], length_mm: float
) -> list[tuple[float, float]]:
    """Return the stretches, from the axis's start to a length, over which a width is free."""
    blocked = _blocked(axis, width_mm / 2 - SLACK_MM, obstacles)
    ends = [Blocked(-1.0, 0.0, ()), *blocked, Blocked(length_mm, length_mm + 1.0, ())]
    within = [one for one in ends if one.end_mm >= 0.0 and one.start_mm <= length_mm]
    stretches = _gaps(sorted(within, key=lambda one: one.start_mm), 1.0)
    return [(max(0.0, low), min(length_mm, high)) for low, high in stretches]
