"""The bearers that a frame's joists hang between, before anything is cut."""

from drylay.frame.between import Band
from drylay.planner.buy import Shape
from drylay.planner.hanging import band_of
from drylay.planner.job import Job
from drylay.planner.standing import bearers_of, settled
from drylay.planner.stood import hung
from drylay.site.model import Site


def bands_under(job: Job, shaped: Shape, site: Site) -> tuple[Band, ...]:
    """Return the bearers that joists hang between; none where they lie over these, or on none."""
    found = settled(job, shaped, site) if hung(job.brief) else None
    if found is None or found.arranged is None:
        return ()
    bearers = bearers_of(job, shaped, found.under, found.arranged)
    return tuple(band_of(bearer) for bearer in bearers)
