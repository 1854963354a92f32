"""Wishes and ground that meet what is screened: closer joists, deep hollows, banks, level rails."""

from functools import cache
from pathlib import Path
from typing import Any

import drylay
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]
STOCK = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
BRIEF = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml").to_dict()
#: Ground that falls evenly from 700 to 900 below the damp course, and reaches well past the deck.
PLAIN = [
    {"along_mm": x, "across_mm": y, "level_mm": -700.0 - y / 20}
    for x in (-1000.0, 5800.0)
    for y in (-1000.0, 4000.0)
]
FREE = {"ledger": False}
CLAY = "clay, sandy clay, silty clay, clayey silt, silt"


@cache
def example() -> Plan:
    return drylay.design(drylay.read_brief(BRIEF), stock=STOCK)


def planned(**changed: Any) -> Plan:
    """Return the example planned with keys of some of its tables changed."""
    plain = {**BRIEF, **{key: {**BRIEF.get(key, {}), **value} for key, value in changed.items()}}
    if not plain["raised"].get("ledger", True):
        plain["raised"].pop("ledger_fixing")
    return drylay.design(drylay.read_brief(plain), stock=STOCK)


def stops(plan: Plan) -> set[str]:
    return {found.code for found in plan.findings if found.severity.value == "stop"}


def on_ground(*points: tuple[float, float, float]) -> Plan:
    more = [dict(zip(("along_mm", "across_mm", "level_mm"), each, strict=True)) for each in points]
    return planned(levels={"points": [*PLAIN, *more]}, raised=FREE)


def test_the_cheapest_joists_are_none_that_boards_are_too_weak_over() -> None:
    """C18 boards need closer joists than the fewest: what costs least is looked for from there."""
    fewest = planned(strength={"board_class": "C18"})
    cheapest = planned(strength={"board_class": "C18"}, frame={"lines": "cheapest"})
    assert not stops(fewest)
    assert not stops(cheapest)
    assert fewest.supports is not None
    assert cheapest.supports is not None
    assert example().supports is not None
    assert example().supports.line_count < fewest.supports.line_count
    assert fewest.supports.line_count <= cheapest.supports.line_count


def test_a_hollow_under_the_deck_is_deep_whatever_its_edges_are() -> None:
    """1,850 from the deck's top to the hollow's bottom, 1,800 is screened: common practice."""
    hollow = on_ground((2400.0, 1800.0, -2000.0))
    shallow = on_ground((2400.0, 1800.0, -1900.0))
    found = next(each for each in hollow.findings if each.code == "ENG-004")
    assert (found.measured, found.limit) == (1850.0, 1800.0)
    assert "ENG-004" not in stops(shallow)
    edge = next(each.measured for each in hollow.findings if each.code == "RGN-001")
    assert edge is not None
    assert edge < 1800.0  # its edges lie lower, and the region's heights are held against them


def test_a_bank_beyond_the_deck_is_not_the_ground_it_stands_on() -> None:
    """Beyond 4 m the garden falls 1 in 2; under the deck it falls 1 in 20."""
    bank = on_ground((-1000.0, 8000.0, -2900.0), (5800.0, 8000.0, -2900.0))
    assert "ENG-007" not in stops(bank)
    steep = planned(
        levels={"points": [{**each, "level_mm": -700.0 - each["across_mm"] / 3} for each in PLAIN]},
        raised=FREE,
    )
    assert "ENG-007" in stops(steep)


def test_level_rails_are_built_where_they_are_wished() -> None:
    """914.4 to the handrail's top, it and every rail 40 thick: 874.4 to fill under the handrail.

    A ball of 4 in must not pass, so gaps are 1 mm less, 100.6, at most: 6 rails leave
    (874.4 - 6 x 40) / 7 = 90.6 each, and 5 would leave 112.4. By hand; R312 from memory.
    """
    low = [{**each, "level_mm": each["level_mm"] - 150.0} for each in PLAIN]
    plan = planned(
        levels={"points": low},
        guards={"infill": "rails", "post_article": None},
        site={"region": "north-america", "soil": CLAY, "frost_mm": 300.0},
        steps={"going_mm": 280.0},
    )
    guards = plan.guards
    assert guards is not None
    assert guards.built
    for bay in (bay for guard in guards.built for bay in guard.bays):
        assert (bay.kind, bay.opening_mm, bay.count) == ("rails", 874.4, 6)
        assert bay.gap_most_mm <= 100.6
    told = [each for each in plan.findings if each.code == "GRD-006"]
    assert {each.severity.value for each in told} == {"caution"}


def test_level_rails_are_refused_where_the_region_rules_them_out() -> None:
    """Over 600 the pack of the United Kingdom has no guard that is easily climbed: K2."""
    assert "GRD-006" in stops(planned(guards={"infill": "rails"}))


def test_a_deck_deeper_than_any_timber_stands_with_its_joists_hung() -> None:
    """7,000 deep less two rims of 45 is 6,910 for one joist; the yard's longest timber is 6,000."""
    deep = {
        "cover": {"across_mm": 7000.0},
        "levels": {
            "lowest_mm": -1300.0,
            "points": [{**each, "across_mm": each["across_mm"] * 3} for each in PLAIN],
        },
    }
    over = planned(**deep)
    told = next(each for each in over.findings if each.code == "FRM-001")
    assert (told.measured, told.limit) == (6910.0, 6000.0)
    assert "raised.joists" in told.message
    hung = planned(**deep, raised={"joists": "between"})
    assert not stops(hung)
    assert hung.frame is not None
    assert max(part.length_mm for joist in hung.frame.joists for part in joist.parts) < 6000.0
