"""The flat row of a plan's figures."""

from decimal import Decimal

import pytest
from attrs import evolve

from papers.outlined_sample import POST, RECTANGLE, outlined_plan
from plan.made import plans
from plan.sample import blocked_plan, sample_plan
from plan.standing_sample import standing_plan

PLAN = sample_plan(row_length_mm=6000.0, rows=4, sides=("front",))
SUFFIXES = ("_mm", "_m", "_ratio", "_m2", "_m3", "_kg", "_h", "_deg")


@pytest.mark.parametrize(
    ("name", "value", "by_hand"),
    [
        ("rows", 4, "four rows were asked for"),
        ("cover_along_mm", 6000.0, "as asked"),
        ("cover_across_mm", 595.0, "4 x 145 + 3 x 5"),
        ("frame_depth_mm", 573.0, "595 - 22 of fascia in front"),
        ("joists", 16, "ceil((6000 - 45) / 400) + 1"),
        ("pieces", 8, "4 rows in 2 pieces"),
        ("joints", 4, "one in each row"),
        ("narrowest_gap_mm", 5.0, "all gaps are 5"),
        ("widest_gap_mm", 5.0, "all gaps are 5"),
        ("boards_bought", 8, "one length for each piece"),
        ("boards_bought_m", 38.4, "8 x 4.8"),
        ("fascia_bought", 2, "6000 in two pieces"),
        ("deck_screws", 136, "2 x (4 x 16 + 4)"),
        ("coach_screws", 64, "2 x 2 x 16"),
        ("spare_lengths", 2, "one line of two"),
        ("notes", 1, "one note"),
        ("stops", 0, "none"),
        ("buildable", True, "no stop"),
        ("spares_cost", Decimal("28.80"), "2 x 14.40"),
        ("gap", Decimal("0.00"), "every bound is met"),
    ],
)
def test_figures_by_hand(name: str, value: object, by_hand: str) -> None:
    assert PLAN.measures()[name] == value, by_hand


def test_waste_is_what_is_in_no_piece() -> None:
    # two halves of a 6000 row lose the 3 mm joint gap: 4 x 5997 in 8 x 4800
    assert PLAN.measures()["boards_waste_ratio"] == pytest.approx(1 - 4 * 5997 / (8 * 4800))


def test_the_names_are_the_same_for_every_plan() -> None:
    names = list(PLAN.measures())
    assert list(blocked_plan().measures()) == names
    for plan in plans():
        assert list(plan.measures()) == names


def test_a_blocked_plan_has_no_figures() -> None:
    row = blocked_plan().measures()
    assert row["buildable"] is False
    assert row["stops"] == 1
    assert row["cost"] is None
    assert row["boards_bought"] is None


def test_values_are_flat_and_floats_say_their_unit() -> None:
    for plan in (PLAN, blocked_plan()):
        for name, value in plan.measures().items():
            assert value is None or isinstance(value, bool | int | float | str | Decimal), name
            if isinstance(value, float):
                assert name.endswith(SUFFIXES), name


def test_a_purchase_of_unknown_pieces_has_no_waste() -> None:
    plan = evolve(PLAN, pieces=None)
    assert plan.measures()["boards_waste_ratio"] is None


def test_an_empty_purchase_has_no_waste() -> None:
    first = evolve(PLAN.buying.purchases[0], lengths=())
    plan = evolve(PLAN, buying=evolve(PLAN.buying, purchases=(first,)))
    assert plan.measures()["boards_waste_ratio"] is None
    assert plan.measures()["frame_bought"] is None


def test_cost_is_bound_and_gap_together_less_what_joints_are_reckoned() -> None:
    for plan in plans():
        if plan.buildable:
            row = plan.measures()
            reckoned = sum((p.joint_cost for p in plan.buying.purchases), Decimal(0))
            assert row["bound"] + row["gap"] == row["cost"] + reckoned


def test_money_adds_up_with_joints_reckoned_in() -> None:
    for plan in plans():
        row = plan.measures()
        if plan.buildable:
            assert row["objective"] == row["cost"] + row["joint_cost"]  # type: ignore[operator]
            assert row["gap"] == row["objective"] - row["bound"]  # type: ignore[operator]


def test_a_blocked_row_says_what_stopped_it() -> None:
    assert blocked_plan().measures()["stop_codes"] == "FAM-001"
    assert sample_plan().measures()["stop_codes"] == ""


@pytest.mark.parametrize(
    ("name", "value", "by_hand"),
    [
        ("sides", 4, "a rectangle"),
        ("openings", 1, "one post"),
        ("gross_m2", 12.6, "4.2 x 3.0"),
        ("area_m2", 12.5856, "less the hole of 100 + 2 x 10 each way: 0.12 squared"),
        ("perimeter_mm", 14400.0, "2 x (4200 + 3000)"),
        ("rows", 20, "20 x 145 + 19 x 5 = 2995, and a last one that is ripped"),
        ("zones", 1, "one field"),
        ("fascia_faces", 3, "all sides but the house"),
        ("facing_run_mm", 10200.0, "4200 + 2 x 3000"),
        ("cover_along_mm", None, "it has no cover but its outline"),
    ],
)
def test_figures_of_a_deck_on_an_outline_by_hand(name: str, value: object, by_hand: str) -> None:
    row = outlined_plan(RECTANGLE, holes=(POST,)).measures()
    assert list(row) == list(PLAN.measures())
    assert row[name] == (pytest.approx(value) if isinstance(value, float) else value), by_hand


STANDING = {
    "bearer_count": (1, "one bearer"),
    "post_count": (2, "at its two ends"),
    "post_m": (0.564, "232 + 332 mm"),
    "footing_count": (2, "one under each post"),
    "concrete_m3": (0.036, "2 x 0.3 x 0.3 x 0.2"),
    "strength_most_ratio": (0.75, "the bearer's"),
    "guard_m": (2.0, "3000 less a passage of 1000 mm"),
    "riser_count": (4, "700 mm in risers of 175"),
}


@pytest.mark.parametrize("name", STANDING)
def test_figures_of_a_deck_that_stands_by_hand(name: str) -> None:
    value, by_hand = STANDING[name]
    row = standing_plan().measures()
    assert list(row) == list(PLAN.measures())
    assert row[name] == (pytest.approx(value) if isinstance(value, float) else value), by_hand
    assert type(row[name]) is type(value)
    assert PLAN.measures()[name] is None
    assert blocked_plan().measures()[name] is None


def test_posts_in_concrete_count_all_of_their_length() -> None:
    plan = standing_plan()
    assert plan.raised is not None
    posts = tuple(evolve(post, whole_mm=post.length_mm + 450) for post in plan.raised.frame.posts)
    raised = evolve(plan.raised, frame=evolve(plan.raised.frame, posts=posts))
    # 564 + 2 x 450 mm
    assert evolve(plan, raised=raised).measures()["post_m"] == pytest.approx(1.464)
