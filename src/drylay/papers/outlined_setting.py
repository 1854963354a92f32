"""The setting-out of a frame under an outline: pegs at its corners, ties from peg to peg."""

from collections.abc import Sequence
from math import hypot

from drylay.outline.model import Outline, Spot
from drylay.papers.lettering import Point
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Lettering,
    Line,
    Shape,
    Sheet,
    Table,
    View,
)
from drylay.papers.outlined_view import (
    all_at,
    area,
    around,
    at,
    datum_view,
    fitted_view,
    kinds_told,
    line_of,
    moved,
    outline_places,
    room_for,
    sides_drawn,
    way_of,
)
from drylay.papers.outlined_ways import ways_told
from drylay.papers.placing import (
    Place,
    beyond,
    first_clear,
    line_place,
    place_of,
    places_of,
    put,
    sloped,
)
from drylay.papers.ruled import (
    CELL_MM,
    head_height,
    paragraphs,
    paragraphs_height,
    ruled,
    table_width,
)
from drylay.papers.setting_out import PEG_MM, legs_of, peg_table
from drylay.papers.sheets import AIR_MM, INSET_MM, held, title_block
from drylay.papers.site_text import wall_told
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many, size, size_most
from drylay.plan.model import Plan
from drylay.work.model import Peg, PegTie

DASH, DOTS = "4 1.5", "0.6 1.4"
CHECK = "check"
BESIDE_MM, BETWEEN_MM = 6.0, 5.0
#: The least of a deck that must stay legible on the sheet: a part of its smaller size.
PARTS = 13
#: Along a tie, where its length may stand: from its middle outwards, then between these places.
SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.46, 0.54, 0.38, 0.62, 0.3, 0.7, 0.22, 0.78)


def outlined_setting_svg(plan: Plan) -> bytes:
    """Return the drawing that a frame under an outline is pegged out by; b"" without one."""
    outline, work = plan.outline, plan.work
    if outline is None or work is None or not work.setting_out.pegs:
        return b""
    tables, texts = [peg_table(plan), tie_table(plan)], setting_texts(plan)
    tables = [table for table in tables if table.rows]
    wide = max(96.0, sum(table_width(t) for t in tables) + BETWEEN_MM * (len(tables) - 1))
    rows = max(head_height(t) + CELL_MM * len(t.rows) for t in tables)
    high = rows + AIR_MM + paragraphs_height(texts, wide)
    edges = {side: room_for(1) for side in ("left", "right", "top", "bottom")}
    least = min(
        max(s.start.along_mm for s in outline.sides), max(s.start.across_mm for s in outline.sides)
    )
    sheet, corner = fitted_view(outline, edges, units=plan.units, pitch_mm=least / PARTS,
                                aside_mm=(wide + BESIDE_MM, high))  # fmt: skip
    view = datum_view(outline, corner)
    shapes = [
        *_figure(view, plan, outline), *sides_drawn(view, outline, THIN_MM),
        *_labels(view, plan, outline),
        *_beside(sheet, tables, texts, wide, rows),
        *title_block(sheet, title=plan.title, drawing="Setting out the frame", units=plan.units,
                     notes=_notes(outline)),
    ]  # fmt: skip
    pegs = many(len(work.setting_out.pegs), "peg")
    told = f"The frame of {clean(plan.title)} with {pegs} at its corners, and ties between them."
    title = f"Setting out {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="setting", title=title, told=told)


def ties_of(plan: Plan) -> tuple[PegTie, ...]:
    """Return the lengths from peg to peg that the plan tells."""
    return plan.work.setting_out.ties if plan.work else ()


def tie_table(plan: Plan) -> Table:
    """Return every tie: from which peg to which, how long."""
    return Table(
        layer="ties", title="Ties, in their order",
        heads=(("from",), ("to",), ("length",), ("",)), aligned="<<><",
        rows=tuple(
            (tie.start, tie.end, bare(tie.length_mm, plan.units), CHECK if tie.check else "sets")
            for tie in ties_of(plan)
        ),
    )  # fmt: skip


def setting_texts(plan: Plan) -> tuple[str, ...]:
    """Return how to set pegs by their ties, and how far a tie may be off."""
    out = plan.work.setting_out if plan.work else None
    if out is None:
        return ()
    accepted = held(size_most(out.accepted_mm, plan.units))
    wall = wall_told(plan)
    return (
        *ways_told(plan.outline),
        *([wall] if wall else []),
        "Set pegs in the order of the ties: a peg stands where two tapes, hooked on two pegs that "
        "stand already, meet at the ties that set it.",
        *_triangle_told(plan),
        f"Then tape every check. Accept a difference of {accepted} at most.",
    )


def _triangle_told(plan: Plan) -> list[str]:
    """Return the 3-4-5 at the first peg; nothing where the plan has none."""
    legs, pegs = legs_of(plan), plan.work.setting_out.pegs if plan.work else ()
    if legs is None or len(pegs) < 3:
        return []
    along, across, slant = (held(size(mm, plan.units)) for mm in legs)
    return [
        f"3-4-5: from {pegs[0].mark} mark {along} towards {pegs[1].mark} and {across} towards "
        f"{pegs[-1].mark}. Square when the two marks are {slant} apart."
    ]


