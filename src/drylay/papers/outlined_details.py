"""Details of a deck on an outline, enlarged: splayed ends, and the edges of openings."""

from attrs import frozen

from drylay.laying.model import LaidPiece
from drylay.outline.model import Opening, Spot
from drylay.papers.lettering import fitted
from drylay.papers.model import (
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Box,
    Lettering,
    Shape,
    Sheet,
    View,
)
from drylay.papers.outlined_ends import in_axes, piece_ends, run_deg
from drylay.papers.outlined_marks import mark_spots
from drylay.papers.outlined_panels import DASH, batten_corners
from drylay.papers.outlined_text import clear_told
from drylay.papers.outlined_view import all_at, angle
from drylay.papers.placing import Place, first_clear
from drylay.papers.ruled import LINE_MM
from drylay.papers.sheets import INSET_MM, SLACK_RATIO, wrapped
from drylay.papers.windows import Window, cut, enlarged_told
from drylay.papers.wording import many, size
from drylay.plan.model import Plan

#: A detail's width and the height of its figure; its lines of text; air between details.
WIDE_MM, HIGH_MM, LINES, AIR_MM = 62.0, 27.0, 4, 4.0
PITCH_MM = HIGH_MM + LINES * LINE_MM + AIR_MM
#: So many details stand one under the other, drawn at most.
IN_COLUMN, MOST = 5, 10
BESIDE_MM = 6.0
#: Openings up to this size are shown whole, at a scale no larger than this.
SMALL_MM, LEAST = 300.0, 8
#: Scales of details, the first that shows all of it.
ENLARGED = {"metric": (2, 5, 10, 20, 25, 50, 100), "imperial": (4, 8, 12, 16, 24, 48, 96)}


@frozen(kw_only=True)
class Detail:
    """One part to draw enlarged: what is written, and the corners that must be seen.

    Its scale is no larger than 1 to `least`.
    """

    texts: tuple[str, ...]
    shown: tuple[Spot, ...]
    least: int = 1


def details_of(plan: Plan) -> list[Detail]:
    """Return what is drawn enlarged: ends off square, alike ones once, then openings."""
    return [*_ends(plan), *_openings(plan)][:MOST]


