"""Whole decks of tiles: one worked by hand, what is told of them, and what stops them."""

import re
from decimal import Decimal
from typing import Any

import pytest
from attrs import evolve

import drylay
from audit.tile_decks import deck
from drylay.findings import Severity
from drylay.materials.stock_model import ArticleRule
from drylay.plan.model import Plan
from drylay.reasons import Source
from tile_family import FRAME, tile_brief, tile_families, yard

#: 15 whole tiles of 600 with joints of 4: 5 x 604 - 4 by 3 x 604 - 4.
WHOLE = (3016, 1808)


def designed(along_mm: float, across_mm: float, **sections: dict[str, Any]) -> Plan:
    numbers = sections.pop("numbers", {})
    brief = tile_brief(along_mm, across_mm, **sections)
    return drylay.design(brief, stock=yard(), families=tile_families(**numbers))


def codes(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings}


def stops(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings if finding.severity is Severity.STOP}


def test_a_deck_on_pads_by_hand() -> None:
    """3014 x 2410 of 600, joints of 4: 4 and 3 whole ones between cuts of 297.

    6 columns by 5 rows are 30 places, 4 x 3 of them whole. 2 x 3 lengths, 2 x 4 widths, 4 corners
    come out of 3 + 4 + 1 tiles. 7 x 6 pads under corners, 30 under middles.
    """
    plan = deck("pads")
    tiling, surface = plan.tiling, plan.surface
    assert tiling is not None
    assert tiling.pads is not None
    assert (len(tiling.columns), len(surface.rows)) == (6, 5)
    assert (tiling.places, tiling.whole, tiling.cut, len(tiling.cut_tiles)) == (30, 12, 18, 18)
    assert (len(tiling.sawn), tiling.need, tiling.least) == (8, 20, 20)
    assert (tiling.pads.corners, tiling.pads.centres, tiling.pads.count) == (42, 30, 72)
    assert {column.length_mm for column in tiling.columns} == {297.0, 600.0}
    assert tiling.diagonal_mm == pytest.approx((3014**2 + 2410**2) ** 0.5, abs=0.01)
    # 17 / 0.36 = 47.23, told up; 47.3 x 9.80665 = 463.9 N
    assert (tiling.tile_mass_kg, tiling.mass_kg_m2, tiling.dead_load_kn_m2) == (17.0, 47.3, 0.47)
    # the top at 0, tiles of 20, ground at -50 to -60: 30 to 40
    assert (tiling.pads.height_least_mm, tiling.pads.height_most_mm) == (30.0, 40.0)
    # 30 at the house and 10 more over 2410, straight: 35 in the middle of the middle row, 903 + 302
    heights = {(pad.across_mm, pad.height_mm) for pad in tiling.pads.pads}
    assert {(0.0, 30.0), (2410.0, 40.0), (1205.0, 35.0)} <= heights
    assert all(h == pytest.approx(30 + 10 * y / 2410, abs=1 / 320) for y, h in heights)
    assert (plan.frame, plan.supports, plan.fixings, plan.pieces) == (None, None, None, None)


def test_what_a_deck_on_pads_costs_by_hand() -> None:
    """20 tiles and 1 spare, 72 pads and 4: 5 % of each, up.

    10 packs of 2 at 34.00 and 1 at 18.00 are 358.00. 50 pads at 99.00 and 26 at 2.25 are 157.50.
    """
    buying = deck("pads").buying
    assert buying is not None
    assert [(part.what, part.need, part.cost) for part in buying.packs] == [
        ("tiles", 20, Decimal("358.00")), ("pads", 72, Decimal("157.50")),
    ]  # fmt: skip
    assert str(buying.total) == "515.50"
    assert all(part.bound == part.cost for part in buying.packs)


def test_a_deck_on_a_frame_has_joists_under_joints() -> None:
    plan = designed(*WHOLE, frame=FRAME)
    assert plan.supports is not None
    offsets = [line.offset_mm for line in plan.supports.lines]
    assert offsets[2:-1:2] == [602.0, 1206.0, 1810.0, 2414.0]
    assert plan.supports.centres_mm == 302.0  # (600 + 4) / 2
    assert plan.tiling is not None
    bedding = plan.tiling.bedding
    assert bedding is not None
    assert bedding.bearing_mm == 20.5  # (45 - 4) / 2
    assert bedding.rests == len(offsets) * 4  # 3 rows have 4 lines
    assert plan.fixings is not None
    assert plan.fixings.deck_screws is None
    assert {"TIL-014", "TIL-020"} <= codes(plan)


