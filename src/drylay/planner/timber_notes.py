"""What is to be said of the wood that a frame is of."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.planner.job import Job
from drylay.plugins.table_rules import has_word
from drylay.reasons import Source

SPRUCE = Source(kind="handbook", title="treaters' trade text", clause="spruce")


def remarks(job: Job) -> Iterator[Finding]:
    """Yield the caution on frame timber of spruce, unless its treatment is told as incised."""
    timber = job.articles.timber
    if has_word(timber.species, "spruce") and not has_word(timber.treatment, "incised"):
        yield Finding(
            code="MAT-008",
            severity=Severity.CAUTION,
            subject="frame timber",
            message=f"{timber.code} is spruce, which does not take treatment well: not for posts "
            "or low joists unless incised",
            source=SPRUCE,
        )
