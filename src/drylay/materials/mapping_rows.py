"""The rows of a mapping: which column fills which key, what is alike in all, and rules."""

from collections.abc import Iterator, Mapping

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.cells import UNITS
from drylay.intake.keys import Key
from drylay.intake.places import Keys
from drylay.intake.shown import shown, shown_text
from drylay.intake.tables import Reading, read_table, read_tables, report
from drylay.intake.values import READERS, fault, unfit
from drylay.materials import mapping_keys
from drylay.materials.articles import RULED, Values, read_source, rule_named
from drylay.materials.mapping_keys import row_keys, sold_keys
from drylay.materials.mapping_model import ColumnOf, RowsOf, RuleOf
from drylay.materials.model import QUESTIONS, RULE_BOUNDS

_A_COLUMN = "a column's name, or a table { column = ..., unit = ... }"


def read_rows(
    reading: Reading,
    there: Keys,
    read: Values,
    table: Mapping[str, object],
    *,
    dated: bool,
    digits: int,
) -> RowsOf:
    """Return which rows these are, and how they are read."""
    kind = str(read["kind"])
    keys = row_keys(kind, digits)
    constants = _constants(reading, (*there, "constants"), table.get("constants", {}), keys)
    columns = _columns(reading, (*there, "columns"), table.get("columns", {}), keys, dated=dated)
    own = {column.key.name for column in columns} | set(constants)
    shared = reading.document.tables.get("columns", {})
    for column in _columns(reading, ("columns",), _known_of(shared, keys), keys, dated=dated):
        columns += [column] if column.key.name not in own else []
    for column in columns:
        if column.key.name in constants:
            found = fault(f"{column.key.name} in columns and constants", "one of the two")
            report(reading, (*there, "constants", column.key.name), found)
    _need(reading, there, kind, {column.key.name for column in columns} | set(constants), digits)
    return RowsOf(
        says=str(read["says"]) if isinstance(read.get("says"), str) else "",
        kind=kind,
        there=there,
        columns=tuple(columns),
        constants=constants,
        rules=tuple(_rules(reading, (*there, "rules"), kind, table.get("rules"), dated=dated)),
    )


def _known_of(shared: object, keys: tuple[Key, ...]) -> dict[str, object]:
    names = {key.name for key in keys}
    table = shared if isinstance(shared, Mapping) else {}
    return {name: value for name, value in table.items() if name in names}


def _constants(
    reading: Reading, there: Keys, value: object, keys: tuple[Key, ...]
) -> dict[str, object]:
    return read_table(reading, there, value, tuple(evolve(key, required=False) for key in keys))


def _columns(
    reading: Reading,
    there: Keys,
    value: object,
    keys: tuple[Key, ...],
    *,
    dated: bool,
) -> list[ColumnOf]:
    raw = tuple(evolve(key, kind="measure", required=False) for key in keys)
    given = read_table(reading, there, value, raw)
    by_name = {key.name: key for key in keys}
    found = [
        _column(reading, (*there, name), by_name[name], told, dated=dated)
        for name, told in given.items()
        if name in by_name
    ]
    return [column for column in found if column is not None]


def _column(
    reading: Reading, there: Keys, key: Key, told: object, *, dated: bool
) -> ColumnOf | None:
    table = {"column": told} if isinstance(told, str) else told
    if not isinstance(table, Mapping):
        report(reading, there, unfit(told, _A_COLUMN))
        return None
    read = read_table(reading, there, table, mapping_keys.COLUMN)
    words = _words(reading, (*there, "words"), key, table.get("words"))
    for wrong in _how_told(key, read, words, dated=dated):
        report(reading, there, wrong)
    column, unit = read.get("column"), read.get("unit")
    if not isinstance(column, str):
        return None
    return ColumnOf(
        key=key,
        column=column,
        there=there,
        unit=unit if isinstance(unit, str) else "",
        words=words,
    )


def _how_told(
    key: Key, read: Mapping[str, object], words: object, *, dated: bool
) -> Iterator[Fault]:
    """Yield a unit that is missing or has no place, and days whose order nobody tells."""
    if words is not None:
        return
    if key.kind == "length" and "unit" not in read:
        nearest = f'{key.name} = {{ column = {shown(read.get("column"))}, unit = "..." }}'
        wanted = f"its unit, which is never guessed, one of {', '.join(UNITS)}"
        yield fault("a length without a unit", wanted, nearest)
    if key.kind != "length" and "unit" in read:
        yield fault(f"a unit for {key.name}", "units of lengths only", "leave out unit")
    if key.kind == "day" and not dated:
        yield fault(f"{key.name} from a column", "file.dates, how days are written")


def _words(reading: Reading, there: Keys, key: Key, value: object) -> dict[str, object] | None:
    """Return what each word of a column means, as the key would have it in a stock file."""
    if value is None:
        return None
    if not isinstance(value, Mapping):
        report(reading, there, unfit(value, "a table of words and what each means"))
        return None
    words = {}
    for word, told in value.items():
        answer = READERS[key.kind](key, told)
        if isinstance(answer, Fault):
            report(reading, (*there, str(word)), answer)
        words[str(word)] = answer
    return words


def _need(reading: Reading, there: Keys, kind: str, told: set[str], digits: int) -> None:
    """Report keys that every article of a kind needs and that neither column nor constant fills."""
    sold = {key.name for key in sold_keys(kind, digits)}
    priced = {"each"} if "each" in told else {"price_per_m"} if "price_per_m" in told else set()
    for key in row_keys(kind, digits):
        free = priced and (key.name == "price" or (key.name in sold and "each" in priced))
        if key.required and key.name not in told and not free:
            nearest = f'{key.name} = "..." under columns'
            wanted = "a column or a constant for it"
            found = fault(f"nothing for {key.name}", wanted, nearest)
            report(reading, there, evolve(found, path=f"rows[{there[1]}].{key.name}"))


def _rules(
    reading: Reading, there: Keys, kind: str, value: object, *, dated: bool
) -> Iterator[RuleOf]:
    """Yield the columns that hold the merchant's own values for rules."""
    if value is not None and kind not in RULED:
        found = fault(f"rules of {kind}", f"rules of {' or '.join(RULED)} only")
        report(reading, there, found)
        return
    tables = value if isinstance(value, list | tuple) else ()
    seen: set[str] = set()
    for at, read in enumerate(read_tables(reading, there, value, mapping_keys.RULE)):
        source = read_source(reading, (*there, at, "source"), tables[at])
        rule = rule_named(reading, (*there, at), read)
        column = read.get("column")
        if rule is None or source is None or not isinstance(column, str):
            continue
        if rule in seen:
            again = fault(f"{shown_text(rule)} a second time", "each rule once")
            report(reading, (*there, at, "rule"), again)
        seen.add(rule)
        filled = _rule(reading, (*there, at), rule, read, dated=dated)
        yield RuleOf(rule=rule, column=filled, source=source)


def _rule(
    reading: Reading,
    there: Keys,
    rule: str,
    read: Values,
    *,
    dated: bool,
) -> ColumnOf:
    """Return the column of a rule, its unit told for a length and for nothing else."""
    least, most = RULE_BOUNDS[rule]
    kind = {"mm": "length", "count": "count", "yes/no": "count"}.get(QUESTIONS[rule][0], "number")
    key = Key(name=rule, kind=kind, least=least, most=most)
    for wrong in _how_told(key, read, None, dated=dated):
        report(reading, there, wrong)
    unit = read.get("unit")
    return ColumnOf(
        key=key,
        column=str(read["column"]),
        there=there,
        unit=unit if isinstance(unit, str) else "",
    )
