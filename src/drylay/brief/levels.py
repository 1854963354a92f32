"""Levels that contradict each other, or that look as if another unit was meant: asked, not guessed.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator
from itertools import combinations

from drylay.brief.model import AirBrick, GroundPoint
from drylay.errors import Fault
from drylay.marks import exact

Read = dict[str, object]

#: A door's leaf so far below the floor is a slip.
LEAF_BELOW_FLOOR_MM = 300.0
#: More points than these are not read: each three of them are tried as a triangle.
MOST_POINTS = 40
#: So many times as far from the datum as all others, and at least so far, is a slip.
SLIP, SLIP_FROM_MM = 100.0, 1000.0
#: A level below this stands beside one of at least that: metres beside millimetres.
METRES_BELOW_MM, BESIDE_MM = 1.0, 100.0
#: So many levels, all so near to the datum, look like metres.
METRES_FROM, ALL_WITHIN_MM = 3, 5.0
#: So do points this near to each other under a cover larger than that.
POINTS_WITHIN_MM, COVER_FROM_MM = 100.0, 1000.0
#: A gap to the wall below this looks like metres.
GAP_LEAST_MM, GAP_MOST_MM = 1.0, 100.0
#: Three points are out of line when the triangle is so high, and the sine of its sharpest corner
#: is not below 1 in 57, which is 1 degree.
HIGH_MM, SLENDER = 300.0, 57


def levels_make_sense(read: Read) -> Iterator[Fault]:
    """Yield everything that is wrong with how the levels lie to each other."""
    yield from _gap(read)
    yield from _rises(read)
    yield from _beside_the_house(read)
    yield from _points(read)
    yield from _slips(read)
    yield from _all_in_metres(read)


def _number(read: Read, path: str) -> float | None:
    value = read.get(path)
    return value if isinstance(value, float) else None


def _as_written(read: Read, path: str, value: float) -> float:
    """Return a number as it stands in the brief: what was read is only the nearest 1/320 mm."""
    return _number(read, f"written at {path}") or value


def _gap(read: Read) -> Iterator[Fault]:
    """Yield a gap to the wall that looks like metres; none at all is a wish, told elsewhere."""
    gap = _number(read, "house.wall_gap_mm")
    if gap is not None and 0 < gap < GAP_LEAST_MM:
        gap = _as_written(read, "house.wall_gap_mm", gap)
        metres = gap * 1000 <= GAP_MOST_MM
        yield Fault(
            path="house.wall_gap_mm",
            found=f"{gap:g}",
            wanted=f"0, or {GAP_LEAST_MM:g} to {GAP_MOST_MM:g} mm: were metres meant?",
            nearest=f"wall_gap_mm = {gap * 1000 if metres else GAP_LEAST_MM:.15g}",
        )


def _rises(read: Read) -> Iterator[Fault]:
    """Yield what keeps the deck's top from following from equal rises to the ground."""
    rises, steps = read.get("house.rises_to_ground"), read.get("house.steps_down", 1)
    if not isinstance(rises, int):
        return
    if isinstance(steps, int) and rises <= steps:
        yield Fault(
            path="house.rises_to_ground",
            found=f"{rises} with house.steps_down = {steps}",
            wanted="more rises to the ground than to the deck",
            nearest=f"rises_to_ground = {steps + 1}",
        )
    for path in ("house.floor_mm", "levels.points"):
        if path not in read:
            yield Fault(
                path="house.rises_to_ground",
                found=f"{rises} without {path}",
                wanted="the floor and the ground, between which the rises are equal",
                nearest="give house.floor and at least four levels.points",
            )


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


def _read_of(read: Read, path: str) -> list[tuple[int, object]]:
    """Return what could be read of a list, each with where it stands in the brief."""
    found, places = read.get(path), read.get(f"read of {path}")
    if not isinstance(found, tuple) or not isinstance(places, tuple):
        return []
    return list(zip(places, found, strict=True))


def _points_of(read: Read) -> list[tuple[int, GroundPoint]]:
    found = _read_of(read, "levels.points")
    return [(at, point) for at, point in found if isinstance(point, GroundPoint)]


