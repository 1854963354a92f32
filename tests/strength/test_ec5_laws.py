"""Laws: a member is used more by load, span and centres, less by depth, breadth and grade."""

from collections.abc import Collection
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.strength.checks import passes
from drylay.strength.choosing import longest_span
from drylay.strength.ec5_actions import actions_of, board_stiffness_kn_m2, own_weight_kn_m
from drylay.strength.ec5_board import screen_board
from drylay.strength.ec5_classes import strength_class, strength_classes
from drylay.strength.ec5_johansen import single_shear
from drylay.strength.ec5_joist import screen_joist
from drylay.strength.ec5_model import Choices, DesignCase, Fastener, Post, Sharing, Side
from drylay.strength.ec5_post import screen_post
from drylay.strength.model import Section
from strength.ec5_decks import joist, screened_bearer, screened_joist, timber, used

SOFTWOODS = [grade.name for grade in strength_classes() if grade.softwood]
NOISE = 1e-9
#: Checks that more of the same wood also loads: its own weight grows, the bearing does not.
WEIGHED = {"bearing"}

pairs_of = lambda low, high: (  # noqa: E731
    st.tuples(st.integers(low, high), st.integers(low, high)).map(sorted)
)
choices = st.sampled_from(
    [
        Choices(),
        Choices(combination="6.10a/b", point_duration="short", service_class=2, final_over=250),
        Choices(sharing=Sharing(way="board over three joists")),
    ]
)
decks = st.fixed_dictionaries(
    {
        "grade": st.sampled_from(SOFTWOODS),
        "breadth_mm": st.integers(35, 75),
        "depth_mm": st.integers(75, 250),
        "span_mm": st.integers(500, 6000),
        "centres_mm": st.integers(250, 650),
        "cantilever_mm": st.sampled_from([0.0, 300.0, 700.0]),
        "dead_kn_m2": st.integers(5, 60).map(lambda hundredths: hundredths / 100),
        "choices": choices,
        "use": st.sampled_from(["dwelling", "balcony"]),
    }
)
BOARD = {"board_stiffness_kn_m2": board_stiffness_kn_m2(145, 28, 8000), "hold_down_kn": 5.0}


def uses(deck: dict[str, Any], **changed: Any) -> dict[str, float]:
    return used(screened_joist(**(deck | BOARD | changed)))


def never_falls(less: dict[str, float], more: dict[str, float], but: Collection[str] = ()) -> None:
    for name in (less.keys() & more.keys()) - set(but):
        assert more[name] >= less[name] * (1 - NOISE), name


@given(deck=decks, dead=pairs_of(0, 200), live=pairs_of(100, 500))
def test_use_rises_with_load(deck: dict[str, Any], dead: list[int], live: list[int]) -> None:
    never_falls(
        uses(deck, dead_kn_m2=dead[0] / 100), uses(deck, dead_kn_m2=dead[1] / 100), {"holding down"}
    )
    told = {key: value for key, value in deck.items() if key not in ("use", "choices")}
    about = joist(**(told | BOARD))
    light, heavy = (
        evolve(actions_of("dwelling"), imposed_kn_m2=load / 100, point_kn=load / 150)
        for load in live
    )
    never_falls(
        used(screen_joist(about, actions=light, choices=deck["choices"])),
        used(screen_joist(about, actions=heavy, choices=deck["choices"])),
    )


#: Checks that a longer span relieves beside a cantilever: it is the lever of what lies out there.
LEVERED = {"holding down", "bearing", "shear"}


@given(deck=decks, spans=pairs_of(800, 8000))
def test_use_rises_with_span(deck: dict[str, Any], spans: list[int]) -> None:
    """From three depths on: below, what shear adds to a cantilever's tip falls with the lever."""
    never_falls(
        uses(deck, span_mm=spans[0]),
        uses(deck, span_mm=spans[1]),
        LEVERED if deck["cantilever_mm"] else set(),
    )


@given(deck=decks, outs=pairs_of(100, 1500))
def test_use_rises_with_the_cantilever(deck: dict[str, Any], outs: list[int]) -> None:
    never_falls(uses(deck, cantilever_mm=outs[0]), uses(deck, cantilever_mm=outs[1]), {"bearing"})


@given(deck=decks, centres=pairs_of(200, 900))
def test_use_rises_with_centres(deck: dict[str, Any], centres: list[int]) -> None:
    never_falls(
        uses(deck, centres_mm=centres[0]), uses(deck, centres_mm=centres[1]), {"holding down"}
    )


@given(deck=decks, depths=pairs_of(60, 300))
def test_use_falls_with_depth(deck: dict[str, Any], depths: list[int]) -> None:
    never_falls(
        uses(deck, depth_mm=depths[1]), uses(deck, depth_mm=depths[0]), WEIGHED | {"holding down"}
    )


@given(deck=decks, breadths=pairs_of(30, 150))
def test_use_falls_with_breadth(deck: dict[str, Any], breadths: list[int]) -> None:
    never_falls(
        uses(deck, breadth_mm=breadths[1]), uses(deck, breadth_mm=breadths[0]), {"holding down"}
    )


def same_weight(deck: dict[str, Any], grade: str, dead_kn_m2: float) -> dict[str, float]:
    """The joist in another class with `dead_kn_m2` on it in all, its own weight within that."""
    section = Section(breadth_mm=deck["breadth_mm"], depth_mm=deck["depth_mm"])
    own = own_weight_kn_m(section, strength_class(grade)) / deck["centres_mm"] * 1e3
    return uses(deck, grade=grade, dead_kn_m2=dead_kn_m2 - own)


