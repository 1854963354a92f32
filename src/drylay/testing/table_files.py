"""Tables read from a folder: rows of text, and what is wrong with a file told, never raised."""

import csv
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.testing.timber_rows import Row

#: Larger than this is no table of cells.
MOST_BYTES = 5_000_000
SUFFIXES = (".csv", ".toml")
#: Where single values stand in a TOML file.
LIST_KEY = "value"


@frozen(kw_only=True)
class TableFile:
    """The rows of one file, column by column as text, and what is wrong with it."""

    name: str
    rows: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()
    usable: bool = True


def table_files(folder: str | Path) -> tuple[TableFile, ...]:
    """Return every CSV and TOML file of a folder as rows of text, in the order of their names.

    Raises:
        InputError: There is no such folder, or no such file in it.
    """
    try:
        paths = sorted(each for each in Path(folder).iterdir() if each.suffix in SUFFIXES)
    except OSError as error:
        found = (error.strerror or type(error).__name__).lower()
        raise _unusable(str(folder), found) from None
    if not paths:
        raise _unusable(str(folder), "no such file in it")
    return tuple(map(_read, paths))


def _read(path: Path) -> TableFile:
    try:
        if path.stat().st_size > MOST_BYTES:
            return _told(path, f"more than {MOST_BYTES} bytes")
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        return _told(path, (error.strerror or type(error).__name__).lower())
    except UnicodeDecodeError as error:
        return _told(path, f"not UTF-8 (at byte {error.start})")
    return _of_csv(path, text) if path.suffix == ".csv" else _of_toml(path, text)


def _of_csv(path: Path, text: str) -> TableFile:
    if not text.strip():
        return _told(path, "an empty file")
    try:
        reader = csv.DictReader(text.splitlines(), strict=True)
        header = list(reader.fieldnames or ())
        rows = list(reader)
    except csv.Error as error:
        return _told(path, f"no CSV: {error}")
    notes = [*_twice(header), *_ragged(rows)]
    if not rows:
        notes.append("a header and no rows")
    return TableFile(name=path.name, rows=tuple(map(_tidy, rows)), notes=tuple(notes))


def _of_toml(path: Path, text: str) -> TableFile:
    try:
        content = tomllib.loads(text)
        listed = content.get(LIST_KEY)
        if not isinstance(listed, list) or not all(isinstance(each, dict) for each in listed):
            return _told(path, f"no list of tables [[{LIST_KEY}]]")
        rows = tuple({key: str(value) for key, value in each.items()} for each in listed)
    except (ValueError, RecursionError) as error:  # a fault of TOML is a ValueError
        return _told(path, f"no TOML: {error}")
    return TableFile(name=path.name, rows=rows)


def _twice(header: list[str]) -> Iterator[str]:
    for name in dict.fromkeys(name for name in header if header.count(name) > 1):
        yield f"the column {name!r} stands there more than once, the last one counts"


def _ragged(rows: list[dict[str | None, object]]) -> Iterator[str]:
    for place, row in enumerate(rows, start=1):
        if None in row:
            yield f"row {place} has more cells than the header"
        elif None in row.values():
            yield f"row {place} has fewer cells than the header"


def _tidy(row: Mapping[str | None, object]) -> Row:
    return {key: str(text) for key, text in row.items() if key is not None and text is not None}


def _told(path: Path, note: str) -> TableFile:
    return TableFile(name=path.name, notes=(note,), usable=False)


def _unusable(folder: str, found: str) -> InputError:
    wanted = "a folder with tables, CSV or TOML"
    return InputError((Fault(path=folder, found=found, wanted=wanted),))
