"""Folders of outside tables, each cell worked out again and compared.

A file is known by its name. The files in `HOLDERS` each hold a mapping `TABLES` from a file's name
to the function that works out its cells; a file that more than one of them knows
(`check-values.toml`) gets the cells of all. Rows come as text, column by column.
`BESIDE`, where there is one, names functions that look at other files of the folder as well, and
`COLUMNS` what columns a file may have.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache, partial
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from types import ModuleType

from drylay.testing.example_rows import TABLE as EXAMPLES
from drylay.testing.model import Cell, TableRead
from drylay.testing.table_files import TableFile, table_files
from drylay.testing.timber_rows import CellError, Column, Rows, cell_of, standing_of

#: The files of this package that hold a mapping `TABLES`.
HOLDERS: Sequence[str] = ("us_tables", "wood_tables", "site_examples", "ec5_tables")
#: A row of single values that is an answer, not something given.
_RESULT = "result"


def read_timber_tables(folder: str | Path) -> tuple[TableRead, ...]:
    """Return what comes of every CSV and TOML file of a folder, in the order of their names.

    Nothing of a file is trusted: what cannot be read or worked out is told in its notes or cells.

    Raises:
        InputError: There is no such folder, or no such file in it.
    """
    files = table_files(folder)
    rows = {file.name: file.rows for file in files}
    return tuple(_table(file, rows) for file in files)


def known_files() -> tuple[str, ...]:
    """Return the names of all files that drylay knows as tables."""
    names = [name for holder in _holders() for name in holder.TABLES]
    return tuple(sorted(dict.fromkeys(names)))


def _table(file: TableFile, others: Mapping[str, Rows]) -> TableRead:
    answering = _answering(file.name, others)
    if not file.usable:
        return TableRead(table=file.name, notes=file.notes, usable=False)
    if not answering:
        note = f"no table that drylay knows by its name: {', '.join(known_files())}"
        return TableRead(table=file.name, notes=(*file.notes, note), usable=False)
    cells = tuple(cell for work_out in answering for cell in work_out(file.rows))
    notes = [*file.notes, *_unknown_columns(file)]
    if file.name == EXAMPLES:
        unknown, left = _unanswered(file.rows, {cell.cell for cell in cells})
        cells, notes = (*cells, *unknown), [*notes, *left]
    return TableRead(table=file.name, cells=cells, notes=tuple(notes))


def _answering(
    name: str, others: Mapping[str, Rows]
) -> tuple[Callable[[Rows], tuple[Cell, ...]], ...]:
    found: list[Callable[[Rows], tuple[Cell, ...]]] = []
    for holder in _holders():
        beside = getattr(holder, "BESIDE", {}).get(name)
        if beside is not None:
            found.append(partial(_both, beside, others))
        elif name in holder.TABLES:
            found.append(holder.TABLES[name])
    return tuple(found)


def _both(
    work_out: Callable[[Rows, Mapping[str, Rows]], tuple[Cell, ...]],
    others: Mapping[str, Rows],
    rows: Rows,
) -> tuple[Cell, ...]:
    return work_out(rows, others)


@cache
def _holders() -> tuple[ModuleType, ...]:
    names = [f"drylay.testing.{holder}" for holder in HOLDERS]
    return tuple(import_module(name) for name in names if find_spec(name) is not None)


def _unknown_columns(file: TableFile) -> Iterator[str]:
    for holder in _holders():
        known = getattr(holder, "COLUMNS", {}).get(file.name)
        if known is not None:
            columns = dict.fromkeys(column for row in file.rows for column in row)
            yield from (f"unknown column {name!r}" for name in columns if name not in known)


def _unanswered(rows: Rows, known: set[str]) -> tuple[list[Cell], list[str]]:
    """Return a cell for each answer that nothing works out, and how many rows are none."""
    left = [row for row in rows if (row.get("id") or "").split(":")[0] not in known]
    results = [row for row in left if row.get("role") == _RESULT]
    cells = [_nobody(row, place) for place, row in enumerate(results, start=1)]
    given = len(left) - len(results)
    note = f"{given} rows give rules and inputs that are no answers, and are left alone"
    return cells, [note] if given else []


def _nobody(row: Mapping[str, str], place: int) -> Cell:
    def find(_: Mapping[str, str]) -> float:
        raise CellError(f"no worked example is known by {row.get('name') or 'no name'!r}")

    column = Column(name="value", unit=row.get("unit") or "", tolerance=0.0, find=find)
    return cell_of(EXAMPLES, row.get("id") or f"result {place}", row, column)


def counts_of(table: TableRead) -> dict[str, int]:
    """Return how many cells of a table stand how; see `standing_of`."""
    counts = dict.fromkeys(("matched", "missed", "not worked out", "unread"), 0)
    for cell in table.cells:
        counts[standing_of(cell)] += 1
    return counts


def all_match(tables: Sequence[TableRead]) -> bool:
    """Return whether every file could be used and no cell misses."""
    return all(table.usable and not counts_of(table)["missed"] for table in tables)
