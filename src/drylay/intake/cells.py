"""One cell of a CSV file in, one value out, read as the mapping says and never guessed."""

import math
import re
from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from fractions import Fraction

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.intake.days import FIRST_YEAR, LAST_YEAR, made
from drylay.intake.gtin import is_gtin, read_gtin
from drylay.intake.keys import Key
from drylay.intake.shown import shown_text, shown_word
from drylay.intake.undressed import undressed
from drylay.intake.values import SLIP, bounds, fault, one_line, read_text
from drylay.intake.words import nearest_choice, nearest_of
from drylay.marks import PER_MM, to_mm
from drylay.units import length_mm

#: What a column of lengths may be told in; "as written" means that each cell brings its unit.
UNITS = ("mm", "cm", "m", "in", "ft", "as written")
DECIMALS = (".", ",")
#: How days may be written.
DATES = ("year-month-day", "day.month.year", "day/month/year", "month/day/year")

_MM_PER = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000),
           "in": Fraction(254, 10), "ft": Fraction(3048, 10)}  # fmt: skip
_YEAR, _MONTH, _DAY = r"(?P<year>\d{4})", r"(?P<month>\d{1,2})", r"(?P<day>\d{1,2})"
_DAY_PARTS = {
    dates: re.compile(
        re.escape(dates).replace("year", _YEAR).replace("month", _MONTH).replace("day", _DAY),
        re.ASCII,
    )
    for dates in DATES
}
_SHORT_YEAR = re.compile(r"^(\d{1,2}[./]\d{1,2}[./])(\d{2})$", re.ASCII)
_NUMBER = {mark: re.compile(rf"-?\d{{1,12}}(?:{re.escape(mark)}\d{{1,9}})?", re.ASCII)
           for mark in DECIMALS}  # fmt: skip
_MONEY = {mark: re.compile(rf"\d{{1,12}}(?:{re.escape(mark)}\d{{1,9}})?", re.ASCII)
          for mark in DECIMALS}  # fmt: skip
_COUNT = re.compile(r"\d{1,12}", re.ASCII)

Cell = Callable[[str], object]


@frozen(kw_only=True)
class CellForm:
    """How the cells of a file are written: which mark parts decimals, how days are told."""

    decimal: str
    dates: str = ""


def cell_reader(
    key: Key, form: CellForm, *, unit: str = "", words: Mapping[str, object] | None = None
) -> Cell:
    """Return the reader of one column: its answer is the value, or a fault without a place."""
    if words is not None:
        return lambda text: _word(words, text)
    readers: dict[str, Cell] = {
        "length": _length_reader(key, form, unit),
        "number": lambda text: _number(key, form, text),
        "count": lambda text: _count(key, text),
        "money": _money_reader(key, form),
        "text": _text_reader(key),
        "choice": lambda text: _choice(key, text),
        "flag": _flag,
        "day": lambda text: _day(form, text),
        "gtin": lambda text: text if is_gtin(text) else _no_gtin(key, text),
    }
    return readers[key.kind]


def _unfit(text: str, wanted: str, nearest: str = "") -> Fault:
    return fault(shown_text(text), wanted, nearest)


def _word(words: Mapping[str, object], text: str) -> object:
    if text in words:
        return words[text]
    told = ", ".join(map(shown_word, list(words)[:12]))
    near = nearest_of(text, tuple(words))
    return _unfit(text, f"one of the mapping's words: {told}", shown_word(near) if near else "")


def _plain(text: str, form: CellForm) -> str:
    return text.replace(",", ".") if form.decimal == "," else text


def _length_reader(key: Key, form: CellForm, unit: str) -> Cell:
    if unit not in _MM_PER:
        return lambda text: _written_length(key, text)
    # 1/320 mm in each unit is a whole number, so nothing is lost before it is rounded to one
    ticks, pattern, mark = int(_MM_PER[unit] * PER_MM), _NUMBER[form.decimal], form.decimal
    least, most = (Fraction(str(end)) * PER_MM for end in (key.least, key.most))
    bound = math.ceil(least), math.floor(most)

    def read(text: str) -> object:
        if not pattern.fullmatch(text):
            return _no_length(key, form, unit, undressed(text, form.decimal), text)
        whole, _, part = text.partition(mark)
        scale = 10 ** len(part)
        length, rest = divmod(int(whole + part) * ticks, scale)
        if not bound[0] <= length <= bound[1] or (rest and length == bound[1]):
            near = _near_length(key, unit, form, Fraction(_plain(text, form)))
            return _no_length(key, form, unit, near, text)
        # half a tick goes to the even one
        return to_mm(length + (2 * rest > scale or (2 * rest == scale and length % 2 == 1)))

    return read


def _no_length(key: Key, form: CellForm, unit: str, nearest: str, text: str) -> Fault:
    return _unfit(text, f"a number of {unit}, {_bounds_in(key, unit, form)}", nearest)


def _written_length(key: Key, text: str) -> object:
    try:
        mm = length_mm(text, path="")
    except InputError as error:
        return _unfit(text, error.faults[0].wanted, error.faults[0].nearest)
    return mm if key.least <= mm <= key.most else _unfit(text, bounds(key))


def _bounds_in(key: Key, unit: str, form: CellForm) -> str:
    least, most = (float(Fraction(end) / _MM_PER[unit]) for end in (key.least, key.most))
    return f"{least:.6g} to {most:.6g}".replace(".", form.decimal)


