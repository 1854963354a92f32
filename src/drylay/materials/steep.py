"""Prices of one article's lengths or packs that do not go together: a slip, most likely."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import pairwise

#: A metre, or a screw, may cost so many times more in one length or pack than in another of the
#: same article: beyond lies a slip of the decimal point. Assumption.
MOST_TIMES_A_METRE = 4
MOST_TIMES_EACH = 20

#: A length or a pack's count, and its price.
Priced = tuple[float, Decimal]


def steep_prices(sold: Sequence[Priced], most_times: int) -> Iterator[str]:
    """Yield more that costs less than fewer, and prices too far apart for each."""
    ranked = sorted(sold)
    for (small, price), (large, less) in pairwise(ranked):
        if less < price:
            yield f"{large:g} for {less}, and {small:g} for {price}"
    each = [price / Decimal(str(size)) for size, price in ranked if size and price]
    if each and max(each) > most_times * min(each):
        yield f"one {max(each) / min(each):.0f} times as dear as another, size for size"
