"""Raises the bound over whole board counts, one worth vector at a time."""

from collections.abc import Sequence

from attrs import frozen

from drylay.cutting.master import Master
from drylay.cutting.solver import INF, Column, solve_whole
from drylay.cutting.verify import price_step
from drylay.cutting.worths import Worth, worth_of


@frozen(kw_only=True)
class Counts:
    """The cheapest board counts (and joints) that satisfy every worth vector so far."""

    boards: tuple[int, ...]
    joints: int
    cost: int


def cheapest_counts(master: Master, worths: Sequence[Worth]) -> Counts | None:
    """Return the cheapest whole board counts the vectors allow, by the solver."""
    ready = master.ready
    price, least = ready.task.joint_price, ready.fewest_joints
    low = [worth.weighed[1] / worth.weighed[2] - price * least for worth in worths]
    rows = tuple(range(len(worths)))
    columns: list[Column] = [
        (
            float(board.price),
            INF if board.limit is None else float(board.limit),
            rows,
            tuple(worth.weighed[0][board.stock] / worth.weighed[2] for worth in worths),
        )
        for board in ready.boards
    ]
    if price and ready.lanes:
        columns.append((float(price), INF, rows, tuple(float(price) for _ in worths)))
    answer = solve_whole((low, [INF] * len(low)), columns, nodes=20_000)
    if answer is None:
        return None
    whole = [round(value) for value in answer.values]
    boards = tuple(whole[: len(ready.boards)])
    joints = least + (whole[-1] if price and ready.lanes else 0)
    cost = sum(n * b.price for n, b in zip(boards, ready.boards, strict=True))
    return Counts(boards=boards, joints=joints, cost=cost + price * joints)


def cut_off(master: Master, counts: Counts) -> Worth | None:
    """Return a worth vector these counts do not satisfy; None if whole counts satisfy all.

    The optimum is found with no more boards than these: where it costs more, its prices
    say so for any other counts as well.
    """
    master.cap_boards([float(count) for count in counts.boards])
    prices = master.solve()
    if prices is None or prices.objective <= counts.cost + 1e-6 * max(1, counts.cost):
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


def round_up(master: Master, bound: float) -> int:
    """Return a bound rounded up to the next sum of prices."""
    step = price_step(master.ready.task)
    return -int(-bound // step) * step
