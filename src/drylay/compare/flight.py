"""Chunks of cases in flight: handed to an executor, a bounded number of them, lost ones again.

A worker that goes away takes its chunk with it, and with some executors every chunk in flight. Each
of these is tried again alone, then case by case; a case that is lost each time it is tried alone is
told as lost, and the study goes on.

With a time limit a worker that does not come back is ended with all others of its executor, and
what they had is lost in the same way. No clock decides anything else, and a lost row is not kept.
"""

import json
import time
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Executor, Future, wait
from itertools import islice

from attrs import Factory, define, evolve, frozen

from drylay.compare.processes import is_from_standard_input
from drylay.compare.study_errors import StudyStopped
from drylay.compare.study_model import Row
from drylay.compare.study_row import failed, row_of
from drylay.compare.terms import Desk, PlainCase, to_plain
from drylay.compare.worker import rows_of_chunk, unpacked
from drylay.errors import Cancelled, Fault, InputError
from drylay.planner.job import CancelToken

#: A chunk is to take so long: a task costs some milliseconds wherever it is sent. Measured of
#: processes and of Dask, docs/executors.md.
CHUNK_S = 2.0
MOST_IN_CHUNK = 64
#: Chunks in flight for each worker, and how far planning may run ahead of the row told last.
PER_WORKER, AHEAD = 2, 8
#: How often a case is tried alone, and how many in a row may be lost before the study stops.
ALONE_TRIES, MOST_LOST = 2, 3
#: How long is waited before the cancel token is asked again.
ASK_S = 0.2
#: How long the workers of executors that were made have, once a study is stopped, to finish what
#: they plan: more than a chunk takes as a rule. Nobody is told those rows any more.
PARTING_S = 5.0

#: What most often takes every process away at once.
GUARD = 'a script that plans in processes does so under `if __name__ == "__main__":`'
UNREAD = "a script from standard input cannot be read again by a process: keep it in a file"

Numbered = tuple[int, PlainCase]


class TimeLimit(Exception):  # noqa: N818 - the code of a row
    """A chunk is not back within the time limit."""


@frozen(kw_only=True)
class Chunk:
    """Cases by number that are planned together; `tries` counts how often they were lost."""

    cases: tuple[Numbered, ...]
    tries: int = 0


@define(kw_only=True)
class Flight:
    """What is in flight, what is to be tried again, what is ready to be told.

    `keep` is called with every row as it lands, in no order. `count` is how many cases there are,
    where that is known, `case_s` how long one has taken of late, `lost` how many were lost since
    the last one landed, `sent` how many chunks went out; `spent` that no case is left to be sent
    for the first time. `most_s` is the time limit, `begun` when the oldest chunks began to be
    planned.
    """

    make: Callable[[], Executor]
    own: bool
    workers: int
    terms: bytes
    desk: Desk
    keep: Callable[[int, Row], None]
    work: Callable[[bytes, str, int], str] = rows_of_chunk
    cancel: CancelToken | None = None
    most_s: float | None = None
    clock: Callable[[], float] = time.monotonic
    begun: dict[Future[str], float] = Factory(dict)
    executor: Executor | None = None
    flying: dict[Future[str], Chunk] = Factory(dict)
    again: deque[Chunk] = Factory(deque)
    spent: bool = False
    ready: dict[int, Row] = Factory(dict)
    numbers: deque[int] = Factory(deque)
    count: int | None = None
    case_s: float | None = None
    lost: int = 0
    sent: int = 0


def fly(flight: Flight, cases: Iterator[Numbered]) -> Iterator[tuple[int, Row]]:
    """Yield every case's row with its number, in case order.

    Raises:
        Cancelled: The cancel token was set.
        StudyStopped: Workers go away whatever they are given.
    """
    try:
        while True:
            _ask(flight)
            _fill(flight, cases)
            while flight.numbers and flight.numbers[0] in flight.ready:
                number = flight.numbers.popleft()
                yield number, flight.ready.pop(number)
            if flight.flying:
                _land(flight)
                _end_late(flight)
            elif flight.spent and not flight.numbers:
                return
    finally:
        _close(flight)


def _ask(flight: Flight) -> None:
    if flight.cancel is not None and flight.cancel.is_set():
        raise Cancelled("the study was cancelled")


