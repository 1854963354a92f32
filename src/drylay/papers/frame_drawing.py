"""The frame in plan: members with marks, joists as running dimensions, diagonals, fascia."""

from itertools import pairwise

from drylay.edges.model import Edges, FasciaFace
from drylay.frame.model import Frame, Noggin
from drylay.papers.dimensions import all_edges
from drylay.papers.fall_text import fall_note
from drylay.papers.figures import block, house_side, on_paper, placed, upright
from drylay.papers.hung import bearers_between, carrying, joist_stretches
from drylay.papers.lettering import Bounds, bounds, first_free, width_mm
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Edge,
    Lettering,
    Line,
    Mark,
    Shape,
    Span,
    View,
)
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import RIM_SIDES, bare, clean, marks_told, size
from drylay.plan.model import Plan
from drylay.surface.model import Surface

DASH = "4 1.5"


def frame_svg(plan: Plan) -> bytes:
    """Return the drawing of a plan's frame; b"" where the plan has none."""
    surface, edges, frame = plan.surface, plan.edges, plan.frame
    if surface is None or edges is None or frame is None:
        return b""
    around = frame_edges(surface, edges, frame, plan.units)
    size_mm = upright(surface.run, surface.row_length_mm, surface.rows_depth_mm)
    bay_mm = plan.supports.centres_mm if plan.supports else size_mm[0]
    pitch_mm = min(bay_mm, surface.board_width_mm)
    sheet, view = placed(surface.run, size_mm, around, units=plan.units, pitch_mm=pitch_mm)
    extent = (size_mm[0] / view.per_mm, size_mm[1] / view.per_mm)
    outside = [*all_edges(around, view, extent), *house_side(view, extent)]
    shapes = [
        *_members(view, surface, edges, frame),
        *outside,
        *_inside(view, edges, frame, plan.units, outside),
        *title_block(sheet, title=plan.title, drawing="Frame, seen from above",
                     units=plan.units,
                     notes=(*_notes(frame, edges, plan.units), *_joint_notes(plan, frame),
                            *fall_note(surface, plan.units))),
    ]  # fmt: skip
    held = "bearers, hung" if frame.hung else "two rims"
    told = f"The frame of {clean(plan.title)} in plan: {len(frame.joists)} joists between {held}."
    title = f"Frame of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="frame", title=title, told=told)


def frame_edges(surface: Surface, edges: Edges, frame: Frame, units: str) -> dict[str, Edge]:
    """Return what stands outside each edge: joists and members running, sizes end to end."""
    joists = Edge(
        marks=tuple(
            Mark(at_mm=joist.offset_mm, text=f"{joist.mark}: {bare(joist.offset_mm, units)}")
            for joist in frame.joists
        )
    )
    members = Edge(marks=_member_marks(frame, edges, units))
    length = (edges.frame_start_mm, edges.frame_length_mm, surface.row_length_mm)
    depth = (edges.frame_near_mm, edges.frame_depth_mm, surface.rows_depth_mm)
    lengths, depths = Edge(spans=_sizes(length, units)), Edge(spans=_sizes(depth, units))
    if surface.run == "along":
        return {"bottom": joists, "left": members, "top": lengths, "right": depths}
    return {"right": joists, "bottom": members, "left": lengths, "top": depths}


def _sizes(sizes: tuple[float, float, float], units: str) -> tuple[Span, ...]:
    start_mm, frame_mm, cover_mm = sizes
    frame = Span(from_mm=start_mm, to_mm=start_mm + frame_mm, text=f"frame {bare(frame_mm, units)}")
    cover = Span(from_mm=0.0, to_mm=cover_mm, text=f"cover {bare(cover_mm, units)}")
    return frame, cover


def _member_marks(frame: Frame, edges: Edges, units: str) -> tuple[Mark, ...]:
    """Return the near faces of rims, or bearers, and the noggins' centres, from the datum."""
    between = bearers_between(frame, edges)
    marks = [(near_mm, f"{mark} face") for mark, near_mm, _ in between]
    borne = {mark for mark, *_ in between}
    marks += [(rim.near_mm, f"{rim.mark} face") for rim in frame.rims if rim.mark not in borne]
    for row in () if frame.battens else _noggin_rows(frame):
        first, *other = dict.fromkeys(noggin.across_mm for noggin in row)
        marks.append((first, marks_told([noggin.mark for noggin in row])))
        marks += [(across, "and in turn") for across in other]
    marks += _noggins_apart(frame) if frame.battens else []
    return tuple(Mark(at_mm=at, text=f"{text}: {bare(at, units)}") for at, text in sorted(marks))


