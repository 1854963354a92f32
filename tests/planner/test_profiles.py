"""String lines and profiles: a garden by hand, and laws on every shape that papers draw."""

import math
from itertools import combinations, product

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from audit.sample_site import site
from drylay.errors import SettingOutError
from drylay.groundwork.dig import lay_dig
from drylay.groundwork.model import Groundwork
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.planner.profiles import profiles
from drylay.work.model import LineEnd, Peg, Profile, Profiles
from papers.outlined_sample import outlined_plan, shapes
from plan.sample import blocked_plan, sample_plan

SHAPES = shapes()
Place = tuple[float, float]
NEAR_MM = 0.01  # three roundings to 1/320 mm


def rectangle(
    along_mm: float = 6000.0, across_mm: float = 3000.0, *, fascia_mm: float = 28.0,
    units: str = "metric", margin_mm: float = 100.0,
) -> Plan:  # fmt: skip
    """Return a deck beside a house, 10 off its wall, with fascia on three sides, and its dig."""
    plan = sample_plan(row_length_mm=1200.0, rows=4, units=units)
    left, right, front = fascia_mm, along_mm - fascia_mm, across_mm - fascia_mm
    corners = ((left, 0.0), (right, 0.0), (right, front), (left, front))
    pegs = tuple(Peg(mark=f"P{n}", along_mm=x, across_mm=y)
                 for n, (x, y) in enumerate(corners, start=1))  # fmt: skip
    dig = lay_dig(cover_along_mm=along_mm, cover_across_mm=across_mm, margin_mm=margin_mm,
                  house_margin_mm=10.0, depth_mm=50.0, spoil="bags")  # fmt: skip
    assert plan.work is not None
    return evolve(
        plan,
        surface=evolve(plan.surface, cover_along_mm=along_mm, cover_across_mm=across_mm),
        site=evolve(site(), beside_house=True, wall_gap_mm=10.0, levels=None),
        groundwork=Groundwork(dig=dig, fabric=None, gravel=None, packing=None),
        work=evolve(plan.work, setting_out=evolve(plan.work.setting_out, pegs=pegs)),
    )


def place(spot: Spot) -> Place:
    return spot.along_mm, spot.across_mm


def board(profile: Profile) -> LineString:
    return LineString([place(profile.start), place(profile.end)])


def ends(found: Profiles) -> list[tuple[str, str, float]]:
    return [
        (end.kind, end.peg, end.beyond_mm) for line in found.lines for end in (line.start, line.end)
    ]


def codes(found: Profiles) -> list[str]:
    return [finding.code for finding in found.findings]


def test_a_rectangle_beside_a_house_by_hand() -> None:
    """Cover 6000 by 3000, frame 28 in on three sides, dug 100 further, profiles 600 off that.

    28 + 100 + 600 = 728 past a peg, up to 750. Along the house the wall is 10 off the pegs; a nail
    keeps 50 from its board's end and the board 100 from the wall: 140 further in, up to 200. The
    side lines meet the wall 10 past their pegs.
    """
    found = profiles(rectangle())
    assert found.source_line == "house"
    assert found.wall_off_mm == 210.0
    assert [(line.mark, line.start_peg, line.end_peg, line.off_mm) for line in found.lines] == [
        ("SL1", "P1", "P2", 200.0), ("SL2", "P2", "P3", 0.0), ("SL3", "P3", "P4", 0.0),
        ("SL4", "P4", "P1", 0.0),
    ]  # fmt: skip
    assert ends(found) == [
        ("profile", "P1", 750.0), ("profile", "P2", 750.0), ("wall", "P2", 10.0),
        ("profile", "P3", 750.0), ("profile", "P3", 750.0), ("profile", "P4", 750.0),
        ("profile", "P4", 750.0), ("wall", "P1", 10.0),
    ]  # fmt: skip
    # 5944 + 2 x 750; 10 + 2972 + 750
    assert [line.length_mm for line in found.lines] == [7444.0, 3732.0, 7444.0, 3732.0]
    assert found.string_mm == 2 * (7444.0 + 3732.0)
    assert [profile.clear_mm for profile in found.profiles] == [622.0] * 6
    first, _, third = found.profiles[:3]
    assert (place(first.start), place(first.end)) == ((-722.0, 750.0), (-722.0, 150.0))
    assert (place(third.start), place(third.end)) == ((6272.0, 3722.0), (5672.0, 3722.0))
    # from the datum line, 200 inside P1: P3's nail past it lies 3722 - 200 off, 5944 along
    assert (found.lines[1].end.datum_along_mm, found.lines[1].end.datum_off_mm) == (5944.0, 3522.0)
    assert codes(found) == ["SET-103", "SET-105"]


