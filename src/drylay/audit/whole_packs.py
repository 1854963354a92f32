"""Lengths sold in whole packs only: what is bought of them fills their packs, and no more."""

from collections import Counter
from collections.abc import Iterator

from drylay.audit.cutting import BUYING
from drylay.audit.exact import ceil_div, ticks
from drylay.audit.flaws import same_count
from drylay.audit.model import ClosedCheck, Flaw, Witness, WitnessedCheck
from drylay.audit.shops import SALE, lengths_of, stock_of
from drylay.audit.wanted import buying_of
from drylay.buying.model import Buying, WholePacks
from drylay.plan.model import Plan


def _sawn(buying: Buying) -> Counter[tuple[str, int]]:
    return Counter(
        (purchase.article, ticks(bought.length_mm))
        for purchase in buying.purchases
        for bought in purchase.lengths
    )


def _size(whole: WholePacks) -> tuple[str, int]:
    return whole.article, ticks(whole.length_mm)


def packs_are_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless packs hold what is sawn and spare, and one fewer would not."""
    buying = buying_of(plan)
    sawn = _sawn(buying)
    for whole in buying.whole_packs:
        subject = f"{whole.article} {whole.length_mm:g}, packs of {whole.pack}"
        if whole.pack < 2:
            yield Flaw(subject=subject, message="packs of one are no packs", source=BUYING)
            continue
        message = "sawn out of the packs, against the lengths bought"
        yield from same_count(subject, message, whole.sawn, sawn[_size(whole)], BUYING)
        message = "packs that hold what is sawn and spare"
        wanted = ceil_div(whole.sawn + whole.spare, whole.pack)
        yield from same_count(subject, message, whole.packs, wanted, BUYING)
    sizes = Counter(map(_size, buying.whole_packs))
    for (article, length), count in sizes.items():
        if count > 1:
            message = "packed twice"
            yield Flaw(subject=f"{article} {length / 320:g}", message=message, source=BUYING)


def packs_as_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where a length is sold in whole packs otherwise than the plan says."""
    stock, buying = stock_of(witness), buying_of(plan)
    told = {_size(whole): whole.pack for whole in buying.whole_packs}
    for article, length in _sawn(buying):
        sold = {ticks(each.length_mm): each.pack for each in lengths_of(stock, article)}
        message = "lengths in a pack, against the stock"
        found, wanted = told.get((article, length), 1), sold.get(length, 1)
        yield from same_count(f"{article} {length / 320:g}", message, found, wanted, SALE)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-732", "lengths sold in whole packs are bought so", packs_are_whole),
)
WITNESSED: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W29", "lengths are packed as the stock says", packs_as_told),
)
