"""Tiles against the row named beside each value, and their laws."""

import functools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.materials.model import RuleQuery
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, RuleFault
from drylay.plugins.table import packaged_table
from drylay.reasons import Ruling
from drylay_tiles.family import tiles

CP = "common practice, no source"


@functools.cache
def alone() -> FamilySet:
    return installed_families(entry_points=(), extra=[tiles()])


def answer(rule: str, **changes: object) -> Ruling | RuleFault:
    usual: dict[str, object] = {
        "board_width_mm": 600.0,
        "board_thickness_mm": 20.0,
        "joist_thickness_mm": 45.0,
        "board_length_mm": 600.0,
        "species": "porcelain",
        "metal": "stainless A2",
    }
    return ask(alone(), "tiles", rule, RuleQuery(**usual | changes))  # type: ignore[arg-type]


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
    ("length_mm", "spacer_mm", "centres_mm", "bays", "by_hand"),
    [
        (600, None, 302, 2, "(600 + 4) / 2, as the trade has it"),
        (600, 3.0, 301.5, 2, "(600 + 3) / 2"),
        (900, None, 452, 2, "(900 + 4) / 2"),
        (1200, None, 602, 2, "(1200 + 4) / 2: the edge is held every 600"),
        (1300, None, 434.665625, 3, "1304 / 3 = 434.667, down to a tick: midway would be 650"),
        (300, None, 152, 2, "(300 + 4) / 2"),
    ],
)
def test_a_joist_under_each_joint_and_midway(
    length_mm: float, spacer_mm: float | None, centres_mm: float, bays: int, by_hand: str
) -> None:
    told = {"board_length_mm": length_mm, "clip_gap_mm": spacer_mm}
    assert value("most_centres_mm", **told) == centres_mm, by_hand
    assert value("bays_per_piece", **told) == bays, by_hand


@given(st.floats(200, 3000), st.floats(2, 5))
def test_bays_cover_the_tile_and_its_joint(length_mm: float, spacer_mm: float) -> None:
    told = {"board_length_mm": length_mm, "clip_gap_mm": spacer_mm}
    centres_mm, bays = value("most_centres_mm", **told), value("bays_per_piece", **told)
    assert bays >= 2
    assert length_mm / bays <= 600
    assert 0 <= length_mm + spacer_mm - centres_mm * bays < bays / 320 + 1e-9


@pytest.mark.parametrize("rule", ["most_centres_mm", "bays_per_piece"])
def test_supports_that_are_not_covered(rule: str) -> None:
    assert "length is not told" in not_covered(rule, board_length_mm=0.0)
    assert "45 degrees" in not_covered(rule, board_to_joist_deg=45.0)
    assert "tabs leave 2 to 5" in not_covered(rule, clip_gap_mm=6.0)


def test_joints_are_the_spacers() -> None:
    """Common practice, no source: 2-5 by spacer tabs, 4 usual."""
    rules = ("gap_least_mm", "gap_preferred_mm", "gap_most_mm")
    assert [value(rule) for rule in rules] == [2, 4, 5]
    assert [value(rule, clip_gap_mm=3.0) for rule in rules] == [3, 3, 3]
    assert "tabs leave 2 to 5" in not_covered("gap_least_mm", clip_gap_mm=1.0)
    assert value("end_gap_mm") == value("gap_preferred_mm")


@given(st.floats(100, 900), st.floats(100, 1500))
def test_a_cut_tile_is_a_third_or_more(width_mm: float, length_mm: float) -> None:
    """Common practice, no source: cut piece a third or more."""
    told = {"board_width_mm": width_mm, "board_length_mm": length_mm}
    for rule, side_mm in [
        ("least_rip_mm", width_mm),
        ("sliver_mm", width_mm),
        ("least_piece_mm", length_mm),
    ]:
        assert side_mm / 3 - 1e-9 <= value(rule, **told) <= side_mm / 3 + 1 / 320


@pytest.mark.parametrize(
    ("rule", "expected", "row"),
    [
        ("least_rip_mm", 200, "by hand: 600 / 3"),
        ("may_rip", 1, f"{CP}: resize first, else cut"),
        ("stagger_bays", 0, f"{CP}: joints in line"),
        ("pads_at_edges_most_mm", 600, f"{CP}: edges every 600"),
        ("pads_at_centre", 1, f"{CP}: also centre for 600 x 600"),
        ("wall_gap_least_mm", 10, "from memory: leave 10 at walls"),
        ("density_most_kg_m3", 2400, "from memory: porcelain 2,300-2,400"),
        ("fall_least_ratio", 0, f"{CP}: tiles may be level"),
        ("wet_slip_least", 36, "HSE bands: 36+ shod"),
        ("life_least_years", 30, "from memory: 30+"),
        ("upkeep_h_m2_year", 0.11, "by hand: sweep 2 x 0.02, wash 0.05, drain 0.02"),
    ],
)
def test_a_600_tile(rule: str, expected: float, row: str) -> None:
    assert value(rule) == pytest.approx(expected), row


@pytest.mark.parametrize(
    ("species", "density", "years", "row"),
    [
        ("granite", 3000, (30, 30), "from memory: as heavy as the heaviest, basalt"),
        ("douglas fir", 1100, (5, 10), "a wood, by its name"),
        ("larch", 1100, (5, 10), "from memory: timber squares 5-10"),
        ("treated softwood", 1100, (5, 10), "from memory: timber squares 5-10"),
        ("fired clay", 3000, (30, 30), "no wood, whatever letters it has"),
    ],
)
def test_what_a_tile_is_of(
    species: str, density: float, years: tuple[float, float], row: str
) -> None:
    assert value("density_most_kg_m3", species=species) == density, row
    found = (value("life_least_years", species=species), value("life_most_years", species=species))
    assert found == years, row


@pytest.mark.parametrize("species", ["", "purpleheart", "x"])
@pytest.mark.parametrize("rule", ["density_most_kg_m3", "timber", "life_least_years"])
def test_stuff_that_no_list_names_is_not_guessed(species: str, rule: str) -> None:
    found = answer(rule, species=species)
    assert isinstance(found, RuleFault)
    assert (found.kind, "species" in found.wrong) == ("not covered", True)


def test_all_rules_know_the_same_woods_and_the_same_stones() -> None:
    table = packaged_table("drylay_tiles", "tiles.toml")
    told: dict[str, set[str]] = {}
    for entry in table.rules:
        if entry.words and entry.words[0].part == "species":
            told.setdefault(entry.name, set()).update(entry.words[0].words)
    assert len({frozenset(words) for words in told.values()}) == 1, told.keys()


def test_a_small_tile_wants_no_pad_in_its_middle() -> None:
    assert value("pads_at_centre", board_width_mm=300.0, board_length_mm=1200.0) == 0


def test_metals_are_those_of_the_frame() -> None:
    assert value("metal_allowed", metal="hot-dip galvanised") == 1
    assert value("metal_allowed", metal="hot-dip galvanised", exposure="coast") == 0
    found = answer("metal_allowed")
    assert isinstance(found, Ruling)
    assert found.rule.startswith("as a frame of treated softwood: ")


def test_cutting_is_told_to_free_silica() -> None:
    assert "crystalline silica" in tiles().cautions[0]
    assert "P3" in tiles().cautions[0]