@given(deck=decks, grades=st.tuples(*[st.sampled_from(range(len(SOFTWOODS)))] * 2).map(sorted))
def test_use_falls_with_grade(deck: dict[str, Any], grades: list[int]) -> None:
    low, high = (SOFTWOODS[place] for place in grades)
    never_falls(same_weight(deck, high, 2.0), same_weight(deck, low, 2.0))
    plain = {"shear", "bearing", "holding down"}  # where strengths are alike, weight tells
    never_falls(uses(deck, grade=high), uses(deck, grade=low), plain)


def test_alike_in_shear_the_heavier_class_is_used_more_by_its_own_weight() -> None:
    """C24 and C27 have f_v,k 4.0 both; C27's mean density is 10 kg/m3 more: 1.35 of it tells."""
    shear = [used(screened_joist(grade=grade))["shear"] for grade in ("C24", "C27")]
    more_kn = 1.35 * 10 * 9.81 / 1000 * 0.047 * 0.15 * 2.5 / 2
    assert shear[1] - shear[0] == pytest.approx(1.5 * more_kn * 1e3 / (0.67 * 7050) / 2.0)
    assert shear[1] / shear[0] < 1.001


def test_a_deeper_joist_presses_its_bearing_by_its_own_weight() -> None:
    """Nothing but the joist's weight grows: 1.35 x 0.047 x 0.05 x 420 x 9.81 / 1000 x 1.25 kN."""
    bearing = [used(screened_joist(depth_mm=depth))["bearing"] for depth in (150.0, 200.0)]
    more_kn = 1.35 * 0.047 * 0.05 * 420 * 9.81 / 1000 * 1.25
    assert bearing[1] - bearing[0] == pytest.approx(more_kn * 1e3 / (47 * 77) / 1.25)


@given(spans=pairs_of(400, 4000), strips=pairs_of(300, 4000), depths=pairs_of(90, 300))
def test_laws_of_bearers(spans: list[int], strips: list[int], depths: list[int]) -> None:
    never_falls(
        used(screened_bearer(span_mm=spans[0], carried_mm=strips[0])),
        used(screened_bearer(span_mm=spans[1], carried_mm=strips[1])),
    )
    never_falls(
        used(screened_bearer(depth_mm=depths[1])), used(screened_bearer(depth_mm=depths[0])),
        WEIGHED,
    )  # fmt: skip
    never_falls(used(screened_bearer(plies=2)), used(screened_bearer(plies=1)))


@given(
    lengths=pairs_of(300, 4000),
    loads=pairs_of(1, 400),
    sides=pairs_of(60, 200),
    grades=st.tuples(*[st.sampled_from(range(len(SOFTWOODS)))] * 2).map(sorted),
)
def test_laws_of_posts(
    lengths: list[int], loads: list[int], sides: list[int], grades: list[int]
) -> None:
    def post(length: int, load: int, side: int, grade: int) -> dict[str, float]:
        wood = timber(SOFTWOODS[grade], side, side)
        case = DesignCase(name="all", duration="medium", bearing_kn=load / 10, moment_kn_m=0.1)
        about = Post(timber=wood, length_mm=length)
        return used(screen_post(about, (case,), choices=Choices()))

    never_falls(
        post(lengths[0], loads[0], sides[1], grades[1]),
        post(lengths[1], loads[1], sides[0], grades[0]),
    )


@given(bays=pairs_of(250, 700), thick=pairs_of(18, 45))
def test_laws_of_boards(bays: list[int], thick: list[int]) -> None:
    def board(bay: int, thickness: int) -> dict[str, float]:
        wood = timber("C24", 120, thickness)
        about = {"actions": actions_of("dwelling"), "choices": Choices()}
        return used(screen_board(wood, bay_mm=bay, bays=2, **about))

    never_falls(board(bays[0], thick[1]), board(bays[1], thick[0]))


@given(
    first=pairs_of(20, 120), second=pairs_of(20, 120), angle=st.integers(0, 90),
    bolt_mm=st.integers(5, 20),
)  # fmt: skip
def test_a_fastener_holds_more_in_thicker_pieces(
    first: list[int], second: list[int], angle: int, bolt_mm: int
) -> None:
    bolt = Fastener(kind="bolt", diameter_mm=bolt_mm, bending_mm=bolt_mm, tensile_n_mm2=400.0)

    def holds(one: int, other: int, grade: str = "C16") -> float:
        wood = strength_class(grade)
        sides = (
            Side(grade=wood, depth_mm=one, angle_deg=angle),
            Side(grade=wood, depth_mm=other),
        )
        return single_shear(bolt, *sides).resistance_kn

    least = holds(first[0], second[0])
    assert holds(first[1], second[1]) >= least * (1 - NOISE)
    assert holds(first[0], second[0], "C24") > least


@settings(max_examples=30)
@given(deck=decks)
def test_the_longest_span_passes_and_the_next_does_not(deck: dict[str, Any]) -> None:
    def at(span_mm: float) -> Any:
        return screened_joist(**(deck | BOARD | {"cantilever_mm": 0.0, "span_mm": span_mm}))

    found = longest_span(at, least_mm=200, most_mm=7000, step_mm=5)
    if found.span_mm is None:
        assert not passes(at(200))
    else:
        assert found.span_mm % 5 == 0
        assert passes(at(found.span_mm))
        assert found.span_mm == 7000 or not passes(at(found.span_mm + 5))
