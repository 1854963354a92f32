"""Where pegs stand by what was taped from one to another: least squares in the plane.

Every tape is told in the same way: its length as read, less the distance of its pegs, is what is
left over. Places are sought that leave as little as can be, the sum of squares counted. Source:
C. F. Gauss, the method of least squares, in steps as the tapes turn; arithmetic.
"""

import math
from collections.abc import Iterable, Mapping, Sequence

from attrs import frozen

from drylay.survey.model import Tape

Place = tuple[float, float]
#: A way that a peg may be moved: its mark, and along and across of that way, one long.
Way = tuple[str, Place]
#: Pegs stay still in ways that no tape tells of; other steps are short by a hundred millionth.
STILL = 1e-8
#: Steps are taken until none is larger than this, or so many.
LAST_STEP_MM, STEPS = 1e-7, 80
#: A way of moving all pegs that changes no tape by more than this part of it is not held.
LOOSE = 1e-6


@frozen(kw_only=True)
class Figure:
    """Places of pegs that come nearest to what was taped; `left_mm` is of each tape."""

    places: Mapping[str, Place]
    left_mm: tuple[float, ...]

    def most_mm(self) -> float:
        """Return the most that any tape is off from this figure."""
        return max(map(abs, self.left_mm), default=0.0)


def ways_of(marks: Iterable[str], base: tuple[str, str], places: Mapping[str, Place]) -> list[Way]:
    """Return the ways that pegs may be moved: any, but the base line's far peg only along it."""
    ways: list[Way] = []
    for mark in marks:
        if mark == base[1]:
            ways.append((mark, _direction(places[base[0]], places[mark])))
        else:
            ways += [(mark, (1.0, 0.0)), (mark, (0.0, 1.0))]
    return ways


def figure_of(places: Mapping[str, Place], ways: Sequence[Way], tapes: Sequence[Tape]) -> Figure:
    """Return the figure nearest to the tapes, by moving pegs the given ways only."""
    now = dict(places)
    for _ in range(STEPS if ways else 0):
        step = _step(now, ways, tapes)
        for (mark, (dx, dy)), by in zip(ways, step, strict=True):
            x, y = now[mark]
            now[mark] = (x + dx * by, y + dy * by)
        if max(map(abs, step)) < LAST_STEP_MM:
            break
    return Figure(places=now, left_mm=tuple(_left(now, tapes)))


def _left(places: Mapping[str, Place], tapes: Sequence[Tape]) -> list[float]:
    return [each.length_mm - math.dist(places[each.start], places[each.end]) for each in tapes]


def _step(places: Mapping[str, Place], ways: Sequence[Way], tapes: Sequence[Tape]) -> list[float]:
    table = rows_of(places, ways, tapes)
    left = _left(places, tapes)
    count = len(ways)
    normal = [
        [sum(row[a] * row[b] for row in table) + (STILL if a == b else 0.0) for b in range(count)]
        for a in range(count)
    ]
    return _solved(normal, [sum(r[a] * by for r, by in zip(table, left, strict=True))
                            for a in range(count)])  # fmt: skip


def rows_of(
    places: Mapping[str, Place], ways: Sequence[Way], tapes: Sequence[Tape]
) -> list[list[float]]:
    """Return how much each tape grows as pegs are moved each way by one."""
    table = []
    for tape in tapes:
        dx, dy = _direction(places[tape.start], places[tape.end])
        signs = {tape.start: -1.0, tape.end: 1.0}
        table.append([signs.get(mark, 0.0) * (dx * x + dy * y) for mark, (x, y) in ways])
    return table


def _direction(one: Place, other: Place) -> Place:
    long = math.dist(one, other)
    if not long:
        return 0.0, 0.0
    return (other[0] - one[0]) / long, (other[1] - one[1]) / long


def _solved(normal: list[list[float]], right: list[float]) -> list[float]:
    """Return the answer of as many equations, the largest pivot first."""
    rows = [[*row, value] for row, value in zip(normal, right, strict=True)]
    count = len(rows)
    for at in range(count):
        best = max(range(at, count), key=lambda n: abs(rows[n][at]))
        rows[at], rows[best] = rows[best], rows[at]
        for under in range(at + 1, count):
            share = rows[under][at] / rows[at][at]
            rows[under] = [a - share * b for a, b in zip(rows[under], rows[at], strict=True)]
    answer = [0.0] * count
    for at in reversed(range(count)):
        known = sum(rows[at][n] * answer[n] for n in range(at + 1, count))
        answer[at] = (rows[at][count] - known) / rows[at][at]
    return answer


def held(table: Sequence[Sequence[float]]) -> int:
    """Return how many ways of moving the pegs tapes hold: the rank of their rows."""
    left = [list(row) for row in table]
    found = 0
    for at in range(len(left[0]) if left else 0):
        best = max(range(found, len(left)), key=lambda n: abs(left[n][at]), default=None)
        if best is None or abs(left[best][at]) < LOOSE:
            continue
        left[found], left[best] = left[best], left[found]
        for under in range(found + 1, len(left)):
            share = left[under][at] / left[found][at]
            left[under] = [a - share * b for a, b in zip(left[under], left[found], strict=True)]
        found += 1
    return found
