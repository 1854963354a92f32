"""The US basis against published examples, sums by hand, and what it does not cover."""

from fractions import Fraction

import pytest

from drylay.errors import UncoveredError
from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed, allowed_in_group, least_extent
from drylay.strength.nds_factors import (
    beam_stability_factor,
    column_stability_factor,
    duration_factor,
    effective_length_mm,
    size_factor,
    size_factor_along,
    wet_factor,
)
from drylay.strength.nds_fasteners import (
    lag_in_main_mm,
    lag_thread_mm,
    lag_withdrawal_n_mm,
    ledger_spacing_mm,
    nail_withdrawal_n_mm,
)
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_posts import (
    built_footing_inches,
    footing_side_mm,
    post_height_mm,
    post_length,
    table_footing_inches,
)
from drylay.strength.nds_spans import (
    beam_span,
    carried_by_beam_mm,
    deck_loads_kn_m2,
    joist_span,
    overhang,
)
from drylay.strength.nds_tables import rows_of, table_names, table_source
from drylay.strength.nds_values import (
    dressed,
    gravity_ratio,
    group_of,
    reference,
    species_name,
)
from drylay.strength.us_units import (
    built_inches,
    dug_inches,
    inches_of_mm,
    kn_m2_of_psf,
    kn_of_lb,
    lb_inch_of_n_mm,
    lb_of_kn,
    m2_of_sqft,
    mm_of_feet,
    mm_of_inches,
    n_mm2_of_psi,
    psi_of_n_mm2,
    table_inches,
)

DRY = Conditions(wet=False)
WET = Conditions()


def test_units_by_hand() -> None:
    """1 psi 0.00689476 N/mm2, 1 psf 0.0478803 kN/m2, 1 lb 4.44822 N: NIST SP 811, from memory."""
    assert n_mm2_of_psi(1) == pytest.approx(0.00689476, rel=1e-6)
    assert kn_m2_of_psf(1) == pytest.approx(0.0478803, rel=1e-6)
    assert kn_of_lb(1000) == pytest.approx(4.44822, rel=1e-6)
    assert m2_of_sqft(1) == pytest.approx(0.09290304)


def test_inch_sizes_are_exact_in_mm_and_back() -> None:
    """25.4 mm to the inch, so that 1-1/2 x 7-1/4 in are 38.1 x 184.15 mm: no last place astray."""
    two_by_eight = dressed("2x8")
    assert (two_by_eight.breadth_mm, two_by_eight.depth_mm) == (38.1, 184.15)
    for sixteenths in range(1, 16 * 20):
        inches = Fraction(sixteenths, 16)
        mm = mm_of_inches(float(inches))
        assert mm == float(inches * 254 / 10)
        assert inches_of_mm(mm) == pytest.approx(float(inches), rel=1e-15)
    assert mm_of_feet(7.5) == 2286.0


def test_tables_round_to_the_nearest_inch_with_halves_up_and_people_do_not() -> None:
    """A lag screw's 22.5 in is printed as 23: IRC 2018 table R507.9.1.3(1), from memory."""
    assert table_inches(mm_of_inches(22.5)) == 23
    assert built_inches(mm_of_inches(22.5)) == 22
    assert dug_inches(mm_of_inches(22.1)) == 23
    assert built_inches(mm_of_inches(22.6), part_inch=0.5) == 22.5
    assert built_inches(mm_of_inches(23)) == 23
    assert dug_inches(mm_of_inches(23)) == 23


def test_a_lag_screw_holds_what_the_example_says() -> None:
    """AWC E2.3: 1/2 x 4 in in southern pine behind 1-1/2 in, 955 lb."""
    each = lag_withdrawal_n_mm(gravity_ratio("SP"), mm_of_inches(0.5))
    held = lag_in_main_mm(mm_of_inches(0.5), mm_of_inches(4), mm_of_inches(1.5))
    assert lb_of_kn(each * held / 1000) == pytest.approx(955, abs=0.5)
    assert inches_of_mm(lag_thread_mm(mm_of_inches(0.5), mm_of_inches(4))) == pytest.approx(2.1875)


def test_less_thread_is_in_the_wood_behind_a_thick_piece() -> None:
    held = lag_in_main_mm(mm_of_inches(0.5), mm_of_inches(4), mm_of_inches(3))
    assert inches_of_mm(held) == pytest.approx(1 - 5 / 16)
    assert lag_in_main_mm(mm_of_inches(0.5), mm_of_inches(4), mm_of_inches(5)) == 0


