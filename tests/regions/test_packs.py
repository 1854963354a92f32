"""Packs of regions: whole, honest about what is not known, and true to what was read."""

import re
from copy import deepcopy
from fractions import Fraction
from pathlib import Path

import pytest

from drylay.errors import InputError
from drylay.reasons import SOURCE_KINDS
from drylay.regions.figures import figure
from drylay.regions.model import STANDINGS, Limit, RegionPack
from drylay.regions.names import LIMITS, unit_of
from drylay.regions.packs import PACKS, limit_of, read_pack, region_pack, ruling_of, soil_named

INCH = 25.4
ADK = "secondary summaries of Approved Document K (2013)"
WISCONSIN = "Wisconsin Administrative Code SPS 320-325 appendix B section 13, read"
MEMORY = "from memory"
#: Figures as collected outside of this code, each with where it was seen.
OUTSIDE = [
    ("united-kingdom", "rise_least_mm", 150.0, ADK),
    ("united-kingdom", "rise_most_mm", 220.0, ADK),
    ("united-kingdom", "going_least_mm", 220.0, ADK),
    ("united-kingdom", "going_most_mm", 300.0, ADK),
    ("united-kingdom", "two_rise_going_least_mm", 550.0, ADK),
    ("united-kingdom", "two_rise_going_most_mm", 700.0, ADK),
    ("united-kingdom", "pitch_most_deg", 42.0, ADK),
    ("united-kingdom", "guard_trigger_mm", 600.0, ADK),
    ("united-kingdom", "guard_height_deck_mm", 1100.0, ADK),
    ("united-kingdom", "guard_height_stair_mm", 900.0, ADK),
    ("united-kingdom", "sphere_mm", 100.0, ADK),
    ("united-kingdom", "guard_line_kn_m", 0.74, MEMORY),
    ("united-kingdom", "guard_line_stair_kn_m", 0.36, MEMORY),
    ("united-kingdom", "infill_kn_m2", 1.0, MEMORY),
    ("united-kingdom", "infill_point_kn", 0.5, MEMORY),
    ("united-kingdom", "handrail_rise_mm", 600.0, MEMORY),
    ("united-kingdom", "frost_depth_mm", 450.0, "NHBC Standards 2020 chapter 4.3.3, read"),
    ("north-america", "guard_trigger_mm", 30 * INCH, MEMORY),
    ("north-america", "guard_measured_out_mm", 36 * INCH, MEMORY),
    ("north-america", "guard_height_deck_mm", 36 * INCH, MEMORY),
    ("north-america", "rise_most_mm", 7.75 * INCH, MEMORY),
    ("north-america", "going_least_mm", 10 * INCH, MEMORY),
    ("north-america", "rise_differ_mm", 0.375 * INCH, MEMORY),
    ("north-america", "handrail_least_mm", 34 * INCH, MEMORY),
    ("north-america", "handrail_most_mm", 38 * INCH, MEMORY),
    ("north-america", "sphere_mm", 4 * INCH, WISCONSIN),
    ("north-america", "sphere_stair_mm", 4.375 * INCH, WISCONSIN),
    ("north-america", "sphere_triangle_mm", 6 * INCH, WISCONSIN),
    ("north-america", "guard_point_kn", 0.8896443230521, "200 lb x 4.4482216152605 N"),
    ("north-america", "infill_point_kn", 0.222411080763, "50 lb x 4.4482216152605 N"),
    ("australia", "guard_trigger_mm", 1000.0, "National Construction Code as quoted"),
    ("australia", "sphere_mm", 125.0, "National Construction Code as quoted"),
    ("new-zealand", "guard_trigger_mm", 1000.0, "Building Code F4.3.1 as quoted"),
    ("new-zealand", "sphere_mm", 100.0, "F4/AS1 as quoted"),
    ("new-zealand", "guard_measured_out_mm", 1200.0, "Codewords 32 of the authority, read"),
]


@pytest.fixture(params=PACKS)
def pack(request: pytest.FixtureRequest) -> RegionPack:
    return region_pack(request.param)


def limit(name: str, pack: str) -> Limit:
    return limit_of(region_pack(pack), name)


