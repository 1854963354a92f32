"""Tiles beside tiles: pads last as long as what lies on them, cut tiles are cuts."""

from functools import partial

import pytest
from attrs import evolve

import drylay
from compare.small import YEARS, years_of
from drylay.compare.families import across_families
from drylay.compare.model import Comparison
from drylay.compare.parts import saw_cuts, sawn_pieces
from drylay.plugins.model import FamilySet
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


def test_pads_last_as_long_as_tiles_and_a_frame_as_its_family_says(two: Comparison) -> None:
    pads, frame = two.measures()
    assert (pads["frame_life_least_years"], pads["frame_life_most_years"]) == (30, 30)
    assert (frame["frame_life_least_years"], frame["frame_life_most_years"]) == (15, 30)
    assert (pads["short_governs"], frame["short_governs"]) == ("both", "frame")
    assert "LIF-001" not in str(pads["remarks"])


def test_pads_are_what_carries_the_tiles(two: Comparison) -> None:
    """By hand as in tests/planner: tiles for 358.00, pads for 157.50."""
    row = two.measures()[0]
    assert (str(row["surface_cost"]), str(row["frame_cost"])) == ("358.00", "157.50")


def test_every_sawn_edge_of_a_tile_is_a_cut(two: Comparison) -> None:
    """6 cut lengths, 8 cut widths, and 4 corner pieces sawn twice."""
    pads, frame = (deck.plan for deck in two.decks)
    assert (saw_cuts(pads), sawn_pieces(pads)) == (6 + 8 + 2 * 4, 18)
    assert saw_cuts(frame) > saw_cuts(pads)  # the frame's timber too
