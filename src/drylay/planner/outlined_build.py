"""A deck on an outline built through: fields, openings, frame, boards, fixings, all bought."""

from collections.abc import Sequence

from attrs import evolve, field, frozen

from drylay.buying.model import Buying, Purchase
from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.groundwork.model import Groundwork
from drylay.laying.carried import Along, Standing, standing
from drylay.laying.model import Laying
from drylay.outline.model import Outline
from drylay.outline.sides import outline_of, with_openings
from drylay.planner import lorry, standing_feet
from drylay.planner.angles import joist_run
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.ground import Beneath
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid, lay_boards
from drylay.planner.outlined_ends import faces_of, unborne
from drylay.planner.outlined_facings import Faced, face_sides
from drylay.planner.outlined_fields import FieldsLaid, lay_fields
from drylay.planner.outlined_fixings import fixings_of, wanted_of
from drylay.planner.outlined_frame import (
    FrameBought,
    cut_frame,
    framed,
    noggins_under,
    stand_frame,
    with_joints,
)
from drylay.planner.outlined_ground import lay_ground
from drylay.planner.outlined_held import Wood, wood_of
from drylay.planner.outlined_job import joints_single
from drylay.planner.outlined_laying import laying_of, on_final_members
from drylay.planner.outlined_legs import outlined_stood
from drylay.planner.outlined_moved import with_nearest, with_standing
from drylay.planner.outlined_openings import openings_of
from drylay.planner.outlined_panels import make_panels
from drylay.planner.outlined_seams import bare_seams
from drylay.planner.outlined_site import site_of
from drylay.planner.outlined_stretches import stretches_of
from drylay.planner.outlined_subframe import subframe_of
from drylay.planner.outlined_work import plan_work
from drylay.planner.shopping import buying
from drylay.planner.stood import Stood
from drylay.site.model import Site
from drylay.subframe.finish import finish
from drylay.subframe.model import Member, Subframe
from drylay.subframe.wants import Placed
from drylay.work.model import Work


@frozen(kw_only=True)
class BuiltOutlined:
    """A deck on an outline, built through; `laid` are its fields with all ways weighed.

    `spares_missing` could not be had from the stock; `stops` are those of the ground.
    """

    outline: Outline
    laying: Laying
    subframe: Subframe
    fixings: Fixings
    buying: Buying
    laid: FieldsLaid
    boards: BoardsLaid
    site: Site
    groundwork: Groundwork | None = None
    work: Work | None = None
    spares_missing: int = 0
    stops: tuple[Finding, ...] = ()
    stood: Stood = field(factory=Stood)


@frozen(kw_only=True)
class _Stood:
    """Outline, fields and frame before any board is cut."""

    outline: Outline
    laid: FieldsLaid
    placed: Placed


@frozen(kw_only=True)
class _Whole:
    """All of it before it is bought."""

    stood: _Stood
    boards: BoardsLaid
    frame: FrameBought
    faced: Faced
    subframe: Subframe
    site: Site
    under: Stood


def build_outlined(cutter: Cutter) -> BuiltOutlined | Blocked:
    """Return the deck built through, or every stop that keeps it from being built."""
    job = cutter.job
    stood = _stood(job)
    if isinstance(stood, Blocked):
        return stood
    bare = finish(stood.placed)
    boards = lay_boards(
        cutter,
        stretches_of(job, stood.laid, stood.outline.openings),
        _standing(job, stood, bare),
        joist_lines=len(stood.placed.lines_mm),
        jointed=joints_single(job),
        along=_along(job),
    )
    faced = face_sides(cutter, stood.outline)
    if isinstance(boards, Blocked) or isinstance(faced, Blocked):
        return _all_of(boards, faced)
    panels = make_panels(job, stood.outline, boards)
    if isinstance(panels, Blocked):
        return panels
    placed = with_joints(cutter, stood.placed, boards)
    if isinstance(placed, Blocked):
        return placed
    faces = faces_of(faced.facings, faced.thickness_mm)
    noggins = noggins_under(job, placed, boards, faces)
    laid = framed(placed, noggins, panels.battens)
    outline, subframe = panels.outline, subframe_of(job, laid, faced)
    site = site_of(job, outline)
    under = outlined_stood(job, outline, subframe, site)
    frame = cut_frame(cutter, laid, under.legs.framed)
    if isinstance(frame, Blocked):
        return frame
    wood = wood_of(frame.members, faces)
    stops = unborne(job, boards, wood) + _bare(job, stood, wood)
    if stops:
        return Blocked(findings=stops)
    whole = _Whole(stood=evolve(stood, outline=outline), boards=boards, frame=frame, faced=faced,
                   subframe=subframe, site=site, under=under)  # fmt: skip
    return _bought(cutter, whole)


