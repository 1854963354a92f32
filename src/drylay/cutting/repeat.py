"""Lines that repeat: every so many alike, as cheap as that can be, and what it costs."""

from collections import Counter
from collections.abc import Callable
from functools import partial
from math import ceil

from attrs import evolve, frozen

from drylay.cutting.engine import Progress, Token, solve
from drylay.cutting.errors import NoPlan, Shortfall
from drylay.cutting.master import Master
from drylay.cutting.model import Cut, CutPlan, Piece, Proof, Task, WorkLimits
from drylay.cutting.pricing import Filling
from drylay.cutting.ready import make_ready
from drylay.cutting.rounding import cuts_of, trimmed
from drylay.cutting.sharing import line_pieces
from drylay.cutting.solver import INF, Column, add_columns, best_whole, open_whole
from drylay.cutting.turns import Laid, TurnProgramme, turns_of
from drylay.cutting.uses_model import RepeatedCuts
from drylay.cutting.verify import longest_usable, price_step
from drylay.errors import Cancelled

#: A proof over turns has far fewer columns than one over free lines, and may take so many times
#: their nodes.
PROOF_NODES = 25

Solve = Callable[..., CutPlan]
Stopped = Callable[[], bool] | None


def solve_repeated(
    task: Task,
    *,
    period: int = 2,
    mode: str = "proven",
    limits: WorkLimits | None = None,
    progress: Progress | None = None,
    cancel: Token | None = None,
) -> RepeatedCuts:
    """Return the cheapest plan found whose lines repeat, the free plan, and what lies between.

    Line i of a set is jointed as its line i + `period`; each set has patterns of its own. The
    plan's bound and proof are those of the free task: the lines may be laid in fewer ways, so
    what no free plan goes below no repeated one does. `RepeatedCuts.least` says what is known
    of repeated plans alone.

    Args:
        task: as in `solve`.
        period: after how many lines the joints come again; 1 lays all lines of a set alike.
        mode: how the free task and the boards of a repeat are solved, as in `solve`.
        limits: how much work each solve may do.
        progress: told of the work done, as in `solve`.
        cancel: asked whether to stop, as in `solve`.

    Raises:
        CutTaskError: the task makes no sense.
        NoPlan: no plan repeats so, or none was found within the work limits.
        Cancelled: `cancel` was set.
    """
    if period < 1:
        raise ValueError(f"period is {period}, wanted 1 or more")
    limits = limits or WorkLimits()
    solving = partial(solve, mode=mode, limits=limits, progress=progress, cancel=cancel)
    free = solving(task)
    if _repeats(free.joints, period):
        return _told(free, free, period, free.bound)
    stopped = None if cancel is None else cancel.is_set
    master = Master(make_ready(task), limits, partial(_ask, stopped), stopped)
    search = _Search(free, master, solving, period)
    search.run(limits.tries if mode == "proven" else 0)
    if search.best is None:
        raise _none(search)
    return _told(search.best, free, period, int(search.least))


def _ask(stopped: Stopped) -> None:
    if stopped is not None and stopped():
        raise Cancelled("cutting was cancelled")


def _repeats(joints: Laid, period: int) -> bool:
    return all(
        lines[place] == lines[place - period]
        for lines in joints
        for place in range(period, len(lines))
    )


def _told(plan: CutPlan, free: CutPlan, period: int, least: int) -> RepeatedCuts:
    """Return both plans; a repeated one that is cheaper is the best free one found."""
    free = plan if plan.objective < free.objective else free
    return RepeatedCuts(
        plan=plan,
        free=free,
        period=period,
        dearer=plan.objective - free.objective,
        least=min(plan.objective, max(least, plan.bound)),
    )


def _none(search: "_Search") -> NoPlan:
    """Return why no plan repeats: the joints keep no lawful order, or the stock does not do."""
    programme, longest = search.programme, longest_usable(search.task)
    first = programme.first_turn
    low, high = [-INF] * first + programme.low[first:], [INF] * first + programme.high[first:]
    model = open_whole(low, high)
    add_columns(model, programme.columns, whole=True)
    if best_whole(model)[1] == INF:
        return NoPlan((Shortfall(kind="lines cannot repeat", longest=longest),), proven=True)
    short = Shortfall(kind="not enough stock", longest=longest)
    return NoPlan((short,), proven=search.least == INF)


@frozen(kw_only=True)
class _Answer:
    """What the solver came to: how lines are laid, boards for them, what none costs less than."""

    joints: Laid | None
    bought: list[Filling]
    least: float


