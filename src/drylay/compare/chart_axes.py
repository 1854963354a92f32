"""Scales of charts: figures people count in, where each stands, and what a column is called."""

from collections.abc import Iterable, Mapping
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from attrs import frozen

from drylay.compare.row_reading import exact_of, holds_money, told_value
from drylay.compare.side_by_side_told import CALLED
from drylay.papers.wording import clean

#: Steps that people count in.
STEPS = (1, 2, 5)
MOST_STEPS = 6
#: Figures that differ by less than this power of ten of the largest are drawn as equal ones.
FINEST = -8
#: Figures from 10^9 on, and below a ten thousandth, are told as multiples of a power of a thousand.
LARGE, SMALL = 9, -4
#: Longer figures are told in short, with a "~"; money is told to the coin while it finds room.
MOST_SIGNS, MOST_FLOAT = 16, 8
MOST_WORD = 40
#: Units at the ends of columns' names, the longest first, as they are printed.
UNITS = {
    "kn_m2": "kN/m2", "kg_m2": "kg/m2", "kn_m": "kN/m", "kg_m": "kg/m", "years": "years",
    "pct": "%", "mm": "mm", "m2": "m2", "m3": "m3", "kg": "kg", "kn": "kN", "deg": "degrees",
    "m": "m", "h": "hours",
}  # fmt: skip
#: Paths of the merchant's stock end in an article's code, which is no unit.
STOCK = {
    "stock.price_ratio.": ("price ratio of", ""),
    "stock.without.": ("length left out of", "mm"),
}


@frozen(kw_only=True)
class Scale:
    """A line of figures on the sheet, `low` at `from_mm` and `high` at `to_mm`.

    What is written at its marks is divided by 10^`power`.
    """

    low: Decimal
    high: Decimal
    figures: tuple[Decimal, ...]
    power: int
    from_mm: float
    to_mm: float

    def at_mm(self, figure: Decimal) -> float:
        """Return where a figure stands; one beyond the ends at that end."""
        ratio = float((figure - self.low) / (self.high - self.low))
        return self.from_mm + (self.to_mm - self.from_mm) * min(max(ratio, 0.0), 1.0)

    def marks(self) -> tuple[tuple[float, str], ...]:
        """Return the marks: where each stands, and what is written there."""
        return tuple(
            (self.at_mm(figure), f"{figure.scaleb(-self.power):f}" if figure else "0")
            for figure in self.figures
        )

    def named(self, name: str) -> str:
        """Return an axis's name, with the power of ten that its figures are told in."""
        return f"{name}, times 10^{self.power}" if self.power else name


def step_of(span: Decimal, most: int = MOST_STEPS) -> Decimal:
    """Return the smallest step people count in that reaches so far in a few."""
    power = span.adjusted() - 1
    while True:
        for digit in STEPS:
            step = Decimal(digit).scaleb(power)
            if step * most >= span:
                return step
        power += 1


def scale_of(
    figures: Iterable[Decimal], from_mm: float, to_mm: float, *, most: int = MOST_STEPS,
    with_zero: bool = False,
) -> Scale:  # fmt: skip
    """Return a scale from the least of some figures to the most, with marks people count in.

    Equal figures stand in its middle; no figures give a scale from 0 to 1.
    """
    held = [*figures, *([Decimal(0)] if with_zero else [])] or [Decimal(0), Decimal(1)]
    low, high = _ends(min(held), max(held), whole=all(map(_is_whole, held)))
    step = step_of(high - low, most)
    if all(map(_is_whole, held)):
        step = max(step, Decimal(1))
    first = int((low / step).to_integral_value(ROUND_CEILING))
    last = int((high / step).to_integral_value(ROUND_FLOOR))
    marks = tuple(step * count for count in range(first, last + 1))
    return Scale(low=low, high=high, figures=marks, power=_power(max(abs(low), abs(high))),
                 from_mm=from_mm, to_mm=to_mm)  # fmt: skip


def _is_whole(figure: Decimal) -> bool:
    return figure == figure.to_integral_value()


def _ends(low: Decimal, high: Decimal, *, whole: bool) -> tuple[Decimal, Decimal]:
    """Return the ends of a scale, so far apart that paper can tell the figures between them."""
    largest = max(abs(low), abs(high))
    least = Decimal(1).scaleb(largest.adjusted() + FINEST)
    if high - low >= max(least, Decimal(1) if whole else least):
        return low, high
    aside = max(largest / 10, Decimal(1) if whole or not largest else least)
    return low - aside, high + aside


def _power(largest: Decimal) -> int:
    adjusted = largest.adjusted()
    return adjusted // 3 * 3 if adjusted >= LARGE or adjusted < SMALL else 0


def figures_of(values: Iterable[object]) -> list[Decimal]:
    """Return those of some cells that are figures."""
    return [figure for value in values if (figure := exact_of(value)) is not None]


def value_told(value: object) -> str:
    """Return a cell for text: figures digit for digit while they are short, words cleaned."""
    figure = exact_of(value)
    if figure is None:
        return clean(told_value(value), MOST_WORD)
    return _float_told(value) if isinstance(value, float) else _exact_told(figure)


def _float_told(value: float) -> str:
    told = f"{value:.10g}"
    return told if len(told) <= MOST_FLOAT else f"~{value:.6g}"


def _exact_told(figure: Decimal) -> str:
    told = f"{figure:f}"
    return told if len(told) <= MOST_SIGNS else f"~{figure:.4E}"


def amount_told(amount: Decimal, currency: str) -> str:
    """Return an amount of money with its currency."""
    return " ".join(filter(None, (value_told(amount), clean(currency, 8))))


def with_unit(name: str, unit: str) -> str:
    """Return what stands at an axis: "whole order, GBP"; the name alone where there is no unit."""
    return f"{name}, {unit}" if unit else name


def column_name(column: str) -> str:
    """Return what a column is called: "cover across" of "cover.across_mm"."""
    return _split(column)[0]


def unit_of(column: str, values: Iterable[object] = (), currency: str = "") -> str:
    """Return a column's unit: at the end of its name, or the currency where it holds money."""
    unit = _split(column)[1]
    if not unit and any(isinstance(value, Decimal) for value in values) and holds_money(column):
        return clean(currency, 8)
    return unit


def axis_name(column: str, values: Iterable[object] = (), currency: str = "") -> str:
    """Return a column's name as it stands at an axis: "cover across, mm"."""
    return with_unit(column_name(column), unit_of(column, values, currency))


def cell_told(column: str, row: Mapping[str, object], currency: str = "") -> str:
    """Return a cell with its name and unit: "cover across 2400 mm"."""
    value = row.get(column)
    unit = unit_of(column, (value,), currency) if exact_of(value) is not None else ""
    return " ".join(filter(None, (column_name(column), value_told(value), unit)))


def _split(column: str) -> tuple[str, str]:
    """Return a column's name in words, and the unit at its end."""
    if column in CALLED:
        return CALLED[column], ""
    for path, (words, unit) in STOCK.items():
        if column.startswith(path):
            return f"{words} {clean(column.removeprefix(path), MOST_WORD)}", unit
    stem, unit = next(
        ((column.removesuffix(f"_{end}"), unit) for end, unit in UNITS.items()
         if column.endswith(f"_{end}")),
        (column, ""),
    )  # fmt: skip
    return clean(stem.replace(".", " ").replace("_", " "), MOST_WORD), unit
