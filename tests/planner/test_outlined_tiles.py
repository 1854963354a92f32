"""Tiles on pads over an outline: one deck by hand, laws of every deck, what stops them."""

from collections import Counter
from typing import Any

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import drylay
from audit.outlined_tile_decks import outlined_tile_brief
from drylay.findings import Severity
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.tiling.outline_model import OutlineTiles
from tile_family import FRAME, tile_brief, tile_families, yard

Corners = tuple[tuple[float, float], ...]


def designed(corners: Corners, *openings: dict[str, Any], **sections: Any) -> Plan:
    brief = outlined_tile_brief(corners, openings, **sections)
    return drylay.design(brief, stock=yard(), families=tile_families())


def tiles_of(plan: Plan) -> OutlineTiles:
    assert plan.tiles is not None, [str(f) for f in plan.findings]
    return plan.tiles


def stops(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings if finding.severity is Severity.STOP}


def ring(spots: tuple[Spot, ...]) -> list[tuple[float, float]]:
    return [(spot.along_mm, spot.across_mm) for spot in spots]


#: An L of whole tiles: 604 n - 4 along both legs, the notch a joint's width on (604 n).
WHOLE_L: Corners = ((0, 0), (3016, 0), (3016, 2412), (1812, 2412), (1812, 1204), (0, 1204))


def test_an_l_of_whole_tiles_by_hand() -> None:
    """Five by two tiles, and two by two below: 1812 = 3 x 604, 1204 = 2 x 604 - 4.

    Pads under corners: 6 x 3 lines of the upper part, and of the lower one 2 lines more of 3; but
    where the inner corner lies the upper part's side is at 1204 and the lower tiles begin at 1208,
    a joint on: they share its pads. One under each of 14 middles. 14 x 17 kg.
    """
    tiles = tiles_of(designed(WHOLE_L))
    assert (tiles.tile_count, tiles.whole, tiles.cut, tiles.sliver_count) == (14, 14, 0, 0)
    assert (tiles.need, tiles.least, tiles.sawn) == (14, 14, ())
    assert (tiles.pads.corners, tiles.pads.edges, tiles.pads.centres) == (24, 0, 14)
    assert tiles.face_m2 == pytest.approx(14 * 0.36)
    assert (tiles.first_column_mm, tiles.first_row_mm, tiles.joint_mm) == (0.0, 0.0, 4.0)


def test_a_splay_by_hand() -> None:
    """1204 x 1204, a corner clipped by 300: a triangle of 0.045 m2 off one of four tiles.

    The clipped tile keeps 300 beside the clip; the least way across it is from the clip to the
    corner across: (600 + 600) / root 2 less 300 / root 2 = 636.4; so the box's 600 is less.
    """
    corners = ((0, 0), (1204, 0), (1204, 904), (904, 1204), (0, 1204))
    tiles = tiles_of(designed(corners))
    assert (tiles.tile_count, tiles.cut, tiles.shaped_count) == (4, 1, 1)
    clipped = next(tile for tile in tiles.tiles if tile.cut)
    assert (clipped.length_mm, clipped.width_mm, clipped.narrow_mm) == (600.0, 600.0, 600.0)
    assert tiles.face_m2 == pytest.approx(4 * 0.36 - 0.045)
    # nine corners of the grid, the clipped one for two at the clip's ends
    assert tiles.pads.corners == 10


