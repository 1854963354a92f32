"""What a roof or a balcony stops: boards that burn."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.planner.built import Standing
from drylay.planner.job import Job
from drylay.reasons import Source

BURNS = "surface.combustible"
BAN = Source(
    kind="from memory",
    title="AD B, Regulation 7 of the Building Regulations",
    clause="external walls and balconies of tall flats hold nothing that burns",
)


def remarks(job: Job, built: Standing) -> Iterator[Finding]:
    """Yield the stop for boards that burn on a roof or a balcony; of tiles TIL-004 speaks."""
    if job.brief.site.roof and built.surface.combustible:
        yield Finding(
            code="BRD-010",
            severity=Severity.STOP,
            subject="roof",
            message="on a roof or balcony: boards of wood and plastic burn, and on tall flats "
            "external walls and balconies must not hold what burns; load, wind and waterproofing "
            "are an engineer's. Not planned here: ask the building control body",
            measured=job.rules.value(BURNS),
            limit=0.0,
            unit="yes/no",
            source=BAN,
        )
