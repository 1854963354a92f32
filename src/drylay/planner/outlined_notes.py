"""What is worth telling of a deck on an outline: of its shape, its boards, its frame, its order."""

import math
from collections.abc import Iterator

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.laying.rows import first_leans
from drylay.outline.notes import opening_notes, own_line_note
from drylay.planner import (
    board_notes,
    clips,
    finishing,
    holding_notes,
    lorry,
    notes,
    outlined_air,
    outlined_doubles,
    outlined_ground,
    outlined_site,
    outlined_work,
    roof_notes,
    slip_notes,
    stock_notes,
    unwise,
)
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.planner.outlined_boards import necks
from drylay.planner.outlined_build import BuiltOutlined
from drylay.planner.outlined_ends import over_fascia_alone, sharp_ends
from drylay.planner.outlined_field_edges import edges_moved
from drylay.planner.outlined_narrow import narrow_zones
from drylay.planner.outlined_panels import wide_panels
from drylay.planner.outlined_view import as_rectangle
from drylay.planner.rows import ARITHMETIC, PRACTICE
from drylay.planner.screw_notes import unheld
from drylay.reasons import Source


def outlined_remarks(job: Job, built: BuiltOutlined) -> tuple[Finding, ...]:
    """Return everything worth telling about a built deck, worst first."""
    seen = as_rectangle(built)
    found = [
        *built.stops,
        *built.stood.findings,
        *_fixings(job, seen),
        *_of_boards(job, built, seen),
        *_slivers(built),
        *_necks(built),
        *narrow_zones(job, built.laying.zones),
        *over_fascia_alone(built.laying.pieces, built.subframe.members),
        *sharp_ends(built.subframe.members),
        *_shape(built),
        *_taper(built),
        *edges_moved(job, built.laid.ring),
        *_frame(job, built),
        *_border(built),
        *_openings(job, built),
        *outlined_site.remarks(job, built),
        *unwise.remarks(job),
        *outlined_air.remarks(job, built),
        *outlined_ground.remarks(job, built),
        *outlined_work.remarks(job, built),
        *outlined_work.stopped_tapes(built.outline, built.work),
        *_order(job, seen),
    ]
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def _fixings(job: Job, seen: Built) -> Iterator[Finding]:
    yield from unheld(job, seen)
    yield from notes.screw_misfits(job, seen)
    yield from notes.bearing(job, seen)
    yield from clips.remarks_anywhere(job, seen)
    yield from holding_notes.remarks(job, seen)
    yield from finishing.remarks(job, seen)


def _of_boards(job: Job, built: BuiltOutlined, seen: Built) -> Iterator[Finding]:
    board, laying = job.articles.board, built.laying
    timber = bool(laying.timber)
    if laying.handed:
        yield _note("BRD-001", "deck boards",
                    "handed: no piece may be turned end for end. Draw an arrow along every length "
                    "before it is sawn, all the same way; laid, every arrow points along the "
                    "boards' run", job.rules.source("pieces.handed"))  # fmt: skip
    yield from board_notes.not_through_inserts(job)
    if job.brief.climate.laying_c is not None:
        yield _note("GRW-010", "deck boards",
                    "how these boards grow in the heat is not reckoned for each row of an outline: "
                    "the end gap is that of the longest board on sale", ARITHMETIC)  # fmt: skip
    yield from board_notes.fall(job, seen.surface, "deck boards")
    yield from board_notes.cups(board, "deck boards", laying.board_width_mm, timber=timber)
    yield from board_notes.washes(board, "deck boards", timber=timber)
    yield from board_notes.modified(board, "deck boards")
    yield from roof_notes.remarks(job, seen)
    yield from slip_notes.remarks(job, seen, "deck boards")


def _slivers(built: BuiltOutlined) -> Iterator[Finding]:
    """Yield the caution on each strip that a side leaves narrower than it may be."""
    limit = built.laying.sliver_limit_mm
    for field in built.laid.fields:
        for strip in field.fit.slivers:
            yield Finding(
                code="LAY-002",
                severity=Severity.CAUTION,
                subject=field.shape.mark,
                message=f"a strip narrower than it may be, {strip.at_320 / 320:g} mm from where "
                "its rows are counted from, and no gap within its range avoids it: move the side, "
                "count rows from the other one (laying.first_row), or widen the range of gaps",
                measured=strip.width_320 / 320,
                limit=limit,
                unit="mm",
                source=PRACTICE,
            )


