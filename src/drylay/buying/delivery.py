"""What the order weighs as delivered, and the heaviest single thing that somebody lifts."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import ceil

from attrs import frozen

from drylay.buying.model import Buying, Delivery, MassPart, OrderLine
from drylay.marks import PER_MM, exact

#: What one person lifts at most. From memory: HSE, manual handling.
LIFT_MOST_KG = 25.0
#: A heavier pack is set down by the lorry, not lifted. Assumption.
LORRY_KG = 100
#: Oil, stain, paint or preserver, at most. Assumption: they weigh 1.0 to 1.3.
COATING_KG_PER_ML = Fraction(13, 10_000)
#: Ground fabric, at most. Assumption: ordinary woven ones weigh half of that.
FABRIC_KG_PER_MM2 = Fraction(2, 10**7)


@frozen(kw_only=True)
class Weights:
    """What a mm of each article sold by length weighs, and one unit of each sold in packs.

    What is not in it, such as screws, is left out. Articles of `singly` are lifted one by one,
    whatever packs they come in.
    """

    per_mm: Mapping[str, Fraction]
    per_unit: Mapping[str, Fraction]
    singly: frozenset[str] = frozenset()


def kg_per_mm(thickness_mm: float, breadth_mm: float, density_kg_m3: float) -> Fraction:
    """Return what a mm of timber of this section weighs, exactly."""
    section_mm2 = Fraction(exact(thickness_mm) * exact(breadth_mm), PER_MM**2)
    return section_mm2 * Fraction(repr(float(density_kg_m3))) / 10**9


def board_kg_per_mm(
    sold_kg_m: float | None, section_kg: Fraction, extra_kg_m2: float, width_mm: float
) -> Fraction:
    """Return what a mm of board weighs: as sold, else by its section; wet inserts on top."""
    dry = section_kg if sold_kg_m is None else Fraction(repr(float(sold_kg_m))) / 1000
    width_m = Fraction(exact(width_mm), 1000 * PER_MM)
    return dry + Fraction(repr(float(extra_kg_m2))) * width_m / 1000


def weigh(buying: Buying, weights: Weights, *, density_kg_m3: float | None) -> Delivery:
    """Return what an order weighs with its spares; the first of the heaviest is the lift."""
    lines = [*buying.order, *buying.spares]
    each = [(line, _each(line, weights)) for line in lines]
    parts = _parts(buying, each)
    lifts = [lift for line, mass in each if (lift := _lift(line, mass, weights)) is not None]
    lifted, pack, most = max(lifts, key=lambda lift: lift[2])
    return Delivery(
        density_kg_m3=density_kg_m3,
        parts=parts,
        total_kg=float(sum((Fraction(repr(part.mass_kg)) for part in parts), Fraction(0))),
        lift_article=lifted.article,
        lift_length_mm=lifted.length_mm,
        lift_pack=pack,
        lift_kg=_told(most),
        lift_most_kg=LIFT_MOST_KG,
        lorry_packs=sum(
            line.quantity for line, mass in each if line.pack is not None and mass > LORRY_KG
        ),
    )


def _lift(
    line: OrderLine, mass_kg: Fraction, weights: Weights
) -> tuple[OrderLine, int | None, Fraction] | None:
    """Return what somebody lifts of a line, its count and mass; None where nobody lifts it."""
    if line.article in weights.singly:
        return line, 1, weights.per_unit[line.article]
    if line.length_mm or 0 < mass_kg <= LORRY_KG:
        return line, line.pack, mass_kg
    return None


def _each(line: OrderLine, weights: Weights) -> Fraction:
    """Return what one length or one pack of a line weighs; 0 where it is left out."""
    if line.length_mm is not None:
        per_mm = weights.per_mm.get(line.article, Fraction(0))
        return per_mm * Fraction(exact(line.length_mm), PER_MM)
    return weights.per_unit.get(line.article, Fraction(0)) * (line.pack or 0)


def _parts(buying: Buying, each: Iterable[tuple[OrderLine, Fraction]]) -> tuple[MassPart, ...]:
    masses: dict[str, Fraction] = {}
    for line, mass in each:
        masses[line.article] = masses.get(line.article, Fraction(0)) + mass * line.quantity
    bought = {part.article: part.what for part in buying.purchases}
    bought |= {part.article: part.what for part in buying.packs}
    return tuple(
        MassPart(what=bought[article], article=article, mass_kg=_told(mass))
        for article, mass in masses.items()
        if mass
    )


def _told(mass_kg: Fraction) -> float:
    """Return a mass in kg, up to the next 100 g."""
    return ceil(mass_kg * 10) / 10
