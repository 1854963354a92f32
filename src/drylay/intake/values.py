"""One value in, one value out: each reader answers with the value or with a Fault.

Nothing is coerced: true is not 1, "12.5" is not 12.5, 3.0 is not a count. Paths and places
are put on a fault by the caller.
"""

import math
import re
from collections.abc import Callable
from decimal import Decimal
from numbers import Integral, Real

from drylay.errors import Fault, InputError
from drylay.intake.days import read_day
from drylay.intake.gtin import read_gtin
from drylay.intake.keys import LENGTHS, Key, bare_name
from drylay.intake.shown import shown, shown_text
from drylay.intake.undressed import undressed_money
from drylay.intake.words import nearest_choice, nearest_of, told_choices
from drylay.marks import exact, to_mm
from drylay.units import length_mm

#: Only a number so many times too small looks like one in another unit.
SLIP = 4.0
MINUS = "\N{MINUS SIGN}"
_MONEY = re.compile(r"\d{1,12}(?:\.(\d{1,6}))?", re.ASCII)
_PLAIN = re.compile(r"-?\d+(?:\.\d+)?", re.ASCII)


def fault(found: str, wanted: str, nearest: str = "") -> Fault:
    """Return a fault that has no place yet."""
    return Fault(path="", found=found, wanted=wanted, nearest=nearest)


def unfit(value: object, wanted: str, nearest: str = "") -> Fault:
    """Return a fault about a value, shown as it was given."""
    return fault(shown(value), wanted, nearest)


def number_of(value: object) -> float | None:
    """Return a number as a float (infinite if it is too large for one), else None."""
    if isinstance(value, bool) or not isinstance(value, Real | Decimal):
        return None
    try:
        return float(value)
    except (OverflowError, ValueError):
        return math.inf


def bounds(key: Key) -> str:
    """Return a key's bounds as faults name them."""
    unit = " mm" if key.kind in LENGTHS else ""
    return f"{key.least:g} to {key.most:g}{unit}"


def read_mm(key: Key, value: object) -> float | Fault:
    """Return a length given as a number of mm."""
    wanted = f"a number of mm, {bounds(key)}"
    if isinstance(value, str):
        return unfit(value, wanted, _untexted(key, value))
    if hasattr(value, "m_as"):
        return unfit(value, wanted, f"the same quantity under {bare_name(key)}")
    number = number_of(value)
    if number is None:
        return unfit(value, wanted)
    return _bounded_mm(key, number, shown(value))


def read_length_text(key: Key, value: object) -> float | Fault:
    """Return a length given as a text with its unit, or as a host's quantity."""
    number = number_of(value)
    if number is not None:
        return fault(
            f"{shown(value)} without a unit",
            f"a text with its unit, or {key.name}",
            _with_unit(key, number),
        )
    if not isinstance(value, str) and not hasattr(value, "m_as"):
        return unfit(value, f'a text with its unit such as "{_example(key)}"')
    try:
        read = _signed_mm(key, value)
    except InputError as error:
        return _unread(key, value, error.faults[0])
    return _bounded_mm(key, read, shown_text(value) if isinstance(value, str) else f"{read:g} mm")


def _signed_mm(key: Key, value: object) -> float:
    """Return a length, below nothing too where the key's bounds reach there."""
    if key.least >= 0:
        return length_mm(value, path="")
    if isinstance(value, str) and value.strip().startswith(("-", MINUS)):
        return -length_mm(value.strip()[1:], path="")
    if hasattr(value, "m_as") and value.m_as("mm") < 0:
        return -length_mm(-value, path="")  # type: ignore[operator] # a quantity has a sign
    return length_mm(value, path="")


def _unread(key: Key, value: object, first: Fault) -> Fault:
    """Return the fault of a text that was not read, its fix fitted to this key."""
    number = _plain_number(value) if isinstance(value, str) else None
    if number is not None:
        return fault(first.found, first.wanted, _with_unit(key, number))
    nearest = f"{bare_name(key)} = {first.nearest}" if first.nearest else ""
    return fault(first.found, first.wanted, nearest)


