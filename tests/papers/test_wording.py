"""How papers put things: no mark added or left out, no limit rounded the builder's way."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.papers.wording import fine, marks_told, size_least, size_most
from drylay.units import length_mm as read_mm

numbers = st.lists(st.integers(1, 60), min_size=1, max_size=30)


def read_back(told: str) -> list[str]:
    """Return the marks a reader takes from a text."""
    marks: list[str] = []
    for part in told.split(", "):
        if " to " in part:
            first, last = part.split(" to ")
            stem = re.match(r"\D*", first)[0]  # type: ignore[index]
            ends = (int(first.removeprefix(stem)), int(last.removeprefix(stem)))
            marks += [f"{stem}{n}" for n in range(ends[0], ends[1] + 1)]
        else:
            marks += part.split(" ")
    return marks


@given(numbers, st.sampled_from(["J", "B", "RA.", "F-front."]))
def test_marks_told_are_read_back_as_they_were(found: list[int], stem: str) -> None:
    marks = [f"{stem}{number}" for number in found]
    assert read_back(marks_told(marks)) == marks


@pytest.mark.parametrize(
    ("marks", "told"),
    [
        (["B1"], "B1"),
        (["B1", "B2"], "B1 B2"),
        (["B1", "B2", "B3"], "B1 to B3"),
        (["N1", "N3", "N5"], "N1 N3 N5"),
        (["B9", "B10", "B11", "B20"], "B9 to B11, B20"),
        (["left", "left"], "left left"),
    ],
)
def test_marks_told(marks: list[str], told: str) -> None:
    assert marks_told(marks) == told


@given(st.integers(0, 3_200_000).map(lambda count: count / 320))
def test_limits_are_rounded_against_the_builder(length_mm: float) -> None:
    """A least is never printed shorter, a most never longer, each within its last figure."""
    for units, last in (("metric", Fraction(1, 10)), ("imperial", Fraction(254, 160))):
        least = Fraction(read_mm(size_least(length_mm, units), path=""))
        most = Fraction(read_mm(size_most(length_mm, units), path=""))
        assert 0 <= least - Fraction(length_mm) < last
        assert 0 <= Fraction(length_mm) - most < last


def test_15_mm_is_no_less_in_inches() -> None:
    """15 mm are 0.5906 in: 9/16 in is 14.3 mm, 5/8 in is 15.9 mm. By hand."""
    assert size_least(15.0, "imperial") == "5/8 in"
    assert size_most(15.0, "imperial") == "9/16 in"


def test_figures_that_print_alike_are_told_finer() -> None:
    assert (fine(8.04, "metric"), fine(6.9, "imperial")) == ("8.04 mm", "0.2717 in")
