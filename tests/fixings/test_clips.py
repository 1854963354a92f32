"""Clips counted from gaps and joists, battens beside joints, fixed points, end caps."""

from decimal import Decimal

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.fixings.clips import (
    ClipRules,
    OnBattens,
    count_clips,
    count_end_caps,
    count_on_battens,
)
from drylay.fixings.model import Clips
from drylay.fixings.screws import ScrewRules, count_coach_screws, count_deck_screws
from drylay.marks import exact
from drylay.pieces.joints import JointRules, joint_rows
from drylay.pieces.model import Joint, Pieces
from drylay.pieces.movement import movement_of
from drylay.supports.pairs import place_pairs
from pieces.test_joints import surface

RULES = ClipRules(per_crossing=1, starter_per_joist=1, end_row_screws_per_joist=1)
JOINTS = JointRules(
    end_gap_mm=6.0, end_bearing_least_mm=20.0, least_supports=3, stagger_bays=1,
    most_joints_per_row=None, joint_price=Decimal(0),
)  # fmt: skip


def pieces_of(rows: int) -> tuple[Pieces, Clips]:
    supports = place_pairs(
        length_mm=5400.0, joist_mm=45.0, most_centres_mm=350.0, seams_mm=(1800.0, 3600.0)
    )
    stations = tuple(((row + 1) % 2,) for row in range(rows))
    pieces = joint_rows(surface(5400.0, rows), supports, JOINTS, stations)
    clips = count_clips(
        rows=rows, joists=supports.line_count, rules=RULES, on_battens=OnBattens(),
        pieces=pieces, lines=supports.lines, article="K", gap_mm=5.0, starter="KS",
    )  # fmt: skip
    return pieces, clips


def test_clips_of_s08_by_hand() -> None:
    """20 gaps x 21 joists = 420, 21 starters; 21 rows of two boards have 84 ends."""
    pieces, clips = pieces_of(21)
    assert (clips.crossings, clips.count, clips.starter_count) == (420, 420, 21)
    caps = count_end_caps(len(pieces.pieces), per_end=1, article="C")
    assert (caps.ends, caps.count) == (84, 84)


def test_the_last_row_slides_on_slots_by_hand() -> None:
    """Its boards, 3597 and 1797, are fixed at J7 and J16 or near; 40e-6 a K, 38 K warmer.

    The longer one's fixed point lies 1800 or so from its ends: 2 x 1800 x 40e-6 x 38 = 5.47, and a
    shank of 5 makes 10.5, a half millimetre up.
    """
    supports = place_pairs(
        length_mm=5400.0, joist_mm=45.0, most_centres_mm=350.0, seams_mm=(1800.0, 3600.0)
    )
    pieces = joint_rows(surface(5400.0, 2), supports, JOINTS, ((0,), (1,)))
    moved = movement_of(
        pieces, growth_per_k=40e-6, laying_c=12.0, hottest_c=50.0, coldest_c=-10.0,
        board_mm=3600.0, fixed_mm={},
    )  # fmt: skip
    clips = count_clips(
        rows=2, joists=supports.line_count, rules=RULES, on_battens=OnBattens(),
        pieces=evolve(pieces, movement=moved), lines=supports.lines, article="K", gap_mm=5.0,
        shank_mm=5.0,
    )  # fmt: skip
    assert clips.fixed_screws == 2
    centres = [line.offset_mm for line in supports.lines]
    longer = pieces.pieces[2]
    at = centres[int(clips.fixed_points[2].joist[1:]) - 1]
    furthest = max(at - longer.start_mm, longer.start_mm + longer.length_mm - at)
    least = 5.0 + 2 * furthest * 40e-6 * 38
    assert least <= clips.slot_mm < least + 0.5
    assert clips.slot_width_mm == 6.0


