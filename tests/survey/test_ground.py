"""The ground between levels, its water and its earth: by hand, by scipy, and by a fine grid."""

import random
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import LinearNDInterpolator
from scipy.ndimage import label
from scipy.spatial import ConvexHull, Delaunay
from shapely import Polygon, contains_xy

from drylay.brief.model import GroundPoint
from drylay.errors import InputError
from drylay.survey.earth import earthwork
from drylay.survey.flow import flow_path
from drylay.survey.ground import ground_surface, level_at, level_run
from drylay.survey.model import Formation, Ring, Surface
from drylay.survey.slopes import contours_of, slopes_within
from drylay.survey.triangles import triangulated, turn, within_circle
from drylay.survey.water import OUTSIDE, lows_of, ponds_of, water_findings


def point(x: float, y: float, z: float) -> GroundPoint:
    return GroundPoint(along_mm=float(x), across_mm=float(y), level_mm=float(z))


def ground(*spots: tuple[float, float, float]) -> Surface:
    found = ground_surface([point(*spot) for spot in spots])
    assert found is not None
    return found


def rectangle(x1: float, y1: float, x2: float, y2: float) -> Ring:
    return ((x1, y1), (x2, y1), (x2, y2), (x1, y2))


def wild(seed: int, count: int) -> tuple[Surface, LinearNDInterpolator]:
    rng = random.Random(seed)
    spots = {(rng.randrange(10_000), rng.randrange(8_000)): rng.randrange(-300, 300)
             for _ in range(count)}  # fmt: skip
    found = ground(*((x, y, z) for (x, y), z in spots.items()))
    return found, LinearNDInterpolator(list(spots), list(spots.values()))


def grid(straight: LinearNDInterpolator, step: float) -> tuple[np.ndarray, ...]:
    xs, ys = np.meshgrid(np.arange(step / 2, 10_000, step), np.arange(step / 2, 8_000, step))
    return xs, ys, straight(xs, ys)


PIT = [(1000 * i, 1000 * j, -100 if i == j == 1 else 0) for i in range(3) for j in range(3)]


@settings(max_examples=60)
@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), min_size=3, max_size=14,
                unique=True), st.randoms(use_true_random=False))  # fmt: skip
def test_triangles_fill_the_hull_and_no_circle_holds_a_point(
    places: list[tuple[int, int]], rng: random.Random
) -> None:
    """Points on a small grid: most of them lie in line or on one circle with others."""
    threes = triangulated(places)
    if not threes:
        assert all(turn(*three) == 0 for three in combinations(places, 3))
        return
    assert sum(turn(*(places[at] for at in three)) for three in threes) == pytest.approx(
        2 * ConvexHull(places).volume
    )
    for three in threes:
        corners = [places[at] for at in three]
        assert turn(*corners) > 0
        assert all(within_circle(*corners, place) <= 0 for place in places)
    order = list(range(len(places)))
    rng.shuffle(order)
    mixed = triangulated([places[at] for at in order])
    assert {frozenset(order[at] for at in three) for three in mixed} == {
        frozenset(three) for three in threes
    }


@pytest.mark.parametrize("seed", range(4))
def test_triangles_and_levels_are_those_of_scipy(seed: int) -> None:
    surface, straight = wild(seed, 40)
    places = [(p.along_mm, p.across_mm) for p in surface.points]
    theirs = {frozenset(map(int, three)) for three in Delaunay(places).simplices}
    assert {frozenset(three) for three in surface.triangles} == theirs
    rng = random.Random(seed)
    for _ in range(60):
        x, y = rng.randrange(10_000), rng.randrange(8_000)
        level, told = level_at(surface, x, y), float(straight(x, y))
        assert (level is None) == np.isnan(told)
        assert level is None or level == pytest.approx(told, abs=0.001)


def test_levels_are_as_measured_and_none_is_invented_beyond() -> None:
    surface = ground((0, 0, 10), (4000, 0, 30), (0, 3000, -20))
    assert level_at(surface, 4000, 0) == 30.0
    assert level_at(surface, 2000, 0) == 20.0
    assert level_at(surface, 1000, 750) == pytest.approx(10 + 20 / 4 - 30 / 4)
    assert level_at(surface, 2001, 1500) is None
    assert ground_surface([point(0, 0, 1), point(1, 1, 2), point(2, 2, 3)]) is None


