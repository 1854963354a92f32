"""How papers put loads: kN as they are, with pounds beside them in feet and inches; shares used."""

from decimal import Decimal
from fractions import Fraction
from math import ceil, floor

#: The pound's weight in kN and the square foot in m2, exactly: international yard and pound
#: agreement of 1959, and the standard gravity of 9.80665 m/s2 (CGPM 1901).
KN_PER_LB = Fraction("0.45359237") * Fraction("9.80665") / 1000
M2_PER_SQ_FT = Fraction("0.3048") ** 2


def force(load_kn: float, units: str) -> str:
    """Return a load: "6.75 kN", "6.75 kN (1518 lb)", pounds up to the next one."""
    told = f"{load_kn:g} kN"
    return told if units != "imperial" else f"{told} ({ceil(_said(load_kn) / KN_PER_LB)} lb)"


def spread(load_kn_m2: float, units: str) -> str:
    """Return a load spread over an area, pounds a square foot up to the next one."""
    pounds = _said(load_kn_m2) / KN_PER_LB * M2_PER_SQ_FT
    told = f"{load_kn_m2:g} kN/m2"
    return told if units != "imperial" else f"{told} ({ceil(pounds)} lb/ft2)"


def borne(bearing_kn_m2: float, units: str) -> str:
    """Return what a soil bears, pounds on a square foot down to the last one."""
    pounds = _said(bearing_kn_m2) / KN_PER_LB * M2_PER_SQ_FT
    told = f"{bearing_kn_m2:g} kN/m2"
    return told if units != "imperial" else f"{told} ({floor(pounds)} lb/ft2)"


def used(ratio: float) -> str:
    """Return a utilisation up to the next 0.01: never printed as less than it is."""
    return f"{Decimal(ceil(_said(ratio) * 100)) / 100:.2f}"


def up_to_tenth(figure: float) -> str:
    """Return a figure that must not be exceeded up to the next 0.1."""
    return f"{Decimal(ceil(_said(figure) * 10)) / 10:f}"


def _said(figure: float) -> Fraction:
    return Fraction(Decimal(repr(float(figure))))
