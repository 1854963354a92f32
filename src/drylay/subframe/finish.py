"""The frame told: members with their marks, what carries their ends, how many of which."""

import math
from collections.abc import Iterable, Sequence
from itertools import groupby

from attrs import evolve

from drylay.marks import exact, to_mm
from drylay.outline.model import Spot
from drylay.subframe.model import Member, Seam
from drylay.subframe.plane import (
    NEAR_MM,
    Axis,
    Corners,
    Place,
    along,
    axis_through,
    spot_of,
    spread,
)
from drylay.subframe.wants import MemberEnds, Placed, Timber

#: By no more than this the rounded corners of an end set it off square, in mm.
ROUNDED_MM = 3 / 320
#: The kinds whose ends hang on what carries them.
HUNG = ("joist", "pair", "trimmer", "double")


def finish(placed: Placed, noggins: Sequence[Timber] = ()) -> tuple[Member, ...]:
    """Return all members, numbered and marked, with what carries their ends.

    Marks: docs/outline-conventions.md, Frame.
    """
    run = placed.wants.joist_run
    timbers = [_ahead(timber, run) for timber in (*placed.timbers, *noggins)]
    marked = _marked(timbers, placed)
    members = [_member(timber, mark, run) for mark, timber in marked]
    boxes = [_box(member.corners) for member in members]
    return tuple(
        evolve(
            member,
            start_on=_carrier(number, 0, timber.ends[0], members, boxes),
            end_on=_carrier(number, 1, timber.ends[1], members, boxes),
        )
        for number, ((_, timber), member) in enumerate(zip(marked, members, strict=True))
    )


def _ahead(timber: Timber, run: str) -> Timber:
    """Return a timber with its start at the lesser distance; rims and splices run as sides do."""
    if timber.kind in {"rim", "splice"}:
        return timber
    start, end = (spot_of(place, run) for place in _middle_line(timber.corners))
    lead = end.across_mm - start.across_mm
    if lead > NEAR_MM or (lead >= -NEAR_MM and end.along_mm >= start.along_mm):
        return timber
    one, two, three, four = timber.corners
    return evolve(timber, corners=(three, four, one, two), ends=timber.ends[::-1])


def _middle_line(corners: Corners) -> tuple[Place, Place]:
    right, end_right, end_left, left = corners
    return (
        ((right[0] + left[0]) / 2, (right[1] + left[1]) / 2),
        ((end_right[0] + end_left[0]) / 2, (end_right[1] + end_left[1]) / 2),
    )


def _marked(timbers: list[Timber], placed: Placed) -> list[tuple[str, Timber]]:
    """Return timbers in the order of their marks, rims first."""
    run = placed.wants.joist_run
    found: list[tuple[str, Timber]] = []
    rims = [timber for timber in timbers if timber.kind == "rim"]
    for number, parts in _by_number(rims):
        found += _numbered(f"R{number + 1}", parts)
    joists = sorted(
        (timber for timber in timbers if timber.kind in {"joist", "pair"}),
        key=lambda timber: (timber.number, _way_down(timber, run)),
    )
    for number, parts in _by_number(joists):
        found += _numbered(f"J{number + 1}", parts)
    for kind, letter in (("trimmer", "U"), ("double", "D"), ("noggin", "N"), ("splice", "S")):
        of_kind = [timber for timber in timbers if timber.kind == kind]
        if kind != "splice":
            of_kind.sort(key=lambda timber: (timber.number, _way_down(timber, run)))
        found += [(f"{letter}{place}", timber) for place, timber in enumerate(of_kind, start=1)]
    return found


def _by_number(timbers: Iterable[Timber]) -> list[tuple[int, list[Timber]]]:
    return [(key, list(group)) for key, group in groupby(timbers, key=lambda one: one.number)]


def _numbered(mark: str, parts: list[Timber]) -> list[tuple[str, Timber]]:
    if len(parts) == 1:
        return [(mark, parts[0])]
    return [(f"{mark}.{place}", part) for place, part in enumerate(parts, start=1)]


def _way_down(timber: Timber, run: str) -> tuple[float, float]:
    """Return where a timber begins: away from the house first, then along it."""
    start = spot_of(_middle_line(timber.corners)[0], run)
    return (start.across_mm, start.along_mm)


def _member(timber: Timber, mark: str, run: str) -> Member:
    start, end = _middle_line(timber.corners)
    axis = axis_through(start, end)
    right, end_right, end_left, left = (along(axis, place) for place in timber.corners)
    width = left[1] - right[1]
    tips = max(end_right[0], end_left[0]) - min(right[0], left[0])
    return Member(
        mark=mark,
        kind=timber.kind,
        start=spot_of(start, run),
        end=spot_of(end, run),
        corners=tuple(spot_of(place, run) for place in timber.corners),
        length_mm=to_mm(exact(tips)),
        start_deg=_degrees(left[0] - right[0], width),
        end_deg=_degrees(end_left[0] - end_right[0], width),
        side=timber.side,
    )


def _degrees(lead_mm: float, width_mm: float) -> float:
    """Return what the saw is set to, off square; what rounding alone makes is none."""
    square = abs(lead_mm) < ROUNDED_MM
    return 0.0 if square else round(math.degrees(math.atan2(lead_mm, width_mm)), 4)


Box = tuple[float, float, float, float]


