"""Where a deck on an outline stands."""

from drylay.brief.model import HouseWish
from drylay.outline.model import Outline
from drylay.planner import air_notes
from drylay.planner.job import Job
from drylay.planner.siting import WALL_GAP_LEAST, WALL_GAP_MM
from drylay.site.model import Site


def site_of(job: Job, outline: Outline) -> Site:
    """Return where the deck stands."""
    brief, gap_mm = job.brief, job.brief.house.wall_gap_mm
    least_mm = job.rules.value(WALL_GAP_LEAST)
    beside = any(side.kind == "house" for side in outline.sides)
    return Site(
        exposure=brief.site.exposure,
        beside_house=beside or brief.house != HouseWish(),
        wall_gap_mm=max(WALL_GAP_MM, least_mm) if gap_mm is None else gap_mm,
        wall_gap_least_mm=least_mm,
        air_below_least_mm=job.rules.value(air_notes.PATH),
        levels=None,
    )