def _notes(outline: Outline) -> tuple[str, ...]:
    return (
        "Thick: the frame's outer faces. Thin: the deck's edge. Dashed: ties that set pegs. "
        "Dotted: checks. A peg's coordinates are those of the point marked on its head.",
        kinds_told(outline),
    )


def _points(view: View, plan: Plan) -> dict[str, Point]:
    pegs: tuple[Peg, ...] = plan.work.setting_out.pegs if plan.work else ()
    return {
        peg.mark: at(view, Spot(along_mm=peg.along_mm, across_mm=peg.across_mm)) for peg in pegs
    }


def _figure(view: View, plan: Plan, outline: Outline) -> list[Shape]:
    """Return openings, ties, the frame through its pegs, and the pegs."""
    points = _points(view, plan)
    shapes: list[Shape] = [
        area(view, "openings", opening.corners, THIN_MM) for opening in outline.openings
    ]
    shapes += [
        _dashed(line_of("diagonals", points[tie.start], points[tie.end]), check=tie.check)
        for tie in ties_of(plan) if tie.start in points and tie.end in points
    ]  # fmt: skip
    ring = list(points.values())
    for one, other in zip(ring, [*ring[1:], *ring[:1]], strict=True):
        shapes.append(line_of("frame", one, other, OUTLINE_MM))
    return [*shapes, *(
        Box(layer="peg-heads", x_mm=x - PEG_MM / 2, y_mm=y - PEG_MM / 2, width_mm=PEG_MM,
            height_mm=PEG_MM, pen_mm=MEMBER_MM, fill="white")
        for x, y in ring
    )]  # fmt: skip


def _dashed(line: Line, *, check: bool) -> Line:
    return Line(layer=line.layer, x1_mm=line.x1_mm, y1_mm=line.y1_mm, x2_mm=line.x2_mm,
                y2_mm=line.y2_mm, pen_mm=FINE_MM, dash=DOTS if check else DASH)  # fmt: skip


def _labels(view: View, plan: Plan, outline: Outline) -> list[Shape]:
    """Return the pegs' names outside the deck, and each tie's length along it."""
    taken: list[Place] = outline_places(view, outline)
    points = _points(view, plan)
    taken += [place_of([(x - 1, y - 1), (x + 1, y - 1), (x + 1, y + 1), (x - 1, y + 1)])
              for x, y in points.values()]  # fmt: skip
    deck = all_at(view, [side.start for side in outline.sides])
    shapes: list[Shape] = []
    for mark, (x, y) in points.items():
        text = Lettering(layer="labels", x_mm=x, y_mm=y, text=mark)
        spots = around(text, steps=6)
        shapes += first_clear([s for s in spots if beyond(s, deck)] or spots, taken)
    taken += [line_place(one, other) for one, other in _frame_lines(points)]
    ties = [(points[tie.start], points[tie.end], bare(tie.length_mm, plan.units))
            for tie in ties_of(plan) if tie.start in points and tie.end in points]  # fmt: skip
    lines = [line_place(one, other) for one, other, _ in ties]
    holes = [place_of(all_at(view, opening.corners)) for opening in outline.openings]
    for index, (one, other, told) in enumerate(ties):
        off = [*lines[:index], *lines[index + 1 :]]
        shapes += _tie_text(one, other, told, taken, ([*holes, *off], holes))
    return shapes


def _frame_lines(points: dict[str, Point]) -> list[tuple[Point, Point]]:
    ring = list(points.values())
    return list(zip(ring, [*ring[1:], *ring[:1]], strict=True))


def _tie_text(
    one: Point, other: Point, text: str, taken: list[Place], keep_off: Sequence[list[Place]]
) -> list[Shape]:
    """Return a tie's length on it, or beside it where it is a side of the frame.

    It keeps off the first of `keep_off` if it can, else off the second: a length that stands on an
    opening is read as told of it.
    """
    flat = sloped(Lettering(layer="tie-lengths", x_mm=0.0, y_mm=0.0, text=text, knocked=True),
                  one, other)  # fmt: skip
    way = way_of(one, other)
    aside, long = (-way[1], way[0]), hypot(other[0] - one[0], other[1] - one[1])
    spots = [
        put(flat, moved(moved(one, way, long * share), aside, off))
        for off in (0.0, 2.0, -2.0) for share in SHARES
    ]  # fmt: skip
    for more in (*keep_off, []):
        found = first_clear(spots, [*taken, *more])
        if found:
            taken += places_of(found)
            return [*found]
    return []


def _beside(
    sheet: Sheet, tables: list[Table], texts: tuple[str, ...], wide: float, rows: float
) -> list[Shape]:
    """Return the tables of pegs and ties side by side and, under them, what to measure."""
    x = sheet.width_mm - INSET_MM - wide
    shapes: list[Shape] = []
    at_mm = x
    for table in tables:
        shapes += ruled(table, table.rows, at_mm, INSET_MM)
        at_mm += table_width(table) + BETWEEN_MM
    return [*shapes, *paragraphs(texts, "notes", x, INSET_MM + rows + AIR_MM, wide)]
