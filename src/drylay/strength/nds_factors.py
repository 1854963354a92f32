"""The adjustment factors of the US allowable-stress basis, one rule a function."""

from math import sqrt

from drylay.errors import Fault, UncoveredError
from drylay.strength.us_units import inches_of_mm, psi_of_n_mm2

#: Load duration factors by what is laid on. Source: NDS table 2.3.2, from memory.
DURATIONS = {
    "permanent": 0.9,
    "occupancy": 1.0,
    "snow": 1.15,
    "seven days": 1.25,
    "wind": 1.6,
}
#: Above this Fb CF, wet timber takes the factor of 0.85; at or below it none.
WET_BENDING_PSI = 1150.0
WET_ALONG_PSI = 750.0
_WET = {"bending": 0.85, "shear": 0.97, "across": 0.67, "along": 0.8, "stiffness": 0.9}
_WET_TIMBER = {"bending": 1.0, "shear": 1.0, "across": 0.67, "along": 0.91, "stiffness": 1.0}
_INCISED = {"bending": 0.8, "shear": 0.8, "across": 1.0, "along": 0.8, "stiffness": 0.95}
#: Dressed depth in inches up to which each size factor holds; 2 and 3 in, and 4 in thick.
_SIZES = ((3.5, 1.5, 1.5), (4.5, 1.4, 1.4), (5.5, 1.3, 1.3), (7.25, 1.2, 1.3), (9.25, 1.1, 1.2),
          (11.25, 1.0, 1.1), (15.25, 0.9, 1.0))  # fmt: skip
_THICK_INCH = 3.5
_SIZES_ALONG = ((3.5, 1.15), (5.5, 1.1), (7.25, 1.05), (11.25, 1.0), (15.25, 0.9))
#: Buckling of sawn lumber. Source: NDS 3.7.1.5 and 3.3.3.8, from memory.
_COLUMN_C = 0.8
_BEAM_ROOT, _BEAM_MOST = 1.9, 0.95
MOST_SLENDER_COLUMN, MOST_SLENDER_BEAM = 50.0, 50.0
_NOISE = 1e-9


def duration_factor(load: str) -> float:
    """Return the load duration factor CD, for the shortest load of a combination.

    Raises:
        UncoveredError: The table does not know this load.

    Source: NDS table 2.3.2, from memory; snow rows of the deck tables come only with 1.15.
    """
    if load not in DURATIONS:
        wanted = f"one of {', '.join(DURATIONS)}"
        raise UncoveredError((Fault(path="load", found=repr(load), wanted=wanted),))
    return DURATIONS[load]


def size_factor(depth_mm: float, breadth_mm: float) -> float:
    """Return the size factor CF for bending, of grades Select Structural to No.3.

    Raises:
        UncoveredError: The timber is deeper than the table goes.

    Source: NDS Supplement table 4A, read as transcribed; the next deeper row between two, and
        the thinner column, which has less.
    """
    thick = inches_of_mm(breadth_mm) >= _THICK_INCH - _NOISE
    for most_inch, thin_factor, thick_factor in _SIZES:
        if inches_of_mm(depth_mm) <= most_inch + _NOISE:
            return thick_factor if thick else thin_factor
    raise _too_deep(depth_mm, _SIZES[-1][0])


def size_factor_along(depth_mm: float) -> float:
    """Return the size factor CF for compression along the grain.

    Raises:
        UncoveredError: The timber is deeper than the table goes.

    Source: NDS Supplement table 4A, from memory.
    """
    for most_inch, factor in _SIZES_ALONG:
        if inches_of_mm(depth_mm) <= most_inch + _NOISE:
            return factor
    raise _too_deep(depth_mm, _SIZES_ALONG[-1][0])


def wet_factor(what: str, sized_n_mm2: float = 0.0, *, timber: bool = False) -> float:
    """Return the wet service factor CM of one property.

    Bending takes 0.85 only where Fb CF is above 1150 psi, compression along the grain 0.8 only
    where Fc CF is above 750 psi: a little more strength can leave less of it.

    Args:
        what: "bending", "shear", "across", "along" or "stiffness".
        sized_n_mm2: The value with its size factor, for bending and "along".
        timber: Whether it is 5 in and more each way.

    Source: NDS Supplement tables 4A and 4B, read as transcribed; 4D from memory.
    """
    if timber:
        return _WET_TIMBER[what]
    above = {"bending": WET_BENDING_PSI, "along": WET_ALONG_PSI}
    if what in above and psi_of_n_mm2(sized_n_mm2) <= above[what] * (1 + _NOISE):
        return 1.0
    return _WET[what]


