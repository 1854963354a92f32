"""The frame under an outline in plan: members with marks, joist lines running, bevels, seams."""

from attrs import evolve

from drylay.outline.model import Outline, Spot
from drylay.papers.dimensions import all_edges
from drylay.papers.lettering import Point
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Lettering,
    Shape,
    View,
)
from drylay.papers.outlined_first_peg import DATUM, counted, first_peg
from drylay.papers.outlined_frame_layout import (
    BETWEEN_MM,
    FrameLayout,
    aside_columns,
    frame_layout,
    page_file,
    pages_told,
)
from drylay.papers.outlined_frame_sizes import CROSSING, ON_LINES
from drylay.papers.outlined_framing import Framing
from drylay.papers.outlined_framing_drawn import framing_shapes
from drylay.papers.outlined_ledges import is_ledge
from drylay.papers.outlined_marks import opening_texts
from drylay.papers.outlined_member_marks import (
    FINE_SHARES,
    KEEP_MM,
    SHARES,
    beside_line,
    led,
    led_mark,
    member_spots,
    strip,
    upright_spots,
)
from drylay.papers.outlined_panels import batten_areas
from drylay.papers.outlined_text import frame_notes, lines_meant
from drylay.papers.outlined_view import (
    all_at,
    area,
    around,
    at,
    bounds_mm,
    datum_text,
    datum_view,
    line_of,
    moved,
    outline_places,
    outward,
    sides_drawn,
    way_of,
)
from drylay.papers.placing import (
    Place,
    beyond,
    first_clear,
    line_place,
    place_of,
    places_of,
)
from drylay.papers.ruled import ruled, table_width
from drylay.papers.setting_out import PEG_MM
from drylay.papers.sheets import INSET_MM, title_block
from drylay.papers.svg import svg
from drylay.papers.wording import clean, many, marks_told
from drylay.plan.model import Plan
from drylay.subframe.model import Member, Subframe

PENS = {"rim": MEMBER_MM, "trimmer": MEMBER_MM, "double": MEMBER_MM}  # fmt: skip
#: What stands on the first page alone.
WHOLE = "The whole frame, and what the saw is set to:"


def outlined_frame_svg(plan: Plan) -> bytes:
    """Return the drawing of the frame under an outline; b"" where the plan has none."""
    outline, subframe = plan.outline, plan.subframe
    if outline is None or subframe is None:
        return b""
    peg, layout = first_peg(plan), frame_layout(plan, outline, subframe)
    sheet, corner = layout.sheet, layout.corner
    left, top, right, bottom = bounds_mm(outline)
    extent = ((right - left) / corner.per_mm, (bottom - top) / corner.per_mm)
    view = datum_view(outline, corner)
    outside = all_edges(layout.edges, corner, extent)
    peg_heads = _peg(view, outline, peg, outside) if peg else []
    shown = _less(subframe, outline, layout.details)
    notes = (*frame_notes(evolve(plan, subframe=shown)), *pages_told(layout))
    shapes = [
        *_facings(view, shown), *_members(view, shown), *_seams(view, shown),
        *batten_areas(view, shown, "battens", MEMBER_MM),
        *_openings(view, outline, layout), *sides_drawn(view, outline, THIN_MM),
        *outside,
        *peg_heads, *_texts(view, outline, shown, layout, [*outside, *peg_heads]),
        *_beside(outline, subframe, layout, plan.units),
        *title_block(sheet, title=plan.title, drawing="Frame, seen from above",
                     units=plan.units, notes=notes, counted=counted(peg)),
    ]  # fmt: skip
    told = f"The frame of {clean(plan.title)} in plan: {many(len(subframe.members), 'member')}."
    return svg(shapes, sheet=sheet, name="frame", title=f"Frame of {clean(plan.title)}", told=told)


