"""Plane geometry in exact numbers, for decks on an outline; nothing is shared with the planner.

A place is a pair of whole numbers or fractions, a shape the places of its corners in order. In
plans these are counts of 1/320 mm, with along as the first and across as the second number; the
area of a shape that runs from along towards across is above 0.
"""

from collections.abc import Iterator, Sequence
from math import ceil, floor, isqrt, lcm

from attrs import frozen

from drylay.audit.exact import Fraction

Number = int | Fraction
Place = tuple[Number, Number]
Shape = tuple[Place, ...]
Box = tuple[int, int, int, int]

#: Directions are told in whole numbers of this: so many that none is off by 1/320 mm over 100 m.
UNIT = 1 << 32


def size(number: Number) -> Number:
    """Return a number without its sign."""
    return number if number >= 0 else -number


def turn(first: Place, second: Place, third: Place) -> Number:
    """Return above 0 where the way by three places turns from along towards across."""
    (ax, ay), (bx, by), (cx, cy) = first, second, third
    return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)


def sides_of(shape: Sequence[Place]) -> Iterator[tuple[Place, Place]]:
    """Yield each side of a shape, from a corner to the next."""
    for index, corner in enumerate(shape):
        yield corner, shape[(index + 1) % len(shape)]


def twice_area(shape: Sequence[Place]) -> Number:
    """Return twice the area of a shape, below 0 where it runs the other way round."""
    total: Number = 0
    for (ax, ay), (bx, by) in sides_of(shape):
        total += ax * by - bx * ay
    return total


def box(shape: Sequence[Place]) -> tuple[Number, Number, Number, Number]:
    """Return least along, least across, most along and most across of some places."""
    alongs, acrosses = [x for x, _ in shape], [y for _, y in shape]
    return min(alongs), min(acrosses), max(alongs), max(acrosses)


def boxes_meet(one: Sequence[Place], other: Sequence[Place], within: Number = 0) -> bool:
    """Return whether the boxes round two shapes come as near as this to each other."""
    a, b = box(one), box(other)
    return (
        a[0] - within <= b[2] and b[0] - within <= a[2]
        and a[1] - within <= b[3] and b[1] - within <= a[3]
    )  # fmt: skip


def outer_box(shape: Sequence[Place]) -> Box:
    """Return the least box of whole numbers round some places, as `box` does."""
    least_along, least_across, most_along, most_across = box(shape)
    return floor(least_along), floor(least_across), ceil(most_along), ceil(most_across)


def lie_apart(one: Box, other: Box) -> bool:
    """Return whether two boxes have no place in common: then nothing inside them has."""
    return (
        one[2] < other[0] or other[2] < one[0] or one[3] < other[1] or other[3] < one[1]
    )  # fmt: skip


