"""Which lengths to keep as a picture: what a mix of decks costs, by how many lengths are kept."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import groupby

from drylay.compare.chart_axes import amount_told, value_told, with_unit
from drylay.compare.chart_marks import along, crowd_of, evenly, labelled, lean, thinned
from drylay.compare.chart_sheet import (
    AFTER_MM,
    TOP_MM,
    Panel,
    chart,
    framed,
    not_from_0,
    panel_of,
)
from drylay.compare.merchant_model import KeptLengths, LengthsToKeep
from drylay.compare.merchant_units import length_called, lengths_called
from drylay.papers.lettering import Point
from drylay.papers.model import FINE_MM, MEMBER_MM, THIN_MM, Box, Line, Ring, Shape, Trace
from drylay.papers.wording import clean, many

HIGH_MM = 90.0
#: More choices told and drawn, and lengths and decks named, than these help nobody.
MOST_TOLD, MOST_DRAWN, MOST_LENGTHS, MOST_DECKS, MOST_NAME = 12, 300, 8, 8, 60
#: More lengths of a choice are told below and not beside its mark.
MOST_LABELLED = 4
#: Half a side of a choice's mark, half the width of the stroke of its bound.
MARK_MM, BOUND_MM = 0.8, 1.4
LEGEND = (
    "Squares: one order over all decks, of the lengths kept. Strokes beneath: no choice of at most "
    "as many lengths can cost less. Dashed, or a ring: each deck bought by itself of the same."
)


def svg_of(found: LengthsToKeep) -> bytes:
    """Return the picture as SVG, black on white: the mix's cost by how many lengths are kept."""
    panel = _panel(found)
    chosen = evenly(_unlike(found.choices), MOST_TOLD)
    told = tuple(_told(found, alike) for alike in chosen)
    return chart(
        _shapes(found, panel, [alike[0] for alike in chosen]),
        name="lengths-kept",
        title=f"{clean(found.article, MOST_NAME)}: which lengths to keep",
        under=_under(found),
        notes=(LEGEND, *not_from_0(panel.up), _mix(found), *told, *_more(found, chosen)),
        told="; ".join((_under(found), _mix(found), *told)),
        below_mm=panel.bounds[3] + AFTER_MM,
    )


def _under(found: LengthsToKeep) -> str:
    count = sum(count for _, count in found.decks)
    return f"{many(len(found.on_sale_mm), 'length')} on sale; {many(count, 'deck')}"


def _mix(found: LengthsToKeep) -> str:
    decks = ", ".join(
        f"{count} of {clean(name, MOST_NAME)}" for name, count in found.decks[:MOST_DECKS]
    )
    more = len(found.decks) - MOST_DECKS
    rest = f" and {many(more, 'more kind')}" if more > 0 else ""
    return f"The mix: {decks}{rest}" if decks else "The mix: no deck"


def _panel(found: LengthsToKeep) -> Panel:
    counts = [Decimal(choice.count) for choice in found.choices]
    money = [
        figure
        for each in found.choices
        for figure in (each.cost, each.best_bound, each.apart)
        if figure is not None
    ]
    return panel_of(counts, money, top_mm=TOP_MM, high_mm=HIGH_MM)


def _at(panel: Panel, choice: KeptLengths, money: Decimal) -> Point:
    return panel.across.at_mm(Decimal(choice.count)), panel.up.at_mm(money)


def _shapes(
    found: LengthsToKeep, panel: Panel, chosen: Sequence[KeptLengths]
) -> Iterator[Shape]:  # fmt: skip
    choices = found.choices
    costs = [_at(panel, each, each.cost) for each in choices]
    bounds = [_at(panel, each, each.best_bound) for each in choices]
    aparts = [_at(panel, each, each.apart) for each in choices if each.apart is not None]
    money = with_unit("whole mix", clean(found.currency, 8))
    yield from framed(panel, "lengths kept, at most", money)
    yield from _joined("own", aparts, "2 1")
    yield from _joined("cost", costs)
    yield from _marks(costs, bounds)
    falls = (point for ends in zip(costs, bounds, strict=True) for point in along(ends))
    crowd = crowd_of((*along(costs), *along(aparts), *falls))
    labels = [
        (_at(panel, each, each.cost), _lengths(each, found.units))
        for each in chosen if len(each.lengths_mm) <= MOST_LABELLED
    ]  # fmt: skip
    yield from labelled(labels, panel=panel, taken=[], crowd=crowd)


