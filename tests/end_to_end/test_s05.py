"""S05, a brief that must be stopped with all its reasons at once: every answer, worked separately.

The answers and their origin are in tests/reference/S05-answers.toml. What has to be told, and told
as blocking, is written out below, each beside the finding that tells it.
"""

import pytest

import drylay
from drylay.strength.ec5_member import bending
from drylay.strength.ec5_model import Choices, DesignCase
from end_to_end.outlined import REFERENCE, reference_answers
from strength.ec5_decks import timber

ANSWERS = reference_answers("S05")

#: What must block, and what tells it.
BLOCKING = {
    "guard missing on a drop over 600": ("GRD-009", "needs a guard and the brief tells none"),
    "hot tub load needs an engineer": ("ENG-002", "an engineer or a licensed person"),
    "shared sewer cover blocked": ("DRN-001", "sewer shared with a neighbour"),
    "deck above damp course": ("LVL-002", "40 mm above the damp course"),
    "fall towards house": ("LVL-027", "towards the house"),
}
#: What must be told besides.
TOLD = {
    "boards parallel to joists": ("FRM-005", "joists lie across the boards"),
    "board too thin for the joist centres": ("MAT-001", "a board 19 mm thick"),
    "no gap between boards": ("GAP-001", "outside its range of 4 to 8 mm"),
    "plain steel fixings in tannin-rich oak": ("FIX-021", "tannin-rich oak"),
    "impermeable membrane": ("GND-001", "a sealed sheet"),
    "air brick or under-deck ventilation blocked": ("AIR-003", "under-deck ventilation is blocked"),
    "timber treatment unknown": ("MAT-006", "treat it as untreated, and ask"),
    "planning: raised platform over 300": ("RGN-001", "may need planning permission"),
}


@pytest.fixture(scope="module")
def found() -> drylay.Review:
    stock = drylay.load_catalogue(REFERENCE / "S05-stock.toml")
    return drylay.review(REFERENCE / "S05.toml", stock=stock)


def test_the_brief_is_refused_and_asks_for_both_units() -> None:
    with pytest.raises(drylay.BriefError) as refused:
        drylay.read_brief(REFERENCE / "S05.toml")
    assert {fault.path for fault in refused.value.faults} == {"cover.along", "cover.across"}
    assert all("which one is meant?" in fault.wanted for fault in refused.value.faults)


def test_lengths_are_offered_as_a_question_and_never_taken(found: drylay.Review) -> None:
    asked = [(each.path, each.as_if) for each in found.supposed]
    assert asked == [("cover.along", 'along = "3.6 m"'), ("cover.across", "across_mm = 2400")]
    assert ANSWERS["lengths_if_guessed"]["value"] == [3600, 2400]
    assert len(found.faults) == len(asked)


@pytest.mark.parametrize("reason", BLOCKING)
def test_what_must_block_blocks(found: drylay.Review, reason: str) -> None:
    code, words = BLOCKING[reason]
    assert any(each.code == code and words in each.message for each in found.stops)


@pytest.mark.parametrize("reason", TOLD)
def test_what_must_be_told_is_told(found: drylay.Review, reason: str) -> None:
    code, words = TOLD[reason]
    assert any(each.code == code and words in each.message for each in found.findings)


def test_its_figures(found: drylay.Review) -> None:
    measured = {(each.code, each.limit): each.measured for each in found.findings}
    assert measured["RGN-001", 300.0] == ANSWERS["deck_height_above_ground"]["value"]
    over = next(each for each in found.stops if each.code == "LVL-002" and "damp" in each.message)
    assert over.measured == ANSWERS["deck_above_dpc_by"]["value"]
    tub = next(each for each in found.stops if each.code == "ENG-011")
    pressed = ANSWERS["tub_pressure"]
    assert tub.measured == pytest.approx(pressed["value"], abs=pressed["tol"])
    assert tub.unit == pressed["unit"]


def test_how_far_the_tub_bends_a_joist_beyond_its_strength(found: drylay.Review) -> None:
    """w = 1.35 (3.924 + 0.3) x 0.6 = 3.4214 kN/m; M = w 2.4^2 / 8 = 2.4634 kNm, permanent."""
    tub = next(each for each in found.stops if each.code == "ENG-011")
    moment_kn_m = 1.35 * (tub.measured + 0.3) * 0.6 * 2.4**2 / 8
    case = DesignCase(name="tub", duration="permanent", moment_kn_m=moment_kn_m)
    joist = timber("C16", breadth_mm=45.0, depth_mm=95.0)
    used = bending(joist, case, Choices(service_class=3)).utilisation_ratio
    wanted = ANSWERS["joist_bending_use"]
    assert used == pytest.approx(wanted["value"], abs=wanted["tol"])


def test_nothing_to_buy_or_saw_comes_of_it(found: drylay.Review) -> None:
    """Neither of the review nor of the plan, once the units are told."""
    assert {name for name in dir(found) if not name.startswith("_")} == {
        "faults", "findings", "looked", "stops", "supposed",
    }  # fmt: skip
    stock = drylay.load_catalogue(REFERENCE / "S05-stock.toml")
    text = (REFERENCE / "S05.toml").read_text(encoding="utf-8")
    told = text.replace('"3.6"', '"3.6 m"').replace('"2400"', '"2400 mm"')
    plan = drylay.design(drylay.read_brief(told.encode()), stock=stock)
    assert (plan.buying, plan.pieces, plan.frame) == (None, None, None)
    assert plan.findings == found.findings
