"""Every question with its change: distances by hand, and the law that a change makes it good."""

from math import pi

import pytest
from attrs import evolve
from hypothesis import example, given, settings
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Severity
from drylay.geometry import area_of, near_area, region
from drylay.reasons import Source
from drylay.regions.model import Limit, Soil
from drylay.siting.around import (
    ask_boundary,
    ask_flues,
    ask_services,
    ask_trees,
    root_zone_mm,
    true_apart_mm,
)
from drylay.siting.changes import changed
from drylay.siting.ground import ask_firmness, ask_water, is_soft
from drylay.siting.model import (
    Answer,
    DeckPlace,
    FirmTest,
    Flue,
    Garden,
    LowSpot,
    Service,
    SitingChange,
    Tree,
    WetSpot,
)
from drylay.siting.near import Thing, apart_mm, clearing, keeps, outside
from drylay.siting.standing import ask_standing, standing_of
from drylay.siting.sunshine import ask_sun
from drylay.siting.verdict import best_places, door_mm, order, site_verdict
from drylay.siting.view import ask_view
from siting.gardens import PLOT, place, ring, whole_garden

#: Changes with a figure, each of which makes its question good.
MADE = {"move", "level", "fence", "legs", "drain", "dig"}


def codes(answers: tuple[Answer, ...]) -> list[str]:
    return [found.code for answer in answers for found in answer.findings]


def standing(garden: Garden, deck: DeckPlace) -> tuple[Answer, ...]:
    below = (*ask_water(garden, deck), *ask_firmness(garden, deck))
    return (ask_standing(deck, standing_of(deck, below)),)


ASKS = {
    "sun": lambda garden, deck: (ask_sun(garden, deck),),
    "view": ask_view, "water": ask_water, "low spot": ask_water, "firmness": ask_firmness,
    "standing": standing, "boundary": ask_boundary, "building": ask_boundary,
    "services": ask_services, "sewer": ask_services, "cover": ask_services, "tree": ask_trees,
    "flue": ask_flues,
}  # fmt: skip


def again(garden: Garden, deck: DeckPlace, answer: Answer, change: SitingChange) -> Answer:
    after = ASKS[answer.question](*changed(garden, deck, change))
    return next(one for one in after if one.subject == answer.subject)


def ill_answers(garden: Garden, deck: DeckPlace) -> list[Answer]:
    return [answer for answer in site_verdict(garden, deck).answers if not answer.good]


@example(along=5, across=5, top=2, stands="ground", dig=150.0)
@example(along=45, across=95, top=5, stands="ground", dig=150.0)
@settings(max_examples=10)
@given(
    along=st.integers(-30, 90), across=st.integers(-10, 130), top=st.integers(-1, 12),
    stands=st.sampled_from(["ground", "legs", None]),
    dig=st.sampled_from([None, 0.0, 150.0, 600.0]),
)  # fmt: skip
def test_every_change_with_a_figure_makes_its_question_good(
    along: int, across: int, top: int, stands: str | None, dig: float | None
) -> None:
    garden = whole_garden()
    deck = place(
        along_mm=along * 100.0, across_mm=across * 100.0, top_mm=top * 100.0, stands=stands,
        dig_mm=dig,
    )  # fmt: skip
    for answer in ill_answers(garden, deck):
        assert answer.changes, answer
        for change in answer.changes:
            assert change.text
            if change.kind in MADE:
                assert again(garden, deck, answer, change).good, (answer, change)


def test_changes_are_the_nearest_by_hand() -> None:
    """The cover's near edge lies at across 1700, the deck reaches from 500 to 3500.

    Away from the house: its own edge at 2300 - 500 = 1800. Towards it: 3500 - 1700 = 1800, and the
    plot begins at 0, with 500 to keep: not there. To the right from 500 to 3300: 2800; to the left
    4500 - 2700 = 1800, but the plot ends at -1000, and 500 are kept. So 1800 away from the house.
    The puddle, from 2000 to 3500 and from 3000 to 4500: 3500 - 500 = 3000 to the right, before
    4000 away from the house.
    """
    found = {
        answer.subject: answer.changes[0].text for answer in ill_answers(whole_garden(), place())
    }
    assert found["cover"] == "move 1800 mm away from the house"
    assert found["puddle"] == "move 3000 mm to the right"
    # 500 off the cable at along 3000: from 500 to 3500, before anything else
    assert found["cable"] == "move 3000 mm to the right"


def test_a_place_is_shifted_as_far_as_needed_and_no_further() -> None:
    things = (Thing(line_mm=((5000.0, 2000.0),), keep_mm=1500.0),)
    deck = place(along_mm=0.0, across_mm=0.0)  # 4000 x 3000: the point is 1000 to the right
    assert apart_mm(deck, things[0]) == 1000
    change = clearing(deck, things)
    assert change is not None
    assert (change.along_mm, change.across_mm) == (-500.0, 0.0)
    assert clearing(evolve(deck, along_mm=-500.0), things) is None
    assert clearing(deck, ()) is None


