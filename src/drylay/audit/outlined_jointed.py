"""Joists that are jointed: their lengths, what backs them, how far apart and off all else."""

from collections.abc import Iterator
from itertools import combinations

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    fault,
    laying_of,
    outlines,
    shape,
    subframe_of,
)
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import stretches
from drylay.audit.outlined_lengths import JOINTED, JoistJoint, joist_joints
from drylay.audit.plane import Number, Shape, box, boxes_meet, segments_meet, size
from drylay.plan.model import Plan
from drylay.subframe.model import Member

JOINTS = outlines("Frame: joists that are jointed")
#: In 1/320 mm: how far apart joints of neighbours are, half a splice, the shortest length, how far
#: a joint is off what bears, and off where a board is screwed.
APART, HALF_SPLICE, SHORTEST, OFF, SCREW_OFF = (
    each * PER_MM for each in (600, 300, 1200, 50, 25)
)  # fmt: skip

Box = tuple[Number, Number, Number, Number]


def _frame_box(plan: Plan, corners: Shape) -> Box:
    """Return the box round a shape: across the joists from and to, along them from and to."""
    left, near, right, far = box(corners)
    if subframe_of(plan).joist_run == "across":
        return left, right, near, far
    return near, far, left, right


def joist_joints_hold(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless joints of joists are backed, apart, and off what bears and is screwed."""
    joints = joist_joints(plan)
    boxes = [(each, _frame_box(plan, shape(each.corners))) for each in subframe_of(plan).members]
    for joint in joints:
        subject = f"{joint.one.mark} and {joint.other.mark}"
        for member in (joint.one, joint.other):
            if ticks(member.length_mm) < SHORTEST - SLACK:
                message, found = "too short a length of a joist", ticks(member.length_mm)
                yield off_by(member.mark, message, found, SHORTEST, JOINTS)
        if not any(_backs(plan, each, joint) for member, each in boxes if member.kind == "splice"):
            yield fault(subject, "no splice reaches as far past their joint as it must", JOINTS)
        yield from _off_bearers(plan, subject, joint, boxes)
        yield from _off_boards(plan, subject, joint)
    for one, other in combinations(joints, 2):
        apart = abs(one.v - other.v)
        if apart < APART - SLACK and not _parted(one, other, boxes):
            message = f"their joint is too near that of {other.one.mark} and {other.other.mark}"
            yield off_by(f"{one.one.mark} and {one.other.mark}", message, apart, APART, JOINTS)


def _backs(plan: Plan, splice: Box, joint: JoistJoint) -> bool:
    """Whether a splice stands against a side of a joint, as far past it either way as it must."""
    half = Fraction(ticks(subframe_of(plan).timber_thickness_mm), 2)
    left, right, low, high = splice
    beside = min(size(left - joint.u - half), size(joint.u - half - right)) <= SLACK
    past = min(joint.v - low, high - joint.v)
    return beside and past >= HALF_SPLICE - SLACK


def _parted(one: JoistJoint, other: JoistJoint, boxes: list[tuple[Member, Box]]) -> bool:
    """Whether a third member stands between two joints, beside both of them."""
    near, far = sorted((one.u, other.u))
    return all(
        any(
            near < Fraction(left + right) / 2 - SLACK
            and Fraction(left + right) / 2 + SLACK < far
            and low <= v <= high
            for member, (left, right, low, high) in boxes
            if member.kind in JOINTED | {"rim", "trimmer"}
        )
        for v in (one.v, other.v)
    )


def _off_bearers(
    plan: Plan, subject: str, joint: JoistJoint, boxes: list[tuple[Member, Box]]
) -> Iterator[Flaw]:
    """Yield a flaw where what a joist carries, or an opening's trimmers, are near its joint."""
    thick = ticks(subframe_of(plan).timber_thickness_mm)
    trimmed: dict[str, list[Box]] = {}
    for member, each in boxes:
        if member.kind == "trimmer" and member.side:
            trimmed.setdefault(member.side, []).append(each)
        bears = {joint.one.mark, joint.other.mark} & {member.start_on, member.end_on}
        if bears and member.kind != "noggin":
            yield from _near(subject, f"what {member.mark} bears on", joint.v, each[2:], OFF)
    for mark, lot in trimmed.items():
        left, right = min(each[0] for each in lot), max(each[1] for each in lot)
        if left - 2 * thick < joint.u < right + 2 * thick:
            reach = (min(each[2] for each in lot), max(each[3] for each in lot))
            yield from _near(subject, f"the trimmers of {mark}", joint.v, reach, HALF_SPLICE)


def _near(subject: str, what: str, v: int, reach: tuple[Number, ...], most: int) -> Iterator[Flaw]:
    apart = max(reach[0] - v, v - reach[1])
    if apart < most - SLACK:
        yield off_by(subject, f"their joint is too near {what}", float(apart), most, JOINTS)


def _off_boards(plan: Plan, subject: str, joint: JoistJoint) -> Iterator[Flaw]:
    """Yield a flaw where the middle line of a board crosses a joist too near its joint."""
    ends = [(joint.u, joint.v - SCREW_OFF + SLACK), (joint.u, joint.v + SCREW_OFF - SLACK)]
    if subframe_of(plan).joist_run != "across":
        ends = [(v, u) for u, v in ends]
    runs = runs_of(plan)
    for piece in laying_of(plan).pieces:
        if piece.mark in runs and boxes_meet(shape(piece.corners), ends):
            lines = stretches(plan, piece, runs[piece.mark])
            if any(segments_meet(*line, *ends) for line in lines):
                yield fault(subject, f"{piece.mark} is screwed over their joint", JOINTS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-988", "joints of joists are backed, apart, and off what bears", joist_joints_hold),
)
