"""Arrows of handed boards: what is drawn on a length before it is sawn, and how pieces lie then."""

from drylay.papers.figures import on_paper
from drylay.papers.model import THIN_MM, Line, Shape, View
from drylay.pieces.model import Piece
from drylay.plan.model import Plan

#: Written behind the mark of every handed length and piece.
SIGN = "\u2192"
#: An arrow's head on paper: how long it is, and half its width. The arrow itself, at most.
HEAD_MM, HALF_MM, LONG_MM = 1.6, 0.7, 8.0


def arrow_told(plan: Plan) -> str:
    """Return what the arrows of handed boards mean; "" where boards may be turned about."""
    pieces = plan.pieces
    arrows = arrows_of(plan)
    if not arrows:
        return ""
    which, border = "these boards", pieces.border if pieces else None
    if pieces is not None and border is not None and pieces.handed != border.handed:
        which = "the border's boards" if border.handed else "the field's boards"
    sides = dict.fromkeys(arrows.values())
    where = f"to the {next(iter(sides))}" if len(sides) == 1 else "as drawn"
    return (
        f"ARROWS: no piece of {which} may be turned end for end. Draw an arrow along "
        "every length of them before it is sawn, all the same way (with the lie of the pile where "
        "there is one). On the saw the arrow points away from the end sawn first; on the deck "
        f"every arrow points {where}."
    )


def arrows_of(plan: Plan) -> dict[str, str]:
    """Return the side of the cover that each handed piece's arrow points at, by mark."""
    pieces = plan.pieces.pieces if plan.pieces else ()
    found = {piece.mark: piece.arrow for piece in pieces if piece.arrow}
    laying = plan.laying
    return found | {
        piece.mark: points_to(piece.arrow_deg)
        for piece in (laying.pieces if laying else ())
        if piece.arrow_deg is not None
    }


def points_to(arrow_deg: float) -> str:
    """Return the side that an arrow points at: the nearest of right, garden, left and house."""
    return ("right", "garden", "left", "house")[round(arrow_deg / 90.0) % 4]


def with_arrow(mark: str, arrows: dict[str, str]) -> str:
    """Return a piece's mark, its arrow behind it where it is handed."""
    return f"{mark}{SIGN}" if mark in arrows else mark


def arrow(layer: str, tail: tuple[float, float], tip: tuple[float, float]) -> list[Shape]:
    """Return an arrow on paper, along the sheet or down it."""
    x2, y2 = tip
    flat = tail[0] != x2
    sides = [(x2 - HEAD_MM, y2 + side) if flat else (x2 + side, y2 - HEAD_MM)
             for side in (-HALF_MM, HALF_MM)]  # fmt: skip
    return [
        Line(layer=layer, x1_mm=x, y1_mm=y, x2_mm=x2, y2_mm=y2, pen_mm=THIN_MM)
        for x, y in (tail, *sides)
    ]


def piece_arrow(view: View, piece: Piece, near_mm: float) -> list[Shape]:
    """Return the arrow of a piece as it lies, in the first quarter of it; none where not handed."""
    if not piece.arrow:
        return []
    middle_mm = near_mm + piece.width_mm / 2
    long_mm = min(piece.length_mm / 4, LONG_MM * view.per_mm)
    start_mm = piece.start_mm + piece.length_mm / 4 - long_mm / 2
    ends = [on_paper(view, at, middle_mm) for at in (start_mm, start_mm + long_mm)]
    return arrow("arrows", ends[0], ends[1])
