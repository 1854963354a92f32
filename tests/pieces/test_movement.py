"""Growth of boards and the gap between their ends, by hand and by law."""

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from drylay.movement.heat import end_gap, joint_gap_mm
from drylay.pieces.joints import JointRules, joint_rows
from drylay.pieces.model import Movement, Pieces
from drylay.pieces.movement import movement_of
from drylay.supports.pairs import place_pairs
from pieces.test_joints import surface


def laid(gap_mm: float, stations: tuple[tuple[int, ...], ...]) -> Pieces:
    supports = place_pairs(
        length_mm=5400.0, joist_mm=45.0, most_centres_mm=350.0, seams_mm=(1800.0, 3600.0)
    )
    rules = JointRules(
        end_gap_mm=gap_mm, end_bearing_least_mm=20.0, least_supports=3, stagger_bays=1,
        most_joints_per_row=None, joint_price=Decimal(0),
    )  # fmt: skip
    return joint_rows(surface(5400.0, len(stations)), supports, rules, stations)


def moved(
    gap_mm: float, growth: float, laying_c: float, hottest_c: float | None, coldest_c: float | None
) -> Movement:
    return movement_of(
        laid(gap_mm, ((1,), (0,))),
        growth_per_k=growth,
        laying_c=laying_c,
        hottest_c=hottest_c,
        coldest_c=coldest_c,
        board_mm=3600.0,
        fixed_mm={},
    )


def test_s08_by_hand() -> None:
    """3600 x 40e-6 x 38 = 5.472; (3597 + 1797)/2 x 40e-6 x 22 = 2.37336 more than 6 when coldest.

    When hottest 2697 x 40e-6 x 38 = 4.09944 less.
    """
    found = moved(6.0, 40e-6, 12.0, 50.0, -10.0)
    assert Fraction(str(found.growth_mm)) == Fraction("5.472")
    assert Fraction(str(found.widest_mm)) == Fraction("8.37336")
    # 3600 x 40e-6 = 0.144 a K: x 50 = 7.2, x 45 = 6.48, x 40 = 5.76, x 35 = 5.04, x 20 = 2.88
    told = [(day.laying_c, day.end_gap_mm) for day in found.other_days]
    assert told == [(0, 8), (5, 7), (10, 6), (15, 6), (20, 5), (25, 4), (30, 3)]
    assert Fraction(str(found.narrowest_mm)) == Fraction("1.90056")


temperatures = st.tuples(st.integers(-20, 10), st.integers(11, 40), st.integers(41, 80))
growths = st.integers(0, 100).map(lambda millionths: millionths / 1e6)


@given(temperatures, growths, st.integers(0, 40).map(lambda half: half / 2))
def test_the_gap_opens_in_the_cold_and_closes_in_the_heat(
    days: tuple[int, int, int], growth: float, gap_mm: float
) -> None:
    cold, lay, hot = map(float, days)
    found = moved(gap_mm, growth, lay, hot, cold)
    assert found.narrowest_mm <= gap_mm <= found.widest_mm
    assert found.growth_mm >= 0
    pieces = laid(gap_mm, ((1,), (0,)))
    one, other = pieces.pieces[:2]
    alike = {"laid_mm": gap_mm, "growth_per_k": growth, "laying_c": lay,
             "neighbours_mm": (one.length_mm, other.length_mm)}  # fmt: skip
    assert found.narrowest_mm == joint_gap_mm(**alike, now_c=hot)
    assert found.widest_mm == joint_gap_mm(**alike, now_c=cold)


@given(temperatures, growths)
def test_the_gap_of_the_movement_room_never_lets_boards_press(
    days: tuple[int, int, int], growth: float
) -> None:
    cold, lay, hot = map(float, days)
    gap = end_gap(
        length_mm=3600.0, growth_per_k=growth, laying_c=lay, hottest_c=hot, coldest_c=cold
    )
    assert moved(gap.laid_mm, growth, lay, hot, cold).narrowest_mm >= 0


def test_what_is_not_told_is_not_reckoned() -> None:
    found = moved(6.0, 40e-6, 12.0, None, None)
    assert (found.growth_mm, found.narrowest_mm, found.widest_mm) == (None, None, None)
    whole = movement_of(
        laid(6.0, ((), ())), growth_per_k=40e-6, laying_c=12.0, hottest_c=50.0, coldest_c=-10.0,
        board_mm=5400.0, fixed_mm={},
    )  # fmt: skip
    assert whole.growth_mm is not None
    assert (whole.narrowest_mm, whole.widest_mm) == (None, None)


def test_a_board_moves_away_from_its_fixed_point_by_hand() -> None:
    """Two boards, 3597 and 1797, fixed at 1700 and 4400: 1897 and 797 meet, 2694 between them.

    When hottest 2694 x 40e-6 x 38 = 4.09488 less than 6, when coldest 2694 x 40e-6 x 22 = 2.37072
    more; the near end moves out by 1700 x 40e-6 x 38 = 2.584.
    """
    pieces = laid(6.0, ((1,), (1,)))
    assert [piece.length_mm for piece in pieces.pieces[:2]] == [3597.0, 1797.0]
    fixed_mm = {mark: at for row in ("B1", "B2") for mark, at in
                ((f"{row}.1", 1700.0), (f"{row}.2", 4400.0))}  # fmt: skip
    found = movement_of(
        pieces, growth_per_k=40e-6, laying_c=12.0, hottest_c=50.0, coldest_c=-10.0,
        board_mm=3600.0, fixed_mm=fixed_mm,
    )  # fmt: skip
    assert found.between_mm == 2694.0
    assert Fraction(str(found.narrowest_mm)) == Fraction("1.90512")
    assert Fraction(str(found.widest_mm)) == Fraction("8.37072")
    assert Fraction(str(found.outer_mm)) == Fraction("2.584")
