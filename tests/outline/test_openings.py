"""Openings: what each keeps clear, hatches among rows, clashes and the nearest place that works."""

from math import cos, pi, radians, sin

import pytest
from attrs import frozen
from hypothesis import given
from hypothesis import strategies as st

from drylay.brief.outline_model import OpeningWish, OutlineWish
from drylay.findings import Finding
from drylay.outline.clashes import clashes
from drylay.outline.hatches import Rows, snap_hatch
from drylay.outline.model import Opening, Spot
from drylay.outline.notes import opening_notes, root_radius_mm
from drylay.outline.sides import outline_of, ring_of, with_openings
from drylay.outline.standing import opening_of
from drylay.rings import apart, holds
from outline.shapes_drawn import rectangle

DECK = outline_of(OutlineWish(rectangles=(rectangle((0, 0), (5000, 4000)),)), facing_mm=0)


def post(along: float, across: float, size: float = 100) -> OpeningWish:
    return OpeningWish(
        kind="post", along_mm=along, across_mm=across, size_along_mm=size, size_across_mm=size
    )


def hatch(along: float, across: float, wide: float, deep: float) -> OpeningWish:
    return OpeningWish(
        kind="hatch", along_mm=along, across_mm=across, size_along_mm=wide, size_across_mm=deep
    )


def extent(spots: tuple[Spot, ...]) -> tuple[float, float, float, float]:
    alongs, acrosses = [s.along_mm for s in spots], [s.across_mm for s in spots]
    return min(alongs), min(acrosses), max(alongs), max(acrosses)


def test_a_tree_has_room_to_grow_and_to_sway() -> None:
    tree = OpeningWish(kind="tree", along_mm=2000, across_mm=1500, trunk_mm=180, years=15)
    opening = opening_of(tree, mark="O1")
    # 180 + 15 x 10 + 2 x 50 = 430, the same either way of the middle
    assert extent(opening.within) == (1785, 1285, 2215, 1715)
    assert opening.corners == opening.within
    told = OpeningWish(
        kind="tree", along_mm=0, across_mm=0, trunk_mm=180, years=15, growth_a_year_mm=4, sway_mm=20
    )
    assert extent(opening_of(told, mark="O1").within)[2] == 140  # (180 + 60 + 40) / 2


def test_a_post_is_clear_all_round_and_a_pool_lies_flush() -> None:
    opening = opening_of(post(1000, 1000), mark="O1")
    assert extent(opening.corners) == (944, 944, 1056, 1056)
    assert (opening.clear_mm, opening.clear_least_mm, opening.clear_most_mm) == (6, 6, 100)
    pool = OpeningWish(
        kind="pool", along_mm=2000, across_mm=2000, size_along_mm=1200, size_across_mm=800
    )
    lies = opening_of(pool, mark="O2")
    assert lies.corners == lies.within
    assert (lies.clear_mm, lies.clear_least_mm) == (0, -40)


def test_openings_take_their_area_off_but_for_hatches() -> None:
    pool = OpeningWish(
        kind="pool", along_mm=2000, across_mm=2000, size_along_mm=1200, size_across_mm=800
    )
    lid = snap_hatch(hatch(2000, 1000, 600, 450), rows_at(0, 20), mark="O3")
    assert isinstance(lid, Opening)
    openings = (opening_of(pool, mark="O1"), opening_of(post(4000, 1000, 88), mark="O2"), lid)
    outline = with_openings(DECK, openings)
    # 5 x 4 less 1.2 x 0.8 less 0.1 x 0.1
    assert outline.net_m2 == pytest.approx(20 - 0.96 - 0.01)
    assert (outline.gross_m2, outline.opening_count) == (20, 3)


#: The thickness of the timber that a panel's ends lie on.
LEDGE_MM = 45.0


@frozen(kw_only=True)
class Row:
    """A row as a hatch sees it."""

    start: Spot
    end: Spot
    width_mm: float


