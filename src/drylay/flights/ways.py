"""Every flight that keeps all rules, the best first, with why; or what clashes, with figures."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from attrs import evolve

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.flights.made import Foot, made
from drylay.flights.model import Broken, Flight, FlightRules, FlightWays
from drylay.flights.rules import broken_rules, rule_findings
from drylay.marks import MARK_320, PER_MM, exact
from drylay.reasons import Source
from drylay.regions.model import SLOPE_MOST_RATIO

#: Twice the rise and the going that walks best. From memory: a stride on the level.
STRIDE_MM = 630.0
#: No flight is looked for with a lower rise than this. Common practice, no source.
RISE_LOWEST_MM = 100.0
#: How many numbers of risers are told of where none keeps all rules.
TOLD = 2
_CLASH = Source(kind="arithmetic", title="the region's rules taken together")


def flight_ways(
    *,
    rules: FlightRules,
    drop_mm: float,
    tread_mm: float,
    board_mm: float,
    goings_mm: tuple[float, ...] = (),
    fall_ratio: float = 0.0,
    run_most_mm: float | None = None,
    mark_320: int = MARK_320["metric"],
) -> FlightWays:
    """Return every number of equal risers that keeps all rules, the best first.

    Best is what has twice the rise and the going nearest to 630 mm (from memory), then the fewest
    risers, then the shortest going. Where nothing keeps all rules there is no way, and findings
    tell for the nearest numbers of risers which rule breaks by how much.

    Args:
        drop_mm: From the deck's top to the ground right below its edge, where the flight begins.
        tread_mm: Thickness of a tread.
        board_mm: Thickness of the deck's boards.
        goings_mm: The goings that treads can make; none given, every mark is tried.
        fall_ratio: How much the ground falls away from the deck along the flight, below 0 where it
            rises: the foot stands lower, or higher, and the rise with it.
        run_most_mm: The most room there is for the flight.

    Raises:
        InputError: A length is not above 0, or the ground falls too steeply for a flight.
    """
    _refuse(drop_mm, tread_mm, board_mm, goings_mm, fall_ratio)
    foot = Foot(drop_mm=drop_mm, fall_ratio=fall_ratio, tread_mm=tread_mm, board_mm=board_mm)
    tried = _goings(rules, goings_mm, mark_320)
    found: list[Flight] = []
    failed: list[tuple[int, tuple[Broken, ...]]] = []
    runs: list[float] = []
    for risers in _counts(drop_mm, fall_ratio):
        kept, broken = _that_keep(rules, foot, risers, tried)
        runs += [(risers - 1) * going for going in kept]
        room = [g for g in kept if run_most_mm is None or (risers - 1) * g <= run_most_mm]
        found += _made_of(rules, foot, risers, room, each=bool(goings_mm))
        failed += [] if kept else [(risers, broken)]
    ordered = tuple(_with_reasons(sorted(found, key=_worth)))
    if ordered:
        return FlightWays(ways=ordered, findings=())
    short = _too_long(min(runs), run_most_mm) if runs and run_most_mm is not None else ()
    return FlightWays(ways=(), findings=(_clash(), *short, *_nearest_told(failed)))


def _counts(drop_mm: float, fall_ratio: float) -> range:
    """Return every number of risers worth a look, on falling ground up to twice as many."""
    most = drop_mm * (1 + 4 * max(0.0, fall_ratio)) / RISE_LOWEST_MM
    return range(1, max(2, floor(most) + 1))


def _goings(rules: FlightRules, told_mm: tuple[float, ...], mark_320: int) -> tuple[float, ...]:
    if told_mm:
        return told_mm
    least = ceil(exact(rules.going_least.value or 0.0) / mark_320) or 1
    most = max(least, floor(exact(min(rules.going_most.value or STRIDE_MM, STRIDE_MM)) / mark_320))
    return tuple(at * mark_320 / PER_MM for at in range(least, most + 1))


def _that_keep(
    rules: FlightRules, foot: Foot, risers: int, goings_mm: tuple[float, ...]
) -> tuple[list[float], tuple[Broken, ...]]:
    """Return the goings that keep every rule, and what the nearest one breaks where none does."""
    kept: list[float] = []
    least: tuple[Broken, ...] | None = None
    for going in goings_mm if risers > 1 else goings_mm[:1]:
        rise = foot_rise(foot, risers, going)
        broken = broken_rules(rules, risers=risers, rise_mm=rise, going_mm=going)
        if not broken and rise > 0:
            kept.append(going)
        elif least is None or len(broken) < len(least):
            least = broken
    return kept, least or ()


def _made_of(
    rules: FlightRules, foot: Foot, risers: int, goings_mm: list[float], *, each: bool
) -> Iterator[Flight]:
    """Yield a flight for each going; else the one that walks best, told with all that are left."""

    def off(going: float) -> tuple[float, float]:
        rise = foot_rise(foot, risers, going)
        return abs(float(2 * rise / risers) + going - STRIDE_MM), going

    chosen = goings_mm if each or not goings_mm else [min(goings_mm, key=off)]
    for going in chosen:
        rise = foot_rise(foot, risers, going)
        way = made(rules, foot, risers=risers, rise_mm=rise, going_mm=going)
        if each or risers == 1:
            yield way
        else:
            yield evolve(way, going_from_mm=min(goings_mm), going_to_mm=max(goings_mm))


def foot_rise(foot: Foot, risers: int, going_mm: float) -> Fraction:
    """Return the rise from where the flight's foot stands to the deck's top."""
    run = (risers - 1) * Fraction(going_mm)
    rise = Fraction(foot.drop_mm) + Fraction(repr(foot.fall_ratio)) * run
    return Fraction(round(rise * PER_MM), PER_MM)


def _worth(way: Flight) -> tuple[float, int, float]:
    off = abs(way.two_rise_going_mm - STRIDE_MM) if way.risers > 1 else 0.0
    return off, way.risers, way.going_mm


def _with_reasons(ways: list[Flight]) -> Iterator[Flight]:
    for at, way in enumerate(ways):
        why = [_stride_told(way)] if way.risers > 1 else ["a single riser has no going"]
        why += ["nearest of all ways" if at == 0 else f"after {at} that walk better"]
        yield evolve(way, why=(*why, *way.why))


def _stride_told(way: Flight) -> str:
    off = abs(way.two_rise_going_mm - STRIDE_MM)
    return f"twice the rise and the going is {way.two_rise_going_mm:.1f} mm, {off:.1f} off 630"


def _clash() -> Finding:
    return Finding(
        code="STP-001",
        severity=Severity.STOP,
        subject="flight",
        message="no flight of equal risers keeps all rules: change the going, the room or the "
        "height, or turn the flight at a landing; rules are not averaged",
        source=_CLASH,
    )


def _too_long(least_mm: float, run_most_mm: float) -> tuple[Finding, ...]:
    """Return that the shortest flight which keeps all rules has no room."""
    return (
        Finding(
            code="STP-009",
            severity=Severity.STOP,
            subject="flight",
            message="the shortest run that keeps all rules is longer than the room there is",
            measured=least_mm,
            limit=run_most_mm,
            unit="mm",
            source=_CLASH,
        ),
    )


def _nearest_told(failed: list[tuple[int, tuple[Broken, ...]]]) -> Iterator[Finding]:
    broken_ones = [one for one in failed if one[1]]
    for risers, broken in sorted(broken_ones, key=lambda one: (len(one[1]), one[0]))[:TOLD]:
        yield from rule_findings(broken, f"flight of {risers}")


def _refuse(
    drop_mm: float,
    tread_mm: float,
    board_mm: float,
    goings_mm: tuple[float, ...],
    fall_ratio: float,
) -> None:
    sizes = [("drop_mm", drop_mm), ("tread_mm", tread_mm), ("board_mm", board_mm)]
    sizes += [("goings_mm", going) for going in goings_mm]
    faults = [
        Fault(path=path, found=f"{size:g} mm", wanted="a length above 0")
        for path, size in sizes
        if not size > 0
    ]
    if not abs(fall_ratio) < SLOPE_MOST_RATIO:
        wanted = f"less than {SLOPE_MOST_RATIO:g}: steeper ground is not screened"
        faults.append(Fault(path="fall_ratio", found=f"{fall_ratio:g}", wanted=wanted))
    if faults:
        raise InputError(tuple(faults))
