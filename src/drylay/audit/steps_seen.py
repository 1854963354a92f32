"""Steps: equal risers that make up the rise, goings that make up the run, first cut and seats."""

from collections.abc import Iterator
from math import atan2, degrees, floor

from drylay.audit.edged import thickest
from drylay.audit.exact import PER_MM, Fraction, mm, ticks
from drylay.audit.flaws import need, off_by, same_count, same_length
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.brief.model import SIDES
from drylay.flights.model import Flight, Steps
from drylay.plan.model import Plan
from drylay.reasons import Source

STEPS = Source(kind="arithmetic", title="docs/guards-steps-footings.md", clause="Flights")
#: What sums of floats may differ by, in mm or degrees.
NOISE = 1e-6


def steps_of(plan: Plan) -> Steps:
    """Return the flight of steps, if there is one."""
    return need(plan.steps, "steps")


def _same(name: str, message: str, found: float, wanted: float, unit: str = "mm") -> Iterator[Flaw]:
    if abs(found - wanted) > NOISE:
        yield Flaw(subject=f"steps.flight.{name}", message=message, measured=found, limit=wanted,
                   unit=unit, source=STEPS)  # fmt: skip


def risers_are_equal(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless equal risers, to 1/320 mm, make up the whole rise."""
    steps = steps_of(plan)
    flight = steps.flight
    yield from same_count("steps.risers", "not the flight's", steps.risers, flight.risers, STEPS)
    yield from same_count("steps.flight.treads", "one less than risers", flight.treads,
                          flight.risers - 1, STEPS)  # fmt: skip
    message = "heights, one for each riser"
    found = len(flight.heights_mm)
    yield from same_count("steps.flight.heights_mm", message, found, flight.risers, STEPS)
    if flight.risers < 1:
        return
    rise = Fraction(ticks(flight.rise_mm), flight.risers)
    message = "not an equal part of the rise"
    yield from _same("riser_mm", message, flight.riser_mm, flight.rise_mm / flight.risers)
    for number, height in enumerate(flight.heights_mm, 1):
        wanted = floor(rise * number + Fraction(1, 2))
        subject = f"steps.flight.heights_mm[{number - 1}]"
        yield from same_length(subject, message, height, wanted, STEPS)


def the_rise_is_down_to_the_foot(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the rise is the drop at the deck and the ground's fall to the foot."""
    steps = steps_of(plan)
    flight = steps.flight
    run = Fraction(repr(float(flight.run_mm)))
    fall = Fraction(repr(float(steps.fall_ratio))) * run
    wanted = round((Fraction(repr(float(flight.drop_mm))) + fall) * PER_MM)
    message = "not the drop and the ground's fall along the run"
    yield from same_length("steps.flight.rise_mm", message, flight.rise_mm, wanted, STEPS)
    levels = plan.site.levels if plan.site is not None else None
    most = ticks(need(need(levels, "levels").drop_mm, "drop"))
    if not 0 < ticks(flight.drop_mm) <= most + 1:
        message = "deeper than the deck stands over any ground at its edges"
        yield off_by("steps.flight.drop_mm", message, ticks(flight.drop_mm), most, STEPS)


def goings_make_up_the_run(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless run, stride and pitch are those of risers and goings."""
    flight = steps_of(plan).flight
    going = flight.going_mm
    message = "not a going for each riser but the last"
    yield from _same("run_mm", message, flight.run_mm, (flight.risers - 1) * going)
    message = "not twice the rise and the going"
    yield from _same("two_rise_going_mm", message, flight.two_rise_going_mm,
                     2 * flight.riser_mm + going)  # fmt: skip
    pitch = degrees(atan2(flight.riser_mm, going)) if flight.risers > 1 else 0.0
    message = "not the pitch of rise and going"
    yield from _same("pitch_deg", message, flight.pitch_deg, pitch, "degrees")
    if not flight.going_from_mm <= going <= flight.going_to_mm or going < 0:
        message = "not between the goings that the rules leave"
        yield off_by("steps.flight.going_mm", message, ticks(going), ticks(flight.going_to_mm),
                     STEPS)  # fmt: skip


def first_riser_is_cut_less_a_tread(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the first cut is a riser less a tread, and the top seat lies for it."""
    steps = steps_of(plan)
    flight, tread = steps.flight, steps.tread_mm
    board = mm(thickest(surface_of(plan)))
    wanted = {
        "first_cut_mm": flight.riser_mm - tread,
        "seat_below_top_mm": flight.riser_mm + tread,
        "seat_below_frame_mm": flight.riser_mm + tread - board,
        "notch_mm": _notch(flight),
    }
    for name, size in wanted.items():
        message = "treads on it would not make all risers equal"
        yield from _same(name, message, getattr(flight, name), size)


def _notch(flight: Flight) -> float:
    """Return how deep a notch goes in, square to the stringer: the height of its triangle."""
    slope = (flight.riser_mm**2 + flight.going_mm**2) ** 0.5
    return flight.riser_mm * flight.going_mm / slope if slope else 0.0


def steps_start_on_their_side(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the flight lies along a side of the cover, within it."""
    steps, surface = steps_of(plan), surface_of(plan)
    if steps.side not in SIDES:
        message = f"no such side: {steps.side!r}"
        yield Flaw(subject="steps.side", message=message, source=STEPS)
        return
    along = steps.side in {"house", "front"}
    long = ticks(surface.cover_along_mm if along else surface.cover_across_mm)
    start, end = ticks(steps.from_mm), ticks(steps.from_mm) + ticks(steps.width_mm)
    if not 0 <= start < end <= long:
        message = "it reaches past its side"
        yield off_by("steps.from_mm", message, end, long, STEPS)
    if plan.guards is not None and plan.guards.region != steps.region:
        message = f"by {steps.region!r}, guards by {plan.guards.region!r}"
        yield Flaw(subject="steps.region", message=message, source=STEPS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-355", "risers are equal and make up the rise", risers_are_equal),
    ("AUD-356", "the rise is down to the flight's foot", the_rise_is_down_to_the_foot),
    ("AUD-357", "goings make up the run; stride and pitch are theirs", goings_make_up_the_run),
    ("AUD-358", "the first riser is cut a tread less, the top seat lies for it",
     first_riser_is_cut_less_a_tread),
    ("AUD-359", "steps lie along one side of the cover", steps_start_on_their_side),
)  # fmt: skip
