"""Plans and bounds against every sequence of lines and every way of cutting, on tiny decks."""

from collections.abc import Callable
from random import Random
from typing import Any

import pytest
from attrs import evolve

from cutting.brute import least_cost
from cutting.tiny import loose_pieces, tiny_decks, traits, wrong_with
from drylay.cutting.engine import solve
from drylay.cutting.model import CutPlan, Line, Stock, Task

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
