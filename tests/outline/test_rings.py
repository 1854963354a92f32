"""Rings in whole 1/320 mm, held against fractions, hand sums and shapely."""

from math import hypot, isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from drylay.rings import (
    Block,
    apart,
    clashing_sides,
    corner_deg,
    holds,
    idle,
    inside,
    on_line,
    rectangle,
    traced,
    twice_area,
)
from drylay.shapes import of_points
from outline.shapes_drawn import stars

SQUARE = rectangle((0, 0), (10, 10))
#: A U: 30 wide, 20 deep, a slot 10 wide down to 10.
U_SHAPE = ((0, 0), (30, 0), (30, 20), (20, 20), (20, 10), (10, 10), (10, 20), (0, 20))


def test_an_area_is_half_the_sum_of_cross_products() -> None:
    assert twice_area(U_SHAPE) == 2 * (30 * 20 - 10 * 10)
    assert twice_area(tuple(reversed(U_SHAPE))) == -1000


@pytest.mark.parametrize(
    ("place", "where"),
    [((5, 5), 1), ((0, 5), 0), ((10, 10), 0), ((35, 5), -1), ((15, 15), -1), ((25, 15), 1),
     ((15, 10), 0), ((15, 9), 1)],
)  # fmt: skip
def test_where_a_place_lies(place: tuple[int, int], where: int) -> None:
    assert inside(U_SHAPE, place) == where


@given(stars(), st.integers(-3000, 6000), st.integers(-3000, 6000))
def test_where_a_place_lies_is_as_shapely_has_it(wish, x: int, y: int) -> None:
    ring = of_points(wish.points).corners
    if clashing_sides(ring) or not twice_area(ring):
        return
    found, place = Polygon(ring), Point(x * 320, y * 320)
    wanted = 1 if found.contains(place) else 0 if found.boundary.distance(place) == 0 else -1
    assert inside(ring, (x * 320, y * 320)) == wanted


@given(stars(), st.integers(-500, 5000), st.integers(-500, 5000), st.integers(20, 900))
def test_what_holds_a_rectangle_and_how_far_off_is_as_shapely_has_it(
    wish, x: int, y: int, size: int
) -> None:
    ring = of_points(wish.points).corners
    if clashing_sides(ring) or not twice_area(ring):
        return
    own = rectangle((x * 320, y * 320), ((x + size) * 320, (y + size) * 320))
    outer, inner = Polygon(ring), Polygon(own)
    assert holds(ring, own) == outer.covers(inner)
    wanted = outer.exterior.distance(inner.exterior)
    assert isclose(apart(ring, own), wanted, abs_tol=1e-3, rel_tol=1e-9)


def test_a_rectangle_over_a_slot_is_not_held_though_its_corners_are() -> None:
    assert holds(U_SHAPE, rectangle((5, 2), (25, 10)))
    assert not holds(U_SHAPE, rectangle((5, 2), (25, 12)))
    # its top runs over the slot, which it meets at corners only
    assert not holds(U_SHAPE, rectangle((0, 5), (30, 20)))
    # corners and middles of its sides lie within, and two sides cross a slot
    slotted = ((0, 0), (100, 0), (100, 20), (20, 20), (20, 10), (10, 10), (10, 20), (0, 20))
    assert not holds(slotted, ((5, 15), (50, 5), (95, 15)))


@pytest.mark.parametrize(
    ("ring", "pairs"),
    [
        (SQUARE, ()),
        (((0, 0), (10, 10), (10, 0), (0, 10)), ((0, 2),)),
        (((0, 0), (10, 0), (5, 0), (5, 5)), ((0, 1), (0, 2))),  # folds back on itself
        (((0, 0), (10, 0), (10, 10), (5, 0), (0, 10)), ((0, 2), (0, 3))),  # touches a side
    ],
)
def test_sides_that_clash(ring: tuple[tuple[int, int], ...], pairs: object) -> None:
    assert clashing_sides(ring) == pairs


def test_a_corner_is_measured_inside() -> None:
    assert corner_deg((0, 10), (0, 0), (10, 0)) == 90
    assert corner_deg((10, 20), (10, 10), (20, 10)) == pytest.approx(90)
    assert corner_deg((20, 10), (10, 10), (10, 20)) == pytest.approx(270)
    assert corner_deg((0, 0), (10, 0), (20, 0)) == 180


def test_how_far_rings_are_apart() -> None:
    assert apart(SQUARE, rectangle((13, 14), (20, 20))) == hypot(3, 4)
    assert apart(SQUARE, rectangle((2, 2), (9, 5))) == 1
    assert apart(SQUARE, rectangle((10, 2), (12, 5))) == 0


def test_a_wall_is_straight_between_readings() -> None:
    readings = ((0, 0), (1000, 10), (3000, -30))
    assert [on_line(readings, x) for x in (0, 500, 1000, 1500, 2000, 3000)] == [
        0, 5, 10, 0, -10, -30
    ]  # fmt: skip


def blocks(*found: tuple[int, int, int, int, bool]) -> list[Block]:
    return [Block(low=(a, b), high=(c, d), adds=adds) for a, b, c, d, adds in found]


def test_a_hole_runs_the_other_way_and_a_corner_touch_is_told() -> None:
    holed = traced(blocks((0, 0, 30, 30, True), (10, 10, 20, 20, False)))
    areas = [twice_area(tuple(place for place, _ in loop)) for loop in holed.loops]
    assert sorted(areas) == [-200, 1800]
    assert traced(blocks((0, 0, 10, 10, True), (10, 10, 20, 20, True))).touching == ((10, 10),)


def test_what_is_taken_from_nothing_is_idle() -> None:
    found = blocks((0, 0, 9, 9, False), (0, 0, 10, 10, True), (5, 5, 15, 15, False),
                   (5, 5, 9, 9, False), (20, 0, 30, 5, True))  # fmt: skip
    assert idle(found) == (0, 3)
