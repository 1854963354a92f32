"""Edits of the hand-made L by the marks of its members and pieces."""

from math import cos, radians, sin

from attrs import evolve

from audit.edits import at, put
from audit.outlined_sample import outline, spots
from audit.planting import Edit
from drylay.outline.model import Side, Spot
from drylay.plan.model import Plan

CROSSED = spots((0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0))


def askew_sides(deg: float) -> tuple[Side, ...]:
    """Return the L's sides turned by so much about the datum corner."""
    cosine, sine = cos(radians(deg)), sin(radians(deg))

    def turned(at: Spot) -> Spot:
        x, y = at.along_mm, at.across_mm
        return Spot(along_mm=x * cosine - y * sine, across_mm=x * sine + y * cosine)

    return tuple(
        evolve(side, start=turned(side.start), end=turned(side.end)) for side in outline().sides
    )


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