def test_where_no_straight_way_is_free_it_goes_both_ways() -> None:
    """A plot that leaves only one place, 1000 to the right and 2000 away: both have to be gone."""
    plot = Thing(inside_mm=ring(1000, 2000, 5010, 5010), dug=False)
    change = clearing(place(along_mm=0.0, across_mm=0.0), (plot,))
    assert change is not None
    assert 1000 <= change.along_mm <= 1010
    assert 2000 <= change.across_mm <= 2010
    assert change.text.count("mm") == 2
    small = Thing(inside_mm=ring(0, 0, 1000, 1000), dug=False)
    assert clearing(place(), (small,)) is None


def test_touching_is_clear_where_nothing_is_to_be_kept() -> None:
    house = Thing(area=region(ring(-9000, -9000, 20_000, 0)), dug=False)
    assert keeps(place(across_mm=0.0), house)
    assert not keeps(place(across_mm=-1.0), house)


def test_all_outside_of_nothing_is_everything() -> None:
    nothing = near_area(region(ring(0, 0, 100, 100)), -200)
    assert area_of(outside(nothing)) > 1e9


@pytest.mark.parametrize(
    ("stem", "radius"),
    [(250.0, 3000.0), (100.0, 1200.0), (1250.0, 15000.0), (1300.0, 15002.0), (4000.0, 15002.0)],
)
def test_root_zones_by_hand(stem: float, radius: float) -> None:
    """BS 5837 as quoted: 12 x stem, no more than 707 m2: sqrt(707 / pi) = 15.0015 m."""
    assert root_zone_mm(stem) == radius
    assert pi * (15.0014) ** 2 < 707 < pi * (15.002) ** 2


def test_roots_stop_a_dig_and_caution_holes() -> None:
    tree = Tree(name="oak", at_mm=(6000, 2000), stem_mm=500)  # zone 6000, the deck 1500 off
    garden = Garden(trees=(tree,))
    assert codes(ask_trees(garden, place())) == ["PLC-061"]
    assert ask_trees(garden, place())[0].findings[0].severity is Severity.STOP
    on_legs = place(stands="legs")
    assert ask_trees(garden, on_legs)[0].findings[0].severity is Severity.CAUTION
    holes = place(stands="legs", holes_mm=((0.0, 0.0),), hole_mm=300.0, along_mm=-1000.0)
    assert ask_trees(garden, holes)[0].good  # the hole is 6850 to the left
    kept = Garden(trees=(evolve(tree, protected=True),))
    assert codes(ask_trees(kept, on_legs)) == ["PLC-062"]


def test_services_by_hand() -> None:
    """A cable 450 deep, 300 beside the dig of 150: sqrt(300^2 + 300^2) = 424.3 in the ground."""
    cable = Service(name="c", kind="electricity", line_mm=((4800, 0), (4800, 9000)), depth_mm=450)
    assert true_apart_mm(place(), cable) == pytest.approx(424.264, abs=1e-3)
    answers = ask_services(Garden(services=(cable,), searched=True), place())
    assert codes(answers) == ["PLC-050", "PLC-055"]
    move, dig = answers[1].changes
    assert move.text == "move 200 mm to the left"  # 500 - 300
    assert dig.by_mm == -101.0  # 400 below it is needed, 0.1 and up to a mm more: 450 - 401
    over = evolve(cable, line_mm=((2000, 0), (2000, 9000)))
    assert codes(ask_services(Garden(services=(over,)), place(dig_mm=450.0))) == [
        "PLC-051", "PLC-054",
    ]  # fmt: skip
    assert codes(ask_services(Garden(services=(over,)), place(dig_mm=None)))[1:] == ["PLC-053"]
    unknown = evolve(over, depth_mm=None)
    (_, answer) = ask_services(Garden(services=(unknown,)), place())
    assert [change.kind for change in answer.changes] == ["move", "find out"]
    deep = evolve(over, depth_mm=2000.0)
    assert codes(ask_services(Garden(services=(deep,)), place()))[1:] == ["PLC-052"]


def test_sewers_want_consent_within_three_metres() -> None:
    """Approved Document H4 as quoted; the deck's right edge at 4500, the sewer at 7499 and 7500."""
    for along, code in ((7499.0, "PLC-058"), (7500.0, "PLC-057")):
        line = ((along, 0.0), (along, 9000.0))
        sewer = Service(name="s", kind="drain", line_mm=line, depth_mm=900.0)
        found = ask_services(Garden(services=(sewer,), searched=True), place())
        assert codes(found)[-1] == code
    own = evolve(sewer, shared=False, line_mm=((5100.0, 0.0), (5100.0, 9000.0)))
    assert codes(ask_services(Garden(services=(own,), searched=True), place())) == [
        "PLC-050", "PLC-052",
    ]  # fmt: skip


