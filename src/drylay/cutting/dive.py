"""Whole boards by diving: the linear optimum rounded a filling at a time, and found again.

For fixed pieces only: where lines are still to be jointed, their joints are chosen first.
"""

from collections.abc import Sequence
from math import floor

from drylay.cutting.fill import fullest_within
from drylay.cutting.master import Filling, Master, Prices
from drylay.cutting.ready import Ready
from drylay.cutting.rounding import trimmed
from drylay.cutting.solver import INF

Boards = list[tuple[int, tuple[int, ...]]]  # (board, pieces by length index)

EDGE = 1e-6


def dive(master: Master, wanted: Sequence[int], caps: Sequence[float], below: float) -> Boards | None:
    """Return boards for the pieces wanted, within the board caps and for less than `below`.

    None if the dive leads nowhere. The master's programme is left as it was, with more
    fillings.
    """
    left, boards = list(wanted), [floor(cap) if cap < INF else -1 for cap in caps]
    taken: list[Filling] = []
    spent = 0
    try:
        while any(left):
            prices = _within(master, left, boards)
            if prices is None or prices.unmet > EDGE or spent + prices.objective > below - 0.5:
                return None
            for filling, copies in _picked(master, prices):
                for _ in range(copies):
                    filling = _trimmed(filling, left)
                    if not filling[1] or not boards[filling[0]]:
                        break
                    taken.append(filling)
                    spent += master.ready.boards[filling[0]].price
                    boards[filling[0]] -= 1 if boards[filling[0]] > 0 else 0
                    for length, count in filling[1]:
                        left[length] -= count
    finally:
        _restore(master)
    found = trimmed(master.ready, taken, list(wanted))
    return found if found is not None and _cost(master.ready, found) < below - 0.5 else None


def _cost(ready: Ready, boards: Boards) -> int:
    return sum(ready.boards[board].price for board, _ in boards)


def _picked(master: Master, prices: Prices) -> list[tuple[Filling, int]]:
    """Return the fillings to take: whole parts of the optimum, else the largest part of one."""
    first = len(master.fixed)
    values = prices.values[first : first + len(master.fillings)]
    whole = [(n, floor(v + EDGE)) for n, v in enumerate(values) if v > 1 - EDGE]
    if whole:
        return [(master.fillings[number], copies) for number, copies in whole]
    best = max(range(len(values)), key=lambda n: (round(values[n], 6), -n))
    return [(master.fillings[best], 1)]


def _trimmed(filling: Filling, left: Sequence[int]) -> Filling:
    board, pieces = filling
    kept = tuple((length, min(n, left[length])) for length, n in pieces if left[length])
    return board, kept


def _within(master: Master, left: Sequence[int], boards: Sequence[int]) -> Prices | None:
    """Return the linear optimum for the pieces left, no filling holding more of any than that."""
    model, ready = master.model, master.ready
    for row, count in enumerate(left):
        model.changeRowBounds(row, float(count), INF)
    for board, count in enumerate(boards):
        model.changeRowBounds(master.board_row + board, 0.0, INF if count < 0 else float(count))
    master.bar_fillings(left)
    for _ in range(master.limits.rounds):
        prices = master.solve_once()
        if prices is None:
            return None
        new = _better_within(master, prices, left, boards)
        if master.add(new) == 0:
            return prices
    return None


def _better_within(
    master: Master, prices: Prices, left: Sequence[int], boards: Sequence[int]
) -> list[Filling]:
    found = []
    for b, board in enumerate(master.ready.boards):
        if not boards[b]:
            continue
        pieces = fullest_within(
            prices.worths,
            master.ready.sizes,
            left,
            board.space,
            least=board.price + prices.boards[b] + 1e-6,
            nodes=master.limits.fill_nodes,
        )
        if pieces:
            found.append((b, tuple(sorted(pieces.items()))))
    return found


def _restore(master: Master) -> None:
    ready = master.ready
    for row, count in enumerate(ready.wanted):
        master.model.changeRowBounds(row, float(count), INF)
    master.cap_boards([INF if b.limit is None else float(b.limit) for b in ready.boards])
    master.bar_fillings(None)
