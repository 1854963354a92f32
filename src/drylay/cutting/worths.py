"""Worth vectors in integers out of the solver's prices."""

from collections.abc import Sequence

from attrs import evolve, frozen

from drylay.cutting.fill import fullest
from drylay.cutting.master import Master, Prices
from drylay.cutting.model import WorthVector
from drylay.cutting.verify import Weighed, direct_bound, lines_worth, room

#: Scales tried first, since small fractions make a certificate a person can follow.
SMALL_SCALES = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 15, 16, 18, 20, 21, 24, 28, 30, 36, 42, 60)
FINE_SCALE = 1_000_000


@frozen(kw_only=True)
class Worth:
    """A worth vector and what it says of the task."""

    vector: WorthVector
    weighed: Weighed


def worth_of(master: Master, prices: Prices) -> Worth:
    """Return the solver's prices as a worth vector, in small fractions where they are such."""
    for scale in SMALL_SCALES:
        if all(_near_whole(x * scale) for x in (*prices.worths, *prices.windows)):
            exact = _weighed(master, prices, scale, 0.0)
            if _steady(master, exact, prices):
                return exact
    return _within_prices(master, _weighed(master, prices, FINE_SCALE, 0.5))


def _near_whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-5


def _weighed(master: Master, prices: Prices, scale: int, down: float) -> Worth:
    """Return the prices x scale as integers, rounded to the nearest, or down by `down`."""
    vector = WorthVector(
        scale=scale,
        lengths=master.ready.lengths,
        worths=tuple(max(0, round(worth * scale - down)) for worth in prices.worths),
        windows=tuple(
            evolve(window, price=round(price * scale))
            for window, price in zip(master.windows, prices.windows, strict=False)
            if round(price * scale) > 0
        ),
    )
    return Worth(vector=vector, weighed=weigh_fast(master, vector))


def weigh_fast(master: Master, vector: WorthVector) -> Weighed:
    """Return what `verify.weigh` returns, with a depth-first filling in place of its table."""
    ready = master.ready
    spaces = [max(0, room(stock, ready.task.kerf)) // ready.unit for stock in ready.task.stock]
    nodes = master.limits.fill_nodes
    carries = [int(fullest(vector.worths, ready.sizes, space, nodes=nodes)[0]) for space in spaces]
    worth = dict(zip(vector.lengths, vector.worths, strict=True))
    demand = sum(n * w for n, w in zip(ready.wanted, vector.worths, strict=True))
    demand += lines_worth(ready.task, vector, worth)
    return tuple(carries), demand, vector.scale


def _steady(master: Master, worth: Worth, prices: Prices) -> bool:
    """Return whether rounding to these fractions made no board carry more than it should."""
    carries, _, scale = worth.weighed
    return all(
        carries[board.stock] <= (board.price + most + 1e-5) * scale
        for board, most in zip(master.ready.boards, prices.boards, strict=True)
    )


def _within_prices(master: Master, worth: Worth) -> Worth:
    """Return the vector with its scale raised until no board carries more than its price."""
    carries, _, scale = worth.weighed
    over = [
        -(-carries[b.stock] // b.price)
        for b in master.ready.boards
        if b.limit is None and b.price and carries[b.stock] > b.price * scale
    ]
    # a cut for given board counts may carry more on purpose: only mend what rounding did
    if not over or max(over) > scale * (1 + 1e-5) + 1:
        return worth
    vector = WorthVector(
        scale=max(over),
        lengths=worth.vector.lengths,
        worths=worth.vector.worths,
        windows=worth.vector.windows,
    )
    return Worth(vector=vector, weighed=weigh_fast(master, vector))


def best_direct(master: Master, worths: Sequence[Worth]) -> int:
    """Return the best bound one of the vectors gives by itself."""
    return direct_bound(master.ready.task, [worth.weighed for worth in worths])
