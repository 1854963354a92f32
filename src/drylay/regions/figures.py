"""Figures as a region's source writes them, read at the door: feet, inches, pounds and kPa."""

import re
from fractions import Fraction

from drylay.units import length_mm

#: A pound-force in kN and a foot in mm, exactly. Source: international yard and pound agreement,
#: 1959, and standard gravity.
_POUND_KN = Fraction("4.4482216152605") / 1000
FOOT_MM = Fraction("304.8")
_OTHER = {
    "kN/m": {"kN/m": Fraction(1)},
    "kN/m2": {"kN/m2": Fraction(1), "kPa": Fraction(1)},
    "kN": {"kN": Fraction(1), "lb": _POUND_KN},
    "deg": {"deg": Fraction(1)},
    "": {"": Fraction(1), "%": Fraction(1, 100)},
    "m2": {"m2": Fraction(1), "ft2": (FOOT_MM / 1000) ** 2},
}
_OTHER["kN/m2"]["psf"] = _POUND_KN / (FOOT_MM / 1000) ** 2
_WRITTEN = re.compile(r"(\d+(?:\.\d+)?)(?: ([A-Za-z0-9/%]+))?", re.ASCII)


def figure(written: str, unit: str) -> float:
    """Return a figure of a pack in `unit`.

    Raises:
        ValueError: It is not written in a unit that can be turned into this one.
    """
    if unit == "mm":
        return length_mm(written, path="a region's pack")
    match = _WRITTEN.fullmatch(written)
    factor = _OTHER[unit].get(match[2] or "") if match else None
    if match is None or factor is None:
        raise ValueError(f"{written!r} is no figure in {unit or 'a count'}")
    return float(Fraction(match[1]) * factor)
