"""Whether any purchase below a price meets a set of demands: by sums, else by full search."""

from fractions import Fraction
from math import gcd

from attrs import frozen

from drylay.audit.worth import Demand, TooMuchWork

MOST_NODES = 1_000_000

#: Which choice comes next, the money left, what each demand still lacks.
Node = tuple[int, int, tuple[int, ...]]


@frozen(kw_only=True)
class Choice:
    """Something that may be bought in whole numbers: its price, its limit, what it carries."""

    price: int
    limit: int | None
    carries: tuple[int, ...]


def choices(
    prices: tuple[int, ...],
    limits: tuple[int | None, ...],
    joint_price: int,
    demands: tuple[Demand, ...],
) -> tuple[Choice, ...]:
    """Return boards of each stock, and joints, as things to be bought."""
    boards = [
        Choice(price=price, limit=limit, carries=tuple(demand.carried[i] for demand in demands))
        for i, (price, limit) in enumerate(zip(prices, limits, strict=True))
    ]
    joints = Choice(
        price=joint_price, limit=None, carries=tuple(demand.joint for demand in demands)
    )
    return (*boards, joints)


def proven_by_sums(buys: tuple[Choice, ...], demand: int, index: int) -> int:
    """Return the least price that one demand alone proves, rounded up to what prices make up.

    The dearest way to carry worth is never needed: boards are taken by price per worth.
    """
    left, price = Fraction(demand), Fraction(0)
    useful = [buy for buy in buys if buy.carries[index] > 0]
    for buy in sorted(useful, key=lambda buy: Fraction(buy.price, buy.carries[index])):
        if left <= 0:
            break
        boards = left / buy.carries[index]
        taken = boards if buy.limit is None else min(boards, Fraction(buy.limit))
        left -= taken * buy.carries[index]
        price += taken * buy.price
    return _up_to_step(price, step_of(buys))


def step_of(buys: tuple[Choice, ...]) -> int:
    """Return the greatest step in which every sum of prices is counted."""
    return gcd(*(buy.price for buy in buys)) or 1


def _up_to_step(price: Fraction, step: int) -> int:
    return -(-price.numerator // (price.denominator * step)) * step


def none_is_cheaper(buys: tuple[Choice, ...], demands: tuple[int, ...], price: int) -> bool:
    """Return whether no whole numbers below a price meet every demand.

    Raises:
        TooMuchWork: The search asks for more nodes than the audit spends.
    """
    order = tuple(sorted(buys, key=lambda buy: (-max(buy.carries, default=0), buy.price)))
    best = [
        [_cheapest(order[first:], index) for index in range(len(demands))]
        for first in range(len(order))
    ]
    step = step_of(buys)
    todo: list[Node] = [(0, (price - 1) // step * step, demands)]
    nodes = 0
    while todo:
        first, money, left = todo.pop()
        nodes += 1
        if money >= 0 and all(rest <= 0 for rest in left):
            return False
        if first < len(order) and _may_do(best[first], money, left):
            most = _most(order[first], money, left)
            if nodes + len(todo) + most > MOST_NODES:
                raise TooMuchWork("a search over whole boards")
            todo += _next(order[first], most, (first, money, left))
    return True


def _may_do(best: list[tuple[int, int]], money: int, left: tuple[int, ...]) -> bool:
    """Whether the money could do for each demand alone, at its best price per worth."""
    for rest, (price, worth) in zip(left, best, strict=True):
        if rest > 0 and (worth == 0 or rest * price > money * worth):
            return False
    return money >= 0


def _most(buy: Choice, money: int, left: tuple[int, ...]) -> int:
    """Return how many of a choice are of any use, and can be had and paid for."""
    useful = [-(-rest // gain) for rest, gain in zip(left, buy.carries, strict=True) if gain > 0]
    most = max(max(useful, default=0), 0)
    most = most if buy.limit is None else min(most, max(buy.limit, 0))
    return min(most, money // buy.price) if buy.price > 0 else most


def _next(buy: Choice, most: int, node: Node) -> list[Node]:
    """Return what is left after none, one, two ... of a choice."""
    first, money, left = node
    carries = tuple(zip(left, buy.carries, strict=True))
    return [
        (first + 1, money - n * buy.price, tuple(rest - n * gain for rest, gain in carries))
        for n in range(most + 1)
    ]


def _cheapest(buys: tuple[Choice, ...], index: int) -> tuple[int, int]:
    """Return price and worth of the choice that carries most for its price, (0, 0) if none."""
    useful = [(buy.price, buy.carries[index]) for buy in buys if buy.carries[index] > 0]
    return min(useful, key=lambda pair: Fraction(*pair), default=(0, 0))
