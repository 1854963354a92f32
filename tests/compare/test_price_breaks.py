"""Where a price makes another order the cheapest: by hand, and planned at every coin."""

import threading
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from compare.shops import BOARD, TIMBER, brief, by, families, in_pounds, shop
from drylay.brief.model import Brief
from drylay.compare import price_breaks as verb
from drylay.compare.lengths_mix import with_lengths
from drylay.compare.merchant_model import PriceBreaks
from drylay.compare.merchant_plans import Planning, plan_or_why, shelf
from drylay.compare.price_breaks import price_breaks
from drylay.compare.price_lines import Run, Seen, runs_of, seen_of
from drylay.compare.price_remarks import is_steady, why_unsteady
from drylay.compare.price_winners import wins_of
from drylay.errors import Cancelled, InputError, PlannerFault
from drylay.materials.stock_model import Catalogue


def breaks(decks: Any, length_mm: float = 3000, **more: Any) -> PriceBreaks:
    asked = {"article": BOARD, "least": "11.00", "most": "13.00", "stock": shop(),
             "families": families()} | more  # fmt: skip
    return price_breaks(decks, length_mm=length_mm, **asked)


@cache
def step() -> PriceBreaks:
    return breaks(brief(2450, 295))


@cache
def planner() -> Planning:
    return by()


def cover(found: PriceBreaks, least: str, most: str, coin: str) -> bool:
    """Spans stand in order, one coin apart, over the whole range."""
    firsts = [Decimal(least), *(span.last + Decimal(coin) for span in found.spans)]
    assert firsts == [*(span.first for span in found.spans), Decimal(most) + Decimal(coin)]
    return True


# --- by hand ----------------------------------------------------------------------------------


def test_a_board_for_two_rows_wins_where_one_for_each_costs_more_than_half() -> None:
    """Two rows of 2450: 2 boards of 3000 at p, or one of 5400 at 24.30. 2 p is 24.30 at 12.15.

    A spare of the longest length used comes to either: 3 p, or 2 x 24.30 = 48.60.
    """
    found = step()
    assert [(s.first, s.last, s.bought) for s in found.spans] == [
        (Decimal("11.00"), Decimal("12.15"), ((3000.0, 3),)),
        (Decimal("12.16"), Decimal("13.00"), ((5400.0, 2),)),
    ]
    low, high = found.spans
    assert low.total_last - low.total_first == 3 * Decimal("1.15")
    assert high.total_first == high.total_last
    assert high.total_first - low.total_last == Decimal("48.60") - 3 * Decimal("12.15")
    assert (found.here, low.gap, high.gap) == (Decimal("11.85"), 0, 0)
    assert cover(found, "11.00", "13.00", "0.01")
    assert found.tried <= 6  # of 201 coins


def test_one_price_is_one_span() -> None:
    told: list[tuple[str, int, int]] = []
    found = breaks(brief(), least=12, most=12, progress=lambda *its: told.append(its))
    (span,) = found.spans
    assert (span.first, span.last, span.total_first) == (12, 12, span.total_last)
    assert told == [("Step at 12.00", 0, 0), ("Step at 12.00", 1, 0), ("Step at 11.85", 2, 0)]


# --- against every coin -------------------------------------------------------------------------


def planned(asked: Brief, stock: Catalogue, price: int) -> Seen:
    """What a deck comes to at a price, from a stock made for it."""
    board = next(each for each in stock.boards if each.code == BOARD)
    lengths = [evolve(e, price=Decimal(price)) if e.length_mm == 3000 else e for e in board.lengths]
    plan = plan_or_why(shelf(planner(), with_lengths(stock, BOARD, lengths)), asked)
    assert not isinstance(plan, str)
    return seen_of(plan, BOARD, 3000, price, 0)


