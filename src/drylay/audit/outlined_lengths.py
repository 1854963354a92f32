"""Where two lengths of a joist meet end to end."""

from attrs import frozen

from drylay.audit.outlined import DEGREES, place, subframe_of
from drylay.plan.model import Plan
from drylay.subframe.model import Member

JOINTED = {"joist", "pair", "double"}


@frozen(kw_only=True)
class JoistJoint:
    """Where two lengths of a joist meet: across the joists, along them, and the two."""

    u: int
    v: int
    one: Member
    other: Member


def joist_joints(plan: Plan) -> list[JoistJoint]:
    """Return every place where an end that nothing carries meets that of another length."""
    across = subframe_of(plan).joist_run == "across"
    starts: dict[tuple[int, int, str], Member] = {}
    members = [member for member in subframe_of(plan).members if member.kind in JOINTED]
    for member in members:
        if not member.start_on and abs(member.start_deg) < DEGREES:
            starts[*place(member.start), member.kind] = member
    found = []
    for member in members:
        other = starts.get((*place(member.end), member.kind))
        if not member.end_on and abs(member.end_deg) < DEGREES and other is not None:
            at = place(member.end)
            u, v = at if across else (at[1], at[0])
            found.append(JoistJoint(u=u, v=v, one=member, other=other))
    return found


def jointed_ends(plan: Plan) -> set[tuple[str, str]]:
    """Return the ends of members that are at a joint: their marks, and "start" or "end"."""
    joints = joist_joints(plan)
    ends = {(joint.one.mark, "end") for joint in joints}
    return ends | {(joint.other.mark, "start") for joint in joints}
