"""A deck whose rows cannot be laid: what stops it besides is told with them, not after them."""

from collections.abc import Iterator

from drylay.brief.model import HouseWish
from drylay.findings import Finding, Severity
from drylay.planner import holding, holding_notes, site_notes, timber_notes, unwise
from drylay.planner.engineers import hard_findings
from drylay.planner.ground import lap_mm
from drylay.planner.ground_faults import unfit_fabric
from drylay.planner.guarding import Around, Held, edges_of, guards_of
from drylay.planner.job import Job
from drylay.planner.legs import pack_of
from drylay.planner.siting import placed
from drylay.planner.standing_ground import facets_of
from drylay.planner.stood import stands
from drylay.planner.treated import legs_treated_too_little
from drylay.site.model import Site
from drylay.site.terrain import CORNERS, ground_under, nearest_mm

FRAME_CLASS = "fixings.frame_use_class_least"


def told_without_rows(job: Job) -> tuple[Finding, ...]:
    """Return what is told of a rectangle's place, use and articles, its cover as wished.

    What follows from rows, frame or purchase is not among it: there are none.
    """
    along_mm, across_mm = job.brief.cover.along_mm, job.brief.cover.across_mm
    points, house = job.brief.levels.points, job.brief.house
    ground = ground_under(points, along_mm, across_mm)
    beside_house = house != HouseWish()
    site = placed(job, ground, along_mm=(0.0, along_mm), beside_house=beside_house)
    beside = site_notes.Beside(
        along_mm=(0.0, along_mm),
        corner_count=len(CORNERS),
        nearest=lambda: nearest_mm(points, along_mm, across_mm),
    )
    found = [
        *unwise.remarks(job),
        *_high_and_heavy(job, site),
        *site_notes.remarks_beside(job, site, beside),
        *_of_articles(job),
    ]
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def _high_and_heavy(job: Job, site: Site) -> Iterator[Finding]:
    """Yield what of use, height and ground is an engineer's, and where a guard is needed."""
    pack, around = pack_of(job), _around(job, site)
    yield from hard_findings(job, pack, site, around)
    if pack is not None and around is not None:
        yield from guards_of(job, pack, around, Held())[1]


def _around(job: Job, site: Site) -> Around | None:
    if site.levels is None:
        return None
    along_mm, across_mm = job.brief.cover.along_mm, job.brief.cover.across_mm
    top_mm = site.levels.deck_top_mm
    edges = edges_of(job, along_mm, across_mm, site, top_mm)
    return Around(edges=edges, facets=facets_of(job), top_mm=top_mm)


def _of_articles(job: Job) -> Iterator[Finding]:
    """Yield what is wrong with timber, metals and fabric wherever they would go."""
    idle = set() if job.brief.fascia.sides else {"fascia screws"}
    yield from holding_notes.refused_metals(job, holding.metals(job, idle))
    classes = holding.use_classes(job.articles)
    ruled = (each for each in classes if holding_notes.class_path(each) in job.rules.rulings)
    yield from holding_notes.too_low_classes(job, ruled)
    if stands(job.brief) and FRAME_CLASS in job.rules.rulings:
        yield from legs_treated_too_little(job)
    yield from timber_notes.remarks(job)
    yield from unfit_fabric(job, lap_mm(job))
