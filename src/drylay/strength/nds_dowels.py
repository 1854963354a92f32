"""Dowels of the US basis: what they are made of, and what wood and steel bear under them."""

from math import cos, radians, sin, sqrt

from drylay.errors import Fault, UncoveredError
from drylay.reasons import Source
from drylay.strength.meant import between, one_of, positive, refuse
from drylay.strength.nds_faults import dowel_faults
from drylay.strength.nds_joint_model import Dowel, Steel, Wood
from drylay.strength.nds_tables import named_values, rows_of, table_source
from drylay.strength.us_units import NOISE_INCH, inches_of_mm, mm_of_inches, n_mm2_of_psi

#: From here on a dowel bears by the grain's direction. Source: NDS table 12.3.3, read as
#: transcribed.
THIN_INCH = 0.25
_MOST_INCH = 1.0
_LEAST_GRAVITY, _MOST_GRAVITY = 0.31, 0.73
_THIN_STEEL_INCH = 0.25
#: No thinner wire has a yield in the table. Source: NDS table I1, read as transcribed.
_THINNEST_INCH = 0.099


def bolt(diameter_mm: float) -> Dowel:
    """Return a bolt of mild steel with a full shank, from 1/4 to 1 in.

    Raises:
        UncoveredError: It is thinner or thicker.
        InputError: Its diameter is not above 0.

    Source: NDS table I1, read as transcribed; gives tables 12A, 12B, 12F and 12G.
    """
    inches = _within(diameter_mm, THIN_INCH, _MOST_INCH)
    psi = named_values("bolt_yield_psi")["all"]
    return _dowel("bolt", inches, inches, psi, "bolt_yield_psi")


def lag_screw(diameter_mm: float) -> Dowel:
    """Return a lag screw of mild steel; the root of its thread bends, wherever its shank ends.

    Raises:
        UncoveredError: The table has no such diameter.
        InputError: It is not above 0.

    Source: NDS tables L2 and I1, 12.3.7, read as transcribed; gives tables 12J and 12K.
    """
    refuse(positive(diameter_mm=diameter_mm))
    inches = inches_of_mm(diameter_mm)
    roots = [root for each, root in rows_of("lag_root") if abs(each - inches) < NOISE_INCH]
    if not roots:
        sizes = ", ".join(f"{row[0]:g}" for row in rows_of("lag_root"))
        raise _uncovered("diameter_mm", f"{inches:g} in", f"one of {sizes} in")
    return _dowel("lag screw", inches, roots[0], _up_to("lag_yield_psi", inches), "lag_root")


def nail(diameter_mm: float) -> Dowel:
    """Return a common nail of plain wire, from 0.099 up to 1/4 in.

    Raises:
        UncoveredError: It is thinner or thicker.
        InputError: Its diameter is not above 0.

    Source: NDS table I1, read as transcribed; gives tables 12N and 12P.
    """
    inches = _within(diameter_mm, _THINNEST_INCH, THIN_INCH)
    return _dowel("nail", inches, inches, _up_to("wire_yield_psi", inches), "wire_yield_psi")


def wood_screw(diameter_mm: float, root_mm: float) -> Dowel:
    """Return a cut-thread wood screw; the root of its thread bends.

    Raises:
        UncoveredError: It is out of the table, or its root is not thinner than its shank.
        InputError: A diameter is not above 0.

    Source: NDS tables L3 and I1, 12.3.7, read as transcribed; gives tables 12L and 12M.
    """
    nonsense = positive(diameter_mm=diameter_mm, root_mm=root_mm)
    beyond = _range_faults(diameter_mm, _THINNEST_INCH, 0.375)
    if not nonsense and root_mm >= diameter_mm:
        wanted = f"above 0 and below {diameter_mm:g} mm"
        beyond.append(Fault(path="root_mm", found=f"{root_mm:g}", wanted=wanted))
    refuse(nonsense, beyond)
    inches = inches_of_mm(diameter_mm)
    psi = _up_to("wire_yield_psi", inches)
    return _dowel("wood screw", inches, inches_of_mm(root_mm), psi, "wire_yield_psi")


def penetration_bears_mm(dowel: Dowel, penetration_mm: float, tip_mm: float) -> float:
    """Return over how much of its length a pointed fastener bears on the piece behind.

    It is what goes in, tip and all, less half the tip.

    Raises:
        UncoveredError: It goes in less than the NDS asks: 4 D of a lag screw without its tip, 6 D
            of a wood screw or nail with it; or it is no such fastener.
        InputError: A size is not above 0, or the tip longer than all that goes in.

    Source: NDS 12.1.4.6, 12.1.5.6, 12.1.6.4 and 12.3.5.3, read as transcribed.
    """
    least = named_values("least_penetration")
    sizes = positive(penetration_mm=penetration_mm, tip_mm=tip_mm)
    if not sizes and tip_mm > penetration_mm:
        wanted = f"at most {penetration_mm:g}, what goes in, tip and all"
        sizes.append(Fault(path="tip_mm", found=repr(tip_mm), wanted=wanted))
    refuse([*dowel_faults(dowel), *sizes], one_of(least, **{"dowel.kind": dowel.kind}))
    tip_apart = tip_mm if dowel.kind == "lag screw" else 0.0
    least_mm = least[dowel.kind] * dowel.diameter_mm + tip_apart
    if penetration_mm < least_mm - mm_of_inches(NOISE_INCH):
        raise _uncovered("penetration_mm", f"{penetration_mm:.4g}", f"at least {least_mm:.4g}")
    return penetration_mm - tip_mm / 2


