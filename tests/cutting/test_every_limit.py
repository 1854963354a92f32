"""Few boards, few joints, wide staggers: against every sequence of lines, on tiny decks."""

from random import Random

import pytest
from attrs import evolve

from cutting.bare import tiny_deck, tiny_stock
from cutting.brute import least_cost
from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import Beside, CutPlan, Line, Piece, Task
from drylay.cutting.verify import verify


def few_boards(rng: Random) -> Task:
    """Stock that hardly does, or does not: every length limited, most to a board or two."""
    task = tiny_deck(rng)
    stock = [evolve(tiny_stock(rng, i), limit=rng.choice([0, 1, 1, 2, 2, 3])) for i in range(4)]
    if rng.random() < 0.3:
        stock.append(evolve(tiny_stock(rng, 4), limit=None, price=400))
    return evolve(task, stock=tuple(stock))


def few_joints(rng: Random) -> Task:
    """Lines of many bays that may have fewer joints than would suit the boards."""
    (line,) = tiny_deck(rng).lines
    bays = rng.randint(4, 7)
    stations = tuple(2 + 40 * j for j in range(bays + 1))
    line = evolve(line, count=rng.randint(1, 2), stations=stations, end=stations[-1] + 2)
    line = evolve(line, most_joints=rng.choice([0, 1, 1, 2, 2, 3]), least_bays=rng.randint(0, 2))
    return evolve(tiny_deck(rng), lines=(line,))


def wide_stagger(rng: Random) -> Task:
    """Staggers beyond the least bays, up to such that no two joints are far enough apart."""
    task = tiny_deck(rng)
    (line,) = task.lines
    least = rng.randint(0, 2)
    wide = evolve(line, least_bays=least, stagger=max(1, least) + rng.randint(1, 3))
    return evolve(task, lines=(evolve(wide, count=rng.randint(2, 3)),))


def sets_beside(rng: Random) -> Task:
    """Two or three sets one beside the other, each with its own start, bays, cap and stagger."""
    task = tiny_deck(rng)
    (line,) = task.lines
    sets: list[Line] = []
    for _ in range(rng.randint(2, 3)):
        first = rng.randint(0, 2)
        stations = line.stations[first : first + rng.randint(3, 5)]
        sets.append(
            evolve(
                line,
                count=rng.randint(0, 2) if len(sets) == 2 else rng.randint(1, 2),
                start=stations[0] - 2,
                end=stations[-1] + 2,
                stations=stations,
                first_station=first,
                stagger=rng.randint(0, 3),
                least_bays=rng.randint(0, 2),
                most_joints=rng.choice([None, None, 1, 2]),
            )
        )
    beside = [Beside(one=i, other=i + 1) for i in range(len(sets) - 1)]
    if len(sets) == 3 and rng.random() < 0.3:
        beside.append(Beside(one=0, other=2))
    return evolve(task, lines=tuple(sets), beside=tuple(beside), pieces=())


def all_at_once(rng: Random) -> Task:
    """All of these together, with a price on joints and single pieces beside the lines."""
    task = rng.choice([few_joints, wide_stagger, sets_beside])(rng)
    stock = few_boards(rng).stock
    pieces = tuple(Piece(length=rng.randint(10, 90), count=rng.randint(0, 1)) for _ in "ab")
    return evolve(task, stock=stock, pieces=pieces, joint_price=rng.choice([0, 1, 7, 60]))


KINDS = {
    made.__name__: made for made in (few_boards, few_joints, wide_stagger, sets_beside, all_at_once)
}


def assert_least(task: Task) -> None:
    least = least_cost(task)
    if least is None:
        with pytest.raises(NoPlan):
            solve(task)
        return
    plan = solve(task)
    assert_keeps_the_rules(task, plan)
    assert verify(plan.proof).holds
    assert plan.bound <= least <= plan.objective
    assert plan.objective == least  # always so on decks as small as these


@pytest.mark.parametrize("seed", range(40))
@pytest.mark.parametrize("kind", KINDS)
def test_no_sequence_of_lines_is_cheaper(kind: str, seed: int) -> None:
    assert_least(KINDS[kind](Random(f"{kind} {seed}")))


@pytest.mark.parametrize(
    ("kind", "seed"),
    [
        ("few_joints", 128),
        ("wide_stagger", 952),
        *(("sets_beside", seed) for seed in (186, 962, 1203)),
        *(("all_at_once", seed) for seed in (22, 107, 414, 495, 549, 610)),
    ],
)
def test_lengths_that_a_line_holds_once_come_into_question_once(kind: str, seed: int) -> None:
    """Once dearer than need be, or without a plan: short pieces, counted as often as they fit."""
    assert_least(KINDS[kind](Random(f"{kind} {seed}")))


@pytest.mark.parametrize("kind", KINDS)
def test_a_plan_found_without_the_search_keeps_rules_and_bound(kind: str) -> None:
    for seed in range(40):
        task = KINDS[kind](Random(f"{kind} {seed}"))
        plan, proven = quick(task)
        if plan is None:
            assert not proven or least_cost(task) is None
        else:
            assert_keeps_the_rules(task, plan)
            assert verify(plan.proof).holds


def quick(task: Task) -> tuple[CutPlan | None, bool]:
    try:
        return solve(task, mode="quick"), False
    except NoPlan as none:
        return None, none.proven
