"""Decks of tiles before the audit: sound as planned, and every planted fault is caught."""

import pytest
from attrs import evolve

from audit.planting import Edit
from audit.tile_decks import BRIEFS, deck, witness
from audit.tile_faults import TILE_FAULTS, TILE_SEEN
from drylay.audit import tile_seen
from drylay.audit.closed import audit_plan


@pytest.mark.parametrize("support", BRIEFS)
def test_a_deck_of_tiles_is_sound(support: str) -> None:
    assert deck(support).buildable
    assert audit_plan(deck(support)).findings == ()
    report = audit_plan(deck(support), witness=witness(support))
    assert report.findings == ()
    assert {code for code, *_ in tile_seen.CHECKS} - {idle.code for idle in report.not_run} >= {
        "AUD-W71", "AUD-W72", "AUD-W73",
    }  # fmt: skip


def name(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "support", "told", "edit"), TILE_FAULTS, ids=name)
def test_a_planted_fault_is_caught(code: str, support: str, told: str, edit: Edit) -> None:
    report = audit_plan(edit(deck(support)))
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{told}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{told}: {report.findings}"


@pytest.mark.parametrize(("code", "support", "told", "edit"), TILE_SEEN, ids=name)
def test_a_planted_fault_is_caught_before_witnesses(
    code: str, support: str, told: str, edit: Edit
) -> None:
    report = audit_plan(edit(deck(support)), witness=witness(support))
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{told}: {sorted(codes)}"
    assert "AUD-000" not in codes, f"{told}: {report.findings}"


@pytest.mark.parametrize(("key", "value"), [("rows.may_rip", False), ("site.roof", True)])
def test_a_brief_that_forbids_the_plan_is_held_against_it(key: str, value: bool) -> None:
    """Cut tiles where none may be, and a roof, which stops every plan."""
    seen = witness("pads")
    forbids = evolve(seen, brief=BRIEFS["pads"]().replace(key, value), brief_digest=None)
    report = audit_plan(deck("pads"), witness=forbids)
    assert "AUD-W71" in {finding.code for finding in report.findings}


def test_every_witnessed_check_of_tiles_has_its_fault() -> None:
    assert {code for code, *_ in tile_seen.CHECKS} <= {code for code, *_ in TILE_SEEN}
