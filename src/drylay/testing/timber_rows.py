"""How a row of an outside table becomes cells: its numbers read, each fault told in its cell."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import inf, isfinite, nan

from attrs import frozen

from drylay.errors import DrylayError
from drylay.testing.model import Cell

Row = Mapping[str, str]
Rows = Sequence[Row]
#: What a file's rows come to. One row may have many cells, or none.
Answering = Callable[[Rows], tuple[Cell, ...]]
#: What binary fractions may lose: no difference in any table.
NOISE = 1e-9
#: What stands where a value is kept back for later.
KEPT_BACK = "\u00b7"


class CellError(DrylayError):
    """A cell cannot be worked out; the message says why."""


@frozen(kw_only=True)
class Column:
    """One column of answers: how each is worked out from its row, and how near it must come."""

    name: str
    unit: str
    tolerance: float
    find: Callable[[Row], float]


def text_of(row: Row, column: str) -> str:
    """Return what stands in a column, without blanks around it.

    Raises:
        CellError: The row has no such column, or nothing in it.
    """
    text = (row.get(column) or "").strip()
    if not text:
        raise CellError(f"no {column} in this row")
    if text == KEPT_BACK:
        raise CellError(f"{column} is kept back")
    return text


def number_of(row: Row, column: str, *, least: float = -inf) -> float:
    """Return the number in a column.

    Raises:
        CellError: There is none, it is not finite, or it is below `least`.
    """
    text = text_of(row, column)
    try:
        value = float(text)
    except ValueError:
        raise CellError(f"{column} is no number: {text!r}") from None
    if not isfinite(value) or value < least:
        raise CellError(f"{column} is out of range: {text!r}")
    return value


def whole_of(row: Row, column: str, *, least: int = 0, most: int = 10_000) -> int:
    """Return the whole number in a column.

    Raises:
        CellError: There is none, or it is not within `least` and `most`.
    """
    value = number_of(row, column)
    if value != int(value) or not least <= value <= most:
        raise CellError(f"{column} is no whole number from {least} to {most}: {row[column]!r}")
    return int(value)


def cells_of(table: str, rows: Rows, key: str, columns: Sequence[Column]) -> tuple[Cell, ...]:
    """Return every cell of a table whose rows are named by the column `key`."""
    return tuple(
        cell_of(table, name, row, column)
        for row, name in zip(rows, _names(rows, key), strict=True)
        for column in columns
    )


def cell_of(table: str, name: str, row: Row, column: Column) -> Cell:
    """Return one cell: what is wanted there and what was found, or why not."""
    found, silent = found_of(row, column.find)
    wanted, unread = wanted_of(row, column.name)
    return Cell(
        table=table,
        cell=f"{name}:{column.name}",
        wanted=wanted,
        found=found,
        unit=column.unit,
        tolerance=column.tolerance,
        why="; ".join(filter(None, (unread, silent))),
    )


def wanted_of(row: Row, column: str) -> tuple[float, str]:
    """Return the number that a row wants, nan and why where it tells none."""
    try:
        return number_of(row, column), ""
    except CellError as error:
        return nan, str(error)


def found_of(row: Row, find: Callable[[Row], float]) -> tuple[float | None, str]:
    """Return what drylay works out for a row, None and why where it does not."""
    try:
        found = float(find(row))
    except (DrylayError, ArithmeticError) as error:
        return None, str(error) or type(error).__name__
    return (found, "") if isfinite(found) else (None, "no finite answer")


def matches(cell: Cell) -> bool:
    """Return whether what was found is within the tolerance of what is wanted."""
    return cell.found is not None and abs(cell.found - cell.wanted) <= cell.tolerance + NOISE * max(
        1.0, abs(cell.wanted)
    )


def standing_of(cell: Cell) -> str:
    """Return "matched", "missed", or "unread" where the table tells no number to compare."""
    if cell.wanted != cell.wanted:
        return "unread"
    return "matched" if matches(cell) else "missed"


def _names(rows: Rows, key: str) -> Iterator[str]:
    for place, row in enumerate(rows, start=1):
        yield (row.get(key) or "").strip() or f"row {place}"
