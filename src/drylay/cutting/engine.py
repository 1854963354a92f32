"""Finds the least purchase for pieces and lines together, with a proof."""

from collections.abc import Callable
from typing import Protocol

from attrs import evolve

from drylay.cutting.closing import State, aim, close
from drylay.cutting.errors import NoPlan
from drylay.cutting.first_fit import packed
from drylay.cutting.making import (
    Within,
    make_plan,
    over_all_sides,
    uncapped,
    with_rich_fillings,
)
from drylay.cutting.master import Master
from drylay.cutting.model import (
    GRADES,
    Certificate,
    CutPlan,
    Effort,
    Proof,
    Task,
    WorkLimits,
)
from drylay.cutting.near import near_enough
from drylay.cutting.none import is_proven, why_none
from drylay.cutting.polish import polished
from drylay.cutting.ready import make_ready
from drylay.cutting.rounding import Draft, cuts_of, make_draft
from drylay.cutting.solver import INF
from drylay.cutting.splitting import Searched, search
from drylay.cutting.worths import Worth, best_direct, worth_of
from drylay.errors import Cancelled

Progress = Callable[[str, int, int], None]


class Token(Protocol):
    """What can be asked whether to stop: a `threading.Event`, for instance."""

    def is_set(self) -> bool:
        """Return whether to stop."""
        ...


def solve(
    task: Task,
    *,
    mode: str = "proven",
    limits: WorkLimits | None = None,
    progress: Progress | None = None,
    cancel: Token | None = None,
) -> CutPlan:
    """Return the cheapest plan found for a task, with a bound no plan can go below.

    `mode` "quick" stops at a gap of two thousandths, or after a few bound cuts: the plan is as
    good or nearly, the gap may be wider.

    Raises:
        CutTaskError: the task makes no sense.
        NoPlan: there is no plan, or none was found within the work limits.
        Cancelled: `cancel` was set.
    """
    if mode not in ("proven", "quick"):
        raise ValueError(f"mode is {mode!r}, wanted 'proven' or 'quick'")
    limits = limits or WorkLimits()
    master = _master(task, limits, progress, cancel)
    ready = master.ready
    if not ready.lengths:
        return _plan(master, mode, State(draft=make_draft(ready, [], []), worths=[], bound=0))
    goal = aim(mode, limits)
    state = near_enough(master, goal) or close(master, _begun(master), goal)
    if state.gap > goal.gap * state.draft.objective:
        state = evolve(state, draft=packed(ready, state.draft))
    return _plan(master, mode, state)


def _begun(master: Master) -> State:
    """Return the linear optimum and a plan near it.

    Raises:
        NoPlan: there is none, or none was found within the work limits.
    """
    worth = _root(master)
    draft = None if worth is None else _some_plan(master)
    if worth is None or draft is None:
        raise NoPlan(why_none(master), proven=is_proven(master))
    return State(draft=draft, worths=[worth], bound=best_direct(master, [worth]))


def least_cost(task: Task, *, cancel: Token | None = None) -> int | None:
    """Return a cost that no plan of a task goes below: its linear optimum, and no plan is made.

    None where there is no plan, or none within the work limits: `solve` says why.

    Raises:
        CutTaskError: the task makes no sense.
        Cancelled: `cancel` was set.
    """
    try:
        master = _master(task, WorkLimits(), None, cancel)
    except NoPlan:
        return None
    worth = _root(master) if master.ready.lengths else None
    if worth is None:
        return None if master.ready.lengths else 0
    return best_direct(master, [worth])


def _master(
    task: Task, limits: WorkLimits, progress: Progress | None, cancel: Token | None
) -> Master:
    stopped = None if cancel is None else cancel.is_set
    return Master(make_ready(task), limits, _ticker(progress, cancel), stopped)


def _root(master: Master) -> Worth | None:
    """Return the worths of the linear optimum, None where something is left unmet."""
    root = master.solve()
    return None if root is None or root.unmet > 1e-6 else worth_of(master, root)


def _ticker(progress: Progress | None, cancel: Token | None) -> Callable[[], None]:
    done = 0

    def tick() -> None:
        nonlocal done
        if cancel is not None and cancel.is_set():
            raise Cancelled("cutting was cancelled")
        done += 1
        if progress is not None:
            progress("cutting", done, 0)

    return tick


def _some_plan(master: Master) -> Draft | None:
    """Return a plan if one can be had: by diving, over all sides, then with all fillings."""
    free = Within(caps=uncapped(master), most=INF)
    draft = make_plan(master, free)
    if draft is None:
        draft = over_all_sides(master, INF, -INF)
    if draft is None:
        draft = with_rich_fillings(master, INF, -INF)
    return draft


def _plan(master: Master, mode: str, state: State) -> CutPlan:
    draft, task = polished(master.ready, state.draft), master.ready.task
    certificate = _certificate(master, state.worths, min(state.bound, draft.objective))
    proof = Proof(task=task, objective=draft.objective, certificate=certificate)
    return CutPlan(
        mode=mode,
        cuts=cuts_of(master.ready, draft.boards),
        joints=draft.joints,
        cost=draft.cost,
        joint_count=draft.joint_count,
        objective=draft.objective,
        bound=certificate.bound,
        proof=proof,
        effort=Effort(
            columns=len(master.fillings),
            lp_solves=master.lp_solves,
            pivots=master.pivots,
            search_nodes=certificate.nodes,
        ),
    )


def _certificate(master: Master, worths: list[Worth], bound: int) -> Certificate:
    """Return the certificate of the bound, or of the best bound the vectors support."""
    direct = best_direct(master, worths)
    if direct < bound:
        kept, found = worths, _searched(master, worths, bound, told=True)
        if not found.finished:
            kept = _needed(master, worths, bound)
            found = _searched(master, kept, bound, told=True)
        if found.finished and found.boards is None:
            return Certificate(
                grade=GRADES[1],
                bound=bound,
                vectors=tuple(worth.vector for worth in kept),
                nodes=len(found.splits),
                splits=found.splits,
            )
    best = max(worths, key=lambda worth: best_direct(master, [worth]), default=None)
    vectors = () if best is None else (best.vector,)
    return Certificate(grade=GRADES[0], bound=min(direct, bound), vectors=vectors)


def _searched(master: Master, worths: list[Worth], bound: int, *, told: bool) -> Searched:
    weighed = [worth.weighed for worth in worths]
    most, tick = master.limits.splits, master.tick
    return search(master.ready.task, weighed, bound - 1, most, tick, told=told)


def _needed(master: Master, worths: list[Worth], bound: int) -> list[Worth]:
    """Return worth vectors of which none can be left out: fewer are told in shorter numbers."""
    kept = list(worths)
    for worth in worths:
        fewer = [one for one in kept if one is not worth]
        found = _searched(master, fewer, bound, told=False)
        if found.finished and found.boards is None:
            kept = fewer
    return kept
