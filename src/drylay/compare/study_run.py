"""A study run: rows into a file as they come, answers and pictures when all are there."""

import os
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from attrs import define

from drylay.compare.compared import ExecutorLike, compare
from drylay.compare.rows_file import write_rows
from drylay.compare.rows_seen import seen_in
from drylay.compare.study_answers import answers, check_questions
from drylay.compare.study_asked import columns_needed
from drylay.compare.study_model import OUTCOMES, Row
from drylay.compare.study_plan import Study, StudyTold
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.planner.job import CancelToken, Progress
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

ROWS, TEXT = "rows.csv", "study.txt"
#: Of codes met in a study the text names so many.
MOST_CODES = 12
#: What of every row is kept for the answers, whatever they ask.
KEPT = ("case", "outcome", "codes", "buildable", "stop_codes", "currency", "gap", "units")


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


@counted
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
    most_s: float | None = None,
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
        most_s: As in `compare`: a time limit against what loops for ever.

    Raises:
        InputError: As `compare` does, before anything is planned, and so of questions about decks
            themselves; or questions cannot be answered of these rows, each of which is told when
            the answers to the others are written.
        Cancelled: The cancel token was set.
        StudyStopped: Workers die whatever they are given.
    """
    needed = columns_needed(study.questions)
    # what was put in stands before the outcome, as in every row: answers tell decks by it
    columns = tuple(dict.fromkeys((KEPT[0], *study.cases.columns, *KEPT[1:], *sorted(needed))))
    seen = _Seen(columns=columns, outcomes=Counter(), codes=Counter(), rows=[])
    how: dict[str, Any] = {
        "families": families, "local_rules": local_rules, "bases": bases, "executor": executor,
        "workers": workers, "journal": journal, "progress": progress, "cancel": cancel,
        "most_s": most_s,
    }  # fmt: skip
    check_questions(study, **how)
    rows = compare(
        study.cases, stock=study.stock, mode=study.mode, rate_ratio=study.rate_ratio,
        hour_price=study.hour_price, **how,
    )  # fmt: skip
    count = _went_by(seen.look(rows), out)
    wrong: list[Fault] = []
    told = StudyTold(
        title=study.title,
        count=count,
        outcomes=tuple((each, seen.outcomes[each]) for each in OUTCOMES if seen.outcomes[each]),
        codes=tuple(seen.codes.most_common(MOST_CODES)),
        currency=study.stock.currency,
        seen=seen_in(seen.rows),
        answers=tuple(answers(study, seen.rows, wrong, **how)),
    )
    if out is not None:
        _write(study_papers(told), Path(out))
    if wrong:
        raise InputError(tuple(wrong))
    return told


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
