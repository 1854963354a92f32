"""Sums without the dust of binary fractions, so that rounding up starts from the true sum."""

from decimal import Decimal
from fractions import Fraction
from math import ceil

from drylay.marks import MARK_320, PER_MM, to_mm

#: The steps that an end gap is told in: whole millimetres, or 1/16 in.
STEP_320 = MARK_320 | {"metric": PER_MM}


def exactly(value: float) -> Fraction:
    """Return a number as its decimals say it: 40e-6 is 40 millionths."""
    return Fraction(Decimal(repr(float(value))))


def up_to_step_mm(length_mm: Fraction, step_320: int) -> float:
    """Return the first whole step that is not short of a length."""
    return to_mm(ceil(length_mm * PER_MM / step_320) * step_320)
