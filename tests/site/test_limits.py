"""What limits the deck's top: hand sums, and laws."""

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.brief.model import AirBrick, HouseWish
from drylay.site.heights import triggers_at
from drylay.site.limits import highest, limits_of, lowest, marks_from, rise_of, steps_for

HOUSE = HouseWish(
    dpc_mm=0.0, floor_mm=150.0, steps_down=1, door_opens="outward", door_leaf_mm=120.0,
    air_bricks=(AirBrick(along_mm=1200.0, under_mm=-140.0),),
)  # fmt: skip
LEVELS = st.integers(-16000, 16000).map(lambda marks: marks / 16)
HOUSES = st.builds(
    HouseWish,
    dpc_mm=st.none() | LEVELS,
    floor_mm=st.none() | LEVELS,
    steps_down=st.integers(1, 20),
    door_opens=st.sampled_from([None, "outward", "inward", "sliding"]),
    door_leaf_mm=st.none() | LEVELS,
    air_bricks=st.lists(
        st.builds(AirBrick, along_mm=st.floats(0, 9000), under_mm=LEVELS), max_size=3
    ).map(tuple),
)


def told(house: HouseWish) -> dict[str, float]:
    return {limit.name: limit.level_mm for limit in limits_of(house, 6000.0)}


def test_limits_worked_by_hand() -> None:
    assert told(HOUSE) == {
        "below the damp course": -150.0,  # 0 - 150
        "underside of air brick 1": -140.0,
        "under the door leaf": 105.0,  # 120 - 15
        "steps down from the floor": -70.0,  # 150 - 220
    }
    limits = limits_of(HOUSE, 6000.0)
    most, least = highest(limits), lowest(limits)
    assert most is not None
    assert least is not None
    assert (most.name, least.name) == ("below the damp course", "steps down from the floor")


def test_only_an_outward_door_or_one_unknown_limits() -> None:
    for opens, limits in ((None, True), ("outward", True), ("inward", False), ("sliding", False)):
        house = evolve(HOUSE, door_opens=opens)
        assert ("under the door leaf" in told(house)) is limits


def test_an_air_brick_beyond_the_deck_does_not_limit() -> None:
    assert "underside of air brick 1" in {x.name for x in limits_of(HOUSE, 1050.0)}  # 1200 - 150
    assert "underside of air brick 1" not in {x.name for x in limits_of(HOUSE, 1049.9)}
    for along_mm, limits in ((-150.0, True), (-150.1, False)):
        left = evolve(HOUSE, air_bricks=(AirBrick(along_mm=along_mm, under_mm=-140.0),))
        assert ("underside of air brick 1" in told(left)) is limits


def test_steps_and_rises_worked_by_hand() -> None:
    assert steps_for(150.0, -150.0) == 2  # 300 / 220 = 1.36
    assert steps_for(150.0, -290.0) == 2  # 440 / 220 = 2 exactly
    assert steps_for(150.0, -290.1) == 3
    assert steps_for(150.0, 150.0) == 1
    assert rise_of(150.0, -150.0, 2) == 150.0
    # 100 / 3 = 33.333; 10667 of 1/320 mm, up: 33.334375
    assert rise_of(100.0, 0.0, 3) == 10667 / 320


def test_the_top_is_told_from_marks() -> None:
    (mark,) = marks_from((("floor", 150.0),), -150.0)
    assert mark.down_mm == 300.0


@given(HOUSES)
def test_the_governing_limits_are_the_tightest(house: HouseWish) -> None:
    limits = limits_of(house, 6000.0)
    most = [limit.level_mm for limit in limits if limit.bound == "most"]
    least = [limit.level_mm for limit in limits if limit.bound == "least"]
    top, low = highest(limits), lowest(limits)
    assert (top.level_mm if top else None) == min(most, default=None)
    assert (low.level_mm if low else None) == max(least, default=None)


@given(HOUSES, st.integers(1, 20))
def test_more_steps_down_never_raise_the_lowest(house: HouseWish, steps: int) -> None:
    few = lowest(limits_of(evolve(house, steps_down=min(steps, house.steps_down)), 6000.0))
    many = lowest(limits_of(evolve(house, steps_down=max(steps, house.steps_down)), 6000.0))
    assert (few is None) == (many is None)
    assert few is None or many is None or many.level_mm <= few.level_mm


@given(LEVELS, LEVELS)
def test_the_steps_found_are_the_fewest_that_hold(floor: float, top: float) -> None:
    steps = steps_for(floor, top)
    assert floor - steps * 220 <= top
    assert steps == 1 or floor - (steps - 1) * 220 > top


def test_heights_are_reached_beyond_them_and_one_metre_at_it() -> None:
    def reached(drop_mm: float) -> list[bool]:
        return [trigger.reached for trigger in triggers_at(drop_mm)]

    assert reached(300.0) == [False] * 4
    assert reached(300.1) == [True, False, False, False]
    assert reached(750.0) == [True, True, False, False]
    assert reached(762.0) == [True, True, False, False]  # 30 in exactly: not more
    assert reached(1000.0) == [True] * 4


def test_a_sill_keeps_rain_out() -> None:
    """The top 15 below the sill (assumption): 90 - 15 = 75, which governs over the leaf's 105."""
    house = HouseWish(sill_mm=90.0, door_opens="outward", door_leaf_mm=120.0)
    found = limits_of(house, 3000.0)
    assert [(limit.name, limit.level_mm) for limit in found] == [
        ("under the door leaf", 105.0), ("below the door sill", 75.0),
    ]  # fmt: skip
    governs = highest(found)
    assert governs is not None
    assert governs.name == "below the door sill"
