"""Screws of doubles against sums by hand: 10 shanks off the ends, 300 or less between, 2 an end."""

import math

import pytest
from attrs import evolve

from drylay.fixings.doubles import count_double_screws, doubled_members, length_least_mm, may_join
from drylay.fixings.model import DoubleScrews
from drylay.outline.model import Spot
from drylay.subframe.model import Member

THICK, DEEP = 45.0, 145.0


def member(  # noqa: PLR0917 - read as the row of a table
    mark: str, kind: str, u: float, start: float, end: float, on: str = "R1-R3", turned: float = 0.0
) -> Member:
    """Return a timber across, its middle line so far along; all of it turned by some degrees."""
    cos, sin = math.cos(math.radians(turned)), math.sin(math.radians(turned))

    def spot(x: float, y: float) -> Spot:
        return Spot(along_mm=round((x * cos - y * sin) * 320) / 320,
                    across_mm=round((x * sin + y * cos) * 320) / 320)  # fmt: skip

    corners = ((u + 22.5, start), (u + 22.5, end), (u - 22.5, end), (u - 22.5, start))
    first, last = on.split("-")
    return Member(
        mark=mark, kind=kind, start=spot(u, start), end=spot(u, end),
        corners=tuple(spot(*each) for each in corners), length_mm=end - start,
        start_deg=0.0, end_deg=0.0, start_on=first, end_on=last,
    )  # fmt: skip


def counted(*members: Member, shank_mm: float = 6.0, deep_mm: float = DEEP) -> DoubleScrews | None:
    return count_double_screws(
        members, timber_mm=(THICK, deep_mm), article="FS", shank_mm=shank_mm, length_mm=90.0,
        pilot_ratio=0.7,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("length_mm", "between", "apart_mm"),
    [
        (2310.0, 7, 273.75),  # 2190 between the outer places, over 300: 7.3, so 8 steps
        (1063.5, 3, 235.875),  # 943.5: 4 steps
        (720.0, 1, 300.0),  # 600: 2 steps just
        (720.003125, 2, 200.0),  # 1/320 more: 3 steps of 200.001, down to 1/320
        (420.0, 0, 300.0),
        (120.0, 0, 0.0),  # both places are one
    ],
)
@pytest.mark.parametrize("turned", [0.0, 90.0])
def test_the_fewest_that_keep_the_spacing(
    length_mm: float, between: int, apart_mm: float, turned: float
) -> None:
    screws = counted(
        member("J1", "joist", 100.0, 0.0, 3000.0, turned=turned),
        member("D1", "double", 145.0, 200.0, 200.0 + length_mm, turned=turned),
    )
    assert screws is not None
    (stretch,) = screws.stretches
    assert (stretch.member, stretch.to) == ("D1", "J1")
    assert stretch.length_mm == length_mm
    assert (stretch.between, stretch.count) == (between, 4 + between)
    assert stretch.apart_mm == apart_mm
    assert screws.count == 4 + between


def test_timbers_askew_have_as_many_as_square_ones() -> None:
    """Places are rounded to 1/320 mm."""
    screws = counted(
        member("J1", "joist", 100.0, 0.0, 3000.0, turned=33.0),
        member("D1", "double", 145.0, 200.0, 2510.0, turned=33.0),
    )
    assert screws is not None
    (stretch,) = screws.stretches
    assert stretch.length_mm == pytest.approx(2310.0, abs=0.01)
    assert (stretch.between, stretch.count) == (7, 11)


def test_a_stretch_with_no_room_for_two_places_has_none() -> None:
    """Twice ten shanks of 6: 120."""
    joist = member("J1", "joist", 100.0, 0.0, 3000.0)
    assert counted(joist, member("D1", "double", 145.0, 0.0, 119.9)) is None
    assert counted(joist, member("D1", "double", 146.0, 0.0, 900.0)) is None  # 1 mm off
    assert counted(joist) is None


def test_each_part_of_a_jointed_joist_has_a_stretch_of_its_own() -> None:
    """A joint at 1000: 1000 and 500 of the double beside the two, 1000 - 120 over 3, 380 over 2."""
    screws = counted(
        member("J1.1", "joist", 100.0, 0.0, 1000.0),
        member("J1.2", "joist", 100.0, 1000.0, 3000.0),
        member("D1", "double", 145.0, 0.0, 1500.0),
    )
    assert screws is not None
    told = [(each.to, each.length_mm, each.count) for each in screws.stretches]
    assert told == [("J1.1", 1000.0, 6), ("J1.2", 500.0, 5)]


def test_slanted_ends_count_from_where_both_have_their_full_thickness() -> None:
    """Sawn at 45 degrees a timber of 45 is 45 shorter on one face."""
    double = member("D1", "double", 145.0, 0.0, 1000.0)
    low = Spot(along_mm=122.5, across_mm=45.0)
    slanted = evolve(double, corners=(*double.corners[:3], low))
    (both,) = doubled_members([member("J1", "joist", 100.0, 0.0, 3000.0), slanted])
    assert both.length_mm == 955.0


def test_a_pair_that_stands_in_for_a_double_is_screwed_to_its_joist() -> None:
    members = [
        member("J1", "joist", 100.0, 0.0, 1000.0),
        member("J2", "pair", 145.0, 0.0, 1000.0),
        member("J3", "joist", 900.0, 0.0, 1000.0),
        member("J4", "pair", 945.0, 0.0, 1000.0),  # carries nothing
        member("D1", "double", 522.5, 400.0, 800.0, on="J2-R9"),
    ]
    assert [(each.member.mark, each.to.mark) for each in doubled_members(members)] == [("J2", "J1")]
    both = [evolve(members[-1], end_on="J1"), *members[:-1]]
    assert [(each.member.mark, each.to.mark) for each in doubled_members(both)] == [("J1", "J2")]


def test_a_joist_with_a_double_of_its_own_wants_no_other() -> None:
    members = [
        member("J1", "joist", 100.0, 0.0, 1000.0),
        member("J2", "pair", 55.0, 0.0, 1000.0),
        member("D1", "double", 145.0, 0.0, 1000.0),
        member("D2", "double", 522.5, 400.0, 800.0, on="J1-R9"),
    ]
    assert [(each.member.mark, each.to.mark) for each in doubled_members(members)] == [("D1", "J1")]


@pytest.mark.parametrize(
    ("shank_mm", "length_mm", "holds"),
    [
        (6.0, 81.0, True),  # 45 and six shanks
        (6.0, 80.9, False),
        (6.0, 90.0, True),  # both timbers
        (6.0, 90.1, False),
        (5.0, 75.0, True),
        (4.9, 80.0, False),  # thinner than stands for the nail
    ],
)
def test_a_screw_reaches_into_the_second_timber_and_not_out(
    shank_mm: float, length_mm: float, holds: bool
) -> None:
    assert may_join(THICK, shank_mm, length_mm) is holds
    assert length_least_mm(THICK, 6.0) == 81.0


def test_shallow_timber_has_its_screws_at_a_quarter_of_the_depth() -> None:
    beside = (member("J1", "joist", 0.0, 0.0, 900.0), member("D1", "double", 45.0, 0.0, 900.0))
    for deep_mm, edge_mm in ((95.0, 23.75), (152.0, 38.0), (220.0, 38.0)):
        screws = counted(*beside, deep_mm=deep_mm)
        assert screws is not None
        assert screws.edge_mm == edge_mm
