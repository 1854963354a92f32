"""What cannot be meant is refused by the US basis' single verbs, never answered with a number."""

from collections.abc import Callable

import pytest
from attrs import evolve

from drylay.errors import InputError, UncoveredError
from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_built_up import built_up_check, ply_fixings, screened_built_up_post
from drylay.strength.nds_cuts import (
    hole_checks,
    notched_bending_check,
    notched_shear_check,
    screened_notch,
)
from drylay.strength.nds_dowels import bolt, nail, penetration_bears_mm
from drylay.strength.nds_factors import column_stability_factor
from drylay.strength.nds_joint_factors import group_ratio
from drylay.strength.nds_joint_model import SawnNotch, Wood
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_posts import post_height_mm
from drylay.strength.nds_screen import screened_post
from drylay.strength.nds_values import dressed
from drylay.strength.nds_yield import YIELD as SOURCE
from drylay.strength.nds_yield import Lateral, lateral_check, single_shear

NAN, INF = float("nan"), float("inf")
JOIST = dressed("2x8")
WOOD = allowed("SP", "No.2", JOIST, Conditions())
END = SawnNotch(deep_mm=40.0, long_mm=60.0, reach_mm=50.0, stretched=True, at_end=True)


def refused(paths: set[str], asked: Callable[[], object]) -> None:
    with pytest.raises(InputError) as told:
        asked()
    assert {fault.path for fault in told.value.faults} == paths


@pytest.mark.parametrize("load", [NAN, INF, -INF])
def test_loads_that_are_no_numbers(load: float) -> None:
    here = {"subject": "J1", "case": "all"}
    refused({"shear_kn"}, lambda: notched_shear_check(WOOD, JOIST, END, shear_kn=load, **here))
    refused({"moment_kn_m"},
            lambda: notched_bending_check(WOOD, JOIST, END, moment_kn_m=load, **here))  # fmt: skip


@pytest.mark.parametrize("load", [NAN, INF, -5.0])
def test_a_post_that_is_lifted_or_pressed_by_no_number(load: float) -> None:
    refused({"load_kn"}, lambda: built_up_check(
        WOOD, dressed("2x6", 3), subject="P1", joined="nailed", load_kn=load, length_mm=2400,
        braced_mm=2400, case="all"))  # fmt: skip


@pytest.mark.parametrize("count", [NAN, INF, 1.5, 0])
def test_fasteners_are_counted_in_whole_ones(count: float) -> None:
    each = Lateral(modes_kn=(("IV", 1.0),), governing="IV", each_kn=1.0, source=SOURCE)
    refused({"count"}, lambda: lateral_check(
        each, subject="J1", load_kn=1.0, count=count, ratio=1.0, case="all"))  # fmt: skip


def test_a_hole_further_from_the_nearer_edge_than_there_is_room() -> None:
    """(184 - 60) / 2 = 62 is the most; who measures to the further edge says 110."""
    assert len(hole_checks("J1", depth_mm=184, across_mm=60, to_edge_mm=62)) == 2
    refused({"to_edge_mm"}, lambda: hole_checks("J1", depth_mm=184, across_mm=60, to_edge_mm=110))
    refused({"across_mm"}, lambda: hole_checks("J1", depth_mm=100, across_mm=400, to_edge_mm=60))


def screened(notch: SawnNotch, section: Section = JOIST) -> object:
    return screened_notch(WOOD, section, notch, subject="J1", span_mm=3000.0, shear_kn=1.0,
                          moment_kn_m=0.1, case="all")  # fmt: skip


@pytest.mark.parametrize(("at_end", "reach_mm"), [(True, 1500.0), (True, 61.0), (False, 1501.0)])
def test_a_notch_that_is_not_where_it_is_said_to_be(at_end: bool, reach_mm: float) -> None:
    screened(END)
    refused({"notch.reach_mm"}, lambda: screened(evolve(END, at_end=at_end, reach_mm=reach_mm)))


