"""Fixings of decks that stand that no order holds: each kind told with its count."""

from pathlib import Path

import pytest

import drylay
from drylay.plan.model import Plan
from drylay.planner.left_out import not_checked
from standing_decks import VARIANTS, plan_of

ROOT = Path(__file__).parents[2]


def notes(plan: Plan) -> dict[str, float | None]:
    return {each.subject: each.measured for each in plan.findings if each.code == "RSD-010"}


def test_counts_by_hand() -> None:
    """12 joists over 2 bearers; 8 stations; 2 bearers of two plies, 4200 long: 2 x 2 x (7 + 1);
    6 posts; 10 posts of guards, two bolts each."""
    plan = plan_of("held")
    assert plan.frame is not None
    assert len(plan.frame.joists) == 12
    assert notes(plan) == {
        "joist ties": 24.0, "ledger fixings": 8.0, "ply bolts": 32.0, "post caps": 6.0,
        "guard bolts": 20.0,
    }  # fmt: skip


@pytest.mark.parametrize("name", VARIANTS)
def test_each_count_told_is_the_works_own(name: str) -> None:
    plan = plan_of(name)
    assert plan.work is not None
    assert notes(plan) == {each.what: float(each.count) for each in plan.work.not_ordered}
    assert plan.work.not_ordered_count == len(plan.work.not_ordered)
    assert all(each.count > 0 for each in plan.work.not_ordered)


def test_braces_take_a_bolt_at_either_end() -> None:
    plan = plan_of("tall")
    assert plan.raised is not None
    braces = plan.raised.frame.bracing.braces
    assert braces
    assert notes(plan)["brace bolts"] == 2.0 * len(braces)
    assert "ledger fixings" not in notes(plan)


def test_what_is_not_ordered_is_not_in_the_order() -> None:
    plan = plan_of("held")
    assert plan.buying is not None
    whats = {pack.what for pack in plan.buying.packs}
    assert not whats & set(notes(plan))


def test_the_reasons_tell_the_counts() -> None:
    (why,) = [each for each in plan_of("held").reasons.decisions
              if each.path == "work.not_ordered_count"]  # fmt: skip
    assert dict(why.inputs)["joist ties"] == 24


def left(**changed: dict[str, object]) -> str:
    brief = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml").to_dict()
    plain = {**brief, **{name: {**brief[name], **keys} for name, keys in changed.items()}}
    given = not_checked(drylay.read_brief(plain))
    return next(line for line in given if line.startswith("not in this order"))


def test_parts_that_no_article_is_named_for_are_told() -> None:
    """Nobody can name timber of guards and steps; a deck on posts wants no packers."""
    told = left()
    assert "posts, infill and handrails of guards" in told
    assert "stringers, treads and handrails of steps" in told
    assert "packers" not in told
    assert "concrete" not in told
    assert "feet of posts" not in told
    bare = left(raised={"concrete": None, "post_foot": None})
    assert "concrete mix, feet of posts" in bare
    screwed = left(raised={"concrete": None, "footing": "ground screw", "screw_kn": 20.0})
    assert "ground screws" in screwed
    assert "concrete" not in screwed
