"""Whatever certificate is accepted, no sequence of lines and no cutting is cheaper.

The certificates are made up, or the engine's, or damaged; the truth is by brute force.
"""

from fractions import Fraction
from random import Random

import pytest
from attrs import evolve
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from cutting.brute import least_cost
from cutting.made_up import made_up_vector, tiny_sets
from cutting.test_engine import boards
from cutting.test_slip import script_holds
from cutting.test_verify import window_task, window_vector
from drylay.cutting import weighing
from drylay.cutting.corner import Sum, is_long, shortened
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import (
    GRADES,
    Beside,
    Certificate,
    Line,
    Proof,
    Task,
    WindowPrice,
    WorthVector,
)
from drylay.cutting.splitting import search
from drylay.cutting.verify import direct_bound, verify, weigh

seeds = st.integers(0, 2**32)
some = settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.filter_too_much]
)


def proof_of(task: Task, vectors: tuple[WorthVector, ...], bound: int, **more: object) -> Proof:
    certificate = Certificate(grade=GRADES[1], bound=bound, vectors=vectors, **more)
    return Proof(task=task, objective=bound + 10**6, certificate=certificate)


def is_refused(task: Task, vector: WorthVector) -> bool:
    """Return whether the checker refuses a vector; the script must refuse the same."""
    proof = proof_of(task, (vector,), 0)
    holds = verify(proof).holds
    assert script_holds(proof) == holds
    return not holds


@some
@given(seeds)
def test_no_sequence_is_cheaper_than_a_made_up_vector_allows(seed: int) -> None:
    rng = Random(seed)
    task = tiny_sets(rng)
    vectors = tuple(made_up_vector(rng, task) for _ in range(3))
    vectors = tuple(vector for vector in vectors if not is_refused(task, vector))
    least = least_cost(task)
    assume(vectors and least is not None)
    weighed = [weigh(task, vector) for vector in vectors]
    direct = direct_bound(task, weighed)
    assert direct <= least
    at_direct = proof_of(task, vectors, direct)
    assert verify(at_direct).holds
    assert script_holds(at_direct)
    for bound in (direct + 1, least + 1):
        # the script also uses what costs nothing: it may see more, but never too much
        proof = proof_of(task, vectors, bound)
        assert bound <= least or not (verify(proof).holds or script_holds(proof))


@some
@given(seeds)
def test_no_sequence_is_cheaper_than_splits_allow(seed: int) -> None:
    rng = Random(seed)
    task = tiny_sets(rng)
    vectors = tuple(made_up_vector(rng, task) for _ in range(rng.randint(1, 4)))
    vectors = tuple(vector for vector in vectors if not is_refused(task, vector))
    least = least_cost(task)
    assume(vectors and least is not None)
    weighed = [weigh(task, vector) for vector in vectors]
    assert search(task, weighed, least, 1000).boards is not None
    low, high = -1, least  # none within the one, some within the other
    while high - low > 1:
        money = (low + high) // 2
        found = search(task, weighed, money, 1000)
        assert found.finished
        low, high = (money, high) if found.boards is None else (low, money)
    splits = search(task, weighed, high - 1, 1000).splits
    for bound, holds in ((high, True), (high + 1, high < direct_bound(task, weighed))):
        proof = proof_of(task, vectors, bound, splits=splits)
        assert verify(proof).holds == script_holds(proof) == holds


@some
@given(seeds)
def test_counts_found_cost_no_more_and_carry_all(seed: int) -> None:
    rng = Random(seed)
    task = tiny_sets(rng)
    vectors = [made_up_vector(rng, task) for _ in range(rng.randint(1, 4))]
    vectors = [vector for vector in vectors if not is_refused(task, vector)]
    weighed = [weigh(task, vector) for vector in vectors]
    money = rng.randint(0, 900)
    found = search(task, weighed, money, 1000)
    if found.boards is None:
        return
    for stock, count in zip(task.stock, found.boards, strict=True):
        assert 0 <= count <= (count if stock.limit is None else stock.limit)
    cost = sum(n * stock.price for n, stock in zip(found.boards, task.stock, strict=True))
    assert cost + found.joints * task.joint_price <= money
    for carries, demand, scale in weighed:
        carried = sum(n * most for n, most in zip(found.boards, carries, strict=True))
        assert carried + found.joints * task.joint_price * scale >= demand


@pytest.mark.parametrize("seed", range(60))
def test_script_and_checker_agree_with_the_engine_and_the_truth(seed: int) -> None:
    task = tiny_sets(Random(seed))
    least = least_cost(task)
    if least is None:
        with pytest.raises(NoPlan):
            solve(task)
        return
    proof = solve(task).proof
    assert verify(proof).holds
    assert script_holds(proof)
    assert proof.certificate.bound <= least <= proof.objective
    higher = evolve(proof.certificate, bound=least + 1)
    forged = evolve(proof, objective=least + 1, certificate=higher)
    assert not verify(forged).holds
    assert not script_holds(forged)


