"""Where the deck stands: levels beside the house, the ground under it, the hollow."""

from drylay.findings import Finding
from drylay.planner.built import Built
from drylay.planner.buy import Shape
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE, Row, row
from drylay.site.model import Site


def site_of(job: Job, shaped: Shape) -> Site:
    """Return where the deck stands."""
    return Site(exposure=job.brief.site.exposure, wall_gap_mm=10.0, levels=None)


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    gap_mm = built.site.wall_gap_mm
    return [row("site.wall_gap_mm", gap_mm, "mm", "left between house wall and cover", PRACTICE)]


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    return []
