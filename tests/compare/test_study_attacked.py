"""Studies under attack: what a hostile caller, executor, plugin or file did once, and must not."""

import json
import os
import time
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from compare.sheds import SHED, STOCK, study
from compare.test_flight import DESK, forget, numbered, work
from drylay.compare.flight import AHEAD, MOST_IN_CHUNK, Flight, fly
from drylay.compare.study_errors import StudyStopped
from drylay.errors import InputError


class Odd(Executor):
    """An executor of which each chunk ends as a function says."""

    def __init__(self, answer: Any) -> None:
        self.answer, self.count = answer, 0

    def submit(self, fn: Any, /, *args: Any, **_named: Any) -> Any:
        self.count += 1
        return self.answer(self.count, fn, args)

    def shutdown(self, *_given: Any, **_named: Any) -> None:
        """Nothing is held."""


def done(text: object) -> Future[Any]:
    future: Future[Any] = Future()
    future.set_result(text)
    return future


def flight(executor: Executor, *, own: bool = True) -> Flight:
    return Flight(make=lambda: executor, own=own, workers=1, terms=b"", desk=DESK, keep=forget,
                  work=work)  # fmt: skip


def test_a_first_chunk_that_is_lost_late_is_tried_again_however_many_are_ready() -> None:
    """Once nothing was sent while so many rows waited, and they waited for the one that was lost."""
    head: Future[Any] = Future()
    odd = Odd(lambda count, fn, args: head if count == 1 else done(fn(*args)))
    made = flight(odd)
    numbers: list[int] = []
    most = AHEAD * MOST_IN_CHUNK
    flown = Thread(target=lambda: numbers.extend(n for n, _ in fly(made, numbered(most + 200))),
                   daemon=True)  # fmt: skip
    flown.start()
    while len(made.ready) < most:
        time.sleep(0.01)
    head.set_exception(OSError("killed"))
    flown.join(30)
    assert not flown.is_alive()
    assert numbers == list(range(most + 200))


def test_a_study_does_not_end_early_where_nothing_can_be_handed_in() -> None:
    """Once it ended after the first lost case, its other cases untold."""

    def none(_count: int, _fn: object, _args: object) -> Future[Any]:
        raise RuntimeError("no process can be begun here")

    told: list[int] = []
    with pytest.raises(StudyStopped, match="4 cases in a row were lost"):
        told.extend(n for n, _ in fly(flight(Odd(none)), numbered(9)))


@pytest.mark.parametrize("spoil", [
    lambda _: None, lambda _: "hello", lambda _: "{}", lambda _: "[]",
    lambda text: json.dumps({**json.loads(text), "rows": json.loads(text)["rows"][:-1]}),
    lambda text: json.dumps({**json.loads(text), "rows": [3] * len(json.loads(text)["rows"])}),
])  # fmt: skip
def test_a_worker_that_tells_something_else_is_asked_again(spoil: Any) -> None:
    odd = Odd(lambda count, fn, args: done(fn(*args) if count % 2 else spoil(fn(*args))))
    assert [n for n, _ in fly(flight(odd, own=False), numbered(40))] == list(range(40))


@pytest.mark.parametrize("executor", [Odd(lambda *_: 3), lambda: None])
def test_what_is_no_executor_is_told_as_such(executor: Any) -> None:
    with pytest.raises(InputError, match="executor: found .* wanted an executor"):
        list(study(executor=executor))


def test_a_class_of_executors_makes_them() -> None:
    assert len(list(study(executor=ThreadPoolExecutor, workers=2))) == 15


BEGUN = '{"case": "' + "0" * 64 + '", "money": [], "row": {}}'


@pytest.mark.parametrize("text", [
    '{"case": "my book", "note": "dear to me"}', '{"case": "0123', '{"kept": 1}', "{\n{",
    BEGUN.replace(": ", ":"), '{"case": "' + "0" * 63 + "g", BEGUN + "\n" + BEGUN.upper(),
])  # fmt: skip
def test_no_file_but_a_journal_is_cut_or_written_to(text: str, tmp_path: Path) -> None:
    path = tmp_path / "run.jsonl"
    cut = text == '{"case": "0123'  # it may well be what a kill left
    path.write_text(text)
    if cut:
        next(study(journal=path))
        return
    with pytest.raises(InputError, match="a line that a study wrote"):
        next(study(journal=path))
    assert path.read_text() == text


@pytest.mark.parametrize("path", ["/dev/null", "a\0b", 3, None.__class__])
def test_a_journal_that_is_no_file_is_refused(path: Any) -> None:
    """Once a device was opened: /dev/full was read without end, until memory was."""
    with pytest.raises(InputError, match="journal: found .* wanted a file that can be written"):
        next(study(journal=path))


@pytest.mark.skipif(not hasattr(os, "fork"), reason="nothing is forked here")
def test_a_process_forked_meanwhile_does_not_hold_a_journal(tmp_path: Path) -> None:
    """Workers of an executor handed in are forked while the journal is open, and outlive it."""
    ready, over = os.pipe(), os.pipe()
    rows = study(journal=tmp_path / "run.jsonl")
    next(rows)
    child = os.fork()
    if not child:
        os.close(over[1])
        os.write(ready[1], b"1")
        os.read(over[0], 1)
        os._exit(0)
    os.read(ready[0], 1)
    rows.close()  # type: ignore[attr-defined]
    try:
        assert next(study(journal=tmp_path / "run.jsonl"))["case"] == 0
    finally:
        os.close(over[1])
        os.waitpid(child, 0)
