"""The parts of the job sheet done before anything is built: buying and sawing."""

from collections.abc import Sequence

from drylay.buying.model import Buying, OrderLine, Purchase
from drylay.papers.arrows import arrows_of, with_arrow
from drylay.papers.html import FIGURE, TEXT, Html, para, points, separated, table, tag, words
from drylay.papers.outlined_ends import sawn_ends
from drylay.papers.outlined_saw import (
    MARK_OUT,
    how_sawn,
    setting_of,
    shaped_pieces,
)
from drylay.papers.purchase import (
    by_knife,
    line_size,
    packs_told,
    purchase_told,
    sawing_told,
    vat_told,
)
from drylay.papers.sheet_parts import BUY, CUT, below, care, drawings, part
from drylay.papers.tables import ripped_mm
from drylay.papers.wording import bare, clean, money, size
from drylay.plan.model import Plan

ORDER = (("Article", TEXT), ("What", TEXT), ("How many", FIGURE), ("Each", FIGURE),
         ("Together", FIGURE))  # fmt: skip
SAWN = "Write each piece's mark on it as it leaves the saw"


def buying_part(plan: Plan, buying: Buying) -> Html:
    """Return what to buy: needed, spare, totals."""
    needed, spare = money(buying.order_total, buying.currency), buying.spares_total
    told = f"Needed: {needed}."
    if buying.spares:
        told += f" Spares: {money(spare, buying.currency)}."
    told += f" Together: {money(buying.total, buying.currency)}. {vat_told(buying)}"
    return part(BUY, "What to buy", [
        care(plan, BUY),
        _order("What the plan needs", buying.order, plan.units),
        points(packs_told(buying, plan.units)),
        _order("Spares, apart from what the plan needs", buying.spares, plan.units),
        tag("p", words(told), class_="sum"),
    ])  # fmt: skip


def _order(caption: str, lines: Sequence[OrderLine], units: str) -> Html:
    rows = [
        (clean(line.article), clean(line.title), f"{line.quantity} x {line_size(line, units)}",
         f"{line.unit_price:f}", f"{line.total:f}")
        for line in lines
    ]  # fmt: skip
    return table(caption, ORDER, rows)


def cutting_part(plan: Plan, buying: Buying) -> Html:
    """Return what to saw from each bought length, in the order of the cuts; nothing without any."""
    if not buying.purchases:
        return Html("")
    return part(CUT, "What to cut", [
        care(plan, CUT),
        *(para(text) for text in sawing_told(plan, buying)),
        *(para(text) for text in how_sawn(plan)),
        *(_purchase(purchase, plan) for purchase in buying.purchases),
        *drawings(plan, CUT),
    ])  # fmt: skip


def _purchase(purchase: Purchase, plan: Plan) -> Html:
    knife = by_knife(purchase)
    saw = f"{'Cut' if knife else 'Saw'}, in this order" + (
        " (mm)" if plan.units == "metric" else ""
    )
    columns = (("Length", TEXT), ("Bought", FIGURE), (saw, TEXT), ("Left", FIGURE))
    told = _told(plan)
    rows = [
        (length.mark, size(length.length_mm, plan.units),
         separated([told.get(mark, f"{mark}: ?") for mark in length.pieces]),
         size(length.offcut_mm, plan.units))
        for length in purchase.lengths
    ]  # fmt: skip
    caption = "Roll each strip up and write its mark on it" if knife else SAWN
    return below(purchase_told(purchase), table(caption, columns, rows))


def _told(plan: Plan) -> dict[str, str]:
    """Return each piece with its length to saw, its arrow, the width it is ripped to, its ends."""
    units, ripped, arrows = plan.units, ripped_mm(plan), arrows_of(plan)
    ends, shaped = sawn_ends(plan), {piece.mark for piece in shaped_pieces(plan)}
    told = {}
    for mark, size_mm in plan.sizes_mm().items():
        cut = f"{with_arrow(mark, arrows)}: {bare(size_mm, units)}"
        cut += f", rip to {bare(ripped[mark], units)}" if mark in ripped else ""
        setting = MARK_OUT if mark in shaped else setting_of(ends.get(mark))
        told[mark] = f"{cut} ({setting})" if setting else cut
    return told
