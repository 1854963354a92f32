"""Clips and end caps counted again; how boards move, reckoned from its own figures."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from drylay.audit.edged import border_marks
from drylay.audit.exact import ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need, off_by, same_count, same_length, same_text
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw, Witness, WitnessedCheck
from drylay.audit.pieces import pieces_by_row, pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.supports import offsets, paired
from drylay.pieces.model import BorderMovement, Movement, Piece
from drylay.plan.model import Plan

CLIPS = conventions("Clips")
MOVEMENT = conventions("Movement of boards")
BRIEF = conventions("The brief's own wish")


def on_battens(plan: Plan) -> tuple[int, int, int]:
    """Return how many gaps, and joints of the first and of the last row, cross battens."""
    rows = [row.mark for row in surface_of(plan).rows]
    found, gaps = [0, 0], set[tuple[str, int]]()
    for joint in () if paired(plan) else pieces_of(plan).joints:
        if not joint.beside or joint.row not in rows:
            continue
        index = rows.index(joint.row)
        gaps |= {(joint.joist, gap) for gap in (index, index + 1) if 1 <= gap < len(rows)}
        found[0] += index == 0
        found[1] += index == len(rows) - 1
    return len(gaps), found[0], found[1]


def clips_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless clips and starters are counted from gaps, joists and battens."""
    clips = fixings_of(plan).clips
    if clips is None:
        return
    joists, rows = len(frame_of(plan).joists), len(surface_of(plan).rows)
    gaps, first, last = on_battens(plan)
    at, crossings = "fixings.clips", (rows - 1) * joists + gaps
    message = "not the gaps' crossings with joists and battens"
    yield from same_count(f"{at}.crossings", message, clips.crossings, crossings, CLIPS)
    message = "not so many at each crossing"
    count = clips.per_crossing * crossings
    yield from same_count(f"{at}.count", message, clips.count, count, CLIPS)
    message = "not so many on each joist"
    starters = clips.starter_per_joist * (joists + first)
    yield from same_count(f"{at}.starter_count", message, clips.starter_count, starters, CLIPS)
    message = "not so many on each joist beside a ripped edge"
    edges = clips.end_row_screws_per_joist * _beside_rips(plan, (joists + first, joists + last))
    yield from same_count(f"{at}.edge_screws", message, clips.edge_screws, edges, CLIPS)


def _beside_rips(plan: Plan, outer: tuple[int, int]) -> int:
    """Return at how many places a ripped edge lies in clips; `outer`: where outer rows lie."""
    rows = surface_of(plan).rows
    ripped = (rows[0].ripped, rows[-1].ripped) if len(rows) > 1 else (False, False)
    return sum(places for places, rip in zip(outer, ripped, strict=True) if rip)


