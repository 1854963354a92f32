"""Decks the planner made over pairs and battens, for faults in what other decks do not have."""

from functools import cache
from pathlib import Path

import drylay
from drylay.audit.model import AuditReport
from drylay.plan.model import Plan
from drylay_composite.family import composite
from drylay_softwood.family import softwood

REFERENCE = Path(__file__).parents[1] / "reference"
STOCK = drylay.load_catalogue(REFERENCE / "S08-stock.toml")
FAMILIES = drylay.installed_families(entry_points=(), extra=(composite(), softwood()))
BRIEF = drylay.read_brief(REFERENCE / "S08.toml")
BATTENED = BRIEF.replace("joints", {"support": "batten", "price_each": 0})
#: Joints in line, so that one batten lies under several rows; lights between the joists.
IN_LINE = BATTENED.replace(
    "joints", {"support": "batten", "price_each": 0, "stagger_bays": 0}
).replace("lights", {"count": 2, "side": "house", "hole_mm": 30, "depth_mm": 50})
#: Outer rows ripped to (755 - 4 x 145 - 5 x 5) / 2 = 75, beside the rims.
NARROW = drylay.read_brief({
    "title": "Narrow outer rows",
    "cover": {"along_mm": 5000, "across_mm": 755},
    "board": {"article": "SB-28-145"},
    "rows": {"prefer": ["rip_both"]},
    "frame": {"article": "UT-45-145"},
    "joints": {"support": "batten"},
    "fixings": {"screw": "DX-50-70-A2", "coach_screw": "CX-8-120-A2",
                "frame_screw": "FX-60-100-A2"},
    "finish": {"preserver": "EP-SALLOW"},
})  # fmt: skip
YARD = drylay.load_catalogue(Path(__file__).parents[2] / "catalogs" / "sallowby.toml")
#: As the brief has them, boards over pairs; the same over battens; two others over battens.
DECKS = {
    "pairs": (BRIEF, STOCK),
    "battens": (BATTENED, STOCK),
    "in line": (IN_LINE, STOCK),
    "narrow": (NARROW, YARD),
}


@cache
def deck(name: str) -> Plan:
    brief, stock = DECKS[name]
    return drylay.design(brief, stock=stock, families=FAMILIES)


def witnessed(plan: Plan, name: str) -> AuditReport:
    brief, stock = DECKS[name]
    return drylay.audit(plan, brief=brief, stock=stock, families=FAMILIES)