@given(st.integers(1, 30), st.integers(2, 40), st.integers(1, 3), st.integers(0, 2))
def test_clips_grow_by_a_gap_for_each_row_and_by_rows_for_each_joist(
    rows: int, joists: int, per_crossing: int, starters: int
) -> None:
    rules = ClipRules(
        per_crossing=per_crossing, starter_per_joist=starters, end_row_screws_per_joist=1
    )
    bare = Pieces(
        end_gap_mm=6.0, least_supports=3, stagger_bays=1, most_joints_per_row=None,
        joint_price=Decimal(0), trim_allowance_mm=0.0, end_bearing_mm=42.0,
        end_bearing_least_mm=20.0, joint_count=0, joints=(), pieces=(),
    )  # fmt: skip
    clips = count_clips(
        rows=rows, joists=joists, rules=rules, on_battens=OnBattens(), pieces=bare, lines=(),
        article="K", gap_mm=5.0,
    )  # fmt: skip
    assert clips.count == per_crossing * joists * (rows - 1)
    assert clips.starter_count == starters * joists


def test_each_board_is_fixed_at_the_joist_nearest_its_middle() -> None:
    """1797 long from 0: its middle at 898.5, nearest J4 at 900. 3597 from 1803: 3601.5, J15."""
    pieces, clips = pieces_of(2)
    at = {point.piece: point.joist for point in clips.fixed_points}
    assert set(at) == {piece.mark for piece in pieces.pieces}
    assert (at["B2.1"], at["B2.2"]) == ("J4", "J15")


BATTENED = (
    Joint(row="B1", joist="J5", beside="Q1", centre_mm=1500.0),
    Joint(row="B2", joist="J8", beside="Q2", centre_mm=2500.0),
    Joint(row="B3", joist="J5", beside="Q3", centre_mm=1500.0),
)


def test_battens_beside_joints_want_clips_of_their_own() -> None:
    """Row 1 at J5: the gap after it; row 3: the gap before. Row 2 at J8: both gaps: 4 in all."""
    found = count_on_battens(("B1", "B2", "B3"), BATTENED, paired=False)
    assert found == OnBattens(gaps=4, first_row=1, last_row=1)
    assert count_on_battens(("B1", "B2", "B3"), BATTENED, paired=True) == OnBattens()
    alone = tuple(evolve(joint, beside="") for joint in BATTENED)
    assert count_on_battens(("B1", "B2", "B3"), alone, paired=False) == OnBattens()


def test_a_gap_between_two_joints_of_one_joist_is_counted_once() -> None:
    side_by_side = (
        Joint(row="B1", joist="J5", beside="Q1", centre_mm=1500.0),
        Joint(row="B2", joist="J5", beside="Q1", centre_mm=1500.0),
    )
    found = count_on_battens(("B1", "B2", "B3"), side_by_side, paired=False)
    assert found == OnBattens(gaps=2, first_row=1, last_row=0)


SCREWS = ScrewRules(
    per_crossing=2, length_least_mm=70.0, edge_least_mm=20.0, end_least_mm=15.0, pilot_ratio=0.7
)


def test_a_pair_is_one_crossing_and_two_at_a_joint() -> None:
    """21 joists of which 2 pairs: 19 places; 10 rows x 19 + 10 joints, two screws each: 400."""
    found = count_deck_screws(
        rows=10, joists=21, pairs=2, joints=10, rules=SCREWS, article="S", shank_mm=4.5,
        length_mm=70.0,
    )  # fmt: skip
    assert (found.crossings, found.count) == (190, 400)


@pytest.mark.parametrize(("hung", "ends"), [(False, 42), (True, 12)])
def test_joists_of_pairs_stay_on_coach_screws(hung: bool, ends: int) -> None:
    """Of 21 joists the outer two and four in pairs: 6 joists, 12 ends."""
    found = count_coach_screws(
        joists=21, per_joist_end=2, length_least_mm=100.0, sink_mm=0.0, pilot_ratio=0.7,
        article="C", shank_mm=8.0, length_mm=120.0, head_mm=7.0, on_hangers=hung, paired=4,
    )  # fmt: skip
    assert (found.joist_ends, found.count) == (ends, 2 * ends)


def test_marks_of_fixed_points_are_joists_under_their_piece() -> None:
    pieces, clips = pieces_of(4)
    at = {piece.mark: piece for piece in pieces.pieces}
    lines = place_pairs(
        length_mm=5400.0, joist_mm=45.0, most_centres_mm=350.0, seams_mm=(1800.0, 3600.0)
    ).lines
    for point in clips.fixed_points:
        piece, line = at[point.piece], lines[int(point.joist[1:]) - 1]
        assert (
            exact(piece.start_mm) < exact(line.offset_mm) < exact(piece.start_mm + piece.length_mm)
        )