def _noggins_apart(frame: Frame) -> list[tuple[float, str]]:
    """Return the noggins place by place: battens have moved some off their row's line."""
    at: dict[float, list[str]] = {}
    for noggin in frame.noggins:
        at.setdefault(noggin.across_mm, []).append(noggin.mark)
    return [(across, marks_told(marks)) for across, marks in at.items()]


def _noggin_rows(frame: Frame) -> list[list[Noggin]]:
    """Return the noggins row by row: a new row begins at the first bay."""
    rows: list[list[Noggin]] = []
    for noggin in frame.noggins:
        if not rows or noggin.left == rows[-1][0].left:
            rows.append([])
        rows[-1].append(noggin)
    return rows


def _members(view: View, surface: Surface, edges: Edges, frame: Frame) -> list[Shape]:
    thick = frame.timber_thickness_mm
    size_mm = (surface.row_length_mm, surface.rows_depth_mm)
    cover = block(view, "cover", (0.0, 0.0), size_mm, THIN_MM)
    shapes: list[Shape] = [cover]
    shapes += [_fascia(view, surface, edges, face) for face in edges.faces]
    shapes += [
        block(view, "joists", (joist.offset_mm - thick / 2, near_mm), (thick, long_mm), MEMBER_MM)
        for joist in frame.joists
        for near_mm, long_mm in joist_stretches(joist)
    ]
    shapes += [*_noggins(view, frame), *_splices(view, frame), *_battens(view, frame)]
    shapes += [
        block(view, "rims", (piece.start_mm, rim.near_mm), (piece.length_mm, thick), OUTLINE_MM)
        for rim in frame.rims for piece in rim.pieces
    ]  # fmt: skip
    return [*shapes, *_bearers(view, edges, frame), *_diagonals(view, edges)]


def _bearers(view: View, edges: Edges, frame: Frame) -> list[Box]:
    """Return the bearers that joists hang between."""
    return [
        block(view, "bearers", (edges.frame_start_mm, near_mm),
              (edges.frame_length_mm, far_mm - near_mm), OUTLINE_MM)
        for _, near_mm, far_mm in bearers_between(frame, edges)
    ]  # fmt: skip


def _noggins(view: View, frame: Frame) -> list[Box]:
    thick = frame.timber_thickness_mm
    centres = {joist.mark: joist.offset_mm for joist in frame.joists}
    return [
        block(view, "noggins", (centres[noggin.left] + thick / 2, noggin.across_mm - thick / 2),
              (noggin.length_mm, thick), THIN_MM)
        for noggin in frame.noggins if noggin.left in centres
    ]  # fmt: skip


def _fascia(view: View, surface: Surface, edges: Edges, face: FasciaFace) -> Shape:
    """Return one face of fascia, from its side's outer edge inwards."""
    thick = edges.fascia_thickness_mm
    flanks = RIM_SIDES[surface.run]
    far = face.side in ("front", "right")
    if face.side in flanks:  # lies along the boards
        near = surface.rows_depth_mm - thick if far else 0.0
        start = 0.0 if face.long_face else edges.frame_start_mm
        return block(view, "fascia", (start, near), (face.length_mm, thick), THIN_MM)
    start = surface.row_length_mm - thick if far else 0.0
    near = 0.0 if face.long_face else edges.frame_near_mm
    return block(view, "fascia", (start, near), (thick, face.length_mm), THIN_MM)


def _splices(view: View, frame: Frame) -> list[Shape]:
    thick = frame.timber_thickness_mm
    faces = {rim.mark: rim.near_mm for rim in frame.rims}
    nearest = min(faces.values(), default=0.0)
    shapes: list[Shape] = []
    for splice in frame.splices:
        face = faces.get(splice.rim, nearest)
        near = face + thick if face == nearest else face - thick
        start = splice.offset_mm - splice.length_mm / 2
        shapes.append(block(view, "splices", (start, near), (splice.length_mm, thick), THIN_MM))
    return shapes


