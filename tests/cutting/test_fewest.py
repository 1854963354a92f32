"""What tasks come to at least, against every way there is."""

from itertools import islice
from random import Random

import pytest

from cutting.brute import least_cost, ways_of
from cutting.made_up import tiny_sets
from cutting.tiny import loose_pieces
from drylay.cutting import engine
from drylay.cutting.fewest import by_length, fewest_ways, may_be_whole
from drylay.cutting.model import Line, Piece, Stock, Task
from drylay.cutting.verify import longest_usable

SEEDS = range(40)


def tasks() -> list[Task]:
    return [make(Random(f"fewest {seed}")) for seed in SEEDS for make in (tiny_sets, loose_pieces)]


def test_no_plan_costs_less_than_the_least_cost_told() -> None:
    """By brute force over all sequences of lines and all cuttings."""
    told = 0
    for task in tasks():
        truth = least_cost(task)
        if truth is None:
            continue
        for least in (engine.least_cost(task), by_length(task)):
            assert least is not None
            assert least <= truth
            told += least == truth
    assert told > 20  # a floor of nothing would hold too


def test_no_line_has_fewer_joints() -> None:
    for task in tasks():
        longest = longest_usable(task)
        counts = [
            min((len(joints) for joints, pieces in ways_of(line) if max(pieces) <= longest),
                default=None)
            for line in task.lines
        ]  # fmt: skip
        found = fewest_ways(task)
        assert (found is None) == (None in counts)
        assert found is None or [len(way) for way in found] == counts


def test_a_piece_that_no_board_can_give_has_no_least_cost() -> None:
    stock = (Stock(name="S", length=1000, price=10),)
    assert (
        engine.least_cost(Task(stock=stock, kerf=0, pieces=(Piece(length=1001, count=1),))) is None
    )
    assert engine.least_cost(Task(stock=stock, kerf=0)) == 0
    line = Line(count=1, start=0, end=2001, stations=(0, 1000, 2001))
    assert fewest_ways(Task(stock=stock, kerf=0, lines=(line,))) is None
    assert by_length(Task(stock=stock, kerf=0, lines=(line,))) is None


@pytest.mark.parametrize(("trim", "whole"), [(0, {1000, 2000}), (5, set())])
def test_only_what_is_as_long_as_sold_may_have_no_end_sawn(trim: int, whole: set[int]) -> None:
    """A line of 2000 with a station at its middle may be two boards of 1000 as they are sold."""
    stock = (Stock(name="S", length=1000, price=10, trim=trim),
             Stock(name="L", length=2100, price=21, trim=trim))  # fmt: skip
    line = Line(count=1, start=0, end=2000, stations=(0, 1000, 2000), least_bays=1)
    task = Task(stock=stock, kerf=0, pieces=(Piece(length=700, count=2),), lines=(line,))
    assert may_be_whole(task) == whole


def test_by_hand() -> None:
    """Two pieces of 400 and two kerfs of 10 out of 990 + 10 at 100: 820 / 1000 x 100 = 82."""
    stock = (Stock(name="S", length=990, price=100),)
    task = Task(stock=stock, kerf=10, pieces=(Piece(length=400, count=2),))
    assert by_length(task) == 82
    assert list(islice(fewest_ways(task) or (), 1)) == []
