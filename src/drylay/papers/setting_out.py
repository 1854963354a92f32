"""The setting-out: the frame's four corners as pegs, its sides and diagonals, a 3-4-5 check."""

from attrs import frozen

from drylay.edges.model import Edges
from drylay.papers.dimensions import FIRST_MM, NEXT_MM, all_edges
from drylay.papers.figures import house_side, placed
from drylay.papers.lettering import Bounds, bounds, first_free
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Edge,
    Lettering,
    Line,
    Shape,
    Sheet,
    Span,
    Table,
    View,
)
from drylay.papers.ruled import (
    CELL_MM,
    head_height,
    paragraphs,
    paragraphs_height,
    ruled,
    table_width,
)
from drylay.papers.sheets import AIR_MM, INSET_MM, held, title_block
from drylay.papers.site_text import wall_told
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.surface.model import Surface
from drylay.work.model import Peg

DASH = "4 1.5"
#: Up to what length of diagonal the accepted difference is said: common practice, no source.
UP_TO_MM = 6000.0
#: Width of the text beside the figure, and air before it.
TEXT_MM, BESIDE_MM = 96.0, 6.0
PEG_MM = 1.8
#: The cover is so many times as wide as the smallest thing that must be legible: the words at the
#: house side fit above it.
PARTS = 13
#: A smaller 3-4-5 than this is told in words alone.
LETTERED_MM = 15.0
#: The text along a shorter side than this runs past its corners.
LONG_TEXT_MM = 42.0


@frozen(kw_only=True)
class Corners:
    """The frame's corners, along the house and away from it, from the cover's datum corner."""

    left_mm: float
    house_mm: float
    along_mm: float
    across_mm: float


def setting_out_svg(plan: Plan) -> bytes:
    """Return the drawing that a frame, or tiles on pads, are pegged out by; b"" without either."""
    surface, edges, diagonal_mm = plan.surface, plan.edges, diagonal_of(plan)
    if surface is None or edges is None or diagonal_mm is None:
        return b""
    corners, legs, what = corners_of(surface, edges), legs_of(plan), pegged(plan)
    table, texts = peg_table(plan), _texts(corners, diagonal_mm, legs, plan)
    wide = max(TEXT_MM, table_width(table))
    high = head_height(table) + CELL_MM * len(table.rows) + AIR_MM + paragraphs_height(texts, wide)
    around = _edges(surface, corners, plan.units, framed=what == "frame")
    size_mm = (surface.cover_along_mm, surface.cover_across_mm)
    sheet, view = placed("along", size_mm, around, units=plan.units, pitch_mm=size_mm[0] / PARTS,
                         aside_mm=(wide + BESIDE_MM, high))  # fmt: skip
    extent = (size_mm[0] / view.per_mm, size_mm[1] / view.per_mm)
    outside = [*all_edges(around, view, extent), *house_side(view, extent)]
    shapes = [
        *_figure(view, surface, corners, legs), *outside,
        *_labels(view, surface, corners, bare(diagonal_mm, plan.units), legs, plan.units,
                 outside=outside),
        *_beside(sheet, table, texts, wide),
        *title_block(sheet, title=plan.title, drawing=f"Setting out the {what}",
                     units=plan.units, notes=_notes(edges, what, plan.units)),
    ]  # fmt: skip
    told = f"The {what} of {clean(plan.title)} with a peg at each corner, sides and diagonals."
    title = f"Setting out {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="setting", title=title, told=told)


def diagonal_of(plan: Plan) -> float | None:
    """Return the diagonal of what is pegged out: the frame, or the cover of tiles on pads."""
    if plan.frame is not None:
        return plan.frame.diagonal_mm
    on_pads = plan.tiling is not None and plan.tiling.pads is not None
    return plan.tiling.diagonal_mm if plan.tiling is not None and on_pads else None


def pegged(plan: Plan) -> str:
    """Return what the pegs stand at the corners of."""
    return "frame" if plan.frame or plan.subframe else "cover"


