"""Many decks planned and audited, one flat row for each, on one machine or on many."""

import os
import pickle
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor
from functools import partial
from itertools import chain
from typing import Any

from attrs import Factory, define, frozen

from drylay.brief.model import Brief
from drylay.compare.cases import Cases, as_cases, case_faults
from drylay.compare.flight import MOST_IN_CHUNK, Flight, Numbered, fly
from drylay.compare.journal import Journal, held_row, holds, opened_journal, write_row
from drylay.compare.plain import column_of
from drylay.compare.processes import is_from_standard_input, processes
from drylay.compare.shelf import code_faults
from drylay.compare.study_model import Case, Row
from drylay.compare.terms import (
    MODES,
    Terms,
    brief_text,
    case_digest,
    desk_of,
    plain_case,
    terms_digest,
    terms_of,
)
from drylay.compare.worker import packed, row_for, unpacked
from drylay.compare.years import Money, read_hour_price, read_rate_ratio
from drylay.counting import counted
from drylay.errors import Cancelled, Fault, InputError
from drylay.intake.shown import shown
from drylay.materials.stock_model import Catalogue
from drylay.planner.job import CancelToken, Progress
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

MOST_WORKERS = 1024
#: A limit of less would end a process that is only being begun, some seconds on a busy machine
#: (assumption); of a longer one no clock need know.
LEAST_LIMIT_S, MOST_LIMIT_S = 10, 604_800
#: Told while cases are planned.
STEP = "planned"
ExecutorLike = Executor | Callable[[], Executor]


@frozen(kw_only=True)
class _Study:
    """A study about to be planned: its terms, and how."""

    terms: Terms
    digest: str
    count: int | None
    columns: dict[str, None]
    executor: ExecutorLike | None
    workers: int
    cancel: CancelToken | None
    progress: Progress | None
    most_s: float | None


@counted
def compare(
    cases: Cases | Iterable[Case | Brief] | Case | Brief,
    *,
    stock: Catalogue,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    mode: str = "proven",
    executor: ExecutorLike | None = None,
    workers: int | None = None,
    journal: str | os.PathLike[str] | None = None,
    rate_ratio: float = 0.0,
    hour_price: Money | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
    most_s: float | None = None,
) -> Iterator[Row]:
    """Return an iterator of flat rows, one for each case in case order; each is planned when asked.

    A row has the figures of `plan.measures()` and what the deck costs over the years; a plan that
    is blocked, a brief that cannot be used, a plugin that raises and a worker that dies are rows
    too, told by `outcome` and `codes` (docs/studies.md). The rows are the same however and
    wherever they are planned.

    Args:
        cases: What `vary` returns; or cases, or briefs.
        stock: The merchant's stock.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those of the installed
            plugins.
        bases: Among which the design basis is looked for that a brief names.
        mode: "proven", as `design` plans; or "quick", in which purchases may be dearer, by no more
            than the gap that their row tells.
        executor: What plans: a `concurrent.futures.Executor`, or a function that makes one, so that
            one whose workers died can be replaced. By default all is planned here.
        workers: How many processes to plan in where no executor is named; else how many workers the
            executor has, so that enough is handed to it.
        journal: A file that every row is written to; rows that it holds are not planned again.
        rate_ratio: Interest a year, 0.04 for 4 %.
        hour_price: What an hour of upkeep is worth; without it hours are told and not priced.
        progress: Called as `progress("planned", done, total)`; `total` is 0 where nobody knows it.
        cancel: Asked `is_set()` between cases and while cutting; workers have five seconds to
            finish what they plan, and are then ended where they can be, or not waited for.
        most_s: A time limit in seconds, 10 or more, against what loops for ever: a worker that is
            not back with its cases is ended, and they are tried again, each alone. One that passes
            the limit twice alone is a row, outcome `lost`, code `TimeLimit`, and is not kept in the
            journal: such a row hangs on the machine, no other does. All is planned in processes
            then, also with one worker; an executor must be one that a function makes, with
            `kill_workers()`.

    Raises:
        InputError: Something handed in cannot be used; lists every fault. Of the journal, and of
            cases that are no cases, it is told when the first row, or theirs, is asked for.
        Cancelled: The cancel token was set.
        StudyStopped: Workers die whatever they are given, or the executor handed in broke.
    """
    wrong: list[Fault] = []
    held, count = as_cases(cases)
    rate, price = read_rate_ratio(rate_ratio, wrong), read_hour_price(hour_price, wrong)
    wrong += _faults(stock, mode, executor, workers, held)
    wrong += _kind_faults(families, local_rules, bases, cancel, progress)
    wrong += _worker_faults(most_s, executor, workers)
    if wrong:
        raise InputError(tuple(wrong))
    terms = terms_of(
        stock=stock,
        families=families,
        local_rules=local_rules,
        bases=bases,
        mode=mode,
        rate_ratio=rate,
        hour_price=price,
    )
    if executor is None and _in_processes(most_s, workers):
        workers = workers or 1
        executor = partial(processes, workers)
    study = _Study(
        terms=terms,
        digest=terms_digest(terms),
        count=count,
        columns=_columns(held),
        executor=executor,
        workers=workers or os.cpu_count() or 1,
        cancel=cancel,
        progress=progress,
        most_s=most_s,
    )
    return _rows(study, held, journal)


