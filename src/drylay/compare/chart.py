"""A comparison as a chart: what each alternative costs a year, from its least to its most."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal

from attrs import frozen

from drylay.compare.chart_axes import step_of
from drylay.compare.chart_sheet import MARGIN_MM, TITLE_MM, WIDE_MM
from drylay.compare.model import ComparedDeck, Comparison
from drylay.compare.table import MOST_NAME, money_told, reckoned_told
from drylay.papers.hatching import hatch
from drylay.papers.lettering import fitted
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    Box,
    Lettering,
    Line,
    Shape,
    Sheet,
)
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.svg import svg
from drylay.papers.wording import clean

#: On the sheet, in mm: the column of names, room for a bar's figures.
NAMES_MM, FIGURES_MM = 40.0, 45.0
#: A row's height and its bar's, and what stands above and below all rows.
ROW_MM, BAR_MM, HEAD_MM, FOOT_MM = 12.0, 6.0, 20.0, 12.0
NAME_MM, FIGURE_MM = 3.0, 3.0
#: Lines of a hatching, apart.
PITCH_MM = 1.6
LEGEND = (
    "Black: what a year costs at least, with every life at its most. Hatched: on to the most, with "
    "every life at its least."
)
#: What is said of a figure that is not known.
UNKNOWN = {
    "upkeep_h": "upkeep",
    "life_least_years": "life of boards",
    "life_most_years": "life of boards",
    "frame_life_least_years": "life of frame",
    "frame_life_most_years": "life of frame",
}


@frozen(kw_only=True)
class _Scale:
    """Where money stands on the sheet: its beginning, mm for a unit of it, and the next mark."""

    left_mm: float
    mm_per_unit: float
    step: Decimal
    steps: int


def comparison_svg(comparison: Comparison) -> bytes:
    """Return the chart as SVG, black on white: plain up to the least, hatched to the most."""
    scale = _scale(comparison)
    notes = (LEGEND, money_told(comparison), *reckoned_told(comparison))
    rows_mm = ROW_MM * len(comparison.decks)
    below_mm = MARGIN_MM + HEAD_MM + rows_mm + FOOT_MM
    wide_mm = WIDE_MM - 2 * MARGIN_MM
    high_mm = below_mm + paragraphs_height(notes, wide_mm) + MARGIN_MM
    shapes = [
        *_head(comparison),
        *_axis(scale, rows_mm),
        *(
            shape
            for index, deck in enumerate(comparison.decks)
            for shape in _row(deck, index, scale)
        ),
        *paragraphs(notes, "notes", MARGIN_MM, below_mm, wide_mm),
    ]
    sheet = Sheet(paper="chart", width_mm=WIDE_MM, height_mm=high_mm, per_mm=0.0, scale="")
    return svg(
        shapes, sheet=sheet, name="compare", title=_title(comparison), told=_told(comparison)
    )


def _title(comparison: Comparison) -> str:
    return f"{clean(comparison.title)}: cost a year"


def _told(comparison: Comparison) -> str:
    """Return the chart in words, for those who hear it read."""
    rows = (f"{clean(deck.name, MOST_NAME)}: {_figures(deck)}" for deck in comparison.decks)
    return f"In {clean(comparison.currency, 8)} a year. " + "; ".join(rows)


def _figures(deck: ComparedDeck) -> str:
    money = _range(deck)
    if money is not None:
        return f"{money[0]:f} to {money[1]:f}"
    if not deck.plan.buildable:
        return "cannot be built"
    return f"not known: {', '.join(dict.fromkeys(UNKNOWN[name] for name in deck.not_known))}"


def _range(deck: ComparedDeck) -> tuple[Decimal, Decimal] | None:
    """Return what a deck costs a year, least and most; None where that is not known."""
    least, most = (case.total if case else None for case in (deck.long, deck.short))
    return None if least is None or most is None else (least, most)


def _scale(comparison: Comparison) -> _Scale:
    ranges = [money for deck in comparison.decks if (money := _range(deck))]
    most = max((high for _, high in ranges), default=Decimal(0)) or Decimal(1)
    left_mm = MARGIN_MM + NAMES_MM
    step = step_of(most)
    steps = int((most / step).to_integral_value(ROUND_CEILING))
    long_mm = WIDE_MM - MARGIN_MM - FIGURES_MM - left_mm
    return _Scale(
        left_mm=left_mm, mm_per_unit=long_mm / float(step * steps), step=step, steps=steps
    )


def _head(comparison: Comparison) -> Iterator[Shape]:
    most_mm = WIDE_MM - 2 * MARGIN_MM
    title = fitted(_title(comparison), TITLE_MM, most_mm)
    yield Lettering(layer="title", x_mm=MARGIN_MM, y_mm=MARGIN_MM + 3, text=title,
                    size_mm=TITLE_MM, anchor="start")  # fmt: skip
    unit = f"{clean(comparison.currency, 8)} a year"
    if comparison.hour_price is None:
        unit += ", upkeep not in it"
    yield Lettering(layer="title", x_mm=MARGIN_MM + NAMES_MM, y_mm=MARGIN_MM + 10, text=unit,
                    anchor="start")  # fmt: skip


def _axis(scale: _Scale, rows_mm: float) -> Iterator[Shape]:
    top = MARGIN_MM + HEAD_MM
    for count in range(scale.steps + 1):
        money = scale.step * count
        x = scale.left_mm + float(money) * scale.mm_per_unit
        pen = OUTLINE_MM if not count else FINE_MM
        yield Line(layer="axis", x1_mm=x, y1_mm=top, x2_mm=x, y2_mm=top + rows_mm, pen_mm=pen)
        yield Lettering(layer="axis-figures", x_mm=x, y_mm=top - 3, text=f"{money:f}")


def _row(deck: ComparedDeck, index: int, scale: _Scale) -> Iterator[Shape]:
    middle = MARGIN_MM + HEAD_MM + ROW_MM * (index + 0.5)
    name = fitted(clean(deck.name), NAME_MM, NAMES_MM - 3)
    yield Lettering(layer="names", x_mm=MARGIN_MM, y_mm=middle, text=name, size_mm=NAME_MM,
                    anchor="start")  # fmt: skip
    money = _range(deck)
    end_mm = scale.left_mm
    if money is not None:
        least_mm, most_mm = (float(amount) * scale.mm_per_unit for amount in money)
        yield from _bar(scale.left_mm, middle, least_mm, most_mm)
        end_mm += most_mm
    told = fitted(_figures(deck), FIGURE_MM, WIDE_MM - MARGIN_MM - end_mm - 2)
    yield Lettering(layer="figures", x_mm=end_mm + 2, y_mm=middle, text=told, size_mm=FIGURE_MM,
                    anchor="start", knocked=True)  # fmt: skip


def _bar(left_mm: float, middle_mm: float, least_mm: float, most_mm: float) -> Iterator[Shape]:
    """Yield a bar: solid to the least, hatched from there to the most."""
    top = middle_mm - BAR_MM / 2
    spread = Box(layer="bars", x_mm=left_mm + least_mm, y_mm=top, width_mm=most_mm - least_mm,
                 height_mm=BAR_MM, pen_mm=MEMBER_MM, fill="white")  # fmt: skip
    yield spread
    yield from hatch(spread, PITCH_MM)
    yield Box(layer="bars", x_mm=left_mm, y_mm=top, width_mm=least_mm, height_mm=BAR_MM,
              pen_mm=MEMBER_MM, fill="black")  # fmt: skip
