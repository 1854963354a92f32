"""The work of decks that stand: sound as planned, and each fault planted in it is caught."""

import pytest

from audit.legs_faults import LEGS
from audit.planting import Edit
from drylay.audit import legs_out, work
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import ClosedCheck, Flaw
from drylay.plan.model import Plan
from standing_decks import VARIANTS, plan_of


def _run(check: ClosedCheck, plan: Plan) -> list[Flaw]:
    """Return what a check finds: nothing where the plan has no such part, as lights."""
    try:
        return list(check(plan))
    except NothingToMeasure:
        return []


@pytest.mark.parametrize("name", VARIANTS)
def test_the_work_as_planned_is_sound(name: str) -> None:
    flaws = [flaw for _, _, check in work.CHECKS for flaw in _run(check, plan_of(name))]
    assert flaws == []


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("deck", "code", "name", "edit"), LEGS, ids=ids)
def test_a_planted_fault_is_caught(deck: str, code: str, name: str, edit: Edit) -> None:
    (check,) = [check for known, _, check in work.CHECKS if known == code]
    assert list(check(edit(plan_of(deck)))), name


def test_every_check_of_what_stands_has_its_fault() -> None:
    assert {code for _, code, *_ in LEGS} >= {code for code, *_ in legs_out.CHECKS}
