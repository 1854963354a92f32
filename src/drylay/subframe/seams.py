"""What lies under seams: pairs of joists, or two rows that touch cut between joists."""

import math
from collections.abc import Sequence

from attrs import evolve

from drylay.marks import exact, to_mm
from drylay.subframe.bearing import loose_ends
from drylay.subframe.plane import (
    NEAR_MM,
    Axis,
    Corners,
    Place,
    along,
    axis_through,
    beside,
    is_inside,
    moved,
    place_of,
    spread,
)
from drylay.subframe.strips import free_parts
from drylay.subframe.wants import Placed, Timber

#: A line this near to the joists' way, in degrees, is taken for one that runs it.
NEARLY_DEG = 5.0


def straightened(start: Place, end: Place, thickness_mm: float) -> tuple[Place, Place]:
    """Return a seam's line; one a hair off the joists' way as it runs there, midway of its ends.

    That takes no more than a quarter of a timber's thickness off what either side bears on.

    Source: docs/outline-conventions.md, Frame.
    """
    off, long = abs(start[0] - end[0]), abs(start[1] - end[1])
    if off > min(thickness_mm / 2, long * math.sin(math.radians(NEARLY_DEG))):
        return start, end
    at = to_mm(exact((start[0] + end[0]) / 2))
    return (at, start[1]), (at, end[1])


def pair_lines(placed: Placed) -> list[float]:
    """Return the centre of the further joist of every pair under a seam along the joists' way."""
    half = placed.wants.timber_thickness_mm / 2
    return [start[0] + half for start, end in placed.seams if _runs_joists_way(start, end)]


def pair_stretches(placed: Placed) -> list[tuple[float, float, float]]:
    """Return for either joist of every pair its centre, and from where to where the seam lies."""
    half = placed.wants.timber_thickness_mm / 2
    return [
        (start[0] + way * half, *spread((start[1], end[1])))
        for start, end in placed.seams
        if _runs_joists_way(start, end)
        for way in (-1.0, 1.0)
    ]


def _runs_joists_way(start: Place, end: Place) -> bool:
    return abs(start[0] - end[0]) < NEAR_MM


def seam_rows(placed: Placed, timbers: Sequence[Timber]) -> list[Timber]:
    """Return two touching rows of noggins, between what stands, under every other seam.

    Source: a member of its own for each board end by common practice, no source.
    """
    found: list[Timber] = []
    # where two seams meet, what has no end of its own to rest on may end at the other's row; what
    # lies for the better part beyond its seam stands in no other's way
    for least_share in (0.5, 0.0, 0.0):
        before = len(found)
        for start, end in placed.seams:
            if _runs_joists_way(start, end):
                continue
            axis = axis_through(start, end)
            length = math.dist(start, end)
            for way in (1.0, -1.0):
                standing = [timber.corners for timber in (*timbers, *found)]
                found += _row(placed, axis, length, way, standing, least_share=least_share)
        if len(found) == before and not least_share:
            break
    return found


def rung_rows(placed: Placed, timbers: Sequence[Timber]) -> list[Timber]:
    """Return single rows of noggins under boards that run the joists' way, named by their zone.

    Source: blocking between joists, a ladder, under such boards: common practice, no source.
    """
    found: list[Timber] = []
    run = placed.wants.joist_run
    for rung in placed.wants.rungs:
        start, end = place_of(rung.start, run), place_of(rung.end, run)
        standing = [timber.corners for timber in (*timbers, *found)]
        row = _row(placed, axis_through(start, end), math.dist(start, end), 0.0, standing)
        found += [evolve(noggin, side=rung.zone) for noggin in row]
    return found


def _row(
    placed: Placed,
    axis: Axis,
    length_mm: float,
    way: float,
    standing: Sequence[Corners],
    *,
    least_share: float = 0.0,
) -> list[Timber]:
    """Return the noggins on one side of a seam that its length reaches, such a share of them."""
    thick = placed.wants.timber_thickness_mm
    row = beside(axis, way * thick / 2)
    far_back = Axis(moved(row.origin, row.way, -1e5), row.way)
    parts = free_parts(
        far_back,
        thick,
        standing,
        lambda at: (
            is_inside(at, placed.ring) and not any(is_inside(at, hole) for hole in placed.holes)
        ),
        thick,
    )
    found = []
    for part in parts:
        # of a row on one side the edge that lies on the line tells, of one astride it both
        edge = {1.0: part[:2], -1.0: part[2:]}.get(way, part)
        ends = [along(axis, corner)[0] for corner in edge]
        noggin = Timber(kind="noggin", corners=part)
        reached = min(max(ends), length_mm) - max(min(ends), 0.0)
        least = max(NEAR_MM, least_share * (max(ends) - min(ends)))
        if reached > least and not loose_ends(noggin, standing):
            found.append(noggin)
    return found
