"""The adjustment factors of the US allowable-stress basis, one rule a function."""

from math import sqrt

from drylay.errors import Fault, UncoveredError
from drylay.strength.meant import from_nothing, one_of, positive, refuse
from drylay.strength.nds_tables import named_values, rows_of
from drylay.strength.us_units import inches_of_mm, psi_of_n_mm2

#: What counts as 4 in lumber; less takes the column of 2 and 3 in.
_THICK_INCH = 3.5
#: Buckling of sawn lumber. Source: NDS 3.7.1.5 and 3.3.3.8, from memory.
_COLUMN_C = 0.8
_BEAM_ROOT, _BEAM_MOST = 1.9, 0.95
MOST_SLENDER_COLUMN, MOST_SLENDER_BEAM = 50.0, 50.0
_NOISE = 1e-9
_LOADS = ("even", "middle", "any")
#: Where a root takes less than this share off its square, the difference loses what counts.
_ALIKE = 1e-6


def duration_factor(load: str) -> float:
    """Return the load duration factor CD, for the shortest load of a combination.

    Raises:
        UncoveredError: The table does not know this load.

    Source: NDS table 2.3.2, from memory; snow rows of the deck tables come only with 1.15.
    """
    known = named_values("duration")
    refuse((), one_of(known, load=load))
    return known[load]


def size_factor(depth_mm: float, breadth_mm: float) -> float:
    """Return the size factor CF for bending, of grades Select Structural to No.3.

    Raises:
        InputError: A size is not above 0.
        UncoveredError: The timber is deeper than the table goes.

    Source: NDS Supplement table 4A, read as transcribed; the next deeper row between two, and
        the thinner column, which has less.
    """
    refuse(positive(depth_mm=depth_mm, breadth_mm=breadth_mm))
    thick = inches_of_mm(breadth_mm) >= _THICK_INCH - _NOISE
    rows = rows_of("size")
    for most_inch, thin_factor, thick_factor in rows:
        if inches_of_mm(depth_mm) <= most_inch + _NOISE:
            return thick_factor if thick else thin_factor
    raise _too_deep(depth_mm, rows[-1][0])


def size_factor_along(depth_mm: float) -> float:
    """Return the size factor CF for compression along the grain.

    Raises:
        InputError: The depth is not above 0.
        UncoveredError: The timber is deeper than the table goes.

    Source: NDS Supplement table 4A, from memory.
    """
    refuse(positive(depth_mm=depth_mm))
    rows = rows_of("size_along")
    for most_inch, factor in rows:
        if inches_of_mm(depth_mm) <= most_inch + _NOISE:
            return factor
    raise _too_deep(depth_mm, rows[-1][0])


def wet_factor(what: str, sized_n_mm2: float = 0.0, *, timber: bool = False) -> float:
    """Return the wet service factor CM of one property.

    Bending takes 0.85 only where Fb CF is above 1150 psi, compression along the grain 0.8 only
    where Fc CF is above 750 psi: a little more strength can leave less of it.

    Args:
        what: "bending", "shear", "across", "along" or "stiffness".
        sized_n_mm2: The value with its size factor, for bending and "along".
        timber: Whether it is 5 in and more each way.

    Raises:
        InputError: There is no such property, or the value is below 0 or no number.

    Source: NDS Supplement tables 4A and 4B, read as transcribed; 4D from memory.
    """
    known = one_of(named_values("wet"), what=what)
    refuse([*known, *from_nothing(sized_n_mm2=sized_n_mm2)])
    if timber:
        return named_values("wet_timber")[what]
    above = named_values("wet_above_psi")
    if what in above and psi_of_n_mm2(sized_n_mm2) <= above[what] * (1 + _NOISE):
        return 1.0
    return named_values("wet")[what]


def incising_factor(what: str) -> float:
    """Return the factor Ci for wood that is cut open for its treatment.

    Raises:
        InputError: There is no such property; they are those of `wet_factor`.

    Source: NDS 4.3.8, from memory; the deck tables come only with it.
    """
    known = named_values("incised")
    refuse(one_of(known, what=what))
    return known[what]


