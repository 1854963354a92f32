"""The rod: every joist and every row's edges as running dimensions, with room to write them back.

A story rod is a lath on which a joiner pricks every line once and from which all are then set
out, so that no error adds up. This one is printed: two tables from one datum each, and both
strips to scale.
"""

from drylay.correcting.model import Laid, RowToLay
from drylay.edges.model import Edges
from drylay.frame.model import Frame
from drylay.papers.border_text import border_gaps, edge_told
from drylay.papers.cover_text import gap_limits
from drylay.papers.fixed_points import by_row
from drylay.papers.hung import carrying, rims_told
from drylay.papers.joints_text import ends_apart
from drylay.papers.lettering import Bounds, first_free
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    Box,
    Lettering,
    Ring,
    Shape,
    Sheet,
    Table,
)
from drylay.papers.ruled import (
    BETWEEN_MM,
    columns_needed,
    in_columns,
    paragraphs,
    paragraphs_height,
    table_width,
)
from drylay.papers.sheets import (
    AIR_MM,
    INSET_MM,
    ROLL,
    body_notes,
    roll,
    room,
    sheets,
    title_block,
)
from drylay.papers.support_text import centred_on, joint_told
from drylay.papers.svg import svg
from drylay.papers.wording import (
    ENDS,
    RIM_SIDES,
    bare,
    clean,
    many,
    ripped_edge_told,
)
from drylay.pieces.model import Pieces
from drylay.plan.model import Plan
from drylay.supports.model import Supports
from drylay.surface.model import Surface

#: One strip with its title and marks, and the bar in it; air at a strip's ends for their marks.
STRIP_MM, BAR_MM, ENDS_MM = 16.5, 5.0, 6.0
#: The height that a roll's tables are set to.
ROLL_MM = 780.0


def rod_svg(plan: Plan) -> bytes:
    """Return the rod of a plan's joists and rows; b"" where the plan lacks either."""
    surface, edges, frame = plan.surface, plan.edges, plan.frame
    if surface is None or edges is None or frame is None:
        return b""
    tables = (
        joist_table(frame, edges, surface.run, plan.units),
        row_table(surface, plan.pieces, plan.units, fixed=_fixed(plan)),
        *([left_table(plan.laid, surface.run, plan.units)] if plan.laid else []),
    )
    notes = _notes(surface, edges, frame, plan)
    sheet = _sheet(plan.units, tables, notes, max(surface.row_length_mm, surface.rows_depth_mm))
    body = body_notes(sheet, notes)
    under = INSET_MM + 2 * STRIP_MM
    shapes = [
        *_joist_strip(sheet, edges, frame, surface),
        *_row_strip(sheet, surface),
        *paragraphs(body, "notes", INSET_MM, under, room(sheet)[0]),
        *_tables(tables, _columns(tables, _left(sheet, notes)), room(sheet)[1] + INSET_MM
                 - _left(sheet, notes)),
        *title_block(sheet, title=plan.title, drawing="Rod: joists and rows", units=plan.units,
                     notes=() if body else notes),
    ]  # fmt: skip
    counted = f"{many(len(frame.joists), 'joist')} and {many(len(surface.rows), 'row')}"
    told = f"The rod of {clean(plan.title)}: {counted} as running dimensions, with blank cells."
    return svg(shapes, sheet=sheet, name="rod", title=f"Rod of {clean(plan.title)}", told=told)


def joist_table(frame: Frame, edges: Edges, run: str, units: str) -> Table:
    """Return every joist's centre from the end of what it is marked on, and the datum if else."""
    start_mm, end = edges.frame_start_mm, ENDS[run][0]
    heads: list[tuple[str, ...]] = [
        ("", "", "joist"),
        ("centre", "from the", f"{carrying(frame)}' end"),
    ]
    rows = [[joist.mark, bare(joist.offset_mm - start_mm, units)] for joist in frame.joists]
    if start_mm:
        heads.append(("centre", "from the", "datum"))
        rows = [[*row, bare(j.offset_mm, units)] for row, j in zip(rows, frame.joists, strict=True)]
    return Table(
        layer="joists", title=f"Joists, on {rims_told(frame)} from their {end} end",
        heads=(*heads, ("", "", "as laid")), aligned="<" + ">" * (len(heads) - 1) + "<",
        rows=tuple((*row, "") for row in rows),
    )  # fmt: skip