def by_brute_force(decks: Mapping[str, Brief], stock: Catalogue, prices: range) -> list[Any]:
    """Every coin planned: an order stays while it costs no more than what is planned there."""
    runs: dict[str, list[Run]] = {}
    for name, asked in decks.items():
        found: list[Run] = []
        for price in prices:
            seen = planned(asked, stock, price)
            if found and found[-1].seen.cost_at(price) <= seen.cost:
                found[-1] = evolve(found[-1], last=price)
            else:
                found.append(Run(first=price, last=price, seen=seen))
        runs[name] = found
    return coin_by_coin(runs, prices)


def coin_by_coin(runs: Mapping[str, list[Run]], prices: range) -> list[Any]:
    """The cheapest deck at each coin: of equals the one before, else the first."""
    spans: list[Any] = []
    for price in prices:
        here = {name: next(r for r in its if r.first <= price <= r.last)
                for name, its in runs.items()}  # fmt: skip
        totals = {name: run.seen.total_at(price) for name, run in here.items()}
        least = min(totals.values())
        before = spans[-1][0] if spans else ""
        name = before if totals.get(before) == least else min(totals, key=lambda n: totals[n])
        if spans and (name, here[name]) == (before, spans[-1][3]):
            spans[-1][2] = price
        else:
            spans.append([name, price, price, here[name]])
    return spans


def test_every_coin_planned_comes_to_the_same_spans() -> None:
    """In whole pounds, so that 10 to 14 are five coins; a second deck of narrower boards beside."""
    stock = in_pounds(shop())
    decks = {"wide": brief(2450, 295), "plain": brief(2450, 245, board={"article": "DB-28-120"})}
    found = breaks(decks, stock=stock, least=10, most=14)
    wanted = by_brute_force(decks, stock, range(10, 15))
    assert [(s.name, s.first, s.last) for s in found.spans] == [tuple(w[:3]) for w in wanted]
    assert [s.total_first for s in found.spans] == [w[3].seen.total_at(w[1]) for w in wanted]
    assert [s.bought for s in found.spans] == [w[3].seen.bought for w in wanted]
    assert len(found.spans) > 1
    assert cover(found, "10", "14", "1")


@st.composite
def lines(draw: st.DrawFn) -> list[Seen]:
    """Orders made up: the cheapest at a price is what is planned there."""
    made = draw(
        st.lists(st.tuples(st.integers(0, 12), st.integers(0, 400)), min_size=1, max_size=8)
    )
    return [
        Seen(price=0, cost=flat, each=each, total=flat + 7 * number, every=each, gap=0,
             bought=((1.0, each),), lines=(("A", 1.0, None, each), ("B", None, 1, number)))
        for number, (each, flat) in enumerate(made)
    ]  # fmt: skip


def look_at(orders: list[Seen], price: int) -> Seen:
    best = min(orders, key=lambda order: order.cost_at(price))
    return evolve(best, price=price, cost=best.cost_at(price), total=best.total_at(price))


@settings(max_examples=25)
@given(lines(), st.integers(1, 60), st.integers(0, 60))
def test_runs_are_those_of_every_coin(orders: list[Seen], least: int, wide: int) -> None:
    """By lines that cross anywhere; far fewer plans than coins are made."""
    looked: list[int] = []

    def look(price: int) -> Seen:
        looked.append(price)
        return look_at(orders, price)

    runs = runs_of(look, sorted({least, least + wide}), steady=True)
    wanted: list[list[int]] = []
    order = None
    for price in range(least, least + wide + 1):
        seen = look_at(orders, price)
        if order is not None and order.cost_at(price) <= seen.cost:
            wanted[-1][1] = price
        else:
            order = seen
            wanted.append([price, price])
    assert [[run.first, run.last] for run in runs] == wanted
    assert len(set(looked)) <= 2 + 4 * len({order.each for order in orders})


