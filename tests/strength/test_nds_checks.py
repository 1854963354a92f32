"""Checks of the US basis against sums by hand: utilisation, governing case, clause, inputs."""

import pytest

from drylay.errors import InputError
from drylay.strength.beam import deflected_by_part, down_by_part
from drylay.strength.model import Beam, PointLoad, Screened
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_checks import (
    bearing_check,
    bending_check,
    column_check,
    deflection_check,
    footing_check,
    shear_check,
    withdrawal_check,
)
from drylay.strength.nds_fasteners import lag_in_main_mm, lag_withdrawal_n_mm
from drylay.strength.nds_model import Conditions, Held, Loaded
from drylay.strength.nds_screen import screened_beam, screened_post
from drylay.strength.nds_spans import beam_span
from drylay.strength.nds_values import dressed, gravity_ratio
from drylay.strength.us_units import kn_of_lb, mm_of_feet, mm_of_inches, n_mm2_of_psi, psi_of_n_mm2

WET = Conditions()
JOIST = dressed("2x8")
PINE = allowed("SP", "No.2", JOIST, Conditions(repeated_ratio=1.15))
HERE = {"subject": "J1", "case": "all load"}


def test_bending_by_hand() -> None:
    """M / S = 1 kN m over 38.1 x 184.15^2 / 6 mm3 = 4.644 N/mm2; Fb' = 925 x 1.15 psi."""
    check = bending_check(PINE, JOIST, moment_kn_m=-1.0, **HERE)
    assert check.measured == pytest.approx(1e6 / (38.1 * 184.15**2 / 6))
    assert psi_of_n_mm2(check.limit) == pytest.approx(925 * 1.15)
    assert check.utilisation_ratio == pytest.approx(check.measured / check.limit)
    assert dict(check.inputs)["CL"] == 1
    assert (check.unit, check.case, check.source.clause) == (
        "N/mm2",
        "all load",
        "3.3, table 4.3.1",
    )


def test_shear_and_bearing_by_hand() -> None:
    """1.5 V / A with 4 kN; R / (b x 38.1) with 2 kN, against 175 x 0.97 and 565 x 0.67 psi."""
    shear = shear_check(PINE, JOIST, shear_kn=-4.0, **HERE)
    assert shear.measured == pytest.approx(6000 / (38.1 * 184.15))
    assert psi_of_n_mm2(shear.limit) == pytest.approx(175 * 0.97)
    bearing = bearing_check(PINE, JOIST, reaction_kn=2.0, bearing_mm=38.1, **HERE)
    assert bearing.measured == pytest.approx(2000 / 38.1**2)
    assert psi_of_n_mm2(bearing.limit) == pytest.approx(565 * 0.67)


def test_a_post_by_the_published_example() -> None:
    """HUD example 5.6: 4x4 spruce-pine-fir No.2, 7.3 ft, dry, 4800 lb: 0.6767 of what it bears."""
    post = allowed("SPF", "No.2", dressed("4x4"), Conditions(wet=False))
    check = column_check(
        post, dressed("4x4"), load_kn=kn_of_lb(4800), length_mm=mm_of_feet(7.3), **HERE
    )
    assert check.utilisation_ratio == pytest.approx(0.6767, abs=1e-4)
    assert dict(check.inputs)["CP"] == pytest.approx(0.4378, abs=1e-4)


def test_soil_and_pull_by_hand() -> None:
    """10 kN on 0.25 m2 is 40 kN/m2; two 1/2 x 4 in lag screws hold 2 x 955 lb, CD 1.6, wet 0.7."""
    soil = footing_check(subject="F1", load_kn=10, area_m2=0.25, bearing_kn_m2=75)
    assert soil.utilisation_ratio == pytest.approx(40 / 75)
    half, four, side = (mm_of_inches(inches) for inches in (0.5, 4, 1.5))
    pull = withdrawal_check(
        subject="G1",
        pull_kn=kn_of_lb(955),
        each_n_mm=lag_withdrawal_n_mm(gravity_ratio("SP"), half),
        held_mm=lag_in_main_mm(half, four, side),
        count=2,
        ratio=1.6 * 0.7,
    )
    assert pull.utilisation_ratio == pytest.approx(1 / 2 / 1.12, rel=1e-3)


