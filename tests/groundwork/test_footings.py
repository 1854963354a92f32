"""Footings: statics as laws, published tables and worked examples cell by cell, sums by hand."""

from fractions import Fraction
from math import ceil, pi, sqrt

import pytest
from attrs import evolve
from hypothesis import example, given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.groundwork.footing_faults import KINDS
from drylay.groundwork.footing_told import footing_findings, screw_findings
from drylay.groundwork.footings import (
    bags_for,
    concrete_m3,
    footing_for,
    footing_rules,
    footing_size_mm,
)
from drylay.groundwork.model import Footing
from drylay.regions.packs import PACKS, limit_of, region_pack, soil_named

INCH, LB, PSF = 25.4, 0.0044482216152605, 0.04788025898033584
NA, UK = region_pack("north-america"), region_pack("united-kingdom")
CLAY = soil_named(UK, "firm clay")

#: International Residential Code, table R507.3.1, 40 psf live, from memory: soil in psf, area in
#: square feet; square, round and thickness in inches.
TABLE = [
    (1500, 20, 12, 14, 6),
    (1500, 40, 14, 16, 6),
    (1500, 60, 17, 19, 6),
    (1500, 120, 24, 27, 9),
    (1500, 140, 26, 29, 10),
    (2000, 20, 12, 14, 6),
    (2000, 60, 15, 17, 6),
    (2000, 100, 19, 21, 6),
    (2000, 120, 21, 23, 7),
    (2000, 160, 24, 27, 9),
    (3000, 20, 12, 14, 6),
    (3000, 40, 12, 14, 6),
    (3000, 100, 15, 17, 6),
    (3000, 120, 17, 19, 6),
    (3000, 160, 20, 22, 7),
]


@pytest.mark.parametrize("cell", TABLE)
def test_who_builds_rounds_up_and_never_below_the_table(
    cell: tuple[int, int, int, int, int],
) -> None:
    """The table's nearest inch may be 1 short; what is built carries all of it."""
    soil, area, *tabled = cell
    for shape, size_in, least in (("square", tabled[0], 12), ("round", tabled[1], 14)):
        built = size_in_inches(shape, 50.0 * area, float(soil), least)
        assert built in {size_in, size_in + 1}
        ground = built**2 if shape == "square" else pi / 4 * built**2
        assert ground / 144 * soil >= 50 * area * (1 - 1e-9)


def size_in_inches(shape: str, pounds: float, psf: float, least_in: float = 0.0) -> int:
    size = footing_size_mm(
        load_kn=pounds * LB,
        bearing_kn_m2=psf * PSF,
        shape=shape,
        step_mm=INCH,
        least_mm=least_in * INCH,
    )
    assert size / INCH == pytest.approx(round(size / INCH))
    return round(size / INCH)


def test_the_worked_example_of_a_village() -> None:
    """Village of Howard, guidelines for wood decks: 5 x 10 ft on 3000 psf, 11 square or 13 round.

    50 x 50 / 3000 x 144 = 120 square inches: 10.95 and 12.36, rounded up.
    """
    assert size_in_inches("square", 2500.0, 3000.0) == 11
    assert size_in_inches("round", 2500.0, 3000.0) == 13


def test_a_middle_post_by_hand() -> None:
    """8 x 7 ft at 50 psf is 2800 lb; on 1500 psf 18.4999 in across, so 19."""
    assert size_in_inches("round", 2800.0, 1500.0) == 19


def test_units_turned_into_one_another_cost_no_step() -> None:
    """3000 lb on 3000 psf is one square foot, 12 in and no more."""
    assert size_in_inches("square", 3000.0, 3000.0) == 12
    assert size_in_inches("square", 3001.0, 3000.0) == 13


loads = st.integers(1, 200_000).map(lambda newtons: newtons / 1000)
bearings = st.sampled_from([40.0, 75.0, 100.0, 150.0, 1500 * PSF, 3000 * PSF])
shapes = st.sampled_from(["square", "round"])
steps = st.sampled_from([10.0, 25.0, INCH])