def _marks(costs: Sequence[Point], bounds: Sequence[Point]) -> Iterator[Shape]:
    """Yield a square at each cost, and a stroke at each bound."""
    for x, y in thinned(costs, most=MOST_DRAWN, least_mm=MARK_MM)[0]:
        yield Box(layer="marks", x_mm=x - MARK_MM, y_mm=y - MARK_MM, width_mm=2 * MARK_MM,
                  height_mm=2 * MARK_MM, pen_mm=0.0, fill="black")  # fmt: skip
    for x, y in thinned(bounds, most=MOST_DRAWN, least_mm=MARK_MM)[0]:
        yield Line(layer="bound", x1_mm=x - BOUND_MM, y1_mm=y, x2_mm=x + BOUND_MM, y2_mm=y,
                   pen_mm=MEMBER_MM)  # fmt: skip
    yield from _falls(costs, bounds)


def _joined(layer: str, points: Sequence[Point], dash: str = "") -> Iterator[Shape]:
    """Yield a line through points; a ring where there is but one."""
    if len(points) > 1:
        yield Trace(layer=layer, points_mm=lean(points), pen_mm=THIN_MM, dash=dash)
    for x, y in points if len(points) == 1 else ():
        yield Ring(layer=layer, x_mm=x, y_mm=y, radius_mm=MARK_MM, pen_mm=THIN_MM)


def _falls(costs: Sequence[Point], bounds: Sequence[Point]) -> Iterator[Shape]:
    """Yield a fine line from each cost to its bound, where there are few of them."""
    if len(costs) <= MOST_DRAWN:
        for (x, y), (_, low) in zip(costs, bounds, strict=True):
            yield Line(layer="bound", x1_mm=x, y1_mm=y, x2_mm=x, y2_mm=low, pen_mm=FINE_MM)


def _lengths(choice: KeptLengths, units: str) -> str:
    named = lengths_called(choice.lengths_mm[:MOST_LENGTHS], units)
    more = len(choice.lengths_mm) - MOST_LENGTHS
    return f"{named} and {more} more" if more > 0 else named


def _unlike(choices: Sequence[KeptLengths]) -> list[list[KeptLengths]]:
    """Return choices with those after them that keep the same lengths, though more might be."""
    return [list(alike) for _, alike in groupby(choices, key=lambda choice: choice.lengths_mm)]


def _told(found: LengthsToKeep, alike: Sequence[KeptLengths]) -> str:
    """Return a choice in words; of alike ones the bound that holds for them all."""
    choice, last = alike[0], alike[-1]
    counts = f"{choice.count}" if choice is last else f"{choice.count} to {last.count}"
    cost = amount_told(choice.cost, found.currency)
    bound, best = value_told(choice.bound), value_told(min(each.best_bound for each in alike))
    apart = "not known" if choice.apart is None else value_told(choice.apart)
    return (
        f"{counts}: {_lengths(choice, found.units)}; {cost}, no order of them below {bound}, "
        f"of any choice of so many none below {best}; each deck by itself {apart}"
        f"{_cut_from(choice, found.units)}"
    )


def _cut_from(choice: KeptLengths, units: str) -> str:
    """Return how many of each length the mix is sawn from: spares are not in it."""
    named = [
        f"{count} of {length_called(size, units)}" for size, count in choice.bought[:MOST_LENGTHS]
    ]
    more = len(choice.bought) - MOST_LENGTHS
    rest = f" and {many(more, 'more length')}" if more > 0 else ""
    return f"; sawn from {', '.join(named)}{rest}" if named else ""


def _more(found: LengthsToKeep, chosen: Sequence[Sequence[KeptLengths]]) -> Iterator[str]:
    if not found.exact:
        yield "Not every choice could be looked at: the bounds count those left out."
    more = len(_unlike(found.choices)) - len(chosen)
    if more > 0:
        yield f"and {many(more, 'more choice')}: the table has them all."
    if not found.choices:
        yield "No choice of lengths builds every deck."
    for name, why in found.cannot[:MOST_DECKS]:
        yield f"Not in the mix: {clean(name, MOST_NAME)}, {clean(why, 160)}"
    if len(found.cannot) > MOST_DECKS:
        yield f"and {len(found.cannot) - MOST_DECKS} more that are not in the mix."
