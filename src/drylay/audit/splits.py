"""Whether the splits of a certificate leave no purchase below a price, by adding up."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from drylay.audit.search import Choice, most_of_use, step_of
from drylay.audit.shapes import BlendShape, SplitShape

#: A count's factor each, and what counts times factors come to at least.
Row = tuple[tuple[Fraction, ...], Fraction]


def splits_leave_none(
    buys: tuple[Choice, ...],
    demands: tuple[tuple[int, int], ...],
    fewest: int,
    price: int,
    splits: tuple[SplitShape, ...],
) -> bool:
    """Return whether splits show that no boards and joints below a price meet every demand.

    `buys` are boards of each stock and last joints, of which there have to be the `fewest`, and
    carry in step with `demands`: what is demanded, and the scale it is told in.
    """
    if any(len(split.weights) != len(buys) for split in splits):
        return False
    return _leave_none(iter(splits), _rows(buys, demands, fewest, price), ())


def _rows(
    buys: tuple[Choice, ...], demands: tuple[tuple[int, int], ...], fewest: int, price: int
) -> list[Row]:
    """Return a row for each demand, one for the money, one for each stock's limit.

    Joints are those beyond the fewest. What is free is taken as far as it can help, and left out.
    """
    *boards, joint = buys
    rows: list[Row] = []
    left = [demand - fewest * joint.carries[index] for index, (demand, _) in enumerate(demands)]
    for board in boards:
        if board.price == 0:
            taken = most_of_use(board, {i: rest for i, rest in enumerate(left) if rest > 0})
            left = [rest - taken * held for rest, held in zip(left, board.carries, strict=True)]
    for index, (least, (_, scale)) in enumerate(zip(left, demands, strict=True)):
        factors = (Fraction(b.carries[index], scale) if b.price else Fraction(0) for b in buys)
        rows.append((tuple(factors), Fraction(least, scale)))
    money = (price - 1) // step_of(buys) * step_of(buys) - fewest * joint.price
    rows.append((tuple(Fraction(-buy.price) for buy in buys), Fraction(-money)))
    for number, board in enumerate(boards):
        held = int(board.limit is not None and board.price > 0)
        factors = (Fraction(-held * (number == other)) for other in range(len(buys)))
        rows.append((tuple(factors), Fraction(-held * (board.limit or 0))))
    return rows


def _leave_none(splits: Iterator[SplitShape], rows: list[Row], around: tuple[Row, ...]) -> bool:
    split = next(splits, None)
    if split is None or len(around) > len(split.weights):
        return False
    form = tuple(Fraction(weight) for weight in split.weights)
    low = _at_least(form, split.least, rows, around)
    high = _at_least(tuple(-weight for weight in form), split.most, rows, around)
    if low is None or high is None:
        return False
    values = range(ceil(low), -ceil(high) + 1)
    return all(_leave_none(splits, rows, (*around, (form, Fraction(value)))) for value in values)


def _at_least(
    form: tuple[Fraction, ...], blend: BlendShape, rows: list[Row], around: tuple[Row, ...]
) -> Fraction | None:
    """Return what the rows of a blend, added up, show a form to come to at least, if anything."""
    often = (*blend.vectors, blend.money, *blend.limits)
    if len(often) != len(rows) or len(blend.splits) != len(around):
        return None
    if blend.times <= 0 or min(often) < 0:
        return None
    sums, least = [Fraction(0)] * len(form), Fraction(0)
    for times, (factors, demand) in zip((*often, *blend.splits), (*rows, *around), strict=True):
        sums = [so_far + times * factor for so_far, factor in zip(sums, factors, strict=True)]
        least += times * demand
    if any(found > blend.times * weight for found, weight in zip(sums, form, strict=True)):
        return None
    return least / blend.times
