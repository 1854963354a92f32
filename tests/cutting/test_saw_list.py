"""A saw list has every piece once, cuts that fit, and lines that are finished early."""

from collections import Counter
from contextlib import suppress
from itertools import pairwise
from random import Random

import pytest
from attrs import evolve

from cutting.rules import pieces_of
from cutting.tiny import loose_pieces, one_set
from drylay.cutting.engine import solve
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.model import CutPlan, Line, Piece, Stock, Task
from drylay.cutting.saw_list import saw_list
from drylay.cutting.uses_model import SawnBoard


def tiny_plan(seed: int) -> CutPlan:
    rng = Random(seed)
    while True:
        task = one_set(rng) if seed % 3 else loose_pieces(rng)
        lines = tuple(evolve(line, count=line.count + 3) for line in task.lines)
        stock = tuple(evolve(its, limit=None) for its in task.stock)
        with suppress(NoPlan):
            return solve(evolve(task, lines=lines, stock=stock), mode="quick")


def places_wanted(plan: CutPlan) -> Counter:
    """Return (set, line, piece, length) of everything the task wants, counted on its own."""
    task, found = plan.proof.task, Counter()
    for s, (line, joints) in enumerate(zip(task.lines, plan.joints, strict=True), 1):
        for number, of_line in enumerate(joints, 1):
            for piece, length in enumerate(pieces_of(line, of_line), 1):
                found[s, number, piece, length] += 1
    singles = [piece.length for piece in task.pieces for _ in range(piece.count)]
    for piece, length in enumerate(singles, 1):
        found[None, None, piece, length] += 1
    return found


def assert_measured(board: SawnBoard, stock: Stock, kerf: int) -> None:
    """Every piece is whole between what the saw takes, from end to end of the board."""
    assert list(board.pieces) == sorted(board.pieces, key=lambda piece: -piece.length)
    taken = [(cut.at, cut.to) for cut in board.cuts]
    whole = [(piece.starts, piece.ends) for piece in board.pieces]
    for piece in board.pieces:
        assert piece.ends - piece.starts == piece.length
        assert stock.trim <= piece.starts
        assert piece.ends <= stock.length - stock.trim
        assert piece.ends in [cut.at for cut in board.cuts] or piece.ends == stock.length
    strips = sorted([*taken, *whole])
    assert all(one[1] <= other[0] for one, other in pairwise(strips))
    inner = taken[1:] if stock.trim else taken
    assert all(to - at == min(kerf, stock.length - at) for at, to in inner)
    used = max([stock.trim, *(end for _, end in strips)])
    assert board.offcut == max(0, stock.length - stock.trim - used)


@pytest.mark.parametrize("seed", range(40))
def test_every_piece_is_sawn_once_and_fits(seed: int) -> None:
    plan = tiny_plan(seed)
    told = saw_list(plan)
    found = Counter(
        (piece.place.lines, piece.place.line, piece.place.piece, piece.length)
        for board in told.boards
        for piece in board.pieces
    )
    assert found == places_wanted(plan)
    assert [board.number for board in told.boards] == list(range(1, len(told.boards) + 1))
    counts = Counter((b.stock, tuple(p.length for p in b.pieces)) for b in told.boards)
    assert counts == Counter({(cut.stock, cut.pieces): cut.boards for cut in plan.cuts})
    stock = {its.name: its for its in plan.proof.task.stock}
    for board in told.boards:
        assert_measured(board, stock[board.stock], plan.proof.task.kerf)
        assert board.usable == (board.offcut > 0 and board.offcut >= told.least_offcut)


@pytest.mark.parametrize("seed", range(40))
def test_each_board_helps_the_first_line_that_is_not_finished(seed: int) -> None:
    plan = tiny_plan(seed)
    left = Counter((s, line) for s, line, _, _ in places_wanted(plan).elements() if s)
    whole, most = dict(left), 0
    for board in saw_list(plan).boards:
        served = [(p.place.lines, p.place.line) for p in board.pieces]
        waiting = sorted(line for line, count in left.items() if count)
        assert not waiting or waiting[0] in served
        left.subtract(line for line in served if line[0])
        most = max(most, sum(0 < left[line] < whole[line] for line in whole))
    assert all(count == 0 for count in left.values())
    assert saw_list(plan).most_open == most


def test_lines_are_finished_one_after_the_other_where_boards_allow_it() -> None:
    line = Line(count=6, start=0, end=100, stations=(0, 40, 60, 100), joint_gap=0)
    stock = (Stock(name="long", length=60, price=6), Stock(name="short", length=40, price=4))
    told = saw_list(solve(Task(stock=stock, kerf=0, lines=(line,), joint_price=1)))
    # 60 + 40 in every line, each its own board: two boards finish a line
    served = [board.pieces[0].place.line for board in told.boards]
    assert served == [n for n in range(1, 7) for _ in range(2)]
    assert told.most_open == 1


def test_a_board_by_hand() -> None:
    stock = (Stock(name="a", length=1000, price=1, trim=10),)
    wanted = (Piece(length=300, count=2), Piece(length=200, count=1))
    (board,) = saw_list(solve(Task(stock=stock, kerf=4, pieces=wanted))).boards
    # trim to 10; 300 to 310, saw to 314; 300 to 614, saw to 618; 200 to 818, saw to 822;
    # 990 - 822 = 168 left of the trimmed length
    assert [(p.starts, p.ends) for p in board.pieces] == [(10, 310), (314, 614), (618, 818)]
    assert [(c.at, c.to) for c in board.cuts] == [(6, 10), (310, 314), (614, 618), (818, 822)]
    assert (board.offcut, board.usable) == (168, False)
    (again,) = saw_list(solve(Task(stock=stock, kerf=4, pieces=wanted)), least_offcut=168).boards
    assert again.usable


@pytest.mark.parametrize(
    ("trim", "kerf", "length", "cuts", "offcut"),
    [
        (0, 3, 100, [], 0),  # the piece is the board
        (0, 3, 98, [(98, 100)], 0),  # the saw takes all the rest
        (0, 3, 97, [(97, 100)], 0),
        (0, 3, 96, [(96, 99)], 1),
        (2, 3, 96, [(0, 2), (98, 100)], 0),  # fills the trimmed board: its end is the trim's cut
    ],
)
def test_the_end_of_a_board(trim, kerf, length, cuts, offcut) -> None:
    stock = (Stock(name="a", length=100, price=1, trim=trim),)
    task = Task(stock=stock, kerf=kerf, pieces=(Piece(length=length, count=1),))
    (board,) = saw_list(solve(task)).boards
    assert [(c.at, c.to) for c in board.cuts] == cuts
    assert (board.offcut, board.usable) == (offcut, False)


def test_a_plan_whose_boards_lack_a_piece_is_refused() -> None:
    stock = (Stock(name="a", length=100, price=1),)
    plan = solve(Task(stock=stock, kerf=0, pieces=(Piece(length=30, count=3),)))
    planted = evolve(plan, cuts=(evolve(plan.cuts[0], pieces=(30, 30, 20)),))
    with pytest.raises(CutTaskError) as caught:
        saw_list(planted)
    told = {(fault.found, fault.wanted) for fault in caught.value.faults}
    assert told == {("1 of 20", "0"), ("2 of 30", "3")}


def test_nothing_to_saw() -> None:
    told = saw_list(solve(Task(stock=(), kerf=1)))
    assert (told.boards, told.most_open) == ((), 0)
