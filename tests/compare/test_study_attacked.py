"""Studies under attack: what a hostile caller, executor, plugin or file did once, and must not."""

import json
import os
import time
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from datetime import date
from decimal import Decimal
from itertools import count
from pathlib import Path
from threading import Thread
from typing import Any

import numpy as np
import pytest

from compare.sheds import SHED, STOCK, study
from compare.study_made import noun
from compare.test_flight import DESK, forget, numbered, work
from drylay.brief.codec import _known_paths
from drylay.brief.reader import read_brief
from drylay.compare import axes
from drylay.compare.cases import vary
from drylay.compare.compared import compare
from drylay.compare.flight import AHEAD, MOST_IN_CHUNK, Flight, fly
from drylay.compare.plain import FIGURES_TOO
from drylay.compare.rows_file import write_rows
from drylay.compare.study_errors import StudyStopped
from drylay.compare.study_file import read_study
from drylay.compare.study_model import Case, Row
from drylay.compare.study_row import own_columns
from drylay.compare.study_run import run_study
from drylay.compare.terms import terms_digest, terms_of
from drylay.errors import InputError
from drylay.plugins.model import BasisSet, InstalledBasis, Origin
from drylay.strength.model import DesignBasis


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
    """Once nothing was sent while so many rows waited, and all of them for the lost one."""
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
    with pytest.raises(InputError, match=r"executor: found .* wanted an executor"):
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
    with pytest.raises(InputError, match=r"journal: found .* wanted a file that can be written"):
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


class Itself:
    """A value that is its own number."""

    def item(self) -> "Itself":
        return self


ENDLESS: list[object] = []
ENDLESS.append(ENDLESS)
BRIEF = read_brief(SHED)
ALONG = "cover.along_mm"


@pytest.mark.parametrize("value", [
    10**5000, ENDLESS, Itself(), Decimal("1E+99999999"), Decimal("1E-99999999"), np.array([1, 2]),
    np.longdouble(2400), np.datetime64("NaT"), {1}, b"x", 1j,
], ids=type)  # fmt: skip
def test_a_value_that_no_brief_could_hold_is_a_fault(value: Any) -> None:
    with pytest.raises(InputError) as told:
        vary(BRIEF, {ALONG: [2400, value], "made_of": {"a": {"board.run": value}}})
    assert [fault.path for fault in told.value.faults][:1] == [f"{ALONG}[1]"]
    assert len(told.value.faults) == 2