def _bounded_mm(key: Key, number: float, given: str) -> float | Fault:
    if not math.isfinite(number) or not key.least <= number <= key.most:
        return fault(given, bounds(key), _with_unit(key, number))
    return to_mm(exact(number))


def _with_unit(key: Key, number: float) -> str:
    """Return the nearest fix for a bare number: the units that would make sense of it.

    A bound is none: nobody meant it.
    """
    if not math.isfinite(number) or number > key.most:
        return ""
    if number < 0 <= key.least:
        return _with_unit(key, -number)
    if key.least <= number:
        return f"{key.name} = {number:.15g}"
    sizes = (("m", 1000.0), ("in", 25.4), ("cm", 10.0))
    sensible = [
        f'{bare_name(key)} = "{number:.15g} {unit}"'
        for unit, size in sizes
        if key.least <= number * size <= key.most and number * SLIP <= key.least
    ]
    return f"{' or '.join(sensible)}, if that is meant" if sensible else ""


def _untexted(key: Key, value: str) -> str:
    """Return the nearest fix for a text where a number of mm was wanted."""
    number = _plain_number(value)
    if number is not None:
        return _with_unit(key, number)
    try:
        length_mm(value, path="")
    except InputError:
        return f'{bare_name(key)} = "{_example(key)}"'
    return f"{bare_name(key)} = {shown_text(value)}"


def _example(key: Key) -> str:
    return "6.045 m" if key.most > 5000 else "5 mm"


def read_number(key: Key, value: object) -> float | Fault:
    """Return a number whose unit stands in its key."""
    wanted = f"a number, {bounds(key)}"
    number = number_of(value)
    if number is None:
        plain = _plain_number(value) if isinstance(value, str) else None
        fits = plain is not None and key.least <= plain <= key.most
        return unfit(value, wanted, f"{key.name} = {plain:.15g}" if fits else "")
    if math.isfinite(number) and key.least <= number <= key.most:
        return number
    if key.name.endswith("_ratio") and number >= 2 and number / 100 <= key.most:
        return unfit(value, wanted, f"{key.name} = {number / 100:.15g}")
    return unfit(value, wanted)


def read_count(key: Key, value: object) -> int | Fault:
    """Return a whole number."""
    wanted = f"a whole number, {key.least:.0f} to {key.most:.0f}"
    if isinstance(value, Integral) and not isinstance(value, bool):
        count = int(value)
        if key.least <= count <= key.most:
            return count
        return unfit(value, wanted)
    number = _plain_number(value) if isinstance(value, str) else number_of(value)
    if number is None or not key.least <= number <= key.most or number != int(number):
        return unfit(value, wanted)
    return unfit(value, wanted, f"{key.name} = {int(number)}")


def _plain_number(text: str) -> float | None:
    return float(text) if len(text) <= 20 and _PLAIN.fullmatch(text) else None


def read_money(key: Key, value: object) -> Decimal | Fault:
    """Return a sum of money, to the last of the currency's digits."""
    example = f"{14.4:.{min(key.digits, 2)}f}"
    wanted = f'money as a text such as "{example}", or a whole number'
    if isinstance(value, float):
        return unfit(value, f"{wanted} (a float loses cents)", _money_fix(key, value))
    amount = _amount(value)
    if amount is None:
        return unfit(value, wanted, _undressed_fix(key, value))
    if amount.as_tuple().exponent < -key.digits:  # type: ignore[operator] # finite, so a number
        return unfit(value, f"at most {key.digits} decimals")
    if not Decimal(str(key.least)) <= amount <= Decimal(str(key.most)):
        return unfit(value, f"{key.least:g} to {key.most:.0f}")
    return amount


def _amount(value: object) -> Decimal | None:
    if isinstance(value, str):
        return Decimal(value) if _MONEY.fullmatch(value) else None
    if isinstance(value, Decimal):
        return value if value.is_finite() and abs(value.adjusted()) < 30 else None
    if isinstance(value, Integral) and not isinstance(value, bool):
        return Decimal(int(value))
    return None