def test_a_pit_holds_a_pyramid_of_water() -> None:
    """A square of 2 m, its middle 100 deep, level all round.

    All sides run level but those to the middle. Squares fold from their corner nearest the datum:
    two of the four fold through the middle, so that two corners of the large square stay dry
    half a square metre each: the water is a pyramid on 3 m2, 0.1 deep: 0.1 m3. The other fold would
    wet them too: 4 m2 or 0.133 m3.
    """
    surface = ground(*PIT)
    (low,) = lows_of(surface)
    assert (low.along_mm, low.across_mm, low.level_mm, low.spill_mm) == (1000, 1000, -100, 0)
    (pond,) = ponds_of(surface, (low,))
    assert (pond.area_m2, pond.volume_m3, pond.depth_mm) == (3.0, 0.1, 100.0)
    assert pond.spills_to == OUTSIDE
    # each fold in question is a tetrahedron of 0.1 x 1 m2 / 6 (1/60 m3): four of them, told up
    assert surface.fold_m3 == 0.067
    (finding,) = water_findings((low,), (pond,))
    assert finding.code == "SVY-021"


def test_two_pits_in_one_bowl_fill_to_one_pond() -> None:
    """A bowl in a rim at 0: two pits at -100 and -80, between them a sill at -50.

    The first runs over into the second at -50; full, both stand at the lowest rim, -10.
    """
    rim = [(0, 0, 0), (4000, 0, 0), (4000, 2000, 0), (0, 2000, 0), (2000, 2000, 0), (2000, 0, 0),
           (0, 1000, 0), (4000, 1000, -10)]  # fmt: skip
    surface = ground(*rim, (1000, 1000, -100), (2000, 1000, -50), (3000, 1000, -80))
    lows = lows_of(surface)
    assert [(low.level_mm, low.spill_mm, low.on_edge) for low in lows] == [
        (-100, -10, False), (-80, -50, False),
    ]  # fmt: skip
    (pond,) = ponds_of(surface, lows)
    assert pond.lows == ("L1", "L2")
    assert (pond.water_mm, pond.spill_along_mm, pond.spill_across_mm) == (-10, 4000, 1000)


def test_a_low_on_the_edge_is_told_as_unknown() -> None:
    surface = ground((0, 0, 50), (3000, 0, 50), (3000, 3000, 0), (0, 3000, -40))
    (low,) = lows_of(surface)
    assert low.on_edge
    assert low.spill_mm is None
    assert ponds_of(surface, (low,)) == ()
    assert [finding.code for finding in water_findings((low,), ())] == ["SVY-022"]


@pytest.mark.parametrize("seed", range(4))
def test_ponds_hold_what_a_fine_grid_holds(seed: int) -> None:
    """Squares of 25 mm under water just below the brim, joined to the pond's low."""
    surface, straight = wild(seed, 30)
    xs, ys, levels = grid(straight, 25.0)
    lows = lows_of(surface)
    place = {low.name: (low.along_mm, low.across_mm) for low in lows}
    seen = 0
    for pond in ponds_of(surface, lows):
        if pond.depth_mm < 40:
            continue
        joined, _ = label(levels < pond.water_mm - 1.5)
        x, y = place[pond.lows[0]]
        spot = joined[np.unravel_index(np.argmin((xs - x) ** 2 + (ys - y) ** 2), xs.shape)]
        wet = np.isin(joined, [spot])
        volume = float((pond.water_mm - levels)[wet].sum()) * 25**2 / 1e9
        assert pond.volume_m3 == pytest.approx(volume, rel=0.03, abs=0.004)
        assert pond.area_m2 >= float(wet.sum()) * 25**2 / 1e6 - 0.01
        seen += 1
    assert seen or seed


def test_water_runs_down_a_plane_straight_and_out() -> None:
    """Ground falling 1 in 50 away from the house, 1 in 100 to the right: 2 across for 1 along."""
    surface = ground(*((x, y, 100 - x / 100 - y / 50) for x in (0, 4000) for y in (0, 3000)))
    flow = flow_path(surface, 1000, 1000)
    assert flow is not None
    assert flow.path_mm[-1] == (2000.0, 3000.0)
    assert flow.levels_mm[0] == 70.0
    assert flow.levels_mm[-1] == 20.0
    assert flow.ends == OUTSIDE
    assert flow_path(surface, -1, 0) is None


def test_water_runs_along_the_bottom_of_a_trough_into_the_pit() -> None:
    """Two banks lean to a bottom at across = 1000 that falls from along 0 and 4000 to a pit."""
    surface = ground(
        (0, 0, 300), (2000, 0, 300), (4000, 0, 300), (0, 1000, 100), (4000, 1000, 100),
        (2000, 1000, 0), (0, 2000, 300), (2000, 2000, 300), (4000, 2000, 300),
    )  # fmt: skip
    lows = lows_of(surface)
    flow = flow_path(surface, 500, 400, lows)
    assert flow is not None
    assert flow.ends == "L1"
    assert flow.path_mm[-1] == (2000.0, 1000.0)
    assert any(y == 1000.0 and x < 2000 for x, y in flow.path_mm)


