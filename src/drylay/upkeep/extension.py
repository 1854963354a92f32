"""More deck beyond one side, in step with the old: rows continue, or boards do end to end."""

from collections import Counter
from collections.abc import Iterator

from attrs import evolve

from drylay.counting import counted
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.intake.shown import shown
from drylay.marks import exact, to_mm
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.surface.model import Surface
from drylay.upkeep.asked import figure_faults, limit_source, refuse
from drylay.upkeep.extended_brief import DATUM_SIDES, SIDES, Old, brief_of
from drylay.upkeep.model import OLD_FRAMES, Extension
from drylay.upkeep.parts import refused

PHASE = Source(
    kind="arithmetic",
    title="rows in phase",
    clause="near edges a whole number of board widths and gaps apart",
)
PRACTICE = Source(
    kind="common practice",
    title="common practice, no source",
    clause="a new frame rests on its own posts or packers",
)
#: Rows continue beyond these sides, boards end to end beyond the others, by the boards' run.
ROW_SIDES = {"along": ("house", "front"), "across": ("left", "right")}
#: Boards that are walked on have no gap so wide: another row was counted. Assumption.
WIDEST_GAP_MM = 50.0
TEN_ROWS = "Measure from the first edge of one row to the same edge of the tenth row beyond it."


@counted
def extension(
    plan: Plan,
    side: str,
    by_mm: float,
    *,
    ten_rows_mm: float | None = None,
    width_mm: float | None = None,
    tied: bool = False,
    old_frame: str = "not looked at",
) -> Extension:
    """Return what an extension beyond one side is planned by, so that it runs on from the old deck.

    Beyond the sides that rows run along, new rows follow in phase: each near edge a whole number
    of pitches (board and gap) from the old ones. Beyond the other two, new boards run on from the
    old ones end to end, rows in line. `ten_rows_mm` is what was measured over ten pitches,
    `width_mm` the mean width of ten boards beside it; without these the plan's are taken, and the
    question is told. The new frame rests on its own posts or packers, `tied` to the old one only
    where `old_frame` was found sound.

    Raises:
        UpkeepError: A side or a figure that cannot be meant, or a blocked plan.

    Findings: UPK-020 to UPK-023 stop it (the house side, no boards on a rectangle, tied to a soft
    frame, tied to one that nobody probed); UPK-024 to UPK-030 tell of what is to be looked at;
    UPK-010 and UPK-011, a gap narrower or wider than the plan allows.

    Source: arithmetic; common practice, no source, for what the new frame rests on.
    """
    refuse(_faults(side, by_mm, ten_rows_mm, width_mm, old_frame))
    stops = tuple(_stops(plan, side, tied=tied, old_frame=old_frame))
    surface = plan.surface
    if surface is None or plan.pieces is None:
        return _none(side, by_mm, stops)
    old = _old(plan, surface, side, by_mm, ten_rows_mm, width_mm)
    return (
        _along(old, stops)
        if side not in ROW_SIDES[surface.run]
        else _rows(old, stops, measured=ten_rows_mm is not None)
    )


def _faults(
    side: str, by_mm: float, ten_mm: float | None, width_mm: float | None, old_frame: str
) -> Iterator[Fault]:
    for name, word, words in (("side", side, SIDES), ("old_frame", old_frame, OLD_FRAMES)):
        if word not in words:
            found = word if isinstance(word, str) else shown(word)
            yield Fault(path=name, found=found, wanted=f"one of {', '.join(words)}")
    if by_mm is None:
        yield Fault(path="by_mm", found="nothing", wanted="100 to 50000 mm")
    for name, value, low, high in (
        ("by_mm", by_mm, 100, 50_000),
        ("ten_rows_mm", ten_mm, 200, 5_000),
        ("width_mm", width_mm, 20, 500),
    ):
        if value is not None:
            yield from figure_faults(name, value, low, high)


def _stops(plan: Plan, side: str, *, tied: bool, old_frame: str) -> Iterator[Finding]:
    if plan.surface is None or plan.pieces is None:
        told = (
            "only a deck of boards on a rectangle is extended by rule: draw the rest as an outline"
        )
        yield _stop("UPK-021", side, told)
    if side == "house":
        yield _stop("UPK-020", side, "the house stands there: extend another side")
    if tied and old_frame == "soft":
        told = (
            "no new frame is tied to a rotten old one: replace the old one, or stand apart from it"
        )
        yield _stop("UPK-022", side, told)
    if tied and old_frame == "not looked at":
        told = "a new frame is tied only to an old one that was probed and found sound"
        yield _stop("UPK-023", side, told)


