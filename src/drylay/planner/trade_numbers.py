"""The number in trade of everything ordered, so that a merchant can key the order in."""

from typing import Any

from attrs import evolve

from drylay.buying.model import Buying, OrderLine
from drylay.marks import exact
from drylay.materials.stock_model import KINDS, Catalogue

#: How much a length or a pack holds, by the name of its size.
_SIZES = ("length_mm", "count", "ml", "kg")
Numbers = dict[tuple[str, int], str]


def with_gtins(buying: Buying, stock: Catalogue) -> Buying:
    """Return an order whose lines tell the numbers in trade that the stock does."""
    numbers = _numbers(stock)
    if not numbers:
        return buying
    return evolve(
        buying,
        order=tuple(_numbered(line, numbers) for line in buying.order),
        spares=tuple(_numbered(line, numbers) for line in buying.spares),
    )


def _numbered(line: OrderLine, numbers: Numbers) -> OrderLine:
    size = exact(line.length_mm) if line.length_mm is not None else line.pack or 0
    return evolve(line, gtin=numbers.get((line.article, size), ""))


def _numbers(stock: Catalogue) -> Numbers:
    """Return the number of each length or pack: its own, else its article's."""
    return {
        (article.code, _size(item)): gtin
        for kind in KINDS
        for article in getattr(stock, kind)
        for item in (*getattr(article, "lengths", ()), *getattr(article, "packs", ()))
        if (gtin := item.gtin or article.record.gtin)
    }


def _size(item: Any) -> int:
    name = next(name for name in _SIZES if hasattr(item, name))
    size = getattr(item, name)
    return exact(size) if name == "length_mm" else int(size)
