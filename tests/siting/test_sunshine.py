"""Shadows and sun on a deck: sums by hand, and laws."""

from math import radians, tan

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.geometry import area_of, bounds
from drylay.siting.changes import changed
from drylay.siting.model import Caster, Garden, SunPosition, Tree
from drylay.siting.shadows import (
    casters_of,
    cover_of,
    in_sun,
    shade,
    shadow_mm,
    shadow_of,
    shadow_way,
    sunny_ratio,
)
from drylay.siting.sunshine import ask_sun, hours_of, shades, spot_sun_h, sunshine
from siting.gardens import JUNE, place, ring, whole_garden


def sun(altitude: float, azimuth: float) -> SunPosition:
    return SunPosition(
        altitude_deg=altitude, azimuth_deg=azimuth, declination_deg=0.0, hour_angle_deg=0.0,
        equation_h=0.0,
    )  # fmt: skip


WALL = Caster(name="wall", corners_mm=ring(0, 0, 4000, 200), height_mm=2000)


def test_a_shadow_by_hand() -> None:
    """The sun due south (180), 45 degrees up; along runs due east, so across runs due south.

    Shadows fall north, towards the house: a wall 2000 high over a level at 500 throws 1500 x
    1 / tan(45) = 1500: from across 200 to across -1500, 4000 long: 4000 x 1700 mm2.
    """
    dark = shadow_of(WALL, sun(45, 180), 90.0, 500.0)
    assert dark is not None
    assert bounds(dark) == pytest.approx((0, -1500, 4000, 200), abs=1e-6)
    assert area_of(dark) == pytest.approx(4000 * 1700, rel=1e-9)
    assert shadow_way(sun(45, 180), 90.0) == pytest.approx((0, -1), abs=1e-12)
    # evening sun due west: shadows fall east, along to the right
    assert shadow_way(sun(45, 270), 90.0) == pytest.approx((1, 0), abs=1e-12)
    assert shadow_way(sun(45, 270), 0.0) == pytest.approx((0, 1), abs=1e-12)


def test_half_a_deck_in_shade_by_hand() -> None:
    """As above, but the deck 4000 x 3000 lies with its front on the wall: 1500 of 3000 are dark."""
    dark = shade([WALL], sun(45, 180), 90.0, 500.0)
    deck = place(along_mm=0.0, across_mm=-3000.0, top_mm=500.0)
    assert sunny_ratio(cover_of(deck), dark) == pytest.approx(0.5)
    assert in_sun((2000.0, -2000.0), dark)
    assert not in_sun((2000.0, -1000.0), dark)
    assert not in_sun((2000.0, -1500.0), dark)  # on the edge: no sun


def test_what_hangs_over_throws_its_shadow_away_from_its_foot() -> None:
    """A crown from 1000 to 3000 over the level, sun 45 degrees: shade from 1000 to 3000 + 2000."""
    roof = evolve(WALL, corners_mm=ring(0, 0, 1000, 2000), height_mm=3000, clear_mm=1000)
    dark = shadow_of(roof, sun(45, 180), 90.0, 0.0)
    assert dark is not None
    assert bounds(dark) == pytest.approx((0, -3000, 1000, 1000), abs=1e-6)
    tree = Tree(name="t", at_mm=(0, 0), stem_mm=200, height_mm=3000, crown_mm=2000, clear_mm=1000)
    (crown,) = casters_of(Garden(trees=(tree,)))
    assert (crown.height_mm, crown.clear_mm) == (3000, 1000)
    # drawn outside of its circle: never less shade than there is
    wide = area_of(cover_of(place(size_along_mm=2000.0, size_across_mm=2000.0)))
    assert area_of(shadow_of(crown, sun(89.9, 180), 90.0, 2999.0)) > 0.785 * wide * 0.9999  # type: ignore[arg-type]
    assert casters_of(Garden(trees=(evolve(tree, crown_mm=None),))) == ()


def test_a_low_wall_and_a_low_sun_throw_none() -> None:
    assert shadow_of(WALL, sun(45, 180), 90.0, 2000.0) is None
    assert shadow_of(WALL, sun(0.4, 180), 90.0, 0.0) is None
    assert shade([], sun(-3, 180), 90.0, 0.0) is None
    assert sunny_ratio(cover_of(place()), None) == 0.0
    assert sunny_ratio(cover_of(place()), shade([], sun(20, 100), 90.0, 0.0)) == 1.0


