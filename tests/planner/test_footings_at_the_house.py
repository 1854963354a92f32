"""Footings of a deck that stands free beside a house: they do not undermine it unseen."""

from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.planner.outlined_legs import off_side
from drylay.planner.standing_feet import beside_house
from standing_outlines import planned

ROOT = Path(__file__).parents[2]


def codes(*, ledger: bool) -> set[str]:
    brief = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml")
    if not ledger:
        plain = brief.to_dict()
        plain["raised"] = {**plain["raised"], "ledger": False, "lines_mm": [100, 1850, 3400]}
        del plain["raised"]["ledger_fixing"]
        brief = drylay.read_brief(plain)
    stock = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    return {finding.code for finding in drylay.design(brief, stock=stock).findings}


def test_footings_that_reach_under_the_wall_are_told() -> None:
    """A bearer 100 off the wall, its footing over 200 across: that reaches past the wall."""
    assert "FTG-010" in codes(ledger=False)
    assert "FTG-010" not in codes(ledger=True)


def test_an_outlines_footings_are_told_by_how_far_they_reach() -> None:
    """The house stands 10 behind the side at 0 across; the nearest posts stand 268.5 in front.

    Footings of 210 to 300 keep off it; one of 600 would reach 300 - 268.5 = 31.5 back.
    """
    plan = planned("free")
    assert plan.raised is not None
    assert plan.footings is not None
    offs = [post.place.across_mm for post in plan.raised.frame.posts]
    assert min(offs) == 268.5
    assert "FTG-010" not in {each.code for each in plan.findings}
    wide = tuple(
        evolve(each, footing=evolve(each.footing, size_mm=600.0)) for each in plan.footings.under
    )
    (told,) = beside_house(10.0, offs, evolve(plan.footings, under=wide))
    assert (told.measured, told.limit) == (31.5, 10.0)


@pytest.mark.parametrize(
    ("place", "off"), [((2000, 300), 300), ((-300, 400), 500), ((4500, -400), 500)]
)
def test_a_place_is_as_far_from_a_side_as_its_nearest_point(
    place: tuple[float, float], off: float
) -> None:
    outline = planned("free").outline
    assert outline is not None
    (side,) = (each for each in outline.sides if each.kind == "house")
    assert off_side(side, place) == pytest.approx(off)
