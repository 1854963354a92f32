"""Prices on windows, held against every lawful layout of the lines."""

import pytest
from attrs import evolve
from hypothesis import example, given, settings
from hypothesis import strategies as st

from audit.buying_faults import window as with_window
from audit.laid import cut, least_laid, ways_of
from audit.sample import sample_plan
from drylay.audit import tolls as tolls_file
from drylay.audit.closed import audit_plan
from drylay.audit.tolls import given_back, keeps_apart, kinds_of, tolls
from drylay.audit.worth import arcs_of, demands_of_vector, joints_demanded, longest_piece
from drylay.cutting.model import Beside, Line, Stock, Task, WindowPrice, WorthVector

LINES = st.builds(
    Line,
    count=st.integers(1, 4),
    start=st.just(0),
    end=st.just(62),
    stations=st.sampled_from([(1, 13, 25, 37, 49, 61), (1, 13, 25, 37, 61), (1, 25, 61)]),
    joint_gap=st.sampled_from([0, 2]),
    least_bays=st.integers(0, 3),
    stagger=st.integers(0, 4),
    most_joints=st.none() | st.integers(0, 2),
    first_station=st.integers(0, 3),
)
SETS = st.lists(LINES, min_size=1, max_size=3)
WINDOWS = st.lists(
    st.builds(
        WindowPrice,
        line=st.integers(0, 2),
        first=st.integers(-1, 4),
        width=st.integers(0, 3),
        beside=st.integers(0, 2),
        beside_first=st.integers(-1, 4),
        beside_width=st.integers(0, 3),
        price=st.integers(0, 9),
    ),
    max_size=6,
)
WORTHS = st.lists(st.integers(0, 20), min_size=1, max_size=9)
LENGTH = 62


def task_of(sets: list[Line], told: tuple[int, ...], longest: int = LENGTH) -> Task:
    """Return a task whose sets lie beside one another in order, where told so."""
    return Task(
        stock=(Stock(name="b", length=longest, price=5),),
        kerf=1,
        lines=tuple(sets),
        beside=tuple(Beside(one=n, other=n + 1) for n in told if n + 1 < len(sets)),
        joint_price=3,
    )


def vector_of(task: Task, windows: list[WindowPrice], worths: list[int]) -> WorthVector:
    longest = longest_piece(task)
    lengths = sorted(
        {n for line in task.lines for way in ways_of(line, longest) for n in cut(line, way)}
    )
    return WorthVector(
        scale=2,
        lengths=tuple(lengths),
        worths=tuple(worths[n % len(worths)] for n in range(len(lengths))),
        windows=tuple(windows),
    )


@given(SETS, st.sets(st.integers(0, 1)), WINDOWS, st.integers(20, LENGTH), WORTHS)
@example(
    [Line(count=1, start=0, end=62, stations=(1, 25, 61), stagger=1, least_bays=1)] * 2,
    {0},
    [WindowPrice(line=0, first=1, width=1, beside=1, beside_first=1, beside_width=1, price=9)],
    40,
    [0],
)
@settings(max_examples=300, deadline=None)
def test_no_layout_of_sets_of_lines_is_worth_less_than_the_demand(
    sets: list[Line],
    told: set[int],
    windows: list[WindowPrice],
    longest: int,
    worths: list[int],
) -> None:
    task = task_of(sets, tuple(told), longest)
    vector = vector_of(task, windows, worths)
    arcs = tuple(arcs_of(line, longest_piece(task)) for line in task.lines)
    joints = joints_demanded(task, arcs)
    assert (joints is None) == any(not ways_of(line, longest) for line in task.lines)
    if joints is None:
        return
    worth_of = dict(zip(vector.lengths, vector.worths, strict=True))
    for demand in (joints, *demands_of_vector(task, vector, arcs)):
        own = {} if demand is joints else worth_of
        laid = least_laid(task, own, demand.joint, longest)
        assert laid is None or laid >= demand.least


@given(st.integers(0, 40))
def test_every_line_is_of_one_kind(count: int) -> None:
    kinds = kinds_of(line(count=count))
    assert sum(kind.count for kind in kinds) == count
    assert sum(kind.count for kind in kinds if kind.odd) == (count + 1) // 2
    assert [kind.count for kind in kinds if kind.first] == [min(count, 1)]
    assert [kind.count for kind in kinds if kind.last] == [min(count, 1)]


def line(**more: object) -> Line:
    known = {"count": 3, "start": 0, "end": 9, "stations": tuple(range(10))}
    return Line(**{**known, "least_bays": 2, "stagger": 2, **more})  # type: ignore[arg-type]


def window(**more: int) -> WindowPrice:
    known = {"line": 0, "first": 3, "width": 2, "beside": 0, "beside_first": 3, "beside_width": 2}
    return WindowPrice(**{"price": 5, **known, **more})


def priced(*windows: WindowPrice) -> WorthVector:
    return WorthVector(scale=1, lengths=(), worths=(), windows=windows)


def test_window_prices_of_a_set_by_hand() -> None:
    """Three lines: two odd, one even, so a price of 5 adds 5 on odd lines, 10 on the even one.

    Given back: 5 x 2 x 1 = 10, as either both odd lines have a joint there or the even one.
    """
    task = task_of([line()], ())
    vector = priced(window(), window(width=3), window(line=1, beside=1))
    on_odd, on_even = {3: 5, 4: 5}, {3: 10, 4: 10}
    assert tolls(task, 0, vector) == ((1, on_odd), (0, on_odd), (1, on_even), (1, on_odd))
    assert given_back(task, vector) == 10


