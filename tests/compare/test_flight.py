"""Chunks in flight: whatever workers do, every case comes once, in order, and few are in flight."""

import json
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, Executor, Future
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from compare.sheds import SHED, STOCK
from drylay.compare.flight import ALONE_TRIES, MOST_LOST, PER_WORKER, Flight, fly
from drylay.compare.study_errors import StudyStopped
from drylay.compare.terms import Desk, PlainCase, brief_text, desk_of, terms_of

TEXT = brief_text(drylay.read_brief(SHED))
DESK: Desk = desk_of(
    terms_of(stock=STOCK, families=None, local_rules=None, bases=None, mode="quick",
             rate_ratio=0.0, hour_price=None)
)  # fmt: skip


class Dead(BrokenExecutor):
    """A worker is gone."""


class Script(Executor):
    """An executor whose workers do what a script says, chunk by chunk: work, die or raise."""

    def __init__(self, script: Iterator[str], log: "Log", killers: frozenset[int]) -> None:
        self.script, self.log, self.killers, self.broken = script, log, killers, False

    def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Future[Any]:
        if self.broken:
            raise Dead("broken already")
        future: Future[Any] = Future()
        numbers = numbers_of(args[1])
        self.log.sent.append(numbers)
        says = "die" if self.killers & set(numbers) else next(self.script, "work")
        if says == "work":
            future.set_result(fn(*args))
        elif says == "raise":
            future.set_exception(OSError("no room"))
        elif says == "cancel":
            future.cancel()
            future.set_running_or_notify_cancel()
        else:
            self.broken = True
            future.set_exception(Dead("gone"))
        return future

    def shutdown(self, *, wait: bool) -> None:
        """End: `wait` is all that loky's and ipyparallel's take."""
        self.broken = wait or self.broken


class Log:
    """What was sent, chunk by chunk, and how many executors were made."""

    def __init__(self) -> None:
        self.sent: list[list[int]] = []
        self.made = 0


def numbers_of(chunk: str) -> list[int]:
    return [dict(columns)["n"] for _, _, columns in json.loads(chunk)]


def numbered(count: int) -> Iterator[tuple[int, PlainCase]]:
    return ((n, PlainCase(brief=TEXT, changes=(), columns=(("n", n),))) for n in range(count))


def forget(_number: int, _row: object) -> None:
    """Keep nothing."""


def work(_terms: bytes, chunk: str, _attempt: int) -> str:
    rows = [{"money": [], "row": {"n": dict(columns)["n"], "outcome": "planned"}}
            for _, _, columns in json.loads(chunk)]  # fmt: skip
    return json.dumps({"rows": rows, "took_s": 0.3 * len(rows)})


def flown(
    count: int, workers: int, script: list[str], killers: frozenset[int] = frozenset()
) -> tuple[list[tuple[int, Any]], list[int], Log]:
    log, kept, says = Log(), [], iter(script)

    def make() -> Executor:
        log.made += 1
        return Script(says, log, killers)

    flight = Flight(make=make, own=True, workers=workers, terms=b"", desk=DESK,
                    keep=lambda number, _: kept.append(number), work=work)  # fmt: skip
    return list(fly(flight, numbered(count))), kept, log


@settings(max_examples=60, deadline=None)
@given(
    count=st.integers(0, 40),
    workers=st.integers(1, 4),
    script=st.lists(
        st.sampled_from(["work", "die", "raise", "cancel", "work", "work"]), max_size=12
    ),
)
def test_every_case_comes_once_and_in_order(count: int, workers: int, script: list[str]) -> None:
    try:
        rows, kept, _ = flown(count, workers, script)
    except StudyStopped:  # as many cases in a row lost as are borne
        assert sum(says != "work" for says in script) > MOST_LOST * ALONE_TRIES
        return
    assert [number for number, _ in rows] == list(range(count))
    assert Counter(kept) == Counter(range(count))
    for number, row in rows:
        assert row["n"] == number
        assert row["outcome"] in ("planned", "lost")
    lost = sum(row["outcome"] == "lost" for _, row in rows)
    assert lost * (ALONE_TRIES + 1) <= sum(says != "work" for says in script)


@settings(max_examples=30, deadline=None)
@given(count=st.integers(1, 30), killer=st.integers(0, 29), workers=st.integers(1, 3))
def test_a_case_that_kills_its_workers_is_told_as_lost_and_no_other(
    count: int, killer: int, workers: int
) -> None:
    rows, _, log = flown(count, workers, [], frozenset({killer}))
    told = {number: row["outcome"] for number, row in rows}
    assert told == {n: "lost" if n == killer else "planned" for n in range(count)}
    alone = [chunk for chunk in log.sent if killer in chunk and len(chunk) == 1]
    assert killer >= count or len(alone) >= ALONE_TRIES


def test_a_lost_row_says_by_what_and_has_the_columns_of_all_rows() -> None:
    ((_, row),) = flown(1, 1, [], frozenset({0}))[0]
    assert row["codes"] == "Dead"
    assert row["told"] == "Dead: gone"
    assert row["n"] == 0
    assert not row["buildable"]
    assert row["total"] is None


def test_a_study_stops_where_all_workers_die() -> None:
    with pytest.raises(StudyStopped, match="4 cases in a row were lost, the last by Dead: gone"):
        flown(40, 2, ["die"] * 100)


class Holding(Executor):
    """An executor that finishes nothing before so many chunks are in flight, or the last is."""

    def __init__(self, most: int, last: int) -> None:
        self.held: list[tuple[Future[Any], Any, Any]] = []
        self.seen, self.most, self.last = 0, most, last

    def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Future[Any]:
        self.held.append((Future(), fn, args))
        self.seen = max(self.seen, len(self.held))
        future = self.held[-1][0]
        if len(self.held) == self.most or numbers_of(args[1])[-1] == self.last:
            for each, its, given in self.held:
                each.set_result(its(*given))
            self.held.clear()
        return future


def test_few_chunks_are_in_flight_and_as_many_as_may_be() -> None:
    holding = Holding(most=PER_WORKER * 3, last=99)
    flight = Flight(make=lambda: holding, own=True, workers=3, terms=b"", desk=DESK, keep=forget,
                    work=work)  # fmt: skip
    assert [number for number, _ in fly(flight, numbered(100))] == list(range(100))
    assert holding.seen == PER_WORKER * 3


def test_cases_are_not_read_far_ahead_of_the_row_told() -> None:
    read = 0

    def cases() -> Iterator[tuple[int, PlainCase]]:
        nonlocal read
        for n in range(100_000):
            read = n
            yield n, PlainCase(brief=TEXT, changes=(), columns=(("n", n),))

    log = Log()
    flight = Flight(make=lambda: Script(iter(()), log, frozenset()), own=True, workers=2, terms=b"",
                    desk=DESK, keep=forget, work=work)  # fmt: skip
    rows = fly(flight, cases())
    for _ in range(50):
        next(rows)
    assert read < 100
    rows.close()


def test_an_executor_handed_in_that_breaks_is_not_replaced() -> None:
    handed = Script(iter(["work", "die"]), Log(), frozenset())
    flight = Flight(make=lambda: handed, own=False, workers=1, terms=b"", desk=DESK,
                    keep=forget, work=work)  # fmt: skip
    with pytest.raises(StudyStopped, match="hand in a function that makes executors"):
        list(fly(flight, numbered(9)))
