"""Certificates worked by hand, and every way of tampering with one."""

from random import Random

import pytest
from attrs import evolve

from cutting.test_engine import boards, pieces, s03
from drylay.cutting.engine import solve
from drylay.cutting.fill import fullest, rich_fillings
from drylay.cutting.model import (
    GRADES,
    Blend,
    Certificate,
    Line,
    Proof,
    Split,
    Stock,
    Task,
    WindowPrice,
    WorthVector,
)
from drylay.cutting.splitting import search
from drylay.cutting.verify import carried, verify, weigh

#: Deck S03 by hand (its own answers, worked separately): an end piece of N bays is 400 N + 20.5
#: mm, here 800 N + 41, and its worth in decimetres of board, prices being 36 and 48.
S03_WORTHS = {4: 18, 5: 18, 6: 18, 7: 30, 8: 36, 9: 48, 10: 48, 11: 48}


def alike(line: int, first: int, width: int, price: int) -> WindowPrice:
    """Return a window within a set whose stretches are the same stations."""
    return WindowPrice(
        line=line,
        first=first,
        width=width,
        beside=line,
        beside_first=first,
        beside_width=width,
        price=price,
    )


def s03_vector() -> WorthVector:
    lengths = tuple(800 * bays + 41 for bays in S03_WORTHS)
    return WorthVector(scale=1, lengths=lengths, worths=tuple(S03_WORTHS.values()))


def s03_proof(bound: int = 1320, objective: int = 1320) -> Proof:
    certificate = Certificate(grade=GRADES[0], bound=bound, vectors=(s03_vector(),))
    return Proof(task=s03(), objective=objective, certificate=certificate)


def test_the_hand_certificate_of_s03_holds() -> None:
    # a row is e4 + e11, e5 + e10, e6 + e9 (18 + 48) or e7 + e8 (30 + 36): 66; 20 rows: 1320.
    # 3600 carries two e4 (36); 4800 e4 + e7 (48): no board carries more than it costs.
    assert weigh(s03(), s03_vector()) == ((36, 48), 1320, 1)
    verdict = verify(s03_proof())
    assert verdict.holds
    assert verdict.bound == 1320


def test_a_bound_one_step_higher_does_not_hold() -> None:
    verdict = verify(s03_proof(bound=1321, objective=1332))
    assert (verdict.holds, verdict.bound) == (False, 1320)


def test_a_bound_below_what_is_supported_holds() -> None:
    assert verify(s03_proof(bound=1319, objective=1332)).holds


def window_task(count: int) -> Task:
    """Lines of 4 bays of 10 on boards of 20 or 30, one joint each, no two alike side by side.

    A 20 costs 2, a 30 costs 4. Jointed at 2 a line is two 20s (4); at 1 or 3 a 10 and a 30.
    """
    stations = (0, 10, 20, 30, 40)
    line = Line(count=count, start=0, end=40, stations=stations, stagger=1, most_joints=1)
    return Task(stock=boards((20, 2), (30, 4)), kerf=0, lines=(line,))


def window_vector(price: int) -> WorthVector:
    # a 30 is worth 4, a 20 2, a 10 1
    window = alike(0, 2, 1, price)
    return WorthVector(scale=1, lengths=(30, 20, 10), worths=(4, 2, 1), windows=(window,))


@pytest.mark.parametrize(
    ("count", "price", "demand", "where"),
    [
        # every line is worth 4 at least: jointed at 2 it is 2 + 2, at 1 or 3 it is 1 + 4
        (1, 0, 4, "one line"),
        (2, 0, 8, "two free lines"),
        # a = b = 1, each joint at 2 costs 1 more: lines of 2 + 2 + 1 = 5, 1 + 4 = 5: 5 + 5 - 1
        (2, 1, 9, "two lines"),
        # a = 2, b = 1, g = 1: a joint at 2 costs 1 on odd lines, 2 on the even one:
        # 2 x 5 + min(2 + 2 + 2, 1 + 4) - 1 x 2 = 13
        (3, 1, 13, "three lines"),
        # a = b = 2, g = 2: 1 each; 4 x 5 - 1 x 2 = 18
        (4, 1, 18, "four lines"),
    ],
)
def test_windows_by_hand(count: int, price: int, demand: int, where: str) -> None:
    vector = window_vector(price)
    if price == 0:
        vector = evolve(vector, windows=())
    assert weigh(window_task(count), vector) == ((2, 4), demand, 1), where


