"""One fastener: how wood bears on it, when it bends, what pulls it out.

Forces in N and N mm, as the standard's formulas have them. Formulas are those of EN 1995-1-1,
from memory.
"""

from math import cos, pi, radians, sin

from drylay.errors import Fault, UncoveredError
from drylay.strength.ec5_model import Fastener, Side, StrengthClass
from drylay.strength.ec5_values import number, one_of

KINDS = ("nail", "screw", "coach screw", "bolt", "dowel")
#: How much of the Johansen part a rope effect may add (8.2.2(2)): round nails, screws, bolts.
ROPE_CAPS = {"nail": 0.15, "screw": 1.0, "coach screw": 1.0, "bolt": 0.25, "dowel": 0.0}
#: Up to this diameter a screw's rules are those of nails, above it those of bolts (8.7.1).
NAIL_LIKE_MM = 6.0
#: Threads that (8.39) covers, and how deep they go at least, in diameters.
THREADS_MM = (6.0, 12.0)
LEAST_THREAD = 6.0


def nail_like(fastener: Fastener) -> bool:
    """Return whether nails' rules hold: nails, and screws up to 6 mm.

    Source: EN 1995-1-1 8.7.1(4) and (5), by the outer diameter here, which is the stricter side
    for spacing.

    Raises:
        InputError: No such kind of fastener.
    """
    one_of(fastener.kind, KINDS, "fastener.kind")
    slim = fastener.diameter_mm <= NAIL_LIKE_MM
    return fastener.kind == "nail" or (fastener.kind in ("screw", "coach screw") and slim)


def k90(diameter_mm: float, softwood: bool) -> float:
    """Return k 90, a ratio: how much weaker wood bears across the grain.

    Source: EN 1995-1-1 8.5.1.1(2), (8.33).
    """
    return (1.35 if softwood else 0.90) + 0.015 * diameter_mm


def embedment_n_mm2(fastener: Fastener, side: Side) -> float:
    """Return f h,k of one side, in N/mm2; the load's angle counts for bolts, dowels, thick screws.

    Raises:
        InputError: No such kind.
        UncoveredError: Nails and screws that are not pre-drilled in wood over 500 kg/m3.

    Source: EN 1995-1-1 8.3.1.1(5) nails, 8.5.1.1(2) bolts, 8.7.1 screws.
    """
    d, rho = fastener.diameter_mm, side.grade.rho_k_kg_m3
    if nail_like(fastener):
        if not fastener.predrilled:
            _refuse_dense(rho)
            return 0.082 * rho * float(d**-0.3)
        return along_n_mm2(d, rho)
    angle = radians(side.angle_deg)
    turned = k90(d, side.grade.softwood) * sin(angle) ** 2 + cos(angle) ** 2
    return along_n_mm2(d, rho) / turned


def along_n_mm2(diameter_mm: float, rho_k_kg_m3: float) -> float:
    """Return f h,0,k of a pre-drilled round fastener, in N/mm2.

    Source: EN 1995-1-1 (8.16), (8.32).
    """
    return 0.082 * (1.0 - 0.01 * diameter_mm) * rho_k_kg_m3


def _refuse_dense(rho_k_kg_m3: float) -> None:
    if rho_k_kg_m3 > 500.0:
        wanted = "true: wood over 500 kg/m3 is pre-drilled (EN 1995-1-1 8.3.1.1)"
        raise UncoveredError((Fault(path="fastener.predrilled", found="false", wanted=wanted),))


def yield_moment_n_mm(fastener: Fastener) -> float:
    """Return M y,Rk in N mm, from the diameter that bends.

    Source: EN 1995-1-1 (8.14) round nails, (8.30) bolts, 8.7.1(1) screws: 0.3 f_u d^2.6.
    """
    return 0.3 * fastener.tensile_n_mm2 * float(fastener.bending_mm**2.6)


