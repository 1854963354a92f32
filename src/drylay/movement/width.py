"""How a width changes with the wood's moisture content: three published forms."""

from collections.abc import Iterator

from drylay.counting import counted
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.movement.bounds import refuse, shown, unfit
from drylay.movement.model import WidthChange
from drylay.reasons import Source

#: Where shrinkage begins in most woods, and the largest moisture content these forms take.
SATURATION_PCT = 30.0
SATURATION_SOURCE = Source(
    kind="handbook", title="Wood Handbook FPL-GTR-190", clause="ch. 13, 30 % at most in eq. 13-3"
)
COEFFICIENT_SOURCE = Source(
    kind="handbook",
    title="Wood Handbook FPL-GTR-190",
    clause="ch. 13, eq. 13-2; coefficients made for 6 to 14 %",
)
SHRINKAGE_SOURCE = Source(
    kind="handbook", title="Wood Handbook FPL-GTR-190", clause="ch. 13, eq. 13-3"
)
FRAMING_SOURCE = Source(
    kind="handbook", title="Green, FPL-RP-489 (1989)", clause="abstract, for 8 to 19 %"
)
COEFFICIENT_PCT = (6.0, 14.0)
FRAMING_PCT = (8.0, 19.0)
#: Framing as wet as this counts as green, where shrinkage starts. Source: the same abstract.
GREEN_PCT = 28.0
#: Shrinkage in per cent of the green size: so much, less so much for each 1 % of moisture.
_FRAMING = {"width": (6.031, 0.215), "thickness": (5.062, 0.181)}


@counted
def moisture_change(
    *,
    width_mm: float,
    movement_per_pct: float,
    from_pct: float,
    to_pct: float,
    saturation_pct: float = SATURATION_PCT,
) -> WidthChange:
    """Return how much a board's width changes between two moisture contents.

    Width times coefficient times change of moisture content. The coefficients are made for 6
    to 14 %; a finding says where a moisture content lies outside and the answer is rougher.
    Above fibre saturation nothing moves.

    Raises:
        InputError: A number is not one of its kind.

    Source: Wood Handbook FPL-GTR-190, eq. 13-2.
    """
    refuse(
        unfit("length", width_mm=width_mm),
        unfit("movement", movement_per_pct=movement_per_pct),
        unfit("moisture", from_pct=from_pct, to_pct=to_pct),
        unfit("saturation", saturation_pct=saturation_pct),
    )
    steps_pct = min(to_pct, saturation_pct) - min(from_pct, saturation_pct)
    return _change(
        (width_mm, from_pct, to_pct),
        width_mm * movement_per_pct * steps_pct,
        (*rough("width", from_pct, to_pct), *saturated("width", saturation_pct, from_pct, to_pct)),
        COEFFICIENT_SOURCE,
    )


def shrinkage_change(
    *,
    width_mm: float,
    shrinkage_pct: float,
    from_pct: float,
    to_pct: float,
    saturation_pct: float = SATURATION_PCT,
) -> WidthChange:
    """Return how much a width changes, from the wood's shrinkage from green to oven-dry.

    Shrinkage runs straight from `saturation_pct` down to dry. This form holds below fibre
    saturation at any moisture content; above it nothing moves.

    Raises:
        InputError: A number is not one of its kind.

    Source: Wood Handbook FPL-GTR-190, eq. 13-3.
    """
    refuse(
        unfit("length", width_mm=width_mm),
        unfit("shrinkage", shrinkage_pct=shrinkage_pct),
        unfit("moisture", from_pct=from_pct, to_pct=to_pct),
        unfit("saturation", saturation_pct=saturation_pct),
    )
    start, end = min(from_pct, saturation_pct), min(to_pct, saturation_pct)
    under = saturation_pct * 100 / shrinkage_pct - saturation_pct + start
    return _change(
        (width_mm, from_pct, to_pct),
        width_mm * (end - start) / under,
        tuple(saturated("width", saturation_pct, from_pct, to_pct)),
        SHRINKAGE_SOURCE,
    )


