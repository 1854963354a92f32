"""What of a deck that stands is not planned yet is told, and stops where it cannot be left out."""

from pathlib import Path

import pytest

import drylay
from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]
#: Decks of tiles, and what each is planned as.
DECKS = [
    ("docs/examples/tiles-on-frame.toml", "sallowby", "UT-45-145", "tiles"),
    ("docs/examples/tiles-on-pads.toml", "sallowby", "UT-45-145", "tiles"),
]
each_deck = pytest.mark.parametrize(("file", "yard", "post", "what"), DECKS)


each_alone = pytest.mark.parametrize(("file", "yard"), [each[:2] for each in DECKS])


def designed(brief: Brief, yard: str) -> Plan:
    return drylay.design(brief, stock=drylay.load_catalogue(ROOT / f"catalogs/{yard}.toml"))


def told(plan: Plan) -> dict[str, tuple[Severity, str]]:
    return {
        each.subject: (each.severity, each.message)
        for each in plan.findings
        if each.code == "STR-009"
    }


@each_deck
def test_posts_that_are_not_planned_stop(file: str, yard: str, post: str, what: str) -> None:
    brief = drylay.read_brief(ROOT / file).replace("strength", {"basis": "eurocode-5"})
    plan = designed(brief.replace("raised", {"post": post}), yard)
    assert not plan.buildable
    severity, message = told(plan)["raised.post"]
    assert severity is Severity.STOP
    assert message.startswith(f"not planned under {what} yet: bearers and posts")


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
