"""A deck designed with old boards first: cheaper by what they spare, audited like any other."""

from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from drylay.errors import BriefError
from drylay.planner.salvaged import design_salvaged
from drylay.upkeep.salvage import salvage
from drylay.upkeep.stock_model import OldBoard
from reference_deck import REFERENCE

BRIEF = drylay.read_brief(REFERENCE / "S01.toml")
STOCK = drylay.load_catalogue(REFERENCE / "S01-stock.toml")
(BOARD,) = STOCK.boards
OLD = OldBoard(mark="A", length_mm=1300, width_mm=BOARD.width_mm, thickness_mm=BOARD.thickness_mm,
               count=1, treatment="copper")  # fmt: skip


def test_old_boards_are_taken_wherever_they_spare_money() -> None:
    """S01 wants two of 1150, both out of one bought board of 2400.

    One old 1260 spares nothing, for the other piece wants a bought board still; two spare it.
    """
    plain = drylay.design(BRIEF, stock=STOCK)
    one, told = design_salvaged(BRIEF, stock=STOCK, salvage=salvage([OLD]), used_as="boards")
    assert one.buildable
    assert one.buying is not None
    assert plain.buying is not None
    assert one.buying.order_total == plain.buying.order_total
    assert [finding.code for finding in told] == ["UPK-035"]
    both, _ = design_salvaged(BRIEF, stock=STOCK, salvage=salvage([evolve(OLD, count=2)]),
                              used_as="boards")  # fmt: skip
    assert both.buildable
    assert both.buying is not None
    bought = [line for line in both.buying.order if line.article == BOARD.code]
    assert [(line.length_mm, line.quantity, line.total) for line in bought] == [
        (1260.0, 2, Decimal("0.00"))
    ]


def test_a_length_on_sale_too_is_offered_a_hair_shorter() -> None:
    sold = BOARD.lengths[0].length_mm
    same = evolve(OLD, length_mm=sold + 40)
    plan, _ = design_salvaged(BRIEF, stock=STOCK, salvage=salvage([same]), used_as="boards")
    assert plan.buying is not None
    assert sold - 1 / 320 in {line.length_mm for line in plan.buying.order}


@pytest.mark.parametrize(
    ("more", "old", "wanted"),
    [({"used_as": "frame"}, OLD, "used_as"), ({}, OLD, "an article to use old ones as"),
     ({"used_as": "boards"}, evolve(OLD, width_mm=120.0), "old ones 120"),
     ({"used_as": "boards"}, evolve(OLD, treatment="arsenic"), "no usable length")],
)  # fmt: skip
def test_what_cannot_be_used_is_refused(
    more: dict[str, str], old: OldBoard, wanted: str
) -> None:  # fmt: skip
    with pytest.raises(BriefError, match=wanted):
        design_salvaged(BRIEF, stock=STOCK, salvage=salvage([old]), **more)  # type: ignore[arg-type]