@pytest.mark.parametrize(("named", "path"), [
    ({"values": {ALONG: range(10**30)}}, ALONG), ({"values": {ALONG: count()}}, ALONG),
    ({"values": {ALONG: {1, 2}}}, ALONG), ({"values": 10**5000}, "values"),
    ({"values": {ALONG: 10**5000}}, ALONG), ({"how": 10**5000}, "how"),
    ({"how": np.array(["zip", "product"])}, "how"), ({"seed": 10**5000}, "seed"),
    ({"brief": SHED}, "brief"), ({"values": {"": {"a": {}}}}, 'values[""]'),
    ({"values": {"a\r\nb": {"a": {}}}}, 'values["a\\r\\nb"]'),
], ids=lambda _: "wrong")  # fmt: skip
def test_what_cannot_vary_is_a_fault(
    named: dict[str, Any], path: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(axes, "MOST_VALUES", 1000)
    with pytest.raises(InputError) as told:
        vary(**{"brief": BRIEF, "values": {ALONG: [1]}, **named})
    assert [fault.path for fault in told.value.faults] == [path]


def test_values_of_numpy_are_those_of_python_in_every_row(tmp_path: Path) -> None:
    """Once the row of a study planned here held numpy's, which no CSV file took."""
    along_mm = np.array([1800.5, 1920.0])
    rows = list(compare(vary(BRIEF, {ALONG: along_mm}), stock=STOCK, mode="quick"))
    assert {type(row[ALONG]) for row in rows} == {float}
    assert write_rows(rows, tmp_path / "rows.csv") == 2


def test_a_name_of_a_column_is_no_formula_and_no_line(tmp_path: Path) -> None:
    """Once a name with a line end in it left a part of itself in every row after the first."""
    rows: list[Row] = [{"=1\r\nb": 1}, {"=1\r\nb": 2}]
    write_rows(rows, tmp_path / "rows.csv")
    assert (tmp_path / "rows.csv").read_bytes() == b'"\'=1\r\nb"\r\n1\r\n2\r\n'


@pytest.mark.parametrize("figure", [float("nan"), Decimal("NaN"), Decimal("inf"), date.min, [1]])
@pytest.mark.parametrize("ending", ["csv", "jsonl"])
def test_a_figure_that_no_file_holds_is_a_fault(figure: Any, ending: str, tmp_path: Path) -> None:
    path = tmp_path / f"rows.{ending}"
    with pytest.raises(InputError, match=r"rows\[1\].a: found"):
        write_rows([{"a": 1}, {"a": figure}], path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("rows", "path"), [
    ([], 3), ([], "a\0.csv"), (3, "rows.csv"), (["ab"], "rows.csv"), ([{3: 4}], "rows.csv"),
])  # fmt: skip
def test_rows_and_their_file_are_what_they_are_to_be(
    rows: Any, path: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputError):
        write_rows(rows, path)


def asked(*ask: dict[str, object], **more: object) -> dict[str, object]:
    return {"title": "A study", "brief": SHED, "stock": STOCK, "mode": "quick",
            "vary": {ALONG: [1800, 2000]}, "ask": list(ask), **more}  # fmt: skip


AREA = {"what": "pareto", "aims": {"total": "least", "cover_m2": "most"}}


@pytest.mark.parametrize("name", ["rows", "study", "con", "lpt1"])
def test_no_answer_takes_the_name_of_another_file(name: str) -> None:
    """Once an answer by the name of rows was written over the study's rows."""
    with pytest.raises(InputError, match=r"ask\[0\]: found the name"):
        read_study(asked({**AREA, "name": name}))


def test_a_question_without_an_answer_takes_no_other_away(tmp_path: Path) -> None:
    wrong = {**AREA, "where": {"rows": 10**5000}}
    told_of = {"what": "side_by_side", "by": ALONG, "where": {"total": -1.5}}
    with pytest.raises(InputError) as told:
        run_study(read_study(asked(wrong, AREA, told_of)), out=tmp_path)
    assert [fault.path for fault in told.value.faults] == ["pareto-1.where", "side-by-side-3.where"]
    assert {"pareto-2.csv", "rows.csv", "study.txt"} <= {path.name for path in tmp_path.iterdir()}


def test_a_span_of_no_number_is_a_fault() -> None:
    span = {"from": float("nan"), "to": 1, "by": 1}
    with pytest.raises(InputError, match="wanted numbers"):
        read_study(asked(vary={ALONG: span}))


def test_a_folder_that_cannot_be_written_to_is_told(tmp_path: Path) -> None:
    (tmp_path / "study.txt").mkdir()
    for out in (tmp_path, "a\0b", 3):
        with pytest.raises(InputError, match="out: found"):
            run_study(read_study(asked()), out=out)  # type: ignore[arg-type]


def test_what_was_put_in_stands_beside_the_figure_of_its_name() -> None:
    """Once the figure took its place: of a refused brief nothing told which title it had."""
    assert set(_known_paths()) & own_columns() == FIGURES_TOO
    rows = list(compare(vary(BRIEF, {"title": ["a", 3]}), stock=STOCK, mode="quick"))
    assert [(row["brief.title"], row["title"]) for row in rows] == [("a", "a"), (3, None)]


@pytest.mark.parametrize("made", [
    {"named": (("case", "x"),)}, {"named": (("outcome", "o"),)}, {"named": 3},
    {"named": ((1, "x"),)}, {"named": (("x", {1}),)}, {"changes": ((ALONG, {1}),)},
    {"changes": ((3, 4),)}, {"changes": {ALONG: 4}}, {"brief": None},
])  # fmt: skip
@pytest.mark.parametrize("kind", [list, iter])
def test_a_case_made_by_hand_is_looked_at(made: dict[str, Any], kind: Any) -> None:
    """Once a case named "case" took the place of its number."""
    with pytest.raises(InputError, match=r"cases\[1\]\.\w+: found"):
        list(compare(kind([BRIEF, Case(**{"brief": BRIEF, **made})]), stock=STOCK, mode="quick"))


def test_terms_do_not_hang_on_where_a_function_lies_in_memory() -> None:
    """Once no worker, and no later run, had the digests of cases that a journal knows rows by."""

    def digest(answer: object) -> str:
        basis = noun(DesignBasis, id="b", title="B", sharings=(), fixings=(), loads=answer)
        held = BasisSet(bases=(InstalledBasis(basis=basis, origin=Origin(plugin="b")),))
        return terms_digest(
            terms_of(stock=STOCK, families=None, local_rules=None, bases=held, mode="quick",
                     rate_ratio=0.0, hour_price=None)
        )  # fmt: skip

    class Answer:
        """What answers, with the words that Python has for it."""

    one, other = Answer(), Answer()
    assert repr(one) != repr(other)
    assert digest(one) == digest(other)


@pytest.mark.parametrize("name", ["families", "local_rules", "bases", "cancel", "progress"])
def test_what_a_study_is_handed_is_of_its_kind(name: str) -> None:
    with pytest.raises(InputError, match=f"{name}: found 3"):
        study(**{name: 3})
