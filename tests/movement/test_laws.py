"""Laws of movement, and answers at the edges of the formulas."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.findings import Finding, Severity
from drylay.marks import MARK_320, exact
from drylay.movement.air import equilibrium_humidity_ratio, settled_pct
from drylay.movement.gaps import MONTHS
from drylay.movement.heat import joint_gap_mm
from drylay.movement.model import YearOfGaps
from drylay.movement.width import framing_change, movement_from_shrinkage, shrinkage_change

airs = st.integers(-300, 600).map(lambda tenths: tenths / 10)
humidities = st.integers(0, 1000).map(lambda thousandths: thousandths / 1000)
widths = st.integers(700, 3000).map(lambda tenths: tenths / 10)
moistures = st.integers(10, 400).map(lambda tenths: tenths / 10)
movements = st.integers(0, 500).map(lambda hundredths: hundredths * 1e-5)
growths = st.integers(0, 100).map(lambda millionths: millionths * 1e-6)
boards_c = st.integers(-300, 800).map(lambda tenths: tenths / 10)
lengths = st.integers(3000, 60_000).map(lambda tenths: tenths / 10)
gaps = st.integers(0, 120).map(lambda tenths: tenths / 10)
months = st.lists(st.tuples(airs, humidities), min_size=12, max_size=12)

#: Monthly means of an invented place.
YEAR = [(4, 0.88), (4, 0.85), (6, 0.80), (9, 0.74), (12, 0.72), (15, 0.72),
        (17, 0.72), (17, 0.74), (14, 0.79), (11, 0.84), (7, 0.88), (5, 0.89)]  # fmt: skip


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


def year(**more: Any) -> YearOfGaps:
    given = {"board_mm": 145, "movement_per_pct": 0.0026, "laying_pct": 17, "months": YEAR}
    return drylay.gaps_through_year(**given | more)


@given(airs, humidities, humidities)
def test_damper_air_makes_wetter_wood(temperature_c: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert settled_pct(temperature_c, low) <= settled_pct(temperature_c, high)
    assert 0 <= settled_pct(temperature_c, high) < 30


@given(airs, st.integers(60, 1000).map(lambda thousandths: thousandths / 1000))
def test_the_humidity_behind_a_moisture_content_is_found_again(
    temperature_c: float, humidity_ratio: float
) -> None:
    moisture_pct = settled_pct(temperature_c, humidity_ratio)
    if moisture_pct >= 1:
        back = equilibrium_humidity_ratio(temperature_c=temperature_c, moisture_pct=moisture_pct)
        assert back == pytest.approx(humidity_ratio, abs=1e-9)


@given(widths, widths, movements, moistures, moistures)
def test_a_wider_board_moves_more(
    one_mm: float, other_mm: float, movement: float, start_pct: float, end_pct: float
) -> None:
    low, high = sorted((one_mm, other_mm))
    moves = [
        abs(
            drylay.moisture_change(
                width_mm=width_mm, movement_per_pct=movement, from_pct=start_pct, to_pct=end_pct
            ).change_mm
        )
        for width_mm in (low, high)
    ]
    assert moves[0] <= moves[1]


@given(widths, st.integers(10, 150), moistures, moistures, moistures)
def test_shrinkage_and_swelling_in_steps_is_as_in_one_and_back_is_back(
    width_mm: float, tenths: int, first_pct: float, middle_pct: float, last_pct: float
) -> None:
    def after(width: float, start: float, end: float) -> float:
        change = shrinkage_change(
            width_mm=width, shrinkage_pct=tenths / 10, from_pct=start, to_pct=end
        )
        assert (change.change_mm > 0) == (min(end, 30) > min(start, 30))
        return width + change.change_mm

    halfway = after(width_mm, first_pct, middle_pct)
    assert after(halfway, middle_pct, last_pct) == pytest.approx(
        after(width_mm, first_pct, last_pct)
    )
    assert after(halfway, middle_pct, first_pct) == pytest.approx(width_mm)


@given(widths, st.integers(10, 150))
def test_near_10_per_cent_both_forms_agree(width_mm: float, tenths: int) -> None:
    shrinkage_pct = tenths / 10
    by_shrinkage = shrinkage_change(
        width_mm=width_mm, shrinkage_pct=shrinkage_pct, from_pct=10, to_pct=13
    )
    by_coefficient = drylay.moisture_change(
        width_mm=width_mm,
        movement_per_pct=movement_from_shrinkage(shrinkage_pct=shrinkage_pct),
        from_pct=10,
        to_pct=13,
    )
    assert by_coefficient.change_mm == pytest.approx(by_shrinkage.change_mm)


@given(widths, moistures, moistures, st.sampled_from(["width", "thickness"]))
def test_framing_goes_and_comes_back(
    width_mm: float, start_pct: float, end_pct: float, face: str
) -> None:
    there = framing_change(width_mm=width_mm, from_pct=start_pct, to_pct=end_pct, face=face)
    back = framing_change(
        width_mm=width_mm + there.change_mm, from_pct=end_pct, to_pct=start_pct, face=face
    )
    assert there.change_mm == pytest.approx(-back.change_mm)
    assert (there.change_mm < 0) <= (end_pct < start_pct)


@given(lengths, growths, boards_c, boards_c, st.integers(1, 10))
def test_growth_is_linear_in_length_and_turns_with_the_temperatures(
    length_mm: float, growth: float, one_c: float, other_c: float, times: int
) -> None:
    def grown(length: float, start: float, end: float) -> float:
        return drylay.thermal_growth_mm(
            length_mm=length, growth_per_k=growth, from_c=start, to_c=end
        )

    once = grown(length_mm, one_c, other_c)
    assert grown(length_mm * times, one_c, other_c) == pytest.approx(once * times, abs=1e-9)
    assert grown(length_mm, other_c, one_c) == -once


@given(lengths, growths, st.lists(boards_c, min_size=3, max_size=3), gaps,
       st.sampled_from([("metric", 320), ("imperial", 508)]))  # fmt: skip
def test_an_end_gap_is_the_least_whole_step_that_takes_the_growth(
    length_mm: float,
    growth: float,
    temperatures_c: list[float],
    least_mm: float,
    step: tuple[str, int],
) -> None:
    coldest_c, laying_c, hottest_c = sorted(temperatures_c)
    found = drylay.end_gap(
        length_mm=length_mm,
        growth_per_k=growth,
        laying_c=laying_c,
        hottest_c=hottest_c,
        coldest_c=coldest_c,
        least_mm=least_mm,
        units=step[0],
    )
    assert exact(found.laid_mm) % step[1] == 0
    assert found.hottest_mm >= least_mm
    assert found.hottest_mm < least_mm + step[1] / 320 + 1e-9
    assert found.hottest_mm <= found.laid_mm <= found.coldest_mm
    for now_c, between_mm in ((hottest_c, found.hottest_mm), (coldest_c, found.coldest_mm)):
        assert between_mm == pytest.approx(
            joint_gap_mm(
                laid_mm=found.laid_mm,
                neighbours_mm=(length_mm, length_mm),
                growth_per_k=growth,
                laying_c=laying_c,
                now_c=now_c,
            )
        )


def test_a_growth_of_a_whole_millimetre_takes_just_that() -> None:
    """By hand: 4000 x 25e-6 x 50 = 5; in binary fractions it would come to a little more."""
    found = drylay.end_gap(
        length_mm=4000, growth_per_k=25e-6, laying_c=0, hottest_c=50, coldest_c=0
    )
    assert (found.growth_mm, found.laid_mm, found.hottest_mm) == (5.0, 5.0, 0.0)


@given(widths, movements, st.lists(moistures, min_size=3, max_size=3), gaps)
def test_a_gap_lies_between_its_narrowest_and_its_widest(
    board_mm: float, movement: float, moistures_pct: list[float], laid_mm: float
) -> None:
    driest_pct, laying_pct, wettest_pct = sorted(moistures_pct)
    found = drylay.gap_range(
        board_mm=board_mm,
        movement_per_pct=movement,
        laying_pct=laying_pct,
        driest_pct=driest_pct,
        wettest_pct=wettest_pct,
        laid_mm=laid_mm,
    )
    assert found.narrowest_mm <= found.laid_mm == laid_mm <= found.widest_mm
    assert ("MOV-004" in codes(found.findings)) == (found.narrowest_mm <= 0)


@given(st.tuples(widths, movements, moistures), months, gaps, st.sampled_from(list(MARK_320)))
def test_the_gap_to_keep_is_kept_all_year_and_on_a_mark(
    board: tuple[float, float, float],
    twelve: list[tuple[float, float]],
    least_mm: float,
    units: str,
) -> None:
    found = drylay.gaps_through_year(
        board_mm=board[0],
        movement_per_pct=board[1],
        laying_pct=board[2],
        months=twelve,
        least_mm=least_mm,
        units=units,
    )
    assert exact(found.laid_mm) % MARK_320[units] == 0
    assert found.narrowest_mm >= least_mm
    assert found.laid_mm == 0 or found.narrowest_mm < least_mm + MARK_320[units] / 320 + 1e-9
    at = {month.month: month.gap_mm for month in found.months}
    assert list(at) == MONTHS
    assert found.narrowest_mm == min(at.values()) == at[found.narrowest_in]
    assert found.widest_mm == max(at.values()) == at[found.widest_in]


@given(movements, movements)
def test_wood_that_moves_more_needs_a_wider_gap_when_laid_dry(one: float, other: float) -> None:
    low, high = sorted((one, other))
    laid = [year(movement_per_pct=c, laying_pct=12, least_mm=3).laid_mm for c in (low, high)]
    assert laid[0] <= laid[1]


def test_a_wetter_month_has_a_narrower_gap() -> None:
    found = year(laid_mm=5)
    by_wetness = sorted(found.months, key=lambda month: month.moisture_pct)
    assert all(drier.gap_mm >= wetter.gap_mm for drier, wetter in pairwise(by_wetness))


def test_what_is_stated_widens_the_year_and_is_named() -> None:
    alone, stated = year(laid_mm=5), year(laid_mm=5, wettest_pct=24, driest_pct=13)
    assert (alone.narrowest_in, alone.widest_in) == ("December", "July")
    assert (stated.narrowest_in, stated.widest_in) == ("wettest_pct", "driest_pct")
    # by hand: 5 - 145 x 0.0026 x 7 and 5 + 145 x 0.0026 x 4
    assert (stated.narrowest_mm, stated.widest_mm) == pytest.approx((2.361, 6.508))
    assert stated.months == alone.months
    assert codes(alone.findings) == ["MOV-002", "MOV-005"]
    assert codes(stated.findings) == ["MOV-002"]
    assert year(laid_mm=5, wettest_pct=18).narrowest_mm == alone.narrowest_mm


def test_wet_boards_may_be_laid_tight_and_open() -> None:
    """By hand: 145 x 0.0026 x 13 = 4.9 narrower from 30 on, so that nothing is left to lay."""
    found = drylay.gap_range(
        board_mm=145, movement_per_pct=0.0026, laying_pct=45, driest_pct=13, wettest_pct=17,
        least_mm=3,
    )  # fmt: skip
    assert found.laid_mm == 0
    assert found.narrowest_mm == pytest.approx(4.901)
    assert codes(found.findings) == ["MOV-002", "MOV-003"]


def test_a_gap_that_closes_is_a_caution_with_its_figure() -> None:
    found = drylay.gap_range(
        board_mm=145, movement_per_pct=0.0026, laying_pct=10, driest_pct=10, wettest_pct=14,
        laid_mm=1,
    )  # fmt: skip
    (finding,) = found.findings
    assert (finding.code, finding.severity) == ("MOV-004", Severity.CAUTION)
    assert finding.measured == found.narrowest_mm == pytest.approx(1 - 1.508)  # by hand


@pytest.mark.parametrize(
    ("temperature_c", "humidity_ratio", "measured"),
    [(-1, 0.5, []), (-5, 0.5, [-5]), (20, 0.04, [0.04]), (20, 0.96, [0.96]), (-2, 1, [-2, 1])],
)
def test_air_outside_the_table_is_told(
    temperature_c: float, humidity_ratio: float, measured: list[float]
) -> None:
    found = drylay.equilibrium_moisture(temperature_c=temperature_c, humidity_ratio=humidity_ratio)
    assert codes(found.findings) == ["MOV-001"] * len(measured)
    assert [finding.measured for finding in found.findings] == measured


def test_a_cold_month_is_named() -> None:
    found = year(laid_mm=5, months=[*YEAR[:11], (-6, 0.9)], wettest_pct=20)
    told = [finding.subject for finding in found.findings if finding.code == "MOV-001"]
    assert told == ["December"]


@pytest.mark.parametrize(
    ("from_pct", "to_pct", "limits"),
    [(6, 14, []), (12, 20, [14]), (5, 8, [6]), (4, 31, [6, 14, 30]), (30, 30, [14])],
)
def test_moisture_outside_what_a_coefficient_is_made_for_is_told(
    from_pct: float, to_pct: float, limits: list[float]
) -> None:
    found = drylay.moisture_change(
        width_mm=145, movement_per_pct=0.0026, from_pct=from_pct, to_pct=to_pct
    )
    assert [finding.limit for finding in found.findings] == limits
    assert all(finding.source.title.startswith("Wood Handbook") for finding in found.findings)


@pytest.mark.parametrize(
    ("from_pct", "to_pct", "limits"),
    [(40, 15, []), (28, 15, []), (19, 8, []), (20, 7, [8, 19]), (40, 30, []), (28, 19.5, [19])],
)
def test_framing_outside_its_form_is_told_but_green_is_where_it_starts(
    from_pct: float, to_pct: float, limits: list[float]
) -> None:
    found = framing_change(width_mm=145, from_pct=from_pct, to_pct=to_pct)
    assert [finding.limit for finding in found.findings] == limits


def test_above_fibre_saturation_nothing_moves() -> None:
    for change in (
        drylay.moisture_change(width_mm=145, movement_per_pct=0.0026, from_pct=60, to_pct=30),
        shrinkage_change(width_mm=145, shrinkage_pct=7.4, from_pct=60, to_pct=30),
        framing_change(width_mm=145, from_pct=60, to_pct=29),
    ):
        assert change.change_mm == 0
    cedar = drylay.moisture_change(
        width_mm=145, movement_per_pct=0.00234, from_pct=30, to_pct=20, saturation_pct=22
    )
    assert cedar.change_mm == pytest.approx(-145 * 0.00234 * 2)  # by hand: from 22 on