def test_from_a_top_water_takes_the_steepest_way() -> None:
    """A top of 100: 150 down over 2 m to the left, 300 to the right, 225 over 3 m either side."""
    surface = ground((0, 0, -50), (4000, 0, -200), (4000, 6000, -200), (0, 6000, -50),
                     (2000, 3000, 100))  # fmt: skip
    flow = flow_path(surface, 2000, 3000)
    assert flow is not None
    assert flow.path_mm[-1] == (4000.0, 3000.0)


@settings(max_examples=25)
@given(st.integers(0, 10_000), st.integers(0, 400), st.integers(0, 400))
def test_water_never_runs_uphill_and_ends_somewhere(seed: int, x: int, y: int) -> None:
    surface, _ = wild(seed, 12)
    lows = lows_of(surface)
    flow = flow_path(surface, x * 25, y * 20, lows)
    if flow is not None:
        assert list(flow.levels_mm) == sorted(flow.levels_mm, reverse=True)
        assert flow.ends in {OUTSIDE, *(low.name for low in lows)}


def test_a_wedge_is_cut_and_filled_as_by_hand() -> None:
    """Ground from +100 to -100 over 4 m, 3 m wide, to level 0: two wedges of 2 x 3 m, 0.05 mean.

    Each is 2 x 3 x 0.05 = 0.3 m3. Loose 0.3 x 1.25 = 0.375 m3: one skip. Fill 0.3 x 1600 = 480 kg.
    """
    surface = ground(*((x, y, 100 - x / 20) for x in (0, 4000) for y in (0, 3000)))
    work, found = earthwork(surface, rectangle(0, 0, 4000, 3000), Formation(level_mm=0))
    assert (work.cut_m3, work.fill_m3) == (0.3, 0.3)
    assert (work.cut_area_m2, work.fill_area_m2, work.area_m2) == (6.0, 6.0, 12.0)
    assert (work.deepest_cut_mm, work.highest_fill_mm) == (100.0, 100.0)
    assert (work.loose_m3, work.skips, work.fill_kg) == (0.375, 1, 480.0)
    assert work.balance_mm == 0.0
    assert found == ()


def test_a_notched_outline_is_cut_as_its_parts_are() -> None:
    """An L of 3 m2 under level ground 200 above the formation: 0.6 m3, whichever way round."""
    surface = ground((0, 0, 200), (3000, 0, 200), (3000, 3000, 200), (0, 3000, 200))
    ring = ((0, 0), (2000, 0), (2000, 1000), (1000, 1000), (1000, 2000), (0, 2000))
    for each in (ring, ring[::-1]):
        work, _ = earthwork(surface, each, Formation(level_mm=0))
        assert (work.cut_m3, work.area_m2, work.fill_m3) == (0.6, 3.0, 0.0)


def test_a_falling_formation_under_ground_that_falls_alike_is_nothing_to_do() -> None:
    surface = ground(*((x, y, 50 - x / 100 - y / 80) for x in (0, 4000) for y in (0, 3000)))
    formation = Formation(level_mm=50, fall_along_ratio=1 / 100, fall_across_ratio=1 / 80)
    work, _ = earthwork(surface, rectangle(0, 0, 4000, 3000), formation)
    assert (work.cut_m3, work.fill_m3) == (0.0, 0.0)
    assert work.balance_mm == 50.0


def test_what_lies_beyond_the_points_is_not_reckoned_and_is_told() -> None:
    surface = ground((0, 0, 100), (2000, 0, 100), (2000, 2000, 100), (0, 2000, 100))
    work, found = earthwork(surface, rectangle(0, 0, 3000, 2000), Formation(level_mm=0))
    assert (work.area_m2, work.unmeasured_m2, work.cut_m3) == (4.0, 2.0, 0.4)
    assert [finding.code for finding in found] == ["SVY-041"]


def test_earth_held_back_over_600_stops_and_steep_ground_too() -> None:
    surface = ground(*((x, y, x * 0.3) for x in (0, 4000) for y in (0, 3000)))
    ring = rectangle(0, 0, 4000, 3000)
    work, found = earthwork(surface, ring, Formation(level_mm=400))
    assert work.edge_step_mm == 800.0
    assert [str(f).split()[:2] for f in found] == [["stop", "SVY-042"]]
    slopes, steep = slopes_within(surface, ring)
    assert slopes is not None
    assert (slopes.mean_ratio, slopes.falls_deg, slopes.steepest_ratio) == (0.3, 180.0, 0.3)
    assert [str(f).split()[:2] for f in steep] == [["stop", "SVY-030"]]


