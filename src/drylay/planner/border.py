"""A border laid out: what limits its rows, what it leaves of the cover, how it is told."""

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC
from drylay.surface.border import BorderLimits, Range, field_depth_320, gap_beside
from drylay.surface.limits import RowLimits
from drylay.surface.model import Border


def border_width_320(job: Job) -> int:
    """Return how wide the border's board is: as measured, else as sold; 0 without a border."""
    board = job.articles.border
    return 0 if board is None else exact(job.brief.border.measured_width_mm or board.width_mm)


def _gaps(job: Job, part: str) -> Range:
    least, preferred, most = (
        exact(job.rules.value(f"surface.{part}gap_{name}_mm"))
        for name in ("least", "preferred", "most")
    )
    return least, preferred, most


def border_limits(job: Job) -> BorderLimits | Finding | None:
    """Return what limits a border's rows, None without one, or the stop where no gap suits it."""
    if job.articles.border is None:
        return None
    field, own = _gaps(job, ""), _gaps(job, "border.")
    beside = gap_beside(own, field)
    if beside is None:
        return Finding(
            code="BDR-001",
            severity=Severity.STOP,
            subject="surface.border.beside_mm",
            message="no gap suits border and field side by side: what one board needs at least is "
            "more than the other allows; name a border of the field's own kind",
            measured=to_mm(max(own[0], field[0])),
            limit=to_mm(min(own[2], field[2])),
            unit="mm",
            source=job.rules.source("surface.border.gap_most_mm"),
        )
    return BorderLimits(
        rows=job.brief.border.rows,
        width_320=border_width_320(job),
        gap_320=own,
        beside_320=beside,
    )


def no_field(border: BorderLimits, depth_320: int) -> Finding | None:
    """Return the stop for a border that leaves the field less than nothing."""
    left = field_depth_320(depth_320, border)
    if left > 0:
        return None
    return Finding(
        code="BDR-002",
        severity=Severity.STOP,
        subject="border",
        message="the border leaves no room for a field: fewer rows of it, or a deeper cover",
        measured=to_mm(2 * border.part_320),
        limit=to_mm(depth_320),
        unit="mm",
        source=ARITHMETIC,
    )


def border_of(job: Job, limits: RowLimits, border: BorderLimits | None) -> Border | None:
    """Return the border as the surface holds it; `limits` are the field's."""
    board, field = job.articles.border, job.articles.board
    if border is None or board is None:
        return None
    thinner = exact(field.thickness_mm) - exact(board.thickness_mm)
    return Border(
        article=board.code,
        rows=border.rows,
        width_mm=to_mm(border.width_320),
        thickness_mm=board.thickness_mm,
        groove_mm=board.groove_mm or None,
        gap_preferred_mm=to_mm(border.gap_320[1]),
        gap_least_mm=to_mm(border.gap_320[0]),
        gap_most_mm=to_mm(border.gap_320[2]),
        beside_mm=to_mm(border.beside_320[1]),
        beside_least_mm=to_mm(border.beside_320[0]),
        beside_most_mm=to_mm(border.beside_320[2]),
        field_depth_mm=to_mm(limits.depth_320),
        timber=bool(job.rules.value("surface.border.timber")),
        packing_mm=to_mm(abs(thinner)),
        packed="border" if thinner > 0 else "field" if thinner < 0 else "",
    )