def _necks(built: BuiltOutlined) -> Iterator[Finding]:
    """Yield the caution on boards that an opening leaves little of beside it."""
    limit = built.laying.sliver_limit_mm
    for piece, width_mm, opening in necks(built.boards, built.outline.openings):
        if width_mm < limit:
            yield Finding(
                code="LAY-005",
                severity=Severity.CAUTION,
                subject=piece,
                message=f"little of the board is left beside {opening}: it splits there under "
                "foot; move the opening by a row, or have a noggin under the neck",
                measured=width_mm,
                limit=limit,
                unit="mm",
                source=PRACTICE,
            )


def _shape(built: BuiltOutlined) -> Iterator[Finding]:
    laying, outline = built.laying, built.outline
    if any(side.corner_deg > 180 for side in outline.sides) and len(laying.zones) == 1:
        yield _note("LAY-006", "rows",
                    "rows continue through the corner in one line: set them all out from one edge, "
                    "and check with a string through the corner", PRACTICE)  # fmt: skip
    if laying.splay_cuts:
        yield _note("LAY-007", "splay cuts",
                    "ends sawn at an angle are charged their overall length, tip to tip; the cut "
                    "list tells the saw's setting for each", ARITHMETIC,
                    measured=float(laying.splay_cuts), unit="cuts")  # fmt: skip
    if laying.shaped_count:
        yield _note("LAY-008", "shaped boards",
                    "these are marked out by the corners that the job sheet lists, laid loose, "
                    "and sawn in place",
                    PRACTICE, measured=float(laying.shaped_count), unit="boards")  # fmt: skip
    yield from _fan(built)
    if any(side.kind == "house" for side in outline.sides):
        gap_mm = built.site.wall_gap_mm if built.site else 10.0
        yield _note("SIT-020", "house wall",
                    "the gap to the house wall is kept along every part of it, bays and returns "
                    "too: the outline is the deck's own edge, not the wall", PRACTICE,
                    measured=gap_mm, unit="mm")  # fmt: skip
    if any(side.kind == "pool" for side in outline.sides):
        yield _note("OUT-011", "pool side",
                    "boards may reach over a pool's edge by 40 mm at most; a barrier of 1200 mm "
                    "round the pool is the rule in many places (AS 1926.1, from memory), and "
                    "whatever is electric within 3.5 m is a licensed electrician's (BS 7671 "
                    "section 702, from memory): ask your building control body",
                    PRACTICE, severity=Severity.CAUTION)  # fmt: skip
    if any(side.kind == "boundary" for side in outline.sides):
        yield _note("OUT-012", "boundary",
                    "a deck along a boundary: make sure where it runs, and what the neighbour and "
                    "local rules ask", PRACTICE)  # fmt: skip


def _fan(built: BuiltOutlined) -> Iterator[Finding]:
    """Yield how a wall that is out of square is met: over all rows, and what no fan takes up."""
    main = built.laid.fields[0]
    if not main.leans_mm:
        return
    left_mm = abs(main.leans_mm) - abs(main.grid.fan_mm)
    yield _note("LAY-009", "fan",
                "the far side is not parallel to the boards: the gaps take it up, all by the same "
                "amount from one end of the run to the other", PRACTICE,
                measured=abs(main.grid.fan_mm), unit="mm")  # fmt: skip
    if left_mm > 0.5:
        yield _note("LAY-010", "fan",
                    "more than the gaps can take up (1 mm each): the last row is sawn to a taper",
                    PRACTICE, measured=round(left_mm, 1), unit="mm",
                    severity=Severity.CAUTION)  # fmt: skip


