"""Fillings of all boards at once, held against every filling there is, listed one by one."""

from collections.abc import Iterator
from random import Random

import pytest

from cutting.rules import assert_keeps_the_rules
from drylay.cutting import halves, pricing
from drylay.cutting.engine import solve
from drylay.cutting.halves import richest_of_each
from drylay.cutting.model import Piece, Stock, Task
from drylay.cutting.verify import verify


def every_worth(worths: list[float], sizes: list[int], space: int) -> Iterator[float]:
    """Every filling's worth: of each piece any number, one piece after another."""
    if not worths:
        yield 0.0
        return
    for count in range(space // sizes[0] + 1):
        for more in every_worth(worths[1:], sizes[1:], space - count * sizes[0]):
            yield count * worths[0] + more


def of_case(seed: int) -> tuple[list[float], list[int], list[int]]:
    dice = Random(seed)
    sizes = dice.sample(range(15, 90), 7)
    worths = [round(size * dice.uniform(0.8, 1.2), 3) * (dice.random() < 0.9) for size in sizes]
    return worths, sizes, dice.sample(range(60, 200), 3)


@pytest.mark.parametrize("seed", range(30))
def test_first_is_the_best_of_all_fillings(seed: int) -> None:
    worths, sizes, spaces = of_case(seed)
    best = [max(every_worth(worths, sizes, space)) for space in spaces]
    leasts = [top - 0.5 for top in best]
    told = richest_of_each(worths, sizes, list(zip(spaces, leasts, strict=True)), 5)
    assert told is not None
    for space, top, fillings in zip(spaces, best, told, strict=True):
        values = [sum(worths[i] * n for i, n in filling.items()) for filling in fillings]
        assert values[0] == pytest.approx(top)
        assert all(top - 0.5 < value <= values[0] + 1e-9 for value in values)
        assert all(sum(sizes[i] * n for i, n in f.items()) <= space for f in fillings)
        held = [piece for filling in fillings for piece in filling]
        assert len(held) == len(set(held))


@pytest.mark.parametrize("seed", range(10))
def test_nothing_is_told_where_no_filling_is_worth_more(seed: int) -> None:
    worths, sizes, spaces = of_case(seed)
    leasts = [max(every_worth(worths, sizes, space)) + 1e-6 for space in spaces]
    told = richest_of_each(worths, sizes, list(zip(spaces, leasts, strict=True)), 5)
    assert told == [[], [], []]


@pytest.mark.parametrize("seed", range(10))
def test_fronts_that_are_thinned_still_tell_fillings_that_fit(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(halves, "MOST", 30)
    monkeypatch.setattr(halves, "CLASSES", 4)
    worths, sizes, spaces = of_case(seed)
    told = richest_of_each(worths, sizes, [(space, 1.0) for space in spaces], 5)
    assert told is not None
    assert any(told)
    for space, fillings in zip(spaces, told, strict=True):
        for filling in fillings:
            assert sum(sizes[i] * n for i, n in filling.items()) <= space
            assert sum(worths[i] * n for i, n in filling.items()) > 1.0


@pytest.mark.parametrize("seed", range(6))
def test_bounds_are_the_same_whichever_way_fillings_are_priced(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The cost of what is proven is one, whoever finds it; a bound is no dearer than a plan."""
    dice = Random(seed)
    stock = tuple(Stock(name=str(n), length=n, price=dice.randint(n, n + 40)) for n in (300, 420))
    sizes = dice.sample(range(40, 250), 12)
    pieces = tuple(Piece(length=size, count=dice.randint(1, 4)) for size in sizes)
    task = Task(stock=stock, kerf=3, pieces=pieces)
    one = solve(task)
    monkeypatch.setattr(pricing, "MANY_FIXED", 0)
    other = solve(task)
    for plan in (one, other):
        assert_keeps_the_rules(task, plan)
        assert verify(plan.proof).holds
    assert max(one.bound, other.bound) <= min(one.objective, other.objective)
