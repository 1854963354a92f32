"""Where the sun stands, in closed form.

Source of declination and equation of time: United States Naval Observatory, "Computing Approximate
Solar Coordinates" (the low-precision formulae of the Astronomical Almanac): about 1 minute of arc
from 1800 to 2200. Altitude and azimuth by the spherical triangle (geometry). Neither refraction nor
parallax is in it: the air lifts a sun at the horizon by 34 minutes of arc, one 10 degrees up by 5
(from memory). All in all an altitude above 5 degrees is good to 0.2 degrees, which moves the end of
a shadow by 4 % at 10 degrees and by 1 % at 45.
"""

from datetime import date
from math import acos, asin, atan2, cos, degrees, radians, sin

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.reasons import Source
from drylay.siting.model import Daylight, Meridian, SunPosition

ALMANAC = Source(
    kind="handbook",
    title="United States Naval Observatory, Computing Approximate Solar Coordinates",
    clause="declination, equation of time; good to 1 minute of arc",
)
#: Noon of 1 January 2000, universal time, as a count of days. Source: as above.
EPOCH = date(2000, 1, 1).toordinal() + 0.5
#: The sun's middle at sunrise as tables have it: its upper edge on the horizon, lifted by the air.
#: From memory: 34 minutes of refraction and 16 of the sun's own half.
HORIZON_DEG = -50 / 60
#: A day turns the sun by 15 degrees an hour.
TURN_DEG = 15.0


def sun_coordinates(day: date, universal_h: float) -> tuple[float, float]:
    """Return the sun's declination in degrees and the equation of time in hours.

    Source: ALMANAC.
    """
    days = day.toordinal() + universal_h / 24 - EPOCH
    anomaly = radians((357.529 + 0.98560028 * days) % 360)
    mean_deg = (280.459 + 0.98564736 * days) % 360
    longitude = radians(mean_deg + 1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly))
    tilt = radians(23.439 - 0.00000036 * days)
    ascension_deg = degrees(atan2(cos(tilt) * sin(longitude), cos(longitude)))
    ahead_deg = (mean_deg - ascension_deg + 180) % 360 - 180
    return degrees(asin(sin(tilt) * sin(longitude))), ahead_deg / TURN_DEG


def altitude_azimuth(
    latitude_deg: float, declination_deg: float, hour_angle_deg: float
) -> tuple[float, float]:
    """Return altitude, and bearing clockwise from true north, both in degrees.

    Source: spherical geometry.
    """
    lat, dec, turn = (radians(a) for a in (latitude_deg, declination_deg, hour_angle_deg))
    up = sin(lat) * sin(dec) + cos(lat) * cos(dec) * cos(turn)
    north = cos(lat) * sin(dec) - sin(lat) * cos(dec) * cos(turn)
    east = -cos(dec) * sin(turn)
    return degrees(asin(max(-1.0, min(1.0, up)))), degrees(atan2(east, north)) % 360


@counted
def sun_at(meridian: Meridian, day: date, hour_h: float) -> SunPosition:
    """Return where the sun stands at an hour of a day.

    The hour is the clock's where the meridian tells longitude and `utc_offset_h`, else solar time;
    then a longitude left out is taken as 0, which moves the declination by 0.2 degrees at most.

    Raises:
        InputError: Latitude or longitude is none, or an offset is told without longitude.

    Source: ALMANAC; spherical geometry.
    """
    _check(meridian)
    east_h = (meridian.longitude_deg or 0.0) / TURN_DEG
    if meridian.utc_offset_h is None:
        universal_h, solar_h = hour_h - east_h, hour_h
        declination, equation = sun_coordinates(day, universal_h)
    else:
        universal_h = hour_h - meridian.utc_offset_h
        declination, equation = sun_coordinates(day, universal_h)
        solar_h = universal_h + east_h + equation
    turn_deg = (TURN_DEG * (solar_h - 12) + 180) % 360 - 180
    altitude, azimuth = altitude_azimuth(meridian.latitude_deg, declination, turn_deg)
    return SunPosition(
        altitude_deg=altitude,
        azimuth_deg=azimuth,
        declination_deg=declination,
        hour_angle_deg=turn_deg,
        equation_h=equation,
    )


def _check(meridian: Meridian) -> None:
    faults = [
        Fault(path=path, found=f"{value:g}", wanted=f"-{most} to {most} degrees")
        for path, value, most in (
            ("latitude_deg", meridian.latitude_deg, 90),
            ("longitude_deg", meridian.longitude_deg, 180),
        )
        if value is not None and not -most <= value <= most
    ]
    if meridian.utc_offset_h is not None and meridian.longitude_deg is None:
        wanted = "a longitude beside utc_offset_h, or hours of solar time without it"
        faults.append(Fault(path="longitude_deg", found="nothing", wanted=wanted))
    if faults:
        raise InputError(tuple(faults))


def daylight(meridian: Meridian, day: date, *, horizon_deg: float = HORIZON_DEG) -> Daylight:
    """Return when the sun rises and sets in solar time, within 2 minutes up to 60 degrees north.

    The declination is that of solar noon. Where the sun stays up or down all day, no hour is told,
    and the day is 24 h or 0 h long.

    Args:
        horizon_deg: The altitude of the sun's middle at rise and set; 0 leaves out air and disc.

    Raises:
        InputError: Latitude or longitude is none.

    Source: ALMANAC; cos(hour angle) = (sin h - sin lat sin dec) / (cos lat cos dec), geometry.
    """
    _check(meridian)
    universal_h = 12 - (meridian.longitude_deg or 0.0) / TURN_DEG
    declination, _ = sun_coordinates(day, universal_h)
    noon_deg = 90 - abs(meridian.latitude_deg - declination)
    half_h = half_day_h(meridian.latitude_deg, declination, horizon_deg=horizon_deg)
    if half_h in {0.0, 12.0}:
        kind = "never rises" if half_h == 0 else "never sets"
        return Daylight(kind=kind, rise_h=None, set_h=None, length_h=2 * half_h, noon_deg=noon_deg)
    return Daylight(
        kind="rises and sets",
        rise_h=12 - half_h,
        set_h=12 + half_h,
        length_h=2 * half_h,
        noon_deg=noon_deg,
    )


def half_day_h(latitude_deg: float, declination_deg: float, *, horizon_deg: float = 0.0) -> float:
    """Return the hours from sunrise to noon: 0 where it never rises, 12 where it never sets.

    Source: geometry.
    """
    lat, dec = radians(latitude_deg), radians(declination_deg)
    over = sin(radians(horizon_deg)) - sin(lat) * sin(dec)
    reach = cos(lat) * cos(dec)
    if abs(over) >= reach:
        return 0.0 if over > 0 else 12.0
    return degrees(acos(over / reach)) / TURN_DEG
