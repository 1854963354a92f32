"""Rows as questions read them: which columns there are, figures compared exactly, alike ones."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from itertools import chain, count

from drylay.brief.keys import SECTIONS
from drylay.compare.study_model import Row
from drylay.compare.study_row import MONEY, own_columns
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown
from drylay.intake.words import nearest_of
from drylay.papers.spreadsheet import written
from drylay.units import length_mm

#: How many columns, or words, a fault names.
MOST_NAMED = 6
#: The column that stands behind all that was put into a case, and before all that came of it.
OUTCOME, PLANNED = "outcome", "planned"
LENGTH = "_mm"
FROM_FILE = "json.loads(line, parse_float=Decimal, parse_int=Decimal), if rows come of a file"
#: Columns of what was put into a case begin so, before a dot: none is money.
PUT_IN = frozenset({*SECTIONS, "brief", "stock"})
#: Figures with more digits than floats reach are no figures of decks. Assumption.
MOST_DIGITS = 400


def read_rows(rows: object, wrong: list[Fault]) -> list[Row]:
    """Return rows as a list, read once; what is wrong with them goes on the list.

    None at all is a fault: most likely they come of something that was read to its end before.
    """
    if isinstance(rows, Mapping | str | bytes) or not isinstance(rows, Iterable):
        wrong.append(_of_rows(shown(rows), "several rows", "[row]"))
        return []
    read = list(rows)
    odd = [row for row in read if not isinstance(row, Mapping)]
    if odd:
        wrong.append(_of_rows(_first_of(shown(odd[0]), len(odd)), "rows that are mappings"))
        return []
    if not read:
        nearest = "rows = list(rows) before the first question, if they were read already"
        wrong.append(_of_rows("none", "one row at least", nearest))
    return read


def _of_rows(found: str, wanted: str, nearest: str = "") -> Fault:
    return Fault(path="rows", found=found, wanted=wanted, nearest=nearest)


def _first_of(told: str, count: int) -> str:
    return told if count == 1 else f"{told}, the first of {count}"


def has_column(rows: Sequence[Row], path: str, name: object, wrong: list[Fault]) -> bool:
    """Return whether any row has a column; if none has, that is a fault with the nearest name."""
    if isinstance(name, str) and any(name in row for row in rows):
        return True
    if rows:  # else there is one fault already, and no column to be like
        near = nearest_of(name, tuple(str(known) for known in columns_of(rows)))
        wrong.append(
            Fault(path=path, found=shown(name), wanted="a column of the rows", nearest=near)
        )
    return False


def columns_of(rows: Iterable[Row]) -> tuple[str, ...]:
    """Return the columns of all rows, in the order in which they first stand."""
    return tuple(dict.fromkeys(name for row in rows for name in row))


def put_in(row: Row) -> tuple[str, ...]:
    """Return the columns of what was put into a case; of a row of no study its name."""
    names = tuple(row)
    if OUTCOME in row:
        return names[: names.index(OUTCOME)]
    return tuple(name for name in ("case", "name") if name in row)


def can_be_built(row: Row) -> bool:
    """Return whether a row is of a deck that can be built. One that tells nothing of it is."""
    return row.get(OUTCOME, PLANNED) == PLANNED and row.get("buildable") is not False


def figures_in(rows: Sequence[Row], name: str, wrong: list[Fault]) -> list[Decimal | None]:
    """Return a column's figures, exactly; None where there is none, or no deck to be built.

    A float counts as the decimal number that it is written as. What is no number goes on the list.
    """
    values = [row.get(name) if can_be_built(row) else None for row in rows]
    found = list(map(exact_of, values))
    _report(name, _odd(values, found), wrong, "a number or None")
    return found


def money_in(rows: Sequence[Row], name: str, wrong: list[Fault]) -> list[Decimal | None]:
    """Return a column of money; None where there is none, or no deck to be built."""
    values = [row.get(name) if can_be_built(row) else None for row in rows]
    money = holds_money(name)
    found = [exact_of(v) if money and isinstance(v, Decimal) else None for v in values]
    odd = _odd(values, found)
    nearest = FROM_FILE if odd and isinstance(odd[0], int | float) else ""
    _report(name, odd, wrong, "money as Decimal, or None", nearest)
    return found


def holds_money(column: str) -> bool:
    """Return whether a Decimal in a column is money; of columns of the caller's own it is.

    In rows that come of a file every number may be a Decimal.
    """
    path, dot, _ = column.partition(".")
    return column in MONEY or not (column in own_columns() or (dot and path in PUT_IN))


def sizes_in(rows: Sequence[Row], name: str, wrong: list[Fault]) -> list[Decimal | None]:
    """Return a column's lengths in mm, those of decks that cannot be built too; None without one.

    A text with a unit counts as a brief reads it. One that is no length is a fault, unless the deck
    cannot be built: then that is why.
    """
    values = [row.get(name) for row in rows]
    found = [_size_of(value, name) for value in values]
    odd = [value for value, row in zip(_blanked(values, found), rows, strict=True)
           if value is not None and can_be_built(row)]  # fmt: skip
    _report(name, odd, wrong, "a length in mm, or with its unit")
    return found


def _size_of(value: object, name: str) -> Decimal | None:
    if not isinstance(value, str):
        return exact_of(value)
    try:
        return exact_of(length_mm(value, path=name))
    except InputError:
        return None


def _blanked(values: Sequence[object], found: Sequence[Decimal | None]) -> list[object]:
    """Return the values that came to no figure, None in the place of the others."""
    return [v if figure is None else None for v, figure in zip(values, found, strict=True)]


def _odd(values: Sequence[object], found: Sequence[Decimal | None]) -> list[object]:
    return [value for value in _blanked(values, found) if value is not None]


def _report(
    name: str, odd: Sequence[object], wrong: list[Fault], wanted: str, nearest: str = ""
) -> None:
    if odd:
        told = _first_of(shown(odd[0]), len(odd))
        wrong.append(Fault(path=name, found=told, wanted=wanted, nearest=nearest))


def exact_of(value: object) -> Decimal | None:
    """Return a number exactly as it is written, None for what is none or beyond all sense."""
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        return None
    exact = Decimal(repr(float(value)) if isinstance(value, float) else value)
    sane = exact.is_finite() and -MOST_DIGITS < exact.adjusted() < MOST_DIGITS
    return exact if sane else None


def one_currency(rows: Iterable[Row], wrong: list[Fault]) -> str:
    """Return the currency of all rows, "" where none tells one; several are a fault."""
    told = sorted({str(row.get("currency") or "") for row in rows} - {""})
    if len(told) > 1:
        found = ", ".join(told[:MOST_NAMED])
        wrong.append(Fault(path="currency", found=found, wanted="rows of one currency"))
    return told[0] if told else ""


def alike(rows: Sequence[Row], by: str) -> list[tuple[str, list[int]]]:
    """Return which rows are alike in a column, by a name for each, in the order they first stand.

    2400 and 2400.0 are alike, 2400 and "2400" are not. What has no value is named "none".
    """
    groups: dict[tuple[str, object], list[int]] = {}
    for at, row in enumerate(rows):
        groups.setdefault(_key_of(row.get(by)), []).append(at)
    named: dict[str, list[int]] = {}
    for members in groups.values():
        named[_name_not_in(named, told_value(rows[members[0]].get(by)))] = members
    return list(named.items())


def _name_not_in(names: Mapping[str, object], wanted: str) -> str:
    """Return a name that nothing has yet: numbered, where something has it."""
    numbered = (f"{wanted} ({number})" for number in count(2))
    return next(name for name in chain([wanted], numbered) if name not in names)


def _key_of(value: object) -> tuple[str, object]:
    exact = exact_of(value)
    return (type(value).__name__, told_value(value)) if exact is None else ("number", exact)


def told_value(value: object) -> str:
    """Return a cell in words: "none", "yes", a number digit for digit, a list with spaces."""
    match value:
        case None:
            return "none"
        case bool():
            return "yes" if value else "no"
        case str():
            return value or '""'
        case list() | tuple():
            return " ".join(told_value(part) for part in value)
        case int() | float() | Decimal() if exact_of(value) is not None:
            return written(value)
    return shown(value)