def corners_of(surface: Surface, edges: Edges) -> Corners:
    """Return the frame's corners in the house's own axes, whichever way the boards run."""
    near = (edges.frame_start_mm, edges.frame_near_mm)
    sides = (edges.frame_length_mm, edges.frame_depth_mm)
    if surface.run == "across":
        near, sides = (near[1], near[0]), (sides[1], sides[0])
    return Corners(left_mm=near[0], house_mm=near[1], along_mm=sides[0], across_mm=sides[1])


Legs = tuple[float, float, float]


def legs_of(plan: Plan) -> Legs | None:
    """Return the 3-4-5 of the plan: along, across, slant; None where it has none."""
    out = plan.work.setting_out if plan.work else None
    if out is None or None in (out.leg_along_mm, out.leg_across_mm, out.slant_mm):
        return None
    return (out.leg_along_mm or 0.0, out.leg_across_mm or 0.0, out.slant_mm or 0.0)


def off_square_mm(difference_mm: float, side_mm: float, diagonal_mm: float) -> float:
    """Return how far a side has slid along its own length where the diagonals differ.

    Let the sides be a and b, and one side of length a be slid along itself by e. The diagonals
    are then D and d with D^2 = (a + e)^2 + b^2 and d^2 = (a - e)^2 + b^2, so that
    D^2 - d^2 = (D - d)(D + d) = 4 a e. D + d is twice the true diagonal but for terms in e^2,
    hence D - d = 2 a e / diagonal, and e = difference x diagonal / (2 a).
    """
    return difference_mm * diagonal_mm / (2 * side_mm)


def peg_table(plan: Plan) -> Table:
    """Return every peg's place from the cover's datum corner and from P1."""
    pegs, units = plan.work.setting_out.pegs if plan.work else (), plan.units
    first = next(iter(pegs), None)
    askew = first is not None and first.brief_along_mm is not None
    start = "as measured," if askew else "from datum,"
    return Table(
        layer="pegs", title=f"Pegs: the {pegged(plan)}'s outer corners",
        heads=(("", "peg"), (start, "along"), (start, "across"),
               ("from P1,", "along"), ("from P1,", "across")),
        aligned="<>>>>",
        rows=tuple(
            (peg.mark, *(bare(mm, units) for mm in (
                *measured(peg), peg.along_mm - first.along_mm, peg.across_mm - first.across_mm)))
            for peg in pegs if first is not None
        ),
    )  # fmt: skip


def measured(peg: Peg) -> tuple[float, float]:
    """Return a peg's place from the datum corner, as the brief measures its corners."""
    if peg.brief_along_mm is None or peg.brief_across_mm is None:
        return peg.along_mm, peg.across_mm
    return peg.brief_along_mm, peg.brief_across_mm


def _texts(corners: Corners, diagonal_mm: float, legs: Legs | None, plan: Plan) -> tuple[str, ...]:
    units = plan.units
    along, across = _size(corners.along_mm, units), _size(corners.across_mm, units)
    texts = (
        "Along: along the house, left to right. Across: away from the house.",
        *_wall_told(plan),
        f"Sides: P1 to P2 and P4 to P3 {along}; P1 to P4 and P2 to P3 {across}.",
        f"Diagonals: P1 to P3 and P2 to P4, both {_size(diagonal_mm, units)}.",
        _triangle_told(legs, units, pegged(plan)),
    )
    if plan.work is None:
        return texts
    most_mm = plan.work.setting_out.accepted_mm
    accepted = held(size_most(most_mm, units))
    return (
        *texts,
        _off_told(corners, diagonal_mm, most_mm, units),
        _accepted_told(diagonal_mm, accepted, units),
    )


def _wall_told(plan: Plan) -> list[str]:
    told, site = wall_told(plan), plan.site
    if not told or site is None:
        return []
    gap = size(site.wall_gap_mm, plan.units)
    return [told.replace(gap, held(gap))]


def _triangle_told(legs: Legs | None, units: str, what: str) -> str:
    if legs is None:
        return f"3-4-5: the {what} is too small for one; its diagonals do."
    along, across, slant = (_size(mm, units) for mm in legs)
    return (
        f"3-4-5: from P1 mark {along} towards P2 and {across} towards P4. Square when the two "
        f"marks are {slant} apart. Then the diagonals: they are the finer check."
    )


