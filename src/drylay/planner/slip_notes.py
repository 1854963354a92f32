"""What wet pendulum value to ask the merchant for, so that boards are no slide in the rain."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.planner.built import Standing
from drylay.planner.governed import SLIP
from drylay.planner.job import Job


def least(job: Job) -> float | None:
    """Return the wet pendulum value to ask for, None where nobody tells one."""
    told = job.rules.rulings.get(SLIP.path)
    return None if told is None else float(told.value or 0)


def remarks(job: Job, built: Standing, what: str) -> Iterator[Finding]:
    """Yield the value to ask the merchant for, at a pool that for bare feet too."""
    yield from told(job, built.surface.wet_slip_least, what)


def told(job: Job, value: float | None, what: str) -> Iterator[Finding]:
    """Yield the value to ask the merchant for, nothing where nobody tells one."""
    if value:
        barefoot = ", and at a pool for its value for bare feet too"
        yield Finding(
            code="SLP-001",
            severity=Severity.NOTE,
            subject=what,
            message=f"ask the merchant for their wet pendulum value, as shod: {value:g} or more"
            + (barefoot if job.brief.site.exposure == "pool" else ""),
            source=job.rules.source(SLIP.path),
        )