def rows_at(angle: float, count: int, *, first: float = 0, gap: float = 5) -> Rows:
    """Rows of 145 from `first` to the left of the line through the datum corner."""
    c, s = cos(radians(angle)), sin(radians(angle))

    def spot(u: float, v: float) -> Spot:
        return Spot(along_mm=u * c - v * s, across_mm=u * s + v * c)

    lefts = [first + number * (145 + gap) for number in range(count)]
    rows = [Row(start=spot(-9000, v), end=spot(9000, v), width_mm=145) for v in lefts]
    return Rows(
        angle_deg=angle, first_row="near", rows=rows, end_gap_mm=4, ledge_mm=LEDGE_MM, mark_320=160
    )


def test_a_hatch_is_snapped_outwards_to_the_middle_of_gaps() -> None:
    opening = snap_hatch(hatch(2000, 1000, 600, 450), rows_at(0, 20), mark="O1")
    assert isinstance(opening, Opening)
    # the cover 775 to 1225, with 40 all round 735 to 1265; middles of gaps lie at 147.5 + 150 n:
    # 597.5 and 1347.5 are those next beyond; along 1700 - 40 - 45 to 2300 + 40 + 45, on marks
    assert extent(opening.corners) == (1615, 597.5, 2385, 1347.5)
    assert opening.clear_mm == 40
    assert opening.panel_most_kg == 20


def test_a_hatch_among_rows_counted_from_the_far_side() -> None:
    near = rows_at(0, 20)
    far_rows = [
        Row(
            start=Spot(along_mm=-9000, across_mm=row.start.across_mm + 145),
            end=Spot(along_mm=9000, across_mm=row.end.across_mm + 145),
            width_mm=145,
        )
        for row in reversed(near.rows)
    ]
    far = Rows(
        angle_deg=0, first_row="far", rows=far_rows, end_gap_mm=4, ledge_mm=LEDGE_MM, mark_320=160
    )
    wish = hatch(2000, 1000, 600, 450)
    assert snap_hatch(wish, far, mark="O1") == snap_hatch(wish, near, mark="O1")


@pytest.mark.parametrize(("across", "past"), [(300, 112.5), (2700, 117.5)])
def test_a_hatch_past_the_last_gap_is_stopped(across: float, past: float) -> None:
    # 20 rows end at 2995, the middles of gaps lie from 147.5 to 2847.5. The cover takes 265 either
    # way with its 40: 300 - 265 = 35 is 112.5 below the first, 2700 + 265 is 117.5 past the last
    found = snap_hatch(hatch(2000, across, 600, 450), rows_at(0, 20), mark="O1")
    assert isinstance(found, Finding)
    assert (found.code, found.measured) == ("OUT-004", past)
    place = across + past if across < 1000 else across - past
    assert f"along 2000, across {place:g}" in found.message
    moved = hatch(2000, place, 600, 450)
    assert isinstance(snap_hatch(moved, rows_at(0, 20), mark="O1"), Opening)


@given(
    angle=st.sampled_from([0.0, 30.0, 45.0, 90.0, 135.0]),
    out=st.integers(-400, 3400),
    deep=st.integers(200, 1200),
)
def test_the_place_told_for_a_hatch_works(angle: float, out: int, deep: int) -> None:
    left = radians(angle + 90)
    wish = hatch(round(out * cos(left)), round(out * sin(left)), deep, deep)
    rows = rows_at(angle, 20)
    found = snap_hatch(wish, rows, mark="O1")
    if isinstance(found, Opening):
        return
    words = found.message.split("middle at along ")[1].split(", across ")
    moved = hatch(float(words[0]), float(words[1]), deep, deep)
    assert isinstance(snap_hatch(moved, rows, mark="O1"), Opening)


def test_a_hatch_that_too_few_rows_make_has_no_place() -> None:
    for count in (1, 4):
        found = snap_hatch(hatch(2000, 300, 600, 450), rows_at(0, count), mark="O1")
        assert isinstance(found, Finding)
        assert "no rows here are enough" in found.message


