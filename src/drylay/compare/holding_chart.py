"""A price list that holds as a picture: each deck's cost, and on to the price that is enough."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from textwrap import wrap

from drylay.compare.chart_axes import value_told, with_unit
from drylay.compare.chart_rows import NamedRow, RowPanel, bar, hatched, row_panel, rows_drawn
from drylay.compare.chart_sheet import TOP_MM, chart
from drylay.compare.merchant_model import HoldingPrice, HoldingPrices
from drylay.compare.merchant_units import length_called
from drylay.papers.model import Shape
from drylay.papers.wording import clean, many

#: More decks and reasons than these are left to the table.
MOST_DECKS, MOST_REFUSED, MOST_LENGTHS, MOST_NAME = 40, 6, 3, 60
#: A name stands in two lines of so many signs.
IN_A_LINE = 21
#: How far the axis goes on where no price is enough.
BEYOND_RATIO = Decimal("0.1")
LEGEND = (
    "Black: what the deck costs today. Hatched: on to the price that is enough whichever one "
    "length sells out."
)
#: Said where some deck cannot be built without one of the lengths.
CROSSED = (
    "Hatched both ways: without a length that it needs the deck cannot be built, whatever the "
    "price; else: the price that is enough with any other length gone."
)


def svg_of(found: HoldingPrices) -> bytes:
    """Return the picture as SVG, black on white: a bar for each deck."""
    shown = _shown(found)
    figures = [each for price in shown for each in (price.total, _enough(price))]
    if any(price.holds is None for price in shown):
        figures.append(max(figures) + abs(max(figures)) * BEYOND_RATIO)
    panel = row_panel(
        figures, [_row(each, found.units) for each in shown],
        title=with_unit("price", clean(found.currency, 8)),
        top_mm=TOP_MM - 3.0, with_zero=True,
    )  # fmt: skip
    return chart(
        _drawn(shown, panel),
        name="holding",
        title="Prices that hold if one length sells out",
        under=_under(found),
        notes=(LEGEND, *_more(found, shown)),
        told="; ".join(map(_spoken, shown, panel.rows)),
        below_mm=panel.bottom_mm + 4.0,
    )


def _enough(price: HoldingPrice) -> Decimal:
    """Return the price that is enough while a deck can be built."""
    return price.dearest if price.holds is None else price.holds


def _under(found: HoldingPrices) -> str:
    lost = sum(price.holds is None for price in found.prices)
    none = f", {lost} without such a price" if lost else ""
    articles = ", ".join(clean(article, MOST_NAME) for article in found.articles[:MOST_LENGTHS])
    more = len(found.articles) - MOST_LENGTHS
    rest = f" and {many(more, 'more article')}" if more > 0 else ""
    return f"{many(len(found.prices), 'deck')}{none}; lengths of {articles}{rest}"


def _shown(found: HoldingPrices) -> Sequence[HoldingPrice]:
    """Return the decks to draw in their order: where there are too many, those that lose most."""
    if len(found.prices) <= MOST_DECKS:
        return found.prices
    worst = sorted(range(len(found.prices)), key=lambda index: _weight(found.prices[index]))
    return [found.prices[index] for index in sorted(worst[:MOST_DECKS])]


def _weight(price: HoldingPrice) -> tuple[int, float]:
    return (0, 0.0) if price.holds is None else (1, -float(price.holds - price.total))


def _row(price: HoldingPrice, units: str) -> NamedRow:
    names = _names(clean(price.name, MOST_NAME))
    if price.holds is None:
        other = "" if price.dearest == price.total else f"; else {value_told(price.dearest)}"
        told = f"{value_told(price.total)}, no price holds{other}"
        return NamedRow(names=names, words=(told, f"needs {_lengths(price, units)}"))
    told = f"{value_told(price.total)}, holds at {value_told(price.holds)}"
    worst = (f"worst without {_length(price.worst, units)}",) if price.worst is not None else ()
    return NamedRow(names=names, words=(told, *worst))


def _names(name: str) -> tuple[str, ...]:
    """Return a name in two lines where one has no room for it, its end not cut off.

    Names of decks often differ at the end.
    """
    first, *more = wrap(name, IN_A_LINE) or [name]
    rest = " ".join(more)
    if len(rest) > IN_A_LINE:
        rest = f"...{rest[3 - IN_A_LINE :]}"
    return (first, rest) if rest else (first,)


def _spoken(price: HoldingPrice, row: NamedRow) -> str:
    """Return a row for those who hear it read: its name may stand in two lines."""
    return f"{clean(price.name, MOST_NAME)}: {', '.join(row.words)}"


def _lengths(price: HoldingPrice, units: str) -> str:
    more = len(price.loses) - 1
    rest = f", {many(more, 'more')}" if more > 0 else ""
    first = [_length(each, units) for each in price.loses[:1]]
    return f"{', '.join(first)}{rest}" or "some length"


def _length(lost: tuple[str, float], units: str) -> str:
    return f"{clean(lost[0], MOST_NAME)} {length_called(lost[1], units)}"


def _drawn(shown: Sequence[HoldingPrice], panel: RowPanel) -> Iterator[Shape]:
    yield from rows_drawn(panel)
    zero_mm = panel.scale.at_mm(panel.scale.low * 0)
    for index, price in enumerate(shown):
        middle_mm, total_mm = panel.middle_mm(index), panel.scale.at_mm(price.total)
        enough_mm = panel.scale.at_mm(_enough(price))
        yield bar(zero_mm, total_mm, middle_mm, "black")
        if _enough(price) != price.total:
            yield from hatched(bar(total_mm, enough_mm, middle_mm))
        if price.holds is None:
            yield from hatched(bar(enough_mm, panel.scale.to_mm, middle_mm), crossed=True)


def _more(found: HoldingPrices, shown: Sequence[HoldingPrice]) -> Iterator[str]:
    if any(price.holds is None for price in shown):
        yield CROSSED
    more = len(found.prices) - len(shown)
    if more > 0:
        yield (
            f"Drawn are the {len(shown)} decks that lose most; {many(more, 'more deck')} in the "
            "table."
        )
    if not found.prices:
        yield "No deck can be planned."
    for name, why in found.refused[:MOST_REFUSED]:
        yield f"No price for {clean(name, MOST_NAME)}: {clean(why, 160)}"
    if len(found.refused) > MOST_REFUSED:
        yield f"and {len(found.refused) - MOST_REFUSED} more without a price."
