"""What of a deck hangs on a price besides its order, and what is to be said of it."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from attrs import evolve

from drylay.brief.model import Brief
from drylay.buying.model import Purchase
from drylay.buying.purchase import money
from drylay.plan.model import Plan

#: Purchases whose lines have joints at a price.
BOARDS = ("boards", "border boards")


def held_joints(brief: Brief, plans: Sequence[Plan], digits: int) -> Brief:
    """Return the brief with the price of a joint as it is at today's price, where that moves.

    `plans` are those at both ends of a range of prices, and at the stock's own price. It is left
    as it is where field and border are of unlike boards: one wish speaks of both.
    """
    ends = [_joint_prices(plan) for plan in plans[:2]]
    here = _joint_prices(plans[-1])
    if ends[0] == ends[1] or len(_jointed(plans[-1])) > 1:
        return brief
    return evolve(brief, joints=evolve(brief.joints, price_each=money(min(here), digits)))


def _bought(plan: Plan) -> tuple[Purchase, ...]:
    return plan.buying.purchases if plan.buying else ()


def _jointed(plan: Plan) -> set[str]:
    return {each.article for each in _bought(plan) if each.what in BOARDS}


def _joint_prices(plan: Plan) -> set[int]:
    """Return what joints of boards are reckoned at, nothing where boards may have none."""
    tasks = [each.proof.task for each in _bought(plan) if each.what in BOARDS]
    return {task.joint_price for task in tasks if any(ln.most_joints != 0 for ln in task.lines)}


def is_steady(brief: Brief, plans: Sequence[Plan]) -> bool:
    """Whether nothing of a deck but the sawing hangs on prices, so that cheaper orders are proven.

    Joists are so many as rules ask for, joints lie over single joists at a price that stays, and
    nothing under the frame is chosen by what it costs.
    """
    return not any(why_unsteady(brief, plans))


def why_unsteady(brief: Brief, plans: Sequence[Plan]) -> Iterator[str]:
    """Yield what of a deck is chosen by its price, besides how it is sawn."""
    plan = plans[0]
    if brief.frame.lines != "fewest":
        yield "how many joists it has"
    if plan.supports is not None and plan.supports.seam_count is not None:
        yield "over which lines boards joint"
    if plan.raised is not None:
        yield "what bearers it stands on"
    if plan.outline is not None:
        yield "how its boards lie on the outline"
    if plan.tiling is not None or plan.tiles is not None:
        yield "how its tiles lie"
    if brief.joints.price_each is None and _joint_prices(plans[0]) != _joint_prices(plans[1]):
        yield "what a joint is reckoned at"


def remarks_of(asked: Brief, held: Brief, plans: Sequence[Plan], currency: str) -> Iterator[str]:
    """Yield what is to be known of a deck's spans: what is held, and what is not proven."""
    if held.joints.price_each != asked.joints.price_each:
        yield f"a joint is reckoned at {held.joints.price_each} {currency} at every price, as today"
    if why := list(why_unsteady(held, plans)):
        yield (
            f"prices may settle {', '.join(why)}: each break is planned on both its sides, but "
            "within a span another order could lie"
        )


def gap_remark(gap: Decimal, currency: str) -> str:
    """Return what is to be known of a deck whose orders are not all proven to the last coin."""
    return (
        f"its orders leave a gap of {gap} {currency} at the most: breaks may lie a little "
        "elsewhere, and an order cheaper by no more than that lie hidden within a span"
    )
