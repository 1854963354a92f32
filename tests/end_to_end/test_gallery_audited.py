"""The twelve decks of the gallery before all their witnesses: not so much as a caution."""

from pathlib import Path

import pytest

import drylay
from outlined_gardens import STOCK

DECKS = sorted((Path(__file__).parents[2] / "docs" / "gallery").glob("*.toml"))


def test_there_are_twelve() -> None:
    assert len(DECKS) == 12


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_the_audit_finds_nothing(path: Path) -> None:
    brief, stock = drylay.read_brief(path), drylay.load_catalogue(STOCK)
    plan = drylay.design(brief, stock=stock)
    report = drylay.audit(plan, brief=brief, stock=stock, families=drylay.installed_families())
    assert plan.buildable
    assert report.findings == ()