def test_two_stretches_of_a_set_by_hand() -> None:
    """Pieces of one bay, three bays apart: no neighbour of a joint at 4 has one at 2 to 6.

    Four lines, two of either kind: a joint adds 5, and 5 x 2 is given back.
    """
    task = task_of([line(count=4, least_bays=1, stagger=3)], ())
    vector = priced(window(first=4, width=1, beside_first=6, beside_width=1))
    assert tolls(task, 0, vector) == ((1, {4: 5}), (1, {4: 5}), (1, {6: 5}), (1, {6: 5}))
    assert given_back(task, vector) == 10


def test_window_prices_between_sets_by_hand() -> None:
    """The first set's station 3 is the other's station 1: they count from 0 and from 2.

    A price of 5 is added on the last line of the one and the first of the other; 5 is back.
    """
    task = task_of([line(), line(count=2, first_station=2)], (0,))
    vector = priced(window(beside=1, beside_first=1))
    none: dict[int, int] = {}
    assert tolls(task, 0, vector) == ((1, none), (0, none), (1, none), (1, {3: 5, 4: 5}))
    assert tolls(task, 1, vector) == ((1, {1: 5, 2: 5}), (0, none), (0, none), (1, none))
    assert given_back(task, vector) == 5


def test_a_line_by_itself_is_first_and_last() -> None:
    """It lies beside the set before and the set after it, and pays both prices."""
    task = task_of([line(), line(count=1), line()], (0, 1))
    vector = priced(window(beside=1, price=5), window(line=1, beside=2, price=7))
    assert tolls(task, 1, vector) == ((1, {3: 12, 4: 12}),)
    assert given_back(task, vector) == 12


BESIDE = [line(), line(first_station=2, stagger=3), line()]
HOLDS = (
    window(),
    window(beside_first=2, beside_width=1, first=3, width=1),
    window(first=8, beside_first=8),
    window(beside=1, beside_first=1),
    window(beside=1, beside_first=1, first=4, width=2),  # 4, 5 and 3, 4: two apart at most
)
HOLDS_NOT = {
    "as wide as the bays of a piece and one more": window(width=3),
    "so wide on the other lines": window(beside_width=3, beside_first=2, width=1),
    "of no station": window(width=0),
    "of no station on the other lines": window(beside_width=0),
    "a stagger apart": window(beside_first=4),
    "a stagger apart, the other way": window(beside_first=2),
    "a stagger apart between sets": window(beside=1, beside_first=3),
    "a stagger apart between sets, the other way": window(beside=1, beside_first=0, first=4),
    "before the first station": window(first=-1, beside_first=-1),
    "beyond the last station": window(first=9, beside_first=9),
    "of no set": window(line=3, beside=3),
    "of a set counted from the end": window(line=-1, beside=-1),
    "of sets not side by side": window(beside=2),
    "of sets side by side in the other order": window(line=1, beside=0, first=1),
}


@pytest.mark.parametrize("held", HOLDS)
def test_a_window_that_holds(held: WindowPrice) -> None:
    assert keeps_apart(task_of(BESIDE, (0,)), held)


@pytest.mark.parametrize("name", HOLDS_NOT)
def test_a_window_that_does_not_hold(name: str) -> None:
    assert not keeps_apart(task_of(BESIDE, (0,)), HOLDS_NOT[name])


def test_a_line_without_a_neighbour_has_no_window() -> None:
    assert not keeps_apart(task_of([line(count=1)], ()), window())
    assert not keeps_apart(task_of([line(count=0), line()], (0,)), window(beside=1))
    assert not keeps_apart(task_of([line(), line(count=0)], (0,)), window(beside=1))


def test_a_window_that_does_not_hold_would_prove_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """One bay apart is enough here, so each of two lines may have a joint in two stations.

    Two lines of 62 in pieces of 40 at most, jointed at 24 of them on: no worth but a price of
    9 on stations 1 and 2. Lines jointed at 1 and at 2 carry nothing, yet 2 x 9 - 9 is asked.
    """
    at = (1, 25, 37, 61)
    task = task_of([Line(count=2, start=0, end=62, stations=at, stagger=1)], (), 40)
    wide = WindowPrice(line=0, first=1, width=2, beside=0, beside_first=1, beside_width=2, price=9)
    vector = vector_of(task, [wide], [0])
    arcs = (arcs_of(task.lines[0], 40),)
    assert least_laid(task, {}, 0, 40) == 0
    assert demands_of_vector(task, vector, arcs)[0].least == 0
    monkeypatch.setattr(tolls_file, "keeps_apart", lambda _task, _window: True)
    assert demands_of_vector(task, vector, arcs)[0].least == 9


def test_a_window_of_the_plan_that_holds_is_no_flaw() -> None:
    assert audit_plan(with_window()(sample_plan())).findings == ()


def test_a_window_of_either_parity_is_told_by_two() -> None:
    """Stretches need not be alike: odd lines at 3, even ones at 4, and the other way round."""
    task = task_of([line(count=2)], ())
    one = window(width=1, beside_first=4, beside_width=1)
    other = evolve(one, first=4, beside_first=3)
    assert tolls(task, 0, priced(one, other))[0] == (1, {3: 5, 4: 5})
    assert given_back(task, priced(one, other)) == 10
