"""Campaign: what a merchant asks of many decks, held against brute force.

    python tests/campaigns/merchants.py --lengths 20 --seed 1
    python tests/campaigns/merchants.py --prices 20 --seed 1
    python tests/campaigns/merchants.py --holding 20 --seed 1

With `--lengths` two or three decks, some of them several times, are cut as one order from *every*
choice of lengths, with no search and no bound, for boards and for frame timber by turns; each
deck's pieces come from designs of this file's own. No choice of as many lengths may be cheaper than
the one told, nor cost less than its bound. Counted besides: decks that are built otherwise where
the choice alone is planned with, and what that would have spared.

With `--prices` a deck, every third time two, is planned at *every* coin of a range about the price
of a length, the coin a tenth of the currency; the spans told must be those of all coins: an order
stays as long as it costs no more than what is planned there. Where an order leaves a gap, spans may
differ by it: such decks are told of, and only have to be whole.

With `--holding` every length of every article of the stock is taken away, also of those no deck
uses, and each deck designed in full, audit and all. Every ninth deck stands on posts, which
takes minutes.

Decks are random softwood by seed, such as have a plan. Prints a line for each, and in the end what
was wrong; exit code 1 if anything was.
"""

import argparse
import random
import sys
import time
from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal
from itertools import combinations
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from attrs import evolve

import drylay
from campaigns.standing import sections_of, stock_of
from compare.test_price_breaks import coin_by_coin
from drylay.brief.codec import brief_to_dict
from drylay.brief.model import Brief
from drylay.buying.purchase import in_whole_packs
from drylay.compare.holding import holding_prices
from drylay.compare.lengths_kept import lengths_to_keep
from drylay.compare.lengths_mix import with_lengths
from drylay.compare.merchant_asked import sold_by_length
from drylay.compare.merchant_plans import plan_or_why, planning, shelf
from drylay.compare.price_breaks import price_breaks
from drylay.compare.price_lines import Run, seen_of
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import Task
from drylay.cutting.together import merged
from drylay.errors import BriefError
from drylay.marks import exact
from drylay.materials.stock_model import KINDS, Catalogue, StockLength
from drylay.plan.model import Plan
from drylay.planner.cuts import limits_for
from some_decks import some_brief, some_stock

FAMILIES = drylay.installed_families()
MOST_MM = 4_200
COIN = Decimal("0.1")
Came = tuple[str, int]


def some_decks(seed: int, count: int) -> tuple[list[Brief], Catalogue]:
    """Briefs of one stock that one order may serve: one saw, one price of a joint."""
    dice = random.Random(seed)
    stock = in_coins(some_stock(dice))
    cutting, price = None, None
    briefs: list[Brief] = []
    while len(briefs) < count:
        brief = some_brief(dice, stock, most_mm=MOST_MM)
        cutting = cutting or brief.cutting
        price = price if briefs else brief.joints.price_each
        joints = evolve(brief.joints, price_each=price)
        read = drylay.read_brief(brief_to_dict(evolve(brief, cutting=cutting, joints=joints)))
        if design(read, stock) is not None:
            briefs.append(read)
    return briefs, stock


def in_coins(stock: Catalogue) -> Catalogue:
    """The stock with prices up to the next tenth, and no smaller coin."""
    changed: dict = {}
    for kind in KINDS:
        changed[kind] = tuple(_up(article) for article in getattr(stock, kind))
    return evolve(stock, minor_digits=1, **changed)


def _up(article: object) -> object:
    sold = {
        name: tuple(evolve(e, price=e.price.quantize(COIN, rounding=ROUND_CEILING))
                    for e in getattr(article, name))
        for name in ("lengths", "packs") if hasattr(article, name)
    }  # fmt: skip
    return evolve(article, **sold)


def design(brief: Brief, stock: Catalogue) -> Plan | None:
    """A whole plan, audited; None where it is blocked."""
    try:
        plan = drylay.design(brief, stock=stock, families=FAMILIES)
    except BriefError:
        return None
    return plan if plan.buying is not None else None


