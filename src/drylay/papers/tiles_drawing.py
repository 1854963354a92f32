"""The tiles in plan: every tile, cut ones hatched, on the joists or pads that carry them."""

from drylay.papers.dimensions import all_edges
from drylay.papers.figures import block, house_side, on_paper, placed, upright
from drylay.papers.hatching import hatch
from drylay.papers.lettering import Bounds, bounds, first_free
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    Box,
    Edge,
    Lettering,
    Line,
    Mark,
    Ring,
    Shape,
    Span,
    View,
)
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many
from drylay.plan.model import Plan
from drylay.supports.model import Supports
from drylay.surface.model import Surface
from drylay.tiling.model import Pad, Pads, Tiling

HIDDEN = "2 1"
#: How far apart hatching runs in cut tiles; how large pads are drawn, whatever their own size.
HATCH_MM, PAD_MM, MIDDLE_MM = 3.0, 1.0, 0.6
#: What a height is told to.
STEPS = {"metric": "0.1 mm", "imperial": "1/16 in"}
#: How high the heights of pads are lettered.
HEIGHT_MM = 1.8
#: A part of a tile's side that is to read well, so that marks find room beside pads.
PARTS = 6


def tiles_svg(plan: Plan) -> bytes:
    """Return the drawing of a plan's tiles; b"" where the plan has none."""
    surface, tiling = plan.surface, plan.tiling
    if surface is None or tiling is None:
        return b""
    around = tile_edges(surface, tiling, plan.units)
    size_mm = upright(surface.run, surface.row_length_mm, surface.rows_depth_mm)
    pitch_mm = min(surface.board_width_mm, tiling.tile_length_mm) / PARTS
    sheet, view = placed(surface.run, size_mm, around, units=plan.units, pitch_mm=pitch_mm)
    extent = (size_mm[0] / view.per_mm, size_mm[1] / view.per_mm)
    outside = [*all_edges(around, view, extent), *house_side(view, extent)]
    pads = _pads(view, tiling.pads) if tiling.pads else []
    high = tiling.pads.pads if tiling.pads else ()
    taken = [bounds(shape) for shape in outside if isinstance(shape, Lettering)]
    taken += [_around(pad) for pad in pads]
    shapes = [
        *_tiles(view, surface, tiling),
        *(_joists(view, surface, plan.supports) if plan.supports else []),
        *pads,
        *outside,
        *_marks(view, surface, tiling, taken),
        *_heights(view, high, plan.units, taken),
        *title_block(sheet, title=plan.title, drawing="Tiles, seen from above", units=plan.units,
                     notes=_notes(surface, tiling, plan.units)),
    ]  # fmt: skip
    counted = f"{many(tiling.whole, 'whole tile')}, {many(tiling.cut, 'cut tile')}"
    told = f"The tiles of {clean(plan.title)} in plan: {counted}."
    title = f"Tiles of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="tiles", title=title, told=told)


def tile_edges(surface: Surface, tiling: Tiling, units: str) -> dict[str, Edge]:
    """Return what stands outside each edge: rows and columns with both edges, the cover's sizes."""
    rows = Edge(marks=tuple(
        _mark(row.mark, row.near_mm, row.width_mm, units, cut=row.ripped) for row in surface.rows
    ))  # fmt: skip
    columns = Edge(marks=tuple(
        _mark(column.mark, column.start_mm, column.length_mm, units, cut=column.cut)
        for column in tiling.columns
    ))  # fmt: skip
    length, depth = surface.row_length_mm, surface.rows_depth_mm
    lengths = Edge(spans=(Span(from_mm=0.0, to_mm=length, text=f"cover {bare(length, units)}"),))
    depths = Edge(spans=(Span(from_mm=0.0, to_mm=depth, text=f"cover {bare(depth, units)}"),))
    if surface.run == "along":
        return {"left": rows, "bottom": columns, "top": lengths, "right": depths}
    return {"bottom": rows, "right": columns, "left": lengths, "top": depths}


def _mark(mark: str, start_mm: float, long_mm: float, units: str, *, cut: bool) -> Mark:
    told = f"{mark}: {bare(start_mm, units)} to {bare(start_mm + long_mm, units)}"
    return Mark(at_mm=start_mm + long_mm / 2, text=f"{told}{', cut' if cut else ''}")


def _places(view: View, surface: Surface, tiling: Tiling) -> list[tuple[str, Box, bool]]:
    """Return every place: its mark, its rectangle on paper, whether its tile is cut."""
    return [
        (
            f"{row.mark}.{number}",
            block(view, "tiles", (column.start_mm, row.near_mm),
                  (column.length_mm, row.width_mm), FINE_MM),
            row.ripped or column.cut,
        )
        for row in surface.rows
        for number, column in enumerate(tiling.columns, start=1)
    ]  # fmt: skip


def _tiles(view: View, surface: Surface, tiling: Tiling) -> list[Shape]:
    size_mm = (surface.row_length_mm, surface.rows_depth_mm)
    shapes: list[Shape] = [block(view, "cover", (0.0, 0.0), size_mm, MEMBER_MM)]
    places = _places(view, surface, tiling)
    shapes += [box for _, box, _ in places]
    for _, box, cut in places:
        shapes += hatch(box, HATCH_MM) if cut else []
    return shapes


