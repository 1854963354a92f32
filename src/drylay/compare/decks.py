"""One alternative's figures: those of its plan, and those over the years."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from attrs import evolve, frozen

from drylay.compare.asked import YearsTold
from drylay.compare.model import ComparedDeck, Lives, Outlay, YearlyCost
from drylay.compare.parts import outlay, saw_cuts, sawn_pieces
from drylay.compare.years import RECOVERY, priced_upkeep, yearly_cost
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Inputs, Reasons, Ruling, Source, adopt

MM2_PER_M2 = 1_000_000
NOTHING_TWICE = Source(kind="assumption", title="docs/compare.md", clause="Lives that do not fit")


@frozen(kw_only=True)
class YearTerms:
    """What a year's money is reckoned with: interest, the price of an hour, the coin."""

    rate_ratio: float
    hour_price: Decimal | None
    digits: int


def compared_deck(
    name: str, family: str, plan: Plan, told: YearsTold, terms: YearTerms
) -> ComparedDeck:
    """Return an alternative with its figures; one with a blocked plan has only its lives."""
    deck = ComparedDeck(
        name=name,
        families=tuple(used.id for used in plan.families) or (family,),
        plan=plan,
        lives=told.lives,
        not_known=tuple(_unknown(told)),
        remarks=(*told.remarks, *frame_first(told.lives)),
        reasons=told.reasons,
    )
    if plan.buying is None:
        return deck
    cost, hours = outlay(plan.buying), _upkeep_h(plan, told.upkeep_h_m2_year)
    short, long = year_cases(cost, hours, told.lives, terms)
    figured = evolve(
        deck,
        outlay=cost,
        mass_kg=plan.buying.delivery.total_kg if plan.buying.delivery else None,
        cuts=saw_cuts(plan),
        sawn_pieces=sawn_pieces(plan),
        joints=plan.pieces.joint_count if plan.pieces else 0,
        upkeep_h=hours,
        upkeep=_upkeep(hours, terms),
        short=short,
        long=long,
    )
    return evolve(figured, reasons=_with_costs(figured, cost, plan.buying.currency, terms))


def _unknown(told: YearsTold) -> Iterator[str]:
    lives = told.lives
    figures = {
        "upkeep_h": told.upkeep_h_m2_year,
        "life_least_years": lives.surface_least_years,
        "life_most_years": lives.surface_most_years,
        "frame_life_least_years": lives.frame_least_years,
        "frame_life_most_years": lives.frame_most_years,
    }
    return (name for name, figure in figures.items() if figure is None)


def _upkeep_h(plan: Plan, per_m2_h: float | None) -> float | None:
    """Return the hours of upkeep that the whole cover takes in a year."""
    surface = plan.surface
    if per_m2_h is None or surface is None:
        return None
    along, across = Fraction(repr(surface.cover_along_mm)), Fraction(repr(surface.cover_across_mm))
    return float(Fraction(repr(per_m2_h)) * along * across / MM2_PER_M2)


def _upkeep(upkeep_h: float | None, terms: YearTerms) -> Decimal | None:
    if upkeep_h is None or terms.hour_price is None:
        return None
    return priced_upkeep(upkeep_h, terms.hour_price, terms.digits)


def year_cases(
    cost: Outlay, upkeep_h: float | None, lives: Lives, terms: YearTerms
) -> list[YearlyCost | None]:
    """Return what a year costs with every life at its least, and at its most."""
    pairs = (
        (lives.surface_least_years, lives.frame_least_years),
        (lives.surface_most_years, lives.frame_most_years),
    )
    return [
        None
        if surface_years is None or frame_years is None
        else yearly_cost(
            surface=cost.surface,
            frame=cost.frame,
            surface_years=surface_years,
            frame_years=frame_years,
            rate_ratio=terms.rate_ratio,
            upkeep_h=upkeep_h,
            hour_price=terms.hour_price,
            minor_digits=terms.digits,
        )
        for surface_years, frame_years in pairs
    ]


def frame_first(lives: Lives) -> Iterator[Finding]:
    """Yield what is to be told where the frame's life ends before the boards'."""
    cases = (
        ("least lives", lives.surface_least_years, lives.frame_least_years),
        ("most lives", lives.surface_most_years, lives.frame_most_years),
    )
    for subject, surface_years, frame_years in cases:
        if surface_years is None or frame_years is None or frame_years >= surface_years:
            continue
        left = surface_years - frame_years
        yield Finding(
            code="LIF-001",
            severity=Severity.CAUTION,
            subject=subject,
            message="the frame's life ends before the boards': they have to be lifted with "
            f"{left} {'year' if left == 1 else 'years'} left in them, and are counted as bought "
            "again with the new frame",
            measured=frame_years,
            limit=surface_years,
            unit="years",
            source=NOTHING_TWICE,
        )


def _with_costs(deck: ComparedDeck, cost: Outlay, currency: str, terms: YearTerms) -> Reasons:
    """Return the reasons with what became of the lives: a year's capital cost at either end."""
    reasons = deck.reasons
    for path, case in (("capital_least", deck.long), ("capital_most", deck.short)):
        if case is None:
            continue
        inputs: Inputs = (
            ("surface_cost", str(cost.surface)),
            ("frame_cost", str(cost.frame)),
            ("rate_ratio", terms.rate_ratio),
            ("renewed_after_years", case.renewed_after_years),
            ("surfaces_bought", case.surfaces_bought),
        )
        ruling = Ruling(
            value=str(case.capital),
            unit=currency,
            rule="first cost recovered over the years in which all is renewed",
            source=RECOVERY,
            inputs=inputs,
        )
        reasons = adopt(reasons, path, ruling.value, ruling)
    return reasons
