"""Necks of an outline too narrow for the frame: for the rims of two sides, or a joist between."""

import math
from collections.abc import Sequence
from itertools import combinations, pairwise

from drylay.findings import Finding, Severity
from drylay.reasons import Source
from drylay.subframe.bearing import overlap
from drylay.subframe.plane import NEAR_MM, Place, along, axis_through, back
from drylay.subframe.sizes import is_upright
from drylay.subframe.wants import Placed, Timber

OURS = Source(kind="assumption", title="docs/outline-conventions.md", clause="Frame")
#: How far two rims may run into one another by rounding, in mm.
TOUCH_MM = 0.05


def necks_of_rims(placed: Placed, rims: Sequence[Timber]) -> list[Finding]:
    """Return a stop for every two sides, no neighbours, whose rims have no room side by side."""
    least = 2 * placed.wants.timber_thickness_mm
    sides = [*pairwise([*placed.ring, placed.ring[0]])]
    return [
        _told(placed, one, other, _apart(sides[one], sides[other]), least)
        for one, other in combinations(range(len(rims)), 2)
        if 1 < other - one < len(rims) - 1
        and overlap(rims[one].corners, rims[other].corners) > TOUCH_MM
    ]


def necks_of_lines(placed: Placed) -> list[Finding]:
    """Return a stop for every two sides that leave a joist line no room for any joist.

    It stands clear by a timber's thickness at least between their rims.
    """
    found: dict[tuple[int, int], tuple[float, float]] = {}
    for line in placed.lines_mm:
        if any(is_upright(each) and _stands_on(each, line) for each in placed.timbers):
            continue
        gaps = [
            (high - low, one, other, _least(placed, one, other))
            for (low, one), (high, other) in _insides(placed.ring, line)
        ]
        wide, one, other, least = max(gaps, default=(math.inf, 0, 0, 0.0))
        if wide < least - NEAR_MM:
            found[one, other] = min(found.get((one, other), (math.inf, 0.0)), (wide, least))
    return [_told(placed, min(pair), max(pair), *told) for pair, told in sorted(found.items())]


def _told(placed: Placed, one: int, other: int, wide_mm: float, least_mm: float) -> Finding:
    return Finding(
        code="SUB-016",
        severity=Severity.STOP,
        subject=f"{placed.sides[one]} and {placed.sides[other]}",
        message="the neck between these sides is too narrow for a rim inside either, and a joist "
        "where a joist line crosses it: make it wider, or two decks of it",
        measured=round(wide_mm, 4),
        limit=math.ceil(least_mm * 10 - 1e-6) / 10,
        unit="mm",
        source=OURS,
    )


def _apart(one: tuple[Place, Place], other: tuple[Place, Place]) -> float:
    """Return the least way between two sides, which do not cross."""
    ends = [(end, other) for end in one] + [(end, one) for end in other]
    return min(_way(end, side) for end, side in ends)


def _way(place: Place, side: tuple[Place, Place]) -> float:
    axis = axis_through(*side)
    reach = min(max(along(axis, place)[0], 0.0), math.dist(*side))
    return math.dist(place, back(axis, (reach, 0.0)))


def _stands_on(timber: Timber, line_mm: float) -> bool:
    middle = (timber.corners[0][0] + timber.corners[3][0]) / 2
    return abs(middle - line_mm) < NEAR_MM


def _least(placed: Placed, one: int, other: int) -> float:
    """Return how far two sides are apart along a line, at least, where a joist stands on it."""
    thick = placed.wants.timber_thickness_mm
    sides = [*pairwise([*placed.ring, placed.ring[0]])]
    return thick + sum(thick / abs(axis_through(*sides[at]).way[0]) for at in (one, other))


def _insides(
    ring: Sequence[Place], line_mm: float
) -> list[tuple[tuple[float, int], tuple[float, int]]]:
    """Return from where to where a joist line lies inside a ring, each with the side it meets."""
    met = []
    for side, ((u1, v1), (u2, v2)) in enumerate(pairwise([*ring, ring[0]])):
        if min(u1, u2) <= line_mm < max(u1, u2):
            met.append((v1 + (line_mm - u1) / (u2 - u1) * (v2 - v1), side))
    met.sort()
    return list(zip(met[::2], met[1::2], strict=True))