def beam_stability_factor(
    *, length_mm: float, depth_mm: float, breadth_mm: float, bending_n_mm2: float,
    least_stiffness_n_mm2: float,
) -> float:  # fmt: skip
    """Return the beam stability factor CL, for an effective length `length_mm` without hold.

    Raises:
        InputError: A number is not above 0.
        UncoveredError: The slenderness ratio is above 50.

    Source: NDS 3.3.3.6 to 3.3.3.8, from memory; gives AWC example E1.2a.
    """
    refuse(positive(
        length_mm=length_mm, depth_mm=depth_mm, breadth_mm=breadth_mm,
        bending_n_mm2=bending_n_mm2, least_stiffness_n_mm2=least_stiffness_n_mm2,
    ))  # fmt: skip
    slender = beam_slenderness(length_mm=length_mm, depth_mm=depth_mm, breadth_mm=breadth_mm)
    if slender > MOST_SLENDER_BEAM * (1 + _NOISE):
        raise _slender("slenderness RB", slender, MOST_SLENDER_BEAM)
    ratio = 1.2 * least_stiffness_n_mm2 / slender**2 / bending_n_mm2
    return _less_root((1 + ratio) / _BEAM_ROOT, ratio / _BEAM_MOST)


def beam_slenderness(*, length_mm: float, depth_mm: float, breadth_mm: float) -> float:
    """Return the slenderness ratio RB of a beam.

    Raises:
        InputError: A size of the beam is not above 0, or its effective length below 0.

    Source: NDS 3.3.3.6, from memory.
    """
    sizes = positive(depth_mm=depth_mm, breadth_mm=breadth_mm)
    refuse([*from_nothing(length_mm=length_mm), *sizes])
    return sqrt(length_mm * depth_mm / breadth_mm**2)


def effective_length_mm(*, free_mm: float, depth_mm: float, load: str = "any") -> float:
    """Return the effective length of a beam that is held sideways `free_mm` apart.

    Args:
        free_mm: Between places where its compression edge is held; 0 where it is all along.
        depth_mm: Of the beam.
        load: "even", "middle" for one load in the middle of a single span, or "any", the
            longest of them.

    Raises:
        InputError: The depth is not above 0, or what is free below 0.
        UncoveredError: The load is none of these.

    Source: NDS table 3.3.3 and its note, from memory; "middle" gives AWC example E1.2a.
    """
    nonsense = [*from_nothing(free_mm=free_mm), *positive(depth_mm=depth_mm)]
    refuse(nonsense, one_of(_LOADS, load=load))
    steep = free_mm / depth_mm < 7
    match load:
        case "even":
            return 2.06 * free_mm if steep else 1.63 * free_mm + 3 * depth_mm
        case "middle":
            return 1.80 * free_mm if steep else 1.37 * free_mm + 3 * depth_mm
        case _ if steep:
            return 2.06 * free_mm
        case _:
            return 1.63 * free_mm + 3 * depth_mm if free_mm / depth_mm <= 14.3 else 1.84 * free_mm


def column_stability_factor(
    *, length_mm: float, least_mm: float, along_n_mm2: float, least_stiffness_n_mm2: float
) -> float:
    """Return the column stability factor CP of sawn lumber, both ends held and free to turn.

    Raises:
        InputError: A number is not above 0.
        UncoveredError: Length over least thickness is above 50.

    Source: NDS 3.7.1.5, from memory; gives HUD example 5.6.
    """
    refuse(positive(
        length_mm=length_mm, least_mm=least_mm, along_n_mm2=along_n_mm2,
        least_stiffness_n_mm2=least_stiffness_n_mm2,
    ))  # fmt: skip
    slender = length_mm / least_mm
    if slender > MOST_SLENDER_COLUMN * (1 + _NOISE):
        raise _slender("length over thickness", slender, MOST_SLENDER_COLUMN)
    ratio = 0.822 * least_stiffness_n_mm2 / slender**2 / along_n_mm2
    return _less_root((1 + ratio) / (2 * _COLUMN_C), ratio / _COLUMN_C)


def _less_root(half: float, part: float) -> float:
    """Return half - sqrt(half^2 - part), by its other form where both terms are as good as alike.

    That is far from any beam or post: as slender as nothing, or as soft.
    """
    root = sqrt(half**2 - part)
    return part / (half + root) if part < _ALIKE * half**2 else half - root


def _too_deep(depth_mm: float, most_inch: float) -> UncoveredError:
    found, wanted = f"{inches_of_mm(depth_mm):g} in", f"at most {most_inch:g} in"
    return UncoveredError((Fault(path="depth", found=found, wanted=wanted),))


def _slender(path: str, slender: float, most: float) -> UncoveredError:
    fault = Fault(path=path, found=f"{slender:.4g}", wanted=f"at most {most:g}")
    return UncoveredError((fault,))
