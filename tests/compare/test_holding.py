"""Prices that hold if a length sells out: by hand, and each length taken away by itself."""

import threading
from decimal import Decimal
from functools import cache
from typing import Any

import pytest
from attrs import evolve

import drylay
from compare.shops import BOARD, TIMBER, brief, cut_down, families, shop
from drylay.compare import holding as verb
from drylay.compare.holding import holding_prices
from drylay.compare.merchant_asked import sold_by_length
from drylay.compare.merchant_model import HoldingPrices
from drylay.compare.merchant_plans import plan_or_why, planning, shelf
from drylay.errors import BriefError, Cancelled, InputError, PlannerFault
from drylay.materials.stock_model import Catalogue


def holding(decks: Any, **more: Any) -> HoldingPrices:
    return holding_prices(decks, **({"stock": shop(), "families": families()} | more))


def total(asked: Any, stock: Catalogue) -> Decimal | None:
    """What a deck costs as it is designed, None where it cannot be."""
    try:
        plan = drylay.design(asked, stock=stock, families=families())
    except BriefError:
        return None
    return plan.buying.total if plan.buying else None


@cache
def step() -> HoldingPrices:
    told: list[tuple[str, int, int]] = []
    found = holding({"step": brief()}, articles=BOARD, progress=lambda *its: told.append(its))
    assert told[0] == ("step: planned", 0, 1)
    assert told[1] == (f"step: without {BOARD} 2400", 0, 1)
    assert told[-1] == ("done", 1, 1)
    return found


def test_the_price_holds_with_the_worst_length_gone() -> None:
    """Four rows of 2450: 5 boards of 3000 at 11.85 with the spare are 59.25, 3 of 5400 72.90.

    Two rims of 2450, seven joists and six noggins of the frame come out of 3000s and 2400s.
    """
    (price,) = step().prices
    assert price.worst == (BOARD, 3000.0)
    assert price.dearest - price.total == Decimal("72.90") - Decimal("59.25")
    assert (price.holds, price.loses, price.tried) == (price.dearest, (), 3)


def test_every_length_taken_away_by_itself_comes_to_the_same() -> None:
    stock = cut_down(shop(), BOARD, [3000])
    (price,) = holding({"step": brief()}, stock=stock).prices
    found = {
        (code, each.length_mm): total(brief(), stock.without(code, length_mm=each.length_mm))
        for code in (BOARD, TIMBER)
        for each in sold_by_length(stock)[code].lengths
    }
    assert price.loses == tuple(gone for gone, cost in found.items() if cost is None)
    had = {gone: cost for gone, cost in found.items() if cost is not None}
    assert price.dearest == max(price.total, *had.values())
    assert price.worst is None or had[price.worst] == price.dearest
    assert price.tried == len(found)
    assert (price.holds is None) == bool(price.loses)


def test_a_deck_that_needs_one_length_does_not_hold() -> None:
    """5400 is the only board there is: without it the brief's board is not on sale at all."""
    stock = cut_down(shop(), BOARD, [5400])
    found = holding({"step": brief()}, stock=stock, articles=[BOARD])
    (price,) = found.prices
    assert (price.holds, price.loses) == (None, ((BOARD, 5400.0),))
    assert (price.dearest, price.worst) == (price.total, None)
    assert "step cannot be built without any one of DB-28-145 5400 mm" in str(found)


def test_decks_that_cannot_be_built_are_refused_with_the_reason() -> None:
    decks = {"deep": brief(2450, 9000), "other": brief(board={"article": "DB-99"})}
    found = holding(decks)
    assert (found.prices, found.articles) == ((), ())
    assert [name for name, _ in found.refused] == ["deep", "other"]
    assert found.refused[0][1].startswith("FRM-001")
    assert "DB-99" in found.refused[1][1]
    assert "deep: FRM-001" in str(found)


def test_lengths_of_all_that_a_deck_names_are_taken_away() -> None:
    """All timber where a deck stands on bearers that nobody names: they are chosen out of it."""
    by = planning(families(), None, None, None)
    on = verb._List(by=by, stock=shop(), articles=None, whole=shelf(by, shop()), shelves={},
                    told=lambda _: None)  # fmt: skip
    plan = plan_or_why(on.whole, brief())
    assert not isinstance(plan, str)
    assert list(verb._articles(on, brief(), plan)) == [BOARD, TIMBER]
    stands = evolve(brief(), raised=evolve(brief().raised, post="PT-100-C16"))
    timbers = [each.code for each in shop().timbers]
    assert list(verb._articles(on, stands, plan)) == [BOARD, *timbers]
    named = evolve(on, articles=("DB-28-120", TIMBER))
    assert list(verb._articles(named, brief(), plan)) == [TIMBER]


def test_a_design_unlike_its_glance_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    real = verb.plan_or_why

    def cheaper(look: Any, asked: Any) -> Any:
        plan = real(look, asked)
        return evolve(plan, buying=evolve(plan.buying, total=Decimal(1)))

    monkeypatch.setattr(verb, "plan_or_why", cheaper)
    with pytest.raises(PlannerFault, match="MRC-001 "):
        holding({"step": brief()}, articles=[BOARD])


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(InputError) as raised:
        holding({"step": 1}, articles=["DB-28-146", "DS-45-70", 3])
    paths = [fault.path for fault in raised.value.faults]
    assert paths == ["decks['step']", "articles[0]", "articles[1]", "articles[2]"]
    assert raised.value.faults[1].nearest.startswith(BOARD)
    with pytest.raises(InputError, match="articles: found none"):
        holding({"step": brief()}, articles=[])
    with pytest.raises(InputError, match="a brief"):
        holding({"step": (brief(), 2)})


def test_a_cancel_is_obeyed() -> None:
    stop = threading.Event()
    stop.set()
    with pytest.raises(Cancelled):
        holding({"step": brief()}, cancel=stop)


def test_text_and_rows_tell_the_same() -> None:
    found = step()
    (row,), (price,) = found.measures(), found.prices
    assert (row["holds"], row["dearer"]) == (price.holds, price.dearest - price.total)
    assert (row["worst_article"], row["worst_length_mm"], row["loses"]) == (BOARD, 3000.0, "")
    assert f"{price.total:f}  {price.holds:f}  DB-28-145 3000 mm" in str(found)
    assert all(len(line) <= 78 for line in str(found).splitlines())