def _off_told(corners: Corners, diagonal_mm: float, most_mm: float, units: str) -> str:
    """Return what a difference means: rounded up, for nobody is to think it smaller."""
    off = off_square_mm(most_mm, corners.along_mm, diagonal_mm)
    return (
        f"Where the diagonals differ, the front side has slid along the house by difference x "
        f"diagonal / (2 x side): {held(size_least(off, units))} where they differ by "
        f"{held(size_most(most_mm, units))}. Slide it back from the longer diagonal's end."
    )


def _accepted_told(diagonal_mm: float, accepted: str, units: str) -> str:
    told = (
        f"Accept a difference of {accepted} at most, for diagonals up to "
        f"{held(size_most(UP_TO_MM, units))}: common practice, no source."
    )
    if diagonal_mm > UP_TO_MM:
        told += " These are longer: keep to it all the same."
    return told


def _size(length_mm: float, units: str) -> str:
    return held(size(length_mm, units))


def _notes(edges: Edges, what: str, units: str) -> tuple[str, ...]:
    framed = "Thick: the frame's outer faces. Thin: the cover. Dashed: diagonals and 3-4-5."
    notes = [
        framed if what == "frame" else "Thick: the cover. Dashed: diagonals and 3-4-5.",
        "A peg's coordinates are those of the point marked on its head.",
    ]
    if edges.faces:
        thin = bare(edges.fascia_thickness_mm, units)
        sides = ", ".join(face.side for face in edges.faces)
        notes.append(f"Between cover and frame: fascia, {thin} thick, on {sides}.")
    return tuple(notes)


def _edges(
    surface: Surface, corners: Corners, units: str, *, framed: bool
) -> dict[str, Edge]:  # fmt: skip
    along = (corners.left_mm, corners.along_mm, surface.cover_along_mm)
    across = (corners.house_mm, corners.across_mm, surface.cover_across_mm)
    return {
        "bottom": _spans(along, units, framed=framed),
        "right": _spans(across, units, framed=framed),
    }


def _spans(sizes: tuple[float, float, float], units: str, *, framed: bool) -> Edge:
    start, frame, cover = sizes
    spans = (
        Span(from_mm=start, to_mm=start + frame, text=f"frame {bare(frame, units)}"),
        Span(from_mm=0.0, to_mm=cover, text=f"cover {bare(cover, units)}"),
    )
    return Edge(spans=spans if framed else spans[1:])


def _at(view: View, x_mm: float, y_mm: float) -> tuple[float, float]:
    return view.left_mm + x_mm / view.per_mm, view.top_mm + y_mm / view.per_mm


def _figure(view: View, surface: Surface, corners: Corners, legs: Legs | None) -> list[Shape]:
    """Return cover, frame, diagonals, the 3-4-5 and the pegs."""
    pegs = _corner_points(corners)
    cover = (surface.cover_along_mm, surface.cover_across_mm)
    shapes: list[Shape] = [
        _box(view, "cover", (0.0, 0.0), cover, THIN_MM),
        _box(view, "frame", pegs[0], (corners.along_mm, corners.across_mm), OUTLINE_MM),
        _line(view, "diagonals", pegs[0], pegs[2], FINE_MM),
        _line(view, "diagonals", pegs[1], pegs[3], FINE_MM),
    ]
    if legs:
        ends = _legs(corners, legs)
        shapes.append(_line(view, "triangle", *ends, MEMBER_MM))
    return [*shapes, *(_peg(view, *peg) for peg in pegs)]


def _corner_points(corners: Corners) -> list[tuple[float, float]]:
    left, house = corners.left_mm, corners.house_mm
    right, front = left + corners.along_mm, house + corners.across_mm
    return [(left, house), (right, house), (right, front), (left, front)]


def _legs(corners: Corners, found: Legs) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the two points that a 3-4-5 marks on the frame's sides."""
    left, house = corners.left_mm, corners.house_mm
    return (left + found[0], house), (left, house + found[1])


