"""Fasteners and joints against sums done by hand; the outside examples are in the tables."""

from math import pi, sqrt

import pytest

from drylay.errors import InputError, UncoveredError
from drylay.strength.ec5_actions import actions_of
from drylay.strength.ec5_classes import strength_class
from drylay.strength.ec5_fasteners import (
    bolt_steel_n,
    embedment_n_mm2,
    screw_bending_mm,
    washer_n,
    withdrawal_n,
    yield_moment_n_mm,
)
from drylay.strength.ec5_johansen import design_kn, double_shear, effective_count, single_shear
from drylay.strength.ec5_joints import (
    guard_forces_kn,
    guard_line_load_kn_m,
    ledger_spacing_mm,
    screen_guard_post,
    screen_ledger,
)
from drylay.strength.ec5_model import Choices, Fastener, GuardPost, Side
from drylay.strength.ec5_spacing import axial_spacings, spacing_check, spacings
from strength.ec5_decks import named, timber

C24 = strength_class("C24")


def bolt(diameter_mm: float = 12.0, tensile_n_mm2: float = 400.0, kind: str = "bolt") -> Fastener:
    return Fastener(
        kind=kind,
        diameter_mm=diameter_mm,
        bending_mm=diameter_mm,
        tensile_n_mm2=tensile_n_mm2,
    )


def screw(diameter_mm: float, *, predrilled: bool) -> Fastener:
    return Fastener(
        kind="screw",
        diameter_mm=diameter_mm,
        bending_mm=diameter_mm,
        tensile_n_mm2=600.0,
        predrilled=predrilled,
    )


def side(depth_mm: float, angle_deg: float = 0.0, grade: str = "C24") -> Side:
    return Side(grade=strength_class(grade), depth_mm=depth_mm, angle_deg=angle_deg)


def test_embedment() -> None:
    """0.082 x 0.88 x 350 = 25.256; across 1.53 times less; not pre-drilled 0.082 x 350 x 5^-0.3."""
    assert embedment_n_mm2(bolt(), side(47)) == pytest.approx(25.256)
    assert embedment_n_mm2(bolt(), side(47, 90)) == pytest.approx(25.256 / 1.53)
    hard = embedment_n_mm2(bolt(), side(47, 90, "D30"))
    assert hard == pytest.approx(0.082 * 0.88 * 530 / 1.08)
    thin = embedment_n_mm2(screw(5, predrilled=False), side(47, 90))
    assert thin == pytest.approx(28.7 * 5**-0.3)
    with pytest.raises(InputError, match="pre-drilled"):
        embedment_n_mm2(screw(5, predrilled=False), side(47, grade="D30"))
    with pytest.raises(InputError, match="kind"):
        embedment_n_mm2(bolt(kind="rivet"), side(47))


def test_a_bolt_in_two_shear_planes() -> None:
    """M12 4.6, 47 outside and 100 between, along the grain, My 76.74 N m: j 6.573 kN governs."""
    assert yield_moment_n_mm(bolt()) == pytest.approx(76_740, rel=1e-3)
    found = double_shear(bolt(), side(47), side(100))
    modes = dict(found.modes_kn)
    assert modes["g"] == pytest.approx(14.244, rel=1e-4)
    assert modes["h"] == pytest.approx(15.154, rel=1e-4)
    assert modes["j"] == pytest.approx(6.573, rel=1e-3)
    assert modes["k"] == pytest.approx(7.843, rel=1e-3)
    assert (found.governing, found.rope_kn) == ("j", 0.0)


def test_alike_pieces_make_modes_symmetric() -> None:
    """With both sides alike modes a and b are equal, d and e too: the joint turned round."""
    modes = dict(single_shear(bolt(), side(60), side(60)).modes_kn)
    assert modes["a"] == modes["b"]
    assert modes["d"] == pytest.approx(modes["e"])
    assert modes["c"] == pytest.approx(modes["a"] * (sqrt(8) - 2) / 2)


def test_turning_a_joint_round_swaps_its_modes() -> None:
    here = dict(single_shear(bolt(), side(47, 90), side(100, 0)).modes_kn)
    there = dict(single_shear(bolt(), side(100, 0), side(47, 90)).modes_kn)
    for one, other in (("a", "b"), ("c", "c"), ("d", "e"), ("f", "f")):
        assert here[one] == pytest.approx(there[other]), one


