"""Notches and holes by the US basis: sums by hand, limits of the clauses, laws."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_checks import bending_check, shear_check
from drylay.strength.nds_cuts import (
    hole_checks,
    notched_bending_check,
    notched_shear_check,
    notched_shear_kn,
    screened_notch,
)
from drylay.strength.nds_joint_model import SawnNotch
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_values import dressed
from drylay.strength.us_units import kn_of_lb, lb_of_kn, mm_of_inches

JOIST = dressed("2x8")
PINE = allowed("SP", "No.2", JOIST, Conditions(wet=False))
QUARTER = mm_of_inches(7.25 / 4)
END = SawnNotch(
    deep_mm=QUARTER, long_mm=51.0, reach_mm=mm_of_inches(2), stretched=True, at_end=True
)
HERE = {"subject": "J1", "case": "all load"}


def test_shear_at_an_end_notch_by_hand() -> None:
    """2x8, Fv 175 psi, a quarter gone from below: 2/3 x 175 x 1.5 x 5.4375 x 0.75^2 = 535.25 lb.

    From above with e = 2 in: 175 x (7.25 - 1.8125 / 5.4375 x 2) = 1152.08 lb; from e = dn on
    175 x 5.4375 = 951.56 lb, however far it reaches.
    """
    assert lb_of_kn(notched_shear_kn(PINE, JOIST, END)) == pytest.approx(535.25, abs=0.01)
    above = evolve(END, stretched=False)
    assert lb_of_kn(notched_shear_kn(PINE, JOIST, above)) == pytest.approx(1152.08, abs=0.01)
    for inches in (5.4375, 9.0):
        far = evolve(above, reach_mm=mm_of_inches(inches))
        assert lb_of_kn(notched_shear_kn(PINE, JOIST, far)) == pytest.approx(951.5625)
    off_the_end = evolve(above, at_end=False)
    assert lb_of_kn(notched_shear_kn(PINE, JOIST, off_the_end)) == pytest.approx(951.5625)


def test_a_notch_is_checked_with_its_clause_and_inputs() -> None:
    found = notched_shear_check(PINE, JOIST, END, shear_kn=-kn_of_lb(400), **HERE)
    assert found.utilisation_ratio == pytest.approx(400 / 535.25, rel=1e-4)
    assert (found.source.kind, found.source.clause) == ("from memory", "3.4.3.2")
    assert (found.unit, found.case) == ("kN", "all load")
    assert dict(found.inputs)["stretched"] == "true"
    pressed = notched_shear_check(PINE, JOIST, evolve(END, stretched=False), shear_kn=1.0, **HERE)
    assert "dn) / dn e" in pressed.formula


def test_bending_on_what_a_notch_leaves_by_hand() -> None:
    """1 kN m on 38.1 x 138.1125 mm: 6e6 / (38.1 x 138.1125^2) = 8.256 N/mm2."""
    found = notched_bending_check(PINE, JOIST, END, moment_kn_m=-1.0, **HERE)
    assert found.measured == pytest.approx(8.256, abs=0.001)
    assert found.limit == PINE.bending_n_mm2


def asked(notch: SawnNotch, section: Section = JOIST, span_mm: float = 3000.0):
    return screened_notch(
        allowed("SP", "No.2", section, Conditions(wet=False)),
        section,
        notch,
        subject="J1",
        span_mm=span_mm,
        shear_kn=1.0,
        moment_kn_m=0.2,
        case="all load",
    )


def test_limits_of_a_notch() -> None:
    """R502.8.1: d / 4 at an end, else d / 6; no longer than d / 3; not in the middle third."""
    found = {check.name: check for check in asked(END).checks}
    assert found["notch depth"].utilisation_ratio == pytest.approx(1)
    assert found["notch depth"].formula == "<= d / 4"
    assert found["notch length"].limit == pytest.approx(184.15 / 3)
    assert "notch near mid-span" not in found
    off = evolve(END, at_end=False, deep_mm=184.15 / 6, reach_mm=1000.0)
    found = {check.name: check for check in asked(off).checks}
    assert found["notch depth"].formula == "<= d / 6"
    assert found["notch depth"].utilisation_ratio == pytest.approx(1)
    assert found["notch near mid-span"].utilisation_ratio == pytest.approx(1)
    assert found["notch near mid-span"].formula == "<= L / 3"
    beyond = asked(evolve(off, reach_mm=1001.0))
    assert max(check.utilisation_ratio for check in beyond.checks) > 1
    assert found["notch depth"].source.clause.startswith("R502.8.1")


def test_thick_wood_takes_no_notch_in_its_stretched_edge_off_its_ends() -> None:
    off = evolve(END, at_end=False, deep_mm=20.0, reach_mm=500.0)
    assert asked(off).stops == ()
    (stop,) = asked(off, dressed("4x8")).stops
    assert "4 in thick" in stop
    assert asked(evolve(off, stretched=False), dressed("4x8")).stops == ()
    assert asked(END, dressed("4x8")).stops == ()
    assert asked(off, dressed("2x8", 3)).stops == ()


def test_holes_by_the_code() -> None:
    """2x10, 9-1/4 in: 3-1/12 in across at most, 2 in to an edge and to the next cut."""
    depth_mm, two = mm_of_inches(9.25), mm_of_inches(2)
    checks = hole_checks("J1", depth_mm=depth_mm, across_mm=60, to_edge_mm=two, to_next_mm=100)
    assert [check.name for check in checks] == ["hole size", "hole to edge", "hole to next cut"]
    ratios = [check.utilisation_ratio for check in checks]
    assert ratios == pytest.approx([60 / (depth_mm / 3), 1.0, 50.8 / 100])
    assert len(hole_checks("J1", depth_mm=depth_mm, across_mm=60, to_edge_mm=two)) == 2


def test_sizes_that_cannot_be_meant_are_refused_together() -> None:
    with pytest.raises(InputError) as told:
        asked(evolve(END, deep_mm=184.15, long_mm=0.0, reach_mm=-1.0))
    paths = [fault.path for fault in told.value.faults]
    assert paths == ["notch.deep_mm", "notch.long_mm", "notch.reach_mm"]
    with pytest.raises(InputError) as told:
        hole_checks("J1", depth_mm=0, across_mm=-1, to_edge_mm=float("nan"))
    assert len(told.value.faults) == 3
    with pytest.raises(InputError) as told:
        hole_checks("J1", depth_mm=200, across_mm=20, to_edge_mm=0, to_next_mm=-1)
    assert [fault.path for fault in told.value.faults] == ["to_edge_mm", "to_next_mm"]
    with pytest.raises(InputError) as told:
        screened_notch(
            PINE,
            JOIST,
            evolve(END, long_mm=0.0),
            span_mm=0.0,
            shear_kn=float("nan"),
            moment_kn_m=float("inf"),
            **HERE,
        )
    paths = [fault.path for fault in told.value.faults]
    assert paths == ["span_mm", "shear_kn", "moment_kn_m", "notch.long_mm"]


SECTIONS = st.builds(
    Section, breadth_mm=st.floats(38, 88), depth_mm=st.floats(140, 286), plies=st.just(1)
)
NOTCHES = st.builds(
    SawnNotch,
    deep_mm=st.floats(1, 60),
    long_mm=st.floats(5, 100),
    reach_mm=st.floats(0, 600),
    stretched=st.booleans(),
    at_end=st.booleans(),
)
TIMES = st.floats(1.0, 2.0)


def shear_used(section: Section, notch: SawnNotch, shear_kn: float = 2.0) -> float:
    return notched_shear_check(PINE, section, notch, shear_kn=shear_kn, **HERE).utilisation_ratio


@given(SECTIONS, NOTCHES, TIMES)
def test_more_load_and_a_deeper_notch_work_it_harder(section, notch, times) -> None:
    least = shear_used(section, notch) * (1 - 1e-9)
    assert shear_used(section, notch, 2.0 * times) >= least
    assert shear_used(section, evolve(notch, deep_mm=notch.deep_mm * times)) >= least
    bent = [
        notched_bending_check(PINE, section, each, moment_kn_m=1.0, **HERE).utilisation_ratio
        for each in (notch, evolve(notch, deep_mm=notch.deep_mm * times))
    ]
    assert bent[1] >= bent[0]


@given(SECTIONS, NOTCHES, TIMES)
def test_a_larger_section_works_less_hard_around_the_same_notch(section, notch, times) -> None:
    most = shear_used(section, notch) * (1 + 1e-9)
    assert shear_used(evolve(section, depth_mm=section.depth_mm * times), notch) <= most
    assert shear_used(evolve(section, breadth_mm=section.breadth_mm * times), notch) <= most


@given(SECTIONS, NOTCHES)
def test_a_notched_beam_works_no_less_than_a_whole_one(section, notch) -> None:
    whole = shear_check(PINE, section, shear_kn=2.0, **HERE).utilisation_ratio
    assert shear_used(section, notch) >= whole * (1 - 1e-9)
    bent = notched_bending_check(PINE, section, notch, moment_kn_m=1.0, **HERE)
    plain = bending_check(PINE, section, moment_kn_m=1.0, **HERE)
    assert bent.utilisation_ratio >= plain.utilisation_ratio
