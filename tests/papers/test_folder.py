"""The folder: whole or not at all, and never at the cost of somebody's own files."""

import ast
import os
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.papers import writing
from drylay.papers.writing import CONTENTS, contents, write_folder
from plan.made import example
from plan.sample import blocked_plan, sample_plan

PLAN = sample_plan()
OLD = {"a.txt": b"old", "b.txt": b"old too"}
NEW = {"a.txt": b"new", "c.txt": b"newer"}


def held(folder: Path) -> dict[str, bytes]:
    return {place.name: place.read_bytes() for place in folder.iterdir() if place.name != CONTENTS}


def test_a_folder_holds_the_papers_byte_for_byte(tmp_path: Path) -> None:
    folder = drylay.write_papers(PLAN, tmp_path / "some" / "deck")
    assert held(folder) == drylay.papers(PLAN)
    assert (folder / CONTENTS).read_bytes() == contents(drylay.papers(PLAN))


def test_papers_are_the_same_bytes_twice() -> None:
    assert drylay.papers(PLAN) == drylay.papers(evolve(PLAN))


def test_only_some_papers() -> None:
    assert list(drylay.papers(PLAN, only=["frame.svg"])) == ["frame.svg"]
    assert list(drylay.papers(PLAN, only="summary.txt")) == ["summary.txt"]
    assert list(drylay.papers(PLAN, only=iter(["plan.json", "plan.json"]))) == ["plan.json"]
    assert drylay.papers(PLAN, only=[]) == {}


def test_unknown_papers_are_refused_together_each_with_the_nearest() -> None:
    with pytest.raises(drylay.PapersError) as caught:
        drylay.papers(PLAN, only=["frame.sgv", "plan.json", "nothing like it"])
    first, second = caught.value.faults
    assert (first.found, first.nearest) == ("'frame.sgv'", "frame.svg")
    assert (second.found, second.nearest) == ("'nothing like it'", "")


def test_a_blocked_plan_has_no_drawing_to_ask_for() -> None:
    assert set(drylay.papers(blocked_plan())) == {"plan.json", "summary.txt"}
    with pytest.raises(drylay.PapersError, match="which a blocked plan has not"):
        drylay.papers(blocked_plan(), only=["frame.svg"])


def test_the_proof_slip_runs_with_bare_python_where_nothing_else_is(tmp_path: Path) -> None:
    folder = drylay.write_papers(example("garden"), tmp_path / "deck")
    done = subprocess.run(
        [sys.executable, "-I", "-S", "check_proof.py"],
        cwd=folder, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "holds" in done.stdout
    tree = ast.parse((folder / "check_proof.py").read_text(encoding="utf-8"))
    seen = {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}
    assert not any(name.startswith("drylay") for name in seen)


@pytest.mark.parametrize(("factor", "places"), [(1, "0"), (100, "2"), (1000, "3")])
def test_the_slip_prints_money_in_the_plans_own_digits(factor: int, places: str) -> None:
    first, *_ = PLAN.buying.purchases
    proof = evolve(first.proof, objective=7 * factor)
    only = evolve(first, objective=Decimal(7), proof=proof)
    plan = evolve(PLAN, buying=evolve(PLAN.buying, purchases=(only,)))
    slip = drylay.papers(plan, only=["proof.json"])["proof.json"].decode()
    assert f'"places": {places}' in slip


def test_a_proof_of_other_money_is_taken_as_cents() -> None:
    first, *_ = PLAN.buying.purchases
    plan = evolve(
        PLAN, buying=evolve(PLAN.buying, purchases=(evolve(first, objective=Decimal(3)),))
    )
    assert b'"places": 2' in drylay.papers(plan, only=["proof.json"])["proof.json"]


def test_a_folder_written_before_is_replaced_whole(tmp_path: Path) -> None:
    write_folder(OLD, tmp_path / "deck")
    write_folder(NEW, tmp_path / "deck")
    assert held(tmp_path / "deck") == NEW
    assert [place.name for place in tmp_path.iterdir()] == ["deck"]


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "deck").mkdir()
    assert held(write_folder(NEW, tmp_path / "deck")) == NEW
    assert [place.name for place in tmp_path.iterdir()] == ["deck"]


def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    write_folder(OLD, tmp_path / "real")
    (tmp_path / "deck").symlink_to(tmp_path / "real")
    write_folder(NEW, tmp_path / "deck")
    assert (tmp_path / "deck").is_symlink()
    assert held(tmp_path / "real") == NEW


