"""A plan near the optimum of a large task, found without its whole programme.

Joints need not keep apart at first: one lane for each set and no windows; and only ways that are
all but the best by the worths of a few rounds are offered, and further ones as the worths ask for
them. The worths at last are a bound for the task as it is. Lines then keep to ways that are all but
the best by these, a tenth of all, and a plan is made of those; if it will not do, of more.
"""

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from itertools import accumulate

from attrs import evolve, frozen

from drylay.cutting.closing import Aim, State
from drylay.cutting.lanes import Arc, Lane
from drylay.cutting.making import Within, make_plan, uncapped
from drylay.cutting.master import Master, Prices
from drylay.cutting.model import Task
from drylay.cutting.ready import Ready, make_ready
from drylay.cutting.solver import INF
from drylay.cutting.worths import Worth, best_direct, weigh_fast, worth_of

LARGE = 4_000  # arcs: a linear programme with more, of sets side by side, takes seconds
WORSE = (100, 30, 10)  # ways through a lane are kept that cost less than this part of a board more
UNLIKE, WORSE_ALIKE = 500, 200  # lengths: lines with fewer are much alike, and need fewer ways
FIRST, LOOSE, FINER = 8, 40, 4  # rounds with all ways, the part of a board then, and thereafter
GROWTHS, NEAR = 12, 0.0003  # times that ways are added, the share of a bound that will do
ATTEMPTS = 40  # at ways through all lanes that keep joints apart


def near_enough(master: Master, aim: Aim) -> State | None:
    """Return a plan and a bound with a gap that will do, for a large task; None if not so.

    The fillings that came up are added to the master all the same.
    """
    if len(master.arcs) <= LARGE or not master.ready.task.beside or not aim.gap:
        return None
    loose = _loose(master)
    if loose is None:
        return None
    few = len(master.ready.lengths) < UNLIKE
    for part in (WORSE_ALIKE, *WORSE) if few else WORSE:
        worse = min(board.price for board in master.ready.boards) / part
        state = _near(master, loose, worse, apart=part != WORSE_ALIKE)
        if state is not None and state.gap <= aim.gap * state.draft.objective:
            return state
    return None


@frozen(kw_only=True)
class _Loose:
    """What the task comes to with joints of neighbours anywhere: worths, and the bound they are."""

    worths: Sequence[float]
    worth: Worth
    bound: int


def _loose(master: Master) -> _Loose | None:
    """Return the worths of the task with joints of neighbours anywhere.

    After a few rounds with all ways through the lanes those are kept that are all but the best;
    then ways are added until the bound comes near the optimum, or a few times.
    """
    loose = _with(master, make_ready(_loosened(master)))
    if len(loose.ready.lengths) < UNLIKE:
        return _at_once(master, loose)
    prices = _begun(loose)
    kept: list[frozenset[Arc]] = [frozenset()] * len(loose.ready.lanes)
    worse, best = min(board.price for board in master.ready.boards) / LOOSE, None
    for _ in range(GROWTHS):
        if prices is None or prices.unmet > 1e-6:
            break
        worths = _lifted(prices.worths)
        lanes = _lanes_near(loose.ready, worths, worse, kept)
        kept = [frozenset(lane.arcs) for lane in lanes]
        part = _with(loose, evolve(loose.ready, lanes=lanes))
        prices = part.solve()
        _count(loose, part)
        if prices is not None and prices.unmet <= 1e-6:
            best = _better_of(best, _weighed(master, part, prices))
            if best.bound >= prices.objective * (1 - NEAR):
                break
        worse = min(worse, min(board.price for board in master.ready.boards) / (LOOSE * FINER))
    _count(master, loose)
    return best


def _at_once(master: Master, loose: Master) -> _Loose | None:
    """Return the worths with all ways offered: where lines are alike, that is quick enough."""
    prices = loose.solve()
    _count(master, loose)
    if prices is None or prices.unmet > 1e-6:
        return None
    vector = worth_of(loose, prices).vector
    worth = Worth(vector=vector, weighed=weigh_fast(master, vector))
    return _Loose(worths=prices.worths, worth=worth, bound=best_direct(master, [worth]))


def _begun(loose: Master) -> Prices | None:
    """Return the prices after a few rounds."""
    prices, new = None, 0
    for number in range(FIRST):
        prices = loose.solve_once(grown=number > 0)
        new = 0 if prices is None else loose.add(loose.better(prices))
        if not new:
            break
    return prices


def _lifted(worths: Sequence[float]) -> list[float]:
    """Return worths at which none, longest first, is worth less than a shorter one.

    A board carries no more for that: the shorter could be sawn from the longer.
    """
    return list(accumulate(reversed(worths), max))[::-1]


def _weighed(master: Master, part: Master, prices: Prices) -> _Loose:
    """Return lifted worths as a worth vector, weighed for the whole task."""
    worths = _lifted(prices.worths)
    vector = worth_of(part, evolve(prices, worths=worths)).vector
    worth = Worth(vector=vector, weighed=weigh_fast(master, vector))
    return _Loose(worths=worths, worth=worth, bound=best_direct(master, [worth]))


def _better_of(one: _Loose | None, other: _Loose) -> _Loose:
    return other if one is None or other.bound >= one.bound else one


def _lanes_near(
    ready: Ready, worths: Sequence[float], worse: float, kept: Sequence[AbstractSet[Arc]]
) -> tuple[Lane, ...]:
    """Return lanes that keep to ways which are all but the best, and to arcs kept before."""
    found = []
    for lane, had in zip(ready.lanes, kept, strict=True):
        besides = {number for number, arc in enumerate(lane.arcs) if arc in had}
        costs = _costs(lane, ready.task.joint_price, worths)
        found.append(_kept(lane, costs, worse, besides))
    return tuple(found)


