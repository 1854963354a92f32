"""Tiles beside tiles: how long pads last a record tells or nobody, cut tiles are cuts."""

from functools import partial

import pytest
from attrs import evolve

import drylay
from compare.small import YEARS, years_of
from drylay.compare.families import across_families
from drylay.compare.model import Comparison
from drylay.compare.parts import saw_cuts, sawn_pieces
from drylay.materials.stock_model import ArticleRule
from drylay.plugins.model import FamilySet
from drylay.reasons import Source
from tile_family import FRAME, tile_brief, tile_family, yard

ON_FRAME = {
    "board.support": "frame", "frame": FRAME, "without": ["groundwork.packer"],
    "fixings": {"coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
}  # fmt: skip


def families() -> FamilySet:
    """Return the family of tiles, asked over the years: tiles 30, a frame 15 to 30."""
    values = YEARS | {"life_least_years": 30, "life_most_years": 30}
    made = tile_family()
    rules = {**made.rules, **{rule: partial(years_of, values, rule) for rule in values}}
    return drylay.installed_families(entry_points=[], extra=[evolve(made, rules=rules)])


@pytest.fixture(scope="module")
def two() -> Comparison:
    return across_families(
        tile_brief(3014, 2410), {"pads": {}, "frame": ON_FRAME}, stock=yard(),
        families=families(), rate_ratio=0.04,
    )  # fmt: skip


def test_nobody_tells_how_long_pads_last_and_a_frame_lasts_as_its_family_says(
    two: Comparison,
) -> None:
    pads, frame = two.measures()
    assert (pads["life_least_years"], pads["life_most_years"]) == (30, 30)
    assert (pads["frame_life_least_years"], pads["frame_life_most_years"]) == (None, None)
    assert (pads["yearly_least"], pads["short_governs"]) == (None, None)
    assert {"frame_life_least_years", "frame_life_most_years"} <= {*str(pads["not_known"]).split()}
    told = [remark for remark in two.decks[0].remarks if remark.code == "LIF-002"]
    assert ["plastic pads govern" in remark.message for remark in told] == [True, True]
    assert (frame["frame_life_least_years"], frame["frame_life_most_years"]) == (15, 30)
    assert frame["short_governs"] == "frame"


def test_a_tiles_record_may_tell_how_long_its_pads_last() -> None:
    """By hand: pads for 10 to 20 years under tiles for 30 end first."""
    source = Source(kind="merchant record", title="a test's record")
    told = tuple(
        ArticleRule(rule=f"frame_life_{end}_years", value=years, source=source)
        for end, years in (("least", 10), ("most", 20))
    )
    stock = yard()
    tiles = tuple(evolve(tile, rules=(*tile.rules, *told)) for tile in stock.tiles)
    row = across_families(
        tile_brief(3014, 2410), {"pads": {}}, stock=evolve(stock, tiles=tiles), families=families()
    ).measures()[0]
    assert (row["frame_life_least_years"], row["frame_life_most_years"]) == (10, 20)
    assert (row["short_governs"], row["not_known"]) == ("frame", "")


def test_pads_are_what_carries_the_tiles(two: Comparison) -> None:
    """By hand as in tests/planner: tiles for 358.00, pads for 157.50."""
    row = two.measures()[0]
    assert (str(row["surface_cost"]), str(row["frame_cost"])) == ("358.00", "157.50")


def test_every_sawn_edge_of_a_tile_is_a_cut(two: Comparison) -> None:
    """6 cut lengths, 8 cut widths, and 4 corner pieces sawn twice."""
    pads, frame = (deck.plan for deck in two.decks)
    assert (saw_cuts(pads), sawn_pieces(pads)) == (6 + 8 + 2 * 4, 18)
    assert saw_cuts(frame) > saw_cuts(pads)  # the frame's timber too
