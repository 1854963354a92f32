"""The deck's own line: which way its sides run, and places as that line has them.

Sizes and angles of a brief are the deck's own already; places (corners, middles of openings, where
a field begins, levels of the ground) are measured from the house, and are turned about the datum.
"""

from collections.abc import Sequence
from math import atan2, ceil, cos, degrees, hypot, radians, sin

from attrs import evolve, frozen

from drylay.brief.outline_model import FieldWish, OpeningWish, OutlinePoint, OutlineWish
from drylay.marks import PER_MM, exact, to_mm
from drylay.rings import Place, Ring, clashing_sides, sides
from drylay.shapes import HOUSE, Shape, of_points, shape_of

#: Sides that run within so much of one line, or square to it, speak for it together, and so do
#: those that leave it by no more than `SQUARE_MM` over their length (assumption).
ALIKE_DEG = 0.05
#: A side of the house counts so often: boards and joists askew to it are seen (assumption).
HOUSE_COUNTS = 2
#: A line is taken before an earlier side's where it has so much more to speak for it.
MORE_MM = 1.0
#: On a turned line corners lie on whole 0.1 mm (32 of 1/320): no tape reads closer (assumption).
TAPE = 32
#: Sides of a turned deck that leave the line by no more than this are laid along it (assumption):
#: corners surveyed to whole mm are off by that.
SQUARE_MM, SQUARE_DEG = 1.5, 2.0
#: No corner is moved by more than this for it; else all stay as measured (assumption). With what
#: taking places to 0.1 mm moves them by that is under the 2 mm that the conventions promise.
MOVED_MOST_MM = 1.9


@frozen(kw_only=True)
class _Side:
    """A side: its length in 1/320 mm, its way off along or across, and whether it is the house's.

    `off_deg` is to whichever is nearer, over -45 and up to 45.
    """

    length: float
    off_deg: float
    house: bool


def _quarter(angle_deg: float) -> float:
    rest = angle_deg % 90.0
    return rest - 90.0 if rest > 45.0 else rest


def own_line_deg(wish: OutlineWish) -> float:
    """Return how far the deck's own line is turned from along towards across: over -45 up to 45.

    It is the line that most of the outline's sides run along or square to, the house's counted
    twice; of equal ones the first side's. Rectangles run along the house, and readings of the wall
    are taken from its line: there, and where it is turned by no more than 0.05, it is 0.
    Source: assumption; docs/outline-conventions.md, Places.
    """
    if not wish.points or wish.wall:
        return 0.0
    shape = shape_of(wish)
    steps = [
        _side(b[0] - a[0], b[1] - a[1], kind == HOUSE)
        for (a, b), (kind, _) in zip(sides(shape.corners), shape.labels, strict=True)
    ]
    best, most = steps[0], _spoken_for(steps[0], steps)
    for step in steps[1:]:
        spoken = _spoken_for(step, steps)
        if spoken > most + MORE_MM * PER_MM:
            best, most = step, spoken
    deg = _quarter(best.off_deg + _mean_off(best, _alike(best, steps)))
    return 0.0 if abs(deg) <= ALIKE_DEG else deg


def _side(along: int, across: int, house: bool) -> _Side:
    off_deg = _quarter(degrees(atan2(across, along)))
    return _Side(length=hypot(along, across), off_deg=off_deg, house=house)


def _alike(one: _Side, steps: Sequence[_Side]) -> list[_Side]:
    return [step for step in steps if _is_alike(one, step)]


def _is_alike(one: _Side, other: _Side) -> bool:
    off = abs(_quarter(other.off_deg - one.off_deg))
    leaves = min(one.length, other.length) * sin(radians(off))
    return off <= ALIKE_DEG or (off <= SQUARE_DEG and leaves <= SQUARE_MM * PER_MM)


def _spoken_for(one: _Side, steps: Sequence[_Side]) -> float:
    return sum(
        step.length * (HOUSE_COUNTS if step.house else 1) for step in _alike(one, steps)
    )  # fmt: skip


def _mean_off(one: _Side, alike: Sequence[_Side]) -> float:
    """Return how far sides run off one of them: the mean, long ones weighed by their square."""
    weighed = sum(step.length**2 * _quarter(step.off_deg - one.off_deg) for step in alike)
    return weighed / sum(step.length**2 for step in alike)


