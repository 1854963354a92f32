"""Decks of tiles that stand, with stock of two yards: tiles of one, posts and feet of the other.

Five tiles of 900 x 600 both ways with joints of 4: 5 x 900 + 4 x 4 = 4516, 5 x 600 + 4 x 4 = 3016.
Bearers and posts stand where the brief puts them, so that no search is made.
"""

from functools import cache
from pathlib import Path
from typing import Any

from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.design import design

ROOT = Path(__file__).parents[1]
LEGS: dict[str, Any] = {
    "post": "PT-100-C24", "bearer": "BT-47-220", "plies": 2, "lines_mm": [420.0, 2596.0],
    "posts_mm": [600.0, 3916.0], "post_foot": "PF-100-50", "concrete": "CO-POST",
    "ledger": False, "hold_down_kn": 5.0,
}  # fmt: skip
LEDGER: dict[str, Any] = {
    **{key: value for key, value in LEGS.items() if key != "lines_mm"},
    "bearer": "UT-45-145", "ledger": True, "ledger_fixing": "anchor 8 kN",
    "lines_mm": [1500.0, 2800.0], "posts_mm": [700.0, 2258.0, 3816.0],
}  # fmt: skip
STEPS: dict[str, Any] = {"side": "front", "width_mm": 1200.0, "going_mm": 250.0, "tread_mm": 28.0}


@cache
def yards() -> Catalogue:
    """Return the stock of both yards."""
    return load_catalogue(ROOT / "catalogs" / "hobbleden.toml") | load_catalogue(
        ROOT / "catalogs" / "sallowby.toml"
    )


def plain(ground_mm: float = -800.0, **sections: Any) -> dict[str, Any]:
    """Return the brief of a deck of porcelain tiles on posts over level ground, as plain tables."""
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": ground_mm}
        for x, y in ((-1000, 0), (5600, 0), (5600, 5000), (-1000, 5000))
    ]
    return {
        "title": "Tiles on posts",
        "cover": {"along_mm": 4516.0, "across_mm": 3016.0},
        "board": {"article": "PT-900-600-20", "support": "frame"},
        "frame": {"article": "UT-45-145"},
        "fixings": {"coach_screw": "CX-8-120-A2", "frame_screw": "FX-60-100-A2",
                    "hanger": "HH-45-108-A2"},
        "finish": {"preserver": "EP-SALLOW"},
        "house": {"wall": "solid masonry", "wall_gap_mm": 10.0, "dpc_mm": 0.0, "floor_mm": 30.0,
                  "door_opens": "inward"},
        "levels": {"datum": "damp course", "deck_top_mm": -150.0, "lowest_mm": ground_mm - 200.0,
                   "points": points},
        "site": {"region": "united-kingdom", "soil": "firm clay"},
        "strength": {"basis": "eurocode-5"},
        "raised": LEGS,
        "guards": {"infill": "balusters"},
        "steps": STEPS,
        **sections,
    }  # fmt: skip


def on_posts(**sections: Any) -> Brief:
    """Return the deck that stands free of its house."""
    return read_brief(plain(**sections))


def on_ledger(**sections: Any) -> Brief:
    """Return the deck that hangs on its house, so high that posts are braced in spite of that."""
    return read_brief(plain(**{"ground_mm": -1140.0, "raised": LEDGER, "steps": {}, **sections}))


def on_packers(**sections: Any) -> Brief:
    """Return the deck that lies on packers, its joists screened between them."""
    low: dict[str, Any] = {
        "ground_mm": -380.0, "raised": {}, "guards": {}, "steps": {}, "house": {},
        "groundwork": {"packer": "SPD-40-70", "packer_spacing_mm": 1200.0},
    }  # fmt: skip
    return read_brief(plain(**{**low, **sections}))


BRIEFS = {"posts": on_posts, "ledger": on_ledger, "packers": on_packers}


@cache
def deck(name: str) -> Plan:
    """Return one of these decks as it is planned."""
    return design(BRIEFS[name](), stock=yards())
