"""Pairs, battens, clips and movement: every check of them has been seen to fail."""

import pytest

from audit.pair_faults import BATTENS, IN_LINE, NARROW, PAIRS, WITNESSED_PAIRS
from audit.paired import DECKS, deck, witnessed
from audit.planting import Edit
from drylay.audit import clips, joint_support
from drylay.audit.closed import audit_plan


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize("name", DECKS)
def test_the_planners_own_decks_are_sound(name: str) -> None:
    assert audit_plan(deck(name)).findings == ()
    report = witnessed(deck(name), name)
    assert report.findings == ()
    assert {code for code, *_ in (*joint_support.CHECKS, *clips.CHECKS)} <= set(report.checks)


FAULTS = [
    (name, *fault)
    for name, faults in (
        ("pairs", PAIRS), ("battens", BATTENS), ("in line", IN_LINE), ("narrow", NARROW),
    )
    for fault in faults
]  # fmt: skip


@pytest.mark.parametrize(("name", "code", "what", "edit"), FAULTS, ids=ids)
def test_a_planted_fault_is_caught(name: str, code: str, what: str, edit: Edit) -> None:
    codes = {finding.code for finding in audit_plan(edit(deck(name))).findings}
    assert code in codes, f"{what}: {sorted(codes)}"


@pytest.mark.parametrize(("code", "what", "edit"), WITNESSED_PAIRS, ids=ids)
def test_a_planted_fault_is_caught_before_witnesses(code: str, what: str, edit: Edit) -> None:
    codes = {finding.code for finding in witnessed(edit(deck("pairs")), "pairs").findings}
    assert code in codes, f"{what}: {sorted(codes)}"


def test_every_new_check_has_its_fault() -> None:
    """Those of softwood decks have theirs in faults.py."""
    planted = {code for code, *_ in (*PAIRS, *BATTENS)}
    assert {code for code, *_ in (*joint_support.CHECKS, *clips.CHECKS)} <= planted
    assert {code for code, *_ in clips.HELD} <= {code for code, *_ in WITNESSED_PAIRS}
