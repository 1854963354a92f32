"""Outlines in a brief: read, sent round, and everything wrong with one told with its fix."""

import json
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.brief.model import CoverWish
from drylay.errors import Fault
from drylay.outline.sides import corners_of, outline_of
from drylay.rings import clashing_sides, twice_area

DECK: dict[str, Any] = {
    "title": "Deck on an outline",
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}
Table = dict[str, Any]
L_SHAPE = ((0, 0), (4800, 0), (4800, -1800), (6300, -1800), (6300, 2995), (0, 2995))


def corners(*places: tuple[float, float]) -> list[Table]:
    return [{"along_mm": x, "across_mm": y} for x, y in places]


def block(low: tuple[float, float], size: tuple[float, float], **more: Any) -> Table:
    return {"from_along_mm": low[0], "from_across_mm": low[1],
            "along_mm": size[0], "across_mm": size[1], **more}  # fmt: skip


def brief(outline: Table, **more: Any) -> Table:
    return {**DECK, "outline": outline, **more}


def faults(outline: Table, **more: Any) -> list[Fault]:
    return list(drylay.check_brief(brief(outline, **more)))


def fault(outline: Table, **more: Any) -> Fault:
    (found,) = faults(outline, **more)
    return found


BODY = block((0, 0), (4000, 3000))


@pytest.mark.parametrize(
    "outline",
    [
        {"points": corners(*L_SHAPE)},
        {"rectangles": [block((0, 0), (4800, 2995)), block((4800, -1800), (1500, 4795))]},
        {"rectangles": [block((0, -1800), (6300, 4795)),
                        block((0, -1800), (4800, 1800), how="take")]},
    ],
)  # fmt: skip
def test_the_cover_is_the_box_around_the_outline(outline: Table) -> None:
    read = drylay.read_brief(brief(outline))
    assert read.cover == CoverWish(along_mm=6300, across_mm=4795)  # 2995 + 1800
    plain = read.to_dict()
    assert "cover" not in plain
    assert drylay.read_brief(json.loads(json.dumps(plain))) == read


def test_every_key_is_read_as_a_number_or_as_a_text() -> None:
    text = """
    [outline]
    points = [
      { along = "0 m", across = "0 m", side = "house" },
      { along = "4.8 m", across_mm = 0, faced = true },
      { along = "4.8 m", across = "3 m", side = "boundary" },
      { along = "0 m", across = "3 m", side = "pool" },
    ]
    wall = [{ along_mm = 0, off = "0 mm" }, { along = "4.8 m", off = "-12 mm" }]
    [[outline.openings]]
    kind = "tree"
    name = "the pear"
    along = "1 m"
    across = "1 m"
    trunk = "180 mm"
    growth_a_year = "8 mm"
    years = 12
    sway = "40 mm"
    [[outline.openings]]
    kind = "hatch"
    along = "3 m"
    across = "1 m"
    size_along = "60 cm"
    size_across = "45 cm"
    [laying]
    angle_deg = 45
    first_row = "far"
    breakers = ["1.8 m", "3.6 m"]
    [[laying.fields]]
    from_along = "2 m"
    from_across = "0 m"
    along = "1 m"
    across = "3 m"
    angle_deg = 0
    [fascia]
    article = "FA-28-145"
    """
    read = drylay.read_brief({**DECK, **tomllib.loads(text)})
    points, wall, openings = read.outline.points, read.outline.wall, read.outline.openings
    assert [(p.along_mm, p.across_mm, p.side, p.faced) for p in points] == [
        (0, 0, "house", False), (4800, 0, "open", True),
        (4800, 3000, "boundary", False), (0, 3000, "pool", False),
    ]  # fmt: skip
    assert [(r.along_mm, r.off_mm) for r in wall] == [(0, 0), (4800, -12)]
    tree, hatch = openings
    assert (tree.trunk_mm, tree.growth_a_year_mm, tree.years, tree.sway_mm) == (180, 8, 12, 40)
    assert (hatch.size_along_mm, hatch.size_across_mm, hatch.name) == (600, 450, "")
    assert (read.laying.breakers, read.laying.breakers_mm) == (None, (1800, 3600))
    assert read.laying.fields[0].from_along_mm == 2000
    assert read.cover.across_mm == 3012  # the wall stands 12 back at its right end
    assert drylay.read_brief(read.to_dict()) == read


def test_breakers_are_a_word_or_a_list() -> None:
    outline = {"rectangles": [BODY]}
    read = drylay.read_brief(brief(outline, laying={"breakers": "as_needed"}))
    assert (read.laying.breakers, read.laying.breakers_mm) == ("as_needed", None)
    read = drylay.read_brief(brief(outline, laying={"breakers_mm": [900]}))
    assert read.laying.breakers_mm == (900,)
    assert drylay.read_brief(read.to_dict()) == read
    for word in ("as_needed", "none"):
        both = fault(outline, laying={"breakers": word, "breakers_mm": [900]})
        assert (both.path, both.nearest) == ("laying.breakers", "leave breakers_mm out")
    assert fault(outline, laying={"breakers": "needed"}).nearest == 'breakers = "as_needed"'


