"""Small decks on an outline: planned, audited with all witnesses, proven, cover complete."""

import pytest

import drylay
from campaigns.decks import slip_faults
from campaigns.outlines import cover_missed
from some_five import sold
from some_outlines import some_outline

SMALL_MM = 3_600


@pytest.mark.parametrize("seed", range(50))  # more of them: tests/campaigns/outlines.py
def test_planned_as_audited_and_nothing_left_bare(seed: int) -> None:
    brief, stock, families = (
        some_outline(seed, most_mm=SMALL_MM), sold(), drylay.installed_families()
    )  # fmt: skip
    plan = drylay.design(brief, stock=stock, families=families)
    if not plan.buildable:
        assert any(each.severity is drylay.Severity.STOP for each in plan.findings)
        assert plan.buying is None
        assert plan.laying is None
        return
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    stops = [str(each) for each in report.findings if each.severity is drylay.Severity.STOP]
    assert not stops
    assert not cover_missed(plan, seed)
    assert slip_faults(plan) == []