def screw_bending_mm(shank_mm: float, root_mm: float, smooth_past_plane_mm: float) -> float:
    """Return the diameter of a screw that bends, in mm.

    The smooth shank's where it reaches 4 d and more past the shear plane, else 1.1 x the root's.

    Source: EN 1995-1-1 8.7.1(1) to (3), from memory.
    """
    return shank_mm if smooth_past_plane_mm >= 4.0 * shank_mm else 1.1 * root_mm


def withdrawal_n_mm2(diameter_mm: float, thread_mm: float, rho_k_kg_m3: float) -> float:
    """Return f ax,k of a screw across the grain in N/mm2, `thread_mm` the thread in the wood.

    Source: EN 1995-1-1:2004+A1 8.7.2(5), (8.39): 0.52 d^-0.5 l_ef^-0.1 rho^0.8.
    """
    grip = float(diameter_mm**-0.5 * thread_mm**-0.1 * rho_k_kg_m3**0.8)
    return number("withdrawal_factor") * grip


def withdrawal_n(
    diameter_mm: float, thread_mm: float, grade: StrengthClass, angle_deg: float = 90.0
) -> float:
    """Return F ax,Rk of one screw in N: 30 to 90 degrees to the grain, thread without its tip.

    Threads of 6 to 12 mm that grip at least 6 d: the formula goes no further. That the root is 0.6
    to 0.75 of the thread, and that head and steel hold as much, is the caller's to know.

    Raises:
        UncoveredError: The thread, its grip or the angle lies outside the formula.

    Source: EN 1995-1-1:2004+A1 8.7.2(4) and (5), (8.38), k_d = min(d / 8, 1), from memory.
    """
    _refuse_outside(diameter_mm, thread_mm, angle_deg)
    return rope_n(diameter_mm, thread_mm, grade.rho_k_kg_m3) / _turned(angle_deg)


def rope_n(diameter_mm: float, thread_mm: float, rho_k_kg_m3: float) -> float:
    """Return the pull-out of (8.38) and (8.39) at right angles to the grain, in N, unguarded.

    For a rope effect with less grip than 6 d, where the standard's formula has no say: a caller
    who uses it so says so.

    Source: EN 1995-1-1:2004+A1 8.7.2.
    """
    grip = withdrawal_n_mm2(diameter_mm, thread_mm, rho_k_kg_m3) * diameter_mm * thread_mm
    return grip * min(diameter_mm / 8.0, 1.0)


def _turned(angle_deg: float) -> float:
    angle = radians(angle_deg)
    return 1.2 * cos(angle) ** 2 + sin(angle) ** 2


def _refuse_outside(diameter_mm: float, thread_mm: float, angle_deg: float) -> None:
    low, high = THREADS_MM
    wants = (
        ("diameter_mm", diameter_mm, low <= diameter_mm <= high, f"{low:g} to {high:g}"),
        ("thread_mm", thread_mm, thread_mm >= LEAST_THREAD * diameter_mm, "at least 6 d"),
        ("angle_deg", angle_deg, 30.0 <= angle_deg <= 90.0, "30 to 90"),
    )
    faults = tuple(
        Fault(path=path, found=repr(found), wanted=wanted)
        for path, found, fits, wanted in wants
        if not fits
    )
    if faults:
        raise UncoveredError(faults)


def washer_n(washer_mm: float, hole_mm: float, grade: StrengthClass) -> float:
    """Return what a round washer bears on across the grain, in N: 3 f c,90,k on its ring.

    Source: EN 1995-1-1 8.5.2(2), from memory.
    """
    ring = pi * (washer_mm**2 - hole_mm**2) / 4.0
    return number("washer_factor") * grade.fc90_k_n_mm2 * ring


def bolt_steel_n(stress_area_mm2: float, tensile_n_mm2: float) -> float:
    """Return the design tension of a bolt's steel, in N.

    Source: EN 1993-1-8 table 3.4, 0.9 f_ub A_s / gamma_M2, from memory.
    """
    return number("bolt_tension") * tensile_n_mm2 * stress_area_mm2 / number("gamma_m2")
