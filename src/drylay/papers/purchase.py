"""The parts of the summary that cost money: cut list, order, proof."""

from itertools import groupby

from drylay.buying.model import (
    BoughtLength,
    Buying,
    OrderLine,
    PackPurchase,
    Purchase,
    WholePacks,
)
from drylay.laying.model import LaidRow
from drylay.papers.arrows import arrow_told, arrows_of, with_arrow
from drylay.papers.layout import COLUMNS, heading, para, points, table
from drylay.papers.outlined_saw import how_sawn, saw_notes
from drylay.papers.quantities import amount, pack_told
from drylay.papers.wording import (
    GRADES_TOLD,
    bare,
    clean,
    many,
    marks_told,
    money,
    ripped_edge_told,
    size,
)
from drylay.plan.model import Plan
from drylay.surface.model import Row

#: Columns of the order: how many, size, price each, total.
WIDE = "><>>"
TERMS = (
    "Each holds for this cover, these rows, joist lines and rules of jointing, at these prices. "
    "Another cover, other joists or other rules may cost less: see the ways out {where}."
)
TERMS_ON_PADS = (
    "Each holds for this cover and this grid, at these prices. Another cover or grid may cost "
    "less: see the ways out {where}."
)
CHECK = "Check it yourself: python check_proof.py"
NO_TRIM = (
    "Nothing is reckoned for squaring the ends of what you buy: look for splits and for ends "
    "out of square before the first cut. cutting.end_trim in the brief reckons it in."
)
SAWN_LONG = "Outer pieces of the boards are listed with what is sawn off in one line after laying."


def cut_lines(plan: Plan, buying: Buying) -> list[str]:
    """Return the cut list: equal ways of cutting together, every length with its marks."""
    lines = heading("CUT LIST")
    lines += [line for text in sawing_told(plan, buying) for line in para(text)]
    sizes, arrows = plan.sizes_mm(), arrows_of(plan)
    for purchase in buying.purchases:
        lines += _purchase_lines(purchase, sizes, arrows, plan.units)
        lines += para(ripping_told(plan) if purchase.what == "boards" else "", "  ", "    ")
    if settings := saw_notes(plan):
        lines += [line for text in how_sawn(plan) for line in para(text)]
        lines += points(settings)
    return lines if buying.purchases else []


def sawing_told(plan: Plan, buying: Buying) -> list[str]:
    """Return what the cut list reckons with."""
    kerf, trim = size(buying.kerf_mm, plan.units), buying.end_trim_mm
    trimmed = f", {size(trim, plan.units)} trimmed off each end first" if trim else ""
    texts = [f"Reckoned with a saw cut of {kerf}{trimmed}. Longest piece first."]
    texts += [] if trim else [NO_TRIM]
    texts += [SAWN_LONG] if plan.pieces and plan.pieces.trim_allowance_mm else []
    return texts + ([arrow_told(plan)] if arrow_told(plan) else [])


def _purchase_lines(
    purchase: Purchase, sizes: dict[str, float], arrows: dict[str, str], units: str
) -> list[str]:
    groups: dict[tuple[str, ...], list[BoughtLength]] = {}
    for length in purchase.lengths:
        cuts = [bare(sizes[mark], units) if mark in sizes else "?" for mark in length.pieces]
        left = left_told(length, units, sawn=not by_knife(purchase))
        key = (size(length.length_mm, units), counted(cuts), left)
        groups.setdefault(key, []).append(length)
    lines = para(purchase_told(purchase))
    for (bought, cut, left), lengths in groups.items():
        how = f"{'cut' if by_knife(purchase) else 'saw'} {cut}, {left}"
        how = "use whole" if cut == bought.removesuffix(" mm") else how
        lines += para(f"{len(lengths)} x {bought}: {how}", "  ", "    ")
        lines += para(_marks(lengths, arrows), "    ", "      ")
    return lines


def by_knife(purchase: Purchase) -> bool:
    """Whether what is bought is cut with a knife: ground fabric, from rolls."""
    return purchase.what == "fabric"


