"""Footings of a deck that stands free beside a house: they do not undermine it unseen."""

from pathlib import Path

import drylay

ROOT = Path(__file__).parents[2]


def codes(*, ledger: bool) -> set[str]:
    brief = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml")
    if not ledger:
        plain = brief.to_dict()
        plain["raised"] = {**plain["raised"], "ledger": False, "lines_mm": [100, 1850, 3400]}
        del plain["raised"]["ledger_fixing"]
        brief = drylay.read_brief(plain)
    stock = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    return {finding.code for finding in drylay.design(brief, stock=stock).findings}


def test_footings_that_reach_under_the_wall_are_told() -> None:
    """A bearer 100 off the wall, its footing over 200 across: that reaches past the wall."""
    assert "FTG-010" in codes(ledger=False)
    assert "FTG-010" not in codes(ledger=True)
