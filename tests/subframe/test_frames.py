"""Frames worked out by hand, or in published worked examples."""

import math
from itertools import pairwise

import pytest
from attrs import evolve

from drylay.findings import Severity
from drylay.subframe.finish import finish, member_ends, seams_of
from drylay.subframe.joist_joints import with_joist_joints
from drylay.subframe.model import Member
from drylay.subframe.noggins import noggin_rows
from drylay.subframe.place import place_frame
from drylay.subframe.sizes import too_long
from drylay.subframe.told import to_subframe
from drylay.subframe.wants import SeamLine
from framed_outlines import BAY_AND_WING, WANTS, box, outline_of, run, spot


def by_mark(members: tuple[Member, ...]) -> dict[str, Member]:
    return {member.mark: member for member in members}


def test_boards_at_45_degrees_want_14_lines() -> None:
    # worked example: 4000 x 3000, limit 450 x sine of 45 degrees: ceil(3955 / 318.2) + 1
    placed = place_frame(
        outline_of(box(0, 0, 4000, 3000)),
        evolve(WANTS, most_centres_mm=450 * math.sin(math.pi / 4)),
    )
    assert len(placed.lines_mm) == 14


def test_a_bay_at_exactly_the_limit_is_kept_and_a_wing_stands_on_a_line() -> None:
    # worked example: 6400 / 400 + 1 = 17, the 13th with its face on the wing's edge at 4800
    placed = place_frame(outline_of(BAY_AND_WING), WANTS)
    assert placed.lines_mm == tuple(22.5 + 400 * step for step in range(17))
    assert placed.lines_mm[12] - 22.5 == 4800
    assert placed.centres_mm == 400


def test_a_border_wants_pairs_under_its_inner_edges() -> None:
    # worked example: 3 at each end + 9 between, 3845 / 400: 10 bays
    seams = tuple(SeamLine(start=spot(at, 145), end=spot(at, 3155)) for at in (145, 4035))
    placed = place_frame(outline_of(box(0, 0, 4180, 3300)), evolve(WANTS, seams=seams))
    assert placed.lines_mm == (
        22.5, 122.5, 167.5, 552.0, 936.5, 1321.0, 1705.5, 2090.0, 2474.5, 2859.0, 3243.5, 3628.0,
        4012.5, 4057.5, 4157.5,
    )  # fmt: skip
    members = finish(placed)
    assert [(s.left, s.right) for s in seams_of(placed, members)] == [("J2", "J3"), ("J13", "J14")]
    assert [m.mark for m in members if m.kind == "pair"] == ["J3", "J14"]


def test_a_line_whose_joist_has_no_room_beside_the_rim_is_none() -> None:
    """A seam at 80 wants joists from 35 to 80 and on to 125; the rim stands up to 45."""
    seam = SeamLine(start=spot(80, 45), end=spot(80, 2955))
    placed = place_frame(outline_of(box(0, 0, 4000, 3000)), evolve(WANTS, seams=(seam,)))
    assert placed.lines_mm[:2] == (22.5, 102.5)
    standing = {timber.number for timber in placed.timbers if timber.kind in {"joist", "pair"}}
    assert standing == set(range(1, len(placed.lines_mm) - 1))


def test_a_rectangle_has_through_rims_across_the_joists() -> None:
    members = by_mark(finish(place_frame(outline_of(box(0, 0, 2000, 1500)), WANTS)))
    assert (members["R1"].length_mm, members["R3"].length_mm) == (2000, 2000)
    assert (members["R2"].length_mm, members["R4"].length_mm) == (1410, 1410)  # 1500 - 2 x 45
    assert (members["R2"].start_on, members["R2"].end_on) == ("R1", "R3")
    assert (members["R1"].start_on, members["R1"].end_on) == ("", "")
    assert members["J2"].length_mm == 1410
    turned = by_mark(finish(place_frame(outline_of(box(0, 0, 2000, 1500)), run(WANTS, "along"))))
    assert (turned["R1"].length_mm, turned["R2"].length_mm) == (1910, 1500)


