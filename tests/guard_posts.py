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
