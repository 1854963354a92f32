"""What the last two kinds may leave over, held against going through every number of both."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from drylay.audit import search
from drylay.audit.remainders import LastTwo
from drylay.audit.search import Choice, none_is_cheaper

PRICES = st.tuples(st.integers(1, 9), st.integers(1, 30), st.integers(1, 30))
CARRIED = st.lists(
    st.tuples(st.integers(0, 9), st.integers(0, 30), st.integers(0, 30)), min_size=1, max_size=3
)


def meets(two: LastTwo, counts: tuple[int, ...]) -> bool:
    """Return whether counts of all kinds are paid for and meet every demand."""
    held = [
        sum(n * c for n, c in zip(counts, carried, strict=True)) - demand
        for carried, demand in zip(two.carried, two.demands, strict=True)
    ]
    paid = sum(n * price for n, price in zip(counts, two.prices, strict=True))
    return paid <= two.money and min(held) >= 0


@given(PRICES, CARRIED, st.integers(0, 200), st.integers(0, 300), st.integers(0, 3))
@example((1, 7, 30), [(0, 7, 29)], 0, 200, 0)
@example((1, 30, 1), [(0, 30, 0)], 30, 30, 0)
@settings(max_examples=500, deadline=None)
def test_no_count_that_does_is_left_out(
    prices: tuple[int, ...],
    carried: list[tuple[int, ...]],
    demand: int,
    money: int,
    before: int,
) -> None:
    two = LastTwo(
        prices=prices,
        carried=tuple(carried),
        demands=tuple(demand + 7 * n for n in range(len(carried))),
        money=money,
    )
    left = money - before * prices[0]
    if left < 0:
        return
    last = left // prices[1]
    tried = list(two.worth_trying((before,), 0, last))
    assert tried == sorted(set(tried))
    assert set(tried) <= set(range(last + 1))
    for count in range(last + 1):
        does = any(meets(two, (before, count, n)) for n in range(left // prices[2] + 1))
        assert not does or count in tried


def test_counts_by_hand() -> None:
    """Prices 5 and 7, worth what they cost: to carry 37 with 38, one coin may be left over.

    38 - 5 n leaves, divided by 7, for n = 0 ... 7: 3, 5, 0, 2, 4, 6, 1, 3. That is two of the
    first and four of the second for 38, or six and one for 37.
    """
    two = LastTwo(prices=(5, 7), carried=((5, 7),), demands=(37,), money=38)
    assert list(two.worth_trying((), 0, 7)) == [2, 6]
    assert list(two.worth_trying((), 3, 7)) == [6]
    assert list(two.worth_trying((), 5, 6)) == [6]


def test_nothing_is_tried_where_no_money_is_enough() -> None:
    two = LastTwo(prices=(5, 7), carried=((5, 7), (1, 0)), demands=(37, 9), money=38)
    assert list(two.worth_trying((), 0, 7)) == []


class Tighter(LastTwo):
    """A checker that lets one coin less be left over than it may."""

    def _spare(self, *known: object) -> int:
        return super()._spare(*known) - 1  # type: ignore[arg-type]


def test_letting_less_be_left_over_would_pass_a_purchase_over(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What carries 37 costs 37: six of 5 and one of 7, for what these carry is their price.

    So with 37 to spend none may be left over; "less than none" finds nothing at all.
    """
    buys = (
        Choice(price=5, limit=None, carries=(5,)),
        Choice(price=7, limit=None, carries=(7,)),
    )
    assert none_is_cheaper(buys, (37,), 37)
    assert not none_is_cheaper(buys, (37,), 38)
    monkeypatch.setattr(search, "LastTwo", Tighter)
    assert none_is_cheaper(buys, (37,), 38)


def least_money(buys: tuple[Choice, ...], demand: int) -> int:
    """Return the least money that carries so much, coin by coin."""
    most = [0]
    while most[-1] < demand:
        money = len(most)
        bought = [most[money - b.price] + b.carries[0] for b in buys if b.price <= money]
        most.append(max([most[-1], *bought]))
    return len(most) - 1


@pytest.mark.parametrize("demand", [30_011, 41_234, 52_003])
def test_prices_nearly_alike_by_the_metre_take_few_steps(
    demand: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seven lengths, none worth much more for its money than another, against a table."""
    prices = (1045, 1310, 1565, 1830, 2090, 2355, 2615)
    carries = (1043, 1309, 1561, 1829, 2084, 2353, 2612)
    buys = tuple(
        Choice(price=price, limit=None, carries=(carried,))
        for price, carried in zip(prices, carries, strict=True)
    )
    monkeypatch.setattr(search, "MOST_NODES", 5_000)
    least = least_money(buys, demand)
    assert none_is_cheaper(buys, (demand,), least)
    assert not none_is_cheaper(buys, (demand,), least + 5)
