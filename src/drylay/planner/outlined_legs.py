"""Everything that stands under a deck on an outline and round it, for one that is built through."""

from math import ceil, hypot, radians, sin

from attrs import evolve

from drylay.findings import Finding
from drylay.outline.model import Outline, Side
from drylay.planner.engineers import hard_findings
from drylay.planner.footings_apart import overlapping
from drylay.planner.ground import packer_spacing_mm
from drylay.planner.guard_posts import guarded
from drylay.planner.guarding import Around, steps_of
from drylay.planner.job import Job
from drylay.planner.legs import pack_of, stopped
from drylay.planner.outlined_bed import bed_of
from drylay.planner.outlined_guarding import head_outlined, outlined_edges
from drylay.planner.outlined_standing import raised_outlined, settle_outlined, strength_outlined
from drylay.planner.packed import joists_on_packers, unscreened
from drylay.planner.screening import Asks, Screen, screen_of, strength_findings, strength_of
from drylay.planner.standing import bay_asked
from drylay.planner.standing_feet import beside_house, foot_findings, footings_of, legs_of
from drylay.planner.standing_fixings import outlined_ties, standing_fixings
from drylay.planner.standing_ground import facets_of
from drylay.planner.standing_ledger import hung_findings
from drylay.planner.stood import Stood, stands
from drylay.planner.treated import legs_treated_too_little
from drylay.regions.model import RegionPack
from drylay.site.model import Site
from drylay.strength.model import BoardAsked
from drylay.subframe.model import Subframe


def outlined_stood(job: Job, outline: Outline, frame: Subframe, site: Site) -> Stood:
    """Return what stands under a deck on an outline and round it: nothing where none is asked."""
    pack, screen = pack_of(job), screen_of(job)
    if stands(job.brief):
        assert screen is not None  # the reader asks for a basis
        under = _raised(job, screen, outline, frame, site)
    else:
        under = _packed(job, screen, frame) if screen is not None else Stood()
    found = _with_edges(job, pack, outline, site, under)
    told = standing_fixings(found, outlined_ties(found.raised, frame))
    return evolve(found, findings=(*found.findings, *told))


def _with_edges(
    job: Job, pack: RegionPack | None, outline: Outline, site: Site, under: Stood
) -> Stood:
    levels = site.levels
    head = head_outlined(job, outline)
    around = None
    if levels is not None:
        edges = outlined_edges(outline, levels.deck_top_mm, head)
        around = Around(edges=edges, facets=facets_of(job), top_mm=levels.deck_top_mm)
    told = [*under.findings, *hard_findings(job, pack, site, around)]
    if pack is None or around is None or levels is None:
        return evolve(under, findings=tuple(told))
    found = guarded(job, pack, around, levels, evolve(under, findings=tuple(told)))
    steps, of_steps = (None, (head,)) if isinstance(head, Finding) else steps_of(
        job, pack, around, head
    )  # fmt: skip
    return evolve(found, steps=steps, findings=(*found.findings, *of_steps))


def _raised(job: Job, screen: Screen, outline: Outline, frame: Subframe, site: Site) -> Stood:
    bed = bed_of(job, outline, frame, site)
    found = settle_outlined(job, screen, bed, site)
    if found.arranged is None:
        return Stood(findings=(*bed.held.findings, *found.stops), short_of_strength=True)
    raised, told = raised_outlined(job, outline, site, found)
    strength = strength_outlined(job, found, raised, boards_outlined(job, frame))
    pack = pack_of(job)
    footings, of_feet = (None, ()) if pack is None else footings_of(job, pack, strength.posts)
    of_strength = strength_findings(strength)
    of_foot = foot_findings(job, strength.posts)
    if footings is not None:
        of_foot += overlapping(raised.frame.posts, footings)
    house = [side for side in outline.sides if side.kind == "house"]
    if footings is not None and house:
        places = [bed.at((post.place.along_mm, post.place.across_mm))
                  for post in raised.frame.posts]  # fmt: skip
        offs = [min(off_side(side, place) for side in house) for place in places]
        of_foot += beside_house(site.wall_gap_mm, offs, footings)
    return Stood(
        raised=raised, strength=strength, footings=footings,
        legs=legs_of(job, raised, found.arranged.made.timber),
        findings=(*bed.held.findings, *bed.findings, *hung_findings(job, bed.held), *told,
                  *legs_treated_too_little(job),
                  *of_strength, *of_foot, *of_feet),
        short_of_strength=stopped(of_strength), tried=found.arranged.tried,
    )  # fmt: skip


def off_side(side: Side, place: tuple[float, float]) -> float:
    """Return how far a place is from a side: from its line, past its ends from the nearer one."""
    x, y = side.end.along_mm - side.start.along_mm, side.end.across_mm - side.start.across_mm
    u, v = place[0] - side.start.along_mm, place[1] - side.start.across_mm
    share = min(1.0, max(0.0, (u * x + v * y) / (x * x + y * y)))
    return hypot(u - share * x, v - share * y)


def boards_outlined(job: Job, frame: Subframe) -> tuple[BoardAsked, ...]:
    """Return the boards over their bays, longer where they lie at an angle to the joists."""
    bay_mm = frame.centres_mm / sin(radians(frame.board_to_joist_deg))
    return bay_asked(job, ceil(bay_mm * 10 - 1e-9) / 10)


def _packed(job: Job, screen: Screen, frame: Subframe) -> Stood:
    """Return the strength of a frame on packers, where its brief names a basis."""
    if screen.loads.stops:
        return Stood()
    boards = boards_outlined(job, frame)
    span_mm = packer_spacing_mm(job)
    joists = joists_on_packers(job, screen, span_mm, frame.centres_mm, frame.line_count)
    if not joists and not boards:
        return Stood(findings=unscreened(job))
    strength = strength_of(screen, Asks(beams=joists, boards=boards))
    told = (*unscreened(job), *strength_findings(strength))
    return Stood(strength=strength, findings=told, short_of_strength=stopped(told))
