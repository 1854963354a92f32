"""A border's boards grow by their own record or family, apart from the field's."""

from itertools import pairwise

import pytest
from attrs import evolve

import drylay
from border_decks import RECORD, YARD, brief, edge, families, told
from drylay.brief.model import Brief
from drylay.findings import Finding
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.plan.model import Plan

#: Boards of plastic and wood grow 35 millionths a kelvin; timber along its grain about 4. Invented.
FIELD, EDGE = 4e-6, 35e-6
DAY = {"laying_c": 10, "hottest_board_c": 60, "coldest_board_c": -10}
RULES = {"growth_per_k": EDGE, "end_gap_mm": 6.0, "end_bearing_least_mm": 15.0}


def wish(**climate: float) -> Brief:
    return brief(cover={"along_mm": 7200, "across_mm": 900}, climate={**DAY, **climate})


def sold(field_per_k: float | None = FIELD) -> Catalogue:
    own = (() if field_per_k is None
           else (ArticleRule(rule="growth_per_k", value=field_per_k, source=RECORD),))  # fmt: skip
    boards = tuple(evolve(b, rules=own) if b.code == "DB-28-145" else b for b in YARD.boards)
    return evolve(YARD, boards=(*boards, edge()))


def planned(asked: Brief, stock: Catalogue, **values: float) -> Plan:
    return drylay.design(asked, stock=stock, families=families(**{**RULES, **values}))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(wish(), sold())


def of_the_border(plan: Plan, code: str) -> list[Finding]:
    return [finding for finding in told(plan, code) if finding.subject == "border's end gap"]


def between_mm(plan: Plan, *, border: bool) -> float:
    """Return the most between the middles of two boards that meet: half their lengths together."""
    rows = {row.mark: row.border for row in plan.surface.rows}
    met: list[float] = []
    laid = [piece for piece in plan.pieces.pieces if rows[piece.row] == border]
    for one, other in pairwise(laid):
        if one.row == other.row:
            met.append((one.length_mm + other.length_mm) / 2)
    return max(met)


def test_each_board_grows_by_its_own(plan: Plan) -> None:
    """4800, the longest of either on sale, times 35e-6 or 4e-6 times 60 - 10 kelvin."""
    field, border = plan.pieces.movement, plan.pieces.border.movement
    assert (field.growth_per_k, border.growth_per_k) == (FIELD, EDGE)
    assert border.board_mm == 4800.0
    assert border.growth_mm == pytest.approx(8.4)
    assert (border.laying_c, border.hottest_c, border.coldest_c) == (10.0, 60.0, -10.0)
    assert plan.why("pieces.border.movement.growth_per_k").value == EDGE


def test_gaps_through_the_year_are_each_boards_own(plan: Plan) -> None:
    """Gap less the way between two middles times growth times kelvins: 50 up, 20 down."""
    border, edge_mm = plan.pieces.border, between_mm(plan, border=True)
    assert border.end_gap_mm == 6.0
    assert border.movement.narrowest_mm == pytest.approx(6.0 - edge_mm * EDGE * 50)
    assert border.movement.widest_mm == pytest.approx(6.0 + edge_mm * EDGE * 20)
    field, gap_mm = plan.pieces.movement, plan.pieces.end_gap_mm
    assert field.narrowest_mm == pytest.approx(gap_mm - between_mm(plan, border=False) * FIELD * 50)


def test_a_border_that_presses_is_told_and_the_field_is_not() -> None:
    plan = planned(wish(), sold(), end_gap_mm=1.0)
    (pressing,) = told(plan, "MOV-102")
    assert pressing.subject == "border's end gap"
    assert pressing.measured == plan.pieces.border.movement.narrowest_mm
    assert pressing.measured < 0
    assert len(told(plan, "MOV-101")) == 2


def test_papers_tell_both(plan: Plan) -> None:
    papers = drylay.papers(plan)
    for name in ("summary.txt", "jobsheet.html"):
        text = " ".join(papers[name].decode().split())
        assert "Border: end gap 6" in text
        assert "35 millionths" in text
        assert "4 millionths" in text


def test_a_field_that_nobody_tells_of_leaves_the_border_its_own() -> None:
    plan = planned(wish(), sold(None))
    assert plan.pieces.movement is None
    assert plan.pieces.border.movement.growth_per_k == EDGE
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan


def test_it_stands_before_all_witnesses(plan: Plan) -> None:
    report = drylay.audit(plan, brief=wish(), stock=sold(), families=families(**RULES))
    assert report.findings == ()


@pytest.mark.parametrize(
    ("code", "field", "by"),
    [("AUD-417", "narrowest_mm", 1.0), ("AUD-417", "growth_mm", 1.0),
     ("AUD-417", "widest_mm", -1.0), ("AUD-417", "laying_c", 3.0), ("AUD-418", "board_mm", -2400.0),
     ("AUD-W09", "growth_per_k", 1e-6), ("AUD-W09", "coldest_c", 5.0),
     ("AUD-902", "hottest_c", 5.0)],
)  # fmt: skip
def test_a_fault_in_it_is_caught(plan: Plan, code: str, field: str, by: float) -> None:
    border = plan.pieces.border
    spoilt = evolve(border.movement, **{field: getattr(border.movement, field) + by})
    wrong = evolve(plan, pieces=evolve(plan.pieces, border=evolve(border, movement=spoilt)))
    report = drylay.audit(wrong, brief=wish(), stock=sold(), families=families(**RULES))
    assert code in {finding.code for finding in report.findings}


def test_a_border_that_presses_and_is_hushed_is_caught() -> None:
    plan = planned(wish(), sold(), end_gap_mm=1.0)
    for code in ("MOV-101", "MOV-102"):
        kept = tuple(f for f in plan.findings if f not in of_the_border(plan, code))
        report = drylay.audit(evolve(plan, findings=kept))
        assert "AUD-418" in {finding.code for finding in report.findings}
