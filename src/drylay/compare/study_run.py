"""A study run: rows into a file as they come, answers and pictures when all are there."""

import os
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from attrs import define, evolve

from drylay.compare.compared import ExecutorLike, compare
from drylay.compare.pareto import pareto
from drylay.compare.rows_file import write_rows
from drylay.compare.side_by_side import side_by_side
from drylay.compare.size_costs import cost_by_size
from drylay.compare.study_asked import columns_needed
from drylay.compare.study_model import OUTCOMES, Row
from drylay.compare.study_plan import Answer, Question, Study, StudyTold
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown
from drylay.planner.job import CancelToken, Progress
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

ROWS, TEXT = "rows.csv", "study.txt"
#: Of codes met in a study the text names so many.
MOST_CODES = 12
#: What of every row is kept for the answers, whatever they ask.
KEPT = ("case", "outcome", "codes", "buildable", "stop_codes", "currency")


@define(kw_only=True)
class _Seen:
    """What is kept of rows that go by: counts, and what the questions look at."""

    columns: tuple[str, ...]
    outcomes: Counter[str]
    codes: Counter[str]
    rows: list[Row]

    def look(self, rows: Iterable[Row]) -> Iterator[Row]:
        """Yield rows as they go by."""
        for row in rows:
            self.outcomes[str(row["outcome"])] += 1
            self.codes.update(str(row["codes"]).split())
            self.rows.append({name: row[name] for name in self.columns})
            yield row


def run_study(
    study: Study,
    *,
    out: str | os.PathLike[str] | None = None,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    executor: ExecutorLike | None = None,
    workers: int | None = None,
    journal: str | os.PathLike[str] | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> StudyTold:
    """Return what came of a study; with `out` its rows, answers and pictures are in that folder.

    Args:
        study: What to plan and to ask, from `read_study`.
        out: A folder; it is made if need be, and files of other names in it are left alone.
        families: As in `compare`, and so are all that follow.
        local_rules: As in `compare`.
        bases: As in `compare`.
        executor: As in `compare`.
        workers: As in `compare`.
        journal: As in `compare`: a study that was stopped goes on from there.
        progress: As in `compare`.
        cancel: As in `compare`.

    Raises:
        InputError: As `compare` does; or questions cannot be answered of these rows, each of which
            is told when the answers to the others are written.
        Cancelled: The cancel token was set.
        StudyStopped: Workers die whatever they are given.
    """
    needed = columns_needed(study.questions)
    # what was put in stands before the outcome, as in every row: answers tell decks by it
    columns = tuple(dict.fromkeys((KEPT[0], *study.cases.columns, *KEPT[1:], *sorted(needed))))
    seen = _Seen(columns=columns, outcomes=Counter(), codes=Counter(), rows=[])
    rows = seen.look(
        compare(
            study.cases, stock=study.stock, families=families, local_rules=local_rules,
            bases=bases, mode=study.mode, executor=executor, workers=workers, journal=journal,
            rate_ratio=study.rate_ratio, hour_price=study.hour_price, progress=progress,
            cancel=cancel,
        )
    )  # fmt: skip
    count = _went_by(rows, out)
    wrong: list[Fault] = []
    told = StudyTold(
        title=study.title,
        count=count,
        outcomes=tuple((each, seen.outcomes[each]) for each in OUTCOMES if seen.outcomes[each]),
        codes=tuple(seen.codes.most_common(MOST_CODES)),
        answers=tuple(_answers(study.questions, seen.rows, wrong)),
    )
    if out is not None:
        _write(study_papers(told), Path(out))
    if wrong:
        raise InputError(tuple(wrong))
    return told


def _answers(
    questions: Iterable[Question], rows: list[Row], wrong: list[Fault]
) -> Iterator[tuple[str, Answer]]:
    """Yield the answers that there are by name; why there is none goes on the list."""
    for question in questions:
        try:
            yield question.name, _answer(question, rows)
        except InputError as error:
            wrong += [
                evolve(each, path=f"{question.name}.{each.path}"[:200]) for each in error.faults
            ]


def _went_by(rows: Iterator[Row], out: str | os.PathLike[str] | None) -> int:
    """Return how many rows there were; with a folder they are in its file of rows."""
    if out is None:
        return sum(1 for _ in rows)
    try:
        folder = Path(out)
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, TypeError, ValueError) as error:
        found = getattr(error, "strerror", "") or str(error)
        wanted = "a folder that can be written"
        raise InputError((Fault(path="out", found=found, wanted=wanted),)) from None
    return write_rows(rows, folder / ROWS)


def _answer(question: Question, rows: list[Row]) -> Answer:
    looked = [row for row in rows if all(_is(row[name], value) for name, value in question.where)]
    if not looked:
        told = ", ".join(f"{name} = {shown(value)}" for name, value in question.where)
        wanted = "values that some row has"
        raise InputError((Fault(path="where", found=told[:200], wanted=wanted),))
    if question.what == "pareto":
        return pareto(looked, dict(question.aims))
    if question.what == "side_by_side":
        return side_by_side(looked, by=question.by, of=question.of)
    return cost_by_size(looked, question.size, cost=question.cost, by=question.by)


def _is(figure: object, wanted: object) -> bool:
    """Return whether a figure is the one wanted; true is not 1."""
    return figure == wanted and isinstance(figure, bool) == isinstance(wanted, bool)


def study_papers(told: StudyTold) -> dict[str, bytes]:
    """Return the papers of a study by file name: its text, and those of every answer."""
    papers = {TEXT: str(told).encode("utf-8", "backslashreplace")}
    for name, answer in told.answers:
        for file, held in answer.papers().items():
            papers[f"{name}{Path(file).suffix}"] = held
    return papers


def _write(papers: Mapping[str, bytes], folder: Path) -> None:
    for name, held in papers.items():
        try:
            (folder / name).write_bytes(held)
        except OSError as error:
            found, wanted = error.strerror or str(error), "a file that can be written"
            raise InputError((Fault(path="out", found=found, wanted=wanted, file=name),)) from None
