"""Lines that repeat: against every repeating sequence of tiny tasks, and what the rule costs."""

from itertools import product
from random import Random
from threading import Event

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting import brute
from cutting.bare import tiny_deck
from cutting.rules import assert_keeps_the_rules
from drylay.cutting import repeat
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import Beside, Line, Piece, Stock, Task, WorkLimits
from drylay.cutting.repeat import solve_repeated
from drylay.cutting.uses_model import RepeatedCuts
from drylay.cutting.verify import verify
from drylay.errors import Cancelled


def least_repeated(task: Task, period: int) -> int | None:
    """Return the least cost over every pattern for every turn of every set."""
    turns = [(s, r) for s, line in enumerate(task.lines) for r in range(min(period, line.count))]
    neighbours = brute.side_by_side(task)
    stock = tuple((s.length - 2 * s.trim, s.price) for s in task.stock)
    limits = tuple(-1 if s.limit is None else s.limit for s in task.stock)
    cut = brute._cutter(stock, task.kerf)
    fixed = [p.length for p in task.pieces for _ in range(p.count)]
    costs = set()
    for ways in product(*(brute.ways_of(task.lines[s]) for s, _ in turns)):
        way = dict(zip(turns, ways, strict=True))
        rows = {(s, n): way[s, n % period] for s, n in brute.rows_of(task)}
        if all(far(task, rows, pair) for pair in neighbours):
            pieces = tuple(sorted([*fixed, *(n for _, its in rows.values() for n in its)]))
            cost = cut(pieces, limits)
            if cost is not None:
                joints = sum(len(joints) for joints, _ in rows.values())
                costs.add(cost + task.joint_price * joints)
    return min(costs, default=None)


def far(task: Task, rows: dict, pair: tuple) -> bool:
    one, other, stagger = pair
    ahead = task.lines[one[0]].first_station - task.lines[other[0]].first_station
    return all(abs(a + ahead - b) >= stagger for a in rows[one][0] for b in rows[other][0])


def assert_repeats(task: Task, period: int, found: RepeatedCuts) -> None:
    for lines in found.plan.joints:
        assert all(lines[n] == lines[n - period] for n in range(period, len(lines)))
    for plan in (found.plan, found.free):
        assert_keeps_the_rules(task, plan)
        assert verify(plan.proof).holds
    assert found.plan.bound == found.free.bound <= found.least <= found.plan.objective
    assert found.dearer == found.plan.objective - found.free.objective >= 0
    assert found.period == period


def assert_least(task: Task, period: int) -> None:
    least = least_repeated(task, period)
    if least is None:
        with pytest.raises(NoPlan):
            solve_repeated(task, period=period)
        return
    found = solve_repeated(task, period=period)
    assert_repeats(task, period, found)
    assert found.least <= least <= found.plan.objective
    assert found.plan.objective == least  # always so on tasks as small as these


@pytest.mark.parametrize("seed", range(60))
def test_no_repeating_sequence_is_cheaper(seed: int) -> None:
    rng = Random(seed)
    task = tiny_deck(rng)
    most = 4 if len(task.lines[0].stations) < 6 else 3  # more take brute force long
    lines = tuple(evolve(line, count=rng.randint(2, most)) for line in task.lines)
    assert_least(evolve(task, lines=lines), rng.choice([1, 2, 2, 2, 3]))


@pytest.mark.parametrize("seed", range(30))
def test_no_repeat_of_sets_beside_one_another_is_cheaper(seed: int) -> None:
    rng = Random(seed)
    task = tiny_deck(rng)
    (line,) = (evolve(line, count=rng.randint(1, 3), most_joints=1) for line in task.lines)
    stations = line.stations[: len(line.stations) - rng.randint(0, 2)]
    other = evolve(line, count=rng.randint(1, 3), stations=stations, end=stations[-1] + 2)
    other = evolve(other, stagger=rng.randint(0, 2), first_station=rng.randint(0, 1))
    assert_least(evolve(task, lines=(line, other), beside=(Beside(one=0, other=1),)), 2)


@given(seed=st.integers(100, 10_000), period=st.integers(1, 4))
@settings(max_examples=25, deadline=None)
def test_a_repeat_keeps_every_rule(seed: int, period: int) -> None:
    rng = Random(seed)
    task = tiny_deck(rng)
    task = evolve(task, lines=tuple(evolve(line, count=rng.randint(1, 7)) for line in task.lines))
    try:
        found = solve_repeated(task, period=period)
    except NoPlan:
        return
    assert_repeats(task, period, found)


