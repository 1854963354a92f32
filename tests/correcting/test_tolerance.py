"""Closed forms against sums by hand, printed tables and simulation."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as some

from drylay.correcting.chance import below, between, chance_down, quantile, sd_up, tenth, tenth_down
from drylay.correcting.model import Tolerances
from drylay.correcting.simulate import simulate_bearing, simulate_edge, simulate_level
from drylay.correcting.tolerance import forecast_bearing, forecast_edge, forecast_level, sd_of
from drylay.errors import InputError

ALONE = Tolerances(width_mm=sd_of(1.0), batch_mm=0.0, gap_mm=0.0, spacer_mm=0.0, tape_mm=0.0)
ALL = Tolerances(width_mm=0.4, batch_mm=0.2, gap_mm=0.3, spacer_mm=0.1, tape_mm=0.3)


def test_forty_rows_of_boards_within_a_millimetre() -> None:
    """sqrt(40) x 1 / sqrt 3 = 6.3246 x 0.57735 = 3.6515: up to 3.66."""
    found = forecast_edge(40, ALONE)
    assert found.sd_alone_mm == found.spread.sd_mm == 3.66
    assert found.shared_mm == 0.0


def test_shared_errors_add_up_and_others_by_their_squares() -> None:
    """10 x 0.16 + 9 x 0.09 = 2.41, its root 1.5524; 10 x 0.2 + 9 x 0.1 = 2.9; together
    sqrt(2.41 + 4 + 0.81) = sqrt 7.22 = 2.6870."""
    found = forecast_edge(10, ALL, wanted_mm=1000.0)
    assert (found.sd_alone_mm, found.shared_mm, found.spread.sd_mm) == (1.56, 2.9, 2.69)
    assert found.spread.wanted_mm == found.spread.expected_mm == 1000.0


def test_chances_are_those_of_the_normal_table() -> None:
    """The table of the normal distribution: 68.27 % within one sd, 95.45 % within two; one-sided
    95 % at 1.6449."""
    assert between(-1, 1, 1.0) == pytest.approx(0.6827, abs=5e-5)
    assert between(-2, 2, 1.0) == pytest.approx(0.9545, abs=5e-5)
    assert quantile(0.95) == pytest.approx(1.6449, abs=5e-5)
    assert (below(0.0, 0.0), below(-0.1, 0.0), between(0, 1, 0.0), between(1, 2, 0.0)) == (
        1,
        0,
        1,
        0,
    )
    assert (quantile(1.0), quantile(0.0)) == (float("inf"), float("-inf"))


def test_the_edge_is_that_of_simulated_decks() -> None:
    """Sampling errors: of an sd 1 / sqrt(2 x 3000) = 1.3 %, of a share sqrt(pq / 3000) = 0.9 %."""
    found, drawn = forecast_edge(20, ALL), simulate_edge(20, ALL, runs=3000, seed=5)
    assert drawn.sd_mm == pytest.approx(found.spread.sd_mm, rel=0.045)
    assert drawn.within_2_ratio == pytest.approx(found.spread.within_2_ratio, abs=0.03)
    assert abs(drawn.mean_mm) < 4 * found.spread.sd_mm / sqrt(3000)


def test_bearing_by_hand_and_by_simulation() -> None:
    """sd sqrt(1.5^2 + 1^2) = 1.8028; 20 - 1.6449 x 1.8028 = 17.03, down to 17.0; 4 / 1.8028 = 2.219
    sd, 98.67 % by the table; thirty of them at least 1 - 30 x 1.33 % = 60 %."""
    asked = {"joist_sd_mm": 1.5, "end_sd_mm": 1.0, "least_mm": 16.0}
    found = forecast_bearing(20.0, ends=30, **asked)
    assert (found.sd_mm, found.at_least_mm, found.least_ratio) == (1.81, 17.0, 0.986)
    assert 0.59 <= found.all_ratio <= 0.61
    drawn, enough = simulate_bearing(20.0, runs=4000, seed=2, **asked)
    assert drawn.sd_mm == pytest.approx(1.8028, rel=0.04)
    assert enough == pytest.approx(found.least_ratio, abs=0.007)
    sure = forecast_bearing(20.0, joist_sd_mm=0.0, end_sd_mm=0.0, least_mm=20.0)
    assert (sure.at_least_mm, sure.all_ratio) == (20.0, 1.0)


@pytest.mark.parametrize("points", [2, 5])
def test_level_by_hand_and_by_simulation(points: int) -> None:
    """Two differ by sd 1.4142; within 3 mm that is 2.1213 sd, 96.61 % by the table."""
    found = forecast_level(1.0, points=points, limit_mm=3.0)
    assert (found.sd_mm, found.two_ratio) == (1.42, 0.966)
    drawn = simulate_level(1.0, points=points, limit_mm=3.0, runs=3000, seed=4)
    assert drawn.within_limit_ratio == pytest.approx(found.all_ratio, abs=0.035)


def test_the_range_of_five_is_that_of_the_table() -> None:
    """Upper 5 % point of the range of five standard normal values: 3.858, tables of the
    studentized range with no end of degrees of freedom (from memory)."""
    assert forecast_level(1.0, points=5, limit_mm=3.858).all_ratio == pytest.approx(0.95, abs=0.001)
    assert forecast_level(0.0, points=5).all_ratio == 1.0


@given(some.floats(0.0, 1.0), some.floats(-1e4, 1e4))
def test_nothing_is_rounded_in_the_builders_favour(chance: float, length: float) -> None:
    assert chance_down(chance) <= chance + 1e-8
    assert abs(tenth(length)) >= abs(length) - 1e-6
    assert tenth_down(length) <= length + 1e-6
    assert sd_up(abs(length)) >= abs(length) - 1e-6


def test_every_bad_figure_is_told() -> None:
    with pytest.raises(InputError) as caught:
        forecast_edge(0, Tolerances(width_mm=-1.0, batch_mm=0, gap_mm=0, spacer_mm=0, tape_mm=0))
    assert {fault.path for fault in caught.value.faults} == {"rows", "tolerances.width_mm"}
    with pytest.raises(InputError, match="points"):
        forecast_level(1.0, points=1)
    with pytest.raises(InputError, match="chance_ratio"):
        forecast_bearing(1, joist_sd_mm=1, end_sd_mm=1, least_mm=1, chance_ratio=1.0)