def test_deflection_tells_its_own_limit() -> None:
    check = deflection_check(
        deflection_mm=5, part_mm=1800, over=180, where="left cantilever", **HERE
    )
    assert (check.measured, check.limit, check.utilisation_ratio) == (5, 10, 0.5)
    up = deflection_check(deflection_mm=-5, part_mm=1800, over=180, where="left cantilever", **HERE)
    assert up.utilisation_ratio == 0


def test_a_printed_span_is_used_up_by_what_governs_it() -> None:
    """DCA 6-2012, read: southern pine 2x8 at 16 in, 11-10 to the nearest inch: bending 1.00."""
    section, at = JOIST, mm_of_inches(16) / 1000
    psf = n_mm2_of_psi(1) / 144 * 1000  # kN/m2
    span_mm = mm_of_inches(142)
    screened = screened_beam(
        (0, span_mm),
        span_mm,
        section,
        subject="J1",
        wood=("SP", "No.2"),
        loaded=Loaded(dead_kn_m=10 * psf * at, live_kn_m=40 * psf * at, point_kn=kn_of_lb(220)),
        held=Held(bearing_mm=mm_of_inches(1.5)),
        conditions=Conditions(repeated_ratio=1.15),
    )
    first, second, *_ = screened.checks
    assert (first.name, second.name) == ("bending", "deflection, span 1")
    assert first.utilisation_ratio == pytest.approx(1.0, abs=0.01)
    assert first.case == "dead load and live load on span 1"
    assert "one joist carries the whole point load of 0.9786 kN" in screened.assumed
    assert any("within the screened limits" in said for said in screened.assumed)


def test_a_beam_at_its_own_extent_is_used_up() -> None:
    """What `beam_span` allows in bending, the check finds used up: the same statics both ways."""
    section = dressed("2x10", 3)
    wood = allowed("SP", "No.2", section, Conditions(repeated_ratio=1.15))
    found = beam_span(wood, section, carried_mm=2000)
    assert found.governs == "bending"
    load_kn_m = 50 * n_mm2_of_psi(1) / 144 * 1000 * 2
    moment = load_kn_m * (found.extent_mm / 1000) ** 2 / 8
    assert bending_check(
        wood, section, moment_kn_m=moment, **HERE
    ).utilisation_ratio == pytest.approx(1)


def test_a_point_load_beside_a_support_shears_and_presses_whole() -> None:
    """No other load to speak of: V and R are P, 1.5 kN; in the middle they would be half of it."""
    screened = screened_beam(
        (0, 2000),
        2000,
        dressed("2x8", 2),
        subject="J1",
        wood=("SP", "No.2"),
        loaded=Loaded(dead_kn_m=0.0, live_kn_m=0.0, point_kn=1.5),
        held=Held(bearing_mm=38.1),
        conditions=WET,
    )
    found = {check.name: check for check in screened.checks}
    area = 2 * 38.1 * 184.15
    assert found["shear"].measured == pytest.approx(1.5 * 1500 / area, rel=1e-4)
    assert found["bearing"].measured == pytest.approx(1500 / (2 * 38.1 * 38.1), rel=1e-4)
    assert found["bending"].case == "dead load and point load in the middle of span 1"
    assert found["shear"].case.startswith("dead load and point load beside the ")
    assert "plies are fixed so that they share load and turn over as one" in screened.assumed


