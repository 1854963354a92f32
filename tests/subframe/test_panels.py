"""Battens under a hatch's panel, worked by hand: timber 45 x 145, boards of 100 at gaps of 5."""

import math
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.findings import Finding
from drylay.marks import exact
from drylay.outline.model import Opening, Spot
from drylay.subframe.model import PanelBatten
from drylay.subframe.panels import PLAY_MM, BattenWants, panel_battens, ripped_depth_mm

WANTS = BattenWants(
    timber_thickness_mm=45.0, timber_depth_mm=145.0, most_centres_mm=400.0, reach_least_mm=35.0,
    mark_320=160,
)  # fmt: skip


def spots(*pairs: tuple[float, float]) -> tuple[Spot, ...]:
    return tuple(Spot(along_mm=x, across_mm=y) for x, y in pairs)


def box(left: float, near: float, right: float, far: float) -> tuple[Spot, ...]:
    return spots((left, near), (right, near), (right, far), (left, far))


def hatch(corners: tuple[Spot, ...]) -> Opening:
    return Opening(mark="O1", kind="hatch", corners=corners, within=corners, clear_mm=40.0,
                   clear_least_mm=40.0, clear_most_mm=None)  # fmt: skip


def boards(long: float, rows: int, wide: float = 100.0) -> list[tuple[Spot, ...]]:
    """Boards at gaps of 5, the first 2.5 inside the hole's side, 2 short of its ends."""
    step = wide + 5.0
    return [box(2.0, 2.5 + step * n, long - 2.0, 2.5 + step * n + wide) for n in range(rows)]


def tied(long: float, rows: int, **more: float) -> tuple[PanelBatten, ...]:
    wants = evolve(WANTS, **more)
    found = panel_battens(
        hatch(box(0.0, 0.0, long, 105.0 * rows)), boards(long, rows), wants, first=1
    )
    assert not isinstance(found, Finding), found
    return found


def test_two_stand_the_play_off_the_ledges() -> None:
    """620 long: ledges to 45 and from 575; battens from 55 to 100, and from 520 to 565.

    Their middles are 465 apart, closer than 500. Across 4 rows, 420, they lie from 10 to 410.
    """
    one, other = tied(620.0, 4, most_centres_mm=500.0)
    assert (one.mark, one.opening, one.length_mm, one.depth_mm) == ("Q1", "O1", 400.0, 145.0)
    assert (one.start, one.end) == spots((77.5, 10.0), (77.5, 410.0))
    assert (other.start, other.end) == spots((542.5, 10.0), (542.5, 410.0))


def test_a_third_stands_between_where_two_are_too_far_apart() -> None:
    """465 over 2 is 232.5, on a mark."""
    middles = [batten.start.along_mm for batten in tied(620.0, 4)]
    assert middles == [77.5, 310.0, 542.5]


def test_its_length_goes_down_to_a_mark() -> None:
    """A hole 420.3 wide leaves 400.3: 400 is sawn."""
    found = panel_battens(
        hatch(box(0.0, 0.0, 400.0, 420.3)), boards(400.0, 4), WANTS, first=3
    )  # fmt: skip
    assert not isinstance(found, Finding)
    assert [batten.length_mm for batten in found] == [400.0, 400.0]
    assert [batten.mark for batten in found] == ["Q3", "Q4"]


def test_where_a_side_leans_they_end_off_its_nearer_end() -> None:
    """The right side rises by 1 over 400: 0.1375 at 55, 0.25 at 100; the outer face is nearer."""
    ring = spots((0.0, 0.0), (400.0, 1.0), (400.0, 420.0), (0.0, 420.0))
    found = panel_battens(hatch(ring), boards(400.0, 4), WANTS, first=1)
    assert not isinstance(found, Finding)
    assert found[0].start.across_mm == pytest.approx(10.25, abs=1 / 320)
    assert found[0].length_mm == 399.5


