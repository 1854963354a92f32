"""Loads by Eurocode 5 against sums done by hand: combinations, weights, who shares a point load."""

import pytest

from drylay.reasons import Source
from drylay.strength.ec5_actions import (
    actions_of,
    board_stiffness_kn_m2,
    boards_kn_m2,
    own_weight_kn_m,
    shared_ratio,
    strength_factors,
)
from drylay.strength.ec5_model import Choices, Sharing
from drylay.strength.model import Section
from strength.ec5_decks import joist, named, screened_bearer, screened_joist, timber, used

ENGINEER = Source(kind="named person's override", title="the engineer")


def test_the_combination_6_10b() -> None:
    """xi 0.925 x 1.35 = 1.24875 on G; 6.10a has 0.7 x 1.5 = 1.05 on q."""
    factors = strength_factors(Choices(combination="6.10a/b"), actions_of("dwelling"))
    assert factors == (("6.10a", 1.35, pytest.approx(1.05)), ("6.10b", pytest.approx(1.24875), 1.5))
    found = screened_joist(choices=Choices(combination="6.10a/b"))
    assert named(found, "bending").case.startswith("6.10b: 1.249 G + 1.5 Q")


def test_weights() -> None:
    """28 mm x 480 kg/m3 x 9.81; 2 x 47 x 150 mm of C16."""
    assert boards_kn_m2(28, 480) == pytest.approx(0.13185, rel=1e-4)
    two = Section(breadth_mm=47, depth_mm=150, plies=2)
    assert own_weight_kn_m(two, timber("C16").grade) == pytest.approx(2 * 0.00705 * 3.6297)


def test_a_point_load_shared_through_a_board_has_least_energy() -> None:
    """Strain energy of three springs and a board, in steps of a thousandth: least where told."""
    stiff = board_stiffness_kn_m2(145, 28, 8000)
    assert stiff == pytest.approx(2.1221, rel=1e-4)
    beam = joist(board_stiffness_kn_m2=stiff)
    spring = 48 * 145.40625 / 2.5**3

    def energy(share: float) -> float:
        out = 1 - share
        springs = share**2 / 2 / spring + 2 * (out / 2) ** 2 / 2 / spring
        return springs + out**2 * 0.8**3 / 96 / stiff

    least = min((step / 1000 for step in range(1001)), key=energy)
    board = Sharing(way="board over three joists")
    assert shared_ratio(beam, board) == pytest.approx(least, abs=1e-3)
    very_stiff = joist(board_stiffness_kn_m2=1e9)
    assert shared_ratio(very_stiff, board) == pytest.approx(1 / 3, abs=1e-6)
    assert shared_ratio(joist(board_stiffness_kn_m2=1e-9), board) == pytest.approx(1.0, abs=1e-6)
    assert shared_ratio(beam, Sharing()) == 1.0


def test_a_stated_ratio_is_taken_as_stated() -> None:
    for ratio in (0.01, 1.0):
        stated = Sharing(way="stated", stated_ratio=ratio, source=ENGINEER)
        assert shared_ratio(joist(), stated) == ratio


def test_the_sharing_is_always_said() -> None:
    stiff = board_stiffness_kn_m2(145, 28, 8000)
    ways = (
        (Sharing(), "falls on one joist and is not shared"),
        (Sharing(way="board over three joists"), "by statics of the one board under it"),
        (Sharing(way="stated", stated_ratio=0.6, source=ENGINEER), "0.600 of the point load"),
    )
    for sharing, words in ways:
        found = screened_joist(
            choices=Choices(sharing=sharing),
            board_stiffness_kn_m2=stiff,
            cantilever_mm=400.0,
        )
        assert words in found.assumed[0]


def test_sharing_lowers_bending_and_leaves_shear() -> None:
    board = Choices(sharing=Sharing(way="board over three joists"))
    shared = used(screened_joist(choices=board, board_stiffness_kn_m2=2.1221))
    alone = used(screened_joist())
    assert shared["bending"] < alone["bending"]
    assert shared["shear"] == alone["shear"]
    assert shared["bearing"] == alone["bearing"]


@pytest.mark.parametrize("use", ["crowd", "hot tub"])
def test_what_is_not_covered_stops(use: str) -> None:
    for found in (screened_joist(use), screened_bearer(use)):
        assert found.checks == ()
        assert "licensed engineer" in found.stops[0]


def test_what_is_shared_is_said_where_it_is() -> None:
    shared = "four joists or more, alike, share spread load: k_sys 1.1"
    assert shared in screened_joist().assumed
    assert shared not in screened_joist(alike=3).assumed
