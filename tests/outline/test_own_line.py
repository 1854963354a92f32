"""The deck's own line: laws of turning first, then lines worked by hand."""

from math import cos, hypot, radians, sin

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.brief.outline_model import (
    FieldWish,
    OpeningWish,
    OutlinePoint,
    OutlineWish,
    WallReading,
)
from drylay.outline.sides import corners_of, outline_of
from drylay.own_line import field_on_own_line, opening_on_own_line, own_line_deg, turned_back
from drylay.rings import twice_area
from outline.shapes_drawn import loop_of, pointed, sums, wishes

Place = tuple[float, float]
degrees_off = st.floats(-44.5, 44.5).filter(lambda deg: abs(deg) > 0.2)


def askew(wish: OutlineWish, deg: float, *, whole: bool = False) -> OutlineWish:
    """The same corners measured from a line turned by so much, to whole mm where asked."""
    cosine, sine = cos(radians(deg)), sin(radians(deg))
    places = [
        (each.along_mm * cosine - each.across_mm * sine,
         each.along_mm * sine + each.across_mm * cosine) for each in wish.points
    ]  # fmt: skip
    if whole:
        places = [(float(round(x)), float(round(y))) for x, y in places]
    return evolve(wish, points=tuple(
        evolve(each, along_mm=x, across_mm=y)
        for each, (x, y) in zip(wish.points, places, strict=True)
    ))  # fmt: skip


def drawn(*places: Place, house: int = -1) -> OutlineWish:
    return OutlineWish(points=tuple(
        OutlinePoint(along_mm=x, across_mm=y, side="house" if at == house else "open")
        for at, (x, y) in enumerate(places)
    ))  # fmt: skip


@given(sums(), degrees_off)
def test_a_deck_askew_is_the_same_deck(wish: OutlineWish, deg: float) -> None:
    plain = pointed(loop_of(wish))
    told, other = outline_of(plain, facing_mm=0.0), outline_of(askew(plain, deg), facing_mm=0.0)
    assert corners_of(other) == corners_of(told)
    assert other.turned_deg == pytest.approx(deg, abs=1e-3)
    assert (other.gross_m2, other.perimeter_mm) == (told.gross_m2, told.perimeter_mm)
    assert told.turned_deg == told.moved_mm == 0


@given(sums(), degrees_off)
def test_corners_surveyed_to_whole_mm_are_squared(wish: OutlineWish, deg: float) -> None:
    plain = pointed(loop_of(wish))
    other = outline_of(askew(plain, deg, whole=True), facing_mm=0.0)
    if other.turned_deg == 0:
        return
    assert 0 < other.moved_mm <= 2
    ring = corners_of(other)
    assert all(
        a[0] == b[0] or a[1] == b[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
    )


@given(wishes(), st.floats(-44.5, 44.5))
def test_the_line_turns_with_the_deck(wish: OutlineWish, deg: float) -> None:
    if not wish.points or abs(own_line_deg(wish)) < 0.1:
        return
    off = own_line_deg(askew(wish, deg)) - own_line_deg(wish) - deg
    assert abs((off + 45) % 90 - 45) < 0.2


@given(wishes())
def test_an_area_stays_whichever_way_a_deck_runs(wish: OutlineWish) -> None:
    told = wish if wish.points else pointed(loop_of(wish))
    ring = tuple((each.along_mm, each.across_mm) for each in told.points)
    outline = outline_of(told, facing_mm=0.0)
    # a strip of what corners are moved by, all round
    slack_m2 = (outline.moved_mm + 0.01) * outline.perimeter_mm / 1e6 + 1e-9
    assert outline.gross_m2 == pytest.approx(abs(twice_area(ring)) / 2e6, abs=slack_m2)


def test_a_deck_along_the_long_side_of_a_3_4_5_triangle() -> None:
    """5000 x 2500 along (4, 3): its corners on whole mm; atan(3 / 4) is 36.8699 degrees."""
    outline = outline_of(drawn((0, 0), (4000, 3000), (2500, 5000), (-1500, 2000)), facing_mm=0.0)
    assert outline.turned_deg == pytest.approx(36.8699, abs=1e-4)
    corners = [(side.start.along_mm, side.start.across_mm) for side in outline.sides]
    assert corners == [(0, 0), (5000, 0), (5000, 2500), (0, 2500)]
    assert outline.moved_mm == pytest.approx(0, abs=0.004)


def test_a_house_side_counts_twice() -> None:
    """A triangle: the house's side of 4000 counts 8000, the longest of the others is 4393."""
    cosine, sine = cos(radians(20)), sin(radians(20))
    wedge = [(0, 0), (4000, 0), (3300, 2900)]
    turned = [(x * cosine - y * sine, x * sine + y * cosine) for x, y in wedge]
    assert own_line_deg(drawn(*turned, house=0)) == pytest.approx(20, abs=1e-3)
    # nobody's house: the longest of the three speaks, from (0, 0) to (3300, 2900)
    assert hypot(3300, 2900) > 4000
    assert own_line_deg(drawn(*turned)) == pytest.approx(20 + 41.3085 - 90, abs=1e-3)


def test_rectangles_and_walls_that_were_read_keep_the_briefs_line() -> None:
    turned = drawn((0, 0), (4000, 3000), (2500, 5000), (-1500, 2000))
    read = evolve(turned, wall=(WallReading(along_mm=0.0, off_mm=0.0),))
    assert own_line_deg(read) == 0
    assert own_line_deg(OutlineWish()) == 0


def test_places_turn_and_sizes_stay() -> None:
    hatch = OpeningWish(kind="hatch", along_mm=4000.0, across_mm=3000.0, size_along_mm=450.0,
                        size_across_mm=600.0)  # fmt: skip
    deg = 36.86989764584402
    found = opening_on_own_line(hatch, deg)
    assert (found.along_mm, found.across_mm) == (5000.0, 0.0)
    assert (found.size_along_mm, found.size_across_mm) == (450.0, 600.0)
    field = FieldWish(from_along_mm=-1500.0, from_across_mm=2000.0, along_mm=1000.0,
                      across_mm=800.0, angle_deg=30.0)  # fmt: skip
    moved = field_on_own_line(field, deg)
    assert (moved.from_along_mm, moved.from_across_mm) == (0.0, 2500.0)
    assert (moved.along_mm, moved.across_mm, moved.angle_deg) == (1000.0, 800.0, 30.0)
    assert turned_back((5000 * 320, 0), deg) == (4000 * 320, 3000 * 320)
