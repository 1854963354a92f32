"""Shear at fasteners across the grain by the US basis: sums by hand, laws, what is refused."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_checks import shear_check
from drylay.strength.nds_joint_shear import joint_shear_check, joint_shear_kn, spread_check
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_values import dressed
from drylay.strength.us_units import lb_of_kn, mm_of_inches

TEN = dressed("2x10")
PINE = allowed("SP", "No.2", TEN, Conditions(wet=False))
HERE = {"subject": "L1", "case": "all load"}


def test_shear_at_fasteners_by_hand() -> None:
    """2x10, Fv 175 psi, lower bolt 7 in below the top: 2/3 x 175 x 1.5 x 7 = 1225 lb far from its
    end; nearer than 46-1/4 in x (7 / 9.25)^2 = 0.5727: 701.5 lb.
    """
    held_mm = mm_of_inches(7)
    far = joint_shear_kn(PINE, TEN, held_mm=held_mm, to_end_mm=mm_of_inches(46.25))
    near = joint_shear_kn(PINE, TEN, held_mm=held_mm, to_end_mm=mm_of_inches(46))
    assert lb_of_kn(far) == pytest.approx(1225)
    assert lb_of_kn(near) == pytest.approx(701.5, abs=0.1)


def test_the_check_tells_its_clause_and_figures() -> None:
    found = joint_shear_check(PINE, TEN, shear_kn=-2.0, held_mm=150, to_end_mm=100, **HERE)
    limit = joint_shear_kn(PINE, TEN, held_mm=150, to_end_mm=100)
    assert found.utilisation_ratio == pytest.approx(2 / limit)
    assert (found.name, found.unit, found.source.clause) == ("shear at fasteners", "kN", "3.4.3.3")
    assert dict(found.inputs)["held_mm"] == 150


def test_outer_fasteners_are_five_inches_apart_at_most() -> None:
    """NDS 12.5.1.3: 5 in are 127 mm; 6 in use 1.2 of it."""
    assert spread_check("L1", spread_mm=127).utilisation_ratio == pytest.approx(1)
    assert spread_check("L1", spread_mm=152.4).utilisation_ratio == pytest.approx(1.2)


@given(st.floats(20, 230), st.floats(1.0, 1.5), st.floats(0, 3000), st.floats(0.1, 5))
def test_less_held_depth_and_a_nearer_end_work_it_harder(held_mm, times, to_end_mm, load) -> None:
    def used(held: float, to_end: float, shear: float = load) -> float:
        found = joint_shear_check(PINE, TEN, shear_kn=shear, held_mm=held, to_end_mm=to_end, **HERE)
        return found.utilisation_ratio

    here = used(held_mm, to_end_mm)
    assert used(held_mm / times, to_end_mm) >= here * (1 - 1e-9)
    assert used(held_mm, to_end_mm / times) >= here * (1 - 1e-9)
    assert used(held_mm, to_end_mm, load * times) == pytest.approx(here * times)
    whole = shear_check(PINE, TEN, shear_kn=load, **HERE).utilisation_ratio
    assert here >= whole * (1 - 1e-9)
    wider = evolve(TEN, plies=2)
    assert joint_shear_kn(PINE, wider, held_mm=held_mm, to_end_mm=to_end_mm) == pytest.approx(
        2 * joint_shear_kn(PINE, TEN, held_mm=held_mm, to_end_mm=to_end_mm)
    )


def test_sizes_that_cannot_be_meant_are_refused_together() -> None:
    with pytest.raises(InputError) as told:
        joint_shear_kn(PINE, TEN, held_mm=300, to_end_mm=-1)
    assert [fault.path for fault in told.value.faults] == ["held_mm", "to_end_mm"]
    with pytest.raises(InputError, match="spread_mm"):
        spread_check("L1", spread_mm=0)
