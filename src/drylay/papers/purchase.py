"""The parts of the summary that cost money: cut list, order, proof."""

from itertools import groupby

from drylay.buying.model import BoughtLength, Buying, OrderLine, Purchase
from drylay.papers.layout import COLUMNS, heading, para, table
from drylay.papers.wording import GRADES_TOLD, bare, clean, many, marks_told, money, size
from drylay.plan.model import Plan

#: Columns of the order: how many, article, size, title, price, total.
WIDE = "><><>>"
#: A title is cut off rather than wrapped, but not below this.
LEAST_TITLE = 8
TERMS = (
    "Each holds for this cover, these rows, joist lines and rules of jointing, at these prices. "
    "Another cover, other joists or other rules may cost less: see the ways out above."
)
NO_TRIM = (
    "Nothing is reckoned for squaring the ends of what you buy: look for splits and for ends "
    "out of square before the first cut. cutting.end_trim in the brief reckons it in."
)
SAWN_LONG = "Outer pieces of the boards are listed with what is sawn off in one line after laying."


def cut_lines(plan: Plan, buying: Buying) -> list[str]:
    """Return the cut list: equal ways of cutting together, every length with its marks."""
    lines = heading("CUT LIST")
    kerf, trim = size(buying.kerf_mm, plan.units), buying.end_trim_mm
    trimmed = f", {size(trim, plan.units)} trimmed off each end first" if trim else ""
    lines += para(f"Reckoned with a saw cut of {kerf}{trimmed}. Longest piece first.")
    lines += para("" if trim else NO_TRIM)
    lines += para(SAWN_LONG if plan.pieces and plan.pieces.trim_allowance_mm else "")
    sizes = plan.sizes_mm()
    for purchase in buying.purchases:
        lines += _purchase_lines(purchase, sizes, plan.units)
    return lines


def _purchase_lines(purchase: Purchase, sizes: dict[str, float], units: str) -> list[str]:
    groups: dict[tuple[str, ...], list[BoughtLength]] = {}
    for length in purchase.lengths:
        cuts = [bare(sizes[mark], units) if mark in sizes else "?" for mark in length.pieces]
        key = (size(length.length_mm, units), counted(cuts), size(length.offcut_mm, units))
        groups.setdefault(key, []).append(length)
    lines = [f"{purchase.what}: {clean(purchase.article, 40)}"]
    for (bought, cut, left), lengths in groups.items():
        lines += para(f"{len(lengths)} x {bought}: saw {cut}, left {left}", "  ", "    ")
        lines += para(_marks(lengths), "    ", "      ")
    return lines


def counted(cuts: list[str]) -> str:
    """Return lengths to saw in their order, equal neighbours together: "8 x 348.5 + 300"."""
    runs = [(cut, len(list(same))) for cut, same in groupby(cuts)]
    return " + ".join(cut if count == 1 else f"{count} x {cut}" for cut, count in runs)


def _marks(lengths: list[BoughtLength]) -> str:
    """Return which length gives which pieces; lengths of one piece in one breath."""
    if len(lengths) > 2 and all(len(length.pieces) == 1 for length in lengths):
        pieces = " ".join(length.pieces[0] for length in lengths)
        return f"{marks_told([length.mark for length in lengths])}: {pieces}, in this order"
    return "; ".join(f"{length.mark}: {' '.join(length.pieces)}" for length in lengths)


def order_lines(buying: Buying, units: str) -> list[str]:
    """Return the order: what the plan needs, spares apart, totals."""
    currency = clean(buying.currency, 8)
    lines = [*heading("ORDER"), *_lines(buying.order, units)]
    for pack in buying.packs:
        need = f"{clean(pack.what)}: {pack.need} needed, {pack.spare} spare, in the packs above"
        lines += para(need, "  ")
    lines += [_total("order", f"{buying.order_total:f} {currency}")]
    if buying.spares:
        lines += ["Spares, apart from what the plan needs:", *_lines(buying.spares, units)]
        lines += [_total("spares", f"{buying.spares_total:f} {currency}")]
    return [*lines, _total("total", f"{buying.total:f} {currency}"), *_vat(buying)]


def _vat(buying: Buying) -> list[str]:
    return para(f"VAT: {clean(buying.vat)}.") if buying.vat else []


def _total(word: str, amount: str) -> str:
    return f"{word:>{COLUMNS - 20}}{amount:>20}"


def _lines(order: tuple[OrderLine, ...], units: str) -> list[str]:
    rows = [
        (f"  {line.quantity} x", clean(line.article, 16), _what(line, units), "",
         f"{line.unit_price:f}", f"{line.total:f}")
        for line in order
    ]  # fmt: skip
    room = COLUMNS - max((len(line) for line in table(rows, WIDE)), default=0)
    titled = [
        (*row[:3], clean(line.title, max(LEAST_TITLE, room)), *row[4:])
        for row, line in zip(rows, order, strict=True)
    ]
    return table(titled, WIDE)


def _what(line: OrderLine, units: str) -> str:
    if line.length_mm is not None:
        return size(line.length_mm, units)
    return f"pack of {line.pack}" if line.pack is not None else ""


def proof_lines(buying: Buying) -> list[str]:
    """Return what the purchase costs at least, and how to check that without us."""
    lines = heading("PROOF")
    for purchase in buying.purchases:
        lines += para(_proof(purchase, buying.currency), "- ", "  ")
    packs = ", ".join(clean(pack.what) for pack in buying.packs)
    if packs:
        lines += para(f"{packs}: the cheapest packs, found by counting every choice", "- ", "  ")
    return [*lines, *para(TERMS), *para("Check it yourself: python check_proof.py")]


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
