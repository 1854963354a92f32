"""Decks on outlines that stand, made up for tests: an L; with a hatch, turned, free, across."""

from functools import cache
from math import cos, radians, sin
from pathlib import Path
from typing import Any

import drylay
from drylay.findings import Severity
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[1]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
Corner = tuple[float, float]
L: tuple[Corner, ...] = ((0, 0), (4200, 0), (4200, 2100), (2400, 2100), (2400, 3600), (0, 3600))
HATCH = {"kind": "hatch", "along_mm": 1300, "across_mm": 1500, "size_along_mm": 450,
         "size_across_mm": 450}  # fmt: skip
NOTHING: dict[str, Any] = {}
FIXED = {"ledger_fixing": "anchor 6 kN"}
#: A plane that falls 1 in 50 along and 1 in 40 away, and one that is level.
FALLS, FLAT = (-700.0, -0.02, -0.025), (-750.0, 0.0, 0.0)


def sections(
    corners: tuple[Corner, ...], *, openings: tuple[dict[str, Any], ...] = (),
    ground: tuple[float, float, float] = FALLS, run: str = "along",
    more: dict[str, Any] = NOTHING, **raised: Any,
) -> dict[str, Any]:  # fmt: skip
    level, along, across = ground
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": level + along * x + across * y}
        for x in (-9000.0, 9000.0)
        for y in (-9000.0, 9000.0)
    ]
    sides: list[dict[str, Any]] = [{"along_mm": x, "across_mm": y} for x, y in corners]
    house = 0 if run == "along" else -1
    sides[house] = {**sides[house], "side": "house"}
    return {
        "title": "on posts", "use": "dwelling", "units": "metric",
        "outline": {"points": sides, "openings": list(openings)},
        "board": {"article": "DB-28-145", "run": run},
        "gap": {"preferred_mm": 5, "least_mm": 4, "most_mm": 8},
        "rows": {"sliver_mm": 60, "prefer": ["as_wished", "gaps", "rip_both", "rip_last"]},
        "frame": {"article": "FT-45-145", "most_centres_mm": 400},
        "joints": {"end_gap_mm": 4},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90",
                    "hanger": "JH-45-108"},
        "finish": {"preserver": "EP-CLEAR"},
        "house": {"wall": "solid masonry", "wall_gap_mm": 10, "dpc_mm": 0, "floor_mm": 30,
                  "door_opens": "inward"},
        "site": {"region": "united-kingdom", "soil": "firm clay"},
        "levels": {"deck_top_mm": -150, "lowest_mm": -1300, "points": points},
        "strength": {"basis": "eurocode-5"},
        "raised": {"post": "PT-100-C24", "post_foot": "PF-100-50", "concrete": "CO-POST",
                   "hold_down_kn": 1.5, **raised} | ({} if "ledger" in raised else FIXED),
        "guards": {"infill": "balusters"}, **more,
    }  # fmt: skip


def turned(deg: float) -> tuple[Corner, ...]:
    c, s = cos(radians(deg)), sin(radians(deg))
    return tuple((round(x * c - y * s, 3), round(x * s + y * c, 3)) for x, y in L)


BEARER = "BT-47-195"
STEPS = {"steps": {"side": "front", "from_mm": 300, "width_mm": 1200, "going_mm": 250}}
#: Only the first chooses its bearers out of all on sale.
DECKS = {
    "L": sections(L, more=STEPS),
    "hatch": sections(L, openings=(HATCH,), bearer=BEARER),
    "turned": sections(turned(17.0), ground=FLAT, bearer=BEARER),
    "level": sections(L, ground=FLAT, bearer=BEARER),
    "free": sections(L, ledger=False, bearer=BEARER),
    "across": sections(L, run="across", bearer=BEARER),
}


@cache
def planned(name: str) -> Plan:
    plan = drylay.design(drylay.read_brief(DECKS[name]), stock=YARD)
    assert plan.buildable, [str(f) for f in plan.findings if f.severity is Severity.STOP]
    return plan
