"""The ground at any place of a frame, and as facets for whoever asks how far one may fall."""

from drylay.guards.model import Facet, GroundSpot
from drylay.marks import to_mm
from drylay.outline.model import Spot
from drylay.planner.buy import Shape
from drylay.planner.job import Job
from drylay.site.terrain import ground_under, levels_at, survey_of


def ground_levels(job: Job, shaped: Shape, spots: tuple[Spot, ...]) -> tuple[float, ...]:
    """Return the ground's level at each place, told along and across the boards.

    Where it may fold two ways the lower holds: a post is sawn to its own foot.
    """
    points, surface = job.brief.levels.points, shaped.surface
    ground = ground_under(points, surface.cover_along_mm, surface.cover_across_mm)
    assert ground is not None
    turned = surface.run == "across"
    places = tuple(
        (spot.across_mm, spot.along_mm) if turned else (spot.along_mm, spot.across_mm)
        for spot in spots
    )
    return levels_at(points, places, ground)


def facets_of(job: Job) -> tuple[Facet, ...]:
    """Return the triangles of the points measured, in the cover's axes."""
    survey = survey_of(job.brief.levels.points)
    if survey is None:
        return ()
    return tuple(
        Facet(corners=tuple(_spot(*place) for place in three))  # type: ignore[arg-type]
        for three in survey.triangles
    )


def _spot(along: int, across: int, level: int) -> GroundSpot:
    return GroundSpot(along_mm=to_mm(along), across_mm=to_mm(across), level_mm=to_mm(level))
