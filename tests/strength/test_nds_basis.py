"""US allowable stresses as a design basis, against sums done by hand in inches and pounds."""

from math import inf, nan

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.strength.model import Screened
from drylay.strength.nds_basis import lower_free_mm, us_allowable_stress
from drylay.strength.nds_values import dressed
from drylay.strength.us_units import kn_of_lb, mm_of_feet, mm_of_inches, psi_of_n_mm2
from strength.asked import bearer, board, joist, ledger, post, section
from strength.ec5_decks import named

US = us_allowable_stress()
#: A 2x8 of southern pine, 142 in over 16 in centres.
JOIST = joist(
    wood="SP No.2", section=dressed("2x8"), length_mm=mm_of_inches(142),
    supports_mm=(0.0, mm_of_inches(142)), carried_mm=mm_of_inches(16),
)  # fmt: skip
BEARER = bearer(wood="SP No.2", section=dressed("2x10", plies=2))
POST = post(wood="SP No.2", section=dressed("4x4"))
LEDGER = ledger(
    wood="SP No.2", section=dressed("2x8"), span_mm=mm_of_feet(8), spacing_mm=mm_of_inches(18)
)


def beam(asked: object, use: str = "dwelling") -> Screened:
    return US.beam(asked, use)  # type: ignore[arg-type]


def test_a_joist_as_the_deck_table_has_it() -> None:
    """DCA 6-2012 table 2: 11 ft 10 in. (50 x 16 / 12) x 142^2 / 96 / 13.14 over 925 x 1.15."""
    check = named(beam(JOIST), "bending")
    stress = 50 * 16 / 12 * 142**2 / 96 / (1.5 * 7.25**2 / 6)
    assert psi_of_n_mm2(check.measured) == pytest.approx(stress)
    assert psi_of_n_mm2(check.limit) == pytest.approx(925 * 1.15)
    assert check.utilisation_ratio == pytest.approx(1.0, abs=0.003)


@pytest.mark.parametrize(
    ("spacing_inch", "span_inch", "end_inch"), [(12, 157, 22), (16, 142, 24), (24, 116, 28)]
)
def test_the_deck_table_itself(spacing_inch: int, span_inch: int, end_inch: int) -> None:
    """DCA 6-2012 table 2, southern pine 2x8, read: 13-1, 11-10, 9-8 and 1-10, 2-0, 2-4."""
    span_mm = mm_of_inches(span_inch)
    asked = evolve(
        JOIST, length_mm=span_mm + mm_of_inches(end_inch), supports_mm=(0.0, span_mm),
        carried_mm=mm_of_inches(spacing_inch) - 10, hold_down_kn=1.0,
    )  # fmt: skip
    for name in ("span, deck table", "free end, deck table"):
        assert named(beam(asked), name).utilisation_ratio == pytest.approx(1.0)


def test_beside_a_short_span_a_quarter_of_it_is_the_most() -> None:
    """DCA 6-2012: at most L / 4. 20 in beside 60 in, where the table alone has 24 in."""
    asked = evolve(
        JOIST, length_mm=mm_of_inches(80), supports_mm=(mm_of_inches(20), mm_of_inches(80)),
        hold_down_kn=5.0,
    )  # fmt: skip
    found = named(beam(asked), "free end, quarter of the span")
    assert found.utilisation_ratio == pytest.approx(20 / 15)
    assert named(beam(asked), "free end, deck table").utilisation_ratio < 1


def test_joists_that_the_deck_table_has_not() -> None:
    names = [
        {each.name for each in beam(evolve(JOIST, **more)).checks}
        for more in (
            {"carried_mm": mm_of_inches(25)}, {"section": section(45.0, 195.0)},
            {"section": dressed("2x8", plies=2)}, {"kind": "bearer"},
        )
    ]  # fmt: skip
    assert not any("deck table" in name for each in names for name in each)
    assert not any("free end" in each.name for each in beam(JOIST).checks)


def test_three_joists_close_together_share() -> None:
    """NDS 4.3.9: three or more, no further apart than 24 in."""
    limits = [
        named(beam(evolve(JOIST, **more)), "bending").limit
        for more in (
            {"alike": 3, "carried_mm": mm_of_inches(24)}, {"alike": 2},
            {"carried_mm": mm_of_inches(24) + 1}, {"kind": "bearer"},
        )
    ]  # fmt: skip
    assert [limit / limits[1] for limit in limits] == pytest.approx([1.15, 1.0, 1.0, 1.0])


@pytest.mark.parametrize(
    "wood", ["SP No.2", "sp no. 2", "Southern Pine No.2", "southern pine #2", " SP  No.2 "]
)
def test_a_wood_by_its_species_and_grade(wood: str) -> None:
    assert beam(evolve(JOIST, wood=wood)) == beam(JOIST)


def test_species_with_hyphens_and_grades_in_words() -> None:
    for wood in ("Douglas Fir-Larch No.2", "DFL No. 2", "douglas fir larch no 2"):
        assert beam(evolve(JOIST, wood=wood)) == beam(evolve(JOIST, wood="DFL No.2"))
    assert beam(evolve(JOIST, wood="Hem-Fir Select Structural")).checks
    assert beam(evolve(JOIST, wood="Hem-Fir Select Structural")) == beam(
        evolve(JOIST, wood="HF SS")
    )


def test_an_unknown_wood_is_a_stop_and_a_grade_alone_too() -> None:
    slip = beam(evolve(JOIST, wood="SPP No.2"))
    assert slip.stops[0].endswith("nearest fix: SP No.2")
    alone = beam(evolve(JOIST, wood="No. 2"))
    assert "a species and its grade" in alone.stops[0]
    assert "nearest" not in alone.stops[0]
    assert not alone.checks