# --- lengths --------------------------------------------------------------------------------------


def lengths(seed: int) -> Came:
    """What came of one mix against every choice of its lengths."""
    dice = random.Random(f"lengths {seed}")
    briefs, stock = some_decks(seed, dice.randint(2, 3))
    code = ("DB", "FT")[seed % 2]
    decks = {f"deck {at}": (brief, dice.randint(1, 2)) for at, brief in enumerate(briefs)}
    began = time.perf_counter()
    found = lengths_to_keep(decks, article=code, stock=stock, families=FAMILIES)
    took, began = time.perf_counter() - began, time.perf_counter()
    sold = [e for e in sold_by_length(stock)[code].lengths if in_whole_packs(e) != 0]
    least, anew = every_choice(decks, code, stock, sorted(sold, key=lambda e: e.length_mm))
    brute = time.perf_counter() - began
    wrong = 0
    for count in range(1, len(sold) + 1):
        costs = [bound for n, (_, bound) in least.items() if n <= count]
        told = next((each for each in found.choices if each.count == count), None)
        if (told is None) != (not costs):
            wrong += 1
            print(f"  seed {seed}: {count} lengths, told {told}, by brute force {costs}")
        elif told is not None:
            cost, bound = min(c for n, (c, _) in least.items() if n <= count), min(costs)
            if not _agree(told.cost, told.best_bound, cost, bound):
                wrong += 1
                print(f"  seed {seed}: {count} lengths, told {told.lengths_mm} at {told.cost} "
                      f"(bound {told.best_bound}), by brute force {cost} ({bound})")  # fmt: skip
    otherwise = sum(bool(each.otherwise) for each in found.choices)
    spared = max((each.cost - anew.get(each.count, each.cost) for each in found.choices),
                 default=Decimal(0))  # fmt: skip
    gap = max((each.cost - each.best_bound for each in found.choices), default=Decimal(0))
    line = (f"seed {seed} {code}: {len(decks)} decks, {len(sold)} lengths, {found.looked} of "
            f"{2 ** len(sold) - 1} choices looked at, {took:.1f} s, by brute force {brute:.1f} s; "
            f"gap {gap}, {otherwise} built otherwise, that spares {spared}")  # fmt: skip
    return line, wrong


def _agree(cost: Decimal, bound: Decimal, least: Decimal, floor: Decimal) -> bool:
    """The bound told is above no order, and the cost told below no bound: without a gap they meet.

    A gap may be left in a large order: brute force does all the work there is to do.
    """
    return bound <= least and cost >= floor


def every_choice(
    decks: dict, code: str, stock: Catalogue, sold: list[StockLength]
) -> tuple[dict[int, tuple[Decimal, Decimal]], dict[int, Decimal]]:
    """The least order and bound of each number of lengths; and with each deck planned anew."""
    least: dict[int, tuple[Decimal, Decimal]] = {}
    anew: dict[int, Decimal] = {}
    price = next(iter(_tasks(decks, code, stock, sold) or [Task(stock=(), kerf=0)])).joint_price
    held = {n: _tasks(decks, code, with_lengths(stock, code, sold[:n]), sold[:n])
            for n in range(1, len(sold) + 1)}  # fmt: skip
    for count in range(1, len(sold) + 1):
        for choice in combinations(range(len(sold)), count):
            kept = [sold[at] for at in choice]
            order = _order(held[choice[-1] + 1], kept, price)
            if order is not None:
                before = least.get(count, order)
                least[count] = (min(order[0], before[0]), min(order[1], before[1]))
            other = _order(_tasks(decks, code, with_lengths(stock, code, kept), kept), kept, price)
            if other is not None:
                anew[count] = min(
                    other[0], anew.get(count, other[0]), anew.get(count - 1, other[0])
                )
    return least, anew


SEEN: dict = {}
#: Gaps left at each coin.
GAPS: dict = {}


