"""What is told of a footing: what was assumed, what only a look shows, what makers declare."""

from collections.abc import Iterator
from math import floor

from drylay.findings import Finding, Severity, against
from drylay.groundwork.model import Footing, FootingRules
from drylay.reasons import Source
from drylay.regions.model import Soil

_DECLARED = Source(kind="merchant record", title="what the screw's maker declares")


def footing_findings(
    footing: Footing, soil: Soil, rules: FootingRules, *, frost_mm: float | None = None
) -> tuple[Finding, ...]:
    """Return what is to be told of a footing: what was assumed, and what only a look shows."""
    return (*_assumed(footing, soil), *_presumed(footing, soil), *_frost_told(rules, frost_mm))


def screw_findings(*, load_kn: float, capacity_kn: float | None) -> tuple[Finding, ...]:
    """Return a stop where a ground screw's declared capacity is not known or does not do.

    Nothing is reckoned of a screw: its maker declares what it carries, in which ground.
    """
    if capacity_kn is not None and load_kn <= capacity_kn:
        return ()
    unknown = "nobody declared what the ground screw carries: ask its maker, or a licensed person"
    return (
        Finding(
            code="FTG-004",
            severity=Severity.STOP,
            subject="ground screw",
            message=unknown if capacity_kn is None else "the load is over what its maker declares",
            measured=load_kn,
            limit=capacity_kn,
            unit="kN",
            source=_DECLARED,
        ),
    )


def _assumed(footing: Footing, soil: Soil) -> Iterator[Finding]:
    if not footing.soil_named:
        yield Finding(
            code="FTG-001",
            severity=Severity.CAUTION,
            subject=soil.name,
            message="the brief names no soil: this one is assumed, dig and look before you build",
            measured=footing.bearing_kn_m2,
            unit="kN/m2",
            source=soil.bearing.source,
        )


def _presumed(footing: Footing, soil: Soil) -> Iterator[Finding]:
    yield Finding(
        code="FTG-005",
        severity=Severity.NOTE,
        subject=soil.name,
        message="load, and what the footing carries beside itself; the bearing is presumed, nobody "
        "measured it",
        measured=footing.load_kn,
        limit=float(floor(footing.carries_kn * 1000)) / 1000,
        unit="kN",
        source=soil.bearing.source,
    )


def _frost_told(rules: FootingRules, told_mm: float | None) -> Iterator[Finding]:
    frost = rules.frost
    if told_mm is not None and frost.value is not None and told_mm < frost.value:
        message = "the brief's frost line lies higher than the region's, which is kept"
        yield against(frost, told_mm, "FTG-006", Severity.CAUTION, "frost line", message)
