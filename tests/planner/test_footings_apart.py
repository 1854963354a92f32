"""Footings that overlap stop a plan: each was sized as if its ground bore no other (statics)."""

from math import hypot
from pathlib import Path

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.findings import Severity
from drylay.groundwork.model import Footing, PostFooting
from drylay.plan.model import Plan
from drylay.planner.footings_apart import overlapping
from standing_decks import plan_of

ROOT = Path(__file__).parents[2]
LINES = {"lines_mm": [1600.0, 1850.0, 3318.0]}


def wished(**raised: object) -> Plan:
    brief = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml").to_dict()
    brief["raised"] = {**brief["raised"], "hold_down_kn": 100.0, **raised}
    stock = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    return drylay.design(drylay.read_brief(brief), stock=stock)


@pytest.mark.parametrize(
    "wish",
    [
        {**LINES, "footing": "pad", "shape": "square"},
        {"lines_mm": [1600.0, 1850.0, 3318.0], "shape": "round"},
        {"lines_mm": [1681.5, 3318.5], "posts_mm": [300.0, 450.0, 2400.0, 4320.0]},
    ],
)
def test_footings_that_overlap_stop_the_plan(wish: dict[str, object]) -> None:
    plan = wished(**wish)
    (told,) = [each for each in plan.findings if each.code == "FTG-011"]
    assert told.severity is Severity.STOP
    assert told.measured is not None
    assert told.measured > 0
    assert not plan.buildable
    assert plan.buying is None
    assert drylay.audit(plan).sound


def test_the_example_of_a_slope_is_clear() -> None:
    assert "FTG-011" not in {each.code for each in wished().findings}


MADE = plan_of("held")


@given(
    st.sampled_from(["square", "round"]),
    st.integers(0, 800), st.integers(0, 800), st.integers(200, 900), st.integers(200, 900),
)  # fmt: skip
def test_two_are_told_just_where_they_share_ground(
    shape: str, along: int, across: int, one: int, two: int
) -> None:
    assert MADE.raised is not None
    assert MADE.footings is not None
    first, kept = MADE.raised.frame.posts[0], MADE.footings.under[0]
    second = evolve(first, place=evolve(
        first.place, along_mm=first.place.along_mm + along,
        across_mm=first.place.across_mm + across))  # fmt: skip

    def made(size: int) -> PostFooting:
        footing: Footing = evolve(kept.footing, size_mm=float(size), shape=shape)
        return evolve(kept, footing=footing)

    footings = evolve(MADE.footings, under=(made(one), made(two)))
    apart = hypot(along, across) if shape == "round" else max(along, across)
    over = (one + two) / 2 - apart
    shared = 4 * (along**2 + across**2) < (one + two) ** 2 if shape == "round" else over > 0
    found = overlapping((first, second), footings)
    assert bool(found) == shared
    for told in found:
        assert told.measured is not None
        assert over - 1e-9 <= told.measured <= over + 2 / 320
