"""Members: what stands where, by geometry and by hand."""

import math
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from drylay.cutting.model import Line
from drylay.edges.fascia import lay_out_edges
from drylay.edges.model import Edges
from drylay.frame.members import (
    Section,
    fewest_rim_joints,
    place_members,
    rim_line,
    splice_length_mm,
    turned_about,
)
from drylay.frame.model import Frame
from drylay.marks import exact
from drylay.supports.lines import place_joists
from drylay.supports.model import Supports

SECTION = Section(article="FT", thickness_mm=45.0, depth_mm=145.0)
sizes = st.integers(600, 12_000).map(float)


def lay(length_mm: float, depth_mm: float, faced: tuple[str, ...] = ()) -> tuple[Edges, Supports]:
    edges = lay_out_edges(
        run="along",
        row_length_mm=length_mm,
        rows_depth_mm=depth_mm,
        sides=faced,
        article="FA",
        thickness_mm=28.0,
        depth_mm=145.0,
        longest_mm=20_000.0,
    )
    supports = place_joists(
        length_mm=edges.frame_length_mm,
        joist_mm=45.0,
        most_centres_mm=400.0,
        start_mm=edges.frame_start_mm,
    )
    return edges, supports


def frame_of(length_mm: float, depth_mm: float, faced: tuple[str, ...] = ()) -> Frame:
    return place_members(*lay(length_mm, depth_mm, faced), SECTION, noggin_spacing_most_mm=1_800.0)


@given(sizes, sizes)
def test_joists_fill_the_frame_between_the_rims(length_mm: float, depth_mm: float) -> None:
    frame = frame_of(length_mm, depth_mm)
    near, far = frame.rims
    for joist in frame.joists:
        assert joist.near_mm == near.near_mm + 45.0
        assert joist.near_mm + joist.length_mm == far.near_mm
    assert far.near_mm + 45.0 == depth_mm


@given(sizes, sizes)
def test_noggins_fill_every_bay_of_every_row_and_keep_the_spacing(
    length_mm: float, depth_mm: float
) -> None:
    frame = frame_of(length_mm, depth_mm)
    bays = list(pairwise(frame.joists))
    assert len(frame.noggins) == frame.noggin_rows * len(bays)
    clear = [exact(b.offset_mm) - exact(a.offset_mm) - exact(45.0) for a, b in bays]
    for number, noggin in enumerate(frame.noggins):
        assert exact(noggin.length_mm) == clear[number % len(bays)]
    joist_mm = frame.joists[0].length_mm
    assert joist_mm / (frame.noggin_rows + 1) <= 1_800.0
    assert frame.noggin_rows == 0 or joist_mm / frame.noggin_rows > 1_800.0


@given(sizes, st.integers(900, 6_000).map(float))
def test_fewest_rim_joints_against_trying_every_number(length_mm: float, longest_mm: float) -> None:
    edges, supports = lay(length_mm, 2_000.0)
    line = rim_line(edges, supports, units="metric")
    reach = exact(longest_mm)

    def can(at: int, last: int, joints: int) -> bool:
        if line.end - at <= reach:
            return True
        return joints > 0 and any(
            can(line.stations[s], s, joints - 1)
            for s in range(last + 1, len(line.stations) - 1)
            if line.stations[s] - at <= reach
        )

    fewest = fewest_rim_joints(line, reach)
    assert fewest is not None
    assert can(line.start, 0, fewest)
    assert fewest == 0 or not can(line.start, 0, fewest - 1)


def test_no_rim_where_no_timber_reaches_two_joists() -> None:
    edges, supports = lay(6_000.0, 2_000.0)
    assert fewest_rim_joints(rim_line(edges, supports, units="metric"), exact(300.0)) is None