@settings(max_examples=20)
@given(st.lists(st.integers(0, 3), min_size=1, max_size=40), st.lists(st.integers(0, 39)))
def test_orders_that_come_and_go_still_cover_all_prices(bought: list[int], more: list[int]) -> None:
    """Nothing bends here: every break found is one, seen on both sides, and points are kept."""

    def look(price: int) -> Seen:
        each = bought[price]
        return Seen(price=price, cost=5, each=each, total=5, every=each, gap=0, bought=(),
                    lines=(("A", 1.0, None, each),))  # fmt: skip

    last = len(bought) - 1
    points = sorted({0, last, *(p for p in more if p <= last)})
    runs = runs_of(look, points, steady=False)
    assert [run.first for run in runs] == [0, *(run.last + 1 for run in runs[:-1])]
    assert runs[-1].last == last
    for one, other in pairwise(runs):
        assert bought[one.last] == bought[one.first]
        assert bought[one.last] != bought[other.first]
    for point in points:
        (run,) = [run for run in runs if run.first <= point <= run.last]
        assert bought[point] == bought[run.first]


@settings(max_examples=20)
@given(st.lists(lines(), min_size=1, max_size=3), st.integers(1, 40))
def test_the_cheapest_deck_is_that_of_every_coin(decks: list[list[Seen]], most: int) -> None:
    runs = {
        str(number): runs_of(lambda p, its=orders: look_at(its, p), [1, 1 + most], steady=True)
        for number, orders in enumerate(decks)
    }
    wins = [[win.name, win.first, win.last, win.run] for win in wins_of(runs)]
    assert wins == coin_by_coin(runs, range(1, 2 + most))


def test_of_equal_decks_the_one_that_was_cheapest_stays() -> None:
    """The second costs 9 against 10, and from 4 on 10 as well, by another order."""

    def run(first: int, last: int, total: int) -> Run:
        seen = Seen(price=first, cost=0, each=0, total=total, every=0, gap=0, bought=(),
                    lines=(("A", 1.0, None, total),))  # fmt: skip
        return Run(first=first, last=last, seen=seen)

    wins = wins_of({"one": [run(1, 6, 10)], "two": [run(1, 3, 9), run(4, 6, 10)]})
    assert [(win.name, win.first, win.last) for win in wins] == [("two", 1, 3), ("two", 4, 6)]


# --- what is held, and what cannot be ------------------------------------------------------------


def test_the_price_of_a_joint_is_held_where_it_would_move(monkeypatch: pytest.MonkeyPatch) -> None:
    """100 mm of the cheapest board a metre: 3000s at 3.00 make it 10 pence, today it is 40."""
    monkeypatch.setattr(verb, "_settled", lambda *_: [])
    asked = brief(joints={"most_per_row": 1})
    found = breaks(asked, least="3.00", most="3.01")
    assert ("Step", "a joint is reckoned at 0.40 GBP at every price, as today") in found.remarks


def test_a_deck_that_prices_build_otherwise_is_told_of() -> None:
    plan = plan_or_why(shelf(by(), shop()), brief())
    assert not isinstance(plan, str)
    assert is_steady(brief(), [plan] * 3)
    closer = brief(frame={"article": TIMBER, "lines": "cheapest"})
    assert list(why_unsteady(closer, [plan] * 3)) == ["how many joists it has"]

    class Paired:
        seam_count = 1

    other: Any = {"supports": Paired(), "raised": 1, "outline": 1, "tiles": 1}
    unsteady = evolve(plan, **other)
    assert len(list(why_unsteady(brief(), [unsteady] * 3))) == 4


def test_a_gap_left_by_any_order_seen_is_told() -> None:
    """The worst of all that was planned: 3 pence of 0 and 3; a deck without a gap is not named."""

    class Deck:
        def __init__(self, *gaps: int) -> None:
            self.seen = {at: evolve(look_at(made, at), gap=gap) for at, gap in enumerate(gaps)}

    made = [Seen(price=0, cost=9, each=1, total=9, every=1, gap=0, bought=(), lines=())]
    decks: Any = {"one": Deck(0, 3), "two": Deck(0, 0)}
    ((name, told),) = verb._gaps(decks, shop())
    assert name == "one"
    assert told.startswith("its orders leave a gap of 0.03 GBP at the most")


