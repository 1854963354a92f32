"""A region's rules for flights, and which of them a flight breaks."""

from collections.abc import Iterator
from fractions import Fraction
from math import atan2, degrees

from drylay.findings import Finding, Severity, against
from drylay.flights.model import Broken, FlightRules
from drylay.regions.model import Limit, RegionPack

#: Which limit of a pack each rule is.
NAMES = {
    "rise_least": "rise_least_mm",
    "rise_most": "rise_most_mm",
    "going_least": "going_least_mm",
    "going_most": "going_most_mm",
    "two_rise_going_least": "two_rise_going_least_mm",
    "two_rise_going_most": "two_rise_going_most_mm",
    "pitch_most": "pitch_most_deg",
    "rise_differ": "rise_differ_mm",
    "risers_most": "flight_risers_most",
    "flight_rise_most": "flight_rise_most_mm",
    "handrail_risers": "handrail_risers",
    "handrail_rise": "handrail_rise_mm",
    "handrail_least": "handrail_least_mm",
    "handrail_most": "handrail_most_mm",
    "landing_least": "landing_least_mm",
    "width_least": "stair_width_least_mm",
    "open_riser_sphere": "open_riser_sphere_mm",
    "guard_trigger": "guard_trigger_mm",
    "guard_height": "guard_height_stair_mm",
    "guard_ball": "sphere_stair_mm",
}


def flight_rules(pack: RegionPack) -> FlightRules:
    """Return a region's rules for flights."""
    limits = {limit.name: limit for limit in pack.limits}
    return FlightRules(**{rule: limits[name] for rule, name in NAMES.items()})


def pitch_deg(riser_mm: float, going_mm: float) -> float:
    """Return the slope of the line over the nosings, from level. Source: geometry."""
    return degrees(atan2(riser_mm, going_mm))


def broken_rules(
    rules: FlightRules, *, risers: int, rise_mm: Fraction, going_mm: float
) -> tuple[Broken, ...]:
    """Return every rule that so many equal risers with this going break; a single riser has none.

    Args:
        rise_mm: From the landing at the foot to the deck's top.
        going_mm: From nosing to nosing.
    """
    riser = rise_mm / risers
    found = [*_rises(rules, riser), *_flights(rules, risers, rise_mm)]
    return (*found, *(_goings(rules, riser, Fraction(going_mm)) if risers > 1 else ()))


def rule_findings(broken: tuple[Broken, ...], subject: str) -> tuple[Finding, ...]:
    """Return each broken rule as a stop, with both figures: none is split between two rules."""
    return tuple(
        against(rule.limit, rule.measured, "STP-002", Severity.STOP, subject, rule.says)
        for rule in broken
    )


def _rises(rules: FlightRules, riser: Fraction) -> Iterator[Broken]:
    yield from _under(rules.rise_least, riser, "the rise is too low")
    yield from _over(rules.rise_most, riser, "the rise is too high")


def _flights(rules: FlightRules, risers: int, rise: Fraction) -> Iterator[Broken]:
    yield from _over(rules.risers_most, Fraction(risers), "too many risers without a landing")
    yield from _over(rules.flight_rise_most, rise, "too high a flight without a landing")


def _goings(rules: FlightRules, riser: Fraction, going: Fraction) -> Iterator[Broken]:
    yield from _under(rules.going_least, going, "the going is too short")
    yield from _over(rules.going_most, going, "the going is too long")
    stride = 2 * riser + going
    yield from _under(
        rules.two_rise_going_least, stride, "twice the rise and the going is too short"
    )
    yield from _over(rules.two_rise_going_most, stride, "twice the rise and the going is too long")
    pitch = Fraction(pitch_deg(float(riser), float(going)))
    yield from _over(rules.pitch_most, pitch, "the flight is too steep")


def _under(limit: Limit, measured: Fraction, says: str) -> Iterator[Broken]:
    if limit.value is not None and measured < Fraction(limit.value):
        yield Broken(says=says, measured=float(measured), limit=limit)


def _over(limit: Limit, measured: Fraction, says: str) -> Iterator[Broken]:
    if limit.value is not None and measured > Fraction(limit.value):
        yield Broken(says=says, measured=float(measured), limit=limit)