def test_what_no_opening_can_be_made_of() -> None:
    with pytest.raises(ValueError, match="snap_hatch"):
        opening_of(hatch(0, 0, 600, 450), mark="O1")
    with pytest.raises(ValueError, match="no rows"):
        snap_hatch(hatch(0, 0, 600, 450), rows_at(0, 0), mark="O1")


@given(
    angle=st.sampled_from([0.0, 30.0, 45.0, 60.0, 90.0, 135.0]),
    out=st.integers(2200, 4200),
    wide=st.integers(200, 900),
    deep=st.integers(200, 900),
)
def test_a_hatch_is_clear_of_its_cover_at_any_angle(
    angle: float, out: int, wide: int, deep: int
) -> None:
    left = radians(angle + 90)  # so far to the left of the run the rows lie
    wish = hatch(round(out * cos(left)), round(out * sin(left)), wide, deep)
    opening = snap_hatch(wish, rows_at(angle, 60), mark="O1")
    assert isinstance(opening, Opening)
    hole, cover = ring_of(opening.corners), ring_of(opening.within)
    assert holds(hole, cover)
    assert apart(hole, cover) >= 40 * 320
    lefts = [
        spot.across_mm * cos(radians(angle)) - spot.along_mm * sin(radians(angle))
        for spot in opening.corners
    ]
    for left_mm in lefts:  # on the middle of a gap, corners rounded to 1/320 mm
        off = (left_mm - 147.5 + 75) % 150 - 75
        assert abs(off) < 1 / 160


@given(st.integers(2200, 4200), st.integers(100, 450), st.integers(100, 450), st.integers(0, 4))
def test_a_hatch_whose_gap_lies_just_at_its_least_is_not_a_hair_too_near(
    out: int, wide: int, deep: int, hair: int
) -> None:
    c, s = cos(radians(17.3)), sin(radians(17.3))
    wish = hatch(round(-out * s), round(out * c), 2 * wide, 2 * deep)
    # the cover's least way left of the run is that of its corner to the right and near the house
    least = (wish.across_mm - deep) * c - (wish.along_mm + wide) * s
    rows = rows_at(17.3, 60, first=(least - 40 - 147.5 - hair / 1000) % 150)
    opening = snap_hatch(wish, rows, mark="O1")
    assert isinstance(opening, Opening)
    assert apart(ring_of(opening.corners), ring_of(opening.within)) >= 40 * 320


def test_an_opening_off_the_deck_is_told_with_the_nearest_place() -> None:
    openings = (opening_of(post(4980, 2000), mark="O1"),)
    (found,) = clashes(DECK, openings, timber_mm=45)
    assert (found.code, found.subject) == ("OUT-001", "O1")
    assert found.measured == 36  # 4980 + 56 - 5000
    # hole 56 + 135 of timber off the right side: 5000 - 191 = 4809
    assert "middle at along 4809, across 2000: 171 mm to the left" in found.message


def test_an_opening_too_near_a_side_is_told_with_the_nearest_place() -> None:
    openings = (opening_of(post(2000, 3900), mark="O1"),)
    (found,) = clashes(DECK, openings, timber_mm=45)
    assert (found.code, found.measured, found.limit) == ("OUT-002", 44, 135)
    assert "along 2000, across 3809: 91 mm towards the house" in found.message


def test_an_opening_in_a_border_is_told_with_the_nearest_place() -> None:
    """Two courses of 145 and a gap of 8 are 298; the post's hole ends 4000 - 3700 - 56 off."""
    openings = (opening_of(post(2000, 3700), mark="O1"),)
    assert clashes(DECK, openings, timber_mm=45) == ()
    (found,) = clashes(DECK, openings, timber_mm=45, border_mm=298.0)
    assert (found.code, found.measured, found.limit) == ("OUT-005", 244, 298)
    assert "along 2000, across 3646: 54 mm towards the house" in found.message
    moved = (opening_of(post(2000, 3646), mark="O1"),)
    assert clashes(DECK, moved, timber_mm=45, border_mm=298.0) == ()