def _fill(flight: Flight, cases: Iterator[Numbered]) -> None:
    """Send chunks until enough are in flight; what was lost goes alone, before all others."""
    most_ready = AHEAD * flight.workers * MOST_IN_CHUNK
    while len(flight.flying) < PER_WORKER * flight.workers:
        if flight.again:  # however many are ready: it may be what they all wait for
            if not flight.flying:
                _send(flight, flight.again.popleft())
            return
        if len(flight.ready) >= most_ready:
            return
        chunk = tuple(islice(cases, _chunk_size(flight)))
        if not chunk:
            flight.spent = True
            return
        flight.numbers.extend(number for number, _ in chunk)
        _send(flight, Chunk(cases=chunk))


def _chunk_size(flight: Flight) -> int:
    """Return how many cases take about two seconds: one until that is known.

    Towards the end they are fewer, so that all workers are done at about the same time.
    """
    if not flight.case_s:
        return 1
    size = min(MOST_IN_CHUNK, round(CHUNK_S / flight.case_s))
    if flight.count is not None and flight.numbers:
        left = flight.count - 1 - flight.numbers[-1]
        size = min(size, left // (PER_WORKER * flight.workers))
    return max(1, size)


def _send(flight: Flight, chunk: Chunk) -> None:
    if flight.executor is None:
        flight.executor = _made(flight)
    flight.sent += 1
    plain = json.dumps([to_plain(case) for _, case in chunk.cases])
    try:
        future = flight.executor.submit(flight.work, flight.terms, plain, flight.sent)
    except Exception as error:  # a pool that broke, was shut, or lost whoever it spoke to
        _lost(flight, chunk, error)
        _break(flight, error)
    else:
        if not isinstance(future, Future):
            raise _no_executor(f"an executor whose submit returns {type(future).__name__}")
        flight.flying[future] = chunk


def _made(flight: Flight) -> Executor:
    made = flight.make()
    if not hasattr(made, "submit"):
        raise _no_executor(f"a function that makes {type(made).__name__}")
    if flight.most_s is not None and not hasattr(made, "kill_workers"):
        found = f"with a function that makes {type(made).__name__}, whose workers nobody can end"
        wanted = "an executor that has kill_workers()"
        near = "workers=2 and no executor"
        raise InputError((Fault(path="most_s", found=found, wanted=wanted, nearest=near),))
    return made


def _no_executor(found: str) -> InputError:
    wanted = "an executor as concurrent.futures has them, or a function that makes one"
    near = "of Dask: client.get_executor()"
    return InputError((Fault(path="executor", found=found, wanted=wanted, nearest=near),))


def _land(flight: Flight) -> None:
    """Take in the rows of the chunks that are done; what was lost is to be tried again."""
    done, _ = wait(flight.flying, timeout=_wait_s(flight), return_when=FIRST_COMPLETED)
    broken: BaseException | None = None
    for future in done:
        chunk = flight.flying.pop(future)
        error = _error_of(future)
        if error is None:
            _take_in(flight, chunk, future.result())
        else:
            _lost(flight, chunk, error)
            broken = error if isinstance(error, BrokenExecutor) else broken
    if broken is not None:
        _break(flight, broken)


def _wait_s(flight: Flight) -> float | None:
    """Return how long to wait for a chunk, None for as long as it takes.

    Executors plan what they are handed in turn, so that the oldest chunks are those being planned:
    the time of one that waits for a worker does not run.
    """
    waits = [] if flight.cancel is None else [ASK_S]
    if flight.most_s is not None:
        now, oldest = flight.clock(), islice(flight.flying, flight.workers)
        flight.begun = {future: flight.begun.get(future, now) for future in oldest}
        waits.append(max(0.0, min(flight.begun.values()) + flight.most_s - now))
    return min(waits, default=None)


def _end_late(flight: Flight) -> None:
    """End the workers where one is not back within the limit; a late chunk's cases go alone."""
    if flight.most_s is None:
        return
    before = flight.clock() - flight.most_s
    late = [future for future, began in flight.begun.items()
            if began <= before and future in flight.flying and not future.done()]  # fmt: skip
    if not late:
        return
    _end(flight)
    error = TimeLimit(f"not back within {flight.most_s:g} s")
    for future in late:
        chunk = flight.flying.pop(future)
        _lost(flight, evolve(chunk, tries=max(chunk.tries, len(chunk.cases) > 1)), error)
    _break(flight, error)


def _end(flight: Flight) -> None:
    """End the workers of an executor that can, whatever they do."""
    end = getattr(flight.executor, "kill_workers", None)
    if end is not None:
        end()


def _error_of(future: Future[str]) -> BaseException | None:
    return RuntimeError("the executor cancelled it") if future.cancelled() else future.exception()


def _take_in(flight: Flight, chunk: Chunk, text: str) -> None:
    """Take in the rows of a chunk, all of them or, where a worker told something else, none."""
    try:
        told = json.loads(text)
        took_s = float(told["took_s"]) / len(chunk.cases)
        pairs = zip(chunk.cases, told["rows"], strict=True)
        rows = [(number, unpacked(row)) for (number, _), row in pairs]
    except (TypeError, ValueError, KeyError, ArithmeticError) as error:
        _lost(flight, chunk, error)
        return
    flight.lost = 0
    flight.case_s = took_s if flight.case_s is None else (flight.case_s + took_s) / 2
    for number, row in rows:
        _ready(flight, number, row)


def _ready(flight: Flight, number: int, row: Row) -> None:
    flight.keep(number, row)
    flight.ready[number] = row


def _lost(flight: Flight, chunk: Chunk, error: BaseException) -> None:
    """Put a lost chunk where it is tried again; a case lost once too often is told as lost.

    Raises:
        StudyStopped: So many cases in a row were lost.
    """
    tries = chunk.tries + 1
    if len(chunk.cases) > 1 and tries > 1:
        flight.again.extendleft(Chunk(cases=(case,), tries=1) for case in reversed(chunk.cases))
    elif len(chunk.cases) > 1 or tries <= ALONE_TRIES:
        flight.again.append(evolve(chunk, tries=tries))
    else:
        _give_up(flight, chunk, error)


def _give_up(flight: Flight, chunk: Chunk, error: BaseException) -> None:
    flight.lost += 1
    if flight.lost > MOST_LOST:
        text = f"{flight.lost} cases in a row were lost, the last by {_named(error)}"
        if flight.own and isinstance(error, BrokenExecutor):
            text += f"; {UNREAD if is_from_standard_input() else GUARD}"
        raise StudyStopped(text)
    ((number, case),) = chunk.cases
    _ready(flight, number, row_of(flight.desk, case, failed(error, "lost")))


def _named(error: BaseException) -> str:
    return f"{type(error).__name__}: {error}"


def _break(flight: Flight, error: BaseException) -> None:
    """Leave a broken executor behind, with all that it had in flight, for a fresh one.

    Its futures are left to it: processes of Python 3.11 are not all ended by an executor that meets
    a cancelled future while it breaks.

    Raises:
        StudyStopped: The executor was handed in: only its owner can make another.
    """
    if not flight.own:
        wanted = "hand in a function that makes executors, and a broken one is replaced"
        raise StudyStopped(f"the executor broke, {_named(error)}: {wanted}") from error
    for future, chunk in list(flight.flying.items()):
        if not future.done() or _error_of(future) is not None:
            del flight.flying[future]
            _lost(flight, chunk, error)
    if flight.executor is not None:
        flight.executor.shutdown(wait=False)
    flight.executor = None


def _close(flight: Flight) -> None:
    """Cancel what is in flight, and end the executor if it is ours.

    Each future is cancelled by itself: `cancel_futures` is not known to every executor's shutdown,
    and would cancel what others handed to one that is shared. Where workers can be ended none is
    cancelled: an executor that is ended breaks, and is to meet no cancelled future, as above.
    """
    if not flight.own or not hasattr(flight.executor, "kill_workers"):
        for future in flight.flying:
            future.cancel()
    if not flight.own or flight.executor is None:
        return
    late = True
    try:
        late = bool(wait(flight.flying, timeout=PARTING_S).not_done)
    finally:  # also where somebody is tired of waiting
        if late:
            _end(flight)
        flight.executor.shutdown(wait=not late)
