"""The example that stands on posts: it is what README and its drawing say it is."""

from pathlib import Path

import pytest

import drylay
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def plan() -> Plan:
    stock = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    return drylay.design(drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml"), stock=stock)


def test_it_holds_with_all_witnesses(plan: Plan) -> None:
    stock = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    brief = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml")
    assert plan.buildable
    assert drylay.audit(plan, brief=brief, stock=stock).findings == ()


def test_its_side_view_is_the_one_in_the_docs(plan: Plan) -> None:
    drawn = drylay.papers(plan, only=["standing.svg"])["standing.svg"]
    assert (ROOT / "docs" / "slope-side.svg").read_bytes() == drawn


def test_posts_by_hand(plan: Plan) -> None:
    """The deck's top at -150, boards 28, joists 145, bearers 145, feet 50: tops at -468.

    PO1 stands 480 along and 1681.5 across. The ground's four corners are no plane: either fold
    between them is possible, and the lower holds. Both are worked out here from their planes.
    """
    first = plan.raised.frame.posts[0]
    assert first.top_mm == -150 - 28 - 145 - 145
    assert (first.place.along_mm, first.place.across_mm) == (480.0, 1681.5)
    x, y = 1480 / 6800, 1681.5 / 6000  # parts of the way to the far corners; x + y < 1 and y > x
    by_near = -650 - 50 * x - 200 * y  # near left, near right, far left: -650, -700, -850
    by_far = -650 - 100 * x - 200 * y  # near left, far left, far right: -650, -850, -950
    assert first.ground_mm == pytest.approx(min(by_near, by_far), abs=0.01)
    assert first.length_mm == pytest.approx(-468 - 50 - first.ground_mm, abs=0.01)


def test_what_it_stands_on_is_told_beside_what_else_would_pass(plan: Plan) -> None:
    told = plan.why("raised.bearer").turned_down
    assert any(each.because.startswith("passes, used") for each in told)
    assert all("would cost" in each.because for each in told)


def test_the_concentrated_loads_sharing_is_told_first(plan: Plan) -> None:
    assumed = [finding for finding in plan.findings if finding.code == "STR-003"]
    assert assumed[0].message == "the point load falls on one joist and is not shared"


def test_guards_posts_come_as_close_as_their_feet_ask(plan: Plan) -> None:
    """Shear between the bolts: 1.5 x 1.11 s x 1160 / 80 / (0.67 x 87 x 100) <= 4.0 x 0.7 / 1.3, so
    that s is 0.520 m at the most, 500 mm in steps of 25; the region alone lets 1500 mm be."""
    spacing = plan.why("guards.post_spacing_most_mm")
    assert (spacing.value, [each.value for each in spacing.turned_down]) == (500.0, [1500.0])
    assert not [each for each in plan.findings if each.code == "GRD-011"]


def test_every_member_is_within_its_limit(plan: Plan) -> None:
    members = {found.subject for found in plan.strength.screened}
    posts = {post.mark for post in plan.raised.frame.posts}
    guards = {f"guard posts {guard.run}" for guard in plan.guards.built}
    assert {"joists", "BR1", "BR2", "LG1"} | posts | guards == members
    used = [c.utilisation_ratio for found in plan.strength.screened for c in found.checks]
    assert max(used) == plan.strength.most_ratio <= 1
