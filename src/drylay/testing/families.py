"""The laws that every family keeps, and the kit that looks whether one does."""

import json
from collections.abc import Callable, Collection, Iterable, Iterator
from itertools import groupby, product
from typing import Any

import attrs

from drylay.brief.model import EXPOSURES
from drylay.materials.model import DRIVEN_INTO, QUESTIONS, RULE_BOUNDS, RULES, Family, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.shapes import (
    family_wrongs,
    is_possible,
    number_wrongs,
    ruling_text_wrongs,
    source_wrongs,
    told,
)
from drylay.plugins.table_keys import KINDS
from drylay.reasons import Ruling, Source
from drylay.testing.asking import hear_family, numbers, rulings
from drylay.testing.boards import BOARDS
from drylay.testing.model import Answer, BrokenLaw, Heard
from drylay.testing.orders import (
    board_told,
    centres_by_angle,
    centres_by_thickness,
    centres_by_use,
    gaps_in_order,
    lives_in_order,
)

FamilyLaw = Callable[[Heard], Iterator[BrokenLaw]]
SHAPE = "shape"


def check_family(
    family: Family,
    *,
    boards: Iterable[RuleQuery] = BOARDS,
    not_covered: Collection[str] = (),
) -> tuple[BrokenLaw, ...]:
    """Return every law that a family breaks, nothing for a good one.

    Each law is told once for a rule, with the first board that shows it.

    Args:
        family: The family; its rules are called directly, not through the guard.
        boards: What it is asked about, each turned and in every use and place besides.
        not_covered: The rules of `RULES` that it is meant to leave without an answer.
    """
    wrongs = [_broken(SHAPE, "family", wrong, FAMILY_LAWS[SHAPE][0]) for wrong in _shape(family)]
    if wrongs:
        return tuple(wrongs)
    heard = hear_family(family, boards, not_covered)
    return tuple(broken for _, law in FAMILY_LAWS.values() if law for broken in law(heard))


def _broken(law: str, subject: str, found: str, wanted: str) -> BrokenLaw:
    return BrokenLaw(law=law, subject=subject, found=found, wanted=wanted)


def _shape(family: object) -> list[str]:
    try:
        return list(family_wrongs(family))
    except Exception as error:
        return [f"what cannot be looked at: {told(error)}"]


def _first_of_each_rule(
    law: str, wanted: str, wrongs: Iterable[tuple[Answer, str]]
) -> Iterator[BrokenLaw]:
    """Yield the first fault of each rule: of a slip in a table every board would tell."""
    for rule, group in groupby(wrongs, key=lambda pair: pair[0].rule):
        answer, found = next(iter(group))
        yield _broken(law, f"{rule}, {board_told(answer.query)}", found, wanted)


def _raises(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, told(answer.raised))
        for answer in heard.answers
        if answer.raised is not None and not isinstance(answer.raised, NotCoveredError)
    )
    yield from _first_of_each_rule("raises", "NotCoveredError, or an answer", wrongs)


def _answers(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, wrong)
        for answer in heard.answers
        if answer.raised is None
        for wrong in ruling_text_wrongs(answer.returned)
    )
    yield from _first_of_each_rule("answer", "a Ruling with its rule and inputs", wrongs)


def _sources(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, wrong)
        for answer, ruling in rulings(heard)
        for wrong in (*source_wrongs(ruling.source), *_not_for_families(ruling.source))
    )
    yield from _first_of_each_rule("source", "who says so", wrongs)


def _not_for_families(source: object) -> Iterator[str]:
    if isinstance(source, Source) and source.kind not in KINDS:
        yield f"source kind {source.kind!r}, which no family can speak for"


def _units(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, f"unit {ruling.unit!r} for {QUESTIONS[answer.rule][0]!r}")
        for answer, ruling in rulings(heard)
        if ruling.unit != QUESTIONS[answer.rule][0]
    )
    yield from _first_of_each_rule("unit", "the rule's own unit", wrongs)


def _finite(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, wrong)
        for answer, ruling in rulings(heard)
        for wrong in number_wrongs(ruling.value)
    )
    yield from _first_of_each_rule("finite", "a finite int or float", wrongs)


def _bounds(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, f"{value:g}, and {least:g} to {most:g} makes sense")
        for answer, _, value in numbers(heard)
        for least, most in [RULE_BOUNDS[answer.rule]]
        if not least <= value <= most
    )
    yield from _first_of_each_rule("bounds", "a figure that somebody builds to", wrongs)


def _whole(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, f"{value:g} {QUESTIONS[answer.rule][0]}")
        for answer, _, value in numbers(heard)
        if QUESTIONS[answer.rule][0] in ("count", "yes/no")
        and abs(value) < 1e12
        and not is_possible(value, QUESTIONS[answer.rule][0])
    )
    yield from _first_of_each_rule("whole", "a whole count, and 0 or 1 for yes/no", wrongs)