@given(load=loads, bearing=bearings, shape=shapes, step=steps)
def test_area_times_bearing_carries_the_load_and_a_step_less_does_not(
    load: float, bearing: float, shape: str, step: float
) -> None:
    size = footing_size_mm(load_kn=load, bearing_kn_m2=bearing, shape=shape, step_mm=step)
    share = 1.0 if shape == "square" else pi / 4
    assert share * size**2 / 1e6 * bearing >= load * (1 - 2e-9)
    assert (size / step) == pytest.approx(round(size / step))
    if size > step:
        assert share * (size - step) ** 2 / 1e6 * bearing < load


@given(load=loads, more=loads, bearing=bearings, shape=shapes)
def test_more_load_is_no_smaller_and_better_ground_no_larger(
    load: float, more: float, bearing: float, shape: str
) -> None:
    def size(load: float, bearing: float) -> float:
        return footing_size_mm(load_kn=load, bearing_kn_m2=bearing, shape=shape, step_mm=10.0)

    assert size(load + more, bearing) >= size(load, bearing) >= size(load, bearing * 2)


def made(**changed: object) -> Footing | tuple[Finding, ...]:
    asked = {
        "kind": "pad",
        "shape": "square",
        "load_kn": 12.0,
        "soil": CLAY,
        "soil_named": True,
        "post_mm": 100.0,
        "rules": footing_rules(UK),
        "bag": UK.bags[0],
        **changed,
    }
    return footing_for(**asked)


def test_a_pads_pier_by_hand() -> None:
    """A post of 100, 6 kN on 75 kN/m2: 290 of 150 thick and 450 deep, a pier of 200 on it.

    Its own: 24 x (0.15 + 0.3 x (200 / 290)^2) = 7.0244 kN/m2; what is left carries
    0.29^2 x 67.9756 = 5.717 kN, so 300 it is: 6.8 kN/m2 and 0.09 x 68.2 = 6.138 kN.
    Concrete: 0.09 x 0.15 + 0.04 x 0.3 = 0.0255 m3, up to a litre.
    """
    pad = made(load_kn=6.0, pier=True)
    assert (pad.size_mm, pad.thickness_mm, pad.depth_mm, pad.pier_mm) == (300, 150, 450, 200)
    assert (pad.own_kn_m2, pad.carries_kn) == (6.8, pytest.approx(6.138))
    assert pad.concrete_m3 == 0.026
    bare = made(load_kn=6.0)
    assert (bare.pier_mm, bare.concrete_m3) == (0.0, 0.013)  # 0.29 x 0.29 x 0.15 = 0.0126


def least_by_trial(load: float, frost: float, shape: str) -> float:
    """Return the least pad with a pier that carries a load on 75 kN/m2, step after step.

    Of a post of 100: as thick as it reaches past that, a pier of 100 + 2 x 50 (its diagonal where
    round), filled where that is as broad; concrete of 24 kN/m3.
    """
    least, wide = (100.0, 200.0) if shape == "square" else (141.5, 250.0)
    thin = footing_rules(UK).thick_least.value or 0.0
    size = 10.0 * ceil(least / 10)
    while size < 5000:
        thick = max(10.0 * ceil((size - 100.0) / 20), thin)
        deep = max(frost, thick)
        tall = deep if wide >= size else thick + (deep - thick) * (wide / size) ** 2
        share = 1.0 if shape == "square" else pi / 4
        if share * (size / 1000) ** 2 * (75.0 - 0.024 * tall) >= load * (1 - 1e-9):
            return size
        size += 10.0
    return size


@given(
    st.floats(0.5, 40), st.sampled_from([450.0, 1200.0, 2400.0, 3000.0]),
    st.sampled_from(["square", "round"]),
)  # fmt: skip
@example(2.86, 3000.0, "square")
@example(2.86, 2400.0, "square")
def test_a_pad_with_its_pier_is_the_least_that_carries(
    load: float, frost: float, shape: str
) -> None:
    pad = made(load_kn=load, frost_mm=frost, shape=shape, pier=True)
    assert pad.size_mm == least_by_trial(load, frost, shape)


