"""Finds the least purchase for pieces and lines together, with a proof."""

from collections.abc import Callable
from typing import Protocol

from attrs import evolve, frozen

from drylay.cutting.counts import Counts, Tally, cut_off
from drylay.cutting.dive import dive
from drylay.cutting.errors import NoPlan
from drylay.cutting.master import Master, Prices
from drylay.cutting.model import (
    GRADES,
    Certificate,
    Cut,
    CutPlan,
    Effort,
    Proof,
    Task,
    WorkLimits,
)
from drylay.cutting.none import is_proven, why_none
from drylay.cutting.ready import make_ready
from drylay.cutting.rounding import Draft, choice_within, make_draft, whole_plan
from drylay.cutting.sides import settle_sides
from drylay.cutting.verify import search
from drylay.cutting.worths import Worth, best_direct, worth_of
from drylay.errors import Cancelled

SMALL = 2000  # columns: a search over fewer may take more nodes for the same work

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

    `mode` "quick" leaves out the search over board counts: the plan is as good or nearly,
    the gap may be wider.

    Raises:
        CutTaskError: the task makes no sense.
        NoPlan: there is no plan, or none was found within the work limits.
        Cancelled: `cancel` was set.
    """
    if mode not in ("proven", "quick"):
        raise ValueError(f"mode is {mode!r}, wanted 'proven' or 'quick'")
    limits = limits or WorkLimits()
    tick = _ticker(progress, cancel)
    ready = make_ready(task)
    master = Master(ready, limits, tick, None if cancel is None else cancel.is_set)
    if not ready.lengths:
        return _plan(master, mode, _State(draft=make_draft(ready, [], []), worths=[], bound=0))
    root = master.solve()
    if root is None or root.unmet > 1e-6:
        raise NoPlan(why_none(master), proven=is_proven(master))
    worth = worth_of(master, root)
    state = _State(draft=None, worths=[worth], bound=best_direct(master, [worth]))
    state = _with_some_plan(master, _with_plan(master, state, root))
    if state.draft is None:
        raise NoPlan(why_none(master), proven=is_proven(master))
    if mode == "proven":
        state = _close(master, state)
    return _plan(master, mode, state)


@frozen(kw_only=True)
class _State:
    draft: Draft | None
    worths: list[Worth]
    bound: int


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


def _with_plan(
    master: Master, state: _State, prices: Prices, counts: Counts | None = None
) -> _State:
    """Return the state with a plan near a linear optimum, within the counts it was found for."""
    if not master.ready.lanes:
        return _dived(master, state, counts)
    sides = settle_sides(master, prices)
    if sides is None:
        master.limit_arcs(set())
        return state
    choice = choice_within(master, sides.prices, sides.barred, _below(state))
    draft = whole_plan(master, choice, free_sides=False, nodes=master.limits.nodes)
    return evolve(state, draft=_better(state.draft, draft))


def _dived(master: Master, state: _State, counts: Counts | None) -> _State:
    ready = master.ready
    caps = _uncapped(master) if counts is None else [float(n) for n in counts.boards]
    boards = dive(master, ready.wanted, caps, _below(state))
    draft = None if boards is None else make_draft(ready, boards, [])
    return evolve(state, draft=_better(state.draft, draft))


def _uncapped(master: Master) -> list[float]:
    return [float("inf") if b.limit is None else float(b.limit) for b in master.ready.boards]


def _with_some_plan(master: Master, state: _State) -> _State:
    """Return the state with a plan if one can be had: over all sides, then all fillings."""
    if state.draft is None:
        state = _with_free_sides(master, state)
    prices = master.solve() if state.draft is None else None
    if prices is not None and master.add_rich(prices, float("inf")):
        state = _with_free_sides(master, state)
    return state


def _with_free_sides(master: Master, state: _State) -> _State:
    """Return the state with the best plan over all sides that the solver finds."""
    prices = master.solve()
    if prices is None:
        return state
    choice = choice_within(master, prices, frozenset(), _below(state))
    limits = master.limits
    size = 1 + len(choice.arcs) + len(choice.fillings)
    nodes = limits.wide_nodes * max(1, SMALL // size) if master.staggered else limits.nodes
    draft = whole_plan(master, choice, free_sides=True, nodes=nodes, enough=state.bound)
    return evolve(state, draft=_better(state.draft, draft))


def _with_rich_fillings(master: Master, state: _State) -> _State:
    """Return the state with a plan that any filling good enough to better it may be part of."""
    prices = master.solve()
    if prices is not None:
        spare = _below(state) - prices.objective
        for part in (1, 2, 4, 8):
            if master.add_rich(prices, spare / part):
                break
    return _with_free_sides(master, state)


def _below(state: _State) -> float:
    return float("inf") if state.draft is None else float(state.draft.objective)


def _better(one: Draft | None, other: Draft | None) -> Draft | None:
    drafts = [draft for draft in (one, other) if draft is not None]
    return min(drafts, key=lambda draft: draft.rank, default=None)


def _met(state: _State) -> bool:
    return state.draft is not None and state.draft.objective <= state.bound


def _close(master: Master, state: _State) -> _State:
    """Raise the bound and better the plan until they meet or the work runs out."""
    tally = Tally(master)
    for worth in state.worths:
        tally.add(worth)
    for _ in range(master.limits.tries):
        before = state.draft
        state, left = _raised(master, state, tally)
        if left is None or _met(state):
            break
        if state.draft is before:
            state = _with_rich_fillings(master, state)
        if _met(state) or state.draft is before:
            break
    return state


def _raised(master: Master, state: _State, tally: Tally) -> tuple[_State, Counts | None]:
    """Raise the bound over whole board counts as far as worth vectors can.

    If it does not meet the plan, the counts that no worth vector cuts off come along; a plan
    was looked for within them.
    """
    for _ in range(master.limits.bound_cuts):
        most = int(_below(state))
        counts, least = tally.cheapest(state.bound, most)
        state = evolve(state, bound=max(state.bound, least))
        if counts is None or _met(state):
            break
        worth, prices = cut_off(master, counts)
        if worth is None:
            if prices is not None:
                state = _with_plan(master, state, prices, counts)
            master.cap_boards(_uncapped(master))
            return state, counts
        tally.add(worth)
        state = evolve(state, worths=[*state.worths, worth])
    master.cap_boards(_uncapped(master))
    return state, None


def _plan(master: Master, mode: str, state: _State) -> CutPlan:
    draft, task = state.draft, master.ready.task
    assert draft is not None
    certificate = _certificate(master, state.worths, min(state.bound, draft.objective))
    proof = Proof(task=task, objective=draft.objective, certificate=certificate)
    return CutPlan(
        mode=mode,
        cuts=_cuts(master, draft),
        joints=draft.joints,
        cost=draft.cost,
        joint_count=draft.joint_count,
        objective=draft.objective,
        bound=certificate.bound,
        proof=proof,
        effort=Effort(
            columns=len(master.fillings),
            lp_solves=master.lp_solves,
            search_nodes=certificate.nodes,
        ),
    )


def _certificate(master: Master, worths: list[Worth], bound: int) -> Certificate:
    """Return the certificate of the bound, or of the best bound the vectors support."""
    direct = best_direct(master, worths)
    if direct < bound:
        weighed = [worth.weighed for worth in worths]
        nodes, tick = master.limits.proof_nodes, master.tick
        found = search(master.ready.task, weighed, bound - 1, nodes, tick)
        if found.finished and found.boards is None:
            return Certificate(
                grade=GRADES[1],
                bound=bound,
                vectors=tuple(worth.vector for worth in worths),
                nodes=found.nodes,
            )
    best = max(worths, key=lambda worth: best_direct(master, [worth]), default=None)
    vectors = () if best is None else (best.vector,)
    return Certificate(grade=GRADES[0], bound=min(direct, bound), vectors=vectors)


def _cuts(master: Master, draft: Draft) -> tuple[Cut, ...]:
    ready = master.ready
    counts: dict[tuple[int, tuple[int, ...]], int] = {}
    for sawn in draft.boards:
        counts[sawn] = counts.get(sawn, 0) + 1
    return tuple(
        Cut(
            stock=ready.task.stock[ready.boards[board].stock].name,
            pieces=tuple(ready.lengths[piece] for piece in pieces),
            boards=count,
        )
        for (board, pieces), count in sorted(counts.items())
    )
