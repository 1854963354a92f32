"""What worth vectors prove, held against counting everything out."""

from itertools import combinations

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from audit.sample_buying import board_proof, fascia_proof
from drylay.audit import worth as worths
from drylay.audit.proofs import bound_holds
from drylay.audit.worth import (
    TooMuchWork,
    arcs_of,
    demands_of_vector,
    densest_first,
    fewest_joints,
    least_way,
    longest_piece,
    most_of_each,
    most_worth,
)
from drylay.cutting.model import Line, Piece, Stock, Task, WorthVector

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


@given(st.integers(0, 60), ITEMS)
def test_most_of_each_is_that_of_every_subset(room: int, items: list[tuple[int, int]]) -> None:
    subsets = (
        chosen
        for count in range(len(items) + 1)
        for chosen in combinations(items, count)
        if sum(size for size, _ in chosen) <= room
    )
    assert most_of_each(room, items) == max(sum(worth for _, worth in one) for one in subsets)


def _too_much(_room: int, _items: object) -> int:
    raise TooMuchWork("a test")


def test_too_many_kinds_of_pieces_are_counted_once_each(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pieces of 600 and 500 from lengths of 1000: one of either fits, though three of 300 would."""
    monkeypatch.setattr(worths, "most_worth", _too_much)
    kinds = {300: 1, 500: 1, 600: 1}
    task = Task(
        stock=(Stock(name="s", length=1000, price=5),), kerf=0,
        pieces=tuple(Piece(length=length, count=count) for length, count in kinds.items()),
    )  # fmt: skip
    vector = WorthVector(scale=1, lengths=(300, 500, 600), worths=(30, 40, 60))
    (demand,) = demands_of_vector(task, vector, ())
    assert demand.carried == (90,)  # 600 and 300; 500 and 300 are 70
    assert demand.least == 130
    lined = evolve(task, lines=(Line(count=1, start=0, end=900, stations=(450,)),))
    with pytest.raises(TooMuchWork):
        demands_of_vector(lined, vector, ((),))


def test_too_many_pieces_are_too_much_work_even_once_each(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worths, "MOST_STEPS", 8)
    with pytest.raises(TooMuchWork):
        most_of_each(1000, [(1, 1), (2, 2), (4, 4), (8, 8)])


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


def test_the_longest_piece_is_that_of_the_longest_board_to_be_had() -> None:
    assert longest_piece(board_proof().task) == 3000 * 320