def _tasks(decks: dict, code: str, stock: Catalogue, kept: list[StockLength]) -> list[Task] | None:
    found = []
    for brief, count in decks.values():
        key = (brief, code, tuple(kept))
        if key not in SEEN:
            SEEN[key] = design(brief, stock)
        plan = SEEN[key]
        if plan is None or plan.buying is None:
            return None
        own = [each.proof.task for each in plan.buying.purchases if each.article == code]
        found += own * count
    return found


def _order(
    tasks: list[Task] | None, kept: list[StockLength], price: int
) -> tuple[Decimal, Decimal] | None:
    if tasks is None:
        return None
    sizes = {exact(each.length_mm) for each in kept}
    alike = [
        evolve(task, joint_price=price, stock=tuple(s for s in task.stock if s.length in sizes))
        for task in tasks
    ]
    try:
        whole = merged({str(at): task for at, task in enumerate(alike)})
        plan = solve(whole, limits=limits_for(whole))
    except NoPlan:
        return None
    return Decimal(plan.objective) * COIN, Decimal(plan.bound) * COIN


# --- prices ---------------------------------------------------------------------------------------


def prices(seed: int) -> Came:
    """What came of one deck, or two, against every coin."""
    dice = random.Random(f"prices {seed}")
    briefs, stock = some_decks(seed, 2 if seed % 3 == 0 else 1)
    code = dice.choice(["DB", "FT"])
    bought = design(briefs[0], stock).buying.purchases
    used = [each for part in bought if part.article == code for each in part.lengths]
    length_mm = dice.choice(sorted({each.length_mm for each in used}))
    length = next(e for e in sold_by_length(stock)[code].lengths if e.length_mm == length_mm)
    here = int(length.price / COIN)
    coins = range(max(1, here - dice.randint(5, 40)), here + dice.randint(5, 40))
    decks = {f"deck {at}": brief for at, brief in enumerate(briefs)}
    began = time.perf_counter()
    found = price_breaks(decks, article=code, length_mm=length_mm, least=coins[0] * COIN,
                         most=coins[-1] * COIN, stock=stock, families=FAMILIES)  # fmt: skip
    took, began = time.perf_counter() - began, time.perf_counter()
    joints = dict(_held(found.remarks))
    runs = {name: list(_runs(_with(brief, joints.get(name)), code, length_mm, stock, coins))
            for name, brief in decks.items()}  # fmt: skip
    brute = time.perf_counter() - began
    wanted = [[name, first, last, run.seen.bought, run.seen.total_at(first)]
              for name, first, last, run in coin_by_coin(runs, coins)]  # fmt: skip
    told = [[s.name, int(s.first / COIN), int(s.last / COIN), s.bought, int(s.total_first / COIN)]
            for s in found.spans]  # fmt: skip
    proven = not any(_gap_at(brief, code, length_mm, coin) for brief in decks.values()
                     for coin in coins)  # fmt: skip
    alike = not _unlike(told, wanted)
    wrong = int(proven and not alike) + int(not _covers(told, coins))
    if wrong:
        print(f"  seed {seed}: told {told}\n    by brute force {wanted}\n    {found.remarks}")
    how = f"{'' if proven else 'a gap left, '}{'alike' if alike else 'unlike'}"
    return (f"seed {seed} {code} {length_mm:g}: {len(coins)} coins, {found.tried} plans, "
            f"{len(told)} spans, {how}, {took:.1f} s, by brute force {brute:.1f} s",
            wrong)  # fmt: skip


def _gap_at(brief: Brief, code: str, length_mm: float, coin: int) -> int:
    return GAPS.get((brief.title, code, length_mm, coin), 0)


def _covers(told: list, coins: range) -> bool:
    """Spans stand in order, one coin apart, over all coins."""
    ends = [coins[0] - 1, *(last for _, _, last, *_ in told)]
    firsts = [first for _, first, *_ in told]
    return [end + 1 for end in ends[:-1]] == firsts and ends[-1] == coins[-1]


def _unlike(told: list, wanted: list) -> int:
    """Spans that differ in prices or total; of orders as dear as one another either may be told."""
    return int([(*t[:3], t[4]) for t in told] != [(*w[:3], w[4]) for w in wanted])


