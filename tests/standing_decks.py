"""Decks that stand, designed from a brief made up for these tests: a slope behind a barn.

The ground falls from -700 beside the house to -1000; under the tall decks, which are braced, it
lies at -1130 or -1140. Deck tops lie at -150.
"""

import tomllib
from functools import cache

import attrs

import drylay
from drylay.brief.model import Brief, GroundPoint
from drylay.plan.model import Plan

BRIEF = """
title = "Deck behind the barn"
use = "dwelling"
units = "metric"
[cover]
along = "4.2 m"
across = "3.3 m"
[board]
article = "DB-28-145"
[frame]
article = "FT-45-145"
[fixings]
screw = "DS-45-70"
coach_screw = "CS-8-120"
frame_screw = "FS-60-90"
hanger = "JH-45-108"
[finish]
preserver = "EP-CLEAR"
[house]
wall = "solid masonry"
wall_gap_mm = 10
dpc_mm = 0
floor_mm = 30
door_opens = "inward"
[site]
region = "united-kingdom"
soil = "firm clay"
[levels]
deck_top_mm = -150
lowest_mm = -1200
points = [
 { along_mm = -1000, across_mm = 0, level_mm = -700 },
 { along_mm = 5200, across_mm = 0, level_mm = -750 },
 { along_mm = 5200, across_mm = 6000, level_mm = -1000 },
 { along_mm = -1000, across_mm = 6000, level_mm = -900 },
]
[strength]
basis = "eurocode-5"
[raised]
post = "PT-100-C24"
post_foot = "PF-100-50"
concrete = "CO-POST"
ledger_fixing = "anchor 6 kN"
hold_down_kn = 1.5
[guards]
infill = "balusters"
[steps]
side = "front"
from_mm = 1200
width_mm = 1200
going_mm = 250
"""
#: What the variants change, by part of the brief.
VARIANTS: dict[str, dict[str, dict[str, object]]] = {
    "held": {},
    "free": {"raised": {"ledger": False, "ledger_fixing": None}},
    "across": {"board": {"run": "across"}, "raised": {"ledger_fixing": None}},
    "set in": {"raised": {"foot": "in concrete", "post_foot": None}},
    "narrow": {"cover": {"across_mm": 1500.0}, "raised": {"hold_down_kn": None}},
    "dug": {"groundwork": {"fabric": "GF-2", "gravel": "GR-20"}},
    "hung": {"raised": {"joists": "between"}},
    "hung free": {"raised": {"joists": "between", "ledger": False, "ledger_fixing": None}},
    "bare": {"finish": {"preserver": None}},
    "tall hung": {
        "raised": {"joists": "between", "ledger": False, "ledger_fixing": None,
                   "brace_over_mm": 300.0, "bearer": "BT-47-195", "plies": 2},
        "fixings": {"fascia_screw": "WS-50-60"},
        "fascia": {"sides": ("front", "left"), "article": "FA-28-145"},
        "levels": {"lowest_mm": -1150.0, "points": tuple(
            GroundPoint(along_mm=along, across_mm=across, level_mm=-1140.0)
            for along in (-1000.0, 5200.0) for across in (0.0, 6000.0))},
    },
    "hung faced": {
        "raised": {"joists": "between", "ledger": False, "ledger_fixing": None},
        "fixings": {"fascia_screw": "WS-50-60"},
        "fascia": {"sides": ("house", "right", "front", "left"), "article": "FA-28-145"},
    },
    "tall": {
        "raised": {"ledger": False, "ledger_fixing": None, "brace_over_mm": 300.0},
        "levels": {"lowest_mm": -1150.0, "points": tuple(
            GroundPoint(along_mm=along, across_mm=across, level_mm=-1130.0)
            for along in (-1000.0, 5200.0) for across in (0.0, 6000.0))},
    },
}  # fmt: skip
#: Braces reach 500, and 700 lie between the faces of posts in the first bay: one has room there.
VARIANTS["close"] = VARIANTS["tall"] | {"raised": {
    "ledger": False, "ledger_fixing": None, "brace_over_mm": 500.0, "bearer": "BT-47-195",
    "plies": 2, "lines_mm": (300.0, 1100.0, 2900.0),
}}  # fmt: skip


def brief_of(name: str = "held") -> Brief:
    brief = drylay.read_brief(tomllib.loads(BRIEF))
    for part, changes in VARIANTS[name].items():
        changed = attrs.evolve(getattr(brief, part), **changes)
        brief = attrs.evolve(brief, **{part: changed})
    return brief


@cache
def plan_of(name: str = "held") -> Plan:
    """Return the plan of one variant; each is designed once."""
    return drylay.design(brief_of(name), stock=drylay.load_catalogue("catalogs/hobbleden.toml"))