def _faults(
    stock: object, mode: object, executor: object, workers: object, cases: object
) -> Iterator[Fault]:
    if not isinstance(stock, Catalogue):
        yield Fault(path="stock", found=shown(stock), wanted="a catalogue, from load_catalogue()")
    elif isinstance(cases, Cases):
        yield from code_faults(stock, (path for axis in cases.axes for path in axis.paths))
    if not isinstance(mode, str) or mode not in MODES:
        yield Fault(path="mode", found=shown(mode), wanted=f"one of {', '.join(MODES)}")
    if executor is not None and not (hasattr(executor, "submit") or callable(executor)):
        wanted = "an executor of concurrent.futures, or a function that makes one"
        yield Fault(path="executor", found=shown(executor), wanted=wanted)
    whole = isinstance(workers, int) and not isinstance(workers, bool)
    if workers is not None and not (whole and 1 <= workers <= MOST_WORKERS):  # type: ignore[operator]
        wanted = f"a count of 1 to {MOST_WORKERS}"
        yield Fault(path="workers", found=shown(workers), wanted=wanted)


def _in_processes(most_s: float | None, workers: object) -> bool:
    """Return whether processes plan where no executor is named: nothing here could be ended."""
    return most_s is not None or workers not in (None, 1)


def _worker_faults(most_s: object, executor: object, workers: object) -> Iterator[Fault]:
    number = isinstance(most_s, int | float) and not isinstance(most_s, bool)
    if most_s is not None and not (number and LEAST_LIMIT_S <= most_s <= MOST_LIMIT_S):  # type: ignore[operator]
        wanted = f"seconds, {LEAST_LIMIT_S} to {MOST_LIMIT_S}"
        yield Fault(path="most_s", found=shown(most_s), wanted=wanted)
    if most_s is not None and _is_handed(executor):
        wanted = "a function that makes executors: one handed in is not ours to end"
        near = "workers=2 and no executor"
        yield Fault(path="most_s", found="an executor handed in", wanted=wanted, nearest=near)
    if executor is None and is_from_standard_input() and _in_processes(most_s, workers):  # type: ignore[arg-type]
        wanted = "a script in a file, which each process reads again; `python -c`; or one worker"
        found = "a script read from standard input"
        yield Fault(path="workers", found=found, wanted=wanted)


def _is_handed(executor: object) -> bool:
    """Return whether an executor was handed in, and no function that makes some; a class does."""
    return hasattr(executor, "submit") and not isinstance(executor, type)


def _kind_faults(*given: object) -> Iterator[Fault]:
    families, local_rules, bases, cancel, progress = given
    sets = {"families": FamilySet, "local_rules": LocalRuleSet, "bases": BasisSet}
    for (name, kind), each in zip(sets.items(), (families, local_rules, bases), strict=True):
        if each is not None and not isinstance(each, kind):
            yield Fault(path=name, found=shown(each), wanted=f"a {kind.__name__}")
    if cancel is not None and not hasattr(cancel, "is_set"):
        wanted = "what can be asked is_set(), such as threading.Event"
        yield Fault(path="cancel", found=shown(cancel), wanted=wanted)
    if progress is not None and not callable(progress):
        yield Fault(path="progress", found=shown(progress), wanted="a function")


def _columns(cases: object) -> dict[str, None]:
    """Return what the rows begin with besides their number, where all cases are there to see."""
    if isinstance(cases, Cases):
        return dict.fromkeys(cases.columns)
    if isinstance(cases, list | tuple):
        held = [each for each in cases if isinstance(each, Case) and not any(case_faults(each, 0))]
        return {
            name: None
            for case in held
            for name in (*dict(case.named), *(column_of(path) for path, _ in case.changes))
        }
    return {}


def _rows(
    study: _Study, cases: Iterable[object], path: str | os.PathLike[str] | None
) -> Iterator[Row]:
    with opened_journal(path) as journal:
        for done, (number, row) in enumerate(_told(study, cases, journal), start=1):
            if study.progress is not None:
                study.progress(STEP, done, study.count or 0)
            yield {"case": number, **row}


def _told(
    study: _Study, cases: Iterable[object], journal: Journal | None
) -> Iterator[tuple[int, Row]]:
    numbered = _plain(study, cases)
    if study.executor is None:
        return _here(study, numbered, journal)
    return _there(study, numbered, journal)


