"""Decks whose stock is too short for the common way: any row may be jointed, and some are not."""

import pytest

import drylay
from drylay.planner import outlined_boards
from outlined_gardens import planned

POINTS = [
    {"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
    for n, (x, y) in enumerate(((0, 0), (2700, 0), (2700, 2100), (0, 2100)))
]


@pytest.mark.parametrize("angle_deg", [0, 37])
def test_rows_that_may_be_jointed_and_are_not_are_lines_of_the_proof(
    monkeypatch: pytest.MonkeyPatch, angle_deg: int
) -> None:
    """The last resort alone: nothing has to lie whole. Corners' short rows still do."""
    monkeypatch.setattr(outlined_boards, "_whole_lengths", lambda _: [0])
    plan = planned(outline={"points": POINTS}, groundwork={}, laying={"angle_deg": angle_deg})
    assert plan.buildable
    assert plan.laying is not None
    assert any(not row for rows in plan.laying.stations_met for row in rows)
    assert drylay.audit(plan).findings == ()


def test_rows_that_lie_whole_or_jointed_side_by_side_are_told_apart_in_order() -> None:
    """A hatch leaves no other way than the last resort; rows of one length are of several sets."""
    corners = ((0, 0), (4872, 0), (4872, 3701), (0, 3749))
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    hatch = {"kind": "hatch", "along_mm": 3546, "across_mm": 2587, "size_along_mm": 377,
             "size_across_mm": 277}  # fmt: skip
    plan = planned(
        outline={"points": points, "openings": [hatch]}, groundwork={}, laying={"angle_deg": 6},
        gap={"preferred_mm": 5, "least_mm": 4, "most_mm": 8},
    )  # fmt: skip
    assert plan.buildable
    assert plan.laying is not None
    assert any(not row for rows in plan.laying.stations_met for row in rows)
