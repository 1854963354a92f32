"""What tiles weigh, against figures from outside."""

from fractions import Fraction

import pytest

from drylay.buying.delivery import kg_per_mm
from drylay.marks import PER_MM, exact
from drylay.tiling.load import dead_load_kn_m2, mass_per_m2


def tile_kg(side_mm: float, thick_mm: float, density: float) -> Fraction:
    return kg_per_mm(thick_mm, side_mm, density) * Fraction(exact(side_mm), PER_MM)


def test_a_porcelain_tile_weighs_17_kg() -> None:
    """600 x 600 x 20 at 2,350 kg/m3: 0.6 x 0.6 x 0.02 x 2350 = 16.92. Source: arithmetic."""
    assert float(tile_kg(600, 20, 2350)) == pytest.approx(16.92)


@pytest.mark.parametrize(("density", "told"), [(2300.0, 46.0), (2350.0, 47.0), (2400.0, 48.0)])
def test_porcelain_20_thick_lays_46_to_48_kg_on_a_square_metre(density: float, told: float) -> None:
    """Source: trade figures for 20 mm porcelain at 2,300 to 2,400 kg/m3, from memory."""
    assert mass_per_m2(tile_kg(600, 20, density), 600, 600) == told


def test_that_is_less_than_half_a_kilonewton() -> None:
    """48 x 9.80665 / 1000 = 0.4707, told up to the next 0.01. Source: arithmetic."""
    assert dead_load_kn_m2(48.0) == 0.48
    assert dead_load_kn_m2(47.0) == 0.47  # 0.46091


def test_masses_are_never_rounded_down() -> None:
    assert mass_per_m2(Fraction(17), 600, 600) == 47.3  # 47.222
