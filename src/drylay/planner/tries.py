"""Candidates priced beside one another: the likely ones built, the others left at a floor."""

from collections.abc import Iterable
from decimal import Decimal
from heapq import heappop, heappush

from attrs import evolve, frozen

from drylay.planner.border_cut import cut_all_boards
from drylay.planner.build import Candidate, build, with_fascia
from drylay.planner.built import Built
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.floors import LOOKS, Outline, floor_of, outline_of
from drylay.planner.pairs import seams_told
from drylay.reasons import TurnedDown


@frozen(kw_only=True)
class Try:
    """A candidate with what it costs at least, by how many looks, and what came of building it.

    `number` is its place in the list. Without an outline it has to be built to know why it cannot.
    """

    candidate: Candidate
    number: int
    outline: Outline | None = None
    looks: int = 0
    cost: Decimal = Decimal(0)
    result: Built | Blocked | None = None


def try_all(cutter: Cutter, candidates: Iterable[Candidate]) -> tuple[Try, ...]:
    """Return all candidates, looked at as closely as it takes to know the cheapest.

    The one that costs least, for all that is known, is looked at more closely, again and again,
    until that one is built: all others cost as much at the least. So it is the one that building
    all of them would find.
    """
    tries = [
        Try(candidate=one, number=number, outline=outline_of(cutter, one))
        for number, one in enumerate(candidates)
    ]
    waiting = [(one.cost, one.number) for one in tries]
    while waiting:
        _, number = heappop(waiting)
        if isinstance(tries[number].result, Built):
            break
        tries[number] = one = _closer(cutter, tries[number])
        if not isinstance(one.result, Blocked):
            heappush(waiting, (one.cost, number))
    return tuple(tries)


def _closer(cutter: Cutter, one: Try) -> Try:
    """Return a candidate looked at once more, and built where no look is left."""
    if one.outline is None:
        return _done(one, _unsure(cutter, one.candidate))
    if one.looks == len(LOOKS):
        return _done(one, build(cutter, one.candidate))
    cost = floor_of(cutter, one.outline, one.looks)
    if cost is None:
        return _done(one, _unsure(cutter, one.candidate))
    return evolve(one, looks=one.looks + 1, cost=max(cost, one.cost))


def _done(one: Try, result: Built | Blocked) -> Try:
    if isinstance(result, Blocked):
        return evolve(one, result=result)
    return evolve(one, result=result, cost=reckoned(result))


def cheapest(tries: Iterable[Try]) -> Try | None:
    """Return the cheapest that was built, the first of equals; None where none could be."""
    built = (one for one in tries if isinstance(one.result, Built))
    return min(built, key=lambda one: (one.cost, one.number), default=None)


def _unsure(cutter: Cutter, candidate: Candidate) -> Built | Blocked:
    """Return what comes of a candidate without a floor; of boards that cannot be cut no more."""
    shaped, _ = with_fascia(cutter, candidate)
    boards = shaped if isinstance(shaped, Blocked) else cut_all_boards(cutter, shaped)
    return boards if isinstance(boards, Blocked) else build(cutter, candidate)


def reckoned(built: Built) -> Decimal:
    """Return the order with its joints at their price."""
    joints = sum((bought.joint_cost for bought in built.buying.purchases), Decimal(0))
    return built.buying.order_total + joints


def turned_down(one: Try) -> TurnedDown:
    """Return why a set of joint lines was not taken: what it costs, or why it cannot be built."""
    return TurnedDown(value=seams_told(one.candidate.seams_mm), because=_because(one))


def _because(one: Try) -> str:
    if isinstance(one.result, Blocked):
        told = (finding.message for finding in one.result.findings)
        return "cannot be built: " + "; ".join(told)
    if isinstance(one.result, Built):
        gap = sum((bought.gap for bought in one.result.buying.purchases), Decimal(0))
        loosely = f", could be up to {gap} cheaper" if gap else ""
        lines = one.result.supports.line_count
        return f"{lines} joists, {one.cost} with its joints{loosely}"
    assert one.outline is not None
    return f"{one.outline.line_count} joists, {one.cost} with its joints at the least"
