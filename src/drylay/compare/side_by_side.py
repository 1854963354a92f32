"""Rows in groups beside one another: what each figure comes to at least, in the middle, at most."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from drylay.compare.row_reading import (
    alike,
    can_be_built,
    figures_in,
    has_column,
    one_currency,
    read_rows,
)
from drylay.compare.rows_seen import seen_in, stop_codes_of
from drylay.compare.study_model import Group, Row, SideBySide, Spread
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown

#: First cost, and what a year of service costs: all lives at their most, all at their least.
COSTS = ("total", "yearly_least", "yearly_most")
#: Figures of which less is worse: lives.
YEARS = "_years"


@counted
def side_by_side(rows: Iterable[Row], *, by: str, of: Iterable[str] = COSTS) -> SideBySide:
    """Return rows in groups, one for each value of a column, with the spread of their figures.

    Figures are of the decks that can be built. A group of which none can be stands there too,
    with what stops its decks. Of two middle figures the median is the higher, of years (figures
    whose name ends in "_years") the lower.

    Args:
        rows: Flat rows, read once.
        by: The column whose values make the groups, such as "families" or a path that was varied.
            Rows without a value are a group named "none".
        of: Columns of numbers.

    Raises:
        InputError: No rows, unknown columns, figures that are no numbers, several currencies;
            lists every fault.
    """
    wrong: list[Fault] = []
    read = read_rows(rows, wrong)
    has_column(read, "by", by, wrong)
    asked = _asked(of, wrong)
    figures = {
        name: figures_in(read, name, wrong) for name in asked if has_column(read, "of", name, wrong)
    }
    currency = one_currency(read, wrong)
    if wrong:
        raise InputError(tuple(wrong))
    groups = tuple(_group(read, figures, name, at) for name, at in alike(read, by))
    return SideBySide(by=by, groups=groups, currency=currency, seen=seen_in(read))


def _asked(of: object, wrong: list[Fault]) -> tuple[str, ...]:
    """Return the names asked for, each once; a single text is a fault, it would be its letters."""
    if isinstance(of, str) or not isinstance(of, Iterable):
        wrong.append(_of_fault(of, f"({shown(of)},)" if isinstance(of, str) else ""))
        return ()
    names = list(of)
    if not names:
        wrong.append(_of_fault(names, ", ".join(COSTS)))
    return tuple(name for at, name in enumerate(names) if name not in names[:at])


def _of_fault(found: object, nearest: str) -> Fault:
    return Fault(path="of", found=shown(found), wanted="names of columns", nearest=nearest)


def _group(
    rows: Sequence[Row], figures: Mapping[str, list[Decimal | None]], name: str, at: Sequence[int]
) -> Group:
    stopped = [rows[index] for index in at if not can_be_built(rows[index])]
    return Group(
        name=name,
        count=len(at),
        buildable=len(at) - len(stopped),
        spreads=tuple(_spread(rows, figure, exact, at) for figure, exact in figures.items()),
        stop_codes=stop_codes_of(stopped),
    )


def _spread(
    rows: Sequence[Row], figure: str, exact: Sequence[Decimal | None], at: Sequence[int]
) -> Spread:
    """Return least, middle and most, as they stand in the rows."""
    having = sorted((value, index) for index in at if (value := exact[index]) is not None)
    if not having:
        return Spread(figure=figure, count=0, least=None, median=None, most=None)
    count = len(having)
    middle = (count - 1) // 2 if figure.endswith(YEARS) else count // 2
    least, median, most = (rows[having[place][1]][figure] for place in (0, middle, -1))
    return Spread(figure=figure, count=count, least=least, median=median, most=most)