def _battens(view: View, frame: Frame) -> list[Box]:
    thick = frame.timber_thickness_mm
    return [
        block(view, "battens", (batten.offset_mm - thick / 2, batten.near_mm),
              (thick, batten.length_mm), THIN_MM)
        for batten in frame.battens
    ]  # fmt: skip


def _diagonals(view: View, edges: Edges) -> list[Shape]:
    start, near = edges.frame_start_mm, edges.frame_near_mm
    end, far = start + edges.frame_length_mm, near + edges.frame_depth_mm
    corners = (((start, near), (end, far)), ((start, far), (end, near)))
    return [
        Line(layer="diagonals", x1_mm=a[0], y1_mm=a[1], x2_mm=b[0], y2_mm=b[1], dash=DASH)
        for a, b in ((on_paper(view, *one), on_paper(view, *other)) for one, other in corners)
    ]


def _inside(
    view: View, edges: Edges, frame: Frame, units: str, outside: list[Shape]
) -> list[Shape]:
    """Return the texts inside the figure, each where it collides with no other."""
    taken = [bounds(shape) for shape in outside if isinstance(shape, Lettering)]
    crowded = [*taken, *_member_bounds(view, edges, frame)]
    diagonal = first_free(_diagonal_spots(view, edges, frame, units), crowded)
    taken += [bounds(text) for text in diagonal]
    shapes: list[Shape] = [*diagonal]
    for mark, start, near in _labels(view, frame):
        shapes += first_free(_spots(view, mark, start, near), taken)
    return [*shapes, *_noggin_labels(view, frame, taken), *_batten_labels(view, frame, taken)]


def _member_bounds(view: View, edges: Edges, frame: Frame) -> list[Bounds]:
    """Return the places of noggins, battens and bearers between, which no text is to hide."""
    boxes = [*_noggins(view, frame), *_battens(view, frame), *_bearers(view, edges, frame)]
    return [(b.x_mm, b.y_mm, b.x_mm + b.width_mm, b.y_mm + b.height_mm) for b in boxes]


def _diagonal_spots(view: View, edges: Edges, frame: Frame, units: str) -> list[Lettering]:
    """Return where the diagonals' length may stand: inside the frame, upright or turned."""
    diagonal = size(frame.diagonal_mm, units)
    middle = edges.frame_start_mm + edges.frame_length_mm / 2
    points = [
        on_paper(view, middle, edges.frame_near_mm + edges.frame_depth_mm * share)
        for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2)
    ]
    spots = [
        _text(text, *point, size_mm=3.0, turned=turned)
        for text in (f"both diagonals {diagonal}", f"diagonals {diagonal}")
        for turned in (False, True)
        for point in points
    ]
    corner = (edges.frame_start_mm, edges.frame_near_mm)
    whole = block(view, "", corner, (edges.frame_length_mm, edges.frame_depth_mm), THIN_MM)
    return [spot for spot in spots if _inside_of(whole, bounds(spot))]


def _inside_of(box: Box, place: Bounds) -> bool:
    right, bottom = box.x_mm + box.width_mm, box.y_mm + box.height_mm
    return box.x_mm < place[0] and box.y_mm < place[1] and place[2] < right and place[3] < bottom


def _labels(view: View, frame: Frame) -> list[tuple[str, float, float]]:
    """Return mark and place of rim pieces and splices, in a bay beside the rim."""
    nearest = min((rim.near_mm for rim in frame.rims), default=0.0)
    thick = frame.timber_thickness_mm
    labels = []
    for rim in frame.rims:
        inwards, face = (1, rim.near_mm + thick) if rim.near_mm == nearest else (-1, rim.near_mm)
        for piece in rim.pieces:
            start = _mid_bay(frame, piece.start_mm + piece.length_mm * 0.25)
            labels.append((piece.mark, start, face + inwards * _air(view, piece.mark)))
        for splice in (splice for splice in frame.splices if splice.rim == rim.mark):
            beside = face + inwards * (_air(view, splice.mark) + thick)
            labels.append((splice.mark, splice.offset_mm, beside))
    return labels


def _air(view: View, mark: str) -> float:
    """Return how far from a member the middle of its mark stands, in mm of deck."""
    half = width_mm(mark, LETTER_MM) if view.run == "across" else LETTER_MM
    return (1.0 + half / 2) * view.per_mm


