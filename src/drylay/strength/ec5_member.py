"""Strength of one member under one load case: bending, turning over, shear, bearing, combined.

Formulas are those of EN 1995-1-1:2004+A1:2008, from memory; symbols are the standard's.
"""

from math import sqrt

from drylay.reasons import Inputs
from drylay.strength.checks import check
from drylay.strength.ec5_checking import ec5
from drylay.strength.ec5_model import Choices, DesignCase, Restraint, Timber
from drylay.strength.ec5_values import kh, kmod, number, one_of
from drylay.strength.model import Check
from drylay.strength.sections import area_mm2, breadth_in_all_mm, modulus_mm3

_BEND = "sigma_m,d = M_d / W <= k_crit f_m,d;  f_m,d = k_mod k_sys k_h f_m,k / gamma_M"
_SHEAR = "tau_d = 1.5 V_d / (k_cr b h) <= f_v,d = k_mod f_v,k / gamma_M"
_BEAR = "sigma_c,90,d = F_d / (b l_ef) <= k_c,90 f_c,90,d = k_c,90 k_mod f_c,90,k / gamma_M"


def design_n_mm2(characteristic_n_mm2: float, case: DesignCase, choices: Choices) -> float:
    """Return the design strength X_d = k_mod X_k / gamma_M, of solid timber.

    Source: EN 1995-1-1 2.4.1, (2.14).
    """
    factor = kmod(choices.service_class, case.duration).value
    return float(factor or 0.0) * characteristic_n_mm2 / number("gamma_m_timber")


def bending_design_n_mm2(timber: Timber, case: DesignCase, choices: Choices) -> float:
    """Return f_m,d with depth and system factors, before turning over is reckoned in.

    Source: EN 1995-1-1 2.4.1, 3.2(3), 6.6.
    """
    deep = kh(timber.section.depth_mm, timber.grade.rho_k_kg_m3)
    return design_n_mm2(timber.grade.fm_k_n_mm2, case, choices) * deep * case.system_ratio


def critical_n_mm2(
    breadth_mm: float, depth_mm: float, effective_mm: float, e0_05_n_mm2: float
) -> float:
    """Return the bending stress at which a rectangle of softwood turns over, elastic.

    Source: EN 1995-1-1 6.3.3(2), (6.32): 0.78 b^2 E0,05 / (h l_ef).
    """
    return 0.78 * breadth_mm**2 * e0_05_n_mm2 / (depth_mm * effective_mm)


#: Effective length over length, by how a beam is loaded (table 6.1).
EFFECTIVE = {
    "moment": 1.0,
    "spread": 0.9,
    "point": 0.8,
    "cantilever, spread": 0.5,
    "cantilever, tip": 0.8,
}


def effective_mm(length_mm: float, depth_mm: float, loaded: str) -> float:
    """Return l_ef of a beam loaded at its compression edge: 2 h more than by table 6.1.

    Raises:
        InputError: No such way of loading.

    Source: EN 1995-1-1 table 6.1 and its note, from memory.
    """
    one_of(loaded, tuple(EFFECTIVE), "loaded")
    return EFFECTIVE[loaded] * length_mm + 2.0 * depth_mm


def kcrit_of(slenderness_ratio: float) -> float:
    """Return k crit, a ratio, from the relative slenderness for bending.

    Source: EN 1995-1-1 6.3.3(4), (6.34).
    """
    if slenderness_ratio <= 0.75:
        return 1.0
    if slenderness_ratio <= 1.4:
        return 1.56 - 0.75 * slenderness_ratio
    return 1.0 / slenderness_ratio**2


def kcrit(timber: Timber, restraint: Restraint) -> float:
    """Return k crit, a ratio: 1 where the compression edge is held all along, else of one ply.

    Source: EN 1995-1-1 6.3.3(3) to (5).
    """
    if restraint.effective_mm is None:
        return 1.0
    section, grade = timber.section, timber.grade
    stress = critical_n_mm2(
        section.breadth_mm, section.depth_mm, restraint.effective_mm, grade.e0_05_n_mm2
    )
    return kcrit_of(sqrt(grade.fm_k_n_mm2 / stress))


