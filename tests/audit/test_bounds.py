"""Bounds on tiny tasks, beside the least that every sequence and every way of cutting come to."""

from collections.abc import Callable

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting.brute import least_cost
from cutting.tiny import tiny_decks
from drylay.audit import search, tolls, worth
from drylay.audit.proofs import BY_SPLITS, BY_SUMS, GRADES, bound_holds
from drylay.cutting.engine import solve
from drylay.cutting.model import (
    Beside,
    Certificate,
    Line,
    Proof,
    Stock,
    Task,
    WindowPrice,
    WorthVector,
)

STOCK = (Stock(name="30", length=30, price=10), Stock(name="40", length=40, price=14))
LINE = Line(
    count=2, start=0, end=60, stations=(0, 20, 30, 40, 60),
    least_bays=1, stagger=1, most_joints=1,
)  # fmt: skip

#: Each line is 30 + 30, worth 20, or 20 + 40, worth 21: one may be jointed at 20, one at 40.
ONE_SET = Task(stock=STOCK, kerf=0, lines=(LINE,))
SINGLE = evolve(LINE, count=1)
TWO_SETS = Task(stock=STOCK, kerf=0, lines=(SINGLE, SINGLE), beside=(Beside(one=0, other=1),))
NOT_TOLD = evolve(TWO_SETS, beside=())
FAR_COUNTED = evolve(TWO_SETS, lines=(SINGLE, evolve(SINGLE, first_station=9)))
#: Joints at 20 or at 30, never both, as pieces span two bays: stations 2 and 3.
NARROW = evolve(LINE, stations=(0, 10, 20, 30, 50, 60), least_bays=2)
TWO_BAYS = Task(stock=STOCK, kerf=0, lines=(NARROW,))
THREE_LINES = evolve(TWO_BAYS, lines=(evolve(NARROW, count=3),))
#: Each has to be jointed in the middle, which is station 2 of all for one, 3 for the other.
MIDDLES = tuple(evolve(SINGLE, stations=(0, 30, 60), first_station=n) for n in (1, 2))
NEXT_TO = evolve(TWO_SETS, lines=MIDDLES)
#: Joints at 20, 40 or both; a line with any beside it has none and is one board of 60.
ONE_PIECE = Task(
    stock=(Stock(name="20", length=20, price=6), Stock(name="60", length=60, price=30)),
    kerf=0,
    lines=(evolve(LINE, stations=(0, 20, 40, 60), stagger=3, most_joints=None),),
)


def vector(*windows: WindowPrice, **worths: int) -> WorthVector:
    known = worths or {"w20": 7, "w30": 10, "w40": 14}
    lengths = tuple(int(name[1:]) for name in known)
    return WorthVector(scale=1, lengths=lengths, worths=tuple(known.values()), windows=windows)


def window(first: int, price: int, width: int = 1, **more: int) -> WindowPrice:
    """Return a window with the same stretch on both sides, unless more is said."""
    alike = {"line": 0, "beside": 0, "beside_first": first, "beside_width": width}
    return WindowPrice(first=first, width=width, price=price, **{**alike, **more})


def borne_out(task: Task, bound: int, told: WorthVector, grade: str = BY_SPLITS) -> str:
    certificate = Certificate(grade=grade, bound=bound, vectors=(told,), nodes=300_000)
    return bound_holds(Proof(task=task, objective=bound, certificate=certificate))[0]


FORTY = {"w20": 6, "w40": 24, "w60": 30}
#: Of each: the task, the worth vector, its least cost and the bound that is borne out, by hand.
HOLD = {
    "without a window: 2 x 20": (ONE_SET, vector(), 42, 40),
    "a window: 2 x 21 - 1, up to the next even sum": (ONE_SET, vector(window(2, 1)), 42, 42),
    "a window between sets": (TWO_SETS, vector(window(2, 1, beside=1)), 42, 42),
    "no neighbours: 2 x 20": (NOT_TOLD, vector(), 40, 40),
    "numbers far apart: 2 x 20": (FAR_COUNTED, vector(), 40, 40),
    "a window: 2 x 21 - 1, as 20 and 40 lie apart": (TWO_BAYS, vector(window(3, 1)), 44, 42),
    "joints one bay apart: 2 x 20": (NEXT_TO, vector(), 40, 40),
    "three lines, 3 x 21 - 2": (THREE_LINES, vector(window(3, 1)), 62, 62),
    "two lines of 30 and 12 given back": (ONE_PIECE, vector(window(1, 12), **FORTY), 48, 48),
}


