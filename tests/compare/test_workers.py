"""Real workers: the same rows from processes, from a cluster, with a worker killed, resumed."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from compare.killers import DEADLY_MM, die, dying_once, one_rule, silent
from compare.sheds import STOCK, cases, study
from drylay.compare.compared import compare
from drylay.compare.processes import processes
from drylay.compare.study_model import Row

TESTS = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    """The study's rows planned here, with a rule that finds nothing."""
    return list(study(local_rules=one_rule(silent)))


def journalled(path: Path) -> list[bytes]:
    """A journal's lines, each of which must be another."""
    lines = path.read_bytes().splitlines()
    assert len(set(lines)) == len(lines)
    return lines


def test_two_processes_give_the_same_rows_though_one_is_killed(
    rows: list[Row], tmp_path: Path
) -> None:
    journal, flag = tmp_path / "run.jsonl", tmp_path / "killed"
    told = list(study(workers=2, local_rules=dying_once(flag), journal=journal))
    assert flag.exists()
    assert told == rows
    assert len(journalled(journal)) == len(rows)


def test_a_case_that_kills_each_worker_is_a_row_and_the_others_are_as_ever(
    rows: list[Row], tmp_path: Path
) -> None:
    journal, some = tmp_path / "run.jsonl", cases()[3:10:3]
    wanted = [{**row, "case": at} for at, row in enumerate(rows[3:10:3])]
    named = {"stock": STOCK, "mode": "quick", "journal": journal, "workers": 1}
    told = list(compare(some, executor=lambda: processes(1), local_rules=one_rule(die), **named))
    assert some[1].changes[0][1] == DEADLY_MM
    assert [row["outcome"] for row in told] == ["planned", "lost", "blocked"]
    assert told[1]["codes"] == "BrokenProcessPool"
    assert [told[0], told[2]] == [wanted[0], wanted[2]]
    # a lost row is not kept: with workers that live the study is whole
    assert list(compare(some, local_rules=one_rule(silent), **named)) == wanted
    assert len(journalled(journal)) == len(wanted)


def test_a_study_killed_whole_goes_on(tmp_path: Path) -> None:
    journal = tmp_path / "run.jsonl"
    program = [sys.executable, "-m", "compare.killed_study", str(journal)]
    done = subprocess.run(program, cwd=TESTS, check=False, capture_output=True)
    assert done.returncode == -signal.SIGKILL, done.stderr
    before = journalled(journal)
    assert len(before) == 5
    assert list(study(journal=journal)) == list(study())
    after = journalled(journal)
    assert after[:5] == before
    assert len(after) == 15


def test_a_cluster_gives_the_same_rows_though_a_worker_is_killed(
    rows: list[Row], tmp_path: Path
) -> None:
    import distributed  # of the extra `test`: where it is missing this fails, and is not skipped

    flag = tmp_path / "killed"
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=":0",
            local_directory=tmp_path,
        ) as cluster,
        distributed.Client(cluster) as client,
    ):  # fmt: skip
        executor = client.get_executor()
        told = list(study(executor=executor, workers=2, local_rules=dying_once(flag)))
    assert flag.exists()
    assert told == rows