def test_at_a_re_entrant_corner_the_rim_runs_on_as_a_joist() -> None:
    members = by_mark(finish(place_frame(outline_of(BAY_AND_WING), WANTS)))
    wing = members["R6"]  # from the wing's end at -1800 + 45 to the front at 2995 - 45
    assert wing.length_mm == 1755 + 2950
    assert (wing.start_on, wing.end_on) == ("R9", "R7")
    assert members["R5"].end_on == "R6"
    assert members["R5"].end.along_mm == 4800
    assert "J13" not in members


def test_rims_of_a_bay_are_mitred_at_half_its_angle_and_joists_bevelled_against_them() -> None:
    members = by_mark(finish(place_frame(outline_of(BAY_AND_WING), WANTS)))
    # 135 degrees inside at the bay's far corners: 22.5 off square; the mitre's outer tip of R3 is
    # 45 x tan 22.5 before the corner on either side of its 900
    assert members["R3"].length_mm == pytest.approx(900 + 2 * 45 * math.tan(math.pi / 8), abs=0.01)
    assert (members["R3"].start_deg, members["R3"].end_deg) == (-22.5, 22.5)
    assert members["J5"].start_deg == -45
    # the rim's inner face at the joist's far edge: 45 x root 2 above the bay's side at 1645
    assert members["J5"].corners[0].across_mm == pytest.approx(145 + 45 * math.sqrt(2), abs=0.01)


def test_a_triangle_has_its_three_rims_mitred() -> None:
    corners = [(0.0, 0.0), (3000.0, 0.0), (1500.0, 2598.0)]
    members = finish(place_frame(outline_of(corners), WANTS))
    rims = [member for member in members if member.kind == "rim"]
    assert [rim.length_mm for rim in rims] == pytest.approx([3000] * 3, abs=0.1)
    assert all(rim.start_deg == pytest.approx(60, abs=0.01) for rim in rims)
    assert all(rim.end_deg == pytest.approx(-60, abs=0.01) for rim in rims)
    assert member_ends(members).rim_corners_mitred == 3


def test_two_rims_on_one_line_meet_over_a_splice() -> None:
    # a T turned so that both shoulders run the joists' way: the longer runs on to the other
    tee = [
        (0, 0),
        (2400, 0),
        (2400, 700),
        (1500, 700),
        (1500, 1600),
        (700, 1600),
        (700, 700),
        (0, 700),
    ]
    members = by_mark(finish(place_frame(outline_of(tee), run(WANTS, "along"))))
    assert members["R3"].length_mm == 900 + 800 - 45
    assert members["R7"].length_mm == 700 - 45
    assert members["R3"].end_on == members["R7"].start_on == "S1"
    assert members["S1"].kind == "splice"


def test_an_opening_has_trimmers_all_round_doubled_where_they_carry_more_than_one_tail() -> None:
    holes = [box(1000, 1000, 1000, 800), box(3480, 1000, 200, 200)]
    outline = outline_of(box(0, 0, 6445, 3000), holes=holes)
    placed = place_frame(outline, WANTS)
    assert not placed.findings
    assert placed.lines_mm[2:6] == (822.5, 1222.5, 1622.5, 2022.5)
    members = by_mark(finish(placed))
    # the hole cuts 1222.5 and 1622.5; the face of 2022.5 is flush with it
    across = members["U1"]
    assert (across.start_on, across.end_on) == ("J3", "J6")
    assert across.length_mm == 2022.5 - 822.5 - 45
    assert members["J4.1"].end_on.startswith("D")
    assert members["J4.1"].length_mm == 1000 - 45 - 2 * 45
    doubles = [member for member in members.values() if member.kind == "double"]
    assert sorted(member.length_mm for member in doubles) == [1155, 1155, 2910, 2910]
    assert [m.length_mm for m in members.values() if m.side == "O1" and m.kind == "trimmer"] == [
        1155, 800, 1155,
    ]  # fmt: skip
    # the second opening cuts 3622.5 alone
    single = [m for m in members.values() if m.side == "O2"]
    assert {member.kind for member in single} == {"trimmer"}
    assert len(single) == 4


