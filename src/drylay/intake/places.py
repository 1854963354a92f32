"""Where each key and value of a TOML text stands.

`tomllib` knows places for syntax errors only. This scanner runs after it, on text already
known to be TOML, so it looks for ends of keys and values and judges nothing.
"""

import re
import tomllib
from bisect import bisect_right

from attrs import frozen

Keys = tuple[str | int, ...]


@frozen(kw_only=True)
class Span:
    """Offsets in the text: where the key starts, where its value starts and ends."""

    key: int
    start: int
    end: int


Places = dict[Keys, Span]

_SKIP = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BLANK = re.compile(r"[ \t]*")
_PART = re.compile(r"""[A-Za-z0-9_-]+|"(?:\\.|[^"\\])*"|'[^']*'""")
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}(?!")|'
    r"'''.*?'{3,5}(?!')|"
    r'"(?:\\.|[^"\\])*"|'
    r"'[^']*'",
    re.DOTALL,
)
_SCALAR = re.compile(r"[^\s,\]}#]+(?: \d[^\s,\]}#]*)?")


def places_of(text: str) -> Places:
    """Return the place of every key and every list item of a valid TOML text.

    Keys are paths from the root, list items counted from 0: `("boards", 0, "code")`.
    """
    places: Places = {}
    counts: dict[Keys, int] = {}
    table: Keys = ()
    at = _skip(text, 0)
    while at < len(text):
        if text[at] == "[":
            table, at = _header(text, at, places, counts)
        else:
            at = _pair(text, at, table, places)
        at = _skip(text, at)
    return places


def line_starts(text: str) -> tuple[int, ...]:
    """Return the offset at which each line of a text starts."""
    return (0, *(match.end() for match in re.finditer("\n", text)))


def line_and_column(starts: tuple[int, ...], offset: int) -> tuple[int, int]:
    """Return the line and column of an offset, both counted from 1."""
    line = bisect_right(starts, offset)
    return line, offset - starts[line - 1] + 1


def _skip(text: str, at: int) -> int:
    match = _SKIP.match(text, at)
    return match.end() if match else at


def _blank(text: str, at: int) -> int:
    match = _BLANK.match(text, at)
    return match.end() if match else at


def _header(text: str, at: int, places: Places, counts: dict[Keys, int]) -> tuple[Keys, int]:
    """Note a `[table]` or `[[table]]`; return its path and the offset after it."""
    many = text.startswith("[[", at)
    parts, end = _key(text, _blank(text, at + 1 + many))
    end = text.index("]", end) + 1 + many
    table: Keys = ()
    for part in parts[:-1]:
        table = (*table, part)
        table = (*table, counts[table]) if table in counts else table
        places.setdefault(table, Span(key=at, start=at, end=end))
    table = (*table, parts[-1])
    if many:
        places.setdefault(table, Span(key=at, start=at, end=end))
        counts[table] = counts.get(table, -1) + 1
        table = (*table, counts[table])
    places[table] = Span(key=at, start=at, end=end)
    return table, end


def _key(text: str, at: int) -> tuple[tuple[str, ...], int]:
    """Return the parts of a bare, quoted or dotted key, and the offset after it."""
    parts = []
    while match := _PART.match(text, at):
        parts.append(_plain(match[0]))
        at = _blank(text, match.end())
        if text[at] != ".":
            break
        at = _blank(text, at + 1)
    return tuple(parts), at


def _plain(part: str) -> str:
    return str(tomllib.loads(f"key = {part}")["key"]) if part[0] in "\"'" else part


def _pair(text: str, at: int, table: Keys, places: Places) -> int:
    """Note one `key = value`; return the offset after it."""
    parts, equals = _key(text, at)
    start = _skip(text, equals + 1)
    keys: Keys = table
    for part in parts[:-1]:
        keys = (*keys, part)
        places.setdefault(keys, Span(key=at, start=at, end=equals))
    keys = (*keys, parts[-1])
    end = _value(text, start, keys, places)
    places[keys] = Span(key=at, start=start, end=end)
    return end


def _value(text: str, at: int, keys: Keys, places: Places) -> int:
    """Note what is inside a value; return the offset after it."""
    if text[at] == "[":
        return _list(text, at, keys, places)
    if text[at] == "{":
        return _inline(text, at, keys, places)
    match = _STRING.match(text, at) or _SCALAR.match(text, at)
    return match.end() if match else at


def _list(text: str, at: int, keys: Keys, places: Places) -> int:
    at, item = _skip(text, at + 1), 0
    while text[at] != "]":
        end = _value(text, at, (*keys, item), places)
        places[*keys, item] = Span(key=at, start=at, end=end)
        at, item = _after_comma(text, end), item + 1
    return at + 1


def _inline(text: str, at: int, keys: Keys, places: Places) -> int:
    at = _skip(text, at + 1)
    while text[at] != "}":
        at = _after_comma(text, _pair(text, at, keys, places))
    return at + 1


def _after_comma(text: str, at: int) -> int:
    at = _skip(text, at)
    return _skip(text, at + 1) if text[at] == "," else at
