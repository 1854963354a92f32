"""A plan's purchases as the proof slip checks them: boards sawn, joints by row, proofs."""

from collections import Counter
from itertools import groupby

from drylay.buying.model import Purchase
from drylay.cutting.model import Cut, Line, ProvenOrder
from drylay.marks import exact
from drylay.plan.model import Plan

Rows = tuple[tuple[float, ...], ...]
#: What the purchase of the border's boards is called.
BORDER = "border boards"


def proven_orders(plan: Plan) -> tuple[ProvenOrder, ...]:
    """Return every purchase of a plan with what is bought, sawn and jointed, and its proof."""
    sizes = plan.sizes_mm()
    sets = {
        "boards": (_board_rows(plan, border=False),),
        BORDER: _border_sets(plan),
        "frame": (_rim_rows(plan),),
    }
    purchases = plan.buying.purchases if plan.buying else ()
    return tuple(
        ProvenOrder(
            name=purchase.what,
            proof=purchase.proof,
            cuts=_cuts(purchase, sizes),
            joints=_met(plan, purchase)
            or tuple(
                tuple(_stations(line, row) for row in rows)
                for line, rows in zip(
                    purchase.proof.task.lines, sets.get(purchase.what, ()), strict=False
                )
            ),
        )
        for purchase in purchases
    )


def _met(plan: Plan, purchase: Purchase) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return the stations that a plan tells itself: of boards on an outline."""
    return plan.laying.stations_met if plan.laying and purchase.what == "boards" else ()


def _board_rows(plan: Plan, *, border: bool) -> Rows:
    edged = {row.mark for row in (plan.surface.rows if plan.surface else ()) if row.border}
    pieces = plan.pieces.pieces if plan.pieces else ()
    by_row = groupby(pieces, key=lambda piece: piece.row)
    return tuple(
        tuple(piece.cut_mm for piece in row) for mark, row in by_row if (mark in edged) == border
    )


def _border_sets(plan: Plan) -> tuple[Rows, Rows]:
    """Return the border's rows at the near edge, and those at the far one."""
    rows = _board_rows(plan, border=True)
    return rows[: len(rows) // 2], rows[len(rows) // 2 :]


def _rim_rows(plan: Plan) -> Rows:
    rims = plan.frame.rims if plan.frame else ()
    return tuple(tuple(piece.length_mm for piece in rim.pieces) for rim in rims)


def _stations(line: Line, row_mm: tuple[float, ...]) -> tuple[int, ...]:
    """Return the stations a row's pieces meet at: those nearest to where they end."""
    met, end = [], line.start
    for length_mm in row_mm[:-1]:
        middle = end + exact(length_mm) + line.joint_gap // 2
        met.append(min(range(len(line.stations)), key=lambda j: abs(line.stations[j] - middle)))
        end += exact(length_mm) + line.joint_gap
    return tuple(met)


def _cuts(purchase: Purchase, sizes: dict[str, float]) -> tuple[Cut, ...]:
    """Return the lengths bought, those sawn alike together."""
    names = {stock.length: stock.name for stock in purchase.proof.task.stock}
    alike = Counter(
        (names[exact(bought.length_mm)], tuple(exact(sizes[mark]) for mark in bought.pieces))
        for bought in purchase.lengths
    )
    return tuple(
        Cut(stock=name, pieces=pieces, boards=boards) for (name, pieces), boards in alike.items()
    )
