"""Decks of all five families whose papers are looked at: pairs, battens, clips, tiles, borders."""

from collections.abc import Callable
from functools import cache
from typing import Any

import drylay
from audit.paired import deck as composite
from audit.tile_decks import deck as tiled
from drylay.plan.model import Plan
from some_five import sold

FRAME: dict[str, Any] = {
    "frame": {"article": "UT-45-145"},
    "fixings": {
        "screw": "DX-50-70-A2",
        "coach_screw": "CX-8-120-A2",
        "frame_screw": "FX-60-100-A2",
        "fascia_screw": "WX-50-60-A2",
    },
    "finish": {"preserver": "EP-SALLOW", "end_wax": "EW-SALLOW"},
}


@cache
def sallowby() -> Any:
    return sold()


def planned(**sections: Any) -> Plan:
    brief = drylay.read_brief({"title": "Deck", **FRAME, **sections})
    plan = drylay.design(brief, stock=sallowby())
    assert plan.buildable, plan.findings
    return plan


def turf(**sections: Any) -> Plan:
    """Handed boards, the rows jointed once: 4000 is more than 3600 and less than 4800."""
    return planned(
        cover={"along_mm": 5200, "across_mm": 1200, "grow_across_mm": 60, "shrink_across_mm": 60},
        board={"article": "TB-28-145"},
        **sections,
    )


def edged(**sections: Any) -> Plan:
    return planned(
        cover={"along_mm": 4200, "across_mm": 1900, "grow_across_mm": 80, "shrink_across_mm": 80},
        board={"article": "SB-28-145"},
        border={"article": "HO-25-145", "rows": 2},
        fascia={"sides": ["front", "left"], "article": "UF-28-145"},
        **sections,
    )


def across() -> Plan:
    """Turf boards that run away from the house, on pairs, on imperial papers."""
    return planned(
        cover={"along_mm": 1200, "across_mm": 5200, "grow_along_mm": 60, "shrink_along_mm": 60},
        board={"article": "TB-28-145", "run": "across"},
        joints={"support": "pair"},
        units="imperial",
    )


#: Boards; each is made once.
MADE: dict[str, Callable[[], Plan]] = {
    "pairs": lambda: composite("pairs"),
    "battens": lambda: composite("battens"),
    "turf": turf,
    "turf across": across,
    "border": lambda: edged(joints={"support": "batten"}),
}
TILED: dict[str, Callable[[], Plan]] = {
    "tiles on pads": lambda: tiled("pads"),
    "tiles on a frame": lambda: tiled("frame"),
}


@cache
def made(name: str) -> Plan:
    return {**MADE, **TILED}[name]()
