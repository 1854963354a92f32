"""S09, boards at forty-five degrees: every answer, worked separately from the library.

The answers and their origin are in tests/reference/S09-answers.toml.
"""

import pytest

import drylay
from drylay.plan.model import Plan
from end_to_end.outlined import boards_m, reference_answers, reference_plan, said

ANSWERS = reference_answers("S09")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return reference_plan("S09")


def test_rows_on_the_diagonal(plan: Plan) -> None:
    laying = plan.laying
    assert laying.row_count == ANSWERS["rows"]["value"]
    last = ANSWERS["last_row_visible_width"]
    assert laying.zones[0].last_row_mm == pytest.approx(last["value"], abs=last["tol"])
    across = (laying.row_count - 1) * (laying.board_width_mm + 5) + laying.zones[0].last_row_mm
    assert across == pytest.approx(ANSWERS["across_diagonal"]["value"], abs=1)


def test_lengths_tip_to_tip(plan: Plan) -> None:
    longest = ANSWERS["longest_piece_tip_to_tip"]
    found = max(piece.length_mm for piece in plan.laying.pieces)
    assert found == pytest.approx(longest["value"], abs=longest["tol"])
    total = ANSWERS["sum_tip_to_tip"]
    assert plan.laying.tip_to_tip_m == pytest.approx(total["value"], abs=total["tol"])
    face = ANSWERS["timber_face_area"]
    assert plan.laying.face_m2 == pytest.approx(face["value"], abs=face["tol"])


def test_joists_stand_closer(plan: Plan) -> None:
    most = ANSWERS["max_joist_centres_on_diagonal"]
    assert plan.subframe.most_centres_mm == pytest.approx(most["value"], abs=most["tol"])
    assert plan.subframe.line_count == ANSWERS["joist_count"]["value"]
    assert plan.subframe.centres_mm <= plan.subframe.most_centres_mm


def test_boards_to_buy_with_their_proof(plan: Plan) -> None:
    bought = plan.buying.purchases[0]
    assert len(bought.lengths) <= ANSWERS["boards_to_buy"]["value"]
    assert bought.gap == 0
    assert drylay.verify(bought.proof).holds
    waste = ANSWERS["waste_share"]
    area_m2 = boards_m(plan) * plan.laying.board_width_mm / 1000
    assert 1 - plan.laying.face_m2 / area_m2 == pytest.approx(waste["value"], abs=waste["tol"])


def test_screws(plan: Plan) -> None:
    wanted = ANSWERS["board_screws"]
    assert plan.fixings.deck_screws.count == pytest.approx(wanted["value"], abs=wanted["tol"])


def test_what_it_must_say(plan: Plan) -> None:
    assert "joists stand closer for diagonal boards" in said(plan)
    assert "rims, trimmers or blocking lie under every cut end" in said(plan)
