"""What a drawing of a garden shows, reckoned: shadows at hours, the sun's way, zones to keep."""

from collections.abc import Iterator

from drylay.geometry import (
    Place,
    Region,
    box,
    common,
    near_line,
    parts_of,
    region,
    ring_of,
    within,
)
from drylay.siting.around import SERVICE_MM, root_zone_mm
from drylay.siting.model import (
    DeckPlace,
    Garden,
    Meridian,
    ShadowAt,
    SitePlan,
    SunHours,
    SunPath,
    Zone,
)
from drylay.siting.shadows import casters_of, shade
from drylay.siting.sun import sun_at
from drylay.siting.sunshine import level_of
from drylay.siting.view import corners_of

#: Air round everything that is drawn, and round a place where no plot is told.
AIR_MM, ALONE_MM = 1000.0, 6000.0
#: The sun's way is drawn in so many steps an hour.
STEPS_AN_HOUR = 4


def site_plan(garden: Garden, place: DeckPlace, *, title: str = "") -> SitePlan:
    """Return what a drawing shows of a garden with one place for a deck in it.

    Shadows are those on the deck's level at the begin, the middle and the end of the hours that
    matter on the first day told. Source: as `shadows` and `sun_at`.
    """
    low, high = _extent(garden, place)
    window = box(*low, *high)
    return SitePlan(
        title=title or place.name,
        garden=garden,
        place=place,
        low_mm=low,
        high_mm=high,
        buildings_mm=tuple(
            (caster.name, ring)
            for caster in garden.casters
            if len(caster.corners_mm) > 2
            for ring in _rings(common(region(caster.corners_mm), window))
        ),
        shadows=tuple(_shadows(garden, place, window)),
        paths=tuple(_paths(garden)),
        zones=tuple(_zones(garden, window)),
    )


def _extent(garden: Garden, place: DeckPlace) -> tuple[Place, Place]:
    corners = [*corners_of(place), *garden.plot_mm]
    air = AIR_MM if garden.plot_mm else ALONE_MM
    alongs, acrosses = zip(*corners, strict=True)
    low = (min(alongs) - air, min(acrosses) - air)
    return low, (max(alongs) + air, max(acrosses) + air)


def _rings(area: Region) -> tuple[tuple[Place, ...], ...]:
    return tuple(ring_of(part) for part in parts_of(area))


def _shadows(garden: Garden, place: DeckPlace, window: Region) -> Iterator[ShadowAt]:
    if garden.meridian is None or garden.along_bearing_deg is None or not garden.hours:
        return
    when, casters = garden.hours[0], casters_of(garden)
    for hour in (when.from_h, (when.from_h + when.to_h) / 2, when.to_h):
        sun = sun_at(garden.meridian, when.day, hour)
        dark = shade(casters, sun, garden.along_bearing_deg, level_of(garden, place))
        if dark is not None:
            yield ShadowAt(
                day=when.day,
                hour_h=hour,
                altitude_deg=sun.altitude_deg,
                rings_mm=_rings(common(dark, window)),
            )


def _paths(garden: Garden) -> Iterator[SunPath]:
    if garden.meridian is None:
        return
    for day in dict.fromkeys(when.day for when in garden.hours):
        yield _path(garden.meridian, SunHours(day=day, from_h=0.0, to_h=24.0))


def _path(meridian: Meridian, when: SunHours) -> SunPath:
    hours = [step / STEPS_AN_HOUR for step in range(24 * STEPS_AN_HOUR + 1)]
    suns = [(hour, sun_at(meridian, when.day, hour).altitude_deg) for hour in hours]
    up = [(hour, altitude) for hour, altitude in suns if altitude >= 0]
    return SunPath(
        day=when.day,
        hours_h=tuple(hour for hour, _ in up),
        altitudes_deg=tuple(round(altitude, 4) for _, altitude in up),
    )


def _zones(garden: Garden, window: Region) -> Iterator[Zone]:
    for service in garden.services:
        if service.kind != "overhead line":
            ground = common(near_line(service.line_mm, SERVICE_MM), window)
            yield Zone(name=service.name, kind="service", rings_mm=_rings(ground))
    for tree in garden.trees:
        if within(tree.at_mm, window):
            ground = common(near_line((tree.at_mm,), root_zone_mm(tree.stem_mm)), window)
            yield Zone(name=tree.name, kind="roots", rings_mm=_rings(ground))
