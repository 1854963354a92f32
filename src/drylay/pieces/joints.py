"""Joints: the rows as lines for the cutter, and its answer as joints and pieces.

A joint lies over a joist's middle, over the seam of a pair, or over the far face of a joist that
has a batten there.
"""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal

from attrs import evolve, frozen

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
    least_piece_mm: float = 0.0


def board_line(surface: Surface, supports: Supports, rules: JointRules) -> Line:
    """Return all rows of the field as one set of side-by-side lines, in 1/320 mm.

    Outer pieces are sawn longer by the trim allowance, so the line is longer by one at each
    end. Stations that are seams stand bays apart as the seams were chosen: there a piece may end
    at any of them, and joints of neighbours only must not share one.
    Source: butt joints on joist centres, by common practice, no source.
    """
    allowance = exact(rules.trim_allowance_mm)
    paired, stations = _paired(supports), joint_stations(supports)
    return Line(
        count=len(field_rows(surface)),
        start=-allowance,
        end=exact(surface.row_length_mm) + allowance,
        stations=stations,
        joint_gap=exact(rules.end_gap_mm),
        least_bays=0 if paired else fewest_bays(surface.row_length_mm, stations, rules),
        stagger=min(rules.stagger_bays, 1) if paired else rules.stagger_bays,
        most_joints=rules.most_joints_per_row,
    )


def fewest_bays(row_length_mm: float, stations: tuple[int, ...], rules: JointRules) -> int:
    """Return the fewest bays under a piece of a jointed row: for its supports, and for its length.

    So many that no piece over them is shorter than it may be; more than there are where none fits.
    """
    least, held = exact(rules.least_piece_mm), rules.least_supports - 1
    for bays in range(held, len(stations)):
        if min(_lengths(exact(row_length_mm), stations, exact(rules.end_gap_mm), bays)) >= least:
            return bays
    return max(held, len(stations))


def _lengths(end: int, stations: tuple[int, ...], gap: int, bays: int) -> Iterator[int]:
    """Yield how long pieces over so many bays are: at either end of a row, and between joints."""
    last = len(stations) - 1
    yield stations[bays] - gap // 2
    yield end - stations[last - bays] - (gap - gap // 2)
    for near in range(bays, last - 2 * bays + 1):
        yield stations[near + bays] - stations[near] - gap


def sections_mm(row_length_mm: float, seams_mm: Iterable[float], end_gap_mm: float) -> list[float]:
    """Return how long the pieces are that joints at all these lines would make of a row."""
    gap, lines = exact(end_gap_mm), [exact(seam) for seam in seams_mm]
    starts = [0, *(line - gap // 2 + gap for line in lines)]
    ends = [*(line - gap // 2 for line in lines), exact(row_length_mm)]
    return [to_mm(end - start) for start, end in zip(starts, ends, strict=True)]


def _paired(supports: Supports) -> bool:
    return (supports.joists_under_joint or 1) > 1


def joint_stations(supports: Supports) -> tuple[int, ...]:
    """Return where joints may be centred, in 1/320 mm: seams, far faces of joists, or centres."""
    if _paired(supports):
        return tuple(exact(seam.offset_mm) for seam in supports.seams)
    centres = tuple(exact(line.offset_mm) for line in supports.lines)
    if not supports.battens_per_joint:
        return centres
    thick = exact(supports.joist_thickness_mm)
    return tuple(centre + thick - thick // 2 for centre in centres)


def end_bearing_mm(supports: Supports, end_gap_mm: float) -> float:
    """Return how much of a joist is left under a board's end, beside half the end gap.

    A joist of its own, or a batten as thick, gives an end twice as much. Source: geometry.
    """
    thick = exact(supports.joist_thickness_mm)
    own = _paired(supports) or bool(supports.battens_per_joint)
    return to_mm(((2 if own else 1) * thick - exact(end_gap_mm)) // 2)


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
        least_piece_mm=rules.least_piece_mm,
        most_joints_per_row=rules.most_joints_per_row,
        joint_price=rules.joint_price,
        trim_allowance_mm=rules.trim_allowance_mm,
        end_bearing_mm=end_bearing_mm(supports, rules.end_gap_mm),
        end_bearing_least_mm=rules.end_bearing_least_mm,
        joint_count=len(joints),
        handed=rules.handed,
        joints=joints,
        pieces=pieces,
    )


def field_rows(surface: Surface) -> tuple[Row, ...]:
    """Return the rows that are of the field's board: all, where there is no border."""
    return tuple(row for row in surface.rows if not row.border)


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


def on_battens(pieces: Pieces, battens: Mapping[tuple[str, str], str]) -> Pieces:
    """Return the pieces with each far end at a joint on its batten, by row and joist."""

    def under(row: str, joist: str) -> str:
        return battens.get((row, joist), joist)

    joints = tuple(
        evolve(joint, beside=battens.get((joint.row, joint.joist), "")) for joint in pieces.joints
    )
    laid = tuple(
        evolve(piece, from_joist=under(piece.row, piece.from_joist)) for piece in pieces.pieces
    )
    return evolve(pieces, joints=joints, pieces=laid)


def joist_mark(station: int) -> str:
    """Return the mark of the joist on the given line, counted from 0."""
    return f"J{station + 1}"


def _rests(supports: Supports, station: int) -> tuple[str, str]:
    """Return what the two ends at a station's joint rest on: the nearer the datum first."""
    if _paired(supports):
        return supports.seams[station].left, supports.seams[station].right
    return joist_mark(station), joist_mark(station)


def _joints(row: Row, supports: Supports, at: tuple[int, ...]) -> list[Joint]:
    stations = joint_stations(supports)
    joints = []
    for station in at:
        near, far = _rests(supports, station)
        centre_mm = to_mm(stations[station])
        beside = far if far != near else ""
        joints.append(Joint(row=row.mark, joist=near, centre_mm=centre_mm, beside=beside))
    return joints


def _pieces(
    row: Row, surface: Surface, supports: Supports, rules: JointRules, at: tuple[int, ...]
) -> list[Piece]:
    gap, allowance = exact(rules.end_gap_mm), exact(rules.trim_allowance_mm)
    stations = joint_stations(supports)
    centres = [stations[station] for station in at]
    # half a gap each side of a joint's centre; an odd count gives the spare 320th to the left
    starts = [0, *(centre - gap // 2 + gap for centre in centres)]
    ends = [*(centre - gap // 2 for centre in centres), exact(surface.row_length_mm)]
    rests = [("", ""), *(_rests(supports, station) for station in at), ("", "")]
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
            from_joist=rests[number][1],
            to_joist=rests[number + 1][0],
            arrow=ARROW_TO[surface.run] if rules.handed else "",
        )
        found.append(piece)
    return found
