"""Rows that may be jointed, worked by hand: joists across the run."""

import math
from collections.abc import Sequence
from itertools import pairwise

import pytest
from attrs import evolve

from drylay.laying.axes import Axes
from drylay.laying.carried import Crossing
from drylay.laying.joints import (
    JointLimits,
    Row,
    fewest_supports,
    lines_apart,
    off_mitres,
    row_of,
)
from drylay.laying.parts import Band, Part

BAND = Band(row="B1", axes=Axes(cos_ratio=1.0, sin_ratio=0.0), low_mm=0.0, high_mm=140.0)
#: Ends 4 mm apart, three supports to a piece, none under 700.
LIMITS = JointLimits(
    gap_320=4 * 320, least_supports=3, stagger_bays=2, most_per_row=None, least_piece_320=700 * 320,
    mark_320=160, joist_lines=20,
)  # fmt: skip


def row(
    length: float,
    places: Sequence[float],
    lines: Sequence[int],
    *,
    filled: bool = True,
    least_mm: int = 700,
) -> Row | None:
    part = Part(band=BAND, ring=((0.0, 0.0), (length, 0.0), (length, 140.0), (0.0, 140.0)))
    over = [
        Crossing(at_mm=place, member=f"J{line}", line=line)
        for place, line in zip(places, lines, strict=True)
    ]
    limits = evolve(LIMITS, least_piece_320=least_mm * 320)
    return row_of(part, tuple(over), limits, filled=filled, longest_320=4800 * 320)


def test_bays_of_a_piece_are_those_that_joints_can_be_over() -> None:
    """Joists 400 apart but for the first two, 150: no piece between joints begins at these.

    Over two bays of 400 less a gap are 796. From the row's end to the third joist are 750.
    """
    places = [450.0, 600.0, 750.0, *(750.0 + 400 * n for n in range(1, 8)), 3950.0]
    found = row(4000.0, places, range(1, 12))
    assert found is not None
    assert found.line.least_bays == 2


def test_a_row_whose_inner_pieces_are_too_short_takes_a_bay_more() -> None:
    """Joists 300 apart: over two bays 596, over three 896."""
    found = row(3650.0, [25.0 + 300 * n for n in range(13)], range(13))
    assert found is not None
    assert found.line.least_bays == 3


@pytest.mark.parametrize("filled", [False, True])
def test_two_lengths_of_a_joist_line_under_one_board_are_one_station(filled: bool) -> None:
    """Both are drawn on over a doubled trimmer between them, at a slant not quite in one place."""
    places = [25.0 + 400 * n for n in range(11)]
    lines = [*range(6), 5, *range(6, 11)]
    doubled = [*places[:6], math.nextafter(places[5], 9999.0), *places[6:]]
    found = row(4050.0, doubled, lines, filled=filled)
    assert found is not None
    assert found.line.stations == tuple(round(320 * place) for place in places)


@pytest.mark.parametrize("order", [("J5.1", "J5.2"), ("J5.2", "J5.1")])
def test_of_two_lengths_that_meet_under_a_board_the_first_mark_is_named(
    order: tuple[str, str],
) -> None:
    """Which of the two comes first along the board is a float's last digit."""
    places = [25.0 + 400 * n for n in range(11)]
    over = [Crossing(at_mm=at, member=f"J{n}", line=n) for n, at in enumerate(places)]
    over[5:6] = [
        Crossing(at_mm=at, member=mark, line=5)
        for at, mark in zip((places[5], math.nextafter(places[5], 9999.0)), order, strict=True)
    ]
    ring = ((0.0, 0.0), (4050.0, 0.0), (4050.0, 140.0), (0.0, 140.0))
    found = row_of(Part(band=BAND, ring=ring), tuple(over), LIMITS, filled=False,
                   longest_320=4800 * 320)  # fmt: skip
    assert found is not None
    assert found.stations[5].member == "J5.1"
    assert found.stations[5].at_mm == places[5]


@pytest.mark.parametrize("bare", [50, 160, 200])
def test_stations_of_cut_off_lines_are_in_order_or_there_is_no_line(bare: int) -> None:
    """So many lines cut off within 0.5 mm, 160/320: 159 stand between, 160 would be the next."""
    places = [0.0, 400.0, 800.0, 1200.0, 1200.5, 1600.0, 2000.0, 2400.0]
    lines = [0, 1, 2, 3, 4 + bare, 5 + bare, 6 + bare, 7 + bare]
    found = row(2400.0, places, lines, least_mm=0)
    assert (found is None) == (bare >= 160)
    if found is not None:
        assert all(b > a for a, b in pairwise(found.line.stations))


@pytest.mark.parametrize(("at_mm", "stays"), [(142.5, False), (143.0, True), (857.5, False)])
def test_a_borders_boards_meet_off_its_mitres(at_mm: float, stays: bool) -> None:
    """A corner square and one of 270 degrees: whole from 140 to 860, half a gap and 1 mm off."""
    part = Part(band=BAND, ring=((0.0, 0.0), (860.0, 0.0), (1000.0, 140.0), (140.0, 140.0)))
    first, last = (Crossing(at_mm=u, member="R1", line=None) for u in (50.0, 950.0))
    over = (first, Crossing(at_mm=at_mm, member="J2", line=2), last)
    assert off_mitres(part, over, 4.0) == (over if stays else (first, last))
    assert off_mitres(part, over[:1], 4.0) == (first,)


def test_supports_of_a_piece_and_lines_between_joints_are_counted() -> None:
    """Thirteen joists 300 apart, joints over the fifth and the eighth: pieces on 5, 4 and 6."""
    one = row(3650.0, [25.0 + 300 * n for n in range(13)], range(13))
    assert one is not None
    assert fewest_supports(one, (4, 7)) == 4
    assert fewest_supports(one, (4,)) == 5
    assert lines_apart(one, (4, 7), one, (9, 6)) == 1
    assert lines_apart(one, (4, 7), one, ()) == math.inf
