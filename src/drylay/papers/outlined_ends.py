"""Which way a board runs, and what the saw does at its ends, in words."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from drylay.laying.model import LaidPiece, Laying
from drylay.outline.model import Spot
from drylay.papers.outlined_view import angle
from drylay.plan.model import Plan
from drylay.subframe.model import Member

#: Steeper than this a board runs away from the house rather than along it.
STEEP_DEG = 45.0
#: Saw settings nearer to square than this are square.
SQUARE_DEG = 0.005
#: Corners as far along a board as this are one end.
NEAR_MM = 0.05


def run_deg(laying: Laying, piece: LaidPiece) -> float:
    """Return which way a piece runs: its row's way, else that of its longest edge."""
    rows = {row.mark: row for row in laying.rows}
    if piece.row in rows:
        row = rows[piece.row]
        return way_deg(row.start, row.end)
    return longest_deg(piece.corners)


def longest_deg(corners: Sequence[Spot]) -> float:
    """Return the way of a shape's longest edge, from 0 to under 180 degrees."""
    edges = list(pairwise([*corners, corners[0]]))
    one, other = max(edges, key=lambda ends: round(_apart(*ends), 1))
    return way_deg(one, other)


def _apart(one: Spot, other: Spot) -> float:
    return hypot(other.along_mm - one.along_mm, other.across_mm - one.across_mm)


def way_deg(one: Spot, other: Spot) -> float:
    """Return the way of a line either way along it, from 0 to under 180 degrees."""
    turn = degrees(atan2(other.across_mm - one.across_mm, other.along_mm - one.along_mm))
    return round(turn, 6) % 180.0


def in_axes(corners: Sequence[Spot], turn_deg: float) -> list[tuple[float, float]]:
    """Return corners as distances along a way and to its left, as the conventions call it."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    return [(p.along_mm * c + p.across_mm * s, p.across_mm * c - p.along_mm * s) for p in corners]


def ends_of(turn_deg: float) -> tuple[str, str]:
    """Return what the two ends of a board are called, start first."""
    if STEEP_DEG < turn_deg < 180.0 - STEEP_DEG:
        return "house", "garden"
    return ("left", "right") if turn_deg <= STEEP_DEG else ("right", "left")


def edges_of(turn_deg: float) -> tuple[str, str]:
    """Return what a board's two edges are called: the conventions' left one, then the right."""
    if STEEP_DEG < turn_deg < 180.0 - STEEP_DEG:
        return "left", "right"
    return ("garden", "house") if turn_deg <= STEEP_DEG else ("house", "garden")


def longer_edges(corners: Sequence[Spot], turn_deg: float) -> tuple[str, str]:
    """Return which edge is the longer at the start and at the end: that with the tip."""
    flat = in_axes(corners, turn_deg)
    middle = (min(n for _, n in flat) + max(n for _, n in flat)) / 2
    left, right = edges_of(turn_deg)
    ends = []
    for sign in (-1.0, 1.0):
        _, n = max(flat, key=lambda p: (round(p[0] * sign, 3), p[1]))
        ends.append(left if n > middle else right)
    return ends[0], ends[1]


def is_square(value_deg: float) -> bool:
    """Whether a saw setting is none."""
    return abs(value_deg) < SQUARE_DEG


def end_told(value_deg: float, edge: str) -> str:
    """Return one end: "square", or the saw's setting and which edge is the longer."""
    return "square" if is_square(value_deg) else f"{angle(abs(value_deg))}, {edge} edge longer"


def piece_ends(plan: Plan, piece: LaidPiece) -> tuple[str, str]:
    """Return what is sawn at a piece's start and at its end, each end by its name."""
    if plan.laying is None or piece.shaped:
        return "", ""
    turn_deg = run_deg(plan.laying, piece)
    return _both(piece.corners, turn_deg, piece.start_deg, piece.end_deg)


def member_ends(member: Member) -> tuple[str, str]:
    """Return what is sawn at a member's start and at its end, each end by its name."""
    turn_deg = way_deg(member.start, member.end)
    start_deg, end_deg = member.start_deg, member.end_deg
    first, last = (in_axes((spot,), turn_deg)[0][0] for spot in (member.start, member.end))
    if first > last:
        start_deg, end_deg = end_deg, start_deg
    return _both(member.corners, turn_deg, start_deg, end_deg)


def _both(
    corners: Sequence[Spot], turn_deg: float, start_deg: float, end_deg: float
) -> tuple[str, str]:
    ends, longer = ends_of(turn_deg), longer_edges(corners, turn_deg)
    told = (end_told(start_deg, longer[0]), end_told(end_deg, longer[1]))
    return f"{ends[0]} end {told[0]}", f"{ends[1]} end {told[1]}"
