"""More deck beyond one side, in step with the old: rows continue, or boards do end to end."""

from collections import Counter
from collections.abc import Iterator

from attrs import frozen

from drylay.brief.model import (
    WAYS_OUT,
    BoardWish,
    Brief,
    ClimateWish,
    CoverWish,
    CuttingWish,
    FasciaWish,
    FixingsWish,
    FrameWish,
    GapWish,
    JointsWish,
    RowsWish,
)
from drylay.findings import Finding, Severity
from drylay.marks import exact, is_number, to_mm
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.surface.model import Surface
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
SIDES = ("house", "right", "front", "left")
#: The side that lies across the cover from each.
ACROSS = {"house": "front", "front": "house", "left": "right", "right": "left"}
#: Rows continue beyond these sides, boards end to end beyond the others, by the boards' run.
ROW_SIDES = {"along": ("house", "front"), "across": ("left", "right")}
#: Sides whose edge lies at the datum.
DATUM_SIDES = ("house", "left")
TEN_ROWS = "Measure from the first edge of one row to the same edge of the tenth row beyond it."


@frozen(kw_only=True)
class _Old:
    """What is extended: the old rows in 1/320 mm, and what the extension is to be."""

    plan: Plan
    surface: Surface
    side: str
    by: int
    width: int
    gap: int
    phase: int

    @property
    def over(self) -> int:
        """How far a whole board in the outer row's place reaches over the old edge."""
        if self.side in DATUM_SIDES:
            return -self.phase
        return self.phase + self.width - exact(self.surface.rows_depth_mm)

    @property
    def pitch(self) -> int:
        """From near edge to near edge of two rows."""
        return self.width + self.gap


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
    frame, tied to one that nobody probed); UPK-024 to UPK-030 tell of what is to be looked at.

    Source: arithmetic; common practice, no source, for what the new frame rests on.
    """
    _check(side, by_mm, ten_rows_mm, width_mm, old_frame)
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


def _check(
    side: str, by_mm: float, ten_mm: float | None, width_mm: float | None, old_frame: str
) -> None:
    if side not in SIDES:
        raise refused("side", side, f"one of {', '.join(SIDES)}")
    if old_frame not in OLD_FRAMES:
        raise refused("old_frame", old_frame, f"one of {', '.join(OLD_FRAMES)}")
    for name, value, low, high in (
        ("by_mm", by_mm, 100, 50_000),
        ("ten_rows_mm", ten_mm, 200, 5_000),
        ("width_mm", width_mm, 20, 500),
    ):
        if value is not None and not (is_number(value) and low <= value <= high):
            raise refused(name, f"{value:g}", f"{low} to {high} mm")
    if ten_mm is not None and width_mm is not None and ten_mm <= 10 * width_mm:
        raise refused("ten_rows_mm", f"{ten_mm:g}", "more than ten boards, with their ten gaps")


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
) -> _Old:  # fmt: skip
    width = exact(surface.board_width_mm if width_mm is None else width_mm)
    gap = exact(_usual_gap_mm(surface)) if ten_mm is None else round(exact(ten_mm) / 10) - width
    if gap < 0:
        told = f"{ten_mm:g} with boards {to_mm(width):g} wide"
        raise refused("ten_rows_mm", told, "more than ten boards, with their ten gaps")
    return _Old(plan=plan, surface=surface, side=side, by=exact(by_mm), width=width, gap=gap,
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


def _rows(old: _Old, stops: tuple[Finding, ...], *, measured: bool) -> Extension:
    """Return an extension whose rows follow the old ones."""
    count = max(0, (old.by - old.over) // old.pitch)
    left = old.by - old.over - count * old.pitch
    first = old.phase + (-count if old.side in DATUM_SIDES else 1) * old.pitch
    depth = max(0, count * old.pitch - old.gap)
    brief = _brief(old, depth, rows=True) if count and not stops else None
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


def _row_notes(old: _Old, count: int, left: int, *, measured: bool) -> Iterator[Finding]:
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


def _along(old: _Old, stops: tuple[Finding, ...]) -> Extension:
    """Return an extension whose boards run on from the old ones, row by row."""
    pieces = old.plan.pieces
    end_gap = exact(pieces.end_gap_mm) if pieces else 0
    length = old.by - end_gap
    brief = _brief(old, length, rows=False) if not stops else None
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


def _notes(old: _Old) -> Iterator[Finding]:
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


def _brief(old: _Old, reach: int, *, rows: bool) -> Brief:
    """Return the brief of the new part: the same boards and frame, gaps fixed where rows follow."""
    surface, plan = old.surface, old.plan
    across = (
        (exact(surface.row_length_mm), reach) if rows else (reach, exact(surface.rows_depth_mm))
    )
    along, away = across if surface.run == "along" else across[::-1]
    gap = to_mm(old.gap)
    wished = (gap, gap, gap)
    if not rows:
        wished = (surface.gap_least_mm, surface.gap_preferred_mm, surface.gap_most_mm)
    return Brief(
        title=f"{plan.title[:60]}, extended",
        cover=CoverWish(along_mm=to_mm(along), across_mm=to_mm(away)),
        board=BoardWish(article=surface.board_article, run=surface.run,
                        measured_width_mm=to_mm(old.width)),
        gap=GapWish(least_mm=wished[0], preferred_mm=wished[1], most_mm=wished[2]),
        rows=RowsWish(prefer=_prefer(surface, rows=rows)),
        frame=_frame(plan),
        fascia=_fascia(plan, old.side),
        joints=_joints(plan),
        cutting=_cutting(plan),
        climate=_climate(plan),
        fixings=_fixings(plan),
        use=plan.use,
        units=plan.units,
    )  # fmt: skip


def _prefer(surface: Surface, *, rows: bool) -> tuple[str, ...]:
    """Return ways out with the old one first where rows are in line with the old ones."""
    first = (
        "as_wished"
        if rows or surface.way_out not in {"gaps", "rip_last", "rip_both"}
        else surface.way_out
    )
    return (first, *(way for way in WAYS_OUT if way != first))


def _climate(plan: Plan) -> ClimateWish:
    """Return how warm and moist boards get here; of laying day what held then."""
    heat = plan.pieces.movement if plan.pieces else None
    damp = plan.surface.moisture if plan.surface else None
    return ClimateWish(
        laying_c=heat.laying_c if heat else None,
        hottest_board_c=heat.hottest_c if heat else None,
        coldest_board_c=heat.coldest_c if heat else None,
        laying_pct=damp.laying_pct if damp else None,
        wettest_pct=damp.wettest_pct if damp else None,
        driest_pct=damp.driest_pct if damp else None,
    )


def _frame(plan: Plan) -> FrameWish:
    frame, supports = plan.frame, plan.supports
    return FrameWish(
        article=frame.timber_article if frame else None,
        most_centres_mm=supports.most_centres_mm if supports else None,
    )


def _fascia(plan: Plan, side: str) -> FasciaWish:
    """Return fascia on the sides that the old deck has some on, but where old and new meet."""
    edges = plan.edges
    faces = [face.side for face in edges.faces] if edges else []
    sides = tuple(its for its in SIDES if its in faces and its != ACROSS[side])
    return FasciaWish(sides=sides, article=edges.fascia_article if edges and sides else None)


def _joints(plan: Plan) -> JointsWish:
    pieces = plan.pieces
    return JointsWish(
        end_gap_mm=pieces.end_gap_mm if pieces else None,
        most_per_row=pieces.most_joints_per_row if pieces else None,
        price_each=pieces.joint_price if pieces else None,
    )


def _cutting(plan: Plan) -> CuttingWish:
    buying = plan.buying
    if buying is None:
        return CuttingWish()
    return CuttingWish(kerf_mm=buying.kerf_mm, end_trim_mm=buying.end_trim_mm)


def _fixings(plan: Plan) -> FixingsWish:
    """Return the articles that the old deck is held by."""
    its = plan.fixings
    if its is None:
        return FixingsWish()
    return FixingsWish(
        screw=its.deck_screws.article if its.deck_screws else None,
        coach_screw=its.coach_screws.article or None,
        frame_screw=its.frame_screws.article if its.frame_screws else None,
        fascia_screw=its.fascia_screws.article if its.fascia_screws else None,
        hanger=its.hangers.article if its.hangers else None,
        clip=its.clips.article if its.clips else None,
        starter_clip=(its.clips.starter_article or None) if its.clips else None,
        end_cap=its.end_caps.article if its.end_caps else None,
    )
