"""The yield limit equations of the NDS: what one dowel carries across its shank, mode by mode.

Main is the piece that the point is in, or the one between two others; side is what is beside it.
Forces in N inside, values in kN. Formulas of NDS table 12.3.1A, read as transcribed; they give
every printed cell of NDS tables 12A to 12P that could be read.
"""

from collections.abc import Iterable
from math import sqrt

from drylay.errors import Fault
from drylay.reasons import Source
from drylay.strength.checks import check
from drylay.strength.meant import between, finite, one_of, positive, refuse
from drylay.strength.model import Check
from drylay.strength.nds_dowels import THIN_INCH, bearing_n_mm2, piece_faults
from drylay.strength.nds_faults import dowel_faults
from drylay.strength.nds_joint_model import Dowel, Lateral, Steel, Wood
from drylay.strength.sections import count_faults
from drylay.strength.us_units import NOISE_INCH, inches_of_mm

YIELD = Source(
    kind="standard",
    title="National Design Specification for Wood Construction",
    clause="12.3.1, tables 12.3.1A and 12.3.1B, read as transcribed in a public file",
)
_REDUCED = {"Im": 4.0, "Is": 4.0, "II": 3.6, "IIIm": 3.2, "IIIs": 3.2, "IV": 3.2}
_NEVER_REDUCED_INCH = 0.17


def reduction(dowel: Dowel, mode: str, angle_deg: float) -> float:
    """Return the reduction term Rd by which a mode's yield load is divided.

    Args:
        dowel: Its body, D or Dr, decides; below 1/4 in all modes have one term.
        mode: "Im", "Is", "II", "IIIm", "IIIs" or "IV".
        angle_deg: The greatest angle of load to grain of any piece.

    Raises:
        InputError: The dowel cannot be meant, there is no such mode, or the angle is none.

    Source: NDS table 12.3.1B and its footnote on thin roots, read as transcribed.
    """
    asked = [*one_of(_REDUCED, mode=mode), *between(0, 90, angle_deg=angle_deg)]
    refuse([*dowel_faults(dowel), *asked])
    return _reduction(dowel, mode, angle_deg)


def _reduction(dowel: Dowel, mode: str, angle_deg: float) -> float:
    turned = 1.0 + 0.25 * angle_deg / 90.0
    body = inches_of_mm(dowel.body_mm)
    if body >= THIN_INCH - NOISE_INCH:
        return _REDUCED[mode] * turned
    thin = 2.2 if body <= _NEVER_REDUCED_INCH else 10.0 * body + 0.5
    called = inches_of_mm(dowel.diameter_mm)
    return thin * turned if called >= THIN_INCH - NOISE_INCH else thin


def single_shear(dowel: Dowel, main: Wood | Steel, side: Wood | Steel) -> Lateral:
    """Return what a dowel carries through one shear plane: modes Im, Is, II, IIIm, IIIs, IV.

    Raises:
        UncoveredError: A piece's wood or steel, or its angle, is not covered.
        InputError: A bearing length or a size of the dowel is not above 0, or both are steel.

    Source: NDS 12.3.1, read as transcribed.
    """
    found = _yields(dowel, main, side)
    return _least((mode, found[mode]) for mode in _REDUCED)


def double_shear(dowel: Dowel, main: Wood | Steel, side: Wood | Steel) -> Lateral:
    """Return what a dowel carries through two shear planes together: modes Im, Is, IIIs, IV.

    `main` is the piece between, `side` the weaker of the two outer ones.

    Raises:
        UncoveredError: As `single_shear`.
        InputError: As `single_shear`.

    Source: NDS 12.3.1, read as transcribed.
    """
    found = _yields(dowel, main, side)
    twice = {mode: 2 * found[mode] for mode in ("Is", "IIIs", "IV")}
    return _least({"Im": found["Im"], **twice}.items())


def lateral_check(
    lateral: Lateral, *, subject: str, load_kn: float, count: int, ratio: float, case: str
) -> Check:
    """Return the check of fasteners loaded across their shanks.

    Args:
        lateral: What one carries, from `single_shear` or `double_shear`.
        subject: What is checked.
        load_kn: On all of them; its size counts.
        count: How many share it.
        ratio: CD times `wet_joint_ratio`, `group_ratio` and all other factors of the joint.
        case: The load case.

    Raises:
        InputError: Load, count or factor cannot be meant.

    Source: NDS table 11.3.1, read as transcribed.
    """
    each = {"lateral.each_kn": lateral.each_kn}
    shared = [*count_faults(count=count), *positive(ratio=ratio)]
    refuse([*positive(**each), *finite(load_kn=load_kn), *shared])
    return check(
        f"lateral load, mode {lateral.governing}",
        subject,
        measured=abs(load_kn),
        limit=lateral.each_kn * count * ratio,
        unit="kN",
        case=case,
        formula="load <= n Z CD CM Cg",
        source=lateral.source,
        inputs=(("each_kn", lateral.each_kn), ("count", count), ("factors", ratio)),
    )


def _yields(dowel: Dowel, main: Wood | Steel, side: Wood | Steel) -> dict[str, float]:
    _refuse_pieces(dowel, main, side)
    d, lm, ls = dowel.body_mm, main.bears_mm, side.bears_mm
    fem, fes = bearing_n_mm2(dowel, main), bearing_n_mm2(dowel, side)
    re, stiff = fem / fes, 2.0 * dowel.yield_n_mm2 * d * d / (3.0 * fem)
    k2 = sqrt(2.0 * (1.0 + re) + stiff * (1.0 + 2.0 * re) / lm**2) - 1.0
    k3 = sqrt(2.0 * (1.0 + re) / re + stiff * (2.0 + re) / ls**2) - 1.0
    whole = {
        "Im": d * lm * fem,
        "Is": d * ls * fes,
        "II": _k1(re, lm / ls) * d * ls * fes,
        "IIIm": k2 * d * lm * fem / (1.0 + 2.0 * re),
        "IIIs": k3 * d * ls * fem / (2.0 + re),
        "IV": d * d * sqrt(2.0 * fem * dowel.yield_n_mm2 / (3.0 * (1.0 + re))),
    }
    angle = max(piece.angle_deg for piece in (main, side) if isinstance(piece, Wood))
    return {mode: force / _reduction(dowel, mode, angle) for mode, force in whole.items()}


def _k1(re: float, rt: float) -> float:
    root = sqrt(re + 2.0 * re**2 * (1.0 + rt + rt**2) + rt**2 * re**3)
    return (root - re * (1.0 + rt)) / (1.0 + re)


def _least(modes_n: Iterable[tuple[str, float]]) -> Lateral:
    modes = tuple((mode, force / 1e3) for mode, force in modes_n)
    governing, least = min(modes, key=lambda each: each[1])
    return Lateral(modes_kn=modes, governing=governing, each_kn=least, source=YIELD)


def _refuse_pieces(dowel: Dowel, main: Wood | Steel, side: Wood | Steel) -> None:
    bears = positive(**{"main.bears_mm": main.bears_mm, "side.bears_mm": side.bears_mm})
    faults = [*dowel_faults(dowel), *bears]
    if isinstance(main, Steel) and isinstance(side, Steel):
        faults.append(Fault(path="side", found="steel on steel", wanted="wood in one of them"))
    refuse(faults, [*piece_faults(main, "main."), *piece_faults(side, "side.")])
