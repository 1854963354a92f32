"""Checks of a deck that stands: the sample is sound, and each check has been seen to fail."""

import pytest

from audit.guards_faults import GUARD_FAULTS
from audit.planting import Edit
from audit.sample import sample_plan
from audit.standing_faults import ON_A_LEDGER, STANDING_FAULTS
from audit.standing_sample import standing_plan
from audit.strength_faults import STRENGTH_FAULTS
from drylay.audit import (
    footings,
    guard_posts_asked,
    guard_posts_checks,
    guards_seen,
    raised_apart,
    raised_held,
    raised_hung,
    raised_lengths,
    raised_levels,
    raised_places,
    steps_seen,
    strength_asked,
    strength_checks,
    strength_cover,
    strength_sag,
)
from drylay.audit.closed import audit_plan
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.leaves import all_finite
from drylay.plan.model import Plan

ROOMS = (
    raised_levels, raised_places, raised_held, raised_lengths, strength_asked, strength_checks,
    strength_cover, strength_sag, footings, guards_seen, steps_seen,
)  # fmt: skip
OF_STANDING = {code for room in ROOMS for code, *_ in room.CHECKS}
#: Guards' posts and joists that hang: test_guard_posts.py, test_standing_hung.py.
OF_STANDING_APART = {
    code
    for room in (guard_posts_asked, guard_posts_checks, raised_apart, raised_hung)
    for code, *_ in room.CHECKS
}
FAULTS = (*STANDING_FAULTS, *STRENGTH_FAULTS, *GUARD_FAULTS)


def found(edit: Edit | None = None, *, held: bool = False) -> set[str]:
    """Return the codes of these rooms that find something: the others are run elsewhere."""
    plan = standing_plan(held=held)
    return standing_codes(edit(plan) if edit else plan)


def standing_codes(plan: Plan) -> set[str]:
    if not all_finite(plan):  # the audit itself runs its first check alone
        return set()
    codes = set()
    for room in ROOMS:
        for code, _, check in room.CHECKS:
            try:
                codes |= {code for _ in check(plan)}
            except NothingToMeasure:
                continue
    return codes


@pytest.mark.parametrize("held", [False, True])
def test_the_deck_that_stands_is_sound(held: bool) -> None:
    assert standing_plan(held=held).buildable
    assert found(held=held) == set()
    idle = {check.code for check in audit_plan(standing_plan(held=held)).not_run}
    assert idle & OF_STANDING == (set() if held else {"AUD-322", "AUD-323"})


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "edit"), FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code in found(edit), name


@pytest.mark.parametrize(("code", "name", "edit"), ON_A_LEDGER, ids=ids)
def test_a_planted_fault_on_a_ledger_is_caught(code: str, name: str, edit: Edit) -> None:
    assert code in found(edit, held=True), name


def test_every_check_has_its_fault() -> None:
    assert {code for code, *_ in (*FAULTS, *ON_A_LEDGER)} == OF_STANDING


def test_checks_of_decks_that_stand_are_not_run_on_the_ground() -> None:
    idle = {check.code for check in audit_plan(sample_plan()).not_run}
    assert idle >= OF_STANDING - {"AUD-354"}
