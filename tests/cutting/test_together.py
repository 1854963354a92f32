"""Jobs as one order: never dearer, one proof, every piece for one job."""

from collections import Counter
from random import Random

import pytest
from attrs import evolve

from cutting.brute import least_cost
from cutting.rules import assert_keeps_the_rules
from cutting.test_saw_list import places_wanted
from cutting.tiny import one_set
from drylay.cutting import together
from drylay.cutting.engine import solve
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.model import Beside, Line, Piece, Stock, Task
from drylay.cutting.saw_list import saw_list
from drylay.cutting.together import cut_together, merged
from drylay.cutting.verify import verify

STOCK = (Stock(name="a", length=100, price=10), Stock(name="b", length=60, price=7))


def pieces(**counts: int) -> tuple[Piece, ...]:
    return tuple(Piece(length=int(length[1:]), count=n) for length, n in counts.items())


def tiny_jobs(seed: int) -> dict[str, Task]:
    rng = Random(seed)
    first = one_set(rng)
    few = tuple(evolve(line, count=min(line.count, 2)) for line in first.lines)
    other = Task(
        stock=first.stock,
        kerf=first.kerf,
        joint_price=first.joint_price,
        pieces=tuple(Piece(length=rng.randint(20, 85), count=rng.randint(1, 2)) for _ in "ab"),
    )
    return {"first": evolve(first, lines=few), "second": other}


@pytest.mark.parametrize("seed", range(40))
def test_one_order_is_never_dearer_and_proven(seed: int) -> None:
    jobs = tiny_jobs(seed)
    least = least_cost(merged(jobs))
    if least is None:
        with pytest.raises(NoPlan):
            cut_together(jobs)
        return
    found = cut_together(jobs, alone="proven")
    assert_keeps_the_rules(merged(jobs), found.plan)
    assert verify(found.plan.proof).holds
    assert found.plan.bound <= least == found.plan.objective
    assert set(places_wanted(found.plan).values()) <= {1}
    if found.apart is not None:
        assert found.apart == sum(job.alone.objective for job in found.jobs if job.alone)
        assert found.saving == found.apart - found.plan.objective >= 0
        assert 0 <= found.least_saving <= found.saving <= found.most_saving
    limited = any(stock.limit for stock in jobs["first"].stock)
    if found.apart is not None and not limited:
        assert found.apart == sum(least_cost(task) for task in jobs.values())


@pytest.mark.parametrize("seed", range(40))
def test_every_piece_is_for_the_job_that_wants_it(seed: int) -> None:
    jobs = tiny_jobs(seed)
    try:
        found = cut_together(jobs)
    except NoPlan:
        return
    got = Counter(
        (place.job, length)
        for board in found.sawn
        for length, place in zip(board.pieces, board.places, strict=True)
    )
    wanted: Counter = Counter()
    for job in found.jobs:
        own = evolve(
            found.plan,
            joints=found.plan.joints[job.first_lines : job.first_lines + job.lines],
            proof=evolve(found.plan.proof, task=jobs[job.name]),
        )
        wanted.update({(job.name, length): 0 for *_, length in places_wanted(own)})
        for *_, length in places_wanted(own).elements():
            wanted[job.name, length] += 1
    assert got == wanted
    told = saw_list(found)
    assert [(b.stock, tuple(p.place for p in b.pieces)) for b in told.boards] == [
        (b.stock, b.places) for b in found.sawn
    ]


def test_what_two_jobs_spare_by_hand() -> None:
    jobs = {
        "gate": Task(stock=STOCK, kerf=0, pieces=pieces(_70=1)),
        "shelf": Task(stock=STOCK, kerf=0, pieces=pieces(_30=1)),
    }
    found = cut_together(jobs, alone="proven")
    # 10 for the 70, 7 for the 30; together one board of 100
    assert (found.apart, found.plan.objective, found.saving) == (17, 10, 7)
    assert (found.least_saving, found.most_saving) == (7, 7)
    assert [place.job for place in found.sawn[0].places] == ["gate", "shelf"]


def test_jobs_one_by_one_share_what_is_limited() -> None:
    shed = Stock(name="shed", length=50, price=0, limit=1)
    one = Task(stock=(*STOCK, shed), kerf=0, pieces=pieces(_50=1))
    found = cut_together({"one": one, "other": one}, alone="proven")
    # the first takes what is in the shed, the second buys a 60: no plan is cheaper together
    assert (found.apart, found.plan.objective, found.saving) == (7, 7, 0)


def test_a_job_that_is_left_too_little_has_no_cost_of_its_own() -> None:
    stock = (Stock(name="a", length=100, price=10, limit=2),)
    jobs = {
        "one": Task(stock=stock, kerf=0, pieces=pieces(_60=2)),
        "other": Task(stock=stock, kerf=0, pieces=pieces(_40=2)),
    }
    found = cut_together(jobs)
    assert found.plan.objective == 20
    assert found.jobs[1].alone is None
    assert (found.apart, found.saving, found.least_saving, found.most_saving) == (None,) * 4


def test_lines_and_neighbours_keep_their_numbers() -> None:
    line = Line(count=1, start=0, end=60, stations=(0, 30, 60))
    beside = (Beside(one=0, other=1),)
    one = Task(stock=STOCK, kerf=0, lines=(line, line), beside=beside)
    task = merged({"one": one, "two": one, "three": evolve(one, beside=())})
    assert len(task.lines) == 6
    assert task.beside == (Beside(one=0, other=1), Beside(one=2, other=3))


def test_a_whole_order_that_found_less_is_replaced_by_the_single_plans(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    jobs = {
        "gate": Task(stock=STOCK, kerf=0, pieces=pieces(_50=1)),
        "shelf": Task(stock=STOCK, kerf=0, pieces=pieces(_60=1)),
    }

    def poor(task: Task, **how: object):
        plan = solve(task, **how)  # type: ignore[arg-type]
        if len(task.pieces) < 2:
            return plan
        dear = tuple(evolve(cut, stock="a") for cut in plan.cuts)
        proof = evolve(plan.proof, objective=20)
        return evolve(plan, cuts=dear, cost=20, objective=20, proof=proof)

    monkeypatch.setattr(together, "solve", poor)
    found = cut_together(jobs)
    assert (found.plan.objective, found.saving) == (14, 0)
    assert_keeps_the_rules(merged(jobs), found.plan)
    assert verify(found.plan.proof).holds


def test_everything_jobs_do_not_share_is_told_at_once() -> None:
    jobs = {
        "one": Task(stock=STOCK, kerf=0),
        "same": Task(stock=STOCK[::-1], kerf=0),
        "two": Task(stock=STOCK[:1], kerf=1, joint_price=2, pieces=pieces(_0=1)),
    }
    with pytest.raises(CutTaskError) as caught:
        cut_together(jobs)
    assert [fault.path for fault in caught.value.faults] == [
        "jobs['two'].stock",
        "jobs['two'].kerf",
        "jobs['two'].joint_price",
        "jobs['two'].pieces[0].length",
    ]
    with pytest.raises(CutTaskError, match="jobs"):
        cut_together({})