def _taper(built: BuiltOutlined) -> Iterator[Finding]:
    """Yield that the first row takes a taper, where rows are counted from a side that leans."""
    for laid in built.laid.fields:
        other = "far" if laid.shape.first_row == "near" else "near"
        if first_leans(laid.shape) and not first_leans(evolve(laid.shape, first_row=other)):
            yield _note("LAY-012", laid.shape.mark,
                        "rows are counted from a side that is not parallel to the boards: the "
                        f"first row is sawn to a taper; count them from the other ({other})",
                        PRACTICE, severity=Severity.CAUTION)  # fmt: skip


def _frame(job: Job, built: BuiltOutlined) -> Iterator[Finding]:
    frame = built.subframe
    if frame.board_to_joist_deg != 90:
        yield _note("SUB-010", "joists",
                    "joists stand closer for diagonal boards: a board's bay is longer by the sine "
                    "of its angle to them", job.rules.source("supports.most_centres_mm"),
                    measured=frame.most_centres_mm, limit=frame.square_centres_mm,
                    unit="mm")  # fmt: skip
    if any(piece.start_deg or piece.end_deg or piece.shaped for piece in built.laying.pieces):
        yield _note("SUB-011", "cut ends",
                    "rims, trimmers or blocking lie under every cut end, none further from one "
                    "than this along the board", PRACTICE, measured=frame.end_support_most_mm,
                    unit="mm")  # fmt: skip
    yield from outlined_doubles.remarks(frame, built.fixings)


def _border(built: BuiltOutlined) -> Iterator[Finding]:
    laying, frame = built.laying, built.subframe
    span = frame.lines_mm[-1] - frame.lines_mm[0]
    plain = math.ceil(span / frame.most_centres_mm - 1e-9) + 1
    if laying.border_courses:
        yield _note("BDR-020", "border",
                    "extra joists and noggins carry the border's inner edge and the ends of the "
                    "field's boards, touching in pairs: so many joists more than a plain deck has",
                    PRACTICE, measured=float(frame.line_count - plain), unit="joists")  # fmt: skip
        opens = laying.mitre_opens_mm
        told = "" if opens is None else ": by this much at the inner end, the tips held"
        yield _note("BDR-021", "mitres",
                    f"mitres open at the heel as wide boards dry{told}; leave the inner edges "
                    "free to move, and screw near the tips", ARITHMETIC, measured=opens,
                    unit="" if opens is None else "mm", severity=Severity.CAUTION)  # fmt: skip
    if laying.breaker_count:
        yield _note("LAY-011", "breaker boards",
                    "they part the field so that boards end at them and need no butt joint",
                    PRACTICE, measured=float(laying.breaker_count), unit="boards")  # fmt: skip


def _openings(job: Job, built: BuiltOutlined) -> Iterator[Finding]:
    yield from own_line_note(built.outline)
    yield from opening_notes(job.brief.outline.openings)
    yield from _panels(built)


def _panels(built: BuiltOutlined) -> Iterator[Finding]:
    """Yield the caution on each panel whose boards span further than loose boards may."""
    for mark, span_mm in wide_panels(built.outline, built.laying, built.subframe):
        yield _note("OUT-025", mark,
                    "its panel's boards span so much between the ledges, further than such boards "
                    "may from joist to joist, and its battens only tie them: nobody is to stand on "
                    "it before they are carried between, by stiffer battens that bear on the "
                    "timbers beside the hole, say; choose these with your merchant", ARITHMETIC,
                    measured=span_mm, unit="mm", limit=built.subframe.square_centres_mm,
                    severity=Severity.CAUTION)  # fmt: skip


def _order(job: Job, seen: Built) -> Iterator[Finding]:
    yield from notes.spares(seen)
    yield from notes.gaps_to_bound(seen)
    yield from stock_notes.remarks(job, seen)
    yield from lorry.remarks(seen)


def _note(  # noqa: PLR0917 - read as the row of a table
    code: str, subject: str, message: str, source: Source, measured: float | None = None,
    unit: str = "", limit: float | None = None, severity: Severity = Severity.NOTE,
) -> Finding:  # fmt: skip
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured, limit=limit, unit=unit, source=source)  # fmt: skip
