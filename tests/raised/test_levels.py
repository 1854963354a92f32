"""Posts from the levels, ledger and bracing: sums by hand, and the sum that always comes out."""

from itertools import pairwise
from math import sqrt

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Finding
from drylay.marks import exact
from drylay.outline.model import Spot
from drylay.raised.ledger import ledger_finding, ledger_on, ledger_or_free
from drylay.raised.model import REFUSED_WALLS, SOUND_WALLS, Bearer, Heights, Ledger, RaisedFrame
from drylay.raised.schedule import post_at
from drylay.raised.standing import PostSpot, raised_frame
from drylay.strength.model import Section
from raised.limits import SAID

POST = Section(breadth_mm=100.0, depth_mm=100.0)
PAIR = Section(breadth_mm=45.0, depth_mm=195.0, plies=2)
HEIGHTS = Heights(
    finished_mm=-150.0, board_mm=28.0, joist_over_mm=145.0, bearer_mm=195.0, stand_off_mm=20.0,
    short_mm=150.0, brace_over_mm=1200.0, screened_mm=1800.0,
)  # fmt: skip


def bearer(mark: str = "BR1", across: float = 1890.0, end: float = 4000.0) -> Bearer:
    return Bearer(mark=mark, line="line 1", section=PAIR, across_mm=across, start_mm=0.0,
                  end_mm=end, carried_mm=2000.0)  # fmt: skip


def standing(grounds: list[float], heights: Heights = HEIGHTS, leg: float = 500.0) -> RaisedFrame:
    places = [400.0, 2000.0, 3600.0]
    row = [PostSpot(along_mm=at, ground_mm=ground, joist_from_mm=45.0, joist_to_mm=4200.0)
           for at, ground in zip(places, grounds, strict=True)]  # fmt: skip
    return raised_frame(bearers=[bearer()], spots=[row], post_section=POST, heights=heights,
                        brace_leg_mm=leg)  # fmt: skip


def test_a_plane_that_slopes_worked_by_hand() -> None:
    # ground falls 1 in 8 along: -600 at the datum, so -650, -850, -1050 at 400, 2000, 3600;
    # tops lie at -150 - 28 - 145 - 195 = -518, feet 20 above the ground
    found = standing([-600 - at / 8 for at in (400, 2000, 3600)])
    assert [row.top_mm for row in found.schedule] == [-518.0] * 3
    assert [row.length_mm for row in found.schedule] == [112.0, 312.0, 512.0]
    assert [row.cut_below_mm for row in found.schedule] == [518.0] * 3
    assert [row.height_class for row in found.schedule] == ["too short", "plain", "plain"]
    assert [(f.code, f.subject) for f in found.findings] == [("RSD-003", "PO1")]
    sunk = standing([-600.0, -400.0, -600.0])  # feet 20 above -400 lie at -380, over tops at -518
    wanted = [("PO2", -138.0, 0.0)]
    told = [(f.subject, f.measured, f.limit) for f in sunk.findings if f.severity.value == "stop"]
    assert told == wanted
    assert found.buildable


@settings(max_examples=100)
@given(st.floats(-3000, 3000), st.floats(-6000, 3000), st.floats(10, 60), st.floats(0, 300),
       st.tuples(st.floats(60, 300), st.floats(0, 200)))  # fmt: skip
def test_ground_stand_off_post_bearer_joist_and_board_make_the_finished_level(
    finished: float, ground: float, board: float, joist: float, more: tuple[float, float]
) -> None:
    deep, off = more
    heights = evolve(HEIGHTS, finished_mm=finished, board_mm=board, joist_over_mm=joist,
                     bearer_mm=deep, stand_off_mm=off)  # fmt: skip
    post = post_at(mark="PO1", bearer="BR1", place=Spot(along_mm=0.0, across_mm=0.0), section=POST,
                   ground_mm=ground, heights=heights)  # fmt: skip
    parts = (post.ground_mm, post.stand_off_mm, post.length_mm, deep, joist, board)
    assert sum(exact(part) for part in parts) == exact(finished)


