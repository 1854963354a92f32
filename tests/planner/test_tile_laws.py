"""Laws of whole decks of tiles, over random ones."""

from functools import cache
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.marks import exact
from drylay.plan.model import Plan
from some_tiles import some_tiles
from tile_family import tile_families, yard

few = settings(max_examples=10)
#: So few that the laws meet the same decks again, which are planned once.
seeds = st.integers(0, 23)


@cache
def random_plan(seed: int) -> Plan:
    return drylay.design(some_tiles(seed), stock=yard(), families=tile_families())


@few
@given(seeds)
def test_the_grid_fills_the_cover_exactly(seed: int) -> None:
    plan = random_plan(seed)
    if not plan.buildable:
        return
    tiling, surface = plan.tiling, plan.surface
    along = [(exact(c.start_mm), exact(c.length_mm)) for c in tiling.columns]
    across = [(exact(r.near_mm), exact(r.width_mm)) for r in surface.rows]
    for courses, whole in ((along, surface.row_length_mm), (across, surface.rows_depth_mm)):
        assert courses[0][0] == 0
        assert sum(courses[-1]) == exact(whole)
        joints = {far - near - wide for (near, wide), (far, _) in pairwise(courses)}
        assert joints <= {exact(surface.gap_preferred_mm)}


@few
@given(seeds)
def test_cuts_are_balanced_and_none_is_under_a_third(seed: int) -> None:
    plan = random_plan(seed)
    if not plan.buildable:
        return
    for courses, side in (
        ([column.length_mm for column in plan.tiling.columns], plan.tiling.tile_length_mm),
        ([row.width_mm for row in plan.surface.rows], plan.surface.board_width_mm),
    ):
        assert abs(exact(courses[0]) - exact(courses[-1])) <= 1
        assert {*courses[1:-1]} <= {side}
        if len(courses) > 1:  # a single narrow course has no third to keep
            assert min(map(exact, courses)) >= exact(side / 3) - 1


@few
@given(seeds)
def test_no_fewer_tiles_than_their_area_and_no_more_than_places(seed: int) -> None:
    plan = random_plan(seed)
    if not plan.buildable:
        return
    tiling, surface = plan.tiling, plan.surface
    laid = sum(column.length_mm * row.width_mm for column in tiling.columns for row in surface.rows)
    tile = tiling.tile_length_mm * surface.board_width_mm
    assert laid <= tiling.need * tile + 1e-6
    assert tiling.need == tiling.least <= tiling.places == tiling.whole + tiling.cut
    bought = next(part for part in plan.buying.packs if part.what == "tiles")
    assert bought.need == tiling.need
    assert sum(box.packs * box.pack for box in bought.packs) >= tiling.need


@few
@given(seeds)
def test_pads_are_counted_and_none_stands_outside(seed: int) -> None:
    plan = random_plan(seed)
    if not plan.buildable or plan.tiling.pads is None:
        return
    pads, surface = plan.tiling.pads, plan.surface
    columns, rows = len(plan.tiling.columns), len(surface.rows)
    assert pads.corners == (columns + 1) * (rows + 1)
    assert pads.centres == columns * rows * pads.at_centre
    assert pads.count == pads.corners + pads.edges + pads.centres == len(pads.pads)
    assert all(0 <= p.start_mm <= surface.row_length_mm for p in pads.pads)
    assert all(0 <= p.across_mm <= surface.rows_depth_mm for p in pads.pads)


@settings(max_examples=3)
@given(seeds)
def test_the_same_brief_is_the_same_plan_to_the_byte(seed: int) -> None:
    again = drylay.design(some_tiles(seed), stock=yard(), families=tile_families())
    text = drylay.plan_to_json(random_plan(seed))
    assert drylay.plan_to_json(again) == text
    assert drylay.plan_from_json(text) == again
    assert drylay.papers(again) == drylay.papers(random_plan(seed))


@settings(max_examples=5)
@given(seeds)
def test_every_value_of_tiles_tells_why(seed: int) -> None:
    plan = random_plan(seed)
    if not plan.buildable:
        return
    for path in ("tiling.columns[0].length_mm", "tiling.need", "tiling.tile_mass_kg",
                 "surface.rows[0].width_mm", "tiling.density_kg_m3"):  # fmt: skip
        assert plan.why(path).rule
    if plan.tiling.pads is not None:
        assert plan.why("tiling.pads.pads[0].start_mm").path == "tiling.pads.count"
