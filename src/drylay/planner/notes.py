"""What the planner has to say about a deck it built: notes, cautions and stops."""

from drylay.edges.fascia import EDGES
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.pieces.model import BorderJoints, Pieces
from drylay.planner import (
    air_notes,
    board_notes,
    border_notes,
    clips,
    coats,
    fascia_notes,
    gap_room,
    ground,
    growing,
    holding,
    moist,
    pairs,
    roof_notes,
    siting,
    slip_notes,
    stock_notes,
    unwise,
    working,
)
from drylay.planner.built import Built, Framed, Sited
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE
from drylay.planner.screw_notes import (
    Check,
    boards_checks,
    deck_screw_checks,
    screwed,
    unheld,
)
from drylay.planner.screwed import CLEAR_OF_EDGES
from drylay.reasons import Source


def remarks(job: Job, built: Built) -> tuple[Finding, ...]:
    """Return everything worth telling about a built deck, worst first."""
    found = [
        *built.stops,
        *built.stood.findings,
        *_fixing_faults(job, built),
        *_on_edge(built),
        *bearing(job, built),
        *fascia_notes.remarks(built),
        *spares(built),
        *gaps_to_bound(built),
        *stock_notes.remarks(job, built),
        *_cover_changed(built),
        *_joint_notes(job, built),
        *pairs.remarks(job, built),
        *clips.remarks(job, built),
        *growing.remarks(built),
        *gap_room.remarks(built),
        *moist.remarks(job, built),
        *board_notes.remarks(job, built),
        *border_notes.remarks(job, built),
        *roof_notes.remarks(job, built),
        *air_notes.remarks(job, built),
        *slip_notes.remarks(job, built, "deck boards"),
        *holding.remarks(job, built),
        *coats.remarks(job, built),
        *siting.remarks(job, built),
        *unwise.remarks(job),
        *ground.remarks(built),
        *working.remarks(job, built),
    ]
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def stops_of(job: Job, built: Built) -> tuple[Finding, ...]:
    """Return what stops a deck although it could be cut and bought."""
    return tuple(found for found in remarks(job, built) if found.severity is Severity.STOP)


def _coach_screw_checks(built: Framed) -> list[Check]:
    coach, thickness_mm = built.fixings.coach_screws, built.frame.timber_thickness_mm
    if not coach.joist_ends:
        return []
    joist_mm, reach_mm = built.frame.joists[0].length_mm, _reach_of_both_mm(built)
    return [
        ("FIX-008", "coach screws", "those from both ends meet in the joist: name shorter ones, or "
         "make the frame deeper", reach_mm, joist_mm, reach_mm > joist_mm,
         "fixings.coach_screws.length_least_mm"),
        ("FIX-002", "coach screws", "the coach screw is too short; name a longer one",
         coach.length_mm, coach.length_least_mm, coach.length_mm < coach.length_least_mm,
         "fixings.coach_screws.length_least_mm"),
        ("FIX-003", "coach screws", "the head stands proud of its hole under the fascia",
         coach.head_mm, coach.sink_mm,
         fascia_notes.rims_faced(built) and coach.sink_mm < coach.head_mm,
         "fixings.coach_screws.sink_mm"),
        ("FIX-006", "coach screws", "sunk so deep, less than half the rim is left under the head",
         thickness_mm - coach.sink_mm, thickness_mm / 2, 2 * coach.sink_mm > thickness_mm,
         "fixings.coach_screws.sink_mm"),
    ]  # fmt: skip


def _shallow_rims(built: Framed) -> list[Finding]:
    """Return the caution where a rim has no depth for its coach screws clear of its edges."""
    coach, depth_mm = built.fixings.coach_screws, built.frame.timber_depth_mm
    top_mm, edge_mm = coach.top_least_mm or 0.0, coach.edge_least_mm or 0.0
    needs = exact(top_mm) + coach.per_joist_end * exact(edge_mm)
    if needs <= exact(depth_mm) or not coach.joist_ends:
        return []
    return [
        Finding(
            code="FIX-025",
            severity=Severity.CAUTION,
            subject="coach screws",
            message=f"the rim is too shallow for {coach.per_joist_end} at a joist's end, "
            f"{to_mm(needs):g} mm with {edge_mm:g} mm to each edge and between them, clear of deck "
            "screws: it may split; name deeper timber, thinner coach screws, or hangers",
            measured=depth_mm,
            unit="mm",
            source=CLEAR_OF_EDGES,
        )
    ]


def _reach_of_both_mm(built: Framed) -> float:
    """Return how far coach screws reach into a joist from both ends together."""
    coach, thickness_mm = built.fixings.coach_screws, built.frame.timber_thickness_mm
    faced = {face.side for face in built.edges.faces}
    rims_mm = [
        thickness_mm - (coach.sink_mm if side in faced else 0.0)
        for side in EDGES[built.surface.run]
    ]
    return sum(max(0.0, coach.length_mm - rim_mm) for rim_mm in rims_mm)


def _fixing_faults(job: Job, built: Built) -> list[Finding]:
    misfits = _stops(job, [*deck_screw_checks(built), *_coach_screw_checks(built)])
    return [*unheld(job, built), *misfits, *_shallow_rims(built)]


def screw_misfits(job: Job, built: Built) -> list[Finding]:
    """Return what is wrong with the screws of boards and frame, wherever the outer rows lie."""
    checks = [check for held in screwed(built) for check in boards_checks(built, held)]
    misfits = _stops(job, [*checks, *_coach_screw_checks(built)])
    return [*misfits, *_shallow_rims(built), *_on_edge(built)]


