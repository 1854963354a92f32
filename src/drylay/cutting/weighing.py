"""What a worth vector says of a task: what each board carries, what the lines are worth."""

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

from drylay.cutting.model import Line, Stock, Task, WindowPrice, WorthVector

Weighed = tuple[tuple[int, ...], int, int]  # carries of each stock, demand, scale
Arc = tuple[int, int, int]  # from station (-1 the start), to station (-2 the end), length


def widest_window(line: Line) -> int:
    """Return how many stations a window within a set may span, both of its stretches alike."""
    return min(line.stagger, max(1, line.least_bays))


def weigh(task: Task, vector: WorthVector) -> Weighed:
    """Return what a worth vector says of a task: what each board carries, and the demand."""
    worth = dict(zip(vector.lengths, vector.worths, strict=True))
    carries = carried(task, worth)
    demand = sum(piece.count * worth.get(piece.length, 0) for piece in task.pieces)
    return carries, demand + lines_worth(task, vector, worth), vector.scale


def lines_worth(task: Task, vector: WorthVector, worth: dict[int, int]) -> int:
    """Return the least worth of all lines of a task, refunds of the windows taken off."""
    longest = longest_usable(task)
    total = -sum(_refund(task, window) for window in vector.windows)
    for index, line in enumerate(task.lines):
        if line.count:
            pieces = [(i, j, worth.get(n, 0)) for i, j, n in legal_pieces(line, longest)]
            for count, charges in _kinds_of_lines(task, vector, index):
                joint = [task.joint_price * vector.scale + charge for charge in charges]
                total += count * _cheapest_line(line, pieces, joint)
    return total


def shares(line: Line) -> tuple[int, int, int]:
    """Return what a window within a set counts: a joint on an odd line, an even one, in all."""
    odd, even = (line.count + 1) // 2, line.count // 2
    common = gcd(odd, even) or 1
    return even // common, odd // common, odd * even // common


def _refund(task: Task, window: WindowPrice) -> int:
    within = window.line == window.beside
    return window.price * (shares(task.lines[window.line])[2] if within else 1)


