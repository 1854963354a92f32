"""A table read key by key: everything wrong with it is found, everything right is kept."""

import re
from collections.abc import Iterable, Mapping

from attrs import evolve, field, frozen

from drylay.errors import Fault
from drylay.intake.document import Document, path_text, placed, written
from drylay.intake.keys import LENGTHS, Key, bare_name
from drylay.intake.places import Keys
from drylay.intake.shown import LONGEST, shown
from drylay.intake.values import READERS, fault, read_length_text, read_mm, unfit
from drylay.intake.words import nearest_of, told_choices

#: Stands in an answer for a key that was given but could not be read.
UNREADABLE = object()
#: Past this many faults the rest of a file is not looked at: nobody mends them one by one.
MOST_FAULTS = 2000
#: Past this many unknown keys in one table the rest are counted, not listed.
MOST_UNKNOWN = 50
_LITRES = ("l", "L", "litre", "litres", "liter", "liters")
_OTHER_UNIT = re.compile(r"(\w+)_(m|cm|in|ft)")


@frozen(kw_only=True)
class Reading:
    """A document being read, and the list of what was found wrong with it so far."""

    document: Document
    faults: list[Fault] = field(factory=list)
    most_faults: int = MOST_FAULTS


def report(reading: Reading, keys: Keys, found: Fault, *, at_key: bool = False) -> None:
    """Put a fault on the list, with its place."""
    reading.faults.append(placed(reading.document, keys, found, at_key=at_key))


def read_table(
    reading: Reading, keys: Keys, table: object, known: tuple[Key, ...]
) -> dict[str, object]:
    """Return what could be read of a table under the names of its keys.

    A key left out, or given as None, is not in the answer; one that was given but could not
    be read is UNREADABLE.
    """
    if not isinstance(table, Mapping):
        report(reading, keys, unfit(table, f"a table with {_names(known)}"))
        return {}
    _refuse_unknown(reading, keys, table, known)
    answers: dict[str, object] = {}
    for key in known:
        given = _given(table, key, known)
        if key.kind in {"table", "tables"}:
            _miss(reading, keys, key, given)
        elif len(given) == 2:
            _refuse_both(reading, keys, key)
            answers[key.name] = UNREADABLE
        elif not given:
            _miss(reading, keys, key, given)
        else:
            answers[key.name] = _read(reading, (*keys, given[0]), key, table[given[0]])
    return answers


def read_tables(
    reading: Reading, keys: Keys, value: object, known: tuple[Key, ...]
) -> list[dict[str, object]]:
    """Return what could be read of each table of a list of tables."""
    if value is None:
        return []
    if not isinstance(value, list | tuple):
        report(reading, keys, unfit(value, f"a list of tables with {_names(known)}"))
        return []
    answers = []
    for at, item in enumerate(value):
        if len(reading.faults) > reading.most_faults:
            break
        answers.append(read_table(reading, (*keys, at), item, known))
    return answers


def all_faults(reading: Reading) -> tuple[Fault, ...]:
    """Return what was found wrong, in the order of the file."""
    faults = sorted(reading.faults, key=lambda found: (found.line, found.column))
    most = reading.most_faults
    if len(faults) > most:
        rest = fault(f"more than {most} faults", "these mended first")
        faults = [*faults[:most], placed(reading.document, (), rest)]
    return tuple(faults)


def _names(known: Iterable[Key]) -> str:
    wanted = [key.name for key in known]
    needed = [key.name for key in known if key.required]
    return ", ".join(needed or wanted[:4])


def _given(table: Mapping[object, object], key: Key, known: tuple[Key, ...]) -> list[str]:
    """Return the names under which a key is given.

    Where a list of lengths may be given as texts under the name of another key, a list there is
    the lengths, and anything else that other key's.
    """
    names = dict.fromkeys((key.name, _other_name(key)))
    shared = {_other_name(one) for one in known if one.kind == "lengths"}
    shared &= {one.name for one in known if one.kind != "lengths"}
    return [
        name
        for name in names
        if table.get(name) is not None
        and (name not in shared or isinstance(table[name], list | tuple) == (key.kind == "lengths"))
    ]


def _read(reading: Reading, keys: Keys, key: Key, value: object) -> object:
    if key.kind == "lengths":
        return _read_lengths(reading, keys, key, value)
    as_text = key.kind == "length" and keys[-1] != key.name
    answer = read_length_text(key, value) if as_text else READERS[key.kind](key, value)
    if not isinstance(answer, Fault):
        return answer
    report(reading, keys, _as_written(reading, keys, value, answer))
    return UNREADABLE