def test_a_cover_that_may_change_is_resized_rather_than_cut() -> None:
    """3014 wants 2 mm more, 2410 wants 6 mm more, for 5 and 4 whole tiles."""
    plan = designed(3014, 2410, cover={"grow_along_mm": 10, "grow_across_mm": 10})
    assert plan.tiling.cut == 0
    assert (plan.surface.cover_along_mm, plan.surface.cover_across_mm) == (3016.0, 2412.0)
    assert (plan.tiling.cover_change_mm, plan.surface.cover_change_mm) == (2.0, 2.0)


def test_an_oblong_tile_is_turned_where_that_leaves_whole_ones() -> None:
    """1204 = 2 x 600 + 4, 2708 = 3 x 900 + 2 x 4: whole with the longer side away from the house.

    Only where the brief would rather turn than cut, which its own order says.
    """
    sections = {"board": {"article": "TT-900", "may_turn": True}, "frame": FRAME}
    before = designed(1204, 2708, **sections, rows={"prefer": ["as_wished", "turn", "rip_both"]})
    after = designed(1204, 2708, **sections)
    assert (before.tiling.run, before.tiling.cut) == ("across", 0)
    assert (after.tiling.run, after.tiling.other.cut) == ("along", 0)
    assert after.tiling.cut == before.tiling.other.cut > 0


@pytest.mark.parametrize("sections", [{}, {"frame": FRAME}], ids=["pads", "frame"])
def test_silica_is_told_exactly_where_the_plan_cuts(sections: dict[str, Any]) -> None:
    def told(plan: Plan) -> list[bool]:
        tasks = [text for task in plan.work.tasks for text in task.cautions]
        found = [plan.cautions, tasks, [f.message for f in plan.findings]]
        return [any("silica" in text for text in texts) for texts in found]

    cut, whole = designed(3014, 2410, **sections), designed(*WHOLE, **sections)
    assert (cut.tiling.cut, whole.tiling.cut) == (18, 0)
    assert told(cut) == [True] * 3
    assert told(whole) == [False] * 3
    timber = designed(3014, 2410, board={"article": "TT-WOOD"}, **sections)
    assert timber.tiling.cut
    assert told(timber) == [False] * 3
    tools = {tool.mark for tool in cut.work.tools}
    assert "tile_saw" in tools
    (caution,) = [f for f in cut.findings if f.code == "TIL-010"]
    for word in ("0.1 mg/m3", "water", "M-class", "P3"):
        assert word in caution.message
    assert re.search(r"a cover of 3016 mm .* by 2412 mm", caution.message)


def test_a_trifle_cut_off_edge_tiles_is_told_with_what_avoids_it() -> None:
    """4 x 604 - 4 is 2412, 10 more than 2402: 5 comes off the first row and off the last."""
    plan = designed(3016, 2402)
    (note,) = [f for f in plan.findings if f.code == "TIL-022"]
    assert (note.severity, note.measured, note.limit) == (Severity.NOTE, 5.0, 20.0)
    assert "a cover 10 mm larger" in note.message
    assert drylay.audit(plan).findings == ()
    hushed = evolve(plan, findings=tuple(f for f in plan.findings if f is not note))
    assert {f.code for f in drylay.audit(hushed).findings} == {"AUD-959"}
    single = designed(3016, 590, rows={"prefer": ["as_wished", "rip_last"]})
    (alone,) = [f for f in single.findings if f.code == "TIL-022"]
    assert "a cover 10 mm larger" in alone.message  # one row of 590
    assert "TIL-022" not in codes(designed(3016, 2300))


def test_what_is_heavy_takes_two() -> None:
    assert "TIL-011" not in codes(deck("pads"))  # 17 kg
    heavy = designed(2708, 1808, frame=FRAME, board={"article": "TT-900"})  # 25.5 kg
    assert "TIL-011" in codes(heavy)


def test_raised_tiles_want_a_back() -> None:
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": -121} for x in (0, 3016) for y in (0, 1808)
    ]  # the top at 0, tiles of 20: pads of 101
    levels = {"deck_top_mm": 0, "points": points}
    high = designed(*WHOLE, levels=levels, groundwork={"packer": "PD-40"})
    assert high.buildable
    assert "TIL-015" in codes(high)
    assert "TIL-015" not in codes(deck("pads"))


