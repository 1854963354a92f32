"""Posts of plies by the US basis: a published column's factor, sums by hand, laws."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError, UncoveredError
from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_built_up import (
    built_up_check,
    built_up_ratio,
    least_nail_mm,
    least_rows,
    ply_fixings,
    screened_built_up_post,
)
from drylay.strength.nds_checks import column_check
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_values import dressed
from drylay.strength.us_units import kn_of_lb, mm_of_feet, mm_of_inches

DRY = Conditions(wet=False)
PLIES = dressed("2x4", 3)
SPRUCE = allowed("SPF", "No.2", PLIES, DRY)
LONG = mm_of_feet(7.3)


def test_three_2x4_by_a_published_column_and_by_hand() -> None:
    """HUD example 5.6, a 4x4 of 7.3 ft, has CP 0.4378; three 2x4 the way they are deep alike.

    Across, l / d = 87.6 / 4.5 = 19.47, FcE = 0.822 x 510 000 / 378.9 = 1106 psi over Fc* = 1322.5:
    0.8365, CP 0.6265 by hand; nailed x 0.6 = 0.376, which governs, bolted x 0.75 = 0.470, which
    does not.
    """
    nailed = built_up_ratio(SPRUCE, PLIES, joined="nailed", length_mm=LONG, braced_mm=LONG)
    assert nailed == (pytest.approx(0.376, abs=5e-4), "across the plies")
    bolted = built_up_ratio(SPRUCE, PLIES, joined="bolted", length_mm=LONG, braced_mm=LONG)
    assert bolted == (pytest.approx(0.4378, abs=1e-4), "the way the plies are deep")


def test_a_post_of_plies_tells_its_clause_and_inputs() -> None:
    """4800 lb on 15.75 in2 are 304.8 psi; Fc* 1322.5 x 0.4378 = 579.0: 0.526 of it."""
    found = built_up_check(
        SPRUCE,
        PLIES,
        subject="P1",
        joined="bolted",
        load_kn=kn_of_lb(4800),
        length_mm=LONG,
        braced_mm=LONG,
        case="all load",
    )
    assert found.utilisation_ratio == pytest.approx(0.5264, abs=5e-4)
    assert (found.source.clause, found.case) == ("15.3.2", "all load")
    inputs = dict(found.inputs)
    assert inputs["Kf"] == 0.75
    assert inputs["buckles"] == "the way the plies are deep"


def screened(section: Section = PLIES, **more):
    asked = {
        "subject": "P1",
        "wood": ("SPF", "No.2"),
        "joined": "nailed",
        "fastener_mm": mm_of_inches(0.162),
        "length_mm": 2000.0,
        "dead_kn": 3.0,
        "live_kn": 10.0,
        "conditions": DRY,
    }
    return screened_built_up_post(section, **{**asked, **more})


def test_a_screened_post_tells_how_its_plies_are_nailed() -> None:
    """16d, 4.115 mm: ends 15 to 18 D, 20 D to 6 x 38.1 along, rows 10 to 20 D, edges 5 to 20 D.

    Length through two plies and three quarters of the third: 2.75 x 38.1 = 104.8 mm.
    """
    found = screened()
    assert [check.case for check in found.checks] == ["dead and live load"]
    told = found.assumed[-1]
    assert "1 row at least" in told
    assert "along 82.3 to 228.6 mm, end 61.72 to 74.07 mm" in told
    assert "between rows 41.15 to 82.3 mm, edge 20.57 to 82.3 mm" in told
    assert "nails 104.8 mm long at least" in told
    assert any("within the screened limits" in said for said in found.assumed)
    assert screened(live_kn=0.0).checks[0].case == "dead load"


def test_deep_plies_need_two_rows() -> None:
    assert least_rows(dressed("2x4", 2)) == 1
    assert least_rows(dressed("2x6", 2)) == 2
    assert "2 rows at least" in screened(dressed("2x6", 3)).assumed[-1]
    assert least_nail_mm(dressed("2x6", 2)) == pytest.approx(1.75 * 38.1)


def test_bolts_keep_their_own_distances() -> None:
    half = mm_of_inches(0.5)
    found = {each.name: each for each in ply_fixings(PLIES, joined="bolted", fastener_mm=half)}
    assert (found["end"].least_mm, found["end"].most_mm) == pytest.approx((7 * half, 8.4 * half))
    assert (found["along"].least_mm, found["along"].most_mm) == pytest.approx((4 * half, 228.6))
    assert "plates or washers" in screened(joined="bolted", fastener_mm=half).assumed[-1]


def test_a_post_held_more_often_across_its_plies_bears_more() -> None:
    free = screened(length_mm=2400.0).checks[0]
    held = screened(length_mm=2400.0, braced_mm=800.0).checks[0]
    assert held.utilisation_ratio < free.utilisation_ratio
    assert dict(held.inputs)["braced_mm"] == 800.0


def test_what_is_not_covered_is_refused_with_every_fault() -> None:
    with pytest.raises(UncoveredError) as told:
        screened(Section(breadth_mm=20, depth_mm=89, plies=6), joined="glued")
    paths = [fault.path for fault in told.value.faults]
    assert paths == ["section.plies", "section.breadth_mm", "joined"]
    with pytest.raises(UncoveredError, match="at most 50"):
        screened(length_mm=5000.0)
    with pytest.raises(UncoveredError, match="fastener_mm"):
        ply_fixings(PLIES, joined="nailed", fastener_mm=12.0)
    with pytest.raises(InputError, match="fastener_mm"):
        ply_fixings(PLIES, joined="nailed", fastener_mm=0.0)
    with pytest.raises(InputError) as found:
        built_up_ratio(SPRUCE, PLIES, joined="nailed", length_mm=0.0, braced_mm=-1.0)
    assert [fault.path for fault in found.value.faults] == ["length_mm", "braced_mm"]
    with pytest.raises(InputError) as found:
        screened(fastener_mm=0.0, length_mm=float("nan"), dead_kn=-1.0, braced_mm=-1.0)
    paths = [fault.path for fault in found.value.faults]
    assert paths == ["fastener_mm", "length_mm", "dead_kn", "braced_mm"]


POSTS = st.sampled_from(["2x4", "2x6", "2x8"])
WOODS = st.sampled_from([("SP", "No.2"), ("DFL", "No.2"), ("HF", "No.1")])


def used(section: Section, wood, *, load_kn=10.0, length_mm=1500.0, joined="nailed") -> float:
    return built_up_check(
        allowed(*wood, section, Conditions()),
        section,
        subject="P1",
        joined=joined,
        load_kn=load_kn,
        length_mm=length_mm,
        braced_mm=length_mm,
        case="all load",
    ).utilisation_ratio


@given(POSTS, WOODS, st.integers(2, 4), st.floats(300, 1900), st.floats(1.0, 2.0))
def test_load_and_length_work_it_harder_plies_and_bolts_less(
    size, wood, plies, length_mm, times
) -> None:
    section = dressed(size, plies)
    here = used(section, wood, length_mm=length_mm)
    longer = used(section, wood, length_mm=length_mm * min(times, 1900 / length_mm))
    assert longer >= here * (1 - 1e-9)
    assert used(section, wood, length_mm=length_mm, load_kn=10 * times) == pytest.approx(
        here * times
    )
    more = evolve(section, plies=plies + 1)
    assert used(more, wood, length_mm=length_mm) <= here * (1 + 1e-9)
    assert used(section, wood, length_mm=length_mm, joined="bolted") <= here * (1 + 1e-9)


@given(WOODS, st.integers(2, 5), st.floats(300, 1900), st.sampled_from(["nailed", "bolted"]))
def test_plies_never_bear_more_than_solid_wood_would(wood, plies, length_mm, joined) -> None:
    section = dressed("2x4", plies)
    values = allowed(*wood, section, Conditions())
    solid = Section(breadth_mm=section.breadth_mm * plies, depth_mm=section.depth_mm)
    whole = column_check(
        values, solid, subject="P1", load_kn=10.0, length_mm=length_mm, case="all load"
    )
    assert used(section, wood, length_mm=length_mm, joined=joined) >= whole.utilisation_ratio * (
        1 - 1e-9
    )
