"""What a candidate costs at least, its joints with it, before all of it is cut."""

from collections.abc import Callable, Iterable
from decimal import Decimal

from attrs import evolve, frozen

from drylay.buying.model import BoughtLength
from drylay.buying.purchase import money
from drylay.cutting.fewest import by_length, fewest_ways, may_be_whole
from drylay.cutting.model import CutPlan, Task
from drylay.frame.model import Frame
from drylay.marks import exact, to_mm
from drylay.pieces.border import with_border
from drylay.pieces.joints import JointRules, joint_rows
from drylay.pieces.model import Pieces
from drylay.planner import siting
from drylay.planner.border_cut import PART, WHAT, border_task
from drylay.planner.build import Candidate, beneath_of, fixed_of, wanted_of, with_fascia
from drylay.planner.buy import (
    Blocked,
    FrameTask,
    Shape,
    board_task,
    frame_task,
    joint_rules,
    place_frame,
)
from drylay.planner.coats import Bundle
from drylay.planner.cuts import Cutter, cut, floor
from drylay.planner.hung_frame import bands_under
from drylay.planner.shopping import packs_cost

Ways = tuple[tuple[int, ...], ...]


@frozen(kw_only=True)
class Outline:
    """A candidate before it is cut: the cutter's tasks, the frame's last, and the joist lines.

    `rest` is what all else costs at least: packs for the fewest joints and sawn ends there may
    be, fascia and fabric in full.
    """

    tasks: tuple[Task, ...]
    rest: Decimal
    line_count: int


@frozen(kw_only=True)
class _Uncut:
    """Lengths nobody has cut: each piece as if on a length of its own, where it has one sawn end.

    On no length a piece has fewer, but where it is one as sold.
    """

    what: str
    lengths: tuple[BoughtLength, ...]


@frozen(kw_only=True)
class _Laid:
    """Lines as if each had its fewest joints: pieces, tasks, and what is sawn."""

    pieces: Pieces
    tasks: tuple[Task, ...]
    sawn: tuple[_Uncut, ...]


def outline_of(cutter: Cutter, candidate: Candidate) -> Outline | None:
    """Return a candidate before it is cut; None where a part of it cannot be had."""
    job = cutter.job
    shaped, fascia = with_fascia(cutter, candidate)
    if isinstance(shaped, Blocked) or isinstance(fascia, Blocked):
        return None
    laid = _laid(cutter, shaped)
    site = siting.site_of(job, shaped)
    bands = bands_under(job, shaped, site)
    wanted = None if laid is None else frame_task(job, shaped, laid.pieces, bands=bands)
    rims = fewest_ways(wanted.task) if isinstance(wanted, FrameTask) else None
    if laid is None or rims is None or not isinstance(wanted, FrameTask):
        return None
    stations = (rims[0], rims[0]) if rims else ()
    frame = place_frame(job, shaped, stations, wanted.battens, bands)
    beneath, _ = beneath_of(cutter, shaped, frame, site)
    known = (*fascia, *beneath.purchases)
    bundles: tuple[Bundle, ...] = (*laid.sawn, _members(frame, wanted), *known)
    fixed = fixed_of(job, shaped, frame, laid.pieces, bundles)
    if (
        frame.splices or bands
    ):  # where its rims, or plies, are jointed settles where a fascia may be screwed
        fixed = evolve(fixed, fascia_screws=None)
    packs = packs_cost(job, wanted_of(job, fixed, beneath.groundwork))
    return Outline(
        tasks=(*laid.tasks, wanted.task),
        rest=packs + sum((bought.cost for bought in known), Decimal(0)),
        line_count=shaped.supports.line_count,
    )


def _laid(cutter: Cutter, shaped: Shape) -> _Laid | None:
    """Return field and border as if each line had its fewest joints; None if one cannot be made."""
    job, border = cutter.job, cutter.job.articles.border
    rules = joint_rules(job, job.articles.board)
    task = board_task(job, shaped, rules)
    ways = fewest_ways(task)
    if ways is None:
        return None
    pieces = joint_rows(shaped.surface, shaped.supports, rules, ways * task.lines[0].count)
    sawn = _alone(task, "boards", ((each.mark, each.cut_mm) for each in pieces.pieces))
    if border is None:
        return _Laid(pieces=pieces, tasks=(task,), sawn=(sawn,))
    own = joint_rules(job, border, PART)
    edge = border_task(job, shaped, border, own)
    ends = fewest_ways(edge)
    if ends is None:
        return None
    both = _edged(shaped, pieces, own, edge, ends)
    rows = {row.mark for row in shaped.surface.rows if row.border}
    edges = ((each.mark, each.cut_mm) for each in both.pieces if each.row in rows)
    return _Laid(pieces=both, tasks=(task, edge), sawn=(sawn, _alone(edge, WHAT, edges)))


def _edged(shaped: Shape, field: Pieces, own: JointRules, edge: Task, ends: Ways) -> Pieces:
    sets = tuple((way,) * line.count for way, line in zip(ends, edge.lines, strict=True))
    return with_border(field, shaped.surface, shaped.supports, own, sets)


def _members(frame: Frame, wanted: FrameTask) -> _Uncut:
    parts = ((part.mark, part.length_mm) for rim in frame.rims for part in rim.pieces)
    return _alone(wanted.task, "frame", (*parts, *wanted.named))


def _alone(task: Task, what: str, named: Iterable[tuple[str, float]]) -> _Uncut:
    whole, longest = may_be_whole(task), max(stock.length for stock in task.stock)
    lengths = tuple(
        BoughtLength(
            mark="",
            length_mm=mm if exact(mm) in whole else to_mm(longest),
            price=Decimal(0),
            pieces=(mark,),
            offcut_mm=0.0,
        )
        for mark, mm in named
    )
    return _Uncut(what=what, lengths=lengths)


def _by_the_mm(_: Cutter, outline: Outline) -> list[int | None]:
    return [by_length(task) for task in outline.tasks]


def _linear(cutter: Cutter, outline: Outline) -> list[int | None]:
    return [floor(cutter, task) for task in outline.tasks]


def _boards_cut(cutter: Cutter, outline: Outline) -> list[int | None]:
    *boards, frame = outline.tasks
    return [*(_cut(cutter, task) for task in boards), floor(cutter, frame)]


def _all_cut(cutter: Cutter, outline: Outline) -> list[int | None]:
    return [_cut(cutter, task) for task in outline.tasks]


def _cut(cutter: Cutter, task: Task) -> int | None:
    plan = cut(cutter, task, what="")
    return plan.objective if isinstance(plan, CutPlan) else None


#: How a cost is come by, the quickest way first: each comes to as much as the one before, or more.
LOOKS: tuple[Callable[[Cutter, Outline], list[int | None]], ...] = (
    _by_the_mm, _linear, _boards_cut, _all_cut,
)  # fmt: skip


def floor_of(cutter: Cutter, outline: Outline, look: int) -> Decimal | None:
    """Return what a candidate costs at least, by one of LOOKS; None where it cannot be cut."""
    least = [each for each in LOOKS[look](cutter, outline) if each is not None]
    if len(least) < len(outline.tasks):
        return None
    return outline.rest + money(sum(least), cutter.job.stock.minor_digits)
