"""The [siting] of a garden file is read here: a Garden out of it, or every fault with its place."""

from collections.abc import Callable, Mapping
from typing import Any

from attrs import evolve

from drylay.errors import Fault
from drylay.geometry import Place
from drylay.intake.document import keys_of
from drylay.intake.tables import UNREADABLE, Reading, read_table, read_tables, report
from drylay.siting.keys import HOLES, INSIDE, TOP
from drylay.siting.model import (
    Caster,
    DeckPlace,
    DrainCover,
    Fence,
    FirmTest,
    Flue,
    Garden,
    LowSpot,
    Meridian,
    Service,
    SunHours,
    Tree,
    WetSpot,
)
from drylay.siting.slips import (
    earth_slips,
    height_slips,
    hole_slips,
    hours_slips,
    name_slips,
    plot_slips,
)

TABLE = "siting"
Row = dict[str, Any]
#: What a row without a name is called, with its number.
CALLED = {
    "buildings": "building",
    "fences": "fence",
    "services": "service",
    "covers": "cover",
    "trees": "tree",
    "flues": "flue",
    "wet": "wet spot",
    "places": "place",
}


def read_siting(reading: Reading) -> Garden | None:
    """Return the garden that a file's [siting] tells; None where it has none or it is faulty.

    Faults are put on the reading's list, each with its place; nothing is raised.
    """
    table = reading.document.tables.get(TABLE)
    if table is None:
        return None
    before = len(reading.faults)
    top = read_table(reading, (TABLE,), table, TOP)
    rows = _rows(reading, table if isinstance(table, Mapping) else {})
    for wrong in _slips(top, rows, table):
        told = evolve(wrong, path=f"{TABLE}.{wrong.path}")
        report(reading, keys_of(told.path), told)
    return None if len(reading.faults) > before else _garden(top, rows)


def _rows(reading: Reading, table: Mapping[Any, object]) -> dict[str, dict[int, Row]]:
    """Return the rows of every table inside that could be read whole, by their number in it."""
    found: dict[str, dict[int, Row]] = {}
    for name, known in INSIDE.items():
        read = read_tables(reading, (TABLE, name), table.get(name), known)
        needed = {key.name for key in known if key.required}
        found[name] = {
            at: _called(name, at, row)
            for at, row in enumerate(read)
            if needed <= set(row) and UNREADABLE not in row.values()
        }
    for at, row in found["places"].items():
        row["holes"] = _holes(reading, table.get("places"), at)
    return found


def _called(kind: str, at: int, row: Row) -> Row:
    named = {} if kind not in CALLED or "name" in row else {"name": f"{CALLED[kind]} {at + 1}"}
    return {**row, **named}


def _holes(reading: Reading, places: object, at: int) -> tuple[Place, ...]:
    given = places[at] if isinstance(places, list | tuple) and at < len(places) else {}
    holes = given.get("holes") if isinstance(given, Mapping) else None
    read = read_tables(reading, (TABLE, "places", at, "holes"), holes, HOLES)
    return tuple(_at(row) for row in read if len(row) == 2 and UNREADABLE not in row.values())


def _slips(top: Row, rows: dict[str, dict[int, Row]], table: object) -> list[Fault]:
    known = {name: value for name, value in top.items() if value is not UNREADABLE}
    found = list(earth_slips(known))
    given = table.get("plot") if isinstance(table, Mapping) else None
    corners = [_at(row) for row in rows["plot"].values()]
    found += plot_slips(corners, len(given) if isinstance(given, list | tuple) else 0)
    for at, row in rows["hours"].items():
        found += hours_slips(row, at)
    for kind in ("buildings", "trees", "fences", "services", "places"):
        for at, row in rows[kind].items():
            found += height_slips(kind, row, at)
    for at, row in rows["places"].items():
        found += hole_slips(row, at)
    for kind in CALLED:
        found += name_slips(kind, {at: row["name"] for at, row in rows[kind].items()})
    for pair in ("door", "low"):
        found += _half_told(known, pair)
    return found


