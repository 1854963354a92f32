"""No plan is dearer than what people do without an engine: first fit over all lengths."""

import pytest

from cutting.habits import best_multi, fixed_pieces, longest_only
from cutting.made import cut1d, near_flat_pieces
from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.model import Task

# seed 1022 was 200 dearer in quick mode, whose bound cuts ended before a plan was found as good
TASKS = [cut1d(seed).task for seed in (*range(2000, 2030), 1022)]
TASKS += [near_flat_pieces(seed).task for seed in range(2000, 2010)]


@pytest.mark.parametrize("task", TASKS)
def test_quick_mode_is_no_dearer_than_first_fit(task: Task) -> None:
    plan, pieces = solve(task, mode="quick"), fixed_pieces(task)
    assert_keeps_the_rules(task, plan)
    for cost in (best_multi(task, pieces), longest_only(task, pieces)):
        assert cost is None or plan.objective <= cost
