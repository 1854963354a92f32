"""Joints on an outline: on members, apart from row to row, with pieces that bear and hold."""

from collections.abc import Iterator
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, mark_of, mm, ticks
from drylay.audit.flaws import off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    fault,
    laying_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import drawn_on, lies_along
from drylay.audit.outlined_strips import Strip, by_row, strips_of
from drylay.audit.plane import (
    UNIT,
    Box,
    Number,
    Place,
    Run,
    box,
    lie_apart,
    outer_box,
    root,
    run_of,
    segments_meet,
    size,
    squared_reach,
    squared_to_edge,
)
from drylay.laying.model import LaidJoint, LaidPiece
from drylay.plan.model import Plan
from drylay.subframe.model import Member

JOINTS = outlines("Laying: joints")
BEARING = outlines("Laying: end bearing")
SLIVERS = outlines("Laying: LAY-002")
PRICED = outlines("Laying: joint_count")


def members_of(plan: Plan) -> dict[str, Member]:
    """Return the members of the frame by their marks."""
    return {member.mark: member for member in subframe_of(plan).members}


@frozen(kw_only=True)
class Line:
    """The boards in one line that a joint parts: their run, their edges x `UNIT`, the pieces."""

    run: Run
    low: Number
    high: Number
    pieces: tuple[LaidPiece, ...]


def line_of(plan: Plan, joint: LaidJoint) -> Line | None:
    """Return the line that a joint is in: a row's, or that of a course along one side."""
    for strip in strips_of(plan, joint.row):
        pieces = tuple(by_row(plan).get(joint.row, ()))
        return Line(run=strip.run, low=strip.low, high=strip.high, pieces=pieces)
    course = [
        piece
        for piece in laying_of(plan).pieces
        if piece.kind != "field" and course_of(piece) == joint.row
    ]
    runs, at = runs_of(plan), place(joint.at)
    # a board that lies askew has its levels far from itself, too: the nearest goes first
    for piece in sorted(course, key=lambda each: squared_to_edge(at, shape(each.corners))):
        run = runs[piece.mark]
        low, high = edges_of(run, piece)
        level = run.told(at)[1]
        if low < level < high:
            alike = [each for each in course if in_line(run, (low, high), each)]
            return Line(run=run, low=low, high=high, pieces=tuple(alike))
    return None


def course_of(piece: LaidPiece) -> str:
    """Return what joints call the boards that a piece is of: K and a course, or X."""
    return "X" if piece.kind == "breaker" else piece.mark.split(".")[0]


def edges_of(run: Run, piece: LaidPiece) -> tuple[Number, Number]:
    """Return how far to the left of a run a board's edges lie, x `UNIT`."""
    _, low, _, high = box(run.all_told(shape(piece.corners)))
    return low, high


def in_line(run: Run, edges: tuple[Number, Number], piece: LaidPiece) -> bool:
    """Whether a board lies between these two levels along a run, or they lie in it, but for a mm.

    One that is cut along is narrower than the rest of its line. No two lines of boards are so near
    one another, and corners that are rounded turn a board that lies askew by less.
    """
    low, high = edges_of(run, piece)
    off = PER_MM * UNIT
    within = edges[0] - off < low and high < edges[1] + off
    around = low - off < edges[0] and edges[1] < high + off
    return within or (around and high - low < (ticks(piece.width_mm) * UNIT + off))


