"""The frontier against every purchase there is, on tiny decks."""

from itertools import pairwise
from random import Random
from threading import Event

import pytest
from attrs import evolve

from cutting import brute
from cutting.rules import assert_keeps_the_rules
from cutting.tiny import one_set
from drylay.cutting import frontier as frontier_of
from drylay.cutting.engine import solve
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.frontier import frontier
from drylay.cutting.model import CutPlan, Line, Piece, Stock, Task
from drylay.cutting.uses_model import FrontierPoint
from drylay.cutting.verify import verify
from drylay.errors import Cancelled


def purchases(task: Task) -> dict[int, int]:
    """Return the least purchase of each number of joints, every sequence of lines tried."""
    stock = tuple((s.length - 2 * s.trim, s.price) for s in task.stock)
    limits = tuple(-1 if s.limit is None else s.limit for s in task.stock)
    cut = brute._cutter(stock, task.kerf)
    least: dict[int, int] = {}
    for pieces, joints in brute.layings(task):
        cost = cut(pieces, limits)
        if cost is not None:
            least[joints] = min(cost, least.get(joints, cost))
    return least


def tiny(seed: int) -> tuple[Task, dict[int, int]]:
    rng = Random(seed)
    while True:
        task = one_set(rng)
        if len(found := purchases(task)) > 1:
            return task, found


def assert_is_a_frontier(task: Task, points: tuple[FrontierPoint, ...]) -> None:
    for one, other in pairwise(points):
        assert one.joints < other.joints
        assert one.cost > other.cost
        assert one.joint_price >= other.joint_price
    for point in points:
        priced = evolve(task, joint_price=point.joint_price)
        assert_keeps_the_rules(priced, point.plan)
        assert verify(point.plan.proof).holds
        assert (point.joints, point.cost) == (point.plan.joint_count, point.plan.cost)
        assert point.gap == point.plan.gap >= 0
        worth = [its.cost + point.joint_price * its.joints for its in points]
        assert min(worth) == point.plan.objective


@pytest.mark.parametrize("seed", range(60))
def test_no_whole_price_chooses_anything_else(seed: int) -> None:
    task, least = tiny(seed)
    points = frontier(task, solves=60)
    assert_is_a_frontier(task, points)
    top = 2 * (max(least.values()) + 1)
    for price in range(top):
        told = min(point.cost + price * point.joints for point in points)
        assert told == min(cost + price * joints for joints, cost in least.items()), price
    assert points[0].joints == min(least)
    cheapest = min(least.values())
    fewest = min(joints for joints, cost in least.items() if cost == cheapest)
    assert (points[-1].joints, points[-1].cost) == (fewest, cheapest)


@pytest.mark.parametrize("seed", range(30))
def test_the_own_joint_price_costs_what_solve_says(seed: int) -> None:
    task, _ = tiny(seed)
    plan = solve(task)
    told = min(p.cost + task.joint_price * p.joints for p in frontier(task))
    assert told == plan.objective


def two_ways() -> Task:
    """Return a task of 4 lines, whole at 100 each, or in two pieces of 40 each."""
    line = Line(count=4, start=0, end=100, stations=(0, 50, 100))
    stock = (Stock(name="half", length=50, price=40), Stock(name="whole", length=100, price=100))
    return Task(stock=stock, kerf=0, lines=(line,), joint_price=7)


def test_two_ways_by_hand() -> None:
    few, many = frontier(two_ways())
    assert (few.joints, few.cost, many.joints, many.cost) == (0, 400, 4, 320)
    # 80 for 4 joints: 20 each is where the one turns into the other
    assert few.joint_price >= 20 >= many.joint_price
    assert (many.joint_price, many.gap, few.gap) == (7, 0, 0)


def test_without_lines_there_is_one_point() -> None:
    stock = (Stock(name="a", length=100, price=10),)
    (point,) = frontier(Task(stock=stock, kerf=0, pieces=(Piece(length=30, count=4),)))
    assert (point.joints, point.cost, point.joint_price) == (0, 20, 0)


@pytest.mark.parametrize("seed", range(12))
def test_fewer_solves_leave_corners_out_and_spoil_none(seed: int) -> None:
    task, least = tiny(seed)
    points = frontier(task, solves=4, mode="quick")
    assert_is_a_frontier(task, points)
    assert all(least[point.joints] <= point.cost for point in points)


def test_a_joint_price_the_solver_gives_up_leaves_what_was_found(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def weak(task: Task, **how: object) -> CutPlan:
        if task.joint_price > 100:
            raise NoPlan((), proven=False)
        return solve(task, **how)  # type: ignore[arg-type]

    monkeypatch.setattr(frontier_of, "solve", weak)
    assert [point.joints for point in frontier(two_ways())] == [4]


def test_nonsense_and_cancelling() -> None:
    with pytest.raises(ValueError, match="solves is 3"):
        frontier(two_ways(), solves=3)
    with pytest.raises(CutTaskError):
        frontier(evolve(two_ways(), kerf=-1))
    stop = Event()
    stop.set()
    with pytest.raises(Cancelled):
        frontier(two_ways(), cancel=stop)