@pytest.mark.parametrize("size", [0.0, -38.0, NAN, INF])
def test_sections_that_no_timber_has(size: float) -> None:
    refused({"section.breadth_mm"}, lambda: screened(END, evolve(JOIST, breadth_mm=size)))
    refused({"section.plies"}, lambda: screened(END, evolve(JOIST, plies=-2)))
    for plies in (1.5, NAN, INF):
        refused({"section.plies"}, lambda: screened(END, evolve(JOIST, plies=plies)))  # noqa: B023 - asked at once


@pytest.mark.parametrize(("name", "plies", "joined", "most"), [
    ("2x6", 3, "nailed", 139.7 / 20), ("2x4", 2, "bolted", 88.9 / 3)])  # fmt: skip
def test_plies_are_joined_by_what_has_room(name: str, plies: int, joined: str, most: float) -> None:
    """2x6: two rows, 5D + 10D + 5D; 2x4 in bolts: one, 1.5D from either edge (NDS 15.3, memory)."""
    section = dressed(name, plies)
    ply_fixings(section, joined=joined, fastener_mm=most)
    with pytest.raises(UncoveredError, match="fastener_mm"):
        ply_fixings(section, joined=joined, fastener_mm=most + 0.1)


@pytest.mark.parametrize("depth_mm", [0.0, -140.0, NAN, INF])
def test_posts_of_plies_that_nobody_saws(depth_mm: float) -> None:
    section = evolve(dressed("2x6", 3), depth_mm=depth_mm)
    with pytest.raises(UncoveredError, match="depth_mm"):
        ply_fixings(section, joined="nailed", fastener_mm=4.0)
    for plies in (2.5, NAN, INF):
        with pytest.raises(UncoveredError, match="plies"):
            ply_fixings(evolve(dressed("2x6", 3), plies=plies), joined="nailed", fastener_mm=4.0)


@pytest.mark.parametrize(
    "size",
    ["8x2", "6x1", "1x1", "0x0", "-2x8", "2x-8", "24x24", "2x13", "2x8x3", "02x8", "2X8", None, 28],
)
def test_sizes_that_the_lumber_standard_does_not_name(size: str) -> None:
    """Thick before deep, up to 16 in: PS 20, table 3, from memory."""
    refused({"size"}, lambda: dressed(size))
    refused({"size", "plies"}, lambda: dressed(size, -1))
    for plies in (0, 1.5, NAN):
        refused({"plies"}, lambda: dressed("2x8", plies))  # noqa: B023 - asked at once


def test_sizes_that_it_names() -> None:
    for size in ("1x2", "1x6", "2x2", "2x14", "4x4", "4x16", "5x5", "6x14", "16x16"):
        assert 0 < dressed(size).breadth_mm <= dressed(size).depth_mm


def test_none_is_the_word_for_no_cut_beside_a_hole() -> None:
    bored = {"depth_mm": 184.0, "across_mm": 40.0, "to_edge_mm": 60.0}
    assert len(hole_checks("J1", **bored)) == len(hole_checks("J1", **bored, to_next_mm=None)) == 2
    for nothing in (0.0, -0.0):
        refused({"to_next_mm"}, lambda: hole_checks("J1", **bored, to_next_mm=nothing))  # noqa: B023
    refused({"across_mm", "to_next_mm"}, lambda: hole_checks(
        "J1", depth_mm=184.0, across_mm=200.0, to_edge_mm=60.0, to_next_mm=-1.0))  # fmt: skip


