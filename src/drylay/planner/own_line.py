"""A brief as the deck's own line has it."""

from attrs import evolve

from drylay.brief.model import Brief, GroundPoint
from drylay.marks import exact, to_mm
from drylay.own_line import field_on_own_line, outline_on_own_line, own_line_deg, turned
from drylay.rings import box
from drylay.shapes import shape_of


def on_own_line(brief: Brief) -> Brief:
    """Return a brief whose places are along and across the deck's own line.

    Sizes and angles stay: they are the deck's own already. A brief whose line runs along the house
    stays as it is, and so does one without an outline.
    """
    deg = own_line_deg(brief.outline)
    if deg == 0:
        return brief
    outline = outline_on_own_line(brief.outline, deg)
    low_x, low_y, high_x, high_y = box(shape_of(outline).corners)
    fields = tuple(field_on_own_line(wish, deg) for wish in brief.laying.fields)
    return evolve(
        brief,
        cover=evolve(brief.cover, along_mm=to_mm(high_x - low_x), across_mm=to_mm(high_y - low_y)),
        outline=outline,
        laying=evolve(brief.laying, fields=fields),
        levels=evolve(
            brief.levels, points=tuple(_level(point, deg) for point in brief.levels.points)
        ),
    )


def _level(point: GroundPoint, deg: float) -> GroundPoint:
    x, y = turned((exact(point.along_mm), exact(point.across_mm)), deg)
    return evolve(point, along_mm=to_mm(x), across_mm=to_mm(y))
