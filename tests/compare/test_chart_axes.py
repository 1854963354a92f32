"""Scales of charts: marks in figures people count in, figures in their places, units named."""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.compare.chart_axes import (
    axis_name,
    cell_told,
    figures_of,
    scale_of,
    step_of,
    unit_of,
    value_told,
)
from drylay.compare.chart_marks import evenly, lean, spread_out, thinned
from drylay.compare.chart_rows import row_panel, rows_drawn

FIGURES = st.decimals(min_value=-(10**12), max_value=10**12, places=2)


@settings(max_examples=25)
@given(figures=st.lists(FIGURES, min_size=1, max_size=6), with_zero=st.booleans())
def test_a_scale_holds_its_figures_between_its_ends(
    figures: list[Decimal], with_zero: bool
) -> None:
    scale = scale_of(figures, 20.0, 120.0, with_zero=with_zero)
    assert scale.low <= min(figures) <= max(figures) <= scale.high
    places = [scale.at_mm(figure) for figure in sorted(figures)]
    assert places == sorted(places)
    assert 20 <= places[0] <= places[-1] <= 120
    if with_zero:
        assert scale.low <= 0 <= scale.high


@settings(max_examples=25)
@given(figures=st.lists(FIGURES, min_size=1, max_size=6))
def test_marks_are_a_few_and_people_count_in_them(figures: list[Decimal]) -> None:
    """1, 2 or 5 of a power of ten apart, at multiples of that, no more than six steps."""
    scale = scale_of(figures, 0.0, 100.0)
    assert 2 <= len(scale.figures) <= 7
    step = scale.figures[1] - scale.figures[0]
    assert step.normalize().as_tuple().digits in {(1,), (2,), (5,)}
    assert all(figure % step == 0 for figure in scale.figures)
    assert scale.low <= scale.figures[0] <= scale.figures[-1] <= scale.high


@pytest.mark.parametrize(
    ("span", "step"),
    [("6", "1"), ("6.01", "2"), ("12", "2"), ("12.5", "5"), ("30", "5"), ("31", "10"),
     ("0.06", "0.01"), ("4000", "1000")],
)  # fmt: skip
def test_a_step_reaches_its_span_in_six(span: str, step: str) -> None:
    assert step_of(Decimal(span)) == Decimal(step)


def test_one_figure_stands_in_the_middle_and_none_at_all_has_a_scale() -> None:
    assert scale_of([Decimal("9.99")], 0.0, 100.0).at_mm(Decimal("9.99")) == pytest.approx(50)
    assert scale_of([Decimal(0)] * 3, 0.0, 100.0).at_mm(Decimal(0)) == pytest.approx(50)
    assert scale_of([Decimal(1), Decimal(2)], 0.0, 100.0).at_mm(Decimal(9)) == 100, "at the end"
    nothing = scale_of([], 0.0, 100.0)
    assert (nothing.low, nothing.high) == (0, 1)


def test_whole_things_have_whole_marks() -> None:
    """3 and 4 cuts: no mark at 3.2."""
    assert scale_of([Decimal(3), Decimal(4)], 0.0, 1.0).figures == (3, 4)


def test_huge_figures_are_told_in_a_power_of_a_thousand() -> None:
    scale = scale_of([Decimal(2) * 10**10, Decimal(6) * 10**10], 0.0, 40.0)
    assert [text for _, text in scale.marks()] == ["20", "30", "40", "50", "60"]
    assert scale.named("total, GBP") == "total, GBP, times 10^9"
    assert scale_of([Decimal(1), Decimal(2)], 0.0, 1.0).named("cuts") == "cuts"


@pytest.mark.parametrize(
    ("column", "name"),
    [
        ("cover.across_mm", "cover across, mm"),
        ("cover_m2", "cover, m2"),
        ("life_least_years", "life least, years"),
        ("upkeep_h", "upkeep, hours"),
        ("made_of", "made of"),
        ("total", "first cost"),
        ("stock.price_ratio.DB_28_mm", "price ratio of DB_28_mm"),
        ("stock.without.DB-28", "length left out of DB-28, mm"),
        ("<b>\n_mm", "<b>, mm"),
    ],
)
def test_a_column_is_named_with_its_unit(column: str, name: str) -> None:
    assert axis_name(column) == name


