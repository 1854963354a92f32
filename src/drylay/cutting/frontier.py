"""The frontier of purchase against number of joints."""

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from itertools import pairwise
from math import ceil, floor

from attrs import evolve, frozen

from drylay.cutting.engine import Progress, Token, solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Proof, Task, WorkLimits
from drylay.cutting.uses_model import FrontierPoint
from drylay.cutting.verify import fewest_joints, longest_usable

#: So many times dearer is a joint at each step towards the fewest joints.
CLIMB = 8

Solve = Callable[..., CutPlan]


def frontier(
    task: Task,
    *,
    mode: str = "proven",
    solves: int = 24,
    limits: WorkLimits | None = None,
    progress: Progress | None = None,
    cancel: Token | None = None,
) -> tuple[FrontierPoint, ...]:
    """Return the purchases that some price of a joint makes the cheapest, fewest joints first.

    From the fewest joints found to the least purchase found: joints rise, costs fall. Each
    point comes with a joint price at which none found is cheaper, and with the proof at that
    price. The points are corners of the lower hull of all (joints, purchase): a purchase may
    lie between two of them, dearer than the one and with fewer joints than the other, which no
    price of a joint makes the cheapest; those are left out, and so are corners that only a
    price between two whole ones would choose. Nothing says that they do not exist.

    The point that is cheapest at the task's own joint price is always there: it costs what
    `solve` says, or less where `solve` left a gap and another price led to a better plan.

    Args:
        task: its own `joint_price` is one of the prices looked at.
        mode: as in `solve`.
        solves: how many joint prices are solved for at most, 4 at the least; with fewer than
            it would take, corners are missing, but those told are as good.
        limits: how much work each solve may do.
        progress: told of the work done, as in `solve`.
        cancel: asked whether to stop, as in `solve`.

    Raises:
        CutTaskError: the task makes no sense.
        NoPlan: there is no plan, or none was found within the work limits.
        Cancelled: `cancel` was set.
    """
    if solves < 4:
        raise ValueError(f"solves is {solves}, wanted 4 or more")
    solving = partial(solve, mode=mode, limits=limits, progress=progress, cancel=cancel)
    search = _Search(task, solving, solves)
    least = search.solved(0)
    search.solved(task.joint_price)
    if least.joint_count:
        search.solved(1)
        search.climb(least)
        while (price := search.next_price()) is not None:
            search.solved(price)
    return search.points()


def _steepest(least: CutPlan) -> int:
    """Return a joint price above what any joint can spare.

    A plan has no more boards than pieces, and one with the fewest joints no more pieces than
    the plan of least purchase: it costs less than all of these in the dearest boards.
    """
    pieces = sum(len(cut.pieces) * cut.boards for cut in least.cuts)
    return 1 + pieces * _dearest(least)


def _dearest(plan: CutPlan) -> int:
    return max(stock.price for stock in plan.proof.task.stock)


def _fewest(task: Task) -> int:
    """Return a number of joints no plan has fewer of: that of lines that mind no neighbour."""
    longest = longest_usable(task)
    lines = [line for line in task.lines if line.count]
    return sum(line.count * (fewest_joints(line, longest) or 0) for line in lines)


@frozen(kw_only=True)
class _Corner:
    """A plan on the hull, and the joint prices from which and to which none is cheaper."""

    plan: CutPlan
    low: Fraction
    high: Fraction | None


