"""The audit's own running: broken checks, missing parts, plans beyond belief, paths."""

import random
from collections.abc import Iterator
from decimal import Decimal

import pytest
from attrs import evolve

from audit.buying_faults import SPLIT
from audit.edits import put
from audit.outlined_faults import OF_OUTLINES
from audit.outlined_ground_faults import OF_GROUND
from audit.planting import finding
from audit.sample import sample_plan, sample_witness
from audit.test_standing import OF_STANDING, OF_STANDING_APART
from audit.tile_faults import OF_TILES
from audit.wreck import PARTS, wrecks
from drylay.audit import closed, laid, outlined_stands, outlined_tile_checks, proofs
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.leaves import NoSuchPath, at, leaves
from drylay.audit.model import Flaw
from drylay.audit.packs import least_price
from drylay.audit.worth import TooMuchWork
from drylay.findings import Severity
from drylay.plan.model import Plan


def broken(_plan: Plan) -> Iterator[Flaw]:
    raise ZeroDivisionError("by nothing")


def test_a_check_that_cannot_cope_is_a_stop(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(closed, "CLOSED", (closed.FIRST, ("AUD-777", "all is well", broken)))
    (found,) = closed.audit_plan(sample_plan()).findings
    assert (found.code, found.severity, found.subject) == ("AUD-000", Severity.STOP, "AUD-777")
    assert "all is well" in found.message
    assert "by nothing" in found.message


def test_nothing_else_is_measured_where_a_number_is_none() -> None:
    report = closed.audit_plan(put(sample_plan(), "surface.board_width_mm", float("inf")))
    assert report.checks == ("AUD-001",)
    assert [finding.subject for finding in report.findings] == ["surface.board_width_mm"]
    assert not report.sound


def test_a_blocked_plan_without_parts_is_sound() -> None:
    plan = sample_plan()
    for part in PARTS:
        plan = put(plan, part, None)
    plan = evolve(
        plan,
        reasons=evolve(plan.reasons, decisions=()),
        findings=(finding(severity=Severity.STOP),),
    )
    for report in (closed.audit_plan(plan), closed.audit_plan(plan, witness=sample_witness())):
        assert report.sound
        assert report.findings == ()
        assert len(report.not_run) > 80
    assert closed.audit_plan(plan).trusted == ()


def test_reports_name_what_ran() -> None:
    report = closed.audit_plan(sample_plan())
    of_tiles = {code for code, *_ in outlined_tile_checks.CHECKS}
    standing = (OF_STANDING - {"AUD-354"}) | {code for code, *_ in outlined_stands.CHECKS}
    standing |= OF_STANDING_APART
    of_laid = {code for code, *_ in laid.CHECKS}  # no row of it lies yet
    idle = OF_TILES | OF_OUTLINES | OF_GROUND | of_tiles | standing | of_laid
    assert report.checks == tuple(code for code, *_ in closed.CLOSED if code not in idle)
    assert report.witnesses == ()
    report = closed.audit_plan(sample_plan(), witness=sample_witness())
    assert report.witnesses == (
        "brief", "stock", "families", "local rules", "digest of the brief", "digest of the stock",
    )  # fmt: skip


def test_every_finding_has_figures_with_a_source() -> None:
    report = closed.audit_plan(put(sample_plan(), "supports.most_centres_mm", 399.9))
    (found,) = (f for f in report.findings if f.code == "AUD-301" and f.subject == "J1-J2")
    assert (found.measured, found.limit, found.unit) == (400.0, 399.9, "mm")
    assert found.source.title == "docs/conventions.md"


def test_plans_beyond_belief_break_no_check() -> None:
    chosen = random.Random(20261125).sample(list(wrecks(sample_plan())), 500)
    for path, wreck, plan in chosen:
        report = closed.audit_plan(plan, witness=sample_witness())
        broke = [finding for finding in report.findings if finding.code == "AUD-000"]
        assert not broke, f"{path} = {wreck}: {broke}"


def too_much(_proof: object) -> tuple[str, int]:
    raise TooMuchWork("a test")


def test_a_proof_beyond_the_audits_means_is_a_caution(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(proofs, "bound_holds", too_much)
    report = closed.audit_plan(sample_plan())
    assert report.sound
    assert {finding.code for finding in report.findings} == {"AUD-823"}


def test_splits_beyond_the_audits_means_are_a_caution_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(proofs, "demands_of", too_much)
    path = "buying.purchases[0].proof.certificate"
    plan = put(put(sample_plan(), f"{path}.splits", (SPLIT,)), f"{path}.nodes", 1)
    report = closed.audit_plan(plan)
    # one vector is claimed to show it alone, so the split is counted as none too
    assert {finding.code for finding in report.findings} == {"AUD-823", "AUD-824"}


def test_a_bound_on_the_solvers_word_is_trusted() -> None:
    plan = sample_plan()
    for path in ("grade", "proof.certificate.grade"):
        plan = put(plan, f"buying.purchases[0].{path}", "resting on the solver")
    plan = put(plan, "buying.purchases[0].proof.certificate.vectors", ())
    report = closed.audit_plan(plan)
    assert report.findings == ()
    assert "buying.purchases[0].bound" in {value.path for value in report.trusted}


@pytest.mark.parametrize(
    "path", ["", "roof", "surface.rows[9]", "surface.rows[0].mark.x", "surface rows", "units[0]"]
)
def test_a_path_to_nothing(path: str) -> None:
    with pytest.raises(NoSuchPath):
        at(sample_plan(), path)


def test_a_path_to_something() -> None:
    assert at(sample_plan(), "frame.joists[3].offset_mm") == 1242.5
    assert ("frame.joists[3].offset_mm", 1242.5) in set(leaves(sample_plan().frame, "frame"))


def test_packs_counted_out() -> None:
    """12 from packs of 5 (4.00) and 7 (5.00): 5 + 7 for 9.00, against 3 x 5 for 12.00."""
    sizes = ((5, Decimal(4)), (7, Decimal(5)))
    assert least_price(12, sizes) == 9
    assert least_price(0, sizes) == 0
    assert least_price(12, ((0, Decimal(1)),)) is None
    with pytest.raises(NothingToMeasure):
        least_price(10**9, sizes)