def _common(timber: Timber, case: DesignCase, choices: Choices) -> Inputs:
    factor = kmod(choices.service_class, case.duration).value
    return (
        ("class", timber.grade.name),
        ("breadth_mm", timber.section.breadth_mm),
        ("depth_mm", timber.section.depth_mm),
        ("plies", timber.section.plies),
        ("k_mod", factor),
        ("duration", case.duration),
        ("gamma_M", number("gamma_m_timber")),
    )


def bending(
    timber: Timber, case: DesignCase, choices: Choices, restraint: Restraint | None = None
) -> Check:
    """Return the check of bending about the strong axis, stresses in N/mm2.

    Source: EN 1995-1-1 6.1.6, 6.3.3, from memory.
    """
    held = restraint or Restraint()
    critical = kcrit(timber, held)
    limit = critical * bending_design_n_mm2(timber, case, choices)
    inputs: Inputs = (
        ("moment_kn_m", case.moment_kn_m),
        ("f_m,k", timber.grade.fm_k_n_mm2),
        ("k_h", kh(timber.section.depth_mm, timber.grade.rho_k_kg_m3)),
        ("k_sys", case.system_ratio),
        ("k_crit", critical),
        ("restraint", held.said),
        *_common(timber, case, choices),
    )
    return check(
        "bending",
        timber.name,
        measured=case.moment_kn_m * 1e6 / modulus_mm3(timber.section),
        limit=limit,
        unit="N/mm2",
        case=case.name,
        formula=_BEND,
        source=ec5("6.1.6, 6.3.3"),
        inputs=inputs,
    )


def shear(timber: Timber, case: DesignCase, choices: Choices) -> Check:
    """Return the check of shear along the grain, stresses in N/mm2.

    No load near a support is left out (6.1.7(3) would allow some), and k_sys is not used.

    Source: EN 1995-1-1 6.1.7, k_cr 0.67, from memory.
    """
    area = number("kcr") * area_mm2(timber.section)
    limit = design_n_mm2(timber.grade.fv_k_n_mm2, case, choices)
    inputs = (
        ("shear_kn", case.shear_kn),
        ("f_v,k", timber.grade.fv_k_n_mm2),
        ("k_cr", number("kcr")),
        *_common(timber, case, choices),
    )
    return check(
        "shear",
        timber.name,
        measured=1.5 * case.shear_kn * 1e3 / area,
        limit=limit,
        unit="N/mm2",
        case=case.name,
        formula=_SHEAR,
        source=ec5("6.1.7"),
        inputs=inputs,
    )


def bearing_length_mm(bearing_mm: float, beyond_mm: tuple[float, float]) -> float:
    """Return the effective length of a bearing along the grain.

    `beyond_mm` is how far the timber goes on past either edge of the bearing: up to 30 mm of it
    counts at each, at most the bearing's own length.

    Source: EN 1995-1-1 6.1.5(1), from memory.
    """
    most = min(number("spread_mm"), bearing_mm)
    return bearing_mm + sum(min(most, beyond) for beyond in beyond_mm)


def bearing(
    timber: Timber,
    case: DesignCase,
    choices: Choices,
    *,
    bearing_mm: float,
    beyond_mm: tuple[float, float] = (0.0, 30.0),
    kc90_ratio: float = 1.0,
) -> Check:
    """Return the check of a bearing across the grain, stresses in N/mm2.

    Nothing past one edge and enough past the other are taken unless told: an end's bearing.
    `kc90_ratio` stays 1 unless the caller shows that 6.1.5 lets it be more.

    Source: EN 1995-1-1 6.1.5, from memory.
    """
    effective = bearing_length_mm(bearing_mm, beyond_mm)
    inputs = (
        ("force_kn", case.bearing_kn),
        ("bearing_mm", bearing_mm),
        ("l_ef", effective),
        ("k_c,90", kc90_ratio),
        ("f_c,90,k", timber.grade.fc90_k_n_mm2),
        *_common(timber, case, choices),
    )
    return check(
        "bearing",
        timber.name,
        measured=case.bearing_kn * 1e3 / (breadth_in_all_mm(timber.section) * effective),
        limit=kc90_ratio * design_n_mm2(timber.grade.fc90_k_n_mm2, case, choices),
        unit="N/mm2",
        case=case.name,
        formula=_BEAR,
        source=ec5("6.1.5"),
        inputs=inputs,
    )
