"""A brief for a deck on an outline: its box, its house wall, and what cannot be had with it.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from attrs import asdict

from drylay.brief.drawn import A_RECTANGLE, all_read, found_of, shape_read, told, too_many
from drylay.brief.laying import laying_makes_sense, not_on_an_outline
from drylay.brief.model import HouseWish
from drylay.brief.openings import openings_make_sense
from drylay.brief.outline_model import LayingWish, OutlinePoint, OutlineWish, WallReading
from drylay.errors import Fault
from drylay.marks import exact, to_mm
from drylay.own_line import own_line_deg
from drylay.rings import box, clashing_sides, sides
from drylay.shapes import HOUSE, Shape, wall_sides, with_wall

Read = dict[str, object]

#: A wall that turns by more than this between two readings has a corner there: 1 in 10.
STEEP = 10
#: Readings of a wall below this, all of them, look like metres.
METRES_BELOW_MM = 1.0


def has_outline(tables: Mapping[str, object]) -> bool:
    """Return whether a brief is one for a deck on an outline."""
    outline = tables.get("outline")
    return isinstance(outline, Mapping) and any(
        value is not None and value not in ([], ()) for value in outline.values()
    )


def check_outline(read: Read, tables: Mapping[str, object]) -> tuple[Read, tuple[Fault, ...]]:
    """Return the cover of a deck on an outline, and everything that is wrong with the outline.

    The cover is the box around it, nothing where it cannot be drawn or the brief has none. What is
    wished beside the outline and cannot be had with it is among the faults.
    """
    if not has_outline(tables):
        return {}, tuple(_laying_alone(read))
    shape, wrong = shape_read(read)
    faults = [*too_many(read), *not_on_an_outline(read, tables), *wrong, *_faced(read, shape)]
    deg = 0.0 if shape is None else _turned_deg(read)
    faults += laying_makes_sense(read, shape, deg)
    walled = shape
    if shape is not None:
        walls = tuple(_wall(read, shape))
        faults += [*_house(read, shape), *walls]
        readings = [reading for _, reading in _readings(read)]
        walled = with_wall(shape, readings) if not walls and all_read(read, "wall") else None
    faults += openings_make_sense(read, walled, deg)
    return _box_of(walled), tuple(faults)


def _turned_deg(read: Read) -> float:
    """Return how far the deck's own line is turned from along."""
    points = tuple(point for _, point in found_of(read, "outline.points", OutlinePoint))
    wall = tuple(reading for _, reading in _readings(read))
    return own_line_deg(OutlineWish(points=points, wall=wall))


def _box_of(shape: Shape | None) -> Read:
    if shape is None:
        return {}
    low_x, low_y, high_x, high_y = box(shape.corners)
    return {
        "cover.along_mm": to_mm(high_x - low_x),
        "cover.across_mm": to_mm(high_y - low_y),
    }


def _laying_alone(read: Read) -> Iterator[Fault]:
    if _says(read, "laying", LayingWish()):
        yield Fault(
            path="laying",
            found="[laying] without [outline]",
            wanted="an outline that these boards lie on",
            nearest=f"[outline] with {A_RECTANGLE}, in place of [cover]",
        )


def _says(read: Read, section: str, nothing: HouseWish | LayingWish) -> bool:
    """Return whether a brief says anything in a section, beyond what holds without it."""
    plain = asdict(nothing, recurse=False)
    return any(value != plain[key] for key, value in _in_section(read, section, plain))


def _in_section(
    read: Read, section: str, plain: Mapping[str, object]
) -> Iterator[tuple[str, object]]:
    for key in plain:
        if f"{section}.{key}" in read:
            yield key, read[f"{section}.{key}"]


def _readings(read: Read) -> list[tuple[int, WallReading]]:
    return found_of(read, "outline.wall", WallReading)


def _faced(read: Read, shape: Shape | None) -> Iterator[Fault]:
    """Yield sides that carry fascia without its board, and a board without such sides."""
    told_faced = any(
        getattr(noun, "faced", False)
        for key in ("points", "rectangles")
        for _, noun in found_of(read, f"outline.{key}", object)
    )
    faced = any(label[1] for label in shape.labels) if shape is not None else told_faced
    if faced and "fascia.article" not in read:
        yield Fault(
            path="fascia.article",
            found="nothing with sides of the outline faced",
            wanted="which fascia board these sides carry",
            nearest="faced = false, if none is wanted",
        )


