"""Exact lengths and pencil marks.

Lengths are counted in integers of 1/320 mm: 0.1 mm is 32 of them and 1/64 in is 127, so
metric and imperial sizes are both exact. A *mark* is what a carpenter's pencil can set:
0.5 mm (160 of them) or 1/16 in (508).
"""

from decimal import ROUND_HALF_EVEN, Decimal
from numbers import Real
from typing import TypeGuard

PER_MM = 320
MARK_320: dict[str, int] = {"metric": 160, "imperial": 508}


def is_number(value: object) -> TypeGuard[float]:
    """Return whether a value is a number; True and False are none."""
    return isinstance(value, Real) and not isinstance(value, bool)


def exact(length_mm: float) -> int:
    """Return a length as a count of 1/320 mm, the nearest there is."""
    scaled = Decimal(repr(float(length_mm))) * PER_MM
    return int(scaled.to_integral_value(rounding=ROUND_HALF_EVEN))


def to_mm(length_320: int) -> float:
    """Return a count of 1/320 mm as millimetres."""
    return length_320 / PER_MM


def floor_mark(length_320: int, mark_320: int) -> int:
    """Return the largest pencil mark not beyond a length."""
    return length_320 // mark_320 * mark_320


def ceil_mark(length_320: int, mark_320: int) -> int:
    """Return the smallest pencil mark not short of a length."""
    return -(-length_320 // mark_320) * mark_320


def nearest_mark(length_320: int, mark_320: int) -> int:
    """Return the pencil mark nearest to a length, the lower one if there are two."""
    low = floor_mark(length_320, mark_320)
    return low if length_320 - low <= low + mark_320 - length_320 else low + mark_320
