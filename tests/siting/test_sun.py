"""The sun: worked values of texts that are not ours, and laws."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.siting.model import Meridian
from drylay.siting.sun import altitude_azimuth, daylight, half_day_h, sun_at, sun_coordinates

DAYS = st.dates(date(2000, 1, 1), date(2099, 12, 31))
LATITUDES = st.floats(-66, 66)


def test_the_worked_example_of_a_published_algorithm() -> None:
    """Reda and Andreas, Solar Position Algorithm, NREL/TP-560-34302, appendix A.5, as quoted.

    17 October 2003, 12:30:30 at UTC - 7, 39.742476 N, 105.1786 W: declination -9.31434, hour
    angle 11.10590, elevation without the air 39.872046, azimuth 194.340241, equation of time
    14.641503 minutes. Ours promise 1 minute of arc for declination, and 0.2 degrees in all.
    """
    place = Meridian(latitude_deg=39.742476, longitude_deg=-105.1786, utc_offset_h=-7)
    sun = sun_at(place, date(2003, 10, 17), 12 + 30 / 60 + 30 / 3600)
    assert sun.declination_deg == pytest.approx(-9.31434, abs=1 / 60)
    assert sun.hour_angle_deg == pytest.approx(11.10590, abs=1 / 60)
    assert sun.altitude_deg == pytest.approx(39.872046, abs=1 / 60)
    assert sun.azimuth_deg == pytest.approx(194.340241, abs=1 / 60)
    assert sun.equation_h * 60 == pytest.approx(14.641503, abs=0.1)


def test_a_textbook_of_astronomy() -> None:
    """Meeus, Astronomical Algorithms, examples 25.a and 28.a, as quoted: 13 October 1992, 0 h.

    Apparent declination -7.78507 degrees; equation of time 13 minutes 42.6 seconds.
    """
    declination, equation_h = sun_coordinates(date(1992, 10, 13), 0.0)
    assert declination == pytest.approx(-7.78507, abs=1 / 60)
    assert equation_h * 60 == pytest.approx(13 + 42.6 / 60, abs=0.1)


@pytest.mark.parametrize(
    ("latitude", "declination", "turn", "altitude", "azimuth"),
    [
        # a textbook's example as quoted (from memory Kalogirou, Solar Energy Engineering, chapter
        # 2): 40 N, 15 June, 2 h after noon; 59.75 degrees up
        (40, 23.35, 30, 59.75, None),
        # University of Illinois, ECE 333, homework 6 with solutions: azimuths told from south
        (30, -8.3, -30, 42.1, 180 - 41.8),
        (38, 23.1, 75, 25.4, 180 + 100.4),
        (68, -23.45, -15, -2.12, 180 - 13.75),
    ],
)
def test_altitude_and_azimuth_of_texts(
    latitude: float, declination: float, turn: float, altitude: float, azimuth: float | None
) -> None:
    found = altitude_azimuth(latitude, declination, turn)
    assert found[0] == pytest.approx(altitude, abs=0.05)
    assert azimuth is None or found[1] == pytest.approx(azimuth, abs=0.1)


def test_a_day_of_a_text() -> None:
    """The same textbook: 40 N, declination 23.35: 14.83 h, from 4:36 to 7:24 by the sun."""
    half = half_day_h(40, 23.35)
    assert 2 * half == pytest.approx(14.83, abs=0.005)
    assert 12 - half == pytest.approx(4.6, abs=0.02)


def test_clock_and_sun_of_a_text() -> None:
    """Duffie and Beckman, example 1.5.1, as quoted: Madison, 89.4 W, 3 February, 10:30 central.

    Solar time is 10:19; their equation of time is -13.5 minutes, by a series for all years.
    """
    place = Meridian(latitude_deg=43, longitude_deg=-89.4, utc_offset_h=-6)
    sun = sun_at(place, date(2026, 2, 3), 10.5)
    assert 12 + sun.hour_angle_deg / 15 == pytest.approx(10 + 19 / 60, abs=1 / 60)


@given(latitude=LATITUDES, day=DAYS)
def test_noon_stands_as_high_as_latitude_and_declination_leave(latitude: float, day: date) -> None:
    sun = sun_at(Meridian(latitude_deg=latitude), day, 12.0)
    assert sun.altitude_deg == pytest.approx(90 - abs(latitude - sun.declination_deg), abs=1e-5)
    assert daylight(Meridian(latitude_deg=latitude), day).noon_deg == pytest.approx(
        sun.altitude_deg, abs=1e-5
    )


@given(
    latitude=LATITUDES, declination=st.floats(-23.44, 23.44), turn=st.floats(0, 180)
)  # fmt: skip
def test_morning_and_afternoon_are_alike(latitude: float, declination: float, turn: float) -> None:
    before = altitude_azimuth(latitude, declination, -turn)
    after = altitude_azimuth(latitude, declination, turn)
    assert before[0] == pytest.approx(after[0], abs=1e-9)
    assert (before[1] + after[1]) % 360 == pytest.approx(0, abs=1e-6) or (
        before[1] + after[1]
    ) % 360 == pytest.approx(360, abs=1e-6)


@given(latitude=st.floats(-60, 60), day=DAYS)
def test_the_sun_stands_on_the_horizon_when_it_rises(latitude: float, day: date) -> None:
    place = Meridian(latitude_deg=latitude, longitude_deg=0.0)
    light = daylight(place, day, horizon_deg=0.0)
    assert light.rise_h is not None
    assert light.set_h is not None
    # the declination is that of noon: in a quarter of a day it changes by 0.1 degrees at most
    assert sun_at(place, day, light.rise_h).altitude_deg == pytest.approx(0, abs=0.2)
    assert sun_at(place, day, light.set_h).altitude_deg == pytest.approx(0, abs=0.2)
    assert light.length_h == pytest.approx(light.set_h - light.rise_h)
    air = daylight(place, day)
    assert air.length_h > light.length_h


@given(day=DAYS)
def test_the_equator_has_twelve_hours(day: date) -> None:
    assert daylight(Meridian(latitude_deg=0), day, horizon_deg=0).length_h == pytest.approx(12)


def test_poles_have_days_without_an_end() -> None:
    north = Meridian(latitude_deg=90)
    assert daylight(north, date(2027, 6, 21)).kind == "never sets"
    assert daylight(north, date(2027, 12, 21)).kind == "never rises"
    cape = daylight(Meridian(latitude_deg=71.2), date(2027, 6, 21))
    assert (cape.kind, cape.length_h, cape.rise_h) == ("never sets", 24.0, None)
    assert daylight(Meridian(latitude_deg=-71.2), date(2027, 6, 21)).length_h == 0.0


def test_longitude_moves_solar_time_by_four_minutes_a_degree() -> None:
    """Arithmetic: 24 h / 360. Two meridians 15 degrees apart see the same sun an hour apart."""
    day = date(2027, 6, 21)
    west = sun_at(Meridian(latitude_deg=51, longitude_deg=0, utc_offset_h=0), day, 13.0)
    east = sun_at(Meridian(latitude_deg=51, longitude_deg=15, utc_offset_h=0), day, 12.0)
    assert west.hour_angle_deg == pytest.approx(east.hour_angle_deg, abs=0.01)
    assert west.altitude_deg == pytest.approx(east.altitude_deg, abs=0.02)


def test_what_is_no_place_on_earth_is_refused_with_all_faults() -> None:
    wrong = Meridian(latitude_deg=91, longitude_deg=200)
    with pytest.raises(InputError) as caught:
        sun_at(wrong, date(2027, 1, 1), 12)
    assert [fault.path for fault in caught.value.faults] == ["latitude_deg", "longitude_deg"]
    with pytest.raises(InputError, match="longitude"):
        sun_at(Meridian(latitude_deg=5, utc_offset_h=1), date(2027, 1, 1), 12)
