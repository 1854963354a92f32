"""What the papers tell of sawn ends agrees with the corners, worked here from those alone."""

from functools import lru_cache
from itertools import pairwise
from math import atan2, cos, degrees, dist, radians, sin, tan

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.laying.model import LaidPiece, LaidRow
from drylay.outline.model import Spot
from drylay.papers.outlined_ends import SawnEnd, sawn_ends
from drylay.papers.places import all_placed
from drylay.plan.model import Plan
from outlined_gardens import planned
from papers.outlined_sample import WEDGE, outlined_plan

#: Saw settings under this are told as square.
SQUARE_DEG = 0.1
#: Told settings are of corners rounded to 1/320 mm.
NEAR_DEG = 0.06


def seen(corners: tuple[Spot, ...]) -> dict[str, tuple[float, str]]:
    """The setting and the longer edge at each end of four corners, by the end's name.

    Ends lie left and right of the middle, or nearer to the house and to the garden, by whichever
    of the two the board is longer; the longer edge is that of the end's outermost corner.
    """
    points = [(spot.along_mm, spot.across_mm) for spot in corners]
    one, other = max(pairwise([*points, points[0]]), key=lambda edge: dist(*edge))
    away = abs(other[1] - one[1]) > abs(other[0] - one[0]) + 1.0  # at 45 degrees: left and right
    key = 1 if away else 0
    middle = [sum(p[k] for p in points) / 4 for k in (0, 1)]
    far = sorted(points, key=lambda p: p[key])
    long = dist(one, other)
    run = ((other[0] - one[0]) / long, (other[1] - one[1]) / long)
    if run[key] < 0:
        run = (-run[0], -run[1])
    found = {}
    names = ("house", "garden") if away else ("left", "right")
    for name, pair, sign in zip(names, (far[:2], far[2:]), (-1, 1), strict=True):
        tip, heel = sorted(pair, key=lambda p: -sign * (p[0] * run[0] + p[1] * run[1]))
        slant = abs((tip[0] - heel[0]) * run[0] + (tip[1] - heel[1]) * run[1])
        wide = abs((tip[0] - heel[0]) * run[1] - (tip[1] - heel[1]) * run[0])
        # Which edge the tip lies on: its distance from the middle line, across the run.
        off = (tip[0] - middle[0]) * -run[1] + (tip[1] - middle[1]) * run[0]
        if away:
            edge = "left edge" if off > 0 else "right edge"
        else:
            edge = "garden edge" if off > 0 else "house edge"
        found[name] = (degrees(atan2(slant, wide)), edge)
    return found


def agree(mark: str, told: tuple[SawnEnd, ...], corners: tuple[Spot, ...]) -> None:
    expected = seen(corners)
    assert {end.name for end in told} == set(expected), mark
    for end in told:
        value_deg, longer = expected[end.name]
        if not end.value_deg:
            assert value_deg < SQUARE_DEG + NEAR_DEG, (mark, end, expected)
        else:
            assert end.value_deg == pytest.approx(value_deg, abs=NEAR_DEG), (mark, end, expected)
            if value_deg > NEAR_DEG:
                assert end.longer == longer, (mark, end, expected)


def laid(run_deg: float, fan_deg: float, start_deg: float, end_deg: float) -> Plan:
    """A deck of one board: its row turned by the fan off its zone's run, ends off square."""
    plan = outlined_plan(WEDGE)
    laying = plan.laying
    turn, wide, long = radians(run_deg + fan_deg), 145.0, 3000.0
    run, left = (cos(turn), sin(turn)), (-sin(turn), cos(turn))

    def spot(t: float, n: float) -> Spot:
        return Spot(
            along_mm=900 + t * run[0] + n * left[0], across_mm=700 + t * run[1] + n * left[1]
        )

    begins, ends = wide * tan(radians(start_deg)), long + wide * tan(radians(end_deg))
    corners = (spot(0, 0), spot(long, 0), spot(ends, wide), spot(begins, wide))
    zone = evolve(laying.zones[0], angle_deg=run_deg)
    row = LaidRow(mark="B1", zone=zone.mark, start=spot(0, 0), end=spot(long, 0), width_mm=wide,
                  ripped=False)  # fmt: skip
    piece = LaidPiece(
        mark="B1.1", kind="field", row="B1", corners=corners, length_mm=long, cut_mm=long,
        width_mm=wide, start_deg=start_deg, end_deg=end_deg, shaped=False, from_member="J1",
    )  # fmt: skip
    laying = evolve(laying, zones=(zone,), rows=(row,), pieces=(piece,), joints=(), mitres=())
    return evolve(plan, laying=laying)


