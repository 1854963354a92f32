"""What stands round openings, between joists, under seams and behind joints of rims."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from drylay.audit.exact import Fraction, ticks
from drylay.audit.flaws import off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    all_holes,
    cover,
    fault,
    outline_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_bearing import along
from drylay.audit.outlined_frame import both_of
from drylay.audit.outlined_lengths import JOINTED
from drylay.audit.outlined_pieces import round_about
from drylay.audit.outlined_seams import stretches_under
from drylay.audit.plane import (
    UNIT,
    Place,
    Run,
    Shape,
    box,
    boxes_meet,
    run_of,
    sides_of,
    size,
    squared_to_edge,
)
from drylay.audit.sweep import trapezia, twice_area_of
from drylay.outline.model import Opening
from drylay.plan.model import Plan
from drylay.subframe.model import Member

TRIMMED = outlines("Frame: trimmers round openings")
NOGGINS = outlines("Frame: noggins")
SEAMS = outlines("Frame: pairs and seams")
SPLICES = outlines("Frame: splices")


def openings_are_trimmed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless members stand all round each opening, and none in it but ledges."""
    subframe = subframe_of(plan)
    told = [(member, shape(member.corners)) for member in subframe.members]
    reach = ticks(subframe.end_support_most_mm)
    # of a hole that lies askew a trimmer ends on the ledges at either end of its side
    short = ticks(subframe.timber_thickness_mm)
    for opening in outline_of(plan).openings:
        hole = shape(opening.corners)
        for member, corners in told:
            if boxes_meet(corners, hole) and not _is_ledge(member, opening):
                _, low, _, high = box(hole)
                both = twice_area_of(trapezia((corners, hole), both_of, low, high))
                if both > 2 * SLACK * round_about(hole):
                    yield fault(opening.mark, f"{member.mark} stands in it", TRIMMED)
        for corner, whole in _box_sides(hole):
            own, side = _own_sides(hole, corner), _within_rims(told, whole)
            lacks = 0 if side == whole else short  # what ends on a slanted rim ends before it
            if not _is_stood_along(told, side, reach, lacks) and not (
                own and all(_is_stood_along(told, each, reach, short) for each in own)
            ):
                yield fault(opening.mark, "no trimmer or joist stands along a side of it", TRIMMED)


def _box_sides(hole: Shape) -> Iterator[tuple[list[Place], tuple[Place, Place]]]:
    """Yield each side of the box about a hole, with the hole's corners on it."""
    left, near, right, far = box(hole)
    corners = ((left, near), (right, near), (right, far), (left, far))
    for number, side in enumerate(sides_of(corners)):
        at, level = (1, 0, 1, 0)[number], (near, right, far, left)[number]
        yield [each for each in hole if size(each[at] - level) <= SLACK], side


def _within_rims(
    told: Sequence[tuple[Member, Shape]], side: tuple[Place, Place]
) -> tuple[Place, Place]:
    """Return what of a side lies within the rims, where an end of it lies in one."""
    first, last = Fraction(0), Fraction(1)
    for member, corners in told:
        for start, end in stretches_under(*side, corners) if member.kind == "rim" else ():
            first = max(first, end) if start <= 0 else first
            last = min(last, start) if end >= 1 else last
    (u, v), (w, x) = side
    if first >= last:
        return side
    return (
        (u + (w - u) * first, v + (x - v) * first) if first > 0 else (u, v),
        (u + (w - u) * last, v + (x - v) * last) if last < 1 else (w, x),
    )


def _own_sides(hole: Shape, corners: list[Place]) -> list[tuple[Place, Place]]:
    """Return the two sides that meet at the one corner of a hole that lies askew; else none."""
    if len(corners) != 1:
        return []
    return [side for side in sides_of(hole) if corners[0] in side]


