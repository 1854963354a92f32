"""The best filling of a space out of two halves, each one of the best with so many pieces.

Fillings with up to so many pieces are listed, less those that take more space for no more
worth. What fills a space best is one of them and the best of them that still fits beside it.
(E. Horowitz, S. Sahni, Computing partitions with applications to the knapsack problem, 1974.)
"""

from collections.abc import Sequence
from typing import Any, Optional

from attrs import frozen

MOST = 400_000  # pairs looked at in one go
GREAT = 1 << 61  # numbers that cannot be added twice over within 64 bits


@frozen(kw_only=True)
class Front:
    """Fillings by space: sizes and worths, both growing, and which two of two fronts made each.

    Of single pieces, `ones` is the number of the piece, -1 for none.
    """

    sizes: Any
    worths: Any
    ones: Any
    others: Any = None
    one: Optional["Front"] = None
    other: Optional["Front"] = None

    def pieces(self, entry: int) -> list[int]:
        """Return the pieces of an entry."""
        number = int(self.ones[entry])
        if self.one is None or self.other is None:
            return [] if number < 0 else [number]
        return [*self.one.pieces(number), *self.other.pieces(int(self.others[entry]))]


def fullest_of_halves(
    order: Sequence[int], worths: Sequence[float], sizes: Sequence[int], space: int
) -> dict[int, int] | None:
    """Return how many of each piece fill a space best, None where that would take too long."""
    most = space // min((sizes[i] for i in order), default=space + 1)
    if sum(worths[i] for i in order) * (most + 1) >= GREAT:
        return None
    singles = _singles(order, worths, sizes)
    half = _with(singles, max(1, most // 2), space)
    rest = half if half is None or most % 2 == 0 or most < 2 else _joined(half, singles, space)
    if half is None or rest is None:
        return None
    one, other = _best_two(half, rest, space)
    found: dict[int, int] = {}
    for number in (*half.pieces(one), *rest.pieces(other)):
        found[number] = found.get(number, 0) + 1
    return found


def _singles(order: Sequence[int], worths: Sequence[float], sizes: Sequence[int]) -> Front:
    import numpy as np

    rising = sorted(order, key=sizes.__getitem__)
    whole = all(isinstance(worths[i], int) for i in rising)
    return Front(
        sizes=np.array([0, *(sizes[i] for i in rising)], dtype=np.int64),
        worths=np.array([0, *(worths[i] for i in rising)], dtype=np.int64 if whole else float),
        ones=np.array([-1, *rising], dtype=np.int64),
    )


def _with(singles: Front, pieces: int, space: int) -> Front | None:
    """Return the front of fillings with up to so many pieces, None if it is too long."""
    if pieces == 1:
        return singles
    half = _with(singles, pieces // 2, space)
    both = None if half is None else _joined(half, half, space)
    return both if both is None or pieces % 2 == 0 else _joined(both, singles, space)


def _joined(one: Front, other: Front, space: int) -> Front | None:
    """Return the front of all fillings made of one of each of two fronts."""
    import numpy as np

    if len(one.sizes) * len(other.sizes) > MOST:
        return None
    all_sizes = one.sizes[:, None] + other.sizes[None, :]
    fit = all_sizes <= space
    ones, others = np.nonzero(np.triu(fit) if one is other else fit)
    sizes, worths = all_sizes[ones, others], one.worths[ones] + other.worths[others]
    rising = np.lexsort((-worths, sizes))
    worths = worths[rising]
    best = np.maximum.accumulate(worths)
    kept = np.concatenate(([True], worths[1:] > best[:-1]))
    chosen = rising[kept]
    return Front(
        sizes=sizes[chosen],
        worths=worths[kept],
        ones=ones[chosen],
        others=others[chosen],
        one=one,
        other=other,
    )


def _best_two(half: Front, rest: Front, space: int) -> tuple[int, int]:
    """Return the entries of two fronts that fill a space best."""
    import numpy as np

    fits = int(np.searchsorted(half.sizes, space, side="right"))
    beside = np.searchsorted(rest.sizes, space - half.sizes[:fits], side="right") - 1
    best = int(np.argmax(half.worths[:fits] + rest.worths[beside]))
    return best, int(beside[best])
