"""Joist lines: strict, fewest, even, on marks, mirrored."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.errors import InputError
from drylay.marks import exact
from drylay.supports.model import Supports


def offsets(supports: Supports) -> list[int]:
    return [exact(line.offset_mm) for line in supports.lines]


lengths = st.integers(1_000, 150_000).map(lambda tenths: tenths / 10)
limits = st.integers(2_000, 6_000).map(lambda tenths: tenths / 10)
joists = st.sampled_from([36.0, 38.0, 45.0, 47.0])


@given(lengths, joists, limits)
def test_no_bay_is_over_the_limit_and_no_joist_could_be_spared(
    length_mm: float, joist_mm: float, limit_mm: float
) -> None:
    found = drylay.place_joists(length_mm=length_mm, joist_mm=joist_mm, most_centres_mm=limit_mm)
    lines = offsets(found)
    bays = [after - before for before, after in pairwise(lines)]
    assert min(bays) > 0
    assert max(bays) <= exact(limit_mm)
    assert exact(found.centres_mm) == max(bays)
    assert found.line_count == len(lines)
    span = exact(length_mm) - exact(joist_mm)
    assert len(bays) == 1 or (len(bays) - 1) * exact(limit_mm) < span


@given(lengths, joists, limits, st.sampled_from([0.0, 28.0]))
def test_lines_start_and_end_half_a_joist_in_and_mirror(
    length_mm: float, joist_mm: float, limit_mm: float, start_mm: float
) -> None:
    lines = offsets(
        drylay.place_joists(
            length_mm=length_mm, joist_mm=joist_mm, most_centres_mm=limit_mm, start_mm=start_mm
        )
    )
    half, start, end = exact(joist_mm) // 2, exact(start_mm), exact(start_mm + length_mm)
    assert lines[0] == start + half
    assert lines[-1] == end - half
    for near, far in zip(lines, reversed(lines), strict=True):
        assert abs((near - start) - (end - far)) <= 1


@given(lengths, joists, limits)
def test_lines_of_the_first_half_stand_on_marks_unless_the_limit_forbids(
    length_mm: float, joist_mm: float, limit_mm: float
) -> None:
    found = drylay.place_joists(length_mm=length_mm, joist_mm=joist_mm, most_centres_mm=limit_mm)
    lines = offsets(found)
    inner = lines[1 : (len(lines) + 1) // 2 if len(lines) % 2 == 0 else len(lines) // 2]
    even_mm = (length_mm - joist_mm) / (len(lines) - 1)
    tight = limit_mm - even_mm < 0.5 * len(lines)
    assert tight or all(line % 160 == 0 for line in inner)


@given(lengths, joists, limits)
def test_lines_stray_little_from_even_spacing(
    length_mm: float, joist_mm: float, limit_mm: float
) -> None:
    lines = offsets(
        drylay.place_joists(length_mm=length_mm, joist_mm=joist_mm, most_centres_mm=limit_mm)
    )
    pitch = (lines[-1] - lines[0]) / (len(lines) - 1)
    stray = max(abs(line - lines[0] - pitch * n) for n, line in enumerate(lines))
    assert stray <= 320 + 1


@given(lengths, joists, limits, st.integers(0, 500))
def test_a_looser_limit_never_needs_more_joists(
    length_mm: float, joist_mm: float, limit_mm: float, looser_mm: int
) -> None:
    def count(most_mm: float) -> int:
        return drylay.place_joists(
            length_mm=length_mm, joist_mm=joist_mm, most_centres_mm=most_mm
        ).line_count

    assert count(limit_mm + looser_mm) <= count(limit_mm)


def test_sixteen_joists_at_400() -> None:
    """6045 long, 45 joists, 400 at most: (6045 - 45) / 400 = 15 bays. Worked separately."""
    found = drylay.place_joists(length_mm=6045, joist_mm=45, most_centres_mm=400)
    assert [line.offset_mm for line in found.lines] == [22.5 + 400 * n for n in range(16)]


def test_the_limit_is_strict() -> None:
    """1755 / 350 = 5.014, so six bays: no tolerance. Worked separately."""
    found = drylay.place_joists(length_mm=1800, joist_mm=45, most_centres_mm=350)
    assert found.line_count == 7


def test_sixteen_feet_at_sixteen_inches() -> None:
    """ceil((192 - 1.5) / 16) + 1 = 13. Worked separately from the library."""
    found = drylay.place_joists(
        length_mm=192 * 25.4, joist_mm=38.1, most_centres_mm=406.4, units="imperial"
    )
    assert found.line_count == 13
    assert [line.offset_mm / 25.4 for line in found.lines[:3]] == pytest.approx(
        [0.75, 0.75 + 15.875, 0.75 + 2 * 15.875], abs=1e-9
    )


def test_more_lines_on_request() -> None:
    found = drylay.place_joists(length_mm=6045, joist_mm=45, most_centres_mm=400, more_lines=2)
    assert found.line_count == 18
    assert found.centres_mm < 360


def test_bad_numbers_are_refused_together() -> None:
    with pytest.raises(InputError) as caught:
        drylay.place_joists(length_mm=-1, joist_mm=0, most_centres_mm=float("inf"), units="x")
    assert len(caught.value.faults) == 4
    with pytest.raises(InputError, match="two joists"):
        drylay.place_joists(length_mm=80, joist_mm=45, most_centres_mm=400)


def test_lines_that_cannot_be_are_refused() -> None:
    """Fewer lines than the limit needs, joists that overlap, centres inside a joist."""
    with pytest.raises(InputError, match="more_lines"):
        drylay.place_joists(length_mm=6045, joist_mm=45, most_centres_mm=400, more_lines=-5)
    with pytest.raises(InputError, match="most_centres_mm"):
        drylay.place_joists(length_mm=1000, joist_mm=45, most_centres_mm=20)
    with pytest.raises(InputError, match="overlap"):
        drylay.place_joists(length_mm=1000, joist_mm=45, most_centres_mm=400, more_lines=30)
    with pytest.raises(InputError, match="length_mm"):
        drylay.place_joists(length_mm="6 m", joist_mm=True, most_centres_mm=400)


@pytest.mark.parametrize(
    "wrong",
    [
        {"start_mm": float("nan")}, {"start_mm": None}, {"start_mm": -1}, {"start_mm": True},
        {"units": []}, {"joist_mm": 0.0001}, {"length_mm": 1e6, "most_centres_mm": 46},
    ],
)  # fmt: skip
def test_arguments_that_nobody_can_mean_are_refused(wrong: dict[str, object]) -> None:
    asked = {"length_mm": 6_045, "joist_mm": 45, "most_centres_mm": 400, **wrong}
    with pytest.raises(drylay.InputError):
        drylay.place_joists(**asked)