def details_size(plan: Plan) -> tuple[float, float]:
    """Return the width and height of paper that the details take at the sheet's right."""
    count = len(details_of(plan))
    columns = -(-count // IN_COLUMN)
    return columns * (WIDE_MM + BESIDE_MM), min(count, IN_COLUMN) * PITCH_MM


def detail_column(plan: Plan, sheet: Sheet) -> list[Shape]:
    """Return the details at the sheet's right, from the top."""
    shapes: list[Shape] = []
    details = details_of(plan)
    left = sheet.width_mm - INSET_MM - details_size(plan)[0] + BESIDE_MM
    for index, detail in enumerate(details):
        column, row = divmod(index, IN_COLUMN)
        x = left + column * (WIDE_MM + BESIDE_MM)
        y = INSET_MM + row * PITCH_MM
        shapes += _drawn(plan, detail, x, y)
    return shapes


def _ends(plan: Plan) -> list[Detail]:
    """Return one detail for every setting of the saw, those of most ends first."""
    alike: dict[str, list[tuple[LaidPiece, int]]] = {}
    laying = plan.laying
    for piece in laying.pieces if laying else ():
        ends = piece_ends(laying, piece) if laying and not piece.shaped else ()
        for index, end in enumerate(ends):
            if end.value_deg:
                alike.setdefault(angle(end.value_deg), []).append((piece, index))
    ranked = sorted(alike.values(), key=lambda found: -len(found))
    return [_end(plan, found) for found in ranked]


def _end(plan: Plan, found: list[tuple[LaidPiece, int]]) -> Detail:
    piece, index = found[0]
    tip = size(piece.length_mm, plan.units)
    end = piece_ends(plan.laying, piece)[index] if plan.laying else ""
    told = f"{piece.mark}, {end}; {tip} from tip to tip."
    ends = many(len(found), "end")
    return Detail(
        texts=(told, f"{ends} so far off square: see the cut list."),
        shown=_end_corners(plan, piece, index),
    )


def _end_corners(plan: Plan, piece: LaidPiece, index: int) -> tuple[Spot, ...]:
    """Return the two corners of a piece's end, farthest along its run or least."""
    if plan.laying is None:
        return piece.corners
    flat = in_axes(piece.corners, run_deg(plan.laying, piece))
    sign = 1.0 if index else -1.0
    order = sorted(range(len(flat)), key=lambda at: (-flat[at][0] * sign, at))
    return tuple(piece.corners[at] for at in order[:2])


def _openings(plan: Plan) -> list[Detail]:
    """Return one detail for every kind and clearance of openings."""
    alike: dict[tuple[str, float], list[Opening]] = {}
    for opening in plan.outline.openings if plan.outline else ():
        alike.setdefault((opening.kind, opening.clear_mm), []).append(opening)
    return [
        Detail(texts=(clear_told(found, plan.units),), shown=_opening_shown(found[0]), least=LEAST)
        for found in alike.values()
    ]


def _opening_shown(opening: Opening) -> tuple[Spot, ...]:
    """Return a whole opening where it is small, else a corner of it."""
    along = [spot.along_mm for spot in opening.corners]
    across = [spot.across_mm for spot in opening.corners]
    small = max(max(along) - min(along), max(across) - min(across)) <= SMALL_MM
    return opening.corners if small else opening.corners[:1]


def _drawn(plan: Plan, detail: Detail, x: float, y: float) -> list[Shape]:
    """Return a detail: its frame, what lies in it cut off at the frame, its texts below."""
    view = _enlarged(plan, detail, x, y)
    window = (x, y, x + WIDE_MM, y + HIGH_MM)
    frame = Box(layer="detail-frames", x_mm=x, y_mm=y, width_mm=WIDE_MM, height_mm=HIGH_MM,
                pen_mm=MEMBER_MM, fill="white")  # fmt: skip
    shapes: list[Shape] = [frame, *_inside(plan, view, window)]
    lines = [line for text in (*detail.texts, enlarged_told(view.per_mm, plan.units))
             for line in wrapped(text, LETTER_MM, WIDE_MM * SLACK_RATIO)]  # fmt: skip
    if len(lines) > LINES:
        last = fitted(f"{lines[LINES - 2]} ...", LETTER_MM, WIDE_MM * SLACK_RATIO)
        lines = [*lines[: LINES - 2], last, lines[-1]]
    return [*shapes, *(
        Lettering(layer="details", x_mm=x, y_mm=y + HIGH_MM + LINE_MM * (n + 0.6), text=line,
                  anchor="start")
        for n, line in enumerate(lines)
    )]  # fmt: skip


def _enlarged(plan: Plan, detail: Detail, x: float, y: float) -> View:
    """Return the view that shows a detail in the middle, and some way about it."""
    along = [spot.along_mm for spot in detail.shown]
    across = [spot.across_mm for spot in detail.shown]
    margin = plan.laying.board_width_mm / 3 if plan.laying else 50.0
    wide, high = max(along) - min(along) + 2 * margin, max(across) - min(across) + 2 * margin
    scales = ENLARGED[plan.units]
    per_mm = next((per for per in scales
                   if per >= detail.least and wide <= WIDE_MM * per and high <= HIGH_MM * per),
                  scales[-1])  # fmt: skip
    return View(left_mm=x + WIDE_MM / 2 - (max(along) + min(along)) / 2 / per_mm,
                top_mm=y + HIGH_MM / 2 - (max(across) + min(across)) / 2 / per_mm,
                per_mm=float(per_mm), run="along")  # fmt: skip


def _inside(plan: Plan, view: View, window: Window) -> list[Shape]:
    """Return what of boards, openings and sides lies in a window, boards with their marks."""
    boards: list[Shape] = []
    marks: list[Shape] = []
    taken: list[Place] = []
    for piece in plan.laying.pieces if plan.laying else ():
        for part in cut("detail-pieces", all_at(view, piece.corners), window, THIN_MM, "white"):
            boards.append(part)
            marks += first_clear(mark_spots("detail-marks", part.corners_mm, piece.mark), taken)
    over: list[Shape] = []
    for mark, part in _battens(plan, view, window):
        over.append(part)
        marks += first_clear(mark_spots("detail-marks", part.corners_mm, mark), taken)
    for opening in plan.outline.openings if plan.outline else ():
        fill = "none" if opening.kind == "hatch" else "white"
        over += cut("detail-openings", all_at(view, opening.corners), window, OUTLINE_MM, fill)
        within = all_at(view, opening.within)
        over += cut("detail-within", within, window, MEMBER_MM, "none", "3 1 1 1")
    if plan.outline is not None:
        cover = all_at(view, [side.start for side in plan.outline.sides])
        over += cut("detail-cover", cover, window, OUTLINE_MM, "none")
    return [*boards, *over, *marks]


def _battens(plan: Plan, view: View, window: Window) -> list[tuple[str, Area]]:
    """Return what of panels' battens lies in a window, with their marks."""
    frame = plan.subframe
    return [
        (batten.mark, part)
        for batten in (frame.battens if frame else ())
        for corners in (batten_corners(view, batten, frame.timber_thickness_mm if frame else 0.0),)
        for part in cut("detail-battens", corners, window, MEMBER_MM, "none", DASH)
    ]
