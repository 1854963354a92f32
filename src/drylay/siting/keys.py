"""Every key of a garden file's [siting], with its bounds: sense, not trade. Source: assumption."""

from drylay.intake.keys import Key, choice, count, day, flag, length, number, tables, text
from drylay.siting.model import SERVICE_KINDS, STANDS, TESTS

FAR_MM = 500_000.0


def level(name: str, *, required: bool = False) -> Key:
    """Return the key of a height over the datum of levels, or below it."""
    return length(name, -20_000, 20_000, required=required)


def place(name: str, *, required: bool = True) -> Key:
    """Return the key of a distance from the datum corner, on either side of it."""
    return length(name, -FAR_MM, FAR_MM, required=required)


_NAME = text("name", 60)
_AT = (place("along_mm"), place("across_mm"))
_LINE = (
    place("from_along_mm"),
    place("from_across_mm"),
    place("to_along_mm"),
    place("to_across_mm"),
)
_RECTANGLE = (
    place("from_along_mm"),
    place("from_across_mm"),
    length("along_mm", 50, FAR_MM, required=True),
    length("across_mm", 50, FAR_MM, required=True),
)

#: Tables inside [siting].
INSIDE: dict[str, tuple[Key, ...]] = {
    "hours": (
        day("day"),
        number("from_h", 0, 24, required=True),
        number("to_h", 0, 24, required=True),
    ),
    "plot": _AT,
    "buildings": (
        _NAME,
        *_RECTANGLE,
        length("height_mm", 100, 100_000, required=True),
        length("clear_mm", 0, 100_000),
        level("foot_mm"),
    ),
    "fences": (
        _NAME,
        *_LINE,
        length("height_mm", 100, 20_000, required=True),
        level("foot_mm"),
        level("beyond_mm"),
        length("private_mm", 500, 100_000),
    ),
    "services": (
        _NAME,
        choice("kind", SERVICE_KINDS, required=True),
        *_LINE,
        length("depth_mm", 20, 10_000),
        flag("shared"),
    ),
    "covers": (_NAME, *_AT, length("size_mm", 100, 3000, required=True)),
    "trees": (
        _NAME,
        *_AT,
        length("stem_mm", 10, 5000, required=True),
        length("height_mm", 500, 100_000),
        length("crown_mm", 200, 60_000),
        length("clear_mm", 0, 60_000),
        level("foot_mm"),
        flag("protected"),
    ),
    "flues": (_NAME, *_AT, level("level_mm", required=True)),
    "wet": (
        _NAME,
        *_RECTANGLE,
        count("stood_days", 0, 365),
        number("soak_s_per_mm", 0, 100_000),
        flag("outfall"),
    ),
    "firmness": (
        *_AT,
        choice("kind", TESTS, required=True),
        length("sunk_mm", 0, 2000, required=True),
    ),
    "places": (
        _NAME,
        *_AT,
        length("size_along_mm", 500, 100_000, required=True),
        length("size_across_mm", 500, 100_000, required=True),
        level("top_mm", required=True),
        choice("stands", STANDS),
        level("ground_most_mm"),
        level("ground_least_mm"),
        length("build_mm", 20, 1000),
        length("dig_mm", 0, 5000),
        length("margin_mm", 0, 3000),
        length("hole_mm", 50, 2000),
        tables("holes"),
    ),
}
HOLES = _AT

TOP: tuple[Key, ...] = (
    number("latitude_deg", -90, 90),
    number("longitude_deg", -180, 180),
    number("utc_offset_h", -12, 14),
    flag("near_equator"),
    number("along_bearing_deg", 0, 360),
    number("sun_least_ratio", 0, 1),
    length("sun_over_mm", 0, 3000),
    length("clear_mm", 0, 50_000),
    place("door_along_mm", required=False),
    place("door_across_mm", required=False),
    place("low_along_mm", required=False),
    place("low_across_mm", required=False),
    flag("low_outfall"),
    flag("searched"),
    flag("made_ground"),
    text("region"),
    text("soil"),
    *(tables(name) for name in INSIDE),
)
