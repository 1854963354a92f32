"""What joints lie over: seams of touching joists, battens on far faces, or joists alone."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.edges import edges_of
from drylay.audit.exact import mark_of, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    off_by,
    same_count,
    same_half,
    same_length,
    same_text,
)
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.supports import offsets, paired, sections, supports_of
from drylay.pieces.model import Joint
from drylay.plan.model import Plan

SUPPORT = conventions("Joint support")
BATTENS = conventions("Frame; battens")
#: How far a batten reaches past its row, and the shortest there is: 50 mm and 100 mm.
PAST, SHORTEST = 16_000, 32_000


def seams_part_touching_joists(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each seam that does not lie between two joists that touch."""
    supports, at = supports_of(plan), offsets(plan)
    thickness = ticks(supports.joist_thickness_mm)
    known = {f"J{index + 1}": line for index, line in enumerate(at)}
    wanted = len(supports.seams) if paired(plan) else None
    if supports.seam_count != wanted or (supports.seams and not paired(plan)):
        message = f"{supports.seam_count} seams are told, wanted {wanted}"
        yield Flaw(subject="supports.seam_count", message=message, source=SUPPORT)
    for index, seam in enumerate(supports.seams):
        subject = f"supports.seams[{index}]"
        if seam.left not in known or seam.right not in known:
            yield Flaw(subject=subject, message="a seam beside no joist", source=SUPPORT)
            continue
        left, right = known[seam.left], known[seam.right]
        message = "its two joists do not touch"
        if right - left != thickness:
            yield off_by(subject, message, right - left, thickness, SUPPORT)
        message = "not midway between its two joists"
        yield from same_half(subject, message, seam.offset_mm, left + right, SUPPORT)
    ordered = [ticks(seam.offset_mm) for seam in supports.seams]
    for index, (before, after) in enumerate(pairwise(ordered), 1):
        if after <= before:
            yield off_by(f"supports.seams[{index}]", "out of order", after, before, SUPPORT)


