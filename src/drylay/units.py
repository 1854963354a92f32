"""Lengths as people write them, read at the door, and written again for papers.

A strict pattern comes first and covers what a carpenter writes. Only a plain number with one
other unit word reaches pint, which given free text may hang ("9**9**9 mm") or misread
("3'6\"" is not 18 of anything). The registry is our own, so no host can change what `ft` is.
"""

import json
import re
from decimal import Decimal
from fractions import Fraction
from functools import cache
from math import ceil
from threading import Lock
from typing import Any

from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, PER_MM, ceil_mark, floor_mark, nearest_mark, to_mm

#: The international inch, exactly. Source: international yard and pound agreement, 1959.
MM_PER_INCH = Fraction(254, 10)
LONGEST_TEXT = 60

_METRIC = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_SPELLED = {
    "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
}  # fmt: skip
_VULGAR = {
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    "⁄": "/",
}  # fmt: skip

_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_MIXED = rf"(?:\d+[ -]\d+/\d+|\d+/\d+|{_NUMBER})"
_FEET = r"(?:feet|foot|ft\.?|['’′])"
_INCHES = r"(?:inches|inch|in\.?|''|[\"”″])"
_PLAIN = re.compile(rf"({_NUMBER}) *([A-Za-z]{{1,24}})", re.ASCII)
_BARE = re.compile(rf"-?{_MIXED}", re.ASCII)
_IMPERIAL = re.compile(
    rf"(?:(?P<feet>{_MIXED}) *{_FEET})?(?: *-? *(?P<inches>{_MIXED}) *{_INCHES})?", re.ASCII
)
_METRIC_FRACTION = re.compile(r"[0-9 ]+/[0-9]+ ?(mm|cm|m)", re.ASCII)
_HALF_SAID = re.compile(rf"(\d+) *{_FEET} *-? *({_MIXED})", re.ASCII)

_REGISTRY_LOCK = Lock()


def length_mm(value: object, *, path: str) -> float:
    """Return a length text, or a host's own pint quantity, in mm: the nearest 1/320 mm.

    Raises:
        InputError: No unit, no length, negative, or not to be read without guessing.
    """
    if isinstance(value, str):
        exact_mm = _read_text(value, path)
    elif hasattr(value, "m_as"):
        exact_mm = _read_quantity(value, path)
    else:
        raise _refused(path, repr(value)[:LONGEST_TEXT], "a length with its unit")
    return to_mm(round(exact_mm * PER_MM))


def _refused(path: str, found: str, wanted: str, nearest: str = "") -> InputError:
    return InputError((Fault(path=path, found=found, wanted=wanted, nearest=nearest),))


def _read_text(text: str, path: str) -> Fraction:
    if len(text) > LONGEST_TEXT:
        raise _refused(path, f"a text of {len(text)} characters", 'a length such as "6.045 m"')
    written = _tidied(text)
    for read in (_imperial, _metric, _by_pint):
        answer = read(written)
        if answer is not None:
            return answer
    raise _refused(path, _quoted(text), *_wanted(written))


def _tidied(text: str) -> str:
    for glyph, plain in _VULGAR.items():
        text = text.replace(glyph, plain)
    text = re.sub(" +", " ", text).strip(" ")
    return text.lower() if text.isupper() else text


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=not text.isprintable())


def _metric(text: str) -> Fraction | None:
    match = _PLAIN.fullmatch(text)
    if match is None:
        return None
    per_unit = _METRIC.get(_SPELLED.get(match[2], match[2]))
    return None if per_unit is None else Fraction(match[1]) * per_unit


def _imperial(text: str) -> Fraction | None:
    match = _IMPERIAL.fullmatch(text)
    if match is None or not text:
        return None
    said = {name: _mixed(part) for name, part in match.groupdict().items() if part}
    if not said or None in said.values():
        return None
    feet, inches = said.get("feet"), said.get("inches")
    if feet is not None and inches is not None and (feet.denominator != 1 or inches >= 12):
        return None  # 12 ft 13 in is a slip of the pen, whatever it would add up to
    return ((feet or 0) * 12 + (inches or 0)) * MM_PER_INCH


