"""A family's table read: a TOML file in, a FamilyTable out, or every fault at once."""

import os
import re
from collections.abc import Iterator, Mapping
from importlib.resources.abc import Traversable
from itertools import combinations
from math import inf, isfinite
from typing import Any

from attrs import evolve

from drylay.errors import FamilyError, Fault
from drylay.intake.document import Document, open_document
from drylay.intake.measures import read_measure
from drylay.intake.places import Keys
from drylay.intake.shown import shown, shown_text
from drylay.intake.tables import UNREADABLE, Reading, all_faults, read_table, read_tables, report
from drylay.intake.values import fault, number_of, unfit
from drylay.intake.words import nearest_of
from drylay.materials.model import QUESTIONS, RULE_BOUNDS
from drylay.plugins.table_keys import (
    FAMILY,
    KNOWN_WORDS,
    SOURCE,
    TOP,
    conditions,
    entry_keys,
    parts,
)
from drylay.plugins.table_model import Entry, FamilyTable, Reach, Words
from drylay.plugins.table_rules import has_word, spelt
from drylay.reasons import Source

MOST_BYTES = 1_000_000
_ID = re.compile(r"[a-z][a-z0-9-]*")
_Values = dict[str, Any]
Given = str | os.PathLike[str] | Traversable | Mapping[str, object]


def read_family_table(source: Given) -> FamilyTable:
    """Return the family's table in a TOML file (or in a mapping with the same keys).

    Raises:
        FamilyError: With everything that is wrong; nothing is half-read.
    """
    document, faults = open_document(source, what="family table", most_bytes=MOST_BYTES)
    if document is None:
        raise FamilyError(faults)
    reading = Reading(document=document)
    read_table(reading, (), document.tables, TOP)
    head = _head(reading, document)
    default = head.pop("source")
    rules = _entries(reading, "rules", "rule", default)
    numbers = _entries(reading, "numbers", "name", default)
    if reading.faults:
        raise FamilyError(all_faults(reading))
    return FamilyTable(**head, rules=rules, numbers=numbers)


def _head(reading: Reading, document: Document) -> _Values:
    given = document.tables.get("family")
    head: _Values = {} if given is None else read_table(reading, ("family",), given, FAMILY)
    if isinstance(head.get("id"), str) and not _ID.fullmatch(head["id"]):
        wrong = unfit(head["id"], "small letters, digits and hyphens, a letter first")
        report(reading, ("family", "id"), wrong)
    head["cautions"] = _cautions(reading, head.get("cautions"))
    head["source"] = _source(reading, ("family", "source"), given)
    return head


def _cautions(reading: Reading, given: object) -> tuple[str, ...]:
    cautions = given if isinstance(given, list | tuple) else () if given is None else (given,)
    for at, caution in enumerate(cautions):
        if not isinstance(caution, str) or not caution.strip() or not caution.isprintable():
            report(reading, ("family", "cautions", at), unfit(caution, "one line of text"))
    if isinstance(given, str):
        report(reading, ("family", "cautions"), unfit(given, "a list of texts"))
    return tuple(cautions)


def _entries(reading: Reading, where: str, named: str, default: Source | None) -> tuple[Entry, ...]:
    """Return the entries of `rules` or `numbers` that could be read whole."""
    tables = reading.document.tables.get(where)
    found: list[tuple[Keys, Entry]] = []
    for at, read in enumerate(read_tables(reading, (where,), tables, entry_keys(named))):
        given = tables[at] if isinstance(tables, list | tuple) else None
        entry = _entry(reading, (where, at), read, given, named=named, default=default)
        found += [((where, at), entry)] if entry is not None else []
    for keys, wrong in _rivals(found):
        report(reading, keys, wrong)
    return tuple(entry for _, entry in found)


def _entry(
    reading: Reading,
    keys: Keys,
    read: _Values,
    given: object,
    *,
    named: str,
    default: Source | None,
) -> Entry | None:
    source = _source_of(reading, keys, read, given, default)
    reaches = _reaches(reading, keys, read)
    words = _words(reading, keys, read)
    reckoned = {name: read[name] for name in ("times", "sine", "plus", "minus") if name in read}
    if not _is_known(reading, keys, read.get(named), rule=named == "rule"):
        return None
    if "minus" in reckoned and "plus" not in reckoned:
        report(reading, (*keys, "minus"), fault("minus without plus", "what it is taken off"))
    # a sine only makes less of a value, so that alone it leaves the bounds standing
    free = named == "name" or bool(reckoned.keys() - {"sine"})
    value = _value(reading, keys, read, free=free)
    if source is None or value is None or UNREADABLE in read.values():
        return None
    more = {name: read[name] for name in ("says", "at_least") if name in read}
    return Entry(
        name=read[named],
        value=value,
        source=source,
        reaches=reaches,
        words=words,
        **reckoned,
        **more,
    )


