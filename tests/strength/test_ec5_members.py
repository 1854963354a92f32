"""Joists and bearers by Eurocode 5 against sums done by hand; each sum stands beside its value."""

from math import sqrt

import pytest
from attrs import evolve

from drylay.errors import InputError
from drylay.reasons import Source
from drylay.strength.ec5_actions import (
    actions_of,
    shared_ratio,
    strength_factors,
)
from drylay.strength.ec5_bearer import held_by_joists
from drylay.strength.ec5_joist import screen_joist, uplift_of_kn
from drylay.strength.ec5_member import bearing_length_mm, critical_n_mm2, effective_mm, kcrit_of
from drylay.strength.ec5_model import Bearer, Choices, Sharing
from drylay.strength.ec5_values import kdef, kh, kmod, ksys
from drylay.strength.model import Section
from strength.ec5_decks import joist, named, screened_bearer, screened_joist, timber, used

ENGINEER = Source(kind="named person's override", title="the engineer")
#: 0.20 x 0.4 and 0.047 x 0.150 x 420 x 9.81 / 1000, kN/m.
DEAD = 0.08 + 0.0290474


@pytest.mark.parametrize(
    ("depth_mm", "rho", "wanted", "where"),
    [
        (100, 350, 1.08447, "1.5 to the power 0.2"),
        (150, 350, 1.0, "from 150 mm on"),
        (28, 350, 1.3, "(150 / 28)^0.2 is 1.399, cut off at 1.3"),
        (100, 700, 1.08447, "700 kg/m3 still counts"),
        (100, 750, 1.0, "denser than 700 kg/m3"),
    ],
)
def test_kh(depth_mm: float, rho: float, wanted: float, where: str) -> None:
    assert kh(depth_mm, rho) == pytest.approx(wanted, rel=1e-4), where


def test_a_joist_in_bending_under_the_point_load() -> None:
    """1.35 x 0.10905 x 2.5^2 / 8 + 1.5 x 2 x 2.5 / 4 = 1.990 kN m over 47 x 150^2 / 6."""
    found = named(screened_joist(), "bending")
    moment = 1.35 * DEAD * 6.25 / 8 + 1.875
    assert found.measured == pytest.approx(moment * 1e6 / 176_250)
    assert found.limit == pytest.approx(24 * 0.65 / 1.3)
    assert found.utilisation_ratio == pytest.approx(0.9409, rel=1e-3)
    assert found.case == "6.10: 1.35 G + 1.5 Q, point load"


def test_a_joist_in_shear_and_on_its_bearing() -> None:
    """V = 1.35 x 0.10905 x 1.25 + 3 = 3.184 kN; 1.5 V / 0.67 b h; V / 47 x (47 + 30)."""
    found = screened_joist()
    push = 1.35 * DEAD * 1.25 + 3.0
    shear, bearing = named(found, "shear"), named(found, "bearing")
    assert shear.measured == pytest.approx(1.5 * push * 1e3 / (0.67 * 47 * 150))
    assert shear.limit == pytest.approx(4.0 * 0.65 / 1.3)
    assert bearing.measured == pytest.approx(push * 1e3 / (47 * 77))
    assert bearing.limit == pytest.approx(2.5 * 0.65 / 1.3)


def test_spread_load_shares_and_a_point_load_does_not() -> None:
    """w = 1.35 x 0.10905 + 1.5 x 1.5 x 0.4; the limit takes k_sys 1.1."""
    found = named(screened_joist(span_mm=9000.0), "bending")
    assert found.case == "6.10: 1.35 G + 1.5 q, spread"
    assert found.measured == pytest.approx((1.35 * DEAD + 0.9) * 81 / 8 * 1e6 / 176_250)
    assert found.limit == pytest.approx(12.0 * 1.1)
    assert named(screened_joist(span_mm=9000.0, centres_mm=611.0), "bending").limit == 12.0
    assert named(screened_joist(span_mm=9000.0, alike=3), "bending").limit == 12.0


def test_final_deflection_creeps_with_kdef_two() -> None:
    """5 w L^4 / 384 E I + 1.2 w L^2 / 8 G A, G x 3 and q x 1.6, C24 47 x 150 over 6 m."""
    found = named(screened_joist(span_mm=6000.0), "deflection, final")
    stiff = 11_000 * 47 * 150**3 / 12 / 1e9
    slide = 690 * 47 * 150 / 1e3

    def sag(load: float) -> float:
        return (5 * load * 6**4 / 384 / stiff + 1.2 * load * 6**2 / 8 / slide) * 1e3

    assert found.measured == pytest.approx(3 * sag(DEAD) + 1.6 * sag(0.6))
    assert found.limit == pytest.approx(40.0)
    assert found.case == "G + q, spread"


