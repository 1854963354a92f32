"""Reference decks as plans, each designed once: no test of upkeep needs a deck of its own."""

from functools import cache

from attrs import evolve

import drylay
from drylay.plan.model import Plan
from reference_deck import REFERENCE

ROOT = REFERENCE.parents[1]
#: One board step, jointed rectangle, clips on pairs, 45 degrees, picture frame, L, one that stands.
ALL = ("S01", "S03", "S08", "S09", "S10", "S12", "S15")
RECTANGLES = ("S01", "S03", "S08", "S15")


@cache
def plan_of(name: str) -> Plan:
    brief = drylay.read_brief(REFERENCE / f"{name}.toml")
    return drylay.design(brief, stock=drylay.load_catalogue(REFERENCE / f"{name}-stock.toml"))


@cache
def across() -> Plan:
    """S01 with its boards away from the house: 1150 mm of them, rows from the left."""
    brief = drylay.read_brief(REFERENCE / "S01.toml")
    cover = evolve(brief.cover, along_mm=brief.cover.across_mm, across_mm=brief.cover.along_mm)
    turned = evolve(brief, cover=cover, board=evolve(brief.board, run="across"))
    return drylay.design(turned, stock=drylay.load_catalogue(REFERENCE / "S01-stock.toml"))


@cache
def small(name: str, stock: str) -> Plan:
    """A brief of the documents made small: 1500 by 1200."""
    brief = drylay.read_brief(ROOT / "docs" / "examples" / f"{name}.toml")
    cover = evolve(brief.cover, along_mm=1500.0, across_mm=1200.0)
    stock_file = ROOT / "catalogs" / f"{stock}.toml"
    return drylay.design(evolve(brief, cover=cover), stock=drylay.load_catalogue(stock_file))
