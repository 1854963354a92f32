"""Windows: stretches of stations of two neighbours that hold one joint in all.

Two lines side by side have one joint at most in two stretches that are nowhere as far apart as
the stagger, if neither stretch is wider than the least bays of its line. The widest such pairs
leave the linear programme the least room; the ones its optimum breaks are added as it goes.
"""

from collections.abc import Container, Iterator, Sequence
from itertools import accumulate, pairwise

from attrs import frozen

from drylay.cutting.lanes import Lane, bays_apart
from drylay.cutting.model import Task, WindowPrice

Shares = Sequence[float]  # for each station, the share of some lines that joint there


@frozen(kw_only=True)
class Group:
    """Lines of one set that a window treats alike: lanes, how many lines, what a joint counts."""

    line: int
    lanes: tuple[int, ...]
    count: int


def groups_beside(
    task: Task, lanes: Sequence[Lane], each: Container[int] = ()
) -> Iterator[tuple[Group, Group, int]]:
    """Yield every two groups of lines that lie beside one another, and how far apart they joint.

    All odd lines of a set are one group, and all even ones; in some sets `each` line is one.
    """
    for index, line in enumerate(task.lines):
        own = [number for number, lane in enumerate(lanes) if lane.line == index]
        if line.stagger and index in each:
            alone = [Group(line=index, lanes=(number,), count=1) for number in own]
            yield from ((one, other, line.stagger) for one, other in pairwise(alone))
        elif line.stagger and line.count > 1:
            odd = Group(
                line=index,
                lanes=tuple(n for n in own if lanes[n].odd),
                count=(line.count + 1) // 2,
            )
            even = Group(
                line=index,
                lanes=tuple(n for n in own if not lanes[n].odd),
                count=line.count // 2,
            )
            yield odd, even, line.stagger
    for pair in task.beside:
        bays = bays_apart(task, pair.one, pair.other)
        one, other = task.lines[pair.one], task.lines[pair.other]
        if bays and one.count and other.count:
            last = _lane_with(lanes, pair.one, one.count - 1)
            first = _lane_with(lanes, pair.other, 0)
            yield (
                Group(line=pair.one, lanes=(last,), count=1),
                Group(line=pair.other, lanes=(first,), count=1),
                bays,
            )


def _lane_with(lanes: Sequence[Lane], line: int, place: int) -> int:
    return next(n for n, lane in enumerate(lanes) if lane.line == line and place in lane.places)


def stretches(least: int, other_least: int, bays: int) -> list[tuple[int, int, int]]:
    """Return (width, width of the other, its start less the first's) of the widest pairs.

    `least` and `other_least` are the least bays of both, `bays` how far apart joints are.
    """
    wide, other = max(1, least), max(1, other_least)
    if wide + other <= 2 * bays:
        return [(wide, other, shift) for shift in range(wide - bays, bays - other + 1)]
    widths = range(max(1, 2 * bays - other), min(wide, 2 * bays - 1) + 1)
    return [(width, 2 * bays - width, width - bays) for width in widths]


def too_full(
    task: Task, pair: tuple[Group, Group, int], one: Shares, other: Shares
) -> list[WindowPrice]:
    """Return the windows of two groups in which their shares add up to more than one joint."""
    first, second, bays = pair
    ahead = task.lines[second.line].first_station - task.lines[first.line].first_station
    sums = [0.0, *accumulate(one)], [0.0, *accumulate(other)]
    leasts = task.lines[first.line].least_bays, task.lines[second.line].least_bays
    found = []
    for width, width_beside, shift in stretches(*leasts, bays):
        for start in range(1 - width, len(one)):
            stretch = _inside(start, width, len(one))
            beside = _inside(start + shift - ahead, width_beside, len(other))
            if stretch[1] < 1 or beside[1] < 1:
                continue
            held = _held(sums[0], stretch) + _held(sums[1], beside)
            if held > 1 + 1e-6:
                found.append((held, stretch, beside))
    return [
        WindowPrice(
            line=first.line,
            first=stretch[0],
            width=stretch[1],
            beside=second.line,
            beside_first=beside[0],
            beside_width=beside[1],
            price=0,
        )
        for _, stretch, beside in found
    ]


def _inside(start: int, width: int, stations: int) -> tuple[int, int]:
    """Return first and width of that part of a stretch that lies within the stations."""
    first, last = max(0, start), min(stations, start + width)
    return first, last - first


def _held(sums: Sequence[float], stretch: tuple[int, int]) -> float:
    return sums[stretch[0] + stretch[1]] - sums[stretch[0]]