def test_the_diagonals_of_a_rectangle_and_of_an_l() -> None:
    """5944 and 2972 are 2 to 1: 2972 x root 5 = 6645.6. An L's tapes do not run through the house.

    Of its seven pegs 21 - 7 = 14 pairs are no sides.
    """
    found = profiles(rectangle()).diagonals
    assert [(tie.start, tie.end, tie.check) for tie in found] == [
        ("P1", "P3", True), ("P2", "P4", True),
    ]  # fmt: skip
    assert found[0].length_mm == pytest.approx(2972 * math.sqrt(5), abs=0.002)
    open_l = profiles(outlined_plan([(0.0, 0.0), (4000.0, 0.0), (4000.0, 2000.0), (2000.0, 2000.0),
                                     (2000.0, 5000.0), (0.0, 5000.0)]))  # fmt: skip
    assert len(open_l.diagonals) == 15 - 6
    walled = profiles(outlined_plan(
        [(0.0, 0.0), (4000.0, 0.0), (4000.0, 2000.0), (2000.0, 2000.0), (2000.0, 5000.0),
         (0.0, 5000.0)], kinds={2: "house", 3: "house"},
    ))  # fmt: skip
    seen = {(tie.start, tie.end) for tie in walled.diagonals}
    assert ("P3", "P5") not in seen
    assert ("P1", "P3") in seen


@pytest.mark.parametrize(
    ("top_mm", "ground_mm", "over_mm"),
    [(200.0, 0.0, 0.0), (150.0, 0.0, 0.0), (600.0, 0.0, 0.0), (100.0, 0.0, 100.0),
     (-10.0, 0.0, 200.0), (2000.0, 0.0, -1800.0), (751.0, 100.0, -500.0)],
)  # fmt: skip
def test_lines_are_level_and_clear_of_the_ground(
    top_mm: float, ground_mm: float, over_mm: float
) -> None:
    """At the top if that is 150 to 600 up, else the lowest whole 100 from it that is 150 up."""
    levels = evolve(site().levels, deck_top_mm=top_mm, ground_most_mm=ground_mm)
    plan = rectangle()
    found = profiles(evolve(plan, site=evolve(plan.site, levels=levels)))
    assert found.over_top_mm == over_mm
    assert found.line_level_mm == top_mm + over_mm
    assert "SET-105" not in codes(found)


def test_a_fence_beside_the_deck_leaves_less_room_or_none() -> None:
    """Right of the cover at 6000 by 400: boards stand past the dig's 6100, before the fence's 6400.

    In whole 50 from the peg at 5972: 400 past it is 6372, which is 272 off the dig. A fence at
    6150 leaves 50 past the dig, less than any profile wants.
    """
    fence = ((6400.0, -1000.0), (6400.0, 5000.0))
    found = profiles(rectangle(), boundaries=[fence])
    assert ends(found)[1] == ("profile", "P2", 400.0)
    short = [each for each in found.findings if each.code == "SET-101"]
    assert [(each.measured, each.limit) for each in short] == [(272.0, 600.0)] * 2
    close = ((6150.0, -1000.0), (6150.0, 5000.0))
    found = profiles(rectangle(), boundaries=[close])
    assert ends(found)[1] == ("none", "P2", 0.0)
    assert found.lines[0].length_mm is None
    assert codes(found).count("SET-102") == 2


def test_a_line_over_a_tree_is_cautioned() -> None:
    """The line past P5 of this L runs on over the deck, through the tree that stands there."""
    found = profiles(SHAPES["L"])
    struck = [each for each in found.findings if each.code == "SET-104"]
    assert struck == []
    tree = evolve(SHAPES["L"].outline.openings[1], within=(
        Spot(along_mm=2900.0, across_mm=900.0), Spot(along_mm=3100.0, across_mm=900.0),
        Spot(along_mm=3100.0, across_mm=1100.0), Spot(along_mm=2900.0, across_mm=1100.0),
    ))  # fmt: skip
    outline = evolve(SHAPES["L"].outline, openings=(tree,))
    struck = [each for each in profiles(evolve(SHAPES["L"], outline=outline)).findings
              if each.code == "SET-104"]  # fmt: skip
    assert [each.subject for each in struck] == ["SL5"]


