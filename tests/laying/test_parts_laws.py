"""Parts of rows: areas against shapely, and ends against trapezoids worked by hand."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from drylay.geometry import region
from drylay.laying.axes import Axes, axes_of
from drylay.laying.parts import Band, Part, between, corners_of, ends_of, is_shaped, parts_in

FLAT = Axes(cos_ratio=1.0, sin_ratio=0.0)


def part(*ring: tuple[float, float]) -> Part:
    return Part(band=Band(row="B1", axes=FLAT, low_mm=0, high_mm=100), ring=ring)


@st.composite
def stars(draw: st.DrawFn) -> list[tuple[float, float]]:
    reach = draw(st.lists(st.integers(600, 3_000), min_size=4, max_size=9))
    turn = 2 * math.pi / len(reach)
    return [(r * math.cos(turn * n), r * math.sin(turn * n)) for n, r in enumerate(reach)]


@given(stars(), st.integers(0, 179), st.integers(-500, 400))
def test_parts_are_all_of_the_strip_inside(
    ring: list[tuple[float, float]], angle: int, low: int
) -> None:
    axes = axes_of(float(angle))
    band = Band(row="B1", axes=axes, low_mm=low, high_mm=low + 100.0)
    found = parts_in(band, region(ring), (), end_gap_mm=5)
    far = [(u, v) for u, v in ((-9e3, low), (9e3, low), (9e3, low + 100.0), (-9e3, low + 100.0))]
    strip = shapely.Polygon(
        [(u * axes.cos_ratio - v * axes.sin_ratio, u * axes.sin_ratio + v * axes.cos_ratio)
         for u, v in far]
    )  # fmt: skip
    wanted = shapely.Polygon(ring).intersection(strip).area
    laid = [shapely.Polygon(corners_of(each)) for each in found]
    # dust under 1 mm2 is left out, and places are snapped to a ten-thousandth
    assert sum(each.area for each in laid) == pytest.approx(wanted, abs=20)


def test_a_trapezoid_by_hand() -> None:
    """Its left edge starts 100 later and ends 50 earlier: atan(1) and atan(-1/2)."""
    found = part((0, 0), (900, 0), (850, 100), (100, 100))
    start, end = ends_of(found)
    assert (start.straight, end.straight) == (True, True)
    assert start.saw_deg == pytest.approx(45)
    assert end.saw_deg == pytest.approx(-math.degrees(math.atan(0.5)))
    assert not is_shaped(found, (start, end))


def test_a_notch_and_a_point_are_shaped() -> None:
    notched = part((0, 0), (900, 0), (900, 60), (500, 60), (500, 100), (0, 100))
    start, end = ends_of(notched)
    assert (start.straight, end.straight) == (True, False)
    assert is_shaped(notched, (start, end))
    pointed = part((0, 0), (900, 0), (950, 50), (900, 100), (0, 100))
    assert is_shaped(pointed, ends_of(pointed))
    ripped = part((0, 0), (900, 0), (900, 60), (0, 60))
    assert is_shaped(ripped, ends_of(ripped))


def test_no_board_is_threaded_over_a_post() -> None:
    band = Band(row="B1", axes=FLAT, low_mm=0, high_mm=145)
    post = ((480.0, 40.0), (520.0, 40.0), (520.0, 80.0), (480.0, 80.0))
    area = region(((0, 0), (1000, 0), (1000, 145), (0, 145)))
    one, other = parts_in(band, area, [post], end_gap_mm=6)
    assert (one.start_mm, one.end_mm) == pytest.approx((0, 497), abs=1e-3)
    assert (other.start_mm, other.end_mm) == pytest.approx((503, 1000), abs=1e-3)


def test_what_lies_between_two_square_cuts() -> None:
    found = between(part((0, 0), (900, 0), (850, 100), (100, 100)), 300, None)
    assert (found.start_mm, found.end_mm) == pytest.approx((300, 900))
    assert ends_of(found)[0].saw_deg == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(
    ("reach", "ends"),
    [
        (110.0, [490.0, 510.0]),  # it takes 20 of the edge: boards are left as they are
        (103.0, [495.5, 504.5]),  # it takes 6: cut back to an end gap, in the middle of them
        (100.05, [495.5, 504.5]),
        (99.95, [495.5, 504.5]),  # a neck that no saw leaves
        (99.5, []),
    ],
)
def test_a_row_that_a_corner_only_just_parts_is_cut_back(reach: float, ends: list[float]) -> None:
    """A square hole set on its corner, its middle on the row's right edge."""
    hole = [(500.0 - reach, 0.0), (500.0, -reach), (500.0 + reach, 0.0), (500.0, reach)]
    band = Band(row="B1", axes=FLAT, low_mm=0.0, high_mm=100.0)
    found = parts_in(band, shapely.box(0, -500, 1000, 500), [hole], end_gap_mm=9.0)
    assert len(found) == (2 if ends else 1)
    if ends:
        assert [found[0].end_mm, found[1].start_mm] == pytest.approx(ends, abs=0.001)
        cut = 4 if reach > 105 else 5
        assert [len(each.ring) for each in found] == [cut, cut]


@pytest.mark.parametrize(
    ("past", "ends"), [(20.0, [480.0, 520.0]), (1.0, [495.5, 504.5]), (-0.2, [])]
)
def test_a_row_that_a_corner_of_its_zone_only_just_parts_is_cut_back(
    past: float, ends: list[float]
) -> None:
    """A square re-entrant corner from the right, its tip so far past the row's left edge."""
    tip = 100.0 + past
    zone = region(((0, 0), (500 - tip, 0), (500, tip), (500 + tip, 0), (1000, 0), (1000, 300),
                   (0, 300)))  # fmt: skip
    band = Band(row="B1", axes=FLAT, low_mm=0.0, high_mm=100.0)
    found = parts_in(band, zone, [], end_gap_mm=9.0)
    assert len(found) == (2 if ends else 1)
    if ends:
        assert [found[0].end_mm, found[1].start_mm] == pytest.approx(ends, abs=0.001)


@pytest.mark.parametrize(("tip", "starts"), [(97.0, 101.5), (99.95, 104.45), (95.4, 100.0)])
def test_a_row_whose_end_a_corner_only_just_parts_is_cut_back_there(
    tip: float, starts: float
) -> None:
    """A square hole on its corner over the zone's end at 100: it takes 9, 4.5 in from its tip."""
    hole = [(tip, 50.0), (tip + 60, -10.0), (tip + 120, 50.0), (tip + 60, 110.0)]
    band = Band(row="B1", axes=FLAT, low_mm=0.0, high_mm=100.0)
    found = parts_in(band, shapely.box(100, -50, 1000, 150), [hole], end_gap_mm=9.0)
    assert [each.start_mm for each in found] == pytest.approx([starts, starts, tip + 70], abs=0.001)
    flat = [shapely.Polygon(corners_of(each)) for each in found]
    assert flat[0].distance(flat[1]) == pytest.approx(max(9.0, 2 * (100.0 - tip)), abs=0.001)


@pytest.mark.parametrize(("leans", "square"), [(0.006, True), (0.09, True), (0.2, False)])
def test_an_end_as_good_as_square_is_square(leans: float, square: bool) -> None:
    start, end = ends_of(part((leans, 0), (900, 0), (900, 100), (0, 100)))
    assert (start.saw_deg == 0.0, end.saw_deg) == (square, 0.0)