def test_a_hole_too_short_for_two_is_told_by_how_much() -> None:
    """Between ledges 190 - 90 = 100; two battens and the play off either ledge: 110."""
    found = panel_battens(hatch(box(0, 0, 190.0, 420.0)), boards(190.0, 4), WANTS, first=1)
    assert isinstance(found, Finding)
    assert (found.code, found.measured, found.limit) == ("OUT-026", 100.0, 110.0)
    assert "10 mm longer" in found.message
    fits = panel_battens(hatch(box(0, 0, 200.0, 420.0)), boards(200.0, 4), WANTS, first=1)
    assert not isinstance(fits, Finding)


def test_outer_boards_too_narrow_to_be_screwed_are_told() -> None:
    """Boards of 40: the first from 2.5 to 42.5 lies over a batten from 10 by 32.5, 35 wanted."""
    narrow = boards(400.0, 4, wide=40.0)
    found = panel_battens(hatch(box(0, 0, 400.0, 180.0)), narrow, WANTS, first=1)
    assert isinstance(found, Finding)
    assert (found.code, found.measured, found.limit) == ("OUT-027", 32.5, 35.0)
    assert "2.5 mm wider" in found.message


def test_ripped_down_the_middle_by_hand() -> None:
    """(145 - 3) / 2 = 71; (145 - 4) / 2 = 70.5; (145 - 3.4) / 2 = 70.8, down to 70.5."""
    kerfs = {3.0: 71.0, 4.0: 70.5, 3.4: 70.5}
    for kerf, deep in kerfs.items():
        assert ripped_depth_mm(145.0, kerf_mm=kerf, mark_320=160) == deep


@given(
    long=st.integers(400, 4000), rows=st.integers(1, 12), thick=st.sampled_from([38.1, 45.0, 63.0]),
    most=st.integers(300, 600), deg=st.integers(0, 179), first=st.integers(1, 9),
)  # fmt: skip
def test_at_any_angle_they_are_the_fewest_and_clear(  # noqa: PLR0917 - drawn by name
    long: int, rows: int, thick: float, most: int, deg: int, first: int
) -> None:
    way = (math.cos(math.radians(deg)), math.sin(math.radians(deg)))

    def turned(spot: Spot) -> Spot:
        x = spot.along_mm * way[0] - spot.across_mm * way[1]
        y = spot.along_mm * way[1] + spot.across_mm * way[0]
        return Spot(along_mm=exact(x) / 320, across_mm=exact(y) / 320)

    ring = tuple(turned(spot) for spot in box(0.0, 0.0, long, 105.0 * rows))
    own = [tuple(turned(spot) for spot in board) for board in boards(long, rows)]
    wants = evolve(WANTS, timber_thickness_mm=thick, most_centres_mm=float(most))
    found = panel_battens(hatch(ring), own, wants, first=first)
    assert not isinstance(found, Finding)
    assert [each.mark for each in found] == [f"Q{first + n}" for n in range(len(found))]
    flat = [
        [(s.along_mm * way[0] + s.across_mm * way[1], s.across_mm * way[0] - s.along_mm * way[1])
         for s in (each.start, each.end)]
        for each in found
    ]  # fmt: skip
    middles = [start[0] for start, _ in flat]
    off = 1.5 * thick + PLAY_MM
    assert middles[0] == pytest.approx(off, abs=0.02)
    assert middles[-1] == pytest.approx(long - off, abs=0.02)
    assert all(thick - 0.02 <= b - a <= most + 0.02 for a, b in pairwise(middles))
    span = long - 2 * off
    assert len(found) == 2 or (len(found) - 2) * (most - 0.5) < span + 0.02
    for start, end in flat:
        assert start[1] == pytest.approx(PLAY_MM, abs=0.02)
        assert 105.0 * rows - PLAY_MM - 0.52 <= end[1] <= 105.0 * rows - PLAY_MM + 0.02