def _same_answer(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (first, f"{_shown(first)}, and {_shown(second)} when asked again")
        for first, second in zip(heard.answers, heard.again, strict=True)
        if not _is_alike(first, second) and _shown(first) != _shown(second)
    )
    yield from _first_of_each_rule("same answer", "one answer, whenever it is asked", wrongs)


def _is_alike(first: Answer, second: Answer) -> bool:
    one, other = first.returned, second.returned
    return type(one) is Ruling and type(other) is Ruling and one == other


def _shown(answer: Answer) -> str:
    return told(answer.raised) if answer.raised is not None else repr(answer.returned)


def _question(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = ((answer, "another question after it") for answer in heard.answers if answer.changed)
    yield from _first_of_each_rule("question", "the question as it was asked", wrongs)


def _quiet(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, f"{answer.printed[:40]!r} printed") for answer in heard.answers if answer.printed
    )
    yield from _first_of_each_rule("quiet", "nothing on standard output", wrongs)


def _round_trip(heard: Heard) -> Iterator[BrokenLaw]:
    wrongs = (
        (answer, wrong)
        for answer, ruling in rulings(heard)
        if not list(number_wrongs(ruling.value)) and not list(source_wrongs(ruling.source))
        for wrong in _lost_in_json(ruling)
    )
    yield from _first_of_each_rule("round trip", "the same ruling out of JSON again", wrongs)


def _lost_in_json(ruling: Ruling) -> Iterator[str]:
    try:
        plain: dict[str, Any] = json.loads(json.dumps(attrs.asdict(ruling), allow_nan=False))
    except (TypeError, ValueError) as error:
        yield told(error)
        return
    back = Ruling(
        **plain
        | {
            "source": Source(**plain["source"]),
            "inputs": tuple((name, value) for name, value in plain["inputs"]),
        }
    )
    if back != ruling:
        yield "another ruling"


def _covered(heard: Heard) -> Iterator[BrokenLaw]:
    silent = NotCoveredError
    answered = {each.rule for each in heard.answers if not isinstance(each.raised, silent)}
    for rule in RULES:
        if rule not in answered and rule not in heard.not_covered:
            wanted = "an answer about some of these boards, or its name in `not_covered`"
            yield _broken("covered", rule, "no answer", wanted)
        elif rule in answered and rule in heard.not_covered:
            yield _broken("covered", rule, "an answer", "none, as `not_covered` says")
    for rule in sorted(heard.not_covered - set(RULES)):
        yield _broken("covered", rule, "no such rule", "names of RULES in `not_covered`")


def _metals(heard: Heard) -> Iterator[BrokenLaw]:
    if "metal_allowed" in heard.not_covered:
        return
    allowed = {
        (answer.query.exposure, answer.query.driven_into)
        for answer, _, value in numbers(heard)
        if answer.rule == "metal_allowed" and value == 1
    }
    for exposure, into in product(EXPOSURES, DRIVEN_INTO):
        if (exposure, into) not in allowed:
            yield _broken("metals", f"{exposure}, {into}", "no metal allowed", "one at least")


#: Every law of families by its name: what it says, and what looks whether it is kept.
FAMILY_LAWS: dict[str, tuple[str, FamilyLaw | None]] = {
    SHAPE: ("a Family with an id, a title, rules by the names of QUESTIONS, cautions", None),
    "raises": ("nothing but NotCoveredError is raised", _raises),
    "answer": ("every answer is a Ruling that says its rule and what it hangs on", _answers),
    "source": ("every number has a source", _sources),
    "unit": ("every number has its rule's unit", _units),
    "finite": ("every number is a finite int or float", _finite),
    "bounds": ("every number is one that somebody builds to", _bounds),
    "whole": ("counts are whole, and yes/no is 0 or 1", _whole),
    "gaps": ("least <= preferred <= most gap", gaps_in_order),
    "lives": ("no shortest life is longer than the longest", lives_in_order),
    "centres by angle": ("centres never rise as boards turn from square", centres_by_angle),
    "centres by thickness": ("centres never rise as boards get thinner", centres_by_thickness),
    "centres by use": ("centres never rise from dwelling to public use", centres_by_use),
    "same answer": ("the same question has the same answer, in any order", _same_answer),
    "question": ("the question stays as it was asked", _question),
    "quiet": ("nothing is printed", _quiet),
    "round trip": ("a ruling comes out of JSON as it went in", _round_trip),
    "covered": ("every rule is answered, or said to be not covered", _covered),
    "metals": ("some metal may be driven into boards, frame and fascia in every place", _metals),
}