def frame_page_svg(plan: Plan, number: int) -> bytes:
    """Return the page of this number, from 2, of a frame's details; b"" where there is none."""
    outline, subframe = plan.outline, plan.subframe
    if outline is None or subframe is None:
        return b""
    pages = frame_layout(plan, outline, subframe).pages
    if number - 2 not in range(len(pages)):
        return b""
    page = pages[number - 2]
    marks = [each.opening.mark for each, _, _ in page.details]
    what = f"The frame round {marks_told(marks)}, enlarged"
    shapes = [
        *(shape for each in page.details for shape in framing_shapes(outline, subframe, *each)),
        *title_block(page.sheet, title=plan.title, drawing=what, units=plan.units,
                     notes=(*lines_meant(outline), f"{WHOLE} {page_file(1)}."),
                     counted=counted(first_peg(plan))),
    ]  # fmt: skip
    title = f"{what}: {clean(plan.title)}"
    return svg(shapes, sheet=page.sheet, name=f"frame{number}", title=title, told=f"{title}.")


def _less(subframe: Subframe, outline: Outline, details: tuple[Framing, ...]) -> Subframe:
    """Return a frame without the ledges and battens of openings that are drawn enlarged."""
    marks = {each.opening.mark for each in details}
    members = tuple(
        each for each in subframe.members if each.side not in marks or not is_ledge(each, outline)
    )
    battens = tuple(each for each in subframe.battens if each.opening not in marks)
    return evolve(subframe, members=members, battens=battens)


def _peg(view: View, outline: Outline, peg: Spot, outside: list[Shape]) -> list[Shape]:
    """Return the peg that centres are measured from, its mark outside the deck."""
    x, y = at(view, peg)
    deck = all_at(view, [side.start for side in outline.sides])
    head = Box(layer="peg", x_mm=x - PEG_MM / 2, y_mm=y - PEG_MM / 2, width_mm=PEG_MM,
               height_mm=PEG_MM, pen_mm=MEMBER_MM, fill="white")  # fmt: skip
    spots = around(Lettering(layer="peg", x_mm=x, y_mm=y, text="P1"), steps=6)
    taken = [*places_of(outside), *outline_places(view, outline), _datum_place(view)]
    return [head, *first_clear([spot for spot in spots if beyond(spot, deck)] or spots, taken)]


def _datum_place(view: View) -> Place:
    """Return the room of the ring at the datum corner."""
    x, y = at(view, DATUM)
    return place_of([(x - 2, y - 2), (x + 2, y - 2), (x + 2, y + 2), (x - 2, y + 2)])


def _beside(
    outline: Outline, subframe: Subframe, layout: FrameLayout, units: str
) -> list[Shape]:  # fmt: skip
    """Return the table at the sheet's right, and the details that stand under and beside it."""
    table, right = layout.table, layout.sheet.width_mm - INSET_MM
    shapes: list[Shape] = []
    if table.rows:
        shapes += ruled(table, table.rows, right - table_width(table), INSET_MM)
    for column in aside_columns(units, table, layout.beside):
        left = right - column.width_mm
        for each, y in column.details:
            shapes += framing_shapes(outline, subframe, each, left, INSET_MM + y)
        right = left - BETWEEN_MM
    return shapes


def _members(view: View, subframe: Subframe) -> list[Shape]:
    return [
        area(view, f"{member.kind}s", member.corners, PENS.get(member.kind, THIN_MM), fill="white")
        for member in subframe.members
    ]


def _facings(view: View, subframe: Subframe) -> list[Shape]:
    """Return the fascia: from its outer face so far inwards as it is thick."""
    shapes: list[Shape] = []
    for facing in subframe.facings:
        one, other = at(view, facing.start), at(view, facing.end)
        shapes.append(line_of("fascia", *_inner(view, one, other, subframe), THIN_MM))
    return shapes


def _inner(view: View, one: Point, other: Point, subframe: Subframe) -> tuple[Point, Point]:
    out = outward(way_of(one, other))
    thick = -subframe.facing_thickness_mm / view.per_mm
    return moved(one, out, thick), moved(other, out, thick)