@pytest.mark.parametrize(
    "spoil",
    [
        lambda folder: (folder / "mine.txt").write_text("x"),
        lambda folder: (folder / "a.txt").write_text("edited"),
        lambda folder: (folder / "photos").mkdir(),
        lambda folder: (folder / "a.txt").unlink() or (folder / "a.txt").symlink_to("/dev/null"),
        lambda folder: (folder / CONTENTS).unlink(),
        lambda folder: (folder / CONTENTS).write_text("nonsense"),
        lambda folder: (folder / CONTENTS).write_bytes(b"\xff\xfe"),
    ],
)
def test_somebodys_own_files_are_never_replaced(
    tmp_path: Path, spoil: Callable[[Path], object]
) -> None:
    folder = write_folder(OLD, tmp_path / "deck")
    spoil(folder)
    before = sorted(place.name for place in folder.iterdir())
    with pytest.raises(drylay.PapersError):
        write_folder(NEW, folder)
    assert sorted(place.name for place in folder.iterdir()) == before
    assert [place.name for place in tmp_path.iterdir()] == ["deck"]


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "deck").write_text("x")
    with pytest.raises(drylay.PapersError, match="a file"):
        write_folder(NEW, tmp_path / "deck")


class Killed(BaseException):
    """Stands for a run that ends at this moment."""


def kill_at(step: int, count: list[int], monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the step-th call that touches the disk end the run."""

    def counted(real: Callable[..., object]) -> Callable[..., object]:
        def call(*args: object, **more: object) -> object:
            count[0] += 1
            if count[0] == step:
                raise Killed
            return real(*args, **more)

        return call

    monkeypatch.setattr(Path, "mkdir", counted(Path.mkdir))
    monkeypatch.setattr(Path, "open", counted(Path.open))
    monkeypatch.setattr(Path, "rename", counted(Path.rename))
    monkeypatch.setattr(os, "fsync", counted(os.fsync))
    monkeypatch.setattr(writing, "exchange", counted(writing.exchange))


@pytest.mark.parametrize("can_swap", [True, False])
@pytest.mark.parametrize("there", [True, False])
def test_a_run_killed_at_any_step_leaves_the_old_folder_or_the_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, can_swap: bool, there: bool
) -> None:
    if not can_swap:
        monkeypatch.setattr(writing, "exchange", lambda one, other: False)  # noqa: ARG005
    for step in range(1, 40):
        home = tmp_path / str(step)
        home.mkdir()
        if there:
            write_folder(OLD, home / "deck")
        count = [0]
        with monkeypatch.context() as patch:
            kill_at(step, count, patch)
            with suppress(Killed):
                write_folder(NEW, home / "deck")
        left = held(home / "deck") if (home / "deck").exists() else None
        assert left in ((OLD if there else None), NEW), step
        if count[0] < step:  # the run came to its end before that step
            assert left == NEW
            assert step > 5
            return
    pytest.fail("the run never came to its end")


def test_without_a_swap_two_renamings_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "another")
    write_folder(OLD, tmp_path / "deck")
    write_folder(NEW, tmp_path / "deck")
    assert held(tmp_path / "deck") == NEW
    assert [place.name for place in tmp_path.iterdir()] == ["deck"]


def test_an_old_library_cannot_swap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(writing.ctypes, "CDLL", lambda name: object())  # noqa: ARG005
    assert not writing.exchange(tmp_path, tmp_path)


def test_what_cannot_be_swapped_is_said_so(tmp_path: Path) -> None:
    assert not writing.exchange(tmp_path / "none", tmp_path / "neither")


def test_a_file_that_came_in_between_is_left_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_folder(OLD, tmp_path / "deck")
    real = writing._fill

    def fill(fresh: Path, files: dict[str, bytes]) -> None:
        real(fresh, files)
        (folder / "mine.txt").write_text("x")

    monkeypatch.setattr(writing, "_fill", fill)
    write_folder(NEW, folder)
    assert held(folder) == NEW
    (kept,) = tmp_path.glob(".deck.*/mine.txt")
    assert kept.read_text() == "x"


def test_a_plan_is_shown_as_drawing_and_as_text() -> None:
    shown = drylay.show(PLAN)
    assert (shown._repr_svg_() or "").startswith("<svg")
    assert str(shown).startswith("Sample deck")
    assert shown._repr_html_().startswith("<div><svg")