@pytest.mark.parametrize(("pack", "name", "value", "where"), OUTSIDE)
def test_a_figure_is_that_of_its_source(pack: str, name: str, value: float, where: str) -> None:
    found = limit(name, pack)
    assert found.value == pytest.approx(value, rel=1e-12), where
    remembered = found.standing in {"from memory", "assumption"}
    assert remembered == (where == MEMORY), where


#: Psf and kPa as collected: IRC table R401.4.1 and the Ontario Building Code, both quoted.
PSF = 0.04788025898
BEARING = [
    ("crystalline bedrock", 12000 * PSF),
    ("sedimentary and foliated rock", 4000 * PSF),
    ("sandy gravel, gravel", 3000 * PSF),
    ("sand, silty sand, clayey sand, silty gravel, clayey gravel", 2000 * PSF),
    ("clay, sandy clay, silty clay, clayey silt, silt", 1500 * PSF),
    ("Ontario: dense sand or gravel", 150.0),
    ("Ontario: loose sand or gravel", 50.0),
    ("Ontario: dense silt", 100.0),
    ("Ontario: stiff clay", 150.0),
    ("Ontario: firm clay", 75.0),
    ("Ontario: soft clay", 40.0),
    ("Ontario: sound rock", 500.0),
]


@pytest.mark.parametrize(("name", "bearing"), BEARING)
def test_presumed_bearing_is_that_quoted(name: str, bearing: float) -> None:
    soil = soil_named(region_pack("north-america"), name)
    assert soil.bearing.value == pytest.approx(bearing, rel=1e-9)
    assert soil.bearing.standing == "quoted"


@pytest.mark.parametrize(
    ("name", "bearing"),
    [
        # Approved Document A, table 10, from memory: 40 kN/m on a strip 400 wide, 60 on 600
        *((soil, 40 / 0.4) for soil in ("dense gravel", "medium dense gravel", "dense sand")),
        ("medium dense sand", 60 / 0.6),
        ("firm clay", 75.0),  # BS 8004: 75 to 150, from memory
    ],
)
def test_presumed_bearing_of_the_united_kingdom_is_for_narrow_footings(
    name: str, bearing: float
) -> None:
    soil = soil_named(region_pack("united-kingdom"), name)
    assert soil.bearing.value == pytest.approx(bearing)
    assert soil.bearing.standing == "from memory"


def test_bags_make_what_guides_say() -> None:
    """108 bags of 20 kg to the m3; 80, 60, 40 lb make 0.6, 0.45, 0.3 ft3; a foot is 0.3048 m."""
    (bag,) = region_pack("united-kingdom").bags
    assert bag.made_m3.value == pytest.approx(1 / 108)
    made = [bag.made_m3.value for bag in region_pack("north-america").bags]
    assert made == pytest.approx([0.6 * 0.3048**3, 0.45 * 0.3048**3, 0.3 * 0.3048**3])


def test_a_pack_answers_every_name(pack: RegionPack) -> None:
    assert [limit.name for limit in pack.limits] == list(LIMITS)
    assert pack.cautions
    assert pack.heights
    assert pack.bags


def test_every_figure_has_a_standing_and_a_source(pack: RegionPack) -> None:
    rows = [*pack.limits, *(s.bearing for s in pack.soils), *(h.limit for h in pack.heights)]
    for row in [*rows, *(bag.made_m3 for bag in pack.bags)]:
        assert row.standing in STANDINGS
        assert row.source.kind in SOURCE_KINDS
        assert row.source.title
        assert (row.value is None) == (row.standing in {"no limit", "not covered"})
        remembered = row.standing in {"from memory", "assumption"}
        assert (row.source.kind in {"from memory", "assumption"}) == remembered


def test_limits_come_in_order_of_size(pack: RegionPack) -> None:
    told = {limit.name: limit.value for limit in pack.limits}
    for low, high in (
        ("rise_least_mm", "rise_most_mm"),
        ("going_least_mm", "going_most_mm"),
        ("two_rise_going_least_mm", "two_rise_going_most_mm"),
        ("handrail_least_mm", "handrail_most_mm"),
        ("guard_height_stair_mm", "guard_height_deck_mm"),
    ):
        if told[low] is not None and told[high] is not None:
            assert told[low] <= told[high]


