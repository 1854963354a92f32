"""Which pegs to move: figures by hand, and laws on figures knocked about with a seed."""

import math
from itertools import combinations

import pytest
from attrs import evolve
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drylay.errors import SettingOutError
from drylay.survey.model import Tape
from drylay.work.model import Peg, PegMoves, SettingOut
from drylay.work.outlined_setting_out import set_out_corners
from drylay.work.peg_moves import move_pegs

Place = tuple[float, float]
L_SHAPE: tuple[Place, ...] = (
    (0.0, 0.0), (4000.0, 0.0), (4000.0, 2000.0), (2000.0, 2000.0), (2000.0, 5000.0), (0.0, 5000.0),
)  # fmt: skip


def out(*corners: Place) -> SettingOut:
    pegs = tuple(
        Peg(mark=f"P{number}", along_mm=along, across_mm=across)
        for number, (along, across) in enumerate(corners, start=1)
    )
    return SettingOut(
        pegs=pegs, leg_along_mm=None, leg_across_mm=None, slant_mm=None, accepted_mm=5.0
    )


def box(along_mm: float, across_mm: float) -> SettingOut:
    return out((0.0, 0.0), (along_mm, 0.0), (along_mm, across_mm), (0.0, across_mm))


def tape(start: int, end: int, length_mm: float) -> Tape:
    return Tape(start=f"P{start}", end=f"P{end}", length_mm=length_mm)


def planned(found: SettingOut) -> dict[str, Place]:
    return {peg.mark: (peg.along_mm, peg.across_mm) for peg in found.pegs}


def taped(stands: dict[str, Place], pairs: list[tuple[str, str]]) -> list[Tape]:
    return [
        Tape(start=one, end=other, length_mm=math.dist(stands[one], stands[other]))
        for one, other in pairs
    ]


def moved(stands: dict[str, Place], found: PegMoves) -> dict[str, Place]:
    by = {move.mark: (move.along_mm, move.across_mm) for move in found.moves}
    return {
        mark: (x + by.get(mark, (0.0, 0.0))[0], y + by.get(mark, (0.0, 0.0))[1])
        for mark, (x, y) in stands.items()
    }


def told(found: PegMoves) -> list[tuple[str, float, float]]:
    return [(move.mark, move.along_mm, move.across_mm) for move in found.moves]


def test_diagonals_of_4300_and_4318_by_hand() -> None:
    """A frame of 3525 by 2478, whose diagonal is 4309, with its sides as planned.

    3525^2 + 2478^2 = 12425625 + 6140484 = 18566109, root 4308.8. The front has slid by
    e = 18 x 4308.8 / (2 x 3525) = 11.0 (2 a e / d = 18) to the right, for P1 to P3 is the longer:
    both pegs of the front move 11 to the left.
    """
    found = move_pegs(box(3525.0, 2478.0), [tape(1, 3, 4318.0), tape(2, 4, 4300.0)])
    assert found.verdict == "move"
    assert told(found) == [("P3", -11.0, 0.0), ("P4", -11.0, 0.0)]
    assert (found.difference_mm, found.slid_mm) == (18.0, 11.0)
    taken = [(tie.start, tie.end) for tie in found.taken]
    assert taken == [("P2", "P3"), ("P3", "P4"), ("P4", "P1")]
    assert [finding.code for finding in found.findings] == ["SET-002", "SET-004"]


def test_a_three_four_five_by_hand() -> None:
    """4000 by 3000, diagonals 5000: 10 off over 4000 makes them differ by 2 x 4000 x 10 / 5000.

    That is 16. Slid along itself by 10 the front gives sqrt(4010^2 + 3000^2) = 5008.0 and
    sqrt(3990^2 + 3000^2) = 4992.0.
    """
    found = move_pegs(box(4000.0, 3000.0), [tape(1, 3, 5008.0), tape(2, 4, 4992.0)])
    assert told(found) == [("P3", -10.0, 0.0), ("P4", -10.0, 0.0)]
    assert (found.difference_mm, found.slid_mm) == (16.0, 10.0)


