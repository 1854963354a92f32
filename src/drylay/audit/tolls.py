"""Prices on windows: which of them hold, what each line of a set pays, what is given back.

How far apart joints of neighbours have to be is told to a worth vector by windows: two
stretches of stations, one of either neighbour, where these have one joint in all at most.
"""

from collections.abc import Iterator
from math import gcd

from attrs import frozen

from drylay.audit.shapes import LineShape, TaskShape, VectorShape, WindowShape

#: What a joint at each station adds.
Toll = dict[int, int]


@frozen(kw_only=True)
class Kind:
    """So many lines of a set that pay alike: all odd or even, the set's first, its last."""

    count: int
    odd: bool
    first: bool = False
    last: bool = False


def kinds_of(line: LineShape) -> tuple[Kind, ...]:
    """Return the lines of a set by what they pay: the first, the last, odd and even between."""
    if line.count < 2:
        return (Kind(count=max(line.count, 0), odd=True, first=True, last=True),)
    between = line.count - 2
    return (
        Kind(count=1, odd=True, first=True),
        Kind(count=between // 2, odd=True),
        Kind(count=between - between // 2, odd=False),
        Kind(count=1, odd=line.count % 2 == 1, last=True),
    )


def tolls(task: TaskShape, number: int, vector: VectorShape) -> tuple[tuple[int, Toll], ...]:
    """Return what window prices add to joints in lines of a set: of how many lines, at which.

    Each window by itself adds no more to any plan than `given_back` says; so all together
    add no more than all give back, and a plan's worth, with what is added to its joints and
    less what is given back, is never above what it was.

    *Within a set.* Let a lines be odd (first, third ...) and b even, so that a is b or b + 1,
    and g their greatest common divisor. A joint in the first stretch adds p b/g on an odd
    line, one in the second adds p a/g on an even line; p a b/g is given back. A line has one
    joint in its stretch at most. Say e of the even lines have theirs. If e = 0, the a odd
    lines add a p b/g at most. Else each of the e keeps both lines beside it from having one.
    Pair each even line with the odd one before it: e odd lines are kept from it; and where
    a = b + 1, the last of the e has an odd line after it which is in no pair of theirs, one
    more. So at most b - e odd lines have one, and what is added is, in p/g, no more than
    (b - e) b + e a = b b + e (a - b): for a = b that is a b, for a = b + 1 it is
    b b + e <= b b + b = a b.

    *Between sets.* The last line of one set and the first of the other are neighbours: they
    have one joint in the two stretches at most. It adds p, and p is given back.

    A window that does not hold (see `keeps_apart`) adds nothing and gives nothing back.
    """
    line, found = task.lines[number], []
    for kind in kinds_of(line):
        toll: Toll = {}
        for window in vector.windows:
            if keeps_apart(task, window):
                for first, width, price in _charged(line, number, kind, window):
                    for station in range(first, first + width):
                        toll[station] = toll.get(station, 0) + price
        found.append((kind.count, toll))
    return tuple(found)


def _charged(
    line: LineShape, number: int, kind: Kind, window: WindowShape
) -> Iterator[tuple[int, int, int]]:
    """Yield (first station, how many, price of a joint) where a window charges a line."""
    one = (window.first, window.width)
    other = (window.beside_first, window.beside_width)
    if window.line == number == window.beside:
        on_odd, on_even, _back = _shares(line.count)
        yield (*one, window.price * on_odd) if kind.odd else (*other, window.price * on_even)
    elif window.line == number and kind.last:
        yield (*one, window.price)
    elif window.beside == number and kind.first:
        yield (*other, window.price)


def _shares(count: int) -> tuple[int, int, int]:
    """Return how often a price falls on a joint of odd and of even lines, and is given back."""
    odd, even = (count + 1) // 2, count // 2
    share = gcd(odd, even) or 1
    return even // share, odd // share, odd * even // share


def given_back(task: TaskShape, vector: VectorShape) -> int:
    """Return what the windows of a vector that hold take off the least worth of all lines."""
    back = 0
    for window in vector.windows:
        if keeps_apart(task, window):
            within = window.line == window.beside
            times = _shares(task.lines[window.line].count)[2] if within else 1
            back += window.price * times
    return back


def keeps_apart(task: TaskShape, window: WindowShape) -> bool:
    """Return whether neighbours have one joint in a window at most, in all.

    Its lines have to be neighbours: odd and even ones of a set of two at least, or the last
    and the first of two sets told to lie beside one another, in that order. Each stretch lies
    within its set's stations and is no wider than the bays a piece spans at least, so that a
    line has one joint there at most; and the stations furthest apart, one of either stretch,
    are less than the stagger apart, so that no two neighbours have one each.
    """
    if not _neighbours(task, window):
        return False
    one, other = task.lines[window.line], task.lines[window.beside]
    if not (
        _is_a_stretch(one, window.first, window.width)
        and _is_a_stretch(other, window.beside_first, window.beside_width)
    ):
        return False
    near = one.first_station + window.first
    far = other.first_station + window.beside_first
    furthest = max(far + window.beside_width - 1 - near, near + window.width - 1 - far)
    return furthest < max(one.stagger, other.stagger)


def _neighbours(task: TaskShape, window: WindowShape) -> bool:
    if not all(0 <= number < len(task.lines) for number in (window.line, window.beside)):
        return False
    if window.line == window.beside:
        return task.lines[window.line].count >= 2
    told = any((p.one, p.other) == (window.line, window.beside) for p in task.beside)
    return told and min(task.lines[window.line].count, task.lines[window.beside].count) >= 1


def _is_a_stretch(line: LineShape, first: int, width: int) -> bool:
    within = first >= 0 and first + width <= len(line.stations)
    return within and 1 <= width <= max(1, line.least_bays)