def _near_length(key: Key, unit: str, form: CellForm, number: Fraction) -> str:
    """Return the nearest fix: another unit for the column or the cell where that makes sense."""
    mm = number * _MM_PER[unit]
    fit = [other for other, size in _MM_PER.items() if key.least <= number * size <= key.most]
    if mm > key.most:
        fixes = (_meant(form, unit, number, other) for other in fit if _of_one_system(unit, other))
        return " or ".join(fixes)
    larger = [other for other in fit if _MM_PER[other] > _MM_PER[unit]]
    if larger and mm * Fraction(SLIP) <= key.least:
        return f'unit = "{larger[0]}" in the mapping, if that is meant'
    return ""


def _meant(form: CellForm, unit: str, number: Fraction, other: str) -> str:
    """Return a number told in another unit as its column has it."""
    told = f"{float(number * _MM_PER[other] / _MM_PER[unit]):.6g}, if {float(number):.6g} {other}"
    return told.replace(".", form.decimal) + " was meant"


def _of_one_system(unit: str, other: str) -> bool:
    return (unit in ("in", "ft")) == (other in ("in", "ft"))


def _number(key: Key, form: CellForm, text: str) -> object:
    wanted = f"a number, {bounds(key)}".replace(".", form.decimal)
    if not _NUMBER[form.decimal].fullmatch(text):
        return _unfit(text, wanted, undressed(text, form.decimal))
    number = float(_plain(text, form))
    if not key.least <= number <= key.most:
        percent = key.most <= 1 and number >= 2 and key.least <= number / 100 <= key.most
        near = f"{number / 100:.15g}" if percent else ""
        return _unfit(text, wanted, near.replace(".", form.decimal))
    return number


def _count(key: Key, text: str) -> object:
    if _COUNT.fullmatch(text):
        count = int(text)
        if key.least <= count <= key.most:
            return count
    whole = re.fullmatch(r"(\d{1,12})[.,]0*", text, re.ASCII)
    return _unfit(
        text, f"a whole number, {key.least:.0f} to {key.most:.0f}", whole[1] if whole else ""
    )


def _money_reader(key: Key, form: CellForm) -> Cell:
    mark, least, most = form.decimal, Decimal(str(key.least)), Decimal(str(key.most))
    cents = rf"(?:{re.escape(mark)}\d{{1,{key.digits}}})?" if key.digits else ""
    pattern = re.compile(rf"\d{{1,12}}{cents}", re.ASCII)

    def read(text: str) -> object:
        if not pattern.fullmatch(text):
            return _no_money(key, form, text)
        amount = Decimal(text.replace(",", "."))
        if not least <= amount <= most:
            return _unfit(text, f"{key.least:g} to {key.most:.0f}".replace(".", mark))
        return amount

    return read


def _no_money(key: Key, form: CellForm, text: str) -> Fault:
    if _MONEY[form.decimal].fullmatch(text):
        return _unfit(text, f"at most {key.digits} decimals")
    wanted = f"money such as 14{form.decimal}40, with the decimal mark that the mapping names"
    return _unfit(text, wanted, undressed(text, form.decimal))


def _text_reader(key: Key) -> Cell:
    least, most = key.least, key.most

    def read(text: str) -> object:
        if least <= len(text) <= most and text.isprintable() and text == text.strip():
            return text
        return _text(key, text)

    return read


def _text(key: Key, text: str) -> object:
    answer = read_text(key, text)
    if isinstance(answer, Fault):
        bare, line = text.strip(), one_line(key, text)
        fix = f"{shown_text(bare)}, or trim = true in the mapping" if bare != text else ""
        fix = shown_text(line) if line else fix
        return fault(answer.found, answer.wanted, fix)
    return answer


def _choice(key: Key, text: str) -> object:
    if text in key.choices:
        return text
    near = nearest_choice(text, key.choices)
    fix = f"{near}, or words in the mapping" if near else "words in the mapping"
    return _unfit(text, f"one of {', '.join(key.choices)}", fix)


def _flag(text: str) -> object:
    if text in ("true", "false"):
        return text == "true"
    return _unfit(text, "true or false", "words in the mapping")


def _day(form: CellForm, text: str) -> date | Fault:
    day = _day_as(form.dates, text)
    if day is None:
        years = f"of the years {FIRST_YEAR} to {LAST_YEAR}"
        wanted = f"a day as {form.dates}, as the mapping says, {years}"
        return _unfit(text, wanted, _other_day(form, text))
    return day


def _other_day(form: CellForm, text: str) -> str:
    """Return a day written in another way as the mapping says, "" where it may be two days."""
    whole = _SHORT_YEAR.sub(r"\g<1>20\g<2>", text)
    days = {day: dates for dates in DATES if (day := _day_as(dates, whole)) is not None}
    if len(days) != 1:
        return ""
    ((day, dates),) = days.items()
    told = form.dates.replace("year", f"{day.year}").replace("month", f"{day.month:02}")
    told = told.replace("day", f"{day.day:02}")
    if whole != text:
        return f"{told}, if that is meant"
    return "" if dates == form.dates else f'{told}, or dates = "{dates}" in the mapping'


def _day_as(dates: str, text: str) -> date | None:
    match = _DAY_PARTS[dates].fullmatch(text)
    day = made(*(int(match[part]) for part in ("year", "month", "day"))) if match else None
    return day if day is not None and FIRST_YEAR <= day.year <= LAST_YEAR else None


def _no_gtin(key: Key, text: str) -> object:
    answer = read_gtin(key, text)
    if not isinstance(answer, Fault):
        return answer
    return fault(answer.found, answer.wanted, answer.nearest.removeprefix(f"{key.name} = "))
