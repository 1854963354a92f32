"""Laws every cut plan keeps."""

from random import Random

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Line, Piece, Stock, Task
from drylay.cutting.verify import verify

lawful = settings(deadline=None, max_examples=40)

stocks = st.builds(
    Stock,
    name=st.just("S"),
    length=st.sampled_from([2400, 3000, 3600, 4200, 4800, 5400]),
    price=st.integers(1, 60).map(lambda n: 10 * n),
    limit=st.none() | st.integers(0, 12),
    trim=st.sampled_from([0, 0, 10]),
)
sales = st.lists(stocks, min_size=1, max_size=4).map(
    lambda found: tuple(evolve(s, name=f"S{i}") for i, s in enumerate(found))
)
some_pieces = st.lists(
    st.builds(Piece, length=st.integers(200, 5400), count=st.integers(0, 6)), max_size=5
).map(tuple)


@st.composite
def some_lines(draw: st.DrawFn) -> Line:
    bays, pitch = draw(st.integers(3, 16)), draw(st.sampled_from([400, 450, 500]))
    return Line(
        count=draw(st.integers(0, 12)),
        start=0,
        end=pitch * bays + 45,
        stations=tuple(22 + pitch * j for j in range(bays + 1)),
        joint_gap=draw(st.integers(0, 6)),
        least_bays=draw(st.integers(1, 4)),
        stagger=draw(st.integers(0, 4)),
        most_joints=draw(st.none() | st.integers(0, 3)),
    )


tasks = st.builds(
    Task,
    stock=sales,
    kerf=st.integers(0, 6),
    pieces=some_pieces,
    lines=st.lists(some_lines(), max_size=1).map(tuple),
    joint_price=st.sampled_from([0, 0, 10, 40]),
)


def solved(task: Task) -> CutPlan | None:
    try:
        return solve(task, mode="quick")
    except NoPlan:
        return None


def assert_never_dearer(looser: Task, tighter: Task) -> None:
    """Bounds are for every plan, and every plan of the tighter task is one of the looser."""
    wide, narrow = solved(looser), solved(tighter)
    if narrow is not None and wide is not None:
        assert wide.bound <= narrow.objective


@lawful
@given(tasks)
def test_plans_keep_the_rules_and_proofs_hold(task: Task) -> None:
    for mode in ("quick", "proven"):
        try:
            plan = solve(task, mode=mode)
        except NoPlan:
            continue
        assert_keeps_the_rules(task, plan)
        assert verify(plan.proof).holds
        forged = evolve(plan.proof.certificate, bound=plan.objective + 1)
        raised = evolve(plan.proof, certificate=forged, objective=plan.objective + 1)
        assert not verify(raised).holds


@lawful
@given(tasks, stocks)
def test_more_on_sale_is_never_dearer(task: Task, more: Stock) -> None:
    assert_never_dearer(evolve(task, stock=(*task.stock, evolve(more, name="more"))), task)


@lawful
@given(tasks, st.integers(0, 3), st.integers(1, 3))
def test_a_looser_stagger_or_cap_is_never_dearer(task: Task, stagger: int, joints: int) -> None:
    looser = tuple(
        evolve(
            line,
            stagger=min(line.stagger, stagger),
            most_joints=None if line.most_joints is None else line.most_joints + joints,
        )
        for line in task.lines
    )
    assert_never_dearer(evolve(task, lines=looser), task)


@lawful
@given(tasks, st.integers(1, 40))
def test_a_wider_kerf_is_never_cheaper(task: Task, more: int) -> None:
    assert_never_dearer(task, evolve(task, kerf=task.kerf + more))


@lawful
@given(tasks, st.integers(2, 7), st.integers(2, 7))
def test_other_units_change_no_more_than_the_units(task: Task, long: int, dear: int) -> None:
    other = Task(
        stock=tuple(
            evolve(s, length=s.length * long, trim=s.trim * long, price=s.price * dear)
            for s in task.stock
        ),
        kerf=task.kerf * long,
        pieces=tuple(evolve(p, length=p.length * long) for p in task.pieces),
        lines=tuple(
            evolve(
                line,
                end=line.end * long,
                stations=tuple(j * long for j in line.stations),
                joint_gap=2 * (line.joint_gap // 2) * long,
            )
            for line in task.lines
        ),
        joint_price=task.joint_price * dear,
    )
    even = tuple(evolve(line, joint_gap=2 * (line.joint_gap // 2)) for line in task.lines)
    one, two = solved(evolve(task, lines=even)), solved(other)
    assert (one is None) == (two is None)
    if one is not None and two is not None:
        assert one.bound * dear <= two.objective
        assert two.bound <= one.objective * dear


@lawful
@given(tasks, st.randoms(use_true_random=False))
def test_the_order_of_stock_and_pieces_changes_nothing(task: Task, rng: Random) -> None:
    stock, pieces = list(task.stock), list(task.pieces)
    rng.shuffle(stock)
    rng.shuffle(pieces)
    one = solved(task)
    two = solved(evolve(task, stock=tuple(stock), pieces=tuple(pieces)))
    assert (one is None) == (two is None)
    if one is not None and two is not None:
        assert (one.cuts, one.joints, one.bound) == (two.cuts, two.joints, two.bound)


@lawful
@given(tasks)
def test_the_same_task_gives_the_same_plan(task: Task) -> None:
    assert repr(solved(task)) == repr(solved(task))
