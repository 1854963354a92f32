"""The boards on an outline in plan: every piece as it lies, its mark, joints, mitres, openings."""

from drylay.laying.model import LaidPiece, Laying
from drylay.outline.model import Outline
from drylay.papers.lettering import Point, quad
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Lettering,
    Shape,
    View,
)
from drylay.papers.outlined_details import detail_column, details_size
from drylay.papers.outlined_ends import in_axes, run_deg
from drylay.papers.outlined_marks import leader, mark_spots, opening_texts
from drylay.papers.outlined_panels import batten_areas
from drylay.papers.outlined_text import boards_notes
from drylay.papers.outlined_view import (
    all_at,
    area,
    around,
    at,
    corner_angles,
    datum_text,
    datum_view,
    fitted_view,
    line_of,
    moved,
    outline_places,
    overall,
    room_for,
    side_dimensions,
    sides_drawn,
    way_of,
)
from drylay.papers.placing import (
    Place,
    beyond,
    first_clear,
    first_led,
    place_of,
    places_of,
    put,
    sloped,
)
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import clean, many
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe

HIDDEN = "2 1"
#: Pieces that are drawn thicker than those of a field.
EDGING = ("border", "breaker")
#: How far outside the deck a row's number may stand, and from where it has a leader.
FARTHEST_MM, LEADER_MM = 16.0, 3.0


def outlined_boards_svg(plan: Plan) -> bytes:
    """Return the drawing of boards on an outline; b"" where the plan has none."""
    outline, laying, subframe = plan.outline, plan.laying, plan.subframe
    if outline is None or laying is None or subframe is None:
        return b""
    edges = {side: room_for(3) for side in ("left", "right", "top", "bottom")}
    sheet, corner = fitted_view(outline, edges, units=plan.units, pitch_mm=laying.board_width_mm,
                                aside_mm=details_size(plan))  # fmt: skip
    view = datum_view(outline, corner)
    fixed = [*_pieces(view, laying), *_members(view, subframe), *_openings(view, outline),
             *_joints(view, laying), *_mitres(view, laying),
             *sides_drawn(view, outline)]  # fmt: skip
    shapes = [
        *fixed,
        *_texts(view, outline, laying, plan.units),
        *detail_column(plan, sheet),
        *title_block(sheet, title=plan.title, drawing="Boards, seen from above",
                     units=plan.units, notes=boards_notes(plan)),
    ]  # fmt: skip
    told = (
        f"The boards of {clean(plan.title)} in plan: {many(len(laying.pieces), 'piece')} in "
        f"{many(len(laying.rows), 'row')}, {many(len(laying.joints), 'joint')}."
    )
    title = f"Boards of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="boards", title=title, told=told)


def _texts(view: View, outline: Outline, laying: Laying, units: str) -> list[Shape]:
    """Return every text of the figure, what matters most placed first."""
    taken: list[Place] = outline_places(view, outline)
    shapes: list[Shape] = [*side_dimensions(view, outline, units, taken)]
    whole = overall(view, outline, units)
    taken += [place_of(quad(text)) for text in whole if isinstance(text, Lettering)]
    shapes += [*whole, *opening_texts(view, outline, taken, beside=("hatch",))]
    shapes += corner_angles(view, outline, taken)
    shapes += _row_numbers(view, outline, laying, taken)
    shapes += _mitre_texts(view, laying, taken)
    shapes += _piece_marks(view, outline, laying, taken, shapes)
    return [*shapes, *_joint_texts(view, laying, taken), *datum_text(view, outline, taken)]


def _pieces(view: View, laying: Laying) -> list[Shape]:
    return [
        area(view, "pieces" if piece.kind == "field" else f"{piece.kind}-pieces", piece.corners,
             MEMBER_MM if piece.kind in EDGING else THIN_MM, fill="white")
        for piece in laying.pieces
    ]  # fmt: skip


def _members(view: View, subframe: Subframe) -> list[Shape]:
    """Return what lies under the boards as hidden lines."""
    joists = [
        area(view, "joists", member.corners, FINE_MM, dash=HIDDEN)
        for member in subframe.members if member.kind != "splice"
    ]  # fmt: skip
    return [*joists, *batten_areas(view, subframe, "battens", FINE_MM)]


def _openings(view: View, outline: Outline) -> list[Shape]:
    shapes: list[Shape] = []
    for opening in outline.openings:
        if opening.kind != "hatch":
            shapes.append(area(view, "openings", opening.corners, OUTLINE_MM, fill="white"))
        else:
            shapes.append(area(view, "openings", opening.corners, OUTLINE_MM))
        shapes.append(area(view, "within", opening.within, THIN_MM, dash="3 1 1 1"))
    return shapes


def _across(laying: Laying, row_mark: str) -> tuple[Point, float] | None:
    """Return the way across a row, and its width."""
    for row in laying.rows:
        if row.mark == row_mark:
            way = way_of((row.start.along_mm, row.start.across_mm),
                         (row.end.along_mm, row.end.across_mm))  # fmt: skip
            return (-way[1], way[0]), row.width_mm
    return None


def _joints(view: View, laying: Laying) -> list[Shape]:
    """Return a bold tick across the row for every joint."""
    shapes: list[Shape] = []
    for joint in laying.joints:
        found = _across(laying, joint.row)
        if found is not None:
            way, width_mm = found
            half = width_mm / view.per_mm / 2
            point = at(view, joint.at)
            shapes.append(line_of("joints", moved(point, way, -half), moved(point, way, half),
                                  OUTLINE_MM))  # fmt: skip
    return shapes


