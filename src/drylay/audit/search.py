"""Whether any purchase below a price meets a set of demands: by sums, else by full search."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import gcd
from operator import mul

from attrs import frozen

from drylay.audit.remainders import LastTwo
from drylay.audit.worth import Demand, TooMuchWork

MOST_NODES = 1_000_000
MOST_KINDS = 100
#: So many ceilings are kept of those found, of so many binary digits: more slow the search.
MOST_FOUND, MOST_BITS = 60, 4096


@frozen(kw_only=True)
class Choice:
    """Something that may be bought in whole numbers: its price, its limit, what it carries."""

    price: int
    limit: int | None
    carries: tuple[int, ...]


def choices(
    prices: tuple[int, ...],
    limits: tuple[int | None, ...],
    joint_price: int,
    demands: tuple[Demand, ...],
) -> tuple[Choice, ...]:
    """Return boards of each stock, and joints, as things to be bought."""
    boards = [
        Choice(price=price, limit=limit, carries=tuple(demand.carried[i] for demand in demands))
        for i, (price, limit) in enumerate(zip(prices, limits, strict=True))
    ]
    joints = Choice(
        price=joint_price, limit=None, carries=tuple(demand.joint for demand in demands)
    )
    return (*boards, joints)


def proven_by_sums(buys: tuple[Choice, ...], demand: int, index: int) -> int:
    """Return the least price that one demand alone proves, rounded up to what prices make up.

    The dearest way to carry worth is never needed: boards are taken by price per worth.
    """
    left, price = Fraction(demand), Fraction(0)
    useful = [buy for buy in buys if buy.carries[index] > 0]
    for buy in sorted(useful, key=lambda buy: Fraction(buy.price, buy.carries[index])):
        if left <= 0:
            break
        boards = left / buy.carries[index]
        taken = boards if buy.limit is None else min(boards, Fraction(buy.limit))
        left -= taken * buy.carries[index]
        price += taken * buy.price
    return _up_to_step(price, step_of(buys))


def step_of(buys: tuple[Choice, ...]) -> int:
    """Return the greatest step in which every sum of prices is counted."""
    return gcd(*(buy.price for buy in buys)) or 1


def _up_to_step(price: Fraction, step: int) -> int:
    return -(-price.numerator // (price.denominator * step)) * step


def none_is_cheaper(buys: tuple[Choice, ...], demands: tuple[int, ...], price: int) -> bool:
    """Return whether no whole numbers below a price meet every demand.

    Raises:
        TooMuchWork: The search asks for more nodes than the audit spends.
    """
    step = step_of(buys)
    money = (price - 1) // step * step
    if money < 0:
        return True
    wanted = _wanted_for_money(buys, demands)
    if not wanted:
        return False
    kinds = _kinds(buys, wanted, money)
    for index, demand in wanted.items():
        if sum(most * buy.carries[index] for buy, most in kinds) < demand:
            return True
    if len(kinds) > MOST_KINDS:
        raise TooMuchWork("a search over so many lengths")
    try:
        _Counts(_known(kinds, wanted, money), _last_two(kinds, wanted, money)).end()
    except _Met:
        return False
    return True


def most_of_use(buy: Choice, wanted: Mapping[int, int]) -> int:
    """Return how many can be had, and no more than meet every demand by themselves."""
    gains = [(demand, buy.carries[index]) for index, demand in wanted.items()]
    most = max((-(-demand // gain) for demand, gain in gains if gain > 0), default=0)
    return most if buy.limit is None else min(most, buy.limit)


def _wanted_for_money(buys: tuple[Choice, ...], demands: tuple[int, ...]) -> dict[int, int]:
    """Return the demands that are left once all that costs nothing is taken."""
    wanted = {index: demand for index, demand in enumerate(demands) if demand > 0}
    for buy in buys:
        if buy.price == 0:
            most = most_of_use(buy, wanted)
            left = {index: demand - most * buy.carries[index] for index, demand in wanted.items()}
            wanted = {index: demand for index, demand in left.items() if demand > 0}
    return wanted


def _kinds(
    buys: tuple[Choice, ...], wanted: Mapping[int, int], money: int
) -> list[tuple[Choice, int]]:
    """Return what may be bought for money, each with the most of it that is of use.

    What there is an end of comes first, then what few counts are open to: later ones are
    mostly settled by those before.
    """
    kinds = []
    for buy in buys:
        most = min(most_of_use(buy, wanted), money // buy.price) if buy.price > 0 else 0
        if most > 0:
            kinds.append((buy, most))
    few_first = {buy: _open_counts(buy, kinds, wanted, money) for buy, _ in kinds}
    return sorted(
        kinds, key=lambda kind: (kind[0].limit is None, few_first[kind[0]], -kind[0].price)
    )


def _open_counts(
    buy: Choice, kinds: list[tuple[Choice, int]], wanted: Mapping[int, int], money: int
) -> int:
    """Return how many of a kind may be bought while others, without end, meet each demand."""
    most = money // buy.price
    for index, demand in wanted.items():
        carried, price = _best_rate([one for one, _ in kinds if one is not buy], index)
        lost = carried * buy.price - buy.carries[index] * price
        if lost > 0:
            most = min(most, (carried * money - demand * price) // lost)
    return most


def _best_rate(buys: Sequence[Choice], index: int) -> tuple[int, int]:
    """Return what carries most of a demand for its price, as (carried, price)."""
    rates = [(buy.carries[index], buy.price) for buy in buys]
    return max(rates, key=lambda rate: Fraction(*rate), default=(0, 1))


@frozen(kw_only=True)
class Ceiling:
    """The first few counts, each so many times, add up to so much at most."""

    times: tuple[int, ...]
    most: int


def _known(
    kinds: list[tuple[Choice, int]], wanted: Mapping[int, int], money: int
) -> list[list[Ceiling]]:
    """Return ceilings of the first count, the first two ... to begin with.

    For each: the most and the least of the last count, then what all may cost, then for each
    demand what they may leave to the others. With all counts these are the demands.
    """
    known = []
    for number, (_, most) in enumerate(kinds):
        nought = (0,) * number
        before, after = kinds[: number + 1], [buy for buy, _ in kinds[number + 1 :]]
        ceilings = [
            Ceiling(times=(*nought, 1), most=most),
            Ceiling(times=(*nought, -1), most=0),
            Ceiling(times=tuple(buy.price for buy, _ in before), most=money),
        ]
        for index, demand in wanted.items():
            # of money x carried / price at most, what is spent on these counts is not spent
            carried, price = _best_rate(after, index)
            lost = tuple(carried * buy.price - price * buy.carries[index] for buy, _ in before)
            ceilings.append(Ceiling(times=lost, most=carried * money - price * demand))
        known.append(ceilings)
    return known


def _last_two(
    kinds: list[tuple[Choice, int]], wanted: Mapping[int, int], money: int
) -> LastTwo | None:
    """Return the last two kinds, None where there is an end of the last or it is the only one."""
    if len(kinds) < 2 or kinds[-1][0].limit is not None:
        return None
    return LastTwo(
        prices=tuple(buy.price for buy, _ in kinds),
        carried=tuple(tuple(buy.carries[index] for buy, _ in kinds) for index in wanted),
        demands=tuple(wanted.values()),
        money=money,
    )


class _Met(Exception):  # noqa: N818 - no error: it ends the search
    """Counts were found that meet every demand within the money."""


class _Counts:
    """How many of each kind, settled kind by kind, and the ceilings known of them.

    Where the counts settled so far leave the next one no room, the ceiling that keeps it up
    and the one that keeps it down are added up so often that it falls out. What is left is a
    ceiling of the counts before, which these break, and mostly many others too: they are not
    gone through again. All that is known follows from the task, so nothing is passed over
    that would meet the demands.
    """

    def __init__(self, known: list[list[Ceiling]], last_two: LastTwo | None) -> None:
        self.known, self.last_two = known, last_two
        self.counts, self.nodes = list[int](), 0
        self.given = [len(ceilings) for ceilings in known]

    def end(self) -> Ceiling | None:
        """Return when no later counts do: a ceiling that these counts break, if one is found.

        Raises:
            _Met: Counts of all kinds do.
            TooMuchWork: The search asks for more nodes than the audit spends.
        """
        self.nodes += 1
        if self.nodes > MOST_NODES:
            raise TooMuchWork("a search over whole boards")
        number = len(self.counts)
        if number == len(self.known):
            raise _Met
        ceilings = self.known[number]
        span = _Span(self.counts, ceilings)
        for count in self._tried(span):
            self.counts.append(count)
            found = self.end()
            self.counts.pop()
            if found is not None:
                span.heed(found)
                ceilings.append(found)
                if len(ceilings) > self.given[number] + MOST_FOUND:
                    del ceilings[self.given[number]]
        return span.broken()

    def _tried(self, span: "_Span") -> Iterator[int]:
        """Yield the counts to be tried, one after the other, as far as the span is open then."""
        if self.last_two is None or len(self.counts) + 2 != len(self.known):
            while span.is_open():
                yield span.count
                span.count += 1
        elif span.is_open():
            yield from self.last_two.worth_trying(self.counts, span.count, span.last())


class _Span:
    """What is open to the next count: kept up by one ceiling and down by another.

    Each is held as how often the count stands in it and what the counts before leave.
    """

    def __init__(self, counts: list[int], ceilings: list[Ceiling]) -> None:
        self.counts, self.count = counts, 0
        self.never: Ceiling | None = None
        most, least, *others = ceilings
        self.down, self.up = (1, most.most, most), (1, least.most, least)
        for ceiling in others:
            self.heed(ceiling)

    def heed(self, ceiling: Ceiling) -> None:
        """Take a ceiling into account: the tightest on either side counts."""
        times = ceiling.times[-1]
        left = ceiling.most - sum(map(mul, ceiling.times, self.counts))
        if times > 0:
            if left * self.down[0] < self.down[1] * times:
                self.down = (times, left, ceiling)
        elif times < 0:
            if left * self.up[0] < self.up[1] * -times:
                self.up = (-times, left, ceiling)
        elif left < 0:
            self.never = ceiling

    def is_open(self) -> bool:
        """Return whether a count is left to be tried, and move on to the next that is."""
        self.count = max(self.count, -(self.up[1] // self.up[0]))
        return self.never is None and self.count <= self.last()

    def last(self) -> int:
        """Return the last count that is open, if any is."""
        return self.down[1] // self.down[0]

    def broken(self) -> Ceiling | None:
        """Return a ceiling of the counts before that they break, None where none was found.

        A common factor is divided out and what is left over rounded down, as counts are whole.
        """
        if self.never is not None:
            times, most = self.never.times[:-1], self.never.most
        else:
            (ups, _, up), (downs, _, down) = self.up, self.down
            pairs = zip(up.times[:-1], down.times[:-1], strict=True)
            times = tuple(downs * one + ups * other for one, other in pairs)
            most = downs * up.most + ups * down.most
        share = gcd(*times) or 1
        times, most = tuple(number // share for number in times), most // share
        if most.bit_length() > MOST_BITS or sum(map(mul, times, self.counts)) <= most:
            return None
        return Ceiling(times=times, most=most)