def test_a_post_in_concrete_is_longer_by_what_is_in_it() -> None:
    heights = evolve(HEIGHTS, stand_off_mm=0.0, embed_mm=600.0)
    post = standing([-1500.0] * 3, heights).posts[0]
    assert (post.length_mm, post.whole_mm) == (982.0, 1582.0)  # -518 + 1500


def test_a_post_both_stood_off_and_embedded_is_refused() -> None:
    with pytest.raises(InputError, match="not both"):
        standing([-1500.0] * 3, evolve(HEIGHTS, embed_mm=600.0))


def test_a_deck_higher_than_screened_stops() -> None:
    # -150 + 1950 = 1800 is the limit itself
    assert standing([-1950.0] * 3).buildable
    found = standing([-1950.1] * 3)
    assert [f.code for f in found.findings] == ["RSD-004"] * 3
    assert found.findings[0].measured == pytest.approx(1800.1)
    assert not found.buildable


def test_ground_that_reaches_the_bearer_stops() -> None:
    found = standing([-500.0] * 3)
    assert not found.buildable
    assert found.findings[0].measured == -38.0  # -518 + 500 - 20


def test_posts_over_the_height_are_braced_both_ways() -> None:
    # 1250 is over 1200, 1200 is not
    found = standing([-1788.0, -1738.0, -1738.0])
    assert [post.length_mm for post in found.posts] == [1250.0, 1200.0, 1200.0]
    assert [post.height_class for post in found.posts] == ["braced", "plain", "plain"]
    told = {(b.post, b.way, b.hand) for b in found.bracing.braces}
    # 350 of bearer beyond the first post's face is less than the leg of 500
    assert told == {("PO1", "along", 1), ("PO1", "across", -1), ("PO1", "across", 1)}
    long_mm = pytest.approx(500 * sqrt(2), abs=1 / 320)
    assert all(b.length_mm == long_mm for b in found.bracing.braces)
    assert [f.code for f in found.findings] == ["RSD-006"]
    assert found.schedule[0].braces == ("K1", "K2", "K3")


def test_joists_that_no_house_holds_want_braces_both_ways() -> None:
    # the joists end 100 behind the posts' faces at 1840 and 1940: a leg of 500 finds room one way
    row = [PostSpot(along_mm=at, ground_mm=-1788.0, joist_from_mm=45.0, joist_to_mm=2040.0)
           for at in (400.0, 2000.0, 3600.0)]  # fmt: skip
    on = ledger()
    assert isinstance(on, Ledger)
    told = [
        [f.subject for f in raised_frame(bearers=[bearer()], spots=[row], post_section=POST,
                                         heights=HEIGHTS, brace_leg_mm=500.0, ledger=each).findings
         if f.code == "RSD-006"]
        for each in (None, on)
    ]  # fmt: skip
    assert told == [["joists"], []]


def test_two_braced_neighbours_share_the_bay_between_them() -> None:
    # 1500 between faces is twice 750, and not twice 751: then each of two bays has one brace, and
    # of three posts, with no room at either end, one has none
    assert sum(b.way == "along" for b in standing([-1788.0] * 3, leg=750.0).bracing.braces) == 4
    found = standing([-1788.0] * 3, leg=751.0)
    along = [(b.post, b.hand) for b in found.bracing.braces if b.way == "along"]
    assert along == [("PO1", 1), ("PO2", 1)]
    assert [(f.code, f.subject) for f in found.findings] == [
        ("RSD-005", "PO3"), ("RSD-006", "BR1")]  # fmt: skip
    assert not found.buildable


@pytest.mark.parametrize("leg", [0.0, 195.0, 1300.0])
def test_a_leg_reaches_below_the_bearer_and_no_lower_than_unbraced_posts(
    leg: float,
) -> None:
    with pytest.raises(InputError):
        standing([-1788.0] * 3, leg=leg)


def test_spots_of_posts_are_told_bearer_by_bearer() -> None:
    with pytest.raises(InputError):
        raised_frame(bearers=[bearer()], spots=[], post_section=POST, heights=HEIGHTS,
                     brace_leg_mm=500.0)  # fmt: skip


