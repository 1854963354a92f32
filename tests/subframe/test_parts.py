"""Facings, rims in pieces, and noggins under board ends, by hand."""

import math

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.subframe.facings import facing_run_mm, facings
from drylay.subframe.finish import finish
from drylay.subframe.lines import place_lines
from drylay.subframe.noggins import noggin_rows, support_ends
from drylay.subframe.place import place_frame
from drylay.subframe.seams import straightened
from drylay.subframe.splices import rim_lines, with_rim_joints
from drylay.subframe.wants import BoardEnd, Timber
from framed_outlines import BAY_AND_WING, WANTS, box, outline_of, spot


def test_the_run_of_fascia_leaves_out_what_is_not_faced() -> None:
    # worked example: 6445 + 4795 + 1645 + 2995, house sides left out
    outline = outline_of(BAY_AND_WING, dict.fromkeys((6, 7, 8, 9), 28.0))
    assert facing_run_mm(outline) == 15880
    planted = {f.mark: f for f in facings(outline, thickness_mm=28, longest_mm=4800, mark_mm=0.5)}
    # the longer of two sides laps over the end of the other, 28 shorter
    assert planted["F7"].length_mm == 1645 - 28
    assert (planted["F7"].start_end, planted["F7"].end_end) == ("free", "butt")
    assert planted["F8"].length_mm == 4795 - 28
    assert (planted["F8"].start_end, planted["F8"].end_end) == ("lap", "butt")
    assert planted["F10"].length_mm == 2995 - 28
    # 6445 is longer than 4800: two equal parts
    assert planted["F9.1"].length_mm == planted["F9.2"].length_mm == 3222.5


def test_facings_are_mitred_where_a_corner_is_not_square() -> None:
    corners = [(0, 0), (3000, 0), (3000, 2000), (1000, 2000), (0, 1000)]
    outline = outline_of(corners, dict.fromkeys(range(5), 28.0))
    planted = {f.mark: f for f in facings(outline, thickness_mm=28, longest_mm=4800, mark_mm=0.5)}
    assert (planted["F4"].start_end, planted["F4"].end_end) == ("mitre", "mitre")
    assert planted["F4"].length_mm == pytest.approx(1000 * math.sqrt(2), abs=0.01)
    # 135 degrees inside: the inner face is 28 x tan 22.5 shorter at either end
    assert (planted["F4"].start_deg, planted["F4"].end_deg) == (22.5, -22.5)


def test_at_a_re_entrant_corner_the_later_facing_butts_against_the_earlier_face() -> None:
    corners = [(0, 0), (3000, 0), (3000, 1000), (2000, 1000), (2000, 2000), (0, 2000)]
    outline = outline_of(corners, dict.fromkeys(range(6), 28.0))
    planted = {f.mark: f for f in facings(outline, thickness_mm=28, longest_mm=4800, mark_mm=0.5)}
    # E3 comes to the corner from the right and runs on behind E4, which ends against it
    assert (planted["F3"].end_end, planted["F4"].start_end) == ("lap", "butt")
    assert planted["F3"].end.along_mm == 2000 - 28
    assert planted["F4"].start.across_mm == 1000


def test_parts_of_a_facing_are_never_longer_than_the_board() -> None:
    outline = outline_of(box(0, 0, 6001, 3000), {0: 28.0})
    planted = facings(outline, thickness_mm=28, longest_mm=3000.5, mark_mm=0.5)
    assert max(facing.length_mm for facing in planted) <= 3000.5
    assert sum(facing.length_mm for facing in planted) == 6001


def test_a_long_rim_is_jointed_in_bays_and_each_joint_backed() -> None:
    placed = place_frame(outline_of(BAY_AND_WING), WANTS)
    (line,) = rim_lines(placed, 4800.0)
    assert line.end == 6445 * 320
    # bays are 400 wide, the rim runs from the right: 6445 - 6222.5 = 222.5 is the first middle
    assert [station / 320 for station in line.stations] == [222.5 + 400 * n for n in range(16)]
    jointed = with_rim_joints(placed, [(7,)], 4800.0)
    noggins = noggin_rows(jointed)
    members = {member.mark: member for member in finish(jointed, noggins)}
    assert members["R9.1"].length_mm == 222.5 + 7 * 400
    assert members["R9.1"].length_mm + members["R9.2"].length_mm == 6445
    assert members["R9.1"].end_on == members["R9.2"].start_on == "S1"
    assert members["S1"].length_mm == 354.5  # 355 clear, less a mark
    assert members["J2"].end_on == "R9.2"


def test_a_rim_the_joists_way_may_be_jointed_too() -> None:
    placed = place_frame(outline_of(box(0, 0, 2000, 6000)), WANTS)
    lines = rim_lines(placed, 4800.0)
    assert len(lines) == 2
    assert all(line.end == 5910 * 320 for line in lines)
    assert all(len(line.stations) == 15 for line in lines)  # 5910 / 400