class _Search:
    """The plans found so far, whatever price they were found at, and the proofs by price."""

    def __init__(self, task: Task, solving: Solve, most: int) -> None:
        self.task, self.solving, self.most = task, solving, most
        self.found: dict[int, CutPlan] = {}

    def solved(self, price: int) -> CutPlan:
        """Return the plan at a joint price, solved for once."""
        if price not in self.found:
            self.found[price] = self.solving(evolve(self.task, joint_price=price))
        return self.found[price]

    def climb(self, least: CutPlan) -> None:
        """Raise the joint price until no plan has fewer joints, or none is worth it.

        By steps, since the dearest prices strain the solver: where it gives up, what was
        found with the price before is the fewest joints found.
        """
        top, fewest = _steepest(least), _fewest(self.task)
        price = min(top, _dearest(least) + 1)
        while len(self.found) < self.most:
            try:
                joints = self.solved(price).joint_count
            except NoPlan:
                return
            if joints == fewest or price == top:
                return
            price = min(top, CLIMB * price)

    def next_price(self) -> int | None:
        """Return a joint price at which a corner may be missing, None if there is none.

        A corner no price was solved for comes first: it has no proof yet. Then the price at
        which two neighbours cost the same, on both sides where it is not whole: a plan that
        belongs between them is cheaper than both there. The widest step comes first.
        """
        if len(self.found) >= self.most:
            return None
        corners = self.corners()
        steps = sorted(pairwise(corners), key=lambda step: step[1].plan.cost - step[0].plan.cost)
        wanted = [ceil(c.low) for c in corners if self.price_of(c) is None and _has_whole(c)]
        wanted += [side(one.low) for one, _ in steps for side in (floor, ceil)]
        return next((price for price in wanted if price not in self.found), None)

    def corners(self) -> list[_Corner]:
        """Return the lower hull of all plans found, fewest joints first."""
        best: dict[int, CutPlan] = {}
        for _, plan in sorted(self.found.items()):
            held = best.get(plan.joint_count)
            if held is None or _rank(plan) < _rank(held):
                best[plan.joint_count] = plan
        hull: list[CutPlan] = []
        for _, plan in sorted(best.items()):
            if hull and plan.cost >= hull[-1].cost:
                continue
            while len(hull) > 1 and _slope(hull[-1], plan) >= _slope(hull[-2], hull[-1]):
                hull.pop()
            hull.append(plan)
        edges = [_slope(one, other) for one, other in pairwise(hull)]
        highs: list[Fraction | None] = [None, *edges]
        lows = [*edges, Fraction(0)]
        return [
            _Corner(plan=plan, low=low, high=high)
            for plan, low, high in zip(hull, lows, highs, strict=True)
        ]

    def price_of(self, corner: _Corner) -> int | None:
        """Return the solved price at which a corner is cheapest with the least gap."""
        prices = [
            price
            for price in sorted(self.found)
            if corner.low <= price and (corner.high is None or price <= corner.high)
        ]
        own = self.task.joint_price
        return min(
            prices,
            key=lambda price: (_gap(corner.plan, self.found[price]), price != own),
            default=None,
        )

    def points(self) -> tuple[FrontierPoint, ...]:
        """Return the corners that some price solved for chooses, each with that proof."""
        told = []
        for corner in self.corners():
            price = self.price_of(corner)
            if price is not None:
                told.append(_point(corner.plan, self.found[price]))
        return tuple(told)


def _has_whole(corner: _Corner) -> bool:
    return corner.high is None or ceil(corner.low) <= corner.high


def _rank(plan: CutPlan) -> tuple[int, int, int]:
    """Return what plans with as many joints go by: purchase, boards, different cuts."""
    return plan.cost, sum(cut.boards for cut in plan.cuts), len(plan.cuts)


def _slope(one: CutPlan, other: CutPlan) -> Fraction:
    """Return the joint price at which two plans cost the same, the second with more joints."""
    return Fraction(one.cost - other.cost, other.joint_count - one.joint_count)


def _gap(plan: CutPlan, priced: CutPlan) -> int:
    """Return how far a plan is above the bound at the joint price another was solved for."""
    return plan.cost + priced.proof.task.joint_price * plan.joint_count - priced.bound


def _point(plan: CutPlan, priced: CutPlan) -> FrontierPoint:
    """Return a plan under the joint price, bound and proof of another."""
    task, certificate = priced.proof.task, priced.proof.certificate
    objective = plan.cost + task.joint_price * plan.joint_count
    proof = Proof(task=task, objective=objective, certificate=certificate)
    return FrontierPoint(
        joints=plan.joint_count,
        cost=plan.cost,
        joint_price=task.joint_price,
        bound=priced.bound,
        gap=objective - priced.bound,
        plan=evolve(
            plan, objective=objective, bound=priced.bound, proof=proof, effort=priced.effort
        ),
    )
