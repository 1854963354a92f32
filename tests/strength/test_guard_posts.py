"""Guards' posts by both bases: sums done by hand, what is refused, and laws of their use."""

from collections.abc import Callable

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import Check, DesignBasis, GuardPostAsked, Screened, Section
from drylay.strength.nds_basis import us_allowable_stress
from drylay.strength.nds_values import dressed
from drylay.strength.us_units import kn_of_lb, lb_of_kn, mm_of_inches, psi_of_n_mm2
from strength.ec5_decks import named

#: 1000 mm apart, 1100 mm high, upper bolt 60 mm under the boards, bolts 120 mm apart.
METRIC = GuardPostAsked(
    subject="guard posts R1", wood="C24", section=Section(breadth_mm=100.0, depth_mm=100.0),
    edge_wood="C16", edge=Section(breadth_mm=47.0, depth_mm=195.0), centres_mm=1000.0,
    rail_mm=1160.0, bolts_mm=120.0, bolt="M12 4.6", washer_mm=60.0, line_kn_m=0.74, point_kn=0.0,
)  # fmt: skip
#: A 4x4 under 200 lb, 36 in high, upper bolt 3 in under the boards, bolts 5 in apart.
INCHES = GuardPostAsked(
    subject="guard posts R1", wood="SP No.2", section=dressed("4x4"), edge_wood="SP No.2",
    edge=dressed("2x10"), centres_mm=mm_of_inches(72), rail_mm=mm_of_inches(39),
    bolts_mm=mm_of_inches(5), bolt="1/2 in A307", washer_mm=mm_of_inches(3), line_kn_m=0.0,
    point_kn=kn_of_lb(200),
)  # fmt: skip
BASES = ((eurocode_5(), METRIC), (us_allowable_stress(), INCHES))
GROWING = st.floats(1.0, 3.0)


def screened(
    asked: GuardPostAsked, basis: DesignBasis | None = None, use: str = "dwelling"
) -> Screened:
    asks = (basis or eurocode_5()).guard_post
    assert asks is not None
    return asks(asked, use)


def us(asked: GuardPostAsked, use: str = "dwelling") -> Screened:
    return screened(asked, us_allowable_stress(), use)


def test_by_eurocode_5_in_figures() -> None:
    """EN 1995-1-1 and EN 1993-1-8 table 3.4, formulas from memory, on a pocket calculator.

    Push 1.5 x 0.74 kN/m x 1.0 m = 1.11 kN. Moment 1.11 x 1.16 = 1.2876 kN m on 87 x 100^2 / 6 =
    145 000 mm3: 8.88 N/mm2; a C24 of 100 mm bears 24 x 0.7 / 1.3 x 1.5^0.2 (1.0845) = 14.015, used
    0.6336. Lower bolt 1.11 x 1160 / 120 = 10.73 kN, shear 1.5 x 10 730 / (0.67 x 87 x 100) =
    2.761 of 4.0 x 0.7 / 1.3 = 2.1538, used 1.282. Upper 11.84 kN; washer pi / 4 (3600 - 169) =
    2694.7 mm2 x 3 x 2.2 (C16, EN 338:2016) x 0.7 / 1.3 = 9.577 kN, used 1.2363; bolt 0.9 x 400 x
    84.3 / 1.25 = 24.278 kN, used 0.4877.
    """
    found = screened(METRIC)
    bent = named(found, "bending")
    assert (bent.measured, bent.limit) == pytest.approx((8.88, 14.015), rel=2e-4)
    assert named(found, "shear").measured == pytest.approx(2.761, rel=2e-4)
    assert named(found, "shear").utilisation_ratio == pytest.approx(1.282, rel=5e-4)
    washer = named(found, "washer bearing")
    assert (washer.measured, washer.limit) == pytest.approx((11.84, 9.577), rel=2e-4)
    assert named(found, "bolt in tension").utilisation_ratio == pytest.approx(0.4877, rel=2e-4)
    assert found.checks[0].name == "shear"
    assert bent.case == "1.5 x 0.74 kN/m on the rail"


