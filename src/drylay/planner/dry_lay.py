"""A job laid out dry: every way out of its rows, and those to be built, the best first."""

from collections.abc import Iterable

from attrs import frozen

from drylay.brief.model import WAYS_OUT
from drylay.findings import Finding
from drylay.marks import to_mm
from drylay.planner import board_notes
from drylay.planner.build import Candidate
from drylay.planner.candidates import (
    border_stops,
    candidates_of,
    not_ripped,
    row_limits,
    rows_ruled,
    ruled,
    turned_candidates,
)
from drylay.planner.clips import hollow_boards
from drylay.planner.job import Job
from drylay.planner.no_way_out import Courses, no_way_out
from drylay.surface.model import WayOut
from drylay.surface.rows import in_order


@frozen(kw_only=True)
class Laid:
    """A job laid out dry: every way out, and those to be built through, the best first.

    `best` is empty where rules are missing, or where no way out that is asked for is honest;
    `stops` say why nothing could be laid at all.
    """

    main: Job
    candidates: tuple[tuple[Job, Candidate], ...] = ()
    ways: tuple[WayOut, ...] = ()
    best: tuple[WayOut, ...] = ()
    stops: tuple[Finding, ...] = ()


def lay_dry(main: Job, turned: Job | None) -> Laid:
    """Return a job laid out dry; `turned` is the same with boards the other way, if they may."""
    if not ruled(main):
        return Laid(main=main, stops=_of_the_rows(main) if turned is None else ())
    if stops := border_stops(main):
        return Laid(main=main, stops=stops)
    candidates = [(main, c) for c in candidates_of(main)]
    candidates += [(turned, c) for c in turned_candidates(turned) if turned is not None]
    ways = tuple(candidate.way for _, candidate in candidates)
    prefer, gap_mm = main.brief.rows.prefer, main.rules.value("surface.gap_preferred_mm")
    unasked = tuple(kind for kind in WAYS_OUT if kind not in prefer)
    asked = in_order(ways, prefer, gap_mm)
    best = in_order(ways, (*prefer, *unasked), gap_mm) if asked else ()
    return Laid(main=main, candidates=tuple(candidates), ways=ways, best=best)


def _of_the_rows(job: Job) -> tuple[Finding, ...]:
    """Return what stops the rows where another rule is missing: one stop is not to hide another."""
    if not rows_ruled(job):
        return ()
    if stops := border_stops(job):
        return stops
    ways = tuple(candidate.way for candidate in candidates_of(job))
    asked = any(way.honest and way.kind in job.brief.rows.prefer for way in ways)
    return () if asked else why_no_way_out(job, ways)


def why_no_way_out(job: Job, ways: Iterable[WayOut]) -> tuple[Finding, ...]:
    """Return why nothing fills the cover, and what of the boards themselves stands in the way."""
    limits = row_limits(job)
    courses = Courses(
        name="rows",
        side="across" if job.brief.board.run == "along" else "along",
        ways=tuple(ways),
        cut=not_ripped(job),
        left_mm=to_mm(limits.remainder_320),
    )
    stop = no_way_out(job.brief, (courses,), subject="rows")
    return (stop, *hollow_boards(job), *board_notes.not_through_inserts(job))
