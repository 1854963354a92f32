"""The parts of the job sheet on a deck on an outline: outline, setting out, frame, boards."""

from drylay.laying.model import LaidRow, Laying
from drylay.outline.model import Opening, Outline
from drylay.papers.arrows import arrow_told
from drylay.papers.html import FIGURE, TEXT, Html, para, points, separated, table
from drylay.papers.outlined_ends import member_ends
from drylay.papers.outlined_frame_text import (
    carried_told,
    doubled_told,
    facings_told,
    frame_told,
    lines_told,
    seams_told,
)
from drylay.papers.outlined_ledges import kind_told
from drylay.papers.outlined_panels import BENCH, bench_told
from drylay.papers.outlined_rows import Strung, begin_told, crossing_told, strung_rows
from drylay.papers.outlined_saw import CORNERS, corners_of, shaped_pieces
from drylay.papers.outlined_setting import setting_texts, ties_of
from drylay.papers.outlined_text import (
    boards_told,
    clear_told,
    heed_told,
    joints_told,
    outline_told,
    saw_told,
    zone_told,
)
from drylay.papers.outlined_view import angle
from drylay.papers.outlined_ways import is_askew, places_told
from drylay.papers.setting_out import measured
from drylay.papers.sheet_parts import BOARDS, FRAME, SET_OUT, below, care, drawings, part
from drylay.papers.wording import bare, clean, size
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe


def outline_part(plan: Plan) -> Html:
    """Return the outline side by side, and opening by opening what to leave and to heed."""
    outline, units = plan.outline, plan.units
    if outline is None:
        return Html("")
    return part("outline", "Outline and openings", [
        para(outline_told(outline, units)),
        _sides(outline, units),
        *(_opening(plan, opening) for opening in outline.openings),
    ])  # fmt: skip


def _sides(outline: Outline, units: str) -> Html:
    columns = (("Side", TEXT), ("What it is", TEXT), ("Length", FIGURE),
               ("Corner at its start", FIGURE), ("From", FIGURE), ("To", FIGURE),
               ("Fascia", FIGURE))  # fmt: skip
    rows = [
        (side.mark, side.kind, bare(side.length_mm, units), angle(side.corner_deg),
         f"{bare(side.start.along_mm, units)}, {bare(side.start.across_mm, units)}",
         f"{bare(side.end.along_mm, units)}, {bare(side.end.across_mm, units)}",
         bare(side.facing_mm, units) if side.facing_mm else "none")
        for side in outline.sides
    ]  # fmt: skip
    caption = f"Sides in order; places {places_told(outline)}, from the datum corner"
    return table(caption, columns, rows)


def _opening(plan: Plan, opening: Opening) -> Html:
    """Return one opening: its corners, what to leave clear, what to heed."""
    units = plan.units
    name = f": {clean(opening.name, 40)}" if opening.name else ""
    columns = (("Corner of the hole", TEXT), ("Along", FIGURE), ("Across", FIGURE))
    rows = [
        (str(number), bare(corner.along_mm, units), bare(corner.across_mm, units))
        for number, corner in enumerate(opening.corners, 1)
    ]
    return below(
        f"{opening.mark} {opening.kind}{name}",
        points([clear_told([opening], units), *heed_told(plan, opening)]),
        table("The hole in the boards, from the datum corner", columns, rows),
    )


