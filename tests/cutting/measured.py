"""Measures the cutter on a job beside what people do without it: the rows of a benchmark."""

import math
import time
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from attrs import evolve, frozen

from cutting.habits import (
    best_multi,
    boards_of,
    first_fit,
    fixed_pieces,
    habit_with,
    habits,
)
from cutting.jobs import Job
from cutting.rules import assert_keeps_the_rules
from cutting.straight import straight
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import GRADES, CutPlan, Piece, Task, WorkLimits
from drylay.cutting.verify import verify

Solve = Callable[..., CutPlan]

#: What each baseline does; the first four search nothing.
BASELINES = {
    "longest": "first fit with the longest length only; rows laid by habit with it",
    "single": "the same with the best single length",
    "multi": "the best of several first fits over all lengths; rows laid by habit",
    "exact": "rows laid by habit, their purchase then worked out exactly",
    "HiGHS": "fillings and joints as one programme given straight to HiGHS",
}
SEARCH_NOTHING = ("longest", "single", "multi")


@frozen(kw_only=True)
class Baseline:
    """What a baseline costs (None: it has no plan) and what it took.

    Of HiGHS: whether it was given every filling, and whether the clock stopped it.
    """

    cost: int | None
    seconds: float
    whole: bool = True
    stopped: bool = False


@frozen(kw_only=True)
class Plan:
    """What the cutter made of a job: money, work in the engine's own counts, times."""

    cost: int
    bound: int
    grade: int
    vectors: int
    columns: int
    lp_solves: int
    nodes: int
    verify_seconds: float

    @property
    def gap_per_cent(self) -> float:
        return 100 * (self.cost - self.bound) / self.cost if self.cost else 0.0


@frozen(kw_only=True)
class Row:
    """One job in one mode: the plan (None: there is none), baselines, and all that is wrong.

    `cpu_seconds` are the processor's, which other work on the machine does not stretch.
    """

    name: str
    group: str
    mode: str
    known: int | None
    known_bound: float | None
    plan: Plan | None
    seconds: float
    cpu_seconds: float
    none_proven: bool = False  # without a plan: whether it is certain that there is none
    baselines: dict[str, Baseline]
    wrong: tuple[str, ...] = ()

    @property
    def proven(self) -> bool:
        return self.plan is not None and self.plan.cost == self.plan.bound


@frozen(kw_only=True)
class Effort:
    """How the measuring is done: whose `solve`, nodes a search, HiGHS's seconds (0: left out)."""

    solve: Solve
    nodes: int = WorkLimits().nodes
    highs_seconds: float = 20.0


def rows_of(job: Job, group: str, modes: Iterable[str], effort: Effort) -> list[Row]:
    """Return a row of a job in each mode; baselines are measured once."""
    baselines, faults = _baselines(job.task, effort)
    rows = [_row(job, group, mode, effort, baselines) for mode in modes]
    best = min((row.plan.cost for row in rows if row.proven and row.plan), default=None)
    rows = [evolve(row, known=best) if row.known is None else row for row in rows]
    return [evolve(row, wrong=(*faults, *row.wrong, *_wrong(row, job))) for row in rows]


# -- the cutter --------------------------------------------------------------------------


def _row(job: Job, group: str, mode: str, effort: Effort, baselines: dict[str, Baseline]) -> Row:
    row = Row(
        name=job.name,
        group=group,
        mode=mode,
        known=job.best_known,
        known_bound=job.lower_bound,
        plan=None,
        seconds=0.0,
        cpu_seconds=0.0,
        baselines=baselines,
    )
    began, cpu_began = time.perf_counter(), time.process_time()
    try:
        found = effort.solve(job.task, mode=mode, limits=WorkLimits(nodes=effort.nodes))
    except NoPlan as none:
        wrong = () if none.proven else (f"no plan was found: {none}",)
        return evolve(row, none_proven=none.proven, wrong=wrong)
    except Exception as error:  # whatever it is, the other jobs are measured too
        return evolve(row, wrong=(f"raised {type(error).__name__}: {error}",))
    took, cpu_took = time.perf_counter() - began, time.process_time() - cpu_began
    plan, wrong = _checked(job.task, found)
    return evolve(row, seconds=took, cpu_seconds=cpu_took, plan=plan, wrong=wrong)


def _checked(task: Task, found: CutPlan) -> tuple[Plan, tuple[str, ...]]:
    """Return the figures of a plan, and what the rules and the proof hold against it."""
    wrong = []
    began = time.perf_counter()
    verdict = verify(found.proof)
    took = time.perf_counter() - began
    if not verdict.holds or verdict.bound < found.bound:
        wrong.append(f"the proof does not verify: {verdict.why}")
    try:
        assert_keeps_the_rules(task, found)
    except AssertionError as error:
        wrong.append(f"the plan breaks a rule {error}".strip())
    certificate, effort = found.proof.certificate, found.effort
    plan = Plan(
        cost=found.objective,
        bound=found.bound,
        grade=GRADES.index(certificate.grade) + 1,
        vectors=len(certificate.vectors),
        columns=effort.columns,
        lp_solves=effort.lp_solves,
        nodes=effort.search_nodes,
        verify_seconds=took,
    )
    return plan, tuple(wrong)