def test_a_poor_soil_is_never_the_assumed_one(pack: RegionPack) -> None:
    if pack.assumed_soil:
        assumed = soil_named(pack, "")
        assert not assumed.poor
        firm = [s.bearing.value for s in pack.soils if not s.poor and ":" not in s.name]
        assert assumed.bearing.value == min(value for value in firm if value is not None)


def test_the_page_lists_every_limit_and_standing() -> None:
    page = Path(__file__).parents[2] / "docs" / "guards-steps-footings.md"
    rows = re.findall(r"^\| `([a-z_0-9 ]+)` \| (.+?) \|$", page.read_text("utf-8"), re.MULTILINE)
    told = dict(rows)
    assert {name: told[name] for name in LIMITS} == LIMITS
    assert [name for name, _ in rows if name not in LIMITS] == list(STANDINGS)


def test_units_come_from_names() -> None:
    assert {unit_of(name) for name in LIMITS} == {"mm", "kN/m", "kN/m2", "kN", "deg", ""}


def test_a_limit_becomes_a_ruling() -> None:
    ruling = ruling_of(limit("guard_trigger_mm", "north-america"))
    assert (ruling.value, ruling.unit, ruling.source.kind) == (762.0, "mm", "from memory")
    assert dict(ruling.inputs) == {"written": "30 in", "standing": "from memory"}
    assert "note" in dict(ruling_of(limit("guard_measured_out_mm", "united-kingdom")).inputs)


def test_unknown_names_tell_the_nearest() -> None:
    with pytest.raises(InputError, match="north-america"):
        region_pack("north america")
    with pytest.raises(InputError, match="guard_trigger_mm"):
        limit_of(region_pack("australia"), "guard_triger_mm")
    with pytest.raises(InputError, match="firm clay"):
        soil_named(region_pack("united-kingdom"), "firm")
    with pytest.raises(InputError, match="soft or expansive ground"):
        soil_named(region_pack("australia"), "")


@pytest.mark.parametrize(
    ("written", "unit", "value"),
    [
        ("4.375 in", "mm", 111.125),  # 4.375 x 25.4
        ("6 ft", "mm", 1828.8),
        ("1500 psf", "kN/m2", 71.82038847),  # 1500 x 0.04788025898
        ("150 kPa", "kN/m2", 150.0),
        ("4", "", 4.0),
        ("42 deg", "deg", 42.0),
    ],
)
def test_figures_are_read_with_their_units(written: str, unit: str, value: float) -> None:
    assert figure(written, unit) == pytest.approx(value, rel=1e-9)


def test_a_pound_per_square_foot_is_exact() -> None:
    """4.4482216152605 N over 0.3048 m squared."""
    by_hand = Fraction("4.4482216152605") / 1000 / Fraction("0.3048") ** 2
    assert figure("1 psf", "kN/m2") == float(by_hand)


@pytest.mark.parametrize(("written", "unit"), [("4 in", "kN"), ("four", ""), ("4 mm", "deg")])
def test_a_figure_in_no_fitting_unit_is_refused(written: str, unit: str) -> None:
    with pytest.raises(ValueError, match=r"no figure|found"):
        figure(written, unit)


CONTENT = {
    "pack": "test",
    "title": "Test",
    "covers": "nothing",
    "cautions": ["invented"],
    "sources": {"s": {"kind": "standard", "title": "Invented"}},
    "limits": {name: {"standing": "no limit", "source": "s"} for name in LIMITS},
    "soils": [],
    "bags": [],
    "heights": [],
}


def test_a_pack_with_a_gap_or_a_figure_without_standing_is_refused() -> None:
    assert read_pack(deepcopy(CONTENT)).pack == "test"
    short = deepcopy(CONTENT)
    del short["limits"]["sphere_mm"]
    with pytest.raises(KeyError):
        read_pack(short)
    for row in ({"standing": "read", "source": "s"}, {"value": "4 in", "standing": "no limit"}):
        odd = deepcopy(CONTENT)
        odd["limits"]["sphere_mm"] = {"source": "s", **row}
        with pytest.raises(ValueError, match="do not go together"):
            read_pack(odd)
