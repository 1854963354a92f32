"""What a brief asks of a deck that stands and the planner does not plan yet: it is told."""

from collections.abc import Iterator

from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE


def not_yet(job: Job, what: str) -> tuple[Finding, ...]:
    """Return a finding for everything of a deck that stands which is not planned for `what`.

    A stop where the deck could not be built without it, a caution where the plan says nothing of
    it: guards, and whether timber carries.
    """
    stops = [_told(Severity.STOP, each, what) for each in _wanted(job.brief)]
    return (*stops, *(_told(Severity.CAUTION, each, what) for each in _unsaid(job.brief)))


def hung_not_yet(job: Job) -> tuple[Finding, ...]:
    """Return a stop where joists under tiles are wished to hang between bearers."""
    brief = job.brief
    if brief.raised.post is None or brief.raised.joists != "between":
        return ()
    wanted = "raised.joists", "joists that hang between bearers"
    return (_told(Severity.STOP, wanted, "tiles"),)


def _wanted(brief: Brief) -> Iterator[tuple[str, str]]:
    if brief.raised.post is not None:
        yield "raised.post", "bearers and posts"
    if brief.steps.side is not None:
        yield "steps.side", "steps"


def _unsaid(brief: Brief) -> Iterator[tuple[str, str]]:
    if brief.strength.basis is not None:
        yield "strength.basis", "what its timber carries"
    if brief.site.region is not None:
        yield "site.region", "where guards are needed, and footings"


def _told(severity: Severity, asked: tuple[str, str], what: str) -> Finding:
    path, wanted = asked
    instead = {
        Severity.STOP: f"leave out {path}",
        Severity.CAUTION: "have somebody who may look at it",
    }
    return Finding(
        code="STR-009", severity=severity, subject=path, source=PRACTICE,
        message=f"not planned under {what} yet: {wanted}; {instead[severity]}",
    )  # fmt: skip
