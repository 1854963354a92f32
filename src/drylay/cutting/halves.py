"""The best filling of a space out of two halves, each one of the best with so many pieces.

Fillings with up to so many pieces are listed, less those that take more space for no more
worth. What fills a space best is one of them and the best of them that still fits beside it.
(E. Horowitz, S. Sahni, Computing partitions with applications to the knapsack problem, 1974.)
"""

from collections.abc import Sequence
from typing import Any, Optional

from attrs import evolve, frozen

MOST = 400_000  # pairs looked at in one go
CLASSES = 400  # of sizes, of which a front that is too long keeps the best entry each
LOOKED_AT = 300  # fillings of a board looked at for some unlike one another
EDGE = 1e-9
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
        if not self.sizes[entry]:
            return []
        if self.one is None or self.other is None:
            return [] if number < 0 else [number]
        return [*self.one.pieces(number), *self.other.pieces(int(self.others[entry]))]


@frozen(kw_only=True)
class Bounds:
    """What an entry of a front keeps to: a space, and so much less worth than its size at most.

    The size is counted at the `density` of the densest piece, the most that space is worth. Where
    `coarse`, a front too long is thinned: of entries of about a size the best is kept.
    """

    space: int
    density: float = 0.0
    loss: float = float("inf")
    coarse: bool = False


def richest_of_each(
    worths: Sequence[float], sizes: Sequence[int], boards: Sequence[tuple[int, float]], most: int
) -> list[list[dict[int, int]]] | None:
    """Return, for each board (space, least), up to so many fillings worth more than its least.

    The first is the best there is, or near it where that would take too long; the others, worth
    less and less, hold no piece of those before: each is new to a linear programme. None where
    fillings near the best are worth no more than the leasts: there may be one all the same.
    """
    import numpy as np

    singles = _worth_having(np.array(worths, dtype=float), np.array(sizes, dtype=np.int64))
    density = float(np.max(singles.worths[1:] / singles.sizes[1:], initial=0.0))
    loss = max((density * space - least for space, least in boards), default=0.0)
    if loss <= 0.0:
        return [[] for _ in boards]
    bounds = Bounds(
        space=max(space for space, _ in boards), density=density, loss=loss * (1 + EDGE)
    )
    singles = _within(singles, bounds)
    pieces = bounds.space // int(min(singles.sizes[1:], default=bounds.space + 1))
    halves = _halves(singles, pieces, bounds)
    sure = halves is not None
    halves = halves or _halves(singles, pieces, evolve(bounds, coarse=True))
    if halves is None:
        return None
    found = [_unlike(*halves, space, least, most) for space, least in boards]
    return found if sure or any(found) else None


def _worth_having(worths: Any, sizes: Any) -> Front:
    """Return the single pieces that no smaller one is worth as much as."""
    import numpy as np

    rising = np.lexsort((-worths, sizes))
    rising = rising[worths[rising] > EDGE]
    best = np.maximum.accumulate(worths[rising])
    rising = rising[np.concatenate(([True], best[1:] > best[:-1]))[: len(rising)]]
    nothing = np.zeros(1, dtype=np.int64)
    return Front(
        sizes=np.concatenate((nothing, sizes[rising])),
        worths=np.concatenate((nothing, worths[rising])),
        ones=np.concatenate((nothing - 1, rising)),
    )


def _within(front: Front, bounds: Bounds) -> Front:
    """Return the single pieces that keep to bounds."""
    kept = (front.sizes <= bounds.space) & (
        bounds.density * front.sizes - front.worths <= bounds.loss
    )
    return Front(sizes=front.sizes[kept], worths=front.worths[kept], ones=front.ones[kept])


def _unlike(half: Front, rest: Front, space: int, least: float, most: int) -> list[dict[int, int]]:
    """Return fillings of a space worth more than `least`, the best first, no piece in two."""
    import numpy as np

    beside, totals = _filled(half, rest, space)
    order = np.argsort(-totals, kind="stable")[:LOOKED_AT]
    found: list[dict[int, int]] = []
    held: set[int] = set()
    for one in order.tolist():
        if totals[one] <= least or len(found) == most:
            break
        pieces = [*half.pieces(one), *rest.pieces(int(beside[one]))]
        if held.isdisjoint(pieces):
            held.update(pieces)
            found.append(_counted(pieces))
    return found


