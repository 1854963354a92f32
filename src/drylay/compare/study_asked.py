"""What a study file asks of its rows: read and checked before anything is planned."""

from collections.abc import Iterator, Mapping
from typing import Any

from drylay.compare.cases import Cases
from drylay.compare.study_plan import Question
from drylay.compare.study_row import own_columns
from drylay.intake.keys import Key, choice, text
from drylay.intake.tables import Reading, read_table, report
from drylay.intake.values import fault, unfit
from drylay.intake.words import nearest_of

WHATS = ("pareto", "side_by_side", "cost_by_size")
AIMS = ("least", "most")
#: What `side_by_side` tells where nobody says otherwise.
OF = ("total", "yearly_least", "yearly_most")
MOST_QUESTIONS = 50
#: A name that any system takes for a file.
LETTERS = frozenset("abcdefghijklmnopqrstuvwxyz0123456789-_")
KEYS: tuple[Key, ...] = (
    choice("what", WHATS, required=True),
    text("name", 40),
    text("by"),
    text("size"),
    text("cost"),
)
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


def read_questions(reading: Reading, cases: Cases | None) -> tuple[Question, ...]:
    """Return the questions that could be read; what is wrong is on the reading's list."""
    given = reading.document.tables.get("ask", ())
    if not isinstance(given, list | tuple) or len(given) > MOST_QUESTIONS:
        report(reading, ("ask",), unfit(given, f"[[ask]], {MOST_QUESTIONS} at most"))
        return ()
    read = [_question(reading, at, table, cases) for at, table in enumerate(given)]
    questions = tuple(question for question in read if question is not None)
    names = [question.name for question in questions]
    for at, name in enumerate(names):
        if name in names[:at]:
            report(reading, ("ask", at), fault(f"{name!r} twice", "a name of its own"))
        if name in TAKEN:
            report(reading, ("ask", at), fault(f"the name {name!r}", "a name that no file has"))
    return questions


def _question(reading: Reading, at: int, table: Any, cases: Cases | None) -> Question | None:
    keys, known = ("ask", at), len(reading.faults)
    bare = {k: v for k, v in table.items() if k not in ("aims", "of", "where")} if isinstance(
        table, Mapping) else table  # fmt: skip
    answers: dict[str, Any] = read_table(reading, keys, bare, KEYS)
    if len(reading.faults) > known:
        return None
    what = answers["what"]
    _check_keys(reading, keys, what, table)
    name = str(answers.pop("name", f"{what.replace('_', '-')}-{at + 1}"))
    if not set(name) <= LETTERS or not name:
        wanted = "small letters, digits and hyphens: files are named so"
        report(reading, (*keys, "name"), unfit(name, wanted))
    question = Question(
        name=name,
        aims=tuple(_aims(reading, keys, table)),
        of=tuple(_of(reading, keys, table)),
        where=tuple(_where(reading, keys, table)),
        **answers,
    )
    for path, column in _columns_of(question):
        _check_column(reading, (*keys, *path), column, cases)
    return question if len(reading.faults) == known else None


def _check_keys(
    reading: Reading, keys: tuple[Any, ...], what: str, table: Mapping[str, Any]
) -> None:
    may, must = MAY[what]
    for key in table:
        if key not in may | {"what", "name", "where"}:
            wanted = f"of {what}: {', '.join(sorted(may))}"
            report(reading, (*keys, key), fault(f"the key {key[:40]!r}", wanted), at_key=True)
    for key in sorted(must - set(table)):
        report(reading, keys, fault(f"no {key}", f"{key}, for {what}"))


def _aims(
    reading: Reading, keys: tuple[Any, ...], table: Mapping[str, Any]
) -> Iterator[tuple[str, str]]:
    given = table.get("aims", {})
    if not isinstance(given, Mapping) or (given and len(given) < 2):
        example = '{ total = "least", cover_m2 = "most" }'
        report(reading, (*keys, "aims"), unfit(given, f"two measures or more, such as {example}"))
        return
    for name, aim in given.items():
        if aim in AIMS:
            yield str(name), aim
        else:
            report(reading, (*keys, "aims", name), unfit(aim, "least or most"))


def _of(reading: Reading, keys: tuple[Any, ...], table: Mapping[str, Any]) -> Iterator[str]:
    given = table.get("of", OF if table.get("what") == "side_by_side" else ())
    if not isinstance(given, list | tuple) or not all(isinstance(each, str) for each in given):
        report(reading, (*keys, "of"), unfit(given, "a list of columns"))
        return
    yield from given


def _where(
    reading: Reading, keys: tuple[Any, ...], table: Mapping[str, Any]
) -> Iterator[tuple[str, object]]:
    given = table.get("where", {})
    if not isinstance(given, Mapping):
        report(reading, (*keys, "where"), unfit(given, "a table of columns and their values"))
        return
    yield from ((str(name), value) for name, value in given.items())


def _columns_of(question: Question) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield every column that a question looks at, with the key that names it."""
    yield from ((("aims", name), name) for name, _ in question.aims)
    yield from ((("of",), name) for name in question.of)
    yield from ((("where", name), name) for name, _ in question.where)
    named = (("by", question.by), ("size", question.size), ("cost", question.cost))
    yield from (((key,), name) for key, name in named if name)


def _check_column(
    reading: Reading, keys: tuple[Any, ...], column: str, cases: Cases | None
) -> None:
    """Report a column that no row will have: after hours of planning is too late."""
    if cases is None:
        return
    names = (*cases.columns, *sorted(own_columns()))
    if column not in names:
        wanted = "a column of the rows: a path that varies, or a measure"
        report(reading, keys, fault(f"{column[:60]!r}", wanted, nearest_of(column, names)))


def columns_needed(questions: tuple[Question, ...]) -> frozenset[str]:
    """Return the columns that the questions look at."""
    return frozenset(column for each in questions for _, column in _columns_of(each))
