"""What a study file asks of its rows: read and checked before anything is planned."""

from collections.abc import Iterator, Mapping
from typing import Any

from drylay.compare.cases import Cases
from drylay.compare.row_reading import LENGTH, holds_money
from drylay.compare.study_decks import VERBS, read_decks_question
from drylay.compare.study_plan import DecksQuestion, Question
from drylay.compare.study_row import NO_FIGURES
from drylay.compare.study_where import check_column, holds_words, read_where
from drylay.intake.keys import Key, choice, text
from drylay.intake.places import Keys
from drylay.intake.tables import Reading, read_table, report
from drylay.intake.values import fault, unfit
from drylay.materials.stock_model import Catalogue

WHATS = ("pareto", "side_by_side", "cost_by_size", *VERBS)
AIMS = ("least", "most")
#: What `side_by_side` tells where nobody says otherwise.
OF = ("total", "yearly_least", "yearly_most")
MOST_QUESTIONS = 50
#: A name that any system takes for a file.
LETTERS = frozenset("abcdefghijklmnopqrstuvwxyz0123456789-_")
NAMED: tuple[Key, ...] = (choice("what", WHATS, required=True), text("name", 40))
#: Of questions that look at rows.
KEYS: tuple[Key, ...] = (text("by"), text("size"), text("cost"))
#: Names of the study's own files, and those that some systems keep for devices (Microsoft, Naming
#: Files, Paths, and Namespaces; from memory).
TAKEN = frozenset({"rows", "study", "con", "prn", "aux", "nul"})
TAKEN |= {f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)}
#: Which of the keys each question may have, and which it must.
MAY = {
    "pareto": ({"aims"}, {"aims"}),
    "side_by_side": ({"by", "of"}, {"by"}),
    "cost_by_size": ({"size", "cost", "by"}, {"size"}),
}


def read_questions(
    reading: Reading, cases: Cases | None, stock: Catalogue | None
) -> tuple[Question | DecksQuestion, ...]:
    """Return the questions that could be read; what is wrong is on the reading's list."""
    given = reading.document.tables.get("ask", ())
    if not isinstance(given, list | tuple) or len(given) > MOST_QUESTIONS:
        report(reading, ("ask",), unfit(given, f"[[ask]], {MOST_QUESTIONS} at most"))
        return ()
    read = [_question(reading, at, table, (cases, stock)) for at, table in enumerate(given)]
    questions = tuple(question for question in read if question is not None)
    names = [question.name for question in questions]
    for at, name in enumerate(names):
        if name in names[:at]:
            report(reading, ("ask", at), fault(f"{name!r} twice", "a name of its own"))
        if name in TAKEN:
            report(reading, ("ask", at), fault(f"the name {name!r}", "a name that no file has"))
    return questions


def _question(
    reading: Reading, at: int, table: Any, about: tuple[Cases | None, Catalogue | None]
) -> Question | DecksQuestion | None:
    keys, known = ("ask", at), len(reading.faults)
    is_table = isinstance(table, Mapping)
    first = {k: v for k, v in table.items() if k in ("what", "name")} if is_table else table
    named: dict[str, Any] = read_table(reading, keys, first, NAMED)
    if len(reading.faults) > known:
        return None
    named.setdefault("name", f"{named['what'].replace('_', '-')}-{at + 1}")
    if not set(named["name"]) <= LETTERS or not named["name"]:
        wanted = "small letters, digits and hyphens: files are named so"
        report(reading, (*keys, "name"), unfit(named["name"], wanted))
    of_rows = named["what"] not in VERBS
    named["where"] = tuple(read_where(reading, keys, table, about[0], of_rows=of_rows))
    # whatever is wrong so far, the rest of the question is read: all of it is told at once
    told = len(reading.faults) > known
    read: Question | DecksQuestion | None
    if of_rows:
        read = _of_rows(reading, keys, table, named, about[0])
    else:
        read = read_decks_question(reading, keys, table, named, about, chosen=not told)
    return None if told else read


def _of_rows(
    reading: Reading,
    keys: Keys,
    table: Mapping[str, Any],
    named: dict[str, Any],
    cases: Cases | None,
) -> Question | None:
    """Return a question that looks at the study's rows."""
    known = len(reading.faults)
    _check_keys(reading, keys, named["what"], table)
    bare = {key: table[key] for key in ("by", "size", "cost") if key in table}
    answers: dict[str, Any] = read_table(reading, keys, bare, KEYS)
    if len(reading.faults) > known:
        return None
    question = Question(
        aims=tuple(_aims(reading, keys, table)),
        of=tuple(_of(reading, keys, table)),
        **named,
        **answers,
    )
    for path, column in _columns_of(question):
        check_column(reading, (*keys, *path), column, cases)
    for path, column in _figures_of(question):
        if column in NO_FIGURES or (cases is not None and holds_words(cases, column)):
            found = f"{column!r}, a column of words, or of yes and no"
            report(reading, (*keys, *path), fault(found, "figures"))
    if question.size and not question.size.endswith(LENGTH):
        report(reading, (*keys, "size"), unfit(question.size, "a column of lengths in mm"))
    if named["what"] == "cost_by_size" and not holds_money(question.cost):
        report(reading, (*keys, "cost"), unfit(question.cost, "a column of money"))
    return question if len(reading.faults) == known else None


def _check_keys(reading: Reading, keys: Keys, what: str, table: Mapping[str, Any]) -> None:
    may, must = MAY[what]
    for key in table:
        if key not in may | {"what", "name", "where"}:
            wanted = f"of {what}: {', '.join(sorted(may))}"
            report(reading, (*keys, key), fault(f"the key {str(key)[:40]!r}", wanted), at_key=True)
    for key in sorted(must - set(table)):
        report(reading, keys, fault(f"no {key}", f"{key}, for {what}"))


def _aims(reading: Reading, keys: Keys, table: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    given = table.get("aims", {})
    if not isinstance(given, Mapping) or ("aims" in table and len(given) < 2):
        example = '{ total = "least", cover_m2 = "most" }'
        report(reading, (*keys, "aims"), unfit(given, f"two measures or more, such as {example}"))
        return
    for name, aim in given.items():
        if aim in AIMS:
            yield str(name), aim
        else:
            report(reading, (*keys, "aims", name), unfit(aim, "least or most"))


def _of(reading: Reading, keys: Keys, table: Mapping[str, Any]) -> Iterator[str]:
    given = table.get("of", OF if table.get("what") == "side_by_side" else ())
    texts = isinstance(given, list | tuple) and all(isinstance(each, str) for each in given)
    if not texts or ("of" in table and not given):
        report(reading, (*keys, "of"), unfit(given, "a list of columns"))
        return
    yield from given


def _columns_of(question: Question) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield every column that a question looks at, with the key that names it."""
    yield from _figures_of(question)
    named = (("by", question.by), ("size", question.size), ("cost", question.cost))
    yield from (((key,), name) for key, name in named if name)


def _figures_of(question: Question) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield every column that has to hold figures, with the key that names it."""
    yield from ((("aims", name), name) for name, _ in question.aims)
    yield from ((("of",), name) for name in question.of)


def columns_needed(questions: tuple[Question | DecksQuestion, ...]) -> frozenset[str]:
    """Return the columns that the questions look at."""
    of_rows = [each for each in questions if isinstance(each, Question)]
    looked = {column for each in of_rows for _, column in _columns_of(each)}
    return frozenset(looked.union(name for each in of_rows for name, _ in each.where))