def _plain(study: _Study, cases: Iterable[object]) -> Iterator[Numbered]:
    """Yield cases as workers take them; a brief that many share is written out once."""
    last: Brief | None = None
    text = ""
    for number, given in enumerate(cases):
        case = Case(brief=given) if isinstance(given, Brief) else given
        if not isinstance(case, Case):
            wanted = "a case, or a brief"
            raise InputError((Fault(path=f"cases[{number}]", found=shown(given), wanted=wanted),))
        if not isinstance(cases, Cases) and (wrong := tuple(case_faults(case, number))):
            raise InputError(wrong)
        if case.brief is not last:
            last, text = case.brief, brief_text(case.brief)
        yield number, plain_case(case, text, study.columns)


def _here(
    study: _Study, cases: Iterator[Numbered], journal: Journal | None
) -> Iterator[tuple[int, Row]]:
    """Yield the rows planned in this thread, some cases at a desk; none is read ahead."""
    desk = desk_of(study.terms, study.cancel)
    for number, case in cases:
        if number and not number % MOST_IN_CHUNK:
            desk = desk_of(study.terms, study.cancel)
        _ask(study)
        digest = case_digest(study.digest, case)
        row = held_row(journal, digest) if journal else None
        if row is None:
            row = unpacked(packed(row_for(desk, case)))
            if journal:
                write_row(journal, digest, row)
        yield number, row


def _ask(study: _Study) -> None:
    if study.cancel is not None and study.cancel.is_set():
        raise Cancelled("the study was cancelled")


def _there(
    study: _Study, cases: Iterator[Numbered], journal: Journal | None
) -> Iterator[tuple[int, Row]]:
    """Yield the rows planned by an executor, with those of the journal where they belong."""
    told = _Told(journal=journal, digest=study.digest)
    whole = told.whole(cases)
    to_plan = []
    # a resumed study begins with rows that it holds: none of them waits for the first it does not
    for number, case in whole:
        _ask(study)
        digest = case_digest(study.digest, case) if journal else ""
        row = held_row(journal, digest) if journal else None
        if row is None:
            to_plan.append((number, case))
            break
        yield number, row
    for number, row in fly(_flight(study, told), told.to_plan(chain(to_plan, whole))):
        yield from told.held_before(number)
        yield number, row
    yield from told.held_before(None)
    if told.ended_by is not None:
        raise told.ended_by


def _flight(study: _Study, told: "_Told") -> Flight:
    make, own = _maker(study.executor)
    return Flight(
        make=make,
        own=own,
        workers=study.workers,
        terms=_sent(study.terms),
        desk=desk_of(study.terms),
        keep=told.keep,
        cancel=study.cancel,
        count=study.count,
        most_s=study.most_s,
    )


def _maker(executor: ExecutorLike | None) -> tuple[Callable[[], Executor], bool]:
    """Return what makes executors, and whether they are ours to end and to replace."""
    if _is_handed(executor):
        handed: Any = executor
        return lambda: handed, False
    make: Any = executor
    return make, True


def _sent(terms: Terms) -> bytes:
    """Return the terms as workers are sent them.

    Raises:
        InputError: They hold a function that no other process can be sent.
    """
    try:
        return pickle.dumps(terms)
    except Exception as error:
        wanted = "families, rules and bases of modules that workers can import, or no workers"
        found = f"what cannot be sent to a worker: {error}"
        raise InputError((Fault(path="families", found=found[:300], wanted=wanted),)) from None


@define(kw_only=True)
class _Told:
    """The journal beside an executor: what it holds already, and what is on its way.

    `ended_by` is what there is in place of a further case. Cases are read ahead, so that it is
    told when the rows before it are.
    """

    journal: Journal | None
    digest: str
    ended_by: Exception | None = None
    held: deque[tuple[int, str]] = Factory(deque)
    digests: dict[int, str] = Factory(dict)

    def to_plan(self, cases: Iterator[Numbered]) -> Iterator[Numbered]:
        """Yield the cases that the journal does not hold."""
        for number, case in cases:
            if self.journal is not None:
                digest = case_digest(self.digest, case)
                if holds(self.journal, digest):
                    self.held.append((number, digest))
                    continue
                self.digests[number] = digest
            yield number, case

    def whole(self, cases: Iterator[Numbered]) -> Iterator[Numbered]:
        """Yield the cases up to one that is none."""
        try:
            yield from cases
        except Exception as error:  # no case, or whatever the caller's own cases raise
            self.ended_by = error

    def keep(self, number: int, row: Row) -> None:
        """Write a row that has landed."""
        if self.journal is not None:
            write_row(self.journal, self.digests.pop(number), row)

    def held_before(self, number: int | None) -> Iterator[tuple[int, Row]]:
        """Yield the rows of the journal up to a number, all of them for None."""
        while self.held and (number is None or self.held[0][0] < number):
            at, digest = self.held.popleft()
            row = held_row(self.journal, digest) if self.journal else None
            assert row is not None
            yield at, row
