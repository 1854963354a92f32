"""Joints and pieces: joints on joists, apart from their neighbours', pieces that fill rows."""

from collections.abc import Iterator
from itertools import pairwise

from attrs import evolve

from drylay.audit.edged import border_marks
from drylay.audit.exact import ticks
from drylay.audit.flaws import (
    conventions,
    need,
    off_by,
    same_count,
    same_half,
    same_length,
    same_text,
)
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.audit.supports import offsets, paired, supports_of
from drylay.findings import Severity
from drylay.pieces.model import BorderJoints, Joint, Piece, Pieces
from drylay.plan.model import Plan

JOINTS = conventions("Joints and pieces (pieces)")


def pieces_of(plan: Plan) -> Pieces:
    """Return the plan's joints and pieces, if it has them."""
    return need(plan.pieces, "pieces")


def joints_by_row(plan: Plan) -> dict[str, list[Joint]]:
    """Return the joints of every row, in the order listed."""
    rows: dict[str, list[Joint]] = {row.mark: [] for row in surface_of(plan).rows}
    for joint in pieces_of(plan).joints:
        rows.setdefault(joint.row, []).append(joint)
    return rows


def pieces_by_row(plan: Plan) -> dict[str, list[Piece]]:
    """Return the pieces of every row, in the order listed."""
    rows: dict[str, list[Piece]] = {row.mark: [] for row in surface_of(plan).rows}
    for piece in pieces_of(plan).pieces:
        rows.setdefault(piece.row, []).append(piece)
    return rows


def stations(plan: Plan) -> dict[str, int]:
    """Return the number of each joist line by its mark, counted from 0; pairs count as one."""
    second = {seam.right for seam in supports_of(plan).seams} if paired(plan) else set()
    marks = [f"J{index + 1}" for index in range(len(supports_of(plan).lines))]
    return {
        mark: index - sum(other in second for other in marks[: index + 1])
        for index, mark in enumerate(marks)
    }


def joint_lines(plan: Plan) -> dict[str, int]:
    """Return where a joint over each joist is centred, in halves of 1/320 mm."""
    supports = supports_of(plan)
    if paired(plan):
        return {seam.left: 2 * ticks(seam.offset_mm) for seam in supports.seams}
    past = ticks(supports.joist_thickness_mm) if supports.battens_per_joint else 0
    return {f"J{index + 1}": 2 * line + past for index, line in enumerate(offsets(plan))}


Set = Pieces | BorderJoints


def limits_at(plan: Plan, row: str) -> Set:
    """Return the limits that joints of a row keep: the border's own, or the field's."""
    pieces = pieces_of(plan)
    return pieces.border if pieces.border is not None and row in border_marks(plan) else pieces


def sets_of(plan: Plan) -> list[tuple[str, Set]]:
    """Return the sets of rows whose joints have limits, each with where the plan tells them."""
    pieces = pieces_of(plan)
    edged: list[tuple[str, Set]] = [("pieces.border", pieces.border)] if pieces.border else []
    return [("pieces", pieces), *edged]


