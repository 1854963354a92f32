"""What boards of the five families ask for by their make, and which site does not suit them."""

import functools
from pathlib import Path
from typing import Any

import pytest

import drylay
from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]
EXAMPLES = {
    "softwood": ("garden", "hobbleden"), "hardwood": ("hardwood", "sallowby"),
    "composite": ("composite", "sallowby"), "insertboard": ("insertboard", "sallowby"),
    "tiles-on-frame": ("tiles-on-frame", "sallowby"),
    "tiles-on-pads": ("tiles-on-pads", "sallowby"),
}  # fmt: skip


@functools.cache
def stock(name: str) -> Catalogue:
    return drylay.load_catalogue(ROOT / "catalogs" / f"{name}.toml")


def asked(example: str, **sections: dict[str, Any]) -> tuple[Brief, Catalogue]:
    file, yard = EXAMPLES[example]
    brief = drylay.read_brief(ROOT / "docs" / "examples" / f"{file}.toml")
    for name, keys in sections.items():
        brief = brief.replace(name, keys)
    return brief, stock(yard)


def planned(example: str, **sections: dict[str, Any]) -> Plan:
    brief, yard = asked(example, **sections)
    return drylay.design(brief, stock=yard)


@functools.cache
def as_it_stands(example: str) -> Plan:
    return planned(example)


def told(plan: Plan, code: str) -> list[Finding]:
    return [finding for finding in plan.findings if finding.code == code]


@pytest.mark.parametrize("example", ["softwood", "hardwood", "composite", "insertboard"])
def test_boards_that_burn_stop_on_a_roof(example: str) -> None:
    """The trade list: combustible-material ban, from memory of AD B and Regulation 7: stop."""
    plan = planned(example, site={"roof": True})
    (stop,) = told(plan, "BRD-010")
    assert stop.severity is Severity.STOP
    assert plan.buying is None
    assert not told(as_it_stands(example), "BRD-010")
