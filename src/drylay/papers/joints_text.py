"""The summary's part on the joints: the rules they keep, and every row piece by piece."""

from drylay.papers.arrows import SIGN, arrow_told
from drylay.papers.layout import heading, para
from drylay.papers.support_text import centred_on, mass_told, meeting_told, movement_told
from drylay.papers.wording import bare, many, marks_told, size, size_least
from drylay.pieces.model import Piece, Pieces
from drylay.plan.model import Plan
from drylay.supports.model import Supports


def joint_lines(plan: Plan) -> list[str]:
    """Return what the summary says of joints and pieces; nothing where the plan has none."""
    pieces = plan.pieces
    if pieces is None:
        return []
    return [
        *heading("JOINTS"),
        *para(joints_told(pieces, plan.supports, plan.units)),
        *(line for told in movement_told(plan) for line in para(told)),
        *para(mass_told(plan)),
        *para(sawn_long_told(pieces, plan.units)),
        *para(arrow_told(plan)),
        *(_by_row(pieces, plan.units) if pieces.joints else []),
    ]


def joints_told(pieces: Pieces, supports: Supports | None, units: str) -> str:
    """Return the rules that the joints keep."""
    if not pieces.joints:
        return "No joints: every row is one board."
    least = pieces.least_piece_mm
    cap, count = pieces.most_joints_per_row, len(pieces.joints)
    whose = "the field's ends" if pieces.border else "the ends"
    return (
        f"There {'is' if count == 1 else 'are'} {many(count, 'joint')}"
        f"{_of_the_border(pieces, units)}. Each is centred on {centred_on(supports)}, {whose} "
        f"{size(pieces.end_gap_mm, units)} apart, so each bears "
        f"{size(pieces.end_bearing_mm, units)}. Joints in neighbouring rows "
        f"{_staggered(pieces.stagger_bays)}. A piece rests on "
        f"{many(pieces.least_supports, 'joist')} or more"
        + (f", a row has at most {many(cap, 'joint')}" if cap is not None else "")
        + (f", and none is shorter than {size(least, units)}." if least else ".")
    )


def _staggered(bays: int) -> str:
    return f"are staggered by {many(bays, 'bay')} or more" if bays else "may lie in line"


def ends_apart(pieces: Pieces, units: str) -> str:
    """Return how far apart board ends stand at a joint, and in the border where that differs."""
    field, joints = bare(pieces.end_gap_mm, units), pieces.border
    if joints is None or joints.end_gap_mm == pieces.end_gap_mm or not joints.joint_count:
        return f"{field} apart"
    return f"{field} apart, in the border {bare(joints.end_gap_mm, units)}"


def _of_the_border(pieces: Pieces, units: str) -> str:
    """Return how many joints are the border's, and what they keep; "" where it has none."""
    joints = pieces.border
    if joints is None or not joints.joint_count:
        return ""
    bays = f"staggered within itself alone by {many(joints.stagger_bays, 'bay')} or more"
    return (
        f", {joints.joint_count} of them in the border (its ends {size(joints.end_gap_mm, units)} "
        f"apart, {bays if joints.stagger_bays else 'its joints free to lie in line'}, "
        f"{many(joints.least_supports, 'joist')} or more to a piece)"
    )


def sawn_long_told(pieces: Pieces, units: str) -> str:
    """Return what to do where boards run long, so that nobody saws them to the cover's size."""
    if not pieces.trim_allowance_mm:
        return ""
    over = size_least(pieces.trim_allowance_mm, units)
    return (
        f"TRIM IN LINE: outer pieces are sawn {over} too long at the deck's edge, and the cut "
        f"list has them so. Lay them {over} over the edge, fix, then saw each edge in one line."
    )


def _by_row(pieces: Pieces, units: str) -> list[str]:
    """Return every row as laid: lengths as sawn, between them what they meet on."""
    rows: dict[str, list[Piece]] = {}
    for piece in pieces.pieces:
        rows.setdefault(piece.row, []).append(piece)
    alike: dict[str, list[str]] = {}
    for mark, row in rows.items():
        alike.setdefault(_row(row, units), []).append(mark)
    lines = para("Rows from the datum end, lengths as sawn, joints on the joist named:")
    for told, marks in alike.items():
        lines += para(f"{marks_told(marks)}: {told}", "  ", "    ")
    return lines


def _row(row: list[Piece], units: str) -> str:
    parts = []
    for piece, beyond in zip(row, [*row[1:], None], strict=False):
        parts.append(f"{bare(piece.cut_mm, units)}{SIGN if piece.arrow else ''}")
        parts += [f"| {meeting_told(piece, beyond)} |"] if beyond else []
    return " ".join(parts)
