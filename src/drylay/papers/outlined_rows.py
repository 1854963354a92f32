"""Where a row's edge crosses the sides of the deck: what its string is stretched between."""

from math import hypot

from attrs import frozen

from drylay.laying.model import LaidRow, Laying
from drylay.outline.model import Outline, Side, Spot
from drylay.papers.outlined_ends import EDGE_MM, in_axes, way_deg
from drylay.papers.wording import bare, size

#: A row's edge as near as this to a corner passes through it.
NEAR_MM = 0.5
#: Sides as near as this to parallel with a row, over their length, are not crossed by it.
BESIDE_MM = 1.0
#: A first row this much shorter than the longest is no row to begin with.
SHORT_RATIO = 0.5


@frozen(kw_only=True)
class Crossing:
    """Where a row's edge crosses a side: the place, and how far along the side from its start.

    `before` is the side that ends where this one starts.
    """

    side: str
    before: str
    from_start_mm: float
    at: Spot
    along_mm: float


@frozen(kw_only=True)
class Strung:
    """A row's edge from where it crosses one side of the deck to where it crosses another."""

    row: str
    start: Crossing
    end: Crossing

    @property
    def long_mm(self) -> float:
        """How long the edge is between the sides."""
        return self.end.along_mm - self.start.along_mm


def strung_rows(outline: Outline, laying: Laying) -> dict[str, Strung]:
    """Return each row's edge between the sides of the deck, by mark.

    It is the edge nearest the side that rows are counted from, from where its boards begin to
    where they end. Where openings or other fields part the row it runs on over them. Rows none of
    whose boards reach to that edge are left out.
    """
    found = {}
    for row in laying.rows:
        edge = _edge(laying, row)
        crossings = sorted(_crossings(outline, row), key=lambda each: each.along_mm)
        before = [each for each in crossings if edge and each.along_mm <= edge[0] + NEAR_MM]
        beyond = [each for each in crossings if edge and each.along_mm >= edge[1] - NEAR_MM]
        if before and beyond:
            found[row.mark] = Strung(row=row.mark, start=before[-1], end=beyond[0])
    return found


def _edge(laying: Laying, row: LaidRow) -> tuple[float, float] | None:
    """Return where boards begin and end on a row's edge, along it; None where none lies on it."""
    turn_deg = way_deg(row.start, row.end)
    _, level = in_axes((row.start,), turn_deg)[0]
    along = [
        t
        for piece in laying.pieces
        if piece.row == row.mark
        for t, n in in_axes(piece.corners, turn_deg)
        if abs(n - level) <= EDGE_MM
    ]
    return (min(along), max(along)) if along else None


def _crossings(outline: Outline, row: LaidRow) -> list[Crossing]:
    """Return where a row's edge, drawn on both ways, crosses the sides."""
    turn_deg = way_deg(row.start, row.end)
    _, level = in_axes((row.start,), turn_deg)[0]
    sides = outline.sides
    found = []
    for before, side in zip((sides[-1], *sides[:-1]), sides, strict=True):
        (t1, n1), (t2, n2) = in_axes((side.start, side.end), turn_deg)
        if abs(n2 - n1) < BESIDE_MM:
            continue
        share = (level - n1) / (n2 - n1)
        slack = NEAR_MM / abs(n2 - n1)
        if -slack <= share <= 1 + slack:
            share = min(max(share, 0.0), 1.0)
            found.append(_crossing(before, side, share, t1 + (t2 - t1) * share))
    return found


def _crossing(before: Side, side: Side, share: float, along_mm: float) -> Crossing:
    dx = side.end.along_mm - side.start.along_mm
    dy = side.end.across_mm - side.start.across_mm
    at = Spot(
        along_mm=side.start.along_mm + dx * share, across_mm=side.start.across_mm + dy * share
    )
    return Crossing(side=side.mark, before=before.mark, from_start_mm=hypot(dx, dy) * share,
                    at=at, along_mm=along_mm)  # fmt: skip


def crossing_told(crossing: Crossing, units: str) -> str:
    """Return a crossing in a table: the place, then the way along its side from its corner."""
    place = f"{bare(crossing.at.along_mm, units)}, {bare(crossing.at.across_mm, units)}"
    corner = f"{crossing.before}-{crossing.side}"
    return f"{place} ({crossing.side}: {bare(crossing.from_start_mm, units)} from {corner})"


def begin_told(outline: Outline, laying: Laying, units: str) -> list[str]:
    """Return, for each zone whose first row is short, which row to string and begin with."""
    strung, told = strung_rows(outline, laying), []
    for zone in laying.zones:
        rows = [strung[row.mark] for row in laying.rows
                if row.zone == zone.mark and row.mark in strung]  # fmt: skip
        longest = max(rows, key=lambda each: round(each.long_mm, 1), default=None)
        if longest is None or rows[0].long_mm >= SHORT_RATIO * longest.long_mm:
            continue
        one, other = longest.start, longest.end
        told.append(
            f"{zone.mark}: {rows[0].row} is no row to begin with. Stretch a string for "
            f"{longest.row}, from {_on(one, units)}, to {_on(other, units)}; lay that row, and "
            "go on from it both ways, strings by the list of rows."
        )
    return told


def _on(crossing: Crossing, units: str) -> str:
    far = size(crossing.from_start_mm, units)
    return f"{crossing.side}, {far} along it from its corner with {crossing.before}"
