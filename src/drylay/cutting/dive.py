"""Whole boards by diving: the linear optimum rounded a filling at a time, and found again.

Where there are lines, they are laid first.
"""

from collections.abc import Sequence
from math import floor

from drylay.cutting.fill import fullest_within
from drylay.cutting.master import Master, Prices
from drylay.cutting.pricing import Filling
from drylay.cutting.rounding import trimmed
from drylay.cutting.solver import INF

Boards = list[tuple[int, tuple[int, ...]]]  # (board, pieces by length index)

EDGE = 1e-6


def dive(
    master: Master,
    caps: Sequence[float],
    most: float,
    held: Sequence[int] | None = None,
) -> Boards | None:
    """Return boards for all pieces, within the board caps and for `most` at most in all.

    `held` tells how often each arc is laid, where there are lines. None if the dive leads
    nowhere. The master's programme is left as it was, with more fillings.
    """
    offset = _in_lines(master, held)
    wanted = [count + more for count, more in zip(master.ready.wanted, offset, strict=True)]
    left, boards = list(wanted), [floor(cap) if cap < INF else -1 for cap in caps]
    taken: list[Filling] = []
    spent = 0
    if held is not None:
        master.hold_arcs(frozenset(), held, fast=True)
    try:
        while any(left):
            prices = _within(master, left, offset, boards)
            if prices is None or prices.unmet > EDGE or spent + prices.objective > most + 0.5:
                return None
            for filling, copies in _picked(master, prices):
                for _ in range(copies):
                    board, pieces = _trimmed(filling, left)
                    if not pieces or not boards[board]:
                        break
                    taken.append((board, pieces))
                    spent += master.ready.boards[board].price
                    boards[board] -= 1 if boards[board] > 0 else 0
                    for length, count in pieces:
                        left[length] -= count
    finally:
        _restore(master)
    return trimmed(master.ready, taken, wanted)


def _in_lines(master: Master, held: Sequence[int] | None) -> list[int]:
    """Return how many pieces of each length the lines laid hold."""
    pieces = [0] * len(master.ready.lengths)
    for (_, arc), lines in zip(master.arcs, held or (), strict=False):
        pieces[arc.length] += lines
    return pieces


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


def _within(
    master: Master, left: Sequence[int], offset: Sequence[int], boards: Sequence[int]
) -> Prices | None:
    """Return the linear optimum for the pieces left, no filling holding more of any than that."""
    model = master.model
    for row, (count, laid) in enumerate(zip(left, offset, strict=True)):
        model.changeRowBounds(row, float(count - laid), INF)
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
    master.hold_arcs(frozenset())
