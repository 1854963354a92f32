"""Checks of the ground under an outline, and of its ties: each has been seen to fail."""

import math
import random

import pytest

from audit.outlined_ground_faults import GROUND_FAULTS, OF_GROUND
from audit.outlined_ground_sample import plan_on_the_ground
from audit.planting import Edit
from audit.sample import sample_plan
from drylay.audit.closed import audit_plan
from drylay.audit.slabs import area, reaches, trapezoids


def found(edit: Edit | None = None) -> set[str]:
    plan = plan_on_the_ground()
    report = audit_plan(edit(plan) if edit else plan)
    codes = {finding.code for finding in report.findings}
    assert "AUD-000" not in codes, report.findings
    return codes & OF_GROUND


def test_the_ground_of_the_l_is_sound() -> None:
    assert found() == set()
    assert {check.code for check in audit_plan(plan_on_the_ground()).not_run}.isdisjoint(OF_GROUND)


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), GROUND_FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code in found(edit), name


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in GROUND_FAULTS} == OF_GROUND


def test_checks_of_outlines_are_not_run_on_a_rectangle() -> None:
    assert {check.code for check in audit_plan(sample_plan()).not_run} >= OF_GROUND


def test_two_squares_that_overlap_by_hand() -> None:
    """2 x 2 and 2 x 2 from (1, 1): 7; less 1 x 1 at the corner they share: 6."""
    one = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    two = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
    shared = ((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0))
    assert area(trapezoids([one, two])) == 7
    assert area(trapezoids([one, two], [shared])) == 6
    assert reaches(trapezoids([one, two])) == [(0.0, 3.0)]


@pytest.mark.parametrize("seed", range(6))
def test_slabs_against_darts(seed: int) -> None:
    """Three triangles less a fourth, 20 000 darts: 1.1 % of the box is three deviations."""
    dice = random.Random(seed)
    shapes = [
        tuple((dice.uniform(0, 100), dice.uniform(0, 100)) for _ in range(3)) for _ in range(4)
    ]

    def inside(x: float, y: float, shape: tuple[tuple[float, float], ...]) -> bool:
        turns = [
            (bx - ax) * (y - ay) - (by - ay) * (x - ax)
            for (ax, ay), (bx, by) in zip(shape, (*shape[1:], shape[0]), strict=True)
        ]
        return min(turns) > 0 or max(turns) < 0

    hits = 0
    for _ in range(20_000):
        x, y = dice.uniform(0, 100), dice.uniform(0, 100)
        hits += any(inside(x, y, s) for s in shapes[:3]) and not inside(x, y, shapes[3])
    wanted = area(trapezoids(shapes[:3], shapes[3:]))
    assert math.isclose(hits / 20_000 * 10_000, wanted, abs_tol=110)