def test_long_numbers_of_a_sum_are_shortened_by_hand() -> None:
    """Boards for 3: 7 z >= 1 and -3 z >= -100. A form 1 z >= 1/7, told 10^20 times over."""
    rows = [([Fraction(7)], Fraction(1)), ([Fraction(-3)], Fraction(-100))]
    long = Sum(times=7 * 10**20, rows={0: 10**20}, value=10**20)
    assert is_long(long)
    short = shortened(long, [1], rows, [3], 1)
    assert not is_long(short)
    assert short.least == long.least == 1
    total = sum(n * rows[row][0][0] for row, n in short.rows.items())
    assert total <= short.times
    # a form that is all but whole: 1/7 less a hair may be rounded below what it shows
    hair = Sum(times=7 * 10**40, rows={0: 10**40}, value=1)
    with pytest.raises(OverflowError):
        shortened(hair, [1], [([Fraction(7)], Fraction(1, 10**40)), rows[1]], [3], 1)


# -- faults that would prove too much, were they not refused -----------------------------


def bound_if_allowed(task: Task, vector: WorthVector) -> int:
    return direct_bound(task, [weigh(task, vector)])


def one_bar(first: int, count: int, **rules: int) -> Line:
    """Return lines of 40, one joint each, at 10 or 20 or 30; stations count from `first`."""
    return Line(
        count=count,
        start=0,
        end=40,
        stations=(0, 10, 20, 30, 40),
        most_joints=1,
        first_station=first,
        **rules,
    )


def across(stagger: int, first: int, *, told: bool = True) -> Task:
    """Return `window_task` with its two lines in two sets, the second counting from `first`."""
    lines = (one_bar(0, 1, stagger=stagger), one_bar(first, 1, stagger=0))
    beside = (Beside(one=0, other=1),) if told else ()
    return evolve(window_task(2), lines=lines, beside=beside)


def across_vector(first: int, beside_first: int) -> WorthVector:
    window = WindowPrice(
        line=0, first=first, width=1, beside=1, beside_first=beside_first, beside_width=1, price=1
    )
    return evolve(window_vector(0), windows=(window,))


def test_a_window_across_sets_by_hand() -> None:
    # each line 2 + 2 jointed at 20, plus 1 for the window: 5, as much as 1 + 4; 5 + 5 - 1 = 9
    assert weigh(across(1, 0), across_vector(2, 2)) == ((2, 4), 9, 1)
    assert not is_refused(across(1, 0), across_vector(2, 2))
    assert least_cost(across(1, 0)) == 10  # prices are even


TOO_MUCH = {
    # both lines jointed at 20 cost 8, where the rules let them
    "no stagger": (evolve(window_task(2), lines=(one_bar(0, 2),)), window_vector(1)),
    "a pair not told": (across(1, 0, told=False), across_vector(2, 2)),
    "no stagger across": (across(0, 0), across_vector(2, 2)),
    "stations counted from others": (across(1, 1), across_vector(2, 2)),
    "the pair the other way": (
        evolve(across(1, 0), beside=(Beside(one=1, other=0),)),
        across_vector(2, 2),
    ),
}


@pytest.mark.parametrize("how", [how for how in TOO_MUCH if how != "the pair the other way"])
def test_a_window_that_holds_nothing_would_prove_too_much(how: str) -> None:
    task, vector = TOO_MUCH[how]
    assert least_cost(task) == 8
    assert bound_if_allowed(task, vector) == 10


@pytest.mark.parametrize("how", TOO_MUCH)
def test_a_window_that_holds_nothing_is_refused(how: str) -> None:
    assert is_refused(*TOO_MUCH[how])


def by_tens(count: int) -> Task:
    """Return `window_task` with boards of 10 for 1, so that its least cost is what worths prove."""
    return evolve(window_task(count), stock=boards((10, 1), (20, 2), (30, 4)))


def finer(price: int) -> WorthVector:
    """Return `window_vector` in halves, so that a price of 2 stands for 1."""
    vector = window_vector(price)
    return evolve(vector, scale=2, worths=tuple(2 * worth for worth in vector.worths))


@pytest.mark.parametrize(("count", "least"), [(2, 9), (3, 13), (4, 18)])
def test_windows_prove_no_more_than_the_truth(count: int, least: int) -> None:
    assert least_cost(by_tens(count)) == least
    bounds = [bound_if_allowed(by_tens(count), finer(price)) for price in range(9)]
    assert max(bounds) == least


PLANTED = {
    "the refund one short": ("_refund", lambda old: lambda task, w: old(task, w) - w.price),
    "no refund": ("_refund", lambda _: lambda *_: 0),
    "shares turned about": (
        "shares",
        lambda old: lambda line: (old(line)[1], old(line)[0], old(line)[2]),
    ),
    "charged twice": (
        "_charge",
        lambda old: lambda charges, stretch, price: old(charges, stretch, 2 * price),
    ),
}


@pytest.mark.parametrize("fault", PLANTED)
def test_a_fault_in_weighing_would_be_seen(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    name, plant = PLANTED[fault]
    monkeypatch.setattr(weighing, name, plant(getattr(weighing, name)))
    bounds = {
        count: max(bound_if_allowed(by_tens(count), finer(price)) for price in range(9))
        for count in (2, 3, 4)
    }
    assert bounds[2] > 9 or bounds[3] > 13 or bounds[4] > 18
