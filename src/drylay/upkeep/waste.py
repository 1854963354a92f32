"""What is left over by class, where it may go, and carbon by factors that somebody supplies."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor, isfinite

from drylay.counting import counted
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.marks import is_number
from drylay.plan.model import Plan
from drylay.reasons import SOURCE_KINDS, Source
from drylay.upkeep.parts import UpkeepError, refused
from drylay.upkeep.stock_model import (
    FACTOR_UNITS,
    Carbon,
    CarbonFactor,
    CarbonPart,
    Waste,
    WastePart,
    Weighed,
)
from drylay.upkeep.weighed import MINERAL, PLASTIC, TREATED, UNKNOWN, UNTREATED, weighed

SUMS = Source(
    kind="arithmetic",
    title="sums over the plan's order",
    clause="bought, less built in; masses as the delivery reckons them",
)
NEVER = Source(
    kind="from memory",
    title="regulators of Australia and New Zealand on treated timber",
    clause="never burn, mulch or bed animals with treated offcuts",
)
PRACTICE = Source(
    kind="common practice", title="common practice, no source", clause="waste of a building site"
)
#: Where waste of each class may go, and who says so.
GOES = {
    TREATED: ("the yard's container for treated wood; never burned, mulched or composted", NEVER),
    UNKNOWN: ("as treated wood, until somebody knows better; never burned or mulched", NEVER),
    UNTREATED: ("wood for recycling, or kept for use", PRACTICE),
    PLASTIC: ("back to the merchant, or mixed waste; not wood waste, never burned", PRACTICE),
    MINERAL: ("rubble, or kept for repairs", PRACTICE),
}


#: Cut with a knife, which makes no dust.
NEVER_SAWN = ("fabric",)
#: What is sold by the piece and is of no metal. Assumption.
OF_PLASTIC = ("packers", "board packers", "pads", "end caps")


@counted
def waste(plan: Plan, *, untreated: Sequence[str] = ()) -> Waste:
    """Return what is left over when the deck is built: offcuts and dust by class, and spoil.

    Masses are those of the delivery's figures, up to a gram: what is bought is built in, offcut or
    dust. `untreated` names articles that the merchant says are not treated; timber that tells no
    use class is else taken as treated. Spares are kept and are no waste. What the plan tells no
    mass of (fixings left over, packaging, soil) is listed without one.

    Raises:
        UpkeepError: A blocked plan, or an article that is not bought for it.

    Findings: UPK-040, treated offcuts; UPK-041, timber whose treatment is not known; UPK-042, dust
    and offcuts with plastic in them.

    Source: sums over the order; where each class goes by the source told with it.
    """
    buying = plan.buying
    if buying is None:
        raise refused("plan", "a blocked plan without an order", "a plan that can be built")
    bought = [its.article for its in buying.purchases]
    strange = [article for article in untreated if article not in bought]
    if strange:
        raise refused(
            "untreated", ", ".join(strange), f"articles of the order, {', '.join(bought)}"
        )
    articles = weighed(plan, tuple(untreated))
    parts = (*_fallen(articles), *_not_weighed(plan))
    known = sum(Fraction(repr(part.mass_kg)) for part in parts if part.mass_kg is not None)
    return Waste(
        parts=parts,
        weighed=articles,
        known_kg=float(known),
        findings=tuple(_findings(parts)),
    )


def _fallen(articles: Sequence[Weighed]) -> Iterator[WastePart]:
    for its in articles:
        goes, source = GOES[its.waste_class]
        lost = "lost in cutting" if its.what in NEVER_SAWN else "saw dust"
        for what, mass_kg in (("offcuts", its.offcuts_kg), (lost, its.dust_kg)):
            if mass_kg:
                yield WastePart(
                    waste_class=its.waste_class,
                    what=f"{what} of {its.what}",
                    article=its.article,
                    mass_kg=mass_kg,
                    volume_m3=None,
                    goes=goes,
                    source=source,
                )


def _not_weighed(plan: Plan) -> Iterator[WastePart]:
    """Yield what the plan tells no mass of: spoil, fixings left over, packaging, and the like."""
    dig = plan.groundwork.dig if plan.groundwork else None
    if dig is not None:
        goes = {"kept": "kept in the garden", "bags": "bags", "skip": "a skip of its own"}
        why = "how heavy this soil is nobody told"
        yield _unknown("soil", "spoil, loose", goes.get(dig.spoil, dig.spoil), why, dig.loose_m3)
    buying = plan.buying
    for packed in buying.packs if buying else ():
        left = sum(its.pack * its.packs for its in packed.packs) - packed.need
        if packed.unit == "pieces" and packed.article != _laid(plan) and left:
            told = f"{left} {packed.what} left over"
            made_of = PLASTIC if packed.what in OF_PLASTIC else "metal"
            yield _unknown(made_of, told, "kept for repairs", "no list tells what they weigh")
    yield _unknown("packaging", "packaging", "by what it is made of", "no list tells of it")
    known = {its.article for its in weighed(plan, ())}
    for purchase in buying.purchases if buying else ():
        if purchase.article not in known:
            told = f"offcuts of {purchase.what}"
            yield _unknown(UNKNOWN, told, GOES[UNKNOWN][0], "the plan tells no section of it")


def _laid(plan: Plan) -> str:
    if plan.tiles is not None:
        return plan.tiles.article
    return plan.surface.board_article if plan.surface else ""


def _unknown(
    waste_class: str, what: str, goes: str, why: str, volume_m3: float | None = None
) -> WastePart:  # fmt: skip
    return WastePart(
        waste_class=waste_class, what=what, article="", mass_kg=None, volume_m3=volume_m3,
        goes=goes, source=PRACTICE, why=why,
    )  # fmt: skip


def _findings(parts: Sequence[WastePart]) -> Iterator[Finding]:
    told = {
        TREATED: (
            "UPK-040",
            "treated offcuts and their dust are never burned, mulched or composted",
        ),
        UNKNOWN: (
            "UPK-041",
            "whether it is treated is not known: handled as treated, never burned",
        ),
        PLASTIC: ("UPK-042", "catch the dust and sweep it up: neither goes in wood waste or fires"),
    }
    for waste_class, (code, message) in told.items():
        masses = [its.mass_kg for its in parts if its.waste_class == waste_class]
        known = [Fraction(repr(mass)) for mass in masses if mass is not None]
        if known:
            yield Finding(
                code=code,
                severity=Severity.CAUTION,
                subject=waste_class,
                message=message,
                measured=float(sum(known)),
                unit="kg",
                source=GOES[waste_class][1],
            )


@counted
def carbon(plan: Plan, factors: Sequence[CarbonFactor]) -> Carbon:
    """Return the carbon of all that is bought, spares too, by factors that somebody supplies.

    A factor counts by kg, m3 or m2 and names an article, or a class of waste that articles are of;
    an article's own comes first. What has no factor, or no figure of what it counts by, is named
    as missing: nothing is guessed. Sums are told down and up to 0.1 kg.

    Raises:
        UpkeepError: A blocked plan; factors without a source, the wrong way round, or two for one
            material.

    Findings: UPK-050 for each article that is missing.

    Source: the factors'; arithmetic.
    """
    if plan.buying is None:
        raise refused("plan", "a blocked plan without an order", "a plan that can be built")
    _check_factors(factors)
    known = {factor.material: factor for factor in factors}
    parts, missing = [], []
    for its in weighed(plan, ()):
        factor = known.get(its.article) or known.get(its.waste_class)
        part = _counted(its, factor) if factor else None
        if part is None:
            missing.append(f"{its.what} ({its.article})")
        else:
            parts.append(part)
    missing += _never_weighed(plan)
    least = sum((Fraction(repr(part.least_kg)) for part in parts), Fraction(0))
    most = sum((Fraction(repr(part.most_kg)) for part in parts), Fraction(0))
    return Carbon(
        parts=tuple(parts),
        missing=tuple(missing),
        least_kg=floor(least * 10) / 10,
        most_kg=ceil(most * 10) / 10,
        whole=not missing,
        findings=tuple(_missing(told) for told in missing),
    )


def _never_weighed(plan: Plan) -> list[str]:
    """Return what is bought and has no mass in the plan: fixings, coatings and the like."""
    known = {its.article for its in weighed(plan, ())}
    buying = plan.buying
    lengths = [(its.what, its.article) for its in buying.purchases] if buying else []
    packs = [(its.what, its.article) for its in buying.packs] if buying else []
    bought = lengths + packs
    return [f"{what} ({article})" for what, article in bought if article not in known]


def _counted(its: Weighed, factor: CarbonFactor) -> CarbonPart | None:
    """Return an article's carbon; None where the plan has nothing of what the factor counts by."""
    counts = {
        "kg": Fraction(repr(its.bought_kg)) + Fraction(repr(its.spares_kg)),
        "m3": Fraction(repr(its.volume_m3)),
        "m2": Fraction(repr(its.area_m2)),
    }
    count = counts[factor.per]
    if not count:
        return None
    return CarbonPart(
        what=its.what,
        article=its.article,
        factor=factor,
        counted=f"{float(count):g} {factor.per}",
        least_kg=floor(count * Fraction(repr(factor.least_kg)) * 1000) / 1000,
        most_kg=ceil(count * Fraction(repr(factor.most_kg)) * 1000) / 1000,
    )


