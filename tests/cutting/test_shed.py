"""The shed first: sums by hand, every way of cutting, and nothing bought that it could give."""

from random import Random
from threading import Event

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting.bare import tiny_cuts, tiny_deck
from cutting.brute import least_cost
from cutting.rules import assert_keeps_the_rules
from drylay.cutting import shed
from drylay.cutting.engine import solve
from drylay.cutting.errors import CutTaskError, NoPlan
from drylay.cutting.model import Cut, CutPlan, Line, Piece, Stock, Task
from drylay.cutting.saw_list import saw_list
from drylay.cutting.shed import is_shed, shed_first, shed_uses, solve_with_shed, with_shed
from drylay.cutting.uses_model import Offcut
from drylay.cutting.verify import verify
from drylay.errors import Cancelled

LONG = Stock(name="long", length=300, price=30)


def pieces(**counts: int) -> tuple[Piece, ...]:
    return tuple(Piece(length=int(length[1:]), count=n) for length, n in counts.items())


def tiny(seed: int) -> tuple[Task, tuple[Offcut, ...]]:
    rng = Random(seed)
    task = tiny_cuts(rng) if seed % 2 else tiny_deck(rng)
    lines = tuple(evolve(line, count=min(line.count, 2)) for line in task.lines)
    offcuts = tuple(
        Offcut(
            name=f"shed {i}",
            length=rng.randint(15, 220),
            count=rng.randint(0, 2),
            trim=rng.choice([0, 0, 3]),
        )
        for i in range(rng.randint(1, 3))
    )
    return evolve(task, lines=lines), offcuts


def assert_nothing_more_fits(plan: CutPlan) -> None:
    """Hold every piece of a bought board against what is left in every board of the shed."""
    task = plan.proof.task
    stock = {s.name: s for s in task.stock}
    lying = [cut for cut in plan.cuts if is_shed(stock[cut.stock])]
    rests = []
    for s in (s for s in task.stock if is_shed(s)):
        opened = sum(cut.boards for cut in lying if cut.stock == s.name)
        rests += [s.length - 2 * s.trim] if opened < s.limit else []
    for cut in lying:
        s = stock[cut.stock]
        rests.append(s.length - 2 * s.trim - sum(cut.pieces) - task.kerf * len(cut.pieces))
    bought = [n for cut in plan.cuts if cut not in lying for n in cut.pieces]
    assert not bought or not rests or min(bought) > max(rests)


@pytest.mark.parametrize("seed", range(80))
def test_no_way_of_using_the_shed_is_cheaper(seed: int) -> None:
    task, offcuts = tiny(seed)
    least, bought = least_cost(with_shed(task, offcuts)), least_cost(task)
    if least is None:
        with pytest.raises(NoPlan):
            solve_with_shed(task, offcuts)
        return
    found = solve_with_shed(task, offcuts)
    assert_keeps_the_rules(with_shed(task, offcuts), found.plan)
    assert verify(found.plan.proof).holds
    assert found.plan.bound <= least == found.plan.objective
    assert_nothing_more_fits(found.plan)
    if bought is None:
        assert (found.bought, found.saving, found.most_saving) == (None, None, None)
        return
    assert found.saving == bought - least
    assert 0 <= found.least_saving <= found.saving <= found.most_saving


@given(seed=st.integers(0, 100_000))
@settings(max_examples=40, deadline=None)
def test_shed_first_never_costs_more_and_leaves_nothing_that_fits(seed: int) -> None:
    task, offcuts = tiny(seed)
    try:
        before = solve(with_shed(task, offcuts), mode="quick")
    except NoPlan:
        return
    after = shed_first(before)
    assert_keeps_the_rules(before.proof.task, after)
    assert after.objective <= before.objective
    assert_nothing_more_fits(after)
    assert shed_first(after) == after
    for use, told in zip(shed_uses(after), (o for o in offcuts if o.count), strict=True):
        assert use.used + use.left == told.count
        assert use.offcut == told.name
        for pieces_of, rest in zip(use.sawn, use.rests, strict=True):
            wood = sum(pieces_of) + rest + 2 * told.trim
            cuts = len(pieces_of) if rest else len(pieces_of) - 1
            assert told.length - task.kerf * len(pieces_of) <= wood
            assert wood + task.kerf * cuts <= told.length


def test_what_the_shed_spares_by_hand() -> None:
    task = Task(stock=(LONG,), kerf=0, pieces=pieces(_140=6))
    found = solve_with_shed(task, [Offcut(name="end", length=150, count=2)])
    # bought alone: two to a 300, three of them, 90. Two from the shed: two of 300, 60.
    assert (found.bought.objective, found.plan.objective) == (90, 60)
    assert (found.saving, found.least_saving, found.most_saving) == (30, 30, 30)
    (use,) = found.uses
    assert (use.used, use.left, use.sawn, use.rests) == (2, 0, ((140,), (140,)), (10, 10))


