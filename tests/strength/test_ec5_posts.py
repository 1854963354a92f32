"""Posts and pads by Eurocode 5 against sums done by hand; each sum stands beside its value."""

from math import pi, sqrt

import pytest
from attrs import evolve

from drylay.errors import InputError, UncoveredError
from drylay.strength.ec5_model import Choices, DesignCase, Post
from drylay.strength.ec5_post import kc_of, pad_bearing, post_kc, screen_post, slenderness_ratio
from drylay.strength.model import Section
from strength.ec5_decks import timber, used


def test_a_post_buckles() -> None:
    """100 x 100 C24, 2.4 m: slenderness 1.4098, k 1.6047, k_c 0.4217; 20 kN is 2 N/mm2."""
    slender = slenderness_ratio(2400, 100, 21, 7400)
    assert slender == pytest.approx(2400 * sqrt(12) / 100 / pi * sqrt(21 / 7400))
    assert kc_of(slender) == pytest.approx(0.42172, rel=1e-4)
    assert kc_of(0.3) == 1.0
    post = Post(timber=timber("C24", 100, 100), length_mm=2400.0)
    case = DesignCase(name="all", duration="medium", bearing_kn=20.0, moment_kn_m=0.5)
    found = used(screen_post(post, (case,), choices=Choices()))
    straight, bend = 10.5, 12 * 1.5**0.2
    bent = 0.5e6 / (1e6 / 6) / bend
    assert found["post buckling"] == pytest.approx(2 / (0.42172 * straight) + bent, rel=1e-4)
    assert found["bending with compression"] == pytest.approx((2 / straight) ** 2 + bent)


def test_a_post_that_sways_is_twice_as_long() -> None:
    held = Post(timber=timber("C24", 75, 100), length_mm=2000.0)
    sways = Post(timber=timber("C24", 75, 100), length_mm=1000.0, braced=False)
    assert post_kc(held) == post_kc(sways)
    assert post_kc(held)[1] < post_kc(held)[0]
    said = screen_post(sways, (DesignCase(name="n", duration="medium"),), choices=Choices()).assumed
    assert "twice its length" in said[0]


def test_a_post_built_up_of_plies_is_not_covered() -> None:
    """Plies slip as they buckle (annex C): two of 50 are less than one of 100."""
    two = evolve(timber("C24", 50, 100), section=Section(breadth_mm=50, depth_mm=100, plies=2))
    case = DesignCase(name="n", duration="medium", bearing_kn=1.0)
    with pytest.raises(UncoveredError, match="plies"):
        screen_post(Post(timber=two, length_mm=2000.0), (case,), choices=Choices())


def test_a_pad() -> None:
    """12 kN on 0.4 x 0.4 m is 75 kN/m2, and 0.15 m of concrete 3.6 more; a round one 95.5."""
    square = pad_bearing("P", load_kn=12, side_mm=400, bearing_kn_m2=100, thickness_mm=150)
    assert square.measured == pytest.approx(78.6)
    assert square.utilisation_ratio == pytest.approx(0.786)
    rounded = pad_bearing("P", load_kn=12, side_mm=400, bearing_kn_m2=100, shape="round")
    assert rounded.measured == pytest.approx(75 * 4 / pi)
    with pytest.raises(InputError, match="shape"):
        pad_bearing("P", load_kn=12, side_mm=400, bearing_kn_m2=100, shape="oval")
