"""A loaded beam cut into stretches of even load, each with its moment and its bend in closed form.

Inside, lengths are in m and forces in kN. From the left end of a stretch on, with x within it:
shear V = V0 - w x, moment M = M0 + V0 x - w x^2/2 (sagging above 0), and the beam goes down by
v = v0 + t0 x - (M0 x^2/2 + V0 x^3/6 - w x^4/24) / EI, and by (M - M0) / GA more from shear.
"""

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.strength.linear import solved
from drylay.strength.model import Beam, LineLoad, PointLoad

MM_PER_M = 1000.0
Load = LineLoad | PointLoad


@frozen(kw_only=True)
class Stretch:
    """A part of a beam with the same load all along, and its state at its left end."""

    from_m: float
    length_m: float
    load_kn_m: float
    shear_kn: float
    moment_kn_m: float
    slope_ratio: float
    down_m: float


def reactions_and_start(
    beam: Beam, loads: Sequence[Load]
) -> tuple[tuple[float, ...], tuple[float, float]]:
    """Return what each support carries in kN, and the bending slope and drop at the left end.

    The supports' forces and the two numbers are those that keep every support where it is and
    the beam in balance: one linear equation for each.

    Source: Macaulay's method for beams of one stiffness; statics.
    """
    places_m = [mm / MM_PER_M for mm in beam.supports_mm]
    rows = [[*_down_by_units(beam, at, places_m), at, 1.0] for at in places_m]
    sides = [-_down_by_loads(beam, at, loads) for at in places_m]
    rows += [[1.0] * len(places_m) + [0.0, 0.0], [*places_m, 0.0, 0.0]]
    sides += [sum(map(_force, loads)), sum(_force(load) * _middle(load) for load in loads)]
    *carried, slope, down = solved(rows, sides)
    return tuple(carried), (slope, down)


def stretches(
    beam: Beam, loads: Sequence[Load], carried: Sequence[float], start: tuple[float, float]
) -> tuple[Stretch, ...]:
    """Return the beam's stretches from left to right, between supports and where loads change."""
    found: list[Stretch] = []
    cuts = _cuts(beam, loads)
    slope, down = start
    shear = moment = 0.0
    for low, high in pairwise(cuts):
        shear += _force_at(low, beam, loads, carried)
        part = Stretch(
            from_m=low / MM_PER_M,
            length_m=(high - low) / MM_PER_M,
            load_kn_m=_load_between(low, high, loads),
            shear_kn=shear,
            moment_kn_m=moment,
            slope_ratio=slope,
            down_m=down,
        )
        found.append(part)
        shear, moment = shear_at(part, part.length_m), moment_at(part, part.length_m)
        slope, down = bend_at(beam, part, part.length_m), down_at(beam, part, part.length_m)
    return tuple(found)


def shear_at(part: Stretch, x: float) -> float:
    """Return the shear in kN, x m into a stretch."""
    return part.shear_kn - part.load_kn_m * x


def moment_at(part: Stretch, x: float) -> float:
    """Return the moment in kN m, x m into a stretch."""
    return part.moment_kn_m + part.shear_kn * x - part.load_kn_m * x**2 / 2


def bend_at(beam: Beam, part: Stretch, x: float) -> float:
    """Return the slope that bending alone makes, x m into a stretch."""
    turned = part.moment_kn_m * x + part.shear_kn * x**2 / 2 - part.load_kn_m * x**3 / 6
    return part.slope_ratio - turned / beam.bending_stiffness_kn_m2


def slope_at(beam: Beam, part: Stretch, x: float) -> float:
    """Return the slope that bending and shear make, x m into a stretch."""
    sheared = shear_at(part, x) / beam.shear_stiffness_kn if beam.shear_stiffness_kn else 0.0
    return bend_at(beam, part, x) + sheared


def down_at(beam: Beam, part: Stretch, x: float) -> float:
    """Return how far the beam goes down in m, x m into a stretch."""
    bent = part.moment_kn_m * x**2 / 2 + part.shear_kn * x**3 / 6 - part.load_kn_m * x**4 / 24
    down = part.down_m + part.slope_ratio * x - bent / beam.bending_stiffness_kn_m2
    if not beam.shear_stiffness_kn:
        return down
    return down + (moment_at(part, x) - part.moment_kn_m) / beam.shear_stiffness_kn


def _down_by_units(beam: Beam, at: float, places_m: Sequence[float]) -> list[float]:
    return [_down_by_point(beam, at, place, -1.0) for place in places_m]


def _down_by_loads(beam: Beam, at: float, loads: Sequence[Load]) -> float:
    return sum(_down_by(beam, at, load) for load in loads)


def _down_by(beam: Beam, at: float, load: Load) -> float:
    if isinstance(load, PointLoad):
        return _down_by_point(beam, at, load.at_mm / MM_PER_M, load.load_kn)
    ends = ((load.from_mm, load.load_kn_m), (load.to_mm, -load.load_kn_m))
    return sum(_down_by_line(beam, at, mm / MM_PER_M, kn_m) for mm, kn_m in ends)


def _down_by_point(beam: Beam, at: float, place: float, load_kn: float) -> float:
    past = max(0.0, at - place)
    bent = load_kn * past**3 / 6 / beam.bending_stiffness_kn_m2
    return bent - (load_kn * past / beam.shear_stiffness_kn if beam.shear_stiffness_kn else 0.0)


def _down_by_line(beam: Beam, at: float, place: float, load_kn_m: float) -> float:
    past = max(0.0, at - place)
    bent = load_kn_m * past**4 / 24 / beam.bending_stiffness_kn_m2
    if not beam.shear_stiffness_kn:
        return bent
    return bent - load_kn_m * past**2 / 2 / beam.shear_stiffness_kn


def _force(load: Load) -> float:
    if isinstance(load, PointLoad):
        return load.load_kn
    return load.load_kn_m * (load.to_mm - load.from_mm) / MM_PER_M


def _middle(load: Load) -> float:
    if isinstance(load, PointLoad):
        return load.at_mm / MM_PER_M
    return (load.from_mm + load.to_mm) / 2 / MM_PER_M


def _cuts(beam: Beam, loads: Sequence[Load]) -> list[float]:
    cuts = {0.0, float(beam.length_mm), *map(float, beam.supports_mm)}
    for load in loads:
        at = (load.at_mm,) if isinstance(load, PointLoad) else (load.from_mm, load.to_mm)
        cuts |= set(map(float, at))
    return sorted(cuts)


def _force_at(at_mm: float, beam: Beam, loads: Sequence[Load], carried: Sequence[float]) -> float:
    held = zip(beam.supports_mm, carried, strict=True)
    up = sum(kn for place, kn in held if place == at_mm)
    points = (load for load in loads if isinstance(load, PointLoad))
    return up - sum(load.load_kn for load in points if load.at_mm == at_mm)


def _load_between(low_mm: float, high_mm: float, loads: Sequence[Load]) -> float:
    lines = (load for load in loads if isinstance(load, LineLoad))
    return sum(x.load_kn_m for x in lines if x.from_mm <= low_mm and high_mm <= x.to_mm)