def test_an_odd_limit_at_once_is_not_rounded_for_a_cantilever() -> None:
    """600 mm over 301 / 2: 3.987 mm; over 150 it would be 4.0."""
    odd = Choices(instant_over=301)
    found = screened_joist(cantilever_mm=600.0, hold_down_kn=2.0, choices=odd)
    sag = named(found, "cantilever deflection, instant")
    assert sag.limit == pytest.approx(1200 / 301)
    assert "L / 150.5" in sag.formula


def test_a_deflection_under_the_point_load() -> None:
    """P L^3 / 48 E I + 1.2 P L / 4 G A, with the dead load's, over 2.5 m."""
    found = named(screened_joist(), "deflection, instant")
    stiff, slide = 145.40625, 690 * 47 * 150 / 1e3
    dead = 5 * DEAD * 2.5**4 / 384 / stiff + 1.2 * DEAD * 2.5**2 / 8 / slide
    point = 2 * 2.5**3 / 48 / stiff + 1.2 * 2 * 2.5 / 4 / slide
    assert found.measured == pytest.approx((dead + point) * 1e3)
    assert found.case == "G + Q, point load"


def test_a_cantilever() -> None:
    """Tip: P a^2 (L + a) / 3 E I; over the support 1.35 w a^2 / 2 + 1.5 P a."""
    found = screened_joist(cantilever_mm=600.0, hold_down_kn=2.0, span_mm=2000.0)
    stiff, slide = 145.40625, 690 * 47 * 150 / 1.2e3
    even = DEAD * (0.6**3 * (8 + 1.8) / 24 / stiff + 0.6**2 / 2 * 1.3 / slide)
    tip = 2 * 0.36 * 2.6 / 3 / stiff + 2 * 0.6 * 1.3 / slide
    sag = named(found, "cantilever deflection, instant")
    assert sag.measured == pytest.approx((even + tip) * 1e3)
    assert sag.limit == pytest.approx(4.0)
    bent = named(found, "bending")
    assert bent.measured == pytest.approx((1.35 * DEAD * 0.18 + 1.8) * 1e6 / 176_250)
    assert "free out to the tip" in str(dict(bent.inputs)["restraint"])


def test_what_lifts_the_far_end() -> None:
    """(1.5 x 2 x 0.6 + 1.1 G x 0.18) / 2 - 0.9 G, moments about the support: EN 1990 table A1.2(A),
    from memory, has 1.1 on a weight that lifts and 0.9 on one that holds down.
    """
    over = joist(cantilever_mm=600.0, span_mm=2000.0)
    wanted = 0.9 + DEAD * (1.1 * 0.18 / 2 - 0.9 * 1.0)
    assert uplift_of_kn(over, actions_of("dwelling")) == pytest.approx(wanted)
    free = screened_joist(cantilever_mm=600.0, span_mm=2000.0)
    assert "lifted by 0.81 kN" in free.stops[0]
    held = screened_joist(cantilever_mm=600.0, span_mm=2000.0, hold_down_kn=1.0)
    assert not held.stops
    assert used(held)["holding down"] == pytest.approx(wanted)
    assert uplift_of_kn(joist(cantilever_mm=10.0), actions_of("dwelling")) == 0.0
    assert not screened_joist(cantilever_mm=10.0).stops


def test_turning_over_against_the_print_and_its_exact_values() -> None:
    """A joist 80 x 240 of l_ef 6.15 m: 24.801 N/mm2; exact slenderness 0.984 and k_crit 0.822."""
    stress = critical_n_mm2(80, 240, 6150, 11_000 / 1.5)
    assert stress == pytest.approx(24.801, rel=1e-4)
    slender = sqrt(24 / stress)
    assert slender == pytest.approx(0.984, abs=5e-4)
    assert kcrit_of(slender) == pytest.approx(0.822, abs=5e-4)
    assert kcrit_of(0.75) == 1.0
    assert kcrit_of(2.0) == 0.25


