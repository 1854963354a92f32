"""Composite against the row named beside each value, and its laws."""

import functools
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.materials.model import RuleQuery
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling
from drylay_composite.family import composite

CP = "common practice, no source"


@functools.cache
def alone() -> FamilySet:
    return installed_families(entry_points=(), extra=[composite()])


def answer(rule: str, **changes: object) -> Ruling | RuleFault:
    usual: dict[str, object] = {
        "board_width_mm": 140.0,
        "board_thickness_mm": 23.0,
        "joist_thickness_mm": 45.0,
        "board_length_mm": 3600.0,
        "clip_gap_mm": 5.0,
        "laying_c": 12.0,
        "hottest_c": 50.0,
        "metal": "stainless A2",
    }
    return ask(alone(), "composite", rule, RuleQuery(**usual | changes))  # type: ignore[arg-type]


def value(rule: str, **changes: object) -> float:
    found = answer(rule, **changes)
    assert isinstance(found, Ruling), found
    assert not isinstance(found.value, str | None)
    return found.value


def not_covered(rule: str, **changes: object) -> str:
    found = answer(rule, **changes)
    assert isinstance(found, RuleFault), found
    assert found.kind == "not covered"
    return found.wrong


@pytest.mark.parametrize(
    ("changes", "gap_mm", "row"),
    [
        ({"growth_per_k": 40e-6}, 6, "by hand: 3600 x 40e-6 x 38 = 5.472, up"),
        ({}, 7, "by hand, the standard's limit: 3600 x 50e-6 x 38 = 6.84, up"),
        ({"growth_per_k": 40e-6, "laying_c": 25.0, "hottest_c": 50.0}, 4, "3.6, up"),
        ({"growth_per_k": 50e-6, "laying_c": 10.0, "hottest_c": 50.0}, 8, "7.2, up"),
        ({"growth_per_k": 50e-6, "board_length_mm": 4000.0, "laying_c": 20.0}, 6, "6 is whole"),
        ({"hottest_c": None}, 11, "hottest 70, from memory: 3600 x 50e-6 x 58 = 10.44, up"),
        ({"laying_c": 50.0}, 0, "laid at its hottest: it only shrinks"),
    ],
)
def test_the_end_gap_takes_up_what_the_longest_piece_grows(
    changes: dict[str, object], gap_mm: float, row: str
) -> None:
    assert value("end_gap_mm", **changes) == gap_mm, row


@given(st.floats(300, 6000), st.floats(10e-6, 100e-6), st.floats(-10, 40), st.floats(40, 80))
def test_the_end_gap_is_never_less_than_the_growth(
    length_mm: float, growth: float, laying_c: float, hottest_c: float
) -> None:
    gap_mm = value(
        "end_gap_mm",
        board_length_mm=length_mm,
        growth_per_k=growth,
        laying_c=laying_c,
        hottest_c=hottest_c,
    )
    grown_mm = Fraction(growth) * Fraction(length_mm) * (Fraction(hottest_c) - Fraction(laying_c))
    assert grown_mm - Fraction(1, 10**9) <= gap_mm < grown_mm + 1 + Fraction(1, 10**9)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"laying_c": None}, "tell it as climate.laying_c, with climate.hottest_board_c"),
        ({"laying_c": 51.0}, "above the hottest"),
        ({"laying_c": math.nan}, "laid at nan C"),
        ({"hottest_c": math.inf}, "inf C"),
        ({"board_length_mm": 0.0}, "longest piece is not told"),
        ({"growth_per_k": math.nan}, "a growth of nan"),
    ],
)
def test_no_end_gap_is_guessed(changes: dict[str, object], says: str) -> None:
    assert says in not_covered("end_gap_mm", **changes)


def test_who_says_how_much_it_grows_is_told() -> None:
    found = [answer("end_gap_mm", growth_per_k=g) for g in (None, 50e-6, 40e-6)]
    kinds = [each.source.kind for each in found if isinstance(each, Ruling)]
    # a growth that is the table's own is never told as the product's
    assert kinds == ["from memory", "from memory", "arithmetic"]


