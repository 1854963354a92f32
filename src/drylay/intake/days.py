"""A day in, a day out: TOML's own, or a text as ISO 8601 writes one. No clock is read."""

import re
from datetime import date, datetime

from drylay.errors import Fault
from drylay.intake.keys import Key
from drylay.intake.shown import shown

#: A day before or after these years is a slip. Assumption.
FIRST_YEAR, LAST_YEAR = 2000, 2199
WANTED = "a day such as 2027-03-31 (year-month-day, ISO 8601)"

_ISO = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_OTHER = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})", re.ASCII)


def read_day(key: Key, value: object) -> date | Fault:
    """Return a day."""
    if isinstance(value, datetime):
        return _unfit(key, value.isoformat(), value.date().isoformat())
    found = value if isinstance(value, date) else _iso(value)
    if found is None:
        return _unfit(key, shown(value), _turned(value))
    if not FIRST_YEAR <= found.year <= LAST_YEAR:
        wanted = f"a day of the years {FIRST_YEAR} to {LAST_YEAR}"
        return Fault(path="", found=found.isoformat(), wanted=wanted)
    return found


def _unfit(key: Key, found: str, nearest: str) -> Fault:
    fix = f"{key.name} = {nearest}" if nearest else ""
    return Fault(path="", found=found, wanted=WANTED, nearest=fix)


def _iso(value: object) -> date | None:
    """Return the day that a text names as ISO 8601 does; a day that no month has is none."""
    if not isinstance(value, str) or not _ISO.fullmatch(value):
        return None
    return made(*map(int, value.split("-")))


def made(year: int, month: int, day: int) -> date | None:
    """Return a day, or None where the month has no such day."""
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _turned(value: object) -> str:
    """Return a day written another way as ISO 8601 writes it, if it can be but one day."""
    match = _OTHER.fullmatch(value) if isinstance(value, str) else None
    if match is None:
        return ""
    first, second, year = map(int, match.groups())
    days = {made(year, second, first), made(year, first, second)} - {None}
    return str(days.pop()) if len(days) == 1 else ""