def purchase_told(purchase: Purchase) -> str:
    """Return what heads a purchase's cuts: what it is, its article, and how it is cut if unsawn."""
    told = f"{clean(purchase.what, 40)}: {clean(purchase.article, 40)}"
    return f"{told}, cut with a knife" if by_knife(purchase) else told


def left_told(length: BoughtLength, units: str, *, sawn: bool = True) -> str:
    """Return what is left of a length; nothing may still mean a last cut to waste."""
    if not length.offcut_mm:
        return "nothing left over but sawdust" if sawn else "nothing left over"
    return f"left {size(length.offcut_mm, units)}"


def ripping_told(plan: Plan) -> str:
    """Return which pieces are ripped and to what width; "" where none is."""
    rows: list[Row | LaidRow] = []
    rows += [row for row in plan.surface.rows if row.ripped] if plan.surface else []
    pieces = [(piece.row, piece.mark) for piece in (plan.pieces.pieces if plan.pieces else ())]
    if plan.laying is not None:
        pieces = [(piece.row, piece.mark) for piece in plan.laying.pieces]
        rows += [row for row in plan.laying.rows if row.ripped]
    if not rows or not pieces:
        return ""
    told = "; ".join(
        f"{marks_told([mark for name, mark in pieces if name == row.mark])} to "
        f"{size(row.width_mm, plan.units)}"
        for row in rows
    )
    return f"Then rip: {told}; {ripped_edge_told(plan)}."


def counted(cuts: list[str]) -> str:
    """Return lengths to saw in their order, equal neighbours together: "8 x 348.5 + 300"."""
    runs = [(cut, len(list(same))) for cut, same in groupby(cuts)]
    return " + ".join(cut if count == 1 else f"{count} x {cut}" for cut, count in runs)


def _marks(lengths: list[BoughtLength], arrows: dict[str, str]) -> str:
    """Return which length gives which pieces; lengths of one piece in one breath."""
    if len(lengths) > 2 and all(len(length.pieces) == 1 for length in lengths):
        pieces = " ".join(with_arrow(length.pieces[0], arrows) for length in lengths)
        return f"{marks_told([length.mark for length in lengths])}: {pieces}, in this order"
    return "; ".join(pieces_told(length, arrows) for length in lengths)


def pieces_told(length: BoughtLength, arrows: dict[str, str]) -> str:
    """Return a length with the pieces that it gives, in the order of the cuts."""
    return f"{length.mark}: {' '.join(with_arrow(mark, arrows) for mark in length.pieces)}"


def order_lines(buying: Buying, units: str) -> list[str]:
    """Return the order: what the plan needs, spares apart, totals."""
    currency = clean(buying.currency, 8)
    lines = [*heading("ORDER"), *_lines(buying.order, units)]
    lines += [line for text in packs_told(buying, units) for line in para(text, "  ")]
    lines += [_total("order", f"{buying.order_total:f} {currency}")]
    if buying.spares:
        lines += ["Spares, apart from what the plan needs:", *_lines(buying.spares, units)]
        lines += [_total("spares", f"{buying.spares_total:f} {currency}")]
    return [*lines, _total("total", f"{buying.total:f} {currency}"), *para(vat_told(buying))]


def packs_told(buying: Buying, units: str) -> list[str]:
    """Return how much is needed of what comes in packs, and how many are spare."""
    return [
        f"{clean(pack.what, 400)}: {amount(pack.need, pack.unit, units)} needed, "
        f"{f'{pack.spare} wanted spare, ' if pack.unit == 'pieces' else ''}"
        f"{amount(_held(pack), pack.unit, units)} in the {_called(pack)} above"
        for pack in buying.packs
    ] + [_whole_packs_told(whole, units) for whole in buying.whole_packs]


def _whole_packs_told(whole: WholePacks, units: str) -> str:
    """Return how many packs of a length are bought, and what is in them."""
    spare = f", {whole.spare} spare" if whole.spare else ""
    return (
        f"{clean(whole.article, 40)} {size(whole.length_mm, units)}, sold in whole packs of "
        f"{whole.pack}: {many(whole.packs, 'pack')}, {whole.sawn} of them sawn{spare}; what fills "
        "the packs is among the spares"
    )