def joints_on_joists(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint whose centre is not on its joint line."""
    lines = joint_lines(plan)
    for joint in pieces_of(plan).joints:
        subject = f"{joint.row} at {joint.joist}"
        if joint.joist not in lines:
            yield Flaw(subject=subject, message="a joint over no joist", source=JOINTS)
            continue
        message = "the joint is off its joist"
        yield from same_half(subject, message, joint.centre_mm, lines[joint.joist], JOINTS)


def joints_keep_apart(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint too near a joint of the neighbouring row."""
    number, rows, edged = stations(plan), joints_by_row(plan), border_marks(plan)
    marks = [row.mark for row in surface_of(plan).rows]
    for before, after in pairwise(marks):
        if (before in edged) != (after in edged):
            continue  # a border is a set of its own
        least = limits_at(plan, after).stagger_bays
        at = _joint_stations(rows[before], number)
        for station in _joint_stations(rows[after], number):
            near = min((abs(station - other) for other in at), default=least)
            if near < least:
                message = f"a joint too near one of {before}, in bays"
                subject = f"{after} at J{station + 1}"
                yield from same_count(subject, message, near, least, JOINTS)


def _joint_stations(joints: list[Joint], number: dict[str, int]) -> list[int]:
    return [number[joint.joist] for joint in joints if joint.joist in number]


def enough_supports(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece over too few joists; a row in one piece is always allowed."""
    at = offsets(plan)
    for mark, row in pieces_by_row(plan).items():
        least = limits_at(plan, mark).least_supports
        for piece in row if len(row) > 1 else ():
            held = _supports_under(piece, at)
            if held < least:
                message = "the piece rests on too few joists"
                yield from same_count(piece.mark, message, held, least, JOINTS)


def long_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece of a jointed row that is too short, and each untold short row."""
    told = {finding.code for finding in plan.findings}
    for mark, row in pieces_by_row(plan).items():
        least = ticks(limits_at(plan, mark).least_piece_mm or 0)
        for piece in row:
            length = ticks(piece.length_mm)
            if length < least and (len(row) > 1 or "JNT-005" not in told):
                yield off_by(piece.mark, "shorter than a piece may be", length, least, JOINTS)


def _supports_under(piece: Piece, at: tuple[int, ...]) -> int:
    """Return how many joists a piece rests on, its joint joists or its batten included."""
    start, end = ticks(piece.start_mm), ticks(piece.start_mm) + ticks(piece.length_mm)
    under = {f"J{index + 1}" for index, centre in enumerate(at) if start <= centre <= end}
    return len(under | ({piece.from_joist, piece.to_joist} - {""}))


def joints_within_the_cap(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row with more joints than the cap."""
    cap = need(pieces_of(plan).most_joints_per_row, "cap of joints")
    for row, joints in joints_by_row(plan).items():
        if len(joints) > cap:
            yield from same_count(row, "more joints than the cap", len(joints), cap, JOINTS)


def pieces_fill_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where pieces and end gaps do not fill a row from edge to edge."""
    length = ticks(surface_of(plan).row_length_mm)
    for row, laid in pieces_by_row(plan).items():
        gap = ticks(limits_at(plan, row).end_gap_mm)
        met = max(len(laid) - 1, 0)
        summed = sum(ticks(piece.length_mm) for piece in laid) + met * gap
        if abs(summed - length) > met * (gap % 2):
            message = "pieces and end gaps do not add up to the row"
            yield off_by(row, message, summed, length, JOINTS)


def pieces_end_at_joints(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece that does not end half a gap before its joint's centre."""
    length = ticks(surface_of(plan).row_length_mm)
    lines, begun = joint_lines(plan), _begun_on(plan)
    for piece in pieces_of(plan).pieces:
        gap = ticks(limits_at(plan, piece.row).end_gap_mm)
        start, end = 0, 2 * length
        if piece.from_joist in begun:
            start = lines.get(begun[piece.from_joist], 0) + gap
        if piece.to_joist in lines:
            end = lines[piece.to_joist] - gap
        message = "does not begin where its joint or the deck's edge is"
        yield from same_half(piece.mark, message, piece.start_mm, start, JOINTS)
        message = "is not as long as from one end to the other"
        yield from same_half(piece.mark, message, piece.length_mm, end - start, JOINTS)


def _begun_on(plan: Plan) -> dict[str, str]:
    """Return, for all that a piece may begin on at a joint, the joist that names the joint."""
    if paired(plan):
        return {seam.right: seam.left for seam in supports_of(plan).seams}
    battens = plan.frame.battens if plan.frame is not None else ()
    own = {mark: mark for mark in stations(plan)}
    return own | {batten.mark: batten.joist for batten in battens}


def pieces_meet_at_joints(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the joints a row's pieces name are not the joints listed for it."""
    joints = joints_by_row(plan)
    for row, laid in pieces_by_row(plan).items():
        met = joints.get(row, [])
        begins = [piece.from_joist for piece in laid]
        ends = [piece.to_joist for piece in laid]
        wanted = ["", *(joint.beside or joint.joist for joint in met)]
        if begins != wanted or ends != [*(joint.joist for joint in met), ""]:
            message = "its pieces do not meet at its joints, in order"
            yield Flaw(subject=row, message=message, source=JOINTS)


def cut_lengths(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each piece is cut to its length and one allowance per outer end."""
    allowance = ticks(pieces_of(plan).trim_allowance_mm)
    for piece in pieces_of(plan).pieces:
        outer = (piece.from_joist == "") + (piece.to_joist == "")
        wanted = ticks(piece.length_mm) + outer * allowance
        message = "not its length and the allowance at the deck's edge"
        yield from same_length(piece.mark, message, piece.cut_mm, wanted, JOINTS)


def pieces_have_their_rows_width(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece in no row, or not as wide as its row."""
    widths = {row.mark: ticks(row.width_mm) for row in surface_of(plan).rows}
    for piece in pieces_of(plan).pieces:
        if piece.row not in widths:
            message = f"no row is {piece.row!r}"
            yield Flaw(subject=piece.mark, message=message, source=JOINTS)
            continue
        message = "not as wide as its row"
        yield from same_length(piece.mark, message, piece.width_mm, widths[piece.row], JOINTS)


def pieces_are_marked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pieces are marked B7.1, B7.2, ... row by row from the datum."""
    wanted = [
        f"{row}.{index}"
        for row, laid in pieces_by_row(plan).items()
        for index in range(1, len(laid) + 1)
    ]
    for piece, mark in zip(pieces_of(plan).pieces, wanted, strict=True):
        yield from same_text(piece.mark, "wrong mark or order", piece.mark, mark, JOINTS)


def joints_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless `joint_count` is the number of joints, and of meetings of pieces."""
    pieces, edged, laid = pieces_of(plan), border_marks(plan), pieces_by_row(plan)
    for path, limits in sets_of(plan):
        subject, border = f"{path}.joint_count", limits is not pieces
        listed = sum((joint.row in edged) == border for joint in pieces.joints)
        message = "not the number of joints listed"
        yield from same_count(subject, message, limits.joint_count, listed, JOINTS)
        met = sum(len(row) - 1 for mark, row in laid.items() if (mark in edged) == border)
        message = "not how often pieces meet in a row"
        yield from same_count(subject, message, limits.joint_count, met, JOINTS)


def joints_have_a_row(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joint in no row, or listed twice."""
    rows = {row.mark for row in surface_of(plan).rows}
    seen: set[tuple[str, str]] = set()
    for joint in pieces_of(plan).joints:
        subject = f"{joint.row} at {joint.joist}"
        if joint.row not in rows:
            yield Flaw(subject=subject, message="a joint in no row", source=JOINTS)
        if (joint.row, joint.joist) in seen:
            yield Flaw(subject=subject, message="the joint is listed twice", source=JOINTS)
        seen.add((joint.row, joint.joist))


def end_bearing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless board ends bear on half of what is below less the gap, and on enough."""
    supports = supports_of(plan)
    own = paired(plan) or bool(supports.battens_per_joint)
    thickness = (2 if own else 1) * ticks(supports.joist_thickness_mm)
    for path, limits in sets_of(plan):
        subject = f"{path}.end_bearing_mm"
        wanted = thickness - ticks(limits.end_gap_mm)
        message = "not half of joist less gap"
        yield from same_half(subject, message, limits.end_bearing_mm, wanted, JOINTS)
        least = ticks(limits.end_bearing_least_mm)
        if limits.joint_count and ticks(limits.end_bearing_mm) < least:
            message = "board ends bear on little of the joist: a batten beside it carries them"
            thin = off_by(subject, message, ticks(limits.end_bearing_mm), least, JOINTS)
            yield evolve(thin, severity=Severity.CAUTION)


def limits_make_sense(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each limit of the joints that is below nothing."""
    floors = {"least_supports": 1, "stagger_bays": 0, "end_gap_mm": 0, "trim_allowance_mm": 0}
    for path, limits in sets_of(plan):
        for name, floor in floors.items():
            if hasattr(limits, name):
                yield from _not_below(f"{path}.{name}", getattr(limits, name), floor)


def _not_below(subject: str, value: float, floor: int) -> Iterator[Flaw]:
    if value < floor:
        yield Flaw(
            subject=subject,
            message="a limit below nothing",
            measured=float(value),
            limit=floor,
            source=JOINTS,
        )


#: Which side of the cover arrows point at: along the house to the right, away from it forward.
ARROWS = {"along": "right", "across": "front"}


def handed_pieces_point_one_way(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece of handed boards turned about, and each arrow on another."""
    run = surface_of(plan).run
    for piece in pieces_of(plan).pieces:
        wanted = ARROWS.get(run, "") if limits_at(plan, piece.row).handed else ""
        message = "its arrow does not point as all others do"
        yield from same_text(piece.mark, message, piece.arrow, wanted, JOINTS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-401", "every joint is centred on its joist, or joint line", joints_on_joists),
    ("AUD-402", "joints of neighbouring rows keep apart", joints_keep_apart),
    ("AUD-403", "every piece rests on enough joists", enough_supports),
    ("AUD-404", "no row has more joints than the cap", joints_within_the_cap),
    ("AUD-405", "pieces and end gaps add up to the row", pieces_fill_rows),
    ("AUD-406", "pieces end half a gap from the joint's centre", pieces_end_at_joints),
    ("AUD-407", "pieces meet at the joints listed", pieces_meet_at_joints),
    ("AUD-408", "pieces are cut to length and allowance", cut_lengths),
    ("AUD-409", "pieces are as wide as their row", pieces_have_their_rows_width),
    ("AUD-410", "pieces are marked in order, each once", pieces_are_marked),
    ("AUD-411", "joints are counted", joints_are_counted),
    ("AUD-412", "every joint is in a row, once", joints_have_a_row),
    ("AUD-413", "board ends bear on enough of the joist", end_bearing),
    ("AUD-414", "limits of joints make sense", limits_make_sense),
    ("AUD-419", "no piece is shorter than one may be", long_enough),
    ("AUD-415", "handed pieces all point one way", handed_pieces_point_one_way),
)
