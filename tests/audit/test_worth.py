"""What worth vectors prove, held against counting everything out."""

from itertools import product

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from audit.sample_buying import board_proof, fascia_proof
from drylay.audit import search, worth
from drylay.audit.proofs import BY_SEARCH, BY_SUMS, bound_holds
from drylay.audit.search import Choice, none_is_cheaper, proven_by_sums
from drylay.audit.worth import (
    TooMuchWork,
    arcs_of,
    densest_first,
    fewest_joints,
    least_way,
    most_worth,
)
from drylay.cutting.model import Certificate, Line, Proof, Stock, Task, WorthVector
from drylay.cutting.model import Piece as Fixed

ITEMS = st.lists(st.tuples(st.integers(1, 20), st.integers(0, 30)), max_size=5)


def filled(room: int, items: list[tuple[int, int]]) -> int:
    """Return the most worth by filling every room up to this one, step by step."""
    best = [0] * (room + 1)
    for held in range(1, room + 1):
        best[held] = max([best[held - 1], *(best[held - s] + w for s, w in items if s <= held)])
    return best[room]


@given(st.integers(0, 60), ITEMS)
def test_most_worth_is_that_of_filling_room_by_room(
    room: int, items: list[tuple[int, int]]
) -> None:
    assert most_worth(room, densest_first(items)) == filled(room, items)


def test_a_piece_of_no_size_is_too_much_work() -> None:
    with pytest.raises(TooMuchWork):
        densest_first([(0, 1)])


def test_a_board_of_too_many_pieces_is_too_much_work() -> None:
    with pytest.raises(TooMuchWork):
        most_worth(10**9, ((1, 1),))


CHOICES = st.lists(
    st.builds(
        Choice,
        price=st.integers(0, 12),
        limit=st.none() | st.integers(0, 3),
        carries=st.tuples(st.integers(0, 6), st.integers(0, 6)),
    ),
    min_size=1,
    max_size=3,
)


def least_price(buys: list[Choice], demands: tuple[int, int]) -> int | None:
    """Return the least price that meets both demands, by trying every number of each."""
    best = None
    for numbers in product(*(range((8 if b.limit is None else b.limit) + 1) for b in buys)):
        held = [sum(n * b.carries[i] for n, b in zip(numbers, buys, strict=True)) for i in (0, 1)]
        price = sum(n * b.price for n, b in zip(numbers, buys, strict=True))
        if held[0] >= demands[0] and held[1] >= demands[1] and (best is None or price < best):
            best = price
    return best


@given(CHOICES, st.tuples(st.integers(-2, 8), st.integers(-2, 8)))
@settings(max_examples=300)
def test_search_and_sums_against_trying_everything(
    buys: list[Choice], demands: tuple[int, int]
) -> None:
    least = least_price(buys, demands)
    if least is None:
        return
    assert none_is_cheaper(tuple(buys), demands, least)
    assert not none_is_cheaper(tuple(buys), demands, least + search.step_of(tuple(buys)))
    for index, demand in enumerate(demands):
        assert proven_by_sums(tuple(buys), demand, index) <= least


def test_a_search_without_end_is_too_much_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(search, "MOST_NODES", 3)
    buys = (Choice(price=1, limit=None, carries=(1,)), Choice(price=1, limit=None, carries=(2,)))
    with pytest.raises(TooMuchWork):
        none_is_cheaper(buys, (9,), 6)


def test_a_line_that_no_stock_can_make_proves_nothing() -> None:
    proof = fascia_proof()
    line = Line(count=1, start=0, end=900, stations=(1, 899), least_bays=1)
    task = evolve(proof.task, lines=(line,), stock=(Stock(name="s", length=100, price=1),))
    assert fewest_joints(line, arcs_of(line, 100), cap=None) is None
    assert bound_holds(evolve(proof, task=task)) == ("", 0)


def test_a_cap_costs_what_it_forbids() -> None:
    """Three bays of 10: two joints make 10 + 10 + 10, one makes 20 + 10."""
    line = Line(count=1, start=0, end=30, stations=(0, 10, 20, 30), least_bays=1)
    arcs = arcs_of(line, 30)
    worth_of = {10: 1, 20: 5, 30: 9}
    assert least_way(line, arcs, worth_of, {}, cap=None) == 3
    assert least_way(line, arcs, worth_of, {}, cap=1) == 6
    assert least_way(line, arcs, worth_of, {}, cap=0) == 9


def test_a_bound_that_only_a_search_bears_out() -> None:
    """Seven pieces, two to a board of 10.00: 3.5 boards by sums, four in whole ones.

    With boards of 9.00 too, of which there are just two and which hold one piece, sums mix
    them; a search finds 10 x 4 = 40.00 against 10 x 3 + 9 = 39.00.
    """
    task = Task(
        stock=(
            Stock(name="10", length=10, price=1000),
            Stock(name="5", length=5, price=900, limit=2),
        ),
        kerf=0,
        pieces=(Fixed(length=5, count=7),),
    )
    vector = WorthVector(scale=1, lengths=(5,), worths=(1,))

    def proof(bound: int, grade: str) -> Proof:
        certificate = Certificate(grade=grade, bound=bound, vectors=(vector,), nodes=1)
        return Proof(task=task, objective=3900, certificate=certificate)

    assert bound_holds(proof(3500, BY_SUMS)) == (BY_SUMS, 3500)
    assert bound_holds(proof(3900, BY_SUMS)) == ("", 3500)
    assert bound_holds(proof(3900, BY_SEARCH)) == (BY_SEARCH, 3500)
    assert bound_holds(proof(4000, BY_SEARCH)) == ("", 3500)


def test_limited_and_free_stock_in_sums() -> None:
    """A shed with two free boards of worth 3 leaves 10 - 6 = 4 to buy, at 2 a worth of 1."""
    buys = (
        Choice(price=0, limit=2, carries=(3,)),
        Choice(price=2, limit=None, carries=(1,)),
        Choice(price=9, limit=None, carries=(0,)),
    )
    assert proven_by_sums(buys, 10, 0) == 8
    assert proven_by_sums(buys, 5, 0) == 0


def test_the_hand_made_proof_holds_and_a_dearer_one_does_not() -> None:
    assert bound_holds(board_proof()) == (BY_SUMS, 7400)
    assert worth.longest_piece(board_proof().task) == 3000 * 320
