"""Raises the bound over whole board counts, one worth vector at a time."""

from collections.abc import Sequence

from attrs import evolve, frozen

from drylay.cutting.master import Master, Prices
from drylay.cutting.model import Task
from drylay.cutting.splitting import Forms, Searched, least_money, search
from drylay.cutting.verify import price_step
from drylay.cutting.worths import Worth, worth_of


@frozen(kw_only=True)
class Counts:
    """The cheapest counts (of each usable board, of joints) that satisfy every worth vector."""

    boards: tuple[int, ...]
    joints: int
    cost: int


class Tally:
    """The board counts and joints that worth vectors leave open, in whole numbers."""

    def __init__(self, master: Master, splits: int) -> None:
        self.master, self.splits = master, splits
        self.worths: list[Worth] = []
        self.forms: Forms | None = None

    def add(self, worth: Worth) -> None:
        """Add what a worth vector demands."""
        self.worths.append(worth)

    def cheapest(
        self, low: int, below: int, limits: Sequence[int | None] | None = None
    ) -> tuple[Counts | None, int]:
        """Return the cheapest counts found from `low` on, and what counts cost at least.

        No counts if there are none under `below` or none were found within the most splits.
        With `limits` there are no more boards of each stock than those.
        """
        task = self._limited(limits)
        step, width = price_step(task), 1
        found: Counts | None = None
        weighed = [worth.weighed for worth in self.worths]
        low = max(low, -(-least_money(task, weighed) // step) * step)
        while low < below:
            money = min(low + (width - 1) * step, below - step)
            searched = search(
                task, weighed, money, self.splits, self.master.tick, forms=self.forms, told=False
            )
            self.forms = searched.forms or self.forms
            if not searched.finished:
                return found, low
            if searched.boards is None:
                low, width = money + step, 2 * width
            else:
                found = self._counts(searched)
                below, width = found.cost, max(1, (found.cost - low) // step // 2)
        return found, below

    def _limited(self, limits: Sequence[int | None] | None) -> Task:
        task = self.master.ready.task
        if limits is None:
            return task
        stock = list(task.stock)
        for board, limit in zip(self.master.ready.boards, limits, strict=True):
            stock[board.stock] = evolve(stock[board.stock], limit=limit)
        return evolve(task, stock=tuple(stock))

    def _counts(self, searched: Searched) -> Counts:
        task = self.master.ready.task
        assert searched.boards is not None
        cost = sum(n * s.price for n, s in zip(searched.boards, task.stock, strict=True))
        return Counts(
            boards=tuple(searched.boards[board.stock] for board in self.master.ready.boards),
            joints=searched.joints,
            cost=cost + task.joint_price * searched.joints,
        )


def cut_off(master: Master, counts: Counts) -> tuple[Worth | None, bool]:
    """Return a worth vector these counts do not satisfy, and whether a linear optimum is known.

    The optimum is found with no more boards than these: where it costs more, its prices
    say so for any other counts as well. If it does not, the boards are taken as paid for
    and the joints must cost more than they may. No vector if they do not either.
    """
    master.cap_boards([float(count) for count in counts.boards])
    prices = master.solve()
    worth = None if prices is None else _cutting(master, prices, counts, counts.cost)
    if prices is not None and worth is None and master.ready.lanes:
        master.sink_costs(True)
        sunk = master.solve()
        joints = master.ready.task.joint_price * counts.joints
        worth = None if sunk is None else _cutting(master, sunk, counts, joints)
        master.sink_costs(False)
    return worth, prices is not None


def _cutting(master: Master, prices: Prices, counts: Counts, cost: int) -> Worth | None:
    if prices.objective <= cost + 1e-6 * max(1, cost):
        return None
    worth = worth_of(master, prices)
    return worth if _cuts(master, worth, counts) else None


def _cuts(master: Master, worth: Worth, counts: Counts) -> bool:
    carries, demand, scale = worth.weighed
    carried = sum(
        carries[board.stock] * count
        for board, count in zip(master.ready.boards, counts.boards, strict=True)
    )
    return carried + master.ready.task.joint_price * scale * counts.joints < demand
