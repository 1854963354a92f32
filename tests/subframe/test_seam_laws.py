"""What seams, noggins under ends and splices keep, whatever the outline."""

import math
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, STRtree
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from drylay.outline.model import Outline, Side, Spot
from drylay.subframe.finish import finish, seams_of
from drylay.subframe.model import Member, Seam
from drylay.subframe.noggins import noggin_rows, support_ends
from drylay.subframe.place import place_frame
from drylay.subframe.splices import rim_lines, with_rim_joints
from drylay.subframe.wants import BoardEnd, Placed, SeamLine
from framed_outlines import WANTS, Corners, box, outline_of, outlines, run

RUNS = st.sampled_from(["across", "along"])
PLACES = st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), max_size=6)
#: The width of a border's board.
BORDER_MM = 145.0


def polygon(spots: tuple[Spot, ...]) -> Polygon:
    return Polygon([(at.along_mm, at.across_mm) for at in spots])


def inside_border(outline: Outline) -> BaseGeometry:
    shape = polygon(tuple(side.start for side in outline.sides))
    return shape.buffer(-BORDER_MM, join_style="mitre")


def border_seams(outline: Outline) -> tuple[SeamLine, ...]:
    """Return the inner edge of a border of one board."""
    inner = inside_border(outline)
    assert isinstance(inner, Polygon)
    corners = [
        Spot(along_mm=round(x * 320) / 320, across_mm=round(y * 320) / 320)
        for x, y in inner.exterior.coords
    ]
    return tuple(SeamLine(start=one, end=two) for one, two in pairwise(corners))


def bordered(outline: Outline, way: str) -> Placed:
    inner = inside_border(outline)
    assume(isinstance(inner, Polygon) and not inner.is_empty)
    assume(all(inner.contains(polygon(opening.corners)) for opening in outline.openings))
    placed = framed(outline, way)
    assume(not placed.findings)
    return placed


def framed(outline: Outline, way: str) -> Placed:
    return place_frame(outline, evolve(run(WANTS, way), seams=border_seams(outline)))


def overlapping(members: tuple[Member, ...]) -> list[tuple[Member, Member]]:
    shapes = [polygon(member.corners) for member in members]
    pairs = STRtree(shapes).query(shapes, predicate="intersects")
    return [
        (members[one], members[other])
        for one, other in zip(*pairs, strict=True)
        if one < other and not shapes[one].intersection(shapes[other]).buffer(-0.02).is_empty
    ]


@settings(max_examples=60)
@given(outlines(most_holes=1), RUNS)
def test_what_is_under_seams_overlaps_nothing_and_is_carried(outline: Outline, way: str) -> None:
    placed = bordered(outline, way)
    members = finish(placed, noggin_rows(placed))
    assert not overlapping(members)
    for member in members:
        if member.kind not in {"rim", "splice"}:
            assert member.start_on, member
            assert member.end_on, member


@settings(max_examples=60)
@given(outlines(most_holes=0), RUNS)
def test_two_members_touch_under_nearly_all_of_a_seam(outline: Outline, way: str) -> None:
    assume(not any(drifts(side, way) for side in outline.sides))
    assert longest_bare(bordered(outline, way)) < 4 * WANTS.timber_thickness_mm


def drifts(side: Side, way: str) -> bool:
    """Whether a side runs within 5 degrees of the joists, but drifts off by too much for a pair.

    Under such a line there may be no room; the planner stops at what is bare then (SUB-014).
    """
    axis = (side.end.along_mm - side.start.along_mm, side.end.across_mm - side.start.across_mm)
    off, on = (abs(by) for by in (axis if way == "across" else axis[::-1]))
    return WANTS.timber_thickness_mm / 2 < off < on * math.tan(math.radians(5.0))


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (1723.5, 0), (1723.5, 600), (1083.5, 600), (1084.5, 1200), (-67, 1200)],
        [
            (0, 0), (2290.5, -98), (2289.5, 677.5), (1789.5, 745.5), (1789.5, 1711.5),
            (536.5, 1753.5), (539.5, 677.5), (-1, 677.5),
        ],
    ],
)  # fmt: skip
def test_a_seam_a_fraction_of_a_degree_off_the_joists_is_carried(corners: Corners) -> None:
    placed = framed(outline_of(corners), "across")
    assert not placed.findings
    assert longest_bare(placed) < 4 * WANTS.timber_thickness_mm


