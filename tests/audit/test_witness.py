"""Witnesses that say otherwise than the plan, or that are not all at hand."""

from decimal import Decimal

import pytest
from attrs import evolve

from audit.edits import put
from audit.sample import sample_plan, sample_witness
from drylay.audit import outlined_tile_seen, outlined_witnessed, standing_seen, tile_seen
from drylay.audit.closed import WITNESSED, audit_plan
from drylay.audit.model import Witness
from drylay.brief.model import Override
from drylay.materials.stock_model import ArticleRule, Pack
from drylay.plan.model import Plan
from drylay.reasons import Source


def codes(plan: Plan, witness: Witness) -> set[str]:
    return {finding.code for finding in audit_plan(plan, witness=witness).findings}


RIPPED = put(sample_plan(), "surface.rows[3].ripped", True)
PERSON = Override(
    path="surface.board_width_mm", value=144.0, unit="mm", by="A. Nobody", reason="measured"
)
RECORD = Source(kind="merchant record", title="a card")


@pytest.mark.parametrize(("use", "held"), [("dwelling", True), ("public", False)])
def test_a_record_of_centres_holds_without_families_for_a_dwelling_alone(
    use: str, held: bool
) -> None:
    """Elsewhere the merchant's 300 come down as the family's do, and nobody says how far."""
    record = ArticleRule(rule="most_centres_mm", value=300.0, source=RECORD)
    witness = put(sample_witness(), "brief.frame.most_centres_mm", None)
    witness = evolve(put(witness, "brief.use", use), rulings=None)
    witness = put(witness, "stock.boards[0].rules", (record,))
    report = audit_plan(put(sample_plan(), "use", use), witness=witness)
    told = {finding.subject for finding in report.findings if finding.code == "AUD-W09"}
    assert ("supports.most_centres_mm" in told) is held


def test_ripping_against_the_brief() -> None:
    witness = put(sample_witness(), "brief.rows.may_rip", False)
    assert "AUD-W06" in codes(RIPPED, witness)
    assert "AUD-W06" not in codes(sample_plan(), witness)


def test_a_way_out_that_the_brief_prefers() -> None:
    """Ripping the last row is honest and priced, so a brief that puts it first gets it."""
    rips = put(sample_witness(), "brief.rows.prefer", ("grow", "rip_last", "as_wished"))
    assert "AUD-W14" in codes(sample_plan(), rips)
    grows = put(sample_witness(), "brief.rows.prefer", ("grow", "as_wished", "rip_last"))
    assert "AUD-W14" not in codes(sample_plan(), grows)


def test_boards_to_be_trimmed_in_line() -> None:
    witness = put(sample_witness(), "brief.board.ends", "trim_in_line")
    long = put(witness, "brief.board.trim_allowance_mm", 20.0)
    assert "AUD-W07" in codes(sample_plan(), long)
    unsaid = audit_plan(sample_plan(), witness=witness)
    assert "AUD-W07" in {check.code for check in unsaid.not_run}


def test_a_joint_is_worth_100_mm_of_the_cheapest_board() -> None:
    """12.00 for 3000: 0.40 for 100 mm, by hand."""
    witness = put(sample_witness(), "brief.joints.price_each", None)
    assert "AUD-W08" in codes(sample_plan(), witness)
    priced = put(sample_plan(), "pieces.joint_price", Decimal("0.40"))
    assert "AUD-W08" not in codes(priced, witness)


def test_the_merchants_record_outranks_the_family() -> None:
    rules = (ArticleRule(rule="least_supports", value=4.0, source=RECORD),)
    witness = put(sample_witness(), "stock.boards[0].rules", rules)
    assert {"AUD-W09", "AUD-W10"} <= codes(sample_plan(), witness)


def test_a_measured_board_outranks_its_article_and_a_person_both() -> None:
    measured = put(sample_witness(), "brief.board.measured_width_mm", 144.5)
    assert "AUD-W21" in codes(sample_plan(), measured)
    named = put(measured, "brief.overrides", (PERSON,))
    plan = put(sample_plan(), "surface.board_width_mm", 144.0)
    assert "AUD-W21" not in codes(plan, named)


def test_a_better_choice_of_packs_on_sale() -> None:
    packs = (Pack(count=101, price=Decimal("15.00")), Pack(count=100, price=Decimal("12.00")))
    assert "AUD-W26" in codes(sample_plan(), put(sample_witness(), "stock.screws[0].packs", packs))