def _held(pack: PackPurchase) -> int:
    return sum(box.pack * box.packs for box in pack.packs)


def _called(pack: PackPurchase) -> str:
    return {"ml": "tins", "kg": "bags"}.get(pack.unit, "packs")


def vat_told(buying: Buying) -> str:
    """Return whether prices hold value added or sales tax; "" where the stock does not say."""
    return f"VAT or sales tax: {clean(buying.vat)}." if buying.vat else ""


def _total(word: str, amount: str) -> str:
    return f"{word:>{COLUMNS - 20}}{amount:>20}"


def _lines(order: tuple[OrderLine, ...], units: str) -> list[str]:
    """Return an order, each article with its whole title above its lines."""
    rows = [
        (f"    {line.quantity} x", line_size(line, units), f"{line.unit_price:f}",
         f"{line.total:f}")
        for line in order
    ]  # fmt: skip
    lines, before = [], ""
    for line, row in zip(order, table(rows, WIDE), strict=True):
        if line.article != before:
            lines += para(f"{clean(line.article, 40)}: {clean(line.title)}", "  ", "    ")
        lines.append(row)
        before = line.article
    return lines


def line_size(line: OrderLine, units: str) -> str:
    """Return the size of what an order line buys: a length, or a pack."""
    if line.length_mm is not None:
        return size(line.length_mm, units)
    return pack_told(line.pack, line.unit, units) if line.pack is not None else ""


def proof_lines(plan: Plan, buying: Buying) -> list[str]:
    """Return what the purchase costs at least, and how to check that without us."""
    terms = para(terms_told(plan, "above"))
    told = [*proofs_told(buying), *tiles_proof_told(plan)]
    return [*heading("PROOF"), *points(told), *terms, *para(CHECK if buying.purchases else "")]


def terms_told(plan: Plan, where: str) -> str:
    """Return what the proof holds for; `where` the ways out stand."""
    on_pads = plan.tiling is not None and plan.tiling.pads is not None
    on_pads = on_pads or plan.tiles is not None
    terms = (TERMS_ON_PADS if on_pads else TERMS).format(where=where)
    # a deck on an outline has no list of ways out
    return terms if plan.outline is None else f"{terms.partition(':')[0]}."


def tiles_proof_told(plan: Plan) -> list[str]:
    """Return how it is known that no fewer tiles would do; nothing where there are none."""
    tiling, tiles = plan.tiling, plan.tiles
    if tiles is not None:
        return [
            f"tiles: no way of cutting boxes needs fewer than {tiles.least}, by their shares of a "
            "tile rounded so that none add up to more (docs/outline-conventions.md, Tiles on an "
            f"outline); this plan needs {tiles.need}"
        ]
    if tiling is None:
        return []
    return [
        f"tiles: no way of cutting needs fewer than {tiling.least}, by the weights of cut lengths, "
        f"cut widths and corner pieces (docs/conventions.md, Tiles); this plan needs {tiling.need}"
    ]


def proofs_told(buying: Buying) -> list[str]:
    """Return what each purchase costs at least, and how that is known."""
    texts = [_proof(purchase, buying.currency) for purchase in buying.purchases]
    packs = "; ".join(clean(pack.what, 400) for pack in buying.packs)
    counted = f"{packs}: the cheapest packs, found by counting every choice"
    return texts + ([counted] if packs else [])


def _proof(purchase: Purchase, currency: str) -> str:
    joints = ""
    if purchase.joint_cost:
        joints = f" ({purchase.cost:f} and {purchase.joint_cost:f} reckoned for joints)"
    return (
        f"{clean(purchase.what)}: no order can cost less than "
        f"{money(purchase.bound, currency)}; this one costs {purchase.objective:f}{joints}; "
        f"gap {purchase.gap:f}; {many(len(purchase.lengths), 'length')}; proven "
        f"{GRADES_TOLD.get(purchase.grade, clean(purchase.grade))}"
    )
