"""What is to be said of pegs that were taped: findings, each against its limit."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.reasons import Source
from drylay.work.model import PegMoves

PRACTICE = Source(kind="common practice", title="common practice, no source")
LEAST_SQUARES = Source(kind="arithmetic", title="least squares", clause="C. F. Gauss")


def findings_of(found: PegMoves, tape_mm: float) -> tuple[Finding, ...]:
    """Return what is to be said of the answer, the verdict first."""
    return (_verdict(found, tape_mm), *_taken(found), *_not_fixed(found))


def _verdict(found: PegMoves, tape_mm: float) -> Finding:
    if found.verdict == "tape again":
        return Finding(
            code="SET-003", severity=Severity.CAUTION, subject="pegs", unit="mm",
            message=_contradicted(found),
            measured=found.misfit_mm, limit=tape_mm, source=LEAST_SQUARES,
        )  # fmt: skip
    worst = max(found.worst_mm, abs(found.difference_mm or 0.0))
    if found.verdict == "true":
        return Finding(
            code="SET-001", severity=Severity.NOTE, subject="pegs", unit="mm",
            message="every tape, and what diagonals differ by, is within what is accepted: leave "
            "the pegs", measured=worst, limit=found.accepted_mm, source=PRACTICE,
        )  # fmt: skip
    marks = ", ".join(move.mark for move in found.moves)
    return Finding(
        code="SET-002", severity=Severity.CAUTION, subject="pegs", unit="mm",
        message=f"further off than is accepted: move {marks}, then tape again",
        measured=worst, limit=found.accepted_mm, source=PRACTICE,
    )  # fmt: skip


def _contradicted(found: PegMoves) -> str:
    if found.taken:
        return (
            "no figure has these lengths and its other sides as planned: move nothing, tape the "
            "sides too" + _named(found)
        )
    return "no figure has all these lengths: move nothing, tape again" + _named(found)


def _named(found: PegMoves) -> str:
    if found.suspect is None:
        return ""
    tape = found.suspect
    return (
        f"; without {tape.start} to {tape.end} the others agree, and it should then read "
        f"{tape.length_mm:.1f} mm"
    )


def _taken(found: PegMoves) -> Iterator[Finding]:
    if found.taken:
        sides = ", ".join(f"{tie.start} to {tie.end}" for tie in found.taken)
        yield Finding(
            code="SET-004", severity=Severity.NOTE, subject="pegs", source=LEAST_SQUARES,
            message=f"sides that nobody taped are taken as planned: {sides}",
            measured=float(len(found.taken)), unit="count",
        )  # fmt: skip


def _not_fixed(found: PegMoves) -> Iterator[Finding]:
    if found.tape_too:
        ties = ", ".join(f"{tie.start} to {tie.end}" for tie in found.tape_too)
        yield Finding(
            code="SET-005", severity=Severity.CAUTION, subject="pegs", source=LEAST_SQUARES,
            message="these lengths do not fix the figure: other places of the pegs have them too, "
            f"and the nearest to the plan is taken; tape {ties} as well",
            measured=float(len(found.tape_too)), unit="count",
        )  # fmt: skip
