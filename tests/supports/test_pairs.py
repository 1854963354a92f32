"""Pairs: two joists touch at every seam, and each section has its lines as a frame alone has."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import drylay
from drylay.errors import InputError
from drylay.marks import exact
from drylay.supports.model import Supports
from drylay.supports.pairs import place_pairs, with_overhang

JOIST = 45.0
lengths = st.integers(20_000, 150_000).map(lambda tenths: tenths / 10)
limits = st.integers(2_000, 6_000).map(lambda tenths: tenths / 10)
shares = st.lists(st.integers(1, 9), min_size=1, max_size=3, unique=True).map(sorted)
starts = st.sampled_from([0.0, 28.0])


def placed(
    length_mm: float, limit_mm: float, tenths: list[int], start_mm: float
) -> tuple[Supports, list[float]]:
    """Lines of a frame with seams at these tenths of it, on marks, wide enough apart."""
    seams = [round((start_mm + length_mm * share / 10) * 2) / 2 for share in tenths]
    faces = [start_mm, *seams, start_mm + length_mm]
    assume(all(far - near >= 3 * JOIST for near, far in pairwise(faces)))
    found = place_pairs(
        length_mm=length_mm,
        joist_mm=JOIST,
        most_centres_mm=limit_mm,
        seams_mm=seams,
        start_mm=start_mm,
    )
    return found, seams


@given(lengths, limits, shares, starts)
def test_two_joists_touch_at_every_seam(
    length_mm: float, limit_mm: float, tenths: list[int], start_mm: float
) -> None:
    found, seams = placed(length_mm, limit_mm, tenths, start_mm)
    at = {f"J{n}": exact(line.offset_mm) for n, line in enumerate(found.lines, start=1)}
    assert [seam.offset_mm for seam in found.seams] == seams
    assert found.seam_count == len(seams)
    assert found.joists_under_joint == 2
    for seam in found.seams:
        assert at[seam.right] - at[seam.left] == exact(JOIST)
        assert at[seam.left] + at[seam.right] == 2 * exact(seam.offset_mm)
        assert int(seam.right[1:]) == int(seam.left[1:]) + 1


@given(lengths, limits, shares, starts)
def test_each_section_has_its_lines_as_if_it_stood_alone(
    length_mm: float, limit_mm: float, tenths: list[int], start_mm: float
) -> None:
    found, seams = placed(length_mm, limit_mm, tenths, start_mm)
    faces = [start_mm, *seams, start_mm + length_mm]
    alone = [
        drylay.place_joists(
            length_mm=far - near, joist_mm=JOIST, most_centres_mm=limit_mm, start_mm=near
        )
        for near, far in pairwise(faces)
    ]
    assert found.lines == tuple(line for section in alone for line in section.lines)
    assert found.line_count == sum(section.line_count for section in alone)
    assert found.centres_mm == max(section.centres_mm for section in alone)


@given(lengths, limits, starts)
def test_without_seams_they_are_the_lines_of_any_frame(
    length_mm: float, limit_mm: float, start_mm: float
) -> None:
    given_to_both = {"length_mm": length_mm, "joist_mm": JOIST, "most_centres_mm": limit_mm}
    bare = drylay.place_joists(**given_to_both, start_mm=start_mm)
    found = place_pairs(**given_to_both, start_mm=start_mm, seams_mm=())
    assert found.lines == bare.lines
    assert (found.seams, found.seam_count) == ((), 0)


def test_the_joists_of_s08_by_hand() -> None:
    """1755/350 = 5.014, so 6 bays of 292.5 in each third of 5400; 350.1 would fail."""
    found = place_pairs(
        length_mm=5400.0, joist_mm=45.0, most_centres_mm=350.0, seams_mm=(1800.0, 3600.0)
    )
    third = [22.5 + 292.5 * bay for bay in range(7)]
    by_hand = [start + at for start in (0.0, 1800.0, 3600.0) for at in third]
    assert [line.offset_mm for line in found.lines] == by_hand
    assert found.centres_mm == 292.5


@pytest.mark.parametrize(
    ("seams_mm", "path"),
    [
        ((1800.0, 1850.0), "seams_mm[1]"),
        ((3600.0, 1800.0), "seams_mm[1]"),
        ((80.0,), "seams_mm[0]"),
        ((5350.0,), "seams_mm[0]"),
        ((float("nan"),), "seams_mm[0]"),
    ],
)
def test_seams_without_room_for_two_joists_are_refused(
    seams_mm: tuple[float, ...], path: str
) -> None:
    with pytest.raises(InputError) as caught:
        place_pairs(length_mm=5400.0, joist_mm=45.0, most_centres_mm=350.0, seams_mm=seams_mm)
    assert path in {fault.path for fault in caught.value.faults}


def test_the_overhang_is_the_thicker_of_what_lies_beyond_the_frame() -> None:
    """A fascia of 28 at the datum's end, none at the other: 28 past the first joist."""
    bare = drylay.place_joists(length_mm=5372.0, joist_mm=45.0, most_centres_mm=400.0, start_mm=28)
    found = with_overhang(
        bare, row_length_mm=5400.0, frame_start_mm=28.0, frame_length_mm=5372.0, most_mm=25.0
    )
    assert (found.overhang_mm, found.overhang_most_mm) == (28.0, 25.0)
