"""Rows in one piece that are longer than the boards on sale: the longest cover there can be."""

from collections.abc import Sequence

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.buy import Blocked, longest_mm
from drylay.planner.job import Job
from drylay.planner.rows import merchant_says
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


#: So many rows are named, no more.
MOST_NAMED = 3


def with_rows(job: Job, stop: Finding, whole_mm: Sequence[tuple[str, float]]) -> Finding:
    """Return the stop of an outline's boards, told which have to lie in one piece and are too long.

    `whole_mm` are those that cannot be jointed, by their rows' marks, with their lengths.
    """
    reach_mm = longest_mm(job.articles.board.lengths, job.brief)
    over = {mark: long for mark, long in whole_mm if long > reach_mm}
    if not over or reach_mm <= 0:
        return stop
    more = f" and {len(over) - MOST_NAMED} more" if len(over) > MOST_NAMED else ""
    told = length_at_most(reach_mm, job.brief.units)
    of_rows = any(mark.startswith("B") for mark in over)
    parted = "breaker boards (laying.breakers) part rows, or " if of_rows else ""
    return evolve(
        stop,
        message=f"{stop.message}; not to be jointed: {', '.join([*over][:MOST_NAMED])}{more}; "
        f"{parted}make the deck no more than {told} along them, or name a longer board",
        measured=max(over.values()),
        limit=reach_mm,
        unit="mm",
    )


def strips_too_long(job: Job, strips_mm: Sequence[tuple[str, float]]) -> tuple[Finding, ...]:
    """Return the stop on each strip that has to lie in one piece and is longer than any board.

    `strips_mm` are what of rows lies beside their middle lines, by their marks, with their lengths.
    """
    reach_mm = longest_mm(job.articles.board.lengths, job.brief)
    if job.brief.joints.most_per_row == 0 or reach_mm <= 0:
        return ()
    return tuple(
        Finding(
            code="LAY-018",
            severity=Severity.STOP,
            subject=mark,
            message="most of this row is a strip under half a board wide, which lies beside the "
            "row's middle line: joints lie on that, so it has to be one piece, and is longer than "
            "the longest board on sale. Move the side beside it, count rows from the other side "
            "(laying.first_row), or part the row by breaker boards (laying.breakers_mm)",
            measured=long_mm,
            limit=reach_mm,
            unit="mm",
            source=merchant_says(job, job.articles.board.code),
        )
        for mark, long_mm in strips_mm
        if long_mm > reach_mm
    )