def test_an_opening_too_near_a_rim_is_a_stop_that_tells_how_far_to_move_it() -> None:
    outline = outline_of(box(0, 0, 4000, 3000), holes=[box(1000, 70, 500, 500)])
    (stop,) = place_frame(outline, WANTS).findings
    assert (stop.code, stop.severity, stop.subject) == ("SUB-004", Severity.STOP, "O1")
    assert (stop.measured, stop.limit) == (25.0, 45.0)  # 70 less the rim's 45
    assert "move it 20.0 mm away" in stop.message


def test_openings_with_no_room_between_them_are_a_stop() -> None:
    holes = [box(1000, 1000, 500, 500), box(1000, 1540, 500, 500)]
    stops = place_frame(outline_of(box(0, 0, 4000, 3000), holes=holes), WANTS).findings
    assert [stop.code for stop in stops] == ["SUB-005", "SUB-005"]


def test_a_joist_with_no_place_for_a_joint_is_a_stop() -> None:
    # 2210 between rims: no two lengths of 1200
    placed = place_frame(outline_of(box(0, 0, 4000, 2300)), evolve(WANTS, reach_mm=2000))
    (stop,) = too_long(with_joist_joints(placed))
    assert (stop.code, stop.measured, stop.limit) == ("SUB-003", 2210, 2000)


def test_a_side_with_no_room_for_its_rim_is_a_stop() -> None:
    step = [(0, 0), (2000, 0), (2000, 1000), (1920, 1000), (1920, 1500), (0, 1500)]
    assert not place_frame(outline_of(step), WANTS).findings
    slot = [
        (0, 0),
        (2000, 0),
        (2000, 1500),
        (1000, 1500),
        (1000, 1000),
        (920, 1000),
        (920, 1500),
        (0, 1500),
    ]
    assert not place_frame(outline_of(slot), WANTS).findings
    finger = [
        (0, 0),
        (2000, 0),
        (2000, 1000),
        (1080, 1000),
        (1080, 1500),
        (1000, 1500),
        (1000, 1000),
        (0, 1000),
    ]
    assert [stop.subject for stop in place_frame(outline_of(finger), run(WANTS, "along")).findings]


def test_rows_of_noggins_are_no_further_apart_than_their_spacing() -> None:
    placed = place_frame(outline_of(box(0, 0, 2000, 5000)), WANTS)
    noggins = noggin_rows(placed)
    # 4910 clear: 2 rows, at 45 + 4910 / 3 and twice that; 5 bays
    assert len(noggins) == 2 * (len(placed.lines_mm) - 1)
    members = [member for member in finish(placed, noggins) if member.kind == "noggin"]
    levels = sorted({member.start.across_mm for member in members})
    assert levels == pytest.approx([1659.0, 1704.0, 3296.0, 3341.0], abs=0.51)
    assert member_ends(members).noggin_ends == 2 * len(members)


def test_two_rows_that_touch_stand_under_a_seam_across_the_joists() -> None:
    seam = SeamLine(start=spot(145, 800), end=spot(1855, 800))
    placed = place_frame(outline_of(box(0, 0, 2000, 1500)), evolve(WANTS, seams=(seam,)))
    members = finish(placed)
    noggins = [member for member in members if member.kind == "noggin"]
    assert len(noggins) == 2 * 5
    assert {member.start.across_mm for member in noggins} == {777.5, 822.5}
    seams = seams_of(placed, members)
    assert sum(seam.end.along_mm - seam.start.along_mm for seam in seams) == pytest.approx(
        1855 - 145 - 4 * 45, abs=0.1
    )


