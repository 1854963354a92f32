"""A trade item number (GTIN) with its check digit.

Source: GS1 General Specifications, 7.9.1, standard check digit calculations, from memory; the
same sum as on GS1's page on check digits, whose worked example is 6291041500213.
"""

import re

from drylay.errors import Fault
from drylay.intake.keys import Key
from drylay.intake.shown import shown

#: How many digits a GTIN may have.
SIZES = (8, 12, 13, 14)
WANTED = 'a GTIN, 8, 12, 13 or 14 digits as text such as "6291041500213"'

_DIGITS = re.compile(r"\d+", re.ASCII)
#: What a spreadsheet makes of a long number: its last digits are gone.
_SHORTENED = re.compile(r"\d(?:[.,]\d+)?E\+?\d+", re.ASCII | re.IGNORECASE)
_PARTED = re.compile(r"[ -]", re.ASCII)


def check_digit(digits: str) -> int:
    """Return the check digit that belongs behind these digits: from the right, times 3, 1, 3..."""
    return -(3 * sum(map(int, digits[::-2])) + sum(map(int, digits[-2::-2]))) % 10


def is_gtin(text: str) -> bool:
    """Whether a text is a GTIN with its own check digit; zeros alone fill an empty cell."""
    if len(text) not in SIZES or not (text.isascii() and text.isdigit()):
        return False
    digits, thrice = text.encode("ascii"), len(text) // 2
    summed = 3 * sum(digits[-2::-2]) + sum(digits[::-2])
    summed -= ord("0") * (len(digits) + 2 * thrice)
    return summed % 10 == 0 and summed > 0


def read_gtin(key: Key, value: object) -> str | Fault:
    """Return a GTIN as it is printed."""
    if not isinstance(value, str):
        return Fault(path="", found=shown(value), wanted=WANTED, nearest=_as_text(key, value))
    if is_gtin(value):
        return value
    if not _DIGITS.fullmatch(value) or len(value) not in SIZES:
        return Fault(path="", found=shown(value), wanted=WANTED, nearest=_whole(key, value))
    if not value.strip("0"):
        found = f"{shown(value)}, which fills an empty place"
        return Fault(path="", found=found, wanted=WANTED, nearest=f"leave out {key.name}")
    right = check_digit(value[:-1])
    wanted = f"{right} as its last digit, the check digit of {value[:-1]}"
    nearest = f'{key.name} = "{value[:-1]}{right}", if no other digit is wrong'
    return Fault(path="", found=shown(value), wanted=wanted, nearest=nearest)


def whole_gtin(gtin: str) -> str:
    """Return a GTIN in 14 digits: 12 digits and 13 that begin with 0 are the same number."""
    return gtin.zfill(14)


def _as_text(key: Key, value: object) -> str:
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value < 10**14:
        return ""
    return f'{key.name} = "{value}"' if len(str(value)) in SIZES else ""


def _whole(key: Key, value: str) -> str:
    """Return the nearest fix: without the spaces it is printed with, or with its check digit."""
    if _SHORTENED.fullmatch(value):
        return "format the column as text in the spreadsheet, and export it again"
    bare = _PARTED.sub("", value)
    if not _DIGITS.fullmatch(bare) or len(bare) > max(SIZES):
        return ""
    if len(bare) in SIZES and bare != value:
        return f'{key.name} = "{bare}"'
    if is_gtin(f"0{bare}"):
        return f'{key.name} = "0{bare}", if a 0 was lost'
    return ""