def test_effective_lengths_of_table_6_1() -> None:
    assert effective_mm(5000, 200, "spread") == 4900
    assert effective_mm(1000, 150, "cantilever, tip") == 1100
    assert effective_mm(1000, 150, "cantilever, spread") == 800
    assert effective_mm(1000, 150, "point") == 1100
    assert effective_mm(1000, 150, "moment") == 1300
    with pytest.raises(InputError, match="loaded"):
        effective_mm(1000, 150, "sideways")


def test_a_bearing_spreads_30_mm_and_no_more_than_its_own_length() -> None:
    assert bearing_length_mm(47, (0, 30)) == 77
    assert bearing_length_mm(47, (100, 100)) == 107
    assert bearing_length_mm(20, (100, 100)) == 60
    assert bearing_length_mm(47, (0, 12)) == 59


def test_a_bearer_of_two_plies() -> None:
    """1.8 m, 1.5 m of deck: G 0.35 x 1.5 + own, q 1.5 x 1.5, W = 2 x 47 x 150^2 / 6."""
    found = screened_bearer(plies=2)
    own = 2 * 0.0290474
    load = 1.35 * (0.525 + own) + 1.5 * 2.25
    bent = named(found, "bending")
    assert bent.measured == pytest.approx(load * 3.24 / 8 * 1e6 / 352_500)
    assert bent.limit == pytest.approx(12.0)
    bearing = named(found, "bearing")
    assert bearing.measured == pytest.approx(load * 0.9 * 1e3 / (94 * (95 + 30)))
    assert any("plies are fixed" in said for said in found.assumed)
    assert not any("plies are fixed" in said for said in screened_bearer().assumed)


def test_a_bearer_held_by_joists_turns_over_between_them() -> None:
    bearer = Bearer(
        timber=timber(), span_mm=1.0, carried_mm=1.0, bearing_mm=1.0, held_each_mm=450.0,
        dead_kn_m2=0.0,
    )  # fmt: skip
    assert held_by_joists(bearer).effective_mm == 750.0


def test_what_cannot_be_meant_is_refused_all_at_once() -> None:
    with pytest.raises(InputError) as raised:
        screened_joist(span_mm=0.0, centres_mm=float("nan"), breadth_mm=-1.0)
    assert [fault.path for fault in raised.value.faults] == ["span_mm", "centres_mm", "breadth_mm"]
    with pytest.raises(InputError, match="cantilever_mm"):
        screened_joist(cantilever_mm=-5.0)
    with pytest.raises(InputError, match="dead_kn_m2"):
        screened_joist(dead_kn_m2=-0.1)
    for wrong in (
        lambda: actions_of("party"),
        lambda: kmod(4, "medium"),
        lambda: kmod(True, "medium"),
        lambda: kmod(3, "ever"),
        lambda: kdef(0),
        lambda: timber("C25"),
        lambda: strength_factors(Choices(combination="6.11"), actions_of("dwelling")),
        lambda: shared_ratio(joist(), Sharing(way="somehow")),
        lambda: shared_ratio(joist(), Sharing(way="stated", stated_ratio=0.5)),
        lambda: shared_ratio(joist(), Sharing(way="stated", stated_ratio=0.0, source=ENGINEER)),
        lambda: shared_ratio(joist(), Sharing(way="stated", stated_ratio=1.01, source=ENGINEER)),
        lambda: shared_ratio(joist(), Sharing(way="board over three joists")),
    ):
        with pytest.raises(InputError):
            wrong()


def test_a_joist_of_two_plies_says_so() -> None:
    two = evolve(timber(), section=Section(breadth_mm=47, depth_mm=150, plies=2))
    about = evolve(joist(), timber=two)
    found = screen_joist(about, actions=actions_of("dwelling"), choices=Choices())
    assert any("plies are fixed" in said for said in found.assumed)
    assert used(found)["shear"] < 0.51 * used(screened_joist())["shear"]


def test_wet_timber_creeps_by_one_more() -> None:
    assert kdef(3, wet_when_built=True).value == pytest.approx(3.0)
    assert ksys(610.0) == 1.1
    assert ksys(400.0, alike=3) == 1.0


def test_every_check_says_its_case_clause_formula_and_inputs() -> None:
    found = screened_joist(cantilever_mm=500.0, hold_down_kn=1.0)
    assert [each.utilisation_ratio for each in found.checks] == sorted(
        (each.utilisation_ratio for each in found.checks), reverse=True
    )
    for each in found.checks:
        assert each.case
        assert each.source.clause
        assert each.formula
        assert each.inputs
        assert each.utilisation_ratio == each.measured / each.limit
