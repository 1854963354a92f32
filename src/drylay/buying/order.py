"""The order: lengths and packs counted into lines, spares apart, money summed exactly."""

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from math import ceil

from drylay.buying.model import Buying, OrderLine, PackPurchase, Purchase
from drylay.materials.stock_model import StockLength


def length_lines(purchase: Purchase, title: str) -> list[OrderLine]:
    """Return a purchase as order lines, longest first."""
    counts = Counter((length.length_mm, length.price) for length in purchase.lengths)
    return [
        _line(purchase.article, title, length_mm=length_mm, count=count, price=price)
        for (length_mm, price), count in sorted(counts.items(), reverse=True)
    ]


def pack_lines(packs: PackPurchase, title: str) -> list[OrderLine]:
    """Return a pack purchase as order lines, largest pack first."""
    return [
        _line(
            packs.article,
            title,
            pack=choice.pack,
            unit=packs.unit,
            count=choice.packs,
            price=choice.price,
        )
        for choice in packs.packs
    ]


def spare_count(ratio: float, count: int) -> int:
    """Return how many spares a ratio asks for, rounded up."""
    return ceil(Fraction(repr(ratio)) * count)


def spare_lines(
    purchase: Purchase, title: str, sold: tuple[StockLength, ...], ratio: float
) -> tuple[list[OrderLine], int]:
    """Return spare lengths as order lines, and how many could not be had.

    The longest length used comes first, as far as a limited stock reaches.
    Source: common practice, no source.
    """
    used = Counter(length.length_mm for length in purchase.lengths)
    wanted = spare_count(ratio, len(purchase.lengths))
    lines = []
    for length in sorted(sold, key=lambda entry: -entry.length_mm):
        if length.length_mm not in used or not wanted:
            continue
        left = wanted if length.limit is None else length.limit - used[length.length_mm]
        count = min(wanted, left)
        if count:
            lines.append(
                _line(
                    purchase.article,
                    title,
                    length_mm=length.length_mm,
                    count=count,
                    price=length.price,
                )
            )
            wanted -= count
    return lines, wanted


def place_order(
    *,
    currency: str,
    vat: str,
    kerf_mm: float,
    end_trim_mm: float,
    spare_ratio: float,
    purchases: tuple[Purchase, ...],
    packs: tuple[PackPurchase, ...],
    order: Iterable[OrderLine],
    spares: Iterable[OrderLine],
) -> Buying:
    """Return the whole purchase with its totals."""
    order, spares = tuple(order), tuple(spares)
    order_total = sum((line.total for line in order), Decimal(0))
    spares_total = sum((line.total for line in spares), Decimal(0))
    return Buying(
        currency=currency,
        vat=vat,
        kerf_mm=kerf_mm,
        end_trim_mm=end_trim_mm,
        spare_ratio=spare_ratio,
        purchases=purchases,
        packs=packs,
        order=order,
        spares=spares,
        order_total=order_total,
        spares_total=spares_total,
        total=order_total + spares_total,
    )


def _line(
    article: str,
    title: str,
    *,
    count: int,
    price: Decimal,
    length_mm: float | None = None,
    pack: int | None = None,
    unit: str = "pieces",
) -> OrderLine:
    return OrderLine(
        article=article,
        title=title,
        length_mm=length_mm,
        pack=pack,
        unit=unit,
        quantity=count,
        unit_price=price,
        total=price * count,
    )
