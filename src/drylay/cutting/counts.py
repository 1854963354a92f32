"""Raises the bound over whole board counts, one worth vector at a time."""

from math import ceil
from typing import Any

from attrs import frozen

from drylay.cutting.master import Master, Prices
from drylay.cutting.solver import INF, Column, add_columns, best_whole, open_whole
from drylay.cutting.verify import Searched, price_step, search
from drylay.cutting.worths import Worth, worth_of


FEW_NODES = 1500  # beyond these the solver is quicker


@frozen(kw_only=True)
class Counts:
    """The cheapest counts (of each usable board, of joints) that satisfy every worth vector."""

    boards: tuple[int, ...]
    joints: int
    cost: int


class Tally:
    """The whole-number programme over board counts and joints that worth vectors leave open.

    Asked by a search of few nodes first, since most answers are near; else by the solver. Its
    answers are the engine's next guess and its claim; what is told to others is proven by
    `verify.search`, in integers.
    """

    def __init__(self, master: Master) -> None:
        ready, task = master.ready, master.ready.task
        self.master = master
        self.joint_price = task.joint_price if task.lines else 0
        self.fewest = ready.fewest_joints
        self.worths: list[Worth] = []
        self.model: Any = None

    def add(self, worth: Worth) -> None:
        """Add what a worth vector demands."""
        self.worths.append(worth)
        if self.model is not None:
            self._add_row(worth)

    def cheapest(self, low: int, below: int) -> tuple[Counts | None, int]:
        """Return the cheapest counts found, and what counts cost at least.

        No counts if there are none under `below` or none were found. Counts that cost less than
        `low` are left out.
        """
        step, width = price_step(self.master.ready.task), 1
        found: Counts | None = None
        while low < below:
            money = min(low + (width - 1) * step, below - step)
            searched = self._within(money)
            if not searched.finished:
                guess, least = self._solved(low, below)
                return guess or found, least
            if searched.boards is None:
                low, width = money + step, 2 * width
            else:
                found = self._counts(searched)
                below, width = found.cost, max(1, (found.cost - low) // step // 2)
        return found, below

    def _within(self, money: int) -> Searched:
        weighed = [worth.weighed for worth in self.worths]
        return search(self.master.ready.task, weighed, money, FEW_NODES, self.master.tick)

    def _counts(self, searched: Searched) -> Counts:
        task = self.master.ready.task
        assert searched.boards is not None
        cost = sum(n * s.price for n, s in zip(searched.boards, task.stock, strict=True))
        return Counts(
            boards=tuple(searched.boards[board.stock] for board in self.master.ready.boards),
            joints=searched.joints,
            cost=cost + self.joint_price * searched.joints,
        )

    # -- by the solver -------------------------------------------------------------------

    def _solved(self, low: int, below: int) -> tuple[Counts | None, int]:
        self.master.tick()
        if self.model is None:
            self._open()
        step = price_step(self.master.ready.task)
        self.model.changeRowBounds(0, low - step / 4, below - step / 2)
        values, least = best_whole(self.model)
        least = below if least >= below else max(low, -(-ceil(least - 1e-6) // step) * step)
        if values is None:
            return None, least
        counts = [round(value) for value in values]
        boards, joints = tuple(counts[:-1]), counts[-1]
        prices = [board.price for board in self.master.ready.boards]
        cost = sum(n * price for n, price in zip(boards, prices, strict=True))
        cost += self.joint_price * joints
        return Counts(boards=boards, joints=joints, cost=cost), least

    def _open(self) -> None:
        boards = self.master.ready.boards
        prices = [float(board.price) for board in boards] + [float(self.joint_price)]
        most = [INF if b.limit is None else float(b.limit) for b in boards] + [INF]
        self.model = open_whole([0.0], [INF])
        columns: list[Column] = [
            (price, cap, (0,), (price,)) for price, cap in zip(prices, most, strict=True)
        ]
        add_columns(self.model, columns, whole=True)
        self.model.changeColBounds(len(boards), float(self.fewest), INF)
        for worth in self.worths:
            self._add_row(worth)

    def _add_row(self, worth: Worth) -> None:
        carries, demand, scale = worth.weighed
        values = [carries[board.stock] / scale for board in self.master.ready.boards]
        values.append(float(self.joint_price))
        places = [place for place, value in enumerate(values) if value]
        found = [values[place] for place in places]
        self.model.addRow(demand / scale, INF, len(places), places, found)


def cut_off(master: Master, counts: Counts) -> tuple[Worth | None, Prices | None]:
    """Return a worth vector these counts do not satisfy, and the linear optimum within them.

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
    return worth, prices


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
