"""Buying: offcuts, packs, spares and sums, by hand and by brute force."""

from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.buying.order import place_order, spare_count, spare_lengths
from drylay.buying.packs import buy_packs
from drylay.buying.purchase import minor, money, offcut, pieces_of, purchase, stock_of
from drylay.cutting.engine import solve
from drylay.cutting.model import Stock, Task
from drylay.materials.stock_model import Pack, StockLength

packs = st.lists(
    st.tuples(st.integers(1, 60), st.integers(1, 5_000)),
    min_size=1,
    max_size=3,
    unique_by=lambda p: p[0],
).map(lambda found: tuple(Pack(count=c, price=Decimal(p).scaleb(-2)) for c, p in found))


@given(st.integers(0, 150), st.integers(0, 20), packs)
def test_packs_against_every_choice_there_is(need: int, spare: int, sold: tuple[Pack, ...]) -> None:
    found = buy_packs(what="screws", article="S", need=need, spare=spare, packs=sold)
    total = need + spare
    assert sum(choice.pack * choice.packs for choice in found.packs) >= total
    ranges = [range(-(-total // pack.count) + 1) for pack in sold]
    least = min(
        sum(pack.price * count for pack, count in zip(sold, counts, strict=True))
        for counts in product(*ranges)
        if sum(p.count * c for p, c in zip(sold, counts, strict=True)) >= total
    )
    assert found.cost == found.bound == least
    assert sum(choice.price * choice.packs for choice in found.packs) == least


def test_nothing_needed_nothing_bought() -> None:
    found = buy_packs(
        what="s", article="S", need=0, spare=0, packs=(Pack(count=200, price=Decimal("9.00")),)
    )
    assert found.packs == ()
    assert found.cost == 0


@pytest.mark.parametrize(
    ("pieces", "left", "where"),
    [
        ((2400,), 0, "a piece as long as the board needs no cut"),
        ((2398,), 0, "2 left is less than a kerf of 4"),
        ((2396,), 0, "4 left is the kerf itself"),
        ((1150, 1150), 92, "2400 - 2 x 1150 - 2 x 4, worked separately"),
    ],
)
def test_offcut_by_hand(pieces: tuple[int, ...], left: int, where: str) -> None:
    stock = Stock(name="2400", length=2400, price=1)
    assert offcut(stock, pieces, 4) == left, where


@given(st.decimals(min_value=0, max_value=10**6, places=2))
def test_money_goes_to_minor_units_and_back(price: Decimal) -> None:
    assert money(minor(price, 2), 2) == price


def test_money_finer_than_the_currency_is_refused() -> None:
    with pytest.raises(ValueError, match="decimals"):
        minor(Decimal("1.005"), 2)


@pytest.mark.parametrize(
    ("ratio", "count", "spares"), [(0.05, 30, 2), (0.05, 20, 1), (0.05, 0, 0), (0.1, 30, 3)]
)
def test_spares_are_rounded_up_but_not_by_binary_dust(
    ratio: float, count: int, spares: int
) -> None:
    """0.1 x 30 is 3, not 4: the ratio is read as the decimal it was written as."""
    assert spare_count(ratio, count) == spares


def bought_from(sold: tuple[StockLength, ...], named: list[tuple[str, float]]) -> object:
    task = Task(
        stock=stock_of(sold, end_trim_mm=0.0, minor_digits=2), kerf=4 * 320, pieces=pieces_of(named)
    )
    return purchase(
        what="boards", article="DB", mark="DB", plan=solve(task), named_mm=named, minor_digits=2
    )


def test_every_named_piece_is_sawn_once() -> None:
    sold = (StockLength(length_mm=2400.0, price=Decimal("4.80")),)
    named = [(f"B{n}.1", 1150.0) for n in range(1, 6)]
    found = bought_from(sold, named)
    assert sorted(mark for length in found.lengths for mark in length.pieces) == sorted(
        mark for mark, _ in named
    )
    assert [length.mark for length in found.lengths] == ["DB1", "DB2", "DB3"]
    assert found.cost == Decimal("14.40")
    assert found.bound == found.objective == found.cost


def test_spares_come_from_the_longest_length_as_far_as_it_lasts() -> None:
    sold = (
        StockLength(length_mm=2400.0, price=Decimal("4.80")),
        StockLength(length_mm=3600.0, price=Decimal("7.20"), limit=2),
        StockLength(length_mm=6000.0, price=Decimal("99.00")),
    )
    named = [("a", 3500.0), *((f"b{n}", 2300.0) for n in range(39))]
    found = bought_from(sold, named)
    spares = spare_lengths(found, "boards", sold, 0.05)
    assert [(line.length_mm, line.quantity) for line in spares.lines] == [(3600.0, 1), (2400.0, 1)]
    assert (spares.missing, spares.whole_packs) == (0, ())
    spares = spare_lengths(
        found, "boards", (StockLength(length_mm=2400.0, price=Decimal("4.80"), limit=40),), 0.05
    )
    assert (sum(line.quantity for line in spares.lines), spares.missing) == (1, 1)


@pytest.mark.parametrize(
    ("pack", "ratio", "packs", "spare", "more"),
    [
        # by hand: 39 pieces of 2300 want 39 lengths of 2400
        (4, 0.05, 11, 2, 5),  # 2 spare: 41, eleven packs of 4 hold 44
        (4, 0.0, 10, 0, 1),
        (13, 0.0, 3, 0, 0),  # three packs of 13 hold just 39
        (13, 0.05, 4, 2, 13),
        (100, 0.05, 1, 2, 61),
    ],
)
def test_what_is_sold_in_whole_packs_is_filled_up_to_them(
    pack: int, ratio: float, packs: int, spare: int, more: int
) -> None:
    sold = (StockLength(length_mm=2400.0, price=Decimal("4.80"), pack=pack),)
    found = bought_from(sold, [(f"b{n}", 2300.0) for n in range(39)])
    spares = spare_lengths(found, "boards", sold, ratio)
    assert sum(line.quantity for line in spares.lines) == more
    (whole,) = spares.whole_packs
    assert (whole.pack, whole.packs, whole.sawn, whole.spare) == (pack, packs, 39, spare)
    assert whole.pack * whole.packs == 39 + more


def test_totals_are_sums_of_their_lines() -> None:
    sold = (StockLength(length_mm=2400.0, price=Decimal("4.80")),)
    found = bought_from(sold, [("a", 1000.0)])
    spares = spare_lengths(found, "boards", sold, 0.05).lines
    buying = place_order(
        currency="GBP",
        vat="included",
        kerf_mm=4.0,
        end_trim_mm=0.0,
        spare_ratio=0.05,
        purchases=(found,),
        packs=(),
        order=[],
        spares=spares,
    )
    assert (buying.order_total, buying.spares_total, buying.total) == (
        0,
        Decimal("4.80"),
        Decimal("4.80"),
    )
