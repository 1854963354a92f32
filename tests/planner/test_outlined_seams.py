"""Lines that boards end over, with timber under them or bare, worked by hand."""

import pytest

from drylay.findings import Severity
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_held import wood_of
from drylay.planner.outlined_seams import bare_seams
from framed_outlines import outline_of
from planner.test_outlined_ends import timber

RING = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 2000.0), (0.0, 2000.0))


@pytest.mark.parametrize(
    ("seam", "stretches", "bare"),
    [
        ((500.0, 500.0), [(0, 2000)], None),
        ((500.0, 500.0), [(0, 1820)], None),  # four times 45 are 180
        ((500.0, 500.0), [(0, 1819)], 180.9),  # what it misses by 0.1 it reaches
        ((500.0, 500.0), [(0, 900), (1080, 2000)], None),
        ((500.0, 500.0), [(0, 900), (1100, 2000)], 199.8),
        ((500.0, 500.0), [(0, 900), (1000, 1300), (1200, 2000)], None),
        ((500.0, 580.0), [(0, 2000)], 875.0),  # it leaves its timber at 545, 45 off of 80
        ((3500.0, 3500.0), [], None),  # off the deck
    ],
)
def test_a_line_is_bare_for_no_more_than_four_timbers(
    seam: tuple[float, float], stretches: list[tuple[float, float]], bare: float | None
) -> None:
    laid = FieldsLaid(
        ring=RING, fields=(), zones=(), rows=(), seams=(((seam[0], 0.0), (seam[1], 2000.0)),)
    )
    wood = wood_of((), [timber(500, 545, low, high) for low, high in stretches])
    found = bare_seams(outline_of(list(RING)), laid, wood, thickness_mm=45.0)
    assert [(each.code, each.severity) for each in found] == (
        [] if bare is None else [("SUB-014", Severity.STOP)]
    )
    if bare is not None:
        assert found[0].measured == pytest.approx(bare, abs=3.0 if seam[1] > 500 else 0.001)
        assert "along 500, across 0" in found[0].message