def test_by_the_us_basis_in_figures() -> None:
    """NDS 3.1.2, 3.3, 3.4 and 3.10.2, formulas from memory, in inches and pounds by hand.

    Moment 200 x 39 = 7800 in lb on (3.5 - 9/16) x 3.5^2 / 6 = 2.9375 x 12.25 / 6 = 5.9974 in3:
    1300.6 psi. Lower bolt 200 x 39 / 5 = 1560 lb, shear 1.5 x 1560 / (2.9375 x 3.5) = 227.6 psi of
    175 x 0.97 = 169.75. Upper 1760 lb; washer pi / 4 (9 - 0.3164) = 6.820 in2 x 565 x 0.67 =
    2581.8 lb; bolt pi / 4 x 0.25 x 20 000 = 3927 lb.
    """
    found = us(INCHES)
    assert psi_of_n_mm2(named(found, "bending").measured) == pytest.approx(1300.6, rel=1e-4)
    shear = named(found, "shear")
    assert psi_of_n_mm2(shear.measured) == pytest.approx(227.6, rel=2e-4)
    assert psi_of_n_mm2(shear.limit) == pytest.approx(169.75, rel=1e-4)
    washer = named(found, "washer bearing")
    assert lb_of_kn(washer.measured) == pytest.approx(1760.0)
    assert lb_of_kn(washer.limit) == pytest.approx(2581.8, rel=1e-4)
    assert lb_of_kn(named(found, "bolt in tension").limit) == pytest.approx(3927.0, rel=1e-4)
    assert named(found, "bending").case == "0.8896 kN on one post"
    assert any("CD 1.0" in said for said in found.assumed)


def test_the_greater_of_two_loads_counts_and_never_both() -> None:
    """0.74 kN/m on 1 m is 0.74 kN: 0.7 kN at one place is less, 0.9 kN more."""
    for basis, asked in BASES:
        along = evolve(asked, line_kn_m=0.74, centres_mm=1000.0, point_kn=0.0)
        same = screened(evolve(along, point_kn=0.7), basis)
        more = screened(evolve(along, point_kn=0.9), basis)
        assert same == screened(along, basis)
        moment = [named(found, "bending").measured for found in (more, same)]
        assert moment[0] / moment[1] == pytest.approx(0.9 / 0.74)
        assert "0.9 kN on one post" in more.checks[0].case


def test_the_weaker_wood_under_the_washer_counts() -> None:
    """EN 338:2016: f c,90,k is 2.5 of C24 and 2.2 of C16; 565 and 405 psi of SP and HF."""
    for found, weak, share in (
        (screened, METRIC, 2.2 / 2.5),
        (us, evolve(INCHES, edge_wood="HF No.2"), 405 / 565),
    ):
        strong = evolve(weak, edge_wood=weak.wood)
        limits = [named(found(each), "washer bearing").limit for each in (weak, strong)]
        assert limits[0] / limits[1] == pytest.approx(share)


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        ({"bolt": "M13 4.6"}, "M12 4.6"), ({"bolt": "12"}, "such as M12 4.6"),
        ({"bolt": "M12 9.9"}, "A4-70"), ({"washer_mm": 35.0}, "at least 3 diameters"),
        ({"wood": "C25"}, "EN 338"), ({"edge_wood": "pine"}, "EN 338"),
        ({"line_kn_m": 0.0}, "a load along"), ({"rail_mm": float("nan")}, "rail_mm"),
        ({"section": Section(breadth_mm=12.0, depth_mm=100.0)}, "breadth_less_hole_mm"),
        ({"section": Section(breadth_mm=47.0, depth_mm=100.0, plies=2)}, "of one piece"),
    ],
)  # fmt: skip
def test_what_eurocode_5_refuses_is_a_stop(change: dict[str, object], wanted: str) -> None:
    found = screened(evolve(METRIC, **change))  # type: ignore[arg-type]
    assert not found.checks
    assert wanted in " ".join(found.stops)


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        ({"bolt": "M12 4.6"}, "such as 1/2 in A307"), ({"bolt": "7/8 in A307"}, "3/8, 1/2"),
        ({"bolt": "1/2 in A325"}, "A307"), ({"wood": "No.2"}, "a species and its grade"),
        ({"washer_mm": 14.0}, "washer_less_hole_mm"), ({"point_kn": -1.0}, "point_kn"),
        ({"section": Section(breadth_mm=14.0, depth_mm=90.0)}, "breadth_less_hole_mm"),
    ],
)  # fmt: skip
def test_what_the_us_basis_refuses_is_a_stop(change: dict[str, object], wanted: str) -> None:
    found = us(evolve(INCHES, **change))  # type: ignore[arg-type]
    assert not found.checks
    assert wanted in " ".join(found.stops)


