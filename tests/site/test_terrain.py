"""The ground between points: planes by hand, folds, hollows, and laws."""

from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.audit.terrain import terrain
from drylay.brief.model import GroundPoint
from drylay.marks import exact
from drylay.site.terrain import Ground, ground_under


def points(*places: tuple[float, float, float]) -> tuple[GroundPoint, ...]:
    return tuple(
        GroundPoint(along_mm=float(x), across_mm=float(y), level_mm=float(z)) for x, y, z in places
    )


def ground(*places: tuple[float, float, float], size: tuple[float, float] = (4000, 2000)) -> Ground:
    found = ground_under(points(*places), *size)
    assert found is not None
    return found


def test_a_plane_through_three_far_points_by_hand() -> None:
    # level = -x / 100 - y / 50 through (0,0), (8000,0), (0,8000): whole cover inside.
    found = ground((0, 0, 0), (8000, 0, -80), (0, 8000, -160))
    assert found.most_mm == 0.0
    assert found.least_mm == -80.0  # corner (4000, 2000): -40 - 40
    assert found.edge_least_mm == -80.0
    assert found.fall_to_house_mm == -40.0  # front 40 lower than the house at both ends
    assert found.beyond == ()


def test_a_hollow_under_the_middle_is_not_at_the_edges() -> None:
    found = ground((0, 0, 0), (4000, 0, 0), (4000, 2000, 0), (0, 2000, 0), (2000, 1000, -90))
    assert (found.most_mm, found.least_mm, found.edge_least_mm) == (0.0, -90.0, 0.0)


def test_of_two_folds_the_lower_counts_for_the_lowest() -> None:
    # A square from -1000 to 3000 round a cover of 2000 x 2000, whose corners so lie on its two
    # diagonals. Two opposite corners of it at 0, the other two at -100. Folded along the first,
    # that diagonal is at 0; folded along the second, that one is at -100, and with it the
    # cover's corner (2000, 0). The corner (0, 0) is then at -100 x (1/4 + 1/4) = -50; (0, 2000)
    # at -50 by the first fold. Towards the house: left -50 + 50 = 0, right 0 + 100.
    found = ground(
        (-1000, -1000, 0), (3000, -1000, -100), (3000, 3000, 0), (-1000, 3000, -100),
        size=(2000, 2000),
    )  # fmt: skip
    assert (found.most_mm, found.least_mm, found.edge_least_mm) == (0.0, -100.0, -100.0)
    assert found.fall_to_house_mm == 100.0


def test_beyond_the_points_the_nearest_stands_in_and_is_told() -> None:
    found = ground((0, 0, -10), (4000, 0, -20), (0, 1000, -30))
    assert found.beyond == ("front right", "front left")
    assert found.least_mm == -30.0
    near = ground((0, 0, -10), (4000, 0, -20), (0, 1900, -30), (4000, 1900, -30))
    assert near.beyond == ()  # 100 off: as good as at the corner


def test_ground_that_falls_towards_the_house_at_one_end() -> None:
    found = ground((0, 0, -100), (4000, 0, -140), (4000, 2000, -120), (0, 2000, -110))
    assert found.fall_to_house_mm == 20.0  # right: -120 + 140; left: -110 + 100 = -10


def test_points_in_line_tell_nothing() -> None:
    assert ground_under(points((0, 0, 0), (1000, 1000, 5), (2000, 2000, 9)), 4000, 2000) is None
    assert ground_under(points((0, 0, 0), (1000, 0, 5)), 4000, 2000) is None


def test_points_that_are_as_good_as_in_line_tell_nothing() -> None:
    # 299 and 300 mm high; then a sine of about 400 / 23000 = 1 / 57.5, and of 410: 1 / 56.1
    for flat, fine in (
        (points((0, 0, 0), (2400, 0, 5), (1200, 299, 9)),
         points((0, 0, 0), (2400, 0, 5), (1200, 300, 9))),
        (points((0, 0, 0), (23000, 0, 5), (22995, 400, 9)),
         points((0, 0, 0), (23000, 0, 5), (22995, 410, 9))),
    ):  # fmt: skip
        assert ground_under(flat, 2400, 2400) is terrain(flat, 2400, 2400) is None
        assert ground_under(fine, 2400, 2400) is not None
        assert terrain(fine, 2400, 2400) is not None


PLACE = st.tuples(st.integers(-9000, 9000), st.integers(-700, 700), st.just(0))


@settings(max_examples=200, deadline=None)
@given(st.lists(PLACE, min_size=3, max_size=4, unique_by=lambda place: place[:2]))
def test_the_auditor_knows_the_same_lines(places: list[tuple[float, float, float]]) -> None:
    found, again = (each(points(*places), 4000, 2000) for each in (ground_under, terrain))
    assert (found is None) is (again is None)


STEP = st.integers(-12, 40).map(lambda n: n * 250.0)
PLACES = st.lists(
    st.tuples(STEP, STEP, st.integers(-8000, 8000).map(lambda z: z / 16)),
    min_size=3, max_size=8, unique_by=lambda place: place[:2],
)  # fmt: skip
SIZE = st.integers(2, 36).map(lambda n: n * 250.0)


@settings(max_examples=150, deadline=None)
@given(PLACES, SIZE, SIZE)
def test_the_auditor_measures_the_same_ground(
    places: list[tuple[float, float, float]], along: float, across: float
) -> None:
    found = ground_under(points(*places), along, across)
    again = terrain(points(*places), along, across)
    if found is None or again is None:
        assert found is None
        assert again is None
        return
    assert found.most_mm * 320 == again.most
    assert found.least_mm * 320 == again.least
    assert found.edge_least_mm * 320 == again.edge_least
    assert found.fall_to_house_mm * 320 == again.fall_to_house
    assert found.beyond == again.beyond


@settings(max_examples=100, deadline=None)
@given(PLACES, SIZE, SIZE)
def test_ground_lies_between_the_points_and_no_measured_point_is_left_out(
    places: list[tuple[float, float, float]], along: float, across: float
) -> None:
    found = ground_under(points(*places), along, across)
    if found is None:
        return
    levels = [z for _, _, z in places]
    assert min(levels) <= found.least_mm <= found.edge_least_mm <= found.most_mm <= max(levels)
    inside = [z for x, y, z in places if 0 <= x <= along and 0 <= y <= across]
    assert all(found.least_mm <= z <= found.most_mm for z in inside)


@settings(max_examples=100, deadline=None)
@given(PLACES, SIZE, SIZE, st.integers(-500, 500))
def test_a_shift_of_the_datum_shifts_the_ground(
    places: list[tuple[float, float, float]], along: float, across: float, by: int
) -> None:
    found = ground_under(points(*places), along, across)
    moved = ground_under(points(*((x, y, z + by) for x, y, z in places)), along, across)
    if found is None or moved is None:
        assert found is moved is None
        return
    assert exact(moved.least_mm) == exact(found.least_mm) + 320 * by
    assert moved.fall_to_house_mm == found.fall_to_house_mm
