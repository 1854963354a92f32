"""Openings of an outline: what stands there, what is kept clear, where hatches snap to rows."""

from attrs import evolve

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding, Severity
from drylay.geometry import area_mm2, within
from drylay.laying.axes import place_of
from drylay.laying.model import Zone
from drylay.outline.clashes import clashes
from drylay.outline.hatches import Rows, snap_hatch
from drylay.outline.model import Opening, Outline
from drylay.outline.standing import opening_of
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_job import sizes_of
from drylay.planner.rows import ARITHMETIC, PRACTICE

#: What a panel's battens and screws weigh, as a share of its boards. Assumption: two battens of the
#: boards' own section on a panel of four rows or so.
BATTENS_RATIO = 0.35


def openings_of(job: Job, outline: Outline, laid: FieldsLaid) -> tuple[Opening, ...] | Blocked:
    """Return all openings as the deck leaves them, or every clash that keeps them from it."""
    found: list[Opening] = []
    stops: list[Finding] = []
    for number, wish in enumerate(job.brief.outline.openings, start=1):
        opening = _opening(job, (outline, laid), wish, f"O{number}")
        if isinstance(opening, Finding):
            stops.append(opening)
        else:
            found.append(opening)
    if not stops:
        timber_mm = job.articles.timber.thickness_mm
        stops += clashes(outline, tuple(found), timber_mm=timber_mm)
    return Blocked(findings=tuple(stops)) if stops else tuple(found)


def _opening(
    job: Job, deck: tuple[Outline, FieldsLaid], wish: OpeningWish, mark: str
) -> Opening | Finding:
    outline, laid = deck
    if wish.kind != "hatch":
        return opening_of(wish, mark=mark)
    zone = _zone_under(laid, wish)
    if zone is None:
        return _off_its_rows(mark)
    sizes = sizes_of(job)
    rows = Rows(
        angle_deg=zone.angle_deg,
        first_row=zone.first_row,
        rows=[row for row in laid.rows if row.zone == zone.mark],
        end_gap_mm=sizes.end_gap_mm,
        ledge_mm=job.articles.timber.thickness_mm,
        mark_320=sizes.mark_320,
        turned_deg=outline.turned_deg,
    )
    hatch = snap_hatch(wish, rows, mark=mark)
    if isinstance(hatch, Finding):
        return hatch
    if not all(within(place_of(corner), laid.areas[zone.mark]) for corner in hatch.corners):
        return _off_its_rows(mark)
    return _liftable(evolve(hatch, panel_kg=_panel_kg(job, hatch)))


def _off_its_rows(mark: str) -> Finding:
    return Finding(
        code="OUT-009",
        severity=Severity.STOP,
        subject=mark,
        message="the hatch lies on a border, a breaker board or between two fields: move it "
        "so that rows of one field run over all of it",
        source=ARITHMETIC,
    )


def _liftable(hatch: Opening) -> Opening | Finding:
    """Return a hatch whose panel one person lifts out, else the stop."""
    if hatch.panel_kg is None or hatch.panel_kg <= (hatch.panel_most_kg or 0.0):
        return hatch
    return Finding(
        code="OUT-010",
        severity=Severity.STOP,
        subject=hatch.mark,
        message="the hatch's panel is too heavy for one person to lift out: two hatches side by "
        "side, or lighter boards",
        measured=hatch.panel_kg,
        limit=hatch.panel_most_kg,
        unit="kg",
        source=PRACTICE,
    )


def _zone_under(laid: FieldsLaid, wish: OpeningWish) -> Zone | None:
    at = (wish.along_mm, wish.across_mm)
    return next((zone for zone in laid.zones if within(at, laid.areas[zone.mark])), None)


def _panel_kg(job: Job, hatch: Opening) -> float:
    """Return what a panel weighs, up to a tenth: its boards at their heaviest, and its battens."""
    board = job.articles.board
    extra = job.rules.value("buying.delivery.extra_mass_kg_m2")
    by_section = job.rules.value("buying.delivery.density_kg_m3") * board.thickness_mm / 1000
    sold = None if board.mass_kg_m is None else board.mass_kg_m / (board.width_mm / 1000)
    area_m2 = area_mm2([place_of(corner) for corner in hatch.corners]) / 1e6
    kg = area_m2 * ((by_section if sold is None else sold) * (1 + BATTENS_RATIO) + extra)
    return -(-round(kg * 1000) // 100) / 10
