"""Hardwood against the row named beside each value, and its laws."""

import functools

import pytest

from drylay.materials.model import RuleQuery
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling
from drylay_hardwood.family import hardwood

CP = "common practice, no source"


@functools.cache
def alone() -> FamilySet:
    return installed_families(entry_points=(), extra=[hardwood()])


def answer(rule: str, **changes: object) -> Ruling | RuleFault:
    usual: dict[str, object] = {
        "board_width_mm": 140.0,
        "board_thickness_mm": 21.0,
        "joist_thickness_mm": 45.0,
        "metal": "stainless A2",
    }
    return ask(alone(), "hardwood", rule, RuleQuery(**usual | changes))  # type: ignore[arg-type]


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
    ("thick_mm", "centres_mm", "public_mm", "row"),
    [
        (19, 400, 300, f"{CP}: 19-21 400-450; public one step closer"),
        (21, 400, 300, f"{CP}: 19-21 400-450"),
        (25, 500, 400, f"{CP}: 25 500"),
        (31.9, 500, 400, "between rows: as the thinner row"),
        (32, 600, 500, f"{CP}: 32 600"),
    ],
)
def test_centres(thick_mm: float, centres_mm: float, public_mm: float, row: str) -> None:
    assert value("most_centres_mm", board_thickness_mm=thick_mm) == centres_mm, row
    assert value("most_centres_mm", board_thickness_mm=thick_mm, use="public") == public_mm


def test_thin_boards_are_not_covered() -> None:
    assert "18 mm thick" in not_covered("most_centres_mm", board_thickness_mm=18.0)


@pytest.mark.parametrize(
    ("width_mm", "species", "gaps_mm", "row"),
    [
        (90, "", (3, 4, 5), f"{CP}: seasoned 90 wide 3-5; Australian guide: seasoned 4"),
        (140, "", (5, 6, 8), f"{CP}: seasoned 140 wide 5-8"),
        (120, "iroko", (5, 6, 8), "between rows: as the wider"),
        (140, "green oak", (2, 3, 3), "from memory: green oak 2-3"),
    ],
)
def test_gaps_where_no_moisture_is_told(
    width_mm: float, species: str, gaps_mm: tuple[float, ...], row: str
) -> None:
    told = {"board_width_mm": width_mm, "species": species}
    found = tuple(value(f"gap_{name}_mm", **told) for name in ("least", "preferred", "most"))
    assert found == gaps_mm, row


@pytest.mark.parametrize(
    ("laying_pct", "species", "least_mm", "preferred_mm", "by_hand"),
    [
        (20, "white oak", 4.072, 5, "2 + 140 x 0.0037 x 4"),
        (16, "white oak", 6.144, 7, "2 + 140 x 0.0037 x 8"),
        (16, "ipe", 6.48, 7, "2 + 140 x 0.0040 x 8"),
        (40, "green oak", 2, 2, "wetter than it will be again: 2, which opens"),
    ],
)
def test_gaps_by_the_moisture_of_laying_day(
    laying_pct: float, species: str, least_mm: float, preferred_mm: float, by_hand: str
) -> None:
    told = {"laying_pct": laying_pct, "species": species}
    assert value("gap_least_mm", **told) == pytest.approx(least_mm, abs=1 / 320), by_hand
    assert value("gap_preferred_mm", **told) == preferred_mm, by_hand


def test_dry_boards_would_swell_shut() -> None:
    """By hand: 2 + 140 x 0.0040 x 12 = 8.7, over 8."""
    assert "8.7 mm where 8 is the widest" in not_covered("gap_least_mm", laying_pct=12.0)


def test_movement_is_that_of_oak_where_it_is_oak() -> None:
    assert value("movement_per_pct", species="white oak") == 0.0037, "Wood Handbook, table 13-5"
    assert value("movement_per_pct") == 0.0040, "from memory: tropical 0.0020-0.0040"


@pytest.mark.parametrize(
    ("rule", "expected", "row"),
    [
        ("end_gap_mm", 3, f"{CP}: 0-3, undercut"),
        ("end_bearing_least_mm", 30, "by hand: 25 from the end, and 5"),
        ("joists_under_joint", 2, f"{CP}: pair or batten"),
        ("predrill_all", 1, f"{CP}: always pre-drill and countersink"),
        ("screws_per_crossing", 2, f"{CP}: 2 per crossing"),
        ("screw_end_least_mm", 25, f"{CP}: 25 from the end, predrilled"),
        ("screw_edge_least_mm", 25, f"{CP}: 20-25 from the edge"),
        ("frame_screw_pilot_ratio", 0.7, "families.md 1: 0.6 to 0.7 of the shank, in softwood"),
        ("screw_pilot_ratio", 0.63, "by hand: 0.9 of the core, the core 0.7 of the shank"),
        ("seal_board_ends", 0, f"{CP}: no preserver on durable heart"),
        ("wax_board_ends", 1, f"{CP}: end-grain wax within hours"),
        ("density_most_kg_m3", 1100, "from memory: 700-1,100"),
        ("frame_use_class_least", 4, "the frame is of treated softwood: class 4"),
        ("wet_slip_least", 36, "HSE bands: 36 and more is low"),
        ("upkeep_h_m2_year", 0.09, "by hand: sweep 2 x 0.02, clean 0.05"),
    ],
)
def test_a_21_by_140_board(rule: str, expected: float, row: str) -> None:
    assert value(rule) == pytest.approx(expected), row


