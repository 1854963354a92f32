"""The view over a fence: similar triangles by hand, both ways, and laws."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.siting.changes import changed
from drylay.siting.model import Garden
from drylay.siting.view import (
    apart_from,
    ask_view,
    hiding_fence_mm,
    hiding_top_mm,
    seen_from_mm,
    seen_seated_mm,
    sight,
)
from siting.gardens import fence, place, whole_garden


def test_ground_is_seen_from_by_hand() -> None:
    """Eye 2000 over a fence of 1500, 3000 away: 3000 x 1500 / (2000 - 1500) = 9000 beyond it."""
    assert seen_from_mm(apart_mm=3000, eye_mm=2000, fence_mm=1500) == 9000
    # the neighbour's ground 500 lower: 3000 x 2000 / 500
    assert seen_from_mm(apart_mm=3000, eye_mm=2000, fence_mm=1500, ground_mm=-500) == 12000
    assert seen_from_mm(apart_mm=3000, eye_mm=1500, fence_mm=1500) is None
    assert seen_from_mm(apart_mm=3000, eye_mm=2000, fence_mm=500, ground_mm=900) == 0


def test_a_place_is_asked_from_its_nearest_edge() -> None:
    """The place reaches to across 3500, the fence stands at 15000: 11500; top 200 + 1600 = 1800."""
    found = sight(fence(), place())
    assert (found.apart_mm, found.eye_mm, found.fence_mm) == (11500, 1800, 1500)
    assert found.starts_mm == 57500  # 11500 x 1500 / 300
    assert apart_from(fence(), place(across_mm=14000.0)) == 0
    assert sight(fence(foot_mm=400.0), place()).starts_mm is None


def test_fence_and_deck_that_hide_by_hand() -> None:
    """Place 1000 off the fence, eye 2200, 8000 beyond are private.

    Fence: 8000 x 2200 / 9000 = 1955.6, so 1956. Deck: eye at 1500 + 1000 x 1500 / 8000 = 1687.5,
    top 87.5, so 87. Without a private depth the fence is as high as the eye, the eye as the fence.
    """
    near = place(across_mm=11000.0, top_mm=600.0)
    assert hiding_fence_mm(fence(), near) == 1956
    assert hiding_top_mm(fence(), near) == 87
    assert hiding_fence_mm(fence(private_mm=None), near) == 2200
    assert hiding_top_mm(fence(private_mm=None), near) == -100


def test_who_sits_on_the_deck_is_seen_by_hand() -> None:
    """Seated head at 600 + 1200 = 1800, theirs at 1600; 1000 and 8000 from the fence.

    The line from head to head is highest over the fence when they stand far off:
    (1600 x 1000 + 1800 x 8000) / 9000 = 1777.8; right at the fence it is at their own 1600.
    """
    near = place(across_mm=11000.0, top_mm=600.0)
    assert seen_seated_mm(fence(), near) == pytest.approx(16_000_000 / 9000)
    assert seen_seated_mm(fence(), place()) == 1600
    assert seen_seated_mm(fence(beyond_mm=500.0), place()) == 2100


FENCES = st.builds(
    fence,
    height_mm=st.floats(800, 2600),
    foot_mm=st.floats(-400, 400),
    beyond_mm=st.floats(-800, 600),
    private_mm=st.none() | st.floats(500, 20_000),
    start_mm=st.tuples(st.floats(-3000, 0), st.floats(9000, 15000)),
    end_mm=st.tuples(st.floats(5000, 12000), st.floats(9000, 15000)),
)
PLACES = st.builds(place, top_mm=st.floats(-200, 1500), across_mm=st.floats(0, 5000))


@given(line=FENCES, deck=PLACES)
def test_every_change_makes_the_view_good(line: object, deck: object) -> None:
    garden = Garden(fences=(line,))  # type: ignore[arg-type]
    (answer,) = ask_view(garden, deck)  # type: ignore[arg-type]
    assert bool(answer.changes) == (not answer.good)
    for change in answer.changes:
        (after,) = ask_view(*changed(garden, deck, change))  # type: ignore[arg-type]
        assert after.good, change


@given(line=FENCES, deck=PLACES)
def test_a_lower_fence_than_told_does_not_hide(line: object, deck: object) -> None:
    (answer,) = ask_view(Garden(fences=(line,)), deck)  # type: ignore[arg-type]
    for change in answer.changes:
        if change.kind == "fence":
            lower = evolve(line, height_mm=line.height_mm + change.by_mm - 1.5)  # type: ignore[attr-defined]
            (after,) = ask_view(Garden(fences=(lower,)), deck)  # type: ignore[arg-type]
            assert not after.good


@given(
    apart=st.floats(0, 20_000), more=st.floats(0, 20_000), eye=st.floats(500, 4000),
    high=st.floats(300, 3000), ground=st.floats(-500, 300),
)  # fmt: skip
def test_moving_away_from_a_fence_lessens_overlook(
    apart: float, more: float, eye: float, high: float, ground: float
) -> None:
    near = seen_from_mm(apart_mm=apart, eye_mm=eye, fence_mm=high, ground_mm=ground)
    far = seen_from_mm(apart_mm=apart + more, eye_mm=eye, fence_mm=high, ground_mm=ground)
    assert (near is None) == (far is None)
    assert near is None or far is None or far >= near
    lower = seen_from_mm(apart_mm=apart, eye_mm=eye - 100, fence_mm=high, ground_mm=ground)
    assert near is None or lower is None or lower >= near


def test_no_fence_is_told_so() -> None:
    (answer,) = ask_view(evolve(whole_garden(), fences=()), place())
    assert [found.code for found in answer.findings] == ["PLC-013"]