@pytest.mark.parametrize(
    ("kind", "share"),
    [("nail", 0.15), ("screw", 1.0), ("coach screw", 1.0), ("bolt", 0.25), ("dowel", 0.0)],
)
def test_rope_effect_is_capped_by_kind(kind: str, share: float) -> None:
    """8.2.2(2): however hard it is to pull out, no more than this part of the Johansen part."""
    fastener = bolt(kind=kind)
    bare = single_shear(fastener, side(47), side(100))
    roped = single_shear(fastener, side(47), side(100), pull_n=1e9)
    without, with_it = dict(bare.modes_kn), dict(roped.modes_kn)
    assert with_it["f"] == pytest.approx(without["f"] * (1 + share))
    assert with_it["a"] == without["a"]
    assert roped.rope_kn <= roped.resistance_kn


def test_a_little_rope_is_a_quarter_of_the_pull_out() -> None:
    found = single_shear(bolt(), side(47), side(100), pull_n=800.0)
    assert found.rope_kn == pytest.approx(0.2)


def test_withdrawal_within_the_formula_only() -> None:
    """d 8, l_ef 64, C24: 6735.4 N (worked apart); at 30 degrees 1.2 x 0.75 + 0.25 = 1.15 less."""
    assert withdrawal_n(8, 64, C24) == pytest.approx(6735.4, rel=1e-4)
    assert withdrawal_n(8, 64, C24, 30.0) == pytest.approx(6735.4 / 1.15, rel=1e-4)
    assert withdrawal_n(6, 36, C24) > 0
    assert withdrawal_n(12, 72, C24) > 0
    for outside in ((5.9, 64, 90), (12.1, 80, 90), (8, 47.9, 90), (8, 64, 29), (8, 64, 91)):
        with pytest.raises(UncoveredError):
            withdrawal_n(outside[0], outside[1], C24, outside[2])
    with pytest.raises(InputError) as raised:
        withdrawal_n(5, 20, C24, 10.0)
    assert [fault.path for fault in raised.value.faults] == [
        "diameter_mm", "thread_mm", "angle_deg",
    ]  # fmt: skip


def test_the_diameter_that_bends() -> None:
    assert screw_bending_mm(8, 5.4, 40) == 8
    assert screw_bending_mm(8, 5.4, 31) == pytest.approx(5.94)


def test_washers_and_bolts() -> None:
    """3 x 2.5 x pi (50^2 - 13^2) / 4; 0.9 x 400 x 84.3 / 1.25."""
    assert washer_n(50, 13, C24) == pytest.approx(7.5 * pi * 2331 / 4)
    assert bolt_steel_n(84.3, 400) == pytest.approx(24_278.4)


def test_bolts_in_a_row() -> None:
    """2^0.9 (60 / 156)^0.25 = 1.4696; never more than there are."""
    assert effective_count(bolt(), 2, 60.0) == pytest.approx(1.4696, rel=1e-3)
    assert effective_count(bolt(), 2, 1e6) == 2.0
    assert effective_count(bolt(), 1, 60.0) == 1.0


@pytest.mark.parametrize(
    ("fastener", "angle_deg", "rho", "wanted"),
    [
        (screw(5, predrilled=True), 0, 350, (25, 15, 60, 35, 15, 15)),
        (screw(5, predrilled=True), 90, 350, (20, 20, 35, 35, 35, 15)),
        (screw(4, predrilled=True), 90, 350, (16, 16, 28, 28, 20, 12)),
        (screw(5, predrilled=False), 0, 420, (60, 25, 75, 50, 25, 25)),
        (screw(5, predrilled=False), 90, 420, (25, 25, 50, 50, 50, 25)),
        (screw(4, predrilled=False), 0, 350, (40, 20, 60, 40, 20, 20)),
        (screw(5, predrilled=False), 90, 500, (35, 35, 75, 75, 60, 35)),
        (screw(4, predrilled=False), 90, 500, (28, 28, 60, 60, 36, 28)),
        (bolt(12), 0, 350, (60, 48, 84, 48, 36, 36)),
        (bolt(12), 90, 350, (48, 48, 84, 84, 48, 36)),
        (bolt(10), 0, 350, (50, 40, 80, 40, 30, 30)),
        (bolt(12, kind="dowel"), 0, 350, (60, 36, 84, 36, 36, 36)),
        (bolt(12, kind="dowel"), 90, 350, (36, 36, 84, 84, 48, 36)),
        (bolt(10, kind="coach screw"), 90, 350, (40, 40, 80, 70, 40, 30)),
    ],
)
def test_distances(
    fastener: Fastener, angle_deg: float, rho: float, wanted: tuple[float, ...]
) -> None:
    """a1, a2, a3t, a3c, a4t, a4c by hand from tables 8.2, 8.4, 8.5, which are from memory."""
    found = spacings(fastener, angle_deg=angle_deg, rho_k_kg_m3=rho)
    told = (found.a1_mm, found.a2_mm, found.a3t_mm, found.a3c_mm, found.a4t_mm, found.a4c_mm)
    assert told == pytest.approx(wanted)
    assert "table 8." in found.source.clause