#: Lines of 100 with a station in the middle and at both quarters, boards of 75, 50 and 25.
QUARTERS = Line(count=4, start=0, end=100, stations=(0, 25, 50, 75, 100), stagger=1)


def test_what_a_repeat_costs_by_hand() -> None:
    stock = (
        Stock(name="half", length=50, price=5, limit=4),
        Stock(name="long", length=75, price=9),
        Stock(name="short", length=25, price=3),
    )
    line = evolve(QUARTERS, count=3, least_bays=1, most_joints=1, stagger=0)
    found = solve_repeated(Task(stock=stock, kerf=0, lines=(line,)), period=1)
    # free: two lines of 50 + 50 for 10 each, and 75 + 25 for 12: 32. All alike: the four halves
    # are enough for two lines only, so three of 75 + 25: 27, and 5 + 3 for the 25s, two to a half.
    assert (found.free.objective, found.plan.objective, found.dearer) == (32, 35, 3)
    assert found.least == 35
    assert found.plan.bound == 32
    two = solve_repeated(Task(stock=stock, kerf=0, lines=(line,)), period=2)
    # the first and the third alike, the second not: the halves go to those two
    assert (two.plan.objective, two.dearer) == (32, 0)


def test_a_free_plan_that_repeats_is_the_answer() -> None:
    task = Task(stock=(Stock(name="long", length=100, price=9),), kerf=0, lines=(QUARTERS,))
    found = solve_repeated(task)
    assert found.plan == found.free
    assert (found.dearer, found.least) == (0, 36)


def test_pieces_alone_repeat_as_they_are() -> None:
    task = Task(stock=(Stock(name="a", length=100, price=9),), kerf=0)
    task = evolve(task, pieces=(Piece(length=40, count=3),))
    assert solve_repeated(task).plan.objective == 18


def test_lines_that_cannot_repeat_are_told() -> None:
    line = Line(count=3, start=0, end=100, stations=(0, 50, 100), stagger=1)
    stock = (Stock(name="half", length=50, price=5), Stock(name="long", length=100, price=20))
    with_one = (stock[0], evolve(stock[1], limit=1))
    task = Task(stock=with_one, kerf=0, lines=(line,))
    # one whole line between two in halves; all alike would take three long ones
    assert solve_repeated(task, period=2).plan.objective == 40
    with pytest.raises(NoPlan, match="no plan exists: not enough stock"):
        solve_repeated(task, period=1)
    tight = evolve(line, start=0, end=120, stations=(0, 40, 80, 120), count=2)
    task = Task(stock=(Stock(name="b", length=80, price=8),), kerf=0, lines=(tight,))
    assert solve_repeated(task, period=2).plan.joint_count == 2
    with pytest.raises(NoPlan, match="no plan exists: lines cannot repeat"):
        solve_repeated(task, period=1)


def test_the_same_bytes_every_time() -> None:
    task = tiny_deck(Random(7))
    assert len({repr(solve_repeated(task, period=1)) for _ in range(5)}) == 1


def test_quick_mode_keeps_the_rules_and_its_bound() -> None:
    for seed in range(20):
        task = tiny_deck(Random(seed))
        try:
            solve(task)
            found = solve_repeated(task, period=1, mode="quick")
        except NoPlan:
            continue
        assert_repeats(task, 1, found)


def test_a_repeat_can_be_stopped_and_refuses_no_period() -> None:
    stopped = Event()
    stopped.set()
    task = tiny_deck(Random(7))
    with pytest.raises(Cancelled):
        solve_repeated(task, cancel=stopped)
    with pytest.raises(ValueError, match="period is 0"):
        solve_repeated(task, period=0)


def test_without_the_rows_that_keep_turns_apart_the_rules_are_broken(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Planted fault: the tests above would see it."""
    monkeypatch.setattr(repeat.TurnProgramme, "_keep_apart", lambda *_: {})
    line = Line(count=4, start=0, end=90, stations=(0, 30, 60, 90), stagger=1)
    stock = (Stock(name="a", length=60, price=6), Stock(name="b", length=30, price=5, limit=7))
    task = Task(stock=stock, kerf=0, lines=(line,), joint_price=1)
    monkeypatch.setattr(repeat, "_repeats", lambda *_: False)
    found = solve_repeated(task, period=1, limits=WorkLimits())
    with pytest.raises(AssertionError):
        assert_keeps_the_rules(task, found.plan)