def test_a_slope_of_1_in_4_itself_does_not_stop() -> None:
    surface = ground(*((x, y, y / 4) for x in (0, 4000) for y in (0, 3000)))
    slopes, found = slopes_within(surface, rectangle(500, 500, 1000, 1000))
    assert slopes is not None
    assert slopes.steepest_ratio == 0.25
    assert found == ()


@pytest.mark.parametrize("seed", range(4))
def test_earth_over_wild_ground_is_that_of_a_fine_grid(seed: int) -> None:
    surface, straight = wild(seed, 25)
    ring = ((500, 500), (9000, 1000), (8000, 7000), (4000, 3000), (1000, 7500))
    work, _ = earthwork(surface, ring, Formation(level_mm=20, fall_along_ratio=0.01))
    xs, ys, levels = grid(straight, 25.0)
    held = contains_xy(Polygon(ring), xs, ys) & ~np.isnan(levels)
    deep = (levels - (20 - 0.01 * xs))[held] * 25**2 / 1e9
    assert work.cut_m3 == pytest.approx(float(deep[deep > 0].sum()), rel=0.01, abs=0.01)
    assert work.fill_m3 == pytest.approx(-float(deep[deep < 0].sum()), rel=0.01, abs=0.01)
    assert work.area_m2 == pytest.approx(held.sum() * 25**2 / 1e6, rel=0.003)


RING = rectangle(1500, 1500, 8000, 6500)


@settings(max_examples=25)
@given(st.integers(0, 10_000), st.integers(-400, 400), st.integers(1, 200))
def test_a_higher_formation_cuts_less_and_fills_more(seed: int, level: int, more: int) -> None:
    surface, _ = wild(seed, 12)
    low, _ = earthwork(surface, RING, Formation(level_mm=level))
    high, _ = earthwork(surface, RING, Formation(level_mm=level + more))
    assert high.cut_m3 <= low.cut_m3
    assert high.fill_m3 >= low.fill_m3
    if low.balance_mm is not None:  # cut less fill = mean depth x area
        both = (low.balance_mm - level) / 1000 * low.area_m2
        assert low.cut_m3 - low.fill_m3 == pytest.approx(both, abs=0.0015 + low.area_m2 * 1e-4)
        even, _ = earthwork(surface, RING, Formation(level_mm=low.balance_mm))
        assert even.cut_m3 == pytest.approx(even.fill_m3, abs=0.0015 + low.area_m2 * 1e-4)


@settings(max_examples=20)
@given(st.integers(0, 10_000), st.integers(-3000, 3000), st.booleans())
def test_moving_the_garden_or_turning_it_a_quarter_leaves_the_earth(
    seed: int, by: int, quarter: bool
) -> None:
    surface, _ = wild(seed, 12)

    def moved(x: float, y: float) -> tuple[float, float]:
        return (by - y, x - by) if quarter else (x + by, y - by)

    other = ground(*((*moved(p.along_mm, p.across_mm), p.level_mm) for p in surface.points))
    one, _ = earthwork(surface, RING, Formation(level_mm=0))
    two, _ = earthwork(other, tuple(moved(*place) for place in RING), Formation(level_mm=0))
    for name in ("cut_m3", "fill_m3", "area_m2"):
        assert getattr(one, name) == pytest.approx(getattr(two, name), abs=0.0011)
    assert sum(p.volume_m3 for p in ponds_of(surface, lows_of(surface))) == pytest.approx(
        sum(p.volume_m3 for p in ponds_of(other, lows_of(other))), abs=0.005
    )


def test_contours_lie_at_their_level() -> None:
    surface = ground(*((x, y, x / 40) for x in (0, 4000) for y in (0, 3000)))
    for contour in contours_of(surface):
        assert contour.level_mm % 10 == 0
        for start, end in contour.lines_mm:
            assert start[0] == end[0] == pytest.approx(contour.level_mm * 40)


def test_a_run_of_levels_closes_within_3() -> None:
    assert level_run(opening_mm=0, closing_mm=3)[1] == ()
    closure, found = level_run(opening_mm=120, closing_mm=115.5)
    assert closure.closing_mm == -4.5
    assert [str(f).split()[:2] for f in found] == [["caution", "SVY-020"]]


def test_points_and_outlines_that_cannot_be_meant_are_refused() -> None:
    with pytest.raises(InputError, match=r"points\[2\].*place of points\[0\]"):
        ground_surface([point(0, 0, 1), point(5, 5, 1), point(0, 0, 2)])
    surface = ground(*PIT)
    with pytest.raises(InputError, match="sides that cross") as raised:
        earthwork(surface, ((0, 0), (1000, 1000), (1000, 0), (0, 1000)),
                  Formation(level_mm=0, fall_along_ratio=4))  # fmt: skip
    assert "formation.fall_along_ratio" in str(raised.value)
