"""One flight worked out: heights, stringer, handrail; and what is to be told of it."""

from collections.abc import Iterator
from fractions import Fraction
from math import cos, floor, hypot, radians, sin

from attrs import frozen

from drylay.findings import Finding, Severity, against
from drylay.flights.model import Flight, FlightRules
from drylay.flights.rules import NAMES, pitch_deg
from drylay.marks import PER_MM, to_mm
from drylay.reasons import Source
from drylay.regions.model import GUARD_DROP_MOST_MM, Limit

_SCREENED = Source(kind="assumption", title="what drylay screens", clause="flights: no strength")
_PRACTICE = Source(kind="common practice", title="common practice, no source")


@frozen(kw_only=True)
class Foot:
    """What a flight stands between: the drop at the deck's edge, and how the ground goes on."""

    drop_mm: float
    fall_ratio: float
    tread_mm: float
    board_mm: float


def made(
    rules: FlightRules, foot: Foot, *, risers: int, rise_mm: Fraction, going_mm: float
) -> Flight:
    """Return a flight of so many equal risers, whatever rules it breaks."""
    riser = float(rise_mm / risers)
    going = going_mm if risers > 1 else 0.0
    needed, by = _handrail(rules, risers, float(rise_mm))
    return Flight(
        risers=risers,
        drop_mm=foot.drop_mm,
        rise_mm=float(rise_mm),
        riser_mm=riser,
        heights_mm=tuple(_heights(rise_mm, risers)),
        going_mm=going,
        going_from_mm=going,
        going_to_mm=going,
        two_rise_going_mm=2 * riser + going,
        pitch_deg=pitch_deg(riser, going) if risers > 1 else 0.0,
        run_mm=(risers - 1) * going,
        treads=risers - 1,
        first_cut_mm=riser - foot.tread_mm,
        seat_below_top_mm=riser + foot.tread_mm,
        seat_below_frame_mm=riser + foot.tread_mm - foot.board_mm,
        stringer_mm=_stringer_mm(risers, riser, going, foot.tread_mm),
        notch_mm=riser * going / hypot(riser, going),
        handrail=needed,
        handrail_by=by,
        why=(),
    )


def flight_findings(
    flight: Flight,
    rules: FlightRules,
    *,
    width_mm: float | None = None,
    across_fall_mm: float = 0.0,
    open_risers: bool = True,
) -> tuple[Finding, ...]:
    """Return what is to be told of a flight besides the rules it keeps.

    Args:
        width_mm: How wide the flight is, None where that is not known yet.
        across_fall_mm: How much lower the ground at the foot lies on one side than on the other.
        open_risers: Whether nothing closes the way between one tread and the next.
    """
    return (
        *_uncovered(rules),
        *_across(rules.rise_differ, across_fall_mm),
        *_narrow(rules.width_least, width_mm),
        *(_open_told(flight, rules.open_riser_sphere) if open_risers else ()),
        *_rails_told(flight, rules),
        *_landing_told(rules.landing_least),
        *_guard_told(flight, rules, across_fall_mm),
        *_deep_told(flight, across_fall_mm),
        _strength_told(flight),
    )


def _heights(rise_mm: Fraction, risers: int) -> Iterator[float]:
    """Yield equal heights, each to the nearest 1/320 mm; the last is the rise itself."""
    for at in range(1, risers + 1):
        yield to_mm(floor(rise_mm * at / risers * PER_MM + Fraction(1, 2)))


def _stringer_mm(risers: int, riser_mm: float, going_mm: float, tread_mm: float) -> float:
    """Return the length from a stringer's lower front corner to its top seat, along its slope.

    Source: geometry. The corners are the foot of its front, at the run's end on the ground, and
    the back of its top seat, at the deck's face a riser and a tread below the deck's top.
    """
    if risers == 1:
        return 0.0
    slope = radians(pitch_deg(riser_mm, going_mm))
    seat_mm = (risers - 1) * riser_mm - tread_mm
    return (risers - 1) * going_mm * cos(slope) + seat_mm * sin(slope)


def _handrail(rules: FlightRules, risers: int, rise_mm: float) -> tuple[bool, str]:
    """Return whether a flight needs a handrail, and by which limit; unknown is yes."""
    count, rise = rules.handrail_risers, rules.handrail_rise
    if count.value is not None and risers >= count.value:
        return True, count.name
    if rise.value is not None:
        return rise.exceeded_by(rise_mm), rise.name
    return "not covered" in {count.standing, rise.standing}, count.name