def _half_told(known: Row, pair: str) -> list[Fault]:
    """Return a fault where of a place only one of both distances is told."""
    names = (f"{pair}_along_mm", f"{pair}_across_mm")
    missing = [name for name in names if known.get(name) is None]
    if len(missing) != 1:
        return []
    return [Fault(path=missing[0], found="nothing", wanted=f"both of {names[0]}, {names[1]}")]


def _at(row: Row) -> Place:
    return (row["along_mm"], row["across_mm"])


def _ends(row: Row) -> tuple[Place, Place]:
    return (
        (row["from_along_mm"], row["from_across_mm"]),
        (row["to_along_mm"], row["to_across_mm"]),
    )


def _corners(row: Row) -> tuple[Place, ...]:
    x, y = row["from_along_mm"], row["from_across_mm"]
    far_x, far_y = x + row["along_mm"], y + row["across_mm"]
    return ((x, y), (far_x, y), (far_x, far_y), (x, far_y))


def _rest(row: Row, *names: str) -> Row:
    """Return what of a row goes into its noun as it stands."""
    return {name: row[name] for name in ("name", *names) if row.get(name) is not None}


def _building(row: Row) -> Caster:
    return Caster(corners_mm=_corners(row), **_rest(row, "height_mm", "clear_mm", "foot_mm"))


def _fence(row: Row) -> Fence:
    start, end = _ends(row)
    rest = _rest(row, "height_mm", "foot_mm", "beyond_mm", "private_mm")
    return Fence(start_mm=start, end_mm=end, **rest)


def _tree(row: Row) -> Tree:
    rest = ("stem_mm", "height_mm", "crown_mm", "clear_mm", "foot_mm", "protected")
    return Tree(at_mm=_at(row), **_rest(row, *rest))


def _place(row: Row) -> DeckPlace:
    rest = {name: value for name, value in row.items() if name != "holes"}
    return DeckPlace(**rest, holes_mm=row["holes"])


#: How rows of a table become nouns of the garden, under its field's name.
MADE: dict[str, tuple[str, Callable[[Row], object]]] = {
    "hours": ("hours", lambda row: SunHours(**row)),
    "plot_mm": ("plot", _at),
    "casters": ("buildings", _building),
    "fences": ("fences", _fence),
    "services": (
        "services",
        lambda row: Service(line_mm=_ends(row), **_rest(row, "kind", "depth_mm", "shared")),
    ),
    "covers": ("covers", lambda row: DrainCover(at_mm=_at(row), **_rest(row, "size_mm"))),
    "trees": ("trees", _tree),
    "flues": ("flues", lambda row: Flue(at_mm=_at(row), **_rest(row, "level_mm"))),
    "wet": (
        "wet",
        lambda row: WetSpot(
            corners_mm=_corners(row), **_rest(row, "stood_days", "soak_s_per_mm", "outfall")
        ),
    ),
    "firmness": (
        "firmness",
        lambda row: FirmTest(at_mm=_at(row), kind=row["kind"], sunk_mm=row["sunk_mm"]),
    ),
    "places": ("places", _place),
}


def _garden(top: Row, rows: dict[str, dict[int, Row]]) -> Garden:
    made: Row = {
        name: tuple(make(row) for row in rows[kind].values()) for name, (kind, make) in MADE.items()
    }
    plain = ("along_bearing_deg", "sun_least_ratio", "sun_over_mm", "clear_mm", "searched",
             "made_ground", "region", "soil")  # fmt: skip
    told: Row = {name: top[name] for name in plain if top.get(name) is not None}
    if top.get("latitude_deg") is not None:
        names = ("latitude_deg", "longitude_deg", "utc_offset_h")
        earth: Row = {name: top.get(name) for name in names}
        told["meridian"] = Meridian(**earth)
    if top.get("door_along_mm") is not None:
        told["door_mm"] = (top["door_along_mm"], top["door_across_mm"])
    if top.get("low_along_mm") is not None:
        at = (top["low_along_mm"], top["low_across_mm"])
        told["low"] = LowSpot(name="lowest spot", at_mm=at, outfall=top.get("low_outfall"))
    return Garden(**told, **made)