def _joint_texts(view: View, laying: Laying, taken: list[Place]) -> list[Shape]:
    """Return the member under every joint, where that fits beside its tick."""
    shapes: list[Shape] = []
    for joint in laying.joints:
        found = _across(laying, joint.row)
        if found is None:
            continue
        (x, y), _ = found
        run, point = (y, -x), at(view, joint.at)
        spots = [
            sloped(Lettering(layer="joints", x_mm=0.0, y_mm=0.0, text=joint.member, knocked=True),
                   (0.0, 0.0), run)
        ]  # fmt: skip
        half = (quad(spots[0])[1][0] - quad(spots[0])[0][0]) / 2 + 1.0
        spots = [
            put(spots[0], moved(point, run, side * max(half, 3.0))) for side in (1.0, -1.0)
        ]  # fmt: skip
        shapes += first_clear(spots, taken)
    return shapes


def _mitres(view: View, laying: Laying) -> list[Shape]:
    return [
        line_of("mitres", at(view, mitre.start), at(view, mitre.end), OUTLINE_MM)
        for mitre in laying.mitres
    ]


def _mitre_texts(view: View, laying: Laying, taken: list[Place]) -> list[Shape]:
    """Return the mark of every mitre, inside of its inner end or near it."""
    shapes: list[Shape] = []
    for mitre in laying.mitres:
        one, other = at(view, mitre.start), at(view, mitre.end)
        inwards = way_of(one, other)
        text = Lettering(layer="mitres", x_mm=other[0], y_mm=other[1], text=mitre.mark,
                         knocked=True)  # fmt: skip
        spots = [put(text, moved(other, inwards, by)) for by in (2.8, 4.0, 5.5, 7.0)]
        shapes += first_clear([*spots, *around(text, steps=3)], taken)
    return shapes


def _row_numbers(
    view: View, outline: Outline, laying: Laying, taken: list[Place]
) -> list[Shape]:  # fmt: skip
    """Return the rows' numbers outside the deck, at whichever end of a row there is room."""
    deck = all_at(view, [side.start for side in outline.sides])
    shapes: list[Shape] = []
    for row in laying.rows:
        pieces = [piece for piece in laying.pieces if piece.row == row.mark]
        if pieces:
            shapes += _row_number(row.mark, _row_ends(view, laying, pieces), deck, taken)
    return shapes


def _row_number(
    mark: str, ends: list[tuple[Point, Point]], deck: tuple[Point, ...], taken: list[Place]
) -> list[Shape]:
    """Return a row's number straight beyond one of its ends, else anywhere near its start."""
    straight = [
        (point, spot)
        for point, way in ends
        for by in (step * 0.8 for step in range(1, int(FARTHEST_MM / 0.8)))
        for spot in _outside(mark, moved(point, way, by), way)
    ]
    near = [(point, spot) for point, way in ends
            for spot in around(_outside(mark, point, way)[0], steps=8)]  # fmt: skip
    for point, spot in (*straight, *near):
        if beyond(spot, deck) and first_clear([spot], taken):
            return [spot, leader("row-numbers", point, spot)]
    return []


def _outside(text: str, point: Point, way: Point) -> list[Lettering]:
    anchor = "middle" if abs(way[0]) < 0.5 else "start" if way[0] > 0 else "end"
    return [Lettering(layer="row-numbers", x_mm=point[0], y_mm=point[1], text=text, anchor=anchor)]


def _row_ends(view: View, laying: Laying, pieces: list[LaidPiece]) -> list[tuple[Point, Point]]:
    """Return the middles of a row's two outer ends on paper, each with the way out."""
    turn_deg = run_deg(laying, pieces[0])
    by_run = sorted(pieces, key=lambda piece: min(t for t, _ in in_axes(piece.corners, turn_deg)))
    first = _end(view, by_run[0], turn_deg, -1.0)
    last = _end(view, by_run[-1], turn_deg, 1.0)
    way = way_of(first, last)
    return [(first, (-way[0], -way[1])), (last, way)]


def _end(view: View, piece: LaidPiece, turn_deg: float, sign: float) -> Point:
    """Return the middle of a piece's end on paper: of its two corners farthest that way."""
    flat = in_axes(piece.corners, turn_deg)
    order = sorted(range(len(flat)), key=lambda index: (-flat[index][0] * sign, index))
    one, other = (at(view, piece.corners[index]) for index in order[:2])
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _piece_marks(
    view: View, outline: Outline, laying: Laying, taken: list[Place], before: list[Shape]
) -> list[Shape]:  # fmt: skip
    """Return every piece's mark: inside it where it fits, else beside the deck with a leader."""
    shapes: list[Shape] = []
    outside: list[LaidPiece] = []
    for piece in laying.pieces:
        corners = all_at(view, piece.corners)
        found = first_clear(mark_spots("marks", corners, piece.mark), taken)
        shapes += found
        if not found:
            outside.append(piece)
    deck = all_at(view, [side.start for side in outline.sides])
    texts = places_of(shape for shape in (*before, *shapes) if isinstance(shape, Lettering))
    for piece in outside:
        corners = all_at(view, piece.corners)
        x = sum(px for px, _ in corners) / len(corners)
        y = sum(py for _, py in corners) / len(corners)
        text = Lettering(layer="marks", x_mm=x, y_mm=y, text=piece.mark, knocked=True)
        spots = around(text, steps=16)
        best = [*(spot for spot in spots if beyond(spot, deck)), *spots]
        found = first_led(best, (x, y), taken, texts) or first_clear(best, taken)
        shapes += [*(leader("marks", (x, y), text) for text in found), *found]
        texts += [place_of(quad(text)) for text in found]
    return shapes
