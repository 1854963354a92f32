"""What cannot be meant is refused, all of it at once, with the nearest fix where one is near."""

from collections.abc import Callable
from contextlib import suppress
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.errors import InputError
from drylay.movement.air import equilibrium_humidity_ratio
from drylay.movement.heat import joint_gap_mm
from drylay.movement.width import (
    framing_change,
    framing_shrinkage_pct,
    movement_from_shrinkage,
    shrinkage_change,
)

#: Each verb with numbers that it takes.
VERBS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (drylay.equilibrium_moisture, {"temperature_c": 20, "humidity_ratio": 0.5}),
    (equilibrium_humidity_ratio, {"temperature_c": 20, "moisture_pct": 12}),
    (drylay.moisture_change,
     {"width_mm": 145, "movement_per_pct": 0.0026, "from_pct": 9, "to_pct": 12,
      "saturation_pct": 30}),
    (shrinkage_change,
     {"width_mm": 145, "shrinkage_pct": 7.4, "from_pct": 9, "to_pct": 12, "saturation_pct": 30}),
    (movement_from_shrinkage, {"shrinkage_pct": 7.4, "saturation_pct": 30}),
    (framing_shrinkage_pct, {"moisture_pct": 15, "face": "width"}),
    (framing_change, {"width_mm": 145, "from_pct": 19, "to_pct": 12, "face": "width"}),
    (drylay.thermal_growth_mm,
     {"length_mm": 3600, "growth_per_k": 4e-5, "from_c": 10, "to_c": 50}),
    (drylay.end_gap,
     {"length_mm": 3600, "growth_per_k": 4e-5, "laying_c": 12, "hottest_c": 50,
      "coldest_c": -10, "least_mm": 1, "units": "metric"}),
    (joint_gap_mm,
     {"laid_mm": 6, "neighbours_mm": (3597, 1797), "growth_per_k": 4e-5, "laying_c": 12,
      "now_c": -10}),
    (drylay.gap_range,
     {"board_mm": 145, "movement_per_pct": 0.0026, "laying_pct": 17, "driest_pct": 13,
      "wettest_pct": 24, "laid_mm": 5, "saturation_pct": 30, "units": "metric"}),
    (drylay.gaps_through_year,
     {"board_mm": 145, "movement_per_pct": 0.0026, "laying_pct": 17, "months": [(9, 0.8)] * 12,
      "laid_mm": 5, "driest_pct": 13, "wettest_pct": 24, "saturation_pct": 30,
      "units": "metric"}),
    (drylay.wood_movement, {"species": "Teak", "sawn": "flat"}),
]  # fmt: skip
EACH = [(verb, given, name) for verb, given in VERBS for name in given]


def faults(verb: Callable[..., object], **given: Any) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        verb(**given)
    return [(fault.path, fault.nearest) for fault in caught.value.faults]


@pytest.mark.parametrize(("verb", "given_"), VERBS)
def test_the_numbers_below_are_taken(verb: Callable[..., object], given_: dict[str, Any]) -> None:
    assert verb(**given_) is not None


@pytest.mark.parametrize(("verb", "given_", "name"), EACH)
@pytest.mark.parametrize("wrong", ["12 mm", True, float("nan"), float("inf"), -1e9, 10**400, []])
def test_what_nobody_can_mean_is_refused_by_its_name(
    verb: Callable[..., object], given_: dict[str, Any], name: str, wrong: object
) -> None:
    assert [path for path, _ in faults(verb, **given_ | {name: wrong})] == [name]


def test_all_faults_are_told_at_once() -> None:
    found = faults(
        drylay.gaps_through_year,
        board_mm=0,
        movement_per_pct=0.26,
        laying_pct=0.17,
        months=[(70, 80), (9, 0.8), 3, "ab", *[(9, 0.8)] * 8],
        driest_pct=500,
        saturation_pct=0.3,
        units="cubits",
    )
    assert found == [
        ("board_mm", ""),
        ("movement_per_pct", "0.0026, if 0.26 is per cent"),
        ("laying_pct", "17, if 0.17 is a ratio"),
        ("saturation_pct", "30, if 0.3 is a ratio"),
        ("units", ""),
        ("laid_mm", ""),
        ("months[0][0]", "21.1, if 70 is in degrees Fahrenheit"),
        ("months[0][1]", "0.8, if 80 is per cent"),
        ("months[2]", ""),
        ("months[3]", ""),
        ("driest_pct", ""),
    ]


def test_a_growth_in_millionths_is_told_as_such() -> None:
    told = {"length_mm": 3600, "growth_per_k": 40, "from_c": 10, "to_c": 50}
    assert faults(drylay.thermal_growth_mm, **told) == [
        ("growth_per_k", "4e-05, if 40 is mm for each km")
    ]


def test_one_gap_is_given_and_not_two() -> None:
    told = {"board_mm": 145, "movement_per_pct": 0.0026, "laying_pct": 17, "driest_pct": 13,
            "wettest_pct": 24}  # fmt: skip
    assert faults(drylay.gap_range, **told) == [("laid_mm", "")]
    assert faults(drylay.gap_range, **told, laid_mm=5, least_mm=3) == [("laid_mm", "")]


def test_what_is_out_of_order_is_refused() -> None:
    told = {"length_mm": 3600, "growth_per_k": 4e-5, "laying_c": 20, "hottest_c": 10,
            "coldest_c": 30}  # fmt: skip
    assert faults(drylay.end_gap, **told) == [("hottest_c", ""), ("coldest_c", "")]
    boards = {"board_mm": 145, "movement_per_pct": 0.0026, "laying_pct": 17, "laid_mm": 5}
    wet = faults(drylay.gap_range, **boards, driest_pct=24, wettest_pct=14)
    assert wet == [("driest_pct", "")]


def test_no_air_makes_wood_as_wet_as_that() -> None:
    with pytest.raises(InputError, match=r"at most 28\.8"):  # a public page: 28.8 % in air of 100 %
        equilibrium_humidity_ratio(temperature_c=21.1, moisture_pct=35)


def test_a_wood_that_is_not_in_the_table_has_its_neighbours_told() -> None:
    assert faults(drylay.wood_movement, species="pine loblolly") == [
        ("species", "Pine, loblolly or Pine, longleaf or Pine, shortleaf")
    ]
    assert faults(drylay.wood_movement, species="Xyz") == [("species", "")]


@given(st.sampled_from(EACH), st.one_of(st.floats(), st.integers(), st.text(), st.none()))
def test_nothing_but_an_answer_or_an_input_error_comes_out(
    each: tuple[Callable[..., object], dict[str, Any], str], anything: object
) -> None:
    verb, told, name = each
    with suppress(InputError):
        verb(**told | {name: anything})


def test_numbers_of_other_libraries_are_numbers() -> None:
    import numpy

    ours = drylay.moisture_change(width_mm=145, movement_per_pct=0.0025, from_pct=9, to_pct=12)
    theirs = drylay.moisture_change(
        width_mm=numpy.float64(145),
        movement_per_pct=numpy.float64(0.0025),
        from_pct=numpy.int64(9),
        to_pct=numpy.float32(12),
    )
    assert ours == theirs
    assert type(theirs.change_mm) is float
