"""The best choice of so many lengths out of all: branch and bound over what is left out.

A choice is a set of lengths, told by their numbers in rising order of length. Of two choices with
the same longest length the one that holds the other cannot be dearer: whatever is cut from the
smaller can be cut from the larger. So what the larger costs at least, the smaller does too; and a
whole branch, all choices within one, is left alone where that is no less than the best found.
Where the cheapest order of the larger uses no length but those of the smaller, it is the smaller's.
Choices with unlike longest lengths are never held against one another that way, for decks may be
planned otherwise where a longer length is on sale.
"""

from collections.abc import Callable, Iterator
from heapq import heapify, heappop, heappush
from typing import Protocol

from attrs import Factory, define, evolve, field, frozen

Choice = tuple[int, ...]

#: A branch is cut in full, and not only at its floor, where that is so near the best: then the
#: little that whole boards cost more may be enough to leave it. A matter of work alone.
NEAR = (98, 100)


@frozen(kw_only=True)
class Weighed:
    """A choice of lengths with the cost of its order, and what that cannot be less than.

    Without a cost no order was found, though there may be one. `used` are the lengths bought.
    """

    kept: Choice
    cost: int | None
    bound: int
    used: Choice = ()


class Cutting(Protocol):
    """What the search asks of a choice of lengths."""

    def floor(self, kept: Choice) -> int | None:
        """Return a cost that no order from these lengths goes below, None where none exists."""
        ...

    def order(self, kept: Choice, mode: str) -> Weighed | None:
        """Return the cheapest order found from these lengths, None where none exists."""
        ...


@frozen(kw_only=True)
class Best:
    """The best choice of at most so many lengths, and what none of them can cost less than.

    `whole` says that no branch was left for want of looks.
    """

    found: Weighed | None
    bound: int
    whole: bool = True


@define
class Search:
    """Choices looked at so far: what each costs at least, and orders. `looks` counts them.

    `rough` are orders of the cutter's quick mode: their bounds hold, and mostly leave a branch.
    `will_do` is how many thousandths cheaper another choice may be without being looked for.
    """

    sold: int
    cutting: Cutting
    will_do: int = 0
    told: Callable[[], None] = lambda: None
    floors: dict[Choice, int | None] = Factory(dict)
    rough: dict[Choice, Weighed | None] = Factory(dict)
    orders: dict[Choice, Weighed | None] = Factory(dict)

    @property
    def looks(self) -> int:
        """Return how many choices were looked at."""
        return len(self.floors)

    def leaves(self, bound: int, best: Weighed | None) -> bool:
        """Whether what costs so much at least may be left alone beside the best found."""
        return best is not None and bound >= cost_of(best) - cost_of(best) * self.will_do // 1000

    def floor(self, kept: Choice) -> int | None:
        """Return what a choice costs at least, None where nothing can be cut from it."""
        if kept not in self.floors:
            self.told()
            self.floors[kept] = self.cutting.floor(kept)
        return self.floors[kept]

    def quick(self, kept: Choice) -> Weighed | None:
        """Return the rough order of a choice, None where none exists."""
        if kept not in self.rough:
            self.told()
            self.rough[kept] = self._inherited(kept) or self.cutting.order(kept, "quick")
        return self.rough[kept]

    def order(self, kept: Choice) -> Weighed | None:
        """Return the proven order of a choice, None where none exists."""
        rough = self.quick(kept)
        if rough is None or rough.cost == rough.bound:
            return rough
        if kept not in self.orders:
            self.told()
            self.orders[kept] = self._inherited(kept) or self.cutting.order(kept, "proven")
        return self.orders[kept]

    def _inherited(self, kept: Choice) -> Weighed | None:
        """Return the order of a larger choice that uses none but these, where none is cheaper."""
        for larger in self._larger(kept):
            if larger.cost == larger.bound and set(larger.used) <= set(kept):
                return evolve(larger, kept=kept)
        return None

    def least(self, kept: Choice) -> int:
        """Return what a choice costs at least by the orders of larger ones."""
        return max((larger.bound for larger in self._larger(kept)), default=0)

    def _larger(self, kept: Choice) -> Iterator[Weighed]:
        wanted = set(kept)
        for choice, order in (*self.orders.items(), *self.rough.items()):
            if order is not None and choice[-1] == kept[-1] and wanted.issubset(choice):
                yield order