def sections_hold_bays(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each section of too few bays for pieces and stagger to be kept there."""
    pieces = pieces_of(plan)
    least = max(pieces.least_supports - 1, pieces.stagger_bays)
    found = sections(plan) if len(supports_of(plan).seams) else []
    for near, _far, lines in found:
        if len(lines) - 1 < least:
            subject = f"section from {near / 320:g} mm"
            yield from same_count(subject, "too few bays", len(lines) - 1, least, SUPPORT)


def joints_rest_on_their_support(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint whose ends do not rest on what joints of this plan lie over."""
    supports = supports_of(plan)
    beyond = {seam.left: seam.right for seam in supports.seams}
    battens = {batten.mark: batten.joist for batten in frame_of(plan).battens}
    for joint in pieces_of(plan).joints:
        subject = f"{joint.row} at {joint.joist}"
        if paired(plan):
            wanted = beyond.get(joint.joist, "a seam's other joist")
            yield from same_text(subject, "its further end", joint.beside, wanted, SUPPORT)
        elif supports.battens_per_joint:
            found = battens.get(joint.beside, "no batten")
            message = "its further end is on a batten of another joist"
            yield from same_text(subject, message, found, joint.joist, SUPPORT)
        else:
            message = "its further end rests beside the joist"
            yield from same_text(subject, message, joint.beside, "", SUPPORT)


def overhang_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the overhang is the fascia's, and told where it is more than allowed."""
    supports, edges = supports_of(plan), edges_of(plan)
    if supports.overhang_mm is None:
        return
    near = ticks(edges.frame_start_mm)
    far = ticks(surface_of(plan).row_length_mm) - near - ticks(edges.frame_length_mm)
    message = "not what boards reach past the outer joists"
    told, subject = supports.overhang_mm, "supports.overhang_mm"
    yield from same_length(subject, message, told, max(near, far), SUPPORT)
    most = supports.overhang_most_mm
    said = {finding.code for finding in plan.findings}
    if most is not None and max(near, far) > ticks(most) and "SUP-001" not in said:
        message = "boards reach further than they may, and no finding tells it"
        yield off_by("SUP-001", message, max(near, far), ticks(most), SUPPORT)


def battens_are_needed(plan: Plan) -> bool:
    """Return whether joints of this plan lie on battens."""
    return bool(supports_of(plan).battens_per_joint) and not paired(plan)


def battens_lie_under_joints(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless battens lie just where the joints of their joists ask for them."""
    frame, wanted = frame_of(plan), _wanted_battens(plan)
    told = None if not battens_are_needed(plan) else len(frame.battens)
    if frame.batten_count != told:
        message = f"{frame.batten_count} battens are told, wanted {told}"
        yield Flaw(subject="frame.batten_count", message=message, source=BATTENS)
    message = "battens the joints ask for"
    yield from same_count("frame.battens", message, len(frame.battens), len(wanted), BATTENS)
    thickness = ticks(frame.timber_thickness_mm)
    centres = {joist.mark: ticks(joist.offset_mm) for joist in frame.joists}
    pairs = zip(frame.battens, wanted, strict=False)
    for index, (batten, (joist, near, far)) in enumerate(pairs, 1):
        yield from same_text(batten.mark, "wrong mark", batten.mark, f"Q{index}", BATTENS)
        yield from same_text(batten.mark, "on another joist", batten.joist, joist, BATTENS)
        across = centres.get(batten.joist, 0) + thickness
        message = "not against its joist's far face"
        yield from same_length(batten.mark, message, batten.offset_mm, across, BATTENS)
        message = "does not begin where its rows ask for it"
        yield from same_length(batten.mark, message, batten.near_mm, near, BATTENS)
        message = "not as long as its rows ask for"
        yield from same_length(batten.mark, message, batten.length_mm, far - near, BATTENS)


def _wanted_battens(plan: Plan) -> list[tuple[str, int, int]]:
    """Return joist and both ends of every batten that the joints ask for, in order."""
    if not battens_are_needed(plan):
        return []
    joints = pieces_of(plan).joints
    found: list[tuple[str, int, int]] = []
    for joist in frame_of(plan).joists:
        ends = sorted(_ends(plan, joint) for joint in joints if joint.joist == joist.mark)
        merged: list[tuple[str, int, int]] = []
        for near, far in ends:
            if merged and near <= merged[-1][2]:
                merged[-1] = (joist.mark, merged[-1][1], max(far, merged[-1][2]))
            else:
                merged.append((joist.mark, near, far))
        found += merged
    return found


def _ends(plan: Plan, joint: Joint) -> tuple[int, int]:
    """Return from where to where a joint asks for a batten."""
    edges, mark, rims = edges_of(plan), mark_of(plan), frame_of(plan).rims
    row = next((each for each in surface_of(plan).rows if each.mark == joint.row), None)
    begins = ticks(need(row, f"row {joint.row}").near_mm)
    ends = begins + ticks(need(row, "row").width_mm)
    thickness = ticks(frame_of(plan).timber_thickness_mm)
    hung = plan.fixings is not None and plan.fixings.hangers is not None
    off = thickness * (2 if hung or any(len(rim.pieces) > 1 for rim in rims) else 1)
    low = ticks(edges.frame_near_mm) + off
    high = ticks(edges.frame_near_mm) + ticks(edges.frame_depth_mm) - off
    near = max((begins - PAST) // mark * mark, low)
    far = min(-(-(ends + PAST) // mark) * mark, high)
    if far - near >= SHORTEST:
        return near, far
    return (near, near + SHORTEST) if begins + ends < low + high else (far - SHORTEST, far)


def noggins_clear_of_battens(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each noggin that a batten of its bay runs into."""
    frame = frame_of(plan)
    thickness = ticks(frame.timber_thickness_mm)
    for noggin in frame.noggins:
        middle = 2 * ticks(noggin.across_mm)
        for batten in frame.battens:
            near = 2 * ticks(batten.near_mm)
            far = near + 2 * ticks(batten.length_mm)
            if batten.joist == noggin.left and near - thickness + 1 < middle < far + thickness - 1:
                message = f"{batten.mark} is in its way"
                yield off_by(noggin.mark, message, middle / 2, near / 2, BATTENS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-307", "every seam lies between two joists that touch", seams_part_touching_joists),
    ("AUD-308", "sections between seams hold bays enough", sections_hold_bays),
    ("AUD-309", "the overhang is told, and cautioned where it is too much", overhang_is_told),
    ("AUD-416", "both ends at a joint rest on what joints lie over", joints_rest_on_their_support),
    ("AUD-515", "battens lie under just the joints there are", battens_lie_under_joints),
    ("AUD-516", "noggins are clear of battens", noggins_clear_of_battens),
)
