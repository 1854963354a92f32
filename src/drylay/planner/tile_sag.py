"""How far a frame sags under tiles that break, beside what they bear."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.reasons import Source
from drylay.strength.model import Check, Strength

#: A frame under brittle tiles sags by this part of its span at most.
SAG_OVER = 500
MEMORY = Source(kind="from memory", title="frames under brittle finishes", clause="sag")
#: What bases call the length that a deflection is held against.
LENGTHS = ("length_mm", "part_mm")
#: Deflections that are not those of a span under people: of a free end, and after years.
OTHERS = ("cantilever", "overhang", "final")
SAID = (
    "tiles are brittle: under people the frame may sag by 1/500 of its span at most, without bounce"
)


def sag_told(strength: Strength | None) -> Finding:
    """Return how far the frame may sag, and how far it does where a basis tells: TIL-014."""
    if strength is None:
        return _told(Severity.NOTE, f"{SAID}; strength is not checked here")
    worst = max(_sags(strength), key=lambda each: each[0] / each[1], default=None)
    if worst is None:
        return _told(Severity.NOTE, f"{SAID}; the basis tells no sag: have it looked at")
    sag_mm, most_mm, subject = worst
    if sag_mm <= most_mm:
        return _told(Severity.NOTE, f"{SAID}: nothing sags more, {subject} by most of it", sag_mm)
    return _told(
        Severity.CAUTION, f"{SAID}; by the basis, whose own limits are wider, {subject} may sag "
        "more: tiles may crack, name deeper timber or put what carries it closer", sag_mm,
    )  # fmt: skip


def _told(severity: Severity, message: str, measured: float | None = None) -> Finding:
    return Finding(code="TIL-014", severity=severity, subject="frame", message=message,
                   source=MEMORY, measured=measured,
                   unit="" if measured is None else "mm")  # fmt: skip


def _sags(strength: Strength) -> Iterator[tuple[float, float, str]]:
    """Yield every sag of a span that a basis tells, and what of that span it may be."""
    for found in strength.screened[: len(strength.beams)]:
        for check in found.checks:
            span_mm = _span_mm(check)
            if span_mm:
                yield check.measured, span_mm / SAG_OVER, found.subject


def _span_mm(check: Check) -> float:
    if "deflection" not in check.name or any(other in check.name for other in OTHERS):
        return 0.0
    told = dict(check.inputs)
    found = next((told[name] for name in LENGTHS if name in told), 0.0)
    return float(found) if isinstance(found, int | float) else 0.0
