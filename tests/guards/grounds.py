"""Grounds for tests: facets from points, and a sampler that shares nothing with what it tests."""

from itertools import pairwise

from drylay.brief.model import GroundPoint
from drylay.guards.model import Edge, Facet, GroundSpot
from drylay.marks import to_mm
from drylay.outline.model import Spot
from drylay.reasons import Source
from drylay.regions.model import Limit
from drylay.site.terrain import survey_of


def spot(along: float, across: float) -> Spot:
    return Spot(along_mm=along, across_mm=across)


def ground(points: list[tuple[float, float, float]]) -> tuple[Facet, ...]:
    """Return points joined to facets as the site's survey joins them, none where it makes none."""
    survey = survey_of(
        tuple(GroundPoint(along_mm=x, across_mm=y, level_mm=z) for x, y, z in points)
    )
    return tuple(
        Facet(
            corners=tuple(
                GroundSpot(along_mm=to_mm(x), across_mm=to_mm(y), level_mm=to_mm(z))
                for x, y, z in three
            )
        )
        for three in (survey.triangles if survey else [])
    )


def flat(level: float, reach: float = 20_000.0) -> tuple[Facet, ...]:
    corners = [(-reach, -reach), (reach, -reach), (reach, reach), (-reach, reach)]
    return ground([(x, y, level) for x, y in corners])


def edges_of(corners: list[tuple[float, float]], top: float, **kinds: str) -> tuple[Edge, ...]:
    """Return the edges round a deck, `E1`, ..., open unless told otherwise."""
    return tuple(
        Edge(
            mark=f"E{at}",
            start=spot(*one),
            end=spot(*other),
            top_mm=top,
            kind=kinds.get(f"E{at}", "open"),
        )
        for at, (one, other) in enumerate(pairwise([*corners, corners[0]]), start=1)
    )


def trigger(value: float, *, reached: bool = False, name: str = "guard_trigger_mm") -> Limit:
    source = Source(kind="assumption", title="a test's own")
    return Limit(
        name=name,
        value=value,
        unit="mm",
        written=f"{value:g} mm",
        standing="assumption",
        source=source,
        reached=reached,
    )


def level_at(facets: tuple[Facet, ...], x: float, y: float) -> float | None:
    """Return the lowest level at a place by shares of each facet's corners; None beside all."""
    found = []
    for facet in facets:
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = (
            (c.along_mm, c.across_mm, c.level_mm) for c in facet.corners
        )
        whole = (by - cy) * (ax - cx) + (cx - bx) * (ay - cy)
        a = ((by - cy) * (x - cx) + (cx - bx) * (y - cy)) / whole
        b = ((cy - ay) * (x - cx) + (ax - cx) * (y - cy)) / whole
        if min(a, b, 1 - a - b) >= -1e-12:
            found.append(a * az + b * bz + (1 - a - b) * cz)
    return min(found, default=None)


def sampled_drop(
    edge: Edge, facets: tuple[Facet, ...], at_mm: float, out_mm: float, samples: int = 60
) -> float | None:
    """Return the greatest drop straight out from a place along an edge, looked for step by step."""
    x, y = edge.end.along_mm - edge.start.along_mm, edge.end.across_mm - edge.start.across_mm
    length = (x * x + y * y) ** 0.5
    x, y = x / length, y / length
    levels = []
    for step in range(samples + 1):
        out = out_mm * step / samples
        place = (
            edge.start.along_mm + x * at_mm + y * out,
            edge.start.across_mm + y * at_mm - x * out,
        )
        levels.append(level_at(facets, *place))
    known = [level for level in levels if level is not None]
    return edge.top_mm - min(known) if known else None
