"""Guards' posts in plans: screened, put closer until they pass, or told as not screened."""

from itertools import pairwise

import attrs
import pytest

import drylay
from drylay.brief.model import GroundPoint
from drylay.errors import BriefError
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.planner.guard_posts import spacings
from drylay.planner.left_out import not_checked
from drylay.planner.stood import FOOT_KEYS
from drylay.reasons import Source
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import Check, Screened
from guard_posts import (
    ORCHARD,
    YARD,
    brief_with,
    designed,
    footed,
    footed_outline,
    older_basis,
    us_brief,
    us_footed,
)
from standing_decks import brief_of, plan_of


def told(plan: Plan, code: str) -> list[Finding]:
    return [each for each in plan.findings if each.code == code]


def answers(plan: Plan) -> list[Screened]:
    assert plan.strength is not None
    return [each for each in plan.strength.screened if each.subject.startswith("guard posts")]


def decision(plan: Plan, path: str) -> tuple[object, Source, tuple[object, ...]]:
    (found,) = [each for each in plan.reasons.decisions if each.path == path]
    return found.value, found.source, tuple(each.value for each in found.turned_down)


def test_each_guards_posts_are_screened_with_the_rest() -> None:
    plan = footed()
    assert plan.buildable
    assert plan.guards is not None
    assert plan.strength is not None
    assert [each.subject for each in plan.strength.guard_posts] == [
        f"guard posts {guard.run}" for guard in plan.guards.built
    ]
    assert len(answers(plan)) == len(plan.guards.built) > 0
    assert all(each.checks and not each.stops for each in answers(plan))
    assert not told(plan, "GRD-011")
    used = [check.utilisation_ratio for one in plan.strength.screened for check in one.checks]
    assert plan.strength.most_ratio == max(used)


def test_posts_come_closer_until_they_pass() -> None:
    """By hand: shear 1.5 x 1.11 s x 1160 / 80 / (0.67 x 87 x 100) <= 4.0 x 0.7 / 1.3 = 2.1538.

    s = 2.1538 x 5829 / (1.5 x 1110 x 14.5) = 0.5200 m: 500 mm in steps of 25.
    """
    plan = footed()
    assert plan.guards is not None
    assert plan.guards.post_spacing_most_mm == 500.0
    value, source, turned_down = decision(plan, "guards.post_spacing_most_mm")
    assert (value, turned_down) == (500.0, (1500.0,))
    assert source.title == eurocode_5().title
    for guard in plan.guards.built:
        for line in guard.lines:
            assert max(b - a for a, b in pairwise(line.centres_mm)) <= 500.0
    assert plan_of("held").guards != plan.guards


def test_a_distance_that_the_brief_wishes_is_kept_and_stops() -> None:
    plan = designed(brief_with(post_spacing_mm=1200.0))
    assert not plan.buildable
    over = {each.subject for each in told(plan, "STR-001")}
    assert over == {"guard posts G1", "guard posts G2"}
    ways = told(plan, "GRD-013")
    assert {each.subject for each in ways} == over
    assert all("posts no further apart than 500 mm" in each.message for each in ways)
    assert all(each.severity is Severity.STOP for each in ways)


def test_where_no_single_change_does_that_is_told() -> None:
    plan = designed(brief_with(height_mm=1800.0, bolts_apart_mm=60.0, post_spacing_mm=3000.0))
    assert "no single change passes" in told(plan, "GRD-013")[0].message


def test_bolts_further_apart_and_better_posts_are_named() -> None:
    """G1's posts stand 467 mm apart: 1.11 x 0.467 x 1160 / b x 1.5 / 5829 <= 2.1538 N/mm2 asks for
    b of 71.8 mm, 75 in steps of 5; at b = 60 posts may stand 0.390 m apart, 375 in steps of 25."""
    plan = designed(brief_with(bolts_apart_mm=60.0, post_spacing_mm=500.0))
    said = told(plan, "GRD-013")[0].message
    assert "bolts 75 mm apart" in said
    assert "posts no further apart than 375 mm" in said


def test_a_wish_that_passes_is_the_briefs_own() -> None:
    plan = designed(brief_with(post_spacing_mm=450.0))
    assert plan.buildable
    value, source, turned_down = decision(plan, "guards.post_spacing_most_mm")
    assert (value, source.kind, turned_down) == (450.0, "brief", ())


