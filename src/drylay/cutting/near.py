"""A plan near the optimum of a large task, found without its whole programme.

Joints need not keep apart at first: one lane for each set and no windows, which is solved in a
twentieth of the time. Its worths are a bound for the task as it is. Lines then keep to ways that
are all but the best by these worths, a tenth of all, and a plan is made of those.
"""

from attrs import evolve

from drylay.cutting.closing import Aim, State
from drylay.cutting.lanes import Lane
from drylay.cutting.making import Within, make_plan, uncapped
from drylay.cutting.master import Master, Prices
from drylay.cutting.model import Task
from drylay.cutting.ready import Ready, make_ready
from drylay.cutting.solver import INF
from drylay.cutting.worths import Worth, best_direct, weigh_fast, worth_of

LARGE = 4_000  # arcs: a linear programme with more, of sets side by side, takes seconds
WORSE = 200  # ways through a lane are kept that cost less than this part of a board more


def near_enough(master: Master, aim: Aim) -> State | None:
    """Return a plan and a bound with a gap that will do, for a large task; None if not so.

    The fillings that came up are added to the master all the same.
    """
    if len(master.arcs) <= LARGE or not master.ready.task.beside:
        return None
    loose = _with(master, make_ready(_loosened(master)))
    prices = loose.solve()
    _count(master, loose)
    if prices is None or prices.unmet > 1e-6 or not aim.gap:
        return None
    vector = worth_of(loose, prices).vector
    worth = Worth(vector=vector, weighed=weigh_fast(master, vector))
    narrow = _with(master, _narrowed(master.ready, prices))
    draft = make_plan(narrow, Within(caps=uncapped(narrow), most=INF))
    _count(master, narrow)
    if draft is None:
        return None
    state = State(draft=draft, worths=[worth], bound=best_direct(master, [worth]))
    return state if state.gap <= aim.gap * draft.objective else None


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


def _narrowed(ready: Ready, prices: Prices) -> Ready:
    """Return the task with lanes that keep to ways which are all but the best."""
    worse = min(board.price for board in ready.boards) / WORSE
    lanes = tuple(_kept(lane, ready.task.joint_price, prices, worse) for lane in ready.lanes)
    return evolve(ready, lanes=lanes)


def _kept(lane: Lane, joint_price: int, prices: Prices, worse: float) -> Lane:
    """Return a lane with the arcs of ways that cost no more than so much over the cheapest."""
    costs = [
        prices.worths[arc.length] + (joint_price if arc.station >= 0 else 0) for arc in lane.arcs
    ]
    rising = sorted(zip(lane.arcs, costs, strict=True), key=lambda each: each[0].tail)
    before, after = [INF] * lane.nodes, [INF] * lane.nodes
    before[0] = after[1] = 0.0
    for arc, cost in rising:  # no arc leads to a node with a lower number but the last, which is 1
        before[arc.head] = min(before[arc.head], before[arc.tail] + cost)
    for arc, cost in reversed(rising):
        after[arc.tail] = min(after[arc.tail], after[arc.head] + cost)
    most = before[1] + worse
    arcs = tuple(
        arc
        for arc, cost in zip(lane.arcs, costs, strict=True)
        if before[arc.tail] + cost + after[arc.head] <= most
    )
    return evolve(lane, arcs=arcs)