def _near(master: Master, loose: _Loose, worse: float, *, apart: bool) -> State | None:
    """Return a plan of ways that cost no more than so much over the cheapest, if one is found."""
    narrow = _with(master, _narrowed(master.ready, loose.worths, worse, apart=apart))
    draft = make_plan(narrow, Within(caps=uncapped(narrow), most=INF))
    _count(master, narrow)
    return None if draft is None else State(draft=draft, worths=[loose.worth], bound=loose.bound)


def _loosened(master: Master) -> Task:
    """Return the task with joints of neighbours anywhere."""
    task = master.ready.task
    return evolve(task, beside=(), lines=tuple(evolve(line, stagger=0) for line in task.lines))


def _with(master: Master, ready: Ready) -> Master:
    other = Master(ready, master.limits, master.tick, master.stopped)
    other.add(master.fillings)
    return other


def _count(master: Master, other: Master) -> None:
    """Take over the fillings of another programme, and count its work."""
    master.add(other.fillings)
    master.lp_solves += other.lp_solves
    master.pivots += other.pivots


def _narrowed(ready: Ready, worths: Sequence[float], worse: float, *, apart: bool) -> Ready:
    """Return the task with lanes that keep to ways which are all but the best.

    And, if asked, to two ways through all lanes that keep joints apart: the best may leave none.
    """
    costs = [_costs(lane, ready.task.joint_price, worths) for lane in ready.lanes]
    orders = [list(range(len(costs))), list(range(len(costs) - 1, -1, -1))] if apart else []
    ways = [_apart(ready, costs, order) for order in orders]
    lanes = tuple(
        _kept(lane, cost, worse, {arc for way in ways for arc in way.get(number, ())})
        for number, (lane, cost) in enumerate(zip(ready.lanes, costs, strict=True))
    )
    return evolve(ready, lanes=lanes)


def _costs(lane: Lane, joint_price: int, worths: Sequence[float]) -> list[float]:
    """Return what each arc of a lane costs, with the joint at its end."""
    return [worths[arc.length] + (joint_price if arc.station >= 0 else 0) for arc in lane.arcs]


def _apart(ready: Ready, costs: list[list[float]], order: list[int]) -> dict[int, list[int]]:
    """Return a way for each lane in turn, the cheapest with joints apart from those before it.

    A lane that those before leave no way comes first at the next attempt, of which there are a few;
    after the last such lanes are left out.
    """
    beside: dict[int, list[tuple[int, int]]] = {}
    for (one, other), bays in ready.near.items():
        beside.setdefault(one, []).append((other, bays))
        beside.setdefault(other, []).append((one, bays))
    ways: dict[int, list[int]] = {}
    for _ in range(ATTEMPTS):
        ways = {}
        for number in order:
            barred = _barred(ready, number, beside.get(number, ()), ways)
            way = _cheapest(ready.lanes[number], costs[number], barred)
            if way is not None:
                ways[number] = way
        left_out = [number for number in order if number not in ways]
        if not left_out:
            break
        order = [*left_out, *(number for number in order if number in ways)]
    return ways


def _barred(
    ready: Ready, number: int, beside: Sequence[tuple[int, int]], ways: Mapping[int, list[int]]
) -> set[int]:
    """Return the stations of a lane that joints of the lanes laid beside it leave none on."""
    barred = set[int]()
    for other, bays in beside:
        ahead = ready.lanes[other].first_station - ready.lanes[number].first_station
        for arc in ways.get(other, ()):
            at = ready.lanes[other].arcs[arc].station
            if at >= 0:
                barred.update(range(at + ahead - bays + 1, at + ahead + bays))
    return barred


def _rising(lane: Lane) -> list[int]:
    """Return the arcs of a lane so that those to a node come before those from it.

    No arc leads to a node with a lower number but the last, which is 1.
    """
    return sorted(range(len(lane.arcs)), key=lambda arc: lane.arcs[arc].tail)


def _cheapest(lane: Lane, costs: list[float], barred: AbstractSet[int]) -> list[int] | None:
    """Return the arcs of the cheapest way with no joint on a barred station, None if none is."""
    before, last = [INF] * lane.nodes, [-1] * lane.nodes
    before[0] = 0.0
    for number in _rising(lane):
        arc, cost = lane.arcs[number], costs[number]
        if arc.station not in barred and before[arc.tail] + cost < before[arc.head]:
            before[arc.head], last[arc.head] = before[arc.tail] + cost, number
    if last[1] < 0:
        return None
    way, node = list[int](), 1
    while node:
        way.append(last[node])
        node = lane.arcs[last[node]].tail
    return way


def _kept(lane: Lane, costs: list[float], worse: float, besides: AbstractSet[int]) -> Lane:
    """Return a lane with the arcs of ways that cost no more than so much over the cheapest.

    And with some arcs `besides`.
    """
    before, after = [INF] * lane.nodes, [INF] * lane.nodes
    before[0] = after[1] = 0.0
    rising = [(lane.arcs[number], costs[number]) for number in _rising(lane)]
    for arc, cost in rising:
        before[arc.head] = min(before[arc.head], before[arc.tail] + cost)
    for arc, cost in reversed(rising):
        after[arc.tail] = min(after[arc.tail], after[arc.head] + cost)
    most = before[1] + worse
    arcs = tuple(
        arc
        for number, (arc, cost) in enumerate(zip(lane.arcs, costs, strict=True))
        if before[arc.tail] + cost + after[arc.head] <= most or number in besides
    )
    return evolve(lane, arcs=arcs)
