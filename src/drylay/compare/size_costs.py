"""What a size costs: costs in rising order of it, line by line, and where they change."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import groupby, pairwise

from attrs import frozen

from drylay.compare.merchant_units import IMPERIAL, METRIC
from drylay.compare.row_reading import (
    LENGTH,
    MOST_NAMED,
    OUTCOME,
    alike,
    columns_of,
    has_column,
    money_in,
    one_currency,
    put_in,
    read_rows,
    sizes_in,
    told_value,
)
from drylay.compare.rows_seen import seen_in
from drylay.compare.study_model import Row, SizeCosts, SizeLine, SizeStep
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown
from drylay.intake.words import nearest_of

#: What rows of one study may differ in besides what was put into their cases.
MADE_WITH = ("families", "mode", "stock_digest", "drylay_version", "solver_version")


@frozen
class _Place:
    """One size in one line: the rows that are of it."""

    line: str
    size: Decimal
    rows: tuple[int, ...]


@counted
def cost_by_size(rows: Iterable[Row], size: str, *, cost: str = "total", by: str = "") -> SizeCosts:
    """Return what a size costs, in one line or in one for each value of a column, and its steps.

    A deck that cannot be built, or whose cost is not known, costs None and breaks its line: no
    step is told across it. Several rows of one size in one line must come to the same cost.

    Args:
        rows: Flat rows, read once. Those that tell no size are counted in `without`.
        size: A column of lengths, its name ending in "_mm", such as "cover.along_mm"; numbers, or
            texts with a unit as a brief takes them.
        cost: A column of money.
        by: The column whose values make the lines; "" for one line of all rows.

    Raises:
        InputError: No rows, unknown columns, a size that is no length, figures that are none,
            several currencies, or several costs of one size, with the columns that may tell them
            apart; lists every fault.
    """
    wrong: list[Fault] = []
    read = read_rows(rows, wrong)
    currency = one_currency(read, wrong)
    is_size, is_cost = _is_length(read, size, wrong), has_column(read, "cost", cost, wrong)
    is_line = by == "" or has_column(read, "by", by, wrong)
    sizes = sizes_in(read, size, wrong) if is_size else []
    costs = money_in(read, cost, wrong) if is_cost else []
    if is_size and is_cost and is_line and not wrong:
        places = _places(read, sizes, by)
        wrong += _clashes(read, places, costs, (size, cost, by))
    if wrong:
        raise InputError(tuple(wrong))
    lines = tuple(_line_of(name, own, costs) for name, own in groupby(places, lambda p: p.line))
    return SizeCosts(
        size=size,
        cost=cost,
        by=by,
        currency=currency,
        lines=lines,
        steps=tuple(step for line in lines for step in _steps(line)),
        without=sizes.count(None),
        seen=seen_in(read),
        units=_units(read),
    )


def _units(rows: Sequence[Row]) -> str:
    """Return the units of all decks that tell theirs, metric where they are unlike."""
    told = {str(row["units"]) for row in rows if row.get("units")}
    return IMPERIAL if told == {IMPERIAL} else METRIC


def _is_length(rows: Sequence[Row], size: object, wrong: list[Fault]) -> bool:
    """Return whether a name is a column of lengths; if not, that is a fault naming some."""
    if isinstance(size, str) and size.endswith(LENGTH):
        return has_column(rows, "size", size, wrong)
    if rows:
        lengths = tuple(name for name in columns_of(rows) if name.endswith(LENGTH))
        wanted = "a column of lengths in mm"
        if lengths:
            wanted += f", such as {', '.join(lengths[:MOST_NAMED])}"
        near = nearest_of(size, lengths)
        wrong.append(Fault(path="size", found=shown(size), wanted=wanted, nearest=near))
    return False


def _places(rows: Sequence[Row], sizes: Sequence[Decimal | None], by: str) -> list[_Place]:
    """Return every size of every line in rising order, lines in the order they first stand."""
    lines = alike(rows, by) if by else [("", list(range(len(rows))))]
    places = []
    for name, members in lines:
        found: dict[Decimal, list[int]] = {}
        for at in members:
            if (size := sizes[at]) is not None:
                found.setdefault(size, []).append(at)
        places += [_Place(name, size, tuple(found[size])) for size in sorted(found)]
    return places


def _line_of(name: str, places: Iterable[_Place], costs: Sequence[Decimal | None]) -> SizeLine:
    own = tuple(places)
    return SizeLine(
        name=name,
        sizes_mm=tuple(float(place.size) for place in own),
        costs=tuple(costs[place.rows[0]] for place in own),
    )


def _steps(line: SizeLine) -> Iterator[SizeStep]:
    """Yield where the cost changes between neighbours that both have one."""
    for (from_mm, before), (to_mm, after) in pairwise(zip(line.sizes_mm, line.costs, strict=True)):
        if before is not None and after is not None and before != after:
            yield SizeStep(
                line=line.name,
                from_mm=from_mm,
                to_mm=to_mm,
                before=before,
                after=after,
                change=after - before,
            )


def _clashes(
    rows: Sequence[Row],
    places: Iterable[_Place],
    costs: Sequence[Decimal | None],
    asked: tuple[str, str, str],
) -> Iterator[Fault]:
    """Yield a fault if rows of one size in one line come to several costs.

    It names the columns in which they differ, those that tell all of them apart before others.
    """
    clashes = [place for place in places if len({costs[at] for at in place.rows}) > 1]
    if not clashes:
        return
    first, size = clashes[0], asked[0]
    told = ", ".join(dict.fromkeys(_cost_told(costs[at]) for at in first.rows))
    line = f" in {shown(first.line)}" if first.line else ""
    more = f", and so at {len(clashes) - 1} more" if len(clashes) > 1 else ""
    apart, others = _differing(rows, clashes, costs, asked)
    columns = ", ".join([*apart, *others][:MOST_NAMED]) or "none"
    yield Fault(
        path=size,
        found=f"several costs at {told_value(first.size)} mm{line}: {told}{more}",
        wanted=f"one cost of each size in a line; columns that differ: {columns}",
        nearest=f'by="{apart[0]}"' if apart else "",
    )


def _cost_told(cost: Decimal | None) -> str:
    return "no cost" if cost is None else told_value(cost)


def _differing(
    rows: Sequence[Row],
    clashes: Sequence[_Place],
    costs: Sequence[Decimal | None],
    asked: tuple[str, str, str],
) -> tuple[list[str], list[str]]:
    """Return the columns in which clashing rows differ: those that end every clash, and others."""
    first = rows[clashes[0].rows[0]]
    names = (*put_in(first), *MADE_WITH) if OUTCOME in first else columns_of(rows)
    apart, others = [], []
    for name in names:
        if name in asked or name == "case":
            continue
        if all(_told_apart(rows, place, costs, name) for place in clashes):
            apart.append(name)
        elif any(len({told_value(rows[at].get(name)) for at in p.rows}) > 1 for p in clashes):
            others.append(name)
    return apart, others


def _told_apart(
    rows: Sequence[Row], place: _Place, costs: Sequence[Decimal | None], name: str
) -> bool:
    """Return whether rows of one place that are alike in a column too come to one cost."""
    seen = {(told_value(rows[at].get(name)), costs[at]) for at in place.rows}
    return len(seen) == len({value for value, _ in seen})
