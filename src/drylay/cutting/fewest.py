"""What lines and pieces come to at least: the fewest joints, and no end sawn that need not be."""

from fractions import Fraction
from math import ceil

from drylay.cutting.model import Line, Task
from drylay.cutting.verify import legal_pieces, longest_usable
from drylay.cutting.weighing import most_joints, room


def fewest_ways(task: Task) -> tuple[tuple[int, ...], ...] | None:
    """Return the stations of one line of each set, made with as few joints as may be.

    No line of a plan has fewer. None where some line cannot be made.
    """
    longest = longest_usable(task)
    ways = [_fewest(line, longest) for line in task.lines]
    found = tuple(way for way in ways if way is not None)
    return found if len(found) == len(ways) else None


def by_length(task: Task) -> int | None:
    """Return what a task costs at least: each length at the price of the cheapest board's.

    A piece takes its length and a kerf. Of a line's joints each has its price, saves its gap and
    takes one kerf more: the fewest there may be, or the most, make the line cheapest. None where
    nothing is on sale, or some line cannot be made.
    """
    ways, kerf = fewest_ways(task), task.kerf
    boards = [stock for stock in task.stock if stock.limit != 0 and room(stock, kerf) > 0]
    if ways is None or not boards:
        return None
    price = min(Fraction(board.price, room(board, kerf)) for board in boards)
    cost = sum((piece.count * price * (piece.length + kerf) for piece in task.pieces), Fraction(0))
    for line, way in zip(task.lines, ways, strict=True):
        joint = task.joint_price + price * (kerf - line.joint_gap)
        joints = min(joint * len(way), joint * max(most_joints(line), len(way)))
        cost += line.count * (price * (line.end - line.start + kerf) + joints)
    return ceil(cost)


def may_be_whole(task: Task) -> frozenset[int]:
    """Return the lengths of pieces that may be a stock length as it is sold, no end sawn.

    Where one piece of a line may be, all that a line may hold are among them.
    """
    sold = {stock.length for stock in task.stock if not stock.trim}
    longest = longest_usable(task)
    whole = {piece.length for piece in task.pieces} & sold
    for line in task.lines:
        held = {length for _, _, length in legal_pieces(line, longest)}
        whole |= held if held & sold else set()
    return frozenset(whole)


def _fewest(line: Line, longest: int) -> tuple[int, ...] | None:
    onward: dict[int, list[int]] = {}
    for tail, head, _ in legal_pieces(line, longest):
        onward.setdefault(tail, []).append(head)
    ways: dict[int, tuple[int, ...]] = {-1: ()}
    for _ in range(most_joints(line) + 1):
        further: dict[int, tuple[int, ...]] = {}
        for tail, way in ways.items():
            for head in onward.get(tail, ()):
                if head == -2:
                    return way
                further.setdefault(head, (*way, head))
        ways = further
    return None