def test_a_deck_without_a_plan_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    deep = brief(2450, 9000)
    found = breaks({"deep": deep, "step": brief()}, least=12, most=12)
    assert [name for name, _ in found.cannot] == ["deep"]
    assert {span.name for span in found.spans} == {"step"}
    none = breaks(deep)
    assert none.spans == ()
    assert "No deck can be built." in str(none)
    real = verb.plan_or_why

    def no_plan(look: Any, asked: Any) -> Any:
        price = next(e.price for e in look.stock.boards[0].lengths if e.length_mm == 3000)
        return "planted" if price == Decimal("12.15") else real(look, asked)

    monkeypatch.setattr(verb, "plan_or_why", no_plan)
    assert breaks(brief()).cannot == (("Step", "planted"),)


def test_a_plan_unlike_its_run_is_a_point_to_begin_from() -> None:
    """One deck hides another order at 12, where a break of the other is looked at."""
    bought = {"one": [1, 1, 1, 2, 1, 1, 1], "two": [0, 0, 0, 5, 5, 5, 5]}
    totals = {"one": [10] * 7, "two": [9, 9, 9, 50, 50, 50, 50]}

    class Deck:
        steady = False

        def __init__(self, name: str) -> None:
            self.name, self.points = name, {0, 6}

        def look(self, price: int) -> Seen:
            each = bought[self.name][price]
            return Seen(price=price, cost=0, each=each, total=totals[self.name][price], every=0,
                        gap=0, bought=(), lines=(("A", 1.0, None, each),))  # fmt: skip

        def runs(self) -> list[Run]:
            return runs_of(self.look, sorted(self.points), steady=False)

    decks: Any = {"two": Deck("two"), "one": Deck("one")}
    wins = verb._settled(decks, [])
    assert [(w.name, w.first, w.last) for w in wins] == [
        ("two", 0, 2), ("one", 3, 3), ("one", 4, 6)]  # fmt: skip


def test_a_design_unlike_its_glance_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    real = verb.audited

    def other(look: Any, asked: Any) -> Any:
        plan = real(look, asked)
        return evolve(plan, buying=evolve(plan.buying, total=plan.buying.total + 1))

    monkeypatch.setattr(verb, "audited", other)
    with pytest.raises(PlannerFault, match="MRC-001"):
        breaks(brief(), least=12, most=12)


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(InputError) as raised:
        breaks({"step": 1}, 3100, least="12.005", most=12.5)
    paths = [fault.path for fault in raised.value.faults]
    assert paths == ["decks['step']", "length_mm", "least", "most"]
    assert raised.value.faults[1].nearest == "3000"
    with pytest.raises(InputError, match="least: found 13, wanted no more than most, 12"):
        breaks(brief(), least=13, most=12)
    for wrong in ("3000", float("nan"), None):
        with pytest.raises(InputError, match="a length of DB-28-145 on sale"):
            breaks(brief(), wrong)
    with pytest.raises(InputError, match="article: found 7, wanted the code of an article"):
        breaks(brief(), article=7)


def test_a_cancel_is_obeyed() -> None:
    stop = threading.Event()

    def stopping(*_: object) -> None:
        stop.set()

    with pytest.raises(Cancelled):
        breaks(brief(), progress=stopping, cancel=stop)


def test_text_and_rows_tell_the_same() -> None:
    found = step()
    rows = found.measures()
    assert [row["price_first"] for row in rows] == [span.first for span in found.spans]
    assert [row["here"] for row in rows] == [True, False]
    assert [row["bought_of_it"] for row in rows] == [3, 0]
    text = str(found)
    assert "At 11.00 to 12.15 GBP: Step\n" in text
    assert all(len(line) <= 78 for line in text.splitlines())
