"""Plans and bounds against every sequence of lines and every way of cutting, on tiny decks."""

from collections.abc import Callable
from random import Random
from typing import Any

import pytest
from attrs import evolve

from cutting.brute import least_cost
from cutting.tiny import loose_pieces, tiny_decks, traits, wrong_with
from drylay.cutting.engine import solve
from drylay.cutting.model import Beside, CutPlan, Line, Piece, Stock, Task

DECKS = tuple(tiny_decks(100))


@pytest.mark.parametrize("task", [task for _, task in DECKS], ids=[str(seed) for seed, _ in DECKS])
def test_no_sequence_of_lines_is_cheaper(task: Task) -> None:
    assert wrong_with(task) == ""


@pytest.mark.parametrize("seed", range(60))
def test_no_way_of_cutting_is_cheaper(seed: int) -> None:
    assert wrong_with(loose_pieces(Random(f"loose {seed}"))) == ""


def test_the_decks_have_all_that_is_hard() -> None:
    """Counted apart from the cutter, so that no change of the decks empties the test."""
    met = [name for _, task in DECKS for name in traits(task, None)]
    for name, least in (
        ("several sets", 50),
        ("three lines or more side by side", 10),
        ("a stagger larger than the least bays", 30),
        ("a cap of joints", 40),
        ("a limited length", 50),
        ("a length at no price", 20),
        ("a fixed piece", 30),
    ):
        assert met.count(name) >= least, name
    plans = [least_cost(task) for _, task in DECKS]
    assert 5 <= plans.count(None) <= 50


# -- found by the campaign ---------------------------------------------------------------


def test_three_pieces_share_a_board_beside_a_line_in_one_piece() -> None:
    """A campaign's find: 602 was had, 1204 taken.

    By hand: the line of 242 from one board; 122 + 85 + 84 and two kerfs are 295 of another; both
    together are 533, more than one holds.
    """
    stations = (2, 42, 82, 122, 162, 202, 242)
    lines = (
        Line(count=1, start=0, end=242, stations=stations, joint_gap=3, stagger=1),
        Line(count=1, start=2, end=124, stations=stations[:4], joint_gap=1, stagger=2),
        Line(count=1, start=160, end=244, stations=stations[4:], joint_gap=3, stagger=2,
             first_station=4),
    )  # fmt: skip
    task = Task(
        stock=(Stock(name="S", length=300, price=301),),
        kerf=2,
        pieces=(Piece(length=85, count=1),),
        lines=lines,
        beside=(Beside(one=0, other=1), Beside(one=0, other=2)),
    )
    assert solve(task).objective == 602
    assert wrong_with(task) == ""


def test_all_comes_from_the_two_boards_that_cost_nothing() -> None:
    """A campaign's find: 0 was had, 198 taken.

    By hand: 242 from one board of 296; 122 + 80 + 44 and two kerfs are 250 of the other.
    """
    stations = (2, 42, 82, 122, 162, 202, 242)
    lines = (
        Line(count=1, start=2, end=244, stations=stations, joint_gap=3, stagger=3),
        Line(count=1, start=0, end=122, stations=stations[:4], joint_gap=3, stagger=1),
        Line(count=1, start=162, end=242, stations=stations[4:], stagger=3, most_joints=1,
             first_station=4),
    )  # fmt: skip
    task = Task(
        stock=(
            Stock(name="sold", length=120, price=99, trim=2),
            Stock(name="shed", length=300, price=0, trim=2, limit=2),
        ),
        kerf=2,
        pieces=(Piece(length=44, count=1),),
        lines=lines,
        beside=(Beside(one=0, other=1), Beside(one=0, other=2)),
    )
    assert solve(task).objective == 0
    assert wrong_with(task) == ""


# -- planted faults ----------------------------------------------------------------------

#: One line of 100 from lengths of 60 at 7: cut in two at the middle, 14 by hand.
DECK = Task(
    stock=(Stock(name="S", length=60, price=7),),
    kerf=0,
    lines=(Line(count=1, start=0, end=100, stations=(0, 25, 50, 75, 100)),),
)


def spoiled(**changes: Any) -> Callable[..., CutPlan]:
    """Return a cutter that makes its plan worse on the quiet."""

    def spoil(task: Task, **options: Any) -> CutPlan:
        plan = solve(task, **options)
        proof = evolve(plan.proof, objective=changes.get("objective", plan.objective))
        if "bound" in changes:
            certificate = evolve(proof.certificate, bound=changes["bound"])
            proof = evolve(proof, certificate=certificate)
        return evolve(plan, proof=proof, **changes)

    return spoil


def test_the_deck_of_the_planted_faults_costs_two_lengths() -> None:
    assert least_cost(DECK) == 14
    assert wrong_with(DECK) == ""


def test_a_dearer_plan_is_told() -> None:
    both = evolve(DECK, stock=(*DECK.stock, Stock(name="L", length=100, price=15)))

    def buys_the_long_one(task: Task, **options: Any) -> CutPlan:
        plan = solve(evolve(task, stock=task.stock[1:]), **options)
        certificate = evolve(plan.proof.certificate, bound=0, vectors=())
        proof = evolve(plan.proof, task=task, certificate=certificate)
        return evolve(plan, bound=0, proof=proof)

    assert wrong_with(both) == ""
    assert wrong_with(both, buys_the_long_one) == "proven: a plan at 15, but the least is 14"


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"objective": 13, "cost": 13}, "the plan breaks a rule"),
        ({"objective": 13}, "the plan breaks a rule"),
        ({"joints": (((1,),),)}, "the plan breaks a rule"),
        ({"joints": ((),)}, "the plan breaks a rule"),
    ],
)
def test_a_plan_that_breaks_a_rule_is_told(changes: dict[str, Any], told: str) -> None:
    assert told in wrong_with(DECK, spoiled(**changes))


def test_a_bound_that_nothing_supports_is_told() -> None:
    def claims_more(task: Task, **options: Any) -> CutPlan:
        plan = solve(task, **options)
        proof = evolve(plan.proof, certificate=evolve(plan.proof.certificate, vectors=()))
        return evolve(plan, proof=proof)

    assert "the proof does not hold" in wrong_with(DECK, claims_more)
