"""Where boards are carried, worked by hand: joists across the run, 45 thick, 400 apart."""

from collections.abc import Sequence

import pytest

from drylay.laying.axes import Axes
from drylay.laying.carried import Along, Standing, crossed, crossings
from drylay.laying.parts import Band, Part
from drylay.outline.model import Spot
from drylay.subframe.model import Member

ALONG = Along(most_mm=400.0, thickness_mm=45.0)
#: A board to the right, its middle line 70 from the house.
BAND = Band(row="B1", axes=Axes(cos_ratio=1.0, sin_ratio=0.0), low_mm=0.0, high_mm=140.0)


def board(*ring: tuple[float, float]) -> Part:
    return Part(band=BAND, ring=ring)


def whole(length: float) -> Part:
    return board((0.0, 0.0), (length, 0.0), (length, 140.0), (0.0, 140.0))


def joist(mark: str, start: tuple[float, float], end: tuple[float, float]) -> Standing:
    spots = [Spot(along_mm=x, across_mm=y) for x, y in (start, end)]
    member = Member(
        mark=mark, kind="joist", start=spots[0], end=spots[1], corners=(), length_mm=0.0,
        start_deg=0.0, end_deg=0.0, start_on="", end_on="",
    )  # fmt: skip
    return Standing(member=member, line=None)


def at(part: Part, members: Sequence[Standing], kind: str = "field") -> list[float]:
    return [round(each.at_mm, 3) for each in crossings(part, members, ALONG, kind=kind)]


def upright(u: float, reach: float = 500.0) -> Standing:
    return joist(f"J{u:g}", (u, -100.0), (u, reach))


@pytest.mark.parametrize(("reach", "crossed"), [(70.0, False), (70.05, False), (70.2, True)])
def test_a_joist_that_only_just_reaches_the_middle_line_does_not_cross_it(
    reach: float, crossed: bool
) -> None:
    found = at(whole(900.0), [upright(50.0), upright(450.0, reach), upright(850.0)])
    assert found == [50.0, *([450.0] if crossed else []), 850.0]


@pytest.mark.parametrize(("length", "crossed"), [(850.0, False), (850.05, False), (850.2, True)])
def test_a_board_that_only_just_reaches_a_joist_does_not_cross_it(
    length: float, crossed: bool
) -> None:
    found = at(whole(length), [upright(50.0), upright(450.0), upright(850.0)])
    assert found == [50.0, 450.0, *([850.0] if crossed else [])]


@pytest.mark.parametrize(("low", "crossed"), [(70.0, False), (69.95, False), (69.8, True)])
def test_a_joist_is_crossed_where_the_board_lies_to_both_sides_of_its_rows_middle(
    low: float, crossed: bool
) -> None:
    """The notch is 400 long, no longer than joists may be apart: it is no strip of its own."""
    found = at(notched(low, 200.0), [upright(450.0), upright(650.0), upright(850.0)])
    assert found == [*([450.0] if crossed else []), 650.0, 850.0]


def notched(low: float, start: float) -> Part:
    """Return a board of 900, from some way along to 600 only so much of it from an edge."""
    return board(
        (0.0, 0.0), (start, 0.0), (start, low), (600.0, low), (600.0, 0.0), (900.0, 0.0),
        (900.0, 140.0), (0.0, 140.0),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("start", "reach", "crossed"),
    [(199.8, 500.0, True), (199.8, 105.0, False), (199.8, 105.2, True), (200.0, 500.0, False)],
)
def test_a_strip_longer_than_joists_may_be_apart_is_held_along_its_own_middle(
    start: float, reach: float, crossed: bool
) -> None:
    """70 wide from 70 to 140: its middle is at 105, which the joist has to go past."""
    members = [upright(450.0, reach), upright(650.0), upright(850.0)]
    found = at(notched(70.0, start), members)
    assert found == [*([450.0] if crossed else []), 650.0, 850.0]


@pytest.mark.parametrize("length", [300.0, 900.0])
def test_a_board_under_half_as_wide_as_its_row_is_held_along_its_own_middle(length: float) -> None:
    """It had the screws of its two ends alone, however long it was."""
    strip = board((0.0, 80.0), (length, 80.0), (length, 140.0), (0.0, 140.0))
    members = [upright(50.0), upright(450.0), upright(850.0)]
    assert at(strip, members) == [each for each in (50.0, 450.0, 850.0) if each < length]
    assert [each.at_mm for each in crossed(strip, members, ALONG, kind="field")] == []


def test_a_long_taper_is_held_where_its_own_middle_leaves_it_too() -> None:
    """From half a board to nothing over 2000: 1000 long where it is 35 wide, and so on."""
    taper = board((0.0, 70.0), (2000.0, 140.0), (0.0, 140.0))
    members = [upright(u) for u in (50.0, 450.0, 850.0, 1250.0, 1650.0)]
    assert at(taper, members) == [50.0, 450.0, 850.0, 1250.0, 1650.0]


def test_a_breaker_board_has_a_middle_line_of_its_own_edges() -> None:
    narrow = board((0.0, 80.0), (900.0, 80.0), (900.0, 140.0), (0.0, 140.0))
    members = [upright(50.0, 109.0), upright(450.0, 111.0), upright(850.0, 111.0)]
    assert at(narrow, members, "breaker") == [450.0, 850.0]


def test_a_board_over_a_leaning_member_is_held_at_even_places() -> None:
    # inside the board's edges from along 100 to 800: 700 of 845, over a half of it
    leaning = joist("J1", (0.0, -20.0), (900.0, 160.0))
    # 845 less a timber's 45 is twice 400 exactly, and half a timber off either tip
    assert at(whole(845.0), [leaning]) == [22.5, 422.5, 822.5]
    assert at(whole(845.05), [leaning])[1] == pytest.approx(422.525, abs=0.001)
    assert len(at(whole(845.2), [leaning])) == 4


def test_a_board_that_a_member_leaves_before_its_half_is_not() -> None:
    # from along 388.9, a ninth of the way from the right edge to the left one every 100
    leaning = joist("J1", (388.9, 0.1), (1648.9, 140.1))
    assert at(whole(700.0), [leaning]) == []


def test_a_board_lies_along_nothing_that_is_only_beside_a_strip_of_it() -> None:
    """A strip 15 wide of 4491, then the whole board: a rim 115 off is under the last 879 alone."""
    ring = (
        (0.0, 0.0),
        (5370.0, 0.0),
        (5370.0, 140.0),
        (4491.0, 140.0),
        (4491.0, 15.0),
        (0.0, 15.0),
    )
    rim = joist("R1", (-100.0, 115.0), (5500.0, 115.0))
    assert at(board(*ring), [rim]) == []
    assert len(at(board(*ring), [joist("R1", (-100.0, 8.0), (5500.0, 8.0))])) == 15