def frame_faults(job: Job, built: Framed) -> list[Finding]:
    """Return what is wrong with a frame and the coach screws in it, whatever lies on it."""
    return [*_stops(job, _coach_screw_checks(built)), *_shallow_rims(built), *_on_edge(built)]


def _stops(job: Job, checks: list[Check]) -> list[Finding]:
    return [
        Finding(
            code=code,
            severity=Severity.STOP,
            subject=subject,
            message=message,
            measured=measured,
            limit=limit,
            unit="mm",
            source=job.rules.source(path),
        )
        for code, subject, message, measured, limit, wrong, path in checks
        if wrong
    ]


def _on_edge(built: Framed) -> list[Finding]:
    frame = built.frame
    if frame.timber_depth_mm > frame.timber_thickness_mm:
        return []
    return [
        Finding(
            code="FRM-004",
            severity=Severity.STOP,
            subject="frame timber",
            message="the timber cannot stand on edge: its depth is not above its thickness",
            measured=frame.timber_depth_mm,
            limit=frame.timber_thickness_mm,
            unit="mm",
            source=PRACTICE,
        )
    ]


def bearing(job: Job, built: Built) -> list[Finding]:
    """Return the caution where board ends bear on too little of a joist."""
    sets: list[tuple[str, str, Pieces | BorderJoints]] = [("joints", "pieces", built.pieces)]
    if built.pieces.border is not None:
        sets.append(("joints of the border", "pieces.border", built.pieces.border))
    return [
        Finding(
            code="JNT-004",
            severity=Severity.CAUTION,
            subject=subject,
            message="board ends bear on little of the joist: screw a batten to its side under "
            "each joint",
            measured=joined.end_bearing_mm,
            limit=joined.end_bearing_least_mm,
            unit="mm",
            source=job.rules.source(f"{path}.end_bearing_least_mm"),
        )
        for subject, path, joined in sets
        if joined.joint_count and joined.end_bearing_mm < joined.end_bearing_least_mm
    ]


def spares(built: Built) -> list[Finding]:
    """Return the caution where the stock has too few boards for all spares."""
    if not built.spares_missing:
        return []
    return [
        Finding(
            code="BUY-002",
            severity=Severity.CAUTION,
            subject="spare boards",
            message="the stock has too few boards for all spares wanted",
            measured=float(built.spares_missing),
            unit="boards missing",
            source=Source(kind="merchant record", title="the stock catalogue"),
        )
    ]


def gaps_to_bound(built: Sited) -> list[Finding]:
    """Return the note on each purchase that is not proven to be the cheapest."""
    return [
        Finding(
            code="BUY-003",
            severity=Severity.NOTE,
            subject=bought.what,
            message="not proven cheapest: a cheaper purchase could save at most this much",
            measured=float(bought.gap),
            limit=0.0,
            unit=built.buying.currency,
            source=ARITHMETIC,
        )
        for bought in built.buying.purchases
        if bought.gap
    ]


def _centred_told(built: Built) -> str:
    supports = built.supports
    if supports.seams:
        return "every joint is centred on the seam of a pair of joists, an end on each"
    if supports.battens_per_joint:
        return "every joint is centred on a joist's far face, one end on the joist, one on a batten"
    return "every joint is centred on a joist"


def _cover_changed(built: Built) -> list[Finding]:
    change_mm = built.surface.cover_change_mm
    if not change_mm:
        return []
    return [
        Finding(
            code="ROW-002",
            severity=Severity.NOTE,
            subject="cover",
            message=f"cover and frame are changed by {change_mm:+g} mm across the rows, so that "
            "the rows come out",
            measured=change_mm,
            unit="mm",
            source=ARITHMETIC,
        )
    ]


def _staggered(built: Built) -> tuple[str, float, None, str]:
    """Return how joints of neighbouring rows stand, with its figure.

    Without a stagger they may be in line, and the figure is on how many lines they are.
    """
    if built.pieces.stagger_bays:
        told = "joints of neighbouring rows are staggered by at least so many bays"
        return told, float(built.pieces.stagger_bays), None, "bays"
    border = {line.mark for line in built.surface.rows if line.border}
    lines = len({joint.joist for joint in built.pieces.joints if joint.row not in border})
    told = "joints of neighbouring rows may lie in line: no stagger is asked for"
    return told, float(lines), None, "line" if lines == 1 else "lines"


def _joint_notes(job: Job, built: Built) -> list[Finding]:
    if not built.pieces.joint_count:
        return []
    on_sale = [entry for entry in job.articles.board.lengths if entry.limit != 0]
    longest_mm = max(entry.length_mm for entry in on_sale)
    whole_mm = built.surface.row_length_mm + 2 * built.pieces.trim_allowance_mm
    short = whole_mm > longest_mm - 2 * job.brief.cutting.end_trim_mm
    trimmed = job.brief.cutting.end_trim_mm > 0 or built.pieces.trim_allowance_mm > 0
    trims = ", trims reckoned in" if trimmed else ""
    because = (
        f"boards are shorter than the deck{trims}, so joints are needed"
        if short
        else "jointed rows cost less to buy; joints.most_per_row = 0 asks for whole boards"
    )
    notes = [
        ("JNT-001", because,
         built.surface.row_length_mm, longest_mm, "mm", ARITHMETIC),
        ("JNT-002", _centred_told(built), float(built.pieces.joint_count), None,
         "joints", ARITHMETIC),
        ("JNT-003", *_staggered(built), job.rules.source("pieces.stagger_bays")),
    ]  # fmt: skip
    return [
        Finding(
            code=code,
            severity=Severity.NOTE,
            subject="joints",
            message=message,
            measured=measured,
            limit=limit,
            unit=unit,
            source=source,
        )
        for code, message, measured, limit, unit, source in notes
    ]
