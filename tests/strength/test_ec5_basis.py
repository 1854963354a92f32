"""Eurocode 5 as a design basis, against sums done by hand.

C24 of EN 338:2016: f_m,k 24, 420 kg/m3; service class 3, medium term: k_mod 0.65, gamma_M 1.3.
"""

from math import inf, nan

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.strength.ec5_actions import actions_of
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.ec5_beam_asked import lifted_kn
from drylay.strength.ec5_bearer import screen_bearer
from drylay.strength.ec5_classes import strength_class
from drylay.strength.ec5_model import Bearer, Choices, Timber
from drylay.strength.model import Beam, BeamAsked, DeckLoads, Screened
from strength.asked import bearer, board, joist, ledger, post, section
from strength.ec5_decks import named

EC5 = eurocode_5()
#: 47 x 150 of C24: 0.047 x 0.150 x 420 x 9.81 / 1000.
OWN_KN_M = 0.0290474


def beam(asked: BeamAsked, use: str = "dwelling") -> Screened:
    return EC5.beam(asked, use)


def test_what_a_dwelling_and_a_balcony_lay_on_a_deck() -> None:
    """1.5 and 2.5 kN/m2, 2 kN: UK annex, table NA.3; 28 mm of D70: 0.028 x 1080 x 9.81 / 1000."""
    home, balcony = EC5.loads("dwelling"), EC5.loads("balcony")
    assert (home.imposed_kn_m2, home.point_kn, balcony.imposed_kn_m2) == (1.5, 2.0, 2.5)
    assert home.own_weight_apart
    assert home.dead_kn_m2 >= 0.028 * 1080 * 9.81 / 1000
    assert "28 mm" in home.source.clause


@pytest.mark.parametrize("use", ["public", "crowd", "hot tub", "stage"])
def test_other_uses_are_a_stop(use: str) -> None:
    loads = EC5.loads(use)
    assert isinstance(loads, DeckLoads)
    assert (loads.imposed_kn_m2, loads.point_kn, loads.dead_kn_m2) == (0, 0, 0)
    assert "engineer" in loads.stops[0]
    asked = (joist(), bearer())
    answers = [beam(each, use) for each in asked]
    answers += [EC5.post(post(), use), EC5.board(board(), use), EC5.ledger(ledger(), use)]
    for answer in answers:
        assert not answer.checks
        assert "engineer" in answer.stops[0]


def test_a_joist_under_the_point_load() -> None:
    """M = 1.35 (0.12 + 0.02905) 2.5^2 / 8 + 1.5 x 2 x 2.5 / 4 = 2.0322 kN m; W 176 250 mm3; 12."""
    check = named(beam(joist()), "bending")
    moment = 1.35 * (0.12 + OWN_KN_M) * 6.25 / 8 + 1.5 * 2 * 2.5 / 4
    assert check.measured == pytest.approx(moment * 1e6 / 176_250)
    assert check.utilisation_ratio == pytest.approx(11.5304 / 12.0, rel=1e-4)
    assert check.subject == "joists"


def test_an_end_no_longer_than_the_bearing_is_no_cantilever() -> None:
    past = joist(length_mm=2594.0, supports_mm=(47.0, 2547.0))
    assert beam(past) == beam(joist())
    assert named(beam(evolve(past, length_mm=2595.0)), "cantilever deflection, instant")


def test_a_joist_seen_from_its_other_side_is_the_same() -> None:
    right = joist(length_mm=3000.0)
    left = joist(length_mm=3000.0, supports_mm=(500.0, 3000.0))
    assert beam(left) == beam(right)
    assert named(beam(left), "cantilever deflection, final")


def test_a_far_end_that_lifts_is_a_stop_until_it_is_held_down() -> None:
    """1.5 x 2 x 0.8 + 1.1 g 0.8^2 / 2 over 2, less 0.9 g: g = 0.14905."""
    out = joist(length_mm=2800.0, supports_mm=(0.0, 2000.0))
    lift = (2.4 + 1.1 * 0.14905 * 0.32) / 2 - 0.9 * 0.14905
    assert f"{lift:.2f} kN" in beam(out).stops[0]
    held = beam(evolve(out, hold_down_kn=2.0))
    assert not held.stops
    assert named(held, "holding down").measured == pytest.approx(lift, rel=1e-4)