def lengths(least: int, most: int) -> st.SearchStrategy[int]:
    return st.integers(least // 10, most // 10).map(lambda tens: 10 * tens)


@st.composite
def ells(draw: st.DrawFn) -> Corners:
    """Draw an L, its legs wider than a tile."""
    wide, deep = draw(lengths(2000, 4200)), draw(lengths(2000, 4200))
    x, y = draw(lengths(700, wide - 700)), draw(lengths(700, deep - 700))
    return ((0, 0), (wide, 0), (wide, deep), (x, deep), (x, y), (0, y))


@st.composite
def splayed(draw: st.DrawFn) -> Corners:
    """Draw a deck with one side at a slant."""
    wide, deep = draw(lengths(1500, 3600)), draw(lengths(1500, 3600))
    off = draw(lengths(100, 900))
    return ((0, 0), (wide, 0), (wide - off, deep), (0, deep))


@settings(max_examples=8, deadline=None)
@given(st.one_of(ells(), splayed()), st.sampled_from([0.0, 90.0, 30.0]), st.booleans())
def test_tiles_joints_and_openings_make_up_the_outline(
    corners: Corners, angle_deg: float, post: bool
) -> None:
    """Each measured on its own, the joints as what no place of the grid covers."""
    opening = {"kind": "post", "along_mm": corners[1][0] - 400, "across_mm": 400,
               "size_along_mm": 90, "size_across_mm": 90}  # fmt: skip
    openings = [opening] if post and len(corners) == 6 else []
    plan = designed(corners, *openings, laying={"angle_deg": angle_deg})
    tiles = tiles_of(plan)
    deck = shapely.Polygon(corners)
    holes = [shapely.Polygon(ring(each.corners)) for each in plan.outline.openings]  # type: ignore[union-attr]
    laid = [shapely.Polygon(ring(tile.corners)) for tile in tiles.tiles]
    together = shapely.union_all(laid)
    assert together.area == pytest.approx(sum(each.area for each in laid), abs=60)
    bare = deck.difference(together)
    for hole in holes:
        bare = bare.difference(hole)
    joints_mm2 = tiles.joint_m2 * 1e6
    assert bare.area == pytest.approx(joints_mm2, abs=60)
    assert sum(each.area for each in [*laid, *holes]) + bare.area == pytest.approx(
        deck.area, abs=60
    )
    # joints are strips: nothing of them is wider than a joint, but for rounding
    assert bare.buffer(-tiles.joint_mm / 2 * 1.5).area < 60


@settings(max_examples=10, deadline=None)
@given(ells())
def test_no_cut_is_smaller_than_the_least_unless_told(corners: Corners) -> None:
    plan = designed(corners)
    tiles = tiles_of(plan)
    small = [
        tile
        for tile in tiles.tiles
        if tile.cut and min(tile.length_mm, tile.width_mm, tile.narrow_mm) < 199.99
    ]
    assert len(small) == tiles.sliver_count
    assert bool(small) == ("TIL-031" in {finding.code for finding in plan.findings})


def shapes(plan: Plan, turn: Any = lambda x, y: (x, y)) -> Counter[tuple[int, int, int]]:
    """Return where tiles lie, by middle and area in whole mm, places turned."""
    found = Counter()
    for tile in tiles_of(plan).tiles:
        shape = shapely.Polygon([turn(*at) for at in ring(tile.corners)])
        found[
            round(shape.centroid.x / 2), round(shape.centroid.y / 2), round(shape.area / 1e3)
        ] += 1
    return found


def figures(plan: Plan) -> tuple[object, ...]:
    tiles = tiles_of(plan)
    return (tiles.tile_count, tiles.whole, tiles.cut, tiles.sliver_count, tiles.need,
            plan.buying and plan.buying.order_total)  # fmt: skip


@settings(max_examples=8, deadline=None)
@given(ells())
def test_a_mirrored_or_turned_brief_mirrors_or_turns_the_plan(corners: Corners) -> None:
    wide = max(x for x, _ in corners)
    plan = designed(corners)
    mirrored = designed(tuple((wide - x, y) for x, y in reversed(corners)))
    assert figures(mirrored) == figures(plan)
    turned = designed(tuple((wide - y, x) for x, y in corners), board={"run": "across"})
    assert figures(turned) == figures(plan)


def test_a_mirrored_l_lies_as_its_mirror() -> None:
    """No two set-outs are alike here, so that each tile has its own in the mirror."""
    corners = ((0, 0), (4000, 0), (4000, 3100), (1870, 3100), (1870, 1730), (0, 1730))
    plan = designed(corners)
    mirrored = designed(tuple((4000 - x, y) for x, y in reversed(corners)))
    assert shapes(mirrored) == shapes(plan, lambda x, y: (4000 - x, y))


@settings(max_examples=8, deadline=None)
@given(lengths(1300, 4500), lengths(1300, 4000), st.sampled_from(["along", "across"]))
def test_a_rectangle_costs_no_more_as_an_outline(wide: int, deep: int, run: str) -> None:
    board = {"article": "TT-900", "run": run}
    plain = drylay.design(
        tile_brief(wide, deep, board=board), stock=yard(), families=tile_families()
    )
    assume(plain.buildable)
    outlined = designed(((0, 0), (wide, 0), (wide, deep), (0, deep)), board=board)
    assert outlined.buying is not None
    assert plain.buying is not None
    assert plain.tiling is not None
    assert outlined.buying.order_total <= plain.buying.order_total
    tiles = tiles_of(outlined)
    assert {tiles.along_way, tiles.across_way} == {plain.tiling.way_out, plain.surface.way_out}  # type: ignore[union-attr]
    assert tiles.pads.count == plain.tiling.pads.count  # type: ignore[union-attr]


HATCH = {"kind": "hatch", "along_mm": 1510, "across_mm": 1510, "size_along_mm": 300,
         "size_across_mm": 300}  # fmt: skip


#: Five by five whole tiles: 5 x 604 - 4.
SQUARE: Corners = ((0, 0), (3016, 0), (3016, 3016), (0, 3016))


def test_a_hatch_is_whole_tiles() -> None:
    plan = designed(SQUARE, HATCH)
    tiles = tiles_of(plan)
    assert [tile.mark for tile in tiles.tiles if tile.hatch] == ["B3.3"]
    assert plan.outline is not None
    # from the middle of the joint before column 3, 1206, to that after it, 1810
    hole = ring(plan.outline.openings[0].corners)
    assert (min(x for x, _ in hole), max(x for x, _ in hole)) == (1206.0, 1810.0)
    assert plan.outline.openings[0].panel_kg == 17.0


@pytest.mark.parametrize(
    ("code", "corners", "openings", "sections"),
    [
        ("TIL-035", WHOLE_L, (), {"laying": {"border_courses": 1}}),
        ("TIL-036", ((0, 0), (3000, 0), (3000, 2000), (0, 2000)), (),
         {"rows": {"may_rip": False}}),
        ("TIL-032", ((0, 0), (3000, 0), (3000, 2000), (0, 2000)),
         ({**HATCH, "along_mm": 200, "across_mm": 200},), {}),
        ("TIL-004", WHOLE_L, (), {"site": {"roof": True}}),
    ],
)  # fmt: skip
def test_what_stops_them(
    code: str, corners: Corners, openings: tuple[dict[str, Any], ...], sections: dict[str, Any]
) -> None:
    plan = designed(corners, *openings, **sections)
    assert stops(plan) == {code}
    assert (plan.tiles, plan.buying) == (None, None)


def test_on_a_frame_they_are_stopped_with_the_fix() -> None:
    plan = designed(
        WHOLE_L,
        board={"support": "frame"},
        frame=FRAME,
        fixings={"coach_screw": "CS-8-120"},
    )
    assert stops(plan) == {"TIL-030"}
    assert "pads" in next(f.message for f in plan.findings if f.code == "TIL-030")


def test_a_plan_goes_to_its_file_and_back() -> None:
    plan = designed(SQUARE, HATCH)
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan


def test_the_papers_tell_every_cut_tile() -> None:
    plan = designed(((0, 0), (3500, 0), (3100, 2500), (0, 2500)))
    made = drylay.papers(plan)
    assert {"tiles.svg", "setting-out.svg", "cuts.csv", "jobsheet.html"} <= set(made)
    assert "boards.svg" not in made
    sheet = made["jobsheet.html"].decode()
    for tile in tiles_of(plan).tiles:
        if tile.cut:
            assert tile.mark in sheet
            assert f">{tile.mark}<" in made["tiles.svg"].decode()
