"""Ground off the corners of a deck, which lies straight out from neither edge."""

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from drylay.findings import Finding, Severity, against
from drylay.guards.ground import CLOSED, REACH_MM, Point, cut, edge_mm
from drylay.guards.model import Edge, Facet, Stretch
from drylay.regions.model import Limit


def corner_findings(
    edges: tuple[Edge, ...],
    facets: tuple[Facet, ...],
    stretches: tuple[Stretch, ...],
    *,
    trigger: Limit,
    out: Limit,
) -> tuple[Finding, ...]:
    """Return a caution for every corner that needs a guard though neither of its edges does there.

    Looked at is the ground that lies out from the corner beyond both edges, up to as far out as
    counts along either: a little further off than that, across the corner.

    Args:
        edges: All edges of one deck in their order round it.
        stretches: What `guard_stretches` found of them.
    """
    return tuple(
        found
        for before, after in pairwise([edges[-1], *edges])
        if _is_corner(before, after) and not _guarded(before, after, stretches)
        for found in _told(before, after, facets, trigger, out)
    )


def _is_corner(before: Edge, after: Edge) -> bool:
    """Whether two open edges meet at a corner that points outwards."""
    (x1, y1), (x2, y2) = _heading(before), _heading(after)
    meet = hypot(
        before.end.along_mm - after.start.along_mm, before.end.across_mm - after.start.across_mm
    )
    is_open = before.kind not in CLOSED and after.kind not in CLOSED
    return is_open and meet <= REACH_MM and x1 * y2 - y1 * x2 > 0


def _guarded(before: Edge, after: Edge, stretches: tuple[Stretch, ...]) -> bool:
    return any(
        (stretch.edge == before.mark and stretch.to_mm >= edge_mm(before))
        or (stretch.edge == after.mark and stretch.from_mm <= 0)
        for stretch in stretches
    )


def _told(
    before: Edge, after: Edge, facets: tuple[Facet, ...], trigger: Limit, out: Limit
) -> Iterator[Finding]:
    levels = [
        point[2] for facet in facets for point in _off(before, after, facet, out.value or 0.0)
    ]
    drop = before.top_mm - min(levels, default=before.top_mm)
    if trigger.exceeded_by(drop):
        message = "off this corner the ground lies so low that the corner needs a guard"
        corner = f"{before.mark}-{after.mark}"
        yield against(trigger, drop, "GRD-008", Severity.CAUTION, corner, message)


def _off(before: Edge, after: Edge, facet: Facet, out_mm: float) -> list[Point]:
    """Return what of a facet lies out from a corner, beyond the ends of both its edges."""
    x, y = after.start.along_mm, after.start.across_mm
    points = [(c.along_mm - x, c.across_mm - y, c.level_mm) for c in facet.corners]
    points = _ahead(points, _heading(before), out_mm)
    x, y = _heading(after)
    return _ahead(points, (-x, -y), out_mm)


def _ahead(points: list[Point], heading: tuple[float, float], out_mm: float) -> list[Point]:
    """Return what of a figure lies ahead of the corner, up to so far."""

    def far(point: Point) -> float:
        return point[0] * heading[0] + point[1] * heading[1]

    return cut(cut(points, far), lambda point: out_mm - far(point))


def _heading(edge: Edge) -> tuple[float, float]:
    x, y = edge.end.along_mm - edge.start.along_mm, edge.end.across_mm - edge.start.across_mm
    return x / edge_mm(edge), y / edge_mm(edge)