def test_a_slanted_seam_has_two_rows_cut_between_joists() -> None:
    seam = SeamLine(start=spot(0, 0), end=spot(1500, 1500))
    placed = place_frame(outline_of(box(0, 0, 1500, 1500)), evolve(WANTS, seams=(seam,)))
    noggins = [member for member in finish(placed) if member.kind == "noggin"]
    assert noggins
    assert all(member.start_on and member.end_on for member in noggins)
    assert {abs(member.start_deg) for member in noggins} == {45.0}


def test_the_subframe_is_told_with_its_limits() -> None:
    placed = place_frame(outline_of(box(0, 0, 2000, 1500)), WANTS)
    told = to_subframe(
        placed,
        finish(placed),
        timber_article="T45x145",
        timber_depth_mm=145.0,
        square_centres_mm=400.0,
        board_to_joist_deg=90.0,
        joists_under_joint=1,
    )
    assert told.line_count == 6
    assert told.member_count == 4 + 4
    assert told.centres_mm == 391.0  # 1955 / 5


def test_sides_in_one_straight_share_a_rim() -> None:
    corners = [(0, 0), (1000, 0), (3000, 0), (3000, 2000), (0, 2000)]
    members = by_mark(finish(place_frame(outline_of(corners), WANTS)))
    assert members["R1"].length_mm == 3000
    assert [mark for mark in members if mark.startswith("R")] == ["R1", "R3", "R4", "R5"]
    around = [*corners[1:], corners[0]]  # the straight goes on over the last corner
    members = by_mark(finish(place_frame(outline_of(around), WANTS)))
    assert members["R5"].length_mm == 3000
    assert "R1" not in members


def test_a_line_that_would_end_in_the_angle_of_two_rims_is_moved_aside() -> None:
    # even bays of 391 would put the third line on the inner corner at 804.5: 0.5 from its middle
    corners = [(0, 0), (2000, 0), (2000, 1500), (786, 1500), (0, 714)]
    placed = place_frame(outline_of(corners), WANTS)
    assert not placed.findings
    inner = 786 + 45 * math.tan(math.pi / 8)
    assert 804 < inner < 805
    assert all(abs(line - inner) > 22.4 or line > 1000 for line in placed.lines_mm)
    assert all(b - a <= 400 for a, b in pairwise(placed.lines_mm))


def test_a_joist_that_cannot_be_moved_out_of_an_angle_is_a_stop() -> None:
    corners = [(0, 0), (2000, 0), (2000, 1500), (786, 1500), (0, 714)]
    seam = SeamLine(start=spot(782, 200), end=spot(782, 1000))
    placed = place_frame(outline_of(corners), evolve(WANTS, seams=(seam,)))
    (stop,) = placed.findings
    # cut straight from face to face across the angle, it touches either with a tip alone
    assert (stop.code, stop.measured, stop.limit) == ("SUB-006", 0.0, 22.5)


def test_a_joist_that_only_just_catches_a_trimmer_tells_how_much_of_it_does() -> None:
    """By hand: the trimmer of one opening ends 11.5 off the joist's middle: 22.5 less that."""
    holes = [box(2336, 1398, 883, 342), box(1762, 1846, 796, 500)]
    placed = place_frame(outline_of(box(0, 0, 3480, 2691), holes=holes), WANTS)
    (stop,) = [each for each in placed.findings if each.code == "SUB-006"]
    assert (stop.subject, stop.measured, stop.limit) == ("J7", 11.0, 22.5)


