"""Members: rims, joists, noggins and splices, named, placed and measured."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.cutting.model import Line
from drylay.edges.model import Edges
from drylay.frame.battens import clear_of
from drylay.frame.bays import clear_widths, open_bays
from drylay.frame.between import Band, Stretch, joist_of, own_rims, stretches
from drylay.frame.model import Batten, Frame, Noggin, Rim, RimPiece, Splice
from drylay.marks import MARK_320, exact, floor_mark, nearest_mark, to_mm
from drylay.supports.model import Supports

RIMS = ("RA", "RB")


#: What a splice leaves free of its bay where joists hang: a flange of a hanger on either side.
#: Assumption.
FLANGES_MM = 100.0


@frozen(kw_only=True)
class Section:
    """The frame timber's article and true section."""

    article: str
    thickness_mm: float
    depth_mm: float


def place_members(
    edges: Edges,
    supports: Supports,
    section: Section,
    *,
    noggin_spacing_most_mm: float,
    rim_stations: tuple[tuple[int, ...], ...] = ((), ()),
    units: str = "metric",
    beside_mm: float = 0.0,
    battens: tuple[Batten, ...] | None = None,
    bands: tuple[Band, ...] = (),
) -> Frame:
    """Return the whole frame: joists between two rims, noggins between joists.

    With `bands` joists hang between bearers, each in as many parts as there are bays between
    these: the outer bearers take the place of the rims, or the last of the far one where the near
    one is a ledger.

    `beside_mm` is what splices leave free in their bay, for the flanges of hangers; noggins
    stand clear of the `battens` in theirs.

    `rim_stations` names, for either rim, the bays in whose middle it is jointed; each joint
    is backed by a splice.

    Source: arithmetic; rims over joist ends, noggins and splices by common practice, no
    source.
    """
    mark = MARK_320[units]
    between = stretches(edges, section.thickness_mm, bands)
    joists = tuple(
        joist_of(f"J{number}", line.offset_mm, between, hung=bool(bands))
        for number, line in enumerate(supports.lines, start=1)
    )
    noggins = _noggins(between, supports, section, noggin_spacing_most_mm, mark, battens or ())
    line = rim_line(edges, supports, units=units)
    sawn = range(own_rims(edges, bands))
    rims = tuple(_rim(edges, line, section, n, rim_stations[n]) for n in sawn)
    length_mm = splice_length_mm(supports, section, units, beside_mm)
    joints = [(RIMS[n], bay) for n in sawn for bay in rim_stations[n]]
    splices = tuple(
        Splice(
            mark=f"S{number}",
            rim=rim,
            offset_mm=to_mm(line.stations[bay]),
            length_mm=length_mm,
        )
        for number, (rim, bay) in enumerate(joints, start=1)
    )
    return Frame(
        timber_article=section.article,
        timber_thickness_mm=section.thickness_mm,
        timber_depth_mm=section.depth_mm,
        diagonal_mm=diagonal_mm(edges.frame_length_mm, edges.frame_depth_mm),
        noggin_spacing_most_mm=noggin_spacing_most_mm,
        noggin_rows=sum(_noggin_rows(each, noggin_spacing_most_mm) for each in between),
        rim_joints=len(joints),
        rims=(*rims, *_bearers_as_rims(edges, bands, taken=2 - len(rims))),
        joists=joists,
        noggins=noggins,
        splices=splices,
        batten_count=None if battens is None else len(battens),
        battens=battens or (),
    )


def diagonal_mm(length_mm: float, depth_mm: float) -> float:
    """Return a rectangle's diagonal. Source: Pythagoras, Euclid I.47."""
    return math.hypot(length_mm, depth_mm)


def rim_line(
    edges: Edges, supports: Supports, *, units: str, most_joints: int | None = None, count: int = 2
) -> Line:
    """Return the rims as lines that may be jointed at the mark nearest any open bay's middle."""
    start, mark = exact(edges.frame_start_mm), MARK_320[units]
    half = (exact(supports.lines[0].offset_mm) + exact(supports.lines[-1].offset_mm)) // 2
    bays = open_bays(supports)
    middles = tuple(_middle_mark(bay.left + bay.right, mark, half) for bay in bays)
    return Line(
        count=count,
        start=start,
        end=start + exact(edges.frame_length_mm),
        stations=middles,
        least_bays=1,
        most_joints=most_joints,
    )


