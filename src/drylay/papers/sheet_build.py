"""The parts of the job sheet on the ground: setting out, frame, boards, fixings."""

from collections.abc import Iterator

from drylay.edges.model import Edges
from drylay.frame.model import Frame
from drylay.papers.arrows import SIGN, arrow_told
from drylay.papers.border_text import border_told
from drylay.papers.cover_text import cover_told, gaps_told, moisture_told, ripped_told, rows_told
from drylay.papers.fall_text import fall_told
from drylay.papers.frame_text import (
    courses,
    fascia_told,
    frame_told,
    joists_told,
    laid,
    member_groups,
    rim_joints_told,
    screws_told,
)
from drylay.papers.holding_text import (
    fascia_places_told,
    fixing_rows,
    frame_screws_told,
    holding_told,
)
from drylay.papers.html import FIGURE, TEXT, Cell, Html, para, points, separated, table
from drylay.papers.hung import carrying, rims_told
from drylay.papers.joints_text import joints_told, sawn_long_told
from drylay.papers.places import from_rim_mm
from drylay.papers.setting_out import diagonal_of, pegged
from drylay.papers.sheet_parts import (
    BOARDS,
    FIXINGS,
    FRAME,
    SET_OUT,
    below,
    care,
    drawings,
    part,
)
from drylay.papers.site_text import wall_told
from drylay.papers.support_text import (
    batten_rows,
    clips_told,
    meeting_told,
    movement_told,
    support_told,
)
from drylay.papers.tiles_text import cover_told as tiles_cover_told
from drylay.papers.wording import ENDS, bare, marks_told, size
from drylay.pieces.model import Piece
from drylay.plan.model import Plan
from drylay.surface.model import Row, Surface

DATUM = (
    "Everything is measured from the datum corner: where the house side of the cover meets its "
    "left side. Left and right are those of somebody who stands in the garden and faces the house."
)

ROWS = (
    "Edges from the datum corner; pieces as sawn, from the datum end, with the joist under each "
    "joint"
)


def setting_out_part(plan: Plan) -> Html:
    """Return where the deck lies: cover, frame, diagonals."""
    surface, edges, diagonal_mm = plan.surface, plan.edges, diagonal_of(plan)
    if surface is None or edges is None or diagonal_mm is None:
        return Html("")
    rows = _sizes(plan, surface, edges, diagonal_mm)
    told = cover_told(surface, plan.units)
    if plan.tiling is not None:
        told = tiles_cover_told(surface, plan.tiling, plan.units)
    return part(SET_OUT, "Setting out", [
        care(plan, SET_OUT),
        para(DATUM),
        para(wall_told(plan)),
        para(told),
        para(fall_told(surface, plan.units)),
        table("Sizes to set out", (("What", TEXT), ("Size", FIGURE)), rows),
        *drawings(plan, SET_OUT),
    ])  # fmt: skip


def _sizes(
    plan: Plan, surface: Surface, edges: Edges, diagonal_mm: float
) -> list[tuple[str, str]]:  # fmt: skip
    near, side = ("left", "house") if surface.run == "along" else ("house", "left")
    along, what = courses(plan), pegged(plan)
    framed = (
        (f"Frame begins, from the cover's {near} edge", edges.frame_start_mm),
        (f"Frame begins, from the cover's {side} edge", edges.frame_near_mm),
        (f"Frame, along the {along}", edges.frame_length_mm),
        (f"Frame, across the {along}", edges.frame_depth_mm),
    )
    sizes = (
        ("Cover, along the house", surface.cover_along_mm),
        ("Cover, away from the house", surface.cover_across_mm),
        *(framed if what == "frame" else ()),
        (f"Both diagonals of the {what}, outer corner to outer corner", diagonal_mm),
    )
    return [(what, size(length_mm, plan.units)) for what, length_mm in sizes]


def frame_part(plan: Plan) -> Html:
    """Return the frame: members, where they are marked, joints of rims, noggins, fascia."""
    frame, edges, supports, units = plan.frame, plan.edges, plan.supports, plan.units
    if frame is None or edges is None or supports is None:
        return Html("")
    end = ENDS[plan.surface.run if plan.surface else "along"][0]
    return part(FRAME, "Frame", [
        care(plan, FRAME),
        para(frame_told(frame, edges, units, along=courses(plan))),
        para(joists_told(supports, units)),
        below("Members", _members(frame, units)),
        below(f"Mark {rims_told(frame)}", _marking(frame, edges, units, end),
              para(rim_joints_told(frame, edges, units, end))),
        below("What joints lie over", points(support_told(plan)), _battens(frame, units)),
        below("Noggins", _noggins(frame, units)),
        below("What holds noggins and splices", para(frame_screws_told(plan))),
        below("Fascia", para(fascia_told(edges, units, over=laid(plan))),
              para(fascia_places_told(plan))),
        *drawings(plan, FRAME),
    ])  # fmt: skip


