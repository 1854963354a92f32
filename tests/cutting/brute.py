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


@cache
def least_cost(task: Task) -> int | None:
    """Return the least objective of a task over all sequences of lines and all cuttings."""
    costs = []
    stock = tuple((s.length - 2 * s.trim, s.price) for s in task.stock)
    limits = tuple(-1 if s.limit is None else s.limit for s in task.stock)
    cut = _cutter(stock, task.kerf)
    for pieces, joints in layings(task):
        cost = cut(pieces, limits)
        if cost is not None:
            costs.append(cost + task.joint_price * joints)
    return min(costs, default=None)


def layings(task: Task) -> set[tuple[tuple[int, ...], int]]:
    """Return (pieces, joints) of every way to lay all lines of a task, fixed pieces with them.

    Line by line; of the lines laid, the joints of those are kept that have a neighbour to come.
    """
    neighbours = side_by_side(task)
    fixed = tuple(sorted(p.length for p in task.pieces for _ in range(p.count)))
    states = {((), fixed, 0)}
    laid: list[Row] = []
    for row in rows_of(task):
        laid.append(row)
        open_rows = {one for one, other, _ in neighbours if one in laid and other not in laid}
        ways = ways_of(task.lines[row[0]])
        states = {
            _laid(state, row, way, open_rows)
            for state in states
            for way in ways
            if _keeps_apart(task, neighbours, dict(state[0]), row, way[0])
        }
    return {(pieces, joints) for _, pieces, joints in states}


Row = tuple[int, int]  # set, number of the line in it


def rows_of(task: Task) -> list[Row]:
    return [(s, n) for s, line in enumerate(task.lines) for n in range(line.count)]


def side_by_side(task: Task) -> list[tuple[Row, Row, int]]:
    """Return both ways round every two lines that lie side by side, and their stagger."""
    found = []
    for s, line in enumerate(task.lines):
        found += [((s, n), (s, n + 1), line.stagger) for n in range(line.count - 1)]
    for pair in task.beside:
        one, other = task.lines[pair.one], task.lines[pair.other]
        if one.count and other.count:
            stagger = max(one.stagger, other.stagger)
            found.append(((pair.one, one.count - 1), (pair.other, 0), stagger))
    return found + [(other, one, stagger) for one, other, stagger in found]


def _keeps_apart(task, neighbours, laid, row, joints) -> bool:
    own = task.lines[row[0]].first_station
    return all(
        abs(own + a - task.lines[other[0]].first_station - b) >= stagger
        for one, other, stagger in neighbours
        if one == row and other in laid
        for a in joints
        for b in laid[other]
    )


def _laid(state, row, way, open_rows):
    laid, pieces, total = state
    joints, more = way
    kept = tuple((r, its) for r, its in (*laid, (row, joints)) if r in open_rows)
    return kept, tuple(sorted((*pieces, *more))), total + len(joints)


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