def _is_known(reading: Reading, keys: Keys, name: object, *, rule: bool) -> bool:
    """Return whether an entry's name is one that can be asked for."""
    if not isinstance(name, str):
        return False
    if not rule or name in QUESTIONS:
        return True
    near = nearest_of(name, tuple(QUESTIONS))
    nearest = f'rule = "{near}"' if near else "under [[numbers]], if only code asks for it"
    report(reading, (*keys, "rule"), fault(shown_text(name), "a rule of drylay", nearest))
    return False


def _value(reading: Reading, keys: Keys, read: _Values, *, free: bool) -> float | None:
    """Return an entry's value, within its rule's bounds where nothing is reckoned with it."""
    if "value" not in read:
        return None
    answer: float | Fault
    if free:
        number = number_of(read["value"])
        finite = number is not None and isfinite(number)
        answer = number if finite and number is not None else unfit(read["value"], "a number")
    else:
        least, most = RULE_BOUNDS[read["rule"]]
        unit = QUESTIONS[read["rule"]][0]
        answer = read_measure(read["value"], unit=unit, least=least, most=most)
    if isinstance(answer, Fault):
        report(reading, (*keys, "value"), answer)
        return None
    return answer


def _source_of(
    reading: Reading, keys: Keys, read: _Values, given: object, default: Source | None
) -> Source | None:
    """Return an entry's own source, else the family's with the entry's clause."""
    own = _source(reading, (*keys, "source"), given)
    has_own = isinstance(given, Mapping) and given.get("source") is not None
    if own is None and not has_own and default is None:
        report(reading, keys, fault("a number without a source", "source, here or in [family]"))
    if has_own or default is None:
        return own
    return evolve(default, clause=read.get("clause") or default.clause)


def _source(reading: Reading, keys: Keys, table: object) -> Source | None:
    given = table.get("source") if isinstance(table, Mapping) else None
    if given is None:
        return None
    read: _Values = read_table(reading, keys, given, SOURCE)
    whole = {"kind", "title"} <= set(read) and UNREADABLE not in read.values()
    return Source(**read) if whole else None


def _reaches(reading: Reading, keys: Keys, read: _Values) -> tuple[Reach, ...]:
    ends: dict[str, dict[str, float]] = {}
    for condition in conditions():
        given = read.get(condition.key.name)
        if condition.end and isinstance(given, float):
            ends.setdefault(condition.part, {})[condition.end] = given
    for part, end in ends.items():
        if end.get("from", -inf) > end.get("to", inf):
            wanted = "from where to where, the lesser first"
            wrong = fault(f"{part} from {end['from']:g} to {end['to']:g}", wanted)
            report(reading, keys, wrong)
    return tuple(
        Reach(part=part, least=end.get("from", -inf), most=end.get("to", inf))
        for part, end in ends.items()
    )


def _words(reading: Reading, keys: Keys, read: _Values) -> tuple[Words, ...]:
    found = []
    for condition in conditions():
        name = condition.key.name
        if condition.end or name not in read:
            continue
        given = read[name]
        words = tuple(given) if isinstance(given, list | tuple) else (given,)
        wrong = _unknown_word(condition.part, words)
        if wrong is not None:
            report(reading, (*keys, name), wrong)
        else:
            found.append(Words(part=condition.part, words=tuple(map(spelt, words))))
    return tuple(found)


def _unknown_word(part: str, words: tuple[object, ...]) -> Fault | None:
    known = ("true", "false") if part in parts(bool) else KNOWN_WORDS.get(part, ())
    wanted = f"one of {', '.join(known)}, or a list of them" if known else "a text, or some"
    if not words:
        return fault("an empty list", wanted)
    for word in words:
        is_kind = isinstance(word, bool if part in parts(bool) else str)
        if not is_kind or (known and spelt(word) not in known):
            near = nearest_of(word, known)
            return fault(shown(word), wanted, shown(near) if near else "")
    return None


def _rivals(entries: list[tuple[Keys, Entry]]) -> Iterator[tuple[Keys, Fault]]:
    """Yield the fault of each entry that would answer the same question as one before it."""
    for (first_keys, first), (keys, second) in combinations(entries, 2):
        if first.name == second.name and _are_rivals(first, second):
            found = f"{second.name} for boards that {first_keys[0]}[{first_keys[1]}] answers for"
            yield keys, fault(found, "one number for a board")


def _are_rivals(first: Entry, second: Entry) -> bool:
    """Return whether no rule says which of two entries holds for some board."""
    one = {words.part: set(words.words) for words in first.words}
    other = {words.part: set(words.words) for words in second.words}
    both = one.keys() & other
    if len(one) != len(other) or not all(_meet(part, one[part], other[part]) for part in both):
        return False
    ours = {reach.part for reach in first.reaches}
    theirs = {reach.part for reach in second.reaches}
    if one.keys() != other.keys() or not (ours <= theirs or theirs <= ours):
        return True
    return set(first.reaches) == set(second.reaches)


def _meet(part: str, one: set[str], other: set[str]) -> bool:
    """Return whether some part of a question can be one of these words and one of those."""
    if part == "species":  # "oak" holds for "white oak" too
        return any(has_word(a, b) or has_word(b, a) for a in one for b in other)
    return bool(one & other)