def _fixed(plan: Plan) -> dict[str, list[str]]:
    clips = plan.fixings.clips if plan.fixings else None
    return by_row(clips) if clips else {}


def row_table(
    surface: Surface, pieces: Pieces | None, units: str, *, fixed: dict[str, list[str]]
) -> Table:
    """Return every row: gap before it, both edges from the datum, width, joints, fixed points."""
    joints: dict[str, list[str]] = {}
    for joint in pieces.joints if pieces else ():
        joints.setdefault(joint.row, []).append(joint_told(joint))
    heads = [("", "row"), ("gap", "before"), ("near", "edge"), ("far", "edge"), ("", "width")]
    sawn = " ripped" if pieces else " cut"
    rows = [
        (row.mark, bare(row.gap_mm, units) if index else "-", bare(row.near_mm, units),
         bare(row.near_mm + row.width_mm, units),
         bare(row.width_mm, units) + (sawn if row.ripped else ""))
        for index, row in enumerate(surface.rows)
    ]  # fmt: skip
    if joints:
        heads.append(("joints", "on joist"))
    told = [(_apart(joints.get(row.mark, ["none"])),) if joints else () for row in surface.rows]
    if fixed:
        heads.append(("fixed", "at joist"))
        told = [
            (*each, " ".join(fixed.get(row.mark, [])))
            for each, row in zip(told, surface.rows, strict=True)
        ]
    return Table(
        layer="rows", title=f"Rows, from the cover's {RIM_SIDES[surface.run][0]} side",
        heads=(*heads, ("far edge", "as laid")), aligned="<>>>>" + "<" * (len(heads) - 4),
        rows=tuple((*row, *more, "") for row, more in zip(rows, told, strict=True)),
    )  # fmt: skip


def left_table(laid: Laid, run: str, units: str) -> Table:
    """Return the rows left as corrected: at both ends the gap before each and its edges."""
    one, other = (end[:12] for end in ENDS[run])
    rows = [
        (row.mark, bare(row.gap_left_mm, units), bare(row.gap_right_mm, units),
         bare(row.near_left_mm, units), bare(row.near_right_mm, units), _rip(row, units), "")
        for row in laid.rows
    ]  # fmt: skip
    return Table(
        layer="left", title=f"Rows left, corrected after row {laid.rows_laid}",
        heads=(("", "", "row"), ("gap", "before", one), ("gap", "before", other),
               ("near", "edge", one), ("near", "edge", other), ("", "rip", "to"),
               ("", "edge", "as laid")),
        aligned="<>>>><<", rows=tuple(rows),
    )  # fmt: skip


def _rip(row: RowToLay, units: str) -> str:
    """Return what a row left is ripped to, at both ends where these differ."""
    if not row.ripped:
        return "-"
    one, other = bare(row.width_left_mm, units), bare(row.width_right_mm, units)
    return one if one == other else f"{one} to {other}"


def _apart(joints: list[str]) -> str:
    """Return joints as one text; those over two timbers each need more than a space between."""
    return (", " if any(" " in joint for joint in joints) else " ").join(joints)


def _notes(surface: Surface, edges: Edges, frame: Frame, plan: Plan) -> tuple[str, ...]:
    pieces, units = plan.pieces, plan.units
    half_mm = frame.timber_thickness_mm / 2
    wide, thick = bare(surface.board_width_mm, units), bare(surface.board_thickness_mm, units)
    if pieces is None:
        return _tile_notes(surface, edges, frame, units)
    notes = [
        f"Joists: centres; the near face is {bare(half_mm, units)} before.",
        f"Board {clean(surface.board_article, 40)}, {wide} x {thick}{edge_told(surface, units)}. "
        f"Rows are counted from {_outer_face(frame, edges, surface.run, units)}.",
        *_laying_notes(surface, plan, units),
        *_pair_notes(plan.supports, edges, units),
    ]
    if any(row.ripped for row in surface.rows):
        notes.append(f"Ripped rows: {ripped_edge_told(plan)}.")
    return (*notes, *_piece_notes(pieces, surface, plan.supports, units))