def test_lifting_over_many_supports_is_that_of_statics() -> None:
    """The same by influence: and 0.0962 of a load 0.57 into the far one of two spans."""
    plain = {"bending_stiffness_kn_m2": 100.0}
    out = Beam(length_mm=2800.0, supports_mm=(0.0, 2000.0), **plain)
    found = lifted_kn(out, dead_kn_m=0.14905, imposed_kn_m=0.6, point_kn=2.0)
    assert found == pytest.approx((2.4 + 1.1 * 0.14905 * 0.32) / 2 - 0.9 * 0.14905)
    two = Beam(length_mm=4000.0, supports_mm=(0.0, 2000.0, 4000.0), **plain)
    found = lifted_kn(two, dead_kn_m=0.15, imposed_kn_m=0.1, point_kn=2.0)
    dead = 0.15 * 2 * (0.9 * 7 / 16 - 1.1 / 16)
    assert found == pytest.approx(3 * 0.57 * (1 - 0.57**2) / 4 - dead)
    assert lifted_kn(two, dead_kn_m=2.0, imposed_kn_m=0.1, point_kn=2.0) == 0.0


def test_a_joist_over_three_supports_lifts_and_is_held() -> None:
    over = joist(length_mm=4000.0, supports_mm=(0.0, 2000.0, 4000.0))
    assert "lifted" in beam(over).stops[0]
    held = beam(evolve(over, hold_down_kn=1.0))
    assert not held.stops
    assert named(held, "holding down").utilisation_ratio < 1.0
    assert "k_sys 1.1" in " ".join(held.assumed)


def test_a_bearer_over_one_span_is_that_of_the_closed_form() -> None:
    """Closed forms of one span: the same load, the same strip, the same restraint."""
    asked = bearer(length_mm=1700.0, supports_mm=(0.0, 1700.0))
    timber = Timber(name="B1", section=asked.section, grade=strength_class("C24"))
    closed = screen_bearer(
        Bearer(
            timber=timber, span_mm=1700.0, carried_mm=1500.0, bearing_mm=94.0, held_each_mm=400.0,
            dead_kn_m2=0.3,
        ),
        actions=actions_of("dwelling"), choices=Choices(),
    )  # fmt: skip
    found = {each.name: each.utilisation_ratio for each in beam(asked).checks}
    wanted = {each.name: each.utilisation_ratio for each in closed.checks}
    assert found == pytest.approx(wanted, rel=1e-4)


def test_a_bearer_over_two_spans() -> None:
    """1.25 w L on the middle post, w = 1.35 (0.45 + 0.0755) + 1.5 x 2.25; shear takes a little."""
    check = named(beam(bearer()), "bearing")
    load = 1.35 * (0.45 + 2 * 0.047 * 0.195 * 420 * 9.81 / 1000) + 1.5 * 1.5 * 1.5
    force = dict(check.inputs)["force_kn"]
    assert force == pytest.approx(1.25 * load * 1.7, rel=0.02)
    hogging = named(beam(bearer()), "bending")
    assert "over a support" in hogging.case
    assert "lower edge is free" in dict(hogging.inputs)["restraint"]


def test_what_other_members_weigh_lies_on_a_bearer_and_a_joist() -> None:
    """1.25 x 1.35 x 0.2 kN/m2 x 1.5 m x 1.7 m more on the middle post; 0.08 x 2.5^2 / 8 x 1.35."""
    forces = [
        dict(named(beam(bearer(more_dead_kn_m2=more)), "bearing").inputs)["force_kn"]
        for more in (0.0, 0.2)
    ]
    assert forces[1] - forces[0] == pytest.approx(1.25 * 1.35 * 0.2 * 1.5 * 1.7, rel=0.02)
    assert "0.2 kN/m2 more" in " ".join(beam(bearer(more_dead_kn_m2=0.2)).assumed)
    stresses = [named(beam(joist(more_dead_kn_m2=more)), "bending").measured for more in (0.0, 0.2)]
    more = 1.35 * 0.2 * 0.4 * 2.5**2 / 8
    assert stresses[1] - stresses[0] == pytest.approx(more * 1e6 / 176_250)
    assert beam(joist(more_dead_kn_m2=-1.0)).stops