def outlined_setting_part(plan: Plan) -> Html:
    """Return how the frame is pegged out: pegs, ties, what to accept."""
    if plan.outline is None or plan.work is None:
        return Html("")
    units, pegs = plan.units, plan.work.setting_out.pegs
    columns = [("Peg", TEXT), ("Along, from the datum", FIGURE), ("Across", FIGURE)]
    rows = [(peg.mark, *(bare(mm, units) for mm in (peg.along_mm, peg.across_mm))) for peg in pegs]
    if is_askew(plan.outline):
        columns += [("As measured: along", FIGURE), ("across", FIGURE)]
        rows = [
            (*row, *(bare(mm, units) for mm in measured(peg)))
            for row, peg in zip(rows, pegs, strict=True)
        ]
    ties = [
        (f"{tie.start} to {tie.end}", size(tie.length_mm, units), "check" if tie.check else "sets")
        for tie in ties_of(plan)
    ]
    return part(SET_OUT, "Setting out", [
        care(plan, SET_OUT),
        *(para(text) for text in setting_texts(plan)),
        table("Pegs at the frame's outer corners", columns, rows),
        table("Ties, in their order", (("From and to", TEXT), ("Length", FIGURE),
                                       ("Sets a peg, or checks one", TEXT)), ties),
        *drawings(plan, SET_OUT),
    ])  # fmt: skip


def outlined_frame_part(plan: Plan) -> Html:
    """Return the frame: joist lines, members with what carries them, seams, fascia."""
    frame, units = plan.subframe, plan.units
    if frame is None:
        return Html("")
    return part(FRAME, "Frame", [
        care(plan, FRAME),
        para(frame_told(frame, units)),
        para(lines_told(plan, frame)),
        below("Members", _members(frame, plan.outline, units)),
        *_battens(plan, frame),
        below("Doubles", points(doubled_told(plan))),
        below("Seams", points(seams_told(frame, units))),
        below("Fascia", points(facings_told(frame, units))),
        *drawings(plan, FRAME),
    ])  # fmt: skip


def _members(frame: Subframe, outline: Outline | None, units: str) -> Html:
    columns = (("Member", TEXT), ("What", TEXT), ("Length", FIGURE), ("Ends", TEXT),
               ("Carried by", TEXT), ("Centre line, from", FIGURE), ("to", FIGURE))  # fmt: skip
    rows = [
        (member.mark, kind_told(member, outline), bare(member.length_mm, units),
         tuple(str(end) for end in member_ends(member) if end.value_deg) or "square",
         carried_told(member),
         f"{bare(member.start.along_mm, units)}, {bare(member.start.across_mm, units)}",
         f"{bare(member.end.along_mm, units)}, {bare(member.end.across_mm, units)}")
        for member in frame.members
    ]  # fmt: skip
    return table(f"Places {places_told(outline)}, from the datum corner", columns, rows)


def _battens(plan: Plan, frame: Subframe) -> list[Html]:
    """Return the table of battens, and their places on the bench; nothing without any."""
    outline, units = plan.outline, plan.units
    if not frame.battens:
        return []
    columns = (("Batten", TEXT), ("Panel of", TEXT), ("Length", FIGURE), ("Depth", FIGURE),
               ("Middle line, from", FIGURE), ("to", FIGURE))  # fmt: skip
    rows = [
        (batten.mark, batten.opening, bare(batten.length_mm, units),
         bare(batten.depth_mm, units),
         f"{bare(batten.start.along_mm, units)}, {bare(batten.start.across_mm, units)}",
         f"{bare(batten.end.along_mm, units)}, {bare(batten.end.across_mm, units)}")
        for batten in frame.battens
    ]  # fmt: skip
    caption = f"Places {places_told(outline)}, from the datum corner; on edge, ends square"
    bench = points(bench_told(plan, frame))
    return [below("Battens of panels", table(caption, columns, rows), para(BENCH), bench)]


def outlined_boards_part(plan: Plan) -> Html:
    """Return the boards row by row, joints, mitres, and corners of what is marked out."""
    laying, units = plan.laying, plan.units
    if laying is None:
        return Html("")
    return part(BOARDS, "Boards and joints, row by row", [
        care(plan, BOARDS),
        para(boards_told(laying, units)),
        points(zone_told(zone, plan.outline, units) for zone in laying.zones),
        para(joints_told(laying, units) if laying.joints else ""),
        para(arrow_told(plan)),
        points(begin_told(plan.outline, laying, units) if plan.outline else ()),
        _rows(laying, plan.outline, units),
        _edging(laying, units),
        _mitres(laying, units),
        *_corners(plan, laying),
        *drawings(plan, BOARDS),
    ])  # fmt: skip