def test_one_peg_alone_by_hand() -> None:
    """All six of a 4000 by 3000 whose P4 stands 12 to the left and 5 too far out: (-12, 3005).

    P1 to P4 3005.02, P3 to P4 4012.00, P2 to P4 sqrt(4012^2 + 3005^2) = 5012.6, read to the mm.
    """
    found = move_pegs(
        box(4000.0, 3000.0),
        [tape(1, 2, 4000.0), tape(2, 3, 3000.0), tape(3, 4, 4012.0), tape(1, 4, 3005.0),
         tape(1, 3, 5000.0), tape(2, 4, 5013.0)],
    )  # fmt: skip
    ((mark, along, across),) = told(found)
    assert mark == "P4"
    assert (along, across) == (pytest.approx(12.0, abs=0.7), pytest.approx(-5.0, abs=0.7))
    assert found.taken == ()


def test_what_is_accepted_is_left() -> None:
    """Diagonals that differ by 5 are accepted, by 6 not; over 6 m it is 5 all the same."""
    for side, difference, verdict in ((3000.0, 5.0, "true"), (3000.0, 6.0, "move"),
                                      (9000.0, 5.0, "true"), (9000.0, 6.0, "move")):  # fmt: skip
        long = math.hypot(side, side)
        tapes = [tape(1, 3, long + difference / 2), tape(2, 4, long - difference / 2)]
        found = move_pegs(box(side, side), tapes)
        assert found.verdict == verdict
        assert bool(found.moves) == (verdict == "move")
        assert found.findings[0].limit == 5.0


def test_lengths_that_no_figure_has_move_nothing() -> None:
    """Sides of 4000 and 3000 with diagonals of 5000 and 5030: 2 (a^2 + b^2) = D^2 + d^2 fails.

    One diagonal 30 too long is a quarter off at each of the four sides and two diagonals, in
    figures of force over length; the root of its squares is half of it: 15.
    """
    sides = [tape(1, 2, 4000.0), tape(2, 3, 3000.0), tape(3, 4, 4000.0), tape(1, 4, 3000.0)]
    found = move_pegs(box(4000.0, 3000.0), [*sides, tape(1, 3, 5000.0), tape(2, 4, 5030.0)])
    assert (found.verdict, found.moves, found.stood) == ("tape again", (), ())
    assert found.misfit_mm == pytest.approx(15.0, abs=0.1)
    assert found.suspect is None  # one tape to spare tells that one is wrong, not which
    assert [finding.code for finding in found.findings] == ["SET-003"]


def test_both_diagonals_too_long_for_their_sides_are_refused() -> None:
    found = move_pegs(box(4000.0, 3000.0), [tape(1, 3, 5020.0), tape(2, 4, 5020.0)])
    assert found.verdict == "tape again"
    assert [finding.code for finding in found.findings] == ["SET-003", "SET-004"]
    assert "tape the sides too" in found.findings[0].message


def test_the_bad_tape_is_named_where_tapes_are_to_spare() -> None:
    """An L with all fifteen lengths, one read 100 too short: it should have read as planned."""
    found = set_out_corners(L_SHAPE, units="metric", clear=lambda _one, _other: True)
    stands = planned(found)
    tapes = taped(stands, list(combinations(stands, 2)))
    tapes[6] = evolve(tapes[6], length_mm=tapes[6].length_mm - 100.0)
    answer = move_pegs(found, tapes)
    assert answer.verdict == "tape again"
    assert answer.suspect is not None
    assert (answer.suspect.start, answer.suspect.end) == (tapes[6].start, tapes[6].end)
    assert answer.suspect.length_mm == pytest.approx(tapes[6].length_mm + 100.0, abs=0.1)
    assert "should then read" in answer.findings[0].message


def test_an_l_is_put_right_by_the_ties_of_its_plan() -> None:
    found = set_out_corners(L_SHAPE, units="metric", clear=lambda _one, _other: True)
    stands = planned(found) | {"P4": (2015.0, 1990.0), "P5": (2000.0, 5022.0)}
    answer = move_pegs(found, taped(stands, [(tie.start, tie.end) for tie in found.ties]))
    assert [move.mark for move in answer.moves] == ["P4", "P5"]
    assert told(answer)[0][1:] == (pytest.approx(-15.0, abs=0.2), pytest.approx(10.0, abs=0.2))