def turned(place: Place, deg: float) -> Place:
    """Return where a place is on a line turned by so many degrees about the datum, to 0.1 mm."""
    along, across = cos(radians(deg)), sin(radians(deg))
    x = place[0] * along + place[1] * across
    y = place[1] * along - place[0] * across
    return _to_tape(x), _to_tape(y)


def turned_back(place: Place, deg: float) -> Place:
    """Return a place of the deck's own line as the brief measures it, to 0.1 mm."""
    return turned(place, -deg)


def _to_tape(length_320: float) -> int:
    return round(length_320 / TAPE) * TAPE


def squared(ring: Ring) -> Ring:
    """Return a ring whose sides that all but run along or across do so: corners move, no more.

    Source: assumption, `SQUARE_MM` and `SQUARE_DEG`; docs/outline-conventions.md.
    """
    ways = [_tied(ring, minor) for minor in (0, 1)]
    found: Ring = tuple(zip(*ways, strict=True))
    far = max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(ring, found, strict=True))
    return ring if far > MOVED_MOST_MM * PER_MM or clashing_sides(found) else found


def _tied(ring: Ring, minor: int) -> list[int]:
    """Return one coordinate of all corners: that of the ends of sides square to it made one."""
    count = len(ring)
    own = [place[minor] for place in ring]
    tied = [_all_but(ring[at], ring[(at + 1) % count], minor) for at in range(count)]
    if all(tied):
        return own
    start = next(at for at in range(count) if not tied[at - 1])
    order = [(start + step) % count for step in range(count)]
    runs: list[list[int]] = []
    for at in order:
        if tied[at - 1] and runs:
            runs[-1].append(at)
        else:
            runs.append([at])
    for run in runs:
        mean = _to_tape(sum(own[at] for at in run) / len(run))
        for at in run:
            own[at] = mean
    return own


def _all_but(a: Place, b: Place, minor: int) -> bool:
    """Return whether a side all but keeps one coordinate from end to end."""
    off, way = abs(b[minor] - a[minor]), abs(b[1 - minor] - a[1 - minor])
    return off <= SQUARE_MM * PER_MM and degrees(atan2(off, way)) <= SQUARE_DEG


def _moved(along_mm: float, across_mm: float, deg: float) -> tuple[float, float]:
    x, y = turned((exact(along_mm), exact(across_mm)), deg)
    return to_mm(x), to_mm(y)


def shape_on_own_line(shape: Shape, deg: float) -> Shape:
    """Return a shape as its own line has it."""
    return evolve(shape, corners=squared(tuple(turned(place, deg) for place in shape.corners)))


def opening_on_own_line(wish: OpeningWish, deg: float) -> OpeningWish:
    """Return an opening, its middle as the own line has it."""
    along_mm, across_mm = _moved(wish.along_mm, wish.across_mm, deg)
    return evolve(wish, along_mm=along_mm, across_mm=across_mm)


def field_on_own_line(wish: FieldWish, deg: float) -> FieldWish:
    """Return a field, where it begins as the own line has it."""
    along_mm, across_mm = _moved(wish.from_along_mm, wish.from_across_mm, deg)
    return evolve(wish, from_along_mm=along_mm, from_across_mm=across_mm)


def _points(points: Sequence[OutlinePoint], deg: float) -> tuple[OutlinePoint, ...]:
    ring = shape_on_own_line(of_points(points), deg).corners
    return tuple(
        evolve(point, along_mm=to_mm(x), across_mm=to_mm(y))
        for point, (x, y) in zip(points, ring, strict=True)
    )


def outline_on_own_line(wish: OutlineWish, deg: float) -> OutlineWish:
    """Return an outline told by points as its own line has it."""
    return evolve(
        wish,
        points=_points(wish.points, deg),
        openings=tuple(opening_on_own_line(opening, deg) for opening in wish.openings),
    )


def most_moved_mm(wish: OutlineWish, deg: float) -> float:
    """Return how far the corner that moves most lies from where the brief has it, rounded up."""
    if deg == 0:
        return 0.0
    along, across = cos(radians(deg)), sin(radians(deg))
    own = _points(wish.points, deg)
    most = max(
        hypot(
            point.along_mm * along + point.across_mm * across - there.along_mm,
            point.across_mm * along - point.along_mm * across - there.across_mm,
        )
        for point, there in zip(wish.points, own, strict=True)
    )
    return to_mm(ceil(most * PER_MM))