def fullest_of_halves(
    order: Sequence[int], worths: Sequence[float], sizes: Sequence[int], space: int
) -> dict[int, int] | None:
    """Return how many of each piece fill a space best, None where that would take too long."""
    most = space // min((sizes[i] for i in order), default=space + 1)
    if sum(worths[i] for i in order) * (most + 1) >= GREAT:
        return None
    halves = _halves(_singles(order, worths, sizes), most, Bounds(space=space))
    if halves is None:
        return None
    one, other = _best_two(*halves, space)
    return _counted([*halves[0].pieces(one), *halves[1].pieces(other)])


def _counted(pieces: Sequence[int]) -> dict[int, int]:
    found: dict[int, int] = {}
    for number in pieces:
        found[number] = found.get(number, 0) + 1
    return found


def _halves(singles: Front, most: int, bounds: Bounds) -> tuple[Front, Front] | None:
    """Return two fronts whose fillings have up to so many pieces together, None if too long."""
    half = _with(singles, max(1, most // 2), bounds)
    rest = half if half is None or most % 2 == 0 or most < 2 else _joined(half, singles, bounds)
    return None if half is None or rest is None else (half, rest)


def _singles(order: Sequence[int], worths: Sequence[float], sizes: Sequence[int]) -> Front:
    import numpy as np

    rising = sorted(order, key=sizes.__getitem__)
    whole = all(isinstance(worths[i], int) for i in rising)
    return Front(
        sizes=np.array([0, *(sizes[i] for i in rising)], dtype=np.int64),
        worths=np.array([0, *(worths[i] for i in rising)], dtype=np.int64 if whole else float),
        ones=np.array([-1, *rising], dtype=np.int64),
    )


def _with(singles: Front, pieces: int, bounds: Bounds) -> Front | None:
    """Return the front of fillings with up to so many pieces, None if it is too long."""
    if pieces == 1:
        return singles
    half = _with(singles, pieces // 2, bounds)
    both = None if half is None else _joined(half, half, bounds)
    return both if both is None or pieces % 2 == 0 else _joined(both, singles, bounds)


def _joined(one: Front, other: Front, bounds: Bounds) -> Front | None:
    """Return the front of all fillings made of one of each of two fronts."""
    import numpy as np

    if len(one.sizes) * len(other.sizes) > MOST:
        if not bounds.coarse:
            return None
        thin = _thinned(one, bounds)
        one, other = thin, thin if other is one else _thinned(other, bounds)
    all_sizes = one.sizes[:, None] + other.sizes[None, :]
    fit = all_sizes <= bounds.space
    ones, others = np.nonzero(np.triu(fit) if one is other else fit)
    sizes, worths = all_sizes[ones, others], one.worths[ones] + other.worths[others]
    if bounds.density:
        near = np.flatnonzero(bounds.density * sizes - worths <= bounds.loss)
        ones, others, sizes, worths = ones[near], others[near], sizes[near], worths[near]
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


def _thinned(front: Front, bounds: Bounds) -> Front:
    """Return a front with the best of its entries of about each size: the one of least loss."""
    import numpy as np

    classes = front.sizes * CLASSES // (bounds.space + 1)
    order = np.lexsort((bounds.density * front.sizes - front.worths, classes))
    first = np.concatenate(([True], classes[order][1:] != classes[order][:-1]))
    kept = np.sort(order[first])
    return evolve(
        front,
        sizes=front.sizes[kept],
        worths=front.worths[kept],
        ones=front.ones[kept],
        others=None if front.others is None else front.others[kept],
    )


def _best_two(half: Front, rest: Front, space: int) -> tuple[int, int]:
    """Return the entries of two fronts that fill a space best."""
    beside, totals = _filled(half, rest, space)
    best = int(totals.argmax())
    return best, int(beside[best])


def _filled(half: Front, rest: Front, space: int) -> tuple[Any, Any]:
    """Return the best entry beside each that fits into a space, and what both are worth."""
    import numpy as np

    fits = int(np.searchsorted(half.sizes, space, side="right"))
    beside = np.searchsorted(rest.sizes, space - half.sizes[:fits], side="right") - 1
    return beside, half.worths[:fits] + rest.worths[beside]