@pytest.mark.parametrize(
    ("count", "cost", "where"),
    [
        (2, 10, "20 20 and 10 30: 2 + 2 + 2 + 4; prices are even, so 9 is as good as 10"),
        (3, 14, "20 20 twice, 10 30 once: 4 + 4 + 6; 13 is as good as 14"),
        (4, 18, "20 20 twice, 10 30 twice, the two 10s on one 20: 4 + 4 + 2 + 4 + 4"),
    ],
)
def test_the_engine_meets_what_the_windows_prove(count: int, cost: int, where: str) -> None:
    plan = solve(window_task(count))
    assert (plan.objective, plan.bound) == (cost, cost), where


TAMPERED = {
    "negative worth": {"worths": (18, 18, 18, 30, 36, 48, 48, -48)},
    "scale of nothing": {"scale": 0},
    "scale below nothing": {"scale": -1},
    "worths short": {"worths": (18,)},
    "a length twice": {"lengths": (3241, 3241, 4841, 5641, 6441, 7241, 8041, 8841)},
    "a length below nothing": {"lengths": (-3241, 4041, 4841, 5641, 6441, 7241, 8041, 8841)},
    "a window too wide": {"windows": (alike(0, 4, 3, 1),)},
    "a window of no width": {"windows": (alike(0, 4, 0, 1),)},
    "a window before the start": {"windows": (alike(0, -1, 2, 1),)},
    "a window past the end": {"windows": (alike(0, 15, 2, 1),)},
    "a window on no line": {"windows": (alike(1, 4, 2, 1),)},
    "a window price below nothing": {"windows": (alike(0, 4, 2, -9),)},
    "a stretch too wide": {"windows": (evolve(alike(0, 4, 2, 1), beside_width=3),)},
    "a stretch past the end": {"windows": (evolve(alike(0, 14, 2, 1), beside_first=15),)},
    "a stretch of no width": {"windows": (evolve(alike(0, 4, 2, 1), beside_width=0),)},
    "stretches too far apart": {"windows": (evolve(alike(0, 4, 2, 1), beside_first=5),)},
    "stretches too far apart the other way": {"windows": (evolve(alike(0, 4, 2, 1), first=5),)},
    "a stretch on no line": {"windows": (evolve(alike(0, 4, 2, 1), beside=1),)},
    "a length left out": {
        "lengths": (3241, 4041, 4841, 5641, 6441, 7241, 8041),
        "worths": (18, 18, 18, 30, 36, 48, 48),
    },
    "a worth more than its board": {"worths": (18, 18, 18, 30, 36, 48, 48, 49)},
    "a worth too low": {"worths": (18, 18, 18, 30, 36, 48, 48, 40)},
}


@pytest.mark.parametrize("how", TAMPERED)
def test_tampering_is_seen(how: str) -> None:
    proof = s03_proof()
    vector = evolve(s03_vector(), **TAMPERED[how])
    assert not verify(evolve(proof, certificate=evolve(proof.certificate, vectors=(vector,)))).holds


def test_a_bound_above_the_objective_or_of_no_grade_does_not_hold() -> None:
    assert not verify(s03_proof(objective=1319)).holds
    proof = s03_proof()
    assert not verify(evolve(proof, certificate=evolve(proof.certificate, grade="gold"))).holds


def test_a_task_that_cannot_be_made_supports_nothing() -> None:
    proof = evolve(s03_proof(), task=s03(stock=boards((4000, 30))))
    assert "cannot be made" in verify(proof).why


def test_a_single_line_has_no_windows() -> None:
    task = evolve(s03(1))
    vector = evolve(s03_vector(), windows=(alike(0, 4, 2, 0),))
    certificate = Certificate(grade=GRADES[0], bound=0, vectors=(vector,))
    assert not verify(Proof(task=task, objective=66, certificate=certificate)).holds