@frozen(order=True)
class _Branch:
    """All choices of so many lengths within `kept`: none before number `first` is left out."""

    bound: int
    kept: Choice
    first: int = field(order=False)
    stage: int = field(default=0, order=False)  # 1: its floor is known, 2: its order, or not asked


def best_choice(search: Search, count: int, before: Weighed | None, looks: int) -> Best:
    """Return the best choice of at most `count` lengths.

    `before` is the best of fewer lengths, `looks` how many choices not seen yet may be looked at.
    Where these run out the bound is that of what was left.
    """
    best = _better(before, _one_more(search, count, before))
    waiting = [_Branch(0, tuple(range(longest + 1)), 0) for longest in range(search.sold)]
    heapify(waiting)
    most, loose = search.looks + looks, [] if best is None else [cost_of(best)]
    while waiting and not search.leaves(waiting[0].bound, best):
        branch = heappop(waiting)
        if search.looks >= most and branch.kept not in search.floors:
            return Best(found=best, bound=min([branch.bound, *loose]), whole=False)
        if len(branch.kept) <= count and branch.stage == 1:
            order = _settled(search, branch.kept, best)
            best = _better(best, order)
            loose += [] if order is None else [max(order.bound, branch.bound)]
        elif branch.stage == 2:
            for part in _parts(branch, count):
                heappush(waiting, part)
        else:
            closer, found = _closer(search, branch, count, best)
            best = _better(best, found)
            if closer is not None:
                heappush(waiting, closer)
    loose += [branch.bound for branch in waiting[:1]]
    return Best(found=best, bound=min([*loose, *([cost_of(best)] if best else [])], default=0))


def _settled(search: Search, kept: Choice, best: Weighed | None) -> Weighed | None:
    """Return the order of a choice: the rough one where its bound leaves no chance to a closer."""
    rough = search.quick(kept)
    if rough is None or search.leaves(rough.bound, best):
        return rough
    return search.order(kept)


def _closer(
    search: Search, branch: _Branch, count: int, best: Weighed | None
) -> tuple[_Branch | None, Weighed | None]:
    """Return a branch looked at more closely, None where nothing can be cut from it.

    And a choice within it, where its own order uses no more lengths than may be kept.
    """
    kept = branch.kept
    if branch.stage == 0:
        floor = search.floor(kept)
        if floor is None:
            return None, None
        bound = max(floor, branch.bound, search.least(kept))
        return evolve(branch, bound=bound, stage=1), None
    if best is None or branch.bound * NEAR[1] < cost_of(best) * NEAR[0]:
        return evolve(branch, stage=2), None
    order = search.quick(kept)
    if order is None:
        return None, None
    within = tuple(sorted({*order.used, kept[-1]}))
    settled = order.cost == order.bound and len(within) <= count
    found = evolve(order, kept=within) if settled else None
    return evolve(branch, bound=max(order.bound, branch.bound), stage=2), found


def cost_of(found: Weighed) -> int:
    """Return what the order of a choice costs, where one was found."""
    assert found.cost is not None
    return found.cost


def _parts(branch: _Branch, count: int) -> Iterator[_Branch]:
    """Yield a branch for each length left out next; the longest is always kept."""
    kept = branch.kept
    for at in range(branch.first, count):
        yield _Branch(branch.bound, (*kept[:at], *kept[at + 1 :]), at)


def _one_more(search: Search, count: int, before: Weighed | None) -> Weighed | None:
    """Return the best found of the lengths kept before and one more: those that cost least."""
    kept = () if before is None or count == 1 else before.kept
    more = (tuple(sorted({*kept, one})) for one in range(search.sold) if one not in kept)
    floors = [(floor, choice) for choice in more if (floor := search.floor(choice)) is not None]
    for floor, choice in sorted(floors):
        if search.leaves(floor, before):
            return None
        found = _settled(search, choice, before)
        if found is not None and found.cost is not None:
            return found
    return None


def _better(one: Weighed | None, other: Weighed | None) -> Weighed | None:
    """Return the cheaper of two orders: of equals the one of fewer lengths, else the first."""
    if other is None or other.cost is None:
        return one
    if one is None:
        return other
    return other if (other.cost, len(other.kept)) < (cost_of(one), len(one.kept)) else one
