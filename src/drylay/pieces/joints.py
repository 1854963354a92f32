"""Joints: the rows as lines for the cutter, and its answer as joints and pieces."""

from decimal import Decimal

from attrs import frozen

from drylay.cutting.model import Line
from drylay.marks import exact, to_mm
from drylay.pieces.model import Joint, Piece, Pieces
from drylay.supports.model import Supports
from drylay.surface.model import Row, Surface

#: The side of the cover that arrows of handed boards point at, by the way boards run.
ARROW_TO = {"along": "right", "across": "front"}


@frozen(kw_only=True)
class JointRules:
    """The limits joints keep, what one is reckoned to cost, and whether pieces are handed."""

    end_gap_mm: float
    end_bearing_least_mm: float
    least_supports: int
    stagger_bays: int
    most_joints_per_row: int | None
    joint_price: Decimal
    trim_allowance_mm: float = 0.0
    handed: bool = False


def board_line(surface: Surface, supports: Supports, rules: JointRules) -> Line:
    """Return all rows of the field as one set of side-by-side lines, in 1/320 mm.

    Outer pieces are sawn longer by the trim allowance, so the line is longer by one at each
    end. Source: butt joints on joist centres, by common practice, no source.
    """
    allowance = exact(rules.trim_allowance_mm)
    return Line(
        count=len(field_rows(surface)),
        start=-allowance,
        end=exact(surface.row_length_mm) + allowance,
        stations=tuple(exact(line.offset_mm) for line in supports.lines),
        joint_gap=exact(rules.end_gap_mm),
        least_bays=rules.least_supports - 1,
        stagger=rules.stagger_bays,
        most_joints=rules.most_joints_per_row,
    )


def joint_rows(
    surface: Surface,
    supports: Supports,
    rules: JointRules,
    stations: tuple[tuple[int, ...], ...],
) -> Pieces:
    """Return joints and pieces of every row of the field, at the stations the cutter chose."""
    joints, pieces = join(field_rows(surface), surface, supports, rules, stations)
    return Pieces(
        end_gap_mm=rules.end_gap_mm,
        least_supports=rules.least_supports,
        stagger_bays=rules.stagger_bays,
        most_joints_per_row=rules.most_joints_per_row,
        joint_price=rules.joint_price,
        trim_allowance_mm=rules.trim_allowance_mm,
        end_bearing_mm=bearing_mm(supports, rules),
        end_bearing_least_mm=rules.end_bearing_least_mm,
        joint_count=len(joints),
        handed=rules.handed,
        joints=joints,
        pieces=pieces,
    )


def field_rows(surface: Surface) -> tuple[Row, ...]:
    """Return the rows that are of the field's board: all, where there is no border."""
    return tuple(row for row in surface.rows if not row.border)


def bearing_mm(supports: Supports, rules: JointRules) -> float:
    """Return how far a board's end at a joint lies on the joist."""
    return to_mm((exact(supports.joist_thickness_mm) - exact(rules.end_gap_mm)) // 2)


def join(
    rows: tuple[Row, ...],
    surface: Surface,
    supports: Supports,
    rules: JointRules,
    stations: tuple[tuple[int, ...], ...],
) -> tuple[tuple[Joint, ...], tuple[Piece, ...]]:
    """Return joints and pieces of these rows, jointed at these stations."""
    joints: list[Joint] = []
    pieces: list[Piece] = []
    for row, at in zip(rows, stations, strict=True):
        joints += _joints(row, supports, at)
        pieces += _pieces(row, surface, supports, rules, at)
    return tuple(joints), tuple(pieces)


def joist_mark(station: int) -> str:
    """Return the mark of the joist on the given line, counted from 0."""
    return f"J{station + 1}"


def _joints(row: Row, supports: Supports, at: tuple[int, ...]) -> list[Joint]:
    return [
        Joint(row=row.mark, joist=joist_mark(station), centre_mm=supports.lines[station].offset_mm)
        for station in at
    ]


def _pieces(
    row: Row, surface: Surface, supports: Supports, rules: JointRules, at: tuple[int, ...]
) -> list[Piece]:
    gap, allowance = exact(rules.end_gap_mm), exact(rules.trim_allowance_mm)
    centres = [exact(supports.lines[station].offset_mm) for station in at]
    # half a gap each side of a joint's centre; an odd count gives the spare 320th to the left
    starts = [0, *(centre - gap // 2 + gap for centre in centres)]
    ends = [*(centre - gap // 2 for centre in centres), exact(surface.row_length_mm)]
    marks = ["", *map(joist_mark, at), ""]
    found = []
    for number, (start, end) in enumerate(zip(starts, ends, strict=True)):
        outer_ends = (number == 0) + (number == len(at))
        piece = Piece(
            mark=f"{row.mark}.{number + 1}",
            row=row.mark,
            start_mm=to_mm(start),
            length_mm=to_mm(end - start),
            cut_mm=to_mm(end - start + outer_ends * allowance),
            width_mm=row.width_mm,
            from_joist=marks[number],
            to_joist=marks[number + 1],
            arrow=ARROW_TO[surface.run] if rules.handed else "",
        )
        found.append(piece)
    return found