def longest_bare(placed: Placed) -> float:
    """Return how long a seam is left bare: less than a thickness each, where no timber has room."""
    members = finish(placed)
    seams = unary_union([line_of(seam) for seam in seams_of(placed, members)])
    lines = unary_union([line_of(seam) for seam in placed.wants.seams])
    wood = unary_union([polygon(member.corners).buffer(0.05) for member in members])
    bare = lines.difference(seams.buffer(1.0)).difference(wood)
    return max(stretch.length for stretch in getattr(bare, "geoms", [bare]))


def line_of(seam: Seam | SeamLine) -> LineString:
    return LineString([(at.along_mm, at.across_mm) for at in (seam.start, seam.end)])


@settings(max_examples=60)
@given(outlines(most_holes=1), RUNS, PLACES, st.integers(0, 23))
def test_noggins_under_ends_overlap_nothing_and_carry_them(
    outline: Outline, way: str, at: list[tuple[float, float]], turn: int
) -> None:
    placed = place_frame(outline, run(WANTS, way))
    assume(not placed.findings)
    shape = polygon(tuple(side.start for side in outline.sides))
    left, low, right, high = shape.bounds
    ends = []
    for part, other in at:
        x, y = left + part * (right - left), low + other * (high - low)
        one, two = Spot(along_mm=x, across_mm=y), Spot(along_mm=x + 60, across_mm=y + 80)
        ends.append(BoardEnd(start=one, end=two, inwards_deg=turn * 15.0))
    noggins = support_ends(placed, ends)
    rows = noggin_rows(placed, noggins)
    assert not overlapping(finish(placed, (*noggins, *rows)))
    for member in finish(placed, noggins):
        if member.kind == "noggin":
            assert member.start_on, member
            assert member.end_on, member


@settings(max_examples=60)
@given(outlines(most_holes=1), RUNS, st.integers(0, 100))
def test_rims_in_pieces_overlap_nothing_and_keep_their_length(
    outline: Outline, way: str, choice: int
) -> None:
    placed = place_frame(outline, run(WANTS, way))
    assume(not placed.findings)
    lines = rim_lines(placed, 1500.0)
    # a piece spans a bay at least: no joint at the first station or the last
    inner = [range(1, len(line.stations) - 1) for line in lines]
    joints = [(within[choice % len(within)],) if within else () for within in inner]
    jointed = with_rim_joints(placed, joints, 1500.0)
    members = finish(jointed, noggin_rows(jointed))
    assert not overlapping(members)
    for member in members:
        if member.kind == "rim" and "." in member.mark:
            assert "S" in member.start_on + member.end_on, member


def most_untied(placed: Placed) -> float:
    """Return how long the middle of a bay is open at the most: no splice of a rim ties joists."""
    members = finish(placed, noggin_rows(placed))
    ties = unary_union([polygon(each.corners) for each in members if each.kind != "splice"])
    found = [0.0]
    for one, other in pairwise(placed.lines_mm):
        if other - one > 2 * WANTS.timber_thickness_mm:
            ends = [((one + other) / 2, v) for v in (-1e5, 1e5)]
            line = LineString(
                ends if placed.wants.joist_run == "across" else [e[::-1] for e in ends]
            )
            open_parts = line.difference(ties)
            found += [part.length for part in getattr(open_parts, "geoms", []) if part.length < 5e4]
    return max(found)


def test_a_noggin_moves_off_the_tip_of_a_joist_where_the_middle_of_its_bay_lies_there() -> None:
    """3405 falls by 373 over 6044: halfway of what a slanted rim leaves open a joist begins."""
    outline = outline_of([(0, 0), (6044, 0), (6044, 3405), (0, 3032)])
    placed = place_frame(outline, evolve(run(WANTS, "along"), most_centres_mm=280.0))
    assert most_untied(placed) <= 1800.0


def test_the_splice_of_a_rim_ties_no_joists() -> None:
    """Trimmer to rim is 1805 to 1808, of it 45 the splice's, which no joist is fixed to."""
    corners = [(0, 0), (6937, 0), (6937, 2907), (0, 2423)]
    for hole_mm, joint in ((610, 10), (580, 11)):
        outline = outline_of(corners, holes=[box(2720, hole_mm, 150, 120)])
        placed = place_frame(outline, evolve(WANTS, most_centres_mm=385.0))
        assert len(rim_lines(placed, 6000.0)) == 2
        assert most_untied(with_rim_joints(placed, [(6,), (joint,)], 6000.0)) <= 1800.0
