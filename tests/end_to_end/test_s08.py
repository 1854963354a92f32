"""S08, composite boards over paired joists: every answer, worked separately from the library.

The answers and their origin are in tests/reference/S08-answers.toml.
"""

import math
import tomllib
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

import drylay
from drylay.plan.model import Plan
from drylay.planner.tries import reckoned
from drylay_composite.family import composite

REFERENCE = Path(__file__).parents[1] / "reference"
BRIEF = drylay.read_brief(REFERENCE / "S08.toml")
STOCK = drylay.load_catalogue(REFERENCE / "S08-stock.toml")
FAMILIES = drylay.installed_families(entry_points=(), extra=(composite(),))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return drylay.design(BRIEF, stock=STOCK, families=FAMILIES)


@pytest.fixture(scope="module")
def chosen() -> Plan:
    """The same deck without its lines told: drylay chooses where pairs stand."""
    return drylay.design(BRIEF.replace("joints.lines_mm", None), stock=STOCK, families=FAMILIES)


@pytest.fixture(scope="module")
def answers() -> dict[str, dict[str, object]]:
    text = (REFERENCE / "S08-answers.toml").read_text(encoding="utf-8")
    return {answer["key"]: answer for answer in tomllib.loads(text)["answer"]}


def close(answers: dict, key: str) -> object:
    return pytest.approx(answers[key]["value"], abs=answers[key]["tol"])


def test_rows_and_cover(plan: Plan, answers: dict) -> None:
    assert len(plan.surface.rows) == answers["rows"]["value"]
    assert plan.surface.cover_across_mm == close(answers, "across_boards_final")
    assert {row.gap_mm for row in plan.surface.rows[1:]} == {5.0}
    assert not any(row.ripped for row in plan.surface.rows)


def test_growth_and_end_gap(plan: Plan, answers: dict) -> None:
    movement = plan.pieces.movement
    assert movement.growth_mm == close(answers, "longest_board_growth")
    assert plan.pieces.end_gap_mm == answers["end_gap"]["value"]
    assert movement.widest_mm == close(answers, "open_gap_when_coldest")


def test_pieces_and_joints(plan: Plan, answers: dict) -> None:
    lengths = sorted({piece.length_mm for piece in plan.pieces.pieces}, reverse=True)
    assert lengths == close(answers, "piece_lengths")
    assert plan.pieces.joint_count == answers["joints_total"]["value"]
    assert plan.pieces.mass_kg == close(answers, "board_mass")
    by_row = {joint.row: joint.centre_mm for joint in plan.pieces.joints}
    turn_about = [by_row[row.mark] for row in plan.surface.rows]
    assert set(turn_about[::2]) | set(turn_about[1::2]) == {1800.0, 3600.0}
    assert len(set(turn_about[::2])) == len(set(turn_about[1::2])) == 1


def test_joists_in_pairs(plan: Plan, answers: dict) -> None:
    centres = [joist.offset_mm for joist in plan.frame.joists]
    assert len(centres) == answers["joist_count"]["value"]
    assert centres == close(answers, "joist_centres")
    assert [seam.offset_mm for seam in plan.supports.seams] == [1800.0, 3600.0]


def test_boards_bought_with_their_proof(plan: Plan, answers: dict) -> None:
    boards = plan.buying.purchases[0]
    assert len(boards.lengths) == answers["boards_to_buy"]["value"]
    assert boards.gap == Decimal(0)
    assert drylay.verify(boards.proof).holds
    # the answers' own bound: 21 rows of 5402 with a kerf each, out of 3600 and a kerf
    assert boards.bound == math.ceil(21 * 5402 / 3604) * Decimal("25.00")
    left = max(length.offcut_mm for length in boards.lengths)
    assert left == close(answers, "leftover_board")


def test_clips_starters_and_the_last_row(plan: Plan, answers: dict) -> None:
    fixings = plan.fixings
    assert fixings.clips.count == answers["clips"]["value"]
    assert fixings.clips.starter_count == answers["starter_clips"]["value"]
    assert fixings.deck_screws.count == answers["last_row_screws"]["value"]
    # by hand: 20 rows of two boards before the last, a screw at the fixed point of each
    assert fixings.clips.fixed_screws == 40
    bought = {pack.article: pack.need for pack in plan.buying.packs}
    assert (bought["S08-clip"], bought["S08-starter"], bought["S08-screw"]) == (420, 21, 21 + 40)


def test_it_says_what_must_be_said(plan: Plan, answers: dict) -> None:
    """Our wording for each meaning the answers ask for."""
    wording = {
        "do not rip hollow boards": "hollow boards: do not rip them",
        "lay-day temperature sets end gap": "the temperature on laying day sets the end gap",
        "frame depth changed by +40": "cover and frame are changed by +40 mm",
    }
    said = " ".join(finding.message for finding in plan.findings)
    summary = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    for meaning in answers["must_say"]["value"]:
        assert wording[meaning] in said
        assert wording[meaning] in summary


def test_the_plan_stands_before_the_audit_with_all_its_witnesses(plan: Plan) -> None:
    report = drylay.audit(plan, brief=BRIEF, stock=STOCK, families=FAMILIES)
    assert report.findings == ()
    assert report.audit == "witnessed"


def test_a_strict_limit_takes_a_joist_more(plan: Plan) -> None:
    """Centres of 292.5 fit a limit of 292.5 and fail one of 292.4: a joist more in each third."""
    just = drylay.design(
        BRIEF.replace("frame.most_centres_mm", 292.5), stock=STOCK, families=FAMILIES
    )
    tight = drylay.design(
        BRIEF.replace("frame.most_centres_mm", 292.4), stock=STOCK, families=FAMILIES
    )
    assert (len(just.frame.joists), len(tight.frame.joists)) == (21, 24)
    assert len(plan.frame.joists) == 21


def test_left_to_itself_it_chooses_lines_no_dearer(plan: Plan, chosen: Plan) -> None:
    """Both orders and their joints; the lines told are among those it turned down."""
    assert chosen.buildable
    assert reckoned(chosen) <= reckoned(plan)
    decision = chosen.why("supports.seam_count")
    down = {str(other.value): other.because for other in decision.turned_down}
    assert "1800, 3600 mm" in down
    assert "any other lines" in down
    assert len(down) <= 25
    assert drylay.audit(chosen, brief=BRIEF.replace("joints.lines_mm", None), stock=STOCK,
                        families=FAMILIES).findings == ()  # fmt: skip


def test_every_other_set_is_priced_and_none_is_cheaper(chosen: Plan) -> None:
    """What the reasons tell of other lines is dearer than the plan, gap of the proof and all."""
    decision = chosen.why("supports.seam_count")
    priced = [other.because for other in decision.turned_down if "with its joints" in other.because]
    assert len(priced) >= 3
    costs = [Decimal(text.split(" joists, ")[1].split(" with")[0]) for text in priced]
    assert min(costs) >= reckoned(chosen)


def test_each_line_fixed_in_turn_costs_no_less(chosen: Plan) -> None:
    """A plan for each set of lines told as a wish of the brief, by hand: none beats the choice."""
    for lines in ([1797, 3603], [1800, 3600], [1350, 2700, 4050]):
        told = drylay.design(
            BRIEF.replace("joints.lines_mm", lines), stock=STOCK, families=FAMILIES
        )
        assert reckoned(told) >= reckoned(chosen)
        assert Counter(seam.offset_mm for seam in told.supports.seams) == Counter(lines)
