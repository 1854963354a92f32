"""The boards in plan: every row with its edges, joints on their joists, gaps to scale."""

from itertools import groupby

from drylay.papers.arrows import arrow_told, piece_arrow
from drylay.papers.border_text import edge_told
from drylay.papers.dimensions import all_edges
from drylay.papers.fall_text import fall_note
from drylay.papers.figures import LEAST_MM, block, house_side, on_paper, placed, upright
from drylay.papers.fixed_points import NOTE, fixed_shapes
from drylay.papers.hatching import hatch
from drylay.papers.joints_text import ends_apart
from drylay.papers.lettering import Bounds, bounds, first_free
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
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
from drylay.papers.support_text import joint_told
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many, marks_told
from drylay.pieces.model import Joint, Pieces
from drylay.plan.model import Plan
from drylay.supports.model import Supports
from drylay.surface.model import Row, Surface

HIDDEN = "2 1"
#: How far apart the lines are that hatch a border's rows.
HATCH_MM = 3.0
#: So many groups of equal rows are told in the notes; beyond that the edges must do.
MOST_GROUPS = 12


def boards_svg(plan: Plan) -> bytes:
    """Return the drawing of a plan's boards; b"" where the plan has none."""
    surface, supports, pieces = plan.surface, plan.supports, plan.pieces
    if surface is None or supports is None or pieces is None:
        return b""
    around = board_edges(surface, supports, plan.units)
    size_mm = upright(surface.run, surface.row_length_mm, surface.rows_depth_mm)
    pitch_mm = min(supports.centres_mm, surface.board_width_mm)
    sheet, view = placed(surface.run, size_mm, around, units=plan.units, pitch_mm=pitch_mm)
    extent = (size_mm[0] / view.per_mm, size_mm[1] / view.per_mm)
    outside = [*all_edges(around, view, extent), *house_side(view, extent)]
    joints = _joints(view, surface, pieces, [*_around_rings(view, plan), *_texts(outside)])
    shapes = [
        *_rows(view, surface),
        *_joist_lines(view, surface, supports),
        *outside,
        *joints,
        *_arrows(view, surface, pieces),
        *fixed_shapes(view, plan),
        *_lights(view, plan, [*outside, *joints]),
        *title_block(sheet, title=plan.title, drawing="Boards, seen from above",
                     units=plan.units,
                     notes=(*_notes(surface, supports, pieces, plan.units), *_lights_told(plan),
                            *((NOTE,) if plan.fixings and plan.fixings.clips else ()),
                            *fall_note(surface, plan.units),
                            *((arrow_told(plan),) if arrow_told(plan) else ()))),
    ]  # fmt: skip
    rows = many(len(surface.rows), "row")
    told = (
        f"The boards of {clean(plan.title)} in plan: {rows}, {many(len(pieces.joints), 'joint')}."
    )
    title = f"Boards of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="boards", title=title, told=told)


def board_edges(surface: Surface, supports: Supports, units: str) -> dict[str, Edge]:
    """Return what stands outside each edge: rows with both edges, joists, the cover's sizes."""
    rows = Edge(marks=tuple(_row_mark(row, units) for row in surface.rows))
    joists = Edge(
        marks=tuple(
            Mark(at_mm=line.offset_mm, text=f"J{index + 1}: {bare(line.offset_mm, units)}")
            for index, line in enumerate(supports.lines)
        )
    )
    length, depth = surface.row_length_mm, surface.rows_depth_mm
    lengths = Edge(spans=(Span(from_mm=0.0, to_mm=length, text=f"cover {bare(length, units)}"),))
    depths = Edge(spans=(Span(from_mm=0.0, to_mm=depth, text=f"cover {bare(depth, units)}"),))
    if surface.run == "along":
        return {"left": rows, "bottom": joists, "top": lengths, "right": depths}
    return {"bottom": rows, "right": joists, "left": lengths, "top": depths}


def _row_mark(row: Row, units: str) -> Mark:
    far_mm = row.near_mm + row.width_mm
    text = f"{row.mark}: {bare(row.near_mm, units)} to {bare(far_mm, units)}"
    more = ", ripped" if row.ripped else ", border" if row.border else ""
    return Mark(at_mm=row.near_mm + row.width_mm / 2, text=f"{text}{more}")


def _rows(view: View, surface: Surface) -> list[Shape]:
    size_mm = (surface.row_length_mm, surface.rows_depth_mm)
    cover = block(view, "cover", (0.0, 0.0), size_mm, MEMBER_MM)
    shapes: list[Shape] = [cover]
    for row in surface.rows:
        size_mm = (surface.row_length_mm, row.width_mm)
        if not row.border:
            shapes.append(block(view, "rows", (0.0, row.near_mm), size_mm, FINE_MM))
            continue
        edge = block(view, "border-rows", (0.0, row.near_mm), size_mm, FINE_MM)
        shapes += [edge, *hatch(edge, HATCH_MM)]
    return shapes


def _joist_lines(view: View, surface: Surface, supports: Supports) -> list[Shape]:
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


def _texts(shapes: list[Shape]) -> list[Bounds]:
    return [bounds(shape) for shape in shapes if isinstance(shape, Lettering)]


def _around_rings(view: View, plan: Plan) -> list[Bounds]:
    """Return the place that each light's ring takes."""
    lighting = plan.work.lighting if plan.work else None
    places: list[Bounds] = []
    for light in lighting.lights if lighting else ():
        x, y = on_paper(view, light.along_mm, light.across_mm)
        radius = lighting.hole_mm / 2 / view.per_mm if lighting else 0.0
        places.append((x - radius, y - radius, x + radius, y + radius))
    return places


