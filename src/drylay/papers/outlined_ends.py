"""Which way a board runs, and what the saw does at its ends, in words."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from attrs import frozen

from drylay.laying.model import LaidPiece, Laying
from drylay.outline.model import Spot
from drylay.papers.outlined_view import angle
from drylay.plan.model import Plan
from drylay.subframe.model import Facing, Member

#: Steeper than this a board runs away from the house rather than along it.
STEEP_DEG = 45.0
#: Saw settings nearer to square than this are square.
SQUARE_DEG = 0.005
#: Corners as near to a board's edge as this lie on it.
EDGE_MM = 0.2


def run_deg(laying: Laying, piece: LaidPiece) -> float:
    """Return which way a piece runs: its row's way, else that of its longest edge."""
    for row in laying.rows:
        if row.mark == piece.row:
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


@frozen(kw_only=True)
class SawnEnd:
    """One end of something sawn: what it is called, the saw's setting, which edge is longer.

    `value_deg` is off square, 0 where it is square; `longer` is "" there.
    """

    name: str
    value_deg: float
    longer: str

    def __str__(self) -> str:
        """Return the end in words: "left end 45 degrees, house edge longer"."""
        if not self.value_deg:
            return f"{self.name} end square"
        longer = f", {self.longer} longer" if self.longer else ""
        return f"{self.name} end {angle(self.value_deg)}{longer}"


Ends = tuple[SawnEnd, SawnEnd]


def sawn_ends(plan: Plan) -> dict[str, Ends]:
    """Return both ends of every piece that two straight cuts make, by mark."""
    found: dict[str, Ends] = {}
    laying, subframe = plan.laying, plan.subframe
    if laying is not None:
        found |= {p.mark: piece_ends(laying, p) for p in laying.pieces if not p.shaped}
    if subframe is not None:
        found |= {member.mark: member_ends(member) for member in subframe.members}
        found |= {facing.mark: facing_ends(facing) for facing in subframe.facings}
    return found


def is_off_square(ends: Ends) -> bool:
    """Whether either end is off square."""
    return any(end.value_deg for end in ends)


def piece_ends(laying: Laying, piece: LaidPiece) -> Ends:
    """Return a board's two ends."""
    turn_deg = run_deg(laying, piece)
    return _both(piece.corners, turn_deg, *_in_order(piece, turn_deg))


def _in_order(piece: LaidPiece, turn_deg: float) -> tuple[float, float]:
    """Return a piece's settings, that of the end at the lesser distance along its way first.

    Boards that belong to no row are told round the deck: which end is which, their corners say.
    """
    told = piece.start_deg, piece.end_deg
    if piece.row:
        return told
    seen = [abs(off_deg) for off_deg in slants(piece.corners, turn_deg)]
    straight, turned = (
        sum(abs(abs(one) - other) for one, other in zip(pair, seen, strict=True))
        for pair in (told, told[::-1])
    )
    return told if straight <= turned else told[::-1]


def slants(corners: Sequence[Spot], turn_deg: float) -> tuple[float, float]:
    """Return how far off square both ends of a shape lie along its way, the lesser end first."""
    flat = in_axes(corners, turn_deg)
    right, left = min(n for _, n in flat), max(n for _, n in flat)
    edges = [[t for t, n in flat if abs(n - edge) <= EDGE_MM] for edge in (left, right)]
    off = [end(edges[0]) - end(edges[1]) for end in (min, max)]
    wide = left - right
    return degrees(atan2(off[0], wide)), degrees(atan2(off[1], wide))


def member_ends(member: Member) -> Ends:
    """Return a member's two ends."""
    turn_deg = way_deg(member.start, member.end)
    start_deg, end_deg = member.start_deg, member.end_deg
    first, last = (in_axes((spot,), turn_deg)[0][0] for spot in (member.start, member.end))
    if first > last:
        start_deg, end_deg = end_deg, start_deg
    return _both(member.corners, turn_deg, start_deg, end_deg)


def facing_ends(facing: Facing) -> Ends:
    """Return a fascia's two ends, as you stand outside and face it: sides run from right to left.

    Where it is mitred its outer face is the longer.
    """
    return (
        _facing_end("right", facing.start_end, facing.start_deg),
        _facing_end("left", facing.end_end, facing.end_deg),
    )


def _facing_end(name: str, kind: str, value_deg: float) -> SawnEnd:
    off_deg = 0.0 if is_square(value_deg) else abs(value_deg)
    longer = "outer face" if kind == "mitre" and off_deg else ""
    return SawnEnd(name=name, value_deg=off_deg, longer=longer)


def _both(corners: Sequence[Spot], turn_deg: float, start_deg: float, end_deg: float) -> Ends:
    names, longer = ends_of(turn_deg), longer_edges(corners, turn_deg)
    values = (start_deg, end_deg)
    one, other = (
        SawnEnd(
            name=name,
            value_deg=0.0 if is_square(value) else abs(value),
            longer="" if is_square(value) else f"{edge} edge",
        )
        for name, value, edge in zip(names, values, longer, strict=True)
    )
    return one, other
