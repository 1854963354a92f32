"""Which lengths of an article to stock for a mix of decks, each number of them proven best."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from attrs import evolve, frozen

from drylay.brief.model import Brief
from drylay.buying.purchase import money
from drylay.compare.lengths_mix import DeckTasks, Mix, merged_task, mix_of, tasks_of, with_lengths
from drylay.compare.lengths_search import Best, Search, Weighed, best_choice
from drylay.compare.merchant_asked import (
    is_stock,
    no_faults,
    read_article,
    read_decks,
    read_keep,
    read_looks,
)
from drylay.compare.merchant_model import KeptLengths, LengthsToKeep
from drylay.compare.merchant_plans import Planning, audited, planning, shelf, unsound
from drylay.compare.merchant_units import units_of
from drylay.counting import counted
from drylay.cutting.model import CutPlan
from drylay.cutting.together import cut_together, merged
from drylay.cutting.verify import verify
from drylay.errors import Fault
from drylay.marks import to_mm
from drylay.materials.stock_model import Catalogue
from drylay.planner.cuts import limits_for
from drylay.planner.job import CancelToken, Progress
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

#: So many choices are looked at for each number kept: all that twelve lengths leave.
LOOKS = 4096
#: Of a mix that takes long to cut another choice may be so many thousandths cheaper: to look for
#: that too would take many times as long, and the gap tells of it.
WILL_DO = 1


@frozen(kw_only=True)
class _Shop:
    """What choices are told from: the mix, the article, and what decks are planned by."""

    by: Planning
    stock: Catalogue
    article: Any
    mix: Mix


@counted
def lengths_to_keep(
    decks: Mapping[str, Brief | tuple[Brief, int]],
    *,
    article: str,
    stock: Catalogue,
    keep: int | None = None,
    looks: int = LOOKS,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> LengthsToKeep:
    """Return which lengths of an article to stock, the best choice for each number of them.

    All decks are one order. Each is planned with every length on sale up to the longest that is
    kept; from a choice of lengths its joints are set anew, and nothing else of it is. Decks that a
    choice alone would have planned otherwise are named with it.

    Args:
        decks: A brief for each name, or a brief and how many of it.
        article: The code of an article that is sold by length.
        stock: The merchant's stock.
        keep: How many lengths are kept at most; all that are sold where nobody says.
        looks: How many choices are looked at for each number kept; where they run out, the bound
            of the choice tells the gap.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those installed.
        bases: Among which the design basis is looked for that a brief names.
        progress: Called as `progress(step, done, total)`.
        cancel: Asked `is_set()` between steps and while cutting.

    Raises:
        InputError: Something handed in cannot be used; lists every fault.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound, or a proof does not hold.
    """
    wrong: list[Fault] = []
    asked = read_decks(decks, wrong, counted=True)
    sold: Any = read_article(stock, article, wrong) if is_stock(stock, wrong) else None
    most = read_keep(keep, len(sold.lengths) if sold else 1, wrong)
    looks = read_looks(looks, wrong)
    no_faults(wrong)
    told = _counter(progress, len(asked) + most)
    by = planning(families, local_rules, bases, cancel)
    mix = mix_of(by, stock, sold, asked, lambda name: told(name, 1))
    shop = _Shop(by=by, stock=stock, article=sold, mix=mix)
    search = Search(
        sold=len(mix.lengths),
        cutting=mix,
        told=lambda: told("choices weighed", 0),
        will_do=WILL_DO if mix.large else 0,
    )
    choices = tuple(_choices(shop, search, most, looks, told)) if mix.decks else ()
    told("done", 0)
    price = mix.terms.joint_price if mix.terms else None
    return LengthsToKeep(
        article=sold.code,
        currency=stock.currency,
        decks=tuple((deck.asked.name, deck.asked.count) for deck in mix.decks),
        on_sale_mm=tuple(each.length_mm for each in mix.lengths),
        choices=_bounded([choice for choice, _ in choices]),
        cannot=mix.cannot,
        joint_price=money(price or 0, stock.minor_digits),
        looked=search.looks,
        exact=all(whole for _, whole in choices),
        units=units_of(each.brief for each in asked),
    )


def _counter(progress: Progress | None, total: int) -> Callable[[str, int], None]:
    """Return what is called at every step, with how many of all it counts for."""
    done = 0

    def told(name: str, steps: int) -> None:
        nonlocal done
        if progress is not None:
            progress(name, total if name == "done" else done, total)
        done = min(total, done + steps)

    return told


def _choices(
    shop: _Shop, search: Search, most: int, looks: int, told: Callable[[str, int], None]
) -> Iterator[tuple[KeptLengths, bool]]:
    """Yield the best choice of each number of lengths, and whether none was left out."""
    before: Weighed | None = None
    kept: KeptLengths | None = None
    for count in range(1, min(most, search.sold) + 1):
        told(f"lengths kept: {count}", 1)
        best = best_choice(search, count, before, looks)
        if best.found is None:
            continue
        if before is None or best.found.kept != before.kept:
            kept = _kept(shop, best.found)
            digits = shop.stock.minor_digits
            cost = int(kept.cost.scaleb(digits))
            before = evolve(best.found, cost=cost)
        assert kept is not None
        yield evolve(kept, count=count, best_bound=_money(shop, best, before)), best.whole


def _money(shop: _Shop, best: Best, found: Weighed) -> Any:
    assert found.cost is not None
    return money(min(best.bound, found.cost), shop.stock.minor_digits)


def _kept(shop: _Shop, found: Weighed) -> KeptLengths:
    """Return a choice with its order cut and proven, each deck by itself beside it."""
    jobs = shop.mix.jobs(found.kept)
    assert jobs is not None
    limits = limits_for(merged(jobs))
    both = cut_together(
        jobs, alone="proven", limits=limits, known=shop.by.known, cancel=shop.by.cancel
    )
    plan, digits = both.plan, shop.stock.minor_digits
    verdict = verify(plan.proof)
    if not verdict.holds or verdict.bound < plan.bound:
        raise unsound(shop.article.code, verdict.why)
    return KeptLengths(
        count=len(found.kept),
        lengths_mm=tuple(shop.mix.lengths[at].length_mm for at in found.kept),
        cost=money(plan.objective, digits),
        joint_cost=money(plan.objective - plan.cost, digits),
        bound=money(plan.bound, digits),
        apart=None if both.apart is None else money(both.apart, digits),
        best_bound=money(plan.bound, digits),
        bought=_bought(plan),
        otherwise=tuple(
            deck.asked.name for deck in shop.mix.decks if not _as_planned(shop, deck, found)
        ),
        proof=plan.proof,
    )


def _bought(plan: CutPlan) -> tuple[tuple[float, int], ...]:
    """Return how many of each length are bought, the shortest first."""
    sizes = {each.name: each.length for each in plan.proof.task.stock}
    counts = dict.fromkeys(sorted(sizes.values()), 0)
    for cut in plan.cuts:
        counts[sizes[cut.stock]] += cut.boards
    return tuple((to_mm(length), count) for length, count in counts.items() if count)


def _as_planned(shop: _Shop, deck: DeckTasks, found: Weighed) -> bool:
    """Whether a deck is built as held where these lengths alone are planned with; audited.

    Where it is not, the plan that is held to is audited too.
    """
    held = deck.tasks[found.kept[-1]]
    lengths = [shop.mix.lengths[at] for at in found.kept]
    if _wants(shop, deck, lengths) == held:
        return True
    if _wants(shop, deck, shop.mix.lengths[: found.kept[-1] + 1]) != held:
        raise unsound(deck.asked.name, "designed, it is cut otherwise than at a glance")
    return False


def _wants(shop: _Shop, deck: DeckTasks, lengths: Any) -> object:
    """Return what a deck wants of the article as designed from these lengths, None if blocked."""
    code = shop.article.code
    plan = audited(shelf(shop.by, with_lengths(shop.stock, code, lengths)), deck.asked.brief)
    return merged_task(tasks_of(plan, code)) if plan.buying else None


def _bounded(choices: list[KeptLengths]) -> tuple[KeptLengths, ...]:
    """Return choices with the best bounds known: what more lengths cost, fewer do at the least."""
    found: list[KeptLengths] = []
    for choice in reversed(choices):
        after = found[-1].best_bound if found else choice.best_bound
        found.append(evolve(choice, best_bound=max(choice.best_bound, after)))
    return tuple(reversed(found))
