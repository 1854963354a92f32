"""The table of species: whole, ordered, each number with who says so."""

from math import isclose

import pytest

import drylay
from drylay.movement.model import Species
from drylay.movement.species import all_species
from drylay.reasons import SOURCE_KINDS


def test_rows_and_sums_are_as_written_down() -> None:
    """Count and sums over the two files of tests/reference/movement, by other code."""
    woods = all_species()
    assert len(woods) == 24
    assert isclose(sum(wood.flat_per_pct or 0 for wood in woods), 0.04387)
    assert isclose(sum(wood.flat_shrinkage_pct or 0 for wood in woods), 157.9)


@pytest.mark.parametrize("wood", all_species(), ids=lambda wood: wood.name)
def test_every_number_has_a_source(wood: Species) -> None:
    for numbers, source in (
        ((wood.flat_per_pct, wood.quarter_per_pct), wood.movement_source),
        ((wood.flat_shrinkage_pct, wood.quarter_shrinkage_pct), wood.shrinkage_source),
        ((wood.saturation_pct, wood.saturation_pct), wood.saturation_source),
    ):
        assert (None in numbers) == (source is None)
        assert source is None or source.kind in SOURCE_KINDS
    assert wood.movement_source or wood.shrinkage_source


@pytest.mark.parametrize("wood", all_species(), ids=lambda wood: wood.name)
def test_flat_sawn_boards_move_more(wood: Species) -> None:
    flat, quarter = (drylay.wood_movement(wood.name, sawn=sawn) for sawn in ("flat", "quarter"))
    assert 0 < quarter.value < flat.value < 0.01
    assert flat.unit == "per %"


def test_a_wood_without_a_coefficient_has_one_from_its_shrinkage() -> None:
    """By hand: 8.0 / (3000 - 8.0 x 20) = 0.0028169."""
    ruling = drylay.wood_movement("Ipe")
    assert ruling.value == pytest.approx(0.0028169, abs=1e-7)
    assert ("shrinkage_pct", 8.0) in ruling.inputs
    assert (ruling.source.kind, ruling.source.clause) == ("from memory", "table 4-4")


def test_what_disagrees_is_told_and_not_averaged() -> None:
    """By hand: 5.8 / (3000 - 5.8 x 20) = 0.00201, not 0.00186."""
    ruling = drylay.wood_movement("Teak")
    assert ruling.value == 0.00186
    assert "0.00201" in str(dict(ruling.inputs)["note"])