def joints_lie_over_members(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a joint is on its row's middle line and its member's, or a seam."""
    members = members_of(plan)
    for index, joint in enumerate(laying_of(plan).joints):
        subject = f"laying.joints[{index}]"
        line = line_of(plan, joint)
        if line is None:
            yield fault(subject, f"no row is {joint.row!r}, or none lies there", JOINTS)
            continue
        at = place(joint.at)
        off = float(size(line.run.told(at)[1] - Fraction(line.low + line.high) / 2)) / UNIT
        if off > SLACK:
            yield off_by(subject, "not on the middle line of its row", off, 0, JOINTS)
        named = [mark for mark in (joint.member, joint.beside) if mark]
        if joint.member not in members or any(mark not in members for mark in named):
            yield fault(subject, f"no members are {named}", JOINTS)
            continue
        below = _line(plan, joint)
        aside = None if below is None else float(root(squared_reach(at, *below)))
        if aside is not None and aside <= mark_of(plan) / 2 + SLACK:
            continue
        if _either_of(plan, joint) - {joint.member}:
            continue
        if _along_its_member(plan, joint) or any(
            lies_along(piece, line.run, members[joint.member]) for piece in line.pieces
        ):
            continue
        if aside is None:
            yield fault(subject, f"no seam lies between {joint.member} and {joint.beside}", JOINTS)
        else:
            yield off_by(subject, "not on the middle line of its member, or seam", aside, 0, JOINTS)


def _line(plan: Plan, joint: LaidJoint) -> tuple[Place, Place] | None:
    """Return the line that a joint lies over: its member's middle, or its seam."""
    if not joint.beside:
        return drawn_on(plan, members_of(plan)[joint.member])
    for seam in subframe_of(plan).seams:
        if {seam.left, seam.right} == {joint.member, joint.beside}:
            return place(seam.start), place(seam.end)
    return None


def _either_of(plan: Plan, joint: LaidJoint) -> set[str]:
    """Return the lengths of a joist line that meet under a joint: any of them may be named for it.

    That is what lies under it in one line with the member named, where this comes as near to the
    joint as half a timber's thickness.
    """
    named, at = members_of(plan).get(joint.member), place(joint.at)
    line = None if named is None else run_of(place(named.start), place(named.end))
    if named is None or line is None or joint.beside:
        return set()
    if 2 * root(squared_reach(at, *drawn_on(plan, named))) > _thick(plan):
        return set()
    near = mark_of(plan) // 2 + SLACK
    level = line.told(place(named.start))[1]
    return {
        mark for mark, member in members_of(plan).items()
        if member.kind == named.kind
        and all(size(line.told(place(end))[1] - level) <= SLACK * UNIT
                for end in (member.start, member.end))
        and squared_reach(at, *drawn_on(plan, member)) <= near**2
    }  # fmt: skip


def _thick(plan: Plan) -> int:
    return ticks(subframe_of(plan).timber_thickness_mm)


def joint_line(plan: Plan, joint: LaidJoint) -> int | None:
    """Return the number of the joist line nearest a joint, None where there are no lines."""
    subframe = subframe_of(plan)
    at = place(joint.at)[0 if subframe.joist_run == "across" else 1]
    lines = [ticks(line) for line in subframe.lines_mm]
    return min(range(len(lines)), key=lambda index: abs(lines[index] - at), default=None)


def joints_keep_apart(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where joints of rows side by side are fewer joist lines apart than they may."""
    laying = laying_of(plan)
    lines: dict[str, list[int]] = {}
    for joint in laying.joints:
        line = joint_line(plan, joint)
        if line is not None:
            lines.setdefault(joint.row, []).append(line)
    zones = {row.mark: row.zone for row in laying.rows}
    marks = [row.mark for row in laying.rows]
    for one, other in pairwise(marks):
        if zones[one] != zones[other]:
            continue
        for here in lines.get(one, []):
            for there in lines.get(other, []):
                if abs(here - there) < laying.stagger_bays:
                    yield Flaw(
                        subject=f"{one} and {other}", message="their joints are too near",
                        measured=abs(here - there), limit=laying.stagger_bays, unit="count",
                        source=JOINTS,
                    )  # fmt: skip


def jointed_pieces_hold(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a piece of a jointed row that is too short or rests on too few members."""
    laying = laying_of(plan)
    least = ticks(laying.least_piece_mm)
    jointed = [piece for piece in laying.pieces if piece.from_member or piece.to_member]
    runs, lines = runs_of(plan), middle_lines(plan)
    for piece in jointed:
        if ticks(piece.length_mm) < least:
            message = "shorter than a piece may be laid"
            yield off_by(piece.mark, message, ticks(piece.length_mm), least, JOINTS)
        if piece.kind == "border" and piece.mark in runs:
            low, high = edges_of(runs[piece.mark], piece)
            wide, whole = (high - low) / UNIT, ticks(piece.width_mm)
            if wide < whole - SLACK:
                yield off_by(piece.mark, "a joint lies in its mitre", float(wide), whole, JOINTS)
        if piece.mark in runs and not _lies_along_one(plan, piece):
            count = len(supports_under(lines, runs[piece.mark], piece))
            if count < laying.least_supports:
                yield Flaw(
                    subject=piece.mark, message="it rests on too few members",
                    measured=count, limit=laying.least_supports, unit="count", source=JOINTS,
                )  # fmt: skip


def _lies_along_one(plan: Plan, piece: LaidPiece) -> bool:
    """Whether a piece is jointed along the member it lies on, which carries it all along.

    Boards of a course along other sides may be jointed across theirs.
    """
    ends = {piece.from_member, piece.to_member} - {""}
    joints = [
        joint
        for joint in laying_of(plan).joints
        if joint.row in {piece.row, course_of(piece)} and ends & {joint.member, joint.beside}
    ]
    return bool(joints) and all(_along_its_member(plan, joint) for joint in joints)


def middle_line(run: Run, piece: LaidPiece) -> tuple[Place, Place]:
    """Return the middle line of a piece, from tip to tip."""
    start, low, end, high = box(run.all_told(shape(piece.corners)))
    middle = Fraction(low + high) / 2
    return run.place((start, middle)), run.place((end, middle))


MiddleLine = tuple[Member, tuple[Place, Place], Box]


def middle_lines(plan: Plan) -> list[MiddleLine]:
    """Return the members boards rest on, their middle lines drawn on, the boxes round these."""
    members = [member for member in subframe_of(plan).members if member.kind != "splice"]
    lines = [drawn_on(plan, member) for member in members]
    return [(each, line, outer_box(line)) for each, line in zip(members, lines, strict=True)]


def supports_under(lines: list[MiddleLine], run: Run, piece: LaidPiece) -> list[Member]:
    """Return the members that the middle line of a piece crosses, or that it names."""
    own = middle_line(run, piece)
    named, whole = {piece.from_member, piece.to_member}, outer_box(own)
    return [
        member
        for member, line, around in lines
        if member.mark in named or (not lie_apart(whole, around) and segments_meet(*own, *line))
    ]


def pieces_meet_at_joints(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pieces end half a gap off each joint, on the members that it names."""
    laying = laying_of(plan)
    half = Fraction(ticks(laying.end_gap_mm), 2)
    ends = 0
    for joint in laying.joints:
        line = line_of(plan, joint)
        if line is None:
            continue
        at = Fraction(line.run.told(place(joint.at))[0]) / UNIT
        before = _ending_at(line, at - half, last=True)
        after = _ending_at(line, at + half, last=False)
        subject = f"{joint.row} at {mm(float(at)):g} mm along"
        if before is None or after is None:
            yield fault(subject, "no two pieces end half a gap off this joint", JOINTS)
            continue
        there = joint.beside or joint.member
        either = _either_of(plan, joint)
        if not ({joint.member} | either) & {before.to_member, before.from_member}:
            yield fault(before.mark, f"it does not end on {joint.member}", JOINTS)
        if not ({there} | either) & {after.from_member, after.to_member}:
            yield fault(after.mark, f"it does not begin on {there}", JOINTS)
        ends += 2
    told = sum(bool(piece.from_member) + bool(piece.to_member) for piece in laying.pieces)
    yield from same_count("laying.pieces", "ends at joints", told, ends, JOINTS)


def _ending_at(line: Line, wanted: Fraction, *, last: bool) -> LaidPiece | None:
    """Return the piece of a line that ends, or begins, at a place along it."""
    for piece in line.pieces:
        start, _, end, _ = box(line.run.all_told(shape(piece.corners)))
        if size(Fraction(end if last else start) / UNIT - wanted) <= SLACK:
            return piece
    return None


def joints_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless joints are counted, no more in a row than may be, and bear enough."""
    laying = laying_of(plan)
    message, wanted = "not the joints there are", len(laying.joints)
    yield from same_count("laying.joint_count", message, laying.joint_count, wanted, PRICED)
    most = laying.most_joints_per_row
    for row in laying.rows:
        count = sum(joint.row == row.mark for joint in laying.joints)
        if most is not None and count > most:
            yield Flaw(subject=row.mark, message="more joints than a row may have",
                       measured=count, limit=most, unit="count", source=PRICED)  # fmt: skip
    bearing, least = laying.end_bearing_mm, ticks(laying.end_bearing_least_mm)
    if bearing is None:
        if any(not _along_its_member(plan, joint) for joint in laying.joints):
            yield fault("laying.end_bearing_mm", "what ends bear on is not told", BEARING)
    else:
        subframe, told = subframe_of(plan), ticks(bearing)
        found = ticks(subframe.timber_thickness_mm) - ticks(laying.end_gap_mm)
        if abs(2 * told - found) > 1:
            message = "not what members leave a board end"
            yield off_by("laying.end_bearing_mm", message, told, found / 2, BEARING)
        if told < least:
            message = "board ends bear on too little"
            yield off_by("laying.end_bearing_mm", message, told, least, BEARING)


def _along_its_member(plan: Plan, joint: LaidJoint) -> bool:
    """Whether a joint is of boards that lie along the member it names, which carries them all."""
    line, member = line_of(plan, joint), members_of(plan).get(joint.member)
    way = None if member is None else run_of(place(member.start), place(member.end))
    if line is None or way is None:
        return False
    return size(line.run.cos * way.sin - line.run.sin * way.cos) < UNIT**2 // 1000


def handed_pieces_point_one_way(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless arrows of handed pieces point along their run, and no others have one."""
    laying = laying_of(plan)
    for piece in laying.pieces:
        if laying.handed != (piece.arrow_deg is not None):
            yield fault(piece.mark, "an arrow is there, or missing, against handed", JOINTS)
    for zone in laying.zones:
        rows = {row.mark for row in laying.rows if row.zone == zone.mark}
        arrows = {p.arrow_deg for p in laying.pieces if p.kind == "field" and p.row in rows}
        if len(arrows) > 1:
            yield fault(zone.mark, "its pieces' arrows do not point one way", JOINTS)
        for arrow in arrows - {None, zone.angle_deg, zone.angle_deg + 180}:
            yield fault(zone.mark, f"arrows point {arrow} degrees, no way of its boards", JOINTS)


def slivers_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a strip narrower than a sliver may be is left, and nothing tells it."""
    laying = laying_of(plan)
    limit = ticks(laying.sliver_limit_mm)
    told = any(finding.code == "LAY-002" for finding in plan.findings)
    for strip in strips_of(plan):
        for piece in by_row(plan).get(strip.row.mark, []):
            across = [v for _, v in strip.run.all_told(shape(piece.corners))]
            wide = float(max(across) - min(across)) / UNIT
            if wide < limit - SLACK and not told and _cut_along(strip, piece):
                message = "a sliver is left, and the plan does not tell it"
                yield off_by(piece.mark, message, wide, limit, SLIVERS)


def _cut_along(strip: Strip, piece: LaidPiece) -> bool:
    """Whether a long edge of a piece is cut along the run, off the edges of its row."""
    told = strip.run.all_told(shape(piece.corners))
    for one, other in zip(told, (*told[1:], told[0]), strict=True):
        if size(one[1] - other[1]) <= SLACK * UNIT < size(one[0] - other[0]):
            off = min(size(one[1] - strip.low), size(one[1] - strip.high))
            if off > SLACK * UNIT:
                return True
    return False


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-780", "joints on an outline lie over members or seams", joints_lie_over_members),
    ("AUD-781", "joints of rows side by side keep joist lines apart", joints_keep_apart),
    ("AUD-782", "pieces of jointed rows are long enough and held up", jointed_pieces_hold),
    ("AUD-783", "pieces meet at joints, on what these name", pieces_meet_at_joints),
    ("AUD-784", "joints on an outline are counted and bear enough", joints_are_counted),
    ("AUD-785", "handed pieces of a zone point one way", handed_pieces_point_one_way),
    ("AUD-786", "slivers cut along a row stand among the findings", slivers_are_told),
)
