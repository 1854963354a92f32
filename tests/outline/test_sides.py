"""The outline's sides: laws first, then areas by hand and by sampling."""

from random import Random

import pytest
from hypothesis import given

from drylay.brief.outline_model import (
    OutlinePoint,
    OutlineWish,
    WallReading,
)
from drylay.outline.model import Outline
from drylay.outline.sides import corners_of, outline_of
from drylay.rings import clashing_sides, inside, twice_area
from outline.shapes_drawn import loop_of, pointed, rectangle, sums, wishes

#: An L round a bay: corners in mm, in order; its area worked by hand below.
BAY = ((0, 0), (1200, 0), (1700, 500), (2600, 500), (3100, 0), (4600, 0), (4600, -1500),
       (6300, -1500), (6300, 2800), (0, 2800))  # fmt: skip


def points(*places: tuple[float, float], side: str = "open") -> OutlineWish:
    return OutlineWish(
        points=tuple(OutlinePoint(along_mm=x, across_mm=y, side=side) for x, y in places)
    )


def drawn(wish: OutlineWish, facing_mm: float = 28.0) -> Outline:
    return outline_of(wish, facing_mm=facing_mm)


@given(sums())
def test_rectangles_and_the_same_corners_are_one_outline(wish: OutlineWish) -> None:
    assert drawn(pointed(loop_of(wish))) == drawn(wish)


@given(wishes())
def test_corners_told_the_other_way_round_are_the_same_outline(wish: OutlineWish) -> None:
    told = wish if wish.points else pointed(loop_of(wish))
    corners = told.points
    turned = [
        OutlinePoint(
            along_mm=corners[at].along_mm,
            across_mm=corners[at].across_mm,
            side=corners[at - 1].side,
            faced=corners[at - 1].faced,
        )
        for at in reversed(range(len(corners)))
    ]
    assert drawn(OutlineWish(points=tuple(turned))) == drawn(wish)
    on = OutlineWish(points=(*corners[2:], *corners[:2]))
    assert drawn(on) == drawn(wish)


@given(wishes())
def test_an_outline_closes_and_its_corners_turn_once_round(wish: OutlineWish) -> None:
    outline = drawn(wish)
    ends = [side.end for side in outline.sides]
    assert [side.start for side in outline.sides] == [ends[-1], *ends[:-1]]
    ring = corners_of(outline)
    assert twice_area(ring) > 0
    assert clashing_sides(ring) == ()
    angles = sum(side.corner_deg for side in outline.sides)  # (n - 2) half turns: Euclid
    assert angles == pytest.approx(180 * (len(outline.sides) - 2))
    assert outline.perimeter_mm == pytest.approx(sum(side.length_mm for side in outline.sides))
    assert [side.mark for side in outline.sides] == [
        f"E{number}" for number in range(1, len(outline.sides) + 1)
    ]


def test_the_area_of_an_l_round_a_bay_by_hand() -> None:
    outline = drawn(points(*BAY))
    # body 6300 x 2800, wing 1700 x 1500, less the bay: a trapezoid (1900 + 900) / 2 x 500
    by_hand = 6.3 * 2.8 + 1.7 * 1.5 - (1.9 + 0.9) / 2 * 0.5
    assert outline.gross_m2 == pytest.approx(by_hand, abs=1e-9)
    assert outline.net_m2 == outline.gross_m2
    # all square sides, and two splays of 500 each way: 500 x sqrt 2 = 707.1068
    square = 1200 + 900 + 1500 + 1500 + 1700 + 4300 + 6300 + 2800
    assert outline.perimeter_mm == pytest.approx(square + 2 * 707.1068, abs=0.01)
    # at a bay's corner 135 inside the house is 225 inside the deck: 180 + 45, then 180 - 45
    assert [round(side.corner_deg, 6) for side in outline.sides] == [
        90, 135, 225, 225, 135, 270, 90, 90, 90, 90
    ]  # fmt: skip


def test_the_area_by_sampling() -> None:
    ring = corners_of(drawn(points(*BAY)))
    chance = Random(7)
    count = 20_000
    hit = sum(
        inside(ring, (chance.randrange(0, 6300 * 320), chance.randrange(-1500 * 320, 2800 * 320)))
        >= 0
        for _ in range(count)
    )
    # four times the standard deviation of a share near 0.72: sqrt(0.72 x 0.28 / 20000) = 0.0032
    box_m2 = 6.3 * 4.3
    assert hit / count * box_m2 == pytest.approx(drawn(points(*BAY)).gross_m2, abs=0.0128 * box_m2)


def test_sides_begin_at_the_corner_nearest_the_datum_corner() -> None:
    outline = drawn(points((500, 0), (500, 2000), (-500, 2000), (-500, 0)))
    first = outline.sides[0].start
    assert (first.along_mm, first.across_mm) == (-500, 0)  # as near as (500, 0): the lesser along