# -- baselines ---------------------------------------------------------------------------


def _baselines(task: Task, effort: Effort) -> tuple[dict[str, Baseline], list[str]]:
    """Return every baseline that a task can have, and the faults of those that raised."""
    works: dict[str, Callable[[], Baseline | int | None]] = {
        "longest": lambda: _longest(task),
        "single": lambda: _single(task),
        "multi": lambda: _bought(task, lambda pieces: best_multi(task, pieces)),
    }
    if task.lines:
        works["exact"] = lambda: _bought(task, lambda pieces: _exact(task, pieces, effort))
    if effort.highs_seconds > 0:
        works["HiGHS"] = lambda: _highs(task, effort)
    found, faults = {}, []
    for name, work in works.items():
        began = time.perf_counter()
        try:
            made = work()
        except Exception as error:
            faults.append(f"baseline {name} raised {type(error).__name__}: {error}")
            continue
        took = time.perf_counter() - began
        baseline = made if isinstance(made, Baseline) else Baseline(cost=made, seconds=0.0)
        found[name] = evolve(baseline, seconds=took)
    return found, faults


def _longest(task: Task) -> int | None:
    unlimited = [board for board in boards_of(task) if board.limit is None]
    return _with_one(task, unlimited[-1]) if unlimited else None


def _single(task: Task) -> int | None:
    return _least(_with_one(task, board) for board in boards_of(task))


def _with_one(task: Task, board: Any) -> int | None:
    if task.lines:
        return habit_with(task, board)
    return first_fit(fixed_pieces(task), board, task.kerf)


def _bought(task: Task, buy: Callable[[list[int]], int | None]) -> int | None:
    """Return the least objective of rows laid by habit for any board and bought so."""
    if not task.lines:
        return buy(fixed_pieces(task))
    spaces = sorted({board.space for board in boards_of(task)})
    laid = {
        (tuple(sorted(pieces)), joints)
        for space in spaces
        for pieces, joints in habits(task, space - task.kerf)
    }
    bought = [(buy(list(pieces)), joints) for pieces, joints in sorted(laid)]
    return _least(
        None if cost is None else cost + task.joint_price * joints for cost, joints in bought
    )


def _exact(task: Task, pieces: list[int], effort: Effort) -> int | None:
    """Return the least cost of pieces, as the cutter itself finds it."""
    counts = {length: pieces.count(length) for length in sorted(set(pieces))}
    wanted = tuple(Piece(length=n, count=count) for n, count in counts.items())
    try:
        return effort.solve(Task(stock=task.stock, kerf=task.kerf, pieces=wanted)).cost
    except NoPlan:
        return None


def _highs(task: Task, effort: Effort) -> Baseline:
    found = straight(task, nodes=effort.nodes, seconds=effort.highs_seconds)
    return Baseline(
        cost=found.objective, seconds=0.0, whole=found.all_fillings, stopped=found.stopped
    )


def _least(costs: Iterable[int | None]) -> int | None:
    return min((cost for cost in costs if cost is not None), default=None)


# -- what is wrong -----------------------------------------------------------------------


def others(row: Row, job: Job) -> dict[str, int]:
    """Return what every other plan costs that is known: the file's, its baselines, ours."""
    told = {name: baseline.cost for name, baseline in row.baselines.items()}
    told |= {f"the file's {name}": cost for name, cost in job.baselines.items()}
    told["the best known"] = job.best_known
    return {name: cost for name, cost in told.items() if cost is not None}


def _wrong(row: Row, job: Job) -> Iterator[str]:
    """Yield where a plan is dearer than it may be, or where it and others cannot both be right.

    Quick mode is held to what searches nothing, proven mode to everything.
    """
    rivals = others(row, job)
    if row.plan is None:
        yield from (f"no plan, but {name} has one" for name in rivals if row.none_proven)
        return
    for name, cost in rivals.items():
        held = row.mode == "proven" or name in SEARCH_NOTHING
        if held and row.plan.cost > cost:
            yield f"dearer than {name}: {row.plan.cost} > {cost}"
        if row.plan.bound > cost:
            yield f"the bound {row.plan.bound} is above {name}: {cost}"
    if row.known_bound is not None and row.plan.cost < math.ceil(row.known_bound - 1e-6):
        yield f"cheaper than the bound the file tells: {row.plan.cost} < {row.known_bound}"
