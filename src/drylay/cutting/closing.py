"""Closes the gap: raises the bound over whole board counts and makes plans within them."""

from heapq import heappop, heappush

from attrs import evolve, frozen

from drylay.cutting.counts import Counts, Tally, cut_off
from drylay.cutting.making import Within, make_plan, search_plan, uncapped, with_rich_fillings
from drylay.cutting.master import Master
from drylay.cutting.model import WorkLimits
from drylay.cutting.rounding import Draft
from drylay.cutting.verify import price_step
from drylay.cutting.worths import Worth

Limits = tuple[int | None, ...]  # of each usable board, how many there may be
Waiting = tuple[int, int, Limits, Counts]  # cost, a number, limits it is the cheapest within


@frozen(kw_only=True)
class State:
    """The best plan so far, the worth vectors found, the bound they support."""

    draft: Draft
    worths: list[Worth]
    bound: int

    @property
    def gap(self) -> int:
        """What the plan costs over the bound."""
        return self.draft.objective - self.bound


@frozen(kw_only=True)
class Aim:
    """How far to go: the gap (a share of the cost) that will do, and the work limits."""

    gap: float
    bound_cuts: int
    splits: int
    tries: int
    leans: int


def aim(mode: str, limits: WorkLimits) -> Aim:
    """Return how far to go in a mode."""
    if mode == "quick":
        return Aim(
            gap=max(0.002, limits.gap_ratio),
            bound_cuts=min(6, limits.bound_cuts),
            splits=min(30, limits.splits),
            tries=min(2, limits.tries),
            leans=1,
        )
    return Aim(
        gap=limits.gap_ratio,
        bound_cuts=limits.bound_cuts,
        splits=limits.splits,
        tries=limits.tries,
        leans=limits.leans,
    )


def close(master: Master, state: State, aim: Aim) -> State:
    """Raise the bound and better the plan until they meet or the work runs out."""
    return _Closing(master, state, aim).run()


class _Closing:
    """The search: what is known, and what is left of the work."""

    def __init__(self, master: Master, state: State, aim: Aim) -> None:
        self.master, self.state, self.aim = master, state, aim
        self.cuts_left, self.number = aim.bound_cuts, 0
        self.step = price_step(master.ready.task)
        self.tally = Tally(master, aim.splits)
        for worth in state.worths:
            self.tally.add(worth)

    @property
    def done(self) -> bool:
        """Whether the gap is small enough."""
        return self.state.gap <= self.aim.gap * self.state.draft.objective

    def run(self) -> State:
        """Return the state with bound and plan as near as they came.

        A plan is made within the cheapest counts that no worth vector cuts off. If none can
        be made, the next cheapest follow: each with fewer boards of some stock.
        """
        limits: Limits = tuple(board.limit for board in self.master.ready.boards)
        waiting: list[Waiting] = []
        tried: set[tuple[int, ...]] = set()
        self._wait(waiting, limits, self.state.bound, sure=True)
        while waiting and len(tried) < self.aim.tries and not self.done and not self.master.tired:
            cost, _, limits, counts = heappop(waiting)
            if cost >= self.state.draft.objective:
                break
            if counts.boards not in tried:
                tried.add(counts.boards)
                self._make(counts, in_parts=self.aim.leans > 1 and len(tried) == 1)
                if len(tried) == 1 and self.aim.leans > 1 and not (self.done or self.master.tired):
                    self._search_for_one()
            for board, count in enumerate(counts.boards):
                if count and not self.done:
                    fewer = (*limits[:board], count - 1, *limits[board + 1 :])
                    self._wait(waiting, fewer, cost, sure=False)
        if self.aim.leans > 1 and tried and not (self.done or self.master.tired):
            self._search_all_sides()
        return self.state

    def _wait(self, waiting: list[Waiting], limits: Limits, low: int, *, sure: bool) -> None:
        """Add the cheapest counts within the limits that no worth vector cuts off."""
        counts = self._uncut(limits, low, sure=sure)
        if counts is not None:
            self.number += 1
            heappush(waiting, (counts.cost, self.number, limits, counts))

    def _uncut(self, limits: Limits, low: int, *, sure: bool) -> Counts | None:
        """Return those counts, None if there are none cheap enough; `sure` raises the bound."""
        while self.cuts_left and not self.done:
            self.cuts_left -= 1
            below = self.state.draft.objective
            counts, least = self.tally.cheapest(low, below, None if sure else limits)
            if sure:
                self.state = evolve(self.state, bound=max(self.state.bound, least))
            if counts is None or self.done:
                break
            worth, known = cut_off(self.master, counts)
            self.master.cap_boards(uncapped(self.master))
            if worth is None:
                return counts if known else None
            self.tally.add(worth)
            self.state = evolve(self.state, worths=[*self.state.worths, worth])
            low = max(low, least) if sure else low
        return None

    def _search_for_one(self) -> None:
        """Better the plan by one the solver finds, whatever the counts."""
        draft = self.state.draft
        within = Within(caps=uncapped(self.master), most=draft.objective - self.step)
        found = search_plan(self.master, within, float(self.state.bound))
        if found is not None:
            self.state = evolve(self.state, draft=min(draft, found, key=lambda one: one.rank))

    def _search_all_sides(self) -> None:
        """Better the plan by one the solver finds over all sides and fillings, if not too many."""
        most, bound = self.state.draft.objective - self.step, self.state.bound
        found = with_rich_fillings(self.master, most, bound)
        if found is not None:
            draft = min(self.state.draft, found, key=lambda one: one.rank)
            self.state = evolve(self.state, draft=draft)

    def _make(self, counts: Counts, *, in_parts: bool) -> None:
        """Better the plan by one within the counts, as cheap as they, or dearer."""
        draft, leans = self.state.draft, self.aim.leans
        caps = [float(count) for count in counts.boards]
        found = make_plan(
            self.master, Within(caps=caps, most=counts.cost), leans, in_parts=in_parts
        )
        if found is None and draft.objective - self.step > counts.cost:
            found = make_plan(self.master, Within(caps=caps, most=draft.objective - self.step))
        if found is not None:
            self.state = evolve(self.state, draft=min(draft, found, key=lambda one: one.rank))
