"""Checks of decks on an outline: each has been seen to fail on the hand-made L."""

from collections.abc import Callable

import pytest

from audit.outlined_doubles_faults import DOUBLES_FAULTS
from audit.outlined_faults import OF_OUTLINES, OUTLINED_FAULTS
from audit.outlined_narrow_faults import NARROW_FAULTS, SOUND
from audit.outlined_panel_faults import PANEL_FAULTS, ripped
from audit.outlined_real import garden, long_joists
from audit.outlined_real_faults import REAL_FAULTS, bordered, jointed, splayed
from audit.outlined_sample import outlined_plan
from audit.planting import Edit
from audit.sample import sample_plan
from drylay.audit.closed import CLOSED, audit_plan
from drylay.plan.model import Plan
from outlined_gardens import doubled

#: Faults planted in plans that were really made.
REAL = (*REAL_FAULTS, *PANEL_FAULTS, *DOUBLES_FAULTS, *NARROW_FAULTS)
CHECK = {code: check for code, _title, check in CLOSED}
#: Checks of what is bought and of panels, which the hand-made L has nothing of.
OF_BOUGHT = {"AUD-978", "AUD-980", "AUD-981", "AUD-982", "AUD-983", "AUD-984", "AUD-985", "AUD-986",
             "AUD-987", "AUD-990",
             "AUD-996", "AUD-992", "AUD-993", "AUD-994", "AUD-995"}  # fmt: skip


def test_the_hand_made_l_is_sound() -> None:
    report = audit_plan(outlined_plan())
    assert report.findings == ()
    assert set(report.checks) >= OF_OUTLINES - OF_BOUGHT


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), OUTLINED_FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    report = audit_plan(edit(outlined_plan()))
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{name}: {report.findings}"


def test_every_check_has_its_fault() -> None:
    planted = {code for code, *_ in (*OUTLINED_FAULTS, *REAL)}
    assert planted & OF_OUTLINES == OF_OUTLINES


def test_checks_of_outlines_are_not_run_on_a_rectangle() -> None:
    idle = {check.code for check in audit_plan(sample_plan()).not_run}
    assert idle >= OF_OUTLINES


@pytest.mark.parametrize("plan", [
    garden, bordered, jointed, splayed, long_joists, ripped, doubled,
])  # fmt: skip
def test_real_plans_are_sound(plan: Callable[[], Plan]) -> None:
    assert [each for each in audit_plan(plan()).findings if each.code != "AUD-009"] == []


@pytest.mark.parametrize("edit", SOUND)
def test_zones_as_narrow_as_they_are_told(edit: Edit) -> None:
    assert list(CHECK["AUD-978"](edit(garden()))) == []


@pytest.mark.parametrize(("code", "name", "plan", "edit"), REAL, ids=ids)
def test_a_fault_planted_in_a_real_plan_is_caught(
    code: str, name: str, plan: Callable[[], Plan], edit: Edit
) -> None:
    # the one check alone: these plans are large
    assert list(CHECK[code](edit(plan()))), name
