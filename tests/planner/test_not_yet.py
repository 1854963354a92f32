"""What of a deck that stands is not planned yet is told, and stops where it cannot be left out."""

from pathlib import Path

import pytest

import drylay
from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]
PADS = "docs/examples/tiles-on-pads.toml"


def designed(brief: Brief, yard: str) -> Plan:
    return drylay.design(brief, stock=drylay.load_catalogue(ROOT / f"catalogs/{yard}.toml"))


def told(plan: Plan) -> dict[str, tuple[Severity, str]]:
    return {
        each.subject: (each.severity, each.message)
        for each in plan.findings
        if each.code == "STR-009"
    }


def test_what_the_plan_says_nothing_of_is_a_caution() -> None:
    """Posts under pads the brief's reader refuses."""
    brief = drylay.read_brief(ROOT / PADS).replace("strength", {"basis": "eurocode-5"})
    plan = designed(brief, "sallowby")
    assert plan.buildable
    assert {subject: severity for subject, (severity, _) in told(plan).items()} == {
        "strength.basis": Severity.CAUTION
    }


def test_steps_that_are_not_planned_stop() -> None:
    brief = drylay.read_brief(ROOT / PADS).replace("site.region", "united-kingdom")
    plan = designed(brief.replace("steps", {"side": "front"}), "sallowby")
    assert not plan.buildable
    severity, message = told(plan)["steps.side"]
    assert severity is Severity.STOP
    assert message.startswith("not planned under tiles on pads yet: steps")


@pytest.mark.parametrize("file", [PADS, "docs/examples/tiles-on-frame.toml"])
def test_nothing_is_told_where_nothing_is_asked(file: str) -> None:
    assert not told(designed(drylay.read_brief(ROOT / file), "sallowby"))