def _mid_bay(frame: Frame, at_mm: float) -> float:
    """Return the middle of the bay that is nearest to a point along the rims."""
    centres = [joist.offset_mm for joist in frame.joists]
    middles = [(one + other) / 2 for one, other in pairwise(centres)]
    return min(middles, key=lambda middle: abs(middle - at_mm), default=at_mm)


def _spots(view: View, mark: str, start: float, near: float) -> list[Lettering]:
    x, y = on_paper(view, start, near)
    return [_text(mark, x + dx, y + dy) for dy in (0.0, 3.2, -3.2) for dx in (0.0, 6.0, -6.0)]


def _text(
    text: str, x: float, y: float, *, size_mm: float = LETTER_MM, turned: bool = False
) -> Lettering:
    return Lettering(layer="marks", x_mm=x, y_mm=y, text=text, size_mm=size_mm, turned=turned,
                     knocked=True)  # fmt: skip


def _noggin_labels(view: View, frame: Frame, taken: list[Bounds]) -> list[Shape]:
    """Return the noggins' marks beside them, where every one has the room."""
    centres = {joist.mark: joist.offset_mm for joist in frame.joists}
    texts: list[Shape] = []
    for noggin in frame.noggins:
        start = centres.get(noggin.left, 0.0) + (frame.timber_thickness_mm + noggin.length_mm) / 2
        x, y = on_paper(view, start, noggin.across_mm)
        wide = width_mm(noggin.mark, LETTER_MM)
        off = 2.0 + frame.timber_thickness_mm / view.per_mm / 2
        spots = [_text(noggin.mark, x, y + off), _text(noggin.mark, x, y - off)]
        if view.run == "across":
            spots = [
                _text(noggin.mark, x + off + wide / 2, y),
                _text(noggin.mark, x - off - wide / 2, y),
            ]
        texts += first_free(spots, taken)
    return texts


def _batten_labels(view: View, frame: Frame, taken: list[Bounds]) -> list[Shape]:
    """Return the battens' marks beside them, away from their joist, where there is room."""
    texts: list[Shape] = []
    half = frame.timber_thickness_mm / 2
    for batten in frame.battens:
        beside = batten.offset_mm + half
        x, y = on_paper(view, beside, batten.near_mm + batten.length_mm / 2)
        turned = view.run == "across"
        off = 1.0 + (LETTER_MM if turned else width_mm(batten.mark, LETTER_MM)) / 2
        texts += first_free([_text(batten.mark, x + (0.0 if turned else off),
                                   y + (off if turned else 0.0))], taken)  # fmt: skip
    return texts


def _joint_notes(plan: Plan, frame: Frame) -> tuple[str, ...]:
    """Return what joists of pairs, or battens, do for the joints of the boards."""
    seams = plan.supports.seams if plan.supports else ()
    told = ", ".join(f"{s.left} {s.right} at {bare(s.offset_mm, plan.units)}" for s in seams)
    notes = (f"Joists of pairs touch, their seam under the joints: {told}.",) if seams else ()
    if not frame.battens:
        return notes
    return (*notes, "Battens (Q1 ...): on edge against their joist's far face, a joint over both.")


def _notes(frame: Frame, edges: Edges, units: str) -> tuple[str, ...]:
    thick, deep = bare(frame.timber_thickness_mm, units), bare(frame.timber_depth_mm, units)
    notes = [
        f"Frame timber {clean(frame.timber_article, 40)}, {thick} x {deep}, on edge.",
        "Joists: centre from the datum corner. "
        + ("Bearers they hang between: near face." if frame.hung else "Rims: near face.")
        + (" Noggins: centre, turn about either side of their line." if frame.noggins else ""),
        f"Square when both diagonals are {size(frame.diagonal_mm, units)}.",
    ]
    if edges.frame_start_mm:
        less = bare(edges.frame_start_mm, units)
        notes.insert(
            2, f"On the {carrying(frame)}, counted from their own end: joists {less} less."
        )
    if edges.faces:
        thin = bare(edges.fascia_thickness_mm, units)
        sides = ", ".join(face.side for face in edges.faces)
        notes.append(f"Fascia {clean(edges.fascia_article, 40)}, {thin} thick: {sides}.")
    return tuple(notes)
