"""How papers put loads: up to the last figure told, in feet and inches pounds first."""

from decimal import Decimal
from fractions import Fraction
from math import ceil, floor

#: The pound's weight in kN and the square foot in m2, exactly: international yard and pound
#: agreement of 1959, and the standard gravity of 9.80665 m/s2 (CGPM 1901).
KN_PER_LB = Fraction("0.45359237") * Fraction("9.80665") / 1000
M2_PER_SQ_FT = Fraction("0.3048") ** 2
#: What units lose as they are turned into one another, as a share: no figure grows for it.
TURNED = Fraction(1, 10**9)


def force(load_kn: float, units: str) -> str:
    """Return a load, up to the next 0.01 kN or pound: "6.75 kN", "1518 lb (6.75 kN)"."""
    told = f"{_up(_said(load_kn), 100)} kN"
    return told if units != "imperial" else f"{_up(_said(load_kn) / KN_PER_LB, 1)} lb ({told})"


def spread(load_kn_m2: float, units: str) -> str:
    """Return a load spread over an area, up to the next 0.01 kN/m2 or pound on a square foot."""
    told = f"{_up(_said(load_kn_m2), 100)} kN/m2"
    pounds = _said(load_kn_m2) / KN_PER_LB * M2_PER_SQ_FT
    return told if units != "imperial" else f"{_up(pounds, 1)} lb/ft2 ({told})"


def borne(bearing_kn_m2: float, units: str) -> str:
    """Return what a soil bears, down to the last 0.01 kN/m2 or pound on a square foot."""
    told = f"{_down(_said(bearing_kn_m2), 100)} kN/m2"
    pounds = _said(bearing_kn_m2) / KN_PER_LB * M2_PER_SQ_FT
    return told if units != "imperial" else f"{_down(pounds, 1)} lb/ft2 ({told})"


def used(ratio: float) -> str:
    """Return a utilisation up to the next 0.01: never printed as less than it is."""
    return f"{Decimal(ceil(_said(ratio) * 100)) / 100:.2f}"


def up_to_tenth(figure: float) -> str:
    """Return a figure that must not be exceeded up to the next 0.1."""
    return _plain(Decimal(ceil(_said(figure) * 10)) / 10)


def _up(figure: Fraction, parts: int) -> str:
    return _plain(Decimal(ceil(figure * (1 - TURNED) * parts)) / parts)


def _down(figure: Fraction, parts: int) -> str:
    return _plain(Decimal(floor(figure * (1 + TURNED) * parts)) / parts)


def _plain(figure: Decimal) -> str:
    text = f"{figure:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _said(figure: float) -> Fraction:
    return Fraction(Decimal(repr(float(figure))))