def test_a_fascia_takes_its_room_as_well() -> None:
    body = rectangle((0, 0), (5000, 4000), faced=True)
    deck = outline_of(OutlineWish(rectangles=(body,)), facing_mm=28.0)
    (found,) = clashes(deck, (opening_of(post(2000, 3790), mark="O1"),), timber_mm=45)
    assert (found.measured, found.limit) == (154, 163)  # 4000 - 3790 - 56; 28 + 3 x 45
    assert clashes(deck, (opening_of(post(2000, 195), mark="O1"),), timber_mm=45) == ()


def test_an_opening_over_the_end_of_a_slot_is_off_the_deck() -> None:
    slot = rectangle((2000, 2000), (100, 2000), how="take")
    deck = outline_of(
        OutlineWish(rectangles=(rectangle((0, 0), (5000, 4000)), slot)), facing_mm=0.0
    )
    (found,) = clashes(deck, (opening_of(post(2050, 1950, 300), mark="O1"),), timber_mm=45)
    # the hole lies from 1894 to 2206 and from 1794 to 2106, 106 round the slot's corners
    assert (found.code, found.measured) == ("OUT-001", 106)


def test_openings_too_near_each_other_are_told_with_the_nearest_place() -> None:
    openings = (opening_of(post(2000, 2000), mark="O1"), opening_of(post(2200, 2000), mark="O2"))
    (found,) = clashes(DECK, openings, timber_mm=45)
    assert (found.code, found.subject, found.measured, found.limit) == ("OUT-003", "O2", 88, 180)
    # 112 + 180 from middle to middle
    assert "along 2292, across 2000: 92 mm to the right" in found.message


def test_one_opening_inside_another_meets_it() -> None:
    pool = OpeningWish(
        kind="pool", along_mm=2500, across_mm=2000, size_along_mm=1500, size_across_mm=900
    )
    openings = (opening_of(pool, mark="O1"), opening_of(post(2500, 2000), mark="O2"))
    (found,) = clashes(DECK, openings, timber_mm=45)
    assert (found.code, found.measured) == ("OUT-003", 0)


def test_an_opening_larger_than_the_deck_has_no_place() -> None:
    (found,) = clashes(DECK, (opening_of(post(2500, 2000, 6000), mark="O1"),), timber_mm=45)
    assert "no place on this deck has room" in found.message


@given(st.integers(-500, 5500), st.integers(-500, 4500), st.integers(50, 1500))
def test_the_nearest_place_told_works(along: int, across: int, size: int) -> None:
    standing = opening_of(post(2500, 2000, 300), mark="O1")
    found = clashes(
        DECK, (standing, opening_of(post(along, across, size), mark="O2")), timber_mm=45
    )
    for one in found:
        words = one.message.split("middle at along ")[1].split(":")[0].split(", across ")
        moved = post(float(words[0]), float(words[1]), size)
        assert clashes(DECK, (standing, opening_of(moved, mark="O2")), timber_mm=45) == ()


def test_a_place_that_works_is_left_alone() -> None:
    assert clashes(DECK, (opening_of(post(1000, 1000), mark="O1"),), timber_mm=45) == ()


def test_roots_a_pool_and_a_drain_are_minded() -> None:
    tree = OpeningWish(kind="tree", along_mm=0, across_mm=0, trunk_mm=200, years=10)
    pool = OpeningWish(kind="pool", along_mm=0, across_mm=0, size_along_mm=900, size_across_mm=900)
    found = list(opening_notes((tree, post(0, 0), pool, hatch(0, 0, 600, 450))))
    assert [(one.subject, one.code) for one in found] == [
        ("O1", "OUT-020"), ("O3", "OUT-021"), ("O3", "OUT-022"), ("O4", "OUT-023")
    ]  # fmt: skip
    assert found[0].limit == 2400  # BS 5837: 12 stem diameters
    # and no more than 707 m2, a circle of 15 m: pi x 15 x 15 = 706.86
    assert root_radius_mm(2000) == pytest.approx(15_000, abs=2)
    assert root_radius_mm(2000) ** 2 * pi / 1e6 == pytest.approx(707)
