"""Posts stand clear of one another, and joists hang in bays with room, off joints of plies."""

from collections.abc import Iterator
from itertools import combinations

from drylay.audit.between import between, hung
from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import NothingToMeasure, need, off_by
from drylay.audit.footings import FOOTINGS
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import RAISED, stand_of
from drylay.findings import Severity
from drylay.groundwork.model import Footing
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, Post

#: How far a hanger's flange reaches past its joist: docs/raised.md, common practice.
FLANGE = 40 * PER_MM


def _hung(plan: Plan) -> None:
    if not hung(plan):
        raise NothingToMeasure("no joists hang between bearers")


def posts_are_clear_of_one_another(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each two posts of a rectangle of which one stands in the other."""
    if plan.subframe is not None:
        raise NothingToMeasure("posts of an outline stand under bearers that cross")
    for one, other in combinations(stand_of(plan).posts, 2):
        along, across = _apart(one, other)
        if along < 0 and across < 0:
            message = f"stands in {one.mark}"
            yield off_by(other.mark, message, max(along, across), 0, RAISED)


def _apart(one: Post, other: Post) -> tuple[int, int]:
    """Return how far two posts' faces are apart along and across, below 0 where they overlap."""
    here, there = one.place, other.place
    broad = (ticks(one.section.breadth_mm) + ticks(other.section.breadth_mm)) // 2
    deep = (ticks(one.section.depth_mm) + ticks(other.section.depth_mm)) // 2
    return (
        abs(ticks(here.along_mm) - ticks(there.along_mm)) - broad,
        abs(ticks(here.across_mm) - ticks(there.across_mm)) - deep,
    )


def footings_leave_each_other_their_ground(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where footings overlap and the plan is not stopped for it, or is for nothing."""
    under = list(zip(stand_of(plan).posts, need(plan.footings, "footings").under, strict=False))
    pairs = [(one.mark, other.mark) for (post, one), (there, other) in combinations(under, 2)
             if _overlap(post, there, one.footing, other.footing)]  # fmt: skip
    told = any(each.code == "FTG-011" and each.severity is Severity.STOP for each in plan.findings)
    if pairs and not told:
        message = f"its footing lies in {pairs[0][0]}'s, and nothing stops the plan"
        yield Flaw(subject=pairs[0][1], message=message, source=FOOTINGS)
    if told and not pairs:
        message = "stopped for footings that overlap, and none do"
        yield Flaw(subject="FTG-011", message=message, source=FOOTINGS)


def _overlap(post: Post, other: Post, one: Footing, two: Footing) -> bool:
    """Return whether two footings share ground; round ones as circles, else as squares."""
    apart = [2 * abs(ticks(here) - ticks(there)) for here, there in (
        (post.place.along_mm, other.place.along_mm),
        (post.place.across_mm, other.place.across_mm))]  # fmt: skip
    reach = ticks(one.size_mm) + ticks(two.size_mm)
    if {one.shape, two.shape} == {"round"}:
        return sum(each**2 for each in apart) < reach**2
    return max(apart) < reach


def bays_hold_both_hangers(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bay shorter than the seats of two hangers, as joists are thick."""
    _hung(plan)
    least = 2 * thickness_of(plan)
    for number, (near, far) in enumerate(between(plan), 1):
        if far - near < least:
            message = "no room in it for a hanger at either end"
            yield off_by(f"bay {number}", message, far - near, least, RAISED)


def hangers_are_off_joints_or_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each hanger over a joint of the ply that it is screwed to, if untold.

    On a bearer of one ply none may be.
    """
    _hung(plan)
    found: list[int] = []
    for bearer in stand_of(plan).bearers:
        near = list(_over_joints(plan, bearer))
        found += near
        if near and bearer.section.plies == 1:
            message = "joists hang on its only ply where that is jointed"
            yield off_by(bearer.mark, message, min(near), FLANGE, RAISED)
    told = [each.measured for each in plan.findings if each.code == "RSD-022"]
    if found and [ticks(each or 0.0) for each in told] != [min(found)]:
        message = "hangers lie over joints of plies, and no finding tells how near"
        yield off_by("RSD-022", message, min(found), FLANGE, RAISED)
    if told and not found:
        message = "told of hangers over joints, and there are none"
        yield Flaw(subject="RSD-022", message=message, source=RAISED)


def _over_joints(plan: Plan, bearer: Bearer) -> Iterator[int]:
    """Yield how far joists are from joints of a face's ply that lie under their hangers."""
    clear = thickness_of(plan) // 2 + FLANGE
    joists = [ticks(joist.offset_mm) for joist in frame_of(plan).joists]
    for joint in bearer.joints:
        if joint.ply in {1, bearer.section.plies}:
            at = ticks(bearer.start_mm) + ticks(joint.at_mm)
            yield from (off for off in (abs(joist - at) for joist in joists) if off < clear)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-379", "posts stand clear of one another", posts_are_clear_of_one_another),
    ("AUD-380", "bays that joists hang in hold both hangers", bays_hold_both_hangers),
    ("AUD-381", "hangers lie off joints of plies, or it is told", hangers_are_off_joints_or_told),
    (
        "AUD-382",
        "no two footings overlap, or it stops the plan",
        footings_leave_each_other_their_ground,
    ),
)
