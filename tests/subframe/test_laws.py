"""What every frame keeps, whatever its outline: measured with shapely on the members alone."""

from collections import Counter

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, STRtree
from shapely.ops import unary_union

from drylay.outline.model import Outline, Spot
from drylay.subframe.finish import finish
from drylay.subframe.model import Member
from drylay.subframe.noggins import noggin_rows
from drylay.subframe.place import place_frame
from drylay.subframe.wants import FrameWants, Placed
from framed_outlines import WANTS, mirrored, outlines, quarter_turned, run

RUNS = st.sampled_from(["across", "along"])


def framed(outline: Outline, wants: FrameWants) -> tuple[Placed, tuple[Member, ...]]:
    placed = place_frame(outline, wants)
    assume(not placed.findings)
    return placed, finish(placed, noggin_rows(placed))


def polygon(spots: tuple[Spot, ...]) -> Polygon:
    return Polygon([(at.along_mm, at.across_mm) for at in spots])


def face(outline: Outline) -> Polygon:
    """Return the frame's outer face: the outline less a band as wide as each side's fascia."""
    shape = polygon(tuple(side.start for side in outline.sides))
    for side in outline.sides:
        if side.facing_mm:
            line = LineString([(at.along_mm, at.across_mm) for at in (side.start, side.end)])
            shape = shape.difference(
                line.buffer(side.facing_mm, single_sided=True, cap_style="flat")
            )
    # rounding may leave a sliver without area along a side: it is no part of the face
    return max(getattr(shape, "geoms", [shape]), key=lambda part: part.area)


@settings(max_examples=150)
@given(outlines(), RUNS)
def test_no_two_members_overlap(outline: Outline, way: str) -> None:
    _, members = framed(outline, run(WANTS, way))
    shapes = [polygon(member.corners) for member in members]
    assert all(shape.is_valid and shape.exterior.is_ccw for shape in shapes)
    pairs = STRtree(shapes).query(shapes, predicate="intersects")
    for one, other in zip(*pairs, strict=True):
        if one < other:
            lap = shapes[one].intersection(shapes[other]).buffer(-0.02)
            assert lap.is_empty, (members[one], members[other])


@settings(max_examples=100)
@given(outlines(), RUNS)
def test_every_member_lies_inside_the_face_and_outside_holes(outline: Outline, way: str) -> None:
    _, members = framed(outline, run(WANTS, way))
    free = face(outline).buffer(0.05)
    holes = unary_union([polygon(opening.corners) for opening in outline.openings])
    for member in members:
        shape = polygon(member.corners)
        assert free.covers(shape), member
        assert shape.intersection(holes).buffer(-0.02).is_empty, member


@settings(max_examples=100)
@given(outlines(), RUNS)
def test_what_is_named_carries_the_end(outline: Outline, way: str) -> None:
    _, members = framed(outline, run(WANTS, way))
    by_mark = {member.mark: polygon(member.corners) for member in members}
    assert max(Counter(member.mark for member in members).values()) == 1
    for member in members:
        for on, at in ((member.start_on, member.start), (member.end_on, member.end)):
            if member.kind in {"rim", "splice"}:
                continue
            assert on, member
            # half of the end at least bears: its middle is on a face of what carries it
            assert by_mark[on].distance(Point(at.along_mm, at.across_mm)) <= 3 / 320, (member, on)


@settings(max_examples=100)
@given(outlines(), RUNS, st.floats(0.0, 1.0))
def test_no_board_square_to_the_joists_spans_more_than_the_limit(
    outline: Outline, way: str, part: float
) -> None:
    placed, members = framed(outline, run(WANTS, way))
    shape = face(outline)
    left, low, right, high = shape.bounds
    level = low + part * (high - low) if way == "across" else left + part * (right - left)
    ends = [(left, level), (right, level)] if way == "across" else [(level, low), (level, high)]
    stands = unary_union(
        [polygon(m.corners) for m in members] + [polygon(o.corners) for o in outline.openings]
    )
    # a joist with less than its thickness clear is left out: what carries there is that near
    open_run = (
        LineString(ends).intersection(shape).difference(stands.buffer(WANTS.timber_thickness_mm))
    )
    for stretch in getattr(open_run, "geoms", [open_run]):
        assert stretch.length <= placed.centres_mm + 1e-6 <= WANTS.most_centres_mm + 2e-6


@settings(max_examples=60)
@given(outlines(), RUNS)
def test_lines_keep_the_limit_and_stand_on_marks(outline: Outline, way: str) -> None:
    placed, members = framed(outline, run(WANTS, way))
    steps = [b - a for a, b in zip(placed.lines_mm, placed.lines_mm[1:], strict=False)]
    assert all(0 < step <= WANTS.most_centres_mm for step in steps)
    assert placed.centres_mm == max(steps, default=0.0)
    for member in members:
        if member.kind in {"joist", "pair"}:
            at = member.start.along_mm if way == "across" else member.start.across_mm
            number = int(member.mark[1:].split(".")[0])
            assert at == pytest.approx(placed.lines_mm[number - 1], abs=1 / 320)


def measured(outline: Outline, wants: FrameWants) -> list[tuple[str, float]]:
    _, members = framed(outline, wants)
    return sorted((member.kind, member.length_mm) for member in members)


# On whole millimetres, so that no line has the choice between two marks as near: what it then
# takes is not the same from the other end.
OTHER = {"across": "along", "along": "across"}


@settings(max_examples=60)
@given(outlines(most_holes=2, per_mm=1), RUNS)
def test_a_quarter_turn_of_the_outline_turns_the_frame(outline: Outline, way: str) -> None:
    one = measured(outline, run(WANTS, way))
    other = measured(quarter_turned(outline), run(WANTS, OTHER[way]))
    assert [kind for kind, _ in one] == [kind for kind, _ in other]
    for (_, length), (_, turned) in zip(one, other, strict=True):
        assert length == pytest.approx(turned, abs=0.02)


@settings(max_examples=60)
@given(outlines(most_holes=2, per_mm=1), RUNS)
def test_a_mirror_of_the_outline_mirrors_the_frame(outline: Outline, way: str) -> None:
    one, other = (measured(shape, run(WANTS, way)) for shape in (outline, mirrored(outline)))
    # noggins step by a timber from bay to bay, counted from the left: seen in a mirror every bay's
    # lies a step aside, and one that just did without a second noggin may want it
    assert abs(len(one) - len(other)) <= 1
    one, other = ([each for each in told if each[0] != "noggin"] for told in (one, other))
    assert [kind for kind, _ in one] == [kind for kind, _ in other]
    for (_, length), (_, turned) in zip(one, other, strict=True):
        assert length == pytest.approx(turned, abs=0.02)


@settings(max_examples=20)
@given(outlines(), RUNS)
def test_the_same_outline_has_the_same_frame(outline: Outline, way: str) -> None:
    assert framed(outline, run(WANTS, way)) == framed(outline, run(WANTS, way))
