"""Looks for counts of boards and joints that a sum of money buys and every worth vector allows.

The search goes through the counts kind by kind (boards of one stock, or joints) and misses
none. What it leaves out, and why that is no miss:

- *What costs nothing* is taken whole before the search: more of a kind never carries less.
- *A kind outdone by another*: where the money it costs buys at least the same worths of another
  that there is no end of, every plan with the first is a plan with the other.
- *Counts that leave the rest no chance*: by some vector, money spent on the other kinds brings
  too little of the worth still missing. What it brings at most is told by `_reaches`. The kind
  with the fewest counts left is branched on.
- *The last two kinds*: of the last one as many are taken as the money left buys, so that the
  remainder of a division is left over. By some vector only so much can be spared: the counts of
  the last but one that leave no more are looked up by their remainders.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Sequence
from math import gcd

from attrs import frozen

from drylay.cutting.model import Task
from drylay.cutting.weighing import Weighed, fewest_in_all

#: So many nodes of the search are gone through between two ticks.
TICK_NODES = 1_000
#: No more remainders than these are listed; where there are more, every count is tried.
MOST_LISTED = 10_000

Kind = tuple[int, int | None, tuple[int, ...], int]  # price, limit, worths, stock (-1: joints)
Left = tuple[int, ...]  # the kinds still to come
Reach = tuple[int, int, int, int]  # vector; worth, its price; extra: see `_reaches`
Slope = tuple[int, int, int, int, int]  # vector; what a count adds over its price; as in Reach


@frozen(kw_only=True)
class Searched:
    """What a search over counts found: boards of each stock and joints, or None.

    Not `finished`: it stopped at its most nodes.
    """

    finished: bool
    boards: tuple[int, ...] | None
    joints: int
    nodes: int


def search(
    task: Task,
    weighed: Sequence[Weighed],
    money: int,
    most_nodes: int,
    tick: Callable[[], None] | None = None,
) -> Searched:
    """Return counts within `money` that satisfy every vector, if any; `tick` may end it."""
    fewest = fewest_in_all(task)
    left = money - fewest * task.joint_price
    if left < 0:
        return Searched(finished=True, boards=None, joints=0, nodes=1)
    kinds = _kinds(task, weighed)
    needs = [demand - fewest * task.joint_price * scale for _, demand, scale in weighed]
    found = _free(kinds, needs)
    for price, _, worths, stock in kinds:
        if not price:
            needs = [n - found[stock] * w for n, w in zip(needs, worths, strict=True)]
    counting = _Counting(_not_outdone(kinds), needs, left, most_nodes, tick)
    try:
        enough = counting.enough()
    except OverflowError:
        return Searched(finished=False, boards=None, joints=0, nodes=counting.nodes)
    found |= counting.chosen
    return Searched(
        finished=True,
        boards=tuple(found.get(s, 0) for s in range(len(task.stock))) if enough else None,
        joints=fewest + found.get(-1, 0) if enough else 0,
        nodes=counting.nodes,
    )


def _kinds(task: Task, weighed: Sequence[Weighed]) -> list[Kind]:
    """Return what money buys, boards and joints: those with a limit first, cheap before dear."""
    kinds = [
        (stock.price, stock.limit, tuple(carries[s] for carries, _, _ in weighed), s)
        for s, stock in enumerate(task.stock)
    ]
    if task.joint_price and any(line.count for line in task.lines):
        price = task.joint_price
        kinds.append((price, None, tuple(price * scale for _, _, scale in weighed), -1))
    return sorted(kinds, key=lambda kind: (kind[1] is None, kind[0], kind[3]))


def _free(kinds: Sequence[Kind], needs: Sequence[int]) -> dict[int, int]:
    """Return how many to take of each stock that costs nothing: all, or as many as can help."""
    found = {}
    for price, limit, worths, stock in kinds:
        if price == 0:
            useful = [-(-n // w) for n, w in zip(needs, worths, strict=True) if n > 0 < w]
            most = max(useful, default=0)
            found[stock] = most if limit is None else min(most, limit)
    return found


def _not_outdone(kinds: Sequence[Kind]) -> list[Kind]:
    """Return the kinds that cost something and that no other kind outdoes."""
    kept = [kind for kind in kinds if kind[0] and kind[1] != 0]
    for kind in list(kept):
        if any(_outdoes(other, kind) for other in kept if other is not kind):
            kept.remove(kind)
    return kept


def _outdoes(one: Kind, other: Kind) -> bool:
    copies = other[0] // one[0]
    both = zip(one[2], other[2], strict=True)
    return one[1] is None and copies > 0 and all(copies * mine >= its for mine, its in both)


class _Counting:
    """The search: what it has found out about the kinds, and the nodes gone through."""

    def __init__(
        self,
        kinds: Sequence[Kind],
        needs: Sequence[int],
        money: int,
        most_nodes: int,
        tick: Callable[[], None] | None,
    ) -> None:
        wanting = [v for v, need in enumerate(needs) if need > 0]
        self.needs = [needs[v] for v in wanting]
        self.kinds: list[Kind] = [
            (price, limit, tuple(worths[v] for v in wanting), stock)
            for price, limit, worths, stock in kinds
        ]
        self.money, self.most_nodes, self.nodes, self.tick = money, most_nodes, 0, tick
        self.chosen: dict[int, int] = {}  # once enough: how many of each stock, of joints
        self.reaches: dict[Left, list[Reach]] = {}
        self.slopes: dict[tuple[int, Left], list[Slope]] = {}
        self.remainders: dict[Left, list[tuple[int, int]]] = {}

    def enough(self) -> bool:
        """Return whether the money can meet the needs."""
        return self._visit(tuple(range(len(self.kinds))), self.money, self.needs)

    def _visit(self, left: Left, money: int, needs: list[int]) -> bool:
        """Return whether `money` spent on the kinds left can meet the needs."""
        self._count(1)
        if all(need <= 0 for need in needs):
            return True
        if len(left) == 2:
            return self._pair(left, money, needs)
        branch = self._branch(left, money, needs)
        if branch is None:
            return False
        k, others, counts = branch
        price, _, worths, stock = self.kinds[k]
        for count in counts:
            rest = [need - count * worth for need, worth in zip(needs, worths, strict=True)]
            if self._visit(others, money - count * price, rest):
                self.chosen[stock] = count
                return True
        return False

    def _count(self, nodes: int) -> None:
        before, self.nodes = self.nodes, self.nodes + nodes
        if self.nodes > self.most_nodes:
            raise OverflowError
        if self.tick is not None and self.nodes // TICK_NODES > before // TICK_NODES:
            self.tick()

    def _branch(self, left: Left, money: int, needs: list[int]) -> tuple[int, Left, range] | None:
        """Return the kind with the fewest counts, the others, its counts; None for a dead end."""
        best = None
        for k in left:
            others = tuple(other for other in left if other != k)
            counts = self._range(k, others, money, needs)
            if not counts:
                return None
            if best is None or len(counts) < len(best[2]):
                best = k, others, counts
        return best

    def _range(self, k: int, others: Left, money: int, needs: list[int]) -> range:
        """Return the counts of kind k that leave the others a chance."""
        price, limit, _, _ = self.kinds[k]
        low, high = 0, money // price
        if limit is not None and limit < high:
            high = limit
        for vector, slope, worth, cost, extra in self._slopes(k, others):
            # (money - count x price) x worth + extra >= (need - count x its worth) x cost
            short = needs[vector] * cost - money * worth - extra
            if slope > 0:
                if short > low * slope:
                    low = -(-short // slope)
            elif short > high * slope:
                if slope == 0:
                    return range(0)
                high = short // slope
        return range(low, high + 1)

    def _slopes(self, k: int, others: Left) -> list[Slope]:
        found = self.slopes.get((k, others))
        if found is None:
            price, _, worths, _ = self.kinds[k]
            found = [
                (vector, worths[vector] * cost - price * worth, worth, cost, extra)
                for vector, worth, cost, extra in self._reaches(others)
            ]
            self.slopes[k, others] = found
        return found

    def _reaches(self, left: Left) -> list[Reach]:
        """Return what money spent on some kinds brings at most, by each vector.

        `worth` for each `price` spent, and `extra` / price on top. Where the best worth for
        money is of a kind with a limit, that rate holds without an extra; and so does any
        lower rate with, as an extra, all that the limited kinds bring beyond it. No rate is
        below the best of the kinds without a limit.
        """
        found = self.reaches.get(left)
        if found is None:
            kinds = [self.kinds[k] for k in left]
            found = [reach for v in range(len(self.needs)) for reach in _reaches(kinds, v)]
            self.reaches[left] = found
        return found

    def _pair(self, left: Left, money: int, needs: list[int]) -> bool:
        """Return whether two kinds can meet the needs: of the second, all that money buys."""
        one, last = self.kinds[left[0]], self.kinds[left[1]]
        counts = self._range(left[0], left[1:], money, needs)
        wants = list(zip(needs, one[2], last[2], strict=True))
        for count in self._spending(left, counts, money, needs):
            self._count(1)
            more = (money - count * one[0]) // last[0]
            more = more if last[1] is None else min(more, last[1])
            if all(need <= count * its + more * other for need, its, other in wants):
                self.chosen |= {one[3]: count, last[3]: _fewest(wants, count)}
                return True
        return False

    def _spending(self, left: Left, counts: range, money: int, needs: list[int]) -> Iterable[int]:
        """Return the counts of the first of two kinds that leave over no more than can be."""
        price, limit, _, _ = self.kinds[left[1]]
        if limit is not None or len(counts) < 4:
            return counts
        spare = money - max(
            -((extra - needs[vector] * cost) // worth) if worth else 0
            for vector, worth, cost, extra in self._reaches(left)
        )
        listed = self._remainders(left)
        if spare >= price or not listed:
            return counts
        # left over: (money - count x its price) % price <= spare
        top = money % price
        found = _between(listed, top - spare, top)
        found += _between(listed, top - spare + price, price)
        return sorted(count for count in found if count in counts)

    def _remainders(self, left: Left) -> list[tuple[int, int]]:
        """Return (count x price of the first % price of the second, count), in order."""
        found = self.remainders.get(left)
        if found is None:
            one, last = self.kinds[left[0]][0], self.kinds[left[1]][0]
            counts = range(self.money // one + 1)
            few = len(counts) <= MOST_LISTED
            found = sorted((count * one % last, count) for count in counts) if few else []
            self.remainders[left] = found
        return found


def _between(listed: list[tuple[int, int]], low: int, high: int) -> list[int]:
    """Return the counts whose remainders are from `low` to `high`."""
    first, last = bisect_left(listed, (low, 0)), bisect_left(listed, (high + 1, 0))
    return [count for _, count in listed[first:last]]


def _fewest(wants: Iterable[tuple[int, int, int]], count: int) -> int:
    """Return how many of the second of two kinds are needed beside a count of the first."""
    missing = [(need - count * its, other) for need, its, other in wants]
    return max([0, *(-(-short // other) for short, other in missing if short > 0)])


def _reaches(kinds: Sequence[Kind], vector: int) -> list[Reach]:
    endless = [(worths[vector], price) for price, limit, worths, _ in kinds if limit is None]
    limited = [
        (worths[vector], price, limit) for price, limit, worths, _ in kinds if limit is not None
    ]
    base = (0, 1)
    for rate in endless:
        base = rate if rate[0] * base[1] > base[0] * rate[1] else base
    rates = [base]
    rates += [(w, price) for w, price, _ in limited if w * base[1] > base[0] * price]
    found = []
    for worth, cost in rates:
        extra = sum(limit * max(0, w * cost - price * worth) for w, price, limit in limited)
        common = gcd(worth, cost, extra)
        found.append((vector, worth // common, cost // common, extra // common))
    return list(dict.fromkeys(found))
