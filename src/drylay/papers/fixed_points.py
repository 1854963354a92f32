"""Fixed points of boards in clips, as the boards drawing marks them and as all papers tell them."""

from drylay.fixings.model import Clips, Fixings
from drylay.papers.figures import on_paper
from drylay.papers.model import MEMBER_MM, Line, Shape, View
from drylay.papers.wording import marks_told
from drylay.plan.model import Plan

#: Half the size of a cross on paper.
ARM_MM = 1.1
NOTE = (
    "Crosses: fixed points. There each board is screwed tight, everywhere else it slides; see "
    "Fixings."
)


def by_row(clips: Clips) -> dict[str, list[str]]:
    """Return the joists that each row's boards are fixed at, from the datum."""
    rows: dict[str, list[str]] = {}
    for point in clips.fixed_points:
        rows.setdefault(point.piece.partition(".")[0], []).append(point.joist)
    return rows


def fixed_lines(clips: Clips) -> str:
    """Return the fixed points in words, rows that are fixed alike together."""
    alike: dict[str, list[str]] = {}
    for row, joists in by_row(clips).items():
        alike.setdefault(" ".join(joists), []).append(row)
    return "; ".join(f"{marks_told(marks)}: {joists}" for joists, marks in alike.items())


def fixed_shapes(view: View, plan: Plan) -> list[Shape]:
    """Return a cross at each fixed point, where its screw goes; nothing without clips."""
    fixings, surface, supports = plan.fixings, plan.surface, plan.supports
    if fixings is None or fixings.clips is None or surface is None or supports is None:
        return []
    lines = {f"J{number}": line.offset_mm for number, line in enumerate(supports.lines, start=1)}
    rows = {row.mark: row for row in surface.rows}
    shapes: list[Shape] = []
    for mark, joists in by_row(fixings.clips).items():
        across_mm = rows[mark].near_mm + rows[mark].width_mm - _from_edge_mm(fixings)
        for joist in joists:
            shapes += _cross(*on_paper(view, lines[joist], across_mm))
    return shapes


def _from_edge_mm(fixings: Fixings) -> float:
    return fixings.deck_screws.edge_least_mm if fixings.deck_screws else 0.0


def _cross(x: float, y: float) -> list[Line]:
    return [
        Line(layer="fixed-points", x1_mm=x - ARM_MM, y1_mm=y - arm, x2_mm=x + ARM_MM,
             y2_mm=y + arm, pen_mm=MEMBER_MM)
        for arm in (ARM_MM, -ARM_MM)
    ]  # fmt: skip
