"""Rows in one piece that are longer than the boards on sale: the longest cover there can be."""

from attrs import evolve

from drylay.marks import exact, to_mm
from drylay.planner.buy import Blocked, longest_mm
from drylay.planner.job import Job
from drylay.surface.model import Surface
from drylay.units import length_at_most


def with_longest(job: Job, surface: Surface, blocked: Blocked) -> Blocked:
    """Return the stops of boards that cannot be cut, measured against the longest cover.

    Of rows without joints only: where joints may lie hangs on more than lengths.
    """
    reach_mm, joints = _reach_mm(job), job.brief.joints
    jointless = joints.most_per_row == 0 or joints.lines_mm == ()
    if not jointless or not 0 < reach_mm < surface.row_length_mm:
        return blocked
    told = length_at_most(reach_mm, job.brief.units)
    return Blocked(
        findings=tuple(
            evolve(
                stop,
                message=f"{stop.message}; in one piece rows reach {told}: make cover.{surface.run} "
                "no more than that, allow joints, or name a longer board",
                measured=surface.row_length_mm,
                limit=reach_mm,
                unit="mm",
            )
            for stop in blocked.findings
        )
    )


def _reach_mm(job: Job) -> float:
    """Return the longest row in one piece, trims reckoned in, of the field and of a border."""
    boards = [board for board in (job.articles.board, job.articles.border) if board is not None]
    sold_mm = min(longest_mm(board.lengths, job.brief) for board in boards)
    wish = job.brief.board
    over_mm = (wish.trim_allowance_mm or 0.0) if wish.ends == "trim_in_line" else 0.0
    return to_mm(exact(sold_mm) - 2 * exact(over_mm))