SLANTS = st.one_of(st.just(0.0), st.floats(0.2, 60.0), st.floats(-60.0, -0.2))
RUNS = st.one_of(
    st.sampled_from([0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0, -45.0, -90.0]),
    st.floats(-180.0, 359.9),
)


@settings(max_examples=150, deadline=None)
@given(run_deg=RUNS, fan_deg=st.floats(-1.0, 1.0), start_deg=SLANTS, end_deg=SLANTS)
def test_the_end_the_setting_and_the_longer_edge_are_those_of_the_corners(
    run_deg: float, fan_deg: float, start_deg: float, end_deg: float
) -> None:
    plan = laid(run_deg, fan_deg, start_deg, end_deg)
    if abs((run_deg + fan_deg) % 90 - 45) < 1.1:
        return  # left or house: either name is right there
    agree("B1.1", sawn_ends(plan)["B1.1"], plan.laying.pieces[0].corners)


@settings(max_examples=60, deadline=None)
@given(run_deg=RUNS, fan_deg=st.floats(-1.0, 1.0))
def test_a_board_from_a_joint_is_told_to_lie_up_to_its_other_end(
    run_deg: float, fan_deg: float
) -> None:
    plan = laid(run_deg, fan_deg, 0.0, 0.0)
    if abs((run_deg + fan_deg) % 90 - 45) < 1.1:
        return
    row = plan.laying.rows[0]
    ways = (row.end.along_mm - row.start.along_mm, row.end.across_mm - row.start.across_mm)
    key = 0 if abs(ways[0]) > abs(ways[1]) else 1
    name = (("left", "right"), ("house", "garden"))[key][ways[key] > 0]
    where = {placed.mark: placed.where for placed in all_placed(plan)}["B1.1"]
    assert where == f"row B1, from J1 to the {name} end"


@pytest.mark.parametrize("angle_deg", [45.0, 135.0])
@pytest.mark.parametrize("fan_deg", [-0.2, 0.2, 0.00002, -0.00002])
def test_rows_of_one_zone_have_one_pair_of_names_whichever_way_they_fan(
    angle_deg: float, fan_deg: float
) -> None:
    plan = laid(angle_deg, fan_deg, 0.0, 0.0)
    assert [end.name for end in sawn_ends(plan)["B1.1"]] == ["left", "right"]


@lru_cache
def fanned(right_mm: int, far_mm: int) -> Plan:
    """Left side square, right side splayed, far side out of parallel: gaps fan one way or other."""
    points = [
        {"along_mm": 0, "across_mm": 0, "side": "house"},
        {"along_mm": 3000, "across_mm": 0},
        {"along_mm": right_mm, "across_mm": far_mm},
        {"along_mm": 0, "across_mm": 1505},
    ]
    return planned(outline={"points": points})


@pytest.mark.parametrize(("right_mm", "far_mm"), [(2700, 1500), (2700, 1510), (3300, 1500)])
def test_designed_boards_whose_gaps_fan_have_each_end_told_where_it_lies(
    right_mm: int, far_mm: int
) -> None:
    plan = fanned(right_mm, far_mm)
    assert any(zone.fan_mm for zone in plan.laying.zones)
    told = sawn_ends(plan)
    boards = [piece for piece in plan.laying.pieces if not piece.shaped]
    assert boards
    for piece in boards:
        agree(piece.mark, told[piece.mark], piece.corners)


def words_of(plan: Plan, name: str) -> str:
    return " ".join(drylay.papers(plan, only=name)[name].decode().split())


@pytest.mark.parametrize("name", ["summary.txt", "jobsheet.html"])
def test_slanted_ends_are_sawn_out_of_a_piece_cross_cut_square(name: str) -> None:
    # a slanted cut takes kerf / cos along the board, and bars count the kerf alone: at 60 degrees
    # 4 mm takes 8, so that two pieces sawn apart along a slant would not come out of the length
    told = words_of(fanned(2700, 1500), name)
    assert told.count("Cross-cut each piece square first, as long as it is from tip to tip") == 1
    assert told.count("Frame timber and fascia stand on edge") == 1
    square = words_of(fanned(3000, 1505), name)
    assert "Cross-cut" not in square
    assert "stand on edge" not in square


def test_tasks_tell_it_where_something_is_sawn() -> None:
    steps = {task.kind: " ".join(task.steps) for task in fanned(2700, 1500).work.tasks}
    for kind in ("cut_frame", "boards"):
        assert "cross-cut the piece square first" in steps[kind]
