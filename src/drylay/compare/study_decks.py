"""Questions of a study file that plan decks of their own: read, and their decks made, at once."""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from itertools import islice
from typing import Any

from attrs import evolve

from drylay.brief.codec import put_at
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.compare.cases import Cases
from drylay.compare.dotted import paths_in
from drylay.compare.holding import holding_prices
from drylay.compare.lengths_kept import lengths_to_keep
from drylay.compare.merchant_asked import (
    MOST_DECKS,
    MOST_NAME,
    MOST_OF_ONE,
    MOST_PRICE,
    read_article,
)
from drylay.compare.model import Lives
from drylay.compare.plain import plain_value
from drylay.compare.price_breaks import price_breaks
from drylay.compare.row_reading import told_value
from drylay.compare.sampling import MOST_SAMPLES, MOST_SEED
from drylay.compare.shelf import STOCK
from drylay.compare.spreads import LIVES, read_spreads
from drylay.compare.study_model import Case
from drylay.compare.study_plan import DecksQuestion
from drylay.compare.study_where import Where, cases_where, put_into
from drylay.compare.terms import brief_text
from drylay.compare.uncertainty import read_of, read_ratios, uncertainty
from drylay.errors import Cancelled, Fault, InputError
from drylay.intake.keys import Key, count, money, number, text
from drylay.intake.places import Keys
from drylay.intake.tables import Reading, read_table, report
from drylay.intake.values import fault, unfit
from drylay.materials.stock_model import Catalogue
from drylay.papers.wording import clean

#: Which call answers which question.
VERBS: dict[str, Callable[..., Any]] = {
    "uncertainty": uncertainty,
    "lengths_to_keep": lengths_to_keep,
    "price_breaks": price_breaks,
    "holding_prices": holding_prices,
}
#: Among more cases than these no decks are looked for. Assumption.
MOST_CASES = 10_000
#: A life that is left to the family, in a file that has no word for nothing.
BY_FAMILY = "family"
MOST_MM = 1_000_000
_ARTICLE = text("article", required=True)
KEYS: dict[str, tuple[Key, ...]] = {
    "uncertainty": (count("samples", 2, MOST_SAMPLES), count("seed", 0, MOST_SEED)),
    "lengths_to_keep": (_ARTICLE, count("keep", 1, MOST_DECKS)),
    "price_breaks": (
        _ARTICLE,
        number("length_mm", 1, MOST_MM, required=True),
        money("least", 0, MOST_PRICE, digits=4, required=True),
        money("most", 0, MOST_PRICE, digits=4, required=True),
    ),
    "holding_prices": (),
}
#: Keys that hold lists or tables: they are read by the call itself, or here one by one.
HELD: dict[str, tuple[str, ...]] = {
    "uncertainty": ("spreads", "of", "ratios"),
    "lengths_to_keep": ("counts",),
    "price_breaks": (),
    "holding_prices": ("articles",),
}


class _Stop:
    """A token that is set: what is handed in is checked, and nothing is planned."""

    def is_set(self) -> bool:
        return True


SET = _Stop()


def read_decks_question(
    reading: Reading,
    keys: Keys,
    table: Mapping[str, Any],
    named: Mapping[str, Any],
    about: tuple[Cases | None, Catalogue | None],
    *,
    chosen: bool,
) -> DecksQuestion | None:
    """Return a question of this kind, None where it cannot be asked; why is on the list.

    `named` has `what`, `name` and `where`, read already; `chosen` says that they could be.
    """
    what, known = str(named["what"]), len(reading.faults)
    apart = {*HELD[what], "what", "name", "where"}
    bare = {key: value for key, value in table.items() if key not in apart}
    answers = dict(read_table(reading, keys, bare, KEYS[what]))
    answers |= {key: table[key] for key in HELD[what] if key in table}
    cases, stock = about
    if cases is None or stock is None:
        return None
    question = DecksQuestion(**named, named=tuple(answers.items()))
    if what == "uncertainty":
        read = _spread(reading, keys, question, cases, stock)
    elif chosen and len(reading.faults) == known:
        read = _of_decks(reading, keys, question, cases, stock)
    else:
        _check_article(reading, keys, answers, stock)
        return None
    return read if len(reading.faults) == known else None


def _check_article(
    reading: Reading, keys: Keys, answers: Mapping[str, object], stock: Catalogue
) -> None:
    """Report an article that is not sold by length, where the call cannot be asked to."""
    wrong: list[Fault] = []
    if isinstance(answers.get("article"), str):
        read_article(stock, answers["article"], wrong)
    for each in wrong:
        report(reading, (*keys, "article"), evolve(each, path=""))


def _spread(
    reading: Reading, keys: Keys, question: DecksQuestion, cases: Cases, stock: Catalogue
) -> DecksQuestion:
    """Return a question of what is not certain, of the brief as it stands."""
    if question.where:
        wanted = "no where: it is asked of the brief as it stands"
        report(reading, (*keys, "where"), fault("where", wanted), at_key=True)
    answers = dict(question.named)
    given = answers.get("spreads")
    parts: dict[str, tuple[str, ...]] = {}
    if isinstance(given, Mapping):
        told = _told_once(reading, (*keys, "spreads"), given)
        parts = {path: each for path, (each, _) in told.items()}
        answers["spreads"] = given = {
            path: None if path in LIVES and value == BY_FAMILY else value
            for path, (_, value) in told.items()
        }
    anyhow = Lives(surface_least_years=1, surface_most_years=1, frame_least_years=1,
                   frame_most_years=1)  # fmt: skip
    wrong: list[Fault] = []
    read_spreads(given, stock, anyhow, wrong)
    for each in wrong:
        path = re.sub(r"\[\d+\]$", "", each.path)
        report(reading, (*keys, "spreads", *parts.get(path, ())), evolve(each, path=""))
    for key, read in (("of", read_of), ("ratios", read_ratios)):
        odd: list[Fault] = []
        if key in answers:
            read(answers[key], odd)
        for each in odd:
            report(reading, (*keys, key), evolve(each, path=""))
    return evolve(question, named=tuple(answers.items()), decks=(("", cases.brief, 1),))


