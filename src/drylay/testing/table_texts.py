"""What came of outside tables, for people and as plain data."""

from collections.abc import Iterator, Sequence
from math import isnan

from drylay.testing.model import Cell, TableRead
from drylay.testing.timber_rows import standing_of
from drylay.testing.timber_tables import counts_of

_GROUPED = ("not worked out", "unread")


def tables_text(tables: Sequence[TableRead]) -> str:
    """Return all tables for people: counts, each cell that misses, and why others are no match."""
    lines = [line for table in tables for line in _table_lines(table)]
    totals: dict[str, int] = {}
    for table in tables:
        for standing, count in counts_of(table).items():
            totals[standing] = totals.get(standing, 0) + count
    return "\n".join([*lines, f"all tables: {_counted(totals)}"])


def tables_plain(tables: Sequence[TableRead]) -> list[dict[str, object]]:
    """Return all tables as plain data, every cell with how it stands."""
    return [
        {
            "table": table.table,
            "usable": table.usable,
            "counts": counts_of(table),
            "notes": list(table.notes),
            "cells": [_plain(cell) for cell in table.cells],
        }
        for table in tables
    ]


def _plain(cell: Cell) -> dict[str, object]:
    return {
        "cell": cell.cell,
        "wanted": None if isnan(cell.wanted) else cell.wanted,
        "found": cell.found,
        "unit": cell.unit,
        "tolerance": cell.tolerance,
        "standing": standing_of(cell),
        "why": cell.why,
    }


def _table_lines(table: TableRead) -> Iterator[str]:
    yield f"{table.table}: {_counted(counts_of(table)) if table.usable else 'not used'}"
    yield from (f"  note: {note}" for note in table.notes)
    for cell in table.cells:
        if standing_of(cell) == "missed":
            yield f"  missed {cell.cell}: {_figures(cell)}{_because(cell)}"
    for standing in _GROUPED:
        for why, cells in _by_reason(table, standing).items():
            more = f" and {len(cells) - 1} more" if len(cells) > 1 else ""
            yield f"  {standing} {cells[0].cell}{more}: {why}"


def _by_reason(table: TableRead, standing: str) -> dict[str, list[Cell]]:
    found: dict[str, list[Cell]] = {}
    for cell in table.cells:
        if standing_of(cell) == standing:
            found.setdefault(cell.why or "no reason told", []).append(cell)
    return found


def _figures(cell: Cell) -> str:
    within = f"within {cell.tolerance:g}" if cell.tolerance else "exactly"
    unit = f" {cell.unit}" if cell.unit else ""
    return f"wanted {cell.wanted:g}{unit} {within}, found {cell.found:.6g}{unit}"


def _because(cell: Cell) -> str:
    return f"; {cell.why}" if cell.why else ""


def _counted(counts: dict[str, int]) -> str:
    told = [f"{count} {standing}" for standing, count in counts.items() if count]
    return f"{sum(counts.values())} cells, {', '.join(told)}" if told else "no cells"
