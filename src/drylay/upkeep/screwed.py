"""What holds a piece where: screws place by place on a rectangle, clips between its rows.

A piece is screwed to every joist it lies on, to one joist of each pair that it passes over, and at
a joint on a batten to that (docs/conventions.md). On an outline a plan tells screws by their sum.
"""

from drylay.pieces.model import Piece
from drylay.plan.model import Plan
from drylay.upkeep.model import Top
from drylay.upkeep.plane import TOUCH_MM


def is_clipped(plan: Plan) -> bool:
    """Return whether clips hold the field's boards."""
    return plan.fixings is not None and plan.fixings.clips is not None


def screws_at(plan: Plan, top: Top, member: str) -> int | None:
    """Return how many screws hold a piece on one timber; None where the plan does not tell."""
    if plan.pieces is None:
        return None
    piece = _piece(plan, top.mark)
    if is_clipped(plan) and top.kind != "border":
        return _of_clipped(plan, piece, member)
    return _per_crossing(plan, top) if member in screwed_to(plan, piece) else 0


def screws_of(plan: Plan, top: Top) -> int | None:
    """Return how many screws hold a piece in all; None where the plan does not tell."""
    if plan.pieces is None:
        return None if plan.fixings and plan.fixings.deck_screws else 0
    piece = _piece(plan, top.mark)
    places = _held_on(plan, piece) if is_clipped(plan) else screwed_to(plan, piece)
    fixed = _fixed_at(plan, piece.mark)
    if fixed is not None and fixed not in places:
        places = (*places, fixed)
    return sum(screws_at(plan, top, member) or 0 for member in places)


def _piece(plan: Plan, mark: str) -> Piece:
    return next(piece for piece in plan.pieces.pieces if piece.mark == mark)  # type: ignore[union-attr]


def _per_crossing(plan: Plan, top: Top) -> int:
    fixings = plan.fixings
    if fixings is None or fixings.deck_screws is None:
        return 0
    screws = fixings.border_screws if top.kind == "border" else None
    return (screws or fixings.deck_screws).per_crossing


def screwed_to(plan: Plan, piece: Piece) -> tuple[str, ...]:
    """Return the joists and battens of a rectangle that a piece is screwed to, from the datum."""
    seams = {seam.right: seam.left for seam in (plan.supports.seams if plan.supports else ())}
    found: list[str] = []
    for mark in lain_on(plan, piece):
        if seams.get(mark) not in found:  # of a pair that it passes over it is screwed to one
            found.append(mark)
    ends = [end for end in (piece.from_joist, piece.to_joist) if end and end not in found]
    return (*found, *ends)


def _held_on(plan: Plan, piece: Piece) -> tuple[str, ...]:
    """Return where a piece that clips hold is held: both joists of a pair, and battens."""
    on = lain_on(plan, piece)
    return (*on, *(end for end in (piece.from_joist, piece.to_joist) if end and end not in on))


def lain_on(plan: Plan, piece: Piece) -> tuple[str, ...]:
    """Return the joists of a rectangle that a piece lies on, from the datum."""
    if plan.frame is None:
        return ()
    half = plan.frame.timber_thickness_mm / 2 - TOUCH_MM
    end_mm = piece.start_mm + piece.length_mm
    return tuple(
        joist.mark
        for joist in sorted(plan.frame.joists, key=lambda its: its.offset_mm)
        if piece.start_mm < joist.offset_mm + half and end_mm > joist.offset_mm - half
    )


def _last_row(plan: Plan) -> str:
    rows = [row.mark for row in plan.surface.rows if not row.border] if plan.surface else []
    return rows[-1] if rows else ""


def _of_clipped(plan: Plan, piece: Piece, member: str) -> int:
    """Return screws of a piece that clips hold: the last row's, and each fixed point's one."""
    fixings = plan.fixings
    per = fixings.deck_screws.per_crossing if fixings and fixings.deck_screws else 0
    if piece.row == _last_row(plan) and member in _held_on(plan, piece):
        return per
    return 1 if member == _fixed_at(plan, piece.mark) else 0


def _fixed_at(plan: Plan, mark: str) -> str | None:
    clips = plan.fixings.clips if plan.fixings else None
    points = clips.fixed_points if clips else ()
    return next((point.joist for point in points if point.piece == mark), None)


def clipped_at(plan: Plan, top: Top, member: str) -> bool:
    """Return whether a clip holds a piece on this timber, on either side of it."""
    if not is_clipped(plan) or top.kind != "field":
        return False
    if plan.pieces is None:
        return True
    return member in lain_on(plan, _piece(plan, top.mark))