def searched(bound: int, limit: int | None = None) -> Proof:
    """Seven pieces of 40 from boards of 100 (two to a board, price 5) and 150 (three, price 8).

    In worths a 40 is 5/2 or 8/3 at most. With worth 5 and scale 2: 7 x 5 = 35 half money, 17.5.
    By hand: 100s for six (15) and one more (5) is 20; two 100s and a 150 hold seven: 18.
    Splits are those found for the bound, if there are any.
    """
    stock = (
        Stock(name="short", length=100, price=5),
        Stock(name="long", length=150, price=8, limit=limit),
    )
    task = Task(stock=stock, kerf=0, pieces=pieces(_40=7))
    vector = WorthVector(scale=2, lengths=(40,), worths=(5,))
    splits = search(task, [weigh(task, vector)], bound - 1, 99).splits
    certificate = Certificate(grade=GRADES[1], bound=bound, vectors=(vector,), splits=splits)
    return Proof(task=task, objective=max(18, bound), certificate=certificate)


def test_splits_found_by_hand() -> None:
    assert verify(searched(18)).holds  # 17.5 rounded up, by the vector alone
    assert not verify(searched(19)).holds
    assert verify(searched(20, limit=0)).holds  # without 150s: 4 boards, 15 carry only 30 of 35
    assert not verify(searched(21, limit=0)).holds


def a_split(**changes: object) -> Split:
    """Return why no boards within 19 carry 35, where boards of 100 carry 10 and cost 5.

    With no 150s: in money, at a scale of 2, 5 n >= 35/2 by the vector; twice that 10 n >= 35, so
    n >= 3.5, so 4; and 5 n <= 19, so n <= 3.8, so 3.
    """
    least = Blend(times=10, vectors=(2,), money=0, limits=(0, 15))
    most = Blend(times=5, vectors=(0,), money=1, limits=(0, 0))
    return evolve(Split(weights=(1, 0, 0), least=least, most=most), **changes)


def by_hand(*splits: Split, bound: int = 20) -> Proof:
    proof = searched(20, limit=0)
    certificate = evolve(proof.certificate, bound=bound, splits=splits)
    return evolve(proof, objective=max(20, bound), certificate=certificate)


def test_a_split_by_hand() -> None:
    assert verify(by_hand(a_split())).holds
    assert not verify(by_hand(a_split(), bound=21)).holds  # within 20: n <= 4
    assert not verify(by_hand()).holds


def test_a_split_within_a_split_by_hand() -> None:
    # the whole length in fifties, 2 n + 3 m, is 7 at least by twice 5 n + 15/2 m >= 35/2; it is
    # 7.6 at most by twice 5 n + 8 m <= 19. Where it is 7, with m = 0, 2 n = 7.
    least = Blend(times=5, vectors=(2,), money=0, limits=(0, 0))
    most = Blend(times=5, vectors=(0,), money=2, limits=(0, 0))
    outer = Split(weights=(2, 3, 0), least=least, most=most)
    assert not verify(by_hand(outer)).holds  # 7 is left
    least = Blend(times=2, vectors=(0,), money=0, limits=(0, 3), splits=(1,))
    most = Blend(times=2, vectors=(0,), money=0, limits=(0, 0), splits=(-1,))
    inner = Split(weights=(1, 0, 0), least=least, most=most)
    assert verify(by_hand(outer, inner)).holds
    assert not verify(by_hand(inner, outer)).holds
    assert not verify(by_hand(outer, evolve(inner, weights=(2, 0, 0)))).holds


SPLITS_TAMPERED = {
    "no weight": {"weights": (0, 0, 0)},
    "another weight": {"weights": (2, 0, 0)},
    "a weight short": {"weights": (1, 0)},
    "half a weight": {"weights": (1.0, 0, 0)},
    "a blend less than once": {"least": {"times": 0}},
    "a blend times less than nothing": {"least": {"times": -10}},
    "a blend times too few": {"least": {"times": 9}},
    "a blend times too many": {"most": {"times": 4}},
    "a vector less than no times": {"least": {"vectors": (-1,)}},
    "a vector too often": {"least": {"vectors": (3,)}},
    "money less than no times": {"most": {"money": -1}},
    "money too often": {"least": {"money": 1}},
    "a limit less than no times": {"most": {"limits": (0, -1)}},
    "a limit left out": {"least": {"limits": (0, 0)}},
    "a split around that is none": {"least": {"splits": (1,)}},
    "half a time": {"least": {"limits": (0, 15.5)}},
}


