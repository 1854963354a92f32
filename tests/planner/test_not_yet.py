"""What of a deck that stands is not planned yet is told, and stops where it cannot be left out."""

from pathlib import Path

import pytest

import drylay
from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]
#: Decks of tiles, and the yard that sells them.
DECKS = [
    ("docs/examples/tiles-on-frame.toml", "sallowby"),
    ("docs/examples/tiles-on-pads.toml", "sallowby"),
]


each_alone = pytest.mark.parametrize(("file", "yard"), DECKS)


def designed(brief: Brief, yard: str) -> Plan:
    return drylay.design(brief, stock=drylay.load_catalogue(ROOT / f"catalogs/{yard}.toml"))


def told(plan: Plan) -> dict[str, tuple[Severity, str]]:
    return {
        each.subject: (each.severity, each.message)
        for each in plan.findings
        if each.code == "STR-009"
    }


def test_posts_that_are_not_planned_stop() -> None:
    """Under pads the brief's reader refuses them."""
    brief = drylay.read_brief(ROOT / "docs/examples/tiles-on-frame.toml")
    ground = [{"along_mm": x, "across_mm": y, "level_mm": -700}
              for x in (0, 5000) for y in (0, 4000)]  # fmt: skip
    brief = brief.replace("levels", {"deck_top_mm": -150, "points": ground})
    brief = brief.replace("site", {"region": "united-kingdom", "soil": "firm clay"})
    brief = brief.replace("strength", {"basis": "eurocode-5"})
    plan = designed(brief.replace("raised", {"post": "UT-45-145"}), "sallowby")
    assert not plan.buildable
    severity, message = told(plan)["raised.post"]
    assert severity is Severity.STOP
    assert message.startswith("not planned under tiles yet: bearers and posts")


@each_alone
def test_what_the_plan_says_nothing_of_is_a_caution(file: str, yard: str) -> None:
    brief = drylay.read_brief(ROOT / file).replace("strength", {"basis": "eurocode-5"})
    plan = designed(brief, yard)
    assert plan.buildable
    assert {subject: severity for subject, (severity, _) in told(plan).items()} == {
        "strength.basis": Severity.CAUTION
    }


@each_alone
def test_nothing_is_told_where_nothing_is_asked(file: str, yard: str) -> None:
    assert not told(designed(drylay.read_brief(ROOT / file), yard))