def test_a_nail_holds_what_the_example_says() -> None:
    """AWC E2.1a: 0.131 in in spruce-pine-fir, 20.67 lb for each inch, 49.5 lb for 2.395 in."""
    each = lb_inch_of_n_mm(nail_withdrawal_n_mm(gravity_ratio("SPF"), mm_of_inches(0.131)))
    assert each == pytest.approx(20.67, abs=0.005)
    assert each * 2.395 == pytest.approx(49.5, abs=0.05)


def test_beam_stability_is_what_the_example_says() -> None:
    """AWC E1.2a: 4x16 Douglas fir-larch SS, 20 ft: le 375 in, Fb' 1313 psi of 1500."""
    section = dressed("4x16")
    wood = allowed("DFL", "SS", section, DRY)
    length = effective_length_mm(free_mm=mm_of_feet(20), depth_mm=section.depth_mm, load="middle")
    assert inches_of_mm(length) == pytest.approx(375, abs=0.5)
    ratio = beam_stability_factor(
        length_mm=length,
        depth_mm=section.depth_mm,
        breadth_mm=section.breadth_mm,
        bending_n_mm2=wood.bending_n_mm2,
        least_stiffness_n_mm2=wood.least_stiffness_n_mm2,
    )
    assert psi_of_n_mm2(ratio * wood.bending_n_mm2) == pytest.approx(1313, abs=0.5)


def test_effective_lengths_by_hand() -> None:
    """NDS table 3.3.3, from memory: 2.06 lu below 7 d, else 1.63 lu + 3 d; 1.84 lu above 14.3 d."""
    assert effective_length_mm(free_mm=600, depth_mm=100, load="even") == pytest.approx(1236)
    assert effective_length_mm(free_mm=1000, depth_mm=100, load="even") == pytest.approx(1930)
    assert effective_length_mm(free_mm=600, depth_mm=100, load="middle") == pytest.approx(1080)
    assert effective_length_mm(free_mm=600, depth_mm=100) == pytest.approx(1236)
    assert effective_length_mm(free_mm=1000, depth_mm=100) == pytest.approx(1930)
    assert effective_length_mm(free_mm=2000, depth_mm=100) == pytest.approx(3680)


def test_a_column_bears_what_the_example_says() -> None:
    """HUD example 5.6: 4x4 spruce-pine-fir No.2, 7.3 ft, Cp 0.4378."""
    section = dressed("4x4")
    wood = allowed("SPF", "No.2", section, DRY)
    ratio = column_stability_factor(
        length_mm=mm_of_feet(7.3),
        least_mm=section.breadth_mm,
        along_n_mm2=wood.along_n_mm2,
        least_stiffness_n_mm2=wood.least_stiffness_n_mm2,
    )
    assert ratio == pytest.approx(0.4378, abs=0.0001)


def test_the_wet_switch_is_at_1150_psi() -> None:
    """NDS Supplement 4A: 1.0 at or below Fb CF of 1150 psi, 0.85 above; Fc at 750."""
    assert wet_factor("bending", n_mm2_of_psi(1150)) == 1.0
    assert wet_factor("bending", n_mm2_of_psi(1150.1)) == 0.85
    assert wet_factor("along", n_mm2_of_psi(750)) == 1.0
    assert wet_factor("along", n_mm2_of_psi(751)) == 0.8


def test_a_stronger_wood_may_bear_less_once_wet() -> None:
    """Douglas fir-larch 2x6: 900 x 1.3 = 1170 psi takes 0.85; hem-fir, 1105, takes none."""
    section = dressed("2x6")
    dry = [allowed(wood, "No.2", section, DRY).bending_n_mm2 for wood in ("DFL", "HF")]
    wet = [allowed(wood, "No.2", section, WET).bending_n_mm2 for wood in ("DFL", "HF")]
    assert dry[0] > dry[1]
    assert [psi_of_n_mm2(each) for each in wet] == pytest.approx([1170 * 0.85, 1105])
    assert wet[0] < wet[1]


