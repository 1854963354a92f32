"""The frame under an outline: placed under what boards want, its ends supported, cut, bought."""

from collections.abc import Sequence

from attrs import frozen

from drylay.buying.model import Purchase
from drylay.buying.purchase import pieces_of, purchase
from drylay.cutting.model import Task
from drylay.findings import Finding
from drylay.laying.axes import spot
from drylay.marks import exact
from drylay.outline.model import Outline
from drylay.planner.angles import joist_run
from drylay.planner.buy import Blocked, longest_mm, stock_for
from drylay.planner.cuts import Cutter, cut
from drylay.planner.job import Job
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_job import END_SUPPORT_MM, mark_mm
from drylay.subframe.finish import finish
from drylay.subframe.model import Facing, Member
from drylay.subframe.place import place_frame
from drylay.subframe.wants import FrameWants, Placed, SeamLine, Timber


@frozen(kw_only=True)
class FrameBought:
    """The frame as it stands, its members marked, and its purchase."""

    placed: Placed
    members: tuple[Member, ...]
    purchase: Purchase


def stand_frame(job: Job, outline: Outline, laid: FieldsLaid) -> Placed | Blocked:
    """Return the frame placed under an outline; blocked where it has no room or no timber."""
    placed = place_frame(
        outline,
        FrameWants(
            timber_thickness_mm=job.articles.timber.thickness_mm,
            most_centres_mm=job.rules.value("supports.most_centres_mm"),
            joist_run=joist_run(job.brief),
            noggin_spacing_most_mm=job.rules.value("frame.noggin_spacing_most_mm"),
            mark_mm=mark_mm(job),
            end_support_most_mm=END_SUPPORT_MM,
            reach_mm=longest_mm(job.articles.timber.lengths, job.brief),
            seams=tuple(SeamLine(start=spot(a), end=spot(b)) for a, b in laid.seams),
        ),
    )
    return Blocked(findings=placed.findings) if placed.findings else placed


def cut_frame(cutter: Cutter, placed: Placed, noggins: Sequence[Timber]) -> FrameBought | Blocked:
    """Return the frame's members cut from the stock, long rims jointed, or why they cannot be."""
    job = cutter.job
    members = finish(placed, noggins)
    named = [(member.mark, member.length_mm) for member in members]
    task = Task(
        stock=stock_for(job, job.articles.timber.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(named),
    )
    plan = cut(cutter, task, what="frame timber")
    if isinstance(plan, Finding):
        return Blocked(findings=(plan,))
    bought = purchase(
        what="frame",
        article=job.articles.timber.code,
        mark="T",
        plan=plan,
        named_mm=named,
        minor_digits=job.stock.minor_digits,
    )
    return FrameBought(placed=placed, members=members, purchase=bought)


def cut_facings(cutter: Cutter, facings: Sequence[Facing]) -> tuple[Purchase, ...] | Blocked:
    """Return the fascia of all sides cut from the stock; nothing where no side is faced."""
    job, fascia = cutter.job, cutter.job.articles.fascia
    if fascia is None or not facings:
        return ()
    named = [(facing.mark, facing.length_mm) for facing in facings]
    task = Task(
        stock=stock_for(job, fascia.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(named),
    )
    plan = cut(cutter, task, what="fascia")
    if isinstance(plan, Finding):
        return Blocked(findings=(plan,))
    return (
        purchase(
            what="fascia",
            article=fascia.code,
            mark="FB",
            plan=plan,
            named_mm=named,
            minor_digits=job.stock.minor_digits,
        ),
    )
