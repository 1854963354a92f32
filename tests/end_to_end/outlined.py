"""A reference brief on an outline: its plan and its answers, from tests/reference."""

import tomllib
from pathlib import Path

import drylay
from drylay.plan.model import Plan

REFERENCE = Path(__file__).parents[1] / "reference"


def reference_plan(name: str) -> Plan:
    """Return the plan of a reference brief."""
    stock = drylay.load_catalogue(REFERENCE / f"{name}-stock.toml")
    return drylay.design(drylay.read_brief(REFERENCE / f"{name}.toml"), stock=stock)


def reference_answers(name: str) -> dict[str, dict[str, object]]:
    """Return the answers to a reference brief, by key."""
    text = (REFERENCE / f"{name}-answers.toml").read_text(encoding="utf-8")
    return {answer["key"]: answer for answer in tomllib.loads(text)["answer"]}


def said(plan: Plan) -> str:
    """Return all that a plan's findings say, as one text."""
    return "\n".join(finding.message for finding in plan.findings)


def boards_m(plan: Plan) -> float:
    """Return how many metres of board are bought."""
    return sum(length.length_mm for length in plan.buying.purchases[0].lengths) / 1000
