"""The reader of cutting jobs, held against plans that others worked out, and bad files."""

import json
from collections import Counter
from itertools import groupby, pairwise
from pathlib import Path
from typing import Any

import pytest

from cutting.jobs import Job, JobError, job_of, jobs_in
from cutting.rules import assert_a_line_is_legal, assert_sets_keep_apart, pieces_of
from drylay.cutting.model import Beside, Line

JOBS = jobs_in(Path(__file__).parents[1] / "reference" / "cutting")
JOINTED = [job for job in JOBS if job.kind == "joint"]


def joints_told(job: Job) -> list[list[tuple[int, ...]]]:
    """Return the joints a file tells, by set and line, as stations of the set.

    The file lists rows in order, the parts of a row one after another, and numbers joists from
    0 on; sets number them from 1 on.
    """
    told = iter(job.document["plan"]["joints_per_row"])
    rows = job.document["rows"]
    if isinstance(rows, dict):
        return [[tuple(next(told)) for _ in range(rows["count"])]]
    found: list[list[tuple[int, ...]]] = [[] for _ in job.task.lines]
    first = 0
    for row, run in groupby(rows):
        parts = len(row) if isinstance(row[0], list) else 1
        for _ in run:
            for part in range(first, first + parts):
                shift = job.task.lines[part].first_station - 1
                found[part].append(tuple(joist - shift for joist in next(told)))
        first += parts
    assert next(told, None) is None
    return found


@pytest.mark.parametrize("job", JOINTED, ids=lambda job: job.name)
def test_the_plan_a_file_tells_is_legal_and_costs_what_it_says(job: Job) -> None:
    task, told = job.task, joints_told(job)
    wanted: Counter[int] = Counter()
    for line, lines in zip(task.lines, told, strict=True):
        assert len(lines) == line.count
        for joints in lines:
            assert_a_line_is_legal(line, joints)
            wanted.update(pieces_of(line, joints))
        for one, other in pairwise(lines):
            assert all(abs(a - b) >= line.stagger for a in one for b in other)
    assert_sets_keep_apart(task, told)
    joint_count = sum(len(joints) for lines in told for joints in lines)
    cost = assert_boards_hold(job, job.document["plan"]["buy"], wanted)
    assert cost + task.joint_price * joint_count == job.best_known


@pytest.mark.parametrize("job", [j for j in JOBS if j.kind == "cut1d"], ids=lambda job: job.name)
def test_the_purchase_a_file_tells_covers_its_pieces(job: Job) -> None:
    wanted = Counter({piece.length: piece.count for piece in job.task.pieces})
    assert assert_boards_hold(job, job.document["plan"], wanted) == job.best_known


def assert_boards_hold(job: Job, boards: list[dict[str, Any]], wanted: Counter[int]) -> int:
    """Return what boards cost; they are within the limits and hold what is wanted."""
    stock = {s.length: s for s in job.task.stock}
    sawn: Counter[int] = Counter()
    bought: Counter[int] = Counter()
    for board in boards:
        kind = stock[board["stock_length"]]
        pieces = sum(count for _, count in board["cuts"])
        used = sum(length * count for length, count in board["cuts"])
        assert used + job.task.kerf * (pieces - 1) <= kind.length - 2 * kind.trim
        bought[kind.length] += board["boards"]
        for length, count in board["cuts"]:
            sawn[length] += count * board["boards"]
    assert sawn >= wanted
    limits = {length: s.limit for length, s in stock.items()}
    assert all(limits[n] is None or count <= limits[n] for n, count in bought.items())
    return sum(stock[length].price * count for length, count in bought.items())


SMALL: dict[str, Any] = {
    "name": "small",
    "kind": "joint",
    "kerf": 3,
    "trim_per_end": 5,
    "stocks": [{"length": 400, "cost": 70, "available": None}],
    "rows": [[0, 700], [0, 700], [[0, 250], [430, 700]], [0, 610]],
    "joist_centres": [2, 100, 200, 300, 400, 500, 600, 698],
    "joint_gap": 2,
    "min_bays_per_piece": 2,
    "stagger_bays": 1,
    "min_edge_to_joist": 20,
    "joint_cost": 4,
}