def _missing(told: str) -> Finding:
    return Finding(
        code="UPK-050",
        severity=Severity.NOTE,
        subject=told,
        message="no factor, or nothing that it counts by: its carbon is not in the sum",
        source=SUMS,
    )


def _check_factors(factors: Sequence[CarbonFactor]) -> None:
    """Refuse factors that cannot be meant, all at once."""
    faults = [fault for at, factor in enumerate(factors) for fault in _factor_faults(at, factor)]
    names = [factor.material for factor in factors]
    faults += [
        Fault(path=f"factors[{at}].material", found=f"{name} twice", wanted="one factor for each")
        for at, name in enumerate(names)
        if name in names[:at]
    ]
    if faults:
        raise UpkeepError(tuple(faults))


def _factor_faults(at: int, factor: CarbonFactor) -> Iterator[Fault]:
    path = f"factors[{at}]"
    if factor.per not in FACTOR_UNITS:
        yield Fault(
            path=f"{path}.per", found=factor.per, wanted=f"one of {', '.join(FACTOR_UNITS)}"
        )
    if not all(is_number(kg) and isfinite(kg) for kg in (factor.least_kg, factor.most_kg)):
        yield Fault(path=path, found="no numbers", wanted="kg of CO2e, least and most")
    elif not factor.least_kg <= factor.most_kg:
        found = f"least {factor.least_kg:g}, most {factor.most_kg:g}"
        yield Fault(path=path, found=found, wanted="the least no more than the most")
    if factor.source.kind not in SOURCE_KINDS or not factor.source.title.strip():
        wanted = "who says so: a kind of source and its title"
        yield Fault(path=f"{path}.source", found="no source", wanted=wanted)
