"""The search over whole boards, held against trying every number of each."""

from collections.abc import Sequence
from itertools import product

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from audit.sample_buying import board_proof
from drylay.audit import search
from drylay.audit.proofs import BY_SPLITS, BY_SUMS, bound_holds
from drylay.audit.search import Ceiling, Choice, none_is_cheaper, proven_by_sums
from drylay.audit.worth import TooMuchWork
from drylay.cutting.model import Certificate, Piece, Proof, Stock, Task, WorthVector


def choices_of(
    vectors: int, price: int, carried: int, limits: st.SearchStrategy[int | None]
) -> st.SearchStrategy[Choice]:
    return st.builds(
        Choice,
        price=st.integers(0, price),
        limit=limits,
        carries=st.tuples(*[st.integers(0, carried)] * vectors),
    )


FEW = st.lists(choices_of(2, 12, 6, st.none() | st.integers(0, 3)), min_size=1, max_size=3)
MANY = st.lists(choices_of(3, 40, 50, st.integers(0, 5)), min_size=1, max_size=4)


def least_price(buys: Sequence[Choice], demands: tuple[int, ...], unlimited: int = 8) -> int | None:
    """Return the least price that meets all demands, by trying every number of each."""
    numbers_of = (range((unlimited if b.limit is None else b.limit) + 1) for b in buys)
    best = None
    for numbers in product(*numbers_of):
        pairs = list(zip(numbers, buys, strict=True))
        held = [sum(n * b.carries[i] for n, b in pairs) for i in range(len(demands))]
        price = sum(n * b.price for n, b in pairs)
        meets = all(h >= d for h, d in zip(held, demands, strict=True))
        if meets and (best is None or price < best):
            best = price
    return best


@given(FEW, st.tuples(st.integers(-2, 8), st.integers(-2, 8)))
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


@given(MANY, st.tuples(*[st.integers(0, 400)] * 3), st.integers(0, 10))
@settings(max_examples=300, deadline=None)
def test_search_of_limited_boards_against_trying_everything(
    buys: list[Choice], demands: tuple[int, int, int], more: int
) -> None:
    least = least_price(buys, demands)
    assert none_is_cheaper(tuple(buys), demands, 10_000) == (least is None)
    if least is not None:
        assert none_is_cheaper(tuple(buys), demands, least - more)
        assert not none_is_cheaper(tuple(buys), demands, least + search.step_of(tuple(buys)))


@given(MANY, st.tuples(*[st.integers(0, 400)] * 3))
def test_what_is_found_on_the_way_saves_work_and_changes_no_answer(
    buys: list[Choice], demands: tuple[int, int, int]
) -> None:
    found, digits = search.MOST_FOUND, search.MOST_BITS
    least = least_price(buys, demands)
    price = 10_000 if least is None else least
    try:
        for search.MOST_FOUND, search.MOST_BITS in ((0, digits), (1, digits), (found, 0)):
            assert none_is_cheaper(tuple(buys), demands, price)
    finally:
        search.MOST_FOUND, search.MOST_BITS = found, digits


def test_a_ceiling_that_is_too_low_would_pass_a_purchase_over(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Boards of 3 carry 2 and of 5 carry 4; 8 carried cost 10, not 9: two of the second.

    With ceilings one lower than they follow from the task the purchase for 10 is passed over.
    """
    buys = (
        Choice(price=3, limit=None, carries=(2,)),
        Choice(price=5, limit=None, carries=(4,)),
    )
    assert none_is_cheaper(buys, (8,), 10)
    assert not none_is_cheaper(buys, (8,), 11)
    lower = lambda **known: Ceiling(times=known["times"], most=known["most"] - 1)  # noqa: E731
    monkeypatch.setattr(search, "Ceiling", lower)
    assert none_is_cheaper(buys, (8,), 11)


def some_lengths(kinds: int) -> tuple[Choice, ...]:
    """Return boards of 7, 8, 9 ... for so much money less one: no two are alike."""
    return tuple(Choice(price=6 + n, limit=None, carries=(7 + n,)) for n in range(kinds))


def test_a_search_without_end_is_too_much_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(search, "MOST_NODES", 3)
    with pytest.raises(TooMuchWork):
        none_is_cheaper(some_lengths(4), (100,), 88)


def test_a_search_over_more_lengths_than_anybody_sells_is_too_much_work() -> None:
    with pytest.raises(TooMuchWork):
        none_is_cheaper(some_lengths(101), (1000,), 900)


def test_a_board_that_is_of_no_use_is_not_bought() -> None:
    """All that carries anything is out of reach, so nothing is cheaper than any price."""
    buys = (
        Choice(price=9, limit=None, carries=(5,)),
        Choice(price=1, limit=0, carries=(5,)),
        Choice(price=1, limit=None, carries=(0,)),
    )
    assert none_is_cheaper(buys, (3,), 9)
    assert not none_is_cheaper(buys, (3,), 10)


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
        pieces=(Piece(length=5, count=7),),
    )
    vector = WorthVector(scale=1, lengths=(5,), worths=(1,))

    def proof(bound: int, grade: str) -> Proof:
        certificate = Certificate(grade=grade, bound=bound, vectors=(vector,), nodes=1)
        return Proof(task=task, objective=3900, certificate=certificate)

    assert bound_holds(proof(3500, BY_SUMS)) == (BY_SUMS, 3500)
    assert bound_holds(proof(3900, BY_SUMS)) == ("", 3500)
    assert bound_holds(proof(3900, BY_SPLITS)) == (BY_SPLITS, 3500)
    assert bound_holds(proof(4000, BY_SPLITS)) == ("", 3500)


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
    proof = board_proof()
    assert bound_holds(proof) == (BY_SUMS, 7400)
    dearer = evolve(proof.certificate, bound=7450, grade=BY_SPLITS)
    assert bound_holds(evolve(proof, objective=7450, certificate=dearer)) == ("", 7400)
