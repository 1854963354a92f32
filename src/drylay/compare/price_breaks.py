"""At which prices of one length another order, or another deck, becomes the cheapest."""

from collections.abc import Iterator, Mapping
from itertools import count
from typing import Any

from attrs import Factory, define, evolve, frozen

from drylay.brief.model import Brief
from drylay.buying.purchase import minor, money
from drylay.compare.lengths_mix import with_lengths
from drylay.compare.merchant_asked import (
    MOST_NAME,
    Asked,
    is_stock,
    no_faults,
    read_article,
    read_decks,
    read_length,
    read_prices,
)
from drylay.compare.merchant_model import PriceBreaks, PriceSpan
from drylay.compare.merchant_plans import Planning, audited, plan_or_why, planning, shelf, unsound
from drylay.compare.merchant_units import units_of
from drylay.compare.price_lines import Run, Seen, runs_of, same, seen_of
from drylay.compare.price_remarks import gap_remark, held_joints, is_steady, remarks_of
from drylay.compare.price_winners import Win, wins_of
from drylay.compare.years import PRICE_DIGITS, Money
from drylay.counting import counted
from drylay.errors import Cancelled, Fault
from drylay.marks import exact
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.glance import Glances
from drylay.planner.job import CancelToken, Progress
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet


class _Unplanned(Exception):  # noqa: N818 - told of a deck, which is left out
    """A deck has plans at other prices, and none at this one."""


@frozen(kw_only=True)
class _Range:
    """The length whose price is another, and between which prices, in coins."""

    by: Planning
    stock: Catalogue
    article: Any
    length_mm: float
    least: int
    most: int
    progress: Progress | None
    count: Iterator[int] = Factory(count)

    def plan(self, name: str, brief: Brief, price: int) -> Plan | str:
        """Return a deck's plan at a price, or why it has none; it is told of, and counted.

        Raises:
            Cancelled: The cancel token was set.
        """
        if self.by.cancel is not None and self.by.cancel.is_set():
            raise Cancelled("the study was cancelled")
        if self.progress is not None:
            at = money(price, self.stock.minor_digits)
            self.progress(f"{name} at {at:f}", next(self.count), 0)
        return plan_or_why(self.shelf_at(price), brief)

    def shelf_at(self, price: int) -> Glances:
        """Return what decks are planned from at a price."""
        each = money(price, self.stock.minor_digits)
        lengths = [
            evolve(its, price=each) if exact(its.length_mm) == exact(self.length_mm) else its
            for its in self.article.lengths
        ]
        return shelf(self.by, with_lengths(self.stock, self.article.code, lengths))


@define
class _Deck:
    """A deck with what was seen of it, by price; `points` are prices it is planned at first."""

    asked: Asked
    over: _Range
    steady: bool
    seen: dict[int, Seen] = Factory(dict)
    points: set[int] = Factory(set)

    def look(self, price: int) -> Seen:
        """Return what the deck comes to at a price."""
        if price not in self.seen:
            plan = self.over.plan(self.asked.name, self.asked.brief, price)
            if isinstance(plan, str):
                raise _Unplanned(self.asked.name, plan)
            self.seen[price] = self.of(plan, price)
        return self.seen[price]

    def of(self, plan: Plan, price: int) -> Seen:
        """Return what a plan of the deck comes to at a price."""
        over = self.over
        digits = over.stock.minor_digits
        return seen_of(plan, over.article.code, over.length_mm, price, digits)

    def runs(self) -> list[Run]:
        """Return all prices in runs of the same order."""
        return runs_of(self.look, sorted(self.points), steady=self.steady)