def _box(corners: Sequence[Spot]) -> Box:
    alongs, acrosses = zip(*((spot.along_mm, spot.across_mm) for spot in corners), strict=True)
    return (min(alongs), min(acrosses), max(alongs), max(acrosses))


def _carrier(
    number: int, end: int, how: str, members: Sequence[Member], boxes: Sequence[Box]
) -> str:
    """Return the mark of what an end stands against, "" where it is mitred, jointed or free."""
    if how in {"mitre", "joint"} or members[number].kind == "splice":
        return ""
    right, end_right, end_left, left = members[number].corners
    one, other = (right, left) if end == 0 else (end_left, end_right)
    middle = members[number].start if end == 0 else members[number].end
    only_middle = members[number].kind == "rim" and how != "splice"  # passing by is no support
    best = (True, NEAR_MM, "")
    cut = _box((one, other))
    for which, member in enumerate(members):
        if which == number or not _boxes_meet(cut, boxes[which]):
            continue
        if how == "splice" and member.kind != "splice":
            continue
        away = _way_to(middle, member.corners)
        beside = away >= NEAR_MM  # a corner of the end may touch what its middle is off
        if beside and not only_middle:
            away = _way_to_cut(one, other, member.corners)
        best = min(best, (beside, away, member.mark), key=lambda found: found[:2])
    return best[2]


def _boxes_meet(one: Box, other: Box) -> bool:
    return (
        one[0] - NEAR_MM <= other[2] and other[0] - NEAR_MM <= one[2]
        and one[1] - NEAR_MM <= other[3] and other[1] - NEAR_MM <= one[3]
    )  # fmt: skip


def _way_to_cut(one: Spot, other: Spot, corners: Sequence[Spot]) -> float:
    """Return how far a cut is from a member's top: tips from it, or its corners from the cut."""
    axis = axis_through((one.along_mm, one.across_mm), (other.along_mm, other.across_mm))
    length = math.dist((one.along_mm, one.across_mm), (other.along_mm, other.across_mm))
    local = [along(axis, (corner.along_mm, corner.across_mm)) for corner in corners]
    near = [abs(w) for s, w in local if 0.0 <= s <= length]
    return min(_way_to(one, corners), _way_to(other, corners), *near, math.inf)


def _way_to(place: Spot, corners: Sequence[Spot]) -> float:
    """Return how far a place is outside a member's top, 0 where it is on it."""
    outside = 0.0
    for here, there in zip(corners, (*corners[1:], corners[0]), strict=True):
        axis = axis_through((here.along_mm, here.across_mm), (there.along_mm, there.across_mm))
        outside = max(outside, -along(axis, (place.along_mm, place.across_mm))[1])
    return outside


def seams_of(placed: Placed, members: Sequence[Member]) -> tuple[Seam, ...]:
    """Return the seams: the stretches over which two members touch under a seam line."""
    run = placed.wants.joist_run
    found = []
    for start, end in placed.seams:
        first, last = spot_of(start, run), spot_of(end, run)
        axis = axis_through((first.along_mm, first.across_mm), (last.along_mm, last.across_mm))
        length = math.dist(axis.origin, (last.along_mm, last.across_mm))
        lefts, rights = (_against(axis, members, way) for way in (1.0, -1.0))
        for low, high, left in lefts:
            for low2, high2, right in rights:
                near, far = max(low, low2, 0.0), min(high, high2, length)
                if far - near > NEAR_MM:
                    found.append(_seam(axis, near, far, left, right))
    return tuple(found)


def _against(axis: Axis, members: Sequence[Member], way: float) -> list[tuple[float, float, str]]:
    """Return the members of which a long edge lies on an axis, on its left or right."""
    found = []
    for member in members:
        if member.kind == "splice":
            continue
        local = [along(axis, (spot.along_mm, spot.across_mm)) for spot in member.corners]
        for one, other in ((0, 1), (2, 3)):
            near = abs(local[one][1]) < NEAR_MM and abs(local[other][1]) < NEAR_MM
            if near and sum(w for _, w in local) * way > 0:
                low, high = spread((local[one][0], local[other][0]))
                found.append((low, high, member.mark))
    return sorted(found)


def _seam(axis: Axis, near_mm: float, far_mm: float, left: str, right: str) -> Seam:
    start, end = (
        (axis.origin[0] + axis.way[0] * s, axis.origin[1] + axis.way[1] * s)
        for s in (near_mm, far_mm)
    )
    return Seam(left=left, right=right, start=spot_of(start, "across"), end=spot_of(end, "across"))


def member_ends(members: Sequence[Member]) -> MemberEnds:
    """Return how many ends are fixed which way.

    `hung` are the ends of joists, trimmers and doubles, for coach screws or hangers; noggins' ends
    and rims' corners have frame screws. Two rims share a mitred corner.
    """
    ends = [
        (member.kind, on, degrees)
        for member in members
        for on, degrees in (
            (member.start_on, member.start_deg),
            (member.end_on, member.end_deg),
        )
    ]
    rims = [(on, degrees) for kind, on, degrees in ends if kind == "rim"]
    return MemberEnds(
        hung=sum(1 for kind, on, _ in ends if on and kind in HUNG),
        noggin_ends=sum(1 for kind, on, _ in ends if on and kind == "noggin"),
        rim_corners_butted=sum(1 for on, _ in rims if on and not on.startswith("S")),
        rim_corners_mitred=sum(1 for on, degrees in rims if not on and degrees) // 2,
    )