def test_an_angled_corner_is_measured_inside() -> None:
    outline = drawn(points((0, 0), (3000, 0), (3000, 1500), (1500, 3000), (0, 3000)))
    assert [side.corner_deg for side in outline.sides] == pytest.approx([90, 90, 135, 135, 90])
    assert outline.sides[2].length_mm == pytest.approx(1500 * 2**0.5, abs=1 / 320)


def test_sides_of_rectangles_are_what_the_later_one_says() -> None:
    body = rectangle((0, 0), (4000, 3000), side="boundary", faced=True)
    wing = rectangle((4000, 0), (1500, 3000), side="open", faced=True)
    outline = drawn(OutlineWish(rectangles=(body, wing)))
    told = [(side.kind, side.facing_mm) for side in outline.sides]
    # the house's line has both words of rectangles on it, and so has the front
    assert told == [("boundary", 28), ("open", 28), ("open", 28), ("open", 28),
                    ("boundary", 28), ("boundary", 28)]  # fmt: skip


def test_of_two_rectangles_along_one_edge_the_later_speaks() -> None:
    body = rectangle((0, 0), (4000, 3000), side="boundary")
    over = rectangle((3000, 1000), (2000, 2000), side="pool")
    silent = rectangle((1000, 2000), (1000, 1000))
    outline = drawn(OutlineWish(rectangles=(body, over, silent)))
    told = [(side.start.along_mm, side.start.across_mm, side.kind) for side in outline.sides]
    assert told == [
        (0, 0, "boundary"), (4000, 0, "boundary"), (4000, 1000, "pool"), (5000, 1000, "pool"),
        (5000, 3000, "pool"), (3000, 3000, "boundary"), (0, 3000, "boundary"),
    ]  # fmt: skip
    assert outline.sides[5].corner_deg == 180


def test_a_side_on_the_line_of_the_house_is_the_houses_and_bare() -> None:
    body = rectangle((0, 0), (4000, 3000), faced=True)
    outline = drawn(OutlineWish(rectangles=(body,)))
    assert [(side.kind, side.facing_mm) for side in outline.sides] == [
        ("house", 0), ("open", 28), ("open", 28), ("open", 28)
    ]  # fmt: skip


def test_a_wall_is_put_in_as_it_was_read() -> None:
    readings = ((0, 0), (2000, 12), (4000, 8))
    wall = tuple(WallReading(along_mm=x, off_mm=off) for x, off in readings)
    wish = OutlineWish(rectangles=(rectangle((0, 0), (4000, 3000)),), wall=wall)
    outline = drawn(wish)
    starts = [(side.start.along_mm, side.start.across_mm) for side in outline.sides]
    assert starts == [(0, 0), (2000, 12), (4000, 8), (4000, 3000), (0, 3000)]
    assert [side.kind for side in outline.sides] == ["house", "house", "open", "open", "open"]
    # two trapezoids by hand: (3000 + 2988) / 2 and (2988 + 2992) / 2, each 2000 wide
    assert outline.gross_m2 == pytest.approx((2.994 + 2.990) * 2, abs=1e-9)


def test_a_wall_is_put_in_whichever_way_corners_are_told() -> None:
    wall = tuple(
        WallReading(along_mm=x, off_mm=off) for x, off in ((0, 0), (900, 7), (2500, 3), (4000, 8))
    )
    round_it = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
    one, other = (
        OutlineWish(points=points(*places, side="house").points, wall=wall)
        for places in (round_it, tuple(reversed(round_it)))
    )
    assert drawn(one) == drawn(other)
    assert [side.start.across_mm for side in drawn(one).sides] == [0, 7, 3, 8, 3000, 3000]


def test_a_wall_is_read_on_across_a_bay() -> None:
    wish = points(*BAY[:6], (4600, 2800), (0, 2800), side="house")
    wall = (WallReading(along_mm=0, off_mm=0), WallReading(along_mm=4600, off_mm=46))
    outline = drawn(OutlineWish(points=wish.points, wall=wall))
    starts = [(side.start.along_mm, side.start.across_mm) for side in outline.sides]
    # 1 in 100 from the datum corner: 12 at 1200, 31 at 3100; the bay itself as it was told
    assert starts[1:6] == [(1200, 12), (1700, 500), (2600, 500), (3100, 31), (4600, 46)]


def test_a_wall_read_straight_changes_nothing() -> None:
    wish = OutlineWish(rectangles=(rectangle((0, 0), (4000, 3000)),))
    wall = tuple(WallReading(along_mm=x, off_mm=0) for x in (0, 1000, 4000))
    assert drawn(OutlineWish(rectangles=wish.rectangles, wall=wall)) == drawn(wish)
