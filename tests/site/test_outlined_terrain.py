"""The ground within an outline: rectangles as ever, an L by hand, darts that never go beyond it."""

import random
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from drylay.brief.model import GroundPoint
from drylay.marks import exact
from drylay.rings import inside
from drylay.site.outlined_terrain import GroundSide, ground_within, nearest_corner
from drylay.site.terrain import ground_under, levels_on, survey_of

Ring = tuple[tuple[float, float], ...]


def points(*places: tuple[float, float, float]) -> tuple[GroundPoint, ...]:
    return tuple(GroundPoint(along_mm=x, across_mm=y, level_mm=z) for x, y, z in places)


def sides(ring: Ring, house: tuple[int, ...] = (1,)) -> list[GroundSide]:
    names = [f"E{n or len(ring)}-E{n + 1}" for n in range(len(ring))]
    ends = zip(names, ring, (*ring[1:], ring[0]), strict=True)
    return [
        GroundSide(corner=name, start_mm=start, end_mm=end, house=n in house)
        for n, (name, start, end) in enumerate(ends, start=1)
    ]


def box(along: float, across: float) -> Ring:
    return ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))


#: An L round a house's corner: 3 x 2 in front of it, and a wing of 2 x 3 beside it, behind 0.
WING: Ring = ((0, 0), (3000, 0), (3000, -3000), (5000, -3000), (5000, 2000), (0, 2000))

SPOTS = st.tuples(st.integers(-2000, 8000), st.integers(-2000, 8000), st.integers(-300, 300))
SIZES = st.integers(1000, 6000).map(float)


@given(st.lists(SPOTS, min_size=3, max_size=7, unique_by=lambda p: p[:2]), SIZES, SIZES)
def test_a_rectangle_lies_on_the_ground_as_ever(
    places: list[tuple[int, int, int]], along: float, across: float
) -> None:
    told = points(*places)
    old, new = ground_under(told, along, across), ground_within(told, sides(box(along, across)))
    assert (old is None) == (new is None)
    if old is None or new is None:
        return
    for name in ("most_mm", "least_mm", "edge_least_mm", "fall_to_house_mm"):
        assert getattr(old, name) == getattr(new, name)
    assert len(old.beyond) == len(new.beyond)


def test_a_wing_by_hand() -> None:
    """Ground 0.01 x (along + 2 across): at the corners 0, 30, -30, -10, 90, 40 in turn.

    House sides are E1 (0,0)-(3000,0) and E2 (3000,0)-(3000,-3000). Corners away from both:
    (5000,-3000) at -10, nearest wall (3000,-3000) at -30: 20. (5000,2000) at 90, nearest (3000,0)
    at 30: 60. (0,2000) at 40, nearest (0,0) at 0: 40. The most is 60.
    """
    square = [(-1000, -4000), (6000, -4000), (6000, 3000), (-1000, 3000)]
    told = points(*((x, y, 0.01 * (x + 2 * y)) for x, y in square))
    ground = ground_within(told, sides(WING, (1, 2)))
    assert ground is not None
    assert (ground.most_mm, ground.least_mm, ground.edge_least_mm) == (90.0, -30.0, -30.0)
    assert ground.fall_to_house_mm == 60.0
    assert ground.beyond == ()


def test_a_mound_in_the_notch_is_not_under_the_deck() -> None:
    """A point 500 high at (1000, -1500), behind the house line, where the L is not."""
    square = ((-1000, -4000), (6000, -4000), (6000, 3000), (-1000, 3000))
    flat = points(*((x, y, 0) for x, y in square), (1000, -1500, 500))
    ground = ground_within(flat, sides(WING, (1, 2)))
    whole = ground_within(flat, sides(((0, -3000), (5000, -3000), (5000, 2000), (0, 2000))))
    assert ground is not None
    assert whole is not None
    assert whole.most_mm == 500.0
    assert ground.most_mm < 500.0


def test_a_hollow_within_and_along_an_edge() -> None:
    """A point 80 low inside, and one 20 low on a side: the edge's least is that on the side."""
    square = ((0, 0), (4000, 0), (4000, 4000), (0, 4000))
    told = points(*((x, y, 0) for x, y in square), (2000, 2000, -80), (4000, 2000, -20))
    ground = ground_within(told, sides(square))
    assert ground is not None
    assert (ground.least_mm, ground.edge_least_mm) == (-80.0, -20.0)


def test_an_outline_without_a_house_falls_to_none() -> None:
    told = points((0, 0, 0), (4000, 0, 0), (0, 4000, 100))
    ground = ground_within(told, sides(box(4000.0, 4000.0), ()))
    assert ground is not None
    assert ground.fall_to_house_mm == 0.0


def test_a_corner_far_from_all_points_is_named() -> None:
    told = points((0, 0, 0), (1000, 0, 0), (0, 1000, 10))
    ground = ground_within(told, sides(WING, (1, 2)))
    assert ground is not None
    assert "E3-E4" in ground.beyond
    assert nearest_corner(told, sides(WING, (1, 2))) == ("E6-E1", 0.0)


@given(st.lists(SPOTS, min_size=4, max_size=8, unique_by=lambda p: p[:2]))
def test_darts_never_go_beyond_the_ground_told(places: list[tuple[int, int, int]]) -> None:
    told = points(*places)
    ground, survey = ground_within(told, sides(WING, (1, 2))), survey_of(told)
    if ground is None or survey is None:
        return
    ring = tuple((exact(x), exact(y)) for x, y in WING)
    throw = random.Random(6)
    for _ in range(60):
        dart = (throw.randrange(5001) * 320, throw.randrange(-3000, 2001) * 320)
        if inside(ring, dart) < 0:
            continue
        for level in levels_on(survey, dart):
            assert exact(ground.least_mm) <= level <= exact(ground.most_mm)
            assert isinstance(level, Fraction)
