"""What a family's table answers: the entry for a board, and what is reckoned with it."""

import math
import re
from collections.abc import Iterable

from drylay.materials.model import QUESTIONS, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table_model import Entry, FamilyTable, Words
from drylay.reasons import Inputs, Ruling, Scalar

#: A whole number of these is lost to binary fractions: 400 x sin 30 is 199.99999999999997.
_DUST_MM = 1e-9
#: How a part of the question is told where the table does not cover it.
_TOLD = {
    "board_thickness_mm": "a board {} mm thick",
    "board_width_mm": "a board {} mm wide",
    "board_to_joist_deg": "boards at {} degrees to the joists",
    "joist_thickness_mm": "timber {} mm thick",
    "metal": "fixings of {}",
    "driven_into": "fixings driven into {}",
    "exposure": "exposure {}",
    "species": "species {}",
    "clip_gap_mm": "a gap of {} mm left by clips",
}

#: The same where nobody told it.
_UNTOLD = {
    "species": "a species or stuff that is not told",
    "clip_gap_mm": "a gap fixed by clips, of which none is named that tells it",
}


def table_rule(table: FamilyTable, query: RuleQuery, *, rule: str) -> Ruling:
    """Return what a family's table answers to one rule.

    Raises:
        NotCoveredError: No entry holds for this board.

    Source: the entry's own.
    """
    return _ruled(tuple(entry for entry in table.rules if entry.name == rule), query, rule)


def number_ruled(table: FamilyTable, rule: str, query: RuleQuery) -> Ruling:
    """Return what a family's table answers to a rule whose numbers stand under its code's.

    For code that has an answer of its own only at times: the numbers bear the rule's name.

    Raises:
        NotCoveredError: No entry of this name holds for this board.

    Source: the entry's own.
    """
    return _ruled(tuple(entry for entry in table.numbers if entry.name == rule), query, rule)


def _ruled(entries: tuple[Entry, ...], query: RuleQuery, rule: str) -> Ruling:
    entry = entry_for(entries, query)
    value = _reckoned(entry, query)
    whole = QUESTIONS[rule][0] in ("count", "yes/no")
    return Ruling(
        value=int(value) if whole else value,
        unit=QUESTIONS[rule][0],
        rule=entry.says or QUESTIONS[rule][1],
        source=entry.source,
        inputs=_inputs(entries, entry, query),
    )


def number_for(table: FamilyTable, name: str, query: RuleQuery) -> Entry:
    """Return the entry of a number that only code asks for.

    Raises:
        NotCoveredError: No entry of this name holds for this board.
    """
    return entry_for(tuple(entry for entry in table.numbers if entry.name == name), query)


def entry_for(entries: tuple[Entry, ...], query: RuleQuery) -> Entry:
    """Return the entry that holds for a board: of several the one that says most about it.

    That is the one that names most words, of those the one with most lengths and angles; then
    the one that begins nearest below, then the one that ends nearest above. Nothing is
    interpolated.

    Raises:
        NotCoveredError: None holds.
    """
    held = [entry for entry in entries if _holds(entry, query)]
    if not held:
        raise NotCoveredError(_not_covered(entries, query))
    return max(held, key=_nearness)


def _nearness(entry: Entry) -> tuple[int, int, tuple[float, ...], tuple[float, ...]]:
    reaches = sorted(entry.reaches, key=lambda reach: reach.part)
    begins = tuple(reach.least for reach in reaches)
    return len(entry.words), len(reaches), begins, tuple(-reach.most for reach in reaches)


def _holds(entry: Entry, query: RuleQuery) -> bool:
    return all(
        _lies_within(getattr(query, reach.part), reach.least, reach.most) for reach in entry.reaches
    ) and all(_is_told(getattr(query, words.part), words) for words in entry.words)


def _lies_within(value: float | None, least: float, most: float) -> bool:
    return value is not None and least <= value <= most


def _is_told(value: object, words: Words) -> bool:
    """Return whether a part of the question is one of these words, a species whether it has one."""
    if words.part == "species":
        return any(has_word(spelt(value), word) for word in words.words)
    return spelt(value) in words.words


def has_word(text: str, word: str) -> bool:
    """Return whether a word, or some in a row, stand in a text: "oak" in "white oak"."""
    return re.search(rf"\b{re.escape(word.casefold())}\b", text.casefold()) is not None


def spelt(value: object) -> str:
    """Return a word of a question as a table's conditions have it."""
    return str(value).lower() if isinstance(value, bool) else str(value)


def _reckoned(entry: Entry, query: RuleQuery) -> float:
    value = entry.value * (_figure(entry.times, query) if entry.times else 1.0)
    if entry.sine:
        turned = value * math.sin(math.radians(query.board_to_joist_deg))
        value = math.floor((turned + _DUST_MM) * 10) / 10
    if entry.plus:
        value += _left(entry, query)
    return value if entry.at_least is None else max(value, entry.at_least)


def _left(entry: Entry, query: RuleQuery) -> float:
    """Return what is left of one part of the question when another is taken off it."""
    whole = _figure(entry.plus, query)
    off = _figure(entry.minus, query) if entry.minus else 0.0
    if not 0 <= off < whole:
        raise NotCoveredError(f"{entry.minus or entry.plus} {off:g} of {entry.plus} {whole:g}")
    return whole - off


def _figure(part: str, query: RuleQuery) -> float:
    figure: float | None = getattr(query, part)
    if figure is None:
        raise NotCoveredError(f"{part}, which nobody told")
    return figure


def _inputs(entries: Iterable[Entry], entry: Entry, query: RuleQuery) -> Inputs:
    """Return what of the question the answer hangs on, and the table's own number."""
    spoken = {part for each in entries for part in _parts(each)}
    reckoned = [part for part in (entry.times, entry.plus, entry.minus) if part]
    reckoned += ["board_to_joist_deg"] if entry.sine else []
    names = [*sorted(spoken - set(reckoned)), *reckoned]
    told: list[tuple[str, Scalar]] = [(name, _as_input(getattr(query, name))) for name in names]
    told += [("table_value", entry.value)] if reckoned or entry.at_least is not None else []
    return tuple(told)


def _as_input(value: float | str | bool | None) -> Scalar:
    """Return a part of the question as an input of a ruling, which is a number or a text."""
    if value is None:
        return "not told"
    return spelt(value) if isinstance(value, bool) else value


def _parts(entry: Entry) -> list[str]:
    return [reach.part for reach in entry.reaches] + [words.part for words in entry.words]


def _not_covered(entries: tuple[Entry, ...], query: RuleQuery) -> str:
    """Return what of the question no entry speaks of; all of it where only together."""
    spoken = dict.fromkeys(part for entry in entries for part in _parts(entry))
    alone = [part for part in spoken if not any(_holds_for(e, part, query) for e in entries)]
    told = ", ".join(_told(part, query) for part in alone or spoken)
    return f"{told}; the table has no such entry" if told else "the table has no such number"


def _holds_for(entry: Entry, part: str, query: RuleQuery) -> bool:
    value = getattr(query, part)
    return all(
        _lies_within(value, reach.least, reach.most)
        for reach in entry.reaches
        if reach.part == part
    ) and all(_is_told(value, words) for words in entry.words if words.part == part)


def _told(part: str, query: RuleQuery) -> str:
    value = getattr(query, part)
    if value is None or (part == "species" and not value):
        return _UNTOLD.get(part, f"{part} not told")
    shown = f"{value:g}" if isinstance(value, float) else repr(value)
    return _TOLD.get(part, f"{part} {{}}").format(shown)