def test_ends_near_a_member_want_nothing_and_others_a_noggin() -> None:
    placed = place_frame(outline_of(box(0, 0, 4045, 3000)), WANTS)  # lines every 400
    near = [
        BoardEnd(start=spot(at, 1000), end=spot(at, 1145), inwards_deg=0) for at in (0, 300, 400)
    ]
    assert not support_ends(placed, near)
    loose = BoardEnd(start=spot(480, 1000), end=spot(480, 1145), inwards_deg=0)
    (noggin,) = support_ends(placed, [loose])
    assert noggin.corners[0] == (445, 1050)  # in its bay, under the middle of the board
    assert not support_ends(
        placed, [BoardEnd(start=spot(480, 1000), end=spot(480, 1145), inwards_deg=180)]
    )


def test_a_noggin_that_has_no_room_midway_of_a_board_bears_its_middle_line_at_least() -> None:
    """The board's middle is 1072.5, and up to 1055 stands another: 1055 to 1100 is under it."""
    placed = place_frame(outline_of(box(0, 0, 4045, 3000)), WANTS)  # lines every 400
    other = Timber(kind="noggin", corners=((445, 1010), (800, 1010), (800, 1055), (445, 1055)))
    loose = BoardEnd(start=spot(480, 1000), end=spot(480, 1145), inwards_deg=0)
    placed = evolve(placed, timbers=(*placed.timbers, other))
    (noggin,) = support_ends(placed, [loose])
    assert 1055 <= noggin.corners[0][1] <= 1070
    full = evolve(other, corners=((445, 1010), (800, 1010), (800, 1071.5), (445, 1071.5)))
    assert not support_ends(evolve(placed, timbers=(*placed.timbers, full)), [loose])


def test_fascia_under_an_end_carries_it() -> None:
    placed = place_frame(outline_of(box(0, 0, 4045, 3000)), WANTS)
    loose = BoardEnd(start=spot(480, 1000), end=spot(480, 1145), inwards_deg=0)
    face = tuple(spot(x, y) for x, y in ((470, 900), (498, 900), (498, 1200), (470, 1200)))
    assert not support_ends(placed, [loose], [face])


def test_a_line_that_hardly_drifts_is_straight_midway() -> None:
    """Half of 45 from end to end at most, and no more than 5 degrees: 20 over 228.6."""
    assert straightened((100.0, 0.0), (122.0, 900.0), 45.0) == ((111.0, 0.0), (111.0, 900.0))
    for end in ((123.0, 900.0), (120.0, 228.0)):
        assert straightened((100.0, 0.0), end, 45.0) == ((100.0, 0.0), end)


def test_ends_in_one_bay_share_a_noggin() -> None:
    placed = place_frame(outline_of(box(0, 0, 4045, 3000)), WANTS)
    ends = [
        BoardEnd(start=spot(at, 1000 + off), end=spot(at + 120, 1000 + off), inwards_deg=90)
        for at, off in ((450, 0), (575, 20), (680, -20))
    ]
    assert len(support_ends(placed, ends)) == 1
    far = BoardEnd(start=spot(450, 1500), end=spot(570, 1500), inwards_deg=90)
    assert len(support_ends(placed, [*ends, far])) == 2


halves = st.integers(1, 20000).map(lambda n: n / 2)


@given(st.lists(halves, min_size=2, max_size=6), st.integers(200, 1200).map(lambda n: n / 2))
def test_lines_keep_those_that_must_be_and_the_limit(must: list[float], most: float) -> None:
    lines = place_lines(must, thickness_mm=45, most_centres_mm=most, mark_mm=0.5)
    assert set(must) <= set(lines.lines_mm)
    assert list(lines.lines_mm) == sorted(set(lines.lines_mm))
    steps = [b - a for a, b in zip(lines.lines_mm, lines.lines_mm[1:], strict=False)]
    assert max(steps, default=0) <= max(lines.centres_mm, 45)  # nearer than a timber: no bay
    assert lines.centres_mm <= most
    assert all(line % 0.5 == 0 for line in lines.lines_mm)


def test_facings_of_one_straight_butt_where_the_sides_meet() -> None:
    corners = [(0, 0), (1000, 0), (3000, 0), (3000, 2000), (0, 2000)]
    outline = outline_of(corners, dict.fromkeys(range(5), 28.0))
    planted = {f.mark: f for f in facings(outline, thickness_mm=28, longest_mm=4800, mark_mm=0.5)}
    assert (planted["F1"].end_end, planted["F2"].start_end) == ("butt", "butt")
    # 28 less where the left side, 2000 long, laps over the end of E1's 1000
    assert (planted["F1"].length_mm, planted["F2"].length_mm) == (972, 2000)
