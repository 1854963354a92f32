"""How a row of an outside table becomes cells: its numbers read, each fault told in its cell."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import inf, isfinite, isnan, nan

from attrs import evolve, frozen

from drylay.errors import DrylayError, InputError
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
    """One column of answers: how each is worked out from its row, and how near it must come.

    `tolerance` is in the column's unit, `share` a part of what is wanted; the larger holds.
    """

    name: str
    unit: str
    tolerance: float
    find: Callable[[Row], float]
    share: float = 0.0


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
        cell_of(table, f"{name}:{column.name}", row, column)
        for row, name in zip(rows, _names(rows, key), strict=True)
        for column in columns
    )


def cell_of(table: str, name: str, row: Row, column: Column) -> Cell:
    """Return one cell: what is wanted there and what was found, or why not.

    Where a found number misses, `why` gives the table's own remarks on its row.
    """
    wanted, found = wanted_of(row, column.name), found_of(row, column.find)
    return compared((table, name), row, column, wanted=wanted, found=found)


def compared(
    where: tuple[str, str],
    row: Row,
    column: Column,
    *,
    wanted: tuple[float, str],
    found: tuple[float | None, str],
) -> Cell:
    """Return the cell of a table and name: what is wanted beside what was found, each with why not.

    Where a found number misses, `why` gives the table's own remarks on its row.
    """
    share = 0.0 if isnan(wanted[0]) else column.share * abs(wanted[0])
    cell = Cell(
        table=where[0],
        cell=where[1],
        wanted=wanted[0],
        found=found[0],
        unit=column.unit,
        tolerance=max(column.tolerance, share),
        why="; ".join(filter(None, (wanted[1], found[1]))),
    )
    return evolve(cell, why=remarks_on(row)) if standing_of(cell) == "missed" else cell


def share_of(row: Row, otherwise: float = 0.0) -> float:
    """Return the part of its value that a row's own `tol` allows; `otherwise` where it has none.

    0, an exact match, where that is no number: nothing is let pass by what cannot be read.
    """
    if not (row.get("tol") or "").strip():
        return otherwise
    try:
        return number_of(row, "tol", least=0.0)
    except CellError:
        return 0.0


def remarks_on(row: Row) -> str:
    """Return what a row says of itself: how its value was seen, what a check gave, its note."""
    said = [(row.get(key) or "").strip() for key in ("status", "check", "note")]
    return "the table says: " + "; ".join(filter(None, said)) if any(said) else ""


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
    except (DrylayError, ArithmeticError, ValueError) as error:
        return None, _in_a_line(error)
    return (found, "") if isfinite(found) else (None, "no finite answer")


def matches(cell: Cell) -> bool:
    """Return whether what was found is within the tolerance of what is wanted."""
    return cell.found is not None and abs(cell.found - cell.wanted) <= cell.tolerance + NOISE * max(
        1.0, abs(cell.wanted)
    )


def standing_of(cell: Cell) -> str:
    """Return what came of a cell.

    "matched" or "missed"; "not worked out" where drylay has no answer to a number; "unread"
    where the table tells no number to compare with.
    """
    if isnan(cell.wanted):
        return "unread"
    if cell.found is None:
        return "not worked out"
    return "matched" if matches(cell) else "missed"


def _in_a_line(error: Exception) -> str:
    if isinstance(error, InputError):
        return "; ".join(map(str, error.faults))
    return str(error) or type(error).__name__


def _names(rows: Rows, key: str) -> Iterator[str]:
    for place, row in enumerate(rows, start=1):
        yield (row.get(key) or "").strip() or f"row {place}"
