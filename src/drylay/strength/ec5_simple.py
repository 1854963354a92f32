"""Moments, shears and deflections of one span, of a cantilever, and of a board, in closed form.

Lengths in mm; loads in kN and kN/m; moments in kN m. E I in kN m2 and G A over the shape factor
in kN. Beams over more supports come from elsewhere, as `Effects`.
"""

from drylay.strength.ec5_model import DesignCase, Timber
from drylay.strength.ec5_values import number
from drylay.strength.model import Effects
from drylay.strength.sections import area_mm2, second_moment_mm4


def bending_stiffness_kn_m2(timber: Timber) -> float:
    """Return E0,mean I in kN m2."""
    return timber.grade.e0_mean_n_mm2 * second_moment_mm4(timber.section) / 1e9


def shear_stiffness_kn(timber: Timber) -> float:
    """Return G mean A over the shape factor 1.2 of a rectangle, in kN."""
    area = area_mm2(timber.section)
    return timber.grade.g_mean_n_mm2 * area / number("shear_shape") / 1e3


def span_sag_mm(timber: Timber, span_mm: float, load_kn_m: float) -> float:
    """Return the mid-span deflection under an even load, bending and shear.

    Source: statics, 5 w L^4 / 384 E I + 1.2 w L^2 / 8 G A.
    """
    span = span_mm / 1e3
    bend = 5.0 * load_kn_m * span**4 / (384.0 * bending_stiffness_kn_m2(timber))
    return (bend + load_kn_m * span**2 / (8.0 * shear_stiffness_kn(timber))) * 1e3


def span_point_sag_mm(timber: Timber, span_mm: float, load_kn: float) -> float:
    """Return the mid-span deflection under a load there, bending and shear.

    Source: statics, P L^3 / 48 E I + 1.2 P L / 4 G A.
    """
    span = span_mm / 1e3
    bend = load_kn * span**3 / (48.0 * bending_stiffness_kn_m2(timber))
    return (bend + load_kn * span / (4.0 * shear_stiffness_kn(timber))) * 1e3


def tip_sag_mm(timber: Timber, span_mm: float, cantilever_mm: float, load_kn_m: float) -> float:
    """Return how far a cantilever's tip goes down under an even load on the cantilever alone.

    Source: statics, w a^3 (4 L + 3 a) / 24 E I + 1.2 w a^2 / 2 G A + 1.2 w a^3 / 2 L G A.
    """
    span, out = span_mm / 1e3, cantilever_mm / 1e3
    bend = load_kn_m * out**3 * (4.0 * span + 3.0 * out) / 24.0 / bending_stiffness_kn_m2(timber)
    slide = load_kn_m * out**2 / 2.0 * (1.0 + out / span) / shear_stiffness_kn(timber)
    return (bend + slide) * 1e3


def tip_point_sag_mm(timber: Timber, span_mm: float, cantilever_mm: float, load_kn: float) -> float:
    """Return how far a cantilever's tip goes down under a load at the tip.

    Source: statics, P a^2 (L + a) / 3 E I + 1.2 P a (1 + a / L) / G A.
    """
    span, out = span_mm / 1e3, cantilever_mm / 1e3
    bend = load_kn * out**2 * (span + out) / (3.0 * bending_stiffness_kn_m2(timber))
    return (bend + load_kn * out * (1.0 + out / span) / shear_stiffness_kn(timber)) * 1e3


def span_case(
    name: str,
    duration: str,
    *,
    span_mm: float,
    load_kn_m: float,
    point_kn: float = 0.0,
    end_kn: float = 0.0,
    system_ratio: float = 1.0,
) -> DesignCase:
    """Return the case of one span under an even load and one point load, each where it is worst.

    `point_kn` is what of the point load this beam carries at mid-span, for the moment; `end_kn`
    what at a support, for shear and bearing.

    Source: statics.
    """
    span = span_mm / 1e3
    end = load_kn_m * span / 2.0 + end_kn
    return DesignCase(
        name=name,
        duration=duration,
        moment_kn_m=load_kn_m * span**2 / 8.0 + point_kn * span / 4.0,
        shear_kn=end,
        bearing_kn=end,
        system_ratio=system_ratio,
    )


def cantilever_case(
    name: str,
    duration: str,
    *,
    span_mm: float,
    cantilever_mm: float,
    load_kn_m: float,
    tip_kn: float = 0.0,
    system_ratio: float = 1.0,
) -> DesignCase:
    """Return the case of the support beside a cantilever, all of the beam loaded evenly.

    Moment over the support, the greater shear beside it, what it carries.

    Source: statics.
    """
    span, out = span_mm / 1e3, cantilever_mm / 1e3
    moment = load_kn_m * out**2 / 2.0 + tip_kn * out
    inside = load_kn_m * span / 2.0 + moment / span
    outside = load_kn_m * out + tip_kn
    return DesignCase(
        name=name,
        duration=duration,
        moment_kn_m=moment,
        shear_kn=max(inside, outside),
        bearing_kn=inside + outside,
        system_ratio=system_ratio,
    )


def uplift_kn(
    *, span_mm: float, cantilever_mm: float, load_kn_m: float, out_kn_m: float, tip_kn: float
) -> float:
    """Return what lifts the far end of a beam with a cantilever, 0 where nothing does.

    `load_kn_m` lies on the span, `out_kn_m` on the cantilever.

    Source: statics, moments about the support beside the cantilever.
    """
    span, out = span_mm / 1e3, cantilever_mm / 1e3
    over = out_kn_m * out**2 / 2.0 + tip_kn * out
    return max(0.0, over / span - load_kn_m * span / 2.0)


def case_of(
    name: str, duration: str, effects: Effects, *, factor: float = 1.0, system_ratio: float = 1.0
) -> DesignCase:
    """Return the load case that effects make: those of a beam over any supports, times `factor`."""
    moment = max(abs(effects.sagging.value_kn_m), abs(effects.hogging.value_kn_m))
    return DesignCase(
        name=name,
        duration=duration,
        moment_kn_m=factor * moment,
        shear_kn=factor * abs(effects.shear_kn),
        bearing_kn=factor * max(0.0, *effects.reactions_kn),
        system_ratio=system_ratio,
    )


def board_moment_ratio(bays: int) -> float:
    """Return the moment under a moving point load on equal bays, over load x bay.

    One bay 1/4. Of two bays the greatest of x (L - x)(4 L^2 - x (L + x)) / 4 L^4; more bays have
    less, but are given the same.

    Source: statics.
    """
    if bays == 1:
        return 0.25
    places = (step / 1000.0 for step in range(1001))
    return max(x * (1.0 - x) * (4.0 - x * (1.0 + x)) / 4.0 for x in places)
