"""Volumes and masses: counted exactly, told once, rounded up."""

from fractions import Fraction
from math import ceil

from drylay.marks import PER_MM, exact

#: Millimetres in a metre, square ones in a square metre, cubic ones in a cubic metre.
MM_PER_M, MM2_PER_M2, MM3_PER_M3 = 10**3, 10**6, 10**9


def whole_mm(length_mm: float) -> Fraction:
    """Return a length in mm, exactly."""
    return Fraction(exact(length_mm), PER_MM)


def said(figure: float) -> Fraction:
    """Return a figure exactly as it is written, so that 0.1 is a tenth."""
    return Fraction(repr(float(figure)))


def litres_up(volume_m3: Fraction) -> float:
    """Return a volume in m3, up to the next litre."""
    return ceil(volume_m3 * 1000) / 1000


def tenths_up(mass_kg: Fraction) -> float:
    """Return a mass in kg, up to the next 100 g."""
    return ceil(mass_kg * 10) / 10