def incising_factor(what: str) -> float:
    """Return the factor Ci for wood that is cut open for its treatment.

    Source: NDS 4.3.8, from memory; the deck tables come only with it.
    """
    return _INCISED[what]


def beam_stability_factor(
    *, length_mm: float, depth_mm: float, breadth_mm: float, bending_n_mm2: float,
    least_stiffness_n_mm2: float,
) -> float:  # fmt: skip
    """Return the beam stability factor CL, for an effective length `length_mm` without hold.

    Raises:
        UncoveredError: The slenderness ratio is above 50.

    Source: NDS 3.3.3.6 to 3.3.3.8, from memory; gives AWC example E1.2a.
    """
    slender = beam_slenderness(length_mm=length_mm, depth_mm=depth_mm, breadth_mm=breadth_mm)
    if slender > MOST_SLENDER_BEAM * (1 + _NOISE):
        raise _slender("slenderness RB", slender, MOST_SLENDER_BEAM)
    ratio = 1.2 * least_stiffness_n_mm2 / slender**2 / bending_n_mm2
    half = (1 + ratio) / _BEAM_ROOT
    return half - sqrt(half**2 - ratio / _BEAM_MOST)


def beam_slenderness(*, length_mm: float, depth_mm: float, breadth_mm: float) -> float:
    """Return the slenderness ratio RB of a beam. Source: NDS 3.3.3.6, from memory."""
    return sqrt(length_mm * depth_mm / breadth_mm**2)


def effective_length_mm(*, free_mm: float, depth_mm: float, load: str = "any") -> float:
    """Return the effective length of a beam that is held sideways `free_mm` apart.

    Args:
        free_mm: Between places where its compression edge is held.
        depth_mm: Of the beam.
        load: "even", "middle" for one load in the middle of a single span, or "any", the
            longest of them.

    Raises:
        UncoveredError: The load is none of these.

    Source: NDS table 3.3.3 and its note, from memory; "middle" gives AWC example E1.2a.
    """
    steep = free_mm / depth_mm < 7
    match load:
        case "even":
            return 2.06 * free_mm if steep else 1.63 * free_mm + 3 * depth_mm
        case "middle":
            return 1.80 * free_mm if steep else 1.37 * free_mm + 3 * depth_mm
        case "any" if steep:
            return 2.06 * free_mm
        case "any":
            return 1.63 * free_mm + 3 * depth_mm if free_mm / depth_mm <= 14.3 else 1.84 * free_mm
    raise UncoveredError((Fault(path="load", found=repr(load), wanted="even, middle or any"),))


def column_stability_factor(
    *, length_mm: float, least_mm: float, along_n_mm2: float, least_stiffness_n_mm2: float
) -> float:
    """Return the column stability factor CP of sawn lumber, both ends held and free to turn.

    Raises:
        UncoveredError: Length over least thickness is above 50.

    Source: NDS 3.7.1.5, from memory; gives HUD example 5.6.
    """
    slender = length_mm / least_mm
    if slender > MOST_SLENDER_COLUMN * (1 + _NOISE):
        raise _slender("length over thickness", slender, MOST_SLENDER_COLUMN)
    ratio = 0.822 * least_stiffness_n_mm2 / slender**2 / along_n_mm2
    half = (1 + ratio) / (2 * _COLUMN_C)
    return half - sqrt(half**2 - ratio / _COLUMN_C)


def _too_deep(depth_mm: float, most_inch: float) -> UncoveredError:
    found, wanted = f"{inches_of_mm(depth_mm):g} in", f"at most {most_inch:g} in"
    return UncoveredError((Fault(path="depth", found=found, wanted=wanted),))


def _slender(path: str, slender: float, most: float) -> UncoveredError:
    fault = Fault(path=path, found=f"{slender:.4g}", wanted=f"at most {most:g}")
    return UncoveredError((fault,))
