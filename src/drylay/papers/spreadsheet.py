"""Tables as CSV files: UTF-8, RFC 4180, exact numbers, and no text that runs as a formula."""

import csv
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from io import StringIO

from drylay.papers.wording import size

Cell = str | int | float | Decimal | None
Row = Mapping[str, Cell]

#: What spreadsheets take for the beginning of a formula, the full-width signs of East Asian
#: keyboards among them. Common knowledge of people who test for such holes; from memory.
FORMULA_SIGNS = frozenset("=+-@＝＋－＠")
LINE_SIGNS = frozenset("\t\r\n")
#: Columns that hold a length end so; in plans of feet and inches each has a text beside it.
LENGTH, FEET = "_mm", "_ft_in"


def table_file(columns: Sequence[str], rows: Iterable[Row], units: str) -> bytes:
    """Return a table as a CSV file; a cell that a row leaves out is empty."""
    stream = StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([defused(column) for column in _widened(columns, units)])
    for row in rows:
        writer.writerow([_cell(row, column) for column in _widened(columns, units)])
    # half a sign, as a plan file can spell it, is no text: it is told by its number
    return stream.getvalue().encode("utf-8", "backslashreplace")


def _widened(columns: Sequence[str], units: str) -> list[str]:
    """Return the columns, in feet and inches a text column after each length."""
    if units != "imperial":
        return list(columns)
    return [
        name
        for column in columns
        for name in (
            [column, column.removesuffix(LENGTH) + FEET] if column.endswith(LENGTH) else [column]
        )
    ]


def _cell(row: Row, column: str) -> str:
    if not column.endswith(FEET):
        return written(row.get(column))
    length_mm = row.get(column.removesuffix(FEET) + LENGTH)
    # a level below the datum begins with a minus, which a spreadsheet would run
    return "" if length_mm is None else written(size(float(length_mm), "imperial"))


def written(cell: Cell) -> str:
    """Return a cell's text: numbers digit for digit, texts as they are unless they would run."""
    match cell:
        case None:
            return ""
        case str():
            return defused(cell)
        case float():
            return f"{Decimal(repr(float(cell))):f}".removesuffix(".0")
        case Decimal():
            return f"{cell:f}"
    return str(cell)


def defused(text: str) -> str:
    """Return a text with an apostrophe before it if a spreadsheet might run it as a formula.

    Some drop blanks before they look, so what follows blanks counts as well.
    """
    runs = text[:1] in LINE_SIGNS or text.lstrip()[:1] in FORMULA_SIGNS
    return f"'{text}" if text and runs else text
