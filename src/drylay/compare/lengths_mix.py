"""A mix of decks as cutting tasks for one article: each deck's, by the longest length on sale."""

from collections.abc import Callable, Sequence
from typing import Any

from attrs import evolve, frozen

from drylay.buying.purchase import in_whole_packs, money
from drylay.compare.lengths_search import Choice, Weighed
from drylay.compare.merchant_asked import BY_LENGTH, Asked
from drylay.compare.merchant_plans import Planning, plan_or_why, shelf
from drylay.cutting.engine import least_cost, solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Stock, Task
from drylay.cutting.together import merged
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Catalogue, StockLength
from drylay.plan.model import Plan
from drylay.planner.cuts import limits_for

#: A deck that buys nothing of the article where only so long lengths are on sale.
NOTHING = Task(stock=(), kerf=0)


@frozen(kw_only=True)
class DeckTasks:
    """A deck's task for the article, by the longest length on sale: None where it has no plan."""

    asked: Asked
    tasks: tuple[Task | None, ...]


@frozen(kw_only=True)
class Terms:
    """What one order must share: the saw, the lengths with their trims, what a joint costs."""

    of: str
    stock: tuple[Stock, ...]
    kerf: int
    joint_price: int | None


@frozen(kw_only=True)
class Mix:
    """All decks that one order is for, and the lengths on sale in rising order."""

    lengths: tuple[StockLength, ...]
    decks: tuple[DeckTasks, ...]
    cannot: tuple[tuple[str, str], ...]
    terms: Terms | None
    by: Planning

    @property
    def large(self) -> bool:
        """Whether one order for all decks is more work than is done to the last penny.

        It is where there are many lines, and lines side by side keep their joints apart.
        """
        jobs = self.jobs(tuple(range(len(self.lengths)))) if self.decks else None
        whole = merged(jobs) if jobs else NOTHING
        return limits_for(whole) is not None and any(line.stagger for line in whole.lines)

    def jobs(self, kept: Choice) -> dict[str, Task] | None:
        """Return the task of each deck from these lengths, None where one has no plan then."""
        found: dict[str, Task] = {}
        for deck in self.decks:
            task = deck.tasks[kept[-1]]
            if task is None:
                return None
            own = self._from(kept, task)
            found |= {f"{deck.asked.name} #{n}": own for n in range(1, deck.asked.count + 1)}
        return found

    def _from(self, kept: Choice, task: Task) -> Task:
        assert self.terms is not None
        sizes = {exact(self.lengths[at].length_mm) for at in kept}
        stock = tuple(each for each in self.terms.stock if each.length in sizes)
        return evolve(
            task, stock=stock, kerf=self.terms.kerf, joint_price=self.terms.joint_price or 0
        )

    def floor(self, kept: Choice) -> int | None:
        """Return a cost that no order from these lengths goes below, None where none exists."""
        jobs = self.jobs(kept)
        if jobs is None:
            return None
        least = least_cost(merged(jobs), cancel=self.by.cancel)
        if least is not None:
            return least
        found = self.order(kept, "quick")
        return None if found is None else found.bound

    def order(self, kept: Choice, mode: str) -> Weighed | None:
        """Return the cheapest order found from these lengths, None where none exists."""
        jobs = self.jobs(kept)
        found = None if jobs is None else _solved(self.by, merged(jobs), mode)
        if isinstance(found, CutPlan):
            names = {cut.stock for cut in found.cuts}
            used = tuple(at for at in kept if f"{self.lengths[at].length_mm:.10g}" in names)
            return Weighed(kept=kept, cost=found.objective, bound=found.bound, used=used)
        return None if found is None or found.proven else Weighed(kept=kept, cost=None, bound=0)


def _solved(by: Planning, task: Task, mode: str) -> CutPlan | NoPlan:
    """Return the answer to a task, which is kept: it may be asked for again."""
    known = by.known if mode == "proven" else by.rough
    if task not in known:
        try:
            found = solve(task, mode=mode, limits=limits_for(task), cancel=by.cancel)
        except NoPlan as none:
            known[task] = none
        else:
            known[task] = found
    return known[task]


def on_sale(article: Any) -> tuple[StockLength, ...]:
    """Return the lengths of an article that can be had, in rising order."""
    had = (each for each in article.lengths if in_whole_packs(each) != 0)
    return tuple(sorted(had, key=lambda each: each.length_mm))