def test_the_lower_edge_is_freer_the_longer_the_span() -> None:
    """0.78 x 47^2 x 7400 / (195 (1700 + 2 x 195)) = 31.285; lambda 0.8759; k_crit 0.9031."""
    restrained = named(beam(bearer()), "bending")
    assert dict(restrained.inputs)["k_crit"] == pytest.approx(0.9031, abs=1e-4)


def test_words_for_sharing() -> None:
    """E Ib = 11000 x 145 x 28^3 / 12; k s^3 / 6 E Ib by the docstring's formula of springs."""
    shared = beam(joist(sharing="board over three joists 145 x 28 C24"))
    board_kn_m2 = 11_000 * 145 * 28**3 / 12 / 1e9
    joist_kn_m2 = 11_000 * 47 * 150**3 / 12 / 1e9
    soft = 48 * joist_kn_m2 / 2.5**3 * 0.4**3 / (6 * board_kn_m2)
    ratio = (0.5 + soft) / (1.5 + soft)
    assert shared.assumed[0].startswith(f"{ratio:.3f} of the point load")
    stated = beam(joist(sharing="stated 0.6 by A. Lintel"))
    assert stated.assumed[0].startswith("0.600")
    assert stated.assumed[0].endswith("stated by A. Lintel")
    over = joist(
        sharing="stated 0.6 by A. Lintel", length_mm=4000.0, supports_mm=(0.0, 2000.0, 4000.0)
    )
    assert "no sharing is reckoned" in beam(over).assumed[0]


@pytest.mark.parametrize(
    "wrong",
    [
        "board over three joists",
        "board over three joists 0 x 28 C24",
        "board over three joists 145 x 28 oak",
        "stated 1.5 by A. Lintel",
        "stated by A. Lintel",
        "halved",
    ],
)
def test_other_words_for_sharing_are_a_stop(wrong: str) -> None:
    found = beam(joist(sharing=wrong))
    assert (found.checks, len(found.stops)) == ((), 1)


def test_a_board_is_not_shared_by_two_joists() -> None:
    found = beam(joist(sharing="board over three joists 145 x 28 C24", alike=2))
    assert "three joists alike" in found.stops[0]


def test_a_bearer_shares_nothing_whatever_joists_do() -> None:
    found = beam(bearer(sharing="board over three joists 145 x 28 C24"))
    assert found.checks == beam(bearer()).checks
    assert found.assumed[0] == "the point load falls on one bearer and is not shared"
    assert beam(bearer(sharing="halved")).stops[0].startswith("not covered: sharing")


def test_wood_by_its_class_and_the_nearest_of_a_slip() -> None:
    assert beam(joist(wood=" c 24")) == beam(joist())
    assert beam(joist(wood="C244")).stops[0].endswith("nearest fix: C24")
    assert "C14 to D80" in beam(joist(wood="SP No.2")).stops[0]


def test_a_post_carries_its_share_or_the_point_load() -> None:
    """1.35 x 2 + 1.5 x 4 = 8.7 kN; with little deck 1.35 x 2 + 1.5 x 2 = 5.7 kN."""
    forces = [
        dict(named(EC5.post(post(live_kn=kn), "dwelling"), "post buckling").inputs)["force_kn"]
        for kn in (4.0, 1.0)
    ]
    assert forces == pytest.approx([8.7, 5.7])
    swaying = EC5.post(post(braced=False), "dwelling")
    assert "sway" in swaying.assumed[0]
    assert EC5.post(post(section=section(47.0, 95.0, 2)), "dwelling").stops


def test_a_board_of_a_class() -> None:
    found = EC5.board(board(), "dwelling")
    assert {each.name for each in found.checks} == {"bending", "shear"}
    assert EC5.board(board(wood="decking"), "dwelling").stops


