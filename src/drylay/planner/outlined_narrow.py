"""Zones that are next to nothing wide: too little for a screw, or a sliver."""

import math
from collections.abc import Iterator, Sequence

from drylay.findings import Finding, Severity
from drylay.geometry import slimmest_mm
from drylay.laying.model import Zone
from drylay.marks import PER_MM, to_mm
from drylay.outline.model import Spot
from drylay.planner.job import Job

END = "fixings.deck_screws.end_least_mm"
SLIVER = "surface.sliver_limit_mm"


def narrow_zones(job: Job, zones: Sequence[Zone]) -> Iterator[Finding]:
    """Yield the stop on each zone too narrow for screws, the caution on each other sliver.

    Source: docs/outline-conventions.md, Laying.
    """
    least_mm, sliver_mm = 2 * job.rules.value(END), job.rules.value(SLIVER)
    for zone in zones:
        wide_mm = narrowest_mm(zone.corners)
        if wide_mm < least_mm:
            yield _told(job, zone.mark, wide_mm, least_mm, "LAY-019")
        elif wide_mm < sliver_mm:
            yield _told(job, zone.mark, wide_mm, sliver_mm, "LAY-020")


def narrowest_mm(corners: Sequence[Spot]) -> float:
    """Return the least way between two parallels along a side that hold a shape, to 1/320 mm.

    Rounded down.
    """
    way_mm = slimmest_mm([(at.along_mm, at.across_mm) for at in corners])
    return to_mm(math.floor(way_mm * PER_MM + 1e-3))


def _told(job: Job, mark: str, wide_mm: float, limit_mm: float, code: str) -> Finding:
    stop = code == "LAY-019"
    ways = (
        "make the deck wider there, take fewer courses of border (laying.border_courses), move "
        "breaker boards or fields, or leave what is left to the border"
    )
    why = (
        "no screw keeps its distance from both ends or edges of boards there"
        if stop
        else "boards so small split under their screws"
    )
    return Finding(
        code=code,
        severity=Severity.STOP if stop else Severity.CAUTION,
        subject=mark,
        message=f"hardly anything is left of this zone: {why}; {ways}",
        measured=wide_mm,
        limit=limit_mm,
        unit="mm",
        source=job.rules.source(END if stop else SLIVER),
    )
