"""The work of decks that stand: sound as planned, and each fault planted in it is caught."""

import pytest
from attrs import evolve

from audit.legs_faults import LEGS
from audit.outlined_sample import outline
from audit.planting import Edit
from drylay.audit import legs_out
from drylay.audit.closed import audit_plan
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.legs_tasks import legs_holds
from standing_decks import VARIANTS, plan_of


@pytest.mark.parametrize("name", VARIANTS)
def test_the_work_as_planned_is_sound(name: str) -> None:
    codes = {finding.code for finding in audit_plan(plan_of(name)).findings}
    assert not codes & {"AUD-000", "AUD-907", "AUD-908", "AUD-909", "AUD-913", "AUD-914",
                        "AUD-915", "AUD-916", "AUD-917", "AUD-918", "AUD-923"}  # fmt: skip


OUTLINE = outline()


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("deck", "code", "name", "edit"), LEGS, ids=ids)
def test_a_planted_fault_is_caught(deck: str, code: str, name: str, edit: Edit) -> None:
    codes = {finding.code for finding in audit_plan(edit(plan_of(deck))).findings}
    assert code in codes, f"{name}: {sorted(codes)}"
    assert "AUD-000" not in codes


def test_every_check_of_what_stands_has_its_fault() -> None:
    assert {code for _, code, *_ in LEGS} >= {code for code, *_ in legs_out.CHECKS}


@pytest.mark.parametrize("part", ["raised", "guards", "steps"])
def test_work_on_an_outline_is_not_held_to_what_stands(part: str) -> None:
    """It tells of no posts yet: the checks say that they did not run."""
    stands = plan_of("held")
    bare = evolve(stands, raised=None, guards=None, steps=None, outline=OUTLINE)
    with_it = evolve(bare, **{part: getattr(stands, part)})
    for _, _, check in legs_out.CHECKS:
        with pytest.raises(NothingToMeasure):
            list(check(with_it))
    assert legs_holds(with_it, "frame") == set()
    assert legs_holds(stands, "frame") == {"ties"}
