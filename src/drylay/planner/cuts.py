"""The cutter as the planner uses it: each task solved once, no plan told as a finding."""

from attrs import Factory, evolve, frozen

from drylay.cutting.engine import least_cost, solve
from drylay.cutting.errors import NoPlan, Shortfall
from drylay.cutting.model import CutPlan, Task, WorkLimits
from drylay.findings import Finding, Severity
from drylay.marks import PER_MM
from drylay.planner.job import Job
from drylay.reasons import Source

STOCK_SOURCE = Source(kind="merchant record", title="the stock catalogue")


#: The cutter speaks of lines; a builder has rows and rims.
_KINDS = {
    "line cannot be made": "a row cannot be made up of these lengths",
    "lines cannot be staggered": "rows side by side cannot keep their joints apart",
}


@frozen(kw_only=True)
class Cutter:
    """Answers already found, kept for one design only: ways out share many tasks.

    What is chosen is proven; a way out that is only priced, to be shown beside it, is cut in
    the quick mode, which gives a real plan but a looser bound. `rough` are the answers of that
    mode to what was only tried, `floors` what tasks cost at least.
    """

    job: Job
    mode: str = "proven"
    known: dict[Task, CutPlan | NoPlan] = Factory(dict)
    limits: WorkLimits | None = None
    rough: dict[Task, CutPlan | NoPlan] = Factory(dict)
    floors: dict[Task, int | None] = Factory(dict)


def roughly(cutter: Cutter) -> Cutter:
    """Return the cutter for what is only tried: in the quick mode, of answers in that mode."""
    return evolve(cutter, mode="quick", known=cutter.rough)


#: Beyond so many stations of unlike rows, or so many unlike lengths, a search for the last penny is
#: given up after so many pivots: it takes the longer the more unlike they are, and the plan tells
#: how much cheaper any other could be at most.
MANY_STATIONS, MANY_LENGTHS, PIVOTS = 40, 25, 50_000
#: Beyond so many stations of unlike rows a plan will do that no other is cheaper than by more than
#: half a percent, after a few attempts: each further step of the search takes many seconds.
MOST_STATIONS, GAP_RATIO, BOUND_CUTS = 250, 0.005, 3


def limits_for(task: Task) -> WorkLimits | None:
    """Return how much work a task as large as this is worth, None for as much as any."""
    stations = sum(len(line.stations) for line in task.lines) if len(task.lines) > 1 else 0
    if stations > MOST_STATIONS:
        return WorkLimits(pivots=PIVOTS, gap_ratio=GAP_RATIO, bound_cuts=BOUND_CUTS)
    many = stations > MANY_STATIONS or len(task.pieces) > MANY_LENGTHS
    return WorkLimits(pivots=PIVOTS) if many else None


def as_large(cutter: Cutter, task: Task) -> Cutter:
    """Return the cutter for a task as large as this."""
    return evolve(cutter, limits=limits_for(task) or cutter.limits)


def floor(cutter: Cutter, task: Task) -> int | None:
    """Return a cost that no plan of a task goes below, None where it has no plan."""
    if task not in cutter.floors:
        cutter.floors[task] = least_cost(task, cancel=cutter.job.cancel)
    return cutter.floors[task]


def cut(cutter: Cutter, task: Task, *, what: str) -> CutPlan | Finding:
    """Return the cheapest cuts with their proof, or a stop that says why there are none."""
    answer = cutter.known.get(task) or _answer(cutter, task)
    cutter.known[task] = answer
    if isinstance(answer, CutPlan):
        return answer
    return Finding(
        code="BUY-001",
        severity=Severity.STOP,
        subject=what,
        message=f"cannot be cut from this stock: {_why(answer)}",
        source=STOCK_SOURCE,
    )


def _answer(cutter: Cutter, task: Task) -> CutPlan | NoPlan:
    tried = cutter.rough.get(task) if cutter.mode == "quick" else None
    if tried is not None:
        return tried
    try:
        return solve(task, mode=cutter.mode, limits=cutter.limits, cancel=cutter.job.cancel)
    except NoPlan as none:
        return none


def _why(none: NoPlan) -> str:
    head = "" if none.proven else "no plan found within the work limits; "
    return head + "; ".join(_told(shortfall) for shortfall in none.shortfalls)


def _told(shortfall: Shortfall) -> str:
    text = _KINDS.get(shortfall.kind, shortfall.kind)
    if shortfall.length is not None:
        text += f", {shortfall.length / PER_MM:g} mm"
    if shortfall.longest is not None:
        text += f", longest usable {shortfall.longest / PER_MM:g} mm"
    return text
