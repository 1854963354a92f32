"""What is read: a TOML file with its places, or a mapping a program hands over."""

import re
import tomllib
from collections.abc import Mapping

from attrs import evolve, field, frozen

from drylay.errors import Fault
from drylay.intake.places import Keys, Places, line_and_column, line_starts, places_of
from drylay.intake.shown import shown_word
from drylay.intake.sources import SPREADSHEETS, UNOPENED, file_given, no_file, unopened
from drylay.intake.syntax import Slip, slip_in

#: tomllib takes time in the square of a dotted key's parts, so a longer one is not begun.
_ENDLESS_KEY = re.compile(r"(?<![\w\"'-])(?:[\w\"'-]++[ \t]*+\.[ \t]*+){40}")
_AT_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

_DIGITS = re.compile(r"[0-9_]{100,}")


@frozen(kw_only=True)
class Document:
    """An input: its tables, and for a file its name, text, line starts and places of keys."""

    tables: Mapping[str, object]
    file: str = ""
    text: str = ""
    starts: tuple[int, ...] = (0,)
    places: Places = field(factory=dict)


def open_document(
    source: object, *, what: str, most_bytes: int
) -> tuple[Document | None, tuple[Fault, ...]]:
    """Return the document in a file or in a mapping, or None and what is wrong with it."""
    if isinstance(source, Mapping):
        return Document(tables=source), ()
    file = file_given(source, what=what)
    if file is None:
        return None, (no_file(source, what=what),)
    try:
        with file.open() as stream:
            raw = stream.read(most_bytes + 1)
    except UNOPENED as error:
        return None, (unopened(file.name, error, what=what),)
    return _parsed(file.name, raw, what, most_bytes)


def _fault(
    file: str, path: str, found: str, wanted: str, *, place: tuple[int, int] = (0, 0)
) -> Fault:
    line, column = place
    return Fault(file=file, path=path, found=found, wanted=wanted, line=line, column=column)


def _parsed(
    file: str, raw: bytes, what: str, most_bytes: int
) -> tuple[Document | None, tuple[Fault, ...]]:
    if len(raw) > most_bytes:
        wanted = f"a file of at most {most_bytes // 1000} kB"
        return None, (_fault(file, what, f"more than {most_bytes // 1000} kB", wanted),)
    if raw.startswith(SPREADSHEETS):
        wanted = "TOML, or CSV with a mapping: save it as CSV UTF-8"
        return None, (_fault(file, what, "a spreadsheet", wanted, place=(1, 1)),)
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - raw.rfind(b"\n", 0, error.start)
        return None, (
            _fault(file, what, "bytes that are not text", "UTF-8 text", place=(line, column)),
        )
    return _read_toml(file, text, what)


def _read_toml(file: str, text: str, what: str) -> tuple[Document | None, tuple[Fault, ...]]:
    endless = _ENDLESS_KEY.search(text)
    if endless:
        place = line_and_column(line_starts(text), endless.start())
        return None, (_fault(file, what, "an endless dotted key", f"{what} keys", place=place),)
    try:
        tables = tomllib.loads(text)
        places = places_of(text)
    except RecursionError:
        return None, (_fault(file, what, "tables nested too deep", f"a {what} file"),)
    except ValueError as error:
        return None, (_syntax_fault(file, text, str(error)),)
    return Document(
        tables=tables, file=file, text=text, starts=line_starts(text), places=places
    ), ()


def _syntax_fault(file: str, text: str, message: str) -> Fault:
    match = _AT_PLACE.search(message)
    message = _AT_PLACE.sub("", message)
    if match is None:  # Python itself refused to make a number of so many digits
        longest = max(_DIGITS.finditer(text), key=lambda run: len(run[0]), default=None)
        place = line_and_column(line_starts(text), longest.start() if longest else 0)
        message = "a number of thousands of digits"
    elif match[1] is None:
        place = line_and_column(line_starts(text), len(text))
    else:
        place = (int(match[1]), int(match[2]))
    starts = line_starts(text)
    offset = starts[min(place[0], len(starts)) - 1] + place[1] - 1
    told = f"TOML that does not parse ({message[:1].lower()}{message[1:200]})"
    slip = slip_in(text, offset, message) or Slip(found=told)
    return evolve(_fault(file, "file", slip.found, slip.wanted, place=place), nearest=slip.nearest)


def placed(document: Document, keys: Keys, fault: Fault, *, at_key: bool = False) -> Fault:
    """Return the fault with file, line and column of `keys`, or of the nearest table above."""
    fault = evolve(fault, path=fault.path or path_text(keys), file=document.file)
    if not document.file:
        return fault
    while keys and keys not in document.places:
        keys, at_key = keys[:-1], True
    span = document.places.get(keys)
    offset = 0 if span is None else span.key if at_key else span.start
    line, column = line_and_column(document.starts, offset)
    return evolve(fault, line=line, column=column)


def path_text(keys: Keys) -> str:
    """Return keys as a path is written: `boards[0].lengths[2].price`."""
    text = ""
    for key in keys:
        word = f"[{key}]" if isinstance(key, int) else shown_word(key)
        text += word if isinstance(key, int) or not text else f".{word}"
    return text


def keys_of(path: str) -> Keys:
    """Return the keys a path names: `overrides[0].value`."""
    parts = re.findall(r"\[(\d+)\]|([^.\[\]]+)", path)
    return tuple(int(item) if item else name for item, name in parts)


def written(document: Document, keys: Keys) -> str:
    """Return the value at `keys` as the file has it, "" where there is no file."""
    span = document.places.get(keys)
    return document.text[span.start : span.end] if span else ""