def _undressed_fix(key: Key, value: object) -> str:
    """Return a sum without comma and currency mark, if it is one within the bounds."""
    bare = undressed_money(value, key.digits) if isinstance(value, str) else ""
    amount = _amount(bare)
    fits = amount is not None and Decimal(str(key.least)) <= amount <= Decimal(str(key.most))
    return f'{key.name} = "{bare}"' if fits else ""


def _money_fix(key: Key, value: float) -> str:
    if not math.isfinite(value) or not key.least <= value <= key.most:
        return ""
    return f'{key.name} = "{value:.{min(key.digits, 2)}f}"'


def read_text(key: Key, value: object) -> str | Fault:
    """Return one line of text, without control characters."""
    wanted = f"a text of {key.least:g} to {key.most:g} characters on one line"
    if not isinstance(value, str):
        nearest = f'{key.name} = "{shown(value)}"' if number_of(value) is not None else ""
        return unfit(value, wanted, nearest)
    if not key.least <= len(value) <= key.most or not _all_printed(value):
        line = one_line(key, value)
        return unfit(value, wanted, f"{key.name} = {shown_text(line)}" if line else "")
    if value != value.strip():
        wanted = "a text that neither begins nor ends with a space"
        return unfit(value, wanted, f"{key.name} = {shown_text(value.strip())}")
    return value


def one_line(key: Key, text: str) -> str:
    """Return a text of several lines as one line, "" if it is none or does not fit either."""
    line = " ".join(text.split())
    several = len(text.strip().splitlines()) > 1
    return line if several and len(line) <= key.most and _all_printed(line) else ""


def _all_printed(text: str) -> bool:
    return text.isprintable() or all(map(_is_printed, text))


def _is_printed(glyph: str) -> bool:
    """Whether a character can stand in any paper: no control, no half of a pair."""
    code = ord(glyph)
    control = code < 32 or 127 <= code < 160
    return not (control or 0xD800 <= code < 0xE000 or code & 0xFFFE == 0xFFFE)


def read_choice(key: Key, value: object) -> str | Fault:
    """Return one word out of several."""
    if isinstance(value, str) and value in key.choices:
        return value
    near = nearest_choice(value, key.choices)
    wanted = f"one of {told_choices(key.choices)}"
    return unfit(value, wanted, f'{key.name} = "{near}"' if near else "")


def read_choices(key: Key, value: object) -> tuple[str, ...] | Fault:
    """Return a list of different words."""
    wanted = f"a list of different words out of {', '.join(key.choices)}"
    if not isinstance(value, list | tuple):
        near = nearest_of(value, key.choices)
        return unfit(value, wanted, f'{key.name} = ["{near}"]' if near else "")
    for word in value:
        if not isinstance(word, str) or word not in key.choices:
            near = nearest_of(word, key.choices)
            return fault(f"{shown(word)} in the list", wanted, f'"{near}"' if near else "")
        if value.count(word) > 1:
            return fault(f"{shown(word)} twice", wanted, f"{shown(word)} once")
    if len(value) < key.least:
        return unfit(value, f"at least {key.least:g} of {', '.join(key.choices)}")
    return tuple(value)


def read_flag(key: Key, value: object) -> bool | Fault:
    """Return yes or no."""
    if isinstance(value, bool):
        return value
    said = {"true": "true", "yes": "true", "1": "true", "false": "false", "no": "false"}
    word = said.get(str(value).lower()[:6]) if isinstance(value, str | int) else None
    return unfit(value, "true or false", f"{key.name} = {word}" if word else "")


READERS: dict[str, Callable[[Key, object], object]] = {
    "length": read_mm,
    "number": read_number,
    "count": read_count,
    "money": read_money,
    "text": read_text,
    "choice": read_choice,
    "choices": read_choices,
    "flag": read_flag,
    "day": read_day,
    "gtin": read_gtin,
    "measure": lambda _key, value: value,
}