def _kinds_of_lines(task: Task, vector: WorthVector, index: int) -> list[tuple[int, list[int]]]:
    """Return how many lines of a set are charged alike, and what at each station.

    Odd lines are, and even ones; the first and the last line may be charged on top by windows
    across sets.
    """
    line = task.lines[index]
    odd, even = [0] * len(line.stations), [0] * len(line.stations)
    last, first = list(odd), list(odd)
    on_odd, on_even, _ = shares(line)
    for window in vector.windows:
        one, other = (window.first, window.width), (window.beside_first, window.beside_width)
        if window.line == window.beside == index:
            _charge(odd, one, window.price * on_odd)
            _charge(even, other, window.price * on_even)
        elif window.line == index:
            _charge(last, one, window.price)
        elif window.beside == index:
            _charge(first, other, window.price)
    ends: dict[int, list[int]] = {}
    for number, charges in ((0, first), (line.count - 1, last)):
        if any(charges):
            others = ends.get(number, even if number % 2 else odd)
            ends[number] = [a + b for a, b in zip(others, charges, strict=True)]
    odd_ends = sum(number % 2 == 0 for number in ends)
    kinds = [(1, charges) for charges in ends.values()]
    kinds.append(((line.count + 1) // 2 - odd_ends, odd))
    kinds.append((line.count // 2 - len(ends) + odd_ends, even))
    return [kind for kind in kinds if kind[0]]


def _charge(charges: list[int], stretch: tuple[int, int], price: int) -> None:
    for station in range(stretch[0], stretch[0] + stretch[1]):
        charges[station] += price


def carried(task: Task, worth: dict[int, int]) -> tuple[int, ...]:
    """Return the most worth one board of each stock can carry.

    A table of (space used, worth) grows length by length; an entry that uses more space
    for no more worth is dropped. Of a space that holds very many pieces the table need not see
    all: of any `size` pieces some take a multiple of `size` together, and the densest piece, of
    that size, is worth as much there. So fewer than `size` others do, and the rest is densest.
    """
    rooms = [room(stock, task.kerf) for stock in task.stock]
    items = [(n + task.kerf, value) for n, value in sorted(worth.items(), reverse=True) if value]
    items = [item for item in items if item[0] <= max(rooms, default=0)]
    if not items:
        return tuple(0 for _ in rooms)
    size, value = max(items, key=lambda item: (Fraction(item[1], item[0]), -item[0]))
    sure = [max(0, space // size - max(items)[0]) for space in rooms]
    seen = [space - count * size for space, count in zip(rooms, sure, strict=True)]
    table = [(0, 0)]
    for item in items:
        table = _with_length(table, *item, max(seen))
    tops = (max((v for used, v in table if used <= space), default=0) for space in seen)
    return tuple(count * value + top for count, top in zip(sure, tops, strict=True))


def _with_length(
    table: list[tuple[int, int]], size: int, value: int, most: int
) -> list[tuple[int, int]]:
    best = dict(table)
    layer = table
    while layer:
        layer = [
            (used + size, total + value)
            for used, total in layer
            if used + size <= most and best.get(used + size, -1) < total + value
        ]
        best.update(layer)
    kept, top = [], -1
    for used, total in sorted(best.items()):
        if total > top:
            kept.append((used, total))
            top = total
    return kept


def room(stock: Stock, kerf: int) -> int:
    """Return the space of a board, where each piece takes its length and one kerf."""
    return stock.length - 2 * stock.trim + kerf


def longest_usable(task: Task) -> int:
    """Return the longest piece any board on sale can give."""
    usable = [s.length - 2 * s.trim for s in task.stock if s.limit is None or s.limit > 0]
    return max(usable, default=0)


def legal_pieces(line: Line, longest: int) -> list[Arc]:
    """Return every piece a line may hold, as (from station, to station, length).

    Those that end at a station come before those that start there.
    """
    left, right, last = line.joint_gap // 2, line.joint_gap - line.joint_gap // 2, -2
    stations, bays = line.stations, len(line.stations) - 1
    arcs = [(-1, last, line.end - line.start)]
    for j, at in enumerate(stations if line.most_joints != 0 else ()):
        if j >= line.least_bays:
            arcs.append((-1, j, at - left - line.start))
        arcs += [
            (i, j, at - left - stations[i] - right) for i in range(min(j, j - line.least_bays + 1))
        ]
        if bays - j >= line.least_bays:
            arcs.append((j, last, line.end - at - right))
    return [arc for arc in arcs if 0 < arc[2] <= longest]


def _most_joints(line: Line) -> int:
    """Return the most joints a line may have: by its cap, or as far as its bays reach."""
    natural = len(line.stations) // max(1, line.least_bays)
    return natural if line.most_joints is None else min(natural, line.most_joints)


def _cheapest_line(line: Line, pieces: Sequence[Arc], joint: Sequence[int]) -> int:
    """Return the least cost of one legal line, from the cost of each piece and each joint.

    Station by station; where a cap is on the joints, joint by joint and station by station.
    """
    most = _most_joints(line)
    if most < len(line.stations) // max(1, line.least_bays):
        return _cheapest_capped(pieces, joint, most)
    extra = [*joint, 0, 0]  # the last for the end, which is counted as station -2
    at = {-1: 0}
    for tail, head, cost in pieces:
        if tail in at:
            total = at[tail] + cost + extra[head]
            if total < at.get(head, total + 1):
                at[head] = total
    return at[-2]


def _cheapest_capped(pieces: Sequence[Arc], joint: Sequence[int], most: int) -> int:
    extra, ends = [*joint, 0, 0], []
    at = {-1: 0}
    for _ in range(most + 1):
        following: dict[int, int] = {}
        for tail, head, cost in pieces:
            if tail in at:
                total = at[tail] + cost + extra[head]
                following[head] = min(total, following.get(head, total))
        ends += [following.pop(-2)] if -2 in following else []
        at = following
    return min(ends)


def fewest_joints(line: Line, longest: int) -> int | None:
    """Return the fewest joints one line can be made with, None if it cannot be made."""
    arcs = legal_pieces(line, longest)
    at, ends = {-1}, {tail for tail, head, _ in arcs if head == -2}
    for joints in range(_most_joints(line) + 1):
        if at & ends:
            return joints
        at = {head for tail, head, _ in arcs if tail in at and head >= 0}
    return None


def fewest_in_all(task: Task) -> int:
    """Return the fewest joints all lines can be made with."""
    longest = longest_usable(task)
    return sum(line.count * (fewest_joints(line, longest) or 0) for line in task.lines)


def direct_bound(task: Task, weighed: Sequence[Weighed]) -> int:
    """Return the best bound one worth vector gives by itself, rounded to the prices' gcd."""
    return max([0, *(_direct(task, *vector) for vector in weighed)])


def _direct(task: Task, carries: tuple[int, ...], demand: int, scale: int) -> int:
    for stock, most in zip(task.stock, carries, strict=True):
        excess = most - stock.price * scale
        if excess > 0 and stock.limit is None:
            return 0
        if excess > 0:
            demand -= stock.limit * excess if stock.limit else 0
    step = price_step(task)
    return -(-demand // (scale * step)) * step


def price_step(task: Task) -> int:
    """Return the gcd of all prices: every cost is a multiple of it."""
    joints = task.joint_price if any(line.count for line in task.lines) else 0
    return gcd(joints, *(stock.price for stock in task.stock)) or 1