def test_profiles_keep_off_lines_that_are_strung_later() -> None:
    """The line past P3 of this L runs up to the right, by the end of the line along the house.

    P3 is 28 inside the sides x = 6000 and x + y = 7200: (5972, 1188.4). The first place past P2 is
    650 out. The other line's profile stands 950 past P3, at (6643.8, 516.7), and reaches 550 on
    down to the right, to (7032.7, 905.6). So the one past P2 goes out to 1350, at 7322.
    """
    found = profiles(SHAPES["L"])
    assert "SET-107" not in codes(found)
    assert ends(found)[1] == ("profile", "P2", 1350.0)
    assert place(found.profiles[3].end) == pytest.approx((7032.7, 905.6), abs=0.2)


def test_the_dig_under_an_outline_reaches_past_open_sides_alone() -> None:
    """Dug 150 past the open sides, 5 past the house's, and not past the pool's."""
    plan = SHAPES["small"]
    dig = rectangle(margin_mm=150.0).groundwork.dig
    ground = Groundwork(
        dig=evolve(dig, house_margin_mm=5.0), fabric=None, gravel=None, packing=None
    )
    found = profiles(evolve(plan, groundwork=ground))
    # corners (0, 0), (900, 0), (900, 600), (300, 900), (0, 900): house, open, pool, open, open
    laws_hold(plan, found, box(-150.0, -5.0, 1050.0, 600.0))
    wide = [spot.along_mm for ring in found.dig for spot in ring]
    deep = [spot.across_mm for ring in found.dig for spot in ring]
    assert (min(wide), max(wide), min(deep), max(deep)) == (-150.0, 1050.0, -5.0, 1050.0)
    assert "SET-106" not in codes(found)


def test_from_a_datum_line_anywhere() -> None:
    """Two pegs on a line straight away from the house, 1000 left of the datum corner.

    Looking along it, away from the house, the deck lies to the left: below 0.
    """
    found = profiles(rectangle(), source_line="datum line", datum=((-1000.0, 0.0), (-1000.0, 4e3)))
    assert (found.source_line, found.wall_off_mm) == ("datum line", None)
    end = found.lines[1].end
    assert (end.datum_along_mm, end.datum_off_mm) == (3722.0, -6972.0)
    free = evolve(rectangle(), site=None)
    assert profiles(free).source_line == "datum line"
    assert place(profiles(free).datum_start) == (28.0, 0.0)


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(SettingOutError) as told:
        profiles(evolve(rectangle(), site=None), clear_mm=20.0, source_line="house",
                 datum=((0.0, 0.0), (1.0, 0.0)),
                 boundaries=[((math.nan, 0.0), (1.0, 0.0))])  # fmt: skip
    assert [fault.path for fault in told.value.faults] == [
        "clear_mm", "source_line", "datum", "datum", "boundaries[0]",
    ]  # fmt: skip
    with pytest.raises(SettingOutError, match=r'"fence".*wanted "house" or "datum line"'):
        profiles(rectangle(), source_line="fence")
    with pytest.raises(SettingOutError, match="plan: found no pegs"):
        profiles(blocked_plan())


# Laws


def laws_hold(plan: Plan, found: Profiles, dug: Polygon) -> None:
    """Boards off the dig and each other; strings over pegs; nails on boards; places from datum."""
    at = {peg.mark: (peg.along_mm, peg.across_mm) for peg in plan.work.setting_out.pegs}
    boards = {profile.mark: profile for profile in found.profiles}
    for profile in found.profiles:
        assert board(profile).length == pytest.approx(found.board_mm, abs=NEAR_MM)
        assert board(profile).distance(dug) >= profile.clear_mm - NEAR_MM
        short = any(f.code == "SET-101" and f.subject == profile.mark for f in found.findings)
        assert short or profile.clear_mm >= found.clear_mm - NEAR_MM
    for one, other in combinations(found.profiles, 2):
        assert board(one).distance(board(other)) >= 100.0 - NEAR_MM
    told = {f.subject for f in found.findings if f.code == "SET-107"}
    for line, profile in product(found.lines, found.profiles):
        string = LineString([place(line.start.at), place(line.end.at)])
        if profile.line != line.mark and profile.mark not in told:
            assert board(profile).distance(string) >= 20.0 - NEAR_MM
    for line in found.lines:
        one, other = place(line.start.at), place(line.end.at)
        for peg in (line.start_peg, line.end_peg):
            assert off_line(one, other, at[peg]) == pytest.approx(line.off_mm, abs=NEAR_MM)
        if line.length_mm is not None:
            assert line.length_mm == pytest.approx(math.dist(one, other), abs=NEAR_MM)
        for end in (line.start, line.end):
            assert place(end.at) == pytest.approx(from_datum(found, end), abs=NEAR_MM)
            if end.profile:
                nail, profile = place(end.at), boards[end.profile]
                from_start = math.dist(place(profile.start), nail)
                assert from_start == pytest.approx(profile.nail_mm, abs=NEAR_MM)
                assert off_line(place(profile.start), place(profile.end), nail) < NEAR_MM
                assert square(one, other, place(profile.start), place(profile.end))


