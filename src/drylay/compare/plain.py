"""A value put into a brief as JSON holds it: it may travel to any worker."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from math import isfinite

#: No brief goes deeper, nor is a number in one larger, or a decimal longer: a slip. Assumption.
MOST_DEEP, MOST_BITS, MOST_PLACES = 20, 1_024, 400
#: Paths of a brief that are names of a row's figures too.
FIGURES_TOO = frozenset({"gap", "joints", "lights", "rows", "title", "units"})


def column_of(path: str) -> str:
    """Return the column that what is put at a path stands in: no figure's."""
    return f"brief.{path}" if path in FIGURES_TOO else path


def plain_value(value: object, deep: int = 0) -> object:
    """Return a value as JSON holds it, as a brief reads it: of Python's own types alone.

    Raises:
        TypeError: It is none that a brief may hold.
    """
    if deep > MOST_DEEP:
        raise TypeError("tables in tables without end")
    if isinstance(value, Mapping):
        return {str(key): plain_value(each, deep + 1) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain_value(each, deep + 1) for each in value]
    if value is None or isinstance(value, bool | int | str | float | Decimal | date):
        return _one(value)
    if hasattr(value, "item"):  # a number of numpy's
        return _of_numpy(value, deep)
    raise TypeError(type(value).__name__)


def _one(value: bool | int | str | float | Decimal | date | None) -> object:
    """Return a value that is no table; a number that is none as a text, so that a brief says so."""
    match value:
        case None | bool():
            return value
        case str():
            return str.__str__(value)  # a kind of text of somebody else's says something else
        case int() if value.bit_length() <= MOST_BITS:
            return int(value)
        case float():
            return float(value) if isfinite(value) else str(float(value))
        case Decimal() if abs(value.adjusted()) <= MOST_PLACES:
            return f"{value:f}"
        case date():
            return value.isoformat()
    raise TypeError("a number without end")


def _of_numpy(value: object, deep: int) -> object:
    try:
        held = value.item()  # type: ignore[attr-defined]
    except Exception as error:  # a list of several numbers, or whatever has such a name
        raise TypeError(str(error)) from None
    if held is None:  # a day that is none: not a wish left out
        raise TypeError("a value that is none")
    return plain_value(held, deep + 1)
