"""Decks planned in the families that need nothing but boards, screws and a frame."""

import functools
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet
from drylay_hardwood.family import hardwood
from drylay_insertboard.family import insertboard
from drylay_softwood.family import softwood

STOCK = Path(__file__).parents[2] / "catalogs" / "sallowby.toml"


@functools.cache
def stock() -> Catalogue:
    return drylay.load_catalogue(STOCK)


def small(article: str, screw: str, **fixings: str) -> Brief:
    """2400 along: shorter than the boards, so that no row has a joint."""
    return drylay.read_brief({
        "title": "Small deck",
        "cover": {"along_mm": 2400, "across_mm": 2250, "shrink_across_mm": 80},
        "board": {"article": article},
        "frame": {"article": "UT-45-145"},
        "joints": {"most_per_row": 0},
        "fixings": {"screw": screw, "coach_screw": "CX-8-120-A2", "frame_screw": "FX-60-100-A2",
                    **fixings},
        "finish": {"preserver": "EP-SALLOW"},
    })  # fmt: skip


def three() -> FamilySet:
    return installed_families(entry_points=(), extra=[softwood(), hardwood(), insertboard()])


@functools.cache
def planned(article: str, screw: str) -> Plan:
    return drylay.design(small(article, screw), stock=stock(), families=three())


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


def test_galvanised_holds_the_frame_under_hardwood_and_not_its_boards() -> None:
    """Tannin in the boards, copper in the frame: hot-dip galvanised suits the one alone.

    A hanger of 145 as deep as its joist touches the boards, one of 108 does not.
    """
    yard = stock()
    screws = tuple(evolve(screw, metal="hot-dip galvanised") for screw in yard.screws)
    coach = tuple(evolve(screw, metal="hot-dip galvanised") for screw in yard.coach_screws)
    for depth_mm, into in ((108.0, "frame"), (145.0, "board")):
        hangers = tuple(
            evolve(hanger, metal="hot-dip galvanised", depth_mm=depth_mm) for hanger in yard.hangers
        )
        sold = evolve(yard, screws=screws, coach_screws=coach, hangers=hangers)
        brief = small("HI-21-145", "DX-50-60-A2", hanger="HH-45-108-A2")
        plan = drylay.design(brief, stock=sold, families=three())
        stops = {found.subject for found in plan.findings if found.code == "FIX-021"}
        assert stops == {"deck screws"} | (
            {"hangers", "hanger screws"} if into == "board" else set()
        )


def test_an_insert_board_is_whole() -> None:
    plan = planned("TB-28-145", "DX-50-70-A2")
    assert plan.surface is not None
    assert all(not way.kind.startswith("rip") for way in plan.surface.ways_out if way.honest)