def test_a_line_overhead_is_asked_about() -> None:
    line = Service(name="l", kind="overhead line", line_mm=((12000.0, 0.0), (12000.0, 9000.0)))
    (_, answer) = ask_services(Garden(services=(line,)), place())
    assert (answer.findings[0].code, answer.findings[0].measured) == ("PLC-056", 7500.0)


def test_the_boundary_and_what_stands_there() -> None:
    garden = whole_garden()
    assert codes(ask_boundary(garden, place()))[0] == "PLC-043"
    assert codes(ask_boundary(garden, place(across_mm=100.0)))[0] == "PLC-041"
    assert codes(ask_boundary(garden, place(across_mm=-100.0))) == ["PLC-040", "PLC-044", "PLC-043"]
    assert codes(ask_boundary(Garden(), place())) == ["PLC-042"]
    huge = ask_boundary(Garden(plot_mm=PLOT), place(size_along_mm=90_000.0))[0]
    assert huge.changes[0].kind == "find out"


def test_flues() -> None:
    """Outlet 200 over the top stops, 301 cautions within reach, 2000 over or away does not."""
    for level, along, code in (
        (400.0, 500.0, "PLC-067"), (501.0, 500.0, "PLC-066"),
        (2200.0, 500.0, "PLC-065"), (400.0, -1600.0, "PLC-065"),
    ):  # fmt: skip
        garden = Garden(flues=(Flue(name="f", at_mm=(along, 500.0), level_mm=level),))
        assert codes(ask_flues(garden, place())) == [code]


PUDDLE = WetSpot(name="puddle", corners_mm=ring(2000, 3000, 3500, 4500))


@pytest.mark.parametrize(
    ("told", "stands", "code", "severity"),
    [
        ({"stood_days": 3}, "ground", "PLC-021", Severity.STOP),
        ({"stood_days": 3}, None, "PLC-021", Severity.CAUTION),
        ({"stood_days": 3}, "legs", "PLC-021", Severity.NOTE),
        ({"stood_days": 1}, "ground", "PLC-020", Severity.NOTE),
        ({"soak_s_per_mm": 101.0}, "ground", "PLC-022", Severity.STOP),
        ({"soak_s_per_mm": 100.0}, "ground", "PLC-020", Severity.NOTE),
        ({"stood_days": 9, "outfall": True}, "ground", "PLC-020", Severity.NOTE),
        ({}, "ground", "PLC-023", Severity.NOTE),
    ],
)
def test_standing_water(
    told: dict[str, object], stands: str | None, code: str, severity: Severity
) -> None:
    garden = Garden(wet=(evolve(PUDDLE, **told),))
    (answer, _) = ask_water(garden, place(stands=stands))
    assert (answer.findings[0].code, answer.findings[0].severity) == (code, severity)
    (far, _) = ask_water(garden, place(along_mm=3500.0))
    assert far.good


def test_the_lowest_spot_is_refused_without_an_outfall() -> None:
    low = LowSpot(name="lowest spot", at_mm=(2500, 3400))
    assert codes(ask_water(Garden(low=low), place())) == ["PLC-024"]
    assert codes(ask_water(Garden(low=evolve(low, outfall=True)), place())) == ["PLC-020"]
    assert codes(ask_water(Garden(low=low), place(along_mm=3000.0))) == ["PLC-020"]
    assert codes(ask_water(Garden(), place())) == ["PLC-023"]


def test_firmness_by_each_test() -> None:
    """BS 5930 as quoted: a finger pushed in up to 10 mm is soft; heel and rod by practice."""
    for kind, soft in (("finger", 10.0), ("heel", 10.0), ("rod", 200.0)):
        test = FirmTest(at_mm=(0, 0), kind=kind, sunk_mm=soft)
        assert is_soft(test)
        assert not is_soft(evolve(test, sunk_mm=soft - 0.5))
    with pytest.raises(InputError, match="finger, heel, rod"):
        is_soft(FirmTest(at_mm=(0, 0), kind="toe", sunk_mm=1.0))


SAID = Source(kind="standard", title="a pack")


def soil(name: str, bearing: float | None, *, poor: bool = False) -> Soil:
    limit = Limit(
        name="bearing_kn_m2", value=bearing, unit="kN/m2", written="", source=SAID,
        standing="quoted" if bearing else "not covered",
    )  # fmt: skip
    return Soil(name=name, bearing=limit, poor=poor)


