"""Where screening ends: what is told here is for an engineer or a licensed person."""

from collections.abc import Iterator

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity, against
from drylay.reasons import Source
from drylay.regions.model import SLOPE_MOST_RATIO, HeightRule, Limit, RegionPack, Soil

WHO = "an engineer or a licensed person"
_PRACTICE = Source(kind="common practice", title="common practice, no source")
_SCREENED = Source(kind="assumption", title="what drylay screens", clause="use, place, ground")
#: Uses that loads are screened for; the others, and what is told of them.
SCREENED_USES = ("dwelling", "balcony")
_OTHER_USES = {
    "crowd": ("ENG-001", "a deck for a crowd is not screened"),
    "hot tub": ("ENG-002", "a deck under a hot tub is not screened"),
}
#: The highest deck and the most earth held up that are screened. Common practice, no source.
HEIGHT_MOST_MM, RETAINED_MOST_MM = 1800.0, 600.0


def hard_stops(
    *,
    use: str,
    on_roof: bool = False,
    height_mm: float | None = None,
    soil: Soil | None = None,
    retained_mm: float = 0.0,
    slope_ratio: float = 0.0,
) -> tuple[Finding, ...]:
    """Return a stop for everything about a deck that is not screened, each naming who to ask.

    Args:
        use: "dwelling", "balcony", "crowd" or "hot tub".
        height_mm: From the deck's top to the lowest ground, None where nobody knows.
        soil: What footings bear on; None where the deck has none.
        retained_mm: How much earth anything of the deck holds up.
        slope_ratio: How much the ground falls for each length along it.

    Raises:
        InputError: The use is none of these.

    Source: common practice for the height, the earth held up and the slope; that the rest is not
        screened is drylay's own limit.
    """
    if use not in (*SCREENED_USES, *_OTHER_USES):
        wanted = " or ".join((*SCREENED_USES, *_OTHER_USES))
        raise InputError((Fault(path="use", found=repr(use), wanted=wanted),))
    found = [*_use_stops(use, on_roof), *_height_stops(height_mm)]
    return (*found, *_soil_stops(soil), *_earth_stops(retained_mm, slope_ratio))


def uncovered(pack: RegionPack, limits: tuple[Limit, ...]) -> tuple[Finding, ...]:
    """Return a stop for every one of these limits that the pack does not cover."""
    return tuple(
        _stop(
            "ENG-008", limit.name, f"{pack.title}: not covered, {WHO} has to say it", limit.source
        )
        for limit in limits
        if limit.standing == "not covered"
    )


def heights_told(pack: RegionPack, height_mm: float) -> tuple[Finding, ...]:
    """Return a caution for each height of the region that a deck goes over, a note for the others.

    Whether a rule holds is the local authority's to say: heights are told, nothing is decided.
    """
    return tuple(_height_told(rule, height_mm) for rule in pack.heights)


def _height_told(rule: HeightRule, height_mm: float) -> Finding:
    over = rule.limit.exceeded_by(height_mm)
    message = rule.asks if over else f"not so high: {rule.asks}"
    severity = Severity.CAUTION if over else Severity.NOTE
    return against(rule.limit, height_mm, "RGN-001", severity, rule.name, message)


def _use_stops(use: str, on_roof: bool) -> Iterator[Finding]:
    if use in _OTHER_USES:
        code, message = _OTHER_USES[use]
        yield _stop(code, use, f"{message}: {WHO} has to design it", _SCREENED)
    if on_roof:
        yield _stop("ENG-003", "roof", f"a deck on a roof is not screened: ask {WHO}", _SCREENED)


def _height_stops(height_mm: float | None) -> Iterator[Finding]:
    if height_mm is None:
        message = f"nobody knows how high the deck stands: measure it, or ask {WHO}"
        yield _stop("ENG-009", "height", message, _SCREENED)
    elif height_mm > HEIGHT_MOST_MM:
        yield _over("ENG-004", "height", "so high a deck", (height_mm, HEIGHT_MOST_MM, "mm"))


def _soil_stops(soil: Soil | None) -> Iterator[Finding]:
    if soil is not None and (soil.poor or soil.bearing.value is None):
        bearing = soil.bearing
        yield Finding(
            code="ENG-005",
            severity=Severity.STOP,
            subject=soil.name,
            message=f"poor ground is not screened: {WHO} has to look at it",
            measured=bearing.value,
            unit=bearing.unit if bearing.value is not None else "",
            source=bearing.source,
        )


def _earth_stops(retained_mm: float, slope_ratio: float) -> Iterator[Finding]:
    if retained_mm > RETAINED_MOST_MM:
        figures = (retained_mm, RETAINED_MOST_MM, "mm")
        yield _over("ENG-006", "retained earth", "so much earth held up", figures)
    elif retained_mm > 0:
        yield Finding(
            code="ENG-010",
            severity=Severity.CAUTION,
            subject="retained earth",
            message="earth held up pushes, more so wet: nothing of the deck is reckoned to hold it",
            measured=retained_mm,
            limit=RETAINED_MOST_MM,
            unit="mm",
            source=_PRACTICE,
        )
    if slope_ratio > SLOPE_MOST_RATIO:
        figures = (slope_ratio, SLOPE_MOST_RATIO, "")
        yield _over("ENG-007", "slope", "so steep a ground", figures)


def _stop(code: str, subject: str, message: str, source: Source) -> Finding:
    return Finding(
        code=code, severity=Severity.STOP, subject=subject, message=message, source=source
    )


def _over(code: str, subject: str, what: str, figures: tuple[float, float, str]) -> Finding:
    measured, limit, unit = figures
    return Finding(
        code=code,
        severity=Severity.STOP,
        subject=subject,
        message=f"{what} is not screened: ask {WHO}",
        measured=measured,
        limit=limit,
        unit=unit,
        source=_PRACTICE,
    )
