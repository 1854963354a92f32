"""What fields want under them: seams where board ends meet, rows of noggins along the joists."""

from collections.abc import Iterator, Sequence

from drylay.geometry import Place, Region, Ring, minus, region
from drylay.laying.border import border_mm as border_width_mm
from drylay.laying.fields import (
    Breaker,
    Edge,
    breaker_seams,
    field_box,
    inner_edges,
    rung_lines,
    seams_of_field,
)
from drylay.laying.model import Zone
from drylay.planner.angles import angle_of, joist_run, on_rungs
from drylay.planner.job import Job
from drylay.planner.outlined_field_edges import boxes_laid
from drylay.planner.outlined_job import sizes_of

Seam = tuple[Place, Place]


def rungs_under(
    job: Job, zones: Sequence[Zone], areas: dict[str, Region]
) -> Iterator[tuple[Place, Place, str]]:
    """Yield the lines of noggins that zones want whose boards run the joists' way.

    They part the zone's length along the boards evenly, none further apart than joists may be.
    """
    most_mm = job.rules.value("supports.most_centres_mm")
    for zone in zones:
        if on_rungs(job.brief, zone.angle_deg):
            across = joist_run(job.brief) == "across"
            yield from rung_lines(areas[zone.mark], zone.mark, across=across, most_mm=most_mm)


def seams_under(
    job: Job, ring: Ring, edges: Sequence[Edge], breakers: Sequence[Breaker], *, border_mm: float
) -> tuple[Seam, ...]:
    """Return the lines that board ends meet over, or that edge a border or a breaker board."""
    area = region(ring)
    found: list[Seam] = []
    if border_mm:
        sizes, courses = sizes_of(job), job.brief.laying.border_courses
        for course in range(1, courses + 1):
            within_mm = border_width_mm(course, sizes.board_mm, sizes.gap_mm)
            between_mm = sizes.gap_mm / 2 if course < courses else 0.0
            found += inner_edges(ring, edges, within_mm + between_mm)
    fields = [field_box(each.corner, each.size) for each in boxes_laid(job, ring)]
    for each in breakers:
        found += breaker_seams(area, angle_of(job.brief), each, fields)
    for own in fields:
        found += seams_of_field(area, own)
        area = minus(area, own)  # what two fields share is the earlier one's
    return tuple(found)
