"""Where corners lie roughly: laid out one by one with two tapes each, the right way round.

Two tapes leave two places for a corner, one on either side of the line between their other ends.
All ways are tried. Of those that fit the tapes about equally well the one is taken whose
outline crosses itself nowhere and has the fewest corners that point inwards.
"""

from collections.abc import Iterator
from math import dist, sqrt

from drylay.survey.chances import bar_ratio
from drylay.survey.network import Line, Net
from drylay.survey.sources import COVERAGE

Place = tuple[float, float]
#: Ways that fit no worse than the best by this much are alike. Assumption.
ALIKE_MM = 30.0
#: So many ways at most are tried to the end.
MOST_STARTS = 6


def starts_of(net: Net) -> list[tuple[Place, ...]]:
    """Return where the corners of a network lie roughly, the likeliest first.

    Nothing where two tapes do not reach every corner, laid out one by one.
    """
    laid = [_upright(net, ways) for ways in _laid(net, _first(net))]
    misfits = [_misfit(net, places) for places in laid]
    alike = sorted(
        (_bends(net, places), at, places)
        for at, (places, misfit) in enumerate(zip(laid, misfits, strict=True))
        if misfit <= min(misfits) + ALIKE_MM
    )
    simple = [places for (crossed, _), _, places in alike if not crossed]
    return simple[:MOST_STARTS] or [places for _, _, places in alike[:1]]


def _first(net: Net) -> dict[int, Place]:
    """Return the first corner and the end of a tape from it: that along, where there is one."""
    from_first = [(sum(line), long) for line, long in zip(net.lines, net.long, strict=True)
                  if 0 in line]  # fmt: skip
    end, long = next((tape for tape in from_first if tape[0] == net.base), from_first[0])
    return {0: (0.0, 0.0), end: (long, 0.0)}


def _laid(net: Net, placed: dict[int, Place]) -> Iterator[tuple[Place, ...]]:
    """Yield the corners laid out in every way there is."""
    if len(placed) == net.count:
        yield tuple(placed[at] for at in range(net.count))
        return
    reach = {at: _tapes_to(net, placed, at) for at in range(net.count) if at not in placed}
    most = max(len(tapes) for tapes in reach.values())
    if most < 2:
        return
    corner = next(at for at, tapes in reach.items() if len(tapes) == most)
    ways = _spots(reach[corner])
    if len(placed) == 2:  # the mirror image of all is the same shape
        ways = ways[:1]
    for spot in ways:
        yield from _laid(net, placed | {corner: spot})


def _tapes_to(net: Net, placed: dict[int, Place], corner: int) -> list[tuple[Place, float]]:
    """Return the placed ends of tapes to a corner, one tape for each, with their lengths."""
    found: dict[int, float] = {}
    for (one, other), long in zip(net.lines, net.long, strict=True):
        if corner in (one, other):
            end = other if one == corner else one
            if end in placed:
                found.setdefault(end, long)
    return [(placed[end], long) for end, long in found.items()]


def _spots(tapes: list[tuple[Place, float]]) -> list[Place]:
    """Return the places for a corner, those off the others' tapes left out."""
    first, second = max(_pairs(tapes), key=lambda pair: _squareness(*pair))
    spots = _meet(first, second)
    misfits = [max(abs(dist(spot, end) - long) for end, long in tapes) for spot in spots]
    return [s for s, off in zip(spots, misfits, strict=True) if off <= min(misfits) + ALIKE_MM]


def _pairs(
    tapes: list[tuple[Place, float]],
) -> Iterator[tuple[tuple[Place, float], tuple[Place, float]]]:
    for at, one in enumerate(tapes):
        for other in tapes[at + 1 :]:
            yield one, other


def _squareness(one: tuple[Place, float], other: tuple[Place, float]) -> float:
    """Return how squarely two tapes meet, 1 at a right angle; below 0 where they do not."""
    base, (a, b) = dist(one[0], other[0]), (one[1], other[1])
    if not base:
        return -2.0
    cosine = (a * a + b * b - base * base) / (2 * a * b)
    return 1 - abs(cosine) if abs(cosine) <= 1 else -1.0