@pytest.mark.parametrize(
    ("code", "sections"),
    [
        ("TIL-004", {"site": {"roof": True}}),
        ("TIL-005", {"levels": {"deck_top_mm": 0, "points": [
            {"along_mm": x, "across_mm": y, "level_mm": -20 - 8 - x / 100}
            for x in (0, 3016) for y in (0, 1808)]}}),  # 8 to 39 where pads reach 28 to 45
        ("MAT-002", {"gap": {"preferred_mm": 4, "most_mm": 9}}),
        ("GAP-001", {"gap": {"preferred_mm": 9}}),
        ("TIL-002", {"frame": {"article": "FT-45-145", "most_centres_mm": 100},
                     "numbers": {"bays_per_piece": 10}}),
    ],
)  # fmt: skip
def test_what_stops_or_cautions(code: str, sections: dict[str, Any]) -> None:
    plan = designed(*WHOLE, **sections)
    assert code in codes(plan)
    assert plan.buildable == (code == "MAT-002")


def test_a_row_that_cannot_be_filled_is_told_with_every_way() -> None:
    """610 along: a whole tile leaves 6, and neither the cover may change nor a tile be cut."""
    plan = designed(610, 1808, rows={"may_rip": False})
    assert not plan.buildable
    assert (plan.tiling, plan.surface, plan.buying) == (None, None, None)
    (stop,) = [f for f in plan.findings if f.severity is Severity.STOP]
    assert stop.code == "ROW-001"
    assert set(drylay.papers(plan)) == {"plan.json", "summary.txt"}


def test_a_plan_on_pads_and_one_on_a_frame_differ_and_are_measured_alike() -> None:
    pads, frame = designed(*WHOLE), designed(*WHOLE, frame=FRAME)
    found = drylay.diff(pads, frame)
    assert "frame" in found.added
    assert not drylay.diff(frame, frame).changes
    rows = pads.measures(), frame.measures()
    assert list(rows[0]) == list(rows[1])
    assert (rows[0]["tiles"], rows[0]["cut_tiles"], rows[0]["tiles_needed"]) == (15, 0, 15)
    assert (rows[0]["pads"], rows[1]["pads"]) == (6 * 4 + 15, None)
    assert (rows[0]["joists"], rows[1]["joists"]) == (None, 11)


def test_a_grid_without_end_is_stopped() -> None:
    plan = designed(60_400 - 4, 30_200 - 4)  # 100 x 50 tiles
    assert "TIL-001" in stops(plan)


def test_a_rule_may_be_overridden_by_name() -> None:
    override = {"path": "surface.least_rip_mm", "value": 150, "unit": "mm", "by": "an architect",
                "reason": "a border hides it"}  # fmt: skip
    brief = tile_brief(*WHOLE).replace("overrides", [override])
    plan = drylay.design(brief, stock=yard(), families=tile_families())
    assert plan.surface.least_rip_mm == 150.0


def test_what_a_tile_record_says_outranks_the_family() -> None:
    """A joint of 5 on the record; and a mass by density where the record tells none."""
    stock, source = yard(), Source(kind="merchant record", title="a sheet for tests (invented)")
    wide = ArticleRule(rule="gap_preferred_mm", value=5.0, source=source)
    tile = evolve(stock.tiles[0], mass_kg=None, rules=(wide,))
    told = evolve(stock, tiles=(tile, *stock.tiles[1:]))
    plan = drylay.design(tile_brief(3020, 1810), stock=told, families=tile_families())
    assert plan.tiling.tile_mass_kg == pytest.approx(17.28)  # 0.6 x 0.6 x 0.02 x 2400
    assert (plan.surface.gap_preferred_mm, plan.tiling.cut) == (5.0, 0)  # 3020 = 5 x 600 + 4 x 5
    assert plan.why("surface.gap_preferred_mm").source == source


@pytest.mark.parametrize(
    ("front_mm", "told"),
    [
        (-80, None),  # 30 mm over 2400 is 1 in 80 exactly
        (-79, "29 mm, 1 in 83"),  # 2400 / 29 = 82.8, never told steeper
        (-50, "not at all"),
        (-49, "1 mm towards it"),
    ],
)
def test_a_base_too_flat_is_cautioned(front_mm: float, told: str | None) -> None:
    """A slab 2400 deep from -50 at the house; 1 in 80 is common practice."""
    points = [{"along_mm": x, "across_mm": y, "level_mm": z}
              for x in (0, 2400) for y, z in ((0, -50), (2400, front_mm))]  # fmt: skip
    plan = designed(
        2400, 2400, levels={"deck_top_mm": 11, "points": points}, groundwork={"packer": "PD-40"},
    )  # fmt: skip
    assert plan.buildable, plan.findings
    found = [f for f in plan.findings if f.code == "TIL-021"]
    assert len(found) == (told is not None), plan.findings
    for finding in found:
        assert told is not None
        assert told in finding.message
        assert finding.severity is Severity.CAUTION
        assert finding.measured == (-50 - front_mm) / 2400
        assert finding.limit == 0.0125
