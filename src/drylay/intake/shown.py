"""How a value somebody gave is shown back in a fault: nothing lost, nothing endless."""

import json
from collections.abc import Mapping, Sequence
from decimal import Decimal

LONGEST = 80


def shown(value: object) -> str:
    """Return a value as it would be written in TOML, shortened where it is huge."""
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return shown_text(value)
        case int():
            return _shown_int(value)
        case float() | Decimal():
            return _shortened(str(value))
        case Mapping():
            return "an empty table" if not value else f"a table with {_shown_keys(value)}"
        case Sequence() if not isinstance(value, bytes | bytearray):
            return _shown_list(value)
        case None:
            return "nothing"
    return f"a value of type {type(value).__name__}"


def shown_text(text: str) -> str:
    """Return a text in quotes, on one line."""
    short = text if len(text) <= LONGEST else f"{text[: LONGEST - 20]}..."
    quoted = json.dumps(short, ensure_ascii=False)
    if not quoted.isprintable():  # letters stay letters: only what no paper can show is escaped
        quoted = "".join(map(_shown_glyph, quoted))
    return quoted if short == text else f"{quoted} ({len(text)} characters)"


def _shown_glyph(glyph: str) -> str:
    if glyph.isprintable():
        return glyph
    code = ord(glyph)
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def shown_word(text: str) -> str:
    """Return a word as it stands where it can be printed, else in quotes."""
    return text if text and len(text) <= LONGEST and text.isprintable() else shown_text(text)


def _shown_int(value: int) -> str:
    # str() of a number of thousands of digits is refused by Python itself
    digits = value.bit_length() * 3 // 10
    return str(value) if digits < LONGEST else f"a whole number of some {digits} digits"


def _shown_keys(table: Mapping[object, object]) -> str:
    names = [str(key)[:40] for key, _ in zip(table, range(5), strict=False)]
    return ", ".join(names) + (", ..." if len(table) > len(names) else "")


def _shown_list(items: Sequence[object]) -> str:
    if all(isinstance(item, str | int | float) for item in items[:6]) and len(items) <= 6:
        return _shortened("[" + ", ".join(shown(item) for item in items) + "]")
    return f"a list of {len(items)}"


def _shortened(text: str) -> str:
    return text if len(text) <= 2 * LONGEST else f"{text[: 2 * LONGEST]}..."