@pytest.mark.parametrize("name", HOLD)
def test_a_bound_worked_out_by_hand(name: str) -> None:
    task, told, least, bound = HOLD[name]
    assert least_cost(task) == least
    assert borne_out(task, bound, told, BY_SUMS) == BY_SUMS
    if bound == least:
        assert borne_out(task, bound + 2, told) == ""


def everything(*_known: object) -> bool:
    return True


Broken = Callable[[pytest.MonkeyPatch], None]


def guard(place: object, name: str, value: object) -> Broken:
    return lambda patch: patch.setattr(place, name, value)


NEIGHBOURS = guard(tolls, "_neighbours", everything)
STRETCH = guard(tolls, "_is_a_stretch", everything)
APART = guard(tolls, "keeps_apart", everything)

#: Of each: the task, the worth vector, a bound above the least cost, and the guard against it.
FAULTS: dict[str, tuple[Task, WorthVector, int, Broken]] = {
    "worths that no refund is taken from": (
        ONE_SET,
        vector(window(1, 3), window(2, 3), window(3, 3)),
        44,
        guard(worth, "given_back", lambda _task, _vector: 0),
    ),
    "three lines charged as if they were two": (
        THREE_LINES,
        vector(window(2, 2), window(3, 3)),
        64,
        guard(tolls, "_shares", lambda _count: (1, 1, 1)),
    ),
    "windows wider than a piece spans": (
        ONE_PIECE,
        vector(window(1, 6, 2), **FORTY),
        54,
        STRETCH,
    ),
    "windows as wide as the stagger": (TWO_BAYS, vector(window(2, 6, 2)), 46, APART),
    "stretches a stagger apart": (NEXT_TO, vector(window(1, 2, beside=1)), 42, APART),
    "a window of sets not told to lie side by side": (
        NOT_TOLD,
        vector(window(2, 1, beside=1)),
        42,
        NEIGHBOURS,
    ),
    "a window of sets that count far apart": (
        FAR_COUNTED,
        vector(window(2, 1, beside=1)),
        42,
        APART,
    ),
    "a bound above what the worths come to": (
        ONE_SET,
        vector(window(2, 1)),
        44,
        guard(search, "_up_to_step", lambda price, step: (int(price) // step + 2) * step),
    ),
    "a search that stops at once": (
        ONE_SET,
        vector(),
        44,
        guard(search._Counts, "end", lambda _self: None),
    ),
    "a board that carries less than it can": (
        ONE_SET,
        vector(w20=10, w30=15, w40=20),
        60,
        guard(worth, "most_worth", lambda _room, _items: 10),
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_bound_above_the_least_is_not_borne_out(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    task, told, bound, broken = FAULTS[name]
    least = least_cost(task)
    assert least is not None
    assert least < bound
    assert borne_out(task, bound, told) == ""
    broken(monkeypatch)
    assert borne_out(task, bound, told) != "", "the guard is not what stands against it"


PRICES = st.integers(0, 40)


@pytest.mark.parametrize("number", range(12))
def test_a_bound_of_the_engine_and_one_above_the_least(number: int) -> None:
    """The audit bears the engine's bounds out by other ways, and none above the least."""
    for _seed, task in tiny_decks(5, 1000 * number):
        least = least_cost(task)
        if least is None:
            continue
        proof = solve(task).proof
        assert bound_holds(proof)[0] in GRADES
        certificate = evolve(proof.certificate, bound=least + 1, grade=BY_SPLITS)
        assert bound_holds(evolve(proof, certificate=certificate, objective=least + 1))[0] == ""


@given(
    st.integers(0, 400),
    st.lists(st.tuples(*[st.integers(0, 5)] * 2, *[st.integers(0, 2)] * 4, PRICES), max_size=6),
)
@settings(max_examples=200, deadline=None)
def test_no_windows_bear_out_a_bound_above_the_least(
    seed: int, told: list[tuple[int, ...]]
) -> None:
    """The engine's worths are as good as worths get: windows that do not hold would tip them."""
    ((_seed, task),) = tiny_decks(1, seed)
    least = least_cost(task)
    if least is None:
        return
    for worths in solve(task).proof.certificate.vectors:
        windows = tuple(
            WindowPrice(
                first=first, beside_first=beside_first, width=width, beside_width=beside_width,
                line=line, beside=beside, price=price * worths.scale,
            )
            for first, beside_first, width, beside_width, line, beside, price in told
        )  # fmt: skip
        both = evolve(worths, windows=(*worths.windows, *windows))
        assert borne_out(task, least + 1, both) == ""
