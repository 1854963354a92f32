"""The best filling of one board, exactly: depth first, with a table where that takes long."""

from collections.abc import Sequence
from contextlib import suppress
from itertools import pairwise

from drylay.cutting.halves import fullest_of_halves

LOOKS = 12_000  # looks at a piece that take about as long as the search for halves

Filling = tuple[float, dict[int, int]]  # worth, how many of each piece (by index)


def fullest(
    worths: Sequence[float],
    sizes: Sequence[int],
    space: int,
    *,
    least: float = 0,
    nodes: int = 20_000,
) -> Filling:
    """Return the most worth that fits into a space, and the pieces that make it.

    Any number of each piece may be used. If nothing is worth more than `least`, `least` and
    no pieces. Exact for integers; for floats as exact as they are. After a few branches the
    search gives way to one for halves, or after `nodes` of them to a table over the spaces.
    """
    order = _worth_using(worths, sizes, space)
    with suppress(OverflowError):
        few = min(nodes, LOOKS // max(1, len(order)))
        return _Depth(order, worths, sizes, few).best(space, least)
    pieces = fullest_of_halves(order, worths, sizes, space)
    if pieces is not None:
        worth = sum(count * worths[i] for i, count in pieces.items())
        return (worth, pieces) if worth > least else (least, {})
    with suppress(OverflowError):
        return _Depth(order, worths, sizes, nodes).best(space, least)
    return _table(order, worths, sizes, space, least)


def _worth_using(worths: Sequence[float], sizes: Sequence[int], space: int) -> list[int]:
    """Return the pieces no smaller piece is worth as much as, the best per length first."""
    fits = [i for i, size in enumerate(sizes) if size <= space and worths[i] > 1e-9]
    kept: list[int] = []
    for i in sorted(fits, key=lambda i: (sizes[i], -worths[i])):
        if not kept or worths[i] > worths[kept[-1]]:
            kept.append(i)
    return sorted(kept, key=lambda i: (-worths[i] / sizes[i], i))


class _Depth:
    """A depth-first search, best worth per length first."""

    def __init__(
        self,
        order: list[int],
        worths: Sequence[float],
        sizes: Sequence[int],
        nodes: int,
        most: Sequence[int] | None = None,
    ) -> None:
        self.order, self.nodes = order, nodes
        self.worths = [worths[i] for i in order]
        self.sizes = [sizes[i] for i in order]
        self.most = [1_000_000_000] * len(order) if most is None else [most[i] for i in order]
        self.least = list(self.sizes)
        for k in range(len(order) - 2, -1, -1):
            self.least[k] = min(self.least[k], self.least[k + 1])
        self.top: float = 0
        self.chosen: tuple[tuple[int, int], ...] = ()

    def best(self, space: int, least: float) -> Filling:
        """Return the best filling of a space, if it is worth more than `least`."""
        self.top = least
        self._visit(0, space, 0, ())
        return self.top, {self.order[k]: count for k, count in self.chosen}

    def _visit(self, k: int, space: int, total: float, chosen: tuple[tuple[int, int], ...]) -> None:
        self.nodes -= 1
        if self.nodes < 0:
            raise OverflowError
        if total > self.top:
            self.top, self.chosen = total, chosen
        sizes, worths, leasts = self.sizes, self.worths, self.least
        short = total - self.top
        for piece in range(k, len(sizes)):
            size = sizes[piece]
            if space < leasts[piece] or short * size + space * worths[piece] <= 0:
                return
            if size <= space:  # most are too long: the search spends its time on this line
                self._take(piece, space, total, chosen)
                short = total - self.top

    def _take(
        self, piece: int, space: int, total: float, chosen: tuple[tuple[int, int], ...]
    ) -> None:
        """Go on with as many of a piece as fit, with fewer, down to one."""
        last = len(self.sizes) - 1
        worth, size = self.worths[piece], self.sizes[piece]
        most = min(space // size, self.most[piece])
        least = space + 1 if piece == last else self.least[piece + 1]
        if space - most * size < least:  # then nothing else fits, and fewer are worth less
            more = total + most * worth
            if more > self.top:
                self.top, self.chosen = more, (*chosen, (piece, most))
            most = (space - least) // size
        for count in range(most, 0, -1):
            more, left = total + count * worth, space - count * size
            following = self.sizes[piece + 1]
            if (more - self.top) * following + left * self.worths[piece + 1] <= 0:
                break
            self._visit(piece + 1, left, more, (*chosen, (piece, count)))


def fullest_within(
    worths: Sequence[float],
    sizes: Sequence[int],
    most: Sequence[int],
    space: int,
    *,
    least: float,
    nodes: int,
) -> dict[int, int]:
    """Return the pieces, so many of each at most, worth most of all that fit into a space.

    None of them if nothing is worth more than `least`. After `nodes` branches the best found
    so far is returned.
    """
    fits = [i for i, size in enumerate(sizes) if size <= space and most[i] and worths[i] > 1e-9]
    order = sorted(fits, key=lambda i: (-worths[i] / sizes[i], i))
    search = _Depth(order, worths, sizes, nodes, most)
    with suppress(OverflowError):
        search.best(space, least)
    return {search.order[k]: count for k, count in search.chosen}


Chain = tuple[int, int, "Chain"] | tuple[()]  # a piece, how many of it, those before
Table = dict[int, tuple[float, Chain]]  # space used: worth, pieces


def _table(
    order: list[int], worths: Sequence[float], sizes: Sequence[int], space: int, least: float
) -> Filling:
    """Return the best filling from a table of the space used, piece by piece, densest first.

    As `verify.carried` does it: the densest fills what a very long board has beyond the table,
    and what cannot come to more than was reached is dropped.
    """
    if not order:
        return least, {}
    sure = max(0, space // sizes[order[0]] - max(sizes[i] for i in order))
    space -= sure * sizes[order[0]]
    top = least - sure * worths[order[0]]
    chosen: Chain = ()
    table: Table = {0: (0, ())}
    for i, after in pairwise([*order, -1]):
        size, worth = (1, 0.0) if after < 0 else (sizes[after], worths[after])
        grown: Table = {}
        for used, (total, chain) in table.items():
            for count in range((space - used) // sizes[i], -1, -1):
                at, more = used + count * sizes[i], total + count * worths[i]
                if more > top:
                    top, chosen = more, (i, count, chain)
                if (more - top) * size + (space - at) * worth <= 0:
                    break
                if at not in grown or grown[at][0] < more:
                    grown[at] = (more, (i, count, chain))
        table = _thinned(grown)
    if not chosen:
        return least, {}
    return top + sure * worths[order[0]], _counted((order[0], sure, chosen))


def _thinned(best: Table) -> Table:
    """Drop the entries that use more space for no more worth."""
    kept, top = {}, -1.0
    for used in sorted(best):
        if best[used][0] > top:
            kept[used] = best[used]
            top = best[used][0]
    return kept


def _counted(chain: Chain) -> dict[int, int]:
    counts: dict[int, int] = {}
    while chain:
        piece, count, chain = chain
        if count:
            counts[piece] = counts.get(piece, 0) + count
    return counts


def rich_fillings(
    items: Sequence[tuple[float, int, int]], space: int, *, least: float, most: int
) -> list[dict[int, int]] | None:
    """Return every full filling worth at least `least`; None if there are more than `most`.

    Items are (worth, size, how many there may be). Full: no further piece fits.
    """
    order = sorted(
        (i for i, (_, size, _) in enumerate(items) if size <= space),
        key=lambda i: (-items[i][0] / items[i][1], i),
    )
    found: list[dict[int, int]] = []
    todo: list[tuple[int, int, float, dict[int, int]]] = [(0, space, 0, {})]
    tried = 0
    while todo:
        k, left, total, counts = todo.pop()
        tried += 1
        if len(found) > most or tried > 20 * most:
            return None
        if k == len(order):
            if counts and total >= least and _is_full(items, order, left, counts):
                found.append(counts)
            continue
        worth, size, cap = items[order[k]]
        if total + left * worth / size < least:
            continue
        for count in range(min(cap, left // size) + 1):
            more = {**counts, order[k]: count} if count else counts
            todo.append((k + 1, left - count * size, total + count * worth, more))
    return found


def _is_full(
    items: Sequence[tuple[float, int, int]], order: list[int], left: int, counts: dict[int, int]
) -> bool:
    return all(items[i][1] > left or counts.get(i, 0) == items[i][2] for i in order)
