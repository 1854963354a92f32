"""Solver prices made whole: small fractions where they are such, else never too much."""

from drylay.cutting.master import Master, Prices
from drylay.cutting.model import Piece, Stock, Task, WorkLimits
from drylay.cutting.ready import make_ready
from drylay.cutting.worths import best_direct, worth_of


def one_board(price: int) -> Master:
    stock = (Stock(name="S", length=100, price=price),)
    ready = make_ready(Task(stock=stock, kerf=0, pieces=(Piece(length=30, count=9),)))
    return Master(ready, WorkLimits(), lambda: None)


def priced(worth: float) -> Prices:
    return Prices(
        objective=9 * worth,
        worths=[worth],
        windows=[],
        boards=[0.0],
        unmet=0.0,
        values=[],
        reduced=[],
    )


def test_thirds_become_a_scale_of_three() -> None:
    worth = worth_of(one_board(10), priced(3.3333333333))
    assert (worth.vector.scale, worth.vector.worths) == (3, (10,))
    assert worth.weighed == ((30,), 90, 3)  # three to a board; nine pieces: 90 thirds are 30


def test_no_small_fraction_is_rounded_down() -> None:
    worth = worth_of(one_board(10), priced(3.1415926))
    assert (worth.vector.scale, worth.vector.worths) == (1_000_000, (3141592,))


def test_prices_a_hair_too_high_raise_the_scale() -> None:
    # 3 x 3.3333374 is 10.0000122, more than the board costs: then the scale makes up for it
    worth = worth_of(one_board(10), priced(3.3333474))
    carries, demand, scale = worth.weighed
    assert carries[0] <= 10 * scale
    assert best_direct(one_board(10), [worth]) == 30
    assert demand == 9 * 3333347