def _bare(job: Job, stood: _Stood, wood: Wood) -> tuple[Finding, ...]:
    thick_mm = job.articles.timber.thickness_mm
    return bare_seams(stood.outline, stood.laid, wood, thickness_mm=thick_mm)


def _all_of(*found: object) -> Blocked:
    blocked = [each.findings for each in found if isinstance(each, Blocked)]
    return Blocked(findings=tuple(stop for stops in blocked for stop in stops))


def _stood(job: Job) -> _Stood | Blocked:
    fascia = job.articles.fascia
    bare = outline_of(job.asked.outline, facing_mm=fascia.thickness_mm if fascia else 0.0)
    laid = lay_fields(job, bare)
    if isinstance(laid, Blocked):
        return laid
    openings = openings_of(job, bare, laid)
    if isinstance(openings, Blocked):
        return with_standing(job, (bare, laid), openings)
    outline = with_openings(bare, openings)
    placed = stand_frame(job, outline, laid)
    if isinstance(placed, Blocked):
        return with_nearest(job, (bare, laid), placed)
    return _Stood(outline=outline, laid=laid, placed=placed)


def _standing(job: Job, stood: _Stood, members: Sequence[Member]) -> list[Standing]:
    return standing(members, stood.placed.lines_mm, joist_run(job.brief))


def _along(job: Job) -> Along:
    return Along(
        most_mm=job.rules.value("supports.most_centres_mm"),
        thickness_mm=job.articles.timber.thickness_mm,
    )


def _bought(cutter: Cutter, whole: _Whole) -> BuiltOutlined:
    job, outline, under = cutter.job, whole.stood.outline, whole.under
    standing_on = _standing(job, whole.stood, whole.frame.members)
    final = on_final_members(whole.boards, standing_on, _along(job))
    laying = laying_of(job, whole.stood.laid, final)
    beneath, stops = _beneath(cutter, outline, whole.subframe, whole.site)
    others, unbought = standing_feet.cut_legs(cutter, under.legs)
    purchases: tuple[Purchase, ...] = (
        final.purchase, whole.frame.purchase, *whole.faced.purchases, *beneath.purchases, *others
    )  # fmt: skip
    fixings = fixings_of(job, laying, whole.subframe, final, purchases, under.raised)
    feet = standing_feet.wanted(job, under.raised, under.footings)
    wanted = (*wanted_of(job, fixings, beneath.groundwork), *feet)
    bought, missing = buying(job, purchases, wanted)
    built = BuiltOutlined(
        outline=outline,
        laying=laying,
        subframe=whole.subframe,
        fixings=fixings,
        buying=evolve(bought, delivery=lorry.delivery(job, bought)),
        laid=whole.stood.laid,
        boards=final,
        site=whole.site,
        groundwork=beneath.groundwork,
        spares_missing=missing,
        stops=(*stops, *unbought),
        stood=under,
    )
    return evolve(built, work=plan_work(job, built))


def _beneath(
    cutter: Cutter, outline: Outline, subframe: Subframe, site: Site
) -> tuple[Beneath, tuple[Finding, ...]]:
    """Return what lies under the deck; nothing and the stops where that cannot be had."""
    laid = lay_ground(cutter, outline, subframe, site)
    if isinstance(laid, Blocked):
        return Beneath(groundwork=None), laid.findings
    return laid, ()