def bearing_n_mm2(dowel: Dowel, piece: Wood | Steel) -> float:
    """Return the dowel bearing strength Fe of a piece, in N/mm2.

    From 1/4 in on 11200 G along the grain, 6100 G^1.45 / sqrt(D) across it and Hankinson's formula
    between; 16600 G^1.84 whichever way below; in psi. Not rounded to 50 psi as tables print it.

    Raises:
        UncoveredError: The wood or steel is none that the basis knows.
        InputError: A size of the dowel or the piece is not above 0.

    Source: NDS table 12.3.3, 12.3.4, read as transcribed; gives tables 12A to 12P.
    """
    bears = positive(bears_mm=piece.bears_mm)
    refuse([*dowel_faults(dowel), *bears], piece_faults(piece))
    if isinstance(piece, Steel):
        return n_mm2_of_psi(named_values("steel_bearing_psi")[piece.grade])
    gravity, diameter = piece.gravity_ratio, inches_of_mm(dowel.diameter_mm)
    if diameter < THIN_INCH - NOISE_INCH:
        return n_mm2_of_psi(float(16600 * gravity**1.84))
    along, across = 11200 * gravity, 6100 * gravity**1.45 / sqrt(diameter)
    return n_mm2_of_psi(float(hankinson(along, across, piece.angle_deg)))


def hankinson(along: float, across: float, angle_deg: float) -> float:
    """Return a strength at an angle to the grain out of those along and across it.

    Raises:
        InputError: A strength is not above 0, or the angle is not from 0 to 90.

    Source: NDS 12.3.4 and appendix J, read as transcribed.
    """
    refuse([*positive(along=along, across=across), *between(0, 90, angle_deg=angle_deg)])
    turn = radians(angle_deg)
    return along * across / (along * sin(turn) ** 2 + across * cos(turn) ** 2)


def piece_faults(piece: Wood | Steel, within: str = "") -> list[Fault]:
    """Return what the basis does not know of a piece; `within` names it, such as "main.".

    Source: NDS table 12.3.3; footnote 2 of tables 12B and 12K; read as transcribed.
    """
    if isinstance(piece, Wood):
        gravity = {f"{within}gravity_ratio": piece.gravity_ratio}
        angle = {f"{within}angle_deg": piece.angle_deg}
        return [*between(_LEAST_GRAVITY, _MOST_GRAVITY, **gravity), *between(0, 90, **angle)]
    if faults := one_of(named_values("steel_bearing_psi"), **{f"{within}grade": piece.grade}):
        return faults
    bears = {f"{within}bears_mm": piece.bears_mm}
    thin = mm_of_inches(_THIN_STEEL_INCH - NOISE_INCH)
    if piece.grade != "ASTM A36" or positive(**bears) or piece.bears_mm >= thin:
        return []
    wanted = "at least 6.35 of ASTM A36"
    return [Fault(path=path, found=f"{mm:g}", wanted=wanted) for path, mm in bears.items()]


def _dowel(kind: str, inches: float, body_inch: float, psi: float, table: str) -> Dowel:
    source: Source = table_source(table)
    return Dowel(
        kind=kind,
        diameter_mm=mm_of_inches(inches),
        body_mm=mm_of_inches(body_inch),
        yield_n_mm2=n_mm2_of_psi(psi),
        source=source,
    )


def _within(diameter_mm: float, least_inch: float, most_inch: float) -> float:
    beyond = _range_faults(diameter_mm, least_inch, most_inch)
    refuse(positive(diameter_mm=diameter_mm), beyond)
    return inches_of_mm(diameter_mm)


def _range_faults(diameter_mm: float, least_inch: float, most_inch: float) -> list[Fault]:
    if positive(diameter_mm=diameter_mm):
        return []
    inches = inches_of_mm(diameter_mm)
    if least_inch - NOISE_INCH <= inches <= most_inch + NOISE_INCH:
        return []
    wanted = f"from {least_inch:g} to {most_inch:g} in"
    return [Fault(path="diameter_mm", found=f"{inches:g} in", wanted=wanted)]


def _up_to(table: str, inches: float) -> float:
    return next(value for most, value in rows_of(table) if inches <= most + NOISE_INCH)


def _uncovered(path: str, found: str, wanted: str) -> UncoveredError:
    return UncoveredError((Fault(path=path, found=found, wanted=wanted),))
