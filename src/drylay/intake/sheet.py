"""A CSV file row by row, never whole: every row with its line, every fault with its place."""

import csv
from collections import deque
from collections.abc import Iterator
from typing import BinaryIO

from attrs import frozen

from drylay.errors import Fault
from drylay.intake.sources import SPREADSHEETS, UNOPENED, FileGiven, unopened

#: What a file may be written in. None of them has line ends or marks inside a letter.
ENCODINGS = ("utf-8", "windows-1252", "iso-8859-1", "iso-8859-15")
#: No line of a price list is as long, in bytes; no cell runs over as many lines.
MOST_LINE, MOST_LINES = 1_000_000, 50

_BOM = b"\xef\xbb\xbf"
_WIDE_BOMS = (b"\xff\xfe", b"\xfe\xff")
_OTHER_ENCODING = 'encoding = "windows-1252" in the mapping, if that is how it was saved'

_OPEN_QUOTE = "a quote that is never closed, or is followed by more than the next delimiter"
_WHOLE_QUOTES = 'quotes round a whole cell, and a quote in it doubled: "1"" wide"'

#: The line a row begins on, its cells, and its lines as they stand in the file.
Row = tuple[int, list[str], list[str]]


@frozen(kw_only=True)
class SheetForm:
    """How a CSV file is written: told beforehand, never guessed."""

    encoding: str
    delimiter: str
    skip_lines: int = 0
    trim: bool = False


def sheet_rows(file: FileGiven, form: SheetForm, *, what: str) -> Iterator[Row | Fault]:
    """Yield every row that is not blank, and a fault for every one that cannot be read."""
    try:
        with file.open() as stream:
            yield from _rows(stream, form, file.name)
    except UNOPENED as error:
        yield unopened(file.name, error, what=what)


def _rows(stream: BinaryIO, form: SheetForm, name: str) -> Iterator[Row | Fault]:
    wrong: list[Fault] = []
    source = _lines(stream, form, name, wrong)
    pushed: deque[str] = deque()
    line = form.skip_lines + 1
    for _ in range(form.skip_lines):
        next(source, "")
    while True:
        lines: list[str] = []
        reader = csv.reader(_fed(source, pushed, lines), delimiter=form.delimiter, strict=True)
        try:
            for cells in reader:
                yield from wrong
                wrong.clear()
                if any(cells):
                    yield line, _trimmed(cells) if form.trim else cells, lines.copy()
                line += len(lines)
                lines.clear()
            yield from wrong
            return
        except csv.Error as error:
            yield from (*wrong, _torn(name, line, lines, str(error)))
            wrong.clear()
            # what a runaway quote has swallowed is read again, row by row
            pushed.extendleft(reversed(lines[1:]))
            line += 1


def _trimmed(cells: list[str]) -> list[str]:
    return [cell.strip(" \u00a0\t") for cell in cells]


def _fed(source: Iterator[str], pushed: deque[str], lines: list[str]) -> Iterator[str]:
    """Yield lines to the reader, those pushed back first, and keep those of the row at hand."""
    while True:
        text = pushed.popleft() if pushed else next(source, None)
        if text is None:
            return
        lines.append(text)
        if len(lines) > MOST_LINES:
            raise csv.Error("runaway")
        yield text


def _lines(stream: BinaryIO, form: SheetForm, name: str, wrong: list[Fault]) -> Iterator[str]:
    """Yield the lines of a file as text; what is wrong with their bytes goes on the list."""
    line, encoding = 1, form.encoding
    raw = stream.readline(MOST_LINE)
    raw, marked = _unmarked(raw, encoding)
    if raw.startswith(SPREADSHEETS):
        wrong.append(Fault(file=name, line=1, column=1, path="catalogue", found="a spreadsheet",
                           wanted="a CSV file", nearest="save it as CSV UTF-8"))  # fmt: skip
        return
    if marked:
        fix = 'encoding = "utf-8" in the mapping' if "UTF-8" in marked else "save it as CSV UTF-8"
        wrong.append(Fault(file=name, line=1, column=1, path="encoding", found=marked,
                           wanted=f"{encoding}, as the mapping says", nearest=fix))  # fmt: skip
        if "UTF-8" not in marked:
            return
    while raw:
        try:
            yield raw.decode(encoding)
        except UnicodeDecodeError as error:
            before = raw[: error.start].decode(encoding, "replace")
            wrong.append(Fault(file=name, line=line, column=len(before) + 1, path="encoding",
                               found=f"a byte {raw[error.start]:#04x} that is no letter",
                               wanted=f"{encoding}, as the mapping says",
                               nearest=_OTHER_ENCODING if encoding == "utf-8" else ""))  # fmt: skip
            yield raw.decode(encoding, "replace")
        if len(raw) == MOST_LINE and not raw.endswith(b"\n"):
            wrong.append(Fault(file=name, line=line, column=1, path="row",
                               found=f"a line of more than {MOST_LINE // 1000} kB",
                               wanted="one row on a line"))  # fmt: skip
            _run_out(stream)
        line += 1
        raw = stream.readline(MOST_LINE)


def _unmarked(raw: bytes, encoding: str) -> tuple[bytes, str]:
    """Return the first line without a byte order mark, and the mark if it is another's."""
    if raw.startswith(_WIDE_BOMS):
        return raw, "UTF-16, by its byte order mark"
    if not raw.startswith(_BOM):
        return raw, ""
    return raw.removeprefix(_BOM), "" if encoding == "utf-8" else "UTF-8, by its byte order mark"


def _run_out(stream: BinaryIO) -> None:
    """Read on to the end of a line that is too long."""
    while (raw := stream.readline(MOST_LINE)) and not raw.endswith(b"\n"):
        pass


def _torn(name: str, line: int, lines: list[str], error: str) -> Fault:
    """Return the fault of a row that is no CSV."""
    text = lines[0] if lines else ""
    if "new-line" in error:
        told = ("a line end in the middle of a line", "lines that all end in LF or CRLF")
        column = text.find("\r") + 1
    elif "field limit" in error:
        told, column = ("a cell of more than 131 kB", "cells of a price list"), 1
    else:
        told, column = (_OPEN_QUOTE, _WHOLE_QUOTES), text.rfind('"') + 1
    found, wanted = told
    return Fault(
        file=name, line=line, column=max(column, 1), path="row", found=found, wanted=wanted
    )


def cell_place(row: Row, at: int, delimiter: str) -> tuple[int, int]:
    """Return the line and column where a cell begins, or where the row ends if it has no such."""
    line, column, quoted, cell = row[0], 1, False, 0
    for text in row[2]:
        for glyph in text.rstrip("\r\n"):
            if cell == at and not quoted:
                return line, column
            quoted ^= glyph == '"'
            cell += glyph == delimiter and not quoted
            column += 1
        if cell == at and not quoted:
            return line, column
        if quoted:
            line, column = line + 1, 1
    return line, column
