"""Laws of corners out of tapes: moved gardens, true measures, bars; chances against scipy's."""

import random
from math import dist

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import chi2, norm

from drylay.survey.chances import bar_ratio, chi_square_beyond, chi_square_most
from drylay.survey.model import Fit
from survey.tapes_of import quad


@st.composite
def quads(draw: st.DrawFn) -> dict[str, tuple[float, float]]:
    near = st.integers(-300, 300)
    base = {"A": (0, 0), "B": (4000, 0), "C": (4000, 3000), "D": (0, 3000)}
    return {n: (x + draw(near), y + draw(near)) for n, (x, y) in base.items()}


LINES = ("AB", "BC", "CD", "DA", "AC", "BD")


def fitted(places: dict[str, tuple[float, float]], lines: tuple[str, ...] = LINES) -> Fit:
    return quad(**{a + b: dist(places[a], places[b]) for a, b in lines})


@settings(max_examples=25)
@given(quads(), st.floats(0, 6.28), st.integers(-5000, 5000))
def test_moving_and_turning_the_garden_leaves_all(
    places: dict[str, tuple[float, float]], turn: float, by: int
) -> None:
    cos, sin = float(np.cos(turn)), float(np.sin(turn))
    moved = {n: (x * cos - y * sin + by, x * sin + y * cos - by) for n, (x, y) in places.items()}
    one, other = fitted(places), fitted(moved)
    for here, there in zip(one.corners, other.corners, strict=True):
        assert here.along_mm == pytest.approx(there.along_mm, abs=0.11)
        assert here.error_across_mm == pytest.approx(there.error_across_mm, abs=0.11)


@settings(max_examples=25)
@given(quads())
def test_true_measures_agree_and_nothing_is_blamed(places: dict[str, tuple[float, float]]) -> None:
    fit = fitted(places)
    assert fit.verdict.agrees
    assert fit.verdict.wrong == ()
    assert all(abs(each.residual_mm or 0) <= 0.1 for each in fit.tapes)


@settings(max_examples=25)
@given(quads())
def test_bars_shrink_with_one_more_tape(places: dict[str, tuple[float, float]]) -> None:
    few, more = fitted(places, LINES[:5]), fitted(places)
    for one, other in zip(few.corners, more.corners, strict=True):
        assert other.error_along_mm <= one.error_along_mm
        assert other.error_across_mm <= one.error_across_mm


def test_bars_hold_as_many_as_they_say() -> None:
    """Of 80 surveys of one garden with errors of 3 mm, 95 % within 3 standard deviations of it."""
    rng, places = (
        random.Random(5),
        {"A": (0, 0), "B": (5000, 0), "C": (5200, 3600), "D": (-150, 3500)},
    )
    held = 0
    for _ in range(80):
        fit = quad(**{a + b: dist(places[a], places[b]) + rng.gauss(0, 3) for a, b in LINES})
        held += abs(fit.corners[2].across_mm - 3600) <= fit.corners[2].error_across_mm
    sigma = (80 * 0.95 * 0.05) ** 0.5
    assert held >= 76 - 3 * sigma  # bars are widened by bad luck and never narrowed


@pytest.mark.parametrize("spare", [1, 2, 3, 7, 12])
def test_chances_are_those_of_scipy(spare: int) -> None:
    for figure in (0.1, 1.0, 5.0, 20.0):
        assert chi_square_beyond(figure, spare) == pytest.approx(chi2.sf(figure, spare), rel=1e-10)
    assert chi_square_most(spare, 0.95) == pytest.approx(chi2.ppf(0.95, spare), rel=1e-9)
    assert bar_ratio(0.95) == pytest.approx(norm.ppf(0.975), rel=1e-9)