@pytest.mark.parametrize(
    ("deck", "holes", "centres", "subject", "room", "least"),
    [
        # 1121 - 981 between the holes, less a trimmer of each: 50, and both want a double
        ((2924, 1760), [(776, 413, 1007, 568), (744, 1121, 1221, 523)], 300, "O1", 50, 90),
        # 1526 - 1374 less two of 45
        ((3796, 2890), [(841, 474, 1208, 900), (1085, 1526, 970, 746)], 300, "O1", 62, 90),
        # 151 between holes side by side: the joist between carries both, trimmers on either face
        ((3772, 2326), [(318, 1189, 751, 419), (1220, 1118, 782, 410)], 300, "O1", 0, 45),
    ],
)
def test_a_timber_that_cannot_be_doubled_tells_what_is_free_beside_it(  # noqa: PLR0917
    deck: tuple[int, int],
    holes: list[tuple[int, int, int, int]],
    centres: float,
    subject: str,
    room: float,
    least: float,
) -> None:
    outline = outline_of(box(0, 0, *deck), holes=[box(*hole) for hole in holes])
    placed = place_frame(outline, evolve(WANTS, most_centres_mm=centres))
    told = [each for each in placed.findings if each.code == "SUB-007"]
    assert [(each.measured, each.limit) for each in told if each.subject == subject] == [
        (room, least)
    ]
    assert all(f"leave {each.limit:g} mm beside it" in each.message for each in told)


def test_a_trimmer_that_cannot_be_doubled_is_a_stop() -> None:
    outline = outline_of(box(0, 0, 6445, 3000), holes=[box(1000, 125, 1000, 800)])
    placed = place_frame(outline, WANTS)
    # 125 less the rim and a trimmer leave 35 for tails: they are left out, the far side is doubled
    assert not placed.findings
    members = by_mark(finish(placed))
    assert not [m for m in members.values() if m.start_on == "R1" and m.length_mm < 45]


def dumb_bell(neck_mm: float, tilt_mm: float = 0.0) -> list[tuple[float, float]]:
    """Return two decks of 2000 x 3000, 1000 apart, with a neck between that leans by so much."""
    low, high = 1500 - neck_mm / 2, 1500 + neck_mm / 2
    return [
        (0, 0), (2000, 0), (2000, low), (3000, low + tilt_mm), (3000, 0), (5000, 0), (5000, 3000),
        (3000, 3000), (3000, high + tilt_mm), (2000, high), (2000, 3000), (0, 3000),
    ]  # fmt: skip


@pytest.mark.parametrize(("neck", "limit"), [(21, 90), (60, 90), (89, 90), (90, 135), (134, 135)])
def test_a_neck_with_no_room_for_its_rims_and_a_joist_is_a_stop(neck: float, limit: float) -> None:
    """Two rims of 45 side by side; and 45 clear between for the joists at 400 that 1000 want."""
    (stop,) = place_frame(outline_of(dumb_bell(neck)), WANTS).findings
    assert (stop.code, stop.subject) == ("SUB-016", "E3 and E9")
    assert (stop.measured, stop.limit) == (neck, limit)


def test_a_neck_that_leans_is_measured_along_the_joists_and_across_for_its_rims() -> None:
    """At 3, 4, 5 rims of 45 take 56.25 along a joist, and a neck of 100 is 80 wide."""
    (stop,) = place_frame(outline_of(dumb_bell(100, 750)), WANTS).findings
    assert (stop.measured, stop.limit) == (80, 90)
    (stop,) = place_frame(outline_of(dumb_bell(150, 750)), WANTS).findings
    assert (stop.measured, stop.limit) == (150, 157.5)


@pytest.mark.parametrize("neck", [135, 400])
def test_a_neck_with_room_for_a_joist_is_none(neck: float) -> None:
    assert not place_frame(outline_of(dumb_bell(neck)), WANTS).findings


@pytest.mark.parametrize(("wide", "stopped"), [(40, True), (90, True), (91, False)])
def test_a_tongue_is_told_how_wide_it_must_be(wide: float, stopped: bool) -> None:
    """A rim of 45 along either side of it; what is left of that at its end is to be more than 0."""
    tongue = [(0, 0), (3000, 0), (3000, 1000), (3600, 1000), (3600, 1000 + wide),
              (3000, 1000 + wide), (3000, 2000), (0, 2000)]  # fmt: skip
    stops = [each for each in place_frame(outline_of(tongue), WANTS).findings
             if each.code == "SUB-001"]  # fmt: skip
    assert [(stop.subject, stop.measured, stop.limit) for stop in stops] == (
        [("E4", wide, 90)] if stopped else []
    )
