"""What lies in the shed goes first: offcuts for nothing, opened before a board is bought for it.

An offcut is stock of price 0 with a limit, and that alone makes the cheapest plan take it
wherever it spares money. First means two things more, which cost nothing: what is still in a
bought board goes into the shed's, as far as it fits; and only then are boards bought, each as
cheap as holds what is left. The objective is as it was or less, for the same bound.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from functools import partial

from attrs import evolve

from drylay.cutting.engine import Progress, Token, solve
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.fill import fullest_within
from drylay.cutting.model import Cut, CutPlan, Proof, Stock, Task, WorkLimits
from drylay.cutting.uses_model import Offcut, ShedPlan, ShedUse
from drylay.cutting.verify import room
from drylay.errors import Fault

FILL_NODES = 20_000  # of the search for the best filling of one offcut


def with_shed(task: Task, offcuts: Iterable[Offcut]) -> Task:
    """Return the task with offcuts on top of its stock, at price 0 and as many as there are.

    Raises:
        CutTaskError: an offcut has no length, or a name that stock or another has.
    """
    lying = tuple(offcuts)
    taken = Counter([stock.name for stock in task.stock] + [its.name for its in lying])
    faults = []
    for i, its in enumerate(lying):
        place = f"offcuts[{i}]"
        if taken[its.name] > 1:
            faults.append(Fault(path=f"{place}.name", found=its.name, wanted="a name of its own"))
        for what, value, least in (
            ("length", its.length, 1),
            ("count", its.count, 0),
            ("trim", its.trim, 0),
        ):
            if value < least:
                found, wanted = str(value), f"{least} or more"
                faults.append(Fault(path=f"{place}.{what}", found=found, wanted=wanted))
    if faults:
        raise CutTaskError(tuple(faults))
    stock = (
        Stock(name=its.name, length=its.length, price=0, limit=its.count, trim=its.trim)
        for its in lying
    )
    return evolve(task, stock=(*task.stock, *stock))


def solve_with_shed(
    task: Task,
    offcuts: Iterable[Offcut],
    *,
    mode: str = "proven",
    limits: WorkLimits | None = None,
    progress: Progress | None = None,
    cancel: Token | None = None,
) -> ShedPlan:
    """Return the cheapest plan found that uses the shed first, what it uses and what that spares.

    Raises:
        CutTaskError: the task or an offcut makes no sense.
        NoPlan: there is no plan even with the shed, or none was found within the work limits.
        Cancelled: `cancel` was set.
    """
    solving = partial(solve, mode=mode, limits=limits, progress=progress, cancel=cancel)
    whole = with_shed(task, offcuts)
    plan = solving(whole)
    try:
        bought = solving(task)
    except NoPlan:
        plan = shed_first(plan)
        return ShedPlan(
            plan=plan,
            uses=shed_uses(plan),
            bought=None,
            saving=None,
            least_saving=None,
            most_saving=None,
        )
    plan = shed_first(_under(plan, bought) if bought.objective < plan.objective else plan)
    return ShedPlan(
        plan=plan,
        uses=shed_uses(plan),
        bought=bought,
        saving=bought.objective - plan.objective,
        least_saving=max(0, bought.bound - plan.objective),
        most_saving=bought.objective - plan.bound,
    )


def _under(plan: CutPlan, other: CutPlan) -> CutPlan:
    """Return another plan's boards and joints under the task and the bound of the first."""
    proof = evolve(plan.proof, objective=other.objective)
    return evolve(other, bound=plan.bound, proof=proof, effort=plan.effort)


def is_shed(stock: Stock) -> bool:
    """Return whether a stock lies in the shed: it costs nothing and there are only so many."""
    return stock.price == 0 and stock.limit is not None


def shed_uses(plan: CutPlan) -> tuple[ShedUse, ...]:
    """Return what a plan takes of each stock that lies in the shed, in the order of the task."""
    return tuple(
        _use(plan, stock) for stock in plan.proof.task.stock if is_shed(stock) and stock.limit
    )


def _use(plan: CutPlan, stock: Stock) -> ShedUse:
    kerf = plan.proof.task.kerf
    sawn = [cut.pieces for cut in plan.cuts if cut.stock == stock.name for _ in range(cut.boards)]
    rests = (room(stock, kerf) - _needs(pieces, kerf) - kerf for pieces in sawn)
    return ShedUse(
        offcut=stock.name,
        length=stock.length,
        used=len(sawn),
        left=(stock.limit or 0) - len(sawn),
        sawn=tuple(sawn),
        rests=tuple(max(0, rest) for rest in rests),
    )


def _needs(pieces: Sequence[int], kerf: int) -> int:
    """Return the space pieces take, each its length and one kerf."""
    return sum(pieces) + kerf * len(pieces)