def test_loads_of_a_dwelling_and_of_nothing_else() -> None:
    """DCA 6-2012 table 2: 40 and 10 psf; 220 lb."""
    loads = US.loads("dwelling")
    assert loads.imposed_kn_m2 == pytest.approx(40 * 0.04788, rel=1e-4)
    assert loads.dead_kn_m2 == pytest.approx(10 * 0.04788, rel=1e-4)
    assert (loads.point_kn, loads.own_weight_apart) == (kn_of_lb(220), False)
    for use in ("balcony", "public", "crowd", "hot tub", "stage"):
        assert US.loads(use).stops
        assert US.loads(use).imposed_kn_m2 == 0
        answers = (
            beam(JOIST, use), US.post(POST, use), US.board(board(), use), US.ledger(LEDGER, use)
        )  # fmt: skip
        assert all(answer.stops and not answer.checks for answer in answers)


def test_what_other_members_weigh_lies_on_a_joist() -> None:
    """10 psf more of 50: a fifth more bending."""
    more = evolve(JOIST, more_dead_kn_m2=US.loads("dwelling").dead_kn_m2)
    ratio = named(beam(more), "bending").measured / named(beam(JOIST), "bending").measured
    assert ratio == pytest.approx(1.2)


def test_where_the_lower_edge_is_pressed() -> None:
    assert lower_free_mm(JOIST) == 0.0
    assert lower_free_mm(BEARER) == 1700.0
    assert lower_free_mm(evolve(JOIST, length_mm=JOIST.length_mm + 47)) == 0.0
    assert lower_free_mm(evolve(JOIST, length_mm=JOIST.length_mm + 48)) == mm_of_inches(142)
    assert dict(named(beam(BEARER), "beam stability").inputs)["free_mm"] == 1700.0


def test_a_support_that_lifts_is_a_stop_until_held_down() -> None:
    out = joist(wood="SP No.2", section=dressed("2x8"), length_mm=2800.0, supports_mm=(0.0, 2000.0))
    assert "hold the member down" in beam(out).stops[0]
    assert not beam(evolve(out, hold_down_kn=2.0)).stops


def test_a_post_that_may_sway_or_is_of_plies_is_a_stop() -> None:
    assert named(US.post(POST, "dwelling"), "column buckling")
    assert "sway" in US.post(evolve(POST, braced=False), "dwelling").stops[0]
    assert US.post(evolve(POST, section=dressed("2x4", plies=2)), "dwelling").stops
    light = evolve(POST, dead_kn=0.0, live_kn=0.0)
    force = named(US.post(light, "dwelling"), "column buckling").measured * 88.9**2 / 1000
    assert force == pytest.approx(kn_of_lb(220))


def test_boards_go_by_their_own_table() -> None:
    found = US.board(board(), "dwelling")
    assert (found.checks, found.stops) == ((), ())
    assert "not screened" in found.assumed[0]


def test_a_ledger_by_the_table() -> None:
    """50 psf x 4 ft x 1.5 ft = 300 lb on a lag that carries 375, on a bolt 713; 18 of 36 in."""
    lag = US.ledger(evolve(LEDGER, fixing="Lag screw 1/2 in"), "dwelling")
    assert named(lag, "ledger fastener").utilisation_ratio == pytest.approx(300 / 375)
    assert named(lag, "ledger spacing").utilisation_ratio == pytest.approx(0.5)
    bolt = US.ledger(evolve(LEDGER, fixing="bolt 1/2 in"), "dwelling")
    assert named(bolt, "ledger fastener").utilisation_ratio == pytest.approx(300 / 713)
    assert "band joist" in " ".join(bolt.assumed)
    assert US.ledger(evolve(LEDGER, fixing="nails"), "dwelling").stops


def test_an_anchor_by_its_makers_figure() -> None:
    """10 psf x 4 ft x 1.5 ft + 220 lb = 280 lb, less than 300 lb of dead and live load."""
    found = US.ledger(LEDGER, "dwelling")
    assert named(found, "ledger anchor").measured == pytest.approx(kn_of_lb(300))
    close = US.ledger(evolve(LEDGER, spacing_mm=mm_of_inches(6)), "dwelling")
    assert named(close, "ledger anchor").measured == pytest.approx(kn_of_lb(20 + 220))
    untold = US.ledger(evolve(LEDGER, fixing="anchor"), "dwelling")
    assert not untold.checks
    assert f"{kn_of_lb(300):.2f} kN" in untold.assumed[1]
    assert "declares" in untold.stops[0]


def test_sharing_has_one_word() -> None:
    assert beam(evolve(JOIST, sharing="one joist")) == beam(JOIST)
    assert "one joist" in beam(evolve(JOIST, sharing="stated 0.6 by A. Lintel")).stops[0]


WILD = st.sampled_from([nan, inf, -inf, -1.0, 0.0, 1e-300, 0.5, 1.0, 38.1, 2500.0, 1e5, 1e200])


@given(WILD, WILD, WILD, WILD, st.lists(WILD, max_size=4))
def test_nothing_is_raised(a: float, b: float, c: float, d: float, held: list[float]) -> None:
    wild = section(a, b)
    answers = [
        beam(evolve(each, length_mm=c, carried_mm=d, supports_mm=tuple(held), section=wild))
        for each in (JOIST, BEARER)
    ]
    answers.append(US.post(evolve(POST, section=wild, length_mm=c, live_kn=d), "dwelling"))
    answers.append(US.ledger(evolve(LEDGER, section=wild, span_mm=c, spacing_mm=d), "dwelling"))
    for answer in answers:
        assert answer.checks or answer.stops