def clips_hold_clip_boards(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where boards are clipped that are to be screwed, or the reverse."""
    fixings = fixings_of(plan)
    told = fixings.hidden_clips
    if told is not None and (told == 1) != (fixings.clips is not None):
        message = "held by clips, or not, against the family"
        yield Flaw(subject="fixings.clips", message=message, source=CLIPS)
    clips = fixings.clips
    for row in surface_of(plan).rows[1:] if clips is not None else ():
        gap = ticks(clips.gap_mm) if clips is not None else 0
        message = "not the gap that the clip leaves"
        yield from same_length(f"{row.mark}.gap_mm", message, row.gap_mm, gap, CLIPS)
    if clips is not None and (not clips.article.strip() or clips.per_crossing < 1):
        message = "no article, or none at a crossing"
        yield Flaw(subject="fixings.clips", message=message, source=CLIPS)


def boards_are_fixed_once(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each piece is fixed at the joist nearest its middle, and there alone."""
    clips, at = fixings_of(plan).clips, offsets(plan)
    if clips is None:
        return
    wanted = []
    for piece in pieces_of(plan).pieces:
        middle = 2 * ticks(piece.start_mm) + ticks(piece.length_mm)
        nearest = min(range(len(at)), key=lambda line: (abs(2 * at[line] - middle), line))
        wanted.append((piece.mark, f"J{nearest + 1}"))
    rows, screwed = surface_of(plan).rows, clips.end_row_screws_per_joist > 0
    last = rows[-1].mark if rows and screwed else ""
    bare = sum(piece.row != last for piece in pieces_of(plan).pieces)
    message = "not one for each board that the last row's screws do not hold"
    at_points = clips.fixed_screws or 0
    yield from same_count("fixings.clips.fixed_screws", message, at_points, bare, CLIPS)
    told = [(point.piece, point.joist) for point in clips.fixed_points]
    message = "pieces with a fixed point"
    subject = "fixings.clips.fixed_points"
    yield from same_count(subject, message, len(told), len(wanted), CLIPS)
    for found, ought in zip(told, wanted, strict=False):
        message = "not fixed at the joist nearest its middle"
        yield from same_text(ought[0], message, " ".join(found), " ".join(ought), CLIPS)


def last_row_can_slide(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the last row's slots let its furthest end move both ways."""
    fixings, movement = fixings_of(plan), pieces_of(plan).movement
    clips, screws, rows = fixings.clips, fixings.deck_screws, list(pieces_by_row(plan).values())
    if clips is None:
        return
    wanted, wide = None, None
    if movement and movement.hottest_c is not None and screws and clips.end_row_screws_per_joist:
        reaches = _reaches(plan)
        reach = max(max(abs(e) for e in reaches[piece.mark]) for piece in rows[-1])
        cold = movement.laying_c if movement.coldest_c is None else movement.coldest_c
        moved = (_grown(reach, movement, movement.hottest_c), _grown(reach, movement, cold))
        shank = Fraction(repr(float(screws.shank_mm)))
        wanted = float(-(-2 * (shank + 2 * max(abs(m or Fraction(0)) for m in moved)) // 1) / 2)
        wide = float(shank + 1)
    for name, ought in (("slot_mm", wanted), ("slot_width_mm", wide)):
        told: float | None = getattr(clips, name)
        if told != ought:
            message = "not a slot that the last row can slide in"
            yield Flaw(subject=f"fixings.clips.{name}", message=message, measured=told,
                       limit=ought, unit="mm", source=CLIPS)  # fmt: skip


def end_caps_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless caps close both ends of every piece."""
    caps = fixings_of(plan).end_caps
    if caps is None:
        return
    ends, at = 2 * len(pieces_of(plan).pieces), "fixings.end_caps"
    yield from same_count(f"{at}.ends", "not both ends of every piece", caps.ends, ends, CLIPS)
    message = "not so many at each end"
    yield from same_count(f"{at}.count", message, caps.count, caps.per_end * ends, CLIPS)
    if not caps.article.strip() or caps.per_end < 1:
        yield Flaw(subject=at, message="no article, or no cap at an end", source=CLIPS)


def clip_cautions_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where starters are wanted and not named, and no finding tells it."""
    clips, told = fixings_of(plan).clips, {finding.code for finding in plan.findings}
    bare = clips is not None and clips.starter_count and not clips.starter_article
    if bare and "CLP-004" not in told:
        message = "starter clips are wanted and not bought, and no finding tells it"
        yield Flaw(subject="CLP-004", message=message, source=CLIPS)
    ripped = clips is not None and _beside_rips(plan, (1, 1))
    if ripped and "CLP-008" not in told:
        message = "clips hold one board only beside a ripped edge, and no finding tells it"
        yield Flaw(subject="CLP-008", message=message, measured=ripped, limit=0, source=CLIPS)


Moving = Movement | BorderMovement


def _moving(plan: Plan) -> Iterator[tuple[str, Moving, float, list[Piece]]]:
    """Yield the path of each movement told, with the end gap and the pieces it speaks of."""
    pieces, edged = pieces_of(plan), border_marks(plan)
    border = pieces.border
    if pieces.movement is not None:
        field = [piece for piece in pieces.pieces if piece.row not in edged]
        yield "pieces.movement", pieces.movement, pieces.end_gap_mm, field
    if border is not None and border.movement is not None:
        own = [piece for piece in pieces.pieces if piece.row in edged]
        yield "pieces.border.movement", border.movement, border.end_gap_mm, own


def _grown(length: Fraction, movement: Moving, to_c: float | None) -> Fraction | None:
    """Return what a length grows from laying to another temperature, in its own unit."""
    if to_c is None:
        return None
    kelvins = Fraction(repr(float(to_c))) - Fraction(repr(float(movement.laying_c)))
    return length * Fraction(repr(float(movement.growth_per_k))) * kelvins


def _reaches(plan: Plan) -> dict[str, tuple[Fraction, Fraction]]:
    """Return how many mm of each piece lie before and past its fixed point, else its middle."""
    clips, lines = fixings_of(plan).clips, offsets(plan)
    centres = {f"J{at}": Fraction(line, 320) for at, line in enumerate(lines, start=1)}
    fixed = {} if clips is None else {p.piece: centres.get(p.joist) for p in clips.fixed_points}
    found = {}
    for piece in pieces_of(plan).pieces:
        start, length = Fraction(ticks(piece.start_mm), 320), Fraction(ticks(piece.length_mm), 320)
        at = fixed.get(piece.mark)
        before = length / 2 if at is None else at - start
        found[piece.mark] = (before, length - before)
    return found


def _most_moving(plan: Plan, moving: list[Piece]) -> tuple[Fraction | None, Fraction | None]:
    """Return the most mm of board between fixed points at a joint, and out to the deck's edge."""
    marks = {piece.mark for piece in moving}
    reaches = _reaches(plan)
    rows = [laid for laid in pieces_by_row(plan).values() if laid and laid[0].mark in marks]
    meeting = [
        reaches[one.mark][1] + reaches[other.mark][0] for laid in rows
        for one, other in pairwise(laid)
    ]  # fmt: skip
    ends = [e for laid in rows for e in (reaches[laid[0].mark][0], reaches[laid[-1].mark][1])]
    return max(meeting, default=None), max(ends, default=None)


def boards_move_as_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless growth and gaps follow from coefficient, temperatures and pieces."""
    for path, movement, end_gap_mm, laid in _moving(plan):
        gap = Fraction(ticks(end_gap_mm), 320)
        between, outer = _most_moving(plan, laid)
        hot, cold = (
            None if between is None else _grown(between, movement, to_c)
            for to_c in (movement.hottest_c, movement.coldest_c)
        )
        wanted = {
            "growth_mm": _grown(Fraction(ticks(movement.board_mm), 320), movement,
                                movement.hottest_c),
            "between_mm": between,
            "outer_mm": None if outer is None else _grown(outer, movement, movement.hottest_c),
            "narrowest_mm": None if hot is None else gap - hot,
            "widest_mm": None if cold is None else gap - cold,
        }  # fmt: skip
        for name, ought in wanted.items():
            yield from _as_grown(f"{path}.{name}", getattr(movement, name), ought)
    if len({movement.laying_c for _, movement, *_ in _moving(plan)}) > 1:
        message = "laid on another day than the field"
        yield Flaw(subject="pieces.border.movement.laying_c", message=message, source=MOVEMENT)


def _as_grown(path: str, told: float | None, ought: Fraction | None) -> Iterator[Flaw]:
    limit = None if ought is None else float(ought)
    if told != limit:
        message = "not what boards come to by their growth"
        yield Flaw(subject=path, message=message, measured=told, limit=limit, unit="mm",
                   source=MOVEMENT)  # fmt: skip


def pressing_boards_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where hot boards press and no finding tells it, or a piece is too long."""
    told = {(finding.code, finding.subject) for finding in plan.findings}
    for path, movement, _, laid in _moving(plan):
        subject = "border's end gap" if ".border." in path else "end gap"
        if (movement.narrowest_mm or 0.0) < 0 and ("MOV-102", subject) not in told:
            message = "boards press when hottest, and no finding tells it"
            yield Flaw(subject="MOV-102", message=message, measured=movement.narrowest_mm,
                       limit=0.0, unit="mm", source=MOVEMENT)  # fmt: skip
        jointed = len(laid) > len({piece.row for piece in laid})
        if jointed and ("MOV-101", subject) not in told:
            message = "the end gap hangs on laying day, and no finding tells it"
            yield Flaw(subject="MOV-101", message=message, source=MOVEMENT)
        longest = max((ticks(piece.cut_mm) for piece in laid), default=0)
        if longest > ticks(movement.board_mm):
            message = "a piece is longer than the longest board that growth is told for"
            limit = ticks(movement.board_mm)
            yield off_by(f"{path}.board_mm", message, longest, limit, MOVEMENT)


def boards_weigh_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the boards weigh what their metres do by the merchant's record.

    Beside a border they are not told: the delivery tells of both.
    """
    stock, surface, pieces = need(witness.stock, "stock"), surface_of(plan), pieces_of(plan)
    each = [b.mass_kg_m for b in stock.boards if b.code == surface.board_article]
    per_m = need(each or None, f"article {surface.board_article!r} in the stock")[0]
    wanted: float | None = None
    if per_m is not None and surface.border is None:
        width = Fraction(ticks(surface.board_width_mm))
        metres = sum(
            Fraction(ticks(piece.length_mm), 320_000) * ticks(piece.width_mm) / width
            for piece in pieces.pieces
        )
        wanted = -(-metres * Fraction(repr(per_m)) * 10 // 1) / 10
    if pieces.mass_kg != wanted:
        yield Flaw(subject="pieces.mass_kg", message="not what the boards weigh",
                   measured=pieces.mass_kg, limit=wanted, unit="kg", source=MOVEMENT)  # fmt: skip


def clips_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless clips, starters and caps are those the brief names, as sold."""
    brief, fixings = need(witness.brief, "brief as witness"), fixings_of(plan)
    wish, clips, caps = brief.fixings, fixings.clips, fixings.end_caps
    found = "" if clips is None else clips.article
    message = "not the brief's article"
    yield from same_text("fixings.clips.article", message, found, wish.clip or "", BRIEF)
    if clips is not None and clips.starter_per_joist:
        starter, wanted = clips.starter_article, wish.starter_clip or ""
        yield from same_text("fixings.clips.starter_article", message, starter, wanted, BRIEF)
    if caps is not None:
        cap = wish.end_cap or ""
        yield from same_text("fixings.end_caps.article", message, caps.article, cap, BRIEF)
    stock = need(witness.stock, "stock as witness")
    sold = {clip.code: clip.gap_mm for clip in stock.clips}
    gap_mm = None if clips is None else sold.get(clips.article)
    if clips is not None and gap_mm is not None:
        message = "not the gap it is sold with"
        yield from same_length("fixings.clips.gap_mm", message, clips.gap_mm, ticks(gap_mm), CLIPS)


def lines_as_fixed(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless joint lines are those the brief fixes, boards running its way."""
    brief, supports = need(witness.brief, "brief as witness"), need(plan.supports, "supports")
    fixed = brief.joints.lines_mm
    if fixed is None or surface_of(plan).run != brief.board.run:
        return
    told = [ticks(seam.offset_mm) for seam in supports.seams]
    if told != [ticks(line) for line in fixed]:
        message = "not the joint lines that the brief fixes"
        yield Flaw(subject="supports.seams", message=message, source=BRIEF)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-613", "clips are counted from gaps, joists and battens", clips_are_counted),
    ("AUD-614", "clips hold just the boards that clips are to hold", clips_hold_clip_boards),
    ("AUD-615", "every board is fixed once, at the joist nearest its middle",
     boards_are_fixed_once),
    ("AUD-619", "the last row's slots let it slide", last_row_can_slide),
    ("AUD-616", "end caps are counted from pieces", end_caps_are_counted),
    ("AUD-617", "what clips want besides stands among the findings", clip_cautions_are_told),
    ("AUD-417", "boards move as their growth and temperatures say", boards_move_as_told),
    ("AUD-418", "boards that press, and laying day, stand among the findings",
     pressing_boards_are_told),
)  # fmt: skip
#: The same with brief and stock at hand.
HELD: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W81", "clips and caps are the brief's articles, as sold", clips_as_wished),
    ("AUD-W82", "joint lines are those the brief fixes", lines_as_fixed),
    ("AUD-W83", "boards weigh what their metres do as sold", boards_weigh_as_sold),
)
