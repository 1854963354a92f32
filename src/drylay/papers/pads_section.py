"""A section through the house edge of tiles on pads: tiles, joint, pads and base, true to scale.

The figure is told by how far from its left, and how far down from the top of the tiles.
"""

from attrs import frozen

from drylay.papers.dimensions import GAP_MM, all_edges, thick_edge, thick_lines
from drylay.papers.figures import placed
from drylay.papers.hatching import hatch
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Edge,
    Line,
    Mark,
    Ring,
    Shape,
    Span,
    View,
)
from drylay.papers.section_screws import by
from drylay.papers.sheets import rule, title_block
from drylay.papers.svg import svg
from drylay.papers.tiles_text import falls_told
from drylay.papers.wording import bare, clean, size_least, size_most
from drylay.plan.model import Plan
from drylay.surface.model import Surface
from drylay.tiling.model import Pads
from drylay.units import fall_text

#: How much of the next tile is shown, how far down the base is drawn below the pads, how broad pads
#: and how thick a wall is drawn, whatever they are.
BEYOND_MM, BASE_MM, PLATE_MM, STEM_MM, WALL_MM = 90.0, 6.0, 110.0, 50.0, 30.0
DASH = "4 1.5"


@frozen(kw_only=True)
class Cut:
    """What the section shows: tiles by their edges, pads by their middles, from the left."""

    tiles: tuple[tuple[float, float], ...]
    tile_mm: float
    pads: tuple[float, ...]
    pad_mm: float
    wall_gap_mm: float
    wide_mm: float

    @property
    def start_mm(self) -> float:
        """Where the cover begins."""
        return self.tiles[0][0]

    @property
    def low_mm(self) -> float:
        """How far down the base lies."""
        return self.tile_mm + self.pad_mm


def pads_section_svg(plan: Plan) -> bytes:
    """Return the section through the house edge of tiles on pads; b"" where there are none."""
    surface, pads = plan.surface, plan.tiling.pads if plan.tiling else None
    if surface is None or pads is None or not surface.rows:
        return b""
    cut, units = cut_of(plan, surface, pads), plan.units
    spans = _spans(cut, units)
    names = _names(cut, surface, pads, units)
    around = {side: thick_edge(found) for side, found in spans.items()}
    around["right"] = Edge(marks=tuple(Mark(at_mm=y, text=text) for y, _, text in names))
    size_mm = (cut.wide_mm, cut.low_mm + BASE_MM)
    thin_mm = min(span.to_mm - span.from_mm for found in spans.values() for span in found)
    sheet, view = placed("along", size_mm, around, units=units, pitch_mm=max(thin_mm, 15.0))
    extent = (size_mm[0] / view.per_mm, size_mm[1] / view.per_mm)
    edge = "house" if surface.run == "along" else "left"
    shapes = [
        *_wall(view, cut), *_stuff(view, cut), *_leaders(view, extent, names),
        *all_edges(around, view, extent),
        *(line for side in spans for line in thick_lines(side, spans[side], view, extent)),
        *title_block(sheet, title=plan.title, drawing=f"Section through the {edge} edge",
                     units=units, notes=_notes(pads, units), counted=""),
    ]  # fmt: skip
    told = f"A section through the {edge} edge of {clean(plan.title)}: tiles on pads."
    return svg(shapes, sheet=sheet, name="section", title=f"Section of {clean(plan.title)}",
               told=told)  # fmt: skip


def cut_of(plan: Plan, surface: Surface, pads: Pads) -> Cut:
    """Return what the section shows: the outermost row, and where the next begins."""
    walled = plan.site is not None and plan.site.beside_house and surface.run == "along"
    gap_mm = plan.site.wall_gap_mm if plan.site and walled else 0.0
    start = WALL_MM + gap_mm if walled else 0.0
    first = surface.rows[0]
    tiles = [(start, start + first.width_mm)]
    under = [start + min(PLATE_MM, first.width_mm) / 2]
    under += [start + first.width_mm / 2] if pads.at_centre else []
    if len(surface.rows) > 1:
        near = start + surface.rows[1].near_mm
        tiles.append((near, near + BEYOND_MM))
        under.append((tiles[0][1] + near) / 2)
    return Cut(tiles=tuple(tiles), tile_mm=surface.board_thickness_mm, pads=tuple(under),
               pad_mm=pads.height_least_mm, wall_gap_mm=gap_mm,
               wide_mm=max(tiles[-1][1], under[-1] + PLATE_MM / 2))  # fmt: skip


