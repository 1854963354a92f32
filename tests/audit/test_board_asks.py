"""What boards ask for by their make, before the audit: each fault planted in a real plan."""

import pytest
from attrs import evolve

import drylay
from audit.edits import put
from drylay.audit import board_asks, whole
from drylay.groundwork.model import Groundwork, Packing
from drylay.reasons import Ruling, Source
from planner.test_board_asks import as_it_stands, asked, planned


def codes(plan: drylay.Plan, example: str, **sections: dict) -> set[str]:
    brief, stock = asked(example, **sections)
    report = drylay.audit(plan, brief=brief, stock=stock, families=drylay.installed_families())
    return {finding.code for finding in report.findings}


def test_boards_that_burn_planned_on_a_roof() -> None:
    plan = as_it_stands("composite")
    assert "AUD-W90" not in codes(plan, "composite")
    assert "AUD-W90" in codes(plan, "composite", site={"roof": True})
    assert "AUD-W09" in codes(put(plan, "surface.combustible", False), "composite")


def hushed(plan: drylay.Plan, code: str) -> drylay.Plan:
    return put(plan, "findings", tuple(f for f in plan.findings if f.code != code))


def test_air_below_hushed_up_or_told_for_nothing() -> None:
    plan = as_it_stands("composite")
    assert "AUD-147" not in codes(plan, "composite")
    assert "AUD-147" in codes(hushed(plan, "AIR-001"), "composite")
    assert {"AUD-147", "AUD-W09"} <= codes(put(plan, "site.air_below_least_mm", 0.0), "composite")


def test_timber_squares_said_to_be_stone() -> None:
    plan = as_it_stands("tiles-on-frame")
    light = put(put(plan, "tiling.density_kg_m3", 700.0), "surface.timber", True)
    assert "AUD-959" in codes(light, "tiles-on-frame")
    assert "AUD-W09" in codes(put(plan, "surface.timber", True), "tiles-on-frame")


def test_packers_under_tiles_that_nobody_counts() -> None:
    plan = put(as_it_stands("tiles-on-frame"), "frame.timber_depth_mm", 95.0)
    low = hushed(plan, "TIL-015")
    assert "AUD-959" in {f.code for f in drylay.audit(plan).findings}
    assert "AUD-959" not in {f.code for f in drylay.audit(low).findings}
    packing = Packing(
        article="X", reach_least_mm=35.0, reach_most_mm=65.0, levels_known=False,
        height_least_mm=35.0, height_most_mm=35.0, spacing_most_mm=600.0, per_joist=2, count=2,
    )  # fmt: skip
    packed = put(low, "groundwork", Groundwork(dig=None, fabric=None, gravel=None, packing=packing))
    assert "AUD-959" in {f.code for f in drylay.audit(packed).findings}


def test_a_batten_that_does_not_do_for_a_pair() -> None:
    batten = {"joints": {"support": "batten"}}
    plan = planned("composite", **batten)
    assert not {"AUD-W18", "AUD-W09"} & codes(plan, "composite", **batten)
    lied = put(plan, "supports.batten_for_pair", False)
    assert {"AUD-W09"} <= codes(lied, "composite", **batten)


def test_battens_do_where_the_board_that_wants_a_pair_takes_them() -> None:
    """Turf boards want one joist under a joint, the oak beside them a pair or a batten."""
    more = {
        "joints": {"support": "batten", "end_gap_mm": 8},
        "border": {"article": "HO-25-145", "screw": "DX-50-70-A2"},
    }
    plan = planned("insertboard", **more)
    assert "AUD-W18" not in codes(plan, "insertboard", **more)


def test_gaps_of_the_year_told_otherwise() -> None:
    plan, at = as_it_stands("hardwood"), "surface.moisture"
    assert not {"AUD-148", "AUD-W91", "AUD-W92"} & codes(plan, "hardwood")
    for name in ("narrowest_mm", "widest_mm", "movement_per_pct", "driest_pct"):
        assert "AUD-148" in codes(put(plan, f"{at}.{name}", 1.25), "hardwood"), name
    assert "AUD-148" in codes(hushed(plan, "MOV-103"), "hardwood")
    assert "AUD-W92" in codes(put(plan, f"{at}.laying_pct", 17.0), "hardwood")
    assert "AUD-W09" in codes(put(plan, f"{at}.driest_pct", 15.0), "hardwood")


