"""The first row of a CSV stock file: where the columns are, or what keeps them from being found."""

from collections.abc import Iterator
from itertools import islice

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.sheet import Row, sheet_rows
from drylay.intake.shown import shown_text
from drylay.intake.sources import FileGiven
from drylay.materials.mapping_keys import DELIMITERS
from drylay.materials.mapping_model import SheetMapping
from drylay.materials.sheet_columns import Columns, find_columns, names_wanted

#: So many rows are looked through for one that names the columns.
MOST_LOOKED = 110


def read_header(
    file: FileGiven, mapping: SheetMapping, rows: Iterator[Row | Fault]
) -> tuple[Columns | None, list[Fault]]:
    """Return where the columns are; None and what is wrong where they are not found."""
    heard: list[Fault] = []
    for row in rows:
        if isinstance(row, Fault):
            heard.append(row)
        elif any(found.path == "encoding" for found in heard):
            return None, heard  # what these letters are is not known: no column is looked for
        else:
            columns, faults = _columns(file, mapping, row)
            return columns, [*heard, *faults]
    wanted = "a first row that names the columns, and rows of articles"
    nothing = Fault(file=file.name, path="catalogue", found="nothing", wanted=wanted)
    return None, heard or [nothing]


def _columns(
    file: FileGiven, mapping: SheetMapping, row: Row
) -> tuple[Columns | None, list[Fault]]:
    columns, faults = find_columns(mapping, row[1])
    if columns is not None:
        return columns, []
    names = names_wanted(mapping)
    other = _other_encoding(mapping, row, names)
    if other is not None:
        return None, [evolve(other, file=file.name)]
    if names & set(row[1]):
        return None, faults
    return None, [_no_column(file, mapping, row, names)]


def _other_encoding(mapping: SheetMapping, row: Row, names: set[str]) -> Fault | None:
    """Return the fault of a row whose columns are found when its bytes are read as UTF-8."""
    encoding = mapping.sheet.encoding
    try:
        read = {cell.encode(encoding).decode("utf-8") for cell in row[1]}
    except UnicodeError:
        return None
    if encoding == "utf-8" or len(names & read) <= len(names & set(row[1])):
        return None
    odd = next((cell for cell in row[1] if not cell.isascii()), row[1][0])
    return Fault(
        line=row[0],
        column=1,
        path="encoding",
        found=f"{shown_text(odd)} in the first row, which is UTF-8",
        wanted=f"{encoding}, as the mapping says",
        nearest='encoding = "utf-8" in the mapping',
    )


def _no_column(file: FileGiven, mapping: SheetMapping, row: Row, names: set[str]) -> Fault:
    """Return the fault of a first row that names no column of the mapping."""
    count = len(row[1])
    wanted = ", ".join(sorted(names)[:8]) + (", ..." if len(names) > 8 else "")
    return Fault(
        file=file.name,
        line=row[0],
        column=1,
        path="row",
        found=f"{count} cell{'s' if count > 1 else ''}, {shown_text(row[1][0])} first, and none of "
        "the mapping's columns",
        wanted=f"a first row with {wanted}",
        nearest=_form_fix(file, mapping, row, names),
    )


def _form_fix(file: FileGiven, mapping: SheetMapping, row: Row, names: set[str]) -> str:
    """Return what in the mapping's [file] would find the columns, "" if nothing is seen to."""
    for told, mark in DELIMITERS.items():
        cells = {cell.strip('"') for cell in row[2][0].rstrip("\r\n").split(mark)}
        if names & cells:
            return f'delimiter = "{told}" in the mapping'
    whole = evolve(mapping.sheet, skip_lines=0)
    looked = islice(sheet_rows(file, whole, what="catalogue"), MOST_LOOKED)
    for other in looked:
        if not isinstance(other, Fault) and names & set(other[1]):
            return f"skip_lines = {other[0] - 1} in the mapping"
    stripped = {cell.strip().lower(): cell for cell in row[1]}
    if any(name.lower() in stripped for name in names):
        return "the columns as the first row writes them"
    return ""
