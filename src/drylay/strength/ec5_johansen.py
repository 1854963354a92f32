"""Timber to timber, by Johansen: six modes in one shear plane, four in each of two.

Forces in N inside, a joint's resistance in kN. Formulas of EN 1995-1-1 8.2.2, from memory; the
German simplified method, which is another, stands in `ec5_dowels`.
"""

from math import sqrt

from drylay.strength.ec5_checking import ec5
from drylay.strength.ec5_fasteners import ROPE_CAPS, embedment_n_mm2, yield_moment_n_mm
from drylay.strength.ec5_model import Fastener, Resistance, Side
from drylay.strength.ec5_values import kmod, number


def _mode_c(crush: float, beta: float, r: float) -> float:
    """(8.6) c over f_h1 t1 d, `crush` 1: both pieces crush and the fastener tilts."""
    root = sqrt(beta + 2.0 * beta**2 * (1.0 + r + r * r) + beta**3 * r * r)
    return crush / (1.0 + beta) * (root - beta * (1.0 + r))


def _mode_d(crush: float, beta: float, stiff: float) -> float:
    """(8.6) d and (8.7) j: one hinge in the second piece; `stiff` is My / (f_h1 d t1^2)."""
    root = sqrt(2.0 * beta * (1.0 + beta) + 4.0 * beta * (2.0 + beta) * stiff)
    return 1.05 * crush / (2.0 + beta) * (root - beta)


def _mode_e(crush: float, beta: float, stiff: float) -> float:
    """(8.6) e: one hinge in the first piece; `crush` f_h1 t2 d, `stiff` My / (f_h1 d t2^2)."""
    root = sqrt(2.0 * beta**2 * (1.0 + beta) + 4.0 * beta * (1.0 + 2.0 * beta) * stiff)
    return 1.05 * crush / (1.0 + 2.0 * beta) * (root - beta)


def _mode_f(beta: float, moment: float, bear: float) -> float:
    """(8.6) f and (8.7) k: two hinges; `bear` is f_h1 d."""
    return 1.15 * sqrt(2.0 * beta / (1.0 + beta)) * sqrt(2.0 * moment * bear)


def single_shear_n(fastener: Fastener, first: Side, second: Side) -> tuple[tuple[str, float], ...]:
    """Return modes a to f of one shear plane in N, without rope effect.

    Source: EN 1995-1-1 8.2.2(1), (8.6), from memory.
    """
    d, t1, t2 = fastener.diameter_mm, first.depth_mm, second.depth_mm
    fh1, fh2 = embedment_n_mm2(fastener, first), embedment_n_mm2(fastener, second)
    beta, moment = fh2 / fh1, yield_moment_n_mm(fastener)
    return (
        ("a", fh1 * t1 * d),
        ("b", fh2 * t2 * d),
        ("c", _mode_c(fh1 * t1 * d, beta, t2 / t1)),
        ("d", _mode_d(fh1 * t1 * d, beta, moment / (fh1 * d * t1 * t1))),
        ("e", _mode_e(fh1 * t2 * d, beta, moment / (fh1 * d * t2 * t2))),
        ("f", _mode_f(beta, moment, fh1 * d)),
    )


def double_shear_n(fastener: Fastener, outer: Side, middle: Side) -> tuple[tuple[str, float], ...]:
    """Return modes g to k of each of two shear planes in N, without rope effect.

    `outer` is the thinner outer piece, `middle` the one between.

    Source: EN 1995-1-1 8.2.2(1), (8.7), from memory.
    """
    d, t1, t2 = fastener.diameter_mm, outer.depth_mm, middle.depth_mm
    fh1, fh2 = embedment_n_mm2(fastener, outer), embedment_n_mm2(fastener, middle)
    beta, moment = fh2 / fh1, yield_moment_n_mm(fastener)
    return (
        ("g", fh1 * t1 * d),
        ("h", 0.5 * fh2 * t2 * d),
        ("j", _mode_d(fh1 * t1 * d, beta, moment / (fh1 * d * t1 * t1))),
        ("k", _mode_f(beta, moment, fh1 * d)),
    )


def with_rope(
    modes: tuple[tuple[str, float], ...], fastener: Fastener, pull_n: float
) -> tuple[tuple[str, float], ...]:
    """Return the modes with a quarter of the pull-out added, up to the cap of the fastener's kind.

    Modes in which nothing but wood crushes (a, b, g, h) get none.

    Source: EN 1995-1-1 8.2.2(2), from memory.
    """
    cap = ROPE_CAPS[fastener.kind]
    return tuple(
        (mode, force if mode in "abgh" else force + min(pull_n / 4.0, cap * force))
        for mode, force in modes
    )


def joint(modes: tuple[tuple[str, float], ...], bare: tuple[tuple[str, float], ...]) -> Resistance:
    """Return what one fastener carries in one plane: the least of the modes; `bare` has no rope."""
    governing, least = min(modes, key=lambda mode: mode[1])
    without = dict(bare)[governing]
    return Resistance(
        modes_kn=tuple((mode, force / 1e3) for mode, force in modes),
        governing=governing,
        resistance_kn=least / 1e3,
        rope_kn=(least - without) / 1e3,
        source=ec5("8.2.2"),
    )


def single_shear(fastener: Fastener, first: Side, second: Side, pull_n: float = 0.0) -> Resistance:
    """Return the characteristic resistance of one fastener through one shear plane.

    `pull_n` is its characteristic pull-out for the rope effect, 0 where none is relied on: the
    least of what thread, head and steel hold (8.7.2(3)), of which `withdrawal_n` is the thread's.

    Source: EN 1995-1-1 8.2.2, (8.6), from memory.
    """
    bare = single_shear_n(fastener, first, second)
    return joint(with_rope(bare, fastener, pull_n), bare)


def double_shear(fastener: Fastener, outer: Side, middle: Side, pull_n: float = 0.0) -> Resistance:
    """Return the characteristic resistance of one fastener in each of two shear planes.

    Source: EN 1995-1-1 8.2.2, (8.7), from memory.
    """
    bare = double_shear_n(fastener, outer, middle)
    return joint(with_rope(bare, fastener, pull_n), bare)


def design_kn(characteristic_kn: float, service_class: int, duration: str) -> float:
    """Return a joint's design resistance, k_mod R_k / gamma_M.

    Source: EN 1995-1-1 2.4.3, (2.17); gamma_M 1.3 of connections, from memory.
    """
    factor = float(kmod(service_class, duration).value or 0.0)
    return factor * characteristic_kn / number("gamma_m_connection")


def effective_count(fastener: Fastener, count: int, a1_mm: float) -> float:
    """Return how many bolts in a row along the grain count, loaded along it.

    Source: EN 1995-1-1 8.5.1.1(4), (8.34): n^0.9 (a1 / 13 d)^0.25, at most n, from memory.
    """
    if count == 1:
        return 1.0
    spread = (a1_mm / (13.0 * fastener.diameter_mm)) ** 0.25
    return min(float(count), float(count**0.9 * spread))