def off_line(one: Place, other: Place, at: Place) -> float:
    (x1, y1), (x2, y2), (x, y) = one, other, at
    return abs((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)) / math.dist(one, other)


def square(a: Place, b: Place, c: Place, d: Place) -> bool:
    along = (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1])
    return abs(along) / math.dist(a, b) < 0.05


def from_datum(found: Profiles, end: LineEnd) -> Place:
    """Return a place as one goes to it: along the datum line, then square off it to the right."""
    (x1, y1), (x2, y2) = place(found.datum_start), place(found.datum_end)
    turn = math.atan2(y2 - y1, x2 - x1)
    along, off = end.datum_along_mm, end.datum_off_mm
    return (x1 + along * math.cos(turn) - off * math.sin(turn),
            y1 + along * math.sin(turn) + off * math.cos(turn))  # fmt: skip


@pytest.mark.parametrize("name", SHAPES)
def test_laws_hold_of_every_shape(name: str) -> None:
    plan = SHAPES[name]
    found = profiles(plan)
    deck = Polygon([place(side.start) for side in plan.outline.sides])
    laws_hold(plan, found, deck)
    if all(abs(y) < 1 for y in house_lines(plan)):  # one straight wall along the datum
        assert min(y for p in found.profiles for _, y in board(p).coords) >= 100.0 - NEAR_MM
    for profile in found.profiles:
        assert not board(profile).crosses(behind_the_house(plan))
        assert not board(profile).within(behind_the_house(plan))


def house_lines(plan: Plan) -> list[float]:
    return [
        spot.across_mm for side in plan.outline.sides if side.kind == "house"
        for spot in (side.start, side.end)
    ]  # fmt: skip


def behind_the_house(plan: Plan) -> Polygon:
    """Return what lies straight behind each house side, as far as it is long, and no deck."""
    area = Polygon()
    for side in plan.outline.sides:
        if side.kind == "house":
            (x1, y1), (x2, y2) = place(side.start), place(side.end)
            long = math.dist((x1, y1), (x2, y2))
            nx, ny = (y2 - y1) / long * 3000, (x1 - x2) / long * 3000
            strip = Polygon([(x1, y1), (x2, y2), (x2 + nx, y2 + ny), (x1 + nx, y1 + ny)])
            area = area.union(strip)
    return area.difference(Polygon([place(side.start) for side in plan.outline.sides]))


@settings(max_examples=15)
@given(
    st.tuples(st.integers(900, 15_000), st.integers(900, 9000)),
    st.tuples(st.integers(0, 40), st.integers(0, 300), st.integers(300, 1500)),
    st.sampled_from(["metric", "imperial"]),
)
def test_laws_hold_of_any_rectangle(
    sides: tuple[int, int], sizes: tuple[int, int, int], units: str
) -> None:
    (along, across), (fascia, margin, clear) = sides, sizes
    plan = rectangle(float(along), float(across), fascia_mm=float(fascia), units=units,
                     margin_mm=float(margin))  # fmt: skip
    found = profiles(plan, clear_mm=float(clear))
    laws_hold(plan, found, box(-margin, -10, along + margin, across + margin))
    assert [end.kind for line in found.lines for end in (line.start, line.end)].count("none") == 0
    assert not {"SET-101", "SET-107"} & set(codes(found))
    for profile in found.profiles:
        assert min(profile.start.across_mm, profile.end.across_mm) >= -10 + 100 - NEAR_MM