def _house(read: Read, shape: Shape) -> Iterator[Fault]:
    """Yield a house told of where no side of the outline is its wall."""
    if not _says(read, "house", HouseWish()) or HOUSE in {kind for kind, _ in shape.labels}:
        return
    corners = list(sides(shape.corners))
    near = min(range(len(corners)), key=lambda at: sum(abs(place[1]) for place in corners[at]))
    places = [at for at, _ in found_of(read, "outline.points", OutlinePoint)]
    key = f"outline.points[{places[near]}]" if places else "a rectangle along across 0"
    yield Fault(
        path="outline",
        found="[house], and no side of the outline that is its wall",
        wanted="which side lies along the house",
        nearest=f'side = "house" at {key}',
    )


def _wall(read: Read, shape: Shape) -> Iterator[Fault]:
    """Yield readings of the house wall that are out of order, beside it, or no wall's."""
    readings = _readings(read)
    if not readings or not all_read(read, "wall"):
        return
    walls = [box(list(sides(shape.corners))[at]) for at in wall_sides(shape)]
    if not walls:
        yield _no_wall()
        return
    order = list(_out_of_order(readings))
    faults = [*order, *_beside(readings, min(w[0] for w in walls), max(w[2] for w in walls))]
    faults += [] if order else list(_steps(readings))
    faults += list(_in_metres(readings))
    yield from faults
    if not faults:
        yield from _through(readings, shape)


def _no_wall() -> Fault:
    return Fault(
        path="outline.wall",
        found="readings of a wall, and no side of the house on across 0",
        wanted="the house's side on the line that readings are taken from",
        nearest='side = "house" and across_mm = 0 at both ends of that side',
    )


def _out_of_order(readings: list[tuple[int, WallReading]]) -> Iterator[Fault]:
    for (_, one), (at, other) in pairwise(readings):
        if other.along_mm <= one.along_mm:
            yield Fault(
                path=f"outline.wall[{at}].along_mm",
                found=f"{other.along_mm:g} after {one.along_mm:g}",
                wanted="readings in order along the wall, each place once",
                nearest="put it in its place, lesser along first"
                if other.along_mm < one.along_mm
                else f"leave outline.wall[{at}] out",
            )


def _beside(
    readings: list[tuple[int, WallReading]], low: int, high: int
) -> Iterator[Fault]:  # fmt: skip
    """Yield readings beyond the wall, and the wall's ends where none was taken."""
    for at, reading in readings:
        if not low <= exact(reading.along_mm) <= high:
            nearest = min(max(exact(reading.along_mm), low), high)
            yield Fault(
                path=f"outline.wall[{at}].along_mm",
                found=f"{reading.along_mm:g}, beyond the house's sides on across 0",
                wanted=f"{to_mm(low):g} to {to_mm(high):g}",
                nearest=f"along_mm = {to_mm(nearest):g}",
            )
    read_at = [exact(reading.along_mm) for _, reading in readings]
    for end, reached in ((low, min(read_at) <= low), (high, max(read_at) >= high)):
        if not reached:
            yield Fault(
                path="outline.wall",
                found=f"no reading at the wall's end, along {to_mm(end):g}",
                wanted="one at either end of the wall",
                nearest=f"{{ along_mm = {to_mm(end):g}, off_mm = ... }} measured there",
            )


def _steps(readings: list[tuple[int, WallReading]]) -> Iterator[Fault]:
    for (_, one), (at, other) in pairwise(readings):
        step, way = abs(other.off_mm - one.off_mm), other.along_mm - one.along_mm
        if step * STEEP > way:
            yield Fault(
                path=f"outline.wall[{at}].off_mm",
                found=f"{other.off_mm:g}, {step:g} from the reading {way:g} mm before",
                wanted=f"a wall that runs off by no more than 1 in {STEEP}",
                nearest=f"tell a step of {step:g} mm as corners of the outline",
            )


def _in_metres(readings: list[tuple[int, WallReading]]) -> Iterator[Fault]:
    """Yield readings that all look like metres."""
    far = max(abs(reading.off_mm) for _, reading in readings)
    if not 0 < far < METRES_BELOW_MM:
        return
    for at, reading in readings:
        if reading.off_mm:
            yield Fault(
                path=f"outline.wall[{at}].off_mm",
                found=f"{reading.off_mm:g}, all readings below {METRES_BELOW_MM:g} mm",
                wanted="mm: metres look to be meant",
                nearest=f"off_mm = {reading.off_mm * 1000:.6g}, if metres are meant",
            )


def _through(readings: list[tuple[int, WallReading]], shape: Shape) -> Iterator[Fault]:
    walled = with_wall(shape, [reading for _, reading in readings])
    clashes = clashing_sides(walled.corners)
    if clashes:
        i, j = clashes[0]
        yield Fault(
            path="outline.wall",
            found=f"a wall that runs into another side, at {told(walled.corners[i])} and "
            f"{told(walled.corners[j])}",
            wanted="a wall clear of the outline's other sides",
            nearest="measure it again: off_mm is above 0 where the wall stands into the deck",
        )
