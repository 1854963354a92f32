"""Nouns read from plain data without coercion: every fault is listed, nothing is guessed.

Written out by hand, not by a converter: what a plan file may hold is this page.
"""

import math
import re
import types
from collections.abc import Callable
from decimal import Decimal
from difflib import get_close_matches
from enum import Enum
from typing import Any, Union, get_args, get_origin

import attrs
from attrs import field, frozen

from drylay.errors import Fault
from drylay.plan.walk import joined
from drylay.plan.words import Words

#: Money as text: digits, at most one point, no exponent. Longer than 40 is no price.
MONEY = re.compile(r"-?(0|[1-9][0-9]{0,30})(\.[0-9]{1,8})?")
SHOWN = 60


@frozen(kw_only=True)
class Twice:
    """Stands in for the value of a key that an object holds twice."""

    key: str


@frozen(kw_only=True)
class Reading:
    """What reading goes by, and the faults found so far."""

    words: Words
    faults: list[Fault] = field(factory=list)

    def fault(self, path: str, found: str, wanted: str, nearest: str = "") -> None:
        """Note one fault."""
        self.faults.append(Fault(path=path, found=found, wanted=wanted, nearest=nearest))


def shown(value: object) -> str:
    """Return a found value for a fault's text, cut short where it is long."""
    if isinstance(value, Twice):
        return "the key twice"
    if isinstance(value, dict | list):
        return "an object" if isinstance(value, dict) else "a list"
    text = "null" if value is None else repr(value)
    if isinstance(value, bool):
        text = text.lower()
    return text if len(text) <= SHOWN else f"{text[:SHOWN]}..."


def read(value: object, hint: Any, path: str, reading: Reading) -> Any:
    """Return plain data as the noun, tuple or value that `hint` says, noting faults."""
    if attrs.has(hint):
        return _noun(value, hint, path, reading)
    if get_origin(hint) is tuple:
        return _tuple(value, get_args(hint), path, reading)
    if get_origin(hint) in (Union, types.UnionType):
        return _union(value, get_args(hint), path, reading)
    return _leaf(value, (hint,), path, reading)


def _noun(value: object, noun: type, path: str, reading: Reading) -> Any:
    if not isinstance(value, dict):
        reading.fault(path or "(whole file)", shown(value), "an object")
        return None
    fields = attrs.fields(noun)
    names = [attribute.name for attribute in fields]
    for key in sorted(value.keys() - set(names), key=str):
        near = get_close_matches(key, names, n=1)
        reading.fault(joined(path, key[:SHOWN]), "an unknown key", "no such key", *near)
    parts = {attribute.name: _part(value, noun, attribute, path, reading) for attribute in fields}
    return noun(**parts) if not reading.faults else None


def _part(
    value: dict[str, object],
    noun: type,
    attribute: "attrs.Attribute[Any]",
    path: str,
    reading: Reading,
) -> Any:
    name = attribute.name
    place = joined(path, name)
    if name not in value:
        reading.fault(place, "nothing", "this key")
        return None
    answer = read(value[name], attribute.type, place, reading)
    words = reading.words.get((noun, name), ())
    if words and isinstance(answer, str) and answer not in words:
        near = get_close_matches(answer, words, n=1)
        reading.fault(place, shown(answer), "one of " + ", ".join(words), *near)
    return answer


def _tuple(value: object, args: tuple[Any, ...], path: str, reading: Reading) -> Any:
    if not isinstance(value, list):
        reading.fault(path, shown(value), "a list")
        return ()
    hints = (args[0],) * len(value) if args[-1] is ... else args
    if len(hints) != len(value):
        reading.fault(path, f"a list of {len(value)}", f"a list of {len(hints)}")
        return ()
    pairs = enumerate(zip(value, hints, strict=True))
    return tuple(read(part, hint, f"{path}[{index}]", reading) for index, (part, hint) in pairs)


def _union(value: object, args: tuple[Any, ...], path: str, reading: Reading) -> Any:
    hints = tuple(hint for hint in args if hint is not types.NoneType)
    if value is None and len(hints) < len(args):
        return None
    if len(hints) == 1:
        return read(value, hints[0], path, reading)
    return _leaf(value, hints, path, reading)


def _leaf(value: object, hints: tuple[Any, ...], path: str, reading: Reading) -> Any:
    """Return a value as the first of `hints` that takes it exactly as it stands."""
    exactly = sorted(hints, key=lambda hint: type(value) is not hint)
    for hint in exactly:
        taken = _take(value, hint)
        if taken is not None:
            return taken
    reading.fault(path, shown(value), " or ".join(_wanted(hint) for hint in hints))
    return None


def _take(value: object, hint: Any) -> object | None:
    if isinstance(hint, type) and issubclass(hint, Enum):
        known = {member.value: member for member in hint}
        return known.get(value) if isinstance(value, str) else None
    return TAKERS[hint](value)


def _wanted(hint: Any) -> str:
    if issubclass(hint, Enum):
        return "one of " + ", ".join(member.value for member in hint)
    return WANTED[hint]


def _take_float(value: object) -> float | None:
    """Return a finite JSON number; a whole one only if a float holds it exactly."""
    if type(value) is int and abs(value) <= 2**53:
        return float(value)
    return value if type(value) is float and math.isfinite(value) else None


def _take_int(value: object) -> int | None:
    return value if type(value) is int else None


def _take_bool(value: object) -> bool | None:
    return value if type(value) is bool else None


def _take_text(value: object) -> str | None:
    """Return text; half a surrogate pair is none, because it cannot be written out."""
    if not isinstance(value, str) or any("\ud800" <= sign <= "\udfff" for sign in value):
        return None
    return value


def _take_money(value: object) -> Decimal | None:
    return Decimal(value) if isinstance(value, str) and MONEY.fullmatch(value) else None


TAKERS: dict[Any, Callable[[object], object | None]] = {
    float: _take_float,
    int: _take_int,
    bool: _take_bool,
    str: _take_text,
    Decimal: _take_money,
}
WANTED: dict[Any, str] = {
    float: "a finite number",
    int: "a whole number",
    bool: "true or false",
    str: "text",
    Decimal: 'money as text, such as "14.40"',
}
