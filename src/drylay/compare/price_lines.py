"""What one deck costs over a range of prices of one length: runs of prices with the same order.

As long as a deck's pieces stay what they are, the least cost of cutting them is, as a function of
the price, the least of many straight lines, one for each order: it bends downwards only. So an
order that is cheapest at two prices is cheapest at every price between. Its end is found by
crossing its line with that of the order found beyond, planning there, and so on: a discrete
Newton's method, each step of which ends at a coin (Eisner and Severance, "Mathematical Techniques
for Efficient Record Segmentation in Large Shared Databases", Journal of the ACM 23, 1976, from
memory). Where a deck is also built otherwise at other prices, only a plan at both sides of a break
is known, and halving finds it.
"""

from collections.abc import Callable, Sequence

from attrs import frozen

from drylay.buying.purchase import minor
from drylay.marks import exact
from drylay.plan.model import Plan

#: One line of an order without its price: the article, its length, its pack, how many.
Line = tuple[str, float | None, int | None, int]


@frozen(kw_only=True)
class Seen:
    """A deck planned at one price, in coins.

    `cost` is what is cut from the article, joints at their price, with `each` of the length among
    it; `total` the whole order with `every` of the length, spares with them. `gap` is what a
    cheaper order of this deck could save at most. `lines` is the whole order without prices.
    """

    price: int
    cost: int
    each: int
    total: int
    every: int
    gap: int
    bought: tuple[tuple[float, int], ...]
    lines: tuple[Line, ...]

    def cost_at(self, price: int) -> int:
        """Return what the same is cut for at another price."""
        return self.cost + self.each * (price - self.price)

    def total_at(self, price: int) -> int:
        """Return what the same order costs at another price."""
        return self.total + self.every * (price - self.price)


@frozen(kw_only=True)
class Run:
    """Prices from `first` to `last` at which the order seen at one of them is bought."""

    first: int
    last: int
    seen: Seen


Look = Callable[[int], Seen]


def seen_of(plan: Plan, code: str, length_mm: float, price: int, digits: int) -> Seen:
    """Return what a plan comes to at a price of one length of an article."""
    assert plan.buying is not None
    own = [each for each in plan.buying.purchases if each.article == code]
    lines = (*plan.buying.order, *plan.buying.spares)
    bought: dict[float, int] = {}
    for line in lines:
        if line.article == code and line.length_mm is not None:
            bought[line.length_mm] = bought.get(line.length_mm, 0) + line.quantity
    asked = exact(length_mm)
    return Seen(
        price=price,
        cost=minor(sum((each.objective for each in own), start=plan.buying.total * 0), digits),
        each=sum(exact(cut.length_mm) == asked for each in own for cut in each.lengths),
        total=minor(plan.buying.total, digits),
        every=sum(count for mm, count in bought.items() if exact(mm) == asked),
        gap=minor(sum((e.gap for e in plan.buying.purchases), start=plan.buying.total * 0), digits),
        bought=tuple(sorted(bought.items())),
        lines=tuple((each.article, each.length_mm, each.pack, each.quantity) for each in lines),
    )


def same(order: Seen, other: Seen, *, steady: bool) -> bool:
    """Whether an order is what is bought where another was seen: as cheap there, if that is enough.

    It is enough of a `steady` deck, whose pieces hang on no price.
    """
    if order.lines == other.lines:
        return True
    return steady and order.cost_at(other.price) <= other.cost


def runs_of(look: Look, points: Sequence[int], *, steady: bool) -> list[Run]:
    """Return all prices between the first and the last of some points in runs of the same order.

    `points` rise; at each of them the deck is planned.
    """
    runs: list[Run] = []
    first, most = points[0], points[-1]
    while first <= most:
        order = look(first)
        last = _last(look, order, first, [p for p in points if p > first], steady=steady)
        runs.append(Run(first=first, last=last, seen=order))
        first = last + 1
    return runs


def _last(look: Look, order: Seen, first: int, points: Sequence[int], *, steady: bool) -> int:
    """Return the last price from the first on, in one go, at which an order is bought."""
    low, high = first, None
    for point in points:
        if not same(order, look(point), steady=steady):
            high = point
            break
        low = point
    if high is None:
        return low
    guess, step = crossing(order, look(high)), 1
    while high - low > 1:
        at = min(max(guess, low + 1), high - 1)
        if same(order, look(at), steady=steady):
            low, guess, step = at, at + step, 2 * step
        else:
            high, guess, step = at, crossing(order, look(at)), 1
    return low


def crossing(order: Seen, other: Seen) -> int:
    """Return the last price at which an order is no dearer than one that is cheaper further on.

    Where their lines say nothing of it, half way between.
    """
    steeper = order.each - other.each
    if steeper <= 0:
        return (order.price + other.price) // 2
    return order.price + (other.cost_at(order.price) - order.cost) // steeper
