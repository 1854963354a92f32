"""Which way a board runs, and what the saw does at its ends, in words."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from attrs import frozen

from drylay.laying.model import LaidPiece, LaidRow, Laying
from drylay.outline.model import Spot
from drylay.papers.outlined_view import angle
from drylay.plan.model import Plan
from drylay.subframe.model import Facing, Member

#: Steeper than this a board runs away from the house rather than along it. Timbers at 45 degrees
#: run along it all, whichever way their corners are rounded.
STEEP_DEG = 45.05
#: Saw settings nearer to square than this are square.
SQUARE_DEG = 0.005
#: Corners as near to a board's edge as this lie on it.
EDGE_MM = 0.2


@frozen(kw_only=True)
class Lie:
    """How a board lies: the way along it, left to right or from the house, and which of the two.

    `backwards`: its row is told, in the plan, the other way along.
    """

    turn_deg: float
    steep: bool
    backwards: bool


def lie_of(laying: Laying, piece: LaidPiece) -> Lie:
    """Return how a board lies: as its row, named as its zone; else as its longest edge."""
    for row in laying.rows:
        if row.mark == piece.row:
            return _lie_of_row(laying, row)
    turn_deg = longest_deg(piece.corners)
    return Lie(turn_deg=turn_deg, steep=turn_deg > STEEP_DEG, backwards=False)


def _lie_of_row(laying: Laying, row: LaidRow) -> Lie:
    """Return how a row lies.

    Where gaps fan each row is turned a little off its zone's way. It is told the way that its
    zone is, lest one row's left end be its neighbour's right one.
    """
    run_deg = _turn_deg(row.start, row.end)
    zone_deg = next(
        (folded(zone.angle_deg) for zone in laying.zones if zone.mark == row.zone), folded(run_deg)
    )
    off_deg = (run_deg - zone_deg + 180.0) % 360.0 - 180.0
    backwards = abs(off_deg) > 90.0
    turn_deg = zone_deg + off_deg + (180.0 if off_deg < -90.0 else -180.0 if backwards else 0.0)
    return Lie(turn_deg=turn_deg, steep=zone_deg > STEEP_DEG, backwards=backwards)


def run_deg(laying: Laying, piece: LaidPiece) -> float:
    """Return the way along a piece, from its left end, or its house end where it runs steeply."""
    return lie_of(laying, piece).turn_deg


def longest_deg(corners: Sequence[Spot]) -> float:
    """Return the way of a shape's longest edge."""
    edges = list(pairwise([*corners, corners[0]]))
    one, other = max(edges, key=lambda ends: round(_apart(*ends), 1))
    return way_deg(one, other)


def _apart(one: Spot, other: Spot) -> float:
    return hypot(other.along_mm - one.along_mm, other.across_mm - one.across_mm)


def way_deg(one: Spot, other: Spot) -> float:
    """Return the way of a line either way along it, from left to right or from the house."""
    return folded(_turn_deg(one, other))


def _turn_deg(one: Spot, other: Spot) -> float:
    turn = degrees(atan2(other.across_mm - one.across_mm, other.along_mm - one.along_mm))
    return round(turn, 6)


def folded(turn_deg: float) -> float:
    """Return an angle as a way that starts left or at the house: from -45 to under 135 degrees.

    Both limits are a little less, as `STEEP_DEG` is a little more.
    """
    return (turn_deg + STEEP_DEG) % 180.0 - STEEP_DEG


def in_axes(corners: Sequence[Spot], turn_deg: float) -> list[tuple[float, float]]:
    """Return corners as distances along a way and to its left, as the conventions call it."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    return [(p.along_mm * c + p.across_mm * s, p.across_mm * c - p.along_mm * s) for p in corners]


def ends_of(steep: bool) -> tuple[str, str]:
    """Return what the two ends of a board are called, start first."""
    return ("house", "garden") if steep else ("left", "right")


def edges_of(steep: bool) -> tuple[str, str]:
    """Return what a board's two edges are called: the conventions' left one, then the right."""
    return ("left", "right") if steep else ("garden", "house")


def longer_edges(corners: Sequence[Spot], lie: Lie) -> tuple[str, str]:
    """Return which edge is the longer at the start and at the end: that with the tip."""
    flat = in_axes(corners, lie.turn_deg)
    middle = (min(n for _, n in flat) + max(n for _, n in flat)) / 2
    left, right = edges_of(lie.steep)
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
    lie = lie_of(laying, piece)
    return _both(piece.corners, lie, *_in_order(piece, lie))


def _in_order(piece: LaidPiece, lie: Lie) -> tuple[float, float]:
    """Return a piece's settings, that of the end at the lesser distance along its way first.

    Boards that belong to no row are told round the deck: which end is which, their corners say.
    """
    told = piece.start_deg, piece.end_deg
    if piece.row:
        return told[::-1] if lie.backwards else told
    seen = [abs(off_deg) for off_deg in slants(piece.corners, lie.turn_deg)]
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
    backwards = first > last
    if backwards:
        start_deg, end_deg = end_deg, start_deg
    lie = Lie(turn_deg=turn_deg, steep=turn_deg > STEEP_DEG, backwards=backwards)
    return _both(member.corners, lie, start_deg, end_deg)


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


def _both(corners: Sequence[Spot], lie: Lie, start_deg: float, end_deg: float) -> Ends:
    names, longer = ends_of(lie.steep), longer_edges(corners, lie)
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