@pytest.mark.parametrize("key", FOOT_KEYS)
def test_what_the_brief_does_not_tell_is_named_and_never_guessed(key: str) -> None:
    plan = designed(brief_with(**{key: None}))
    assert plan.buildable
    assert plan.guards is not None
    assert plan.guards.foot is None
    assert not answers(plan)
    (caution,) = told(plan, "GRD-011")
    assert caution.severity is Severity.CAUTION
    assert f"guards.{key.removesuffix('_mm')}" in caution.message
    others = [f"guards.{each.removesuffix('_mm')};" for each in FOOT_KEYS if each != key]
    assert not any(each in caution.message for each in others)


def test_without_any_of_it_every_key_is_named() -> None:
    (caution,) = told(plan_of("held"), "GRD-011")
    assert all(f"guards.{key.removesuffix('_mm')}" in caution.message for key in FOOT_KEYS)


def test_a_basis_of_an_older_hook_is_told_as_not_screening_them() -> None:
    brief = brief_with()
    plan = designed(
        attrs.evolve(brief, strength=attrs.evolve(brief.strength, basis="older")),
        extra=older_basis(),
    )
    assert plan.buildable
    assert "knows nothing of guards' posts" in told(plan, "GRD-011")[0].message
    assert not answers(plan)


def test_a_basis_that_raises_stops_and_one_that_says_little_is_cautioned() -> None:
    def bad(*_: object) -> Screened:
        raise ZeroDivisionError

    check = Check(name="hand push", subject="", measured=1.0, limit=2.0, unit="kN",
                  utilisation_ratio=0.5, case="all", formula="P <= R",
                  source=Source(kind="assumption", title="made up"))  # fmt: skip

    def little(asked: object, _: str) -> Screened:
        subject = str(getattr(asked, "subject", ""))
        return Screened(
            basis="own", subject=subject, checks=(attrs.evolve(check, subject=subject),)
        )

    brief = brief_with()
    own = attrs.evolve(brief, strength=attrs.evolve(brief.strength, basis="own"))
    stopped = designed(own, extra=attrs.evolve(eurocode_5(), id="own", guard_post=bad))
    assert any("failed" in each.message for each in told(stopped, "STR-002"))
    plan = designed(own, extra=attrs.evolve(eurocode_5(), id="own", guard_post=little))
    assert plan.buildable
    unsaid = [each for each in told(plan, "STR-012") if "guard posts" in each.subject]
    assert unsaid
    assert "washer bearing and bolt in tension" in unsaid[0].message


@pytest.mark.parametrize(
    ("change", "measured", "limit"),
    [
        ({"upper_bolt_mm": 50.0}, 50.0, 58.0),
        ({"bolts_apart_mm": 90.0}, 150.0, 143.0),
        ({"bolts_apart_mm": 50.0}, 50.0, 60.0),
    ],
)
def test_washers_that_do_not_lie_on_the_edge_stop(
    change: dict[str, float], measured: float, limit: float
) -> None:
    """The edge reaches from 28 to 173 mm below the top; half a washer is 30 mm."""
    plan = designed(brief_with(**change))
    assert not plan.buildable
    assert [(each.measured, each.limit) for each in told(plan, "GRD-012")] == [(measured, limit)]


def test_a_bolt_nobody_knows_and_timber_nobody_graded_stop() -> None:
    plan = designed(brief_with(bolt="a peg"))
    assert any("such as M12 4.6" in each.message for each in told(plan, "STR-002"))
    stock = attrs.evolve(YARD, timbers=tuple(
        attrs.evolve(each, strength_class="") if each.code == "PT-100-C16" else each
        for each in YARD.timbers
    ))  # fmt: skip
    ungraded = drylay.design(brief_with(post_article="PT-100-C16"), stock=stock)
    assert [each.subject for each in told(ungraded, "STR-002")] == ["PT-100-C16"]


def test_a_thickness_that_the_article_has_not_is_refused() -> None:
    with pytest.raises(BriefError, match=r"guards\.post_mm.*100 mm"):
        designed(brief_with(post_mm=90.0))
    with pytest.raises(BriefError, match=r"guards\.post_article"):
        designed(brief_with(post_article="PT-100-C42"))
    assert designed(brief_with(post_mm=100.0)).guards == footed().guards


def test_on_an_outline_as_on_a_rectangle() -> None:
    plan = footed_outline()
    assert plan.buildable
    assert plan.guards is not None
    assert plan.guards.post_spacing_most_mm == 500.0
    assert len(answers(plan)) == len(plan.guards.built) > 0
    assert plan.guards.foot is not None
    assert (plan.guards.foot.edge_top_mm, plan.guards.foot.edge_depth_mm) == (28.0, 145.0)


