"""Where texts stand in a drawing: of candidate places the first that touches nothing else."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import atan2, degrees, hypot

from attrs import evolve

from drylay.papers.lettering import AIR_MM, Bounds, Point, quad
from drylay.papers.model import Lettering, Line, Shape

#: Half the width that a line takes of the paper, with some air.
LINE_HALF_MM = 0.12
#: Half the width that a leader takes among texts that it does not lead to.
LEADER_HALF_MM = 0.5
#: Capital letters are so much lower than the line they stand in.
CAPITALS = 0.8
#: A viewer's letters may be a little wider than ours, at either end of a text.
SLACK_MM = 0.3
#: What takes room on the paper: the upright box about it, and its own corners.
Place = tuple[Bounds, tuple[Point, ...]]


def place_of(corners: Sequence[Point]) -> Place:
    """Return a convex shape as something that takes room on the paper."""
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return (min(across), min(down), max(across), max(down)), tuple(corners)


def line_place(one: Point, other: Point, half_mm: float = LINE_HALF_MM) -> Place:
    """Return a line, so wide to either side, as something that texts keep off."""
    long = hypot(other[0] - one[0], other[1] - one[1]) or 1.0
    x, y = ((other[1] - one[1]) / long * half_mm, (one[0] - other[0]) / long * half_mm)
    return place_of([(one[0] + x, one[1] + y), (other[0] + x, other[1] + y),
                     (other[0] - x, other[1] - y), (one[0] - x, one[1] - y)])  # fmt: skip


def places_of(shapes: Iterable[Shape]) -> list[Place]:
    """Return the room that texts and lines among some shapes take."""
    found = []
    for shape in shapes:
        if isinstance(shape, Lettering):
            found.append(place_of(quad(shape)))
        elif isinstance(shape, Line):
            found.append(line_place((shape.x1_mm, shape.y1_mm), (shape.x2_mm, shape.y2_mm)))
    return found


def first_clear(candidates: Iterable[Lettering], taken: list[Place]) -> tuple[Lettering, ...]:
    """Return the first text that touches nothing taken, and take its place; () if none."""
    for text in candidates:
        if is_clear(text, taken):
            taken.append(place_of(quad(text, SLACK_MM)))
            return (text,)
    return ()


def first_led(
    candidates: Iterable[Lettering], point: Point, taken: list[Place], texts: Sequence[Place]
) -> tuple[Lettering, ...]:
    """Return the first text that touches nothing and whose leader from `point` strikes no text."""
    for text in candidates:
        line = line_place(point, nearest(text, point), LEADER_HALF_MM)
        if is_clear(text, taken) and not any(touch(line, other) for other in texts):
            return first_clear([text], taken)
    return ()


def nearest(text: Lettering, point: Point) -> Point:
    """Return where a leader from a point ends: at the nearest edge of the box about a text."""
    across, down = zip(*quad(text), strict=True)
    return min(max(point[0], min(across)), max(across)), min(max(point[1], min(down)), max(down))


def is_clear(text: Lettering, taken: Iterable[Place]) -> bool:
    """Whether a text, with its air, touches nothing taken."""
    place = place_of(quad(text, AIR_MM))
    return not any(touch(place, other) for other in taken)


def touch(one: Place, other: Place) -> bool:
    """Whether two convex shapes overlap: no line along a side of either parts them."""
    (left, top, right, bottom), corners = one
    (west, north, east, south), others = other
    if right <= west or east <= left or bottom <= north or south <= top:
        return False
    return not (_parted(corners, others) or _parted(others, corners))


def _parted(one: Sequence[Point], other: Sequence[Point]) -> bool:
    for (ax, ay), (bx, by) in pairwise([*one, one[0]]):
        across = by - ay, ax - bx
        mine = [x * across[0] + y * across[1] for x, y in one]
        theirs = [x * across[0] + y * across[1] for x, y in other]
        if max(mine) <= min(theirs) or max(theirs) <= min(mine):
            return True
    return False


def inside(text: Lettering, corners: Sequence[Point]) -> bool:
    """Whether the capitals of a text lie wholly inside a shape, which need not be convex."""
    low = _lowered(quad(text))
    return _holds(corners, low[0]) and not _cross(low, corners)


def beyond(text: Lettering, corners: Sequence[Point]) -> bool:
    """Whether a text lies wholly outside a shape."""
    own = quad(text)
    return not _holds(corners, own[0]) and not _holds(own, corners[0]) and not _cross(own, corners)


def _lowered(own: Sequence[Point]) -> list[Point]:
    """Return a text's corners as high as its capitals are."""
    top, bottom = (own[0], own[1]), (own[3], own[2])
    less = (1 - CAPITALS) / 2

    def between(one: Point, other: Point, share: float) -> Point:
        return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share

    upper = [between(a, b, less) for a, b in zip(top, bottom, strict=True)]
    lower = [between(a, b, 1 - less) for a, b in zip(top, bottom, strict=True)]
    return [upper[0], upper[1], lower[1], lower[0]]


def _holds(corners: Sequence[Point], at: Point) -> bool:
    """Whether a shape holds a point: a ray from it crosses the edge an odd number of times."""
    x, y = at
    odd = False
    for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def _cross(one: Sequence[Point], other: Sequence[Point]) -> bool:
    return any(
        _meet(*mine, *theirs)
        for mine in pairwise([*one, one[0]])
        for theirs in pairwise([*other, other[0]])
    )


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the straights from a to b and from c to d cross."""
    return _side(a, b, c) != _side(a, b, d) and _side(c, d, a) != _side(c, d, b)


def _side(a: Point, b: Point, at: Point) -> bool:
    return (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0]) > 0


def sloped(text: Lettering, one: Point, other: Point) -> Lettering:
    """Return a text written along a line, read from below or from the right."""
    slope = round(degrees(atan2(other[1] - one[1], other[0] - one[0])), 3)
    slope = (slope + 90.0) % 180.0 - 90.0
    if slope == -90.0:
        return evolve(text, turned=True, slope_deg=0.0)
    return evolve(text, turned=False, slope_deg=slope)


def put(text: Lettering, point: Point) -> Lettering:
    """Return a text at another point."""
    return evolve(text, x_mm=point[0], y_mm=point[1])
