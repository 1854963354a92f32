"""What cannot be meant is refused by the US basis' single verbs, never answered with a number."""

from collections.abc import Callable

import pytest
from attrs import evolve

from drylay.errors import InputError, UncoveredError
from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_built_up import built_up_check, ply_fixings
from drylay.strength.nds_cuts import (
    hole_checks,
    notched_bending_check,
    notched_shear_check,
    screened_notch,
)
from drylay.strength.nds_joint_model import SawnNotch
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_values import dressed
from drylay.strength.nds_yield import YIELD as SOURCE
from drylay.strength.nds_yield import Lateral, lateral_check

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
