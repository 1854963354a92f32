"""Decks measured off square: gaps between rows fan out, and a hatch lies among rows that lean."""

import math

import pytest

from drylay.findings import Severity
from drylay.plan.model import Plan
from outlined_gardens import planned

HATCH = {"kind": "hatch", "along_mm": 2300, "across_mm": 1900, "size_along_mm": 350,
         "size_across_mm": 350}  # fmt: skip
CORNERS = ((0, 0), (4500, 0), (4500, 3540), (0, 3540))


def fan(taper_mm: int, angle_deg: float) -> Plan:
    """Return a deck 4500 by 3540 whose far side leaves square by a taper: right end or far one."""
    corners = list(CORNERS)
    corners[2] = (4500, 3540 + taper_mm) if angle_deg < 45 else (4500 + taper_mm, 3540)
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    return planned(
        outline={"points": points, "openings": [HATCH]}, groundwork={},
        laying={"angle_deg": angle_deg}, gap={"preferred_mm": 5, "least_mm": 4, "most_mm": 8},
    )  # fmt: skip


@pytest.mark.parametrize(("taper_mm", "angle_deg"), [(12, 0), (-47, 0), (58, 90), (-9, 30)])
def test_a_hatch_among_rows_of_a_fan_is_planned(taper_mm: int, angle_deg: float) -> None:
    """The audit measured its panel square to each row; boards end at the hole's straight side."""
    plan = fan(taper_mm, angle_deg)
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []
    assert plan.laying.fan_mm != 0 or angle_deg == 30


def test_a_panel_among_rows_of_a_fan_spans_as_far_as_its_hole() -> None:
    """Along 2300 -/+ (175 + 40 + 45): 520, less 45 of timber and half an end gap of 4."""
    (told,) = (each.measured for each in fan(12, 0).findings if each.code == "OUT-025")
    # the left side of its hole leans by 16/24 to 15/24 of 12 over 4500
    left = math.hypot(520, 520 * 12 * 15.5 / 24 / 4500)
    assert told == pytest.approx(left - 47, abs=1 / 320)


@pytest.mark.parametrize(
    ("wide_mm", "taper_mm", "deep_mm"), [(5092, 42, 2423), (5045, 39, 2555), (5093, -36, 2792)]
)
def test_a_last_row_as_wide_as_the_fan_leaves_it(wide_mm: int, taper_mm: int, deep_mm: int) -> None:
    """Square to a row that leans by 0.9 degrees the corner it ends at is 0.01 nearer than 145.

    The first is told so much narrower inside its zone; the other's outer edge ends just short of
    the board's, which counts as reaching it. Gaps of the third are
    4 square to the zone, and 3.99 square to the rows. Triangles at the ends
    of leaning rows are counted as well.
    """
    corners = ((0, 0), (wide_mm, 0), (wide_mm + taper_mm, deep_mm), (0, deep_mm))
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    plan = planned(outline={"points": points}, groundwork={}, laying={"angle_deg": 90},
                   gap={"preferred_mm": 5, "least_mm": 4, "most_mm": 8})  # fmt: skip
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []


def test_a_frame_a_hair_off_square_is_sawn_as_it_lies() -> None:
    """A side 2 mm out over 4810 sets a timber 45 thick 0.0187 mm off square: 0.0238 degrees."""
    corners = ((0, 0), (4810, 0), (4810, 2858), (0, 2860))
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    plan = planned(outline={"points": points}, groundwork={})
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []
    (joist,) = (each for each in plan.subframe.members if each.mark == "J4")
    assert joist.end_deg == pytest.approx(math.degrees(math.atan(2 / 4810)), abs=1e-4)


def test_a_row_that_leans_over_joists_at_their_most_hangs_no_hair_too_far() -> None:
    """Faces 355 apart are 0.01 more along a row that leans by half a degree: told or carried."""
    hatch = HATCH | {"along_mm": 2547, "across_mm": 1520, "size_along_mm": 419,
                     "size_across_mm": 324}  # fmt: skip
    corners = ((0, 0), (4830, 0), (4861, 4041), (0, 4041))
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    plan = planned(outline={"points": points, "openings": [hatch]}, groundwork={},
                   laying={"angle_deg": 90},
                   gap={"preferred_mm": 5, "least_mm": 4, "most_mm": 8})  # fmt: skip
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []
