"""What a worth vector proves, worked out from the task alone.

Give every length any worth. If no board of a stock can carry more than `K` of it, a purchase
of `z` such boards carries at most `sum K z`, and it has to carry all that the deck needs: the
fixed pieces, and for each line at least its cheapest way from end to end. A joint may be
given a worth too: then the purchase and the joints carry it together. Prices on windows of
stations are charged to the joints in them and given back as far as the stagger lets neighbours
have joints there (see `drylay.audit.tolls`).
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from attrs import frozen

from drylay.audit.shapes import LineShape, StockShape, TaskShape, VectorShape
from drylay.audit.tolls import given_back, tolls

MOST_STEPS = 400_000


class TooMuchWork(Exception):  # noqa: N818 - the audit says so and goes on
    """A certificate asks for more steps than the audit spends."""


def most_of_each(room_320: int, items: Iterable[tuple[int, int]]) -> int:
    """Return the most worth that fits into a room, each item once at most.

    Raises:
        TooMuchWork: There are too many ways to fill it.
    """
    left = {0: 0}  # room taken, by the least of it, with the most worth
    for size, gain in sorted(items):
        for taken, held in list(left.items()):
            if taken + size <= room_320:
                left[taken + size] = max(left.get(taken + size, 0), held + gain)
        best, kept = -1, {}
        for taken in sorted(left):
            if left[taken] > best:  # more room taken for no more worth is never better
                best = kept[taken] = left[taken]
        left = kept
        if len(left) > MOST_STEPS // 4:
            raise TooMuchWork("a knapsack of pieces")
    return max(left.values())


@frozen(kw_only=True)
class Demand:
    """`carried . boards + joint x joints >= least` for every plan of a task.

    `carried` is the most worth one board of each stock holds, in the task's order.
    """

    carried: tuple[int, ...]
    joint: int
    least: int


@frozen(kw_only=True)
class Arc:
    """A piece of a line: from and to which station (-1 start, `stations` end), how long."""

    tail: int
    head: int
    length: int


def room(stock: StockShape, kerf: int) -> int:
    """Return the room on a board, where each piece takes its length and one kerf."""
    return stock.length - 2 * stock.trim + kerf


def longest_piece(task: TaskShape) -> int:
    """Return the longest piece that any stock of the task yields, what is sold out left aside."""
    to_be_had = [stock for stock in task.stock if stock.limit != 0]
    return max((stock.length - 2 * stock.trim for stock in to_be_had), default=0)


def densest_first(items: Iterable[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """Return (size, worth) items by worth per size, without those a smaller one is worth as much.

    Raises:
        TooMuchWork: An item takes no room, so any number of it fits.
    """
    kept: list[tuple[int, int]] = []
    for size, worth in sorted(items, key=lambda item: (item[0], -item[1])):
        if worth > (kept[-1][1] if kept else 0):
            kept.append((size, worth))
    if kept and kept[0][0] <= 0:
        raise TooMuchWork("a piece takes no room")
    return tuple(sorted(kept, key=lambda item: Fraction(item[1], item[0]), reverse=True))


def most_worth(room_320: int, densest: tuple[tuple[int, int], ...]) -> int:
    """Return the most worth that fits into a room: any number of each item, the densest first.

    Raises:
        TooMuchWork: The items ask for too many steps.
    """
    items = tuple(item for item in densest if item[0] <= room_320)
    least_sizes = tuple(min(size for size, _ in items[first:]) for first in range(len(items)))
    best, steps = 0, 0
    todo, seen = [(0, room_320, 0)], dict[tuple[int, int], int]()
    while todo:
        first, left, worth = todo.pop()
        added = []
        for index in range(first, len(items)):
            size, gain = items[index]
            if left < least_sizes[index] or worth * size + left * gain <= best * size:
                break  # nothing more fits, or what is left, filled as densely, is worth no more
            steps += 1
            spare, held = left - size, worth + gain
            # as much room may have been left for the same items before, with as much worth
            if spare >= 0 and seen.get((index, spare), -1) < held:
                best = max(best, held)
                seen[index, spare] = held
                added.append((index, spare, held))
        if steps > MOST_STEPS:
            raise TooMuchWork("a knapsack of worths")
        todo += added[::-1]
    return best


def arcs_of(line: LineShape, longest: int) -> tuple[Arc, ...]:
    """Return every piece a line may be made of, none longer than the longest on sale."""
    last, gap = len(line.stations) - 1, line.joint_gap
    arcs = [Arc(tail=-1, head=last + 1, length=line.end - line.start)]
    for index, station in enumerate(line.stations):
        if index >= line.least_bays:
            length = station - line.start - gap // 2
            arcs.append(Arc(tail=-1, head=index, length=length))
        if last - index >= line.least_bays:
            length = line.end - station - (gap - gap // 2)
            arcs.append(Arc(tail=index, head=last + 1, length=length))
        for other in range(index + max(line.least_bays, 1), last + 1):
            length = line.stations[other] - station - gap
            arcs.append(Arc(tail=index, head=other, length=length))
    return tuple(arc for arc in arcs if 0 < arc.length <= longest)


def least_way(
    line: LineShape,
    arcs: Iterable[Arc],
    worth: Mapping[int, int],
    toll: Mapping[int, int],
    *,
    cap: int | None,
) -> int | None:
    """Return the least worth of one line, end to end, None where it cannot be made.

    `toll` is what a joint at each station adds, `cap` how many joints there may be.
    """
    most = len(line.stations) if cap is None else cap
    into: dict[int, list[Arc]] = {}
    for arc in arcs:
        into.setdefault(arc.head, []).append(arc)
    if most >= len(line.stations) // max(line.least_bays, 1):
        return _shortest(line, into, worth, toll)
    return _shortest_with_cap(line, into, worth, toll, most)


def _shortest(
    line: LineShape,
    into: Mapping[int, list[Arc]],
    worth: Mapping[int, int],
    toll: Mapping[int, int],
) -> int | None:
    reached = {-1: 0}
    for head in range(len(line.stations) + 1):
        ways = [
            reached[arc.tail] + worth.get(arc.length, 0)
            for arc in into.get(head, ())
            if arc.tail in reached
        ]
        if ways:
            reached[head] = min(ways) + toll.get(head, 0)
    return reached.get(len(line.stations))


def _shortest_with_cap(
    line: LineShape,
    into: Mapping[int, list[Arc]],
    worth: Mapping[int, int],
    toll: Mapping[int, int],
    most: int,
) -> int | None:
    end = len(line.stations)
    reached = {-1: 0}
    best: int | None = None
    for _pieces in range(most + 1):
        after: dict[int, int] = {}
        for head, arcs in into.items():
            ways = [reached[a.tail] + worth.get(a.length, 0) for a in arcs if a.tail in reached]
            if ways:
                after[head] = min(ways) + toll.get(head, 0)
        if end in after:
            best = after[end] if best is None else min(best, after[end])
        reached = after
    return best


def demands_of_vector(
    task: TaskShape, vector: VectorShape, arcs: tuple[tuple[Arc, ...], ...]
) -> list[Demand]:
    """Return what a vector demands of every plan of a task whose lines can be made.

    Joints are given no worth, and then the worth of their own price.

    Raises:
        TooMuchWork: A board's most worth asks for too many steps.
    """
    worth = dict(zip(vector.lengths, vector.worths, strict=True))
    carried = tuple(_carried(task, worth, room(stock, task.kerf)) for stock in task.stock)
    joints = sorted({0, task.joint_price * vector.scale} if task.lines else {0})
    return [
        Demand(carried=carried, joint=joint, least=_least(task, vector, worth, arcs, joint))
        for joint in joints
    ]


def _carried(task: TaskShape, worth: Mapping[int, int], room_320: int) -> int:
    """Return the most worth that one board holds.

    Where counting with any number of each piece asks for too many steps, and no line is jointed,
    no more of a length counts than is wanted of it: no plan has more on a board.
    """
    items = densest_first((length + task.kerf, value) for length, value in worth.items())
    try:
        return most_worth(room_320, items)
    except TooMuchWork:
        if task.lines:
            raise
    each = [
        (piece.length + task.kerf, worth.get(piece.length, 0))
        for piece in task.pieces
        for _ in range(min(piece.count, room_320 // max(piece.length + task.kerf, 1)))
    ]
    return most_of_each(room_320, each)


def _least(
    task: TaskShape,
    vector: VectorShape,
    worth: Mapping[int, int],
    arcs: tuple[tuple[Arc, ...], ...],
    joint: int,
) -> int:
    """Return the least worth that all pieces, lines and joints of a task come to."""
    least = sum(piece.count * worth.get(piece.length, 0) for piece in task.pieces)
    for number, line in enumerate(task.lines):
        for lines, extra in tolls(task, number, vector):
            toll = {station: joint + extra.get(station, 0) for station in range(len(line.stations))}
            way = least_way(line, arcs[number], worth, toll, cap=line.most_joints) if lines else 0
            least += lines * (way or 0)
    return least - given_back(task, vector)


def fewest_joints(line: LineShape, arcs: Iterable[Arc], *, cap: int | None) -> int | None:
    """Return the fewest joints a line can do with, None where it cannot be made."""
    made_of = tuple(arcs)
    pieces = least_way(line, made_of, {arc.length: 1 for arc in made_of}, {}, cap=cap)
    return None if pieces is None else pieces - 1


def joints_demanded(task: TaskShape, arcs: tuple[tuple[Arc, ...], ...]) -> Demand | None:
    """Return that every line has its fewest joints, None where a line cannot be made."""
    least = 0
    for line, made_of in zip(task.lines, arcs, strict=True):
        joints = fewest_joints(line, made_of, cap=line.most_joints)
        if joints is None:
            return None
        least += line.count * joints
    return Demand(carried=(0,) * len(task.stock), joint=1, least=least)


def vector_is_fair(vector: VectorShape) -> bool:
    """Return whether a vector is one: a scale, a worth per length, no price below nothing."""
    prices = [*vector.worths, *(window.price for window in vector.windows)]
    in_step = len(vector.lengths) == len(vector.worths) == len(set(vector.lengths))
    return in_step and vector.scale > 0 and min(prices, default=0) >= 0
