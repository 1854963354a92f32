"""Decks planned in the families that need nothing but boards, screws and a frame."""

import functools
from pathlib import Path

import pytest

import drylay
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.plugins.loading import installed_families
from drylay_hardwood.family import hardwood
from drylay_insertboard.family import insertboard
from drylay_softwood.family import softwood

STOCK = Path(__file__).parents[2] / "catalogs" / "sallowby.toml"


@functools.cache
def stock() -> Catalogue:
    return drylay.load_catalogue(STOCK)


@functools.cache
def planned(article: str, screw: str) -> Plan:
    """2400 along: shorter than the boards, so that no row has a joint."""
    brief = drylay.read_brief({
        "title": "Small deck",
        "cover": {"along_mm": 2400, "across_mm": 2250, "shrink_across_mm": 80},
        "board": {"article": article},
        "frame": {"article": "UT-45-145"},
        "joints": {"most_per_row": 0},
        "fixings": {"screw": screw, "coach_screw": "CX-8-120-A2", "frame_screw": "FX-60-100-A2"},
        "finish": {"preserver": "EP-SALLOW"},
    })  # fmt: skip
    families = installed_families(entry_points=(), extra=[softwood(), hardwood(), insertboard()])
    return drylay.design(brief, stock=stock(), families=families)


@pytest.mark.parametrize(
    ("article", "screw", "centres_mm", "gap_mm", "row"),
    [
        ("HI-21-145", "DX-50-60-A2", 400, 6, "hardwood 21 thick, 145 wide, no moisture told"),
        ("HO-25-145", "DX-50-70-A2", 500, 6, "hardwood 25 thick"),
        ("HP-21-90", "DX-50-60-A2", 400, 4, "hardwood 90 wide"),
        ("TB-28-145", "DX-50-70-A2", 400, 5, "softwood of 20, what the groove leaves of 28"),
    ],
)
def test_a_deck_is_planned_audited_and_ordered(
    article: str, screw: str, centres_mm: float, gap_mm: float, row: str
) -> None:
    plan = planned(article, screw)
    assert plan.buildable, plan.findings
    assert drylay.audit(plan).sound
    assert plan.supports is not None
    assert plan.supports.most_centres_mm == centres_mm, row
    assert plan.surface is not None
    assert plan.surface.gap_preferred_mm == gap_mm, row
    assert plan.buying is not None


def test_a_hardwood_deck_wants_stainless_by_its_family() -> None:
    plan = planned("HI-21-145", "DX-50-60-A2")
    assert plan.fixings is not None
    told = {metal.metal: metal.allowed for metal in plan.fixings.metals}
    assert told == {"stainless A2": True}


def test_an_insert_board_is_whole() -> None:
    plan = planned("TB-28-145", "DX-50-70-A2")
    assert plan.surface is not None
    assert all(not way.kind.startswith("rip") for way in plan.surface.ways_out if way.honest)
