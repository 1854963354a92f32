"""What boards ask for by their make, before the audit: each fault planted in a real plan."""

import drylay
from audit.edits import put
from planner.test_board_asks import as_it_stands, asked


def codes(plan: drylay.Plan, example: str, **sections: dict) -> set[str]:
    brief, stock = asked(example, **sections)
    report = drylay.audit(plan, brief=brief, stock=stock, families=drylay.installed_families())
    return {finding.code for finding in report.findings}


def test_boards_that_burn_planned_on_a_roof() -> None:
    plan = as_it_stands("composite")
    assert "AUD-W90" not in codes(plan, "composite")
    assert "AUD-W90" in codes(plan, "composite", site={"roof": True})
    assert "AUD-W09" in codes(put(plan, "surface.combustible", False), "composite")