def _laying_notes(surface: Surface, plan: Plan, units: str) -> tuple[str, ...]:
    """Return how rows are laid to the rod: clips leave no gap to make up for anything in."""
    if plan.fixings is not None and plan.fixings.clips is not None:
        gap = bare(plan.fixings.clips.gap_mm, units)
        return (
            f"Clips leave gaps of {gap}: measure at both ends of a row, and where it is off find "
            "which row is not home before you go on.",
        )
    least, most = gap_limits(surface, units)
    if plan.laid is not None:
        after = ", ".join(str(row) for row in plan.laid.checks) or "the last"
        return (
            f"Rows left are laid to their own table, gaps from {least} to {most}"
            f"{border_gaps(surface, units)}; measure at both ends after row {after}, and correct "
            "again. Lay the last four tight, measure them together, then set their gaps.",
        )
    return (
        f"Lay to the edges, not by spacers alone; gaps from {least} to {most}"
        f"{border_gaps(surface, units)}.",
        "Measure at both ends of a row, write what you find, make up for it in the gaps to come "
        "(common practice, no source).",
    )


def _tile_notes(surface: Surface, edges: Edges, frame: Frame, units: str) -> tuple[str, ...]:
    half_mm, joint = frame.timber_thickness_mm / 2, bare(surface.gap_preferred_mm, units)
    return (
        f"Joists: centres; the near face is {bare(half_mm, units)} before.",
        f"Tile {clean(surface.board_article, 40)}. Rows are counted from "
        f"{_outer_face(frame, edges, surface.run, units)}; columns stand on the tiles drawing.",
        f"Joints {joint} by spacers, joints between columns centred on their joists.",
    )


def _outer_face(frame: Frame, edges: Edges, run: str, units: str) -> str:
    side, what = RIM_SIDES[run][0], "bearer" if frame.hung and not frame.rims[0].pieces else "rim"
    if edges.frame_near_mm:
        off = bare(edges.frame_near_mm, units)
        return f"the fascia's outer face on the {side} side, {off} before the {what}'s"
    return f"the {what}'s outer face on the {side} side"


def _pair_notes(supports: Supports | None, edges: Edges, units: str) -> list[str]:
    """Return where the joists of pairs touch, from the rims' end."""
    seams = supports.seams if supports else ()
    if not seams:
        return []
    told = ", ".join(
        f"{seam.left} {seam.right} at {bare(seam.offset_mm - edges.frame_start_mm, units)}"
        for seam in seams
    )
    return [f"Joists of a pair touch, their seam on the joint line: {told}."]


def _piece_notes(
    pieces: Pieces, surface: Surface, supports: Supports | None, units: str
) -> list[str]:
    notes = []
    if pieces.joints:
        notes.append(
            f"Pieces B1.1, B1.2 ... lie from the {ENDS[surface.run][0]} end, "
            f"{ends_apart(pieces, units)}, centred on {centred_on(supports)}."
        )
    if pieces.trim_allowance_mm:
        over = bare(pieces.trim_allowance_mm, units)
        notes.append(f"Lay the rows' outer ends {over} over the edge; saw them in one line after.")
    return notes


