"""Braces that face each other: laws of the bay between two posts, and bays worked out by hand."""

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.marks import exact
from drylay.raised.model import Bearer, Heights, Post, RaisedFrame
from drylay.raised.standing import PostSpot, raised_frame
from drylay.strength.model import Section

POST = Section(breadth_mm=100.0, depth_mm=100.0)
PAIR = Section(breadth_mm=45.0, depth_mm=145.0, plies=2)
#: Joists hang between bearers. A post on ground at -1130 is 757 long, on ground at -800 427.
HEIGHTS = Heights(
    finished_mm=-150.0, board_mm=28.0, joist_over_mm=0.0, bearer_mm=145.0, stand_off_mm=50.0,
    short_mm=150.0, brace_over_mm=600.0, screened_mm=1800.0,
)  # fmt: skip
HIGH_MM, LOW_MM, LEG_MM = -1130.0, -800.0, 600.0
#: Level of the ground and place along of each post, by its bearer's place across.
Rows = dict[float, Sequence[tuple[float, float]]]


def framed(rows: Rows, near_mm: float, far_mm: float, leg_mm: float = LEG_MM) -> RaisedFrame:
    """Return a frame of 6000 along whose joists run from `near_mm` to `far_mm` over all lines."""
    bearers = [
        Bearer(mark=f"BR{n}", line=f"line {n}", section=PAIR, across_mm=at, start_mm=0.0,
               end_mm=6000.0, carried_mm=1000.0)
        for n, at in enumerate(rows, 1)
    ]  # fmt: skip
    spots = [[PostSpot(along_mm=along, ground_mm=ground, joist_from_mm=near_mm, joist_to_mm=far_mm)
              for along, ground in row] for row in rows.values()]  # fmt: skip
    return raised_frame(bearers=bearers, spots=spots, post_section=POST, heights=HEIGHTS,
                        brace_leg_mm=leg_mm)  # fmt: skip


def braces(frame: RaisedFrame, way: str) -> dict[str, list[int]]:
    """Return every post's hands of one way."""
    found = [brace for brace in frame.bracing.braces if brace.way == way]
    return {post.mark: [brace.hand for brace in found if brace.post == post.mark]
            for post in frame.posts}  # fmt: skip


def unbraced(frame: RaisedFrame) -> set[str]:
    return {finding.subject for finding in frame.findings if finding.code == "RSD-005"}


def clear(one: Post, other: Post, way: str) -> int:
    """Return what lies between two posts' faces, 100 broad and deep, in 1/320 mm."""
    places = (each.place.along_mm if way == "along" else each.place.across_mm
              for each in (one, other))  # fmt: skip
    first, second = (exact(place) for place in places)
    return second - first - exact(100.0)


PLACES = st.lists(st.integers(120, 900), min_size=1, max_size=6)
GROUNDS = st.lists(st.sampled_from([HIGH_MM, HIGH_MM, LOW_MM]), min_size=7, max_size=7)


def in_a_line(way: str, steps: list[int], grounds: list[float], end: int) -> RaisedFrame:
    """Return posts in one line, one way, that find no room before the first; `end` behind."""
    at, places = 100.0, [100.0]
    for step in steps:
        at += step
        places.append(at)
    if way == "across":
        rows: Rows = {place: [(3000.0, ground)]
                      for place, ground in zip(places, grounds, strict=False)}  # fmt: skip
        return framed(rows, 50.0, at + 50.0 + end)
    return framed({50.0: list(zip(places, grounds, strict=False))}, 50.0, 100.0)


@settings(max_examples=150)
@given(st.sampled_from(["along", "across"]), PLACES, GROUNDS, st.sampled_from([0, 599, 600]))
def test_braces_in_one_bay_have_room_for_both_or_one_has_the_bay(
    way: str, steps: list[int], grounds: list[float], end: int
) -> None:
    frame = in_a_line(way, steps, grounds, end)
    hands, leg = braces(frame, way), exact(LEG_MM)
    for one, other in zip(frame.posts, frame.posts[1:], strict=False):
        room = clear(one, other, way)
        count = (1 in hands[one.mark]) + (-1 in hands[other.mark])
        high = sum(post.ground_mm == HIGH_MM for post in (one, other))
        assert count == min(high, 2 if room >= 2 * leg else 1 if room >= leg else 0)


@settings(max_examples=150)
@given(st.integers(700, 1299), st.integers(1, 6), st.booleans())
def test_bays_for_one_brace_each_leave_one_post_at_most_without(
    step: int, bays: int, end: bool
) -> None:
    """So many bays and one post more: one goes without unless the last has joists behind it."""
    frame = in_a_line("across", [step] * bays, [HIGH_MM] * 7, 600 if end else 0)
    short = [mark for mark, hands in braces(frame, "across").items() if not hands]
    assert len(short) == (0 if end else 1)
    assert set(short) == unbraced(frame)


def test_two_posts_of_two_bearers_do_not_cross_their_braces() -> None:
    # faces at 800 and 2000: 1200 between, twice a leg of 600, and at 1999 less; the one brace of
    # the bay goes to the post that has none, the second: the first has 600 before it
    rows: Rows = {750.0: [(3000.0, HIGH_MM)], 2050.0: [(3000.0, HIGH_MM)]}
    assert braces(framed(rows, 100.0, 2100.0), "across") == {"PO1": [-1, 1], "PO2": [-1]}
    rows = {750.0: [(3000.0, HIGH_MM)], 2049.0: [(3000.0, HIGH_MM)]}
    assert braces(framed(rows, 100.0, 2100.0), "across") == {"PO1": [-1], "PO2": [-1]}


def test_a_brace_to_a_joist_does_not_run_through_a_post_on_the_way() -> None:
    # 599 from face to face: no brace, low as the other is; 600 are enough
    for place, wanted in ((1449.0, [-1]), (1450.0, [-1, 1])):
        rows: Rows = {750.0: [(3000.0, HIGH_MM)], place: [(3000.0, LOW_MM)]}
        assert braces(framed(rows, 100.0, 4000.0), "across") == {"PO1": wanted, "PO2": []}


def test_posts_further_apart_along_than_a_joist_and_a_brace_have_a_bay_each() -> None:
    # 200 from centre to centre are 100 between faces, a post's breadth: no joist serves both
    for along, wanted in ((3199.0, 1), (3200.0, 2)):
        rows: Rows = {750.0: [(3000.0, HIGH_MM)], 1550.0: [(along, HIGH_MM)]}
        found = braces(framed(rows, 700.0, 1600.0), "across")
        assert sum(len(hands) for hands in found.values()) == wanted