POINTS = st.tuples(st.integers(0, 5), st.integers(0, 5)).map(lambda p: (p[0] * 700, p[1] * 700))
KIND = st.sampled_from(["house", "open", "boundary"])


@given(st.lists(st.tuples(POINTS, KIND), max_size=7))
def test_any_corners_are_refused_or_make_a_simple_outline(told: list[Any]) -> None:
    outline = {"points": [{**corners(place)[0], "side": kind} for place, kind in told]}
    if not told or faults(outline):
        return
    read = drylay.read_brief(brief(outline))
    assert drylay.read_brief(read.to_dict()) == read
    drawn = outline_of(read.outline, facing_mm=0)
    assert len(drawn.sides) == len(told)
    assert clashing_sides(corners_of(drawn)) == ()


@given(st.lists(st.tuples(POINTS, POINTS, st.booleans(), KIND | st.none()), max_size=5))
def test_any_rectangles_are_refused_or_make_a_simple_outline(told: list[Any]) -> None:
    rectangles = [
        block(low, (size[0] + 700, size[1] + 700), how="add" if adds else "take", side=side)
        for low, size, adds, side in told
    ]
    outline = {"rectangles": rectangles}
    if not told or faults(outline):
        return
    read = drylay.read_brief(brief(outline))
    assert drylay.read_brief(read.to_dict()) == read
    ring = corners_of(outline_of(read.outline, facing_mm=0))
    assert clashing_sides(ring) == ()
    # by counting squares of 700 each way
    cells: set[tuple[int, int]] = set()
    for low, size, adds, _ in told:
        own = {(low[0] // 700 + i, low[1] // 700 + j)
               for i in range(size[0] // 700 + 1) for j in range(size[1] // 700 + 1)}  # fmt: skip
        cells = cells | own if adds else cells - own
    assert twice_area(ring) == 2 * len(cells) * (700 * 320) ** 2


@pytest.mark.parametrize("few", [corners((0, 0)), corners((0, 0), (4000, 0))])
def test_too_few_corners(few: list[Table]) -> None:
    assert fault({"points": few}).wanted == "three and more"


def test_a_corner_told_twice() -> None:
    found = fault({"points": corners(*L_SHAPE, L_SHAPE[0])})
    assert found.path == "outline.points[6]"
    assert "the outline closes itself" in found.wanted
    found = fault({"points": corners(*L_SHAPE[:3], L_SHAPE[1], *L_SHAPE[3:])})
    assert (found.path, found.nearest) == ("outline.points[3]", "leave outline.points[3] out")


def test_sides_that_cross_are_both_named_with_the_order_that_mends_it() -> None:
    found = fault({"points": corners((0, 0), (4000, 3000), (4000, 0), (0, 3000))})
    assert "from outline.points[2] (4000, 0) to outline.points[3] (0, 3000)" in found.found
    assert "from outline.points[0] (0, 0) to outline.points[1] (4000, 3000)" in found.found
    assert found.nearest == "give outline.points[1] to outline.points[2] in the other order"


def test_a_side_that_a_corner_touches() -> None:
    found = faults({"points": corners((0, 0), (4000, 0), (2000, 1500), (4000, 3000), (0, 3000),
                                      (2000, 1500.5))})  # fmt: skip
    assert found == []
    found = faults({"points": corners((0, 0), (4000, 0), (4000, 3000), (2000, 0), (0, 3000))})
    assert {one.path for one in found} == {"outline.points[2]", "outline.points[3]"}
    assert all("crosses or touches" in one.found for one in found)


def test_corners_in_line_are_left_out_unless_another_kind_of_side_begins() -> None:
    places = [*corners((0, 0), (2000, 0), (4000, 0), (4000, 3000), (0, 3000))]
    found = fault({"points": places})
    assert (found.path, found.nearest) == ("outline.points[1]", "leave outline.points[1] out")
    places[0]["side"] = "house"
    assert faults({"points": places}) == []
    outline = outline_of(drylay.read_brief(brief({"points": places})).outline, facing_mm=0)
    assert [side.kind for side in outline.sides] == ["house", "open", "open", "open", "open"]
    assert outline.sides[1].corner_deg == 180
    places[1]["faced"] = True
    found = fault({"points": places}, fascia={"article": "FA-28-145"})
    assert "fascia begins or ends on a straight" in found.found


def test_points_and_rectangles_at_once() -> None:
    found = fault({"points": corners(*L_SHAPE), "rectangles": [BODY]})
    assert (found.path, found.nearest) == ("outline.rectangles", "leave the rectangles out")


def test_openings_without_an_outline() -> None:
    post = {"kind": "post", "along_mm": 100, "across_mm": 100,
            "size_along_mm": 90, "size_across_mm": 90}  # fmt: skip
    assert "neither points nor rectangles" in fault({"openings": [post]}).found


@pytest.mark.parametrize(
    ("rectangles", "says"),
    [
        ([BODY, block((4100, 0), (1000, 1000))], "2 pieces, 100 mm apart"),
        ([BODY, block((4000, 3000), (1000, 1000))], "touch at the corner (4000, 3000) only"),
        ([BODY, block((1000, 1000), (500, 500), how="take")],
         "a hole from (1000, 1000) to (1500, 1500)"),
        ([BODY, block((5000, 0), (500, 500), how="take")], "taken away where no deck is so far"),
        ([block((0, 0), (500, 500), how="take"), BODY], "taken away where no deck is so far"),
        ([BODY, block((0, 0), (4000, 3000), how="take")], "nothing left of the deck"),
        ([BODY, block((4000, 10), (1000, 2990))], "a side from (4000, 0) to (4000, 10)"),
        ([block((0, 0), (50, 3000))], "a deck of 50 mm along the house"),
    ],
)  # fmt: skip
def test_rectangles_that_make_no_deck(rectangles: list[Table], says: str) -> None:
    found = fault({"rectangles": rectangles})
    assert says in found.found
    assert found.nearest


def test_metres_taken_for_millimetres() -> None:
    small = faults({"points": corners((0, 0), (4, 0), (4, 3), (0, 3))})
    assert [one.nearest for one in small] == [
        f"{key} = {value}, if metres are meant"
        for key, value in (("along_mm", 4000), ("along_mm", 4000), ("across_mm", 3000),
                           ("across_mm", 3000))
    ]  # fmt: skip
    found = fault({"points": corners((0, 0), (4.8, 0), (4800, 3000), (0, 3000))})
    assert (found.path, found.nearest) == (
        "outline.points[1].along_mm", "along_mm = 4800, if metres are meant"
    )  # fmt: skip


def test_a_house_without_a_side_of_its_own() -> None:
    found = fault({"points": corners(*L_SHAPE)}, house={"wall_gap_mm": 10})
    assert found.nearest == 'side = "house" at outline.points[0]'
    assert faults({"points": corners(*L_SHAPE)}, house={}) == []
    assert faults({"rectangles": [BODY]}, house={"wall_gap_mm": 10}) == []


def wall(*readings: tuple[float, float]) -> Table:
    told = [{"along_mm": x, "off_mm": off} for x, off in readings]
    return {"rectangles": [BODY], "wall": told}


@pytest.mark.parametrize(
    ("readings", "path", "says"),
    [
        (((0, 0), (2000, 5), (1000, 3), (4000, 8)), "outline.wall[2].along_mm", "1000 after 2000"),
        (((0, 0), (2000, 5), (2000, 5), (4000, 8)), "outline.wall[2].along_mm", "2000 after 2000"),
        (((-100, 0), (4000, 8)), "outline.wall[0].along_mm", "beyond the house's sides"),
        (((0, 0), (3000, 8)), "outline.wall", "no reading at the wall's end, along 4000"),
        (((1000, 0), (4000, 8)), "outline.wall", "no reading at the wall's end, along 0"),
        (((0, 0), (100, 40), (4000, 8)), "outline.wall[1].off_mm", "40 from the reading 100 mm"),
        (((0, 0), (4000, 0.02)), "outline.wall[1].off_mm", "all readings below 1 mm"),
    ],
)
def test_a_wall_read_wrongly(
    readings: tuple[tuple[float, float], ...], path: str, says: str
) -> None:
    found = fault(wall(*readings))
    assert found.path == path
    assert says in found.found
    assert found.nearest


def test_a_wall_where_no_house_is() -> None:
    outline = {"points": corners(*L_SHAPE), "wall": wall((0, 0), (4800, 5))["wall"]}
    assert "no side of the house on across 0" in fault(outline).found


def test_a_wall_that_runs_into_another_side() -> None:
    shallow = {"rectangles": [block((0, 0), (4000, 100))]}
    outline = {**shallow, "wall": wall((0, 0), (2000, 150), (4000, 0))["wall"]}
    assert "runs into another side" in fault(outline).found


@pytest.mark.parametrize(
    ("opening", "paths"),
    [
        ({"kind": "hatch", "size_along_mm": 600}, ["size_across_mm"]),
        ({"kind": "hatch", "size_along_mm": 600, "size_across_mm": 450, "years": 3}, ["years"]),
        ({"kind": "tree"}, ["trunk_mm", "years"]),
        ({"kind": "tree", "trunk_mm": 180, "years": 9, "size_along_mm": 90}, ["size_along_mm"]),
        ({"kind": "post", "trunk_mm": 90}, ["size_along_mm", "size_across_mm", "trunk_mm"]),
        ({"kind": "pool"}, ["size_along_mm", "size_across_mm"]),
    ],
)
def test_an_opening_lacks_a_size_or_has_one_too_many(opening: Table, paths: list[str]) -> None:
    told = {"along_mm": 2000, "across_mm": 1500, **opening}
    found = faults({"rectangles": [BODY], "openings": [told]})
    assert [one.path for one in found] == [f"outline.openings[0].{path}" for path in paths]


def test_an_opening_off_the_deck_is_told_where_it_would_lie() -> None:
    post = {"kind": "post", "along_mm": 3990, "across_mm": 1500,
            "size_along_mm": 100, "size_across_mm": 100}  # fmt: skip
    found = fault({"rectangles": [BODY], "openings": [post]})
    # half of 100 and 150 for its timber inside 4000
    assert found.nearest == "along_mm = 3800, across_mm = 1500"
    found = fault({"rectangles": [BODY], "openings": [{**post, "size_along_mm": 4100}]})
    assert found.nearest == "leave it out: it is larger than the deck"


def test_kinds_that_are_none() -> None:
    places = [{**corners(place)[0], "side": "hous"} for place in L_SHAPE[:1]]
    found = fault({"points": places + corners(*L_SHAPE[1:])})
    assert (found.path, found.nearest) == ("outline.points[0].side", 'side = "house"')


def test_fascia_on_an_outline() -> None:
    outline = {"rectangles": [{**BODY, "faced": True}]}
    assert fault(outline).path == "fascia.article"
    assert faults(outline, fascia={"article": "FA-28-145"}) == []
    found = faults(outline, fascia={"article": "FA-28-145", "sides": ["front"]})
    assert [one.path for one in found] == ["fascia.sides"]
    assert "faced = true" in found[0].nearest


@pytest.mark.parametrize(
    ("more", "path"),
    [
        ({"cover": {"along_mm": 4000, "across_mm": 3000}}, "cover"),
        ({"border": {"article": "DB-28-95"}}, "border.article"),
        ({"board": {**DECK["board"], "ends": "trim_in_line", "trim_allowance_mm": 20}},
         "board.ends"),
        ({"board": {**DECK["board"], "may_turn": True}}, "board.may_turn"),
        ({"lights": {"count": 2, "hole_mm": 30, "depth_mm": 40}}, "lights.count"),
        ({"joints": {"lines_mm": [1800]}}, "joints.lines_mm"),
        ({"rows": {"prefer": ["gaps", "shrink"]}}, "rows.prefer"),
        ({"laying": {"angle_deg": 180}}, "laying.angle_deg"),
        ({"laying": {"angle_deg": 181}}, "laying.angle_deg"),
        ({"laying": {"breakers_mm": [1800, 900]}}, "laying.breakers_mm[1]"),
        ({"laying": {"border_courses": 1, "fields": [block((0, 0), (900, 900), angle_deg=45)]}},
         "laying.border_courses"),
        ({"laying": {"fields": [block((5000, 0), (900, 900), angle_deg=45)]}}, "laying.fields[0]"),
        ({"laying": {"fields": [block((0, 0), (900, 900), angle_deg=45),
                                block((800, 0), (900, 900), angle_deg=0)]}}, "laying.fields[1]"),
    ],
)  # fmt: skip
def test_what_cannot_be_had_on_an_outline(more: Table, path: str) -> None:
    found = fault({"rectangles": [BODY]}, **more)
    assert found.path == path
    assert found.nearest or path == "laying.angle_deg"


def test_a_border_with_breakers_is_read() -> None:
    laying = {"border_courses": 2, "breakers": "as_needed", "angle_deg": 0}
    assert faults({"rectangles": [BODY]}, laying=laying) == []


def test_laying_without_an_outline() -> None:
    cover = {"along_mm": 4000, "across_mm": 3000}
    (found,) = drylay.check_brief({**DECK, "cover": cover, "laying": {"angle_deg": 45}})
    assert (found.path, "in place of [cover]" in found.nearest) == ("laying", True)
    assert drylay.check_brief({**DECK, "cover": cover, "laying": {}}) == ()


def test_all_is_told_at_once() -> None:
    found = faults(
        {"points": corners(*L_SHAPE, L_SHAPE[0]), "openings": [{"kind": "pond"}]},
        laying={"angle_deg": 180},
        cover={"along_mm": 4000, "across_mm": 3000},
    )
    assert {one.path for one in found} == {
        "outline.points[6]", "outline.openings[0].kind", "outline.openings[0].along_mm",
        "outline.openings[0].across_mm", "laying.angle_deg", "cover",
    }  # fmt: skip