def test_money_has_its_currency_and_a_cell_its_name() -> None:
    assert unit_of("total", [None, Decimal(1)], "GBP") == "GBP"
    assert unit_of("cuts", [1, 2], "GBP") == ""
    row = {"total": Decimal("12.40"), "cover.across_mm": 2400.0, "board.article": "DB-28-145"}
    assert cell_told("total", row, "GBP") == "first cost 12.40 GBP"
    assert cell_told("cover.across_mm", row) == "cover across 2400 mm"
    assert cell_told("board.article", row) == "board article DB-28-145"


@pytest.mark.parametrize(
    ("value", "told"),
    [(None, "none"), (True, "yes"), (False, "no"), (Decimal("1.50"), "1.50"), (2400.0, "2400"),
     (12345678901, "12345678901"), (1 / 3, "~0.333333"), (Decimal(10) ** 30, "~1.0000E+30"),
     ("a\nb\u202e", "a b")],
)  # fmt: skip
def test_what_is_rounded_says_so(value: object, told: str) -> None:
    assert value_told(value) == told


def test_what_is_no_figure_is_not_drawn() -> None:
    assert figures_of([None, "12", True, float("nan"), Decimal("Infinity"), 0.5]) == [
        Decimal("0.5")
    ]


PLACES = st.lists(st.floats(0, 100), min_size=1, max_size=8)


@settings(max_examples=20)
@given(places=PLACES)
def test_names_are_spread_out_in_their_order(places: list[float]) -> None:
    moved = spread_out(places, 4.0, 10.0, 60.0)
    assert all(9.999 <= place <= 60.001 for place in moved)
    order = sorted(range(len(places)), key=lambda at: places[at])
    rising = [moved[at] for at in order]
    assert all(other - one >= 3.999 for one, other in pairwise(rising))


@settings(max_examples=20)
@given(points=st.lists(st.tuples(st.floats(0, 9), st.floats(0, 9)), max_size=60))
def test_thinned_marks_leave_no_point_without_one_beside_it(
    points: list[tuple[float, float]],
) -> None:
    kept, cell_mm = thinned(points, most=5, least_mm=0.5)
    assert len(kept) <= 5
    assert set(kept) <= set(points)
    for x, y in points:
        assert any(abs(x - at) <= cell_mm and abs(y - down) <= cell_mm for at, down in kept)


@settings(max_examples=20)
@given(heights=st.lists(st.floats(0, 9), min_size=1, max_size=200))
def test_a_lean_line_keeps_its_ends_and_how_high_and_low_it_goes(heights: list[float]) -> None:
    points = [(at / 50, height) for at, height in enumerate(heights)]
    line = lean(points)
    assert (line[0], line[-1]) == (points[0], points[-1])
    assert max(y for _, y in line) == max(heights)
    assert min(y for _, y in line) == min(heights)
    assert len(line) <= 4 * (len(points) / 10 + 1)


def test_long_figures_of_an_axis_leave_each_other_room() -> None:
    """Five of 12 signs, 19 mm wide and 17 mm apart: every other one is left."""
    figures = [Decimal("-999999999.9"), Decimal("-999999998.9")]
    panel = row_panel(figures, (), title="total", top_mm=0.0)
    texts = [shape for shape in rows_drawn(panel) if shape.layer == "axis-figures"]
    assert len(panel.scale.figures) == 5
    assert [text.text for text in texts] == ["-999999999.8", "-999999999.4", "-999999999.0"]


def test_even_items_have_the_first_and_the_last() -> None:
    assert evenly(range(5), 9) == [0, 1, 2, 3, 4]
    assert evenly(range(101), 5) == [0, 25, 50, 75, 100]
