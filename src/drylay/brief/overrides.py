"""Named persons' overrides: which decisions may be overridden, and how the values are read."""

from drylay.brief.keys import OVERRIDABLE, OVERRIDE, Overridable
from drylay.brief.model import Override
from drylay.errors import Fault
from drylay.intake.measures import read_measure
from drylay.intake.places import Keys
from drylay.intake.shown import shown, shown_text
from drylay.intake.tables import UNREADABLE, Reading, read_tables, report
from drylay.intake.values import fault, number_of
from drylay.intake.words import nearest_of

_LENGTH_UNITS = {"cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}


def read_overrides(reading: Reading, value: object) -> tuple[Override, ...]:
    """Return the overrides that could be read; what is wrong with the others is reported."""
    tables = read_tables(reading, ("overrides",), value, OVERRIDE)
    found = tuple(
        override
        for at, table in enumerate(tables)
        if (override := _override(reading, ("overrides", at), table)) is not None
    )
    _refuse_twice(reading, tables)
    return found


def _override(reading: Reading, keys: Keys, table: dict[str, object]) -> Override | None:
    path = table.get("path")
    if not isinstance(path, str):
        return None
    decision = OVERRIDABLE.get(path)
    if decision is None:
        near = nearest_of(path, tuple(OVERRIDABLE)) or _same_ending(path)
        nearest = f'path = "{near}"' if near else ""
        wanted = f"a decision that may be overridden: {', '.join(OVERRIDABLE)}"
        report(reading, (*keys, "path"), fault(shown_text(path), wanted, nearest))
        return None
    value = _value(reading, keys, table, decision.unit)
    if value is None or not all(isinstance(table.get(key), str) for key in ("by", "reason")):
        return None
    return Override(
        path=path,
        value=value,
        unit=decision.unit,
        by=str(table["by"]),
        reason=str(table["reason"]),
    )


def _same_ending(path: str) -> str:
    """Return the decision whose last part a path ends with: "most_centres_mm" alone."""
    endings = {name.rsplit(".", 1)[1]: name for name in OVERRIDABLE}
    return endings.get(nearest_of(path.rsplit(".", 1)[-1], tuple(endings)), "")


def _value(reading: Reading, keys: Keys, table: dict[str, object], unit: str) -> float | None:
    if "value" not in table:
        return None
    given = table["value"]
    wrong = _unit_fault(given, table.get("unit"), OVERRIDABLE[str(table["path"])])
    if wrong is not None:
        at = (*keys, "unit") if "unit" in table else keys
        report(reading, at, wrong, at_key="unit" not in table)
        return None
    decision = OVERRIDABLE[str(table["path"])]
    answer = read_measure(given, unit=unit, least=decision.least, most=decision.most)
    if isinstance(answer, Fault):
        report(reading, (*keys, "value"), answer)
        return None
    return answer


def _unit_fault(value: object, given: object, decision: Overridable) -> Fault | None:
    """Return what is wrong with the unit beside a value; a text brings its own."""
    unit = decision.unit
    if isinstance(value, str) and unit == "mm":
        wanted = "a text with its unit, or a number and a unit, not both"
        return None if given is None else fault(f"unit = {shown(given)} beside a text", wanted)
    if given is None:
        return fault("no unit", f'unit = "{unit}"', f'unit = "{unit}"')
    if given is UNREADABLE or given == unit:
        return None
    nearest = f'unit = "{unit}"'
    number = number_of(value)
    if unit == "mm" and given in _LENGTH_UNITS and number is not None:
        size_mm = number * _LENGTH_UNITS[str(given)]
        if decision.least <= size_mm <= decision.most:
            nearest = f'value = "{shown(value)} {given}" and no unit'
    return fault(f"unit = {shown(given)}", f'unit = "{unit}"', nearest)


def _refuse_twice(reading: Reading, tables: list[dict[str, object]]) -> None:
    seen: set[object] = set()
    for at, table in enumerate(tables):
        path = table.get("path")
        if path in seen and isinstance(path, str):
            found = fault(f"{shown_text(path)} overridden twice", "one override of a decision")
            report(reading, ("overrides", at, "path"), found)
        seen.add(path)
