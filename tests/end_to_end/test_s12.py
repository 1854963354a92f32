"""S12, an L round a bay with a wing: every answer, worked separately from the library.

The answers, their proof and their origin are in tests/reference/S12-answers.toml.
"""

from decimal import Decimal

import pytest

import drylay
from drylay.plan.model import Plan
from end_to_end.outlined import boards_m, reference_answers, reference_plan, said

ANSWERS = reference_answers("S12")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return reference_plan("S12")


def stretches(plan: Plan) -> dict[str, list[float]]:
    """Return by row the lengths of its stretches: pieces that meet at a joint together."""
    found: dict[str, list[float]] = {}
    for piece in plan.laying.pieces:
        lengths = found.setdefault(piece.row, [])
        if piece.from_member:
            lengths[-1] += plan.laying.end_gap_mm + piece.length_mm
        else:
            lengths.append(piece.length_mm)
    return found


def test_area(plan: Plan) -> None:
    area = ANSWERS["net_area"]
    assert plan.outline.net_m2 == pytest.approx(area["value"], abs=area["tol"])


def test_rows(plan: Plan) -> None:
    rows = stretches(plan)
    assert len(rows) == ANSWERS["rows_total"]["value"]
    full = [lengths for lengths in rows.values() if lengths == [6445.0]]
    assert len(full) == ANSWERS["rows_full_length"]["value"]
    split = [lengths for lengths in rows.values() if len(lengths) == 2]
    assert len(split) == ANSWERS["rows_split_by_bay"]["value"]
    for at, side in enumerate(("left", "right")):
        wanted = ANSWERS[f"bay_{side}_pieces_tip_to_tip"]
        assert [each[at] for each in split] == pytest.approx(wanted["value"], abs=wanted["tol"])
    wing = [lengths for lengths in rows.values() if lengths == [1645.0]]
    assert len(wing) == ANSWERS["rows_in_wing_only"]["value"]
    assert ANSWERS["wing_piece_length"]["value"] == 1645
    assert plan.laying.splay_cuts == ANSWERS["splay_cuts"]["value"]


def test_joists_and_joints(plan: Plan) -> None:
    assert plan.subframe.line_count == ANSWERS["joist_lines"]["value"]
    assert plan.subframe.lines_mm[12] - 22.5 == 4800  # its face on the wing's edge
    assert plan.laying.joint_count == ANSWERS["joints_total"]["value"]


def test_least_length_bought_with_its_bound(plan: Plan) -> None:
    bought = plan.buying.purchases[0]
    assert boards_m(plan) == ANSWERS["least_total_length_bought"]["value"]
    assert bought.bound == Decimal("160.80")
    assert bought.gap == 0
    assert drylay.verify(bought.proof).holds


def test_screws_and_fascia(plan: Plan) -> None:
    wanted = ANSWERS["board_screws"]
    assert plan.fixings.deck_screws.count == pytest.approx(wanted["value"], abs=wanted["tol"])
    run = ANSWERS["fascia_run"]
    exposed = sum(side.length_mm for side in plan.outline.sides if side.kind == "open")
    assert exposed == pytest.approx(run["value"], abs=run["tol"])


def test_what_it_must_say(plan: Plan) -> None:
    assert "rows continue through the corner in one line" in said(plan)
    assert "rims, trimmers or blocking lie under every cut end" in said(plan)
    assert "the gap to the house wall is kept" in said(plan)