def _told_once(
    reading: Reading, keys: Keys, given: Mapping[str, Any]
) -> dict[str, tuple[tuple[str, ...], object]]:
    """Return each path with the parts it is told in and what stands there; twice is a fault."""
    told: dict[str, tuple[tuple[str, ...], object]] = {}
    for parts, value in paths_in(given):
        path = ".".join(parts)
        if path in told:
            twice = fault("the path twice, dotted and whole", "each path once")
            report(reading, (*keys, path), twice)
        told[path] = parts, value
    return told


def _of_decks(
    reading: Reading, keys: Keys, question: DecksQuestion, cases: Cases, stock: Catalogue
) -> DecksQuestion:
    """Return a question of the study's decks by name, checked by its call, which plans nothing."""
    answers = dict(question.named)
    wrong: list[Fault] = []
    decks = _decks(cases, question.where, wrong)
    given = answers.pop("counts", None)
    counts = [1] * len(decks) if wrong else _counts(given, len(decks), wrong)
    read = evolve(
        question,
        named=tuple(answers.items()),
        decks=tuple((name, deck, many) for (name, deck), many in zip(decks, counts, strict=False)),
    )
    if not wrong:
        try:
            asked(read, stock=stock, cancel=SET)
        except InputError as error:
            wrong += error.faults
        except Cancelled:
            pass
    for each in wrong:
        key = re.split(r"[.\[]", each.path)[0]
        told = evolve(each, path=f"{_path(keys)}.{each.path}"[:200])
        report(reading, (*keys, key), told)
    return read


def _path(keys: Keys) -> str:
    first, at = keys
    return f"{first}[{at}]"


def asked(question: DecksQuestion, **more: Any) -> Any:
    """Return what the question's call answers; `more` goes to the call."""
    named: dict[str, Any] = dict(question.named)
    if question.what == "uncertainty":
        ((_, brief, _),) = question.decks
        return VERBS[question.what](brief, **named, **more)
    decks: dict[str, Any] = {name: brief for name, brief, _ in question.decks}
    if question.what == "lengths_to_keep":
        decks = {name: (brief, many) for name, brief, many in question.decks}
    return VERBS[question.what](decks, **named, **more)


def _decks(cases: Cases, where: Where, wrong: list[Fault]) -> list[tuple[str, Brief]]:
    """Return the decks that are asked about, each by a name that begins with its number."""
    paths = [path for axis in cases.axes for path in axis.paths]
    wrong += [
        Fault(path="what", found=f"{path}, which varies", wanted="decks of one stock")
        for path in paths
        if path.startswith(STOCK)
    ]
    if len(cases) > MOST_CASES:
        wanted = f"a study of {MOST_CASES} cases at most, for this question"
        wrong.append(Fault(path="what", found=f"{len(cases)} cases", wanted=wanted))
    if wrong:
        return []
    found = list(islice(cases_where(cases, where), MOST_DECKS + 1))
    if not 1 <= len(found) <= MOST_DECKS:
        told = f"more than {MOST_DECKS} decks" if found else "no deck"
        wanted = f"1 to {MOST_DECKS} decks: where names columns, with the values that they have"
        wrong.append(Fault(path="where", found=told, wanted=wanted))
        return []
    return list(_made(found, wrong))


def _made(found: list[tuple[int, Case]], wrong: list[Fault]) -> Iterator[tuple[str, Brief]]:
    for number_, case in found:
        try:
            yield _name(number_, case), _brief(case)
        except InputError as error:
            wrong += [
                evolve(each, path=f"where, case {number_}, {each.path}"[:200], file="", line=0,
                       column=0) for each in error.faults
            ]  # fmt: skip


def _name(number_: int, case: Case) -> str:
    if not case.changes and not case.named:
        return clean(case.brief.title, MOST_NAME) or "the deck"
    named = dict(case.named)
    words = (
        told_value(value) if name in named else _told(name, value)
        for name, value in put_into(case).items()
    )
    return clean(f"case {number_}: {', '.join(words)}", MOST_NAME)


def _told(path: str, value: object) -> str:
    """Return what is put in at a path, in short: "along 2350 mm"."""
    last = path.rpartition(".")[2]
    unit = " mm" if last.endswith("_mm") and isinstance(value, int | float) else ""
    return f"{last.removesuffix('_mm')} {told_value(value)}{unit}"


def _brief(case: Case) -> Brief:
    """Return a case's brief as a worker would read it.

    Raises:
        InputError: It cannot be used.
    """
    plain: dict[str, Any] = json.loads(brief_text(case.brief))
    for path, value in case.changes:
        put_at(plain, path, plain_value(value))
    return read_brief(plain)


def _counts(given: object, decks: int, wrong: list[Fault]) -> list[int]:
    """Return how many there are of each deck: one where nobody says."""
    if given is None:
        return [1] * decks
    held = list(given) if isinstance(given, list | tuple) else []
    if len(held) == decks and all(_is_count(each) for each in held):
        return held
    wanted = f"how many of each of the {decks} decks, 1 to {MOST_OF_ONE}, in their order"
    wrong.append(evolve(unfit(given, wanted), path="counts"))
    return [1] * decks


def _is_count(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_OF_ONE