def test_the_shed_goes_first_where_it_spares_nothing() -> None:
    task = Task(stock=(LONG,), kerf=4, pieces=pieces(_90=3))
    offcuts = [Offcut(name="end", length=100, trim=2), Offcut(name="bit", length=80)]
    # 3 x 90 + 2 x 4 = 278: one long board holds all, with nothing from the shed
    assert solve(task).cuts == (Cut(stock="long", pieces=(90, 90, 90), boards=1),)
    found = solve_with_shed(task, offcuts)
    # 100 less two trims is 96: a 90, the cut takes 4, 2 are left. The 80 holds none.
    assert [(cut.stock, cut.pieces) for cut in found.plan.cuts] == [
        ("end", (90,)),
        ("long", (90, 90)),
    ]
    assert found.plan.objective == 30
    assert [(use.used, use.left, use.rests) for use in found.uses] == [(1, 0, (2,)), (0, 1, ())]
    rests = [board.offcut for board in saw_list(found.plan).boards if board.stock == "end"]
    assert rests == [2]  # the saw list measures alike


def test_the_fullest_way_is_taken_from_the_bought_boards() -> None:
    task = Task(stock=(LONG,), kerf=0, pieces=pieces(_60=1, _50=2, _30=1))
    found = solve_with_shed(task, [Offcut(name="end", length=100)])
    # of 60, 50, 50 and 30: 50 + 50 fill the 100 to the end, 60 + 30 do not
    assert found.uses[0].sawn == ((50, 50),)
    assert found.uses[0].rests == (0,)


def test_boards_are_bought_smaller_or_not_at_all_where_a_plan_was_poor() -> None:
    short = Stock(name="short", length=100, price=11)
    task = with_shed(
        Task(stock=(LONG, short), kerf=0, pieces=pieces(_100=2, _80=1)),
        [Offcut(name="end", length=100), Offcut(name="bit", length=80)],
    )
    plan = solve(task)
    poor = (evolve(plan.cuts[0], stock="long", pieces=(100, 100, 80), boards=1),)
    proof = evolve(plan.proof, objective=30)
    plan = evolve(plan, cuts=poor, cost=30, objective=30, proof=proof)
    better = shed_first(plan)  # a 100 and the 80 from the shed, the other 100 from a short board
    assert_keeps_the_rules(task, better)
    assert better.objective == 11


def test_lines_are_cut_from_the_shed_too() -> None:
    line = Line(count=2, start=0, end=100, stations=(0, 50, 100))
    task = Task(stock=(Stock(name="b", length=100, price=9),), kerf=0, lines=(line,), joint_price=1)
    found = solve_with_shed(task, [Offcut(name="half", length=50, count=2)])
    # one line in one piece for 9, the other from the two halves for a joint
    assert (found.plan.objective, found.plan.joint_count, found.saving) == (10, 1, 8)


def test_a_shed_may_make_up_for_stock_that_is_too_little() -> None:
    task = Task(stock=(evolve(LONG, limit=1),), kerf=0, pieces=pieces(_200=2))
    found = solve_with_shed(task, [Offcut(name="end", length=210)])
    assert (found.plan.objective, found.bought, found.saving) == (30, None, None)
    with pytest.raises(NoPlan):
        solve_with_shed(task, [Offcut(name="end", length=190)])


def test_the_plan_without_the_shed_is_taken_where_the_search_found_a_worse_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    task = Task(stock=(LONG,), kerf=0, pieces=pieces(_90=2))

    def poor(task: Task, **how: object) -> CutPlan:
        plan = solve(task, **how)  # type: ignore[arg-type]
        if len(task.stock) == 1:
            return plan
        cuts = (evolve(plan.cuts[0], stock="long", pieces=(90,), boards=2),)
        proof = evolve(plan.proof, objective=60)
        return evolve(plan, cuts=cuts, cost=60, objective=60, proof=proof)

    monkeypatch.setattr(shed, "solve", poor)
    found = solve_with_shed(task, [Offcut(name="bit", length=80)])
    assert (found.plan.objective, found.saving) == (30, 0)
    assert_keeps_the_rules(with_shed(task, [Offcut(name="bit", length=80)]), found.plan)
    assert verify(found.plan.proof).holds


def test_everything_wrong_with_offcuts_is_told_at_once() -> None:
    task = Task(stock=(LONG,), kerf=0)
    with pytest.raises(CutTaskError) as caught:
        with_shed(
            task,
            [
                Offcut(name="long", length=0),
                Offcut(name="a", length=1, count=-1),
                Offcut(name="a", length=1, trim=-1),
            ],
        )
    assert [fault.path for fault in caught.value.faults] == [
        "offcuts[0].name",
        "offcuts[0].length",
        "offcuts[1].name",
        "offcuts[1].count",
        "offcuts[2].name",
        "offcuts[2].trim",
    ]


def test_it_can_be_stopped() -> None:
    stopped = Event()
    stopped.set()
    task = Task(stock=(LONG,), kerf=0, pieces=pieces(_90=2))
    with pytest.raises(Cancelled):
        solve_with_shed(task, [], cancel=stopped)


def test_without_moving_pieces_the_law_above_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    """Planted fault: the check that nothing more fits is seen to fail."""
    monkeypatch.setattr(shed._Boards, "fill", lambda *_: None)
    task = Task(stock=(LONG,), kerf=0, pieces=pieces(_90=3))
    whole = with_shed(task, [Offcut(name="end", length=100)])
    plan = solve(task)  # all from the long board
    found = shed_first(evolve(plan, proof=evolve(plan.proof, task=whole)))
    with pytest.raises(AssertionError):
        assert_nothing_more_fits(found)
