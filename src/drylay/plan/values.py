"""What a value in a plan file may be: taken exactly as it stands or refused, never coerced."""

import math
import re
from collections.abc import Callable
from decimal import Decimal
from difflib import get_close_matches
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin

from attrs import NOTHING, frozen

#: Money as text: digits, at most one point, no exponent. Longer than 40 is no price.
MONEY = re.compile(r"-?(0|[1-9][0-9]{0,30})(\.[0-9]{1,8})?")
SHOWN = 60
#: Beyond this a whole number is no longer exact everywhere (JSON readers, floats).
MOST_COUNT = 2**53

#: Returns a value as a noun holds it, NOTHING where it does not fit.
Taker = Callable[[object], object]


@frozen(kw_only=True)
class Twice:
    """Stands in for the value of a key that an object holds twice."""

    key: str


class UnfitError(ValueError):
    """A value is not what its place in a plan file wants."""

    def __init__(self, found: str, wanted: str, nearest: str = "") -> None:
        super().__init__(wanted)
        self.found = found
        self.wanted = wanted
        self.nearest = nearest


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


def as_it_stands(value: object, hint: Any) -> Any:
    """Return a value as the number, text, enum or union of these that `hint` says.

    Raises:
        UnfitError: The value would have to be changed for that.
    """
    for take in _takers(hint):
        taken = take(value)
        if taken is not NOTHING:
            return taken
    raise UnfitError(shown(value), _wanted(hint))


def one_of(value: object, words: tuple[str, ...]) -> str:
    """Return a text that is one of `words`.

    Raises:
        UnfitError: The value is no text, or none of the words.
    """
    text: str = as_it_stands(value, str)
    if text in words:
        return text
    near = get_close_matches(text, words, n=1)
    raise UnfitError(shown(value), "one of " + ", ".join(words), *near)


def is_union(hint: Any) -> bool:
    """Return whether `hint` is a union of what one value of a plan file may be."""
    union = get_origin(hint) in (Union, UnionType)
    return union and all(kind in TAKERS for kind in get_args(hint))


@cache
def _takers(hint: Any) -> tuple[Taker, ...]:
    """Return what may take a value, the narrowest first: 3 is a whole number before a length."""
    if isinstance(hint, type) and issubclass(hint, Enum):
        return (_enum_taker(hint),)
    kinds = get_args(hint) or (hint,)
    return tuple(TAKERS[kind] for kind in sorted(kinds, key=list(TAKERS).index))


def _wanted(hint: Any) -> str:
    if isinstance(hint, type) and issubclass(hint, Enum):
        return "one of " + ", ".join(member.value for member in hint)
    kinds = get_args(hint) or (hint,)
    return " or ".join(WANTED[kind] for kind in kinds if kind is not NoneType)


def _enum_taker(kind: type[Enum]) -> Taker:
    known = {member.value: member for member in kind}
    return lambda value: known.get(value, NOTHING) if isinstance(value, str) else NOTHING


def _take_null(value: object) -> object:
    return None if value is None else NOTHING


def _take_bool(value: object) -> object:
    return value if type(value) is bool else NOTHING


def _take_int(value: object) -> object:
    return value if type(value) is int and abs(value) <= MOST_COUNT else NOTHING


def _take_float(value: object) -> object:
    """Return a finite JSON number; a whole one only if a float holds it exactly."""
    if type(value) is int and abs(value) <= MOST_COUNT:
        return float(value)
    return value if type(value) is float and math.isfinite(value) else NOTHING


def _take_text(value: object) -> object:
    """Return text; half a surrogate pair is none, because it cannot be written out."""
    if not isinstance(value, str) or any("\ud800" <= sign <= "\udfff" for sign in value):
        return NOTHING
    return value


def _take_money(value: object) -> object:
    return Decimal(value) if isinstance(value, str) and MONEY.fullmatch(value) else NOTHING


#: The narrower before the wider.
TAKERS: dict[Any, Taker] = {
    NoneType: _take_null,
    bool: _take_bool,
    int: _take_int,
    float: _take_float,
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
