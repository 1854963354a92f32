"""What loads do to a joist or a bearer, worked out again: the worst of all patterns and places.

Nothing of this is a design: it is a floor that what the plan states may not lie below.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.statics import Felt, each_part_alone, felt, moment_at, parts_of, shear_beside
from drylay.strength.model import BeamAsked, Check, Screened

#: Kinds of load cases: what lies there for good, with what is spread, with the point load.
KINDS = ("dead", "spread", "point")
FACTORS = re.compile(r"([\d.]+) G \+ ([\d.]+) [qQ]")
#: E over G of the classes of EN 338:2016, from memory; the shape factor of a rectangle: statics.
E_OVER_G, SHAPE = 16, Fraction(6, 5)
#: Along a span moments are looked at so often.
STEPS = 20
#: Near the middle of a span a point load bends most: at these shares of it.
NEAR = (Fraction(43, 100), Fraction(1, 2), Fraction(57, 100))
M = 1000 * PER_MM


@frozen(kw_only=True)
class Loads:
    """Loads on a beam, with their factors: kN/m for good and besides, kN at one place.

    `shared` is what of the point load comes to one joist in the middle of its span.
    """

    dead_kn_m: float
    spread_kn_m: float
    point_kn: float
    shared: float = 1.0


@frozen(kw_only=True)
class Worst:
    """The most that one kind of load case does: moments in kN m by size, forces in kN."""

    sagging: float
    hogging: float
    shear: float
    force: float


def kind_of(check: Check) -> str:
    """Return of which kind a check's load case is, by its name."""
    case = check.case
    if "point load" in case or re.search(r"G \+ [\d.]+ Q", case):
        return "point"
    alone = "permanent" in case or case == "dead load"
    return "dead" if alone else "spread"


def factors_of(case: str) -> tuple[float, float]:
    """Return the factors on dead and on other load that a case's name tells; 1.35 on dead alone."""
    found = FACTORS.search(case)
    if found:
        return float(found[1]), float(found[2])
    return (1.35, 0.0) if "permanent" in case else (1.0, 1.0)


def over_a_support(check: Check) -> bool:
    """Return whether a check's moment bends the beam up, over a support."""
    moment = dict(check.inputs).get("moment_kn_m", 0.0)
    below = isinstance(moment, int | float) and moment < 0
    return below or any(
        word in check.case for word in ("over a support", "at the cantilever", "tip")
    )


def soft_of(beam: BeamAsked, screened: Screened) -> Fraction:
    """Return 12 E I over G A and its shape factor; 0 where no check tells that shear counts."""
    told = {name for check in screened.checks for name, _ in check.inputs}
    if "G_mean" not in told:
        return Fraction(0)
    return E_OVER_G * SHAPE * ticks(beam.section.depth_mm) ** 2


def laid(beam: BeamAsked) -> tuple[list[int], int]:
    """Return a beam's supports and its length in 1/320 mm.

    Of a joist on two supports an end no longer than its bearing counts as none: so it is screened.
    """
    rests, length = [ticks(place) for place in beam.supports_mm], ticks(beam.length_mm)
    if beam.kind == "joist" and len(rests) == 2:
        short = ticks(beam.bearing_mm)
        if length - rests[1] <= short:
            length = rests[1]
        if rests[0] <= short:
            rests, length = [0, rests[1] - rests[0]], length - rests[0]
    return rests, length


#: What each part of a beam loaded alone does at one place, and a load of 1 wherever it may be.
Line = tuple[tuple[float, ...], tuple[float, ...]]


@frozen(kw_only=True)
class Influences:
    """What loads of 1 do to a beam, place by place: to moments (m2 and m), shears and supports."""

    sagging: tuple[Line, ...]
    hogging: tuple[Line, ...]
    shear: tuple[Line, ...]
    force: tuple[Line, ...]


def influences(beam: BeamAsked, soft: Fraction) -> Influences:
    """Return what loads of 1 do to a beam, worked out once for all load cases."""
    rests, length = laid(beam)
    alone = tuple(each_part_alone(rests, length, soft))
    placed = tuple(felt(rests, length, point=at, soft=soft) for at in _places(rests, length))

    def line(of: Callable[[Felt], Fraction], per: int, sign: int = 1) -> Line:
        return (
            tuple(sign * float(of(load)) / per for load in alone),
            tuple(sign * float(of(load)) * M / per for load in placed),
        )

    def moment(at: int, sign: int) -> Line:
        return line(lambda load: moment_at(load, at), M * M, sign)

    sides = [(at, after, sign) for at in rests for after in (False, True) for sign in (1, -1)]
    return Influences(
        sagging=tuple(moment(at, 1) for at in _spots(rests)),
        hogging=tuple(moment(at, -1) for at in rests),
        shear=tuple(
            line(partial(shear_beside, at=at, after=after), M, sign) for at, after, sign in sides
        ),
        force=tuple(line(partial(_push, index=index), M) for index in range(len(rests))),
    )


def _push(load: Felt, *, index: int) -> Fraction:
    return load.reactions[index]


def worst_of(found: Influences, loads: Loads) -> dict[str, Worst]:
    """Return the worst that each kind of load case does to a beam."""
    return {
        kind: Worst(
            sagging=_most(kind, found.sagging, loads, loads.shared),
            hogging=_most(kind, found.hogging, loads),
            shear=_most(kind, found.shear, loads),
            force=_most(kind, found.force, loads),
        )
        for kind in KINDS
    }


def _most(kind: str, lines: tuple[Line, ...], loads: Loads, shared: float = 1.0) -> float:
    """Return the most of an effect anywhere: spread load lies where it adds, or the point load."""
    most = 0.0
    for parts, points in lines:
        more = 0.0
        if kind == "spread":
            more = loads.spread_kn_m * sum(max(part, 0.0) for part in parts)
        if kind == "point":
            more = loads.point_kn * shared * max(0.0, *points)
        most = max(most, loads.dead_kn_m * sum(parts) + more)
    return most


def _spots(rests: Sequence[int]) -> list[int]:
    return [
        start + (end - start) * step // STEPS
        for start, end in pairwise(rests)
        for step in range(1, STEPS)
    ]


def _places(rests: list[int], length: int) -> Iterator[int]:
    """Yield where a point load does most: near middles, beside supports, at free ends."""
    for start, end in parts_of(rests, length)[1:-1]:
        yield from (start + int((end - start) * share) for share in NEAR)
        yield from (start + 1, end - 1)
    yield from (at for at in (0, length) if at not in rests)