def test_crowds_are_a_stop() -> None:
    for basis, asked in BASES:
        assert screened(asked, basis, "crowd").stops


Change = Callable[[GuardPostAsked, float], GuardPostAsked]
RISING: tuple[Change, ...] = (
    lambda a, by: evolve(a, line_kn_m=a.line_kn_m * by, point_kn=a.point_kn * by),
    lambda a, by: evolve(a, line_kn_m=1.0, centres_mm=a.centres_mm * by),
    lambda a, by: evolve(a, rail_mm=a.rail_mm * by),
)
FALLING: tuple[Change, ...] = (
    lambda a, by: evolve(a, bolts_mm=a.bolts_mm * by),
    lambda a, by: evolve(a, washer_mm=a.washer_mm * by),
    lambda a, by: _section(a, breadth_mm=70.0 + 6.0 * by),
    lambda a, by: _section(a, depth_mm=70.0 + 6.0 * by),
)


def _section(asked: GuardPostAsked, **size: float) -> GuardPostAsked:
    return evolve(asked, section=evolve(asked.section, **size))  # type: ignore[arg-type]


def use_of(found: Screened) -> dict[str, float]:
    assert not found.stops, found.stops
    return {each.name: each.utilisation_ratio for each in found.checks}


@given(st.sampled_from(BASES), st.sampled_from(RISING), GROWING, GROWING)
def test_use_rises_with_load_centres_and_height(
    of: tuple[DesignBasis, GuardPostAsked], change: Change, one: float, other: float
) -> None:
    """Each check by itself, and one of them at least where the growth is more than a trifle."""
    less, more = (use_of(screened(change(of[1], by), of[0])) for by in sorted((one, other)))
    assert all(more[name] >= less[name] * (1 - 1e-12) for name in less)
    assert sum(more.values()) > sum(less.values()) or abs(one - other) < 1e-9


@given(st.sampled_from(BASES), st.sampled_from(FALLING), GROWING, GROWING)
def test_use_falls_with_section_washers_and_bolts_further_apart(
    of: tuple[DesignBasis, GuardPostAsked], change: Change, one: float, other: float
) -> None:
    less, more = (use_of(screened(change(of[1], by), of[0])) for by in sorted((one, other)))
    assert all(more[name] <= less[name] * (1 + 1e-12) for name in less)
    assert sum(more.values()) < sum(less.values()) or abs(one - other) < 1e-9


def test_every_figure_of_the_couple_is_told() -> None:
    for basis, asked in BASES:
        found = screened(asked, basis)
        for name in ("washer bearing", "bolt in tension"):
            told = dict(_check(found, name).inputs)
            assert told["rail_mm"] == asked.rail_mm
            assert told["bolts_mm"] == asked.bolts_mm
            push = told["push_kn"]
            assert isinstance(push, float)
            upper = push * (asked.rail_mm + asked.bolts_mm) / asked.bolts_mm
            assert _check(found, name).measured == pytest.approx(upper)


def _check(found: Screened, name: str) -> Check:
    return named(found, name)