class _Search:
    """The best plan that repeats so far, and what none that does costs less than."""

    def __init__(self, free: CutPlan, master: Master, solving: Solve, period: int) -> None:
        self.free, self.master, self.solving = free, master, solving
        self.task = free.proof.task
        self.best: CutPlan | None = None
        self.least: float = free.bound
        self.programme = TurnProgramme(master, turns_of(master, period))

    def run(self, tries: int) -> None:
        """Look for better plans until there is none, or the work is done.

        First among the fillings of free plans; then among those that better plans may hold,
        and that is the last word where the solver looked at all of them to the end.
        """
        self.learn(self.free)
        self.look(first=True, complete=False)
        for _ in range(max(tries, self.best is None)):
            before = self.below
            if before <= self.least:
                return
            self.look(first=False, complete=self.enrich())
            if self.below == before:
                return

    @property
    def below(self) -> float:
        """What a plan has to cost less than to be worth finding."""
        return INF if self.best is None else float(self.best.objective)

    def learn(self, plan: CutPlan) -> None:
        """Bring in the fillings of a plan."""
        ready = self.master.ready
        index = {length: i for i, length in enumerate(ready.lengths)}
        number = {self.task.stock[board.stock].name: n for n, board in enumerate(ready.boards)}
        counts = [Counter(index[length] for length in cut.pieces) for cut in plan.cuts]
        self.master.add(
            [
                (number[cut.stock], tuple(sorted(its.items())))
                for cut, its in zip(plan.cuts, counts, strict=True)
            ]
        )

    def enrich(self) -> bool:
        """Bring in fillings a better plan may hold; return whether these are all there are."""
        prices = self.master.solve()
        if prices is None:
            return False
        spare = self.below - prices.objective
        for part in (1, 2, 4, 8, 16, 32):
            if self.master.add_rich(prices, spare / part):
                return part == 1
        return False

    def look(self, *, first: bool, complete: bool) -> None:
        """Let the solver choose; with `complete` fillings its bound is one of all repeats."""
        answer = self.answer(first=first)
        if answer is None:
            return
        if complete:
            self.least = max(self.least, min(answer.least, self.below))
        if answer.joints is not None:
            plan = self.cut(answer.joints, answer.bought)
            self.learn(plan)
            self.best = plan if self.best is None else min(self.best, plan, key=_rank)

    def answer(self, *, first: bool) -> _Answer | None:
        """Return what the solver finds among the turns and fillings that may better the plan."""
        prices, programme = self.master.solve(), self.programme
        if prices is None:
            return None
        start, spare = len(self.master.fixed), self.below - prices.objective + 1e-6
        arcs = [n for n, dear in enumerate(programme.reduced(prices)) if dear < spare]
        known = enumerate(self.master.fillings)
        fillings = [filling for n, filling in known if prices.reduced[start + n] < spare]
        columns = [programme.columns[n] for n in arcs]
        columns += [programme.filling(filling) for filling in fillings]
        values, least = self._solved(columns, first=first)
        _ask(self.master.stopped)
        if values is None:
            return _Answer(joints=None, bought=[], least=self._up(least))
        counts = [round(value) for value in values]
        chosen = [programme.arcs[n] for n, count in zip(arcs, counts, strict=False) if count]
        bought = zip(fillings, counts[len(arcs) :], strict=True)
        return _Answer(
            joints=programme.joints(chosen),
            bought=[filling for filling, count in bought for _ in range(count)],
            least=self._up(least),
        )

    def _solved(self, columns: list[Column], *, first: bool) -> tuple[list[float] | None, float]:
        low, high = list(self.programme.low), list(self.programme.high)
        if self.below < INF:
            columns = [(c, most, (*r, len(low)), (*v, c)) for c, most, r, v in columns]
            low.append(-INF)
            high.append(self.below - price_step(self.task) / 2)
        half, limits = price_step(self.task) / 2, self.master.limits
        nodes = limits.nodes * (1 if first else PROOF_NODES)
        model = open_whole(low, high, nodes=nodes, enough=self.free.bound + half, inner=first)
        add_columns(model, columns, whole=True)
        return best_whole(model, self.master.stopped)

    def _up(self, least: float) -> float:
        """Return the least cost that what the solver says allows, trifles taken off."""
        step = price_step(self.task)
        return float(ceil(least / step - 0.45) * step) if abs(least) < INF else least

    def cut(self, joints: Laid, bought: list[Filling]) -> CutPlan:
        """Return the plan of lines laid so, from these boards or better ones."""
        wanted = {piece.length: 0 for piece in self.task.pieces}
        for piece in self.task.pieces:
            wanted[piece.length] += piece.count
        counts = Counter(wanted)
        for line, lines in zip(self.task.lines, joints, strict=True):
            for its in lines:
                counts.update(line_pieces(line, its))
        pieces = tuple(Piece(length=n, count=count) for n, count in sorted(counts.items()))
        plans = [self._plan(joints, self._trimmed(counts, bought))]
        try:
            anew = self.solving(evolve(self.task, lines=(), beside=(), pieces=pieces))
            plans.append(self._plan(joints, anew.cuts))
        except NoPlan:  # not found within the work limits, so what there is will do
            pass
        return min(plans, key=_rank)

    def _trimmed(self, wanted: Counter[int], bought: list[Filling]) -> tuple[Cut, ...]:
        ready = self.master.ready
        boards = trimmed(ready, bought, [wanted[length] for length in ready.lengths])
        assert boards is not None
        return cuts_of(ready, [(board, tuple(sorted(pieces))) for board, pieces in boards])

    def _plan(self, joints: Laid, cuts: tuple[Cut, ...]) -> CutPlan:
        prices = {stock.name: stock.price for stock in self.task.stock}
        cost = sum(prices[cut.stock] * cut.boards for cut in cuts)
        count = sum(len(its) for lines in joints for its in lines)
        objective, proof = cost + self.task.joint_price * count, self.free.proof
        return evolve(
            self.free,
            cuts=cuts,
            joints=joints,
            cost=cost,
            joint_count=count,
            objective=objective,
            proof=Proof(task=self.task, objective=objective, certificate=proof.certificate),
        )


def _rank(plan: CutPlan) -> tuple[int, int, int, int]:
    """Return what plans go by: objective, boards, different cuts, joints."""
    boards = sum(cut.boards for cut in plan.cuts)
    return plan.objective, boards, len(plan.cuts), plan.joint_count
