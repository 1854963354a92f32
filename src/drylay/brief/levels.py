"""Levels that contradict each other, or that look as if another unit was meant: asked, not guessed.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator

from drylay.brief.model import AirBrick, GroundPoint
from drylay.errors import Fault

Read = dict[str, object]

#: A door's leaf so far below the floor is a slip.
LEAF_BELOW_FLOOR_MM = 300.0
#: More points than these are not read: each three of them are tried as a triangle.
MOST_POINTS = 40
#: So many times as far from the datum as all others, and at least so far, is a slip.
SLIP, SLIP_FROM_MM = 100.0, 1000.0
#: A level below this stands beside one of at least that: metres beside millimetres.
METRES_BELOW_MM, BESIDE_MM = 1.0, 100.0


def levels_make_sense(read: Read) -> Iterator[Fault]:
    """Yield everything that is wrong with how the levels lie to each other."""
    yield from _beside_the_house(read)
    yield from _points(read)
    yield from _slips(read)


def _number(read: Read, path: str) -> float | None:
    value = read.get(path)
    return value if isinstance(value, float) else None


def _beside_the_house(read: Read) -> Iterator[Fault]:
    floor, dpc = _number(read, "house.floor_mm"), _number(read, "house.dpc_mm")
    leaf = _number(read, "house.door_leaf_mm")
    if floor is not None and dpc is not None and floor < dpc:
        yield Fault(
            path="house.floor_mm",
            found=f"{floor:g} with house.dpc_mm = {dpc:g}",
            wanted="a floor that is not below the damp course: which of them is meant?",
            nearest=f"floor_mm = {dpc:g}",
        )
    if floor is not None and leaf is not None and leaf < floor - LEAF_BELOW_FLOOR_MM:
        yield Fault(
            path="house.door_leaf_mm",
            found=f"{leaf:g} with house.floor_mm = {floor:g}",
            wanted=f"the leaf's lower edge within {LEAF_BELOW_FLOOR_MM:g} mm below the floor",
            nearest=f"door_leaf_mm = {floor:g}",
        )


def _points_of(read: Read) -> tuple[GroundPoint, ...]:
    points = read.get("levels.points")
    return points if isinstance(points, tuple) else ()


def _points(read: Read) -> Iterator[Fault]:
    """Yield ground heights too few to tell how the ground lies, too many, or twice at one place."""
    points = _points_of(read)
    first: dict[tuple[float, float], int] = {}
    for at, point in enumerate(points):
        other = first.setdefault((point.along_mm, point.across_mm), at)
        if other != at:
            yield Fault(
                path=f"levels.points[{at}].along_mm",
                found=f"the same place as levels.points[{other}]",
                wanted="every place once",
                nearest="leave one of them out",
            )
    if points and not _out_of_line(list(first)):
        few = f"{len(first)} {'place' if len(first) == 1 else 'places'}"
        yield Fault(
            path="levels.points",
            found=f"{few}, too few or all in line",
            wanted="how the ground lies under the deck",
            nearest="give at least four ground heights, one near each corner",
        )
    if len(points) > MOST_POINTS:
        yield Fault(
            path="levels.points",
            found=f"{len(points)} points",
            wanted=f"at most {MOST_POINTS}",
            nearest="leave out those that lie between others on an even slope",
        )


def _out_of_line(places: list[tuple[float, float]]) -> bool:
    """Whether any three places make a triangle: those with the first and the second will do."""
    if len(places) < 3:
        return False
    (ax, ay), (bx, by), *others = places
    return any((bx - ax) * (y - ay) != (x - ax) * (by - ay) for x, y in others)


def _all_levels(read: Read) -> Iterator[tuple[str, float]]:
    """Yield every level given, with its path."""
    for path in ("house.dpc_mm", "house.floor_mm", "house.door_leaf_mm", "levels.deck_top_mm",
                 "levels.lowest_mm"):  # fmt: skip
        value = _number(read, path)
        if value is not None:
            yield path, value
    bricks = read.get("house.air_bricks")
    for at, brick in enumerate(bricks if isinstance(bricks, tuple) else ()):
        if isinstance(brick, AirBrick):
            yield f"house.air_bricks[{at}].under_mm", brick.under_mm
    for at, point in enumerate(_points_of(read)):
        yield f"levels.points[{at}].level_mm", point.level_mm


def _slips(read: Read) -> Iterator[Fault]:
    """Yield levels that look like metres among millimetres, or like another unit altogether."""
    levels = list(_all_levels(read))
    far = sorted((abs(level) for _, level in levels), reverse=True)
    for path, level in levels:
        small = 0 < abs(level) < METRES_BELOW_MM and far[0] >= BESIDE_MM
        large = (
            abs(level) == far[0] >= SLIP_FROM_MM
            and len(far) > 2
            and far[1] > 0
            and far[0] >= SLIP * far[1]
        )
        if small or large:
            factor = 1000 if small else 0.1
            yield Fault(
                path=path,
                found=f"{level:g} beside levels up to {far[0] if small else far[1]:g}",
                wanted="all levels from one datum in mm: which unit is meant?",
                nearest=f"{path.rpartition('.')[2]} = {level * factor:.15g}, if that is meant",
            )