@pytest.mark.parametrize("rule", ["gap_least_mm", "gap_preferred_mm", "gap_most_mm"])
def test_the_clip_fixes_the_gap(rule: str) -> None:
    """Common practice, no source: fixed by the clip, 3 to 6."""
    for gap_mm in (3.0, 4.5, 6.0):
        assert value(rule, clip_gap_mm=gap_mm) == gap_mm
    assert "a gap fixed by clips, of which none is named" in not_covered(rule, clip_gap_mm=None)
    for gap_mm in (2.9, 6.1):
        assert f"a gap of {gap_mm:g} mm left by clips" in not_covered(rule, clip_gap_mm=gap_mm)


@pytest.mark.parametrize(
    ("angle_deg", "use", "centres_mm", "row"),
    [
        (90, "dwelling", 300, f"{CP}: else 300"),
        (90, "public", 300, f"{CP}: public often 300 or less"),
        (45, "dwelling", 212.1, "by hand: 300 x 0.70711 = 212.13, down"),
    ],
)
def test_centres(angle_deg: float, use: str, centres_mm: float, row: str) -> None:
    found = answer("most_centres_mm", board_to_joist_deg=angle_deg, use=use)
    assert isinstance(found, Ruling)
    assert found.value == centres_mm, row
    assert found.source.kind == "assumption"


def test_centres_beyond_45_degrees_and_thin_boards_are_not_covered() -> None:
    assert "44 degrees" in not_covered("most_centres_mm", board_to_joist_deg=44.0)
    assert "19 mm thick" in not_covered("most_centres_mm", board_thickness_mm=19.0)


@pytest.mark.parametrize(
    ("rule", "expected", "row"),
    [
        ("may_rip", 0, f"{CP}: rip only if the record allows"),
        ("least_rip_mm", 70, f"{CP}: least 70"),
        ("joists_under_joint", 2, f"{CP}: each end on its own joist"),
        ("hidden_clips", 1, f"{CP}: clips"),
        ("clips_per_crossing", 1, f"{CP}: (rows - 1) x joists"),
        ("starter_clips_per_joist", 1, f"{CP}: and a starter row"),
        ("end_row_screws_per_joist", 1, f"{CP}: and an end row"),
        ("overhang_most_mm", 25, f"{CP}: past the last joist 25 at most"),
        ("wall_gap_least_mm", 10, f"{CP}: walls and posts 10 or more"),
        ("growth_per_k", 50e-6, "EN 15534, from memory"),
        ("hottest_board_c", 70, "from memory: dark board in the sun 60-70"),
        ("density_most_kg_m3", 1400, "from memory: 1,200-1,400"),
        ("life_least_years", 15, "from memory: 15-25"),
        ("life_most_years", 25, "from memory: 15-25"),
        ("upkeep_h_m2_year", 0.14, "by hand: sweep 2 x 0.02, wash 2 x 0.05"),
    ],
)
def test_a_23_by_140_board(rule: str, expected: float, row: str) -> None:
    assert value(rule) == pytest.approx(expected), row


@pytest.mark.parametrize(
    ("rule", "hollow", "solid", "row"),
    [
        ("end_caps", 1, 0, f"{CP}: cap every open end"),
        ("fall_least_ratio", 0.01, 0, f"{CP}: hollow 1:100 along the length"),
    ],
)
def test_hollow_boards(rule: str, hollow: float, solid: float, row: str) -> None:
    assert (value(rule, hollow=True), value(rule, hollow=False)) == (hollow, solid), row


@pytest.mark.parametrize(
    ("metal", "inland", "salted"),
    [
        ("bright zinc", 0, 0),
        ("hot-dip galvanised", 0, 0),
        ("aluminium", 0, 0),  # against the copper of the frame
        ("stainless A2", 1, 0),
        ("stainless A4", 1, 1),
    ],
)
def test_metals(metal: str, inland: int, salted: int) -> None:
    assert value("metal_allowed", metal=metal) == inland
    for exposure in ("coast", "pool"):
        assert value("metal_allowed", metal=metal, exposure=exposure) == salted


def test_what_is_driven_into_the_frame_is_for_the_frame_to_rule() -> None:
    """From memory: galvanised inland in copper-treated timber; no bare aluminium there."""
    for metal, allowed in (("hot-dip galvanised", 1), ("aluminium", 0), ("stainless A2", 1)):
        assert value("metal_allowed", metal=metal, driven_into="frame") == allowed
