"""What each size costs: designed whole, cheapest first, and what cannot be built with its codes."""

from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.errors import BriefError
from drylay.planner.seated import seated_costs
from drylay.seating.least import least_deck
from drylay.seating.model import LeastSize
from drylay.seating.pieces import usual_piece

ROOT = Path(__file__).parents[2]
STOCK = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
PLAIN = {
    "title": "a test",
    "cover": {"along_mm": 1000, "across_mm": 1000},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}


def brief(**more: object) -> Brief:
    return drylay.read_brief(PLAIN | more)


def size(kind: str = "dining table") -> LeastSize:
    found = least_deck([usual_piece(kind, "P")])
    return evolve(found, comfortable=evolve(found.comfortable, best=None))


def test_every_size_is_priced_as_design_prices_it() -> None:
    told: list[tuple[str, int, int]] = []
    costs = seated_costs(size(), brief(), stock=STOCK, progress=lambda *step: told.append(step))
    snaps = {cost.size.snap for cost in costs}
    assert snaps == {"as found", "whole rows", "next row", "whole length", "rows and length"}
    assert [c.order_cost for c in costs] == sorted(c.order_cost for c in costs if c.order_cost)
    assert [done for _, done, _ in told] == list(range(len(costs) + 1))
    first = costs[0]
    asked = brief().replace("cover.along_mm", first.size.along_mm)
    plan = drylay.design(asked.replace("cover.across_mm", first.size.across_mm), stock=STOCK)
    assert plan.buying is not None
    assert (first.order_cost, first.currency) == (plan.buying.order_total, "GBP")
    assert first.rows == plan.measures()["rows"]
    whole = next(c for c in costs if c.size.snap == "rows and length")
    assert whole.leftover_m2 == 0.0  # every row is one length as sold
    assert whole.rows == whole.size.rows


def test_what_cannot_be_built_is_last_with_its_codes() -> None:
    """Only whole rows are asked for as wished: sizes that no whole rows fill are stopped."""
    wish = {"rows": {"prefer": ["as_wished"]}, "gap": {"preferred_mm": 7}}
    costs = seated_costs(size("small table"), brief(**wish), stock=STOCK)
    assert not costs[-1].buildable
    assert costs[-1].stop_codes == ("ROW-001",)
    assert (costs[-1].order_cost, costs[-1].gap, costs[-1].leftover_m2) == (None, None, None)
    assert any(cost.buildable for cost in costs)


def test_only_plain_decks_of_boards_are_snapped() -> None:
    with pytest.raises(BriefError, match="border"):
        seated_costs(size(), brief(border={"article": "DB-28-145"}), stock=STOCK)
