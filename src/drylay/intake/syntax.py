"""What a TOML file that does not parse is told as: the slip that was made, where it is plain."""

import re

from attrs import frozen

from drylay.intake.days import made
from drylay.intake.shown import shown_text, shown_word


@frozen(kw_only=True)
class Slip:
    """What was found in the text, what was wanted, and the nearest fix."""

    found: str
    wanted: str = "TOML"
    nearest: str = ""


_COMMA = re.compile(r"=[ \t]*(-?\d{1,12}),(\d{1,9})(?![\d.,])[ \t]*", re.ASCII)
_THOUSANDS = re.compile(r"=[ \t]*(\d{1,3}(?:,\d{3})+\.\d{1,9})[ \t]*", re.ASCII)
_OPEN = ("Illegal character '\\n'", "Unterminated string", 'Expected "\'"', "Expected '\"'")
_KEY = re.compile(r"\s*([A-Za-z0-9_-]+)[ \t]*=", re.ASCII)
_INLINE_TWICE = re.compile(r"Duplicate inline table key '([A-Za-z0-9_-]+)'", re.ASCII)
_TABLE_TWICE = re.compile(r"Cannot declare \('([A-Za-z0-9_-]+)',\) twice", re.ASCII)
_DAY = re.compile(r"(\d{4})-(\d{2})-(\d{2})", re.ASCII)
_WORD = re.compile(r"[A-Za-z][A-Za-z0-9_.-]*", re.ASCII)
_SWITCHES = {"true": "true", "yes": "true", "false": "false", "no": "false"}


def slip_in(text: str, offset: int, message: str) -> Slip | None:
    """Return what was slipped at an offset where the parser stopped, None where it is not plain."""
    line_at = text.rfind("\n", 0, offset) + 1
    line, at = text[line_at:].split("\n", 1)[0], offset - line_at
    return (
        _comma(line, at)
        or _open_quote(message)
        or _twice(line, message)
        or _no_day(text, offset, message)
        or _bare_word(text, offset, message)
    )


def _comma(line: str, at: int) -> Slip | None:
    wanted = "a number with a point before its decimals, and no mark of thousands"
    for pattern in (_COMMA, _THOUSANDS):
        for match in pattern.finditer(line):
            if not match.start() < at <= match.end():
                continue
            if pattern is _THOUSANDS:
                return Slip(found=match[1], wanted=wanted, nearest=match[1].replace(",", ""))
            # 23,500 may be thousands or decimals: not guessed
            nearest = "" if len(match[2]) == 3 else f"{match[1]}.{match[2]}"
            found = f"a number with a comma, {match[1]},{match[2]}"
            return Slip(found=found, wanted=wanted, nearest=nearest)
    return None


def _open_quote(message: str) -> Slip | None:
    if not message.startswith(_OPEN):
        return None
    return Slip(found="a quote that is not closed", wanted="a quote at either end of a text")


def _twice(line: str, message: str) -> Slip | None:
    key = _KEY.match(line) if message.startswith("Cannot overwrite a value") else None
    found = key or _INLINE_TWICE.match(message)
    if found:
        return Slip(found=f"{found[1]} a second time", wanted="each key once in its table")
    table = _TABLE_TWICE.match(message)
    if table:
        wanted = f"each section once, or [[{table[1]}]] where it is a list"
        return Slip(found=f"[{table[1]}] a second time", wanted=wanted)
    return None


def _no_day(text: str, offset: int, message: str) -> Slip | None:
    match = _DAY.match(text, offset) if message.startswith("Invalid date") else None
    if match is None or made(*map(int, match.groups())) is not None:
        return None
    return Slip(found=f"{match[0]}, and there is no such day", wanted="a day of the calendar")


def _bare_word(text: str, offset: int, message: str) -> Slip | None:
    match = _WORD.match(text, offset) if message.startswith("Invalid value") else None
    if match is None or text[match.end() : match.end() + 1] in ('"', "'"):
        return None
    switch = _SWITCHES.get(match[0].lower())
    wanted = "a text in quotes, a number, true or false"
    found = f"{shown_word(match[0])} without quotes"
    return Slip(found=found, wanted=wanted, nearest=switch or shown_text(match[0]))
