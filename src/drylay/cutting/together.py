"""Several jobs cut as one order, and what that spares."""

from collections import Counter
from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from attrs import evolve

from drylay.cutting.engine import Progress, Token, solve
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.model import Beside, Cut, CutPlan, Proof, Stock, Task, WorkLimits
from drylay.cutting.ready import make_ready
from drylay.cutting.sharing import share_out
from drylay.cutting.uses_model import Job, TogetherPlan
from drylay.errors import Fault

Solve = Callable[..., CutPlan]


def cut_together(
    jobs: Mapping[str, Task],
    *,
    mode: str = "proven",
    alone: str = "quick",
    limits: WorkLimits | None = None,
    known: Mapping[Task, CutPlan | NoPlan] | None = None,
    progress: Progress | None = None,
    cancel: Token | None = None,
) -> TogetherPlan:
    """Return the cheapest plan found for several jobs as one order, and what it spares.

    One proof speaks of the whole order, which is never dearer than the jobs one by one: where
    the search finds nothing better, it is their plans side by side. One by one means in the
    order named, each from what those before it left of limited stock.

    Args:
        jobs: a task for each name; stock, kerf and joint price have to be the same for all.
        mode: how the whole order is solved, as in `solve`.
        alone: how each job is solved by itself, "quick" or "proven".
        limits: how much work each solve may do.
        known: answers found before, by their tasks; those are not looked for again.
        progress: told of the work done, as in `solve`.
        cancel: asked whether to stop, as in `solve`.

    Raises:
        CutTaskError: jobs differ in what they must share, or a task makes no sense.
        NoPlan: the jobs together have no plan.
        Cancelled: `cancel` was set.
    """
    _check(jobs)
    solving = partial(_answer, known or {}, limits=limits, progress=progress, cancel=cancel)
    plan = solving(merged(jobs), mode=mode)
    plans = _one_by_one(jobs, partial(solving, mode=alone))
    whole = [its for its in plans if its is not None]
    if len(whole) < len(plans):
        return _together(plan, _told(jobs, plans), None, None)
    apart = sum(its.objective for its in whole)
    plan = _side_by_side(plan, whole) if apart < plan.objective else plan
    return _together(plan, _told(jobs, plans), apart, sum(its.bound for its in whole))


def _answer(known: Mapping[Task, CutPlan | NoPlan], task: Task, **asked: Any) -> CutPlan:
    """Return the plan of a task: as known, else as solved.

    Raises:
        NoPlan: It has none.
    """
    found = known.get(task) or solve(task, **asked)
    if isinstance(found, NoPlan):
        raise found
    return found


def merged(jobs: Mapping[str, Task]) -> Task:
    """Return one task with the pieces and lines of all jobs, in turn."""
    tasks = list(jobs.values())
    beside, first = [], 0
    for task in tasks:
        beside += [Beside(one=b.one + first, other=b.other + first) for b in task.beside]
        first += len(task.lines)
    return evolve(
        tasks[0],
        pieces=tuple(piece for task in tasks for piece in task.pieces),
        lines=tuple(line for task in tasks for line in task.lines),
        beside=tuple(beside),
    )


def _check(jobs: Mapping[str, Task]) -> None:
    if not jobs:
        fault = Fault(path="jobs", found="none", wanted="a task for each name")
        raise CutTaskError((fault,))
    first, *_ = jobs.values()
    faults = []
    for name, task in jobs.items():
        for what, same in (
            ("stock", _by_name(task.stock) == _by_name(first.stock)),
            ("kerf", task.kerf == first.kerf),
            ("joint_price", task.joint_price == first.joint_price),
        ):
            if not same:
                found = "other stock" if what == "stock" else str(getattr(task, what))
                wanted = f"the same for all, as in {next(iter(jobs))!r}"
                faults.append(Fault(path=f"jobs[{name!r}].{what}", found=found, wanted=wanted))
        faults += _own_faults(name, task)
    if faults:
        raise CutTaskError(tuple(faults))


def _by_name(stock: tuple[Stock, ...]) -> list[Stock]:
    return sorted(stock, key=lambda its: its.name)


def _own_faults(name: str, task: Task) -> list[Fault]:
    """Return what makes no sense in one job by itself."""
    try:
        make_ready(task)
    except CutTaskError as error:
        return [evolve(fault, path=f"jobs[{name!r}].{fault.path}") for fault in error.faults]
    except NoPlan:  # told for the jobs together
        return []
    return []


def _one_by_one(jobs: Mapping[str, Task], solving: Solve) -> list[CutPlan | None]:
    """Return a plan of each job by itself, from what those before it left; alike ones cut once."""
    plans: list[CutPlan | None] = []
    bought: Counter[str] = Counter()
    known: dict[Task, CutPlan | None] = {}
    for task in jobs.values():
        own = evolve(task, stock=_left(task.stock, bought))
        if own not in known:
            known[own] = _by_itself(own, solving)
        plan = known[own]
        plans.append(plan)
        for cut in plan.cuts if plan else ():
            bought[cut.stock] += cut.boards
    return plans


def _by_itself(task: Task, solving: Solve) -> CutPlan | None:
    try:
        return solving(task)
    except NoPlan:
        return None


def _left(stock: tuple[Stock, ...], bought: Counter[str]) -> tuple[Stock, ...]:
    return tuple(
        its if its.limit is None else evolve(its, limit=its.limit - bought[its.name])
        for its in stock
    )


def _side_by_side(plan: CutPlan, plans: list[CutPlan]) -> CutPlan:
    """Return the plans of single jobs as one, under the bound of the whole order."""
    counts: Counter[tuple[str, tuple[int, ...]]] = Counter()
    for its in plans:
        for cut in its.cuts:
            counts[cut.stock, cut.pieces] += cut.boards
    objective, proof = sum(its.objective for its in plans), plan.proof
    return evolve(
        plan,
        cuts=tuple(Cut(stock=s, pieces=p, boards=n) for (s, p), n in sorted(counts.items())),
        joints=tuple(lines for its in plans for lines in its.joints),
        cost=sum(its.cost for its in plans),
        joint_count=sum(its.joint_count for its in plans),
        objective=objective,
        proof=Proof(task=proof.task, objective=objective, certificate=proof.certificate),
    )


def _told(jobs: Mapping[str, Task], plans: list[CutPlan | None]) -> tuple[Job, ...]:
    told, lines, pieces = [], 0, 0
    for (name, task), plan in zip(jobs.items(), plans, strict=True):
        told.append(
            Job(
                name=name,
                first_lines=lines,
                lines=len(task.lines),
                first_pieces=pieces,
                pieces=len(task.pieces),
                alone=plan,
            )
        )
        lines, pieces = lines + len(task.lines), pieces + len(task.pieces)
    return tuple(told)


def _together(
    plan: CutPlan, jobs: tuple[Job, ...], apart: int | None, least_apart: int | None
) -> TogetherPlan:
    """Return the whole order with what it spares, where the jobs have plans by themselves."""
    return TogetherPlan(
        plan=plan,
        jobs=jobs,
        sawn=share_out(plan, jobs)[0],
        apart=apart,
        saving=apart - plan.objective if apart is not None else None,
        least_saving=max(0, least_apart - plan.objective) if least_apart is not None else None,
        most_saving=apart - plan.bound if apart is not None else None,
    )
