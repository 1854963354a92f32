"""The fillings a linear programme asks for at its prices."""

from collections.abc import Sequence

from drylay.cutting.fill import fullest
from drylay.cutting.halves import richest_of_each
from drylay.cutting.ready import Ready

Filling = tuple[int, tuple[tuple[int, int], ...]]  # board, (length, how many) ...

#: Of so many lengths or more that lines may hold, or so many that are fixed, several fillings of a
#: board are told at once: one would touch few of them, and it takes many rounds.
MANY, MANY_FIXED, AT_ONCE = 250, 40, 20


def better_fillings(
    ready: Ready, worths: Sequence[float], leasts: Sequence[float], nodes: int
) -> list[Filling]:
    """Return for each board the best filling, where it is worth more than the board's least.

    And some more of them where there are very many lengths.
    """
    if len(ready.lengths) >= (MANY if ready.lanes else MANY_FIXED):
        spaces = [board.space for board in ready.boards]
        boards = list(zip(spaces, leasts, strict=True))
        rich = richest_of_each(worths, ready.sizes, boards, AT_ONCE)
        if rich is not None:
            return [_filling(b, pieces) for b, of_board in enumerate(rich) for pieces in of_board]
    found = []
    for b, (board, least) in enumerate(zip(ready.boards, leasts, strict=True)):
        _, pieces = fullest(worths, ready.sizes, board.space, least=least, nodes=nodes)
        if pieces:
            found.append(_filling(b, pieces))
    return found


def _filling(board: int, pieces: dict[int, int]) -> Filling:
    return board, tuple(sorted(pieces.items()))
