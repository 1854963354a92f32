"""Joists longer than the timber to be had: fewest lengths, staggered, clear of what bears."""

from itertools import pairwise

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.subframe.finish import finish
from drylay.subframe.joist_joints import with_joist_joints
from drylay.subframe.noggins import noggin_rows
from drylay.subframe.place import place_frame
from drylay.subframe.sizes import too_long
from drylay.subframe.wants import Placed
from framed_outlines import WANTS, box, outline_of
from subframe.test_laws import polygon


def framed(across_mm: float, reach_mm: float, holes: list | None = None) -> Placed:
    outline = outline_of(box(0.0, 0.0, 3000.0, across_mm), holes=holes)
    return with_joist_joints(place_frame(outline, evolve(WANTS, reach_mm=reach_mm)))


def joints(placed: Placed) -> dict[float, list[float]]:
    """Return where along them joists are jointed, by their lines."""
    found: dict[float, list[float]] = {}
    for one in placed.timbers:
        if one.ends[1] == "joint":
            found.setdefault(one.corners[0][0], []).append(one.corners[1][1])
    return found


def test_a_joist_of_ten_metres_is_two_lengths_of_six_at_most() -> None:
    # 9910 between rims; half is 4955, leaning 300 to either side by turns: both under 6000;
    # places are looked for every 10 mm from the rim's inner face, at 45
    placed = framed(10_000.0, 6000.0)
    assert not too_long(placed)
    at = [places for _, places in sorted(joints(placed).items())]
    assert len(at) > 5
    assert at == ([[4695.0], [5295.0]] * len(at))[: len(at)]


def test_without_room_for_the_stagger_every_second_joist_has_a_length_more() -> None:
    # 11 910 between rims leave 90 to choose from with two lengths of 6000, not 600
    at = [places for _, places in sorted(joints(framed(12_000.0, 6000.0)).items())]
    assert [len(places) for places in at] == ([1, 2] * len(at))[: len(at)]


@settings(max_examples=8, deadline=None)
@given(st.integers(6200, 14_000), st.integers(800, 2000), st.booleans())
def test_joints_keep_apart_and_clear_of_openings(across: int, hole: int, holed: bool) -> None:
    holes = [box(1100.0, 2000.0, 500.0, float(hole))] if holed else None
    placed = framed(float(across), 6000.0, holes)
    members = finish(placed, noggin_rows(placed))
    shapes = [polygon(member.corners) for member in members]
    for number, one in enumerate(shapes):
        assert all(one.intersection(two).area < 1 for two in shapes[:number] if one.intersects(two))
    at = sorted(joints(placed).items())
    for (_, ours), (_, theirs) in pairwise(at):
        assert all(abs(a - b) >= 600 for a in ours for b in theirs)
    if holed:
        beside = [v for u, places in at if 1000 < u < 1700 for v in places]
        assert not any(2000 - 300 < v < 2000 + hole + 300 for v in beside)
    if not too_long(placed):
        assert max(member.length_mm for member in members if member.kind == "joist") <= 6000
        assert sum(m.kind == "splice" for m in members) == sum(len(p) for _, p in at)