def _joists(view: View, surface: Surface, supports: Supports) -> list[Shape]:
    """Return the joists' faces as hidden lines."""
    half = supports.joist_thickness_mm / 2
    shapes: list[Shape] = []
    for line in supports.lines:
        for face in (line.offset_mm - half, line.offset_mm + half):
            one, other = on_paper(view, face, 0.0), on_paper(view, face, surface.rows_depth_mm)
            shapes.append(
                Line(layer="joists", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                     pen_mm=FINE_MM, dash=HIDDEN)
            )  # fmt: skip
    return shapes


def _pads(view: View, pads: Pads) -> list[Ring]:
    """Return a ring for every pad, a smaller one under the middle of a tile."""
    rings = []
    for pad in pads.pads:
        x, y = on_paper(view, pad.start_mm, pad.across_mm)
        radius = MIDDLE_MM if pad.kind == "centre" else PAD_MM
        rings.append(Ring(layer="pads", x_mm=x, y_mm=y, radius_mm=radius, pen_mm=MEMBER_MM))
    return rings


def _heights(view: View, pads: tuple[Pad, ...], units: str, taken: list[Bounds]) -> list[Shape]:
    """Return the height of every pad beside its ring, where it finds room."""
    shapes: list[Shape] = []
    spots = [on_paper(view, pad.start_mm, pad.across_mm) for pad in pads]
    far_x, far_y = (max((spot[axis] for spot in spots), default=0.0) for axis in (0, 1))
    for pad, (x, y) in zip(pads, spots, strict=True):
        if pad.height_mm is None:
            continue
        # a "~" so small reads as a minus: the note says what the figures are worth
        text, high = bare(pad.height_mm, units).removeprefix("~"), HEIGHT_MM
        off = PAD_MM + MEMBER_MM + high
        side, way = (-1 if x > far_x - off else 1), (-1 if y > far_y - off else 1)
        shapes += first_free(
            [
                Lettering(layer="heights", x_mm=x + right * off, y_mm=y + down * off, text=text,
                          size_mm=high, anchor="start" if right > 0 else "end", knocked=True)
                for right, down in ((side, way), (side, -way), (-side, way), (-side, -way))
            ],
            taken,
        )  # fmt: skip
    return shapes


def _around(ring: Ring) -> Bounds:
    """Return the bounds of a ring with its line."""
    reach = ring.radius_mm + MEMBER_MM
    return ring.x_mm - reach, ring.y_mm - reach, ring.x_mm + reach, ring.y_mm + reach


def _marks(view: View, surface: Surface, tiling: Tiling, taken: list[Bounds]) -> list[Shape]:
    """Return the marks of cut tiles in their places, where these have room for them."""
    shapes: list[Shape] = []
    for mark, box, cut in _places(view, surface, tiling):
        shapes += first_free(_spots(mark, box), taken) if cut else ()
    return shapes


def _spots(mark: str, box: Box) -> list[Lettering]:
    """Return where a mark may stand inside its tile: in the middle first, then off a pad there."""
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2
    aside = MIDDLE_MM + LETTER_MM / 2 + 0.6
    spots = []
    for turned in (False, True):
        for off in (0.0, aside, -aside):
            dx, dy = (off, 0.0) if turned else (0.0, off)
            spots.append(
                Lettering(layer="marks", x_mm=x + dx, y_mm=y + dy, text=mark, turned=turned,
                          knocked=True)
            )  # fmt: skip
    return [spot for spot in spots if _inside(box, bounds(spot))]


def _inside(box: Box, place: Bounds) -> bool:
    right, bottom = box.x_mm + box.width_mm, box.y_mm + box.height_mm
    return box.x_mm < place[0] and box.y_mm < place[1] and place[2] < right and place[3] < bottom


def _notes(surface: Surface, tiling: Tiling, units: str) -> tuple[str, ...]:
    long, wide = bare(tiling.tile_length_mm, units), bare(surface.board_width_mm, units)
    thick, joint = bare(surface.board_thickness_mm, units), bare(surface.gap_preferred_mm, units)
    notes = [
        f"Tile {clean(surface.board_article, 40)}, {long} x {wide} x {thick}; joints {joint}, both "
        "ways. Rows B and columns C: near edge to far edge, from the datum corner. B2.3 lies in "
        "row B2 and column C3.",
    ]
    if tiling.cut:
        notes.append(
            f"Hatched: {many(tiling.cut, 'cut tile')}, cut edge outwards, out of "
            f"{many(len(tiling.sawn), 'tile')}."
        )
    if tiling.pads is not None:
        notes.append(
            f"Rings: {tiling.pads.count} pads, not to scale, small ones under tiles' middles. At "
            "the outer edge set each in by half its own width."
        )
        if tiling.pads.levels_known:
            notes.append(
                f"Beside rings: how high the pad stands, to the nearest {STEPS[units]}. Heights "
                "without room here stand in the job sheet."
            )
    else:
        notes.append("Dashed: joists, one centred under every joint between columns.")
    return tuple(notes)
