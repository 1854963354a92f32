"""The last two kinds of a search: money is spent in whole numbers, and little may be left over."""

from collections.abc import Iterable, Sequence
from math import gcd
from operator import mul

from attrs import frozen


@frozen(kw_only=True)
class LastTwo:
    """The last kind but one and the last one, which may be bought without end.

    `prices` are those of all kinds, `carried` what each demand is met by: by kind, in order.
    """

    prices: tuple[int, ...]
    carried: tuple[tuple[int, ...], ...]
    demands: tuple[int, ...]
    money: int

    def worth_trying(self, counts: Sequence[int], first: int, last: int) -> Iterable[int]:
        """Return counts of the last kind but one, from first to last, that may do.

        Of the last kind nothing speaks against as many as the money left buys: p for each,
        with r < p left over. Where one of it carries c, the money left could have carried c/p
        for each coin of it, and r coins carry nothing. So c r is no more than that would be
        beyond the demand, times p. Counts that leave more over are left out.
        """
        one, price = self.prices[-2:]
        left = self.money - sum(map(mul, self.prices, counts))
        spare = self._spare(counts, left, (first, last))
        share = gcd(one, price)
        remainders = range(left % share, spare + 1, share)
        if len(remainders) >= last + 1 - first:
            return (n for n in range(first, last + 1) if (left - n * one) % price <= spare)
        # the counts that leave r over follow one another in equal steps
        step = price // share
        back = pow(one // share, -1, step)
        found: list[int] = []
        for remainder in remainders:
            number = (left - remainder) // share * back
            found += range(first + (number - first) % step, last + 1, step)
        return sorted(found)

    def _spare(self, counts: Sequence[int], left: int, span: tuple[int, int]) -> int:
        """Return the most money that may be left over, less than the last kind's price."""
        one, price = self.prices[-2:]
        spare = price - 1
        for carried, demand in zip(self.carried, self.demands, strict=True):
            short = demand - sum(map(mul, carried, counts))
            beyond = max(
                (left - n * one) * carried[-1] - (short - n * carried[-2]) * price for n in span
            )
            if beyond < 0:
                return -1
            if carried[-1] > 0:
                spare = min(spare, beyond // carried[-1])
        return spare
