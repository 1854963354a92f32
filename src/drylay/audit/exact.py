"""The audit's own exact arithmetic: counts of 1/320 mm, pencil marks, whole money."""

from collections.abc import Iterable
from decimal import Decimal
from typing import TYPE_CHECKING

import gmpy2

from drylay.plan.model import Plan

if TYPE_CHECKING:
    from fractions import Fraction as Fraction  # noqa: PLC0414 -- given on from here
else:
    #: The same numbers, worked out by GMP: decks on an outline are audited in half the time.
    Fraction = gmpy2.mpq

PER_MM = 320
MARKS = {"metric": 160, "imperial": 508}  # 0.5 mm, 1/16 in


def ticks(length_mm: float) -> int:
    """Return a length as a count of 1/320 mm, the nearest there is."""
    return round(length_mm * PER_MM)


def mm(length_320: float) -> float:
    """Return a count of 1/320 mm as millimetres."""
    return length_320 / PER_MM


def on_grid(length_mm: float) -> bool:
    """Return whether a length is a whole multiple of 1/320 mm, as far as a float can tell."""
    scaled = length_mm * PER_MM
    return abs(scaled - round(scaled)) <= 1e-6 * max(1.0, abs(scaled) / 1e6)


def mark_of(plan: Plan) -> int:
    """Return the pencil mark of a plan's units, in 1/320 mm."""
    return MARKS.get(plan.units, MARKS["metric"])


def ceil_div(number: int, divisor: int) -> int:
    """Return the quotient, rounded up."""
    return -(-number // divisor)


def minor(money: Decimal, digits: int) -> int | None:
    """Return money as a count of the currency's minor unit, None where it is no whole count."""
    scaled = money.scaleb(digits)
    whole = int(scaled)
    return whole if whole == scaled else None


def total(amounts: Iterable[Decimal]) -> Decimal:
    """Return the exact sum of money."""
    return sum(amounts, Decimal(0))
