"""Zones of an outline that are next to nothing wide."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.fixings import deck_screws
from drylay.audit.flaws import off_by
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import SLACK, fault, laying_of, outlines, shape
from drylay.audit.plane import UNIT, box, run_of, sides_of
from drylay.laying.model import Zone
from drylay.plan.model import Plan

NARROW = outlines("Laying: narrow zones")


def narrowest(zone: Zone) -> float:
    """Return the least way between two parallels along a side that hold a zone, in 1/320 mm."""
    corners = shape(zone.corners)
    found = []
    for side in sides_of(corners):
        run = run_of(*side)
        if run is not None:
            _, low, _, high = box(run.all_told(corners))
            found.append(float(high - low) / UNIT)
    return min(found, default=0.0)


def narrow_zones_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a zone with no room for screws, and for a sliver that is not cautioned."""
    least = 2 * ticks(deck_screws(plan).end_least_mm)
    sliver = ticks(laying_of(plan).sliver_limit_mm)
    told = {each.subject: each for each in plan.findings if each.code == "LAY-020"}
    for zone in laying_of(plan).zones:
        wide, caution = narrowest(zone), told.pop(zone.mark, None)
        if wide < least - SLACK:
            yield off_by(zone.mark, "no room for screws, and nothing stops it", wide, least, NARROW)
        elif caution is None and wide < sliver - SLACK:
            yield off_by(zone.mark, "a sliver that nothing tells", wide, sliver, NARROW)
        elif caution is not None and abs(ticks(caution.measured or 0.0) - wide) > SLACK:
            message = "the caution on it (LAY-020) tells another width"
            yield off_by(zone.mark, message, ticks(caution.measured or 0.0), wide, NARROW)
        elif caution is not None and wide > sliver + SLACK:
            yield off_by(zone.mark, "cautioned (LAY-020), and no sliver", wide, sliver, NARROW)
    for mark in told:
        yield fault(mark, "cautioned (LAY-020), and no zone", NARROW)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    (
        "AUD-978",
        "zones hardly wide enough for a screw stop or are cautioned",
        narrow_zones_are_told,
    ),
)