def test_a_jointed_rim_is_spliced_in_the_middle_of_a_bay() -> None:
    """6045 long at 400: bay 8 runs from 2822.5 to 3222.5, its middle is 3022.5, by hand.

    The bay is 355 clear, so the splice is a mark of 0.5 less.
    """
    edges, supports = lay(6_045.0, 2_995.0)
    frame = place_members(
        edges, supports, SECTION, noggin_spacing_most_mm=1_800.0, rim_stations=((7,), (5,))
    )
    first, second = frame.rims[0].pieces
    assert (first.start_mm, first.length_mm) == (0.0, 3_022.5)
    assert (second.start_mm, second.length_mm) == (3_022.5, 3_022.5)
    assert [(s.mark, s.rim, s.offset_mm) for s in frame.splices] == [
        ("S1", "RA", 3_022.5),
        ("S2", "RB", 2_222.5),
    ]
    assert {splice.length_mm for splice in frame.splices} == {354.5}
    assert frame.rim_joints == 2


def test_a_one_board_step_by_hand() -> None:
    """1150 x 295 with 45 timber: cross pieces 295 - 90 = 205; diagonal 1187.2342.

    Worked separately from the library.
    """
    frame = frame_of(1_150.0, 295.0)
    assert {joist.length_mm for joist in frame.joists} == {205.0}
    assert len(frame.joists) == 4
    assert frame.noggins == ()
    assert math.isclose(frame.diagonal_mm, 1_187.2342, abs_tol=1e-4)


def test_fascia_moves_the_frame_off_the_datum() -> None:
    frame = frame_of(6_000.0, 3_000.0, ("left", "house"))
    assert frame.joists[0].offset_mm == 28.0 + 22.5
    assert frame.rims[0].near_mm == 28.0
    assert frame.rims[0].start_mm == 28.0


@given(sizes, st.integers(0, 40), st.sampled_from(["metric", "imperial"]))
def test_a_rim_laid_the_other_way_round_has_the_same_pieces(
    length_mm: float, at: int, units: str
) -> None:
    """Lines mirror and so do the marks of their middles, wherever frame ends are on marks."""
    edges, supports = lay(length_mm, 2_000.0)
    line = rim_line(edges, supports, units=units)
    joints = (at % len(line.stations),)
    turned = turned_about(line, joints)
    assert sorted(pieces(line, turned)) == sorted(pieces(line, joints))
    if units == "metric" and exact(length_mm) % 160 == 0 and turned == joints:
        assert 2 * joints[0] == len(line.stations) - 1 or pieces(line, joints) != pieces(
            line, (len(line.stations) - 1 - joints[0],)
        )


def pieces(line: Line, joints: tuple[int, ...]) -> list[int]:
    ends = [line.start, *(line.stations[joint] for joint in joints), line.end]
    return [after - before for before, after in pairwise(ends)]


def test_two_rims_of_a_long_frame_are_not_jointed_in_one_bay() -> None:
    """9544 less 45 over 24 bays: J14 and J15 on 5168 and 5563.5, their middle 5365.75.

    Of the marks 5365.5 and 5366 the first is nearer mid frame; 9544 less that is 4178.5. The
    other rim has them the other way round. By hand.
    """
    edges, supports = lay(9_544.0, 2_367.0)
    line = rim_line(edges, supports, units="metric")
    joint = min(range(len(line.stations)), key=lambda j: abs(line.stations[j] - exact(5_365.5)))
    assert pieces(line, (joint,)) == [exact(5_365.5), exact(4_178.5)]
    assert pieces(line, turned_about(line, (joint,))) == [exact(4_178.5), exact(5_365.5)]


@given(sizes, st.sampled_from(["metric", "imperial"]))
def test_a_splice_centred_on_its_joint_fits_its_bay(length_mm: float, units: str) -> None:
    edges, supports = lay(length_mm, 2_000.0)
    mark = {"metric": 160, "imperial": 508}[units]
    length = exact(splice_length_mm(supports, SECTION, units))
    joints = rim_line(edges, supports, units=units).stations
    assert length % mark == 0
    for joint, (before, after) in zip(joints, pairwise(supports.lines), strict=True):
        left, right = exact(before.offset_mm), exact(after.offset_mm)
        assert joint % mark == 0
        assert abs(2 * joint - left - right) <= mark
        assert 2 * joint - length >= 2 * left + exact(45.0)
        assert 2 * joint + length <= 2 * right - exact(45.0)
