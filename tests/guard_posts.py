"""Decks whose guards' posts are told of, made up for tests: on a rectangle and on an outline."""

from functools import cache
from pathlib import Path
from typing import Any

import attrs

import drylay
from drylay.brief.model import Brief
from drylay.plan.model import Plan
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import DesignBasis
from standing_decks import brief_of
from standing_outlines import L, sections

ROOT = Path(__file__).parents[1]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
#: Washers of 60 mm lie on an edge that reaches from 28 to 173 mm below the boards' top.
FOOT: dict[str, Any] = {
    "post_article": "PT-100-C24", "bolt": "M12 4.6", "washer_mm": 60.0, "upper_bolt_mm": 60.0,
    "bolts_apart_mm": 80.0,
}  # fmt: skip


def brief_with(**guards: Any) -> Brief:
    """Return the deck behind the barn with its guards' posts told of, but for what is changed."""
    brief = brief_of("held")
    return attrs.evolve(brief, guards=attrs.evolve(brief.guards, **{**FOOT, **guards}))


def designed(brief: Brief, *, extra: DesignBasis | None = None) -> Plan:
    bases = drylay.installed_design_bases(extra=[extra]) if extra is not None else None
    return drylay.design(brief, stock=YARD, bases=bases)


@cache
def footed() -> Plan:
    """Return the plan of a rectangle whose guards' posts are screened."""
    return designed(brief_with())


@cache
def footed_outline() -> Plan:
    """Return the plan of an L whose guards' posts are screened."""
    return designed(outline_brief())


def outline_brief() -> Brief:
    document = sections(L, bearer="BT-47-195")
    return drylay.read_brief({**document, "guards": {"infill": "balusters", **FOOT}})


def older_basis() -> DesignBasis:
    """Return a basis as plugins brought it before guards' posts were asked about."""
    return attrs.evolve(eurocode_5(), id="older", guard_post=None)


#: Washers 3 in across on a 2x8 under boards of 1 in: from 2 1/2 in down to 6 3/4 in below the top.
US_FOOT: dict[str, Any] = {
    "post_article": "N6X6", "bolt": "1/2 in A307", "washer": "3 in", "upper_bolt": "2 1/2 in",
    "bolts_apart": "4 in",
}  # fmt: skip


def us_brief(**guards: Any) -> Brief:
    """Return a deck 32 in over level ground by the US basis, its guards' posts told of."""
    corners = [{"along": x, "across": y, "level": "-42 in"}
               for x in ("-10 ft", "25 ft") for y in ("0 ft", "25 ft")]  # fmt: skip
    return drylay.read_brief({
        "title": "deck in the orchard", "units": "imperial",
        "cover": {"along": "14 ft", "across": "10 ft", "grow_across": "2 1/2 in"},
        "board": {"article": "N54X6"}, "frame": {"article": "N2X8"},
        "fixings": {"screw": "NS10-3", "coach_screw": "NC516-5", "frame_screw": "NF14-3",
                    "hanger": "NJH-28"},
        "house": {"wall": "solid masonry", "wall_gap": "3/8 in"},
        "levels": {"deck_top": "-8 in", "lowest": "-50 in", "outfall": True, "points": corners},
        "site": {"region": "north-america", "frost": "18 in"},
        "strength": {"basis": "us-allowable-stress"},
        "raised": {"post": "N6X6", "bearer": "N2X8", "ledger_fixing": "anchor 9 kN",
                   "hold_down_kn": 2.5, "concrete": "NCM", "post_foot": "NPF6"},
        "guards": {"infill": "balusters", **US_FOOT, **guards},
    })  # fmt: skip


@cache
def us_footed() -> Plan:
    return drylay.design(us_brief(), stock=ORCHARD)


ORCHARD = drylay.load_catalogue(ROOT / "catalogs/marrowick.toml")
