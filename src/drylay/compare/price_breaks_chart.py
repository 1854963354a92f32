"""Price breaks as a picture: the whole order at every price of a length, its breaks told below."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import pairwise

from drylay.compare.chart_axes import amount_told, value_told, with_unit
from drylay.compare.chart_marks import along, crowd_of, lean, numbered
from drylay.compare.chart_sheet import (
    AFTER_MM,
    TOP_MM,
    Panel,
    chart,
    framed,
    not_from_0,
    panel_of,
)
from drylay.compare.merchant_model import PriceBreaks, PriceSpan
from drylay.compare.merchant_units import length_called
from drylay.papers.lettering import Point
from drylay.papers.model import FINE_MM, MEMBER_MM, OUTLINE_MM, THIN_MM, Line, Ring, Shape, Trace
from drylay.papers.wording import clean, many

HIGH_MM = 100.0
#: More spans told and breaks marked, and lengths of an order named, than these help nobody.
MOST_TOLD, MOST_MARKED, MOST_LENGTHS, MOST_NAME = 12, 200, 8, 40
#: More remarks, and decks that were not looked at, than these are left to the text.
MOST_SAID = 8
#: Half the height of a break's stroke, and the radius of the mark of a span of one price.
STROKE_MM, DOT_MM = 1.6, 0.6
LEGEND = (
    "Line: the whole order. Short strokes: from there on another order is bought, or another deck "
    "is the cheapest. Dashed: the price today. Numbers: what is bought, told below."
)


def svg_of(found: PriceBreaks) -> bytes:
    """Return the picture as SVG, black on white: the order's cost over the price of the length."""
    panel = _panel(found)
    chosen = _chosen(found)
    told = tuple(f"{number}: {_told(found, span)}" for number, span in enumerate(chosen, start=1))
    title = f"{clean(found.article, MOST_NAME)} of {length_called(found.length_mm, found.units)}"
    return chart(
        _shapes(found, panel, chosen),
        name="price-breaks",
        title=f"{title}: what its price changes",
        under=_under(found),
        notes=(LEGEND, *not_from_0(panel.up), *told, *_more(found, chosen)),
        told="; ".join((_under(found), *told)),
        below_mm=panel.bounds[3] + AFTER_MM,
    )


def _money(found: PriceBreaks) -> str:
    return clean(found.currency, 8)


def _under(found: PriceBreaks) -> str:
    breaks = many(max(len(found.spans) - 1, 0), "break")
    here = amount_told(found.here, found.currency)
    return f"Price today {here}; {breaks}; {many(found.tried, 'plan')} tried"


def _panel(found: PriceBreaks) -> Panel:
    prices = [price for span in found.spans for price in (span.first, span.last)]
    totals = [total for span in found.spans for total in (span.total_first, span.total_last)]
    return panel_of((*prices, found.here), totals, top_mm=TOP_MM, high_mm=HIGH_MM)


def _line(found: PriceBreaks, panel: Panel) -> list[Point]:
    return [
        (panel.across.at_mm(price), panel.up.at_mm(total))
        for span in found.spans
        for price, total in ((span.first, span.total_first), (span.last, span.total_last))
    ]


def _shapes(found: PriceBreaks, panel: Panel, chosen: Sequence[PriceSpan]) -> Iterator[Shape]:
    _, top, _, bottom = panel.bounds
    money = _money(found)
    yield from framed(panel, with_unit("price of one length", money),
                      with_unit("whole order", money))  # fmt: skip
    here_mm = panel.across.at_mm(found.here)
    yield Line(layer="own", x1_mm=here_mm, y1_mm=top, x2_mm=here_mm, y2_mm=bottom, pen_mm=THIN_MM,
               dash="2 1")  # fmt: skip
    line = _line(found, panel)
    if line:
        yield Trace(layer="cost", points_mm=lean(line), pen_mm=OUTLINE_MM)
    if len(found.spans) == 1 and line[0] == line[1]:
        yield Ring(layer="marks", x_mm=line[0][0], y_mm=line[0][1], radius_mm=DOT_MM,
                   pen_mm=MEMBER_MM, fill="black")  # fmt: skip
    yield from _breaks(found, panel)
    crowd = crowd_of((*along(line), *((here_mm, top + down) for down in range(int(HIGH_MM)))))
    spots = [_middle(panel, span) for span in chosen]
    yield from numbered(spots, panel=panel, taken=[], crowd=crowd)


def _breaks(found: PriceBreaks, panel: Panel) -> Iterator[Shape]:
    """Yield a stroke at each break, as many as can be told apart."""
    before_mm = -HIGH_MM
    for one, other in list(pairwise(found.spans))[:: max(1, len(found.spans) // MOST_MARKED)]:
        x = panel.across.at_mm((one.last + other.first) / 2)
        if x - before_mm < MEMBER_MM:
            continue
        before_mm = x
        y = (panel.up.at_mm(one.total_last) + panel.up.at_mm(other.total_first)) / 2
        yield Line(layer="marks", x1_mm=x, y1_mm=y - STROKE_MM, x2_mm=x, y2_mm=y + STROKE_MM,
                   pen_mm=FINE_MM if len(found.spans) > MOST_TOLD else THIN_MM)  # fmt: skip


def _middle(panel: Panel, span: PriceSpan) -> Point:
    price, total = (span.first + span.last) / 2, (span.total_first + span.total_last) / 2
    return panel.across.at_mm(price), panel.up.at_mm(total)


def _chosen(found: PriceBreaks) -> list[PriceSpan]:
    """Return the spans to tell in their order: those nearest to the price today."""
    near = sorted(range(len(found.spans)), key=lambda at: _far(found.spans[at], found.here))
    return [found.spans[at] for at in sorted(near[:MOST_TOLD])]


def _far(span: PriceSpan, here: Decimal) -> Decimal:
    return max(span.first - here, here - span.last, Decimal(0))


def _told(found: PriceBreaks, span: PriceSpan) -> str:
    prices = _range(span.first, span.last)
    totals = f"{_range(span.total_first, span.total_last)} {_money(found)}".rstrip()
    name = f"{clean(span.name, MOST_NAME)}, " if span.name else ""
    gap = f", {value_told(span.gap)} over the least at most" if span.gap else ""
    return f"{prices}: {name}{_bought(found, span)}; order {totals}{gap}"


def _range(first: Decimal, last: Decimal) -> str:
    return value_told(first) if first == last else f"{value_told(first)} to {value_told(last)}"


def _bought(found: PriceBreaks, span: PriceSpan) -> str:
    lengths = [f"{count} of {length_called(size, found.units)}" for size, count in span.bought]
    more = len(lengths) - MOST_LENGTHS
    rest = f" and {many(more, 'more length')}" if more > 0 else ""
    none = f"none of {clean(found.article, MOST_NAME)}"
    return f"{', '.join(lengths[:MOST_LENGTHS])}{rest}" or none


def _more(found: PriceBreaks, chosen: Sequence[PriceSpan]) -> Iterator[str]:
    more = len(found.spans) - len(chosen)
    if more > 0:
        yield f"Told are the orders nearest to the price today; {more} more are in the table."
    if not found.spans:
        yield "No deck can be built."
    said = [f"Of {clean(name, MOST_NAME)}: {clean(what, 300)}" for name, what in found.remarks]
    said += [
        f"Not looked at: {clean(name, MOST_NAME)}, {clean(why, 160)}" for name, why in found.cannot
    ]
    yield from said[:MOST_SAID]
    if len(said) > MOST_SAID:
        yield f"and {len(said) - MOST_SAID} more such remarks in the text."
