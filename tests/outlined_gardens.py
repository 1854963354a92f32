"""Decks on an outline on their ground: round a house's corner, with a tree, a post and a hatch."""

from functools import lru_cache
from pathlib import Path
from typing import Any

import drylay
from drylay.audit.model import Witness
from drylay.brief.model import Brief
from drylay.plan.model import Plan

STOCK = Path(__file__).parents[1] / "catalogs" / "hobbleden.toml"

#: 4.2 x 2.4 in front of the house, and 1.6 x 1.8 beside it, behind the line of its wall.
WING = ((0, 0, "house"), (2600, 0, "house"), (2600, -1800, "open"), (4200, -1800, "boundary"),
        (4200, 2400, "open"), (0, 2400, "open"))  # fmt: skip
TREE = {"kind": "tree", "along_mm": 900, "across_mm": 1300, "trunk_mm": 60, "years": 5}
POST = {"kind": "post", "along_mm": 3300, "across_mm": 1200, "size_along_mm": 90,
        "size_across_mm": 90}  # fmt: skip
HATCH = {"kind": "hatch", "along_mm": 3300, "across_mm": -700, "size_along_mm": 400,
         "size_across_mm": 400}  # fmt: skip
GROUND = {"fabric": "GF-2", "gravel": "GR-20", "packer": "PD-28-60"}


def garden(**more: Any) -> dict[str, Any]:
    """Return the brief as plain data, with whole sections changed."""
    points = [{"along_mm": x, "across_mm": y, "side": side} for x, y, side in WING]
    brief: dict[str, Any] = {
        "title": "round the corner",
        "outline": {"points": points, "openings": [TREE, POST, HATCH]},
        "board": {"article": "DB-28-145"},
        "frame": {"article": "FT-45-145"},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
        "groundwork": GROUND,
    }
    return {**brief, **more}


def planned(**more: Any) -> Plan:
    """Return the plan of such a deck."""
    return drylay.design(
        drylay.read_brief(garden(**more)), stock=drylay.load_catalogue(STOCK)
    )  # fmt: skip


#: Ground 0.005 x across, measured well beyond the deck.
LEVELS = {
    "datum": "sill",
    "points": [
        {"along_mm": x, "across_mm": y, "level_mm": y / 200}
        for x, y in ((-500, -2500), (5000, -2500), (5000, 3000), (-500, 3000))
    ],
    "outfall": True,
}


@lru_cache
def levelled() -> Plan:
    """Return the deck on ground that falls to the house, led away."""
    return planned(levels=LEVELS)


def levelled_witness() -> Witness:
    """Return what that deck was planned from."""
    brief = drylay.read_brief(garden(levels=LEVELS))
    return Witness(brief=brief, stock=drylay.load_catalogue(STOCK))


@lru_cache
def plain() -> Plan:
    """Return the deck round the corner, planned once."""
    return planned()


#: So large that timbers round it carry more than one cut joist each, and are doubled.
WIDE_HATCH = {"kind": "hatch", "along_mm": 1300, "across_mm": 1200, "size_along_mm": 600,
              "size_across_mm": 600}  # fmt: skip


def doubled_brief(**fixings: str) -> Brief:
    """Return the brief of a deck of 3 x 2.4 with that hatch, its fixings named otherwise."""
    corners = ((0, 0, "house"), (3000, 0, "open"), (3000, 2400, "open"), (0, 2400, "open"))
    points = [{"along_mm": x, "across_mm": y, "side": side} for x, y, side in corners]
    return drylay.read_brief({
        "title": "doubled",
        "outline": {"points": points, "openings": [WIDE_HATCH]},
        "board": {"article": "DB-28-145"},
        "frame": {"article": "FT-45-145", "most_centres_mm": 400},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", **fixings},
    })  # fmt: skip


@lru_cache
def doubled() -> Plan:
    """Return the plan of that deck: D1 and D2 beside joists, D3 and D4 beside trimmers."""
    brief = doubled_brief(frame_screw="FS-60-90")
    return drylay.design(brief, stock=drylay.load_catalogue(STOCK))
