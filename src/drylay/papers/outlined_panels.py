"""Battens of hatches' panels: under their boards, on the bench, and in words."""

from collections.abc import Iterable

from drylay.laying.model import LaidPiece, Laying
from drylay.papers.lettering import Point
from drylay.papers.model import Area, View
from drylay.papers.outlined_ends import ends_of, in_axes, lie_of
from drylay.papers.outlined_view import at, moved, outward, way_of
from drylay.papers.wording import bare, marks_told, size
from drylay.plan.model import Plan
from drylay.subframe.model import PanelBatten, Subframe

#: How battens are dashed: they hang under boards, and lift out.
DASH = "3 1.2"


def batten_areas(view: View, subframe: Subframe, layer: str, pen_mm: float) -> list[Area]:
    """Return every batten seen from above, dashed; as thick as the frame's timber."""
    return [
        Area(layer=layer, corners_mm=batten_corners(view, batten, subframe.timber_thickness_mm),
             pen_mm=pen_mm, fill="none", dash=DASH)
        for batten in subframe.battens
    ]  # fmt: skip


def batten_corners(view: View, batten: PanelBatten, thick_mm: float) -> tuple[Point, ...]:
    """Return the corners of a batten on paper: half its thickness off either side of its middle."""
    one, other = at(view, batten.start), at(view, batten.end)
    out, half = outward(way_of(one, other)), thick_mm / view.per_mm / 2
    return (
        moved(one, out, half), moved(other, out, half),
        moved(other, out, -half), moved(one, out, -half),
    )  # fmt: skip


def batten_notes(frame: Subframe) -> list[str]:
    """Return the note of the frame's drawing on battens; nothing without any."""
    if not frame.battens:
        return []
    marks = marks_told([batten.mark for batten in frame.battens])
    return [f"Dashed in hatches: {marks}, battens that tie their panels and lift out with them."]


#: How the figures on the bench are meant.
BENCH = (
    "On the bench, each panel by itself: battens' middles from the ends of its boards, and how far "
    "their ends stay inside the outer edges of its outer boards."
)


def bench_told(plan: Plan, frame: Subframe) -> list[str]:
    """Return, panel by panel, where battens go under its boards, and what room its ends have."""
    hatches = (
        [each for each in plan.outline.openings if each.kind == "hatch"] if plan.outline else []
    )
    pieces = plan.laying.pieces if plan.laying else ()
    told = []
    for number, hatch in enumerate(hatches, start=1):
        boards = [each for each in pieces if each.mark.startswith(f"H{number}.")]
        battens = [each for each in frame.battens if each.opening == hatch.mark]
        if boards and battens and plan.laying:
            told.append(_bench(hatch.mark, boards, battens, plan.laying, plan.units))
    return told


def _bench(
    hatch: str, boards: list[LaidPiece], battens: list[PanelBatten], laying: Laying, units: str
) -> str:  # fmt: skip
    lie = lie_of(laying, boards[0])
    turn = lie.turn_deg
    corners = in_axes([spot for each in boards for spot in each.corners], turn)
    (low, high), (right, left) = _spread(x for x, _ in corners), _spread(y for _, y in corners)
    end = ends_of(lie.steep)[0]
    places, inside = [], set()
    for batten in battens:
        ends = in_axes([batten.start, batten.end], turn)
        places.append(f"{batten.mark} {bare((ends[0][0] + ends[1][0]) / 2 - low, units)}")
        near, far = _spread(y for _, y in ends)
        inside |= {bare(near - right, units), bare(left - far, units)}
    half = bare(laying.end_gap_mm / 2, units)
    return (
        f"{hatch}'s panel, boards {bare(high - low, units)} long, each end {half} short of its "
        f"hole: middles of battens from the boards' {end} end {', '.join(places)}; their ends "
        f"{' and '.join(sorted(inside))} inside the outer boards' edges"
    )


def _spread(values: Iterable[float]) -> tuple[float, float]:
    found = list(values)
    return min(found), max(found)


def battens_told(frame: Subframe, units: str) -> list[str]:
    """Return the battens of each panel, those of one length together; to what they are ripped."""
    groups: dict[tuple[str, float, float], list[str]] = {}
    for batten in frame.battens:
        key = (batten.opening, batten.length_mm, batten.depth_mm)
        groups.setdefault(key, []).append(batten.mark)
    return [
        f"battens of {opening}'s panel {size(length_mm, units)}: {marks_told(marks)}"
        + (f", ripped to {size(depth_mm, units)}" if depth_mm < frame.timber_depth_mm else "")
        for (opening, length_mm, depth_mm), marks in groups.items()
    ]
