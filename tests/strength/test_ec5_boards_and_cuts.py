"""Boards, notches and holes by Eurocode 5 against sums done by hand, beside each value."""

from math import sqrt

import pytest

from drylay.errors import InputError, UncoveredError
from drylay.strength.ec5_actions import (
    actions_of,
)
from drylay.strength.ec5_board import screen_board
from drylay.strength.ec5_cuts import hole_checks, kv, notched_shear, top_notch_checks
from drylay.strength.ec5_model import Choices, DesignCase, Notch
from drylay.strength.ec5_simple import board_moment_ratio
from drylay.strength.model import Deflected, Effects, Extreme
from strength.ec5_decks import named, timber


def test_a_board_carries_the_whole_point_load() -> None:
    """28 x 145 C24, 400 mm, one bay: 1.5 x 2 x 0.4 / 4 over 145 x 28^2 / 6; k_h 1.3."""
    board = timber("C24", 145, 28)
    one = screen_board(board, bay_mm=400, bays=1, actions=actions_of("dwelling"), choices=Choices())
    own = 0.028 * 0.145 * 420 * 9.81 / 1000
    bent = named(one, "bending")
    assert bent.measured == pytest.approx((0.3 + 1.35 * own * 0.02) * 1e6 / (145 * 784 / 6))
    assert bent.limit == pytest.approx(12 * 1.3)
    push = 3.0 + 1.35 * own * 0.2
    assert named(one, "shear").measured == pytest.approx(1.5e3 * push / (0.67 * 145 * 28))
    many = screen_board(
        board, bay_mm=400, bays=3, actions=actions_of("dwelling"), choices=Choices()
    )
    assert named(many, "bending").measured < bent.measured
    none = screen_board(board, bay_mm=400, bays=3, actions=actions_of("crowd"), choices=Choices())
    assert none.stops
    assert not none.checks


def test_the_moment_of_a_moving_load_on_two_bays() -> None:
    """0.2074 P L at 0.432 L from the end: printed so in tables of continuous beams, from memory."""
    assert board_moment_ratio(1) == 0.25
    assert board_moment_ratio(2) == pytest.approx(0.2074, abs=1e-4)


def test_a_board_takes_effects_from_elsewhere() -> None:
    nothing = Deflected(deflection_mm=0.0, at_mm=0.0)
    effects = Effects(
        sagging=Extreme(value_kn_m=0.16, at_mm=200.0),
        hogging=Extreme(value_kn_m=-0.05, at_mm=400.0),
        shear_kn=1.2, shear_at_mm=0.0, reactions_kn=(1.0, 1.0), down=nothing, up=nothing,
    )  # fmt: skip
    found = screen_board(
        timber("C24", 145, 28), bay_mm=400, bays=3, actions=actions_of("dwelling"),
        choices=Choices(), effects=effects,
    )  # fmt: skip
    moment = dict(named(found, "bending").inputs)["moment_kn_m"]
    assert moment == pytest.approx(1.5 * 0.16, abs=1e-3)


def test_a_notch_at_a_support() -> None:
    """h 150, notch 37.5, 50 mm off: 5 / (12.247 x (0.4330 + 0.2667 x 0.8780)) = 0.6120."""
    notch = Notch(deep_mm=37.5, off_support_mm=50.0)
    assert kv(notch, 150) == pytest.approx(0.6120, abs=1e-4)
    sloped = Notch(deep_mm=37.5, off_support_mm=50.0, slope_ratio=3.0)
    assert kv(sloped, 150) == pytest.approx(0.6120 * (1 + 1.1 * 3**1.5 / sqrt(150)), abs=2e-4)
    assert kv(Notch(deep_mm=37.5, off_support_mm=50.0, below=False), 150) == 1.0
    case = DesignCase(name="all", duration="medium", shear_kn=3.0)
    found = notched_shear(timber(), notch, case, Choices())
    assert found.measured == pytest.approx(4500 / (0.67 * 47 * 112.5))
    assert found.limit == pytest.approx(0.6120 * 2.0, abs=1e-3)
    with pytest.raises(InputError, match="notch"):
        notched_shear(timber(), Notch(deep_mm=150.0, off_support_mm=0.0), case, Choices())


def test_where_holes_and_notches_may_go() -> None:
    """A quarter of the depth between 0.25 and 0.4 L; an eighth between 0.07 and 0.25 L."""
    good = hole_checks("J", depth_mm=200, span_mm=3000, across_mm=50, at_mm=1000)
    assert all(each.utilisation_ratio <= 1 for each in good)
    size, near, far = hole_checks("J", depth_mm=200, span_mm=3000, across_mm=51, at_mm=700)
    assert (size.utilisation_ratio > 1, near.utilisation_ratio > 1) == (True, True)
    assert far.utilisation_ratio < 1
    with pytest.raises(UncoveredError, match="250"):
        hole_checks("J", depth_mm=251, span_mm=3000, across_mm=50, at_mm=1000)
    cut = top_notch_checks("J", depth_mm=200, span_mm=3000, deep_mm=25, at_mm=751)
    assert [each.utilisation_ratio > 1 for each in cut] == [False, False, True]
