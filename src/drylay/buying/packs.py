"""Packs: the cheapest choice of boxes that holds what is needed, found by counting all."""

from decimal import Decimal
from math import gcd

from drylay.buying.model import PackCount, PackPurchase
from drylay.materials.stock_model import Pack


def buy_packs(
    *,
    what: str,
    article: str,
    need: int,
    spare: int,
    packs: tuple[Pack, ...],
    unit: str = "pieces",
) -> PackPurchase:
    """Return the cheapest packs that hold need + spare; fewer packs break ties.

    Exact: every reachable count up to the need is priced, so the bound is the cost.
    Source: arithmetic (covering by dynamic programming).
    """
    chosen = _cheapest(need + spare, packs)
    cost = sum((pack.price * count for pack, count in chosen), Decimal(0))
    return PackPurchase(
        what=what,
        article=article,
        unit=unit,
        need=need,
        spare=spare,
        packs=tuple(
            PackCount(pack=pack.count, packs=count, price=pack.price) for pack, count in chosen
        ),
        cost=cost,
        bound=cost,
    )


def _cheapest(total: int, packs: tuple[Pack, ...]) -> list[tuple[Pack, int]]:
    step = gcd(*(pack.count for pack in packs))
    sizes = [pack.count // step for pack in packs]
    want = -(-total // step)
    # least (price, packs) that hold at least `held`, and the pack taken to get there
    best: list[tuple[Decimal, int]] = [(Decimal(0), 0)]
    taken = [-1]
    for held in range(1, want + 1):
        options = []
        for index, (size, pack) in enumerate(zip(sizes, packs, strict=True)):
            price, count = best[max(0, held - size)]
            options.append((price + pack.price, count + 1, index))
        price, count, index = min(options)
        best.append((price, count))
        taken.append(index)
    return _gathered(want, taken, sizes, packs)


def _gathered(
    want: int, taken: list[int], sizes: list[int], packs: tuple[Pack, ...]
) -> list[tuple[Pack, int]]:
    counts = [0] * len(packs)
    held = want
    while held > 0:
        counts[taken[held]] += 1
        held -= sizes[taken[held]]
    chosen = [(pack, count) for pack, count in zip(packs, counts, strict=True) if count]
    return sorted(chosen, key=lambda pair: -pair[0].count)
