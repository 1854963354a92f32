"""Every way there is, for tiny tasks: slow, plain and of another mind than the engine."""

from functools import cache
from itertools import combinations

from drylay.cutting.model import Line, Task


def ways_of(line: Line) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Return (joints, pieces) of every way to make one line, whatever the boards."""
    bays = len(line.stations) - 1
    most = len(line.stations) if line.most_joints is None else line.most_joints
    left, right = line.joint_gap // 2, line.joint_gap - line.joint_gap // 2
    found = []
    for count in range(min(most, len(line.stations)) + 1):
        for joints in combinations(range(len(line.stations)), count):
            spans = [b - a for a, b in zip((0, *joints), (*joints, bays), strict=True)]
            if joints and min(spans) < line.least_bays:
                continue
            at = [line.stations[j] for j in joints]
            starts, ends = (
                [line.start, *(a + right for a in at)],
                [*(a - left for a in at), line.end],
            )
            pieces = tuple(e - s for s, e in zip(starts, ends, strict=True))
            if min(pieces) > 0:
                found.append((joints, pieces))
    return found


def least_cost(task: Task) -> int | None:
    """Return the least objective of a task over all sequences of lines and all cuttings."""
    fixed = tuple(sorted(p.length for p in task.pieces for _ in range(p.count)))
    layings = {(fixed, 0)}
    for line in task.lines:
        layings = {
            (tuple(sorted((*pieces, *more))), joints + extra)
            for pieces, joints in layings
            for more, extra in _layings(line)
        }
    costs = []
    stock = tuple((s.length - 2 * s.trim, s.price) for s in task.stock)
    limits = tuple(-1 if s.limit is None else s.limit for s in task.stock)
    cut = _cutter(stock, task.kerf)
    for pieces, joints in layings:
        cost = cut(pieces, limits)
        if cost is not None:
            costs.append(cost + task.joint_price * joints)
    return min(costs, default=None)


def _layings(line: Line) -> set[tuple[tuple[int, ...], int]]:
    """Return (pieces, joints) of every sequence of a set's lines."""
    ways = ways_of(line)
    states = {((), (), 0)}
    for _ in range(line.count):
        states = {
            (joints, tuple(sorted((*pieces, *more))), total + len(joints))
            for last, pieces, total in states
            for joints, more in ways
            if all(abs(a - b) >= line.stagger for a in last for b in joints)
        }
    return {(pieces, total) for _, pieces, total in states}


def _cutter(stock, kerf):
    @cache
    def cut(pieces: tuple[int, ...], limits: tuple[int, ...]) -> int | None:
        if not pieces:
            return 0
        *rest, first = pieces
        best = None
        for others in _subsets(tuple(rest)):
            need = first + sum(others) + kerf * len(others)
            left = list(rest)
            for other in others:
                left.remove(other)
            for s, (usable, price) in enumerate(stock):
                if need <= usable and limits[s]:
                    fewer = (*limits[:s], limits[s] - (limits[s] > 0), *limits[s + 1 :])
                    more = cut(tuple(left), fewer)
                    if more is not None and (best is None or price + more < best):
                        best = price + more
        return best

    return cut


@cache
def _subsets(pieces: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    return tuple({c for n in range(len(pieces) + 1) for c in combinations(pieces, n)})