@counted
def price_breaks(
    decks: Brief | Mapping[str, Brief],
    *,
    article: str,
    length_mm: float,
    least: Money,
    most: Money,
    stock: Catalogue,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> PriceBreaks:
    """Return at which prices of a length another order, or another deck, becomes the cheapest.

    Exact to the coin: each deck is planned at both sides of each break, and the cheapest designed
    and audited there. `remarks` tell of which decks an order could lie hidden within a span.

    Args:
        decks: A brief, or several by name: then the one whose whole order costs least.
        article: The code of an article that is sold by length.
        length_mm: The length whose price is another.
        least: The least price that is looked at, as text, whole number or Decimal.
        most: The most.
        stock: The merchant's stock; all other prices are as they stand there.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those installed.
        bases: Among which the design basis is looked for that a brief names.
        progress: Called as `progress(step, done, 0)`: how many plans there will be is not known.
        cancel: Asked `is_set()` between plans and while cutting.

    Raises:
        InputError: Something handed in cannot be used; lists every fault.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound, or a design came to
            something else than the same plan at a glance.
    """
    wrong: list[Fault] = []
    named = {decks.title[:MOST_NAME].strip(): decks} if isinstance(decks, Brief) else decks
    asked = read_decks(named, wrong)
    is_sold = is_stock(stock, wrong)
    sold: Any = read_article(stock, article, wrong) if is_sold else None
    length = read_length(sold, length_mm, wrong) if sold else None
    digits = stock.minor_digits if is_sold else PRICE_DIGITS
    low, high = read_prices(least, most, digits, wrong)
    no_faults(wrong)
    assert length is not None
    over = _Range(
        by=planning(families, local_rules, bases, cancel),
        stock=stock,
        article=sold,
        length_mm=length.length_mm,
        least=minor(low, stock.minor_digits),
        most=minor(high, stock.minor_digits),
        progress=progress,
    )
    seen, cannot, remarks = _decks(over, asked, minor(length.price, stock.minor_digits))
    wins = _settled(seen, cannot)
    spans = tuple(_span(seen[win.name], win) for win in wins)
    remarks += _gaps(seen, stock)
    return PriceBreaks(
        article=sold.code,
        length_mm=length.length_mm,
        currency=stock.currency,
        here=length.price,
        spans=spans,
        tried=sum(len(deck.seen) for deck in seen.values()),
        cannot=tuple(cannot),
        remarks=tuple(remarks),
        units=units_of(each.brief for each in asked),
    )


def _decks(
    over: _Range, asked: tuple[Asked, ...], here: int
) -> tuple[dict[str, _Deck], list[tuple[str, str]], list[tuple[str, str]]]:
    """Return the decks with a plan at both ends and today; those without; what is to be known."""
    decks: dict[str, _Deck] = {}
    cannot: list[tuple[str, str]] = []
    remarks: list[tuple[str, str]] = []
    for each in asked:
        plans = _planned(over, each, here)
        if isinstance(plans, str):
            cannot.append((each.name, plans))
            continue
        brief = held_joints(each.brief, plans, over.stock.minor_digits)
        told = remarks_of(each.brief, brief, plans, over.stock.currency)
        remarks += [(each.name, remark) for remark in told]
        deck = _Deck(
            asked=evolve(each, brief=brief),
            over=over,
            steady=is_steady(brief, plans),
            points={over.least, over.most},
        )
        if brief == each.brief:
            prices = (over.least, over.most, here)
            deck.seen |= {at: deck.of(plan, at) for at, plan in zip(prices, plans, strict=True)}
        decks[each.name] = deck
    return decks, cannot, remarks


def _planned(over: _Range, asked: Asked, here: int) -> list[Plan] | str:
    """Return a deck's plans at the least price, the most and the stock's own; or why not."""
    plans: list[Plan] = []
    for price in (over.least, over.most, here):
        plan = over.plan(asked.name, asked.brief, price)
        if isinstance(plan, str):
            return plan
        plans.append(plan)
    return plans


def _settled(decks: dict[str, _Deck], cannot: list[tuple[str, str]]) -> list[Win]:
    """Return the cheapest deck at each price; a deck without a plan at some price is left out."""
    while decks:
        try:
            if wins := _agreed(decks):
                return wins
        except _Unplanned as none:
            name, why = none.args
            cannot.append((name, why))
            del decks[name]
    return []


def _agreed(decks: Mapping[str, _Deck]) -> list[Win]:
    """Return the cheapest deck at each price, every break planned by all decks on both sides.

    Nothing where a deck comes to something else there than its run has it: then that price is a
    point to begin from.

    Raises:
        _Unplanned: A deck has no plan at some price.
    """
    runs = {name: deck.runs() for name, deck in decks.items()}
    wins = wins_of(runs)
    edges = sorted({edge for win in wins for edge in (win.first, win.last)})
    agreed = True
    for name, deck in decks.items():
        for run in runs[name]:
            for price in edges:
                if run.first <= price <= run.last and not _bought_at(deck, run, price):
                    deck.points.add(price)
                    agreed = False
    return wins if agreed else []


def _bought_at(deck: _Deck, run: Run, price: int) -> bool:
    return same(run.seen, deck.look(price), steady=deck.steady)


def _gaps(decks: Mapping[str, _Deck], stock: Catalogue) -> list[tuple[str, str]]:
    gaps = {
        name: max((seen.gap for seen in deck.seen.values()), default=0)
        for name, deck in decks.items()
    }
    return [
        (name, gap_remark(money(gap, stock.minor_digits), stock.currency))
        for name, gap in gaps.items()
        if gap
    ]


def _span(deck: _Deck, win: Win) -> PriceSpan:
    """Return a span of prices, its order designed and audited at both ends."""
    digits, order = deck.over.stock.minor_digits, win.run.seen
    gaps = []
    for price in dict.fromkeys((win.first, win.last)):
        seen = deck.look(price)
        plan = audited(deck.over.shelf_at(price), deck.asked.brief)
        if plan.buying is None or deck.of(plan, price) != seen:
            raise unsound(deck.asked.name, "designed, it buys something else than at a glance")
        gaps.append(order.cost_at(price) - seen.cost + seen.gap)
    return PriceSpan(
        name=win.name,
        first=money(win.first, digits),
        last=money(win.last, digits),
        bought=order.bought,
        total_first=money(order.total_at(win.first), digits),
        total_last=money(order.total_at(win.last), digits),
        gap=money(max(gaps), digits),
    )