def test_a_finish_that_is_bought_is_kept_up() -> None:
    """Common practice: oil once or twice a year if colour is wanted; 0.09 + 2 x 0.15 by hand."""
    assert value("upkeep_h_m2_year", finished=True) == pytest.approx(0.39)


@pytest.mark.parametrize(
    ("thick_mm", "length_mm", "by_hand"),
    [(19, 49, "19 + 30 is more than 2.5 x 19"), (20, 50, "both"), (25, 62.5, "2.5 x 25")],
)
def test_screws_reach_30_into_the_joist(thick_mm: float, length_mm: float, by_hand: str) -> None:
    assert value("screw_length_least_mm", board_thickness_mm=thick_mm) == length_mm, by_hand


@pytest.mark.parametrize("species", ["", "iroko", "White oak", "sweet chestnut", "ipe"])
@pytest.mark.parametrize(
    ("metal", "inland", "salted"),
    [  # common practice: stainless only; A4 by salt water or a pool
        ("plain steel", 0, 0),
        ("bright zinc", 0, 0),
        ("coated for treated timber", 0, 0),
        ("hot-dip galvanised", 0, 0),
        ("aluminium", 0, 0),
        ("stainless A2", 1, 0),
        ("stainless A4", 1, 1),
    ],
)
def test_metals(species: str, metal: str, inland: int, salted: int) -> None:
    told = {"species": species, "metal": metal}
    assert value("metal_allowed", **told) == inland
    for exposure in ("coast", "pool"):
        assert value("metal_allowed", **told, exposure=exposure) == salted


@pytest.mark.parametrize(
    ("into", "galvanised", "zinc"), [("board", 0, 0), ("fascia", 0, 0), ("frame", 1, 0)]
)
def test_tannin_rules_on_boards_and_fascia_and_copper_on_the_frame(
    into: str, galvanised: int, zinc: int
) -> None:
    """Common practice: stainless only in tannin-rich timber; from memory: copper eats thin zinc."""
    told = {"species": "iroko", "driven_into": into}
    assert value("metal_allowed", metal="hot-dip galvanised", **told) == galvanised
    assert value("metal_allowed", metal="bright zinc", **told) == zinc
    assert value("metal_allowed", metal="hot-dip galvanised", **told, exposure="pool") == 0
    assert value("metal_allowed", metal="stainless A4", **told, exposure="pool") == 1


def test_who_says_that_iron_will_not_do_depends_on_the_species() -> None:
    kinds = [
        found.source.kind
        for species in ("iroko", "ipe")
        if isinstance(
            found := answer("metal_allowed", species=species, metal="bright zinc"), Ruling
        )
    ]
    assert kinds == ["common practice", "assumption"]


@pytest.mark.parametrize(
    ("species", "years", "row"),
    [
        ("", (10, 15), "EN 350, from memory: class 3 10-15; not told, so the least there is"),
        ("ipe", (25, 25), "EN 350, from memory: class 1 25+, of which no more is counted"),
        ("European oak", (15, 25), "EN 350, from memory: class 2 15-25"),
        ("iroko", (15, 25), "EN 350, from memory: class 1 to 2"),
    ],
)
def test_life(species: str, years: tuple[float, float], row: str) -> None:
    found = (value("life_least_years", species=species), value("life_most_years", species=species))
    assert found == years, row


@pytest.mark.parametrize(
    ("durability_class", "years"), [(1, (25, 25)), (2, (15, 25)), (3, (10, 15))]
)
@pytest.mark.parametrize("species", ["", "iroko", "beech"])
def test_the_records_durability_comes_before_the_species(
    species: str, durability_class: int, years: tuple[float, float]
) -> None:
    """EN 350 with BS 8417's tables, from memory: 1 25+, 2 15-25, 3 10-15 above ground."""
    told = {"species": species, "durability_class": durability_class}
    assert (value("life_least_years", **told), value("life_most_years", **told)) == years


@pytest.mark.parametrize(
    "told",
    [{"species": "beech"}, {"species": "red oak"}, {"species": "iroko", "durability_class": 4}],
)
def test_wood_that_does_not_last_has_no_life_to_tell(told: dict[str, object]) -> None:
    for rule in ("life_least_years", "life_most_years"):
        found = answer(rule, **told)
        assert isinstance(found, RuleFault)
        assert found.kind == "not covered"
