"""Which rows or decks a question of a study looks at: columns with the values they must have."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain, islice
from typing import Any

from drylay.compare.axes import Axis
from drylay.compare.cases import Cases
from drylay.compare.dotted import paths_in
from drylay.compare.plain import column_of, plain_value
from drylay.compare.row_reading import exact_of, told_value
from drylay.compare.study_model import Case
from drylay.compare.study_row import own_columns
from drylay.compare.terms import cell_of
from drylay.intake.places import Keys
from drylay.intake.tables import Reading, report
from drylay.intake.values import fault, unfit
from drylay.intake.words import nearest_of

#: Of the values that a column takes a fault names so many.
MOST_TOLD = 6
#: So many values of a column tell what it holds.
MOST_LOOKED = 1_000
Where = tuple[tuple[str, object], ...]


def is_value(figure: object, wanted: object) -> bool:
    """Return whether a figure is the one wanted, numbers as they are written; true is not 1."""
    exact, other = exact_of(figure), exact_of(wanted)
    if exact is not None and other is not None:
        return exact == other
    return figure == wanted and isinstance(figure, bool) == isinstance(wanted, bool)


def values_in(cases: Cases, column: str) -> Iterable[object] | None:
    """Return the values that a column of what is put in takes, None where it is none of them."""
    for axis in cases.axes:
        if axis.alternatives and axis.name == column:
            return axis.values
    among = [axis for axis in cases.axes if column in map(column_of, axis.paths)]
    return chain.from_iterable(_values(axis, column) for axis in among) if among else None


def _values(axis: Axis, column: str) -> Iterator[object]:
    if not axis.alternatives:
        yield from (cell_of(plain_value(value)) for value in axis.values)
        return
    for changes in axis.alternatives:
        held = {column_of(path): value for path, value in changes}
        yield cell_of(plain_value(held.get(column)))


def holds_words(cases: Cases, column: str) -> bool:
    """Return whether all that is put into a column is text, as far as some of it tells."""
    some = list(islice(values_in(cases, column) or (), MOST_LOOKED))
    return bool(some) and all(isinstance(each, str) for each in some)


def put_into(case: Case) -> Mapping[str, object]:
    """Return what a case's row tells of what was put into it."""
    held = {column_of(path): cell_of(plain_value(value)) for path, value in case.changes}
    return {**held, **dict(case.named)}


def cases_where(cases: Cases, where: Where) -> Iterator[tuple[int, Case]]:
    """Yield each case that has these values put in, with its number."""
    for number, case in enumerate(cases):
        told = put_into(case)
        if all(is_value(told.get(name), value) for name, value in where):
            yield number, case


def read_where(
    reading: Reading,
    keys: Keys,
    table: Mapping[str, Any],
    cases: Cases | None,
    *,
    of_rows: bool,
) -> Iterator[tuple[str, object]]:
    """Yield the columns that a question chooses by, with the values they must have.

    A column of what is put in has to take that value somewhere. Measures, which only rows have,
    are left to the rows.
    """
    given = table.get("where", {})
    if not isinstance(given, Mapping):
        report(reading, (*keys, "where"), unfit(given, "a table of columns and their values"))
        return
    for parts, value in paths_in(given):
        at, name = (*keys, "where", *parts), ".".join(parts)
        if cases is not None and check_column(reading, at, name, cases, of_rows=of_rows):
            _check_value(reading, at, cases, name, _plain(value))
        yield name, _plain(value)


def _plain(value: object) -> object:
    """Return a value as rows have it: a day as text."""
    try:
        return cell_of(plain_value(value))
    except TypeError:  # no row has it: told as such
        return value


def check_column(
    reading: Reading, keys: Keys, column: str, cases: Cases | None, *, of_rows: bool = True
) -> bool:
    """Report a column that no row will have: after hours of planning is too late."""
    if cases is None:
        return True
    names = (*cases.columns, *(sorted(own_columns()) if of_rows else ()))
    if column not in names:
        wanted = "a path that varies" + (", or a measure" if of_rows else "")
        wanted = f"a column of the rows: {wanted}"
        report(reading, keys, fault(f"{column[:60]!r}", wanted, nearest_of(column, names)))
    return column in names


def _check_value(reading: Reading, keys: Keys, cases: Cases, column: str, wanted: object) -> None:
    if not (values := values_in(cases, column)):
        return
    if not any(is_value(value, wanted) for value in values):
        some = islice(values_in(cases, column) or (), MOST_TOLD + 1)
        told = [told_value(value) for value in some]
        more = ", ..." if len(told) > MOST_TOLD else ""
        told_all = ", ".join(told[:MOST_TOLD])
        report(reading, keys, unfit(wanted, f"a value that it takes: {told_all}{more}"[:200]))
