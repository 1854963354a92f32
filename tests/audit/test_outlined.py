"""Checks of decks on an outline: each has been seen to fail on the hand-made L."""

import pytest

from audit.outlined_faults import OF_OUTLINES, OUTLINED_FAULTS
from audit.outlined_sample import outlined_plan
from audit.planting import Edit
from audit.sample import sample_plan
from drylay.audit.closed import audit_plan


def test_the_hand_made_l_is_sound() -> None:
    report = audit_plan(outlined_plan())
    assert report.findings == ()
    assert set(report.checks) >= OF_OUTLINES


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), OUTLINED_FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    report = audit_plan(edit(outlined_plan()))
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{name}: {report.findings}"


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in OUTLINED_FAULTS} == OF_OUTLINES


def test_checks_of_outlines_are_not_run_on_a_rectangle() -> None:
    idle = {check.code for check in audit_plan(sample_plan()).not_run}
    assert idle >= OF_OUTLINES
