"""The benchmark's command: what it prints, what it finds wrong, and folders it cannot use."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

from benchmarks.cutting import main
from cutting.jobs import jobs_in
from cutting.made import KINDS
from cutting.measured import Effort, rows_of
from cutting.table import over, per_cent_told, spread
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Task

OPEN = Path(__file__).parents[1] / "reference" / "cutting"
JOBS = jobs_in(OPEN)

#: Two pieces of 50 and four of 30, from lengths of 100 at 10 and 60 at 7, no kerf. By hand: 220
#: wanted; 100 + 60 + 60 hold it exactly (50 + 50, 30 + 30 twice) at 24, and nothing of 220 or
#: more is cheaper: 3 x 100 is 30, 2 x 100 + 60 is 27, 100 + 2 x 60 is 24, 4 x 60 is 28. First
#: fit with the longest: 50 + 50, 30 x 3, 30: 30, and 27 with a shorter one for the last piece.
#: Four of 60 hold 50, 50, 30 + 30 twice: 28.
PIECES: dict[str, Any] = {
    "name": "by-hand",
    "kind": "cut1d",
    "kerf": 0,
    "trim_per_end": 0,
    "stocks": [
        {"length": 100, "cost": 10, "available": None},
        {"length": 60, "cost": 7, "available": None},
    ],
    "pieces": [{"length": 50, "count": 2}, {"length": 30, "count": 4}],
    "best_known": 24,
    "lower_bound": 24.0,
    "baselines": {"by eye": 27, "none": None},
}
#: Two rows of 100 on supports every 25, from lengths of 60 at 7: each cut in two at 50 as both
#: may joint there, four lengths, 28 and 2 joints at 1.
ROWS: dict[str, Any] = {
    "name": "rows",
    "kind": "joint",
    "kerf": 0,
    "trim_per_end": 0,
    "stocks": [{"length": 60, "cost": 7, "available": None}],
    "rows": {"count": 2, "x0": 0, "x1": 100},
    "joist_centres": [25, 50, 75],
    "joint_gap": 0,
    "min_bays_per_piece": 1,
    "stagger_bays": 0,
    "min_edge_to_joist": 10,
    "joint_cost": 1,
    "objective": "purchase + joint_cost * joints",
}


@pytest.fixture
def folder(tmp_path: Path) -> Callable[..., str]:
    """Return what writes documents to a folder and tells its name."""

    def write(*documents: Any) -> str:
        for i, document in enumerate(documents):
            text = document if isinstance(document, str) else json.dumps(document)
            (tmp_path / f"{i}.json").write_text(text, "utf-8")
        return str(tmp_path)

    return write


def test_a_table_of_hand_worked_jobs(folder: Callable[..., str], tmp_path: Path, capsys) -> None:
    rows = tmp_path / "rows.out"
    assert main([folder(PIECES, ROWS), "--json", str(rows), "--quick", "--proven"]) == 0
    told = {(row["name"], row["mode"]): row for row in json.loads(rows.read_text("utf-8"))}
    by_hand, jointed = told["by-hand", "proven"], told["rows", "proven"]
    assert (by_hand["plan"]["cost"], by_hand["plan"]["bound"], by_hand["proven"]) == (24, 24, True)
    costs = {name: baseline["cost"] for name, baseline in by_hand["baselines"].items()}
    assert costs == {"longest": 30, "single": 28, "multi": 27, "HiGHS": 24}
    assert (jointed["plan"]["cost"], jointed["known"]) == (30, 30)
    costs = {name: baseline["cost"] for name, baseline in jointed["baselines"].items()}
    assert costs == dict.fromkeys(("longest", "single", "multi", "exact", "HiGHS"), 30)
    out, err = capsys.readouterr()
    assert "2 of 2: rows" in err
    (line,) = [line for line in out.splitlines() if line.startswith("by-hand                p")]
    assert line.split()[2:7] == ["yes", "24", "0.000", "0.000", "1"]
    assert "25.00  16.67 12.50     -   0.000" in line
    assert "WRONG" not in out


def test_nothing_is_cut_short_and_no_line_is_wider_than_a_page(
    folder: Callable[..., str], capsys
) -> None:
    long = "a-name-that-no-column-is-wide-enough-for-" * 2
    dear = [{**stock, "cost": 10**9 * stock["cost"]} for stock in PIECES["stocks"]]
    dearer = {**PIECES, "name": long, "stocks": dear, "best_known": 1, "baselines": {}}
    del dearer["lower_bound"]
    assert main([folder(dearer)]) == 1
    out = capsys.readouterr().out
    assert long in out.splitlines()
    assert " 24000000000 " in out
    assert max(map(len, out.splitlines())) <= 120


# -- wrong plans -------------------------------------------------------------------------


def dearer(task: Task, **options: Any) -> CutPlan:
    """Buy the longest lengths only, and prove nothing."""
    longest = max(task.stock, key=lambda stock: stock.length)
    plan = solve(evolve(task, stock=(longest,)), **options)
    certificate = evolve(plan.proof.certificate, bound=0, vectors=())
    return evolve(plan, bound=0, proof=evolve(plan.proof, task=task, certificate=certificate))


def overdrawn(task: Task, **options: Any) -> CutPlan:
    """Leave a cut out and keep the cost."""
    plan = solve(task, **options)
    return evolve(plan, cuts=plan.cuts[1:])


def boastful(task: Task, **options: Any) -> CutPlan:
    """Claim a bound that the vectors do not support."""
    plan = solve(task, **options)
    certificate = evolve(plan.proof.certificate, bound=plan.objective, vectors=())
    return evolve(plan, bound=plan.objective, proof=evolve(plan.proof, certificate=certificate))


def raising(task: Task, **options: Any) -> CutPlan:
    if options:
        raise ZeroDivisionError("planted")
    return solve(task)


def refusing(task: Task, **options: Any) -> CutPlan:
    if options:
        raise NoPlan((), proven=True)
    return solve(task)


@pytest.mark.parametrize(
    ("cutter", "told"),
    [
        (dearer, "dearer than multi: 30 > 27"),
        (dearer, "dearer than HiGHS: 30 > 24"),
        (dearer, "dearer than the file's by eye: 30 > 27"),
        (dearer, "dearer than the best known: 30 > 24"),
        (overdrawn, "the plan breaks a rule"),
        (boastful, "the proof does not verify"),
        (raising, "raised ZeroDivisionError: planted"),
        (refusing, "no plan, but multi has one"),
    ],
)
def test_what_is_wrong_is_told_and_fails(
    folder: Callable[..., str], capsys, cutter: Any, told: str
) -> None:
    assert main([folder(PIECES)], cutter) == 1
    out = capsys.readouterr().out
    assert f"WRONG: {told}" in out
    assert "wrong                 1 by-hand" in out


def test_what_two_files_tell_that_cannot_both_be_right_is_told(folder, capsys) -> None:
    assert main([folder({**PIECES, "best_known": 23}, {**PIECES, "lower_bound": 25.5})]) == 1
    out = capsys.readouterr().out
    assert "WRONG: the bound 24 is above the best known: 23" in out
    assert "WRONG: cheaper than the bound the file tells: 24 < 25.5" in out


def test_quick_mode_is_held_to_what_searches_nothing(folder, capsys) -> None:
    assert main([folder(PIECES), "--quick"], dearer) == 1
    out = capsys.readouterr().out
    assert "WRONG: dearer than multi: 30 > 27" in out
    assert "dearer than HiGHS" not in out
    assert "dearer than the best known" not in out


def test_no_plan_for_certain_is_not_wrong(folder: Callable[..., str], capsys) -> None:
    """A piece longer than every length: no baseline has a plan either."""
    none = {**PIECES, "pieces": [{"length": 101, "count": 1}], "baselines": {}}
    none |= {"best_known": None, "lower_bound": None}
    assert main([folder(none)]) == 0
    assert "certain that there is none: 1" in capsys.readouterr().out


# -- baselines against the files' own ----------------------------------------------------


@pytest.mark.parametrize("job", [j for j in JOBS if j.kind == "cut1d"], ids=lambda job: job.name)
def test_first_fit_costs_what_others_found_it_to(job) -> None:
    def none(task: Task, **options: Any) -> CutPlan:  # noqa: ARG001
        raise NoPlan((), proven=False)

    (row,) = rows_of(job, "", ["proven"], Effort(solve=none, highs_seconds=0))
    assert row.baselines["longest"].cost == job.baselines["ffd_longest_only"]
    assert row.baselines["multi"].cost <= job.baselines["ffd_multi"]
    assert row.wrong == ("no plan was found: no plan found within the work limits: ",)


# -- folders and options -----------------------------------------------------------------


def test_a_hostile_folder_is_one_error_with_every_fault(folder: Callable[..., str], capsys) -> None:
    lacking = {key: PIECES[key] for key in ("kind", "stocks")}
    hostile = folder(
        "not JSON",
        lacking,
        {**PIECES, "kind": "joist"},
        [],
        "[" * 100_000,
        {**PIECES, "kerf": 1e99},
    )
    (Path(hostile) / "6.json").write_bytes(b"\xff\xfe")
    (Path(hostile) / "7.json").mkdir()
    assert main([hostile, f"{hostile}/nowhere"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    for told in (
        "0.json: ",
        "1.json: pieces: found",
        "1.json: kerf: found",
        "1.json: trim_per_end: found",
        "2.json: kind: found 'joist', wanted one of cut1d, joint",
        "3.json: whole file: found",
        "4.json: ",
        "5.json: kerf: found 1e+99",
        "6.json: ",
        "7.json: ",
        "nowhere: found",
    ):
        assert told in err, (told, err)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "name a folder"),
        (["--generate", "ship", "1", "1", "x"], "found 'ship', wanted one of cut1d"),
        (["--generate", "cut1d", "many", "1", "x"], "COUNT and SEED are whole numbers"),
        (["x", "--nodes", "0"], "--nodes"),
        (["x", "--nodes", "few"], "--nodes"),
    ],
)
def test_what_cannot_be_asked_is_told(words: list[str], told: str, capsys) -> None:
    with pytest.raises(SystemExit) as left:
        main(words)
    assert left.value.code == 2
    assert told in capsys.readouterr().err


def test_made_jobs_are_written_as_files_and_read_again(tmp_path: Path, capsys) -> None:
    for kind in KINDS:
        words = ["--generate", kind, "2", "5", str(tmp_path / kind)]
        assert main([*words, "--highs-seconds", "0"]) == 0
        read = jobs_in(tmp_path / kind)
        assert [job.task for job in read] == [KINDS[kind](seed).task for seed in (5, 6)]
    assert capsys.readouterr().out.strip() == ""


# -- figures -----------------------------------------------------------------------------


def test_spread_by_hand() -> None:
    """Of 1 to 20 the 95th of a hundred is the 19th."""
    told = spread(range(1, 21), "ms")
    assert told == "median 10.5, p95 19.0, most 20.0, mean 10.5, sum 210.0 ms"
    assert spread([3], "%", 2) == "median 3.00, p95 3.00, most 3.00, mean 3.00 %"


def test_what_is_not_nought_never_looks_like_it() -> None:
    assert per_cent_told(0.0) == "0.000"
    assert per_cent_told(0.0001) == "<.001"
    assert per_cent_told(-0.0001) == ">-.001"
    assert per_cent_told(None) == "-"
    assert over(110, 100) == pytest.approx(10)
    assert over(0, 0) == 0
    assert over(1, 0) == float("inf")
    assert over(1, None) is None