def test_a_fence_throws_a_slanting_shadow() -> None:
    """A line 4000 long, 1000 high, sun 45 degrees from the south-west: a rhomboid.

    Shadow 1000 x cos(45) along and as much towards the house: area 4000 x 707.1.
    """
    line = Caster(name="f", corners_mm=((0, 0), (4000, 0)), height_mm=1000)
    dark = shadow_of(line, sun(45, 225), 90.0, 0.0)
    assert dark is not None
    assert area_of(dark) == pytest.approx(4000 * 1000 * 0.5**0.5, rel=1e-6)


ANGLES = st.floats(5, 80)


@given(height=st.floats(1, 20_000), altitude=ANGLES, times=st.floats(1, 9))
def test_a_shadow_grows_as_its_caster(height: float, altitude: float, times: float) -> None:
    assert shadow_mm(height * times, altitude) == pytest.approx(times * shadow_mm(height, altitude))
    assert shadow_mm(height, altitude) * tan(radians(altitude)) == pytest.approx(height)


@settings(max_examples=40)
@given(
    altitude=ANGLES, azimuth=st.floats(0, 360), bearing=st.floats(0, 360),
    more=st.floats(0, 2000), level=st.floats(-500, 1500),
)  # fmt: skip
def test_shares_lie_between_nothing_and_all_and_fall_as_walls_grow(
    altitude: float, azimuth: float, bearing: float, more: float, level: float
) -> None:
    here, deck = sun(altitude, azimuth), cover_of(place(along_mm=300.0, across_mm=400.0))
    low = sunny_ratio(deck, shade([WALL], here, bearing, level))
    tall = evolve(WALL, height_mm=WALL.height_mm + more)
    high = sunny_ratio(deck, shade([tall], here, bearing, level))
    assert 0 <= high <= low + 1e-9 <= 1 + 2e-9


def test_hours_are_asked_in_the_middle_of_equal_steps() -> None:
    """17 to 20 in steps of 10 minutes: 18 of them, the first in the middle at 17:05."""
    step, hours = hours_of(JUNE)
    assert (step, len(hours)) == (pytest.approx(1 / 6), 18)
    assert hours[0] == pytest.approx(17 + 5 / 60)
    assert hours[-1] == pytest.approx(20 - 5 / 60)


def test_an_open_garden_has_all_the_sun_there_is() -> None:
    bare = Garden(meridian=whole_garden().meridian, along_bearing_deg=90.0, hours=(JUNE,))
    dark = shades(bare, 0.0)
    (day,) = sunshine(dark, place())
    assert (day.sun_h, day.share_ratio) == (3.0, 1.0)
    assert spot_sun_h(dark, (0.0, 0.0)) == 3.0
    assert ask_sun(bare, place()).good


def test_a_night_has_no_sun() -> None:
    night = evolve(JUNE, from_h=0.0, to_h=2.0)
    bare = Garden(meridian=whole_garden().meridian, along_bearing_deg=90.0, hours=(night,))
    answer = ask_sun(bare, place())
    assert [found.code for found in answer.findings] == ["PLC-002"]
    assert answer.changes[0].kind == "find out"
    assert spot_sun_h(shades(bare, 0.0), (0.0, 0.0)) == 0.0


def test_the_nearest_place_with_more_sun_has_it_and_a_nearer_one_has_not() -> None:
    garden = whole_garden()
    answer = ask_sun(garden, place())
    (change,) = answer.changes
    assert (change.kind, change.across_mm) == ("move", 0.0)
    assert ask_sun(*changed(garden, place(), change)).good
    short = evolve(change, along_mm=change.along_mm - 10)
    assert not ask_sun(*changed(garden, place(), short)).good


@pytest.mark.parametrize(
    "told", [{"hours": ()}, {"meridian": None}, {"along_bearing_deg": None}]
)  # fmt: skip
def test_without_place_and_hours_the_sun_is_not_asked(told: dict[str, object]) -> None:
    answer = ask_sun(evolve(whole_garden(), **told), place())
    assert (answer.good, answer.findings[0].code) == (True, "PLC-003")