def _read_lengths(reading: Reading, keys: Keys, key: Key, value: object) -> object:
    """Return a list of lengths; each that cannot be read is told in its own place."""
    if not isinstance(value, list | tuple):
        report(reading, keys, unfit(value, "a list of lengths", f"{keys[-1]} = [...]"))
        return UNREADABLE
    read_one = read_mm if keys[-1] == key.name else read_length_text
    answers = [read_one(key, one) for one in value]
    wrong = [(at, found) for at, found in enumerate(answers) if isinstance(found, Fault)]
    for at, found in wrong:
        nearest = _of_a_list(
            key, found.nearest.removeprefix(f"{key.name} = "), alone=len(value) == 1
        )
        told = _as_written(reading, (*keys, at), value[at], evolve(found, nearest=nearest))
        report(reading, (*keys, at), told)
    return UNREADABLE if wrong else tuple(answers)


def _of_a_list(key: Key, nearest: str, *, alone: bool) -> str:
    """Return the nearest fix of one length of a list: a text by itself is no list of texts."""
    start = f'{bare_name(key)} = "'
    if not nearest.startswith(start) or " = " in nearest.removeprefix(start):
        return nearest
    text, mark, rest = nearest.removeprefix(start).partition('"')
    return f'{start.removesuffix(mark)}["{text}"{"" if alone else ", ..."}]{rest}'


def _as_written(reading: Reading, keys: Keys, value: object, found: Fault) -> Fault:
    """Return the fault with a number as the file spells it, so that 14.40 stays 14.40."""
    spelled = written(reading.document, keys)
    if isinstance(value, int | float) and spelled and len(spelled) < 40:
        return evolve(found, found=found.found.replace(shown(value), spelled))
    return found


def _miss(reading: Reading, keys: Keys, key: Key, given: list[str]) -> None:
    if key.required and not given:
        nearest = f"{key.name}, or {bare_name(key)} as text" if key.kind == "length" else ""
        wanted = _kind_text(key, inside=bool(keys))
        report(reading, (*keys, key.name), fault("nothing", wanted, nearest), at_key=True)


def _kind_text(key: Key, *, inside: bool) -> str:
    table = f"a table {key.name} = {{ ... }}" if inside else f"a section [{key.name}]"
    return {
        "length": "a length",
        "lengths": "a list of lengths",
        "text": "the family, such as softwood" if key.name == "family" else "a text",
        "choice": f"one of {told_choices(key.choices)}",
        "table": table,
        "money": "a price",
        "count": "a whole number",
    }.get(key.kind, "a value")


def _refuse_both(reading: Reading, keys: Keys, key: Key) -> None:
    found = fault(
        f"both {key.name} and {bare_name(key)}", "one of them", f"leave out {bare_name(key)}"
    )
    report(reading, (*keys, bare_name(key)), found, at_key=True)


def _refuse_unknown(
    reading: Reading, keys: Keys, table: Mapping[object, object], known: tuple[Key, ...]
) -> None:
    names = dict.fromkeys(name for key in known for name in (key.name, _other_name(key)))
    unknown = [name for name in table if name not in names]
    wanted = f"one of {', '.join(key.name for key in known)}"
    for name in unknown[:MOST_UNKNOWN]:
        word = name if isinstance(name, str) else shown(name)
        nearest = _known_name(word, table[name], names)
        found = fault(f"an unknown key {shown(word)}", wanted, nearest)
        path = path_text((*keys, word[:LONGEST]))
        report(reading, (*keys, word), evolve(found, path=path), at_key=True)
    if len(unknown) > MOST_UNKNOWN:
        more = f"{len(unknown) - MOST_UNKNOWN} more unknown keys"
        report(reading, keys, fault(more, "known keys only"), at_key=True)


def _other_name(key: Key) -> str:
    return bare_name(key) if key.kind in LENGTHS else key.name


def _known_name(name: str, value: object, names: Iterable[str]) -> str:
    """Return the nearest fix for an unknown key: `along_m = 6` means `along = "6 m"`."""
    match = _OTHER_UNIT.fullmatch(name)
    if match and match[1] in set(names) and isinstance(value, int | float):
        return f'{match[1]} = "{shown(value)} {match[2]}"'
    if name in _LITRES and "ml" in set(names) and isinstance(value, int | float):
        return f"ml = {value * 1000:g}"
    if name == "count" and "kg" in set(names):
        return "kg"
    return nearest_of(name, tuple(names))
