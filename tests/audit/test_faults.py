"""Every check has been seen to fail: planted faults, each caught by the check meant."""

import pytest

from audit.faults import CLOSED_FAULTS, WITNESSED_FAULTS
from audit.outlined_faults import OF_OUTLINES
from audit.outlined_ground_faults import OF_GROUND
from audit.outlined_tile_faults import OF_OUTLINED_TILES
from audit.planting import Edit
from audit.sample import sample_plan, sample_witness
from audit.test_standing import OF_STANDING, OF_STANDING_APART
from audit.tile_faults import OF_TILES, TILE_FAULTS
from drylay.audit import board_asks, clips, joint_support, laid, outlined_stands, strength_loose
from drylay.audit.closed import CLOSED, WITNESSED, audit_plan

OF_LAID = {code for code, *_ in laid.CHECKS}
OF_STANDING_OUTLINES = {code for code, *_ in outlined_stands.CHECKS}


def test_the_hand_made_deck_is_sound() -> None:
    report = audit_plan(sample_plan())
    assert report.findings == ()
    assert {idle.code for idle in report.not_run} == (
        OF_TILES
        | OF_OUTLINES
        | OF_GROUND
        | OF_OUTLINED_TILES
        | (OF_STANDING - {"AUD-354"})
        | OF_STANDING_APART
        | OF_STANDING_OUTLINES
        | OF_LAID
    )
    assert report.audit == "closed"
    assert report.sound


def test_the_hand_made_deck_is_sound_before_witnesses() -> None:
    report = audit_plan(sample_plan(), witness=sample_witness())
    assert report.findings == ()
    assert report.audit == "witnessed"


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), CLOSED_FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    report = audit_plan(edit(sample_plan()))
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{name}: {report.findings}"


@pytest.mark.parametrize(("code", "name", "edit"), WITNESSED_FAULTS, ids=ids)
def test_a_planted_fault_is_caught_before_witnesses(code: str, name: str, edit: Edit) -> None:
    report = audit_plan(edit(sample_plan()), witness=sample_witness())
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{name}: {report.findings}"


def test_every_closed_check_has_its_fault() -> None:
    # in test_pairs.py and test_board_asks.py
    others = (*joint_support.CHECKS, *clips.CHECKS, *board_asks.CHECKS)
    elsewhere = {code for code, *_ in others}
    elsewhere |= OF_OUTLINES | OF_GROUND  # in test_outlined.py and test_outlined_ground.py
    elsewhere |= OF_OUTLINED_TILES  # in test_outlined_tiles.py
    elsewhere |= OF_STANDING | OF_STANDING_APART  # in test_standing.py, and where it says
    elsewhere |= {"AUD-517"}  # in test_standing_hung.py
    elsewhere |= OF_LAID  # in test_laid.py
    elsewhere |= OF_STANDING_OUTLINES  # in test_outlined_stands.py
    elsewhere |= {code for code, *_ in strength_loose.CHECKS}  # in test_tile_standing.py
    elsewhere |= {"AUD-421"}  # boards of timber have no end gaps by temperature
    planted = {code for code, *_ in (*CLOSED_FAULTS, *TILE_FAULTS)}
    assert planted == {code for code, *_ in CLOSED} - elsewhere


def test_every_check_has_a_code_of_its_own() -> None:
    codes = [code for code, *_ in (*CLOSED, *WITNESSED)]
    assert len(codes) == len(set(codes))
    assert len(codes) >= 25