def whole_numbers(*places: Place) -> list[Place]:
    """Return places, all so many times as far out that none is a fraction: quicker to work with."""
    under = lcm(*(number.denominator for place in places for number in place))
    return [
        (x.numerator * (under // x.denominator), y.numerator * (under // y.denominator))
        for x, y in places
    ]


def on_segment(place: Place, start: Place, end: Place) -> bool:
    """Return whether a place lies on a segment, its ends included."""
    if turn(start, end, place) != 0:
        return False
    (x, y), (ax, ay), (bx, by) = place, start, end
    return min(ax, bx) <= x <= max(ax, bx) and min(ay, by) <= y <= max(ay, by)


def inside(place: Place, shape: Sequence[Place]) -> int:
    """Return 1 for a place inside a shape, 0 for one on its edge, -1 for one outside."""
    odd = False
    x, y = place
    for start, end in sides_of(shape):
        if on_segment(place, start, end):
            return 0
        ay, by = start[1], end[1]
        if (ay > y) != (by > y):
            # which side of the edge: the sign of a turn, turned about where the edge falls
            left = turn(start, end, (x, y))
            odd ^= (left > 0) == (by > ay)
    return 1 if odd else -1


def segments_meet(a: Place, b: Place, c: Place, d: Place) -> bool:
    """Return whether two segments have a place in common, their ends included."""
    for p, q, r, s in zip(a, b, c, d, strict=True):
        # the quick answer: all of one lies before all of the other
        least, most = (p, q) if p < q else (q, p)
        if (r < least and s < least) or (r > most and s > most):
            return False
    a, b, c, d = whole_numbers(a, b, c, d)
    one, two = turn(a, b, c), turn(a, b, d)
    three, four = turn(c, d, a), turn(c, d, b)
    if ((one > 0 > two) or (one < 0 < two)) and ((three > 0 > four) or (three < 0 < four)):
        return True
    return on_segment(c, a, b) or on_segment(d, a, b) or on_segment(a, c, d) or on_segment(b, c, d)


def meeting(a: Place, b: Place, c: Place, d: Place) -> Place | None:
    """Return where the lines through two segments meet, None where they are parallel."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = a, b, c, d
    under = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if under == 0:
        return None
    share = Fraction((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / under
    return ax + share * (bx - ax), ay + share * (by - ay)


def is_simple(shape: Sequence[Place]) -> bool:
    """Return whether the sides of a shape meet at its corners alone, each with the next."""
    sides = list(sides_of(shape))
    if len(sides) < 3:
        return False
    for index, (start, end) in enumerate(sides):
        after = sides[(index + 1) % len(sides)][1]
        if start == end or (turn(start, end, after) == 0 and not on_segment(end, start, after)):
            return False
        for later in range(index + 2, len(sides)):
            if (later + 1) % len(sides) == index:
                continue
            if segments_meet(start, end, *sides[later]):
                return False
    return True


def clipped(shape: Sequence[Place], start: Place, end: Place) -> Shape:
    """Return what of a convex shape lies on the across side of a line, that along from its start.

    The side kept is the one that `turn` is not below 0 for.
    """
    kept: list[Place] = []
    for one, two in sides_of(shape):
        here, there = turn(start, end, one), turn(start, end, two)
        if here >= 0:
            kept.append(one)
        if (here > 0 > there) or (here < 0 < there):
            share = Fraction(here) / (here - there)
            (ax, ay), (bx, by) = one, two
            kept.append((ax + share * (bx - ax), ay + share * (by - ay)))
    return tuple(kept)


def twice_common(convex: Sequence[Place], shape: Sequence[Place]) -> Number:
    """Return twice the area that a convex shape has in common with any simple one.

    The simple shape is taken as the sum of the triangles from one corner to each side, with their
    signs; each is clipped to the convex shape.
    """
    total: Number = 0
    for one, two in sides_of(shape):
        whole = turn(shape[0], one, two)
        if whole == 0:
            continue
        part: Shape = (shape[0], one, two) if whole > 0 else (shape[0], two, one)
        for start, end in sides_of(convex):
            part = clipped(part, start, end)
        total += twice_area(part) if whole > 0 else -twice_area(part)
    return total


def squared_reach(place: Place, start: Place, end: Place) -> Number:
    """Return the square of the least way from a place to a segment."""
    (x, y), (ax, ay), (bx, by) = place, start, end
    long = (bx - ax) ** 2 + (by - ay) ** 2
    along = (x - ax) * (bx - ax) + (y - ay) * (by - ay)
    if along <= 0 or long == 0:
        return (x - ax) ** 2 + (y - ay) ** 2
    if along >= long:
        return (x - bx) ** 2 + (y - by) ** 2
    return Fraction(turn(start, end, place) ** 2) / long


def squared_to_edge(place: Place, shape: Sequence[Place]) -> Number:
    """Return the square of the least way from a place to the edge of a shape."""
    return min(squared_reach(place, start, end) for start, end in sides_of(shape))


def squared_apart(one: Sequence[Place], other: Sequence[Place]) -> Number:
    """Return the square of the least way between two shapes, 0 where they meet or overlap."""
    if inside(one[0], other) >= 0 or inside(other[0], one) >= 0:
        return 0
    found: Number | None = None
    for a, b in sides_of(one):
        for c, d in sides_of(other):
            if segments_meet(a, b, c, d):
                return 0
            ways = (
                squared_reach(a, c, d), squared_reach(b, c, d),
                squared_reach(c, a, b), squared_reach(d, a, b),
            )  # fmt: skip
            least = min(ways)
            found = least if found is None or least < found else found
    assert found is not None
    return found


def root(square: Number) -> Fraction:
    """Return the root of a number, down to 1/65536."""
    fraction = Fraction(square)
    return Fraction(isqrt((fraction.numerator << 32) // fraction.denominator), 1 << 16)


@frozen(kw_only=True)
class Run:
    """A direction in whole numbers, `UNIT` long: places are told along it and to its left."""

    cos: int
    sin: int

    def told(self, place: Place) -> Place:
        """Return how far along the run and how far to the left of it a place is, x `UNIT`."""
        x, y = place
        return self.cos * x + self.sin * y, self.cos * y - self.sin * x

    def all_told(self, shape: Sequence[Place]) -> Shape:
        """Return every corner of a shape as `told`."""
        return tuple(self.told(place) for place in shape)

    def place(self, told: Place) -> Place:
        """Return the place that is told so."""
        u, v = told
        square = self.cos**2 + self.sin**2
        return (
            Fraction(self.cos * u - self.sin * v) / square,
            Fraction(self.sin * u + self.cos * v) / square,
        )


def run_of(start: Place, end: Place) -> Run | None:
    """Return the direction from one place to another, None where they are one."""
    (ax, ay), (bx, by) = start, end
    x, y = bx - ax, by - ay
    under = x.denominator * y.denominator
    dx, dy = int(x * under), int(y * under)
    long = isqrt((dx * dx + dy * dy) << 64)
    if long == 0:
        return None
    return Run(cos=_nearest(dx << 64, long), sin=_nearest(dy << 64, long))


def _nearest(number: int, divisor: int) -> int:
    return (2 * number + divisor) // (2 * divisor)
