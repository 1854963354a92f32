"""Bearers fitted with posts and plies, and what each line carries."""

from itertools import pairwise

import pytest
from attrs import evolve

from drylay.errors import InputError
from drylay.raised.bearers import bearer_lines
from drylay.raised.fitting import Rules, bearer_on, lines_carried_mm
from drylay.raised.outline_model import Stretch
from drylay.strength.model import Section
from raised.limits import limit

RULES = Rules(
    section=Section(breadth_mm=45.0, depth_mm=195.0, plies=2), post_mm=100.0,
    spans=((3000.0, limit(1800.0)),), end=limit(400.0), back_ratio=0.25, longest_mm=3600.0,
)  # fmt: skip
STRETCH = Stretch(line=1, across_mm=1890.0, start_mm=500.0, end_mm=4500.0)


def test_plies_may_take_more_posts_than_spans_do() -> None:
    # 3 posts: 4000 - 100 - 200 = 3700 <= 2 x 400 + 2 x 1800; but two plies out of 3600 need a joint
    # each, over an inner post of its own: 4 posts. Out of 4000 neither needs any
    fitted, told = bearer_on("BR1", STRETCH, 2000.0, RULES)
    assert fitted.posts.post_count == 4
    assert len(fitted.bearer.joints) == 2
    assert told == ()
    whole, _ = bearer_on("BR1", STRETCH, 2000.0, evolve(RULES, longest_mm=4000.0))
    assert (whole.posts.post_count, whole.bearer.joints) == (3, ())


def test_plies_that_cannot_be_jointed_stop() -> None:
    fitted, told = bearer_on("BR1", STRETCH, 2000.0, evolve(RULES, longest_mm=400.0))
    assert [(f.code, f.severity.value, f.subject) for f in told] == [("RSD-007", "stop", "BR1")]
    assert fitted.posts.post_count == 3


def test_there_is_no_room_for_ever_more_posts() -> None:
    short = evolve(STRETCH, end_mm=1000.0)
    fitted, told = bearer_on("BR1", short, 2000.0, evolve(RULES, longest_mm=450.0))
    assert [f.code for f in told] == ["RSD-007"]
    assert fitted.posts.post_count == 2


def test_a_load_beyond_the_table_is_refused() -> None:
    with pytest.raises(InputError, match="3000 mm or less"):
        bearer_on("BR1", STRETCH, 3000.1, RULES)


def test_what_lines_of_a_free_deck_carry_worked_by_hand() -> None:
    # 383.5 + 1716.5 twice over, mirrored: an outer one (1716.5 + 383.5)^2 / (2 x 1716.5) = 1284.6;
    # the middle one 10/8 of 1716.5, free ends lifting it: 2145.6
    lines = bearer_lines(depth_mm=4200.0, bearer_mm=90.0, span=limit(2400.0), end=limit(500.0),
                         back_ratio=0.25)  # fmt: skip
    assert [b - a for a, b in pairwise(lines.lines_mm)] == [1716.5, 1716.5]
    found = lines_carried_mm(lines)
    assert found == pytest.approx((1284.6, 2145.6, 1284.6), abs=0.05)