def test_a_pier_as_broad_as_its_pad_fills_the_hole() -> None:
    """1 kN wants 120 mm; a pier of 200 would be broader: the hole of 120 is filled."""
    pad = made(load_kn=1.0, pier=True)
    assert (pad.pier_mm, pad.thickness_mm) == (0.0, pad.depth_mm)


@given(st.floats(0.5, 40), st.sampled_from(["square", "round"]))
def test_a_pier_adds_concrete_and_never_makes_a_pad_smaller(load: float, shape: str) -> None:
    with_it, without = made(load_kn=load, shape=shape, pier=True), made(load_kn=load, shape=shape)
    filled = made(load_kn=load, shape=shape, kind="concreted hole")
    assert without.size_mm <= with_it.size_mm <= filled.size_mm
    assert without.concrete_m3 <= with_it.concrete_m3 <= filled.concrete_m3
    assert with_it.load_kn <= with_it.carries_kn * (1 + 1e-9)


def test_a_pad_by_hand() -> None:
    """12 kN on 75 kN/m2 is 0.16 m2, 400 square and 150 thick: 3.6 kN/m2 of concrete, 71.4 left.

    12 / 71.4 = 0.16807, so 410, which reaches 155 past the post, so 160 thick: 3.84, 71.16 left.
    12 / 71.16 = 0.16863, so 420, which reaches 160. 0.42 x 0.42 x 71.16 = 12.5526 kN. 450 deep for
    frost (NHBC); 0.1764 x 0.16 = 0.02822 m3, at 108 bags to the m3 3.05: 4 bags.
    """
    pad = made()
    assert (pad.size_mm, pad.thickness_mm, pad.depth_mm) == (420.0, 160.0, 450.0)
    assert (pad.own_kn_m2, pad.carries_kn) == (3.84, pytest.approx(12.552624))
    assert (pad.concrete_m3, pad.bags, pad.bag) == (0.029, 4, "20 kg bag")


def test_a_concreted_hole_by_hand() -> None:
    """450 deep weighs 10.8 kN/m2; 12 kN on the 64.2 left, round: 487.8 across, so 490.

    0.25 x pi x 0.49 x 0.49 x 0.45 = 0.084858; less the post, 0.1 x 0.1 x 0.35 = 0.0035: 0.081358,
    up to 0.082; x 108 = 8.79: 9 bags. Without taking the post off it is 9.16: 10.
    """
    hole = made(kind="concreted hole", shape="round", post_depth_mm=350.0)
    assert (hole.size_mm, hole.thickness_mm, hole.depth_mm) == (490.0, 450.0, 450.0)
    assert (hole.own_kn_m2, hole.concrete_m3, hole.bags) == (10.8, 0.082, 9)
    assert made(kind="concreted hole", shape="round").bags == 10


@given(load=loads, shape=shapes, kind=st.sampled_from(KINDS), frost=st.integers(0, 1500))
def test_a_footing_carries_its_load_and_its_own_concrete(
    load: float, shape: str, kind: str, frost: int
) -> None:
    """Load and 24 kN/m3 of concrete (EN 1991-1-1 table A.1, from memory) on 75 kN/m2."""
    found = made(load_kn=load, shape=shape, kind=kind, frost_mm=float(frost))
    assert isinstance(found, Footing)
    area_m2 = (1.0 if shape == "square" else pi / 4) * found.size_mm**2 / 1e6
    own_kn = 24.0 * area_m2 * found.thickness_mm / 1e3
    assert load + own_kn <= 75.0 * area_m2 * (1 + 2e-9)


