"""Raises the bound over whole board counts, one worth vector at a time."""

from collections.abc import Sequence

from attrs import frozen

from drylay.cutting.master import Master, Prices
from drylay.cutting.verify import price_step, search
from drylay.cutting.worths import Worth, worth_of


@frozen(kw_only=True)
class Counts:
    """The cheapest counts (of each usable board, of joints) that satisfy every worth vector."""

    boards: tuple[int, ...]
    joints: int
    cost: int


def cheapest_counts(
    master: Master, worths: Sequence[Worth], low: int, below: int
) -> Counts | int | None:
    """Return the cheapest counts that cost at least `low` and less than `below`.

    If there are none, `below`: a bound. None if the search would take too many nodes.
    """
    step, width = price_step(master.ready.task), 1
    found: Counts | None = None
    while low < below:
        money = min(low + (width - 1) * step, below - step)
        searched = counts_within(master, worths, money)
        if searched is None:
            return None
        if isinstance(searched, Counts):
            found = searched
            if searched.cost <= low:
                return found
            below, width = searched.cost, max(1, (searched.cost - low) // step // 2)
        else:
            low, width = money + step, 2 * width
            if found and low >= found.cost:
                return found
    return found or below


def counts_within(master: Master, worths: Sequence[Worth], money: int) -> Counts | bool | None:
    """Return some counts within `money`; False if there are none, None if that is not known."""
    task = master.ready.task
    weighed = [worth.weighed for worth in worths]
    searched = search(task, weighed, money, master.limits.proof_nodes, master.tick)
    if not searched.finished:
        return None
    if searched.boards is None:
        return False
    cost = sum(n * s.price for n, s in zip(searched.boards, task.stock, strict=True))
    return Counts(
        boards=tuple(searched.boards[board.stock] for board in master.ready.boards),
        joints=searched.joints,
        cost=cost + task.joint_price * searched.joints,
    )


def cut_off(master: Master, counts: Counts) -> tuple[Worth | None, Prices | None]:
    """Return a worth vector these counts do not satisfy, and the linear optimum within them.

    The optimum is found with no more boards than these: where it costs more, its prices
    say so for any other counts as well. If it does not, the boards are taken as paid for
    and the joints must cost more than they may. No vector if they do not either.
    """
    master.cap_boards([float(count) for count in counts.boards])
    prices = master.solve()
    worth = None if prices is None else _cutting(master, prices, counts, counts.cost)
    if prices is not None and worth is None:
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