def tampered(how: str) -> Proof:
    split = a_split()
    changes = {
        name: evolve(getattr(split, name), **change) if isinstance(change, dict) else change
        for name, change in SPLITS_TAMPERED[how].items()
    }
    return by_hand(evolve(split, **changes))


@pytest.mark.parametrize("how", SPLITS_TAMPERED)
def test_a_split_tampered_with_shows_nothing(how: str) -> None:
    assert not verify(tampered(how)).holds


def test_search_finds_counts_where_there_are_any() -> None:
    proof = searched(19)
    weighed = [weigh(proof.task, vector) for vector in proof.certificate.vectors]
    found = search(proof.task, weighed, 18, 100)
    assert found.boards is not None
    assert 2 * found.boards[0] + 3 * found.boards[1] >= 7
    assert 5 * found.boards[0] + 8 * found.boards[1] <= 18
    assert search(proof.task, weighed, -1, 100).boards is None


def test_free_boards_are_counted_in() -> None:
    # four 40s: two free 100s hold them all; one free 100 leaves two, for 5
    vector = WorthVector(scale=1, lengths=(40,), worths=(2,))
    for limit, bound in ((None, 0), (2, 0), (1, 5)):
        free = Stock(name="free", length=100, price=0, limit=limit)
        task = Task(stock=(*boards((100, 5)), free), kerf=0, pieces=pieces(_40=4))
        weighed = [weigh(task, vector)]
        assert search(task, weighed, bound, 100).boards is not None
        assert search(task, weighed, bound - 1, 100).boards is None


@pytest.mark.parametrize("seed", range(30))
def test_three_ways_to_fill_a_board_agree(seed: int) -> None:
    rng = Random(seed)
    kerf = rng.choice([0, 3])
    lengths = rng.sample(range(20, 120), rng.randint(1, 6))
    worths = [rng.randint(0, 90) for _ in lengths]
    space = rng.randint(50, 400)
    table = carried(
        Task(stock=boards((space, 1)), kerf=kerf), dict(zip(lengths, worths, strict=True))
    )[0]
    sizes = [length + kerf for length in lengths]
    worth, chosen = fullest(worths, sizes, space + kerf)
    assert worth == table
    assert sum(worths[i] * n for i, n in chosen.items()) == worth
    assert sum(sizes[i] * n for i, n in chosen.items()) <= space + kerf
    assert fullest(worths, sizes, space + kerf, nodes=0)[0] == table
    items = [(worth, size, 99) for worth, size in zip(worths, sizes, strict=True)]
    every = rich_fillings(items, space + kerf, least=0, most=10_000)
    assert every is not None
    assert max([sum(worths[i] * n for i, n in f.items()) for f in every], default=0) == table
    assert fullest(worths, sizes, space + kerf, least=table) == (table, {})
    assert fullest(worths, sizes, space + kerf, least=table, nodes=0) == (table, {})


def test_fillings_listed_by_hand() -> None:
    items = [(1, 20, 9), (1, 30, 1)]
    # 60 long: three 20s; or the one 30 and a 20, for another 20 does not fit
    every = rich_fillings(items, 60, least=0, most=9)
    assert every is not None
    assert sorted(sorted(f.items()) for f in every) == [[(0, 1), (1, 1)], [(0, 3)]]
    assert rich_fillings(items, 60, least=2.5, most=9) == [{0: 3}]
    assert rich_fillings(items, 60, least=0, most=1) is None
    assert rich_fillings(items, 19, least=0, most=9) == []


def test_a_joint_price_counts_in_the_demand() -> None:
    # two lines, one joint each at least: 2 x (worths 0 + joint 7 x scale 3)
    line = Line(count=2, start=0, end=100, stations=(0, 50, 100))
    task = Task(stock=boards((60, 5)), kerf=0, lines=(line,), joint_price=7)
    assert weigh(task, WorthVector(scale=3, lengths=(), worths=())) == ((0,), 42, 3)