def test_dense_wood_is_predrilled() -> None:
    with pytest.raises(InputError, match="pre-drilled"):
        spacings(screw(5, predrilled=False), angle_deg=0, rho_k_kg_m3=530)


def test_pulled_screws_keep_their_own_distances() -> None:
    found = axial_spacings(8)
    assert (found.a1_mm, found.a2_mm, found.a3c_mm, found.a4c_mm) == (56, 40, 80, 32)
    assert spacing_check("L", "a4c", least_mm=36, there_mm=30).utilisation_ratio == 1.2


def test_a_ledger() -> None:
    """(1.35 x 0.4 + 1.5 x 1.5) x 1.5 = 4.185 kN/m; 0.5 x 6.2979 kN over that is 752.4 mm."""
    coach = Fastener(kind="coach screw", diameter_mm=10, bending_mm=9, tensile_n_mm2=400)
    held = single_shear(coach, side(47), side(53), pull_n=5264.77)
    assert held.resistance_kn == pytest.approx(6.2979, rel=1e-4)
    assert held.governing == "f"
    about = {"dead_kn_m2": 0.4, "actions": actions_of("dwelling"), "choices": Choices()}
    assert ledger_spacing_mm(held, span_mm=3000, **about) == 752.0
    with pytest.raises(UncoveredError, match="crowd"):
        ledger_spacing_mm(
            held, span_mm=3000, dead_kn_m2=0.4, actions=actions_of("crowd"), choices=Choices()
        )
    found = screen_ledger("L", held, spacing_mm=752, span_mm=3000, **about)
    fastener = named(found, "ledger fastener")
    assert fastener.case == "6.10: 1.35 G + 1.5 Q on one fastener"
    assert fastener.measured == pytest.approx(0.54 * 1.5 * 0.752 + 3.0)
    assert fastener.limit == pytest.approx(design_kn(6.2979, 3, "medium"), rel=1e-4)
    assert any("sound solid timber" in said for said in found.assumed)
    stopped = screen_ledger(
        "L", held, spacing_mm=400, span_mm=3000, dead_kn_m2=0.4,
        actions=actions_of("hot tub"), choices=Choices(),
    )  # fmt: skip
    assert stopped.stops


def test_a_guard_post() -> None:
    """0.74 x 1.2 x 1.5 = 1.332 kN at 1.2 m over a couple of 0.1 m: 15.98 and 17.32 kN."""
    post = GuardPost(
        timber=timber("C24", 95, 95), line_load_kn_m=guard_line_load_kn_m("other"),
        centres_mm=1200, rail_mm=1200, bolts_mm=100, hole_mm=13, washer_mm=50,
        stress_area_mm2=84.3, tensile_n_mm2=400, edge_grade=strength_class("C16"),
    )  # fmt: skip
    push, upper, lower = guard_forces_kn(post)
    assert (push, upper, lower) == pytest.approx((1.332, 17.316, 15.984))
    found = screen_guard_post(post, choices=Choices())
    bent = named(found, "bending")
    assert bent.measured == pytest.approx(1.332 * 1.2e6 / (82 * 95**2 / 6))
    assert bent.limit == pytest.approx(24 * 0.7 / 1.3 * (150 / 95) ** 0.2)
    washer = named(found, "washer bearing")
    assert washer.measured == pytest.approx(17.316)
    assert washer.limit == pytest.approx(3 * 2.2 * pi * 2331 / 4 / 1e3 * 0.7 / 1.3)
    assert named(found, "bolt in tension").limit == pytest.approx(24.2784)
    assert named(found, "shear").measured == pytest.approx(1.5 * 15_984 / (0.67 * 82 * 95))
    assert any("held against rolling" in said for said in found.assumed)
    assert guard_line_load_kn_m("dwelling") == 0.36
