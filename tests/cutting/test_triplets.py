"""Bins filled by threes without waste: the least is a third of the pieces, by construction.

After E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, Journal of Heuristics 2
(1996), from memory.
"""

import pytest

from cutting.made import triplets
from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.verify import verify


# 9, 15 and 19 of 120 once ended without a plan: their fillings took more than 400 rounds
@pytest.mark.parametrize(("pieces", "seed"), [(60, 0), (60, 14), (120, 9), (120, 15), (120, 19)])
def test_a_third_of_the_pieces_is_the_least_and_proven(pieces: int, seed: int) -> None:
    task = triplets(pieces, seed).task
    plan = solve(task)
    assert_keeps_the_rules(task, plan)
    assert plan.objective == plan.bound == pieces // 3
    assert verify(plan.proof).holds
