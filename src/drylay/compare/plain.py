"""A value put into a brief as JSON holds it: it may travel to any worker."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from math import isfinite


def plain_value(value: object) -> object:
    """Return a value as JSON holds it, as a brief reads it.

    Raises:
        TypeError: It is none that a brief may hold.
    """
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, float):
        return value if isfinite(value) else str(value)  # no number: a brief says so
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): plain_value(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain_value(each) for each in value]
    if hasattr(value, "item"):  # a number of numpy's
        return plain_value(value.item())
    raise TypeError(type(value).__name__)
