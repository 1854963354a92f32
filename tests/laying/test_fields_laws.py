"""Breaker boards: no stretch longer than boards are, and no breaker board too many."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.geometry import box, minus, region, stretches
from drylay.laying.fields import (
    Breaker,
    breaker_lies,
    breakers_needed,
    edges_seen,
    inner_edges,
    inside_border,
    seams_of_field,
)
from drylay.laying.rows import fan_of


@given(st.floats(1_000, 30_000), st.floats(1_500, 6_000), st.sampled_from((0, 90)))
def test_fewest_and_none_too_long(deep: float, longest: float, angle: int) -> None:
    area = box(0, 0, deep, 2_000) if angle == 0 else box(-2_000, 0, 0, deep)
    at = breakers_needed(area, float(angle), longest_mm=longest, board_mm=145, gap_mm=5)
    edges = [-77.5, *at, deep + 77.5]
    clear = [b - a - 155 for a, b in pairwise(edges)]
    assert max(clear) <= longest + 1e-6
    # with one breaker board less some stretch would be longer
    assert not at or deep > (len(at) - 1) * 155 + len(at) * longest - 1e-3


def test_stretches_just_as_long_as_boards() -> None:
    """8155 = 2 x 4000 and a board with its gaps: on a millimetre one would be 4000.5."""
    area = box(0, 0, 8_155, 2_000)
    assert breakers_needed(area, 0.0, longest_mm=4_000, board_mm=145, gap_mm=5) == (4077.5,)


@pytest.mark.parametrize(("tip_mm", "lies"), [(2_024.0, False), (2_026.0, True), (2_300.0, True)])
def test_no_breaker_board_lies_where_a_corner_only_just_reaches(tip_mm: float, lies: bool) -> None:
    """A field with its tip 24, 26 and 300 past the edge of its place; slivers are 25."""
    field = region(((0.0, 0.0), (tip_mm, 500.0), (0.0, 1_000.0)))
    board, taken = breaker_lies(
        field, field, 0.0, Breaker(start_mm=2_000.0, end_mm=2_145.0), gap_mm=5.0, least_mm=25.0
    )
    assert (not board.is_empty, not taken.is_empty) == (lies, lies)


@given(st.floats(-60, 60), st.integers(1, 40), st.sampled_from((0.5, 1.5875)))
def test_a_fan_is_on_marks_and_within_half_of_one_of_the_lean(
    leans: float, gaps: int, mark: float
) -> None:
    """A lean of -8.4853, 12 at 45 degrees, is no length that can be marked."""
    fan = fan_of(leans, gaps, most_mm=1.0, mark_mm=mark)
    assert (fan / mark) % 1 == 0
    most = (1.0 // mark) * mark * gaps
    assert abs(fan) <= most
    assert abs(fan - leans) <= mark / 2 + 1 / 320 or abs(fan) == most


def test_a_field_has_no_seam_where_only_its_corner_lies_on_a_sloping_side() -> None:
    """The side falls from (0, 2907) by 368 over 3825: at 1500 it is 144.3 further out.

    A field 1500 wide and deeper than the deck parts it along its one edge.
    """
    deck = region(((0.0, 0.0), (3_825.0, 0.0), (3_825.0, 3_275.0), (0.0, 2_907.0)))
    ((start, end),) = seams_of_field(deck, box(0, 0, 1_500, 9_000))
    assert (start, end[0]) == ((1_500.0, 0.0), 1_500.0)
    assert end[1] == pytest.approx(2_907 + 1_500 * 368 / 3_825, abs=1e-3)


def test_the_seam_of_two_fields_side_by_side_is_the_earlier_ones() -> None:
    """An L of 4000 by 2000 and 1000 more: beyond 1500 its inner corner cuts the edge off."""
    deck = region(((0, 0), (4_000, 0), (4_000, 2_000), (1_500, 2_000), (1_500, 3_000), (0, 3_000)))
    one, other = box(0, 0, 1_500, 9_000), box(1_500, 1_000, 4_000, 2_000)
    assert seams_of_field(deck, one) == (((1_500.0, 0.0), (1_500.0, 2_000.0)),)
    assert seams_of_field(minus(deck, one), other) == (((1_500.0, 1_000.0), (4_000.0, 1_000.0)),)


@pytest.mark.parametrize(("leans_mm", "gap_mm"), [(0.0, 8.0), (69.0, 8.0), (71.0, 4.0)])
def test_boards_that_lean_a_little_from_a_border_lie_along_it(
    leans_mm: float, gap_mm: float
) -> None:
    """2 degrees of 2000 are 69.84: boards end 4 off the border beyond that, and want a seam."""
    ring = ((0.0, 0.0), (2_000.0, 0.0), (2_000.0, 1_500.0), (0.0, 1_500.0 - leans_mm))
    edges = edges_seen(ring, 0.0, "near")
    inside = inside_border(
        ring, edges, border_mm=100.0, end_gap_mm=4.0, gap_mm=8.0, ends_mm=(8.0, 8.0)
    )
    across = math.hypot(2_000.0, leans_mm) / 2_000.0 * (100.0 + gap_mm)
    ((_, high),) = stretches(inside, (1_000.0, 0.0), (1_000.0, 1_500.0))
    assert high == pytest.approx(1_500.0 - leans_mm / 2 - across, abs=0.01)
    assert len(inner_edges(ring, edges, 100.0)) == (2 if gap_mm == 8.0 else 3)
