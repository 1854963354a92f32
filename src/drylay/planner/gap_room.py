"""Whether the gaps between rows can take up what boards are off by, and what would give room."""

from itertools import pairwise

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.built import Built
from drylay.reasons import Source
from drylay.surface.model import Surface, WayOut

#: How far the mean width of boards may be off before the plan wants it measured: see Work.
MEAN_OFF_MM = 0.5
#: Ways out of whole boards: nobody rips boards to gain room.
WHOLE = ("as_wished", "gaps", "shrink", "grow")
OURS = Source(kind="assumption", title="docs/conventions.md", clause="Rows")


def remarks(built: Built) -> list[Finding]:
    """Return the cautions for gaps with less room to a limit than the boards' own tolerance."""
    surface = built.surface
    if surface.gap_least_mm == surface.gap_most_mm:
        return []  # clips: what a board is off by moves the rows, not the gaps
    rows = sum(not row.border for row in surface.rows)
    to_least, to_most = room_mm(surface)
    found = []
    if to_least < rows * MEAN_OFF_MM:
        found.append(_tight(surface, to_least, "GAP-003", "wide boards, gaps below their least"))
    if to_most < rows * MEAN_OFF_MM:
        found.append(_tight(surface, to_most, "GAP-004", "narrow boards, gaps above their most"))
    return found


def room_mm(surface: Surface) -> tuple[float, float]:
    """Return how far all gaps of the field together lie above their least, and below their most."""
    gaps = [
        exact(row.gap_mm)
        for before, row in pairwise(surface.rows)
        if not row.border and not before.border
    ]
    least, most = (exact(each) for each in (surface.gap_least_mm, surface.gap_most_mm))
    return to_mm(sum(gaps) - least * len(gaps)), to_mm(most * len(gaps) - sum(gaps))


def _tight(surface: Surface, left_mm: float, code: str, what: str) -> Finding:
    rows = sum(not row.border for row in surface.rows)
    roomier = "; ".join(f"{way.kind}, {way.cover_change_mm:+g} mm" for way in _with_room(surface))
    message = (
        f"{what}: half a millimetre a board is more than all rows can take up; measure twenty "
        "before you lay, and plan again by what you find"
    )
    if roomier:
        message += f"; as cheap, with room: {roomier}"
    return Finding(
        code=code,
        severity=Severity.CAUTION,
        subject="gaps",
        message=message,
        measured=left_mm,
        limit=rows * MEAN_OFF_MM,
        unit="mm",
        source=OURS,
    )


def _with_room(surface: Surface) -> list[WayOut]:
    """Return the other ways out that cost no more and have room either way."""
    chosen = next((way for way in surface.ways_out if way.chosen), None)
    if chosen is None or chosen.cost is None or surface.border is not None:
        return []
    return [
        way
        for way in surface.ways_out
        if way.honest and not way.chosen and way.kind in WHOLE
        and way.cost is not None and way.cost <= chosen.cost and way.rows > 1
        and (way.rows - 1) * (way.gap_mm - surface.gap_least_mm) >= way.rows * MEAN_OFF_MM
        and (way.rows - 1) * (surface.gap_most_mm - way.gap_mm) >= way.rows * MEAN_OFF_MM
    ]  # fmt: skip
