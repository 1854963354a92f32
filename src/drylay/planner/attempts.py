"""Ways out built through, one after another: the first that can be is proven."""

from attrs import evolve, frozen

from drylay.findings import Finding
from drylay.planner.build import Candidate, build
from drylay.planner.built import Built
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.dry_lay import Laid
from drylay.planner.job import Job, step
from drylay.planner.notes import stops_of
from drylay.planner.seams import settle_seams
from drylay.planner.strong_lines import strong_lines
from drylay.reasons import TurnedDown


@frozen(kw_only=True)
class Attempt:
    """A way out with what came of building it, and what stops that though it was built.

    `tried`: the sets of joint lines turned down; `closer`: numbers of joists too few for strength.
    """

    job: Job
    candidate: Candidate
    result: Built | Blocked
    stops: tuple[Finding, ...] = ()
    tried: tuple[TurnedDown, ...] = ()
    closer: tuple[TurnedDown, ...] = ()


def chosen_among(attempts: list[Attempt], prefer: tuple[str, ...]) -> Attempt | None:
    """Return the first way out that nothing stops, else the first that was built."""
    eligible = [attempt for attempt in attempts if _may_be_chosen(attempt, prefer)]
    return next((a for a in eligible if not a.stops), next(iter(eligible), None))


def _may_be_chosen(attempt: Attempt, prefer: tuple[str, ...]) -> bool:
    """Whether a way out was built and is of a kind the brief asks for; others are only priced."""
    return isinstance(attempt.result, Built) and attempt.candidate.way.kind in prefer


def attempts_of(laid: Laid, steps: int) -> list[Attempt]:
    """Return every honest way out built through: the first that can be is proven."""
    known: dict[str, Cutter] = {}
    attempts: list[Attempt] = []
    for number, way in enumerate(laid.best, start=1):
        job, candidate = next(pair for pair in laid.candidates if pair[1].way == way)
        step(job, f"way out: {way.kind}", number, steps)
        cutter = known.setdefault(job.brief.board.run, Cutter(job=job))
        if any(isinstance(a.result, Built) and not a.stops for a in attempts):
            cutter = evolve(cutter, mode="quick")
        attempts.append(attempt_of(cutter, candidate))
    return attempts


def attempt_of(cutter: Cutter, candidate: Candidate) -> Attempt:
    """Return a way out built through, its joint lines settled first."""
    candidate, closer = strong_lines(cutter.job, candidate)
    job, seamed = cutter.job, settle_seams(cutter, candidate)
    if isinstance(seamed, Blocked):
        return Attempt(job=job, candidate=candidate, result=seamed)
    result = build(cutter, seamed.candidate)
    stops = stops_of(job, result) if isinstance(result, Built) else ()
    return Attempt(
        job=job,
        candidate=seamed.candidate,
        result=result,
        stops=stops,
        tried=seamed.tried,
        closer=closer,
    )