def _box(
    view: View, layer: str, corner: tuple[float, float], size_mm: tuple[float, float],
    pen_mm: float,
) -> Box:  # fmt: skip
    x, y = _at(view, *corner)
    return Box(layer=layer, x_mm=x, y_mm=y, width_mm=size_mm[0] / view.per_mm,
               height_mm=size_mm[1] / view.per_mm, pen_mm=pen_mm)  # fmt: skip


def _line(
    view: View, layer: str, one: tuple[float, float], other: tuple[float, float], pen_mm: float
) -> Line:
    (x1, y1), (x2, y2) = _at(view, *one), _at(view, *other)
    return Line(layer=layer, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=pen_mm, dash=DASH)


def _peg(view: View, x_mm: float, y_mm: float) -> Box:
    x, y = _at(view, x_mm, y_mm)
    return Box(layer="peg-heads", x_mm=x - PEG_MM / 2, y_mm=y - PEG_MM / 2, width_mm=PEG_MM,
               height_mm=PEG_MM, pen_mm=MEMBER_MM, fill="white")  # fmt: skip


def _labels(  # noqa: PLR0917 - what is drawn, and where
    view: View, surface: Surface, corners: Corners, diagonal: str, legs: Legs | None,
    units: str, *, outside: list[Shape],
) -> list[Shape]:  # fmt: skip
    """Return the pegs' names at the cover's corners, and the figures inside where they fit."""
    names = _names(view, surface)
    taken = [bounds(shape) for shape in [*outside, *names] if isinstance(shape, Lettering)]
    middle = (corners.left_mm + corners.along_mm / 2, corners.house_mm + corners.across_mm / 2)
    spots = [_text(f"both diagonals {diagonal}", *_at(view, *middle))]
    return [*names, *first_free(spots, taken), *_triangle_labels(view, corners, legs, units, taken)]


def _names(view: View, surface: Surface) -> list[Shape]:
    """Return each peg's name off the cover's corner, out of the way of a short side's texts."""
    right, front = _at(view, surface.cover_along_mm, surface.cover_across_mm)
    left, top = view.left_mm, view.top_mm
    aside = right + 2.5 if front - top > LONG_TEXT_MM else right + FIRST_MM + NEXT_MM * 1.5
    below = front + 2.6 if right - left > LONG_TEXT_MM else front - 2.2
    return [
        _text("P1", left - 2.5, top + 0.8, "end"),
        _text("P2", aside, top - 2.6, "start"),
        _text("P3", aside, below, "start"),
        _text("P4", left - 2.5, below, "end"),
    ]


def _triangle_labels(
    view: View, corners: Corners, found: Legs | None, units: str, taken: list[Bounds]
) -> list[Shape]:  # fmt: skip
    if found is None or min(found) / view.per_mm < LETTERED_MM:
        return []
    (x1, y1), (x2, y2) = (_at(view, *end) for end in _legs(corners, found))
    along, across, slant = (bare(mm, units) for mm in found)
    slants = [
        _text(slant, x2 + (x1 - x2) * share, y1 + (y2 - y1) * (1 - share))
        for share in (0.5, 0.4, 0.3, 0.6, 0.2)
    ]
    return [
        *first_free([_text(along, x1 - 1.0, y1 + 3.0, "end")], taken),
        *first_free([_text(across, x2 + 2.0, y2 - 2.2, "start")], taken),
        *first_free(slants, taken),
    ]


def _text(text: str, x: float, y: float, anchor: str = "middle") -> Lettering:
    return Lettering(layer="labels", x_mm=x, y_mm=y, text=text, anchor=anchor, knocked=True)


def _beside(sheet: Sheet, table: Table, texts: tuple[str, ...], wide: float) -> list[Shape]:
    """Return the table of pegs and, under it, what to measure."""
    x = sheet.width_mm - INSET_MM - wide
    under = INSET_MM + head_height(table) + CELL_MM * len(table.rows) + AIR_MM
    table_shapes = ruled(table, table.rows, x, INSET_MM)
    return [*table_shapes, *paragraphs(texts, "notes", x, under, wide)]
