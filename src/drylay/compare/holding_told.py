"""A price list that holds, as it is told: flat rows for tables, and text for people."""

from collections.abc import Iterator

from drylay.compare.lengths_kept_told import MOST_NAME, MOST_WHY
from drylay.compare.merchant_model import HoldingPrice, HoldingPrices
from drylay.compare.merchant_units import METRIC, length_called
from drylay.compare.study_model import Row
from drylay.papers.layout import heading, para, points, table
from drylay.papers.wording import clean

HOW = (
    "Every length was taken away once, also those not bought, and each deck planned anew. A price "
    "that holds is the whole order, spares with it, with the worst length gone.",
    "It holds while prices are as they stand, and no second length is gone with the first.",
)
NAME_WIDTH = 24


def rows_of(answer: HoldingPrices) -> tuple[Row, ...]:
    """Return a row for each deck. Money is Decimal."""
    return tuple(
        {
            "name": price.name,
            "currency": answer.currency,
            "total": price.total,
            "holds": price.holds,
            "dearest": price.dearest,
            "dearer": price.dearest - price.total,
            "worst_article": price.worst[0] if price.worst else None,
            "worst_length_mm": price.worst[1] if price.worst else None,
            "loses": gone_told(price.loses),
            "tried": price.tried,
        }
        for price in answer.prices
    )


def gone_told(gone: tuple[tuple[str, float], ...]) -> str:
    """Return lengths with their articles as a text: "DB-28-145 3600 mm, FT-45-145 2400 mm"."""
    return _gone(gone, METRIC)


def _gone(gone: tuple[tuple[str, float], ...], units: str) -> str:
    return ", ".join(f"{clean(code, MOST_NAME)} {length_called(mm, units)}" for code, mm in gone)


def text_of(answer: HoldingPrices) -> str:
    """Return the price list as text of 78 columns."""
    return "\n".join(_lines(answer)).strip("\n") + "\n"


def _lines(answer: HoldingPrices) -> Iterator[str]:
    yield from heading("Prices that stay good if any one length sells out", "=")
    of = ", ".join(clean(code, MOST_NAME) for code in answer.articles)
    yield from para(f"Lengths taken away: those of {of or 'nothing'}.")
    if answer.prices:
        yield from ("", *_priced(answer))
    lost = [price for price in answer.prices if price.loses]
    if lost:
        yield from heading("WHAT CANNOT BE DONE WITHOUT")
        yield from points(
            f"{clean(price.name, MOST_NAME)} cannot be built without any one of "
            f"{_gone(price.loses, answer.units)}; with any other length gone "
            f"{price.dearest:f} is enough."
            for price in lost
        )
    if answer.prices:
        yield from heading("HOW IT IS KNOWN")
        yield from points(HOW)
    if answer.refused:
        yield from heading("NOT PRICED")
        yield from points(
            f"{clean(name, MOST_NAME)}: {clean(why, MOST_WHY)}" for name, why in answer.refused
        )


def _priced(answer: HoldingPrices) -> Iterator[str]:
    """Yield a line for each deck; a name too long for its column stands in a line above it."""
    head = ("deck", f"now, {clean(answer.currency, 8)}", "holds", "with this gone")
    first, *lines = table([head, *(_cells(each, answer.units) for each in answer.prices)], "<>><")
    yield first
    for price, line in zip(answer.prices, lines, strict=True):
        if _is_long(price):
            yield clean(price.name, MOST_NAME)
        yield line


def _is_long(price: HoldingPrice) -> bool:
    return len(clean(price.name, MOST_NAME)) > NAME_WIDTH


def _cells(price: HoldingPrice, units: str) -> tuple[str, ...]:
    holds = "none" if price.holds is None else f"{price.holds:f}"
    worst = _gone((price.worst,), units) if price.worst else "none makes it dearer"
    name = "" if _is_long(price) else clean(price.name, MOST_NAME)
    return name, f"{price.total:f}", holds, worst