def _meet(one: tuple[Place, float], other: tuple[Place, float]) -> list[Place]:
    """Return the two places where tapes from two ends meet; nearly so where they fall short."""
    (x1, y1), (x2, y2) = one[0], other[0]
    base = dist(one[0], other[0]) or 1.0
    ahead = (one[1] ** 2 - other[1] ** 2 + base**2) / (2 * base)
    aside = sqrt(max(one[1] ** 2 - ahead**2, 0.0))
    ux, uy = (x2 - x1) / base, (y2 - y1) / base
    x, y = x1 + ux * ahead, y1 + uy * ahead
    return [(x - uy * aside, y + ux * aside), (x + uy * aside, y - ux * aside)]


def _misfit(net: Net, places: tuple[Place, ...]) -> float:
    off = (dist(places[a], places[b]) - long for (a, b), long in zip(net.lines, net.long,
                                                                     strict=True))  # fmt: skip
    return sqrt(sum(each * each for each in off) / len(net.lines))


def _upright(net: Net, places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Return places with the base along, and the outline round from along towards across."""
    ring = [places[at] for at in net.ring]
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in _sides(ring))
    up = 1.0 if area >= 0 else -1.0
    x, y = places[net.base][0], places[net.base][1] * up
    long = sqrt(x * x + y * y) or 1.0
    c, s = x / long, y / long
    return tuple((px * c + py * up * s, py * up * c - px * s) for px, py in places)


def _sides(ring: list[Place]) -> list[tuple[Place, Place]]:
    return list(zip(ring, [*ring[1:], *ring[:1]], strict=True))


def _bends(net: Net, places: tuple[Place, ...]) -> tuple[bool, int]:
    """Return whether an outline crosses itself, and how many of its corners point inwards."""
    ring = [places[at] for at in net.ring]
    sides = _sides(ring)
    crossed = any(
        _cross(*sides[i], *sides[j])
        for i in range(len(sides))
        for j in range(i + 2, len(sides))
        if not (i == 0 and j == len(sides) - 1)
    )
    turns = [_turn(ring[at - 1], ring[at], ring[(at + 1) % len(ring)]) for at in range(len(ring))]
    return crossed, sum(turn < 0 for turn in turns)


def _turn(a: Place, b: Place, c: Place) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _cross(a: Place, b: Place, c: Place, d: Place) -> bool:
    one, other = _turn(a, b, c) * _turn(a, b, d), _turn(c, d, a) * _turn(c, d, b)
    return one <= 0 and other <= 0


def longest_beyond(net: Net) -> tuple[int, float, tuple[int, ...]] | None:
    """Return the tape furthest beyond the way round by others: which, by how much, their numbers.

    None where every tape is at most as long as every way round, or longer by no more than 95 of 100
    are by chance. Two corners cannot be further apart than any way from one to the other.
    """
    ways = [_way_round(net, at) for at in range(len(net.lines))]
    found = [
        (at, net.long[at] - way[0], way[1])
        for at, way in enumerate(ways)
        if way is not None and net.long[at] > way[0] + _by_chance(net, (at, *way[1]))
    ]
    return max(found, key=lambda each: (each[1], -each[0]), default=None)


def _by_chance(net: Net, which: tuple[int, ...]) -> float:
    return bar_ratio(COVERAGE) * sqrt(sum(net.sigma[at] ** 2 for at in which))


def _way_round(net: Net, at: int) -> tuple[float, tuple[int, ...]] | None:
    """Return the shortest way between a tape's ends by other tapes, and which these are."""
    start, end = net.lines[at]
    best: dict[int, tuple[float, tuple[int, ...]]] = {start: (0.0, ())}
    for _ in range(net.count):
        for other, line in enumerate(net.lines):
            for a, b in (line, line[::-1]) if other != at else ():
                if a in best:
                    way = (best[a][0] + net.long[other], (*best[a][1], other))
                    best[b] = min(best.get(b, way), way)
    return best.get(end)


def lines_told(net: Net, names: tuple[str, ...], which: tuple[int, ...]) -> str:
    """Return tapes by the corners they join: "A-B, B-C"."""
    return ", ".join(line_told(net.lines[at], names) for at in which)


def line_told(line: Line, names: tuple[str, ...]) -> str:
    """Return a tape by the corners it joins: "A-B"."""
    return f"{names[line[0]]}-{names[line[1]]}"