def _joints(view: View, surface: Surface, pieces: Pieces, taken: list[Bounds]) -> list[Shape]:
    """Return a bold tick across the row for every joint, with its joist's mark where it fits."""
    rows = {row.mark: row for row in surface.rows}
    shapes: list[Shape] = []
    for joint in pieces.joints:
        if joint.row in rows:
            shapes += _joint(view, joint, rows[joint.row], surface.row_length_mm, taken)
    return shapes


def _joint(
    view: View, joint: Joint, row: Row, length_mm: float, taken: list[Bounds]
) -> list[Shape]:
    one = on_paper(view, joint.centre_mm, row.near_mm)
    other = on_paper(view, joint.centre_mm, row.near_mm + row.width_mm)
    tick = Line(layer="joints", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                pen_mm=OUTLINE_MM)  # fmt: skip
    if row.width_mm / view.per_mm < LEAST_MM:
        return [tick]
    x, y = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
    turned = view.run == "across"
    spots = [
        Lettering(layer="joints", x_mm=x + (0.0 if turned else aside),
                  y_mm=y + (aside if turned else 0.0), text=joint_told(joint), turned=turned,
                  knocked=True, anchor=anchor)
        for aside, anchor in ((1.0, "end" if turned else "start"),
                              (-1.0, "start" if turned else "end"))
    ]  # fmt: skip
    ends = on_paper(view, 0.0, 0.0), on_paper(view, length_mm, row.near_mm)
    inside = [spot for spot in spots if _between_ends(ends, bounds(spot), turned=turned)]
    return [tick, *first_free(inside, taken)]


def _between_ends(
    ends: tuple[tuple[float, float], tuple[float, float]], place: Bounds, *, turned: bool
) -> bool:
    """Whether a text lies between the two ends of its row."""
    (left, top), (right, bottom) = ends
    low, high = (place[1], place[3]) if turned else (place[0], place[2])
    return (top if turned else left) <= low and high <= (bottom if turned else right)


def _arrows(view: View, surface: Surface, pieces: Pieces) -> list[Shape]:
    """Return the arrow of every handed piece."""
    near = {row.mark: row.near_mm for row in surface.rows}
    return [
        shape
        for piece in pieces.pieces if piece.row in near
        for shape in piece_arrow(view, piece, near[piece.row])
    ]  # fmt: skip


def _lights(view: View, plan: Plan, outside: list[Shape]) -> list[Shape]:
    """Return a ring for every light's hole, with its mark where it fits."""
    lighting, taken = plan.work.lighting if plan.work else None, _texts(outside)
    shapes: list[Shape] = []
    for light in lighting.lights if lighting else ():
        x, y = on_paper(view, light.along_mm, light.across_mm)
        radius = lighting.hole_mm / 2 / view.per_mm if lighting else 0.0
        shapes.append(Ring(layer="lights", x_mm=x, y_mm=y, radius_mm=radius, pen_mm=OUTLINE_MM))
        aside = radius + 1.0
        spots = [Lettering(layer="lights", x_mm=x + aside, y_mm=y, text=light.mark, knocked=True,
                           anchor="start")]  # fmt: skip
        shapes += first_free(spots, taken)
    return shapes


def _lights_told(plan: Plan) -> tuple[str, ...]:
    lighting, units = plan.work.lighting if plan.work else None, plan.units
    if lighting is None:
        return ()
    places = ", ".join(f"{one.mark}: {bare(one.along_mm, units)}" for one in lighting.lights)
    rows = marks_told(sorted({light.row for light in lighting.lights}))
    return (
        f"Lights (rings), holes of {bare(lighting.hole_mm, units)}, in the middle of {rows}, from "
        f"the datum end: {places}.",
    )


def _notes(surface: Surface, supports: Supports, pieces: Pieces, units: str) -> tuple[str, ...]:
    wide, thick = bare(surface.board_width_mm, units), bare(surface.board_thickness_mm, units)
    edge = edge_told(surface, units, "hatched, ")
    notes = [
        f"Board {clean(surface.board_article, 40)}, {wide} x {thick}{edge}. "
        "Each row: near edge to far edge, from the datum corner.",
        _grouped("Gap before", [(row.mark, bare(row.gap_mm, units)) for row in surface.rows[1:]]),
    ]
    if any(row.ripped for row in surface.rows):
        widths = [(row.mark, bare(row.width_mm, units)) for row in surface.rows]
        notes.append(_grouped("Width of", widths))
    if pieces.trim_allowance_mm:
        over = bare(pieces.trim_allowance_mm, units)
        notes.append(
            f"Outer pieces are sawn {over} long at the deck's edge: lay them over it, then saw "
            "each edge in one line."
        )
    if pieces.joints:
        notes.append(
            f"Joints (bold ticks) are centred on {_named(supports)}, board ends "
            f"{ends_apart(pieces, units)}. Joists dashed. Pieces of row B1 are B1.1, "
            "B1.2 ... from the datum end."
        )
    return tuple(notes)


def _named(supports: Supports) -> str:
    """Return what joints are centred on, in as few words as a drawing's foot has room for."""
    if supports.seams:
        return "the pair named"
    if supports.battens_per_joint:
        return "the joist's face, at its batten"
    return "the joist named"


def _grouped(what: str, pairs: list[tuple[str, str]]) -> str:
    """Return equal neighbours told once: "Gap before B2 to B19: 5, B20: 6.5."."""
    groups = [
        (value, tuple(mark for mark, _ in group))
        for value, group in groupby(pairs, key=lambda pair: pair[1])
    ]
    if not groups or len(groups) > MOST_GROUPS:
        return f"{what} each row: see its edges and its neighbour's." if groups else ""
    return f"{what} " + ", ".join(f"{marks_told(m)}: {value}" for value, m in groups) + "."
