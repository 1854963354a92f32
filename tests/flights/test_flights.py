"""Flights: laws over all regions, then flights worked by hand and rules that clash."""

from fractions import Fraction
from itertools import pairwise
from math import atan, cos, degrees, hypot, radians, sin

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.flights.made import flight_findings, guarded_treads
from drylay.flights.model import Flight, FlightRules, FlightWays
from drylay.flights.rules import NAMES, broken_rules, flight_rules, rule_findings
from drylay.flights.ways import flight_ways
from drylay.marks import MARK_320, exact
from drylay.regions.packs import PACKS, region_pack

INCH = 25.4
RULES = {pack: flight_rules(region_pack(pack)) for pack in PACKS}
UK, NA = RULES["united-kingdom"], RULES["north-america"]
drops = st.integers(110 * 320, 1700 * 320).map(lambda length: length / 320)
packs = st.sampled_from(PACKS)
falls = st.integers(-20, 20).map(lambda share: share / 100)


def ways_of(rules: FlightRules, drop: float, **more: object) -> FlightWays:
    asked = {"rules": rules, "drop_mm": drop, "tread_mm": 28.0, "board_mm": 28.0, **more}
    return flight_ways(**asked)


def codes(found: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in found]


def keeps(flight: Flight, rules: FlightRules) -> None:
    """Hold a flight against its region's figures, written out anew."""
    near = 1e-9
    limits = {name: getattr(rules, name).value for name in NAMES}

    def between(measured: float, least: str, most: str) -> None:
        assert limits[least] is None or measured >= limits[least] - near
        assert limits[most] is None or measured <= limits[most] + near

    between(flight.riser_mm, "rise_least", "rise_most")
    if flight.risers > 1:
        between(flight.going_mm, "going_least", "going_most")
        stride = 2 * flight.riser_mm + flight.going_mm
        between(stride, "two_rise_going_least", "two_rise_going_most")
        steepest = limits["pitch_most"]
        assert (
            steepest is None or degrees(atan(flight.riser_mm / flight.going_mm)) <= steepest + near
        )


@given(pack=packs, drop=drops, fall=falls, mark=st.sampled_from([508, 1600, 3200]))
def test_equal_risers_sum_to_the_rise_and_keep_every_rule(
    pack: str, drop: float, fall: float, mark: int
) -> None:
    for way in ways_of(RULES[pack], drop, fall_ratio=fall, mark_320=mark).ways:
        heights = [0, *(exact(height) for height in way.heights_mm)]
        steps = [other - one for one, other in pairwise(heights)]
        assert sum(steps) == exact(way.rise_mm)
        assert len(steps) == way.risers
        assert max(steps) - min(steps) <= 1  # 1/320 mm
        assert way.run_mm == pytest.approx((way.risers - 1) * way.going_mm)
        assert way.rise_mm == pytest.approx(drop + fall * way.run_mm, abs=1 / 320)
        keeps(way, RULES[pack])