def _stop(code: str, side: str, told: str) -> Finding:
    return _finding(code, side, told, severity=Severity.STOP)


def _finding(
    code: str, side: str, told: str, *, severity: Severity = Severity.NOTE,
    measured: float | None = None, source: Source = PRACTICE,
) -> Finding:  # fmt: skip
    return Finding(
        code=code,
        severity=severity,
        subject=f"{side} side",
        message=told,
        measured=measured,
        unit="" if measured is None else "mm",
        source=source,
    )


def _none(side: str, by_mm: float, stops: tuple[Finding, ...]) -> Extension:
    return Extension(
        side=side, by_mm=by_mm, way="", starts_mm=0.0, phase_mm=0.0, pitch_mm=0.0, gap_mm=0.0,
        rows=0, first_near_mm=0.0, depth_mm=0.0, remainder_mm=0.0, more_mm=0.0, brief=None,
        questions=(), source=PHASE, findings=stops,
    )  # fmt: skip


def _old(  # noqa: PLR0917 - what is asked
    plan: Plan, surface: Surface, side: str, by_mm: float, ten_mm: float | None,
    width_mm: float | None,
) -> Old:  # fmt: skip
    width = exact(surface.board_width_mm if width_mm is None else width_mm)
    gap = exact(_usual_gap_mm(surface)) if ten_mm is None else round(exact(ten_mm) / 10) - width
    if ten_mm is not None and not 0 <= gap <= exact(WIDEST_GAP_MM):
        told = f"{ten_mm:g} with boards {to_mm(width):g} wide, gaps of {to_mm(gap):g}"
        wanted = f"more than ten boards, with ten gaps of {WIDEST_GAP_MM:g} mm at most"
        raise refused("ten_rows_mm", told, wanted)
    return Old(plan=plan, surface=surface, side=side, by=exact(by_mm), width=width, gap=gap,
                phase=_phase(surface, side, width))  # fmt: skip


def _phase(surface: Surface, side: str, width: int) -> int:
    """Return the near edge of a whole board in the outer row's place, as rows are counted.

    A ripped one is counted by its edge that was not ripped; a border's by its outer edge.
    """
    row = surface.rows[0 if side in DATUM_SIDES else -1]
    if side in DATUM_SIDES:
        return 0 if row.border else exact(row.near_mm) + exact(row.width_mm) - width
    return exact(surface.rows_depth_mm) - width if row.border else exact(row.near_mm)


def _usual_gap_mm(surface: Surface) -> float:
    """Return the gap that most rows have, of equals the narrower one."""
    gaps = Counter(row.gap_mm for row in surface.rows[1:] if not row.border)
    most = max(gaps.values(), default=0)
    return min(
        (gap for gap, count in gaps.items() if count == most), default=surface.gap_preferred_mm
    )


