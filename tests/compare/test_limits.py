"""A time limit, by a clock that is handed in: what does not come back is ended, and tried again."""

import sys
from collections import Counter
from concurrent.futures import BrokenExecutor, Executor, Future, ThreadPoolExecutor
from types import ModuleType
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compare.sheds import study
from compare.test_flight import DESK, forget, numbered, numbers_of, work
from drylay.compare import flight as flights
from drylay.compare.flight import ALONE_TRIES, Flight, fly
from drylay.compare.processes import end_with, processes
from drylay.compare.study_errors import StudyStopped
from drylay.errors import InputError


class Looping(Executor):
    """An executor whose workers never come back from some cases, and can be ended."""

    def __init__(self, loopers: frozenset[int], sent: list[list[int]]) -> None:
        self.loopers, self.sent, self.held, self.killed = loopers, sent, list[Future[Any]](), 0

    def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Future[Any]:
        assert not self.killed
        future: Future[Any] = Future()
        self.sent.append(numbers_of(args[1]))
        if self.loopers & set(self.sent[-1]):
            future.set_running_or_notify_cancel()
            self.held.append(future)
        else:
            future.set_result(fn(*args))
        return future

    def kill_workers(self) -> None:
        self.killed += 1
        for future in self.held:
            future.set_exception(BrokenExecutor("ended"))
        self.held.clear()

    def shutdown(self, *, wait: bool) -> None:
        assert not (wait and self.held), "a shutdown would wait for ever"


def still() -> float:
    """A clock that stands still: with a limit of no seconds whatever is not there is late."""
    return 0.0


def flown(
    count: int, workers: int, loopers: frozenset[int]
) -> tuple[list[tuple[int, Any]], list[list[int]]]:
    sent: list[list[int]] = []
    flight = Flight(make=lambda: Looping(loopers, sent), own=True, workers=workers, terms=b"",
                    desk=DESK, keep=forget, work=work, most_s=0.0, clock=still)  # fmt: skip
    return list(fly(flight, numbered(count))), sent


@settings(max_examples=40, deadline=None)
@given(
    count=st.integers(1, 40),
    workers=st.integers(1, 4),
    loopers=st.frozensets(st.integers(0, 39), max_size=3),
)
def test_a_case_that_never_comes_back_is_told_and_no_other(
    count: int, workers: int, loopers: frozenset[int]
) -> None:
    rows, sent = flown(count, workers, loopers)
    assert [number for number, _ in rows] == list(range(count))
    assert {n for n, row in rows if row["outcome"] == "lost"} == loopers & set(range(count))
    alone = Counter(chunk[0] for chunk in sent if len(chunk) == 1)
    assert all(alone[looper] >= ALONE_TRIES for looper in loopers & set(range(count)))


def test_a_row_says_what_limit_was_passed() -> None:
    flight = Flight(make=lambda: Looping(frozenset({0}), []), own=True, workers=1, terms=b"",
                    desk=DESK, keep=forget, work=work, most_s=0.0, clock=still)  # fmt: skip
    ((_, row),) = fly(flight, numbered(1))
    assert (row["outcome"], row["codes"]) == ("lost", "TimeLimit")
    assert row["told"] == "TimeLimit: not back within 0 s"


