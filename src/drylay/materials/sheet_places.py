"""What a CSV stock file is read with, and where in it a fault stands."""

import sqlite3
from typing import Any, NamedTuple

from attrs import define, evolve, field

from drylay.errors import Fault
from drylay.intake.document import placed
from drylay.intake.sheet import Row, cell_place
from drylay.materials.mapping_model import SheetMapping
from drylay.materials.sheet_columns import CellOf, Columns, Reckoning
from drylay.materials.stock_model import ArticleRule


class Run(NamedTuple):
    """Rows of one article that stand together: its facts, read once, and the sizes they sell.

    `code` is "" where it could not be read. A tuple, because a long list has many.
    """

    reckoning: Reckoning
    word: str
    code: str
    picked: tuple[str, ...]
    row: Row
    facts: dict[str, Any]
    rules: tuple[ArticleRule, ...]
    sizes: dict[float, Row]


@define(kw_only=True, eq=False)
class Reading:
    """A file being read: its mapping, where its columns are, and what it has had so far.

    `runs` and `gtins` wait to be put on the shelf; `again`: codes have come again of late.
    """

    file: str
    mapping: SheetMapping
    columns: Columns
    seen: sqlite3.Connection
    runs: list[Run] = field(factory=list)
    gtins: list[tuple[int, Run, Row]] = field(factory=list)
    again: bool = False


def at_name(reading: Reading, row: Row, reckoning: Reckoning, name: str, found: Fault) -> Fault:
    """Return a fault with the place of the cell that holds a key, or of the constant that does."""
    for cell in (*reckoning.own, *reckoning.common, *reckoning.sold, *reckoning.rules):
        if cell.name == name:
            return at_cell(reading, row, cell, found)
    if name in reckoning.constants or name in reckoning.sold_constants:
        there = (*reckoning.there, "constants", name)
        return placed(reading.mapping.document, there, evolve(found, path=""))
    return in_row(reading, row, 0, evolve(found, path=name))


def at_cell(reading: Reading, row: Row, cell: CellOf, found: Fault) -> Fault:
    """Return a fault with the place of a cell, told by its key and its column."""
    path = cell.name if cell.column == cell.name else f"{cell.name} ({cell.column})"
    return in_row(reading, row, cell.at, evolve(found, path=path))


def in_row(reading: Reading, row: Row, at: int, found: Fault) -> Fault:
    """Return a fault with the place of so-many-th cell of a row."""
    line, column = cell_place(row, at, reading.mapping.sheet.delimiter)
    return evolve(found, file=reading.file, line=line, column=column)
