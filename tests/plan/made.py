"""Plans as `design` makes them: the examples, and random decks by seed."""

from functools import cache
from pathlib import Path

from attrs import evolve

import drylay
from drylay.plan.model import Plan
from some_decks import some_case

ROOT = Path(__file__).parents[2]
EXAMPLES = {
    "garden": "hobbleden",
    "long-terrace": "hobbleden",
    "imperial": "marrowick",
}
SEEDS = (1, 2, 3, 5, 8, 13, 21, 53)


@cache
def example(name: str) -> Plan:
    brief = drylay.read_brief(ROOT / "docs" / "examples" / f"{name}.toml")
    return drylay.design(
        brief, stock=drylay.load_catalogue(ROOT / "catalogs" / f"{EXAMPLES[name]}.toml")
    )


@cache
def random_plan(seed: int) -> Plan:
    brief, stock = some_case(seed, most_mm=5_000)
    return drylay.design(brief, stock=stock)


def plans() -> list[Plan]:
    return [*(example(name) for name in EXAMPLES), *(random_plan(seed) for seed in SEEDS)]


def sawn_only(plan: Plan) -> Plan:
    """Return a plan without ground fabric: what is left is sawn."""
    if plan.buying is None:
        return plan
    sawn = tuple(part for part in plan.buying.purchases if part.what != "fabric")
    return evolve(plan, groundwork=None, buying=evolve(plan.buying, purchases=sawn))