class Queue(Executor):
    """Chunks are planned one after another: at every other look at the clock 9 s have gone by and
    the oldest is done, so that something is always done when it is waited for.
    """

    def __init__(self) -> None:
        self.looks, self.queue, self.killed = 0, list[tuple[Future[Any], Any, Any]](), 0

    def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Future[Any]:
        self.queue.append((Future(), fn, args))
        return self.queue[-1][0]

    def clock(self) -> float:
        self.looks += 1
        if self.looks % 2:
            future, fn, args = self.queue.pop(0)
            future.set_result(fn(*args))
        return 9.0 * (self.looks // 2)

    def kill_workers(self) -> None:
        self.killed += 1


def test_the_time_of_a_chunk_that_waits_for_a_worker_does_not_run() -> None:
    """Four chunks are in flight: each is done 36 s after it was handed in, and no more than 18 s
    after it was among the two that are being planned.
    """
    queue = Queue()
    flight = Flight(make=lambda: queue, own=True, workers=2, terms=b"", desk=DESK, keep=forget,
                    work=work, most_s=20.0, clock=queue.clock)  # fmt: skip
    rows = list(fly(flight, numbered(60)))
    assert Counter(row["outcome"] for _, row in rows) == {"planned": 60}
    assert queue.looks > 2 * 6
    assert queue.killed == 0


def test_cases_that_all_pass_their_limit_stop_a_study() -> None:
    with pytest.raises(
        StudyStopped, match="4 cases in a row were lost, the last by TimeLimit"
    ) as e:
        flown(9, 1, frozenset(range(9)))
    assert "__main__" not in str(e.value)


@pytest.mark.parametrize("most_s", [0, 9.9, -60, True, float("nan"), float("inf"), "60"])
def test_what_is_no_limit_is_told(most_s: Any) -> None:
    with pytest.raises(InputError, match="most_s: found"):
        study(workers=2, most_s=most_s)


def test_there_is_no_limit_where_nobody_can_end_a_worker() -> None:
    with (
        ThreadPoolExecutor(1) as pool,
        pytest.raises(InputError, match="most_s: found an executor"),
    ):
        study(executor=pool, most_s=60)
    with pytest.raises(InputError, match=r"most_s: found .*ThreadPoolExecutor.*kill_workers"):
        next(study(executor=ThreadPoolExecutor, workers=1, most_s=60))


def test_what_is_still_planned_when_a_study_is_stopped_is_ended(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Once the first interrupt waited for ever, and the third left the worker looping."""
    monkeypatch.setattr(flights, "PARTING_S", 0.0)
    pool = Looping(frozenset(range(1, 9)), [])
    flight = Flight(make=lambda: pool, own=True, workers=1, terms=b"", desk=DESK, keep=forget,
                    work=work)  # fmt: skip
    rows = fly(flight, numbered(9))
    assert next(rows)[0] == 0
    rows.close()
    assert pool.killed == 1


def test_an_executor_that_is_ended_meets_no_future_that_was_cancelled(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Once processes of Python 3.11, killed with one, left a traceback of their own behind."""
    monkeypatch.setattr(flights, "PARTING_S", 0.0)
    left: list[Future[Any]] = []

    class Pool(Executor):
        def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Future[Any]:
            future: Future[Any] = Future()
            if 0 in numbers_of(args[1]):
                future.set_result(fn(*args))
            else:
                left.append(future)
            return future

        def kill_workers(self) -> None:
            for future in left:
                future.set_exception(BrokenExecutor("ended"))

        def shutdown(self, *, wait: bool) -> None:
            assert not wait

    flight = Flight(make=Pool, own=True, workers=1, terms=b"", desk=DESK, keep=forget, work=work)
    rows = fly(flight, numbered(9))
    next(rows)
    rows.close()
    assert left
    assert all(future.done() and not future.cancelled() for future in left)


@pytest.mark.parametrize("begun", [True, False])
def test_what_nobody_can_end_is_not_waited_for_when_a_study_is_stopped(
    begun: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Once it was, for ever: of ipyparallel where every engine was gone."""
    monkeypatch.setattr(flights, "PARTING_S", 0.0)
    waited: list[bool] = []

    class Gone(Executor):
        def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Future[Any]:
            future: Future[Any] = Future()
            if 0 in numbers_of(args[1]):
                future.set_result(fn(*args))
            elif begun:  # else it can be cancelled, and nobody takes note of that
                future.set_running_or_notify_cancel()
            return future

        def shutdown(self, *, wait: bool) -> None:
            waited.append(wait)

    flight = Flight(make=Gone, own=True, workers=1, terms=b"", desk=DESK, keep=forget, work=work)
    rows = fly(flight, numbered(9))
    next(rows)
    rows.close()
    assert waited == [False]


def test_our_processes_can_be_ended() -> None:
    pool = processes(1)
    pool.kill_workers()  # none yet
    looping = pool.submit(eval, "max(iter(int, 1))")  # for ever
    pool.kill_workers()
    assert isinstance(looping.exception(60), BrokenExecutor)
    pool.shutdown(wait=True)


def test_a_worker_ends_with_its_parent() -> None:
    """Once the workers of a study that was killed whole lived on, idle, for ever."""
    log: list[object] = []

    class Parent:
        def join(self) -> None:
            log.append("ended")

    end_with(Parent(), log.append)  # type: ignore[arg-type]
    assert log == ["ended", 1]


def test_a_script_from_standard_input_is_told_before_anything_is_planned(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Each process would look for a file of that name, and die."""
    main = ModuleType("__main__")
    main.__file__ = "<stdin>"
    monkeypatch.setitem(sys.modules, "__main__", main)
    with pytest.raises(InputError, match="workers: found a script read from standard input"):
        study(workers=2)
    assert study(workers=1) is not None  # planned here
