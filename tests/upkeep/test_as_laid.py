"""Places on a deck that was corrected while laying are the design's, and are said to be."""

from functools import cache

import pytest
from attrs import evolve

import drylay
from drylay.correcting.model import EdgeReading
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.upkeep.lift import boards_to_lift
from drylay.upkeep.locate import locate
from drylay.upkeep.model import Below
from drylay.upkeep.repair import repair
from upkeep.decks import plan_of

BELOW = Below(from_along_mm=600, to_along_mm=700, from_across_mm=450, to_across_mm=550)


@cache
def corrected(left_mm: float, right_mm: float) -> Plan:
    """S03 measured after row 10, its far edges so far off the designed 1495."""
    reading = EdgeReading(rows_laid=10, left_mm=1495 + left_mm, right_mm=1495 + right_mm)
    return drylay.correct_plan(plan_of("S03"), reading)


def told(plan: Plan) -> list[tuple[Finding, ...]]:
    """The findings of all three questions."""
    return [
        tuple(each for each in found.findings if each.code == "UPK-006")
        for found in (locate(plan, 650, 500), boards_to_lift(plan, reach=BELOW),
                      repair(plan, rows=["B15"], new_width_mm=145))
    ]  # fmt: skip


@pytest.mark.parametrize(("left_mm", "right_mm"), [(4.0, 2.0), (-1.0, -5.0), (0.0, 3.0)])
def test_all_three_say_that_rows_lie_elsewhere(left_mm: float, right_mm: float) -> None:
    """The edge measured is off the most: what is laid after it only makes it good again."""
    for findings in told(corrected(left_mm, right_mm)):
        (finding,) = findings
        assert finding.severity is Severity.CAUTION
        assert "after row 10" in finding.message
        assert finding.measured == max(abs(left_mm), abs(right_mm))


def test_rows_that_run_off_after_the_reading_count_too() -> None:
    """The near edge of B12 said to be 9 beyond the design, its width 1 more: its far edge is 10."""
    plan = corrected(4.0, 2.0)
    assert plan.laid is not None
    assert plan.surface is not None
    near_mm = plan.surface.rows[11].near_mm + 9
    rows = [evolve(row, near_right_mm=near_mm, width_right_mm=146.0) if row.mark == "B12" else row
            for row in plan.laid.rows]  # fmt: skip
    off = evolve(plan, laid=evolve(plan.laid, rows=tuple(rows)))
    assert [findings[0].measured for findings in told(off)] == [10.0] * 3


def test_rows_that_lie_as_designed_are_not_cautioned() -> None:
    assert told(plan_of("S03")) == [(), (), ()]
    assert told(corrected(0.0, 0.0)) == [(), (), ()]
