"""How much sun a place has at the hours that matter, and the nearest place with more."""

from collections.abc import Sequence
from datetime import date
from math import ceil

from attrs import evolve, frozen

from drylay.findings import Finding
from drylay.geometry import Place, Region
from drylay.siting.model import (
    Answer,
    DeckPlace,
    Garden,
    SitingChange,
    SunHours,
    Sunshine,
)
from drylay.siting.near import keeps, never
from drylay.siting.shadows import casters_of, cover_of, in_sun, shade, sunny_ratio
from drylay.siting.sun import ALMANAC, sun_at
from drylay.siting.told import (
    CAUTION,
    NOTE,
    answered,
    finding_out,
    move_change,
    ratio_least,
    told,
)

#: The sun is asked about in the middle of every so many minutes, which stand for all of them.
STEP_H = 1 / 6
#: A place with more sun is looked for so far off, along and across, in such steps, and then drawn
#: in to a step's finer part. Assumption.
LOOK_MM, LOOK_STEP_MM, FINE_MM = 6000.0, 250.0, 10.0


@frozen(kw_only=True)
class Shade:
    """What lies in shade on a level at each of a day's hours; None where the sun is down."""

    day: date
    step_h: float
    hours_h: tuple[float, ...]
    shaded: tuple[Region | None, ...]


def hours_of(when: SunHours) -> tuple[float, tuple[float, ...]]:
    """Return the step, and the middles of equal steps that fill the hours that matter."""
    count = max(1, ceil(round((when.to_h - when.from_h) / STEP_H, 6)))
    step_h = (when.to_h - when.from_h) / count
    return step_h, tuple(when.from_h + (at + 0.5) * step_h for at in range(count))


def shades(garden: Garden, level_mm: float) -> tuple[Shade, ...]:
    """Return what is in shade on a level at the hours that matter; () where that is not known.

    Source: ALMANAC; geometry.
    """
    if garden.meridian is None or garden.along_bearing_deg is None:
        return ()
    casters = casters_of(garden)
    found = []
    for when in garden.hours:
        step_h, hours = hours_of(when)
        suns = [sun_at(garden.meridian, when.day, hour) for hour in hours]
        shaded = tuple(shade(casters, sun, garden.along_bearing_deg, level_mm) for sun in suns)
        found.append(Shade(day=when.day, step_h=step_h, hours_h=hours, shaded=shaded))
    return tuple(found)


def level_of(garden: Garden, place: DeckPlace) -> float:
    """Return the level that the sun is asked about: some way over a deck's top."""
    return place.top_mm + garden.sun_over_mm


def sunshine(shaded: Sequence[Shade], place: DeckPlace) -> tuple[Sunshine, ...]:
    """Return what a place gets of the sun on each day; hours and shares never rounded up."""
    cover = cover_of(place)
    found = []
    for day in shaded:
        shares = tuple(sunny_ratio(cover, dark) for dark in day.shaded)
        found.append(
            Sunshine(
                day=day.day,
                sun_h=ratio_least(sum(shares) * day.step_h),
                share_ratio=ratio_least(sum(shares) / len(shares)),
                hours_h=tuple(round(hour, 4) for hour in day.hours_h),
                shares_ratio=tuple(ratio_least(share) for share in shares),
            )
        )
    return tuple(found)


def spot_sun_h(shaded: Sequence[Shade], spot_mm: Place) -> float:
    """Return the hours of sun that one place gets over all the hours that matter."""
    lit = sum(in_sun(spot_mm, dark) * day.step_h for day in shaded for dark in day.shaded)
    return ratio_least(lit)


def worst(shaded: Sequence[Shade], place: DeckPlace) -> Sunshine:
    """Return the day with the least share of sun, the first of equal ones."""
    return min(sunshine(shaded, place), key=lambda day: day.share_ratio)


def ask_sun(garden: Garden, place: DeckPlace, shaded: Sequence[Shade] | None = None) -> Answer:
    """Return whether a place has sun enough on every day that matters, and the nearest that has.

    Args:
        shaded: What `shades` answers for this garden and level, where that is known already.

    Source: ALMANAC; geometry; how much is enough is the garden's own wish.
    """
    if not garden.hours:
        return answered("sun", "sun", [_unasked("no hours are told at which the sun matters")])
    if garden.meridian is None or garden.along_bearing_deg is None:
        message = "latitude, longitude or the bearing that along runs in is not told"
        return answered("sun", "sun", [_unasked(message)])
    dark = shades(garden, level_of(garden, place)) if shaded is None else shaded
    day = worst(dark, place)
    if day.share_ratio >= garden.sun_least_ratio:
        return answered("sun", "sun", [_sun(garden, day, "PLC-001", "sun enough")])
    found = _sun(garden, day, "PLC-002", "less sun than is wished")
    return answered("sun", "sun", [found], [_sunnier(garden, place, dark)])


def _unasked(message: str) -> Finding:
    return told("PLC-003", NOTE, "sun", message)


def _sun(garden: Garden, day: Sunshine, code: str, what: str) -> Finding:
    clock = garden.meridian is not None and garden.meridian.utc_offset_h is not None
    kind = "of the clock" if clock else "of solar time"
    message = (
        f"{what} on {day.day.isoformat()}: {day.sun_h:g} h of the whole deck, "
        f"mean share over the hours {kind}"
    )
    severity = NOTE if day.share_ratio >= garden.sun_least_ratio else CAUTION
    figures = (day.share_ratio, garden.sun_least_ratio, "")
    return told(code, severity, "sun", message, figures, ALMANAC)


def _sunnier(garden: Garden, place: DeckPlace, dark: Sequence[Shade]) -> SitingChange:
    """Return the nearest shift along or across that has sun enough, verified."""
    for far in range(1, int(LOOK_MM / LOOK_STEP_MM) + 1):
        for way in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            if _good(garden, dark, _at(place, way, far * LOOK_STEP_MM)):
                return move_change(way, _drawn_in(garden, dark, place, way, far * LOOK_STEP_MM))
    text = f"no place within {LOOK_MM / 1000:g} m along or across has so much sun"
    return finding_out("sun", f"{text}: lower what throws the shade, or choose other hours")


def _drawn_in(
    garden: Garden, dark: Sequence[Shade], place: DeckPlace, way: tuple[int, int], far_mm: float
) -> float:
    """Return the first finer step past the last coarse one that is good."""
    steps = int(LOOK_STEP_MM / FINE_MM)
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        at_mm = far_mm - LOOK_STEP_MM + middle * FINE_MM
        low, high = (low, middle) if _good(garden, dark, _at(place, way, at_mm)) else (middle, high)
    return far_mm - LOOK_STEP_MM + high * FINE_MM


def _at(place: DeckPlace, way: tuple[int, int], far_mm: float) -> DeckPlace:
    return evolve(
        place,
        along_mm=place.along_mm + way[0] * far_mm,
        across_mm=place.across_mm + way[1] * far_mm,
    )


def _good(garden: Garden, dark: Sequence[Shade], place: DeckPlace) -> bool:
    """Whether a place lies on the plot, in no building, and has sun enough on every day."""
    if not all(keeps(place, thing) for thing in never(garden)):
        return False
    return all(day.share_ratio >= garden.sun_least_ratio for day in sunshine(dark, place))
