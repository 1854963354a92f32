"""What a brief names for a deck that stands is looked for in the stock with all the rest."""

from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.brief.raised_model import RaisedWish
from drylay.errors import BriefError
from drylay.planner.job import find_articles

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
NAMED = {
    "bearer": "BT-47-220", "post": "PT-100-C24", "concrete": "CO-GP", "post_foot": "PF-100-50",
}  # fmt: skip


def brief(**raised: str) -> Brief:
    """Return a brief with no more than these: what a whole one needs besides is not looked at."""
    return evolve(
        drylay.read_brief(ROOT / "docs/examples/garden.toml"), raised=RaisedWish(**raised)
    )


def test_articles_named_under_raised_are_found() -> None:
    found = find_articles(brief(**NAMED), YARD)
    assert {name: getattr(found, name).code for name in NAMED} == NAMED


def test_none_is_named_where_the_brief_names_none() -> None:
    found = find_articles(brief(), YARD)
    assert [getattr(found, name) for name in NAMED] == [None] * 4


@pytest.mark.parametrize(
    ("name", "code", "near"),
    [
        ("bearer", "BT-47-200", "BT-47-220"),
        ("post", "PF-100-50", "PT-100-C16"),  # a foot is no post
        ("concrete", "GR-20", ""),  # gravel is no concrete mix
        ("post_foot", "PF-100-5", "PF-100-50"),
    ],
)
def test_one_that_is_not_sold_is_told_with_the_nearest(name: str, code: str, near: str) -> None:
    with pytest.raises(BriefError) as caught:
        find_articles(brief(**{**NAMED, name: code}), YARD)
    (fault,) = caught.value.faults
    assert (fault.path, fault.found) == (f"raised.{name}", repr(code))
    assert near in fault.nearest
