"""Everything that stands under a deck and round it, put together for one built candidate."""

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.planner.buy import Shape
from drylay.planner.engineers import hard_findings
from drylay.planner.footings_apart import overlapping
from drylay.planner.guard_posts import guarded
from drylay.planner.guarding import (
    Around,
    edges_of,
    head_of,
    steps_of,
)
from drylay.planner.job import Job
from drylay.planner.loose import is_loose
from drylay.planner.packed import packed_strength, unscreened
from drylay.planner.screening import screen_of, strength_findings
from drylay.planner.standing import raised_on, settled, strength_on
from drylay.planner.standing_feet import (
    beside_house,
    foot_findings,
    footings_of,
    legs_of,
)
from drylay.planner.standing_fixings import standing_fixings, ties_under
from drylay.planner.standing_ground import facets_of
from drylay.planner.stood import Stood, stands
from drylay.regions.model import RegionPack
from drylay.regions.packs import region_pack
from drylay.site.model import Site


def stood_of(job: Job, shaped: Shape, site: Site) -> Stood:
    """Return what stands under a deck and round it: nothing where its brief asks for none."""
    stood = _stood(job, shaped, site)
    told = standing_fixings(stood, ties_under(stood.raised, shaped.supports.line_count))
    return evolve(stood, findings=(*stood.findings, *told))


def _stood(job: Job, shaped: Shape, site: Site) -> Stood:
    pack = pack_of(job)
    around = around_of(job, shaped, site)
    under = _raised(job, shaped, site, pack) if stands(job.brief) else _packed(job, shaped)
    size = (shaped.surface.cover_along_mm, shaped.surface.cover_across_mm)
    told = [*under.findings, *hard_findings(job, pack, site, around)]
    levels = site.levels
    if pack is None or around is None or levels is None:
        return evolve(under, findings=tuple(told))
    found = guarded(job, pack, around, levels, evolve(under, findings=tuple(told)))
    steps, of_steps = steps_of(job, pack, around, head_of(job, size))
    return evolve(found, steps=steps, findings=(*found.findings, *of_steps))


def pack_of(job: Job) -> RegionPack | None:
    """Return the pack of the brief's region, None where it names none."""
    region = job.brief.site.region
    return None if region is None else region_pack(region)


def around_of(job: Job, shaped: Shape, site: Site) -> Around | None:
    """Return the deck's edges and the ground; None where nothing sets its top."""
    if site.levels is None:
        return None
    top_mm, surface = site.levels.deck_top_mm, shaped.surface
    edges = edges_of(job, surface.cover_along_mm, surface.cover_across_mm, site, top_mm)
    return Around(edges=edges, facets=facets_of(job), top_mm=top_mm)


def _packed(job: Job, shaped: Shape) -> Stood:
    """Return the strength of a deck on packers, where its brief names a basis."""
    strength = packed_strength(job, shaped)
    if strength is None:
        return Stood(findings=unscreened(job))
    told = (*unscreened(job), *strength_findings(strength, loose=is_loose(job)))
    return Stood(strength=strength, findings=told, short_of_strength=stopped(told))


def stopped(told: tuple[Finding, ...]) -> bool:
    """Return whether a stop is among findings."""
    return any(each.severity is Severity.STOP for each in told)


def _raised(job: Job, shaped: Shape, site: Site, pack: RegionPack | None) -> Stood:
    screen = screen_of(job)
    found = settled(job, shaped, site)
    assert screen is not None  # the reader asks for a basis
    assert found is not None
    if found.arranged is None:
        return Stood(findings=(*found.held.findings, *found.stops), short_of_strength=True)
    raised, told = raised_on(job, shaped, site, found, screen)
    strength = strength_on(job, shaped, screen, found, raised)
    footings, of_feet = (None, ()) if pack is None else footings_of(job, pack, strength.posts)
    of_strength = strength_findings(strength, loose=is_loose(job))
    of_foot = foot_findings(job, strength.posts)
    if footings is not None:
        of_foot += overlapping(raised.frame.posts, footings)
    if footings is not None and site.beside_house:
        along = job.brief.board.run == "along"
        offs = [post.place.across_mm if along else post.place.along_mm
                for post in raised.frame.posts]  # fmt: skip
        of_foot += beside_house(site.wall_gap_mm, offs, footings)
    return Stood(
        raised=raised, strength=strength, footings=footings,
        legs=legs_of(job, raised, found.arranged.made.timber),
        findings=(*told, *of_strength, *of_foot, *of_feet),
        short_of_strength=stopped(of_strength), tried=found.arranged.tried,
    )  # fmt: skip