def movement_from_shrinkage(
    *, shrinkage_pct: float, saturation_pct: float = SATURATION_PCT
) -> float:
    """Return the coefficient for each 1 % that goes with a shrinkage: that at 10 %.

    Raises:
        InputError: A number is not one of its kind.

    Source: arithmetic on eq. 13-3 of the Wood Handbook; gives its table 13-5 from 4-3.
    """
    refuse(
        unfit("shrinkage", shrinkage_pct=shrinkage_pct),
        unfit("saturation", saturation_pct=saturation_pct),
    )
    return float(1 / (saturation_pct * 100 / shrinkage_pct - saturation_pct + 10))


def framing_shrinkage_pct(*, moisture_pct: float, face: str = "width") -> float:
    """Return by how many per cent green softwood framing has shrunk at a moisture content.

    Not for redwood and cedars, which shrink less. Made for 8 to 19 %.

    Args:
        moisture_pct: Where it is now.
        face: "width" or "thickness".

    Raises:
        InputError: The moisture content or the face is none.

    Source: Green, FPL-RP-489: 6.031 - 0.215 M across the width, 5.062 - 0.181 M in thickness.
    """
    refuse(unfit("moisture", moisture_pct=moisture_pct), _unfit_face(face))
    most, less = _FRAMING[face]
    return max(0.0, float(most - less * moisture_pct))


def framing_change(
    *, width_mm: float, from_pct: float, to_pct: float, face: str = "width"
) -> WidthChange:
    """Return how much a face of softwood framing changes between two moisture contents.

    Findings tell where these lie outside 8 to 19 %, for which the form was made. Not for
    redwood and cedars, which shrink less.

    Raises:
        InputError: A number is not one of its kind, or the face is none.

    Source: Green, FPL-RP-489.
    """
    refuse(
        unfit("length", width_mm=width_mm),
        unfit("moisture", from_pct=from_pct, to_pct=to_pct),
        _unfit_face(face),
    )
    start = 1 - framing_shrinkage_pct(moisture_pct=from_pct, face=face) / 100
    end = 1 - framing_shrinkage_pct(moisture_pct=to_pct, face=face) / 100
    shrunk_pct = tuple(pct for pct in (from_pct, to_pct) if pct < GREEN_PCT)
    return _change(
        (width_mm, from_pct, to_pct),
        width_mm * (end / start - 1),
        tuple(_outside("width", shrunk_pct or (FRAMING_PCT[1],), FRAMING_PCT, FRAMING_SOURCE)),
        FRAMING_SOURCE,
    )


def rough(subject: str, *moistures_pct: float) -> Iterator[Finding]:
    """Yield where moisture contents lie outside those that coefficients are made for."""
    return _outside(subject, moistures_pct, COEFFICIENT_PCT, COEFFICIENT_SOURCE)


def saturated(subject: str, saturation_pct: float, *moistures_pct: float) -> Iterator[Finding]:
    """Yield where a moisture content lies above fibre saturation."""
    if max(moistures_pct) > saturation_pct:
        told = "wetter than fibre saturation: nothing moves above it"
        yield _note("MOV-003", subject, told, max(moistures_pct), saturation_pct, SATURATION_SOURCE)


def _outside(
    subject: str, moistures_pct: tuple[float, ...], made_for: tuple[float, float], source: Source
) -> Iterator[Finding]:
    least, most = made_for
    rougher = "than the form was made for: a rougher figure"
    if min(moistures_pct) < least:
        yield _note("MOV-002", subject, f"drier {rougher}", min(moistures_pct), least, source)
    if max(moistures_pct) > most:
        yield _note("MOV-002", subject, f"wetter {rougher}", max(moistures_pct), most, source)


def _note(  # noqa: PLR0917 - read as the row of a table
    code: str, subject: str, told: str, measured: float, limit: float, source: Source
) -> Finding:
    return Finding(
        code=code,
        severity=Severity.NOTE,
        subject=subject,
        message=told,
        measured=float(measured),
        limit=float(limit),
        unit="%",
        source=source,
    )


def _change(
    given: tuple[float, float, float],
    change_mm: float,
    findings: tuple[Finding, ...],
    source: Source,
) -> WidthChange:
    return WidthChange(
        width_mm=float(given[0]),
        from_pct=float(given[1]),
        to_pct=float(given[2]),
        change_mm=float(change_mm),
        findings=findings,
        source=source,
    )


def _unfit_face(face: object) -> Iterator[Fault]:
    if not isinstance(face, str) or face not in _FRAMING:
        yield Fault(path="face", found=shown(face), wanted="width or thickness")