@pytest.mark.parametrize(
    "changed", [{"board_mm": -1.0}, {"finished_mm": float("nan")}, {"short_mm": float("inf")}]
)
def test_heights_that_are_none_are_refused(changed: dict[str, float]) -> None:
    with pytest.raises(InputError):
        standing([-1500.0] * 3, evolve(HEIGHTS, **changed))


@pytest.mark.parametrize("wall", REFUSED_WALLS)
def test_no_ledger_on_such_walls(wall: str) -> None:
    found = ledger_finding(wall)
    assert found is not None
    assert (found.code, found.severity.value) == ("RSD-001", "caution")
    assert isinstance(ledger(wall=wall), Finding)


@pytest.mark.parametrize("wall", [None, "unknown"])
def test_a_wall_that_nobody_tells_is_a_stop(wall: str | None) -> None:
    found = ledger_finding(wall)
    assert found is not None
    assert (found.code, found.severity.value) == ("RSD-002", "stop")


@pytest.mark.parametrize("wall", SOUND_WALLS)
def test_a_sound_wall_carries_a_ledger(wall: str) -> None:
    assert ledger_finding(wall) is None


def test_where_a_ledger_is_refused_the_deck_stands_free() -> None:
    assert ledger_or_free("concrete", 45.0) == (45.0, ())
    assert ledger_or_free(None, None) == (None, ())
    for wall, code in (("veneer", "RSD-001"), (None, "RSD-002")):
        ledger_mm, told = ledger_or_free(wall, 45.0)
        assert ledger_mm is None
        assert [finding.code for finding in told] == [code]


def test_no_such_wall() -> None:
    with pytest.raises(InputError, match="solid masonry"):
        ledger_finding("straw")


def ledger(**changed: object) -> Ledger | Finding:
    told = {"wall": "concrete", "section": Section(breadth_mm=45.0, depth_mm=195.0),
            "start_mm": 0.0, "end_mm": 3000.0, "spacing_most_mm": 400.0, "from_end_mm": 50.0,
            "joists_mm": [400.0 * n for n in range(8)], "clear_mm": 60.0, "source": SAID,
            **changed}  # fmt: skip
    return ledger_on(**told)  # type: ignore[arg-type]


def test_fixings_keep_off_joists_and_within_their_spacing() -> None:
    found = ledger()
    assert isinstance(found, Ledger)
    # the first mark that is 50 from the end is 60 clear of the joist at 0 only at 60; then 460 is
    # 400 on, and 60 clear of the joist at 400; and so on to 2860, and the last by the end
    assert found.stations_mm[:2] == (60.0, 460.0)
    stations = [0.0, *found.stations_mm, 3000.0]
    assert max(b - a for a, b in pairwise(stations)) <= 400.0
    assert all(abs(at - 400 * n) >= 60 for at in found.stations_mm for n in range(8))


@settings(max_examples=100)
@given(st.integers(250, 900), st.integers(300, 700), st.integers(20, 100))
def test_fixings_keep_off_joists_whatever_the_spacing(most: int, joist: int, clear: int) -> None:
    joists = [float(at) for at in range(20, 3000, joist)]
    try:
        found = ledger(spacing_most_mm=float(most), joists_mm=joists, clear_mm=float(clear))
    except InputError:
        assert most < 2 * clear + 100  # only a spacing hardly wider than a joist's room fails
        return
    assert isinstance(found, Ledger)
    assert all(abs(at - near) >= clear for at in found.stations_mm for near in joists)
    stations = [0.0, *found.stations_mm, 3000.0]
    assert max(b - a for a, b in pairwise(stations)) <= most
    assert found.stations_mm[0] >= 50
    assert found.stations_mm[-1] <= 2950


def test_no_room_for_fixings_is_told() -> None:
    with pytest.raises(InputError, match="room for fixings"):
        ledger(clear_mm=200.1)
    with pytest.raises(InputError):
        ledger(end_mm=0.0)