def test_factors_multiply_by_hand() -> None:
    """Hem-fir No.2 2x10 snow, incised, repeated: 850 x 1.1 x 1.15 x 0.8 x 1.15; E 0.9 x 0.95."""
    use = Conditions(incised=True, duration_ratio=duration_factor("snow"), repeated_ratio=1.15)
    wood = allowed("HF", "No.2", dressed("2x10"), use)
    assert psi_of_n_mm2(wood.bending_n_mm2) == pytest.approx(850 * 1.1 * 1.15 * 0.8 * 1.15)
    assert psi_of_n_mm2(wood.stiffness_n_mm2) == pytest.approx(1.3e6 * 0.9 * 0.95)
    assert psi_of_n_mm2(wood.shear_n_mm2) == pytest.approx(150 * 1.15 * 0.97 * 0.8)
    assert psi_of_n_mm2(wood.across_n_mm2) == pytest.approx(405 * 0.67)
    assert ("CF bending", 1.1) in wood.factors


def test_timbers_have_values_of_their_own() -> None:
    """Table 4D: southern pine 6x6 values hold wet as they are; Douglas fir takes 0.91 along."""
    pine = allowed("SP", "No.2", dressed("6x6"), WET)
    assert psi_of_n_mm2(pine.along_n_mm2) == pytest.approx(525)
    fir = allowed("DFL", "No.2", dressed("6x6"), WET)
    assert psi_of_n_mm2(fir.along_n_mm2) == pytest.approx(700 * 0.91)


def test_members_that_share_load_gain_nothing_as_timbers() -> None:
    """NDS 4.3.9, from memory: of dimension lumber, 2 to 4 in thick. Table 4D: 850 psi as it is."""
    three = allowed("SP", "No.2", dressed("6x6"), Conditions(repeated_ratio=1.15))
    assert psi_of_n_mm2(three.bending_n_mm2) == pytest.approx(850)


def test_between_two_thicknesses_the_lesser_size_factor_holds() -> None:
    """Supplement 4A, 8 in deep: 1.2 for 2 and 3 in, 1.3 for 4 in; 75 mm is less than 3-1/2 in."""
    assert [size_factor(184.15, mm) for mm in (38.1, 63.5, 75, 88.9)] == [1.2, 1.2, 1.2, 1.3]


def test_every_printed_table_tells_its_source_and_has_its_rows() -> None:
    """Rows and sums counted by hand, depths and factors apart; tips in 32nds: a slip shows."""
    assert all(table_source(name).title and table_source(name).clause for name in table_names())
    sums = {
        "size": (7, 56.5 + 8.4 + 8.8),
        "size_along": (5, 42.75 + 5.2),
        "lag_tip": (9, 5.125 + 107 / 32),
        "lag_thread": (14, 82 + 46.5),
    }
    found = {name: (len(rows_of(name)), sum(map(sum, rows_of(name)))) for name in sums}
    assert found == {name: (rows, pytest.approx(total)) for name, (rows, total) in sums.items()}


def test_between_two_depths_the_deeper_row_holds() -> None:
    wood = reference("SP", "No.2", Section(breadth_mm=45, depth_mm=170))
    assert psi_of_n_mm2(wood.bending_n_mm2) == pytest.approx(925)
    assert size_factor(170, 45) == 1.2
    assert size_factor_along(170) == 1.05


def test_the_weakest_wood_of_a_group_is_named() -> None:
    section = dressed("2x6")
    woods = allowed_in_group("DFL-HF-SPF", "No.2", section, Conditions(repeated_ratio=1.15))
    extent = least_extent(
        woods, lambda wood: joist_span(wood, section, centres_mm=mm_of_inches(24))
    )
    assert extent.governs == "bending, DFL"
    assert table_inches(extent.extent_mm) == 82  # DCA 6-2012 table 2: 6-10, read


def test_a_joist_deflects_under_live_load_alone() -> None:
    """Southern pine 2x8 at 12 in: L^3 = 384 E' I / (5 x 360 w), 157 in; DCA 6-2012, read."""
    section = dressed("2x8")
    wood = allowed("SP", "No.2", section, Conditions(repeated_ratio=1.15))
    extent = joist_span(wood, section, centres_mm=mm_of_inches(12))
    assert extent.governs == "deflection"
    assert table_inches(extent.extent_mm) == 157
    heavier = joist_span(wood, section, centres_mm=mm_of_inches(12), dead_kn_m2=kn_m2_of_psf(12))
    assert dict(heavier.by_limit_mm)["deflection"] == dict(extent.by_limit_mm)["deflection"]


def test_no_overhang_where_half_a_bearing_is_too_much() -> None:
    wood = allowed("NS", "No.2", dressed("2x4"), WET)
    thin = Section(breadth_mm=10, depth_mm=40)
    extent = overhang(wood, thin, back_span_mm=2000, bearing_mm=100)
    assert extent.extent_mm == 0


