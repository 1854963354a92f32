"""S03, a deck longer than any board on sale: every answer, worked separately from the library.

The answers and their proof are in tests/reference/S03-answers.toml with their origin.
"""

import itertools
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

import drylay
from drylay.marks import exact
from drylay.plan.model import Plan

REFERENCE = Path(__file__).parents[1] / "reference"
BRIEF = drylay.read_brief(REFERENCE / "S03.toml")
STOCK = drylay.load_catalogue(REFERENCE / "S03-stock.toml")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return drylay.design(BRIEF, stock=STOCK)


@pytest.fixture(scope="module")
def answers() -> dict[str, dict[str, object]]:
    text = (REFERENCE / "S03-answers.toml").read_text(encoding="utf-8")
    return {answer["key"]: answer for answer in tomllib.loads(text)["answer"]}


def boards_m(plan: Plan) -> float:
    return sum(length.length_mm for length in plan.buying.purchases[0].lengths) / 1000


def stagger_mm(plan: Plan) -> float:
    by_row = {}
    for joint in plan.pieces.joints:
        by_row.setdefault(joint.row, []).append(joint.centre_mm)
    rows = [by_row[row.mark] for row in plan.surface.rows]
    return min(abs(a - b) for one, two in itertools.pairwise(rows) for a in one for b in two)


def test_rows(plan: Plan, answers: dict) -> None:
    assert len(plan.surface.rows) == answers["rows"]["value"]
    assert plan.surface.remainder_mm == pytest.approx(answers["row_remainder"]["value"], abs=0.5)
    gaps = {row.gap_mm for row in plan.surface.rows[1:]}
    assert gaps == {answers["gap"]["value"]}


def test_joists(plan: Plan, answers: dict) -> None:
    assert len(plan.frame.joists) == answers["joist_count"]["value"]
    centres = [joist.offset_mm for joist in plan.frame.joists]
    assert centres == pytest.approx(answers["joist_centres"]["value"], abs=1)


def test_joints(plan: Plan, answers: dict) -> None:
    assert plan.pieces.joint_count == answers["joints_total"]["value"]
    assert {j.centre_mm for j in plan.pieces.joints} <= set(
        answers["joint_positions_allowed"]["value"]
    )
    assert stagger_mm(plan) >= answers["stagger_min"]["value"]
    assert len(plan.pieces.pieces) == answers["cut_pieces"]["value"]


def test_least_length_bought_with_its_bound(plan: Plan, answers: dict) -> None:
    boards = plan.buying.purchases[0]
    assert boards_m(plan) <= answers["least_total_length_bought"]["value"]
    assert boards.bound == Decimal("132.00")
    assert boards.gap == 0
    assert drylay.verify(boards.proof).holds


def test_least_length_from_the_longest_board_alone(answers: dict) -> None:
    plan = drylay.design(BRIEF, stock=STOCK.without("S03-board", length_mm=3600.0))
    assert boards_m(plan) <= answers["least_total_if_4800_only"]["value"]
    assert plan.buying.purchases[0].bound == Decimal("144.00")


def test_screws_and_diagonal(plan: Plan, answers: dict) -> None:
    assert plan.fixings.deck_screws.count == answers["board_screws"]["value"]
    assert plan.frame.diagonal_mm == pytest.approx(answers["frame_diagonal"]["value"], abs=0.5)


def test_it_says_what_must_be_said(plan: Plan, answers: dict) -> None:
    """Our wording for each meaning the answers ask for."""
    wording = {
        "board shorter than deck so joints needed": "boards are shorter than the deck",
        "joint centred on joist": "every joint is centred on a joist",
        "neighbouring rows staggered": "joints of neighbouring rows are staggered",
    }
    said = " ".join(finding.message for finding in plan.findings)
    for meaning in answers["must_say"]["value"]:
        assert wording[meaning] in said
    summary = drylay.papers(plan)["summary.txt"].decode()
    for words in wording.values():
        assert words.split()[-1] in summary


def test_every_piece_price_of_the_separate_proof_holds_for_our_pieces(plan: Plan) -> None:
    """The separate proof's prices: no board holds more than its price, every row is worth 6.60.

    e4-e6 are worth 1.80, e7 3.00, e8 3.60, e9-e11 4.80 (metres); each row has one joint.
    """
    worth = {4: 180, 5: 180, 6: 180, 7: 300, 8: 360, 9: 480, 10: 480, 11: 480}
    bays = {exact(400 * n + 22.5 - 2): n for n in worth}
    total = sum(worth[bays[exact(piece.cut_mm)]] for piece in plan.pieces.pieces)
    assert total >= 13_200


def test_the_plan_stands_before_the_audit_with_all_its_witnesses(plan: Plan) -> None:
    report = drylay.audit(plan, brief=BRIEF, stock=STOCK, families=drylay.installed_families())
    assert report.findings == ()
    assert report.audit == "witnessed"