def test_heads_need_no_sinking_where_no_rim_carries_a_fascia() -> None:
    plan = put(sample_plan(), "edges.faces", ())
    held = audit_plan(plan, witness=sample_witness())
    assert "fixings.coach_screws.sink_mm" in {
        finding.subject for finding in held.findings if finding.code == "AUD-W09"
    }


@pytest.mark.parametrize("part", ["brief", "stock", "rulings"])
def test_a_missing_witness_is_told_and_what_it_would_vouch_for_is_trusted(part: str) -> None:
    plan, whole = sample_plan(), sample_witness()
    report = audit_plan(plan, witness=evolve(whole, **{part: None}))
    names = {"brief": "brief", "stock": "stock", "rulings": "families"}
    assert report.sound
    assert names[part] not in report.witnesses
    assert len(report.trusted) > len(audit_plan(plan, witness=whole).trusted)


def test_the_closed_audit_trusts_every_limit() -> None:
    trusted = {value.path for value in audit_plan(sample_plan()).trusted}
    assert {"supports.most_centres_mm", "surface.board_width_mm", "buying.order_total"} <= trusted
    assert "surface.ways_out[2].cost" in trusted


def test_an_article_gone_from_the_stock_leaves_its_checks_not_run() -> None:
    witness = put(sample_witness(), "stock.boards", ())
    report = audit_plan(sample_plan(), witness=witness)
    assert {"AUD-W21", "AUD-W22", "AUD-W25"} <= {check.code for check in report.not_run}


def test_one_digest_at_hand_is_held_against_the_plan() -> None:
    witness = evolve(sample_witness(), brief_digest=None, stock_digest="c" * 64)
    found = audit_plan(sample_plan(), witness=witness).findings
    assert [finding.subject for finding in found] == ["digests.stock"]


def test_a_deck_without_fascia_asks_for_none() -> None:
    plan = put(put(sample_plan(), "edges.faces", ()), "edges.fascia_article", "")
    witness = put(sample_witness(), "brief.fascia.sides", ())
    assert not {"AUD-W04", "AUD-W23"} & codes(plan, witness)


def test_a_plan_without_frame_and_fixings_is_held_to_its_board() -> None:
    plan = put(put(sample_plan(), "frame", None), "fixings", None)
    assert "AUD-W05" not in codes(plan, sample_witness())


def test_an_input_that_the_plan_does_not_hold_is_not_judged() -> None:
    inputs = (("lines", 3), ("moon", "full"))
    plan = put(sample_plan(), "reasons.decisions[0].inputs", inputs)
    assert codes(plan, sample_witness()) == set()


def test_every_witnessed_check_ran() -> None:
    report = audit_plan(sample_plan(), witness=sample_witness())
    elsewhere = (tile_seen, outlined_tile_seen, outlined_witnessed, standing_seen)
    of_boards = {code for code, *_ in WITNESSED} - {
        code for room in elsewhere for code, *_ in room.CHECKS
    }
    assert of_boards <= set(report.checks)


def test_a_wish_looser_than_its_rule_that_no_finding_tells() -> None:
    """The family wants 3 supports and 2 bays of stagger; MAT-002 has to tell of fewer."""
    looser = put(sample_witness(), "brief.joints.least_supports", 2)
    assert "AUD-W18" in codes(sample_plan(), looser)
    tighter = put(sample_witness(), "brief.joints.least_supports", 4)
    assert "AUD-W18" not in codes(sample_plan(), tighter)
    fewer = put(sample_witness(), "brief.joints.stagger_bays", 0)
    assert "AUD-W18" in codes(sample_plan(), fewer)


def test_an_input_that_names_a_whole_part_is_not_measured() -> None:
    """The noggins' reason may say how many joists it took: the plan holds them as a list."""
    plan = sample_plan()
    decisions = tuple(
        evolve(d, inputs=(*d.inputs, ("joists", 3))) if d.path == "frame.noggin_rows" else d
        for d in plan.reasons.decisions
    )
    told = evolve(plan, reasons=evolve(plan.reasons, decisions=decisions))
    assert "joists" in str(told.reasons)
    assert "AUD-902" not in {finding.code for finding in audit_plan(told).findings}
