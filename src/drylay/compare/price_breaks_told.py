"""Price breaks as they are told: flat rows for tables, and text for people."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.compare.lengths_kept_told import MOST_NAME, MOST_WHY
from drylay.compare.merchant_model import PriceBreaks, PriceSpan
from drylay.compare.merchant_units import METRIC, bought_called, length_called
from drylay.compare.study_model import Row
from drylay.papers.layout import heading, para, points, table
from drylay.papers.wording import clean, many, money

HOW = (
    "Every break is planned on both its sides, one coin apart, and what is cheapest there designed "
    "and audited. As long as prices settle nothing but the sawing, an order that is cheapest at "
    "both ends of a span is cheapest within it: its cost rises evenly, and the least cost bends "
    "downwards only."
)
SPARES = (
    "What is bought and the order of the whole deck are told with spares. Cheapest is what is "
    "sawn: spares are of the longest length it uses, so that an order may jump at a break."
)
OF_SEVERAL = (
    "Of several decks the cheapest is the one whose whole order, spares with it, costs least."
)
TIES = "Of orders that cost the same, the one of the lower price is told as long as it is as cheap."


def rows_of(answer: PriceBreaks) -> tuple[Row, ...]:
    """Return a row for each span of prices. Money is Decimal."""
    return tuple(
        {
            "article": answer.article,
            "length_mm": answer.length_mm,
            "currency": answer.currency,
            "name": span.name,
            "price_first": span.first,
            "price_last": span.last,
            "here": span.first <= answer.here <= span.last,
            "bought": bought_called(span.bought, METRIC),
            "bought_of_it": dict(span.bought).get(answer.length_mm, 0),
            "total_first": span.total_first,
            "total_last": span.total_last,
            "gap": span.gap,
        }
        for span in answer.spans
    )


def text_of(answer: PriceBreaks) -> str:
    """Return the spans as text of 78 columns."""
    return "\n".join(_lines(answer)).strip("\n") + "\n"


def _lines(answer: PriceBreaks) -> Iterator[str]:
    of = f"{clean(answer.article, MOST_NAME)} {length_called(answer.length_mm, answer.units)}"
    yield from heading(f"Prices of {of}: where something else is cheapest", "=")
    yield from para(f"It costs {money(answer.here, answer.currency)} in the stock.")
    for span in answer.spans:
        yield from ("", *_span(answer, span))
    for before, after in pairwise(answer.spans):
        if before.name != after.name:
            told = f"From {after.first:f} on {clean(after.name, MOST_NAME)} is the cheapest deck."
            yield from ("", *para(told))
    if answer.spans:
        yield from heading("HOW IT IS KNOWN")
        several = len({span.name for span in answer.spans}) > 1
        known = [f"{HOW} {many(answer.tried, 'plan')} made.", SPARES]
        yield from points((*known, *([OF_SEVERAL] if several else []), TIES))
    else:
        yield from ("", "No deck can be built.")
    for head, pairs in (("TO BE KNOWN", answer.remarks), ("NOT LOOKED AT", answer.cannot)):
        if pairs:
            yield from heading(head)
            said = (f"{clean(name, MOST_NAME)}: {clean(why, MOST_WHY)}" for name, why in pairs)
            yield from points(said)


def _span(answer: PriceBreaks, span: PriceSpan) -> Iterator[str]:
    code = clean(answer.currency, 8)
    prices = f"{span.first:f}" if span.first == span.last else f"{span.first:f} to {span.last:f}"
    totals = f"{span.total_first:f}"
    if span.total_first != span.total_last:
        totals += f" to {span.total_last:f}"
    yield from para(f"At {prices} {code}: {clean(span.name, MOST_NAME)}")
    gap = f", up to {span.gap:f} over the least" if span.gap else ""
    buys = bought_called(span.bought, answer.units)
    rows = [("  buys", buys), ("  order", f"{totals} {code}{gap}")]
    yield from table(rows, "<<")