def _is_stood_along(
    told: Sequence[tuple[Member, Shape]], side: tuple[Place, Place], reach: int, short: int = 0
) -> bool:
    """Whether a member that is no noggin stands outside a side and near, along all but its ends."""
    (u, v), (w, x) = side
    middle = ((u + w) // 2, (v + x) // 2)
    return any(
        _beside(corners, side, reach, short) for member, corners in told
        if member.kind != "noggin" and _near(middle, corners, reach)
    )  # fmt: skip


def _is_ledge(member: Member, opening: Opening) -> bool:
    """Whether a member may stand in a hole: its own trimmers in a hatch's, see AUD-757, AUD-800."""
    own = member.kind == "trimmer" and member.side == opening.mark
    return own and opening.kind == "hatch"


def _near(at: Place, corners: tuple[Place, ...], reach: int) -> bool:
    return squared_to_edge(at, corners) <= reach**2


def _beside(corners: Shape, side: tuple[Place, Place], reach: int, short: int) -> bool:
    """Whether a member runs along all of a side of a hole but its ends, outside it and near."""
    run = run_of(*side)
    if run is None:
        return False
    told = run.all_told(corners)
    (start, level), (end, _) = run.told(side[0]), run.told(side[1])
    left, _, right, high = box(told)
    # a hole's shape runs with its inside to the left of each side
    off = Fraction(level - high) / UNIT
    slack = (SLACK + short) * UNIT
    return -SLACK <= off <= reach and left <= start + slack and right >= end - slack


def laden_trimmers_are_doubled(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a trimmer that carries more than one cut joist and is not doubled."""
    members = {member.mark: member for member in subframe_of(plan).members}
    for trimmer in members.values():
        if trimmer.kind != "trimmer":
            continue
        lot = [trimmer, *_doubles(members, trimmer)]
        marks = {member.mark for member in lot}
        tails = [
            joist for joist in members.values()
            if joist.kind in {"joist", "pair"} and marks & {joist.start_on, joist.end_on}
        ]  # fmt: skip
        if len(tails) < 2:
            continue
        if len(lot) < 2:
            yield fault(trimmer.mark, "it carries cut joists, and is not doubled", TRIMMED)
        for mark in (trimmer.start_on, trimmer.end_on):
            carrier = members.get(mark)
            if carrier is not None and carrier.kind == "joist" and not _doubles(members, carrier):
                message = f"it carries the doubled {trimmer.mark}, and is not doubled"
                yield fault(carrier.mark, message, TRIMMED)


def _doubles(members: dict[str, Member], member: Member) -> list[Member]:
    """Return the members that double another: they stand face to face with it."""
    return [
        other for other in members.values()
        if other.kind in {"double", "pair"} and other.mark != member.mark and touch(member, other)
    ]  # fmt: skip


def touch(one: Member, other: Member) -> bool:
    """Return whether two members run the same way and touch along their faces.

    They are measured along the longer: the ends of a short one, rounded, would turn it too far.
    """
    one, other = sorted((one, other), key=lambda each: -each.length_mm)
    run = run_of(place(one.start), place(one.end))
    way = run_of(place(other.start), place(other.end))
    if run is None or way is None or abs(run.cos * way.sin - run.sin * way.cos) > UNIT**2 // 1000:
        return False
    a, b = box(run.all_told(shape(one.corners))), box(run.all_told(shape(other.corners)))
    slack = SLACK * UNIT
    face_to_face = min(size(a[3] - b[1]), size(b[3] - a[1])) <= slack
    return face_to_face and min(a[2], b[2]) - max(a[0], b[0]) > slack


def noggins_are_close_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bay whose joists nothing ties together for further than may be."""
    subframe = subframe_of(plan)
    across = subframe.joist_run == "across"
    run = Run(cos=0, sin=UNIT) if across else Run(cos=UNIT, sin=0)
    corners = run.all_told(cover(plan))
    free = [run.all_told(hole) for hole in all_holes(plan)]
    told = [(member, run.all_told(shape(member.corners))) for member in subframe.members]
    lines = [ticks(line) for line in subframe.lines_mm]
    most = ticks(subframe.noggin_spacing_most_mm)
    marks = {member.mark: shape_of for member, shape_of in told if member.kind == "splice"}
    for index, (one, other) in enumerate(pairwise(lines), 1):
        if other - one <= 2 * ticks(subframe.timber_thickness_mm):
            continue  # a pair, or too little between the two for a noggin
        level = Fraction(one + other, 2) * UNIT * (-1 if across else 1)
        # what stands across the joists, and how far this bay is open
        ties = sorted(each for m, shape_of in told if m.kind != "splice"
                      for each in (*along(shape_of, level), *_on_splice(m, shape_of, level, marks))
                      )  # fmt: skip
        gone = [each for hole in free for each in along(hole, level)]
        for start, end in along(corners, level):
            inner = [each for each in ties if each[1] >= start and each[0] <= end]
            for before, after in pairwise(inner):
                open_mm = after[0] - before[1]
                hole = any(a < after[0] and b > before[1] for a, b in gone)
                if open_mm > most + SLACK and not hole:
                    message = "nothing ties the joists of this bay together for so far"
                    yield off_by(f"bay {index}", message, float(open_mm), most, NOGGINS)


def _on_splice(
    member: Member, told: Shape, level: Fraction, splices: dict[str, Shape]
) -> Iterator[tuple[Fraction, Fraction]]:
    """Yield from where to where a noggin ties a bay whose middle the splice it ends at fills."""
    for mark in {member.start_on, member.end_on} & set(splices):
        _, low, _, high = box(splices[mark])
        if member.kind == "noggin" and low <= level <= high:
            left, _, right, _ = box(told)
            yield Fraction(left) / UNIT, Fraction(right) / UNIT


def seams_lie_between(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless seams are counted, each where the two members it names touch."""
    subframe = subframe_of(plan)
    members = {member.mark: member for member in subframe.members}
    message = "not the seams there are"
    found, wanted = subframe.seam_count, len(subframe.seams)
    yield from same_count("subframe.seam_count", message, found, wanted, SEAMS)
    for index, seam in enumerate(subframe.seams):
        subject = f"subframe.seams[{index}]"
        if seam.left not in members or seam.right not in members:
            yield fault(subject, f"no members are {seam.left!r} and {seam.right!r}", SEAMS)
            continue
        left, right = members[seam.left], members[seam.right]
        for each in (left, right):
            for end in (place(seam.start), place(seam.end)):
                if squared_to_edge(end, shape(each.corners)) > SLACK**2:
                    yield fault(subject, f"it does not lie on a face of {each.mark}", SEAMS)
                    break
        if not touch(left, right):
            yield fault(subject, f"{left.mark} and {right.mark} do not touch", SEAMS)


def rim_joints_are_backed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint of a rim that no splice backs, and a splice of none."""
    members = subframe_of(plan).members
    rims = [member for member in members if member.kind == "rim"]
    splices = [member for member in members if member.kind == "splice"]
    joists = [member for member in members if member.kind in JOINTED]
    for rim in rims:
        for other in rims:
            if rim.side != other.side or rim.mark == other.mark:
                continue
            if _square(place(rim.end), place(other.start)) > (2 * SLACK) ** 2:
                continue
            backed = [each for each in splices if touch(rim, each) and touch(other, each)]
            if not backed:
                yield fault(rim.mark, f"no splice backs its joint with {other.mark}", SPLICES)
    for splice in splices:
        over = sum(touch(splice, each) for each in (*rims, *joists))
        if over < 2:
            yield fault(splice.mark, "it does not reach over a joint", SPLICES)


def _square(one: tuple[int, int], other: tuple[int, int]) -> int:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    (
        "AUD-798",
        "members stand all round openings, and none in one but ledges",
        openings_are_trimmed,
    ),
    ("AUD-799", "trimmers that carry cut joists are doubled", laden_trimmers_are_doubled),
    ("AUD-930", "noggins tie the joists of every bay", noggins_are_close_enough),
    ("AUD-931", "seams lie where two members touch", seams_lie_between),
    ("AUD-932", "joints of rims are backed by splices", rim_joints_are_backed),
)