def test_a_support_that_must_hold_down_is_a_stop_until_it_is_told_to() -> None:
    """A span of 1 m and 2 m past it, 0.1 kN/m dead and 0.5 live out there: moments about the second
    support, 0.6 x 2 x 1 out there less 0.1 x 1 x 0.5 on the span, over 1 m.
    """
    lift_kn = 0.6 * 2 * 1.0 - 0.1 * 1 * 0.5

    def found(down_kn: float) -> Screened:
        return screened_beam(
            (0, 1000),
            3000,
            JOIST,
            subject="J1",
            wood=("SP", "No.2"),
            loaded=Loaded(dead_kn_m=0.1, live_kn_m=0.5, point_kn=0.0),
            held=Held(bearing_mm=76, down_kn=down_kn),
            conditions=WET,
        )

    assert lift_kn == pytest.approx(1.15)
    words = "a support must hold the member down with 1.15 kN and"
    assert found(0.0).stops == (f"{words} nothing is told that does",)
    assert found(1.14).stops == (f"{words} 1.14 kN is told",)
    assert found(1.16).stops == ()
    names = {check.name for check in found(0.0).checks}
    assert {"deflection, span 1", "deflection, right cantilever"} < names


def test_a_long_lasting_load_may_govern_a_post() -> None:
    """Dead load alone takes CD 0.9, all load 1.0: with no live load the first governs."""
    screened = screened_post(
        dressed("4x4"),
        subject="L1",
        wood=("SP", "No.2"),
        length_mm=1000,
        dead_kn=10,
        live_kn=0,
        conditions=WET,
    )
    assert [check.case for check in screened.checks] == ["dead load"]


def test_each_part_of_a_beam_has_its_own_deflection() -> None:
    """2 kN at a free end: down there, up in the span by P a L^2 / (9 sqrt 3 EI), by hand."""
    beam = Beam(length_mm=4000, supports_mm=(0, 3000), bending_stiffness_kn_m2=100.0)
    load = [PointLoad(at_mm=4000, load_kn=2.0)]
    span, end = deflected_by_part(beam, load)
    assert end.deflection_mm == pytest.approx(2 * 1 * 4 / 300 * 1000)
    assert span.deflection_mm == pytest.approx(-2 * 9 / (9 * 3**0.5 * 100) * 1000)
    assert [part.deflection_mm for part in down_by_part(beam, load)] == pytest.approx(
        [0, end.deflection_mm], abs=1e-9
    )
    with pytest.raises(InputError):
        deflected_by_part(beam, [PointLoad(at_mm=9000, load_kn=2.0)])


def test_a_joist_that_the_tables_allow_passes_with_its_overhang() -> None:
    """DCA 6-2012, read: southern pine 2x10 at 24 in, 11-5 and 2-10: an end that goes up when its
    span is loaded is no fault. Both half an inch less, which the tables may have rounded up; on a
    beam of two plies, 3 in.
    """
    psf, at = n_mm2_of_psi(1) / 144 * 1000, mm_of_inches(24) / 1000
    span_mm, end_mm = mm_of_inches(136.5), mm_of_inches(33.5)
    screened = screened_beam(
        (0, span_mm),
        span_mm + end_mm,
        dressed("2x10"),
        subject="J1",
        wood=("SP", "No.2"),
        loaded=Loaded(dead_kn_m=10 * psf * at, live_kn_m=40 * psf * at, point_kn=kn_of_lb(220)),
        held=Held(bearing_mm=mm_of_inches(3)),
        conditions=Conditions(repeated_ratio=1.15),
    )
    assert screened.checks[0].utilisation_ratio <= 1


def test_loads_and_bearings_that_cannot_be_meant_are_refused_together() -> None:
    with pytest.raises(InputError) as told:
        screened_beam(
            (0, 3000),
            3000,
            JOIST,
            subject="J1",
            wood=("SP", "No.2"),
            loaded=Loaded(dead_kn_m=-1, live_kn_m=float("nan"), point_kn=0),
            held=Held(bearing_mm=0),
            conditions=WET,
        )
    assert len(told.value.faults) == 3