def shed_first(plan: CutPlan) -> CutPlan:
    """Return a plan with its pieces moved into the shed's boards as far as they fit there.

    Then no piece of a bought board fits into what is left of any board in the shed. The plan
    costs as much as before, or less where a bought board is spared or a cheaper one will do.
    """
    task = plan.proof.task
    boards = _Boards(plan)
    for stock, pieces in boards.in_shed():
        boards.fill(stock, pieces)
    cuts = boards.cuts()
    if cuts == _counted((cut.stock, cut.pieces) for cut in plan.cuts for _ in range(cut.boards)):
        return plan
    prices = {stock.name: stock.price for stock in task.stock}
    cost = sum(prices[cut.stock] * cut.boards for cut in cuts)
    objective = cost + task.joint_price * plan.joint_count
    proof = Proof(task=task, objective=objective, certificate=plan.proof.certificate)
    return evolve(plan, cuts=cuts, cost=cost, objective=objective, proof=proof)


class _Boards:
    """The boards of a plan while pieces move from the bought ones to those in the shed."""

    def __init__(self, plan: CutPlan) -> None:
        self.task = plan.proof.task
        self.stock = {stock.name: stock for stock in self.task.stock}
        self.bought: list[tuple[Stock, list[int]]] = []
        self.shed: list[tuple[Stock, list[int]]] = []
        for cut in plan.cuts:
            stock = self.stock[cut.stock]
            pile = self.shed if is_shed(stock) else self.bought
            pile += [(stock, list(cut.pieces)) for _ in range(cut.boards)]

    def in_shed(self) -> list[tuple[Stock, list[int]]]:
        """Return the shed's boards: those already opened, then the others, longest first."""
        opened = Counter(stock.name for stock, _ in self.shed)
        useful = sum(len(pieces) for _, pieces in self.bought)  # no more can take in a piece
        closed = [
            (stock, list[int]())
            for stock in sorted(self.task.stock, key=lambda its: (-its.length, its.name))
            if is_shed(stock)
            for _ in range(min(useful, (stock.limit or 0) - opened[stock.name]))
        ]
        self.shed += closed
        return self.shed

    def fill(self, stock: Stock, pieces: list[int]) -> None:
        """Move pieces of bought boards into one in the shed until none fits: most length first."""
        while True:
            kerf = self.task.kerf
            space = room(stock, kerf) - _needs(pieces, kerf)
            there = Counter(length for _, its in self.bought for length in its)
            lengths = [n for n in sorted(there, reverse=True) if n + kerf <= space]
            chosen = fullest_within(
                lengths,
                [length + kerf for length in lengths],
                [there[length] for length in lengths],
                space,
                least=0,
                nodes=FILL_NODES,
            )
            if not chosen:
                return
            for i, count in sorted(chosen.items()):
                for _ in range(count):
                    self._giver(lengths[i]).remove(lengths[i])
                    pieces.append(lengths[i])

    def _giver(self, length: int) -> list[int]:
        """Return the bought board to take a piece from: one with the least other length."""
        givers = [pieces for _, pieces in self.bought if length in pieces]
        return min(givers, key=lambda pieces: (sum(pieces), pieces))

    def cuts(self) -> tuple[Cut, ...]:
        """Return the cuts, empty boards left out, bought ones as cheap as will do."""
        left = {its.name: its.limit for its in self.task.stock}
        sawn = [(stock, pieces) for stock, pieces in self.bought if pieces]
        for stock, _ in sawn:
            left[stock.name] = _less(left[stock.name], 1)
        boards = [(stock.name, pieces) for stock, pieces in self.shed if pieces]
        for stock, pieces in sawn:
            left[stock.name] = _less(left[stock.name], -1)
            name = self._cheapest(stock, pieces, left)
            left[name] = _less(left[name], 1)
            boards.append((name, pieces))
        return _counted((name, tuple(sorted(pieces, reverse=True))) for name, pieces in boards)

    def _cheapest(self, stock: Stock, pieces: list[int], left: dict[str, int | None]) -> str:
        kerf = self.task.kerf
        fits = [
            its
            for its in self.task.stock
            if room(its, kerf) >= _needs(pieces, kerf) and left[its.name] != 0 and not is_shed(its)
        ]
        return min(fits, key=lambda its: (its.price, its.name != stock.name, its.name)).name


def _less(count: int | None, taken: int) -> int | None:
    return None if count is None else count - taken


def _counted(boards: Iterable[tuple[str, tuple[int, ...]]]) -> tuple[Cut, ...]:
    counts = Counter(boards)
    return tuple(Cut(stock=s, pieces=p, boards=n) for (s, p), n in sorted(counts.items()))
