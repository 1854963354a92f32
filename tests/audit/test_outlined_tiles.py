"""Tiles on an outline before the audit: sound as planned, and every planted fault is caught."""

import pytest
from attrs import evolve

from audit.outlined_tile_decks import (
    outlined_tile_brief,
    outlined_tile_witness,
    outlined_tiles,
    whole_brief,
)
from audit.outlined_tile_faults import (
    OF_OUTLINED_TILES,
    OUTLINED_TILE_FAULTS,
    OUTLINED_TILES_SEEN,
)
from audit.planting import Edit, to
from audit.sample import sample_plan
from drylay.audit import outlined_tile_seen
from drylay.audit.closed import audit_plan
from drylay.plan.model import Plan
from drylay.planner.design import design
from tile_family import tile_families, yard


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


def codes(plan: Plan) -> set[str]:
    return {finding.code for finding in audit_plan(plan).findings}


def test_a_rectangle_is_cut_as_its_ways_out_say() -> None:
    """Tiles of 600 with joints of 4: 3014 = 4 x 600 + 2 x 297 + 5 x 4, cut at both ends.

    Away from the house 1812 = 3 x 600 + 3 x 4, whole.
    """
    corners = ((0, 0), (3014, 0), (3014, 1812), (0, 1812))
    plan = design(outlined_tile_brief(corners), stock=yard(), families=tile_families())
    assert plan.tiles is not None
    assert plan.tiles.along_way == "rip_both"
    # nobody told levels: pads of no told height, and no fall of the base
    assert not plan.tiles.pads.levels_known
    assert codes(plan) <= {"AUD-009"}
    for way in ("as_wished", "rip_last"):
        assert "AUD-945" in codes(to("tiles.along_way", way)(plan))
    assert "AUD-966" in codes(to("tiles.pads.base_fall_mm", 5.0)(plan))
    assert "AUD-966" in codes(to("tiles.pads.pads[0].height_mm", 50.0)(plan))


@pytest.mark.parametrize(("key", "value"), [("rows.may_rip", False), ("site.roof", True)])
def test_a_brief_that_forbids_the_plan_is_held_against_it(key: str, value: bool) -> None:
    """Cut tiles where none may be, and a roof, which stops every plan."""
    seen = outlined_tile_witness()
    forbids = evolve(seen, brief=whole_brief().replace(key, value), brief_digest=None)
    report = audit_plan(outlined_tiles(), witness=forbids)
    assert "AUD-W76" in {finding.code for finding in report.findings}