def test_green_boards_of_which_nothing_is_told() -> None:
    plan, (brief, stock) = as_it_stands("hardwood"), asked("hardwood")
    boards = tuple(evolve(board, species="green oak") for board in stock.boards)
    seen = drylay.audit(plan, brief=brief, stock=evolve(stock, boards=boards))
    assert "AUD-W91" in {finding.code for finding in seen.findings}


def test_unlike_metals_hushed_up_or_made_up() -> None:
    plan = as_it_stands("composite")
    at = next(i for i, row in enumerate(plan.fixings.metals) if row.what == "clips")
    assert "AUD-149" not in codes(plan, "composite")
    mixed = put(plan, f"fixings.metals[{at}].metal", "hot-dip galvanised")
    assert "AUD-149" in codes(mixed, "composite")


def test_oak_that_is_not_said_to_wash_out() -> None:
    plan = as_it_stands("hardwood")
    assert "AUD-W93" not in codes(plan, "hardwood")
    assert "AUD-W93" in codes(hushed(plan, "BRD-009"), "hardwood")
    assert {"AUD-W93", "AUD-W09"} <= codes(put(plan, "surface.timber", False), "hardwood")


@pytest.mark.parametrize("example", ["softwood", "tiles-on-pads"])
def test_the_slip_value_told_otherwise_or_not_at_all(example: str) -> None:
    plan = as_it_stands(example)
    assert not {"AUD-150", "AUD-W09"} & codes(plan, example)
    assert "AUD-150" in codes(hushed(plan, "SLP-001"), example)
    assert {"AUD-150", "AUD-W09"} <= codes(put(plan, "surface.wet_slip_least", 25.0), example)


def test_an_older_plan_that_tells_its_fall_among_the_findings_alone() -> None:
    plan = as_it_stands("insertboard")
    older = put(put(plan, "surface.fall_mm", None), "surface.low_side", "")
    assert "AUD-115" not in {found.code for found in drylay.audit(older).findings}
    silent = hushed(older, "BRD-007")
    assert "AUD-115" in {found.code for found in drylay.audit(silent).findings}


def test_figures_of_a_plan_without_a_surface_are_those_of_its_other_parts() -> None:
    plan = as_it_stands("composite")
    bare = put(plan, "surface", None)
    assert whole._figures(bare) < whole._figures(plan)


def test_centres_are_wider_than_the_familys_by_wish_or_record() -> None:
    """300 for a dwelling, 240 in public: a wish of 241 is wider, one of 240 is not."""
    (board,) = (b for b in asked("composite")[1].boards if b.code == "CS-23-140")
    rulings = {
        path: Ruling(value=value, unit="mm", rule="x", source=Source(kind="assumption", title="a"))
        for path, value in ((board_asks.CENTRES, 240.0), (board_asks.AS_GIVEN, 300.0))
    }
    wider = board_asks._wider_than_the_family
    assert not wider(board, {}, "", 400.0)
    assert wider(board, rulings, "", 241.0)
    assert not wider(board, rulings, "", 240.0)
    assert not wider(evolve(board, rules=()), rulings, "", None)


def test_room_of_gaps_told_with_another_figure() -> None:
    plan = as_it_stands("hardwood")
    (tight,) = (found for found in plan.findings if found.code == "GAP-003")
    assert "AUD-114" not in {found.code for found in drylay.audit(plan).findings}
    roomier = evolve(tight, measured=2 * (tight.measured or 0.0))
    others = tuple(found for found in plan.findings if found is not tight)
    lied = put(plan, "findings", (*others, roomier))
    assert "AUD-114" in {found.code for found in drylay.audit(lied).findings}