def test_lengths_that_fix_no_figure_are_told_with_what_would() -> None:
    """An L of six pegs has 2 x 6 - 3 = 9 lengths to fix it: six sides and two are one short."""
    found = out(*L_SHAPE)
    stands = planned(found) | {"P3": (4010.0, 2000.0)}
    answer = move_pegs(found, taped(stands, [("P1", "P3"), ("P1", "P5")]))
    assert len(answer.tape_too) == 1
    assert answer.findings[-1].code == "SET-005"
    more = [("P1", "P3"), ("P1", "P5"), (answer.tape_too[0].start, answer.tape_too[0].end)]
    assert move_pegs(found, taped(stands, more)).tape_too == ()


def test_of_figures_that_have_all_tapes_the_one_with_fewest_pegs_moved_is_taken() -> None:
    """Five sides of a pentagon alone leave it loose; P4 alone, 20 and 20 off, explains them all."""
    found = out((4000.0, 0.0), (618.0, 1902.0), (-4045.0, 2939.0), (-2427.0, -1763.0),
                (1545.0, -4755.0))  # fmt: skip
    stands = planned(found) | {"P4": (-2407.0, -1743.0)}
    sides = [("P1", "P5"), ("P2", "P3"), ("P3", "P4"), ("P4", "P5")]
    answer = move_pegs(found, taped(stands, sides))
    assert told(answer) == [("P4", -20.0, -20.0)]
    assert [finding.code for finding in answer.findings] == ["SET-002", "SET-005"]


def test_the_far_peg_of_the_base_line_moves_along_it() -> None:
    """All tapes of a 4000 by 3000 whose P2 stands at 4020: it comes back by 20 along the line."""
    found = box(4000.0, 3000.0)
    stands = planned(found) | {"P2": (4020.0, 0.0)}
    answer = move_pegs(found, taped(stands, list(combinations(stands, 2))))
    assert told(answer) == [("P2", -20.0, 0.0)]


def test_every_fault_is_told_at_once() -> None:
    tapes = [tape(1, 9, 4000.0), tape(2, 2, 10.0), tape(1, 3, 500.0), tape(3, 1, -1.0)]
    with pytest.raises(SettingOutError) as told_of:
        move_pegs(box(4000.0, 3000.0), tapes, accepted_mm=0.1, tape_mm=math.nan)
    faults = told_of.value.faults
    assert [fault.path for fault in faults] == [
        "accepted_mm", "tape_mm", "tapes[0]", "tapes[1]", "tapes[2].length_mm", "tapes[3]",
        "tapes[3].length_mm",
    ]  # fmt: skip
    assert faults[4].nearest == "5000.0 mm"
    with pytest.raises(SettingOutError, match="3 pegs or more"):
        move_pegs(out((0.0, 0.0), (4000.0, 0.0)), [])


# Laws

STARS = st.lists(st.integers(1500, 6000), min_size=3, max_size=6)
KNOCKS = st.lists(st.tuples(st.floats(-60, 60), st.floats(-60, 60)), min_size=6, max_size=6)


def star(reaches: list[int]) -> SettingOut:
    """Return pegs all round a middle, each so far from it; P1 to P2 lies askew."""
    step = 2 * math.pi / len(reaches)
    return out(*((r * math.cos(n * step), r * math.sin(n * step)) for n, r in enumerate(reaches)))


def knocked(found: SettingOut, knocks: list[tuple[float, float]]) -> dict[str, Place]:
    """Return where pegs stand: P1 as planned, P2 off along the line alone, the rest anywhere."""
    at = planned(found)
    (x1, y1), (x2, y2) = at["P1"], at["P2"]
    long = math.hypot(x2 - x1, y2 - y1)
    stands = {"P1": at["P1"]}
    for number, (mark, (x, y)) in enumerate(list(at.items())[1:]):
        dx, dy = knocks[number]
        if mark == "P2":
            dx, dy = (x2 - x1) / long * dx, (y2 - y1) / long * dx
        stands[mark] = (x + dx, y + dy)
    return stands