def _mixed(text: str) -> Fraction | None:
    """Return "6", "6.5", "1/2", "6 1/2" or "6-1/2"; None unless the fraction is below one.

    An improper fraction is a nominal size ("5/4"), which is a name and not a length.
    """
    if "/" not in text:
        return Fraction(text)
    *whole, over, under = re.split(r"[ /-]+", text)
    if len(under) > 4 or not 0 < int(over) < int(under):
        return None
    return Fraction(int(over), int(under)) + (int(whole[0]) if whole else 0)


def _by_pint(text: str) -> Fraction | None:
    match = _PLAIN.fullmatch(text)
    if match is None:
        return None
    per_unit = _mm_per(match[2])
    return None if per_unit is None else Fraction(match[1]) * per_unit


def _mm_per(unit: str) -> Fraction | None:
    """Return the mm in one `unit`, or None where pint knows no such unit of length."""
    try:
        with _REGISTRY_LOCK:  # a registry fills caches of its own while it converts
            size = _registry().Quantity(Fraction(1), unit).m_as("mm")
    except Exception:  # pint raises a dozen kinds here, some of which cannot be printed
        return None
    return size if isinstance(size, Fraction) and size > 0 else None


@cache
def _registry() -> Any:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction, cache_folder=None)


def _read_quantity(quantity: Any, path: str) -> Fraction:
    """Return a host's quantity in mm, converted in the host's own registry."""
    try:
        size = quantity.m_as("mm")
        exact_mm = size if isinstance(size, Fraction) else Fraction(Decimal(repr(float(size))))
    except Exception:  # the host's registry may raise anything
        raise _refused(path, "a quantity that is no finite length", "a length") from None
    if exact_mm < 0:
        raise _refused(path, f"{float(exact_mm):g} mm", "a length that is not negative")
    return exact_mm


def _wanted(text: str) -> tuple[str, str]:
    """Return what is wanted instead of a text that cannot be read, and the nearest fix."""
    if text.startswith("-") and _is_length(text[1:]):
        return "a length that is not negative", f'"{text[1:].strip()}"'
    if _BARE.fullmatch(text):
        return "a length with its unit: which one is meant?", f'"{text} mm" or "{text} in"'
    if "," in text:
        both = f'"{text.replace(",", ".")}" or "{text.replace(",", "")}"'
        return "a plain number: does the comma mean thousands or decimals?", both
    half_said = _HALF_SAID.fullmatch(text)
    if half_said:
        return "a unit after the inches too", f'"{half_said[1]} ft {half_said[2]} in"'
    if _METRIC_FRACTION.fullmatch(text):
        return "a decimal with a metric unit, such as 0.5 m; fractions are for inches", ""
    if re.search(r"\d/\d", text):
        return 'a true size, its fraction below one, such as "1 1/4 in"', ""
    if re.search(rf"{_FEET}.*{_INCHES}", text):
        return "whole feet and less than 12 inches", ""
    return 'a plain number and a unit of length, such as "6.045 m" or "12 ft 6 1/2 in"', ""


def _is_length(text: str) -> bool:
    return any(read(text.strip()) is not None for read in (_imperial, _metric))


def length_text(length_mm: float, units: str) -> str:
    """Return a length for papers: "2995 mm", "12 ft 6 1/2 in".

    A leading "~" says that the figure is the nearest 0.1 mm or 1/16 in, not the length itself.
    """
    sign = "-" if length_mm < 0 else ""
    length_320 = _counted(abs(length_mm))
    shown_320 = nearest_mark(length_320, _step(units))
    near = "" if shown_320 == length_320 else "~"
    return f"{near}{sign}{_written(shown_320, units)}"


def length_at_least(length_mm: float, units: str) -> str:
    """Return a least length for papers, up to the next 0.1 mm or 1/16 in."""
    return _written(ceil_mark(_counted(length_mm), _step(units)), units)


def length_at_most(length_mm: float, units: str) -> str:
    """Return a most length for papers, down to the last 0.1 mm or 1/16 in."""
    return _written(floor_mark(_counted(length_mm), _step(units)), units)


