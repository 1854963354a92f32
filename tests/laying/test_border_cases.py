"""A mitred border against plane geometry, worked by hand."""

import math

import pytest
import shapely

from drylay.laying.border import (
    border_mm,
    corner_deg,
    lay_border,
    mitres,
    short_side,
    squeeze_of,
)

HEXAGON = tuple(
    (2000 * math.cos(math.radians(60 * at)), 2000 * math.sin(math.radians(60 * at)))
    for at in range(6)
)
ELL = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (1200.0, 1500.0), (1200.0, 2500.0),
       (0.0, 2500.0))  # fmt: skip


@pytest.mark.parametrize("ring", [HEXAGON, ELL])
@pytest.mark.parametrize("courses", [1, 2])
def test_courses_make_up_the_band(ring: tuple[tuple[float, float], ...], courses: int) -> None:
    boards = lay_border(ring, courses=courses, board_mm=145, gap_mm=5)
    assert boards is not None
    assert len(boards) == courses * len(ring)
    whole = shapely.Polygon(ring)
    for course in range(courses):
        off = course * 150.0
        outer = whole.buffer(-off, join_style="mitre")
        band = outer.area - whole.buffer(-off - 145, join_style="mitre").area
        laid = [shapely.Polygon(board.ring) for board in boards if board.course == course]
        assert sum(each.area for each in laid) == pytest.approx(band, rel=1e-9)
        assert shapely.union_all(laid).area == pytest.approx(band, rel=1e-6)


def test_a_hexagon_by_hand() -> None:
    """Corners of 120: mitres of 145 / sin 60 = 167.432, the saw at 30, sides of 2000."""
    for mitre in mitres(HEXAGON, wide_mm=145):
        assert mitre.length_mm == pytest.approx(145 / math.sin(math.radians(60)))
        assert mitre.saw_deg == pytest.approx(30)
    boards = lay_border(HEXAGON, courses=1, board_mm=145, gap_mm=5)
    assert boards is not None
    assert [board.length_mm for board in boards] == pytest.approx([2000] * 6)
    assert [(b.start_deg, b.end_deg) for b in boards] == [
        pytest.approx((30.0, -30.0), abs=1e-9)
    ] * 6


def test_an_ell_by_hand() -> None:
    """The side from the re-entrant corner on is 1000 outside, and a board longer at that tip."""
    assert corner_deg(ELL, 3) == pytest.approx(270)
    found = mitres(ELL, wide_mm=100)
    assert [mitre.length_mm for mitre in found] == pytest.approx([100 * math.sqrt(2)] * 6)
    assert [mitre.saw_deg for mitre in found] == pytest.approx([45, 45, 45, -45, 45, 45])
    boards = lay_border(ELL, courses=1, board_mm=100, gap_mm=5)
    assert boards is not None
    assert [board.length_mm for board in boards] == pytest.approx(
        [3000, 1500, 1900, 1100, 1200, 2500]
    )


def test_a_side_too_short_has_no_border() -> None:
    assert lay_border(((0, 0), (280, 0), (280, 900), (0, 900)), courses=1, board_mm=145,
                      gap_mm=5) is None  # fmt: skip


@pytest.mark.parametrize("width", [290, 300, 301, 310, 590])
def test_two_courses_want_more_than_twice_their_width(width: float) -> None:
    """295 at either end of a side between square corners; at 300 the outer line is nothing."""
    ring = ((0, 0), (width, 0), (width, 2000), (0, 2000))
    assert lay_border(ring, courses=2, board_mm=145, gap_mm=5) is None
    assert short_side(ring, wide_mm=295) == pytest.approx((0, width, 590))


def test_a_side_between_a_square_and_a_re_entrant_corner_needs_no_length_for_a_border() -> None:
    """What the mitre at one end takes the other gives: the step of 300 has its two courses."""
    step = ((0, 0), (3000, 0), (3000, 2000), (1500, 2000), (1500, 2300), (0, 2300))
    assert lay_border(step, courses=2, board_mm=145, gap_mm=5) is not None


@pytest.mark.parametrize(("neck", "squeezed"), [(250, True), (299.9, True), (300.5, False)])
def test_a_neck_as_wide_as_two_borders_and_gaps_leaves_no_field(
    neck: float, squeezed: bool
) -> None:
    """150 off either of its sides, and none of its ends is short."""
    low, high = 1500 - neck / 2, 1500 + neck / 2
    ring = ((0, 0), (2000, 0), (2000, low), (3000, low), (3000, 0), (5000, 0), (5000, 3000),
            (3000, 3000), (3000, high), (2000, high), (2000, 3000), (0, 3000))  # fmt: skip
    found = squeeze_of(ring, [150] * 12)
    assert (found is not None) == squeezed
    if found is not None:
        assert (found.sides, found.least_mm) == ((2, 8), 300)
        assert found.length_mm == pytest.approx(neck)


def test_how_wide() -> None:
    assert [border_mm(n, 145, 5) for n in (0, 1, 2)] == [0, 145, 295]