@pytest.mark.parametrize(
    ("changed", "own"),
    [
        ({"kind": "concreted hole", "frost_mm": 4000.0}, 96.0),  # 4 x 24, over 75
        ({"load_kn": 500.0}, None),  # s x s (76.2 - 12 s) is 455 kN at most, at 4.23 m
    ],
)
def test_concrete_that_the_soil_does_not_bear_stops(changed: dict, own: float | None) -> None:
    (found,) = made(**changed)
    assert (found.code, found.severity, found.limit) == ("FTG-007", Severity.STOP, 75.0)
    assert found.measured >= 75.0
    assert own in {None, found.measured}
    assert "licensed" in found.message


def test_thickness_grows_with_what_reaches_past_the_post() -> None:
    """40 kN on 75: 0.5333 m2, 740 square, 320 thick: 7.68 kN/m2 of concrete, 67.32 left.

    0.5942 m2, 780 square; (780 - 100) / 2 = 340: 8.16, 66.84 left; 0.5984 m2, still 780.
    """
    assert (made(load_kn=40.0).size_mm, made(load_kn=40.0).thickness_mm) == (780.0, 340.0)


def test_least_sizes_of_a_region_hold() -> None:
    """12 in square, 14 in round, 6 thick, 12 deep: table R507.3.1 and R403.1.4, from memory."""
    soil = soil_named(NA, "sandy gravel, gravel")
    small = {"load_kn": 1.0, "soil": soil, "rules": footing_rules(NA), "frost_mm": 0.0}
    small |= {"bag": NA.bags[0], "step_mm": INCH, "post_mm": 5.5 * INCH}
    square, round_one = made(**small), made(**small, shape="round")
    told = (square.size_mm / INCH, round_one.size_mm / INCH, square.thickness_mm / INCH)
    assert told == pytest.approx((12.0, 14.0, 6.0))
    assert square.depth_mm == pytest.approx(12 * INCH)


def test_a_footing_is_as_deep_as_frost_goes() -> None:
    """The deeper of the place's own frost line, 900 here, and the region's 450 holds."""
    assert made(frost_mm=900.0).depth_mm == 900.0
    shallow = made(frost_mm=300.0)
    assert shallow.depth_mm == 450.0
    told = footing_findings(shallow, CLAY, footing_rules(UK), frost_mm=300.0)
    assert [(f.code, f.measured, f.limit) for f in told][1] == ("FTG-006", 300.0, 450.0)


def test_where_the_ground_never_freezes_the_concrete_alone_is_buried() -> None:
    """Where the region tells no frost line: 160 thick, as by hand above."""
    nowhere = evolve(footing_rules(UK), frost=limit_of(NA, "frost_depth_mm"))
    assert made(rules=nowhere, frost_mm=0.0).depth_mm == 160.0
    assert made(frost_mm=0.0).depth_mm == 450.0


def test_a_frost_line_nobody_knows_stops() -> None:
    soil = soil_named(NA, "")
    (found,) = made(soil=soil, rules=footing_rules(NA), bag=NA.bags[0])
    assert (found.code, found.severity) == ("FTG-003", Severity.STOP)
    assert "local authority" in found.message


@pytest.mark.parametrize("pack", PACKS)
def test_poor_ground_stops_and_names_who_to_ask(pack: str) -> None:
    poor = [soil for soil in region_pack(pack).soils if soil.poor]
    assert poor
    for soil in poor:
        (found,) = made(soil=soil)
        assert (found.code, found.severity) == ("FTG-002", Severity.STOP)
        assert "licensed" in found.message


def test_a_soil_that_was_assumed_is_flagged() -> None:
    assumed = soil_named(UK, "")
    pad = made(soil=assumed, soil_named=False)
    told = footing_findings(pad, assumed, footing_rules(UK))
    assert [f.code for f in told] == ["FTG-001", "FTG-005"]
    assert (told[0].severity, told[0].measured) == (Severity.CAUTION, 75.0)
    assert (told[1].measured, told[1].limit) == (12.0, 12.552)
    assert "nobody measured" in told[1].message
    assert [f.code for f in footing_findings(made(), CLAY, footing_rules(UK))] == ["FTG-005"]


