"""What loads do to a beam: moments, shear, reactions, deflection, without sampling."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import isfinite, nan, sqrt

from drylay.errors import Fault, InputError
from drylay.strength.beam_line import (
    MM_PER_M,
    Load,
    Stretch,
    down_at,
    moment_at,
    reactions_and_start,
    shear_at,
    slope_at,
    stretches,
)
from drylay.strength.model import Beam, Deflected, Effects, Extreme, PointLoad

#: A part of a beam: where it begins and ends, and what it is called.
Part = tuple[float, float, str]
#: A deflection that nobody looked for: no check holds with it.
NOT_LOOKED_FOR = Deflected(deflection_mm=nan, at_mm=nan)
#: Steps that a place within a stretch is looked for in at most, and what is near enough.
_STEPS, _NEAR_RATIO = 60, 1e-9


def effects_of(beam: Beam, loads: Sequence[Load], *, bends: bool = True) -> Effects:
    """Return what loads do to a beam over any number of supports, with ends that reach past.

    The greatest moments lie at supports, loads and where the shear is nothing; the greatest
    deflections at ends and where the slope is nothing: these places are found, not searched for
    in steps. Shear makes the beam go down further, and moves reactions, where the beam tells
    its shear stiffness.

    Args:
        beam: The beam.
        loads: What lies on it.
        bends: Whether deflections are looked for, which takes as long as all the rest; where they
            are not, `down` and `up` hold nan.

    Raises:
        InputError: The beam does not stand (fewer than two supports, out of order, off the
            beam, no stiffness), or a load lies off it; all faults at once.

    Source: Euler-Bernoulli and Timoshenko beams of one stiffness; Macaulay's method.
    """
    faults = (*_beam_faults(beam), *_load_faults(beam, loads))
    if faults:
        raise InputError(faults)
    carried, start = reactions_and_start(beam, loads)
    parts = stretches(beam, loads, carried, start)
    moments = [(moment_at(part, x), _mm(part, x)) for part in parts for x in _flat_moment(part)]
    shears = [(shear_at(part, x), _mm(part, x)) for part in parts for x in (0.0, part.length_m)]
    down, up = _most_deflected(beam, parts) if bends else (NOT_LOOKED_FOR, NOT_LOOKED_FOR)
    most_shear = max(shears, key=lambda each: abs(each[0]))
    return Effects(
        sagging=_extreme(max(moments, key=_value), 1),
        hogging=_extreme(min(moments, key=_value), -1),
        shear_kn=abs(most_shear[0]),
        shear_at_mm=most_shear[1],
        reactions_kn=carried,
        down=down,
        up=up,
    )


def _most_deflected(beam: Beam, parts: Sequence[Stretch]) -> tuple[Deflected, Deflected]:
    """Return how far a beam goes down and up at the most."""
    downs = [
        (down_at(beam, part, x) * MM_PER_M, _mm(part, x))
        for part in parts
        for x in _flat_down(beam, part)
    ]
    return _deflected(max(downs, key=_value), 1), _deflected(min(downs, key=_value), -1)


def deflected_by_part(beam: Beam, loads: Sequence[Load]) -> tuple[Deflected, ...]:
    """Return the greatest deflection, down or up, in each cantilever and span from the left.

    In the order of `parts_of`. A part may bend further than another and still keep its own limit.

    Raises:
        InputError: As `effects_of`.

    Source: as `effects_of`.
    """
    return _by_part(beam, loads, abs)


def down_by_part(beam: Beam, loads: Sequence[Load]) -> tuple[Deflected, ...]:
    """Return the greatest deflection down in each cantilever and span from the left.

    As `deflected_by_part`; below 0 where all of a part goes up, as the end of a cantilever does
    when the span behind it is loaded.

    Raises:
        InputError: As `effects_of`.

    Source: as `effects_of`.
    """
    return _by_part(beam, loads, float)


def _by_part(
    beam: Beam, loads: Sequence[Load], size: Callable[[float], float]
) -> tuple[Deflected, ...]:
    faults = (*_beam_faults(beam), *_load_faults(beam, loads))
    if faults:
        raise InputError(faults)
    parts = stretches(beam, loads, *reactions_and_start(beam, loads))
    return tuple(_most_within(beam, parts, part, size) for part in parts_of(beam))


def parts_of(beam: Beam) -> tuple[Part, ...]:
    """Return the beam's cantilevers and spans from left to right."""
    held = beam.supports_mm
    spans = [(a, b, f"span {n}") for n, (a, b) in enumerate(pairwise(held), 1)]
    ends = ((0.0, held[0], "left cantilever"), (held[-1], beam.length_mm, "right cantilever"))
    return tuple(part for part in (ends[0], *spans, ends[1]) if part[1] > part[0])


def _most_within(
    beam: Beam, parts: Sequence[Stretch], part: Part, size: Callable[[float], float]
) -> Deflected:
    middles = [(each, _mm(each, each.length_m / 2)) for each in parts]
    inside = [each for each, middle in middles if part[0] < middle < part[1]]
    downs = [
        (down_at(beam, each, x) * MM_PER_M, _mm(each, x))
        for each in inside
        for x in _flat_down(beam, each)
    ]
    most = max(downs, key=lambda pair: size(pair[0]), default=(0.0, part[0]))
    return Deflected(deflection_mm=most[0] + 0.0, at_mm=most[1])