def test_by_the_us_basis_in_inches() -> None:
    """200 lb at 36 + 2 1/2 in over bolts 4 in apart: 200 x 42.5 / 4 = 2125 lb on the upper one.

    Posts stand as far apart as the region lets them: the push is on one post wherever they are.
    """
    plan = us_footed()
    assert plan.buildable
    assert plan.guards is not None
    assert plan.guards.post_spacing_most_mm == 1828.8
    (found,) = answers(plan)
    (washer,) = [each for each in found.checks if each.name == "washer bearing"]
    assert washer.measured == pytest.approx(2125 * 4.4482216 / 1000)
    assert washer.case == "0.8896 kN on one post"
    assert plan.guards.foot is not None
    assert plan.guards.foot.line_kn_m is None


def test_posts_closer_together_are_no_help_where_one_takes_the_push() -> None:
    """Washers of 2 in: 2125 lb on 2.8931 in2 of 375 psi (southern pine timbers, wet), 1084.9 lb."""
    brief = us_brief(washer="2 in")
    plan = drylay.design(brief, stock=ORCHARD)
    assert not plan.buildable
    (over,) = told(plan, "STR-001")
    assert over.measured == pytest.approx(9.4525, rel=1e-4)
    assert over.limit == pytest.approx(1084.9 * 4.4482216 / 1000, rel=1e-4)
    (way,) = told(plan, "GRD-013")
    assert "posts no further apart" not in way.message
    assert "washers" in way.message


def test_washers_are_counted_beside_bolts() -> None:
    plan = footed()
    assert plan.guards is not None
    assert plan.work is not None
    posts = sum(guard.posts for guard in plan.guards.built)
    counts = {each.what: each.count for each in plan.work.not_ordered}
    assert (counts["guard bolts"], counts["guard washers"]) == (2 * posts, 4 * posts)
    assert "guard washers" not in {each.what for each in plan_of("held").work.not_ordered}  # type: ignore[union-attr]


def test_where_no_edge_needs_a_guard_nothing_is_told() -> None:
    brief = brief_of("held")
    level = tuple(GroundPoint(along_mm=x, across_mm=y, level_mm=-700.0)
                  for x in (-1000.0, 5200.0) for y in (0.0, 6000.0))  # fmt: skip
    flat = attrs.evolve(brief, levels=attrs.evolve(brief.levels, points=level))
    assert not told(designed(flat), "GRD-011")
    footed_flat = designed(attrs.evolve(flat, guards=brief_with().guards))
    assert footed_flat.buildable
    value, source, turned_down = decision(footed_flat, "guards.post_spacing_most_mm")
    assert (value, source.kind, turned_down) == (1500.0, "common practice", ())


def test_spacings_fall_in_whole_steps_to_the_closest() -> None:
    found = tuple(spacings("metric", 1500.0))
    assert (found[0], found[-1]) == (1475.0, 300.0)
    assert all(a - b == 25.0 for a, b in pairwise(found))
    inches = tuple(spacings("imperial", 1828.8))
    assert inches[0] == 1803.4
    assert inches[-1] == pytest.approx(304.8)
    assert not tuple(spacings("metric", 200.0))


def test_an_edge_of_two_woods_is_not_screened_and_told() -> None:
    """Hung joists are of C24 and close two sides, the yard's other bearers made C16 the third."""
    stock = attrs.evolve(YARD, timbers=tuple(
        attrs.evolve(each, strength_class="C16") if each.code == "BT-47-220" else each
        for each in YARD.timbers
    ))  # fmt: skip
    brief = brief_with()
    wish = {"bearer": "BT-47-220", "joists": "between"}
    hung = attrs.evolve(brief, raised=attrs.evolve(brief.raised, **wish))
    plan = drylay.design(hung, stock=stock)
    assert plan.raised is not None
    assert not answers(plan)
    assert ["of C24 and, where bearers close it, of C16" in each.message
            for each in told(plan, "GRD-011")] == [True]  # fmt: skip
    assert answers(drylay.design(hung, stock=YARD))


def test_what_is_not_checked_of_guards_follows_the_brief() -> None:
    assert "of guards beyond their posts' feet" in not_checked(brief_with())[0]
    assert "of guards, of stringers" in not_checked(brief_of("held"))[0]