def _rows(laying: Laying, outline: Outline | None, units: str) -> Html:
    """Return the rows, each with its pieces from its start, and the member under each joint."""
    pieces: dict[str, list[str]] = {}
    strung = strung_rows(outline, laying) if outline is not None else {}
    for piece in laying.pieces:
        on = f", end on {piece.to_member}" if piece.to_member else ""
        told = f"{piece.mark}: {bare(piece.cut_mm, units)}{on}"
        pieces.setdefault(piece.row, []).append(told)
    columns = (("Row", TEXT), ("Field", TEXT), ("Width", FIGURE), ("Edge, from", FIGURE),
               ("to", FIGURE), ("Pieces", TEXT))  # fmt: skip
    rows = [
        (f"{row.mark}, ripped" if row.ripped else row.mark, row.zone, bare(row.width_mm, units),
         *_edge_told(row, strung.get(row.mark), units),
         separated(pieces.get(row.mark, [])))
        for row in laying.rows
    ]  # fmt: skip
    caption = (
        "The edge of each row nearest the side that rows are counted from, where it crosses the "
        f"sides of the deck: {places_told(outline)}, and along the side from its corner; pieces as "
        "sawn"
    )
    return table(caption, columns, rows)


def _edge_told(row: LaidRow, strung: Strung | None, units: str) -> tuple[str, str]:
    """Return where a row's edge begins and ends; where it crosses no sides, as it is drawn."""
    if strung is not None:
        return crossing_told(strung.start, units), crossing_told(strung.end, units)
    one, other = (
        f"{bare(spot.along_mm, units)}, {bare(spot.across_mm, units)} (off the deck)"
        for spot in (row.start, row.end)
    )
    return one, other


def _edging(laying: Laying, units: str) -> Html:
    """Return the pieces that belong to no row: border, breaker boards, panels of hatches."""
    loose = [piece for piece in laying.pieces if not piece.row]
    columns = (("Piece", TEXT), ("What", TEXT), ("Length", FIGURE), ("Width", FIGURE))
    rows = [
        (piece.mark, piece.kind, bare(piece.cut_mm, units), bare(piece.width_mm, units))
        for piece in loose
    ]
    return table("Border, breaker boards and panels", columns, rows)


def _mitres(laying: Laying, units: str) -> Html:
    columns = (("Mitre", TEXT), ("Between", TEXT), ("Saw, off square", FIGURE),
               ("Length", FIGURE), ("Opens by", FIGURE))  # fmt: skip
    rows = [
        (mitre.mark, separated(mitre.pieces), saw_told(mitre), bare(mitre.length_mm, units),
         "" if mitre.opens_mm is None else bare(mitre.opens_mm, units))
        for mitre in laying.mitres
    ]  # fmt: skip
    return table("Mitres; each opens at its inner end as boards dry", columns, rows)


def _corners(plan: Plan, laying: Laying) -> list[Html]:
    """Return the corners of every piece that is marked out; nothing without any."""
    units = plan.units
    rows = []
    for piece in shaped_pieces(plan):
        found = corners_of(laying, piece)
        places = [
            f"{bare(corner.along_mm, units)}, {bare(corner.in_mm, units)}"
            for corner in found.corners
        ]
        rows.append((piece.mark, f"{found.end} end", f"{found.edge} edge", separated(places)))
    columns = (("Piece", TEXT), ("Along from", TEXT), ("In from", TEXT),
               ("Corners in order: along, in", TEXT))  # fmt: skip
    made = table("Corners of pieces that two straight cuts do not make", columns, rows)
    return [below("Pieces to mark out", para(CORNERS), made)] if rows else []