def _sheet(
    units: str, tables: tuple[Table, ...], notes: tuple[str, ...], longest_mm: float
) -> Sheet:
    """Return the smallest paper that holds the tables, with its largest scale for the strips."""
    for sheet in sheets(units):
        wide = room(sheet)[0]
        counts = _columns(tables, _left(sheet, notes))
        drawn_mm = max(longest_mm / sheet.per_mm + 2 * ENDS_MM, _tables_width(tables, counts))
        if 0 not in counts and drawn_mm <= wide:
            return sheet
    wide = max(_tables_width(tables, _columns(tables, ROLL_MM)),
               longest_mm / ROLL[units][0] + 2 * ENDS_MM)  # fmt: skip
    return roll(units, wide, ROLL_MM + 2 * STRIP_MM + paragraphs_height(notes, wide) + AIR_MM)


def _left(sheet: Sheet, notes: tuple[str, ...]) -> float:
    """Return the height that strips and notes leave for the tables."""
    wide, high = room(sheet)
    body_mm = paragraphs_height(body_notes(sheet, notes), wide)
    return high - 2 * STRIP_MM - (body_mm + AIR_MM if body_mm else 0.0)


def _columns(tables: tuple[Table, ...], high_mm: float) -> tuple[int, ...]:
    return tuple(columns_needed(table, high_mm) for table in tables)


def _tables_width(tables: tuple[Table, ...], counts: tuple[int, ...]) -> float:
    widths = [
        count * (table_width(table) + BETWEEN_MM)
        for table, count in zip(tables, counts, strict=True)
    ]
    return sum(widths) - BETWEEN_MM


def _tables(tables: tuple[Table, ...], counts: tuple[int, ...], top: float) -> list[Shape]:
    shapes: list[Shape] = []
    x = INSET_MM
    for table, count in zip(tables, counts, strict=True):
        shapes += in_columns(table, count, x, top)
        x += count * (table_width(table) + BETWEEN_MM)
    return shapes


def _joist_strip(sheet: Sheet, edges: Edges, frame: Frame, surface: Surface) -> list[Shape]:
    thick = frame.timber_thickness_mm
    members = [("", edges.frame_start_mm, edges.frame_length_mm)]
    members += [(joist.mark, joist.offset_mm - thick / 2, thick) for joist in frame.joists]
    end = ENDS[surface.run][0]
    held = carrying(frame).capitalize()
    title = f"{held} with their joists, from the {end} end; the ring is the datum corner"
    return _strip(sheet, "joist", title, INSET_MM, members)


def _row_strip(sheet: Sheet, surface: Surface) -> list[Shape]:
    members = [("", 0.0, surface.rows_depth_mm)]
    members += [(row.mark, row.near_mm, row.width_mm) for row in surface.rows]
    title = f"Rows, from the {RIM_SIDES[surface.run][0]} side"
    return _strip(sheet, "row", title, INSET_MM + STRIP_MM, members)


def _strip(
    sheet: Sheet, what: str, title: str, top: float, members: list[tuple[str, float, float]]
) -> list[Shape]:
    """Return one strip to scale: its whole length, then every member, marked where it fits."""
    left, bar_top = INSET_MM + ENDS_MM, top + 4.5
    boxes = [
        Box(layer=f"{what}-strip" if mark else f"{what}-strip-whole", y_mm=bar_top,
            x_mm=left + at / sheet.per_mm, width_mm=size / sheet.per_mm, height_mm=BAR_MM,
            pen_mm=FINE_MM if mark else MEMBER_MM)
        for mark, at, size in members
    ]  # fmt: skip
    shapes: list[Shape] = [
        Lettering(layer="strips", x_mm=INSET_MM, y_mm=top + 1.7, text=title, anchor="start"),
        *boxes,
        Ring(layer="strips", x_mm=left, y_mm=bar_top, radius_mm=1.2),
    ]
    taken: list[Bounds] = []
    marked = [
        Lettering(layer="strips", x_mm=box.x_mm + box.width_mm / 2, text=mark,
                  y_mm=bar_top + BAR_MM + 2.0)
        for (mark, _, _), box in zip(members, boxes, strict=True) if mark
    ]  # fmt: skip
    for text in [*marked[:1], *marked[:0:-1][:1], *marked[1:-1]]:  # the ends' marks first
        shapes += first_free([text], taken)
    return shapes
