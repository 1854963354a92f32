"""S10, a mitred picture frame: every answer, worked separately from the library.

The answers and their origin are in tests/reference/S10-answers.toml.
"""

import pytest

import drylay
from drylay.plan.model import Plan
from end_to_end.outlined import boards_m, reference_answers, reference_plan, said

ANSWERS = reference_answers("S10")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return reference_plan("S10")


def border(plan: Plan) -> list:
    return [piece for piece in plan.laying.pieces if piece.kind == "border"]


def test_the_field(plan: Plan) -> None:
    assert plan.laying.row_count == ANSWERS["field_rows"]["value"]
    gap = ANSWERS["gap_across"]
    assert plan.laying.zones[0].gap_mm == pytest.approx(gap["value"], abs=gap["tol"])
    long = ANSWERS["field_board_length"]
    field = {piece.length_mm for piece in plan.laying.pieces if piece.kind == "field"}
    assert max(field) == min(field) == pytest.approx(long["value"], abs=long["tol"])


def test_the_mitres(plan: Plan) -> None:
    outer = sorted({piece.cut_mm for piece in border(plan)}, reverse=True)
    assert outer == pytest.approx(ANSWERS["mitre_lengths_outer"]["value"], abs=0.5)
    inner = []
    for piece in border(plan):
        (x3, y3), (x4, y4) = ((c.along_mm, c.across_mm) for c in piece.corners[2:])
        inner.append(abs(x3 - x4) + abs(y3 - y4))
    assert sorted(set(inner), reverse=True) == pytest.approx(
        ANSWERS["mitre_lengths_inner"]["value"], abs=0.5
    )
    long = {mitre.length_mm for mitre in plan.laying.mitres}
    assert max(long) == min(long) == pytest.approx(ANSWERS["mitre_cut_length"]["value"], abs=0.3)
    cuts = sum(bool(piece.start_deg) + bool(piece.end_deg) for piece in border(plan))
    assert cuts == ANSWERS["mitre_cuts"]["value"]


def test_the_frame(plan: Plan) -> None:
    frame = plan.subframe
    assert frame.line_count == ANSWERS["joist_count"]["value"]
    assert frame.lines_mm == pytest.approx(ANSWERS["joist_centres"]["value"], abs=1)
    (extra,) = [finding for finding in plan.findings if finding.code == "BDR-020"]
    assert extra.measured == ANSWERS["extra_joists_for_border"]["value"]
    corners = [side.start for side in plan.outline.sides]
    diagonal = ((corners[0].along_mm - corners[2].along_mm) ** 2
                + (corners[0].across_mm - corners[2].across_mm) ** 2) ** 0.5  # fmt: skip
    assert diagonal == pytest.approx(ANSWERS["frame_diagonal"]["value"], abs=0.5)


def test_boards_to_buy_with_their_proof(plan: Plan) -> None:
    bought = plan.buying.purchases[0]
    assert len(bought.lengths) == ANSWERS["boards_to_buy"]["value"]
    assert boards_m(plan) <= ANSWERS["least_total_length_bought"]["value"]
    assert bought.gap == 0
    assert drylay.verify(bought.proof).holds


def test_screws(plan: Plan) -> None:
    assert plan.fixings.deck_screws.count == ANSWERS["board_screws"]["value"]


def test_what_mitres_do_as_they_dry(plan: Plan) -> None:
    opens = ANSWERS["mitre_opening_at_heel"]
    assert plan.laying.mitre_opens_mm == pytest.approx(opens["value"], abs=opens["tol"])
    lost = ANSWERS["board_width_loss"]
    decided = plan.why("laying.mitre_opens_mm")
    assert dict(decided.inputs)["width_lost_mm"] == pytest.approx(lost["value"], abs=lost["tol"])


def test_what_it_must_say(plan: Plan) -> None:
    assert "extra joists and noggins carry the border's inner edge" in said(plan)
    assert "mitres open at the heel as wide boards dry" in said(plan)
