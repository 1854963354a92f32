"""Sources and short forms that all questions of siting share."""

from collections.abc import Iterator
from math import ceil, floor

from drylay.findings import Finding, Severity
from drylay.reasons import Source
from drylay.siting.model import Answer, DeckPlace, SitingChange

PRACTICE = Source(kind="common practice", title="common practice, no source")
ASSUMED = Source(kind="assumption", title="docs/siting.md")
GEOMETRY = Source(kind="arithmetic", title="geometry")
STOP, CAUTION, NOTE = Severity.STOP, Severity.CAUTION, Severity.NOTE
Figures = tuple[float | None, float | None, str]
NO_FIGURES: Figures = (None, None, "")


def told(  # noqa: PLR0917 - read as the row of a table
    code: str,
    severity: Severity,
    subject: str,
    message: str,
    figures: Figures = NO_FIGURES,
    source: Source = PRACTICE,
) -> Finding:
    """Return a finding: figures are what was measured, its limit, and the unit of both."""
    measured, limit, unit = figures
    return Finding(
        code=code,
        severity=severity,
        subject=subject,
        message=message,
        measured=measured,
        limit=limit,
        unit=unit,
        source=source,
    )


def is_good(findings: list[Finding]) -> bool:
    """Whether nothing found is a stop or a caution."""
    return all(found.severity is NOTE for found in findings)


def answered(
    question: str,
    subject: str,
    findings: list[Finding],
    changes: list[SitingChange] | None = None,
) -> Answer:
    """Return an answer: good where nothing is a stop or a caution, and then without changes."""
    good = is_good(findings)
    return Answer(
        question=question,
        subject=subject,
        good=good,
        findings=tuple(findings),
        changes=() if good else tuple(changes or ()),
    )


def at_least(figure: float) -> float:
    """Return a figure down to a tenth, for what must not be told larger than it is."""
    return floor(round(figure * 10, 6)) / 10


def at_most(figure: float) -> float:
    """Return a figure up to a tenth, for what must not be told smaller than it is."""
    return ceil(round(figure * 10, 6)) / 10


def ratio_least(figure: float) -> float:
    """Return a ratio down to a hundredth of a per cent."""
    return floor(round(figure * 10_000, 6)) / 10_000


def asking(subject: str, text: str) -> SitingChange:
    """Return the change that is no measure: somebody has to be asked."""
    return SitingChange(kind="ask", subject=subject, text=text)


def finding_out(subject: str, text: str) -> SitingChange:
    """Return the change that is no measure: something has to be found out."""
    return SitingChange(kind="find out", subject=subject, text=text)


def level_change(place: DeckPlace, by_mm: float) -> SitingChange:
    """Return the change that raises or lowers a deck's top."""
    way = "raise" if by_mm > 0 else "lower"
    return SitingChange(
        kind="level", subject=place.name, by_mm=by_mm, text=f"{way} the deck by {abs(by_mm):g} mm"
    )


def move_change(way: tuple[int, int], far_mm: float) -> SitingChange:
    """Return the change that moves a place one way, told as one does it."""
    along, across = way[0] * far_mm, way[1] * far_mm
    return SitingChange(
        kind="move", subject="place", along_mm=along, across_mm=across, text=moved(along, across)
    )


def moved(along_mm: float, across_mm: float) -> str:
    """Return a shift in words: "move 340 mm to the right and 20 mm towards the house"."""
    return "move " + " and ".join(_ways(along_mm, across_mm))


def _ways(along_mm: float, across_mm: float) -> Iterator[str]:
    if along_mm:
        yield f"{abs(along_mm):g} mm to the {'right' if along_mm > 0 else 'left'}"
    if across_mm:
        where = "away from" if across_mm > 0 else "towards"
        yield f"{abs(across_mm):g} mm {where} the house"