def with_lengths(stock: Catalogue, code: str, lengths: Sequence[StockLength]) -> Catalogue:
    """Return the stock with these lengths of an article on sale and no others."""
    changed: dict[str, Any] = {
        kind: tuple(
            evolve(each, lengths=tuple(lengths)) if each.code == code else each
            for each in getattr(stock, kind)
        )
        for kind in BY_LENGTH
    }
    return evolve(stock, **changed)


def mix_of(
    by: Planning,
    stock: Catalogue,
    article: Any,
    decks: Sequence[Asked],
    told: Callable[[str], None],
) -> Mix:
    """Return the decks' tasks for an article, and which decks cannot be in one order, and why.

    Raises:
        Cancelled: The cancel token was set.
    """
    lengths, terms = on_sale(article), None
    held: list[DeckTasks] = []
    cannot: list[tuple[str, str]] = []
    for asked in decks:
        told(f"{asked.name}: planned")
        whole = _tasks(by, stock, article.code, lengths, asked)
        why = whole if isinstance(whole, str) else _apart(terms, whole, stock.minor_digits)
        if isinstance(whole, str) or why:
            cannot.append((asked.name, why))
            continue
        terms = _terms(terms, whole, asked)
        held.append(
            DeckTasks(
                asked=asked,
                tasks=(
                    *(_task(by, stock, article.code, lengths[:n], asked)
                      for n in range(1, len(lengths))),
                    merged_task(whole),
                ),
            )
        )  # fmt: skip
    return Mix(lengths=lengths, decks=tuple(held), cannot=tuple(cannot), terms=terms, by=by)


def merged_task(tasks: Sequence[Task]) -> Task:
    """Return what a deck wants of an article as one task, whatever stock it was cut from."""
    if not tasks:
        return NOTHING
    named = {str(number): evolve(task, joint_price=0) for number, task in enumerate(tasks)}
    return evolve(merged(named), stock=(), kerf=0)


def tasks_of(plan: Plan, code: str) -> tuple[Task, ...]:
    """Return the cutting tasks of a plan for an article, as they are proven."""
    bought = plan.buying.purchases if plan.buying else ()
    return tuple(each.proof.task for each in bought if each.article == code)


def _tasks(
    by: Planning, stock: Catalogue, code: str, lengths: Sequence[StockLength], asked: Asked
) -> tuple[Task, ...] | str:
    plan = plan_or_why(shelf(by, with_lengths(stock, code, lengths)), asked.brief)
    if isinstance(plan, str):
        return plan
    return tasks_of(plan, code) or f"it buys nothing of {code}"


def _task(
    by: Planning, stock: Catalogue, code: str, lengths: Sequence[StockLength], asked: Asked
) -> Task | None:
    plan = plan_or_why(shelf(by, with_lengths(stock, code, lengths)), asked.brief)
    return None if isinstance(plan, str) else merged_task(tasks_of(plan, code))


def _joint_prices(tasks: Sequence[Task]) -> set[int]:
    """Return what joints are reckoned at, of lines that may have any."""
    jointed = (task for task in tasks if any(line.most_joints != 0 for line in task.lines))
    return {task.joint_price for task in jointed}


def _terms(terms: Terms | None, tasks: Sequence[Task], asked: Asked) -> Terms:
    """Return what all decks share: as the first deck has it, and the first that has joints."""
    prices = _joint_prices(tasks)
    price = next(iter(prices), None)
    if terms is None:
        first = tasks[0]
        return Terms(of=asked.name, stock=first.stock, kerf=first.kerf, joint_price=price)
    return evolve(terms, joint_price=price if terms.joint_price is None else terms.joint_price)


def _apart(terms: Terms | None, tasks: Sequence[Task], digits: int) -> str:
    """Return why a deck cannot be in one order with those before it, "" where it can."""
    prices = _joint_prices(tasks)
    if len(prices) > 1:
        return "its joints have more than one price, and one order reckons with one"
    if terms is None:
        return ""
    first, price = tasks[0], next(iter(prices), None)
    if first.kerf != terms.kerf:
        kerfs = f"{to_mm(first.kerf):g} mm, in {terms.of} {to_mm(terms.kerf):g} mm"
        return f"its saw takes {kerfs}: make them one (cutting.kerf_mm)"
    if first.stock != terms.stock:
        return f"its boards lose other ends than those of {terms.of}: make them one " \
               "(cutting.end_trim_mm)"  # fmt: skip
    if price is not None and terms.joint_price is not None and price != terms.joint_price:
        told = f"{money(price, digits):f}, in {terms.of} at {money(terms.joint_price, digits):f}"
        return f"a joint of it is reckoned at {told}: make them one (joints.price_each)"
    return ""
