"""Where screening ends for a deck: what of its use, ground and height is an engineer's."""

from drylay.findings import Finding
from drylay.guards.model import Facet
from drylay.marks import exact, to_mm
from drylay.planner.guarding import Around
from drylay.planner.job import Job
from drylay.planner.stood import stands
from drylay.regions.hard_stops import hard_stops, heights_told
from drylay.regions.model import RegionPack
from drylay.regions.packs import soil_named
from drylay.site.model import Levels, Site

#: Uses that nobody screens, whether or not a brief names a basis or a region.
UNSCREENED = ("crowd", "hot tub")


def hard_findings(
    job: Job, pack: RegionPack | None, site: Site, around: Around | None
) -> tuple[Finding, ...]:
    """Return what is an engineer's, and the heights at which the region asks for more.

    How high a deck stands is told from its top to the lowest ground under it; a region's heights
    are held against the drop at its edge.
    """
    if not (job.basis or pack or job.brief.use in UNSCREENED):
        return ()
    soil = (
        None
        if pack is None or not job.brief.raised.post
        else soil_named(pack, job.brief.site.soil or "")
    )
    lies_low = None if stands(job.brief) else 0.0  # on packers that nobody measured under
    high_mm, drop_mm = lies_low, lies_low
    if site.levels is not None:
        high_mm = _above_lowest_mm(site.levels, lies_low)
        drop_mm = lies_low if site.levels.drop_mm is None else site.levels.drop_mm
    use = "crowd" if job.brief.use == "public" else job.brief.use
    slope = max((_slope(facet) for facet in _under(around)), default=0.0)
    told = heights_told(pack, drop_mm) if pack is not None and drop_mm is not None else ()
    return (*hard_stops(use=use, height_mm=high_mm, soil=soil, slope_ratio=slope), *told)


def _above_lowest_mm(levels: Levels, unknown: float | None) -> float | None:
    if levels.ground_least_mm is None:
        return unknown
    return to_mm(exact(levels.deck_top_mm) - exact(levels.ground_least_mm))


def _under(around: Around | None) -> list[Facet]:
    """Return the facets whose box meets the deck's: a bank at the garden's end is not its ground.

    A facet at a corner of the box may lie beside the deck: it counts, on the cautious side.
    """
    if around is None:
        return []
    x = [spot.along_mm for edge in around.edges for spot in (edge.start, edge.end)]
    y = [spot.across_mm for edge in around.edges for spot in (edge.start, edge.end)]
    return [
        facet
        for facet in around.facets
        if _meets([c.along_mm for c in facet.corners], x)
        and _meets([c.across_mm for c in facet.corners], y)
    ]


def _meets(some: list[float], others: list[float]) -> bool:
    return min(some) < max(others) and min(others) < max(some)


def _slope(facet: Facet) -> float:
    """Return how steep a facet is: how much it falls for each length straight down it."""
    a, b, c = facet.corners
    u = (b.along_mm - a.along_mm, b.across_mm - a.across_mm, b.level_mm - a.level_mm)
    v = (c.along_mm - a.along_mm, c.across_mm - a.across_mm, c.level_mm - a.level_mm)
    x, y, z = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    return round(((x * x + y * y) ** 0.5) / abs(z), 6) if z else 0.0
