"""The frame under an outline: placed under what boards want, its ends supported, cut, bought."""

from collections.abc import Sequence

from attrs import evolve, frozen

from drylay.buying.model import Purchase
from drylay.buying.purchase import pieces_of, purchase
from drylay.cutting.model import Task
from drylay.findings import Finding, Severity
from drylay.frame.members import FLANGES_MM, fewest_rim_joints
from drylay.laying.axes import placed as placed_at
from drylay.laying.axes import spot
from drylay.marks import exact
from drylay.outline.model import Outline, Spot
from drylay.planner.angles import joist_run
from drylay.planner.buy import Blocked, longest_mm, stock_for
from drylay.planner.cuts import STOCK_SOURCE, Cutter, as_large, cut
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid
from drylay.planner.outlined_ends import board_ends, hanging_stretches
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_held import wood_of
from drylay.planner.outlined_job import END_SUPPORT_MM, mark_mm
from drylay.planner.stood import Named
from drylay.subframe.finish import finish
from drylay.subframe.joist_joints import with_joist_joints
from drylay.subframe.model import Facing, Member, PanelBatten
from drylay.subframe.noggins import noggin_rows, support_ends
from drylay.subframe.place import place_frame
from drylay.subframe.plane import place_of
from drylay.subframe.sizes import length_of, too_long
from drylay.subframe.splices import long_rims, rim_lines, with_rim_joints
from drylay.subframe.wants import FrameWants, Placed, RungLine, SeamLine, Timber

#: How often noggins are put under what hangs free before it is told.
MOST_TURNS = 5


@frozen(kw_only=True)
class FrameLaid:
    """The frame as it stands, its members marked, battens of panels too."""

    placed: Placed
    members: tuple[Member, ...]
    battens: tuple[PanelBatten, ...]


@frozen(kw_only=True)
class FrameBought(FrameLaid):
    """A frame as it stands with its purchase."""

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
            rungs=tuple(
                RungLine(start=spot(a), end=spot(b), zone=zone) for a, b, zone in laid.rungs
            ),
        ),
    )
    return Blocked(findings=placed.findings) if placed.findings else placed


def with_joints(cutter: Cutter, placed: Placed, boards: BoardsLaid) -> Placed | Blocked:
    """Return the frame with long rims and joists jointed, clear of where boards are screwed."""
    with_rims = _with_rim_joints(cutter, placed)
    if isinstance(with_rims, Blocked):
        return with_rims
    run = placed.wants.joist_run
    screwed = [place_of(at, run) for mark in boards.over for at in _held_at(boards, mark)]
    jointed = with_joist_joints(with_rims, screwed)
    stops = too_long(jointed)
    return Blocked(findings=tuple(stops)) if stops else jointed


def _held_at(boards: BoardsLaid, mark: str) -> list[Spot]:
    """Return where a piece is screwed down, on its row's middle line, or its own."""
    band = boards.parts[mark].band
    middle = (band.low_mm + band.high_mm) / 2
    levels = (middle if each.level_mm is None else each.level_mm for each in boards.over[mark])
    return [
        spot(placed_at(band.axes, (each.at_mm, level)))
        for each, level in zip(boards.over[mark], levels, strict=True)
    ]


def _with_rim_joints(cutter: Cutter, placed: Placed) -> Placed | Blocked:
    """Return the frame with long rims jointed, each in the fewest pieces: bought for themselves.

    Where they are jointed is settled before the rest of the frame is cut, for their splices are cut
    from the same timber.
    """
    job = cutter.job
    reach_mm = longest_mm(job.articles.timber.lengths, job.brief)
    lines = rim_lines(placed, reach_mm)
    if not lines:
        return placed
    fewest = [fewest_rim_joints(line, exact(reach_mm)) for line in lines]
    stops = [
        _not_jointed(rim, reach_mm)
        for rim, joints in zip(long_rims(placed, reach_mm), fewest, strict=True)
        if joints is None
    ]
    if stops:
        return Blocked(findings=tuple(stops))
    task = Task(
        stock=stock_for(job, job.articles.timber.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        lines=tuple(
            evolve(line, most_joints=most) for line, most in zip(lines, fewest, strict=True)
        ),
    )
    plan = cut(cutter, task, what="rims")
    if isinstance(plan, Finding):
        return Blocked(findings=(plan,))
    hung = FLANGES_MM if job.articles.hanger is not None else 0.0
    joints = [line for lines_of_set in plan.joints for line in lines_of_set]
    return with_rim_joints(placed, joints, reach_mm, beside_mm=hung)


def _not_jointed(rim: Timber, reach_mm: float) -> Finding:
    return Finding(
        code="SUB-003",
        severity=Severity.STOP,
        subject=f"rim of {rim.side}",
        message=f"longer than any timber to be had by {length_of(rim) - reach_mm:.1f} mm, and what "
        "stands close behind it leaves no room for the splice of a joint: bring longer timber, or "
        "another border (laying.border_courses)",
        measured=round(length_of(rim), 4),
        limit=reach_mm,
        unit="mm",
        source=STOCK_SOURCE,
    )


def noggins_under(
    job: Job, placed: Placed, boards: BoardsLaid, faces: Sequence[Sequence[Spot]]
) -> tuple[Timber, ...]:
    """Return all noggins: under boards that nothing carries closely, and in their regular rows."""
    ends, before = board_ends(boards), None
    for _ in range(MOST_TURNS):
        under = support_ends(placed, ends, faces)
        found = (*under, *noggin_rows(placed, under))
        hanging = hanging_stretches(job, boards, wood_of(finish(placed, found), faces))
        if not hanging or under == before:
            break
        # a noggin more moves those of its bay's rows, and boards may have lain on these
        ends, before = [*ends, *hanging], under
    return found


def framed(
    placed: Placed, noggins: Sequence[Timber], battens: tuple[PanelBatten, ...]
) -> FrameLaid:
    """Return the frame's members, marked, before any is cut."""
    return FrameLaid(placed=placed, members=finish(placed, noggins), battens=battens)


def cut_frame(cutter: Cutter, laid: FrameLaid, legs: Named = ()) -> FrameBought | Blocked:
    """Return the frame's members and the panels' battens cut from the stock, or why not.

    `legs`: what of the same timber stands under the frame, cut with it.
    """
    job = cutter.job
    named = [(member.mark, member.length_mm) for member in laid.members]
    named += [(batten.mark, batten.length_mm) for batten in laid.battens]
    named += legs
    task = Task(
        stock=stock_for(job, job.articles.timber.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(named),
    )
    plan = cut(as_large(cutter, task), task, what="frame timber")
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
    return FrameBought(
        placed=laid.placed, members=laid.members, battens=laid.battens, purchase=bought
    )


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
