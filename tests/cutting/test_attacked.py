"""What an attack on the cutter found: each was seen to fail, and none may come back."""

from typing import Any

import pytest
from attrs import evolve

from cutting.brute import least_cost
from cutting.rules import assert_keeps_the_rules
from cutting.test_slip import as_read, script_holds
from cutting.tiny import wrong_with
from drylay.cutting import check_proof
from drylay.cutting.engine import solve
from drylay.cutting.errors import CutTaskError
from drylay.cutting.fill import _table, fullest
from drylay.cutting.model import (
    GRADES,
    Beside,
    Certificate,
    CutPlan,
    Line,
    Piece,
    Proof,
    ProvenOrder,
    Stock,
    Task,
    WorthVector,
)
from drylay.cutting.shed import solve_with_shed
from drylay.cutting.uses_model import Offcut
from drylay.cutting.verify import carried, verify


def holding(task: Task, mode: str = "proven") -> CutPlan:
    """Return a plan that keeps the rules and whose proof holds, by library and by script."""
    plan = solve(task, mode=mode)
    assert_keeps_the_rules(task, plan)
    assert verify(plan.proof).holds
    order = ProvenOrder(name="attacked", proof=plan.proof, cuts=plan.cuts, joints=plan.joints)
    held, why = check_proof.check_order(as_read(order))
    assert held, why
    return plan


def test_sets_beside_one_another_keep_apart_where_the_solver_searches() -> None:
    """A campaign's find: 934 was told, with joints of two sets in one line; 1020 is the least."""
    stations = (2, 52, 102, 152, 202, 252, 302)
    lines = (
        Line(count=1, start=0, end=304, stations=stations, joint_gap=2, stagger=1),
        Line(count=1, start=2, end=154, stations=stations[:4], joint_gap=2, stagger=3,
             most_joints=1),
        Line(count=1, start=202, end=302, stations=stations[4:], joint_gap=3, most_joints=1,
             first_station=4),
        Line(count=1, start=0, end=304, stations=stations, joint_gap=1, stagger=1),
    )  # fmt: skip
    pairs = ((0, 1), (0, 2), (1, 3), (2, 3))
    task = Task(
        stock=(
            Stock(name="S0", length=120, price=101),
            Stock(name="S1", length=120, price=114, trim=2),
            Stock(name="S2", length=240, price=293),
            Stock(name="S3", length=90, price=93, limit=0),
        ),
        kerf=3,
        lines=lines,
        beside=tuple(Beside(one=a, other=b) for a, b in pairs),
        joint_price=5,
    )
    assert least_cost(task) == 1020
    assert wrong_with(task) == ""


def test_a_set_of_no_lines_asks_for_no_lengths() -> None:
    """By hand: 4 pieces of 8 with a kerf of 2 come out of two boards of 18; 6 is not wanted."""
    line = Line(count=0, start=0, end=6, stations=(0, 6))
    stock = (Stock(name="S", length=18, price=4),)
    task = Task(stock=stock, kerf=2, pieces=(Piece(length=8, count=4),), lines=(line,))
    assert holding(task).objective == 8