def _rows(old: Old, stops: tuple[Finding, ...], *, measured: bool) -> Extension:
    """Return an extension whose rows follow the old ones."""
    count = max(0, (old.by - old.over) // old.pitch)
    left = old.by - old.over - count * old.pitch
    first = old.phase + (-count if old.side in DATUM_SIDES else 1) * old.pitch
    depth = max(0, count * old.pitch - old.gap)
    brief = brief_of(old, depth, rows=True) if count and not stops else None
    return Extension(
        side=old.side,
        by_mm=to_mm(old.by),
        way="rows",
        starts_mm=to_mm(old.gap + old.over),
        phase_mm=to_mm(old.phase),
        pitch_mm=to_mm(old.pitch),
        gap_mm=to_mm(old.gap),
        rows=count,
        first_near_mm=to_mm(first),
        depth_mm=to_mm(depth),
        remainder_mm=to_mm(left),
        more_mm=to_mm(old.pitch - left if left else 0),
        brief=brief,
        questions=() if measured else (TEN_ROWS,),
        source=PHASE,
        findings=(*stops, *_row_notes(old, count, left, measured=measured), *_notes(old)),
    )


def _row_notes(old: Old, count: int, left: int, *, measured: bool) -> Iterator[Finding]:
    if not measured:
        told = f"the gap is the plan's, and boards have moved since. {TEN_ROWS}"
        yield _finding("UPK-024", old.side, told, severity=Severity.CAUTION,
                       measured=to_mm(old.gap))  # fmt: skip
    if left or not count:
        told = (
            f"{to_mm(left):g} mm of the wished depth are left at the far edge: build that much less"
            f", or {to_mm(old.pitch - left):g} mm more for one more row"
        )
        yield _finding("UPK-025", old.side, told, measured=to_mm(left), source=PHASE)
    edge = old.surface.rows[0 if old.side in DATUM_SIDES else -1]
    if edge.ripped:
        told = (
            f"row {edge.mark} is ripped: a whole board goes in its place, and rows follow from it"
        )
        yield _finding("UPK-026", old.side, told, severity=Severity.CAUTION,
                       measured=edge.width_mm)  # fmt: skip
    if edge.border:
        told = f"row {edge.mark} is of the border: it stays as a band, and new rows follow from it"
        yield _finding("UPK-026", old.side, told, severity=Severity.CAUTION,
                       measured=edge.width_mm)  # fmt: skip


def _along(old: Old, stops: tuple[Finding, ...]) -> Extension:
    """Return an extension whose boards run on from the old ones, row by row."""
    pieces = old.plan.pieces
    end_gap = exact(pieces.end_gap_mm) if pieces else 0
    length = old.by - end_gap
    brief = brief_of(old, length, rows=False) if not stops else None
    told = (
        "all rows meet the new ones in one line, each end on its own frame; to stagger them, take "
        "every second row up back to its last joint and lay it anew across the line"
    )
    joints = _finding("UPK-028", old.side, told)
    return Extension(
        side=old.side,
        by_mm=to_mm(old.by),
        way="boards",
        starts_mm=to_mm(end_gap),
        phase_mm=old.surface.rows[0].near_mm,
        pitch_mm=to_mm(old.pitch),
        gap_mm=to_mm(old.gap),
        rows=len(old.surface.rows),
        first_near_mm=old.surface.rows[0].near_mm,
        depth_mm=to_mm(length),
        remainder_mm=0.0,
        more_mm=0.0,
        brief=brief,
        questions=(),
        source=PHASE,
        findings=(*stops, joints, *_notes(old)),
    )


def _gap_limits(old: Old) -> Iterator[Finding]:
    """Yield a finding where the gap that runs on is not one that the plan allows."""
    surface, gap_mm = old.surface, to_mm(old.gap)
    if surface.gap_least_mm <= gap_mm <= surface.gap_most_mm:
        return
    narrow = gap_mm < surface.gap_least_mm
    word, name = ("narrower", "gap_least_mm") if narrow else ("wider", "gap_most_mm")
    told = f"a gap {word} than the plan allows: measure again, old rows may not lie as designed"
    found = _finding("UPK-010" if narrow else "UPK-011", old.side, told,
                     severity=Severity.CAUTION, measured=gap_mm,
                     source=limit_source(old.plan, f"surface.{name}"))  # fmt: skip
    yield evolve(found, limit=getattr(surface, name))


def _notes(old: Old) -> Iterator[Finding]:
    yield from _gap_limits(old)
    if old.plan.pieces is not None and (old.plan.pieces.movement or old.surface.moisture):
        told = "how warm and moist boards are on laying day is the old plan's: put in the new day's"
        yield _finding("UPK-030", old.side, told, severity=Severity.CAUTION)
    faced = [face.side for face in (old.plan.edges.faces if old.plan.edges else ())]
    if old.side in faced:
        told = "the old fascia there comes off first; boards over it then reach past the frame"
        thick = old.plan.edges.fascia_thickness_mm if old.plan.edges else None
        yield _finding("UPK-027", old.side, told, measured=thick)
    if old.plan.raised is not None or old.plan.site is None or old.plan.site.levels is None:
        told = (
            "ground levels under the new part are not known: measure them and put them in its brief"
        )
        yield _finding("UPK-029", old.side, told, severity=Severity.CAUTION)
