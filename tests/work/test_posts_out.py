"""Posts set out: places in the axes of the pegs and from P1, and diagonals over them."""

from math import hypot

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.edges.model import Edges
from drylay.outline.model import Spot
from drylay.raised.model import RaisedDeck
from drylay.work.model import SettingOut
from drylay.work.posts_out import with_posts
from drylay.work.setting_out import set_out
from standing_decks import plan_of

sides = st.integers(600 * 320, 6_000 * 320).map(lambda length_320: length_320 / 320)


def raised(places: list[list[tuple[float, float]]]) -> RaisedDeck:
    """Return a raised deck with posts at these places, line by line."""
    deck = plan_of("held").raised
    assert deck is not None
    bearer, post = deck.frame.bearers[0], deck.frame.posts[0]
    bearers = tuple(evolve(bearer, mark=f"BR{n}") for n in range(1, len(places) + 1))
    spots = [(f"BR{n}", spot) for n, line in enumerate(places, 1) for spot in line]
    posts = tuple(
        evolve(post, mark=f"PO{n}", bearer=mark, place=Spot(along_mm=along, across_mm=across))
        for n, (mark, (along, across)) in enumerate(spots, 1)
    )
    return evolve(deck, frame=evolve(deck.frame, bearers=bearers, posts=posts))


def out_of(run: str = "along") -> SettingOut:
    """A frame of 4000 by 3000, 28 in from the edge of the cover and 20 off the house."""
    edges = Edges(frame_start_mm=28.0, frame_near_mm=20.0, frame_length_mm=4000.0,
                  frame_depth_mm=3000.0)  # fmt: skip
    return set_out(edges, run=run, units="metric")


GRID = [[(428.0, 1220.0), (3428.0, 1220.0)], [(428.0, 2420.0), (3428.0, 2420.0)]]


def test_places_by_hand() -> None:
    """P1 stands at 28, 20: a post at 428, 1220 is 400 along and 1200 across from it."""
    out = with_posts(out_of(), raised(GRID), run="along")
    assert [(p.mark, p.along_mm, p.across_mm, p.from_along_mm, p.from_across_mm)
            for p in out.posts] == [
        ("PO1", 428.0, 1220.0, 400.0, 1200.0), ("PO2", 3428.0, 1220.0, 3400.0, 1200.0),
        ("PO3", 428.0, 2420.0, 400.0, 2400.0), ("PO4", 3428.0, 2420.0, 3400.0, 2400.0),
    ]  # fmt: skip
    assert out.post_accepted_mm == 5.0  # common practice, no source


def test_diagonals_by_hand() -> None:
    """3000 by 1200: the root of 10 440 000 is 3231.10."""
    ties = with_posts(out_of(), raised(GRID), run="along").post_ties
    assert [(tie.start, tie.end) for tie in ties] == [("PO1", "PO4"), ("PO2", "PO3")]
    assert [tie.length_mm for tie in ties] == pytest.approx([3231.099, 3231.099], abs=0.001)


def test_posts_under_one_bearer_are_proved_from_the_pegs() -> None:
    """P1 at 28, 20 and P2 at 4028, 20: 3400 and 1200 to the far post, 3600 and 1200."""
    ties = with_posts(out_of(), raised(GRID[:1]), run="along").post_ties
    assert [(tie.start, tie.end) for tie in ties] == [("P1", "PO2"), ("P2", "PO1")]
    # by hand: 3400^2 + 1200^2 = 13 000 000, 3600^2 + 1200^2 = 14 400 000
    assert [tie.length_mm for tie in ties] == pytest.approx([3605.551, 3794.733], abs=0.001)


def test_a_single_post_on_each_bearer_has_one_line_over_them() -> None:
    ties = with_posts(out_of(), raised([[GRID[0][0]], [GRID[1][0]]]), run="along").post_ties
    assert [(tie.start, tie.end, tie.length_mm) for tie in ties] == [("PO1", "PO2", 1200.0)]


def test_places_stand_in_the_axes_of_the_pegs_where_boards_run_away_from_the_house() -> None:
    """Along the boards is then away from the house: the axes change over."""
    out = with_posts(out_of("across"), raised(GRID), run="across")
    assert (out.posts[0].along_mm, out.posts[0].across_mm) == (1220.0, 428.0)
    assert (out.posts[0].from_along_mm, out.posts[0].from_across_mm) == (1200.0, 400.0)


def test_a_deck_on_the_ground_has_no_posts_to_set_out() -> None:
    out = out_of()
    assert with_posts(out, None, run="along") == out
    assert with_posts(out, raised([]), run="along") == out


@given(sides, sides, sides, sides)
def test_equal_diagonals_are_those_of_a_rectangle(
    left_mm: float, near_mm: float, wide_mm: float, deep_mm: float
) -> None:
    """In a rectangle both diagonals are alike: Euclid I.34 and I.4."""
    spots = [[(left_mm, near), (left_mm + wide_mm, near)] for near in (near_mm, near_mm + deep_mm)]
    ties = with_posts(out_of(), raised(spots), run="along").post_ties
    assert ties[0].length_mm == pytest.approx(ties[1].length_mm)
    assert ties[0].length_mm == pytest.approx(hypot(wide_mm, deep_mm))
