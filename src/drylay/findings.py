"""What is poor, risky or worth knowing about a deck, as data."""

from enum import Enum
from typing import Protocol

from attrs import frozen

from drylay.reasons import Source


class Severity(str, Enum):
    """How much a finding matters: a note, a caution, or a stop."""

    NOTE = "note"
    CAUTION = "caution"
    STOP = "stop"


@frozen(kw_only=True)
class Finding:
    """One finding: what about which subject, measured against which limit of which source."""

    code: str
    severity: Severity
    subject: str
    message: str
    measured: float | None = None
    limit: float | None = None
    unit: str = ""
    source: Source

    def __str__(self) -> str:
        figures = ""
        if self.measured is not None:
            figures = f" ({_told(self.measured)}"
            figures += f" against {_told(self.limit)}" if self.limit is not None else ""
            figures += f" {self.unit})" if self.unit else ")"
        return f"{self.severity.value} {self.code} {self.subject}: {self.message}{figures}"


class Bound(Protocol):
    """What a limit tells of itself, whichever room's noun it is."""

    @property
    def value(self) -> float | None: ...  # noqa: D102 - the noun's own docstring tells

    @property
    def unit(self) -> str: ...  # noqa: D102

    @property
    def source(self) -> Source: ...  # noqa: D102


def against(  # noqa: PLR0917 - what every finding against a limit has
    limit: Bound, measured: float, code: str, severity: Severity, subject: str, message: str
) -> Finding:
    """Return a finding of what was measured against a limit, in its unit, by its source."""
    return Finding(
        code=code,
        severity=severity,
        subject=subject,
        message=message,
        measured=measured,
        limit=limit.value,
        unit=limit.unit,
        source=limit.source,
    )


def _told(figure: float) -> str:
    try:
        return f"{figure:g}"
    except OverflowError:  # a whole number beyond any float, in a plan made by hand
        return "a number beyond all measure"
