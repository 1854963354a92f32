"""The frame under an outline: members as they stand, on their lines, inside the frame's face."""

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, degrees, radians, sin

from drylay.audit.exact import PER_MM, Fraction, mark_of, ticks
from drylay.audit.flaws import need, off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    cover,
    fault,
    laying_of,
    outline_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_lengths import jointed_ends
from drylay.audit.outlined_lines import has_room
from drylay.audit.outlined_pieces import round_about
from drylay.audit.plane import (
    UNIT,
    Number,
    Place,
    box,
    boxes_meet,
    inside,
    is_simple,
    root,
    run_of,
    size,
    squared_reach,
    squared_to_edge,
    twice_area,
)
from drylay.audit.sweep import trapezia, twice_area_of
from drylay.plan.model import Plan
from drylay.subframe.model import MEMBER_KINDS, Member

MEMBERS = outlines("Frame: members")
FACE = outlines("Frame: the frame's face stands back from each side")
LINES = outlines("Frame: joist lines")
ANGLE = outlines("Frame: most_centres_mm")
CARRIED = outlines("Frame: start_on and end_on")


def members_are_shapes(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless members are counted, of known kinds, and each mark is one's own."""
    subframe = subframe_of(plan)
    members = need(subframe.members or None, "members")
    message = "not the members there are"
    found, wanted = subframe.member_count, len(members)
    yield from same_count("subframe.member_count", message, found, wanted, MEMBERS)
    marks = [member.mark for member in members]
    for mark in sorted({mark for mark in marks if marks.count(mark) > 1}):
        yield from same_count(mark, "members with this mark", marks.count(mark), 1, MEMBERS)
    for member in members:
        corners = shape(member.corners)
        if len(corners) != 4 or not is_simple(corners) or twice_area(corners) <= 0:
            yield fault(member.mark, "its corners are not the four of its top", MEMBERS)
        if member.kind not in MEMBER_KINDS:
            yield fault(member.mark, f"no kind of member is {member.kind!r}", MEMBERS)


def members_are_their_corners(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless centre line, length and saw settings are those of the corners."""
    subframe = subframe_of(plan)
    thick = ticks(subframe.timber_thickness_mm)
    for member in subframe.members:
        start, end, corners = place(member.start), place(member.end), shape(member.corners)
        run = run_of(start, end)
        if run is None or len(corners) != 4:
            yield fault(member.mark, "it begins where it ends", MEMBERS)
            continue
        middle, told = run.told(start)[1], run.all_told(corners)
        right = sorted(u for u, v in told if v < middle)
        left = sorted(u for u, v in told if v > middle)
        if len(right) != 2 or len(left) != 2:
            yield fault(member.mark, "its centre line is not in the middle of it", MEMBERS)
            continue
        for _, v in told:
            off = float(size(size(v - middle) / Fraction(UNIT) - Fraction(thick, 2)))
            if off > SLACK:
                message = "its faces are not half a timber off its centre line"
                yield off_by(member.mark, message, off, 0, MEMBERS)
        ends = ((left[0] + right[0]) / Fraction(2), (left[1] + right[1]) / Fraction(2))
        for wanted, found in zip(ends, (run.told(start)[0], run.told(end)[0]), strict=True):
            off = float(size(wanted - found)) / UNIT
            if off > SLACK:
                message = "its centre line does not end in the middle of its end"
                yield off_by(member.mark, message, off, 0, MEMBERS)
        long = float(max(left[1], right[1]) - min(left[0], right[0])) / UNIT
        if abs(ticks(member.length_mm) - long) > LONG_OFF:
            message = "not as long as from tip to tip"
            yield off_by(member.mark, message, ticks(member.length_mm), long, MEMBERS)
        yield from _settings(member, (float(left[0] - right[0]), float(left[1] - right[1])), thick)


def _settings(member: Member, skews: tuple[float, float], thick: int) -> Iterator[Flaw]:
    """Yield a flaw unless the saw is set to the ends of a member as they lie."""
    # either corner of an end may be off by 1/320 mm
    slack = 0.01 + degrees(atan2(SLACK, thick))
    for name, told, skew in zip(
        ("start_deg", "end_deg"), (member.start_deg, member.end_deg), skews, strict=True
    ):
        wanted = degrees(atan2(skew / UNIT, thick))
        if abs(told - wanted) > slack:
            yield Flaw(
                subject=member.mark, message=f"{name} is not what the saw is set to",
                measured=told, limit=wanted, unit="degrees", source=MEMBERS,
            )  # fmt: skip


def members_stand_inside(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a member that reaches out of the outline or over the frame's face."""
    corners = cover(plan)
    sides = outline_of(plan).sides
    for member in subframe_of(plan).members:
        told = shape(member.corners)
        for corner in told:
            if inside(corner, corners) < 0 and squared_to_edge(corner, corners) > SLACK**2:
                yield fault(member.mark, "it reaches out of the outline", FACE)
                break
        for side in sides:
            start, end = place(side.start), place(side.end)
            back = ticks(side.facing_mm)
            if back and boxes_meet(told, (start, end), back):
                way = min(float(root(squared_reach(corner, start, end))) for corner in told)
                if way < back - SLACK:
                    message = f"it stands in the fascia of {side.mark}"
                    yield off_by(member.mark, message, way, back, FACE)


def rims_line_the_sides(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless rims stand along every side, outer faces on the frame's face."""
    thick = ticks(subframe_of(plan).timber_thickness_mm)
    for side in outline_of(plan).sides:
        start, end, back = place(side.start), place(side.end), ticks(side.facing_mm)
        run = run_of(start, end)
        if run is None:
            continue
        lined: list[tuple[Fraction, Fraction]] = []
        for member in subframe_of(plan).members:
            told = run.all_told(shape(member.corners))
            low = Fraction(min(v for _, v in told) - run.told(start)[1]) / UNIT
            high = Fraction(max(v for _, v in told) - run.told(start)[1]) / UNIT
            if size(low - back) <= SLACK and size(high - back - thick) <= SLACK:
                if member.kind not in {"rim", "joist", "double", "pair"}:
                    continue
                us = [Fraction(u) / UNIT for u, _ in told]
                lined.append((min(us), max(us)))
        yield from _covered(side.mark, lined, (run.told(start)[0], run.told(end)[0]), thick + back)


def _covered(
    mark: str, lined: list[tuple[Fraction, Fraction]], ends: tuple[Number, Number], reach: int
) -> Iterator[Flaw]:
    """Yield a flaw where no member lines a side: but near its ends, where others run through."""
    first, last = (Fraction(end) / UNIT for end in ends)
    # at a sharp corner the frame's face and its mitre stand back further than the timber is thick
    at, stop = first + 3 * reach, last - 3 * reach
    for start, end in sorted(lined):
        if start > at + SLACK:
            break
        at = max(at, end)
    if at < stop - SLACK:
        message = "no rim stands along it from here on"
        yield off_by(mark, message, float(at - first), float(stop - first), FACE)


def members_do_not_overlap(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where two members stand in the same place."""
    told = [(member, shape(member.corners)) for member in subframe_of(plan).members]
    told.sort(key=lambda each: box(each[1])[0])
    boxes = [box(corners) for _, corners in told]
    for index, (one, corners) in enumerate(told):
        for later in range(index + 1, len(told)):
            if boxes[later][0] >= boxes[index][2]:
                break
            other, others = told[later]
            if boxes_meet(corners, others, -SLACK):
                low, high = (
                    max(boxes[index][1], boxes[later][1]),
                    min(boxes[index][3], boxes[later][3]),
                )
                both = twice_area_of(trapezia((corners, others), both_of, low, high))
                if both > 2 * SLACK * min(round_about(corners), round_about(others)):
                    yield Flaw(
                        subject=f"{one.mark} and {other.mark}", message="they overlap",
                        measured=float(both) / 2 / PER_MM**2, limit=0.0, unit="mm2",
                        source=MEMBERS,
                    )  # fmt: skip


def both_of(into: frozenset[int]) -> bool:
    """Return whether a stretch lies in both of two shapes."""
    return len(into) == 2


def ends_are_carried(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a member's ends touch what they name, and bearers carry both ends."""
    members = {member.mark: member for member in subframe_of(plan).members}
    at_joints = jointed_ends(plan)
    for member in members.values():
        for name, mark in (("start", member.start_on), ("end", member.end_on)):
            if not mark:
                needs_one = member.kind in {"joist", "pair", "noggin", "trimmer", "double"}
                if needs_one and (member.mark, name) not in at_joints:
                    yield fault(member.mark, f"nothing carries its {name}", CARRIED)
                continue
            if mark not in members:
                yield fault(member.mark, f"no member is {mark!r}", CARRIED)
                continue
            carrier = shape(members[mark].corners)
            # half of an end at least bears: its middle is on a face of what carries it
            far = squared_to_edge(place(member.start if name == "start" else member.end), carrier)
            if member.kind == "rim":
                # one that goes through names what butts against it, or what backs its joint
                far = min(squared_to_edge(each, carrier) for each in _end_of(member, name))
            if far > SLACK**2:
                message = f"its {name} does not touch {mark}"
                yield off_by(member.mark, message, float(root(far)), 0, CARRIED)


def _end_of(member: Member, name: str) -> list[Place]:
    """Return the two corners of a member at one of its ends."""
    corners = shape(member.corners)
    spot = place(member.start if name == "start" else member.end)
    return sorted(corners, key=lambda each: squared_reach(each, spot, spot))[:2]


def lines_are_close_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless joist lines run in order on marks, no bay wider than it may be."""
    subframe, mark = subframe_of(plan), mark_of(plan)
    lines = [ticks(line) for line in subframe.lines_mm]
    message = "not the joist lines there are"
    found, wanted = subframe.line_count, len(lines)
    yield from same_count("subframe.line_count", message, found, wanted, LINES)
    most = ticks(subframe.most_centres_mm)
    widest = 0
    for index, (one, other) in enumerate(pairwise(lines), 1):
        subject = f"lines {index} and {index + 1}"
        widest = max(widest, other - one)
        if other - one > most:
            yield off_by(subject, "further apart than lines may be", other - one, most, LINES)
        if other <= one:
            yield off_by(subject, "not in order", other, one, LINES)
    fixed = _fixed_lines(plan)
    for index, line in enumerate(lines[1:-1], 2):
        if line % mark and not near_to(fixed, line) and not _lies_evenly(plan, lines, fixed, line):
            yield off_by(f"line {index}", "on no pencil mark", line, line // mark * mark, LINES)
    if widest != ticks(subframe.centres_mm):
        message = "not the widest bay"
        yield off_by("subframe.centres_mm", message, ticks(subframe.centres_mm), widest, LINES)


def _lies_evenly(plan: Plan, lines: list[int], fixed: list[int], line: int) -> bool:
    """Whether a line is one of even ones between two that are fixed, so wide that no mark will do.

    On the marks nearest to even places no bay is more than a mark wider.
    """
    must = [each for each in lines if near_to(fixed, each) or each in {lines[0], lines[-1]}]
    low = max(each for each in must if each < line)
    high = min(each for each in must if each > line)
    bays = sum(low < each <= high for each in lines)
    number = sum(low < each <= line for each in lines)
    even = abs((line - low) * bays - (high - low) * number) <= bays
    most = ticks(subframe_of(plan).most_centres_mm)
    return even and (high - low) + mark_of(plan) * bays > most * bays


def _fixed_lines(plan: Plan) -> list[int]:
    """Return where lines stand that no mark decides: under rims, and beside seams."""
    subframe = subframe_of(plan)
    axis = 0 if subframe.joist_run == "across" else 1
    paired = {mark for seam in subframe.seams for mark in (seam.left, seam.right)}
    return [
        place(member.start)[axis]
        for member in subframe.members
        if member.kind in {"rim", "pair"} or member.mark in paired
    ]


def joists_stand_on_lines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless joists stand on joist lines, and every line that has room has one."""
    subframe = subframe_of(plan)
    axis = 0 if subframe.joist_run == "across" else 1
    lines = [ticks(line) for line in subframe.lines_mm]
    used: set[int] = set()
    for member in subframe.members:
        at, other = place(member.start)[axis], place(member.end)[axis]
        if member.kind == "joist" and (abs(at - other) > OFF_LINE or at not in near_to(lines, at)):
            yield fault(member.mark, "it does not stand on a joist line", LINES)
        if abs(at - other) <= OFF_LINE:
            used |= near_to(lines, at)
    for index, line in enumerate(lines, 1):
        if line not in used and has_room(plan, line):
            yield fault(f"line {index}", "nothing stands on this joist line", LINES)
    if subframe.joist_run not in {"across", "along"}:
        yield fault("subframe.joist_run", f"joists do not run {subframe.joist_run!r}", LINES)


#: How far a joist's centre may be off its line, in 1/320 mm.
OFF_LINE = 1


def near_to(lines: list[int], at: int) -> set[int]:
    """Return the lines that a place stands on, and the place itself where there is one."""
    found = {line for line in lines if abs(line - at) <= OFF_LINE}
    return found | ({at} if found else set())


#: Boards nearer to the joists' way than this are carried by noggins across it.
RUNG_DEG = 30.0


def angle_rule(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless centres suit boards at the angle that they lie at."""
    subframe, laying = subframe_of(plan), laying_of(plan)
    joists = 90.0 if subframe.joist_run == "across" else 0.0
    apart = [between(zone.angle_deg, joists) for zone in laying.zones]
    angles = [90.0 - each if each < RUNG_DEG else each for each in apart]
    least = min(angles, default=90.0)
    if abs(subframe.board_to_joist_deg - least) > 0.01:
        yield Flaw(
            subject="subframe.board_to_joist_deg", message="not the least angle to the joists",
            measured=subframe.board_to_joist_deg, limit=least, unit="degrees", source=ANGLE,
        )  # fmt: skip
    most = ticks(subframe.square_centres_mm) * sin(radians(least))
    if ticks(subframe.most_centres_mm) > most + LONG_OFF:
        message = "more than boards at this angle let it be"
        found = ticks(subframe.most_centres_mm)
        yield off_by("subframe.most_centres_mm", message, found, most, ANGLE)


def between(one_deg: float, other_deg: float) -> float:
    """Return the angle between two directions, up to 90 degrees."""
    apart = abs(one_deg - other_deg) % 180
    return min(apart, 180 - apart)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-787", "members are shapes of known kinds, marked and counted", members_are_shapes),
    ("AUD-788", "members' lines, lengths and ends are their corners'", members_are_their_corners),
    ("AUD-789", "members stand inside the frame's face", members_stand_inside),
    ("AUD-790", "rims stand along every side", rims_line_the_sides),
    ("AUD-791", "no two members overlap", members_do_not_overlap),
    ("AUD-792", "members touch what carries their ends", ends_are_carried),
    ("AUD-793", "joist lines of an outline are in order and close enough", lines_are_close_enough),
    ("AUD-794", "joists stand on joist lines, and every line is used", joists_stand_on_lines),
    ("AUD-795", "joist centres suit the angle of the boards", angle_rule),
)
