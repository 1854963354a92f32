"""Edits of the hand-made L by the marks of its members and pieces."""

from attrs import evolve

from audit.edits import at, put
from audit.outlined_sample import spots
from audit.planting import Edit
from drylay.plan.model import Plan

CROSSED = spots((0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0))


def members_too(*more: object) -> Edit:
    """Return an edit that puts more members into the frame."""

    def run(plan: Plan) -> Plan:
        members = (*at(plan, "subframe.members"), *more)  # type: ignore[misc]
        plan = put(plan, "subframe.members", members)
        return put(plan, "subframe.member_count", len(members))

    return run


def member(mark: str, /, **more: object) -> Edit:
    """Return an edit of the member with a mark."""

    def run(plan: Plan) -> Plan:
        members = at(plan, "subframe.members")
        return put(plan, "subframe.members", tuple(
            evolve(each, **more) if each.mark == mark else each  # type: ignore[misc]
            for each in members  # type: ignore[attr-defined]
        ))  # fmt: skip

    return run


def board(mark: str, /, **more: object) -> Edit:
    """Return an edit of the piece with a mark."""

    def run(plan: Plan) -> Plan:
        pieces = at(plan, "laying.pieces")
        return put(plan, "laying.pieces", tuple(
            evolve(each, **more) if each.mark == mark else each  # type: ignore[misc]
            for each in pieces  # type: ignore[attr-defined]
        ))  # fmt: skip

    return run