def _uncovered(rules: FlightRules) -> Iterator[Finding]:
    for name in NAMES:
        limit: Limit = getattr(rules, name)
        if limit.standing == "not covered":
            message = "not covered: ask the local authority"
            yield _told("STP-003", Severity.CAUTION, limit.name, message, limit.source)


def _across(differ: Limit, across_fall_mm: float) -> Iterator[Finding]:
    if differ.value is not None and across_fall_mm > differ.value:
        message = "it is lower on one side than on the other: make a level landing at the foot"
        where = "first riser"
        yield against(differ, across_fall_mm, "STP-004", Severity.CAUTION, where, message)


def _narrow(least: Limit, width_mm: float | None) -> Iterator[Finding]:
    if width_mm is not None and least.value is not None and width_mm < least.value:
        yield against(least, width_mm, "STP-005", Severity.STOP, "flight", "it is too narrow")


def _open_told(flight: Flight, ball: Limit) -> Iterator[Finding]:
    """Yield that a ball passes under a tread: the clear way is a riser less a tread's thickness."""
    if flight.risers > 1 and ball.value is not None and flight.first_cut_mm >= ball.value:
        message = "left open they let the region's ball pass: close them, or fit a bar"
        clear_mm = flight.first_cut_mm
        yield against(ball, clear_mm, "STP-011", Severity.CAUTION, "risers", message)


def _rails_told(flight: Flight, rules: FlightRules) -> Iterator[Finding]:
    if not flight.handrail:
        return
    least, most = rules.handrail_least, rules.handrail_most
    low = "" if least.value is None else f" from {least.written}"
    high = "" if most.value is None else f" to {most.written}"
    message = f"a handrail is needed,{low}{high} over the nosings"
    if not low + high:
        message = "a handrail is needed; ask the local authority how high"
    yield _told("STP-006", Severity.NOTE, "handrail", message, least.source)


def _landing_told(least: Limit) -> Iterator[Finding]:
    if least.value is not None:
        message = f"a level landing of {least.written} at least, at the head and at the foot"
        yield _told("STP-007", Severity.NOTE, "landing", message, least.source)


def guarded_treads(flight: Flight, trigger: Limit, across_fall_mm: float = 0.0) -> int:
    """Return how many treads lie so high over the ground that their sides need a guard.

    Beside all treads the ground is taken to be as low as it is anywhere: at the deck's edge or at
    the foot, and there as much lower as it falls across the flight.
    """
    if trigger.value is None:
        return flight.treads
    return sum(trigger.exceeded_by(drop) for drop in _drops_mm(flight, across_fall_mm))


def _drops_mm(flight: Flight, across_fall_mm: float) -> list[float]:
    """Return how high the treads lie over the lowest ground that may be beside them."""
    lower = max(0.0, flight.drop_mm - flight.rise_mm) + across_fall_mm
    return [height + lower for height in flight.heights_mm[:-1]]


def _deep_told(flight: Flight, across_fall_mm: float) -> Iterator[Finding]:
    deepest = max(_drops_mm(flight, across_fall_mm), default=0.0)
    if deepest > GUARD_DROP_MOST_MM:
        yield Finding(
            code="STP-012",
            severity=Severity.STOP,
            subject="flight",
            message="beside so high a tread an engineer or a licensed person has to design the "
            "guard",
            measured=deepest,
            limit=GUARD_DROP_MOST_MM,
            unit="mm",
            source=_PRACTICE,
        )


def _guard_told(flight: Flight, rules: FlightRules, across_fall_mm: float) -> Iterator[Finding]:
    treads = guarded_treads(flight, rules.guard_trigger, across_fall_mm)
    height = rules.guard_height
    if treads:
        ball = rules.guard_ball.written or "of no known size"
        message = (
            f"its upper {treads} treads need a guard on open sides, from {height.written} over the "
            f"nosings, that no ball {ball} passes"
        )
        yield _told("STP-010", Severity.CAUTION, "flight", message, rules.guard_trigger.source)


def _strength_told(flight: Flight) -> Finding:
    message = (
        "strength of stringers and treads is not screened: have a licensed person say what they are"
    )
    severity = Severity.CAUTION if flight.risers > 1 else Severity.NOTE
    return _told("STP-008", severity, "stringers", message, _SCREENED)


def _told(code: str, severity: Severity, subject: str, message: str, source: Source) -> Finding:
    return Finding(code=code, severity=severity, subject=subject, message=message, source=source)