def test_decks_of_dwellings_have_the_loads_of_the_tables() -> None:
    """DCA 6-2012 table 2, note 1, read: 40 and 10 psf."""
    assert deck_loads_kn_m2("dwelling") == pytest.approx((1.9152, 0.4788), rel=1e-4)


def test_what_a_beam_carries_by_hand() -> None:
    """(L + L/4)^2 / 2 L = 0.78125 L; half without an overhang."""
    assert carried_by_beam_mm(1000, 250) == pytest.approx(781.25)
    assert carried_by_beam_mm(1000) == pytest.approx(500)


def test_a_beam_may_be_short_by_shear() -> None:
    section = dressed("2x12")
    wood = allowed("NS", "No.2", section, WET)
    assert beam_span(wood, section, carried_mm=8000).governs == "shear"


def test_footings_are_dug_larger_than_printed() -> None:
    """1500 psf, 60 sq ft: sqrt(50 x 60 / 1500) ft = 16.97 in; round 19.15 in is printed 19."""
    load, soil = m2_of_sqft(60) * kn_m2_of_psf(50), kn_m2_of_psf(1500)
    assert table_footing_inches(load, soil) == (17, 19, 6)
    assert built_footing_inches(load, soil) == (17, 20, 7)
    assert inches_of_mm(footing_side_mm(load, soil)) == pytest.approx(2**0.5 * 12)


def test_a_post_is_capped_and_a_short_thick_one_ends_at_its_slenderness() -> None:
    section = dressed("4x6")
    wood = allowed("SP", "No.2", section, WET)
    light = post_length(wood, section, load_kn=0.1, most_mm=9000)
    assert light.governs == "slenderness"
    assert light.extent_mm == pytest.approx(50 * section.breadth_mm)
    assert post_length(wood, section, load_kn=12.0).governs == "cap"
    assert post_height_mm(wood, section, load_kn=0.1) == pytest.approx(mm_of_inches(168))


@pytest.mark.parametrize(
    "ask",
    [
        lambda: reference("OAK", "No.2", dressed("2x6")),
        lambda: reference("SP", "No.9", dressed("2x6")),
        lambda: reference("WC", "No.2", dressed("6x6")),
        lambda: reference("SP", "No.2", dressed("2x14")),
        lambda: reference("PP", "No.2", dressed("2x6")),
        lambda: dressed("2x7"),
        lambda: dressed("two by six"),
        lambda: group_of("EVERYTHING"),
        lambda: species_name("OAK"),
        lambda: duration_factor("moonlight"),
        lambda: effective_length_mm(free_mm=1, depth_mm=1, load="odd"),
        lambda: size_factor(500, 38),
        lambda: size_factor_along(500),
        lambda: ledger_spacing_mm("nail", joist_span_mm=3000),
        lambda: ledger_spacing_mm("lag", joist_span_mm=0),
        lambda: lag_thread_mm(mm_of_inches(0.55), mm_of_inches(4)),
        lambda: lag_thread_mm(mm_of_inches(0.5), mm_of_inches(4.2)),
        lambda: lag_withdrawal_n_mm(0.9, mm_of_inches(0.5)),
        lambda: nail_withdrawal_n_mm(0.5, mm_of_inches(1)),
        lambda: footing_side_mm(0, 100),
        lambda: deck_loads_kn_m2("hot tub"),
        lambda: post_length(
            allowed("SP", "No.2", dressed("2x6"), WET), dressed("2x6", 3), load_kn=1
        ),
        lambda: carried_by_beam_mm(0),
        lambda: post_length(allowed("SP", "No.2", dressed("4x4"), WET), dressed("4x4"), load_kn=0),
        lambda: post_length(
            allowed("SP", "No.2", dressed("4x4"), WET), dressed("4x4"), load_kn=1000
        ),
        lambda: column_stability_factor(
            length_mm=6000, least_mm=100, along_n_mm2=8, least_stiffness_n_mm2=3000
        ),
        lambda: beam_stability_factor(
            length_mm=90_000,
            depth_mm=300,
            breadth_mm=38,
            bending_n_mm2=8,
            least_stiffness_n_mm2=3000,
        ),
    ],
)
def test_what_the_basis_does_not_cover_is_a_stop(ask) -> None:
    with pytest.raises(UncoveredError):
        ask()