def _middle_mark(sum_320: int, mark_320: int, inwards_320: int) -> int:
    """Return the mark nearest to half of a sum; of two, the one nearer to `inwards_320`.

    So the marks of a frame mirror as its lines do, and a rim may be laid either way round.
    """
    lower = -(-(sum_320 - mark_320) // (2 * mark_320)) * mark_320
    tied = sum_320 - 2 * lower == mark_320
    return lower + mark_320 if tied and 2 * inwards_320 > sum_320 else lower


def turned_about(line: Line, joints: tuple[int, ...]) -> tuple[int, ...]:
    """Return the joints of a rim laid the other way round; as they were if its pieces change."""
    turned = tuple(len(line.stations) - 1 - joint for joint in reversed(joints))
    same = sorted(_piece_lengths(line, joints)) == sorted(_piece_lengths(line, turned))
    return turned if same else joints


def _piece_lengths(line: Line, joints: tuple[int, ...]) -> list[int]:
    ends = [line.start, *(line.stations[joint] for joint in joints), line.end]
    return [after - before for before, after in pairwise(ends)]


def fewest_rim_joints(line: Line, longest_320: int) -> int | None:
    """Return the fewest joints a rim needs when no timber is longer than `longest_320`.

    None where no choice of bays will do. Reaching as far as the timber allows at each step
    is best: a shorter first piece never lets the rest be made of fewer.
    """
    at, joints, last = line.start, 0, 0
    while line.end - at > longest_320:
        reach = [
            station
            for station in range(last + 1, len(line.stations) - 1)
            if line.stations[station] - at <= longest_320
        ]
        if not reach:
            return None
        last = reach[-1]
        at, joints = line.stations[last], joints + 1
    return joints


def splice_length_mm(
    supports: Supports, section: Section, units: str, beside_mm: float = 0.0
) -> float:
    """Return the splice's length: the narrowest clear bay less a mark, down to a whole mark.

    A joint is at most half a mark off its bay's middle, so a splice centred on it has room.
    """
    mark = MARK_320[units]
    room = min(clear_widths(supports, section.thickness_mm)) - mark - exact(beside_mm)
    return to_mm(max(floor_mark(room, mark), mark))


def _bearers_as_rims(edges: Edges, bands: Sequence[Band], *, taken: int) -> list[Rim]:
    """Return the bearers that close the frame, as the rims whose place they take."""
    closing = (bands[0], bands[-1])[2 - taken :] if bands else ()
    return [
        Rim(
            mark=band.mark,
            near_mm=band.near_mm,
            start_mm=edges.frame_start_mm,
            length_mm=edges.frame_length_mm,
            pieces=(),
        )
        for band in closing
    ]


def _noggin_rows(between: Stretch, spacing_mm: float) -> int:
    return max(0, -(-(between[1] - between[0]) // exact(spacing_mm)) - 1)


def _noggins(  # noqa: PLR0917 - what a noggin stands between, and clear of what
    between: Sequence[Stretch],
    supports: Supports,
    section: Section,
    spacing_mm: float,
    mark_320: int,
    battens: tuple[Batten, ...],
) -> tuple[Noggin, ...]:
    """Return the noggins row by row, one in every open bay, clear of the battens there."""
    thick = exact(section.thickness_mm)
    bays = open_bays(supports)
    found: list[Noggin] = []
    for even, faces in _row_lines(between, spacing_mm):
        first = nearest_mark(even - thick // 2, mark_320)
        for turn, bay in enumerate(bays):
            # alternate sides of the line leave room to drive a fixing through the joist
            across = first + (thick if turn % 2 else 0)
            left = f"J{bay.number + 1}"
            beside = [batten for batten in battens if batten.joist == left]
            across = clear_of(across, thick - thick // 2, beside, faces, mark_320)
            found.append(
                Noggin(
                    mark=f"N{len(found) + 1}",
                    left=left,
                    right=f"J{bay.number + 2}",
                    across_mm=to_mm(across),
                    length_mm=to_mm(bay.right - bay.left - thick),
                )
            )
    return tuple(found)


def _row_lines(between: Sequence[Stretch], spacing_mm: float) -> list[tuple[int, Stretch]]:
    """Return the line of every row of noggins with the stretch that it divides evenly."""
    return [
        (near + (far - near) * row // (rows + 1), (near, far))
        for near, far in between
        for rows in (_noggin_rows((near, far), spacing_mm),)
        for row in range(1, rows + 1)
    ]


def _rim(edges: Edges, line: Line, section: Section, number: int, bays: tuple[int, ...]) -> Rim:
    cuts = [line.start, *(line.stations[bay] for bay in bays), line.end]
    far = exact(edges.frame_near_mm) + exact(edges.frame_depth_mm) - exact(section.thickness_mm)
    mark = RIMS[number]
    return Rim(
        mark=mark,
        near_mm=edges.frame_near_mm if number == 0 else to_mm(far),
        start_mm=edges.frame_start_mm,
        length_mm=edges.frame_length_mm,
        pieces=tuple(
            RimPiece(mark=f"{mark}.{piece}", start_mm=to_mm(a), length_mm=to_mm(b - a))
            for piece, (a, b) in enumerate(pairwise(cuts), start=1)
        ),
    )
