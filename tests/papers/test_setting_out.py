"""The setting-out: pegs, 3-4-5 and diagonals against sums by hand, and measured on the sheet."""

from math import hypot

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from drylay.papers.setting_out import (
    off_square_mm,
    setting_out_svg,
)
from drylay.plan.model import Plan
from papers import measured
from papers.test_drawings import CASES, scale_of
from plan.made import example
from plan.sample import sample_plan

sides = st.integers(100, 30_000).map(float)


def told(plan: Plan) -> str:
    return " ".join(text.text or "" for text in measured.texts(setting_out_svg(plan)))


def test_the_garden_decks_pegs_by_hand() -> None:
    # docs/examples/garden.toml: 6000 x 3040 with 28 of fascia on right, front and left, so the
    # frame is 6000 - 56 = 5944 by 3040 - 28 = 3012, 28 in from the datum corner along the house
    assert measured.cells(setting_out_svg(example("garden")), "pegs") == [
        ["P1", "28", "0", "0", "0"],
        ["P2", "5972", "0", "5944", "0"],
        ["P3", "5972", "3012", "5944", "3012"],
        ["P4", "28", "3012", "0", "3012"],
    ]


def test_the_garden_decks_checks_by_hand() -> None:
    # sides 5944 and 3012: 3012 / 3 = 1004 and 5944 / 4 = 1486, so ten hundreds: 4000 3000 5000.
    # diagonal: 5944^2 + 3012^2 = 35331136 + 9072144 = 44403280, whose root is 6663.6
    # off by 5: 5 x 6663.6 / (2 x 5944) = 2.803, told as 2.9: rounded up
    text = told(example("garden"))
    assert "P1 to P2 and P4 to P3 5944 mm; P1 to P4 and P2 to P3 3012 mm" in text
    assert "Diagonals: P1 to P3 and P2 to P4, both ~6663.6 mm." in text
    assert "from P1 mark 4000 mm towards P2 and 3000 mm towards P4" in text
    assert "marks are 5000 mm apart" in text
    assert "2.9 mm where they differ by 5 mm" in text
    assert "Accept a difference of 5 mm at most, for diagonals up to 6000 mm" in text
    assert "common practice, no source" in text
    assert "These are longer" in text


def test_the_imperial_deck_is_a_triangle_in_whole_feet() -> None:
    # docs/examples/imperial.toml: 16 ft by 12 ft without fascia is 4 x 4 ft by 4 x 3 ft
    text = told(example("imperial"))
    assert "from P1 mark 16 ft towards P2 and 12 ft towards P4" in text
    assert "marks are 20 ft apart" in text
    # 5 mm is 3.15 sixteenths, never told as more; 6 m is 236.22 in
    assert "difference of 3/16 in at most, for diagonals up to 19 ft 8 3/16 in" in text


@given(sides, sides, st.floats(0.0001, 0.005))
def test_a_frame_slid_out_of_square_has_diagonals_that_far_apart(
    along_mm: float, across_mm: float, share: float
) -> None:
    """Pythagoras on the slid frame itself: its diagonals measured, the slide worked back."""
    slid_mm = share * min(along_mm, across_mm)
    longer = hypot(along_mm + slid_mm, across_mm)
    shorter = hypot(along_mm - slid_mm, across_mm)
    worked = off_square_mm(longer - shorter, along_mm, hypot(along_mm, across_mm))
    assert worked == pytest.approx(slid_mm, rel=1e-3)


def test_boards_across_swap_nothing_of_the_houses_own_axes() -> None:
    plan = sample_plan(row_length_mm=3000.0, rows=4, run="across", sides=("house", "left"))
    # by hand: 4 x 145 + 3 x 5 = 595 along, less 22 at the left; 3000 away, less 22 at the house
    assert measured.cells(setting_out_svg(plan), "pegs") == [
        ["P1", "22", "22", "0", "0"],
        ["P2", "595", "22", "573", "0"],
        ["P3", "595", "3000", "573", "2978"],
        ["P4", "22", "3000", "0", "2978"],
    ]


@pytest.mark.parametrize("name", CASES)
def test_pegs_are_drawn_where_they_are_told(name: str) -> None:
    plan = CASES[name]
    svg = setting_out_svg(plan)
    per_mm, near = scale_of(svg), scale_of(svg) * 0.002 + 0.01
    ((left, top, _, _),) = measured.rectangles(svg, "cover")
    heads = measured.rectangles(svg, "peg-heads")
    for (x, y, w, h), line in zip(heads, measured.cells(svg, "pegs"), strict=True):
        near_mm = near + (0.8 if any("~" in cell for cell in line) else 0.0)
        along_mm, across_mm = (measured.told_mm(cell, plan.units) for cell in line[1:3])
        assert (x + w / 2 - left) * per_mm == pytest.approx(along_mm, abs=near_mm)
        assert (y + h / 2 - top) * per_mm == pytest.approx(across_mm, abs=near_mm)


@pytest.mark.parametrize("name", CASES)
def test_the_diagonals_as_drawn_are_the_plans(name: str) -> None:
    svg = setting_out_svg(CASES[name])
    long_mm = [
        scale_of(svg) * hypot(float(p.get("x2", "0")) - float(p.get("x1", "0")),
                              float(p.get("y2", "0")) - float(p.get("y1", "0")))
        for p in measured.group(svg, "diagonals")
    ]  # fmt: skip
    told_mm = CASES[name].frame.diagonal_mm
    assert long_mm == pytest.approx([told_mm] * 2, abs=scale_of(svg) * 0.002 + 0.06)


def test_a_small_frame_has_no_triangle_and_short_diagonals() -> None:
    text = told(CASES["tiny"])
    assert "too small" in text
    assert "These are longer" not in text
    assert measured.group(setting_out_svg(CASES["tiny"]), "triangle") == []


def test_fascia_between_cover_and_frame_is_told() -> None:
    text = told(CASES["example"])
    assert "fascia, 22 thick, on right, front, left" in text
    assert "Between cover and frame" not in told(CASES["tiny"])


def test_every_peg_is_named_beside_the_figure_too() -> None:
    for plan in CASES.values():
        drawn = measured.words(setting_out_svg(plan), "labels")
        assert {"P1", "P2", "P3", "P4"} <= set(drawn)


def test_a_plan_without_its_frame_has_none() -> None:
    assert setting_out_svg(evolve(CASES["small"], edges=None)) == b""
