"""Battens of hatches' panels: as they lie under their boards, and in words."""

from drylay.papers.lettering import Point
from drylay.papers.model import Area, View
from drylay.papers.outlined_view import at, moved, outward, way_of
from drylay.papers.wording import marks_told, size
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
