"""Plane geometry of the audit: laws, hand-worked shapes, and counting grains of sand."""

import random
from fractions import Fraction
from math import hypot

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from drylay.audit.plane import (
    UNIT,
    Shape,
    boxes_meet,
    clipped,
    inside,
    is_simple,
    lie_apart,
    meeting,
    outer_box,
    root,
    run_of,
    segments_meet,
    squared_apart,
    squared_reach,
    turn,
    twice_area,
    twice_common,
)
from drylay.audit.sweep import joined, span, trapezia, twice_area_of

#: An L of 4 x 4 without its corner of 2 x 2, a wedge, a star with five points, a U.
ELL: Shape = ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4))
WEDGE: Shape = ((0, 0), (60, 0), (60, 31), (0, 30))
STAR: Shape = (
    (0, -9),
    (2, -3),
    (9, -3),
    (4, 1),
    (6, 8),
    (0, 4),
    (-6, 8),
    (-4, 1),
    (-9, -3),
    (-2, -3),
)
CUP: Shape = ((0, 0), (9, 0), (9, 6), (6, 6), (6, 2), (3, 2), (3, 6), (0, 6))
#: Twice their areas by hand: 16 - 4; 60 x 30.5; the shoelace of the star; 54 - 3 x 4.
TWICE = {ELL: 24, WEDGE: 3660, CUP: 84}
places = st.tuples(st.integers(-9, 9), st.integers(-9, 9))
shapes = st.sampled_from((ELL, STAR, CUP, WEDGE))
triangles = st.tuples(places, places, places).filter(lambda three: twice_area(three) > 0)


def ring(shape: Shape) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in shape])


def common(into: frozenset[int]) -> bool:
    return len(into) == 2


@pytest.mark.parametrize(("shape", "twice"), TWICE.items())
def test_areas_worked_by_hand(shape: Shape, twice: int) -> None:
    assert twice_area(shape) == twice
    assert twice_area(shape[::-1]) == -twice
    assert is_simple(shape)


def test_a_trapezium_worked_by_hand() -> None:
    # between 1 and 3 the L is 4 wide up to 2 and 2 wide beyond: 4 + 2
    parts = trapezia([ELL], lambda into: into == {0}, 1, 3)
    assert twice_area_of(parts) == 12
    assert [span(lot) for lot in joined(parts)] == [(0, 4)]
    # the U between 3 and 5 is two legs
    assert [span(lot) for lot in joined(trapezia([CUP], bool, 3, 5))] == [(0, 3), (6, 9)]


@given(triangles, shapes)
def test_what_two_shapes_share_is_found_by_three_ways(three: Shape, shape: Shape) -> None:
    by_clipping = twice_common(three, shape)
    by_sweep = twice_area_of(trapezia((three, shape), common, -99, 99))
    assert by_clipping == by_sweep
    assert float(by_clipping) / 2 == pytest.approx(ring(three).intersection(ring(shape)).area)


@settings(max_examples=8)
@given(triangles, shapes, st.integers(0, 99))
def test_areas_agree_with_grains_of_sand(three: Shape, shape: Shape, seed: int) -> None:
    sand = random.Random(seed)
    count, grains = 4000, 0
    for _ in range(count):
        grain = (
            Fraction(sand.randrange(-9000, 9000), 1000),
            Fraction(sand.randrange(-9000, 9000), 1000),
        )
        grains += inside(grain, three) > 0 and inside(grain, shape) > 0
    # of 324 square units; five times the spread of so many grains
    share = float(twice_common(three, shape)) / 2 / 324
    assert abs(grains / count - share) <= 5 * (max(share * (1 - share), 1 / count) / count) ** 0.5


@given(shapes, triangles, triangles)
def test_a_sweep_counts_every_part_once(shape: Shape, one: Shape, other: Shape) -> None:
    lot = (shape, one, other)
    whole = twice_area_of(trapezia(lot, bool, -99, 99))
    parts = [
        twice_area_of(trapezia(lot, lambda into, n=n: len(into) == n, -99, 99)) for n in (1, 2, 3)
    ]
    assert whole == sum(parts)
    assert parts[0] + 2 * parts[1] + 3 * parts[2] == sum(map(twice_area, lot))


