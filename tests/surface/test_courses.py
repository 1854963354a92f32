"""Laws of courses of tiles: they fill the cover, cuts are alike, nothing small is cut."""

from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.brief.model import RowsWish
from drylay.marks import PER_MM, exact
from drylay.surface.courses import courses_in_order, fit_courses
from drylay.surface.limits import RowLimits
from drylay.surface.model import WayOut
from drylay.tiling.grid import edges_of, lay_columns, lay_rows

KERF = 3 * PER_MM
PREFER = RowsWish().prefer


def limits(depth_320: int, side_320: int = 600 * PER_MM, **more: int) -> RowLimits:
    joint = more.pop("joint_320", 4 * PER_MM)
    return RowLimits(
        depth_320=depth_320, board_320=side_320, least_320=2 * PER_MM, preferred_320=joint,
        most_320=5 * PER_MM, sliver_320=side_320 // 3, least_rip_320=side_320 // 3,
        least_off_320=KERF, **more,
    )  # fmt: skip


@st.composite
def covers(draw: st.DrawFn) -> RowLimits:
    unit = draw(st.sampled_from([1, 32, 127, PER_MM]))
    return limits(
        draw(st.integers(100 * PER_MM // unit, 20_000 * PER_MM // unit)) * unit,
        draw(st.integers(200, 1200)) * PER_MM,
        joint_320=draw(st.integers(2, 5)) * PER_MM,
        grow_320=draw(st.integers(0, 400)) * PER_MM,
        shrink_320=draw(st.integers(0, 400)) * PER_MM,
    )


def honest(case: RowLimits) -> list[WayOut]:
    return [way for way in fit_courses(case).ways_out if way.honest]


@given(covers())
def test_tiles_and_joints_fill_the_cover_to_the_last_tick(case: RowLimits) -> None:
    for way in fit_courses(case).ways_out:
        courses = edges_of(way, case.board_320 / PER_MM, case.preferred_320 / PER_MM)
        near, width = courses[-1]
        assert courses[0][0] == 0
        assert near + width == case.depth_320 + exact(way.cover_change_mm)
        for (one, wide), (other, _) in pairwise(courses):
            assert other - one - wide == case.preferred_320
        assert all(wide == case.board_320 for _, wide in courses[1:-1])


@given(covers())
def test_cuts_are_alike_at_both_edges_and_never_under_a_third(case: RowLimits) -> None:
    for way in honest(case):
        first, last = exact(way.first_row_mm), exact(way.last_row_mm)
        assert 0 <= first - last <= 1  # an odd 1/320 mm has to lie somewhere
        if way.kind == "rip_both":
            assert 3 * last >= case.board_320 - 2  # a third is rounded down to a 1/320 mm
            assert first <= case.board_320 - KERF


@given(covers())
def test_the_cover_changes_no_further_than_it_may(case: RowLimits) -> None:
    for way in honest(case):
        change = exact(way.cover_change_mm)
        assert -case.shrink_320 <= change <= case.grow_320
        assert (way.kind == "grow") == (change > 0)
        assert (way.kind == "shrink") == (change < 0)


@given(covers())
def test_a_cover_is_resized_before_a_tile_is_cut(case: RowLimits) -> None:
    kinds = [way.kind for way in courses_in_order(fit_courses(case).ways_out, PREFER)]
    assert kinds == sorted(kinds, key=PREFER.index)
    whole = {"as_wished", "shrink", "grow"}
    if whole & set(kinds):
        assert kinds[0] in whole


def every_way(case: RowLimits) -> set[tuple[int, int, int]]:
    """Count every number of courses: how many, the cut at each end, the change; by the rules."""
    side, joint, found = case.board_320, case.preferred_320, set()
    for count in range(1, case.depth_320 // side + 3):
        change = count * side + (count - 1) * joint - case.depth_320
        if -case.shrink_320 <= change <= case.grow_320:
            found.add((count, side, change))
        left = case.depth_320 - (count - 2) * side - (count - 1) * joint
        if count > 1 and left >= 2 * (side // 3) and (left + 1) // 2 <= side - KERF:
            found.add((count, (left + 1) // 2, 0))
    return found


@given(covers())
def test_no_way_out_is_missed(case: RowLimits) -> None:
    """But those of whole tiles that are not next to the cover's size, and all where tiles fit."""
    if not case.remainder_320:
        assert [way.kind for way in honest(case)] == ["as_wished"]
        return
    told = {(w.rows, exact(w.first_row_mm), exact(w.cover_change_mm)) for w in honest(case)}
    counted = every_way(case)
    assert {way for way in told if way[0] > 1} <= counted
    beside = {case.whole_rows, case.whole_rows + 1}
    assert all(
        first == case.board_320 and count not in beside for count, first, _ in counted - told
    )


@pytest.mark.parametrize(
    ("depth_mm", "kinds"),
    [
        (3016, {"as_wished": (5, 600)}),  # 5 x 600 + 4 x 4
        (3014, {"rip_both": (6, 297)}),  # 3014 - 4 x 600 - 5 x 4 = 594; 599 leaves no kerf
        (2410, {"rip_both": (5, 297)}),  # 2410 - 3 x 600 - 4 x 4 = 594
        (3300, {"rip_both": (6, 440)}),  # 3300 - 4 x 600 - 5 x 4 = 880; else 2 x 138, under 200
        (3500, {"rip_both": (6, 540)}),  # 3500 - 4 x 600 - 5 x 4 = 1080, of two the larger ...
    ],
)
def test_by_hand(depth_mm: int, kinds: dict[str, tuple[int, int]]) -> None:
    best = courses_in_order(fit_courses(limits(depth_mm * PER_MM)).ways_out, PREFER)[0]
    assert {best.kind: (best.rows, best.first_row_mm)} == kinds


def test_two_ways_to_cut_stand_larger_cuts_first() -> None:
    """... the other, 3500 - 5 x 600 - 6 x 4 = 476 in two cuts of 238, is over a third too."""
    ways = courses_in_order(fit_courses(limits(3500 * PER_MM)).ways_out, PREFER)
    assert [(way.rows, way.first_row_mm) for way in ways] == [(6, 540.0), (7, 238.0)]


def test_tiles_that_may_not_be_cut_have_whole_ways_alone() -> None:
    case = evolve(limits(3014 * PER_MM, grow_320=2 * PER_MM), may_rip=False)
    assert [(way.kind, way.rows, way.cover_change_mm) for way in honest(case)] == [("grow", 5, 2.0)]


@given(covers())
def test_rows_and_columns_are_laid_alike(case: RowLimits) -> None:
    for way in honest(case):
        side, joint = case.board_320 / PER_MM, case.preferred_320 / PER_MM
        rows, columns = lay_rows(way, side, joint), lay_columns(way, side, joint)
        assert [(r.near_mm, r.width_mm, r.gap_mm, r.ripped) for r in rows] == [
            (c.start_mm, c.length_mm, c.gap_mm, c.cut) for c in columns
        ]
        assert [row.ripped for row in rows] == [row.width_mm < side for row in rows]