def test_an_anchor_by_its_makers_figure() -> None:
    """Own weight 0.03776 kN/m; (0.6 + 0.03776 / 1.2) 1.2 x 0.4 = 0.3031; 1.35 of it + 1.5 x 2."""
    found = EC5.ledger(ledger(), "dwelling")
    assert named(found, "ledger anchor").measured == pytest.approx(1.35 * 0.30312 + 3, rel=1e-4)
    assert named(found, "ledger anchor").limit == 6.0
    assert named(found, "ledger anchor").source.kind == "brief"


def test_an_anchor_without_a_figure_is_told_its_load_and_stops() -> None:
    found = EC5.ledger(ledger(fixing="anchor"), "dwelling")
    assert not found.checks
    assert "3.41 kN" in found.assumed[0]
    assert "declares" in found.stops[0]


def test_screws_and_bolts_into_solid_timber() -> None:
    """Bolt M12, 4.6: a4t + a4c = 4 d + 3 d = 84 mm; screws go 6 d into what is behind."""
    bolted = EC5.ledger(ledger(fixing="bolt 12 through 47 C24"), "dwelling")
    assert named(bolted, "distance a4,t + a4,c").measured == pytest.approx(84.0)
    screwed = EC5.ledger(ledger(fixing="coach screw 12 x 160 into C24"), "dwelling")
    assert named(screwed, "distance a4,t + a4,c").measured == pytest.approx(84.0)
    assert (
        named(screwed, "ledger fastener").utilisation_ratio
        > named(bolted, "ledger fastener").utilisation_ratio
    )
    short = EC5.ledger(ledger(fixing="coach screw 12 x 120 into C24"), "dwelling")
    assert "72 mm" in short.stops[0]
    thin = EC5.ledger(ledger(fixing="coach screw 8 x 160 into C24"), "dwelling")
    assert "10 mm or thicker" in thin.stops[0]


@pytest.mark.parametrize("fixing", ["", "nails", "anchor 0 kN", "anchor four kN", "bolt 12"])
def test_other_fixings_are_a_stop(fixing: str) -> None:
    found = EC5.ledger(ledger(fixing=fixing), "dwelling")
    assert (found.checks, len(found.stops)) == ((), 1)


def test_a_beam_of_no_kind_and_one_of_too_many_supports_are_stops() -> None:
    assert "one of joist, bearer" in beam(joist(kind="purlin")).stops[0]
    many = joist(length_mm=5e3, supports_mm=tuple(10.0 * at for at in range(101)))
    assert "at most 100" in beam(many).stops[0]


def test_ends_past_both_supports_and_edges_held_now_and_then() -> None:
    both = joist(length_mm=3000.0, supports_mm=(300.0, 2700.0), hold_down_kn=5.0)
    assert "lower edge is free" in " ".join(beam(both).assumed)
    stiff = dict(named(beam(joist(held_each_mm=600.0)), "bending").inputs)
    assert "held each 600 mm" in stiff["restraint"]
    lone = beam(joist(length_mm=4000.0, supports_mm=(0.0, 2000.0, 4000.0), alike=3))
    assert "k_sys" not in " ".join(lone.assumed)


WILD = st.sampled_from([nan, inf, -inf, -1.0, 0.0, 1e-300, 0.5, 1.0, 47.0, 2500.0, 1e5, 1e200])


@given(WILD, WILD, WILD, WILD, st.lists(WILD, max_size=4))
def test_nothing_is_raised(a: float, b: float, c: float, d: float, held: list[float]) -> None:
    wild = section(a, b)
    answers = [
        beam(evolve(each, length_mm=c, carried_mm=d, supports_mm=tuple(held), section=wild))
        for each in (joist(), bearer())
    ]
    answers.append(EC5.post(post(section=wild, length_mm=c, live_kn=d), "dwelling"))
    answers.append(EC5.board(board(section=wild, bay_mm=c), "dwelling"))
    answers.append(EC5.ledger(ledger(section=wild, span_mm=c, spacing_mm=d), "dwelling"))
    for answer in answers:
        assert answer.checks or answer.stops
