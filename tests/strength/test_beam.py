"""Beams against formulas by hand, what is refused, and laws."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.strength.beam import effects_of
from drylay.strength.linear import solved
from drylay.strength.model import Beam, LineLoad, PointLoad
from drylay.strength.patterns import parts_of, patterned, patterns_of, point_loads, worst_of
from strength.other_beams import some_beams

SIMPLE = Beam(length_mm=4000, supports_mm=(0, 4000), bending_stiffness_kn_m2=100.0)
THREE = evolve(SIMPLE, length_mm=8000, supports_mm=(0, 4000, 8000))
EVEN = LineLoad(from_mm=0, to_mm=4000, load_kn_m=2.0)
BOTH = evolve(EVEN, to_mm=8000)


def test_an_even_load_by_hand() -> None:
    """w L^2 / 8 = 4, w L / 2 = 4, 5 w L^4 / 384 EI = 66.67 mm."""
    effects = effects_of(SIMPLE, [EVEN])
    assert effects.sagging.value_kn_m == pytest.approx(4.0)
    assert effects.sagging.at_mm == pytest.approx(2000)
    assert effects.reactions_kn == pytest.approx((4.0, 4.0))
    assert effects.shear_kn == pytest.approx(4.0)
    assert effects.down.deflection_mm == pytest.approx(5 * 2 * 4**4 / 384 / 100 * 1000)
    assert effects.hogging.value_kn_m == 0


def test_shear_adds_its_own_deflection_by_hand() -> None:
    """M / GA at the middle: 4 kN m over 500 kN is 8 mm more."""
    bent = effects_of(SIMPLE, [EVEN]).down.deflection_mm
    both = effects_of(evolve(SIMPLE, shear_stiffness_kn=500.0), [EVEN]).down
    assert both.deflection_mm - bent == pytest.approx(8.0)


def test_shear_takes_load_off_the_middle_support_by_hand() -> None:
    """Two spans: the drop without the middle support over that of 1 kN there, both with shear.

    5 w l^4 / 384 EI + w l^2 / 8 GA over l^3 / 48 EI + l / 4 GA, with l = 8 m.
    """
    free = 5 * 2 * 8**4 / 384 / 100 + 2 * 8**2 / 8 / 500
    of_one = 8**3 / 48 / 100 + 8 / 4 / 500
    effects = effects_of(evolve(THREE, shear_stiffness_kn=500.0), [BOTH])
    assert effects.reactions_kn[1] == pytest.approx(free / of_one)


def test_two_spans_by_hand() -> None:
    """Three-moment equation: hogging w L^2 / 8, reactions 3/8, 10/8, 3/8 of w L, 9/128 w L^2."""
    effects = effects_of(THREE, [BOTH])
    assert effects.hogging.value_kn_m == pytest.approx(-4.0)
    assert effects.hogging.at_mm == pytest.approx(4000)
    assert effects.reactions_kn == pytest.approx((3.0, 10.0, 3.0))
    assert effects.sagging.value_kn_m == pytest.approx(9 / 128 * 2 * 16)
    assert effects.sagging.at_mm == pytest.approx(1500)


def test_a_load_at_a_free_end_by_hand() -> None:
    """P a^2 (L + a) / 3 EI with 2 kN, a 1 m, L 3 m: 26.67 mm; the back support holds down."""
    beam = evolve(SIMPLE, supports_mm=(0, 3000))
    effects = effects_of(beam, [PointLoad(at_mm=4000, load_kn=2.0)])
    assert effects.down.deflection_mm == pytest.approx(2 * 1 * 4 / 300 * 1000)
    assert effects.reactions_kn == pytest.approx((-2 / 3, 8 / 3))
    assert effects.hogging.value_kn_m == pytest.approx(-2.0)
    assert effects.up.at_mm == pytest.approx(3000 / 3**0.5)


def test_a_point_load_by_hand() -> None:
    """P a b / L = 3 x 1 x 3 / 4; the deepest point is at sqrt((L^2 - b^2) / 3) from the far end."""
    effects = effects_of(SIMPLE, [PointLoad(at_mm=1000, load_kn=3.0)])
    assert effects.sagging.value_kn_m == pytest.approx(2.25)
    deepest_m = ((16 - 1) / 3) ** 0.5
    assert effects.down.at_mm == pytest.approx(4000 - deepest_m * 1000)
    assert effects.down.deflection_mm == pytest.approx(3 * 15**1.5 / 9 / 3**0.5 / 400 * 1000)


def test_all_faults_are_told_at_once() -> None:
    beam = Beam(length_mm=0, supports_mm=(0,), bending_stiffness_kn_m2=1, shear_stiffness_kn=-1)
    with pytest.raises(InputError) as told:
        effects_of(beam, [PointLoad(at_mm=5, load_kn=1), evolve(EVEN, from_mm=4000)])
    assert len(told.value.faults) == 5


@pytest.mark.parametrize(
    "change",
    [
        {"supports_mm": (0, 5000)},
        {"supports_mm": (3000, 1000)},
        {"supports_mm": (1000, 1000)},
        {"length_mm": float("inf")},
        {"bending_stiffness_kn_m2": float("nan")},
    ],
)
def test_a_beam_that_does_not_stand_is_refused(change) -> None:
    with pytest.raises(InputError):
        effects_of(evolve(SIMPLE, **change), [])


def test_equations_without_an_answer_are_refused() -> None:
    with pytest.raises(InputError):
        solved([[1.0, 1.0], [2.0, 2.0]], [1.0, 1.0])


def test_no_load_does_nothing() -> None:
    effects = effects_of(THREE, [])
    assert effects.shear_kn == effects.down.deflection_mm == effects.sagging.value_kn_m == 0


BEAMS = st.integers(0, 10_000).map(lambda seed: some_beams(1, seed)[0])


@given(BEAMS)
def test_supports_carry_what_is_laid_on(beam_and_loads) -> None:
    beam, loads = beam_and_loads
    total = sum(
        load.load_kn
        if isinstance(load, PointLoad)
        else load.load_kn_m * (load.to_mm - load.from_mm) / 1000
        for load in loads
    )
    assert sum(effects_of(beam, loads).reactions_kn) == pytest.approx(total, abs=1e-7)


@given(BEAMS, st.floats(0.1, 10))
def test_twice_the_load_does_twice_as_much(beam_and_loads, times) -> None:
    beam, loads = beam_and_loads
    more = [
        evolve(load, load_kn=load.load_kn * times)
        if isinstance(load, PointLoad)
        else evolve(load, load_kn_m=load.load_kn_m * times)
        for load in loads
    ]
    once, then = effects_of(beam, loads), effects_of(beam, more)
    assert then.shear_kn == pytest.approx(once.shear_kn * times, rel=1e-6)
    down = once.down.deflection_mm * times
    assert then.down.deflection_mm == pytest.approx(down, rel=1e-6, abs=1e-7)


@given(BEAMS)
def test_a_mirrored_beam_does_the_same(beam_and_loads) -> None:
    beam, loads = beam_and_loads
    turned = evolve(
        beam, supports_mm=tuple(beam.length_mm - mm for mm in reversed(beam.supports_mm))
    )
    mirrored = [
        evolve(load, at_mm=beam.length_mm - load.at_mm)
        if isinstance(load, PointLoad)
        else evolve(load, from_mm=beam.length_mm - load.to_mm, to_mm=beam.length_mm - load.from_mm)
        for load in loads
    ]
    once, then = effects_of(beam, loads), effects_of(turned, mirrored)
    assert then.reactions_kn == pytest.approx(once.reactions_kn[::-1], abs=1e-7)
    assert then.sagging.value_kn_m == pytest.approx(once.sagging.value_kn_m, abs=1e-7)
    assert then.down.deflection_mm == pytest.approx(once.down.deflection_mm, abs=1e-6)


def _all_sets(beam, load_kn_m):
    parts = parts_of(beam)
    for bits in range(2 ** len(parts)):
        loads = [
            LineLoad(from_mm=a, to_mm=b, load_kn_m=load_kn_m)
            for n, (a, b, _) in enumerate(parts)
            if bits >> n & 1
        ]
        yield effects_of(beam, loads)


@given(BEAMS)
def test_the_patterns_hold_the_worst_of_all_sets_of_spans(beam_and_loads) -> None:
    beam, _ = beam_and_loads
    cases = patterned(beam, [], 3.0)
    every = list(_all_sets(beam, 3.0))
    for size in (
        lambda e: e.sagging.value_kn_m,
        lambda e: -e.hogging.value_kn_m,
        lambda e: e.shear_kn,
        lambda e: max(e.reactions_kn),
        lambda e: -min(e.reactions_kn),
    ):
        assert size(worst_of(cases, size).effects) == pytest.approx(max(map(size, every)), abs=1e-6)


def test_patterns_name_what_is_loaded() -> None:
    beam = evolve(THREE, length_mm=9000)
    names = [case.name for case in patterned(beam, [], 1.0)]
    assert names[:2] == ["no live load", "live load on span 1, span 2, right cantilever"]
    assert "live load on span 1, right cantilever" in names
    assert patterns_of(1) == ((0,),)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_a_point_load_stands_where_it_does_most(count: int) -> None:
    """Against every 10 mm along the beam: bending within 0.5 %, shear and reactions within 1e-4."""
    beam = Beam(
        length_mm=2000.0 * count + 500.0,
        supports_mm=tuple(2000.0 * place for place in range(count + 1)),
        bending_stiffness_kn_m2=100.0,
    )
    told = [effects_of(beam, [load]) for _, load in point_loads(beam, 1.0)]
    at_any = [
        effects_of(beam, [PointLoad(at_mm=float(at), load_kn=1.0)])
        for at in range(0, int(beam.length_mm) + 1, 10)
    ]
    for size, near in (
        (lambda found: found.sagging.value_kn_m, 0.995),
        (lambda found: -found.hogging.value_kn_m, 0.995),
        (lambda found: found.shear_kn, 0.9999),
        (lambda found: max(found.reactions_kn), 0.9999),
    ):
        assert max(map(size, told)) >= near * max(map(size, at_any))
    assert not list(point_loads(beam, 0.0))
