"""What the cover weighs: no member is screened with less than lies on it."""

from collections.abc import Iterator
from fractions import Fraction

from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import need
from drylay.audit.lorry import board_kg_per_m, border_kg_per_m, delivery_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.audit.strength_asked import GRAVITY, STRENGTH, as_told, strength_of
from drylay.plan.model import Plan

#: What joists and bearers take of a dead load that holds members' own weight: docs/strength.md.
MEMBERS_KN_M2 = Fraction("0.2")
HAIR = Fraction(1, 10**9)


def _cover_kn_m2(plan: Plan) -> Fraction:
    """Return what a square metre of tiles or boards weighs, a border's where that is more."""
    if plan.tiling is not None:
        sides = ticks(plan.tiling.tile_length_mm) * ticks(surface_of(plan).board_width_mm)
        area = Fraction(need(sides or None, "size of a tile"), (1000 * PER_MM) ** 2)
        return as_told(plan.tiling.tile_mass_kg) / area * GRAVITY / 1000
    brought = delivery_of(plan)
    laid = need(plan.laying, "boards") if plan.surface is None else plan.surface
    section = Fraction(ticks(laid.board_width_mm) * ticks(laid.board_thickness_mm))
    by_section = section / (1000 * PER_MM) ** 2 * Fraction(repr(float(brought.density_kg_m3 or 0)))
    sold, wet = brought.board_kg_m, brought.extra_mass_kg_m2
    found = [(board_kg_per_m(laid.board_width_mm, by_section, sold, wet), laid.board_width_mm)]
    border = plan.surface.border if plan.surface is not None else None
    if border is not None:
        found.append((border_kg_per_m(border, brought), border.width_mm))
    return max(kg_m * 1000 * PER_MM / ticks(wide) for kg_m, wide in found) * GRAVITY / 1000


def a_heavy_cover_is_reckoned(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the cover weighs more than what members are screened with."""
    strength = strength_of(plan)
    members = 0 if strength.own_weight_apart else MEMBERS_KN_M2
    over = _cover_kn_m2(plan) - (as_told(strength.dead_kn_m2) - members)
    heavier = as_told(strength.heavier_kn_m2)
    if heavier + HAIR < over:
        yield Flaw(
            subject="strength.heavier_kn_m2", message="the cover weighs more", unit="kN/m2",
            measured=strength.heavier_kn_m2, limit=float(over), source=STRENGTH,
        )  # fmt: skip
    besides = [(each.subject, each.more_dead_kn_m2) for each in strength.beams]
    besides += [(each.subject, each.more_dead_kn_m2) for each in strength.ledgers]
    for subject, more in besides:
        if as_told(more) + HAIR < heavier:
            yield Flaw(
                subject=subject, message="asked without what the cover weighs more",
                measured=more, limit=strength.heavier_kn_m2, unit="kN/m2",
                source=STRENGTH,
            )  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-368", "what a heavy cover weighs is in every member's load", a_heavy_cover_is_reckoned),
)
