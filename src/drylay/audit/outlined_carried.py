"""Where a board on an outline is carried: what its middle line crosses, or lies along."""

from fractions import Fraction
from itertools import pairwise

from drylay.audit.exact import ticks
from drylay.audit.outlined import place, shape, subframe_of
from drylay.audit.outlined_bearing import along
from drylay.audit.outlined_strips import strips_of
from drylay.audit.plane import UNIT, Place, Run, box, clipped, run_of, segments_meet
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan
from drylay.subframe.model import Member

#: What boards are screwed to wherever they cross it.
CARRY = {"rim", "joist", "pair", "trimmer", "double"}


def carries(member: Member) -> bool:
    """Whether a member carries boards: of noggins only those that are named for a zone."""
    return member.kind in CARRY or (member.kind == "noggin" and member.side != "")


def stretches(plan: Plan, piece: LaidPiece, run: Run) -> list[tuple[Place, Place]]:
    """Return the middle line of a board: its row's, where it lies on the board."""
    told = run.all_told(shape(piece.corners))
    start, low, end, high = box(told)
    if piece.kind in {"border", "breaker"}:
        middle = Fraction(low + high) / 2
        return [(run.place((start, middle)), run.place((end, middle)))]
    levels = [strip.middle for strip in strips_of(plan, piece.row)]
    level = levels[0] if levels else Fraction(low + high) / 2
    return [
        (run.place((a * UNIT, level)), run.place((b * UNIT, level))) for a, b in along(told, level)
    ]


def carried_at(plan: Plan, piece: LaidPiece, run: Run) -> tuple[int, list[Fraction]]:
    """Return at how many places a board is carried, and where members cross it, if these do."""
    subframe = subframe_of(plan)
    members = [member for member in subframe.members if carries(member)]
    found = crossed_at(plan, piece, run, [_centre(member, 0) for member in members])
    if not _closely(plan, piece, run, found):
        on = Fraction(3 * ticks(subframe.timber_thickness_mm), 2)
        drawn = [_centre(member, 0 if member.kind == "rim" else on) for member in members]
        found = crossed_at(plan, piece, run, drawn)
        left, right = tips(run, piece)
        if not _closely(plan, piece, run, found) and any(
            lies_along(piece, run, member) for member in members
        ):
            between = right - left - ticks(subframe.timber_thickness_mm)
            return -int(-between // ticks(subframe.most_centres_mm)) + 1, []
    return len(found), found


def tips(run: Run, piece: LaidPiece) -> tuple[Fraction, Fraction]:
    """Return where along its run a board begins and ends."""
    left, _, right, _ = box(run.all_told(shape(piece.corners)))
    return Fraction(left) / UNIT, Fraction(right) / UNIT


def _centre(member: Member, on: Fraction | int) -> tuple[Place, Place]:
    """Return a member's middle line, its carried ends drawn on by so much."""
    start, end = place(member.start), place(member.end)
    run = run_of(start, end)
    if run is None or not on:
        return start, end
    (u, v), (w, x) = run.told(start), run.told(end)
    first = u - (on * UNIT if member.start_on else 0)
    last = w + (on * UNIT if member.end_on else 0)
    return run.place((first, v)), run.place((last, x))


def crossed_at(
    plan: Plan, piece: LaidPiece, run: Run, lines: list[tuple[Place, Place]]
) -> list[Fraction]:
    """Return where along a board its middle line crosses others, in order."""
    found = []
    for start, end in stretches(plan, piece, run):
        level = run.told(start)[1]
        for one, other in lines:
            if segments_meet(start, end, one, other):
                (u, v), (w, x) = run.told(one), run.told(other)
                share = Fraction(level - v) / (x - v) if x != v else Fraction(0)
                found.append((u + (w - u) * share) / UNIT)
    return sorted(found)


def _closely(plan: Plan, piece: LaidPiece, run: Run, found: list[Fraction]) -> bool:
    """Whether a board is crossed by two or more, none of them far from the next, or from a tip."""
    most = 2 * ticks(subframe_of(plan).most_centres_mm)
    left, right = tips(run, piece)
    at = [left, *found, right]
    return len(found) >= 2 and all(other - one <= most for one, other in pairwise(at))


def lies_along(piece: LaidPiece, run: Run, member: Member) -> bool:
    """Whether a member's middle line lies inside a board's edges over more than half of it."""
    _, low, _, high = box(run.all_told(shape(piece.corners)))
    (a, b), (c, d) = run.told(place(member.start)), run.told(place(member.end))
    part = clipped(((a, b), (c, d)), (0, low), (UNIT, low))
    part = clipped(part, (UNIT, high), (0, high)) if part else ()
    if len(part) < 2:
        return False
    left, _, right, _ = box(run.all_told(shape(piece.corners)))
    start, end = min(u for u, _ in part), max(u for u, _ in part)
    inner = min(end, right) - max(start, left)
    return 2 * inner > right - left