def _points(read: Read) -> Iterator[Fault]:
    """Yield ground heights too few to tell how the ground lies, too many, or twice at one place."""
    points = _points_of(read)
    first: dict[tuple[float, float], int] = {}
    for at, point in points:
        other = first.setdefault((point.along_mm, point.across_mm), at)
        if other != at:
            yield Fault(
                path=f"levels.points[{at}].along_mm",
                found=f"the same place as levels.points[{other}]",
                wanted="every place once",
                nearest="leave one of them out",
            )
    metres = list(_places_in_metres(read))
    yield from metres
    # a point refused may be the one out of line, and so may all be once their unit is right
    asked = bool(metres or read.get("refused of levels.points"))
    if points and not asked and not _out_of_line(list(first)):
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
    """Whether any three places make a triangle that is neither too low nor too slender."""
    counted = [(exact(x), exact(y)) for x, y in places[:MOST_POINTS]]
    return any(_is_wide(*three) for three in combinations(counted, 3))


def _is_wide(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int]) -> bool:
    twice = abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]))
    pairs = ((a, b), (b, c), (c, a))
    _, longer, longest = sorted((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 for p, q in pairs)
    high = twice**2 >= exact(HIGH_MM) ** 2 * longest
    return high and (SLENDER * twice) ** 2 >= longer * longest


def _places_in_metres(read: Read) -> Iterator[Fault]:
    """Yield each coordinate of points that all lie on one spot under a cover far larger."""
    points = _points_of(read)
    sizes = [_number(read, f"cover.{way}_mm") or 0.0 for way in ("along", "across")]
    alongs, acrosses = ([getattr(p, f"{w}_mm") for _, p in points] for w in ("along", "across"))
    every = [*alongs, *acrosses]
    if len({*zip(alongs, acrosses, strict=True)}) < METRES_FROM or max(sizes) <= COVER_FROM_MM:
        return
    apart = max(max(ways) - min(ways) for ways in (alongs, acrosses))
    if max(apart, *(abs(way) for way in every)) > POINTS_WITHIN_MM:
        return
    for at, point in points:
        for key in ("along_mm", "across_mm"):
            path = f"levels.points[{at}].{key}"
            value = _as_written(read, path, getattr(point, key))
            if value:
                yield Fault(
                    path=path,
                    found=f"{value:g}, all points within {POINTS_WITHIN_MM:g} mm under a cover of "
                    f"{max(sizes):g} mm",
                    wanted="points spread over the cover, in mm: they look like metres",
                    nearest=f"{key} = {value * 1000:.15g}, if metres are meant",
                )


def _all_levels(read: Read) -> Iterator[tuple[str, float]]:
    """Yield every level given, with its path."""
    for path in ("house.dpc_mm", "house.floor_mm", "house.door_leaf_mm", "house.sill_mm",
                 "levels.deck_top_mm",
                 "levels.lowest_mm"):  # fmt: skip
        value = _number(read, path)
        if value is not None:
            yield path, value
    for at, brick in _read_of(read, "house.air_bricks"):
        if isinstance(brick, AirBrick):
            yield f"house.air_bricks[{at}].under_mm", brick.under_mm
    for at, point in _points_of(read):
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
            factor, given = 1000 if small else 0.1, _as_written(read, path, level)
            yield Fault(
                path=path,
                found=f"{given:g} beside levels up to {far[0] if small else far[1]:g}",
                wanted="all levels from one datum in mm: which unit is meant?",
                nearest=f"{path.rpartition('.')[2]} = {given * factor:.15g}, if that is meant",
            )


def _all_in_metres(read: Read) -> Iterator[Fault]:
    """Yield every level where all lie so near to the datum that metres may be meant."""
    levels = list(_all_levels(read))
    far = max((abs(level) for _, level in levels), default=0.0)
    if len(levels) < METRES_FROM or not 0 < far <= ALL_WITHIN_MM:
        return
    for path, level in levels:
        if level:
            given = _as_written(read, path, level)
            yield Fault(
                path=path,
                found=f"{given:g}, all levels within {ALL_WITHIN_MM:g} mm of the datum",
                wanted="all levels in mm: levels look like metres",
                nearest=f"{path.rpartition('.')[2]} = {given * 1000:.15g}, if metres are meant; "
                "if not, tell all levels from a datum further off",
            )
