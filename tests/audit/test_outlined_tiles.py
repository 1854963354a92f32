"""Tiles on an outline before the audit: sound as planned, and every planted fault is caught."""

import pytest

from audit.outlined_tile_decks import outlined_tile_witness, outlined_tiles
from audit.outlined_tile_faults import (
    OF_OUTLINED_TILES,
    OUTLINED_TILE_FAULTS,
    OUTLINED_TILES_SEEN,
)
from audit.planting import Edit
from audit.sample import sample_plan
from drylay.audit import outlined_tile_seen
from drylay.audit.closed import audit_plan


def test_tiles_on_an_outline_are_sound() -> None:
    assert outlined_tiles().buildable
    report = audit_plan(outlined_tiles(), witness=outlined_tile_witness())
    assert [finding for finding in report.findings if finding.code != "AUD-009"] == []
    assert set(report.checks) >= OF_OUTLINED_TILES
    assert set(report.checks) >= {code for code, *_ in outlined_tile_seen.CHECKS}


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), OUTLINED_TILE_FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    report = audit_plan(edit(outlined_tiles()))
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{name}: {report.findings}"


@pytest.mark.parametrize(("code", "name", "edit"), OUTLINED_TILES_SEEN, ids=ids)
def test_a_planted_fault_is_caught_before_witnesses(code: str, name: str, edit: Edit) -> None:
    report = audit_plan(edit(outlined_tiles()), witness=outlined_tile_witness())
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{name}: {report.findings}"


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in OUTLINED_TILE_FAULTS} == OF_OUTLINED_TILES
    seen = {code for code, *_ in outlined_tile_seen.CHECKS}
    assert {code for code, *_ in OUTLINED_TILES_SEEN} == seen


def test_checks_of_tiles_on_an_outline_are_not_run_on_a_rectangle() -> None:
    assert {check.code for check in audit_plan(sample_plan()).not_run} >= OF_OUTLINED_TILES
