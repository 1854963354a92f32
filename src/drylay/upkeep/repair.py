"""Rows laid anew in phase with the old ones, whatever the new boards measure; boards turned."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from attrs import frozen

from drylay.counting import counted
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.intake.shown import shown
from drylay.marks import PER_MM, exact, to_mm
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.surface.model import Row, Surface
from drylay.upkeep.as_laid import laid_anew
from drylay.upkeep.asked import figure_faults, limit_source, refuse
from drylay.upkeep.model import NewRow, Repair, Turning
from drylay.upkeep.parts import refused
from drylay.upkeep.screwed import is_clipped

PHASE = Source(
    kind="arithmetic",
    title="rows in phase",
    clause="near edges a whole number of board widths and gaps apart",
)
PRACTICE = Source(kind="common practice", title="common practice, no source", clause="turning")
#: No board of wood is narrower or wider.
NARROWEST_MM, WIDEST_MM = 20.0, 500.0


@frozen(kw_only=True)
class _Lay:
    """What rows are laid by: old rows that stay, widths in 1/320 mm, how much the new ones grow."""

    surface: Surface
    rows: tuple[Row, ...]
    old: int
    new: int
    grows: Fraction | None
    least_by: Source
    most_by: Source


@counted
def repair(
    plan: Plan,
    *,
    rows: Sequence[str],
    new_width_mm: float,
    old_width_mm: float | None = None,
    new_pct: float | None = None,
    old_pct: float | None = None,
) -> Repair:
    """Return where new boards lie in place of some neighbouring rows, and the gaps they get.

    Every new row begins where the old one did, so that near edges stay whole pitches apart; where
    that breaks a limit, every new row lies on the middle of the old one, which shares the odd
    width between both gaps. Widths are the mean of ten boards as they are now, `old_width_mm` that
    of the boards that stay (else the plan's). With the moisture of new and old boards, and
    how they move by the plan, the gaps are told too as they settle.

    Raises:
        UpkeepError: No deck of boards on a rectangle; rows unknown, apart, or of the border;
            a width or moisture that cannot be meant.

    Findings: UPK-010 and UPK-011, a gap as laid narrower or wider than the plan allows; UPK-012,
    boards press when they have settled; UPK-013, clips fix the gap; UPK-006, rows were corrected
    while laying, and places are the design's.

    Source: arithmetic; limits of gaps are the plan's own.
    """
    surface, chosen = _asked(plan, rows)
    old_mm = chosen[0].width_mm if old_width_mm is None else old_width_mm
    refuse(_faults(old_mm, new_width_mm, new_pct, old_pct))
    lay = _Lay(
        surface=surface,
        rows=chosen,
        old=exact(old_mm),
        new=exact(new_width_mm),
        grows=_grown(surface, new_width_mm, new_pct, old_pct),
        least_by=limit_source(plan, "surface.gap_least_mm"),
        most_by=limit_source(plan, "surface.gap_most_mm"),
    )
    tried = {way: _laid(lay, way) for way in ("near edges", "middles")}
    kept = next((way for way, laid in tried.items() if not list(_breaks(lay, laid))), "")
    laid = tried[kept or "near edges"]
    return Repair(
        rows=laid,
        way=kept,
        old_width_mm=to_mm(lay.old),
        new_width_mm=to_mm(lay.new),
        settled_mm=None if lay.grows is None else _up(lay.new + lay.grows),
        gap_least_mm=surface.gap_least_mm,
        gap_most_mm=surface.gap_most_mm,
        source=PHASE,
        findings=(*_breaks(lay, laid), *_presses(laid), *_clips(plan, lay), *laid_anew(plan)),
    )


def _asked(plan: Plan, rows: Sequence[str]) -> tuple[Surface, tuple[Row, ...]]:
    """Return the rows of the plan that are asked about."""
    surface = plan.surface
    if surface is None or plan.pieces is None:
        raise refused("plan", "no rows of boards on a rectangle", "a deck of boards on a rectangle")
    if not isinstance(rows, Sequence):
        raise refused("rows", shown(rows), f"a list of marks, rows of {_span(surface)}")
    known = {row.mark: at for at, row in enumerate(surface.rows)}
    unknown = [mark for mark in rows if mark not in known]
    if unknown or not rows:
        raise refused(
            "rows", ", ".join(map(str, unknown)) or "none", f"rows of this plan, {_span(surface)}"
        )
    places = sorted(known[mark] for mark in set(rows))
    if places[-1] - places[0] != len(places) - 1:
        raise refused(
            "rows", ", ".join(rows), "rows side by side", "one repair for each run of them"
        )
    chosen = tuple(surface.rows[at] for at in places)
    if any(row.border for row in chosen):
        raise refused("rows", ", ".join(rows), "rows of the field", "a border keeps its own gaps")
    if len({row.width_mm for row in chosen}) > 1:
        raise refused("rows", ", ".join(rows), "rows of one width", "a ripped row by itself")
    return surface, chosen


def _span(surface: Surface) -> str:
    return f"{surface.rows[0].mark} to {surface.rows[-1].mark}"


def _faults(
    old_mm: float, new_mm: float, new_pct: float | None, old_pct: float | None
) -> Iterator[Fault]:  # fmt: skip
    for name, value in (("old_width_mm", old_mm), ("new_width_mm", new_mm)):
        yield from figure_faults(name, value, NARROWEST_MM, WIDEST_MM)
    for name, pct in (("new_pct", new_pct), ("old_pct", old_pct)):
        if pct is not None:
            yield from figure_faults(name, pct, 0, 200, "per cent of dry wood")


#: Above this moisture content wood swells no more. Handbook: FPL-GTR-190, fibre saturation.
SATURATED_PCT = 30.0


def _grown(
    surface: Surface, new_mm: float, new_pct: float | None, old_pct: float | None
) -> Fraction | None:
    """Return how much wider new boards get until they are as moist as the old ones, in 1/320."""
    told = surface.moisture or surface.gaps_by_moisture
    if told is None or new_pct is None or old_pct is None:
        return None
    rise = Fraction(repr(min(old_pct, SATURATED_PCT))) - Fraction(repr(min(new_pct, SATURATED_PCT)))
    return exact(new_mm) * Fraction(repr(told.movement_per_pct)) * rise


def _laid(lay: _Lay, way: str) -> tuple[NewRow, ...]:
    """Return the new rows with their gaps: those beside old rows, and those among themselves."""
    near = [exact(row.near_mm) for row in lay.rows]
    # old boards have swollen or shrunk about the middles they are screwed at
    off = (lay.old - lay.new) // 2 if way == "middles" else 0
    edges = [at + off for at in near]
    before = _old_edge(lay, -1)
    after = _old_edge(lay, 1)
    ends = [before, *(edge + lay.new for edge in edges)]
    starts = [*edges, after]
    gaps = [None if e is None or s is None else s - e for e, s in zip(ends, starts, strict=True)]
    return tuple(
        _row(lay, row, edge, (gaps[at], gaps[at + 1]), (at == 0, at == len(edges) - 1))
        for at, (row, edge) in enumerate(zip(lay.rows, edges, strict=True))
    )


def _old_edge(lay: _Lay, hand: int) -> int | None:
    """Return the edge of the old row that stays on one side; None at the deck's own edge."""
    marks = [row.mark for row in lay.surface.rows]
    at = marks.index(lay.rows[0 if hand < 0 else -1].mark) + hand
    if not 0 <= at < len(marks):
        return None
    row = lay.surface.rows[at]
    planned = exact(row.width_mm)
    grown = lay.old - exact(lay.rows[0].width_mm) if not row.ripped else 0
    near = exact(row.near_mm) - grown // 2
    return near + planned + grown if hand < 0 else near


def _row(
    lay: _Lay, row: Row, edge: int, gaps: tuple[int | None, int | None], outer: tuple[bool, bool]
) -> NewRow:  # fmt: skip
    settled = [_settled(lay, gap, last) for gap, last in zip(gaps, outer, strict=True)]
    return NewRow(
        mark=row.mark,
        near_mm=to_mm(edge),
        width_mm=to_mm(lay.new),
        before_mm=None if gaps[0] is None else to_mm(gaps[0]),
        after_mm=None if gaps[1] is None else to_mm(gaps[1]),
        before_settled_mm=settled[0],
        after_settled_mm=settled[1],
    )


def _settled(lay: _Lay, gap: int | None, beside_old: bool) -> float | None:
    """Return a gap when new boards have settled: each new board beside it takes half its growth."""
    if gap is None or lay.grows is None:
        return None
    return _down(gap - lay.grows / (2 if beside_old else 1))


def _down(length_320: Fraction) -> float:
    """Return a length in mm, down to a tenth: a gap is never told wider than it is."""
    return floor(length_320 / PER_MM * 10) / 10


def _up(length_320: Fraction) -> float:
    return ceil(length_320 / PER_MM * 10) / 10


def _breaks(lay: _Lay, laid: Sequence[NewRow]) -> Iterator[Finding]:
    """Yield a finding for each gap as laid that the plan's limits do not allow."""
    least, most = lay.surface.gap_least_mm, lay.surface.gap_most_mm
    for row in laid:
        for where, gap in (("before", row.before_mm), ("after", row.after_mm)):
            if gap is not None and gap < least:
                narrow = (least, lay.least_by)
                yield _gap(row, where, "UPK-010", gap, narrow, "a gap narrower than may be laid")
            if gap is not None and gap > most:
                wide = (most, lay.most_by)
                yield _gap(row, where, "UPK-011", gap, wide, "a gap wider than may be laid")


def _gap(  # noqa: PLR0917 - read as the row of a table
    row: NewRow, where: str, code: str, gap: float, limit: tuple[float, Source], told: str
) -> Finding:
    return Finding(
        code=code,
        severity=Severity.CAUTION,
        subject=f"{where} {row.mark}",
        message=f"{told}: buy boards as wide as the old ones, or rip wider ones",
        measured=gap,
        limit=limit[0],
        unit="mm",
        source=limit[1],
    )


def _presses(laid: Sequence[NewRow]) -> Iterator[Finding]:
    """Yield a finding for each gap that closes as new boards take up the old ones' moisture."""
    for row in laid:
        for where, gap in (("before", row.before_settled_mm), ("after", row.after_settled_mm)):
            if gap is not None and gap <= 0:
                message = "boards press when the new ones are as moist as the old: let them settle"
                yield Finding(
                    code="UPK-012",
                    severity=Severity.CAUTION,
                    subject=f"{where} {row.mark}",
                    message=message,
                    measured=gap,
                    limit=0.0,
                    unit="mm",
                    source=PHASE,
                )


def _clips(plan: Plan, lay: _Lay) -> Iterator[Finding]:
    if is_clipped(plan) and lay.old != lay.new:
        yield Finding(
            code="UPK-013",
            severity=Severity.STOP,
            subject="new boards",
            message="clips fix the gap, so boards of another width run out of phase",
            measured=to_mm(lay.new),
            limit=to_mm(lay.old),
            unit="mm",
            source=PHASE,
        )


def turning(plan: Plan, piece: str) -> Turning:
    """Return whether a piece may be turned over to show its other face.

    No where it is a tile, holds an insert, is hollow with capped ends, or is held by clips in its
    grooves; `may` is None, a question, where the plan does not tell what its other face is.

    Raises:
        UpkeepError: The plan has no such piece.

    Source: common practice, no source.
    """
    found = _pieces(plan)
    if piece not in found:
        raise refused("piece", piece, f"one of {', '.join(found[:6])} ...")
    why = _no_turn(plan)
    if why:
        return Turning(piece=piece, may=False, why=why, findings=(_turn("UPK-014", piece, why),))
    face = plan.work.face_up if plan.work else ""
    if face:
        other = "smooth" if face == "grooved" else "grooved"
        why = (
            f"it lies {face} face up: sound wood may be turned to its other face ({other} or plain)"
        )
        return Turning(piece=piece, may=True, why=why)
    why = "the plan does not tell its faces: is the lower one sound, and made to be walked on?"
    return Turning(piece=piece, may=None, why=why, findings=(_turn("UPK-015", piece, why),))


def _pieces(plan: Plan) -> tuple[str, ...]:
    laid = plan.pieces.pieces if plan.pieces else ()
    outlined = plan.laying.pieces if plan.laying else ()
    return (*(its.mark for its in laid), *(its.mark for its in outlined))


def _no_turn(plan: Plan) -> str:
    """Return why no board of a plan may be turned over, "" where one may."""
    top = plan.surface or plan.laying
    if top is not None and top.groove_mm:
        return "it holds an insert in its upper face"
    if plan.fixings is not None and plan.fixings.end_caps is not None:
        return "it is hollow and made to lie one way up"
    if is_clipped(plan):
        return "clips hold it in grooves that lie nearer one face"
    return ""


def _turn(code: str, piece: str, why: str) -> Finding:
    severity = Severity.STOP if code == "UPK-014" else Severity.CAUTION
    return Finding(code=code, severity=severity, subject=piece, message=why, source=PRACTICE)
