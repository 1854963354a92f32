"""Whether timber is treated, or durable, enough for where it is: one rule for all of a deck's."""

from collections.abc import Iterator
from typing import Any

from drylay.findings import Finding, Severity
from drylay.materials.treatment import is_untreated
from drylay.planner.job import Job
from drylay.reasons import Source

#: The highest durability class of untreated wood that serves in a use class.
#: Source: EN 460, table 1, where no treatment is asked, from memory.
LASTS = {2: 3, 3: 2, 4: 1, 5: 1}
#: The lowest use class there is: what asks for no more asks for no treatment.
ANY_CLASS = 1
#: The use class of timber that stands in concrete, as in soil.
IN_CONCRETE = 4
IN_GROUND = Source(kind="from memory", title="EN 335", clause="class 4: in contact with the ground")


def legs_treated_too_little(job: Job) -> Iterator[Finding]:
    """Yield what is wrong with the treatment of bearers and posts: as good as the frame's, or more.

    Source: the frame's rule; EN 335 of posts that stand in concrete, from memory.
    """
    path = "fixings.frame_use_class_least"
    least, source = job.rules.count(path), job.rules.source(path)
    articles = job.articles
    if articles.bearer is not None:
        yield from treated_too_little(articles.bearer, "bearers", least, source)
    if job.brief.raised.foot == "in concrete" and least < IN_CONCRETE:
        least, source = IN_CONCRETE, IN_GROUND
    if articles.post is not None:
        yield from treated_too_little(articles.post, "posts", least, source)


def treated_too_little(article: Any, what: str, least: int, source: Source) -> Iterator[Finding]:
    """Yield that a timber is of no use class, or of too low a one; a stop, or a caution."""
    sold = article.use_class
    if least > ANY_CLASS and (sold is None or sold < least):
        stop, message = _too_low(article, least)
        yield Finding(
            code="MAT-005" if stop else "MAT-006",
            severity=Severity.STOP if stop else Severity.CAUTION,
            subject=what,
            message=f"{article.code} {message}",
            measured=sold,
            limit=least,
            unit="use class",
            source=source,
        )


def _too_low(article: Any, least: int) -> tuple[bool, str]:
    """Return whether a timber of no use class, or of too low a one, stops the plan; and why."""
    wanted = f"name timber of class {least} or higher"
    if article.use_class is not None:
        return True, f"is treated for too low a use class; {wanted}"
    if not is_untreated(article.treatment):
        return False, "tells no use class: treat it as untreated, and ask before you buy"
    durable = article.durability_class
    if durable is None:
        return True, f"is sold untreated; {wanted}"
    if durable > LASTS.get(least, 0):
        return True, f"is sold untreated, and durability class {durable} is too low; {wanted}"
    return False, (
        f"is sold untreated; wood of durability class {durable} may serve where class {least} is "
        "asked, its sapwood never (EN 460, from memory): ask before you buy"
    )
