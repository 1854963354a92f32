"""The deck's own line: is it the one its sides run along, and are the brief's places on it?"""

from collections.abc import Iterator, Sequence
from math import atan2, cos, degrees, hypot, radians, sin

from attrs import evolve

from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import cover, fault, outline_of, outlines
from drylay.audit.plane import Place, sides_of
from drylay.brief.model import GroundPoint
from drylay.brief.outline_model import OutlinePoint
from drylay.outline.model import Outline
from drylay.plan.model import Plan

LINE = outlines("Places: the deck's own line")
#: Sides within so much of a line, or of square to it, speak for it, or those that leave it by no
#: more over their length; the house's twice.
ALIKE_DEG, LEAVES_DEG, LEAVES_MM, HOUSE_COUNTS = 0.05, 2.0, 1.5, 2
#: No corner is moved further than this; sides are told a little longer or shorter by it.
MOVED_MOST_MM, SLACK_MM = 2.0, 10.0
#: Places of a turned deck lie on whole 0.1 mm: so many of 1/320 mm.
TAPE = 32

#: A side's way in degrees, its length, how often it counts.
_Side = tuple[float, float, int]


def on_line(along_mm: float, across_mm: float, turned_deg: float) -> tuple[float, float]:
    """Return a place of the brief's on the deck's own line, in 1/320 mm, not rounded."""
    way = radians(turned_deg)
    x, y = ticks(along_mm), ticks(across_mm)
    return cos(way) * x + sin(way) * y, cos(way) * y - sin(way) * x


def to_tape(number: float) -> int:
    """Return a count of 1/320 mm as the nearest that is a whole 0.1 mm."""
    return round(number / TAPE) * TAPE


def middle_on_line(along_mm: float, across_mm: float, outline: Outline) -> Place:
    """Return where a plan has a place of the brief's."""
    if not outline.turned_deg:
        return ticks(along_mm), ticks(across_mm)
    x, y = on_line(along_mm, across_mm, outline.turned_deg)
    return to_tape(x), to_tape(y)


def levels_on_line(points: Sequence[GroundPoint], outline: Outline) -> tuple[GroundPoint, ...]:
    """Return the brief's levels of the ground where a plan has them."""
    if not outline.turned_deg:
        return tuple(points)
    places = [middle_on_line(each.along_mm, each.across_mm, outline) for each in points]
    return tuple(
        evolve(each, along_mm=float(x) / PER_MM, across_mm=float(y) / PER_MM)
        for each, (x, y) in zip(points, places, strict=True)
    )


def corners_on_line(points: Sequence[OutlinePoint], plan: Plan) -> tuple[Place, ...]:
    """Return the plan's corner for each of the brief's: the nearest, where it is near enough."""
    outline = outline_of(plan)
    if not outline.turned_deg:
        return tuple((ticks(point.along_mm), ticks(point.across_mm)) for point in points)
    found = []
    for point in points:
        x, y = on_line(point.along_mm, point.across_mm, outline.turned_deg)
        nearest = min(cover(plan), key=lambda corner: hypot(corner[0] - x, corner[1] - y))
        near = hypot(nearest[0] - x, nearest[1] - y) <= MOVED_MOST_MM * PER_MM
        found.append(nearest if near else (round(x), round(y)))
    return tuple(found)


def most_moved(points: Sequence[OutlinePoint], plan: Plan) -> float:
    """Return how far the corner that was moved most lies from the brief's, in 1/320 mm."""
    deg = outline_of(plan).turned_deg
    pairs = zip(points, corners_on_line(points, plan), strict=True)
    ways = [(on_line(point.along_mm, point.across_mm, deg), corner) for point, corner in pairs]
    return max(hypot(x - corner[0], y - corner[1]) for (x, y), corner in ways)


def _quarter(deg: float) -> float:
    return (deg + 45.0) % 90.0 - 45.0


def _spoken_for(sides: Sequence[_Side], way: float, long: float) -> float:
    """Return how much speaks for a line, `long` being the longest that it is taken from."""
    found = 0.0
    for deg, length, counts in sides:
        off = abs(_quarter(deg - way))
        leaves = sin(radians(off)) * min(length, long)
        if off <= ALIKE_DEG or (off <= LEAVES_DEG and leaves <= LEAVES_MM * PER_MM):
            found += length * counts
    return found


def own_line(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a turned deck's sides speak most for its own line."""
    outline = outline_of(plan)
    moved = ticks(outline.moved_mm)
    if not -45.0 <= outline.turned_deg <= 45.0:
        yield fault("outline.turned_deg", "over 45 degrees: another side's line is nearer", LINE)
    if not 0 <= moved <= ticks(MOVED_MOST_MM):
        yield off_by("outline.moved_mm", "further than corners are moved", moved,
                     ticks(MOVED_MOST_MM), LINE)  # fmt: skip
    if not outline.turned_deg:
        if moved:
            yield off_by("outline.moved_mm", "corners moved on no turned line", moved, 0, LINE)
        return
    sides = [
        (degrees(atan2(b[1] - a[1], b[0] - a[0])), hypot(b[0] - a[0], b[1] - a[1]),
         HOUSE_COUNTS if side.kind == "house" else 1)
        for (a, b), side in zip(sides_of(cover(plan)), outline.sides, strict=True)
    ]  # fmt: skip
    own = _spoken_for(sides, 0.0, max(length for _, length, _ in sides))
    most = max(_spoken_for(sides, way, length) for way, length, _ in sides)
    if most > own + ticks(SLACK_MM):
        message = "another line has more of the sides along it or square to it"
        yield off_by("outline.turned_deg", message, own, most, LINE)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-759", "a deck stands square on the line that its sides run along", own_line),
)
