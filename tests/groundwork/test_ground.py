"""The ground under a deck: sums by hand beside each figure, and laws that hold for any size."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.groundwork.dig import lay_dig
from drylay.groundwork.gravel import lay_gravel
from drylay.groundwork.model import Dig
from drylay.groundwork.packing import clearance, packers_under, sunk_mm
from drylay.groundwork.strips import both_ways, named, strips_over
from drylay.site.model import Levels


def dig(along: float = 6045.0, across: float = 2995.0, **more: float) -> Dig:
    sizes = {"margin_mm": 100.0, "house_margin_mm": 100.0, "depth_mm": 50.0, **more}
    return lay_dig(cover_along_mm=along, cover_across_mm=across, spoil="skip", **sizes)


def test_a_dig_by_hand() -> None:
    """6.245 x 3.195 x 0.050 = 0.99763875; x 1.25 = 1.2470484; two bags of 0.7, one skip."""
    laid = dig()
    assert (laid.along_mm, laid.across_mm) == (6245.0, 3195.0)
    assert (laid.solid_m3, laid.loose_m3) == (0.998, 1.248)
    assert (laid.bags, laid.skips) == (2, 1)


def test_a_dig_to_a_house_wall_by_hand() -> None:
    """On the house side 10 is left to the wall: 2995 + 100 + 10 = 3105."""
    laid = dig(house_margin_mm=10.0)
    assert (laid.along_mm, laid.across_mm) == (6245.0, 3105.0)


@pytest.mark.parametrize(
    ("along", "across", "depth", "loose", "bags", "skips"),
    [
        (5000.0, 2800.0, 40.0, 0.7, 1, 1),  # 5 x 2.8 x 0.04 = 0.56; x 1.25 = 0.70: one bag, full
        (5000.0, 2801.0, 40.0, 0.701, 2, 1),  # 0.56020 x 1.25 = 0.70025: the second bag
        (10_000.0, 7339.0, 50.0, 4.587, 7, 1),  # 3.6695 x 1.25 = 4.586875: just a skip
        (10_000.0, 7340.0, 50.0, 4.588, 7, 2),  # 3.6700 x 1.25 = 4.5875: the second skip
    ],
)
def test_bags_and_skips_are_never_too_few(  # noqa: PLR0917 - a row of the table
    along: float, across: float, depth: float, loose: float, bags: int, skips: int
) -> None:
    laid = dig(along, across, margin_mm=0.0, house_margin_mm=0.0, depth_mm=depth)
    assert (laid.loose_m3, laid.bags, laid.skips) == (loose, bags, skips)


@pytest.mark.parametrize(
    ("breadth", "roll", "lap", "strips"),
    [
        (3200.0, 2000.0, 100.0, 2),  # 3100 / 1900 = 1.63
        (3900.0, 2000.0, 100.0, 2),  # 3800 / 1900 = 2: just so
        (3900.1, 2000.0, 100.0, 3),
        (2000.0, 2000.0, 100.0, 1),
        (90.0, 2000.0, 100.0, 1),  # narrower than a lap: one strip all the same
        (6245.0, 1000.0, 150.0, 8),  # 6095 / 850 = 7.17
        (4000.0, 2000.0, 0.0, 2),
    ],
)
def test_strips_by_hand(breadth: float, roll: float, lap: float, strips: int) -> None:
    assert strips_over(breadth, roll_mm=roll, lap_mm=lap) == strips


def test_both_ways_by_hand() -> None:
    """Along: (3195 - 100) / 1900 = 1.63, 2 of 6245. Across: (6245 - 100) / 1900 = 3.23, 4."""
    along, across = both_ways(dig(), roll_mm=2000.0, lap_mm=100.0)
    assert (along.run, along.lengths_mm) == ("along", (6245.0,) * 2)
    assert (across.run, across.lengths_mm) == ("across", (3195.0,) * 4)
    assert [strip.mark for strip in named(along)] == ["G1", "G2"]


SIZES = st.integers(320 * 100, 320 * 20_000).map(lambda count: count / 320)
ROLLS = st.integers(320 * 500, 320 * 5000).map(lambda count: count / 320)
SHARES = st.integers(0, 95)


@given(SIZES, ROLLS, SHARES, SHARES)
def test_more_lap_never_takes_fewer_strips(breadth: float, roll: float, a: int, b: int) -> None:
    less, more = sorted((a, b))
    few = strips_over(breadth, roll_mm=roll, lap_mm=roll * less / 100)
    many = strips_over(breadth, roll_mm=roll, lap_mm=roll * more / 100)
    assert few <= many


@given(SIZES, ROLLS, st.integers(0, 400), st.integers(0, 1000))
def test_every_point_of_the_dig_lies_under_a_strip(
    breadth: float, roll: float, lap: int, per_mille: int
) -> None:
    """Strips laid from one edge with just their laps reach any point, and one fewer would not."""
    count, step = strips_over(breadth, roll_mm=roll, lap_mm=float(lap)), roll - lap
    point = breadth * per_mille / 1000
    assert any(n * step <= point + 1e-6 and point <= n * step + roll + 1e-6 for n in range(count))
    if count > 1:
        assert (count - 2) * step + roll < breadth


@given(SIZES, SIZES, st.integers(10, 500), st.integers(0, 2000))
def test_a_dig_is_never_told_smaller_than_it_is(
    along: float, across: float, depth: int, margin: int
) -> None:
    laid = dig(along, across, margin_mm=float(margin), house_margin_mm=0.0, depth_mm=float(depth))
    solid = Fraction(laid.along_mm) * Fraction(laid.across_mm) * depth / 10**9
    told = Fraction(repr(laid.solid_m3))
    assert solid <= told < solid + Fraction(1, 1000)
    assert Fraction(repr(laid.loose_m3)) >= told or laid.loose_m3 >= laid.solid_m3
    assert laid.bags * Fraction("0.7") >= solid * Fraction("1.25")
    assert laid.skips * Fraction("4.587") >= solid * Fraction("1.25")


def test_gravel_by_hand() -> None:
    """6.245 x 3.195 x 0.040 = 0.798111; x 1600 = 1276.9776; x 1650 = 1316.88315."""
    bed = lay_gravel(dig(), article="G", below_lawn_mm=10.0, density_kg_m3=1600.0)
    assert (bed.depth_mm, bed.volume_m3, bed.mass_kg) == (40.0, 0.799, 1277.0)
    heavy = lay_gravel(dig(), article="G", below_lawn_mm=10.0, density_kg_m3=1650.0)
    assert heavy.mass_kg == 1316.9


@pytest.mark.parametrize(
    ("joist", "spacing", "packers"),
    [
        (2905.0, 600.0, 6),  # 2905 / 600 = 4.84: 5 fields, 6 packers
        (2400.0, 600.0, 5),  # 4 fields just so
        (2400.1, 600.0, 6),
        (485.0, 600.0, 2),  # one field: both ends
    ],
)
def test_packers_under_a_joist(joist: float, spacing: float, packers: int) -> None:
    assert packers_under(joist, spacing) == packers


@given(SIZES, st.integers(100, 2000))
def test_packers_are_none_too_far_apart_and_none_too_many(joist: float, spacing: int) -> None:
    fields = packers_under(joist, float(spacing)) - 1
    assert joist / fields <= spacing + 1e-9
    assert fields == 1 or joist / (fields - 1) > spacing - 1e-9
    assert fields == ceil(joist / spacing)


def levels(underside: float, low: float | None, high: float | None) -> Levels:
    return Levels(
        datum="a peg", limits=(), highest_mm=None, lowest_mm=None, highest_by="", lowest_by="",
        deck_top_mm=underside + 173.0, underside_mm=underside, ground_most_mm=high,
        ground_least_mm=low, marks=(), steps_down=None, rise_mm=None,
        edge_least_mm=low, drop_mm=None, under_most_mm=None, under_least_mm=None,
        fall_to_house_mm=None, garden_lowest_mm=None,
    )  # fmt: skip


def test_the_room_under_a_frame_by_hand() -> None:
    """Underside at 30, ground -15 to 0, gravel 10 under the lawn: 30 - 0 + 10, 30 + 15 + 10."""
    bed = lay_gravel(dig(), article="G", below_lawn_mm=10.0, density_kg_m3=1600.0)
    room = clearance(levels(30.0, -15.0, 0.0), sunk_mm(dig(), bed))
    assert room is not None
    assert (room.least_mm, room.most_mm) == (40.0, 55.0)
    assert sunk_mm(dig(), None) == 50.0  # the bottom of the dig
    assert sunk_mm(None, None) == 0.0  # the lawn


def test_no_room_is_guessed_without_levels() -> None:
    assert clearance(None, 10.0) is None
    assert clearance(levels(30.0, None, None), 10.0) is None
