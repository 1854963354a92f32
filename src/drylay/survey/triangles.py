"""Points to triangles, exactly: no point lies inside the circle through a triangle's corners.

Places are whole 1/320 mm, so that the same points make the same triangles on every machine. The
points are swept from left to right into some triangles, and edges are flipped until all hold. Where
four points or more lie on one circle (a square), all triangles there share the first of them, from
left to right; which way the ground folds nobody knows.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

Place = tuple[int, int]
Three = tuple[int, int, int]
Edge = frozenset[int]


def turn(a: Place, b: Place, c: Place) -> int:
    """Return twice the area of a triangle, below 0 where it runs the other way round."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def within_circle(a: Place, b: Place, c: Place, d: Place) -> int:
    """Return a number above 0 where `d` lies inside the circle through a triangle that runs round.

    Below 0 it lies outside, at 0 on the circle.
    """
    (ax, ay, aa), (bx, by, bb), (cx, cy, cc) = (
        (p[0] - d[0], p[1] - d[1], (p[0] - d[0]) ** 2 + (p[1] - d[1]) ** 2) for p in (a, b, c)
    )
    return ax * (by * cc - bb * cy) - ay * (bx * cc - bb * cx) + aa * (bx * cy - by * cx)


def triangulated(places: Sequence[Place]) -> tuple[Three, ...]:
    """Return triangles over places, as numbers of places, round; () where all lie in line.

    Places are different from each other.
    """
    order = sorted(range(len(places)), key=lambda at: places[at])
    swept = _swept(places, order)
    rank = {at: number for number, at in enumerate(order)}
    sides = {side: three for three in swept for side in _sides(three)}
    waiting = sorted(sides)
    while waiting:
        side = waiting.pop()
        if _flips(places, rank, sides, side):
            waiting += _flipped(sides, side)
    return tuple(sorted({_least_first(three) for three in sides.values()}))


def _least_first(three: Three) -> Three:
    at = three.index(min(three))
    return (three[at], three[(at + 1) % 3], three[(at + 2) % 3])


def _sides(three: Three) -> Iterator[tuple[int, int]]:
    a, b, c = three
    yield from ((a, b), (b, c), (c, a))


def _swept(places: Sequence[Place], order: list[int]) -> list[Three]:
    """Return triangles made by joining each place to all that it sees of those before it."""
    first = next(
        (n for n in range(2, len(order))
         if turn(*(places[order[at]] for at in (0, n - 1, n)))), None
    )  # fmt: skip
    if first is None:
        return []
    line, apex = order[:first], order[first]
    if turn(places[line[0]], places[line[-1]], places[apex]) < 0:
        line = line[::-1]
    found = [(a, b, apex) for a, b in pairwise(line)]
    hull = [*line, apex]
    for at in order[first + 1 :]:
        found += _joined(places, hull, at)
    return found


def _joined(places: Sequence[Place], hull: list[int], at: int) -> list[Three]:
    """Return the triangles from a place to the sides of the hull that it sees; the hull grows."""
    count = len(hull)
    seen = [turn(places[hull[n]], places[hull[(n + 1) % count]], places[at]) < 0
            for n in range(count)]  # fmt: skip
    begin = next(n for n in range(count) if seen[n] and not seen[n - 1])
    run = 0
    while seen[(begin + run) % count]:
        run += 1
    chain = [hull[(begin + n) % count] for n in range(run + 1)]
    rest = [hull[(begin + run + n) % count] for n in range(count - run + 1)]
    hull[:] = [*rest, at]
    return [(b, a, at) for a, b in pairwise(chain)]


Sides = dict[tuple[int, int], Three]


def _flips(
    places: Sequence[Place], rank: dict[int, int], sides: Sides, side: tuple[int, int]
) -> bool:
    """Return whether the side between two triangles is to be turned into the other diagonal."""
    a, b = side
    if side not in sides or (b, a) not in sides:
        return False
    c, d = _third(sides[side], side), _third(sides[b, a], side)
    inside = within_circle(places[a], places[b], places[c], places[d])
    if inside == 0:
        return min((a, b, c, d), key=lambda at: rank[at]) in (c, d)
    return inside > 0


def _third(three: Three, side: tuple[int, int]) -> int:
    return next(at for at in three if at not in side)


def _flipped(sides: Sides, side: tuple[int, int]) -> list[tuple[int, int]]:
    """Turn a side into the other diagonal, and return the sides to be looked at again."""
    a, b = side
    c, d = _third(sides.pop((a, b)), side), _third(sides.pop((b, a)), side)
    for three in ((a, d, c), (d, b, c)):
        sides.update(dict.fromkeys(_sides(three), three))
    return [(b, c), (c, a), (a, d), (d, b)]


def hull_of(triangles: Sequence[Three]) -> tuple[int, ...]:
    """Return the numbers of the places round the outside, from the least on, round."""
    sides = {side for three in triangles for side in _sides(three)}
    following = {a: b for a, b in sides if (b, a) not in sides}
    if not following:
        return ()
    ring = [min(following)]
    while following[ring[-1]] != ring[0]:
        ring.append(following[ring[-1]])
    return tuple(ring)


def folds(places: Sequence[Place], triangles: Sequence[Three]) -> Iterator[tuple[int, ...]]:
    """Yield the four places of every two triangles that could be joined the other way as well."""
    sides = {side: three for three in triangles for side in _sides(three)}
    for (a, b), three in sorted(sides.items()):
        if a < b and (b, a) in sides:
            c, d = _third(three, (a, b)), _third(sides[b, a], (a, b))
            if within_circle(places[a], places[b], places[c], places[d]) == 0:
                yield (a, b, c, d)
