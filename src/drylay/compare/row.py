"""A comparison as flat rows: the same names for every alternative, None where there is nothing."""

from drylay.compare.model import ComparedDeck, Comparison, YearlyCost
from drylay.plan.measures import measures

Row = dict[str, object]


def flat_rows(comparison: Comparison) -> tuple[Row, ...]:
    """Return one row for each alternative. Money is Decimal."""
    return tuple(_row(comparison, deck) for deck in comparison.decks)


def _row(comparison: Comparison, deck: ComparedDeck) -> Row:
    figures, outlay, lives = measures(deck.plan), deck.outlay, deck.lives
    return {
        "name": deck.name,
        "families": " ".join(deck.families),
        "buildable": figures["buildable"],
        "stop_codes": figures["stop_codes"],
        "currency": comparison.currency,
        "first_cost": figures["total"],
        "spares_cost": figures["spares_cost"],
        "gap": figures["gap"],
        "surface_cost": outlay.surface if outlay else None,
        "frame_cost": outlay.frame if outlay else None,
        "mass_kg": deck.mass_kg,
        "cuts": deck.cuts,
        "sawn_pieces": deck.sawn_pieces,
        "joints": deck.joints,
        "people": figures["people"],
        "least_h": figures["least_h"],
        "most_h": figures["most_h"],
        "upkeep_h": deck.upkeep_h,
        "upkeep_cost": deck.upkeep,
        "life_least_years": lives.surface_least_years,
        "life_most_years": lives.surface_most_years,
        "frame_life_least_years": lives.frame_least_years,
        "frame_life_most_years": lives.frame_most_years,
        **years_row(deck.short, deck.long),
        "not_known": " ".join(deck.not_known),
        "remarks": " ".join(sorted({remark.code for remark in deck.remarks})),
    }


def years_row(short: YearlyCost | None, long: YearlyCost | None) -> Row:
    """Return a year's money, least and most, and what each end rests on."""
    return {
        "capital_least": long.capital if long else None,
        "capital_most": short.capital if short else None,
        "yearly_least": long.total if long else None,
        "yearly_most": short.total if short else None,
        "laid_again_least": long.laid_again if long else None,
        "laid_again_most": short.laid_again if short else None,
        **_case("short", short),
        **_case("long", long),
    }


def _case(name: str, cost: YearlyCost | None) -> Row:
    return {
        f"{name}_renewed_years": cost.renewed_after_years if cost else None,
        f"{name}_surfaces": cost.surfaces_bought if cost else None,
        f"{name}_governs": cost.governs if cost else None,
    }
