"""Three composite decks the planner made, for faults in what softwood decks do not have."""

from functools import cache
from pathlib import Path

import drylay
from drylay.audit.model import AuditReport
from drylay.plan.model import Plan
from drylay_composite.family import composite

REFERENCE = Path(__file__).parents[1] / "reference"
STOCK = drylay.load_catalogue(REFERENCE / "S08-stock.toml")
FAMILIES = drylay.installed_families(entry_points=(), extra=(composite(),))
BRIEF = drylay.read_brief(REFERENCE / "S08.toml")
BATTENED = BRIEF.replace("joints", {"support": "batten", "price_each": 0})
#: As the brief has them, boards over pairs; and the same over battens.
DECKS = {"pairs": BRIEF, "battens": BATTENED}


@cache
def deck(name: str) -> Plan:
    return drylay.design(DECKS[name], stock=STOCK, families=FAMILIES)


def witnessed(plan: Plan, name: str) -> AuditReport:
    return drylay.audit(plan, brief=DECKS[name], stock=STOCK, families=FAMILIES)