def _spans(cut: Cut, units: str) -> dict[str, tuple[Span, ...]]:
    """Return what is dimensioned: heights at the left, the wall's gap and the joint at the top."""
    heights = (
        Span(from_mm=0.0, to_mm=cut.tile_mm, text=f"tile {bare(cut.tile_mm, units)}"),
        Span(from_mm=cut.tile_mm, to_mm=cut.low_mm, text=f"pad {bare(cut.pad_mm, units)}"),
    )
    across = []
    if cut.wall_gap_mm:
        text = f"wall gap {bare(cut.wall_gap_mm, units)}"
        across.append(Span(from_mm=WALL_MM, to_mm=cut.start_mm, text=text))
    if len(cut.tiles) > 1:
        one, other = cut.tiles[0][1], cut.tiles[1][0]
        across.append(Span(from_mm=one, to_mm=other, text=f"joint {bare(other - one, units)}"))
    return {"left": heights, "top": tuple(across)} if across else {"left": heights}


def _names(
    cut: Cut, surface: Surface, pads: Pads, units: str
) -> list[tuple[float, float, str]]:  # fmt: skip
    """Return every part's name: how far down and from the left its leader begins."""
    tile = by(surface.board_width_mm, cut.tile_mm, units)
    falls = f"base, {base_falls(pads)}: not in the order"
    last = cut.tiles[-1]
    return [
        (cut.tile_mm / 2, (last[0] + last[1]) / 2,
         f"tile {clean(surface.board_article, 24)}, {tile}"),
        (cut.tile_mm + cut.pad_mm * 0.6, cut.pads[-1], f"pad {clean(pads.article, 24)}"),
        (cut.low_mm + BASE_MM, cut.wide_mm / 2, falls),
    ]  # fmt: skip


def base_falls(pads: Pads) -> str:
    """Return how the base falls by its levels, else how it is to fall."""
    ratio = pads.base_measured_ratio
    if ratio is None:
        return f"to fall {fall_text(pads.base_fall_ratio)} from the house"
    return falls_told(ratio)


def _box(view: View, layer: str, at: tuple[float, float, float, float], pen_mm: float) -> Box:
    left, top, right, low = at
    return Box(layer=layer, x_mm=view.left_mm + left / view.per_mm,
               y_mm=view.top_mm + top / view.per_mm, width_mm=(right - left) / view.per_mm,
               height_mm=(low - top) / view.per_mm, pen_mm=pen_mm, fill="white")  # fmt: skip


def _wall(view: View, cut: Cut) -> list[Shape]:
    if cut.start_mm == 0:
        return []
    wall = _box(view, "wall", (0.0, 0.0, WALL_MM, cut.low_mm), OUTLINE_MM)
    return [wall, *hatch(wall, 2.0)]


def _stuff(view: View, cut: Cut) -> list[Shape]:
    """Return pads, then tiles over them, hatched as cut across, and the base as a line."""
    shapes: list[Shape] = []
    for at in cut.pads:
        plate = min(cut.pad_mm / 4, 8.0)
        for half, top, low in ((PLATE_MM / 2, 0.0, plate), (STEM_MM / 2, plate, cut.pad_mm)):
            sides = (at - half, cut.tile_mm + top, at + half, cut.tile_mm + low)
            shapes.append(_box(view, "pads", sides, THIN_MM))
    for left, right in cut.tiles:
        tile = _box(view, "tiles", (left, 0.0, right, cut.tile_mm), OUTLINE_MM)
        shapes += [tile, *hatch(tile, 3.0, rising=False)]
    y, far = view.top_mm + cut.low_mm / view.per_mm, view.left_mm + cut.wide_mm / view.per_mm
    return [*shapes, Line(layer="base", x1_mm=view.left_mm, y1_mm=y, x2_mm=far, y2_mm=y,
                          pen_mm=MEMBER_MM, dash=DASH)]  # fmt: skip


def _leaders(
    view: View, extent: tuple[float, float], names: list[tuple[float, float, str]]
) -> list[Shape]:
    """Return a dot in tile and pad, and a line from it to where the name's own leader begins."""
    shapes: list[Shape] = []
    for down_mm, from_left_mm, _ in names[:-1]:
        x = view.left_mm + from_left_mm / view.per_mm
        y = view.top_mm + down_mm / view.per_mm
        shapes.append(Ring(layer="leaders", x_mm=x, y_mm=y, radius_mm=0.5, pen_mm=FINE_MM))
        shapes.append(rule("leaders", x, y, view.left_mm + extent[0] + GAP_MM, y))
    return shapes


def _notes(pads: Pads, units: str) -> tuple[str, ...]:
    least, most = size_least(pads.height_least_mm, units), size_most(pads.height_most_mm, units)
    high = "Without levels nobody knows how high pads stand: drawn at their own least height."
    if pads.levels_known:
        high = f"Pads stand {least} to {most} high as the base falls; drawn at the least."
    return (
        high,
        "Widths of pads and wall are not true. At the outer edge set pads in by half their width.",
        "The outer tiles are to be held at their edge, by what is not part of this plan.",
    )
