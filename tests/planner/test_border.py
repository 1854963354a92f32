"""A border of one board round a field of another: laid, jointed, bought, told on papers."""

import json
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from border_decks import (
    DECK,
    YARD,
    brief,
    edge,
    families,
    planned,
    stock,
    told,
)
from drylay.brief.model import BorderWish
from drylay.cutting.check_proof import main as check_proof
from drylay.findings import Severity
from drylay.materials.stock_model import StockLength
from drylay.plan.model import Plan
from some_families import with_families
from whole_decks import whole_case


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(brief(border={"article": "EDGE", "rows": 2}))


def test_the_border_is_the_first_and_the_last_rows(plan: Plan) -> None:
    """2400 less twice 2 x 95 + 5 + 5 is 2000: 13 x 145 + 12 x 5 = 1945, and 55 are left over."""
    border = plan.surface.border
    assert (border.rows, border.width_mm, border.beside_mm) == (2, 95.0, 5.0)
    assert border.field_depth_mm == 2000.0
    assert [row.border for row in plan.surface.rows[:3]] == [True, True, False]
    assert [row.near_mm for row in plan.surface.rows[:3]] == [0.0, 100.0, 200.0]
    assert sum(row.border for row in plan.surface.rows) == 4
    assert plan.surface.whole_rows == 13
    assert plan.surface.remainder_mm == 55.0


def test_each_board_is_bought_from_its_own_article_with_its_own_proof(plan: Plan) -> None:
    """Four border rows of 4800 in one piece, 15.00 each, cannot be cheaper than 4 x 15.00."""
    boards, edged, frame = plan.buying.purchases
    assert [part.what for part in (boards, edged, frame)] == ["boards", "border boards", "frame"]
    assert edged.article == "EDGE"
    assert {length.mark[0] for length in edged.lengths} == {"E"}
    assert edged.cost == Decimal("60.00")
    assert drylay.verify(edged.proof).holds
    assert drylay.verify(boards.proof).holds
    marks = {mark for length in edged.lengths for mark in length.pieces}
    rows = {row.mark for row in plan.surface.rows if row.border}
    assert {piece.mark for piece in plan.pieces.pieces if piece.row in rows} == marks
    spare = [line for line in plan.buying.spares if line.article == "EDGE"]
    assert sum(line.quantity for line in spare) == 1  # 5 % of 4, rounded up


def test_the_proof_slip_counts_the_border_too(plan: Plan, tmp_path: Path, capsys) -> None:
    papers = drylay.papers(plan)
    (tmp_path / "proof.json").write_bytes(papers["proof.json"])
    assert check_proof(tmp_path / "proof.json") == 0
    assert "border boards: holds" in capsys.readouterr().out
    told_wrong = json.loads(papers["proof.json"])
    assert json.dumps(told_wrong).count("border boards") == 1


def test_screws_are_counted_for_each_board(plan: Plan) -> None:
    """4 border rows, and the field's others, two screws at each crossing."""
    fixings, joists = plan.fixings, len(plan.frame.joists)
    field = sum(not row.border for row in plan.surface.rows)
    assert fixings.border_screws.crossings == 4 * joists
    assert fixings.border_screws.count == 8 * joists
    assert fixings.deck_screws.crossings == field * joists
    (pack,) = [pack for pack in plan.buying.packs if pack.article == "DS-45-70"]
    assert pack.need == fixings.border_screws.count + fixings.deck_screws.count
    assert pack.what == "deck screws, border screws"


def test_the_plan_stands_before_all_witnesses_and_goes_round_its_file(plan: Plan) -> None:
    asked = brief(border={"article": "EDGE", "rows": 2})
    report = drylay.audit(plan, brief=asked, stock=stock(), families=families())
    assert report.findings == ()
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan


def test_a_border_with_a_screw_of_its_own() -> None:
    asked = brief(border={"article": "EDGE", "screw": "DS-50-80"})
    plan = planned(asked)
    assert plan.fixings.border_screws.article == "DS-50-80"
    assert {pack.what for pack in plan.buying.packs} >= {"deck screws", "border screws"}
    assert drylay.audit(plan, brief=asked, stock=stock(), families=families()).findings == ()


def test_a_measured_border() -> None:
    """2400 less twice 94.6 + 5 leaves 2200.8."""
    asked = brief(border={"article": "EDGE", "measured_width_mm": 94.6})
    plan = planned(asked)
    assert plan.surface.border.width_mm == 94.6
    assert plan.surface.border.field_depth_mm == 2200.8
    assert drylay.audit(plan, brief=asked, stock=stock(), families=families()).findings == ()


def test_ends_are_sealed_and_waxed_each_by_its_family() -> None:
    """Softwood seals and does not wax; this border waxes and does not seal."""
    short = {"along_mm": 4700, "across_mm": 2400}
    asked = brief(cover=short)
    plan = planned(asked, seal_board_ends=0, wax_board_ends=1)
    assert [part.what for part in plan.fixings.wax.parts] == ["border boards"]
    kinds = [part.what for part in plan.fixings.preserver.parts]
    assert "boards" in kinds
    assert "border boards" not in kinds
    values = {"seal_board_ends": 0, "wax_board_ends": 1}
    report = drylay.audit(plan, brief=asked, stock=stock(), families=families(**values))
    assert report.findings == ()


