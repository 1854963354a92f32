"""Tiles: located by their places, lifted one by one, no rows to run on from."""

from datetime import date
from functools import cache

import pytest

import drylay
from drylay.plan.model import Plan
from drylay.upkeep.calendar import inspection_calendar
from drylay.upkeep.extension import extension
from drylay.upkeep.lift import boards_to_lift
from drylay.upkeep.locate import locate
from drylay.upkeep.model import Below
from drylay.upkeep.parts import UpkeepError, tops
from drylay.upkeep.repair import repair, turning
from drylay.upkeep.waste import waste
from some_outline_tiles import some_outline_tiles
from tile_family import tile_brief, tile_families, yard


@cache
def tiled() -> Plan:
    """Three columns and two rows of 600 by 600 at joints of 4."""
    return drylay.design(tile_brief(1808, 1204), stock=yard(), families=tile_families())


def test_a_tile_is_located_by_its_row_and_column() -> None:
    """700, 700 lies past the first 600 and its joint of 4 both ways: the second of row B2."""
    found = locate(tiled(), 700, 700)
    assert (found.what, found.pieces, found.crossings) == ("piece", ("B2.2",), ())
    corner = locate(tiled(), 602, 602)
    assert (corner.what, set(corner.pieces)) == ("gap", {"B1.1", "B1.2", "B2.1", "B2.2"})


def test_tiles_come_up_one_by_one() -> None:
    below = Below(from_along_mm=500, to_along_mm=700, from_across_mm=100, to_across_mm=200)
    (way,) = boards_to_lift(tiled(), reach=below).ways
    assert [(step.piece, step.held_by, step.screws) for step in way.steps] == [
        ("B1.1", "nothing", 0), ("B1.2", "nothing", 0),
    ]  # fmt: skip
    assert way.cut_free


def test_pads_settle_and_no_screw_is_looked_for() -> None:
    calendar = inspection_calendar(tiled(), handed_over=date(2026, 6, 20), years=1)
    said = {item.what for visit in calendar.visits for item in visit.items}
    assert "Try every tile underfoot" in said
    assert not any("screws" in what or "board" in what for what in said)


def test_whole_tiles_leave_none() -> None:
    """Six tiles of 600 by 600 by 20 and none cut; what is bought on top is kept."""
    found = [its for its in waste(tiled()).weighed if its.what == "tiles"]
    assert [(its.waste_class, its.offcuts_kg, its.dust_kg) for its in found] == [
        ("mineral", 0.0, 0.0)
    ]
    assert found[0].bought_kg == found[0].built_kg > 0


def test_tiles_have_no_rule_for_repair_or_extension() -> None:
    assert {f.code for f in extension(tiled(), "front", 900).findings} == {"UPK-021"}
    with pytest.raises(UpkeepError, match="no rows of boards"):
        repair(tiled(), rows=["B1"], new_width_mm=145)
    with pytest.raises(UpkeepError):
        turning(tiled(), "B1.1")


def test_tiles_on_an_outline_are_located_by_their_corners() -> None:
    plan = next(
        found
        for seed in range(20)
        if (found := drylay.design(some_outline_tiles(seed, most_mm=2_400), stock=yard(),
                                   families=tile_families())).buildable
    )  # fmt: skip
    for top in tops(plan)[:3]:
        along = sum(c.along_mm for c in top.corners) / len(top.corners)
        across = sum(c.across_mm for c in top.corners) / len(top.corners)
        assert top.mark in locate(plan, along, across).pieces
        assert (top.row, top.kind) == (top.mark.partition(".")[0], "tile")
    its = waste(plan).weighed[0]
    assert its.built_kg <= its.bought_kg