def _seams(view: View, subframe: Subframe) -> list[Shape]:
    return [
        line_of("seams", at(view, seam.start), at(view, seam.end), OUTLINE_MM)
        for seam in subframe.seams
    ]


def _openings(view: View, outline: Outline, layout: FrameLayout) -> list[Shape]:
    """Return the holes, and what stands or lies in those that are not drawn enlarged."""
    marks = {each.opening.mark for each in layout.details}
    shapes: list[Shape] = []
    for opening in outline.openings:
        pen_mm = MEMBER_MM if opening.mark in marks else FINE_MM
        shapes.append(area(view, "openings", opening.corners, pen_mm, dash="2 1"))
        if opening.mark not in marks:
            shapes.append(area(view, "within", opening.within, THIN_MM, dash="3 1 1 1"))
    return shapes


def _texts(
    view: View, outline: Outline, subframe: Subframe, layout: FrameLayout, outside: list[Shape]
) -> list[Shape]:  # fmt: skip
    """Return every text of the figure: what matters most placed first, what needs leaders last."""
    taken = [*places_of(outside), *outline_places(view, outline)]
    crossing = [strip(view, each) for each in subframe.members if each.kind in CROSSING]
    others = [strip(view, each) for each in subframe.members if each.kind not in CROSSING]
    taken += crossing
    shapes: list[Shape] = _batten_marks(view, subframe, taken)
    shapes += opening_texts(view, outline, taken, keep_off=others,
                            short={each.opening.mark for each in layout.details})  # fmt: skip
    taken += [*others, *(place_of(all_at(view, each.opening.corners)) for each in layout.details)]
    taken += [line_place(at(view, seam.start), at(view, seam.end)) for seam in subframe.seams]
    parted = {member.mark.split(".")[0] for member in subframe.members if "." in member.mark}
    enlarged = {mark for each in layout.details for mark in each.own}
    unmarked: list[Member] = []
    # short ones first: long ones have more places for their marks
    for member in sorted(subframe.members, key=lambda each: each.length_mm):
        on_line = member.kind in ON_LINES and member.mark.split(".")[0] not in parted
        if on_line or member.mark in enlarged:
            continue
        found = first_clear(member_spots(view, member), taken)
        shapes += found
        # noggins that carry a zone's boards stand in rows, and rows are marked at the edge
        told = member.kind == "noggin" and member.side != ""
        unmarked += [] if found or told else [member]
    for facing in subframe.facings:
        shapes += _facing_mark(at(view, facing.start), at(view, facing.end), facing.mark, taken)
    for member in unmarked:
        texts = [shape for shape in (*outside, *shapes) if isinstance(shape, Lettering)]
        shapes += led_mark(view, member, taken, places_of(texts))
    return [*shapes, *datum_text(view, outline, taken)]


def _batten_marks(view: View, subframe: Subframe, taken: list[Place]) -> list[Shape]:
    """Return the marks of panels' battens, beside them; all keep off the battens themselves."""
    half = subframe.timber_thickness_mm / view.per_mm / 2 + KEEP_MM
    lines = [(each.mark, at(view, each.start), at(view, each.end)) for each in subframe.battens]
    taken += [line_place(one, other, half) for _, one, other in lines]
    shapes: list[Shape] = []
    for mark, one, other in lines:
        spots = beside_line(one, other, mark, off_mm=half, layer="batten-marks", shares=SHARES)
        found = first_clear([*spots, *upright_spots(one, other, spots[0], half)], taken)
        shapes += found or led("batten-marks", mark, (one, other), taken, places_of(shapes))
    return shapes


def _facing_mark(one: Point, other: Point, mark: str, taken: list[Place]) -> list[Shape]:
    """Return a fascia's mark outside of it."""
    rings = [
        beside_line(one, other, mark, off_mm=off, layer="fascia-marks", shares=shares)
        for shares in (SHARES, FINE_SHARES) for off in (0.5, 3.0, 5.0)
    ]  # fmt: skip
    return [*first_clear([spot for ring in rings for spot in ring[1::2]], taken)]