@given(places, shapes)
def test_inside_is_what_it_is_elsewhere(place: tuple[int, int], shape: Shape) -> None:
    found, point = inside(place, shape), Point(place)
    assert (found > 0) == ring(shape).contains(point)
    assert (found == 0) == (ring(shape).exterior.distance(point) == 0)


@given(places, places, places, places)
def test_segments_meet_as_elsewhere(
    a: tuple[int, int], b: tuple[int, int], c: tuple[int, int], d: tuple[int, int]
) -> None:
    assume(a != b and c != d)
    assert segments_meet(a, b, c, d) == LineString([a, b]).intersects(LineString([c, d]))
    at = meeting(a, b, c, d)
    assert at is None or (turn(a, b, at) == 0 and turn(c, d, at) == 0)
    assert float(root(squared_reach(a, c, d))) == pytest.approx(
        Point(a).distance(LineString([c, d])), abs=1e-4
    )


@given(places, places, places, places, st.integers(1, 7))
def test_what_boxes_turn_down_does_not_meet(
    a: tuple[int, int], b: tuple[int, int], c: tuple[int, int], d: tuple[int, int], parts: int
) -> None:
    assume(a != b and c != d)
    line = tuple((Fraction(x, parts), Fraction(y, parts)) for x, y in (a, b))
    other = (c, d)
    around = outer_box(line)
    assert all(type(edge) is int for edge in around)
    assert all(around[0] <= x <= around[2] and around[1] <= y <= around[3] for x, y in line)
    if lie_apart(around, outer_box(other)):
        assert not segments_meet(*line, *other)
        scaled = LineString([(float(x), float(y)) for x, y in line])
        assert scaled.distance(LineString(other)) > 0


@given(triangles, shapes)
def test_distances_are_those_elsewhere(three: Shape, shape: Shape) -> None:
    found = float(root(squared_apart(three, shape)))
    assert found == pytest.approx(ring(three).distance(ring(shape)), abs=1e-4)
    assert boxes_meet(three, shape, Fraction(found) + 1)


@given(triangles, places, places)
def test_halves_of_a_clip_make_the_whole(
    three: Shape, start: tuple[int, int], end: tuple[int, int]
) -> None:
    if start != end:
        one, other = clipped(three, start, end), clipped(three, end, start)
        assert twice_area(one) + twice_area(other) == twice_area(three)


@given(places, places)
def test_a_run_keeps_lengths_and_places(start: tuple[int, int], end: tuple[int, int]) -> None:
    run = run_of(start, end)
    if run is None:
        assert start == end
        return
    (u, v), (w, x) = run.told(start), run.told(end)
    long = hypot(end[0] - start[0], end[1] - start[1])
    assert float(w - u) / UNIT == pytest.approx(long, abs=1e-6)
    assert abs(float(x - v)) / UNIT < 1e-6
    assert run.place(run.told(end)) == end


@pytest.mark.parametrize(
    "corners",
    [((0, 0), (4, 4), (4, 0), (0, 4)), ((0, 0), (4, 0), (2, 0)), ((0, 0), (0, 0), (4, 4)),
     ((0, 0), (4, 0)), ((0, 0), (4, 0), (4, 4), (2, 0), (0, 4))],
)  # fmt: skip
def test_what_crosses_or_folds_is_not_simple(corners: Shape) -> None:
    assert not is_simple(corners)


def test_stretches_that_touch_are_one() -> None:
    one, other = ((0, 0), (2, 0), (2, 2), (0, 2)), ((2, 0), (4, 0), (4, 2), (2, 2))
    parts = trapezia((one, other), bool, 0, 2)
    assert [(part.at_low, part.at_high) for part in parts] == [((0, 4), (0, 4))]
    assert parts[0].corners == ((0, 0), (4, 0), (4, 2), (0, 2))
