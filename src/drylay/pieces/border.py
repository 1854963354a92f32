"""The border's rows jointed: a set at either edge, staggered within itself alone."""

from attrs import evolve

from drylay.cutting.model import Line
from drylay.pieces.joints import JointRules, board_line, end_bearing_mm, join
from drylay.pieces.model import BorderJoints, Pieces
from drylay.supports.model import Supports
from drylay.surface.model import Surface


def border_lines(surface: Surface, supports: Supports, rules: JointRules) -> tuple[Line, Line]:
    """Return the border's rows as two sets of lines, one at either edge of the cover.

    Neither lies beside the other, and what lies beside the field is left to the eye.
    """
    rows = sum(row.border for row in surface.rows) // 2
    line = evolve(board_line(surface, supports, rules), count=rows)
    return line, line


def with_border(
    field: Pieces,
    surface: Surface,
    supports: Supports,
    rules: JointRules,
    stations: tuple[tuple[tuple[int, ...], ...], ...],
) -> Pieces:
    """Return the pieces with those of the border, all in the order of their rows.

    `stations`: of each row of the near set, then of each row of the far one.
    """
    rows = tuple(row for row in surface.rows if row.border)
    joints, pieces = join(rows, surface, supports, rules, tuple(at for s in stations for at in s))
    order = {row.mark: number for number, row in enumerate(surface.rows)}
    return evolve(
        field,
        joints=tuple(sorted((*field.joints, *joints), key=lambda joint: order[joint.row])),
        pieces=tuple(sorted((*field.pieces, *pieces), key=lambda piece: order[piece.row])),
        border=BorderJoints(
            end_gap_mm=rules.end_gap_mm,
            least_supports=rules.least_supports,
            stagger_bays=rules.stagger_bays,
            least_piece_mm=rules.least_piece_mm,
            joint_price=rules.joint_price,
            end_bearing_mm=end_bearing_mm(supports, rules.end_gap_mm),
            end_bearing_least_mm=rules.end_bearing_least_mm,
            joint_count=len(joints),
            handed=rules.handed,
        ),
    )