def test_poor_ground_is_for_a_professional() -> None:
    peat = ask_firmness(Garden(), place(), soil("peat", None, poor=True))
    assert codes(peat) == ["PLC-033"]
    assert peat[0].changes[0].kind == "ask"
    assert codes(ask_firmness(Garden(made_ground=True), place())) == ["PLC-032", "PLC-034"]
    assert codes(ask_firmness(Garden(), place(), soil("dense sand", 100.0))) == ["PLC-030"]
    tree = Tree(name="oak", at_mm=(9000, 2000), stem_mm=400, height_mm=8000)  # 4500 off, 10000
    clay = soil("firm clay", 75.0)
    assert codes(ask_firmness(Garden(trees=(tree,)), place(), clay)) == ["PLC-035"]
    low = evolve(tree, height_mm=3599.0)  # 1.25 x 3599 = 4498.75
    assert codes(ask_firmness(Garden(trees=(low,)), place(), clay)) == ["PLC-030"]


@pytest.mark.parametrize(
    ("told", "stands"),
    [
        # 200 - 175 - -60 = 85 over the lowest ground, which falls by 110
        ({}, "ground"),
        # 265 + 60 - 175 = 150, then 151
        ({"top_mm": 265.0}, "ground"),
        ({"top_mm": 266.0}, "legs"),
        ({"ground_most_mm": 91.0}, "legs"),  # falls by 151
        ({"ground_most_mm": 691.0, "top_mm": 800.0}, "ask"),  # 751 over 3000 is more than 1 in 4
        ({"top_mm": 1741.0}, "ask"),  # 1801 high
        ({"build_mm": None}, "not known"),
        ({"ground_least_mm": None}, "not known"),
    ],
)
def test_ground_or_legs_by_hand(told: dict[str, object], stands: str) -> None:
    assert standing_of(place(**told)).stands == stands


def test_lying_on_the_ground_is_refused_where_it_wants_legs() -> None:
    high = place(top_mm=300.0)
    answer = ask_standing(high, standing_of(high))
    assert answer.findings[-1].code == "PLC-078"
    assert [change.text for change in answer.changes] == [
        "lower the deck by 35 mm",  # 300 - 265
        "stand the deck on legs",
    ]
    for change in answer.changes:
        _, there = changed(Garden(), high, change)
        assert ask_standing(there, standing_of(there)).good
    open_one = place(top_mm=300.0, stands=None)
    said = ask_standing(open_one, standing_of(open_one))
    assert said.good
    assert said.findings[-1].message == "it wants legs"


def test_a_moved_place_leaves_its_levels_behind_unless_a_survey_knows() -> None:
    garden = whole_garden()
    move = SitingChange(kind="move", subject="place", text="", along_mm=100.0)
    _, there = changed(garden, place(), move)
    assert (there.along_mm, there.ground_least_mm) == (600.0, None)
    known = site_verdict(garden, there, ground=lambda at: (-at.along_mm / 10, 0.0))
    assert known.place.ground_least_mm == -60.0
    assert site_verdict(garden, there, ground=lambda _: None).standing.fall_mm is None
    asked = SitingChange(kind="ask", subject="x", text="ask")
    assert changed(garden, place(), asked) == (garden, place())


def test_how_far_the_door_is() -> None:
    """From (4000, 0) to the nearest edge: 0 along, 500 across; from (0, 0): 500 both ways."""
    garden = whole_garden()
    assert door_mm(garden, place()) == 500.0
    assert door_mm(evolve(garden, door_mm=(0.0, 0.0)), place()) == 707.2
    assert door_mm(Garden(), place()) is None


def test_places_are_put_in_order_of_what_counts() -> None:
    garden = evolve(whole_garden(), fences=(), trees=(), flues=())
    found = best_places(garden, place(stands="ground"), step_mm=3000.0)
    # from -500 in steps of 3000, along 3 and across 4, less 2 that the shed stands in
    assert len(found) == 10
    assert [order(one) for one in found] == sorted(order(one) for one in found)
    best = found[0]
    assert best.stops == min(one.stops for one in found)
    assert all(one.place.ground_least_mm is None for one in found)


@pytest.mark.parametrize("step", [0.0, 1.0])
def test_a_grid_of_nothing_or_too_much_is_refused(step: float) -> None:
    with pytest.raises(InputError, match="places"):
        best_places(whole_garden(), place(), step_mm=step)
    with pytest.raises(InputError, match="0 places"):
        best_places(Garden(), place(), step_mm=500.0)


def test_one_shift_clears_all_that_lies_near() -> None:
    found = site_verdict(whole_garden(), place())
    assert found.move is not None
    _, there = changed(whole_garden(), place(), found.move)
    after = site_verdict(whole_garden(), there)
    ill = {answer.question for answer in after.answers if not answer.good}
    assert not ill & {"boundary", "building", "tree", "water", "low spot"}
    assert after.move is None