def test_a_round_hole_as_guides_to_bags_have_it() -> None:
    """8 in across and 36 deep: guides say 1.0 cubic foot; pi / 4 x 64 x 36 / 1728 = 1.047."""
    volume = concrete_m3(
        shape="round", size_mm=8 * INCH, depth_mm=36 * INCH, post_mm=1.0, post_depth_mm=0.0
    )
    feet = float(volume) / 0.3048**3
    assert feet == pytest.approx(1.047, abs=5e-4)
    assert [bags_for(volume, bag) for bag in NA.bags] == [2, 3, 4]  # 1.047 / 0.6, 0.45, 0.3


def test_a_cubic_metre_takes_108_bags() -> None:
    assert bags_for(Fraction(1), UK.bags[0]) == 108
    assert bags_for(Fraction(1001, 1000), UK.bags[0]) == 109


@given(
    size=st.integers(200, 900).map(float),
    depth=st.integers(100, 1500).map(float),
    post=st.integers(50, 141).map(float),
    shape=shapes,
)
def test_volumes_by_the_formula(size: float, depth: float, post: float, shape: str) -> None:
    share = 1.0 if shape == "square" else pi / 4
    full = concrete_m3(shape=shape, size_mm=size, depth_mm=depth, post_mm=post, post_depth_mm=0.0)
    assert float(full) == pytest.approx(share * size**2 * depth / 1e9)
    assert float(full) >= share * size**2 * depth / 1e9 * (1 - 1e-15)
    held = concrete_m3(shape=shape, size_mm=size, depth_mm=depth, post_mm=post, post_depth_mm=depth)
    assert float(full - held) == pytest.approx(post**2 * depth / 1e9)


@pytest.mark.parametrize(
    ("load", "capacity", "codes"),
    [(10.0, 10.0, []), (10.1, 10.0, ["FTG-004"]), (1.0, None, ["FTG-004"])],
)
def test_a_ground_screw_carries_what_its_maker_declares(
    load: float, capacity: float | None, codes: list[str]
) -> None:
    told = screw_findings(load_kn=load, capacity_kn=capacity)
    assert [f.code for f in told] == codes
    assert all((f.measured, f.limit) == (load, capacity) for f in told)


@pytest.mark.parametrize(
    "changed",
    [
        {"load_kn": 0.0},
        {"post_mm": -1.0},
        {"step_mm": float("nan")},
        {"shape": "oblong"},
        {"kind": "pile"},
        {"frost_mm": -1.0},
        {"frost_mm": float("nan")},
        {"load_kn": float("inf")},
    ],
)
def test_what_is_no_footing_is_refused(changed: dict) -> None:
    with pytest.raises(InputError):
        made(**changed)


@pytest.mark.parametrize("kind", ["pad", "concreted hole"])
def test_concrete_goes_on_below_a_post_that_stands_in_it(kind: str) -> None:
    """700 deep, and 100 more: common practice, no source."""
    assert made(kind=kind, post_depth_mm=700.0).thickness_mm == 800.0


def test_a_post_that_does_not_go_in_is_refused() -> None:
    with pytest.raises(InputError, match="goes into"):
        concrete_m3(
            shape="round", size_mm=141.0, depth_mm=500.0, post_mm=100.0, post_depth_mm=500.0
        )


def test_a_soil_without_a_figure_stops_though_it_is_not_called_poor() -> None:
    soil = evolve(CLAY, bearing=limit_of(NA, "frost_depth_mm"))
    (found,) = made(soil=soil)
    assert found.code == "FTG-002"


def test_the_least_square_of_a_table_by_hand() -> None:
    """60 ft2 on 1500 psf: 144 x 50 x 60 / 1500 = 288, root 16.97: 17 by the table and built."""
    assert ceil(sqrt(288)) == size_in_inches("square", 3000.0, 1500.0) == 17