def test_a_handed_border_has_arrows_and_the_field_none() -> None:
    plan = planned(handed=1)
    rows = {row.mark for row in plan.surface.rows if row.border}
    assert {(piece.row in rows, piece.arrow) for piece in plan.pieces.pieces} == {
        (True, "right"), (False, ""),
    }  # fmt: skip
    summary = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    assert "no piece of the border's boards may be turned" in summary


def test_boards_that_turn_have_their_border_at_the_other_two_sides() -> None:
    asked = brief(
        board={"article": "DB-28-145", "may_turn": True},
        cover={"along_mm": 2405, "across_mm": 3000},
        rows={"prefer": ["turn"]},
    )
    plan = planned(asked)
    assert plan.surface.run == "across"
    assert plan.surface.border.field_depth_mm == 2405.0 - 2 * (95 + 5)
    assert drylay.audit(plan, brief=asked, stock=stock(), families=families()).findings == ()


def test_both_families_answer_for_the_plan_and_caution() -> None:
    plan = planned()
    assert [family.id for family in plan.families] == ["softwood", "edging"]
    assert "Handle with care." in plan.cautions


def test_papers_tell_of_the_border() -> None:
    plan = planned(brief(border={"article": "EDGE", "rows": 1}), handed=1)
    papers = {name: paper.decode() for name, paper in drylay.papers(plan).items()}
    assert 'id="boards-border-rows-hatch"' in papers["boards.svg"]
    assert "border hatched, B1" in papers["boards.svg"]
    assert ", border</text>" in papers["boards.svg"]
    assert "border EDGE, 95 x 28" in papers["section.svg"]
    assert "border screw 4.5 x 70" in papers["section.svg"]
    assert "EDGE" in papers["rod.svg"]
    assert "border boards: EDGE" in papers["bars.svg"]
    for name in ("summary.txt", "jobsheet.html"):
        assert "EDGE" in papers[name]
        assert "border screws DS-45-70" in papers[name]
    assert "border board" in papers["labels.csv"]
    assert "E1,EDGE,4800" in papers["cuts.csv"]
    assert "edge board (invented)" in papers["order.csv"]
    steps = " ".join(step for task in plan.work.tasks for step in task.steps)
    assert "are the border's, of its own board" in steps


@pytest.mark.parametrize(
    ("border", "path", "says"),
    [
        ({"rows": 2}, "border.article", "nothing with border.rows"),
        ({"screw": "DS-45-70"}, "border.article", "nothing with border.screw"),
        ({"article": "DB-28-145"}, "border.article", "the field's own board"),
        ({"article": "EDGE", "rows": 4}, "border.rows", "4"),
    ],
)
def test_a_border_that_makes_no_sense_is_refused(border: dict, path: str, says: str) -> None:
    (fault,) = drylay.check_brief({**DECK, "border": border})
    assert fault.path == path
    assert says in fault.found


def test_a_border_that_nobody_sells_is_refused() -> None:
    with pytest.raises(drylay.BriefError) as caught:
        drylay.design(brief(), stock=YARD)
    assert caught.value.faults[0].path == "border.article"


def test_a_border_of_a_family_that_nobody_supplies_stops_the_plan() -> None:
    plan = drylay.design(brief(), stock=stock(), families=with_families())
    subjects = {f.subject for f in plan.findings if f.code == "MAT-001"}
    assert "surface.border.gap_least_mm" in subjects
    assert not plan.buildable


def test_a_border_that_cannot_be_cut_says_so() -> None:
    short = (StockLength(length_mm=400.0, price=Decimal("1.00")),)
    (stop,) = told(planned(sold=stock(lengths=short)), "BUY-001")
    assert stop.subject == "border boards"


@pytest.mark.parametrize("seed", range(100, 104))
def test_random_decks_with_a_border_stand_before_the_audit(seed: int) -> None:
    asked, sold = whole_case(seed, most_mm=4_000)
    values = {
        "gap_least_mm": 3.0 + seed % 3, "gap_preferred_mm": 5.0 + seed % 2, "gap_most_mm": 7.0,
        "end_gap_mm": 3.0, "stagger_bays": 1 + seed % 3, "handed": seed % 2,
        "seal_board_ends": seed % 2, "wax_board_ends": 1, "predrill_all": seed % 2,
        "density_most_kg_m3": 1000.0, "most_centres_mm": 350.0 + 50 * (seed % 3),
    }  # fmt: skip
    thick = 28.0 if seed % 2 else sold.boards[0].thickness_mm
    sold = evolve(sold, boards=(*sold.boards, edge(thickness_mm=thick, faces=None)))
    asked = evolve(asked, border=BorderWish(article="EDGE", rows=1 + seed % 3))
    plan = drylay.design(asked, stock=sold, families=families(**values))
    report = drylay.audit(plan, brief=asked, stock=sold, families=families(**values))
    assert [f for f in report.findings if f.severity is Severity.STOP] == []
    if plan.buildable:
        assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
        drylay.papers(plan)
