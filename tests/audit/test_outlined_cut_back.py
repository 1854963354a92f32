"""Ends of rows beside a hole, and lines that do not cross: worked by hand."""

import pytest

from drylay.audit.exact import PER_MM
from drylay.audit.outlined_carried import told_crossing
from drylay.audit.outlined_strips import ends_cut_back, strips_of
from drylay.audit.plane import UNIT, Shape, box
from outlined_gardens import plain


def ticks_at(*places: tuple[float, float]) -> Shape:
    return tuple((round(x * PER_MM), round(y * PER_MM)) for x, y in places)


def test_a_row_is_cut_back_to_where_a_hole_takes_an_end_gap() -> None:
    """A tip 30 wide at 110 from its point, which lies 10 beyond the side at 4200: 4 wide 14.667 in.

    End gaps are 4; so the cut lies 4.667 within the side.
    """
    plan = plain()
    strip = next(s for s in strips_of(plan) if s.row.start.across_mm > 1_000)
    middle = (strip.low + strip.high) / 2 / UNIT / PER_MM
    run = 1 if strip.run.cos > 0 else -1
    middle *= run
    hole = ticks_at((4_210, middle), (4_100, middle + 15), (4_100, middle - 15))
    (cut,) = ends_cut_back(plan, strip, hole)
    left, _, right, _ = (float(each) / UNIT / PER_MM for each in box(cut))
    assert right - left == pytest.approx(4 * 110 / 30 - 10, abs=0.02)


def test_lines_beside_one_another_do_not_cross() -> None:
    mm = PER_MM * UNIT
    line = ((0, 0), (1_000 * mm, 0))
    assert told_crossing(line, ((500 * mm, 10 * mm), (500 * mm, 90 * mm))) is None
    assert told_crossing(line, ((500 * mm, -10 * mm), (500 * mm, 90 * mm))) == 500 * PER_MM
