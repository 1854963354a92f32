"""What a deck on an outline asks of its brief and its rules, as the plain numbers rooms take."""

from attrs import frozen

from drylay.laying.fit import KINDS, FitRules
from drylay.laying.joints import JointLimits
from drylay.marks import MARK_320, exact, to_mm
from drylay.planner.job import Job

#: The most that a gap may grow along its row where rows are fanned. Source: common practice.
FAN_MOST_MM = 1.0
#: How far a board's cut end may be from a member under it. Source: common practice.
END_SUPPORT_MM = 100.0


@frozen(kw_only=True)
class Sizes:
    """The lengths that laying out needs over and over."""

    board_mm: float
    thickness_mm: float
    end_gap_mm: float
    gap_mm: float
    mark_320: int
    longest_mm: float


def sizes_of(job: Job) -> Sizes:
    """Return the board's sizes and the gaps it is laid with."""
    board, brief = job.articles.board, job.brief
    on_sale = [entry.length_mm for entry in board.lengths if entry.limit != 0]
    return Sizes(
        board_mm=brief.board.measured_width_mm or board.width_mm,
        thickness_mm=board.thickness_mm,
        end_gap_mm=job.rules.value("pieces.end_gap_mm"),
        gap_mm=job.rules.value("surface.gap_preferred_mm"),
        mark_320=MARK_320[brief.units],
        longest_mm=max(on_sale, default=0.0) - 2 * brief.cutting.end_trim_mm,
    )


def fit_rules(job: Job, *, fan_mm: float = 0.0) -> FitRules:
    """Return what the rows of a field keep to."""
    rules, sizes = job.rules, sizes_of(job)
    return FitRules(
        board_320=exact(sizes.board_mm),
        gap_least_320=exact(rules.value("surface.gap_least_mm")),
        gap_preferred_320=exact(sizes.gap_mm),
        gap_most_320=exact(rules.value("surface.gap_most_mm")),
        sliver_320=exact(rules.value("surface.sliver_limit_mm")),
        least_rip_320=exact(rules.value("surface.least_rip_mm")),
        may_rip=job.brief.rows.may_rip and rules.count("surface.may_rip") == 1,
        mark_320=sizes.mark_320,
        fan_320=exact(fan_mm),
    )


def kinds_of(job: Job) -> tuple[str, ...]:
    """Return the ways out the brief asks for that an outline has, in its order."""
    return tuple(kind for kind in job.brief.rows.prefer if kind in KINDS)


def joint_limits(job: Job, joist_lines: int) -> JointLimits:
    """Return what joints keep to."""
    rules, sizes = job.rules, sizes_of(job)
    return JointLimits(
        gap_320=exact(sizes.end_gap_mm),
        least_supports=rules.count("pieces.least_supports"),
        stagger_bays=rules.count("pieces.stagger_bays"),
        most_per_row=job.brief.joints.most_per_row,
        least_piece_320=exact(rules.value("pieces.least_piece_mm")),
        mark_320=sizes.mark_320,
        joist_lines=joist_lines,
    )


def mark_mm(job: Job) -> float:
    """Return what a pencil can set."""
    return to_mm(MARK_320[job.brief.units])


def joints_single(job: Job) -> bool:
    """Whether the family lets two board ends share one joist, without a batten beside it."""
    rules = job.rules
    return (
        rules.count("supports.joists_under_joint") == 1
        and rules.count("supports.battens_per_joint") == 0
    )
