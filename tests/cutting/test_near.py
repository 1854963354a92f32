"""Plans of large tasks near enough to a bound: legal, proven, no cheaper than any plan can be."""

import pytest

from cutting.brute import least_cost
from cutting.made import shape
from cutting.rules import assert_keeps_the_rules
from cutting.tiny import tiny_decks
from drylay.cutting import near
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Task, WorkLimits
from drylay.cutting.verify import verify

SIDE_BY_SIDE = [task for _, task in tiny_decks(50) if task.beside]


@pytest.fixture(autouse=True)
def _all_are_large(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(near, "LARGE", 0)


def near_enough(task: Task, gap: float) -> CutPlan | None:
    try:
        return solve(task, limits=WorkLimits(gap_ratio=gap))
    except NoPlan:
        return None


def test_bounds_are_no_dearer_than_the_least_of_all_plans() -> None:
    """The least cost is that of every sequence of lines and every way of cutting."""
    met = 0
    for task in SIDE_BY_SIDE:
        plan, least = near_enough(task, 0.5), least_cost(task)
        assert (plan is None) == (least is None)
        if plan is not None and least is not None:
            met += plan.objective > plan.bound
            assert_keeps_the_rules(task, plan)
            assert plan.bound <= least <= plan.objective
            assert verify(plan.proof).holds
    assert met >= 5  # else nothing was left open, and any bound would do


@pytest.mark.parametrize("seed", range(4))
def test_the_gap_asked_for_is_kept_with_less_work(seed: int) -> None:
    task = shape(seed).task
    plan, best = near_enough(task, 0.01), near_enough(task, 0.0)
    assert plan is not None
    assert best is not None
    assert_keeps_the_rules(task, plan)
    assert verify(plan.proof).holds
    assert plan.gap <= 0.01 * plan.objective
    assert plan.bound <= best.objective
    assert best.gap == 0 or plan.effort.lp_solves < best.effort.lp_solves
