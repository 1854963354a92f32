"""What a worth vector says of a task: what each board carries, what the lines are worth."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
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
    """Return the most worth one board of each stock can carry."""
    items = [(length + task.kerf, value) for length, value in worth.items() if value > 0]
    items.sort(key=lambda item: (-Fraction(item[1], item[0]), item[0]))
    rooms = [room(stock, task.kerf) for stock in task.stock]
    most = {space: _most_worth(items, space) for space in set(rooms)}
    return tuple(most[space] for space in rooms)


def _most_worth(items: list[tuple[int, int]], space: int) -> int:
    """Return the most worth that fits into a space, of items (size, worth), the densest first.

    Of any `size` items some take a multiple of `size` together, and copies of the densest, of
    that size, are worth as much there: fewer than `size` others do, and the rest is the densest.
    A table of {space used: worth} takes in item by item; what could not come to more than was
    reached, were all space left as dense as the next item, is dropped, and so is what uses more
    space for no more worth.
    """
    items = [item for item in items if item[0] <= space]
    if not items:
        return 0
    size, value = items[0]
    sure = max(0, space // size - max(items)[0])
    space -= sure * size
    top, table = 0, {0: 0}
    for item, following in pairwise([*items, (1, 0)]):
        grown: dict[int, int] = {}
        for used, total in table.items():
            for count in range((space - used) // item[0], -1, -1):
                at, more = used + count * item[0], total + count * item[1]
                top = max(top, more)
                if (more - top) * following[0] + (space - at) * following[1] <= 0:
                    break
                grown[at] = max(more, grown.get(at, 0))
        table = _thinned(grown)
    return sure * value + top


def _thinned(table: dict[int, int]) -> dict[int, int]:
    kept, top = {}, -1
    for used, total in sorted(table.items()):
        if total > top:
            kept[used] = top = total
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


def most_joints(line: Line) -> int:
    """Return the most joints a line may have: by its cap, or as far as its bays reach."""
    natural = len(line.stations) // max(1, line.least_bays)
    return natural if line.most_joints is None else min(natural, line.most_joints)


def _cheapest_line(line: Line, pieces: Sequence[Arc], joint: Sequence[int]) -> int:
    """Return the least cost of one legal line, from the cost of each piece and each joint.

    Station by station; where a cap is on the joints, joint by joint and station by station.
    """
    most = most_joints(line)
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
    for joints in range(most_joints(line) + 1):
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
