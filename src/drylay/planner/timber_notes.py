"""What is to be said of the wood that a frame is of."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Board
from drylay.planner.job import Job
from drylay.planner.rows import merchant_says
from drylay.plugins.table_rules import has_word
from drylay.reasons import Source
from drylay.units import length_text

SPRUCE = Source(kind="handbook", title="treaters' trade text", clause="spruce")


def remarks(job: Job) -> Iterator[Finding]:
    """Yield what sizes are reckoned with, and the caution on spruce that is not told as incised."""
    yield from nominal(job)
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


def nominal(job: Job) -> Iterator[Finding]:
    """Yield the true thickness of what is called by a nominal size in inches, which is larger."""
    articles = job.articles
    called = (articles.board, articles.timber, articles.bearer, articles.post)
    sold = {each.code: each for each in called if each is not None and each.nominal}
    for timber in sold.values() if job.brief.units == "imperial" else ():
        deep_mm = timber.width_mm if isinstance(timber, Board) else timber.depth_mm
        yield Finding(
            code="MAT-011",
            severity=Severity.NOTE,
            subject=timber.code,
            message=f"nominal size {timber.nominal} converted to actual: "
            f"{length_text(timber.thickness_mm, 'imperial')} by {length_text(deep_mm, 'imperial')}",
            source=merchant_says(job, timber.code),
        )
