"""A price list that stays good if any one length sells out: every length is taken away once.

Lengths that an order does not buy are taken away too. What is not bought can settle the plan: the
longest length on sale says how long a piece of board may be, how few joints a rim has and how
fascia is parted; the cheapest by the metre what a joint is reckoned at; and of orders that cost
the same another may be found, with other joints, and so with other screws.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping

from attrs import evolve, frozen

from drylay.brief.model import Brief
from drylay.compare.lengths_mix import on_sale, with_lengths
from drylay.compare.merchant_asked import (
    Asked,
    is_stock,
    no_faults,
    read_article,
    read_decks,
    sold_by_length,
)
from drylay.compare.merchant_model import HoldingPrice, HoldingPrices
from drylay.compare.merchant_plans import Planning, audited, plan_or_why, planning, shelf
from drylay.compare.merchant_units import units_of
from drylay.counting import counted
from drylay.errors import Fault
from drylay.intake.values import unfit
from drylay.marks import exact
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.glance import Glances
from drylay.planner.job import NAMED_AT, CancelToken, Progress
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

Gone = tuple[str, float]


@frozen(kw_only=True)
class _List:
    """What prices are told from; `shelves` are stocks without one length, by article and length."""

    by: Planning
    stock: Catalogue
    articles: tuple[str, ...] | None
    whole: Glances
    shelves: dict[Gone, Glances]
    told: Callable[[str], None]

    def without(self, gone: Gone) -> Glances:
        """Return what decks are planned from where one length is gone."""
        if gone not in self.shelves:
            code, length_mm = gone
            lengths = sold_by_length(self.stock)[code].lengths
            left = [each for each in lengths if exact(each.length_mm) != exact(length_mm)]
            stock = with_lengths(self.stock, code, left) if left else self.stock.without(code)
            self.shelves[gone] = shelf(self.by, stock)
        return self.shelves[gone]


@counted
def holding_prices(
    decks: Mapping[str, Brief],
    *,
    stock: Catalogue,
    articles: Iterable[str] | None = None,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> HoldingPrices:
    """Return a price list that stays good if any one length sells out.

    Each deck is planned with every length on sale, and anew with each one gone. Its price with all
    and that with the worst one gone are designed and audited. Where no length is gone but prices
    change, nothing holds; nor where two are gone.

    Args:
        decks: A brief for each name.
        stock: The merchant's stock.
        articles: Codes of the articles whose lengths are taken away; by default all that a deck
            uses and that are sold by length.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those installed.
        bases: Among which the design basis is looked for that a brief names.
        progress: Called as `progress(step, done, total)`, one for each deck.
        cancel: Asked `is_set()` between plans and while cutting.

    Raises:
        InputError: Something handed in cannot be used; lists every fault.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound, or a design came to
            something else than the same plan at a glance.
    """
    wrong: list[Fault] = []
    asked = read_decks(decks, wrong)
    codes = _codes(stock, articles, wrong)
    no_faults(wrong)
    by = planning(families, local_rules, bases, cancel)
    done = 0

    def told(name: str) -> None:
        if progress is not None:
            progress(name, done, len(asked))

    whole = shelf(by, stock)
    on = _List(by=by, stock=stock, articles=codes, whole=whole, shelves={}, told=told)
    prices: list[HoldingPrice] = []
    refused: list[tuple[str, str]] = []
    used: dict[str, None] = {}
    for each in asked:
        told(f"{each.name}: planned")
        plan = plan_or_why(whole, each.brief)
        if isinstance(plan, str):
            refused.append((each.name, plan))
        else:
            its = tuple(_articles(on, each.brief, plan))
            used |= dict.fromkeys(its)
            prices.append(_price(on, each, plan, its))
        done += 1
    told("done")
    return HoldingPrices(
        currency=stock.currency,
        articles=tuple(used) if codes is None else codes,
        prices=tuple(prices),
        refused=tuple(refused),
        units=units_of(each.brief for each in asked),
    )


def _codes(
    stock: Catalogue, articles: Iterable[str] | None, wrong: list[Fault]
) -> tuple[str, ...] | None:
    """Return the articles whose lengths are taken away, None for all that a deck uses."""
    if not is_stock(stock, wrong) or articles is None:
        return None
    wanted = "codes of articles that are sold by length, or None for all that are used"
    if not isinstance(articles, Iterable):
        wrong.append(evolve(unfit(articles, wanted), path="articles"))
        return None
    named = [articles] if isinstance(articles, str) else list(articles)
    found = [
        read_article(stock, code, wrong, f"articles[{place}]") for place, code in enumerate(named)
    ]
    if not named:
        wrong.append(Fault(path="articles", found="none", wanted=wanted))
    return tuple(dict.fromkeys(each.code for each in found if each is not None))


def _articles(on: _List, brief: Brief, plan: Plan) -> Iterator[str]:
    """Yield the articles of a deck that are sold by length: all it names, buys or may stand on."""
    sold = sold_by_length(on.stock)
    named = {_named(brief, path) for path, _ in NAMED_AT.values()}
    bought = {each.article for each in plan.buying.purchases} if plan.buying else set()
    if brief.raised.post is not None and brief.raised.bearer is None:
        bought |= {each.code for each in on.stock.timbers}  # bearers are chosen out of all
    for code in sold if on.articles is None else on.articles:
        if code in named | bought:
            yield code


def _named(brief: Brief, path: str) -> str | None:
    section, key = path.split(".")
    code = getattr(getattr(brief, section), key)
    return code if isinstance(code, str) else None


def _price(on: _List, asked: Asked, plan: Plan, articles: tuple[str, ...]) -> HoldingPrice:
    """Return what a deck costs, and what it costs with the worst length gone."""
    assert plan.buying is not None
    total = dearest = plan.buying.total
    worst: Gone | None = None
    loses: list[Gone] = []
    lengths = [(code, each.length_mm) for code in articles
               for each in on_sale(sold_by_length(on.stock)[code])]  # fmt: skip
    shown = plan
    for gone in lengths:
        on.told(f"{asked.name}: without {gone[0]} {gone[1]:g}")
        left = plan_or_why(on.without(gone), asked.brief)
        if isinstance(left, str):
            loses.append(gone)
        elif left.buying is not None and left.buying.total > dearest:
            dearest, worst, shown = left.buying.total, gone, left
    audited(on.whole, asked.brief, plan)
    if worst is not None:
        audited(on.without(worst), asked.brief, shown)
    return HoldingPrice(
        name=asked.name,
        total=total,
        holds=None if loses else dearest,
        dearest=dearest,
        worst=worst,
        loses=tuple(loses),
        tried=len(lengths),
    )