def _held(remarks: tuple) -> Iterator[tuple[str, Decimal]]:
    for name, told in remarks:
        if told.startswith("a joint is reckoned at "):
            yield name, Decimal(told.split()[5])


def _with(brief: Brief, joint: Decimal | None) -> Brief:
    if joint is None:
        return brief
    return evolve(brief, joints=evolve(brief.joints, price_each=joint))


def _runs(
    brief: Brief, code: str, length_mm: float, stock: Catalogue, coins: range
) -> Iterator[Run]:
    by, run = planning(FAMILIES, None, None, None), None
    for coin in coins:
        lengths = [evolve(e, price=coin * COIN) if e.length_mm == length_mm else e
                   for e in sold_by_length(stock)[code].lengths]  # fmt: skip
        plan = plan_or_why(shelf(by, with_lengths(stock, code, lengths)), brief)
        assert not isinstance(plan, str)
        seen = seen_of(plan, code, length_mm, coin, 1)
        GAPS[brief.title, code, length_mm, coin] = seen.gap
        if run is not None and run.seen.cost_at(coin) <= seen.cost:
            run = evolve(run, last=coin)
            continue
        if run is not None:
            yield run
        run = Run(first=coin, last=coin, seen=seen)
    assert run is not None
    yield run


# --- holding --------------------------------------------------------------------------------------


def holding(seed: int) -> Came:
    """What came of one deck against every length of the whole stock taken away."""
    if seed % 9 == 0:
        sections = sections_of(seed)
        brief, stock = drylay.read_brief(sections), stock_of(sections)
    else:
        (brief,), stock = some_decks(seed, 1)
    began = time.perf_counter()
    found = holding_prices({"deck": brief}, stock=stock, families=FAMILIES)
    took, began = time.perf_counter() - began, time.perf_counter()
    here = design(brief, stock)
    if here is None:
        return f"seed {seed}: blocked", int(bool(found.prices))
    costs: dict[tuple[str, float], Decimal | None] = {}
    for code, article in sold_by_length(stock).items():
        for each in article.lengths:
            if in_whole_packs(each) != 0:
                left = stock.without(code, length_mm=each.length_mm)
                plan = design(brief, left)
                costs[code, each.length_mm] = plan.buying.total if plan else None
    brute = time.perf_counter() - began
    (price,) = found.prices
    had = [cost for cost in costs.values() if cost is not None]
    loses = {gone for gone, cost in costs.items() if cost is None}
    dearest = max(here.buying.total, *had)
    unbought = _unbought(here, costs)
    wrong = (set(price.loses) != loses) + (price.dearest != dearest)
    wrong += price.total != here.buying.total
    wrong += price.worst is not None and costs[price.worst] != dearest
    if wrong:
        print(f"  seed {seed}: told {price}\n    by brute force {dearest}, loses {loses}")
    return (f"seed {seed}: {price.total}, dearest {price.dearest}, loses {len(loses)} of "
            f"{len(costs)}; {unbought} not bought and yet of weight; {took:.1f} s, "
            f"by brute force {brute:.1f} s", int(wrong))  # fmt: skip


def _unbought(here: Plan, costs: dict) -> int:
    """How many lengths matter though the order does not buy them."""
    assert here.buying is not None
    bought = {(p.article, each.length_mm) for p in here.buying.purchases for each in p.lengths}
    return sum(cost != here.buying.total for gone, cost in costs.items() if gone not in bought)


def main() -> int:
    asked = argparse.ArgumentParser()
    kinds = {"lengths": lengths, "prices": prices, "holding": holding}
    for kind in kinds:
        asked.add_argument(f"--{kind}", type=int, default=0)
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    began, wrong = time.perf_counter(), 0
    for kind, look in kinds.items():
        for seed in range(given.seed, given.seed + getattr(given, kind)):
            SEEN.clear()
            GAPS.clear()
            line, found = look(seed)
            wrong += found
            print(line, flush=True)
    print(f"wrong {wrong}; {time.perf_counter() - began:.0f} s")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
