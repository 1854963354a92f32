"""A blocked plan tells no article: what its brief names says whose rules a wish is held against.

S15's board has rules of its own, looser than its family's: gaps of 1/8 in (3.175) for 4, joists
16 in (406.4) apart for 400. The brief wishes just these, and a cover longer than the board.
"""

from functools import cache
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.plan.model import Plan
from drylay.reasons import Source

ROOT = Path(__file__).parents[2]
MAKER = Source(kind="merchant record", title="tried")


def too_long() -> Brief:
    brief = drylay.read_brief(ROOT / "tests" / "reference" / "S15.toml")
    return brief.replace("cover.along", "28 ft").replace("raised.posts", None).replace("steps", {})


@cache
def stock() -> Catalogue:
    return drylay.load_catalogue(ROOT / "tests" / "reference" / "S15-stock.toml")


@cache
def blocked() -> Plan:
    return drylay.design(too_long(), stock=stock())


def loosened(plan: Plan, brief: Brief, sold: Catalogue) -> set[str]:
    """Return the limits that the audit finds loosened and untold."""
    families = drylay.installed_families()
    found = drylay.audit(plan, brief=brief, stock=sold, families=families).findings
    return {each.subject for each in found if each.code == "AUD-W18"}


def test_a_blocked_plan_is_held_against_the_record_of_the_board_the_brief_names() -> None:
    plan = blocked()
    assert not plan.buildable
    assert (plan.surface, plan.laying) == (None, None)
    assert loosened(plan, too_long(), stock()) == set()


@pytest.mark.parametrize(
    ("path", "wish", "subject"),
    [
        ("gap.least_mm", 3.0, "surface.gap_least_mm"),
        ("frame.most_centres_mm", 407.0, "supports.most_centres_mm"),
    ],
)
def test_a_wish_looser_than_the_record_is_found_in_a_blocked_plan(
    path: str, wish: float, subject: str
) -> None:
    assert subject in loosened(blocked(), too_long().replace(path, wish), stock())


def long_garden(**border: object) -> Brief:
    """Return the garden's brief, no row of it in one piece, with joists 450 apart."""
    brief = drylay.read_brief(ROOT / "docs" / "examples" / "garden.toml")
    brief = brief.replace("cover.along_mm", 12_000).replace("joints.most_per_row", 0)
    return brief.replace("frame.most_centres_mm", 450).replace("border", border)


def sold_with(**centres_mm: float) -> Catalogue:
    """Return the yard, some of its boards and tiles with joist centres of their own."""
    yard = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")

    def ruled(code: str) -> tuple[ArticleRule, ...]:
        asked = centres_mm.get(code.replace("-", "_"))
        if asked is None:
            return ()
        return (ArticleRule(rule="most_centres_mm", value=asked, source=MAKER),)

    return evolve(yard, boards=tuple(evolve(b, rules=ruled(b.code)) for b in yard.boards))


@pytest.mark.parametrize(("edge_mm", "looser"), [(450.0, False), (449.0, True)])
def test_the_border_that_the_brief_names_counts_as_well(edge_mm: float, looser: bool) -> None:
    """Joists 450 apart: the field's record allows them, the border's does or asks for 449."""
    brief = long_garden(article="DB-33-145", screw="DS-45-70")
    sold = sold_with(DB_28_145=450.0, DB_33_145=edge_mm)
    plan = drylay.design(brief, stock=sold)
    assert not plan.buildable
    assert plan.surface is None
    told = {each.subject for each in plan.findings if each.code == "MAT-002"}
    assert ("supports.most_centres_mm" in told) == looser
    assert loosened(plan, brief, sold) == set()
    bare = evolve(plan, findings=())
    assert ("supports.most_centres_mm" in loosened(bare, brief, sold)) == looser