def fall_text(ratio: float) -> str:
    """Return a fall as "1 in 94", never steeper than it is; "no fall" where it is level or less."""
    return f"1 in {ceil(round(1 / ratio, 6))}" if ratio > 0 else "no fall"


def _counted(length_mm: float) -> int:
    return round(Fraction(Decimal(repr(float(length_mm)))) * PER_MM)


def _step(units: str) -> int:
    return MARK_320["imperial"] if units == "imperial" else PER_MM // 10


def _written(length_320: int, units: str) -> str:
    return _inch_text(length_320) if units == "imperial" else _mm_text(length_320)


def _mm_text(length_320: int) -> str:
    whole, tenths = divmod(length_320 * 10 // PER_MM, 10)
    return f"{whole}.{tenths} mm" if tenths else f"{whole} mm"


def _inch_text(length_320: int) -> str:
    inches, sixteenths = divmod(length_320 // MARK_320["imperial"], 16)
    feet, inches = divmod(inches, 12)
    part = Fraction(sixteenths, 16)
    parts = [f"{feet} ft"] if feet else []
    # "5 ft 11/16 in" would be read as 5 ft 11 in, so the nought is written
    figures = [str(inches)] if inches or (feet and part) or not (feet or part) else []
    figures += [f"{part.numerator}/{part.denominator}"] if part else []
    return " ".join([*parts, *figures, *(["in"] if figures else [])])


#: The international pound in kg, exactly. Source: as the inch above.
KG_PER_LB = Fraction(45_359_237, 100_000_000)
_M3_PER_CUBIC_YARD = (36 * MM_PER_INCH / 1000) ** 3


def volume_text(volume_m3: float, units: str) -> str:
    """Return a volume for papers, as it is in m3 or up to the next 1/100 of a cubic yard."""
    if units != "imperial":
        return f"{_plain(volume_m3)} m3"
    return f"{_up(_as_written(volume_m3) / _M3_PER_CUBIC_YARD, 100)} cubic yards"


def volume_held_text(volume_m3: float, units: str) -> str:
    """Return what a bag or skip holds, down to the last 1/100 of a cubic yard."""
    if units != "imperial":
        return f"{_plain(volume_m3)} m3"
    hundredths = _as_written(volume_m3) / _M3_PER_CUBIC_YARD * 100 // 1
    return f"{_plain(hundredths / 100)} cubic yards"


def mass_text(mass_kg: float, units: str) -> str:
    """Return a mass for papers: kg as they are, tonnes up to 10 kg, or up to the next pound."""
    mass = _as_written(mass_kg)
    if units == "imperial":
        return f"{_up(mass / KG_PER_LB, 1)} lb"
    tonnes = f" ({_up(mass / 1000, 100)} t)" if mass >= 1000 else ""
    return f"{_plain(mass_kg)} kg{tonnes}"


def mass_most_text(mass_kg: float, units: str) -> str:
    """Return a mass that must not be gone beyond: kg as they are, or down to the last pound."""
    if units == "imperial":
        return f"{_as_written(mass_kg) / KG_PER_LB // 1} lb"
    return f"{_plain(mass_kg)} kg"


def density_text(density_kg_m3: float, units: str) -> str:
    """Return a density: kg/m3 as they are, or up to the next pound in a cubic foot."""
    if units == "imperial":
        cubic_foot_m3 = _M3_PER_CUBIC_YARD / 27
        return f"{_up(_as_written(density_kg_m3) * cubic_foot_m3 / KG_PER_LB, 1)} lb a cubic foot"
    return f"{_plain(density_kg_m3)} kg/m3"


def _as_written(figure: float) -> Fraction:
    return Fraction(Decimal(repr(float(figure))))


def _up(figure: Fraction, parts: int) -> str:
    return _plain(-(-figure * parts // 1) / parts)


def _plain(figure: float) -> str:
    """Return a figure in plain decimals, without zeros at its end."""
    text = f"{Decimal(repr(float(figure))):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