def test_a_board_holds_as_much_as_there_are_numbers() -> None:
    """By hand: 3 of 1 and 2 of 12 with a kerf of 2 in 10^9 units; who counts up comes to no end."""
    stock = (Stock(name="endless", length=10**9, price=3),)
    pieces = (Piece(length=1, count=3), Piece(length=12, count=2))
    assert holding(Task(stock=stock, kerf=2, pieces=pieces)).objective == 3
    assert fullest((1, 5), (3, 14), 10**9) == (5 * (10**9 // 14) + 2, {0: 2, 1: 10**9 // 14})


@pytest.mark.parametrize("space", [41, 100, 127, 128, 12_345])
def test_the_most_worth_of_a_long_board_is_that_of_a_table(space: int) -> None:
    worth = {3: 4, 7: 11, 8: 12}
    table = [0]
    for used in range(1, space + 2):
        fits = (table[used - n - 1] + its for n, its in worth.items() if n + 1 <= used)
        table.append(max((*fits, table[-1])))
    task = Task(stock=(Stock(name="S", length=space, price=1),), kerf=1)
    assert carried(task, worth) == (table[-1],)
    assert check_proof.most_worth_on_a_board(space, 1, worth) == table[-1]


def test_a_count_with_endless_room_is_a_step_all_the_same() -> None:
    """Joints at 20 beside boards at 10^9: so many may be bought that none seemed to count."""
    lines = (
        Line(count=1, start=0, end=7, stations=tuple(range(7)), joint_gap=2, stagger=5,
             most_joints=1, first_station=1),
        Line(count=2, start=-1, end=13, stations=(0, 3, 6, 9, 12), least_bays=0, stagger=2,
             most_joints=2),
    )  # fmt: skip
    task = Task(
        stock=(Stock(name="S", length=30, price=10**9),),
        kerf=2,
        lines=lines,
        beside=(Beside(one=0, other=1), Beside(one=1, other=0)),
        joint_price=20,
    )
    assert holding(task).objective == least_cost(task)
    assert holding(task, "quick").bound <= least_cost(task)


def test_boards_for_nothing_without_end_are_worth_no_bound() -> None:
    """Forged: 4 of 50 come out of free boards of 100, so no bound above 0 holds."""
    free, sold = Stock(name="free", length=100, price=0), Stock(name="sold", length=100, price=5)
    task = Task(stock=(free, sold), kerf=0, pieces=(Piece(length=50, count=4),))
    vector = WorthVector(scale=1000, lengths=(50,), worths=(1,))
    certificate = Certificate(grade=GRADES[1], bound=5, vectors=(vector,))
    forged = Proof(task=task, objective=10, certificate=certificate)
    assert least_cost(task) == 0
    assert not verify(forged).holds
    assert not script_holds(forged)


def faults(**changes: Any) -> set[str]:
    line = Line(count=1, start=0, end=10, stations=(0, 5, 10))
    task = Task(stock=(Stock(name="S", length=9, price=1),), kerf=0, lines=(line, line))
    line = evolve(line, **changes.pop("line", {}))
    with pytest.raises(CutTaskError) as caught:
        solve(evolve(task, lines=(line, *task.lines[1:]), **changes))
    return {fault.path for fault in caught.value.faults}


@pytest.mark.parametrize("more", [0.5, float("inf"), float("nan")])
def test_a_bound_that_is_not_whole_is_refused(more: float) -> None:
    """The splits of the page's example show that under 82 there is nothing: 82.5 is a claim."""
    stock = (Stock(name="long", length=300, price=30), Stock(name="short", length=190, price=22))
    wanted = (Piece(length=140, count=2), Piece(length=90, count=3), Piece(length=60, count=3))
    proof = solve(Task(stock=stock, kerf=5, pieces=wanted)).proof
    certificate = evolve(proof.certificate, bound=proof.certificate.bound + more)
    assert proof.objective == 82
    assert verify(proof).holds
    assert not verify(evolve(proof, objective=10**9, certificate=certificate)).holds
    assert not verify(evolve(proof, objective=float("inf"), certificate=certificate)).holds


@pytest.mark.parametrize("pieces", [19, 30, 60])
def test_a_line_of_very_many_boards_is_made_all_the_same(pieces: int) -> None:
    """By hand: no board holds two of 100, and to leave the line out is never cheaper."""
    stations = tuple(range(0, 100 * pieces + 1, 100))
    line = Line(count=1, start=0, end=100 * pieces, stations=stations)
    task = Task(stock=(Stock(name="S", length=120, price=10),), kerf=0, lines=(line,))
    assert holding(task).objective == 10 * pieces


def test_a_line_is_made_however_dear_its_joints() -> None:
    """By hand: three joints at the least make four pieces of 10 out of a length of 40."""
    line = Line(count=1, start=0, end=40, stations=(0, 10, 20, 30, 40))
    stock = (Stock(name="S", length=13, price=15),)
    task = Task(stock=stock, kerf=0, lines=(line,), joint_price=10**9)
    assert holding(task).objective == 3 * 10**9 + 4 * 15


@pytest.mark.parametrize("odd", [1.5, True, None, "2"])
def test_what_is_not_whole_is_a_fault(odd: Any) -> None:
    assert faults(kerf=odd, pieces=(Piece(length=odd, count=1),)) == {"kerf", "pieces[0].length"}
    assert faults(line={"stations": (0, odd, 10)}) == {"lines[0]"}


def test_more_lines_than_calls_may_be_nested() -> None:
    """By hand: a line of 500 is 300 and 195, or the other way about, for 52 and a joint."""
    stock = (Stock(name="long", length=300, price=30), Stock(name="short", length=210, price=22))
    stations = (0, 100, 200, 300, 400, 500)
    line = Line(count=1500, start=0, end=500, stations=stations, stagger=1)
    task = Task(stock=stock, kerf=5, lines=(line,), joint_price=5)
    assert holding(task, "quick").objective == 1500 * 57


def test_more_boards_than_can_be_gone_through_in_pairs() -> None:
    """By hand: two of 140 with a kerf of 5 in each board of 300."""
    task = Task(stock=(Stock(name="S", length=300, price=30),), kerf=5,
                pieces=(Piece(length=140, count=60_000),))  # fmt: skip
    assert holding(task).objective == 30_000 * 30


def test_more_offcuts_than_there_are_pieces() -> None:
    stock = (Stock(name="S", length=300, price=30),)
    task = Task(stock=stock, kerf=5, pieces=(Piece(length=140, count=2),))
    found = solve_with_shed(task, [Offcut(name="end", length=150, count=10**9)])
    assert (found.plan.objective, found.uses[0].used) == (0, 2)


@pytest.mark.parametrize("space", [0, 5, 40, 41, 42, 1_000])
def test_the_last_resort_of_a_filling_is_exact(space: int) -> None:
    """With no branch to look at, the table is all there is; the truth is space by space."""
    worths, sizes = (4.5, 11, 12.25, 0), (3, 7, 8, 1)
    table = [0.0]
    for used in range(1, space + 1):
        fits = (table[used - n] + its for n, its in zip(sizes, worths, strict=True) if n <= used)
        table.append(max((*fits, table[-1])))
    worth, pieces = _table([1, 2, 0], worths, sizes, space, 0)
    assert worth == table[-1]
    assert sum(worths[i] * count for i, count in pieces.items()) == worth
    assert sum(sizes[i] * count for i, count in pieces.items()) <= space
    assert _table([1, 2, 0], worths, sizes, space, worth) == (worth, {})


def test_what_no_proof_can_be_of_is_a_fault() -> None:
    assert faults(line={"first_station": -1}) == {"lines[0].first_station"}
    assert faults(line={"stations": (0, 5, 5, 10)}) == {"lines[0]"}


@pytest.mark.parametrize("pairs", [[(0, 2)], [(-1, 0)], [(1, 1)]])
def test_sets_beside_none_or_themselves_are_a_fault(pairs: list[tuple[int, int]]) -> None:
    beside = tuple(Beside(one=a, other=b) for a, b in pairs)
    assert faults(beside=beside) == {"beside[0]"}


def test_sets_beside_one_another_twice_are_a_fault() -> None:
    assert faults(beside=(Beside(one=0, other=1),) * 2) == {"beside[1]"}


@pytest.mark.parametrize("great", [10**15 + 1, 10**400])
def test_numbers_beyond_what_the_solver_holds_are_faults(great: int) -> None:
    """10**400 once raised OverflowError, a length of 10**30 did not end."""
    stock = (Stock(name="S", length=300, price=great),)
    task = Task(stock=stock, kerf=5, pieces=(Piece(length=great, count=2),))
    with pytest.raises(CutTaskError) as caught:
        solve(task)
    assert {fault.path for fault in caught.value.faults} == {"stock[0].price", "pieces[0].length"}
