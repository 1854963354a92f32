"""Tells whether the splits of a certificate leave no counts that cost less than its bound.

What counts are open: of boards of each stock, and of joints beyond the fewest the lines can be
made with, none below nothing. They obey *rows*, each of which says what a sum of counts, each
times a factor, comes to at least:

- by each worth vector, boards and joints carry the demand;
- what they cost, with a minus, is at least minus the money;
- of each stock with a limit, the boards, with a minus, are at least minus the limit.

What costs nothing is taken whole beforehand and left out: more of it never carries less.

A *blend* adds rows up, each some times but none less than no times, and so is a row itself. If
none of its factors is above `times` the weight of the form, then, counts being none below
nothing, `times` the form comes to what the blend does, at least. As weights and counts are whole,
so is the form: what it comes to at least is rounded up. Turned about, with all weights and the
other blend, the same tells what the form comes to at most. So a form stays between two whole
numbers. If no whole number is left between, there are no counts. For each one left, the splits
that follow do the same, with what the form comes to for one row more, which may be taken less
than no times as well, being an equation.
"""

from collections.abc import Iterator, Sequence

from attrs import frozen

from drylay.cutting.model import Blend, Split, Task
from drylay.cutting.weighing import Weighed, fewest_in_all

Row = tuple[tuple[int, ...], int]  # factors of the counts; what they come to at least


@frozen(kw_only=True)
class Kind:
    """What money buys: boards of the stock with this number, or joints (the number after them).

    `worths` is what one carries by each vector.
    """

    number: int
    price: int
    limit: int | None
    worths: tuple[int, ...]


@frozen(kw_only=True)
class Open:
    """What is open to be counted: kinds that cost something, what they have to carry, and money.

    `free` is how many to take of each stock that costs nothing, `fewest` the joints beside.
    """

    kinds: tuple[Kind, ...]
    needs: tuple[int, ...]
    money: int
    free: dict[int, int]
    fewest: int


def what_is_open(task: Task, weighed: Sequence[Weighed], money: int) -> Open:
    """Return what `money` is open to buy: after all that costs nothing and the fewest joints."""
    fewest, jointed = fewest_in_all(task), any(line.count for line in task.lines)
    needs = [demand - fewest * task.joint_price * scale for _, demand, scale in weighed]
    kinds = [
        Kind(
            number=number,
            price=stock.price,
            limit=stock.limit,
            worths=tuple(carries[number] for carries, _, _ in weighed),
        )
        for number, stock in enumerate(task.stock)
    ]
    free = {}
    for kind in kinds:
        if kind.price == 0:
            free[kind.number] = taken = _useful(kind, needs)
            needs = [need - taken * worth for need, worth in zip(needs, kind.worths, strict=True)]
    if jointed and task.joint_price:
        worths = tuple(task.joint_price * scale for _, _, scale in weighed)
        number = len(task.stock)
        kinds.append(Kind(number=number, price=task.joint_price, limit=None, worths=worths))
    return Open(
        kinds=tuple(kind for kind in kinds if kind.price),
        needs=tuple(needs),
        money=money - fewest * task.joint_price,
        free=free,
        fewest=fewest,
    )


def _useful(kind: Kind, needs: Sequence[int]) -> int:
    """Return how many to take of a kind that costs nothing: all, or as many as can help."""
    helping = [-(-n // w) for n, w in zip(needs, kind.worths, strict=True) if n > 0 < w]
    most = max(helping, default=0)
    return most if kind.limit is None else min(most, kind.limit)


def splits_leave_none(
    task: Task, weighed: Sequence[Weighed], money: int, splits: Sequence[Split]
) -> bool:
    """Return whether splits show that no counts cost `money` or less and carry all demands."""
    found = what_is_open(task, weighed, money)
    weights = len(task.stock) + 1
    if any(len(split.weights) != weights for split in splits):
        return False
    return _leave_none(iter(splits), found.kinds, rows_of(task, found), [])


def rows_of(task: Task, found: Open) -> list[Row]:
    """Return the rows of what is open, in the order of a blend.

    For each stock without a limit there is an empty one.
    """
    rows = [
        (tuple(kind.worths[v] for kind in found.kinds), need) for v, need in enumerate(found.needs)
    ]
    rows.append((tuple(-kind.price for kind in found.kinds), -found.money))
    for number, stock in enumerate(task.stock):
        one = 0 if stock.limit is None else 1
        factors = tuple(-one * (kind.number == number) for kind in found.kinds)
        rows.append((factors, -(stock.limit or 0) * any(factors)))
    return rows


def _leave_none(
    splits: Iterator[Split], kinds: Sequence[Kind], rows: Sequence[Row], around: Sequence[Row]
) -> bool:
    """Return whether the next splits leave no counts where the forms around have these values."""
    split = next(splits, None)
    if split is None or len(around) > len(kinds):
        return False
    form = tuple(split.weights[kind.number] for kind in kinds)
    least = _at_least(form, split.least, rows, around)
    turned = _at_least(tuple(-weight for weight in form), split.most, rows, around)
    if least is None or turned is None:
        return False
    return all(
        _leave_none(splits, kinds, rows, [*around, (form, value)])
        for value in range(least, -turned + 1)
    )


def _at_least(
    form: Sequence[int], blend: Blend, rows: Sequence[Row], around: Sequence[Row]
) -> int | None:
    """Return what a blend shows that a form comes to at least, None if it shows nothing."""
    often = (*blend.vectors, blend.money, *blend.limits)
    in_step = len(often) == len(rows) and len(blend.splits) == len(around)
    if not in_step or blend.times < 1 or min(often) < 0:
        return None
    taken = list(zip((*often, *blend.splits), (*rows, *around), strict=True))
    for place, weight in enumerate(form):
        if sum(times * factors[place] for times, (factors, _) in taken) > blend.times * weight:
            return None
    return -(-sum(times * least for times, (_, least) in taken) // blend.times)