def test_runs_and_parts_are_sets_that_lie_beside_those_next_to_them() -> None:
    """By hand: joist 250 - 230 = 20 is kept, 698 is 2 from the end, 600 is 10 from 610's."""
    task = job_of(SMALL).task
    rules = {"joint_gap": 2, "least_bays": 2, "stagger": 1}
    assert task.lines == (
        Line(count=2, start=0, end=700, stations=(0, 100, 200, 300, 400, 500, 600, 700),
             first_station=1, **rules),
        Line(count=1, start=0, end=250, stations=(0, 100, 200, 250), first_station=1, **rules),
        Line(count=1, start=430, end=700, stations=(430, 500, 600, 700), first_station=5, **rules),
        Line(count=1, start=0, end=610, stations=(0, 100, 200, 300, 400, 500, 610),
             first_station=1, **rules),
    )  # fmt: skip
    assert task.beside == (
        Beside(one=0, other=1),
        Beside(one=0, other=2),
        Beside(one=1, other=3),
        Beside(one=2, other=3),
    )
    assert (task.kerf, task.joint_price, task.stock[0].trim) == (3, 4, 5)


def test_rows_told_by_count_or_one_by_one_are_the_same() -> None:
    counted = job_of({**SMALL, "rows": {"count": 3, "x0": 0, "x1": 700}}).task
    assert counted == job_of({**SMALL, "rows": [[0, 700]] * 3}).task
    assert counted.lines[0].count == 3
    assert counted.beside == ()


def test_parts_of_neighbours_that_share_no_stretch_do_not_lie_beside() -> None:
    rows = [[[0, 250], [430, 700]], [[0, 200], [430, 700]]]
    beside = job_of({**SMALL, "rows": rows}).task.beside
    assert beside == (Beside(one=0, other=2), Beside(one=1, other=3))


def test_a_row_shorter_than_its_edges_keeps_no_joist() -> None:
    (line,) = job_of({**SMALL, "rows": [[90, 110]]}).task.lines
    assert line.stations == (90, 110)


def test_every_fault_of_a_file_is_told() -> None:
    bad = {
        **SMALL,
        "kind": "joint",
        "kerf": "3",
        "stocks": [{"length": 0, "cost": 70, "available": -1}, 5],
        "rows": [[0, 700], [700, 0], [[0, 250], [240, 700]], 3],
        "joist_centres": [2, 100, 100],
        "stagger_bays": True,
        "best_known": 1.5,
        "lower_bound": "none",
        "name": "two\nlines",
        "objective": "purchase",
        "baselines": {"by hand": "70", "none": None},
    }
    del bad["joint_cost"]
    with pytest.raises(JobError) as told:
        job_of(bad, file="bad.json")
    assert [fault.path for fault in told.value.faults] == [
        "joist_centres", "stagger_bays", "rows[1]", "rows[2]", "rows[3]", "joint_cost",
        "stocks[0].length", "stocks[0].available", "stocks[1]", "kerf", "name", "objective",
        "best_known", "baselines.by hand", "lower_bound",
    ]  # fmt: skip
    assert "bad.json: kerf: found '3', wanted a whole number of at least 0" in str(told.value)


@pytest.mark.parametrize("document", [[], {}, {"kind": "cut1d"}, {"kind": "joint", "rows": []}])
def test_what_is_no_job_is_refused(document: Any) -> None:
    with pytest.raises(JobError):
        job_of(document)


def test_a_folder_tells_the_faults_of_all_its_files(tmp_path: Path) -> None:
    (tmp_path / "a.json").write_text("{", "utf-8")
    (tmp_path / "b.json").write_text(json.dumps({**SMALL, "kerf": -1}), "utf-8")
    (tmp_path / "c.json").write_text(json.dumps(SMALL), "utf-8")
    with pytest.raises(JobError) as told:
        jobs_in(tmp_path)
    assert [str(f).split(":")[0] for f in told.value.faults] == ["a.json", "b.json"]


def test_a_folder_without_jobs_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(JobError, match=r"no \*\.json"):
        jobs_in(tmp_path)
