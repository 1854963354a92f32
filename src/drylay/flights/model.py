"""The nouns of flights: steps from a deck down to the ground, or from one level to another."""

from attrs import frozen

from drylay.findings import Finding
from drylay.reasons import because
from drylay.regions.model import Limit


@frozen(kw_only=True)
class FlightRules:
    """A region's limits for flights, each under the name that the pack has for it."""

    rise_least: Limit
    rise_most: Limit
    going_least: Limit
    going_most: Limit
    two_rise_going_least: Limit
    two_rise_going_most: Limit
    pitch_most: Limit
    rise_differ: Limit
    risers_most: Limit
    flight_rise_most: Limit
    handrail_risers: Limit
    handrail_rise: Limit
    handrail_least: Limit
    handrail_most: Limit
    landing_least: Limit
    width_least: Limit
    open_riser_sphere: Limit
    guard_trigger: Limit
    guard_height: Limit
    guard_ball: Limit


@frozen(kw_only=True)
class Broken:
    """A rule that a flight breaks: what it measures, and the limit."""

    says: str
    measured: float
    limit: Limit


@frozen(kw_only=True)
class Flight:
    """A flight of equal risers. Heights are of walking surfaces, over the landing at its foot.

    `drop_mm` is from the deck's top to the ground below its edge, which lies deeper than the foot
    where the ground rises. `heights_mm` are those of the treads and of the deck last: equal steps,
    each to the nearest 1/320 mm. `run_mm` holds one going less than there are risers, since the
    deck is the last tread. `going_from_mm` to `going_to_mm` is what every rule leaves for the
    going, both the going itself where it was given.

    A stringer is cut with its first rise `first_cut_mm`, a tread's thickness less than a riser;
    its top seat lies `seat_below_top_mm` under the deck's top, and `seat_below_frame_mm` under the
    top of its frame. `stringer_mm` is the least length of timber that it comes out of, corner to
    corner; `notch_mm` how deep a notch goes into it, square to its edge.
    """

    risers: int
    drop_mm: float
    rise_mm: float
    riser_mm: float
    heights_mm: tuple[float, ...]
    going_mm: float
    going_from_mm: float
    going_to_mm: float
    two_rise_going_mm: float
    pitch_deg: float
    run_mm: float
    treads: int
    first_cut_mm: float
    seat_below_top_mm: float
    seat_below_frame_mm: float
    stringer_mm: float
    notch_mm: float
    handrail: bool
    handrail_by: str
    why: tuple[str, ...]


@frozen(kw_only=True)
class FlightWays:
    """Every flight that keeps all rules, the best first; with none, findings tell what clashes."""

    ways: tuple[Flight, ...]
    findings: tuple[Finding, ...]


@frozen(kw_only=True)
class Steps:
    """A flight of steps down from one side of a deck, where it starts and how broad it is.

    `side` is one of the cover's; `from_mm` counts along it from the side's corner nearer the datum.
    `fall_ratio` is how much the ground falls away for each length out, `across_fall_mm` how much it
    falls along the side over the flight's width.
    """

    region: str
    side: str
    from_mm: float = because("steps.risers")
    width_mm: float = because("steps.risers")
    tread_mm: float = because("steps.risers")
    risers: int = because("steps.risers")
    fall_ratio: float = because("steps.risers")
    across_fall_mm: float = because("steps.risers")
    flight: Flight = because("steps.risers")
