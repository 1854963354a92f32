"""A located spot lies in the piece that is named, by the plan's own figures."""

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from drylay.plan.model import Plan
from drylay.supports.model import Seam
from drylay.upkeep.locate import locate
from drylay.upkeep.parts import UpkeepError, members, tops
from drylay.upkeep.plane import area_mm2, common, holds, level_span, off_mm
from drylay.upkeep.screwed import screwed_to, screws_of
from upkeep.decks import ALL, RECTANGLES, across, plan_of

NAMES = st.sampled_from(ALL)


def spot(plan: Plan, part: tuple[float, float]) -> tuple[float, float]:
    spots = [corner for top in tops(plan) for corner in top.corners]
    along, across = [s.along_mm for s in spots], [s.across_mm for s in spots]
    return (
        min(along) + part[0] * (max(along) - min(along)),
        min(across) + part[1] * (max(across) - min(across)),
    )


@settings(max_examples=40)
@given(NAMES, st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_the_piece_named_holds_the_spot_and_no_other_does(
    name: str, part: tuple[float, float]
) -> None:  # fmt: skip
    plan = plan_of(name)
    place = spot(plan, part)
    found = locate(plan, *place)
    shapes = {top.mark: Polygon([(c.along_mm, c.across_mm) for c in top.corners])
              for top in tops(plan)}  # fmt: skip
    for mark, shape in shapes.items():  # shapely is not what locates
        off = shape.distance(Point(place))
        if found.what == "piece" and mark in found.pieces:
            assert off <= 0.02
        elif found.what == "piece":
            assert off > 0 or shape.touches(Point(place))
        elif found.what == "off":
            assert off > 0


@settings(max_examples=40)
@given(st.sampled_from(RECTANGLES), st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_the_bay_is_that_of_the_joists_on_either_side(
    name: str, part: tuple[float, float]
) -> None:  # fmt: skip
    plan = plan_of(name)
    along, across = spot(plan, part)
    frame = plan.frame
    assert frame is not None
    assert plan.surface is not None
    assert plan.surface.run == "along"
    first = frame.joists[0]
    inside = first.near_mm < across < first.near_mm + first.length_mm
    half = frame.timber_thickness_mm / 2
    before = [j for j in frame.joists if j.offset_mm + half < along - 0.02]
    after = [j for j in frame.joists if j.offset_mm - half > along + 0.02]
    clear = all(abs(abs(j.offset_mm - along) - half) > 0.03 for j in frame.joists)
    if inside and clear:
        nearest = [max(before, key=lambda j: j.offset_mm)] if before else []
        nearest += [min(after, key=lambda j: j.offset_mm)] if after else []
        assert locate(plan, along, across).bay == tuple(j.mark for j in nearest)


@pytest.mark.parametrize("name", RECTANGLES)
def test_screws_piece_by_piece_add_up_to_those_in_the_plan(name: str) -> None:
    plan = plan_of(name)
    fixings = plan.fixings
    assert fixings is not None
    assert fixings.deck_screws is not None
    fixed = fixings.clips.fixed_screws if fixings.clips else 0
    told = sum(screws_of(plan, top) or 0 for top in tops(plan))
    assert told == fixings.deck_screws.count + (fixed or 0)


def test_a_spot_worked_by_hand() -> None:
    """S03: rows of 145 at a pitch of 150, joists of 45 at 22.5, 422.5, 822.5 and so on.

    At 700, 500: 500 = 3 x 150 + 50, so row B4, and between 422.5 and 822.5, joists J2 and J3; the
    face of J3 lies at 800, 100 off.
    """
    found = locate(plan_of("S03"), 700, 500)
    assert (found.what, found.pieces, found.bay) == ("piece", ("B4.1",), ("J2", "J3"))
    assert found.nearest is not None
    assert (found.nearest.mark, found.nearest.off_mm) == ("J3", 100.0)
    assert [(x.member, x.screws) for x in found.crossings] == [("J2", 2), ("J3", 2)]
    assert (found.crossings[0].at.along_mm, found.crossings[0].at.across_mm) == (422.5, 522.5)


def test_a_gap_names_both_sides_and_a_spot_off_the_deck_how_far_off() -> None:
    gap = locate(plan_of("S03"), 700, 597.5)  # between B4, to 595, and B5, from 600
    assert (gap.what, gap.rows) == ("gap", ("B4", "B5"))
    off = locate(plan_of("S03"), 700, -40)
    assert (off.what, off.pieces, off.findings[0].code) == ("off", (), "UPK-001")
    assert off.findings[0].measured == 40


def test_what_stands_is_told() -> None:
    found = locate(plan_of("S15"), 700, 500)
    assert found.bearer is not None
    assert found.post is not None
    assert (found.bearer.mark, found.post.mark) == ("BR1", "PO1")
    on_post = plan_of("S15").raised.frame.posts[0].place  # type: ignore[union-attr]
    assert locate(plan_of("S15"), on_post.along_mm, on_post.across_mm).post.off_mm == 0  # type: ignore[union-attr]


def test_a_blocked_plan_is_refused() -> None:
    with pytest.raises(UpkeepError, match="a blocked plan without boards"):
        locate(evolve(plan_of("S01"), pieces=None), 10, 10)
    assert members(evolve(plan_of("S01"), frame=None)) == ()


def test_clipping_keeps_the_area_that_shapely_finds() -> None:
    notched = ((0.0, 0.0), (10.0, 0.0), (10.0, 6.0), (6.0, 6.0), (6.0, 2.0), (0.0, 2.0))
    for shape in (((-1.0, -1.0), (8.0, -1.0), (8.0, 4.0), (-1.0, 4.0)),
                  ((3.0, 9.0), (9.0, -3.0), (12.0, 1.0), (7.0, 10.0)),
                  ((0.0, 4.0), (5.0, 4.0), (5.0, 8.0), (0.0, 8.0))):  # fmt: skip
        for convex in (shape, shape[::-1]):
            want = Polygon(notched).intersection(Polygon(convex)).area
            assert abs(abs(area_mm2(common(notched, convex))) - want) < 1e-9
    assert holds(notched, (8.0, 5.0))
    assert not holds(notched, (3.0, 4.0))
    assert off_mm(notched, (3.0, 4.0)) == 2.0
    assert level_span(notched, (0.0, 1.0), 0) == (0.0, 10.0)
    assert level_span(notched, (0.0, 9.0), 0) is None


def test_boards_away_from_the_house_are_located_the_other_way_round() -> None:
    """S01 turned: rows of 145 at 150 from the left, so 200 along lies in B2, whatever across is."""
    one, other = locate(plan_of("S01"), 500, 200), locate(across(), 200, 500)
    assert one.pieces == other.pieces == ("B2.1",)
    assert one.bay == other.bay
    assert [x.screws for x in one.crossings] == [x.screws for x in other.crossings]
    places = [(x.at.along_mm, x.at.across_mm) for x in one.crossings]
    assert places == [(x.at.across_mm, x.at.along_mm) for x in other.crossings]


def test_of_a_pair_that_a_board_passes_over_it_is_screwed_to_one() -> None:
    """As if J3 and J4 of S03 were a pair: B4.1 lies over J1 to J12, and is screwed to eleven."""
    plan = plan_of("S03")
    assert plan.supports is not None
    assert plan.pieces is not None
    seam = Seam(offset_mm=1000.0, left="J3", right="J4")
    paired = evolve(plan, supports=evolve(plan.supports, seams=(seam,)))
    piece = next(its for its in plan.pieces.pieces if its.mark == "B4.1")
    assert "J4" not in screwed_to(paired, piece)
    assert (len(screwed_to(plan, piece)), len(screwed_to(paired, piece))) == (12, 11)
