"""What tiles weigh on whatever carries them."""

from fractions import Fraction
from math import ceil

from drylay.marks import PER_MM, exact

#: Standard gravity, in m/s2. Source: ISO 80000-3, by definition.
GRAVITY = Fraction("9.80665")


def mass_per_m2(tile_kg: Fraction, length_mm: float, width_mm: float) -> float:
    """Return what a square metre of tile weighs in kg, joints not counted, up to the next 100 g."""
    area_m2 = Fraction(exact(length_mm) * exact(width_mm), (1000 * PER_MM) ** 2)
    return ceil(tile_kg / area_m2 * 10) / 10


def dead_load_kn_m2(mass_kg_m2: float) -> float:
    """Return the load of so much on a square metre, up to the next 0.01 kN/m2.

    Source: mass times standard gravity.
    """
    return ceil(Fraction(repr(mass_kg_m2)) * GRAVITY / 1000 * 100) / 100