def read_off(found: SettingOut, stands: dict[str, Place], pairs: list[tuple[str, str]]) -> float:
    """Return how far the worst of these tapes is from its planned length."""
    at = planned(found)
    return max(
        abs(math.dist(stands[one], stands[other]) - math.dist(at[one], at[other]))
        for one, other in pairs
    )


@settings(max_examples=60)
@given(STARS, KNOCKS)
def test_after_the_moves_every_tape_reads_as_planned(
    reaches: list[int], knocks: list[tuple[float, float]]
) -> None:
    found = star(reaches)
    stands = knocked(found, knocks)
    pairs = list(combinations(stands, 2))
    answer = move_pegs(found, taped(stands, pairs), accepted_mm=0.5)
    assert answer.verdict != "tape again"
    limit = 0.5
    assert read_off(found, moved(stands, answer), pairs) <= limit + 1e-9


@given(st.integers(1500, 9000), st.integers(1500, 9000), st.floats(-60, 60))
def test_a_slid_frame_comes_true_by_its_two_diagonals(
    along: int, across: int, slid_mm: float
) -> None:
    """Sides as planned, the front slid round: exact places, by circles about P1 and P2."""
    assume(abs(slid_mm) > 8)
    found = box(float(along), float(across))
    down = math.sqrt(across**2 - slid_mm**2)
    stands = planned(found) | {"P3": (along + slid_mm, down), "P4": (slid_mm, down)}
    answer = move_pegs(found, taped(stands, [("P1", "P3"), ("P2", "P4")]))
    assume(answer.verdict == "move")
    every = list(combinations(stands, 2))
    assert read_off(found, moved(stands, answer), every) <= 0.5
    assert {move.mark for move in answer.moves} == {"P3", "P4"}
    assert answer.slid_mm == pytest.approx(slid_mm, abs=0.2)  # 2 a e / d, to terms in e^3


@settings(max_examples=40)
@given(STARS, st.integers(2, 5), st.floats(-60, 60), st.floats(-60, 60))
def test_where_one_peg_was_knocked_one_peg_is_moved(
    reaches: list[int], number: int, dx: float, dy: float
) -> None:
    assume(math.hypot(dx, dy) > 12 and number < len(reaches))
    found = star(reaches)
    mark = found.pegs[number].mark
    x, y = planned(found)[mark]
    stands = planned(found) | {mark: (x + dx, y + dy)}
    answer = move_pegs(found, taped(stands, list(combinations(stands, 2))))
    assume(answer.verdict == "move")
    assert [move.mark for move in answer.moves] == [mark]


@settings(max_examples=30)
@given(STARS, KNOCKS, st.integers(-9000, 9000), st.integers(-9000, 9000))
def test_pegs_told_from_elsewhere_move_alike(
    reaches: list[int], knocks: list[tuple[float, float]], dx: int, dy: int
) -> None:
    found = star(reaches)
    stands = knocked(found, knocks)
    tapes = taped(stands, list(combinations(stands, 2)))
    there = evolve(found, pegs=tuple(
        evolve(peg, along_mm=peg.along_mm + dx, across_mm=peg.across_mm + dy) for peg in found.pegs
    ))  # fmt: skip
    one, other = move_pegs(found, tapes), move_pegs(there, tapes)
    assert [move.mark for move in one.moves] == [move.mark for move in other.moves]
    for here, elsewhere in zip(one.moves, other.moves, strict=True):
        assert here.along_mm == pytest.approx(elsewhere.along_mm, abs=0.11)
        assert here.across_mm == pytest.approx(elsewhere.across_mm, abs=0.11)


@settings(max_examples=30)
@given(STARS, KNOCKS)
def test_tapes_told_in_another_order_or_backwards_move_alike(
    reaches: list[int], knocks: list[tuple[float, float]]
) -> None:
    found = star(reaches)
    stands = knocked(found, knocks)
    tapes = taped(stands, list(combinations(stands, 2)))
    turned = [evolve(each, start=each.end, end=each.start) for each in reversed(tapes)]
    one, other = move_pegs(found, tapes), move_pegs(found, turned)
    assert [move.mark for move in one.moves] == [move.mark for move in other.moves]
