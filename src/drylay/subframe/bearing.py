"""Whether a timber's ends stand against others, and whether two run into one another."""

import math
from collections.abc import Sequence

from drylay.subframe.plane import Corners, Place, along, axis_through, back
from drylay.subframe.wants import Timber

#: How far beyond an end is looked for what it stands against, in mm.
TIP_MM = 0.02
#: How far an end's middle may stay off a face and still bear, in mm: 2/320 mm.
OFF_MM = 0.006


def overlap(one: Sequence[Place], other: Sequence[Place]) -> float:
    """Return by how much two convex shapes run into one another; minus the gap if they do not.

    It is the least move that parts them, along the sides of either.
    """
    least = float("inf")
    for shape, against in ((one, other), (other, one)):
        for here, there in zip(shape, (*shape[1:], shape[0]), strict=True):
            axis = axis_through(here, there)
            least = min(least, max(along(axis, place)[1] for place in against))
    return least


def loose_ends(timber: Timber, standing: Sequence[Corners]) -> list[Place]:
    """Return the middles of a timber's ends that stand against no other shape."""
    right, end_right, end_left, left = timber.corners
    found = []
    for one, two in ((left, right), (end_right, end_left)):
        tip = _beyond(one, two)
        u, v = tip[0]
        near = (
            shape
            for shape in standing
            if shape is not timber.corners
            and min(at[0] for at in shape) - 2 < u < max(at[0] for at in shape) + 2
            and min(at[1] for at in shape) - 2 < v < max(at[1] for at in shape) + 2
        )
        if not any(overlap(tip, shape) > 2 * TIP_MM - OFF_MM for shape in near):
            found.append(((one[0] + two[0]) / 2, (one[1] + two[1]) / 2))
    return found


def bears_mm(timber: Timber, standing: Sequence[Corners], thickness_mm: float) -> float:
    """Return how much of a timber's thickness its worst loose end has on any one shape, in mm.

    That is never more than half of it: else its middle would lie there, and it would not be loose.
    """
    right, end_right, end_left, left = timber.corners
    loose = loose_ends(timber, standing)
    found = [thickness_mm]
    for one, two in ((left, right), (end_right, end_left)):
        if ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2) in loose:
            axis = axis_through(one, two)
            ends = (back(axis, (0.0, -TIP_MM)), back(axis, (math.dist(one, two), -TIP_MM)))
            shares = (_share(ends, shape) for shape in standing if shape is not timber.corners)
            found.append(max(shares, default=0.0) * thickness_mm)
    return min(found)


def _share(ends: tuple[Place, Place], shape: Corners) -> float:
    """Return which share of the way between two places lies in a convex shape."""
    low, high = 0.0, 1.0
    for here, there in zip(shape, (*shape[1:], shape[0]), strict=True):
        axis = axis_through(here, there)
        start, end = (along(axis, place)[1] for place in ends)
        if start < 0 and end < 0:
            return 0.0
        if (start < 0) != (end < 0):
            at = start / (start - end)
            low, high = (max(low, at), high) if start < 0 else (low, min(high, at))
    return max(0.0, high - low)


def _beyond(one: Place, two: Place) -> list[Place]:
    """Return a small square just beyond the middle of an end that is cut from one place to two."""
    axis = axis_through(one, two)
    middle = math.dist(one, two) / 2
    spots = ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))
    return [back(axis, (middle + s * TIP_MM, (w - 1.0) * TIP_MM)) for s, w in spots]
