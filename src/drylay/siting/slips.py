"""What looks like a slip in a garden's [siting]: asked about with its nearest fix, never guessed.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator, Mapping, Sequence
from math import degrees

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.values import fault
from drylay.marks import exact
from drylay.rings import clashing_sides, twice_area

Answers = Mapping[str, object]
#: Within a latitude of so many degrees, radians or a longitude may be meant. Pi / 2, up.
RADIANS_DEG = 1.58
#: A clock is no further from the sun's time than this, summer time among it: China's west has 47.
OFF_DEG = 55.0
#: Where regions lie, from memory, a little wide: latitudes, then longitudes.
REGIONS = {
    "united-kingdom": ((49.0, 61.5), (-9.0, 2.5)),
    "north-america": ((14.0, 84.0), (-180.0, -50.0)),
    "australia": ((-45.0, -9.0), (112.0, 160.0)),
    "new-zealand": ((-48.0, -34.0), (165.0, 180.0)),
}
#: A plot all within this looks like metres.
METRES_MM = 200.0


def _said(path: str, found: str, wanted: str, nearest: str = "") -> Fault:
    return evolve(fault(found, wanted, nearest), path=path)


def earth_slips(read: Answers) -> Iterator[Fault]:
    """Yield what is odd about latitude, longitude, region and clock."""
    latitude, longitude = read.get("latitude_deg"), read.get("longitude_deg")
    offset = read.get("utc_offset_h")
    if longitude is None and offset is not None:
        wanted = "longitude_deg beside utc_offset_h, or hours of solar time without it"
        yield _said("longitude_deg", "nothing", wanted)
    if latitude is None and longitude is not None:
        yield _said("latitude_deg", "nothing", "latitude_deg beside longitude_deg")
    if not isinstance(latitude, float | int):
        return
    where = _places(latitude, longitude)
    region = read.get("region")
    if isinstance(region, str) and region in REGIONS and not _in(region, latitude, longitude):
        nearest = next((told for told, one in where if _in(region, *one)), "")
        yield _said("latitude_deg", _told(latitude, longitude), f"a place in {region}", nearest)
    elif abs(latitude) < RADIANS_DEG and not read.get("near_equator"):
        wanted = "degrees: radians, or a longitude, look to be meant"
        fixes = [f"latitude_deg = {degrees(latitude):.4g}, if radians are meant"]
        fixes += [told for told, (north, _) in where[:1] if abs(north) >= RADIANS_DEG]
        nearest = " or ".join([*fixes, "near_equator = true, if it is so"])
        yield _said("latitude_deg", f"{latitude:g}", wanted, nearest)
    elif isinstance(longitude, float | int) and isinstance(offset, float | int):
        yield from _clock_slips(latitude, longitude, offset)


def _told(latitude: float, longitude: object) -> str:
    east = f", longitude {longitude:g}" if isinstance(longitude, float | int) else ""
    return f"latitude {latitude:g}{east}"


def _places(latitude: float, longitude: object) -> list[tuple[str, tuple[float, float | None]]]:
    """Return what may be meant: the two swapped, or one of them with the other sign."""
    if not isinstance(longitude, float | int):
        return [(f"latitude_deg = {-latitude:g}", (-latitude, None))]
    found = [
        (longitude, latitude),
        (-latitude, longitude),
        (latitude, -longitude),
        (-latitude, -longitude),
    ]
    return [
        (f"latitude_deg = {north:g}, longitude_deg = {east:g}", (north, east))
        for north, east in found
    ]


def _in(region: str, latitude: float, longitude: object) -> bool:
    (south, north), (west, east) = REGIONS[region]
    beside = isinstance(longitude, float | int) and not west <= longitude <= east
    return south <= latitude <= north and not beside


def _clock_slips(latitude: float, longitude: float, offset: float) -> Iterator[Fault]:
    if _off(longitude, offset) <= OFF_DEG:
        return
    fixes = [told for told, (_, east) in _places(latitude, longitude)[:3]
             if east is not None and _off(east, offset) <= OFF_DEG]  # fmt: skip
    wanted = f"a longitude that goes with utc_offset_h = {offset:g}"
    yield _said("longitude_deg", f"{longitude:g}", wanted, " or ".join(fixes[:1]))


def _off(longitude: float, offset: float) -> float:
    return abs((longitude - 15 * offset + 180) % 360 - 180)


def plot_slips(corners: Sequence[tuple[float, float]], given: int) -> Iterator[Fault]:
    """Yield what is wrong with a plot: too few corners, sides that cross, metres for mm."""
    if not given or given > len(corners):
        return  # told already, corner by corner
    if len(corners) < 3:
        yield _said("plot", f"{len(corners)} corners", "three or more")
        return
    if all(abs(value) <= METRES_MM for corner in corners for value in corner):
        yield _said("plot", "a plot of some mm", "mm: metres look to be meant", "1000 times each")
        return
    ring = tuple((exact(x), exact(y)) for x, y in corners)
    if clashing_sides(ring) or not twice_area(ring):
        yield _said("plot", "sides that cross or fold back", "corners in order round the plot")


def hours_slips(read: Answers, at: int) -> Iterator[Fault]:
    """Yield hours that end before they begin, and ones without a day."""
    begin, end = read.get("from_h"), read.get("to_h")
    if read.get("day") is None:
        yield _said(f"hours[{at}].day", "nothing", "a day such as 2027-06-21")
    if isinstance(begin, float | int) and isinstance(end, float | int) and end <= begin:
        wanted = "an hour after from_h, of the same day"
        yield _said(f"hours[{at}].to_h", f"{end:g}", wanted)


def height_slips(kind: str, read: Answers, at: int) -> Iterator[Fault]:
    """Yield what hangs higher than it reaches, ground higher at its lowest, lines of no length."""
    clear, height = read.get("clear_mm"), read.get("height_mm")
    if _over(clear, height, ends=True):
        wanted = "less than height_mm"
        yield _said(f"{kind}[{at}].clear_mm", f"{clear:g} mm", wanted)
    least, most = read.get("ground_least_mm"), read.get("ground_most_mm")
    if _over(least, most):
        wanted = f"no more than ground_most_mm, {most:g} mm"
        yield _said(f"{kind}[{at}].ground_least_mm", f"{least:g} mm", wanted, "the two swapped")
    line = [read.get(f"{end}_{axis}_mm") for end in ("from", "to") for axis in ("along", "across")]
    if None not in line and line[:2] == line[2:]:
        yield _said(f"{kind}[{at}]", "a line of no length", "two places")


def _over(one: object, other: object, *, ends: bool = False) -> bool:
    if not isinstance(one, float | int) or not isinstance(other, float | int):
        return False
    return one > other or (ends and one == other)


def hole_slips(read: Answers, at: int) -> Iterator[Fault]:
    """Yield holes that lie beyond their deck: they count from its own corner."""
    along, across = read.get("size_along_mm"), read.get("size_across_mm")
    holes = read.get("holes")
    if not isinstance(along, float | int) or not isinstance(across, float | int):
        return
    for number, (x, y) in enumerate(holes if isinstance(holes, tuple) else ()):
        if not (0 <= x <= along and 0 <= y <= across):
            wanted = f"0 to {along:g} along and 0 to {across:g} across, from the deck's own corner"
            found = f"{x:g} along, {y:g} across"
            yield _said(f"places[{at}].holes[{number}]", found, wanted)


def name_slips(kind: str, names: Mapping[int, str]) -> Iterator[Fault]:
    """Yield names that two of a kind share: a change tells which one by its name."""
    for at, name in names.items():
        if any(other == name for before, other in names.items() if before < at):
            yield _said(f"{kind}[{at}].name", repr(name), "a name that no other one has")