@given(pack=packs, drop=drops)
def test_no_number_of_risers_that_keeps_the_rules_is_missed(pack: str, drop: float) -> None:
    """Looked for by hand: every number, every tenth going, by the figures alone."""
    rules = RULES[pack]
    found = {way.risers for way in ways_of(rules, drop, mark_320=3200).ways}
    for risers in range(1, int(drop // 100) + 2):
        riser = drop / risers
        for going in range(200, 631, 10):
            try:
                keeps(_plain(risers, riser, float(going)), rules)
            except AssertionError:
                continue
            if riser >= 100:
                assert risers in found
            break


STEP = ways_of(NA, 150.0).ways[0]


def _plain(risers: int, riser: float, going: float) -> Flight:
    return evolve(STEP, risers=risers, riser_mm=riser, going_mm=going)


@given(pack=packs, drop=drops)
def test_either_a_way_or_what_clashes(pack: str, drop: float) -> None:
    told = ways_of(RULES[pack], drop, mark_320=1600)
    assert bool(told.ways) != bool(told.findings)
    if told.findings:
        assert codes(told.findings)[0] == "STP-001"
        assert all(f.severity is Severity.STOP for f in told.findings)
        assert all(f.measured is not None for f in told.findings[1:])


@given(pack=packs, drop=drops)
def test_the_best_comes_first(pack: str, drop: float) -> None:
    ways = [way for way in ways_of(RULES[pack], drop, mark_320=1600).ways if way.risers > 1]
    off = [abs(way.two_rise_going_mm - 630) for way in ways]
    assert off == sorted(off)


def test_a_flight_in_feet_and_inches_by_hand() -> None:
    """34 in at 7 3/4 most: 4.39, so 5 of 6.8 in; four goings of 10 in are 40 in."""
    best = ways_of(NA, 34 * INCH, goings_mm=(10 * INCH,), mark_320=MARK_320["imperial"]).ways[0]
    assert (best.risers, best.treads) == (5, 4)
    assert best.riser_mm == pytest.approx(6.8 * INCH)
    assert best.run_mm == pytest.approx(40 * INCH)
    assert (best.handrail, best.handrail_by) == (True, "handrail_risers")  # four or more risers


def test_a_flight_in_england_by_hand() -> None:
    """600: 3 of 200 with 230, 2R + G = 630, pitch atan(200/230) = 41.01; 4 of 150 with 300: 600."""
    three, four = ways_of(UK, 600.0).ways
    assert (three.risers, three.riser_mm, three.going_mm) == (3, 200.0, 230.0)
    assert three.pitch_deg == pytest.approx(41.009, abs=1e-3)
    assert (three.going_from_mm, three.going_to_mm) == (222.5, 300.0)  # 200 / tan 42 = 222.12
    assert (four.risers, four.riser_mm, four.going_mm) == (4, 150.0, 300.0)
    assert not three.handrail  # 600 is not more than 600
    assert "0.0 off 630" in three.why[0]
    assert "after 1" in four.why[1]


def test_the_stringer_by_hand() -> None:
    """3 of 200, going 230, treads of 28: top seat at 2 x 200 - 28 = 372, run 460.

    Slope atan(200/230): cos 0.75460, sin 0.65617; 460 x 0.75460 + 372 x 0.65617 = 591.21. First
    cut 172; top seat 228 below the deck's top, 200 below the frame's under boards of 28.
    """
    way = ways_of(UK, 600.0).ways[0]
    assert way.stringer_mm == pytest.approx(591.21, abs=0.01)
    assert (way.first_cut_mm, way.seat_below_top_mm) == (172.0, 228.0)
    assert way.seat_below_frame_mm == 200.0
    assert way.notch_mm == pytest.approx(200 * 230 / hypot(200, 230))


def test_a_stringer_of_no_tread_thickness_is_the_line_over_the_nosings() -> None:
    """Geometry: two steps of 200 and 230 along the slope."""
    way = ways_of(UK, 600.0, tread_mm=1e-9).ways[0]
    assert way.stringer_mm == pytest.approx(2 * hypot(200, 230))
    slope = radians(way.pitch_deg)
    assert 460 * cos(slope) + 400 * sin(slope) == pytest.approx(2 * hypot(200, 230))


def test_ground_that_falls_away_lengthens_the_rise_by_hand() -> None:
    """500 at the edge, 1 in 10 down, going 250: 3 risers run 500, rise 550, each 183.33."""
    told = ways_of(UK, 500.0, goings_mm=(250.0,), fall_ratio=0.1).ways
    (three,) = [way for way in told if way.risers == 3]
    assert three.rise_mm == 550.0
    assert three.riser_mm == pytest.approx(550 / 3)


def test_falling_ground_may_take_more_risers_than_the_drop() -> None:
    """150 at the edge, 1 in 5 down, going 300: 2 risers run 300, rise 210, each 105."""
    told = ways_of(NA, 150.0, goings_mm=(300.0,), fall_ratio=0.2).ways
    assert [(way.risers, way.rise_mm) for way in told][-1] == (2, 210.0)


def test_a_single_riser() -> None:
    way = ways_of(UK, 180.0).ways[0]
    assert (way.risers, way.treads, way.run_mm, way.stringer_mm) == (1, 0, 0.0, 0.0)
    assert (way.pitch_deg, way.notch_mm, way.handrail) == (0.0, 0.0, False)
    assert way.why[0] == "a single riser has no going"


def test_a_rise_of_220_with_a_going_of_220_is_45_degrees() -> None:
    """Approved Document K's limits clash there: 2R + G is 660, within 550 to 700; pitch over 42."""
    broken = broken_rules(UK, risers=3, rise_mm=Fraction(660), going_mm=220.0)
    (found,) = rule_findings(broken, "flight of 3")
    assert (found.code, found.severity) == ("STP-002", Severity.STOP)
    assert found.measured == pytest.approx(45.0)
    assert (found.limit, found.unit) == (42.0, "deg")
    assert "Approved Document K" in found.source.title


def test_a_clash_tells_the_nearest_flights_with_figures() -> None:
    """440 with goings of 220: 2 of 220 are 45 degrees; 3 of 146.7 are under 150, 2R + G 513."""
    told = ways_of(UK, 440.0, goings_mm=(220.0,))
    assert told.ways == ()
    assert codes(told.findings) == ["STP-001", "STP-002", "STP-002"]
    subjects = [(f.subject, f.limit) for f in told.findings[1:]]
    assert subjects == [("flight of 1", 220.0), ("flight of 2", 42.0)]
    assert told.findings[2].measured == pytest.approx(45.0)


def test_too_little_room_is_told_with_the_shortest_run() -> None:
    """600 in England: 3 risers take 2 x 222.5 at least."""
    told = ways_of(UK, 600.0, run_most_mm=400.0)
    assert codes(told.findings)[:2] == ["STP-001", "STP-009"]
    assert (told.findings[1].measured, told.findings[1].limit) == (445.0, 400.0)
    assert ways_of(UK, 600.0, run_most_mm=445.0).ways[0].going_mm == 222.5


@pytest.mark.parametrize(
    ("risers", "rise", "going", "limits"),
    [
        (1, 149.9, 0.0, [150.0]),
        (1, 220.1, 0.0, [220.0]),
        (3, 540.0, 219.0, [220.0]),
        (3, 540.0, 301.0, [300.0]),
        (3, 450.0, 240.0, [550.0]),  # 300 + 240 = 540
        (3, 630.0, 285.0, [700.0]),  # 420 + 285 = 705
        (37, 37 * 170.0, 290.0, [36.0]),
    ],
)
def test_every_rule_of_england_is_held(
    risers: int, rise: float, going: float, limits: list[float]
) -> None:
    broken = broken_rules(UK, risers=risers, rise_mm=Fraction(rise), going_mm=going)
    assert [rule.limit.value for rule in broken] == limits


def test_too_high_a_flight_without_a_landing() -> None:
    """147 in, from memory: 150 in of 20 risers of 7 1/2."""
    broken = broken_rules(NA, risers=20, rise_mm=Fraction(150 * INCH), going_mm=254.0)
    assert [rule.limit.name for rule in broken] == ["flight_rise_most_mm"]


@pytest.mark.parametrize(
    ("pack", "drop", "risers", "needed"),
    [
        ("north-america", 3 * 7 * INCH, 3, False),
        ("north-america", 4 * 7 * INCH, 4, True),  # four or more
        ("united-kingdom", 600.0, 3, False),
        ("united-kingdom", 600.5, 3, True),  # over 600, from memory
        ("australia", 999.0, 6, False),
        ("australia", 1000.0, 6, True),  # 1 m or more, from memory
        ("new-zealand", 360.0, 2, True),  # not covered: taken to be needed
    ],
)
def test_when_a_handrail_is_needed(pack: str, drop: float, risers: int, needed: bool) -> None:
    (way,) = [way for way in ways_of(RULES[pack], drop).ways if way.risers == risers]
    assert way.handrail is needed


def test_what_is_told_beside_the_rules() -> None:
    """34 in: 5 risers; treads at 6.8, 13.6, 20.4 and 27.2 in, none over 30."""
    way = ways_of(NA, 34 * INCH).ways[0]
    told = flight_findings(way, NA, width_mm=48 * INCH, across_fall_mm=9.0, open_risers=False)
    assert codes(told) == ["STP-006", "STP-007", "STP-008"]
    assert "34 in to 38 in" in told[0].message
    told = flight_findings(way, NA, width_mm=35 * INCH, across_fall_mm=10.0)  # 3/8 in is 9.525
    assert codes(told) == ["STP-004", "STP-005", "STP-011", "STP-006", "STP-007", "STP-008"]
    assert (told[0].measured, told[0].limit) == (10.0, pytest.approx(9.525))
    assert told[1].severity is Severity.STOP


def test_high_treads_want_a_guard() -> None:
    """950 in England as 5 of 190: treads at 190, 380, 570, 760: one over 600."""
    (way,) = [way for way in ways_of(UK, 950.0).ways if way.risers == 5]
    assert guarded_treads(way, UK.guard_trigger) == 1
    (found,) = [f for f in flight_findings(way, UK) if f.code == "STP-010"]
    assert "upper 1 treads" in found.message
    assert "900 mm" in found.message
    nobody = evolve(UK.guard_trigger, value=None, standing="not covered")
    assert guarded_treads(way, nobody) == 4


def test_ground_that_rises_leaves_high_treads_over_the_deeper_edge() -> None:
    """900 at the edge, ground rising 1 in 5, goings of 250: 4 risers stand 900 - 3 x 50 = 750 high.

    Treads at 187.5, 375 and 562.5 over the foot, none over 600; the ground at the edge is 150
    deeper, and the upper one 712.5 over that..
    """
    rising = ways_of(UK, 900.0, goings_mm=(250.0,), fall_ratio=-0.2).ways
    (way,) = [way for way in rising if way.risers == 4]
    assert way.heights_mm == (187.5, 375.0, 562.5, 750.0)
    assert guarded_treads(way, UK.guard_trigger) == 1
    assert guarded_treads(way, UK.guard_trigger, 76.0) == 2  # 375 + 150 + 76 = 601
    assert "STP-010" in codes(flight_findings(way, UK))


def test_a_guard_beside_a_tread_over_a_metre_up_stops() -> None:
    """Over 1 m, common practice, no source: 1200 as 6 of 200 has its upper tread 1000 up."""
    (way,) = [way for way in ways_of(UK, 1200.0).ways if way.risers == 6]
    assert "STP-012" not in codes(flight_findings(way, UK))
    (found,) = [f for f in flight_findings(way, UK, across_fall_mm=1.0) if f.code == "STP-012"]
    assert (found.severity, found.measured, found.limit) == (Severity.STOP, 1001.0, 1000.0)
    assert "licensed" in found.message


def test_open_risers_let_a_ball_pass_by_hand() -> None:
    """600 in 3 of 200 under treads of 28 leaves 172, treads of 100 leave 100, of 101 leave 99."""
    for tread, codes_told in ((28.0, ["STP-011"]), (100.0, ["STP-011"]), (101.0, [])):
        way = ways_of(UK, 600.0, tread_mm=tread).ways[0]
        told = [f for f in flight_findings(way, UK) if f.code == "STP-011"]
        assert codes(tuple(told)) == codes_told
        assert all((f.measured, f.limit) == (200.0 - tread, 100.0) for f in told)


def test_what_a_pack_does_not_cover_is_told() -> None:
    told = flight_findings(ways_of(RULES["new-zealand"], 500.0).ways[0], RULES["new-zealand"])
    uncovered = [f.subject for f in told if f.code == "STP-003"]
    assert "two_rise_going_least_mm" in uncovered
    assert "handrail_risers" in uncovered
    bare = evolve(
        NA,
        handrail_least=evolve(NA.handrail_least, value=None),
        handrail_most=evolve(NA.handrail_most, value=None),
        landing_least=evolve(NA.landing_least, value=None),
        rise_differ=evolve(NA.rise_differ, value=None),
    )
    way = ways_of(NA, 34 * INCH).ways[0]
    told = flight_findings(way, bare, across_fall_mm=99.0, open_risers=False)
    # 27.2 in and 99 mm is 789.9, over 30 in
    assert codes(told) == ["STP-006", "STP-010", "STP-008"]
    assert "ask the local authority how high" in told[0].message


@pytest.mark.parametrize(
    "changed",
    [
        {"drop_mm": 0.0},
        {"tread_mm": -1.0},
        {"board_mm": float("nan")},
        {"goings_mm": (250.0, 0.0)},
        {"fall_ratio": 0.25},
    ],
)
def test_what_is_no_flight_is_refused(changed: dict) -> None:
    with pytest.raises(InputError):
        ways_of(UK, 600.0, **changed) if "drop_mm" not in changed else ways_of(UK, drop=0.0)