@pytest.mark.parametrize(
    ("factors", "paths"),
    [
        ({"duration_ratio": NAN}, {"conditions.duration_ratio"}),
        ({"duration_ratio": -2.0, "repeated_ratio": 9.0},
         {"conditions.duration_ratio", "conditions.repeated_ratio"}),
        ({"duration_ratio": 2.1}, {"conditions.duration_ratio"}),
        ({"repeated_ratio": 0.99}, {"conditions.repeated_ratio"}),
    ],
)  # fmt: skip
def test_factors_that_no_use_has(factors: dict[str, float], paths: set[str]) -> None:
    """CD up to 2.0, impact; Cr 1 to 1.15: NDS table 2.3.2 and 4.3.9, from memory."""
    refused(paths, lambda: allowed("SP", "No.2", JOIST, Conditions(**factors)))
    refused({*paths, "species"}, lambda: allowed("OAK", "No.2", JOIST, Conditions(**factors)))


def test_a_post_of_no_length_and_a_soft_one_by_eulers_limits() -> None:
    """CP goes to 1 as a post gets short, and to 0.822 E / (l/d)^2 / Fc as it gets soft."""
    post = {"least_mm": 100.0, "along_n_mm2": 10.0}
    for length_mm in (1e-9, 1e-6, 1e-3, 1.0):
        short = column_stability_factor(length_mm=length_mm, least_stiffness_n_mm2=3e3, **post)
        assert short == pytest.approx(1, abs=1e-6)
    for soft in (1e-9, 1e-6, 1e-4):
        slender = column_stability_factor(length_mm=2000, least_stiffness_n_mm2=soft, **post)
        assert slender == pytest.approx(0.822 * soft / 20**2 / 10, rel=1e-6)


@pytest.mark.parametrize(("main_n", "side_n"), [(1e30, 1e12), (1e12, 1e30), (1e-9, 1e-9)])
def test_pieces_that_no_row_of_bolts_joins(main_n: float, side_n: float) -> None:
    with pytest.raises(InputError, match=r"main_n|side_n"):
        group_ratio(bolt(12.7), count=4, spacing_mm=50, main_n=main_n, side_n=side_n, steel=False)
    refused({"count"}, lambda: group_ratio(
        bolt(12.7), count=101, spacing_mm=50, main_n=4e8, side_n=4e8, steel=False))  # fmt: skip


def test_a_dowel_made_by_hand_is_no_thicker_than_it_is_called() -> None:
    thick = evolve(bolt(12.7), body_mm=12.8)
    piece = Wood(bears_mm=38.1, gravity_ratio=0.5)
    refused({"dowel.body_mm"}, lambda: single_shear(thick, piece, piece))
    refused({"dowel.body_mm", "dowel.yield_n_mm2", "main.bears_mm", "side.gravity_ratio"},
            lambda: single_shear(evolve(thick, body_mm=-1.0, yield_n_mm2=NAN),
                                 evolve(piece, bears_mm=0.0),
                                 evolve(piece, gravity_ratio=NAN)))  # fmt: skip
    refused({"tip_mm"}, lambda: penetration_bears_mm(nail(4.1), 26.0, 60.0))


def test_a_post_borne_at_no_height_is_no_post() -> None:
    post = dressed("4x4")
    wood = allowed("SP", "No.2", post, Conditions())
    full_kn = wood.along_n_mm2 * 88.9**2 / 1e3
    with pytest.raises(UncoveredError, match="load_kn"):
        post_height_mm(wood, post, load_kn=full_kn * (1 - 1e-9))


def test_a_post_of_plies_is_told_all_its_faults() -> None:
    refused(
        {"fastener_mm", "section.plies", "joined", "species", "load", "conditions.repeated_ratio"},
        lambda: screened_built_up_post(
            dressed("2x6", 6), subject="P1", wood=("OAK", "No.2"), joined="glued",
            fastener_mm=NAN, length_mm=2400.0, dead_kn=1.0, live_kn=1.0, live_for="moonlight",
            conditions=Conditions(repeated_ratio=2.0)),
    )  # fmt: skip
    for wood in (("SP",), ("SP", "No.2", "dry"), None):
        with pytest.raises(InputError, match="two words"):
            screened_post(dressed("6x6"), subject="P1", wood=wood, length_mm=2400.0, dead_kn=1.0,
                          live_kn=1.0, conditions=Conditions())  # fmt: skip
