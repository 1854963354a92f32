"""The order: lengths and packs counted into lines, spares apart, money summed exactly."""

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from math import ceil

from attrs import frozen

from drylay.buying.model import Buying, OrderLine, PackPurchase, Purchase, WholePacks
from drylay.buying.purchase import in_whole_packs
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


@frozen(kw_only=True)
class Spares:
    """Spare lengths as order lines, those sold in whole packs, and how many could not be had."""

    lines: tuple[OrderLine, ...]
    whole_packs: tuple[WholePacks, ...]
    missing: int


def spare_lengths(
    purchase: Purchase, title: str, sold: tuple[StockLength, ...], ratio: float
) -> Spares:
    """Return the spares of a purchase: so many by the ratio, and what fills whole packs.

    The longest length used comes first, as far as a limited stock reaches. Of a length that is
    sold in whole packs only, what is sawn and spare is filled up to them.
    Source: common practice, no source.
    """
    used = Counter(length.length_mm for length in purchase.lengths)
    wanted = spare_count(ratio, len(purchase.lengths))
    lines, packed = [], []
    for length in sorted(sold, key=lambda entry: -entry.length_mm):
        sawn = used[length.length_mm]
        if not sawn:
            continue
        limit = in_whole_packs(length)
        spare = min(wanted, wanted if limit is None else limit - sawn)
        wanted -= spare
        packs = -(-(sawn + spare) // length.pack)
        if length.pack > 1:
            packed.append(_whole_packs(purchase.article, length, packs, sawn, spare))
        if count := packs * length.pack - sawn:
            size, price = length.length_mm, length.price
            lines.append(_line(purchase.article, title, length_mm=size, count=count, price=price))
    return Spares(lines=tuple(lines), whole_packs=tuple(packed), missing=wanted)


def _whole_packs(
    article: str, length: StockLength, packs: int, sawn: int, spare: int
) -> WholePacks:
    return WholePacks(
        article=article,
        length_mm=length.length_mm,
        pack=length.pack,
        packs=packs,
        sawn=sawn,
        spare=spare,
    )


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
    whole_packs: tuple[WholePacks, ...] = (),
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
        whole_packs=whole_packs,
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
