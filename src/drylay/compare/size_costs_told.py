"""What a size costs in words, and as flat rows."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from attrs import frozen

from drylay.compare.merchant_units import IMPERIAL
from drylay.compare.row_reading import told_value
from drylay.compare.rows_seen import gaps_told, stops_told
from drylay.compare.side_by_side_told import CALLED
from drylay.compare.study_model import Row, SizeCosts, SizeLine
from drylay.papers.layout import heading, para, table
from drylay.papers.wording import clean, many
from drylay.units import length_text

#: So many flats are told in words: the rest stands in the table.
MOST_TOLD = 120
MOST_COLUMN = 32
BETWEEN = (
    "A cost is told of the sizes that were looked at, and of none between them: a step lies "
    "somewhere between the two sizes beside it."
)

NO_COST = "No cost: it cannot be built at that size, or what it costs is not known."


@frozen
class _Flat:
    """Neighbours of one cost, from the first to the last."""

    first_mm: float
    last_mm: float
    count: int
    cost: Decimal | None


def rows_of(answer: SizeCosts) -> tuple[Row, ...]:
    """Return one row for each size of each line.

    `change` is what it costs more than the size before it, None at a line's beginning and beside a
    size that has no cost.
    """
    return tuple(
        {
            "by": answer.by or None,
            "line": line.name if answer.by else None,
            "size": answer.size,
            "size_mm": size_mm,
            "measure": answer.cost,
            "cost": line.costs[at],
            "change": _change(line.costs, at),
            "currency": answer.currency or None,
        }
        for line in answer.lines
        for at, size_mm in enumerate(line.sizes_mm)
    )


def _change(costs: Sequence[Decimal | None], at: int) -> Decimal | None:
    before, after = costs[at - 1] if at else None, costs[at]
    return None if before is None or after is None else after - before


def text_of(answer: SizeCosts) -> str:
    """Return what a size costs as text of 78 columns: sizes of one cost in a line, steps told."""
    cost = CALLED.get(answer.cost, clean(answer.cost, MOST_COLUMN))
    lines = heading(f"WHAT {clean(answer.size, MOST_COLUMN)} COSTS", "=")
    lines += para(f"{cost[0].upper()}{cost[1:]}{_money(answer)}. {_steps_told(answer)}")
    room = MOST_TOLD
    for line in answer.lines:
        flats = _flats(line)
        if room > 0:
            lines += heading(clean(line.name)) if answer.by else [""]
            lines += table(list(_cells(flats[:room], answer.units)), "<>>")
        room -= len(flats)
    if room < 0:
        lines += ["", f"{many(-room, 'more line')} in the table."]
    lines += ["", *para(BETWEEN)]
    if any(None in line.costs for line in answer.lines):
        lines += para(NO_COST)
    for told in (stops_told(answer.seen), gaps_told(answer.seen, answer.currency)):
        lines += para(told) if told else []
    if answer.without:
        lines += para(f"{many(answer.without, 'row')} without this size left out.")
    return "\n".join(lines).strip("\n") + "\n"


def _money(answer: SizeCosts) -> str:
    return f" in {clean(answer.currency, 8)}" if answer.currency else ""


def _steps_told(answer: SizeCosts) -> str:
    if answer.steps:
        return f"It changes {many(len(answer.steps), 'time')}."
    return f"It {without_steps(answer)}."


def without_steps(answer: SizeCosts) -> str:
    """Return what there is to say of a cost without a step, as what follows "it"."""
    costs = [set(line.costs) - {None} for line in answer.lines]
    if not any(costs):
        return "is known of no size"
    if any(len(own) > 1 for own in costs):
        return "changes only across sizes without a cost, and no step is told there"
    return "never changes"


def _flats(line: SizeLine) -> list[_Flat]:
    """Return neighbours of one cost as one, in rising order of size."""
    flats: list[_Flat] = []
    for size_mm, cost in zip(line.sizes_mm, line.costs, strict=True):
        if flats and flats[-1].cost == cost:
            last = flats.pop()
            flats.append(_Flat(last.first_mm, size_mm, last.count + 1, cost))
        else:
            flats.append(_Flat(size_mm, size_mm, 1, cost))
    return flats


def _cells(flats: Sequence[_Flat], units: str) -> Iterator[tuple[str, str, str]]:
    before: Decimal | None = None
    for flat in flats:
        sizes = _size(flat.first_mm, units, alone=flat.count == 1)
        if flat.count > 1:
            sizes += f" to {_size(flat.last_mm, units)}"
        cost = "no cost" if flat.cost is None else told_value(flat.cost)
        yield f"  {sizes}", cost, _changed(before, flat.cost)
        before = flat.cost


def _size(size_mm: float, units: str, *, alone: bool = True) -> str:
    """Return a size: "2400 mm", "8 ft"; the first of two in mm without its unit."""
    if units == IMPERIAL:
        return length_text(size_mm, units)
    return f"{told_value(size_mm)} mm" if alone else told_value(size_mm)


def _changed(before: Decimal | None, after: Decimal | None) -> str:
    if before is None or after is None:
        return ""
    change = after - before
    return f"{told_value(abs(change))} {'more' if change > 0 else 'less'}"