def _value(pair: tuple[float, float]) -> float:
    return pair[0]


def _extreme(pair: tuple[float, float], sign: int) -> Extreme:
    return Extreme(value_kn_m=sign * max(0.0, sign * pair[0]) + 0.0, at_mm=pair[1])


def _deflected(pair: tuple[float, float], sign: int) -> Deflected:
    return Deflected(deflection_mm=sign * max(0.0, sign * pair[0]) + 0.0, at_mm=pair[1])


def _mm(part: Stretch, x: float) -> float:
    return (part.from_m + x) * MM_PER_M


def _flat_moment(part: Stretch) -> tuple[float, ...]:
    """Return both ends of a stretch, and where within its shear is nothing."""
    ends = (0.0, part.length_m)
    if not part.load_kn_m:
        return ends
    return (*ends, *_within(part, part.shear_kn / part.load_kn_m))


def _flat_down(beam: Beam, part: Stretch) -> Iterator[float]:
    """Yield both ends of a stretch, and where within its slope is nothing.

    The slope is a cubic; between the places where the cubic turns it is nothing once at most.
    """
    ends = sorted({0.0, part.length_m, *_turns_of_slope(beam, part)})
    yield from (0.0, part.length_m)
    for low, high in pairwise(ends):
        if slope_at(beam, part, low) * slope_at(beam, part, high) < 0:
            yield _nothing_between(beam, part, low, high)


def _turns_of_slope(beam: Beam, part: Stretch) -> Iterator[float]:
    """Yield where the curvature within a stretch is nothing: roots of -M/EI - w/GA."""
    sheared = (
        beam.bending_stiffness_kn_m2 / beam.shear_stiffness_kn if beam.shear_stiffness_kn else 0
    )
    a, b = -part.load_kn_m / 2, part.shear_kn
    c = part.moment_kn_m + part.load_kn_m * sheared
    inside = b * b - 4 * a * c
    if a and inside >= 0:
        stable = -(b + (sqrt(inside) if b >= 0 else -sqrt(inside))) / 2
        yield from _within(part, stable / a)
        if stable:
            yield from _within(part, c / stable)
    elif not a and b:
        yield from _within(part, -c / b)


def _nothing_between(beam: Beam, part: Stretch, low: float, high: float) -> float:
    """Return where the slope is nothing, by false position (Illinois).

    It is flat there in deflection, which a place a billionth of the stretch off does not change.
    """
    at, below, above = low, slope_at(beam, part, low), slope_at(beam, part, high)
    for _ in range(_STEPS):
        before, at = at, (low * above - high * below) / (above - below)
        here = slope_at(beam, part, at)
        if not here or abs(at - before) <= _NEAR_RATIO * part.length_m:
            return at
        if (here > 0) == (above > 0):
            high, above, below = at, here, below / 2
        else:
            low, below, above = at, here, above / 2
    return at


def _within(part: Stretch, x: float) -> tuple[float, ...]:
    return (x,) if 0 < x < part.length_m else ()


def _beam_faults(beam: Beam) -> Iterator[Fault]:
    numbers = (beam.length_mm, beam.bending_stiffness_kn_m2, *beam.supports_mm)
    if not all(map(isfinite, (*numbers, beam.shear_stiffness_kn))):
        yield Fault(path="beam", found="a number that is not finite", wanted="finite numbers")
        return
    if not (beam.length_mm > 0 and beam.bending_stiffness_kn_m2 > 0):
        yield Fault(path="beam", found="no length or no stiffness", wanted="both above 0")
    if beam.shear_stiffness_kn < 0:
        yield Fault(path="beam.shear_stiffness_kn", found="below 0", wanted="0 or above")
    places = beam.supports_mm
    if len(places) < 2 or list(places) != sorted(set(places)):
        wanted = "two or more, each further along than the last"
        yield Fault(path="beam.supports_mm", found=str(places), wanted=wanted)
    elif places[0] < 0 or places[-1] > beam.length_mm:
        wanted = f"within 0 and {beam.length_mm:g} mm"
        yield Fault(path="beam.supports_mm", found=str(places), wanted=wanted)


def _load_faults(beam: Beam, loads: Sequence[Load]) -> Iterator[Fault]:
    for place, load in enumerate(loads):
        if not _lies_on(beam, load):
            found, wanted = repr(load), f"a load from 0 to {beam.length_mm:g} mm, left end first"
            yield Fault(path=f"loads[{place}]", found=found, wanted=wanted)


def _lies_on(beam: Beam, load: Load) -> bool:
    if isinstance(load, PointLoad):
        return isfinite(load.load_kn) and 0 <= load.at_mm <= beam.length_mm
    return isfinite(load.load_kn_m) and 0 <= load.from_mm < load.to_mm <= beam.length_mm
