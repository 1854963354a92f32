"""Readings are read here: a TOML file or a mapping in, readings out, or every fault at once.

    [[reading]]
    row = 10
    edge_left = "1498 mm"
    edge_right_mm = 1494
    widths_mm = [145.5, 145, 146]
    cut = ["B11.1", "B11.2"]

`cut` lists the marks of pieces cut already, those of rows that lie left out; `true` means that all
are, `false` none.
"""

import os
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from drylay.correcting.model import ALL, EdgeReading
from drylay.counting import counted
from drylay.errors import InputError
from drylay.intake.document import open_document
from drylay.intake.keys import Key, count, length, lengths, text
from drylay.intake.tables import UNREADABLE, Reading, all_faults, read_tables, report
from drylay.intake.values import fault, unfit

MOST_BYTES = 1_000_000
#: Rows, lengths and texts beyond these are slips. Assumption.
MOST_ROWS, MOST_MM, MOST_BOARD_MM, MOST_MARKS = 10_000, 100_000.0, 2_000.0, 10_000
KEYS: tuple[Key, ...] = (
    count("row", 1, MOST_ROWS, required=True),
    length("edge_left_mm", 1, MOST_MM, required=True),
    length("edge_right_mm", 1, MOST_MM, required=True),
    text("date", 40),
    lengths("widths_mm", 1, MOST_BOARD_MM),
    length("together_mm", 1, MOST_MM),
    length("target_left_mm", 1, MOST_MM),
    length("target_right_mm", 1, MOST_MM),
    length("row_length_mm", 1, MOST_MM),
)


@counted
def read_readings(
    source: str | os.PathLike[str] | Mapping[str, object],
) -> tuple[EdgeReading, ...]:
    """Return the readings in a TOML file or a mapping, in the order of the file.

    A text is a path, bytes are the file itself. `cut = true` is told as `ALL`.

    Raises:
        InputError: With everything that is wrong, each with place, found and wanted.
    """
    document, faults = open_document(source, what="readings", most_bytes=MOST_BYTES)
    if document is None:
        raise InputError(faults)
    reading = Reading(document=document)
    found = _read(reading)
    if reading.faults:
        raise InputError(all_faults(reading))
    return tuple(found)


def _read(reading: Reading) -> list[EdgeReading]:
    """Return what could be read; what is wrong is on the reading's list."""
    tables = _tables(reading)
    bare = [_without_cut(table) for table in tables]
    answers = read_tables(reading, ("reading",), bare, KEYS)
    cuts = [_cut(reading, at, table) for at, table in enumerate(tables)]
    _check_order(reading, answers)
    if reading.faults:
        return []
    return [_edge(answer, cut) for answer, cut in zip(answers, cuts, strict=True)]


def _tables(reading: Reading) -> list[Any]:
    tables = reading.document.tables
    for name in tables:
        if name != "reading":
            nearest = "reading" if str(name).startswith("read") else ""
            found = fault(f"an unknown key {str(name)[:40]!r}", "[[reading]] only", nearest)
            report(reading, (str(name),), found, at_key=True)
    held = tables.get("reading")
    if not isinstance(held, list | tuple) or not held:
        report(reading, ("reading",), unfit(held, "one [[reading]] or more"))
        return []
    return list(held)


def _without_cut(table: Any) -> Any:
    if not isinstance(table, Mapping):
        return table
    return {key: value for key, value in table.items() if key != "cut"}


def _cut(reading: Reading, at: int, table: Any) -> tuple[str, ...]:
    """Return the marks cut already."""
    cut = table.get("cut", False) if isinstance(table, Mapping) else False
    if isinstance(cut, bool):
        return ALL if cut else ()
    marks = cut if isinstance(cut, list | tuple) else ()
    fine = marks and all(isinstance(mark, str) and 0 < len(mark) <= 40 for mark in marks)
    if not fine or len(marks) > MOST_MARKS:
        wanted = 'true, false, or a list of marks such as ["B11.1"]'
        report(reading, ("reading", at, "cut"), unfit(cut, wanted))
        return ()
    return tuple(dict.fromkeys(marks))


def _check_order(reading: Reading, answers: list[dict[str, object]]) -> None:
    """Report a reading that is not after more rows than the one before it."""
    rows = [answer.get("row") for answer in answers]
    for at, (before, row) in enumerate(pairwise(rows), 1):
        if isinstance(before, int) and isinstance(row, int) and row <= before:
            wanted = f"{before + 1} or more: each reading after more rows than the one before"
            report(reading, ("reading", at, "row"), fault(str(row), wanted))


def _edge(answer: dict[str, object], cut: tuple[str, ...]) -> EdgeReading:
    assert UNREADABLE not in answer.values()
    told: dict[str, Any] = {**answer}
    row, left, right = (told.pop(name) for name in ("row", "edge_left_mm", "edge_right_mm"))
    return EdgeReading(rows_laid=row, left_mm=left, right_mm=right, cut=cut, **told)
