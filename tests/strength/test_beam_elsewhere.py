"""Beams against a finite-element library that knows nothing of this one."""

import pytest

from drylay.strength.beam import effects_of
from drylay.strength.model import Beam, LineLoad, PointLoad
from strength.other_beams import same, some_beams

EVEN = LineLoad(from_mm=0, to_mm=4000, load_kn_m=2.5)


@pytest.mark.parametrize(
    ("supports_mm", "loads"),
    [
        ((0, 4000), [EVEN]),
        ((0, 1900, 4000), [EVEN]),
        ((500, 3300), [EVEN]),
        ((0, 4000), [PointLoad(at_mm=1300, load_kn=2.0)]),
        ((0, 3000), [PointLoad(at_mm=4000, load_kn=1.0)]),
    ],
    ids=["simple", "over three bearers", "cantilevers", "point load", "point load at a free end"],
)
def test_a_beam_does_what_another_library_says(supports_mm, loads) -> None:
    beam = Beam(length_mm=4000, supports_mm=supports_mm, bending_stiffness_kn_m2=150.0)
    same(beam, loads, effects_of(beam, loads), within=1e-6)


def test_500_random_beams_do_within_a_thousandth() -> None:
    for beam, loads in some_beams(500, seed=7):
        same(beam, loads, effects_of(beam, loads))


def test_that_comparison_sees_a_beam_one_part_in_300_softer() -> None:
    beam = Beam(length_mm=4000, supports_mm=(0, 4000), bending_stiffness_kn_m2=150.0)
    softer = Beam(length_mm=4000, supports_mm=(0, 4000), bending_stiffness_kn_m2=149.5)
    with pytest.raises(AssertionError):
        same(beam, [EVEN], effects_of(softer, [EVEN]))