def _members(frame: Frame, units: str) -> Html:
    columns = (("Member", TEXT), ("How many", FIGURE), ("Length", FIGURE), ("Marks", TEXT))
    rows = [
        (name, f"{len(marks)} x", size(length_mm, units), marks_told(marks))
        for name, length_mm, marks in member_groups(frame)
    ]
    return table("Equal ones together", columns, rows)


def _marking(frame: Frame, edges: Edges, units: str, end: str) -> Html:
    """Return the joists' centres from the rims' own end, and from the cover's corner if else."""
    half_mm, start_mm = frame.timber_thickness_mm / 2, edges.frame_start_mm
    caption = f"Centres of the joists; the near face is {size(half_mm, units)} before"
    columns = [("Joist", TEXT), (f"On the {carrying(frame)}, from their {end} end", FIGURE)]
    columns += [("From the datum corner, as drawn", FIGURE)] if start_mm else []
    rows = []
    for joist in frame.joists:
        row = [joist.mark, size(joist.offset_mm - start_mm, units)]
        rows.append([*row, size(joist.offset_mm, units)] if start_mm else row)
    return table(caption, columns, rows)


def _noggins(frame: Frame, units: str) -> Html:
    """Return where noggins stand, those on one line together, each with its joists."""
    lines: dict[float, list[str]] = {}
    for noggin in frame.noggins:
        told = f"{noggin.mark}: {noggin.left} {noggin.right}"
        lines.setdefault(from_rim_mm(noggin, frame), []).append(told)
    rim = frame.rims[0].mark if frame.rims else "the near rim"
    caption = f"Centres of the noggins, from the outer face of {rim}"
    rows = [(size(at_mm, units), separated(told)) for at_mm, told in sorted(lines.items())]
    return table(
        caption, (("Centre", FIGURE), ("Noggins, each with the joists beside it", TEXT)), rows
    )


def _battens(frame: Frame, units: str) -> Html:
    """Return where battens lie, joist by joist; nothing without any."""
    if not frame.battens:
        return Html("")
    rim = frame.rims[0].mark if frame.rims else "the near rim"
    columns = (("Joist", TEXT), ("Batten", TEXT), ("Begins", FIGURE), ("Length", FIGURE))
    caption = f"Battens, from the outer face of {rim} to their near end"
    return table(caption, columns, batten_rows(frame, units))


def boards_part(plan: Plan) -> Html:
    """Return the boards, row by row with their joints."""
    surface, pieces, units = plan.surface, plan.pieces, plan.units
    if surface is None or pieces is None:
        return Html("")
    rows: dict[str, list[Piece]] = {}
    for piece in pieces.pieces:
        rows.setdefault(piece.row, []).append(piece)
    told = (rows_told(surface, units), gaps_told(surface, units), ripped_told(plan))
    columns = (("Row", TEXT), ("Near edge", FIGURE), ("Far edge", FIGURE), ("Gap before", FIGURE),
               ("Pieces", TEXT))  # fmt: skip
    lines = [_row(row, tuple(_laid(rows.get(row.mark, []), units)), units) for row in surface.rows]
    return part(BOARDS, "Boards and joints, row by row", [
        care(plan, BOARDS),
        *(para(text) for text in told),
        para(moisture_told(surface, units)),
        *(para(text) for text in border_told(plan)),
        para(joints_told(pieces, plan.supports, units)),
        points(movement_told(plan)),
        para(sawn_long_told(pieces, units)),
        para(arrow_told(plan)),
        table(ROWS, columns, lines),
        *drawings(plan, BOARDS),
    ])  # fmt: skip


def _row(row: Row, laid: tuple[str, ...], units: str) -> tuple[Cell, ...]:
    far_mm = row.near_mm + row.width_mm
    mark = f"{row.mark}, ripped to {size(row.width_mm, units)}" if row.ripped else row.mark
    mark += ", border" if row.border else ""
    gap = bare(row.gap_mm, units) if row.gap_mm else ""
    return mark, bare(row.near_mm, units), bare(far_mm, units), gap, laid


def _laid(row: list[Piece], units: str) -> Iterator[str]:
    for piece, beyond in zip(row, [*row[1:], None], strict=False):
        yield f"{piece.mark}{SIGN if piece.arrow else ''}: {bare(piece.cut_mm, units)}"
        if beyond:
            yield f"| {meeting_told(piece, beyond)} |"


def fixings_part(plan: Plan) -> Html:
    """Return the fixings: how many, where, how far from edges and ends, of which metal."""
    texts = screws_told(plan)
    if not texts:
        return Html("")
    columns = (("Fixing", TEXT), ("Where", TEXT), ("How many", FIGURE), ("Size", FIGURE),
               ("Pilot", FIGURE), ("Driver", TEXT), ("Metal", TEXT))  # fmt: skip
    return part(FIXINGS, "Fixings", [
        care(plan, FIXINGS),
        table("All fixings; spares are in the order", columns, fixing_rows(plan)),
        points((*clips_told(plan), *texts, *holding_told(plan))),
        *drawings(plan, FIXINGS),
    ])  # fmt: skip
