"""Joist lines put closer until what stands on them passes, before anything is cut."""

from attrs import evolve

from drylay.planner.build import Candidate, fascia_reach_mm, shape
from drylay.planner.buy import Blocked, Shape
from drylay.planner.job import Job
from drylay.planner.packed import packed_strength
from drylay.planner.screening import fails, screen_of
from drylay.planner.siting import site_of
from drylay.planner.standing import boards_asked, settled
from drylay.planner.stood import stands
from drylay.reasons import TurnedDown

#: So many lines more than the fewest are tried at most. Common practice: closer than that, another
#: timber is cheaper.
MOST_MORE = 8
#: What closer joists help: joists and boards themselves, and nothing below them.
CLOSER_HELPS = ("joists", "boards", "no joist")


def strong_lines(job: Job, candidate: Candidate) -> tuple[Candidate, tuple[TurnedDown, ...]]:
    """Return a candidate with so many more joist lines that its timber passes; and the too few.

    Where none of the tries passes, the candidate comes back as it was: its stops tell why.
    """
    if screen_of(job) is None or candidate.seams_mm:
        return candidate, ()
    tried: list[TurnedDown] = []
    for more in range(MOST_MORE + 1):
        closer = evolve(candidate, more_lines=candidate.more_lines + more)
        shaped = shape(job, closer, fascia_mm=(fascia_reach_mm(job) or [0.0])[0])
        if isinstance(shaped, Blocked):
            return candidate, ()
        why = _short_of(job, shaped)
        if not why:
            return closer, tuple(tried)
        if not why.startswith(CLOSER_HELPS):
            return candidate, ()
        tried.append(TurnedDown(value=shaped.supports.line_count, because=why))
    return candidate, ()


def _short_of(job: Job, shaped: Shape) -> str:
    """Return what does not pass over these lines, "" where all does."""
    screen = screen_of(job)
    assert screen is not None
    for board in boards_asked(job, shaped):
        if why := fails(screen.basis.board(board, screen.use)):
            return why
    if not stands(job.brief):
        packed = packed_strength(job, shaped)
        return next((why for one in packed.screened if (why := fails(one))), "") if packed else ""
    found = settled(job, shaped, site_of(job, shaped))
    return "" if found is None or found.arranged is not None else found.stops[0].message
