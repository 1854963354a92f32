"""Fields whose edge a side of the outline continues: planned, told, audited."""

from typing import Any

import pytest

from drylay.findings import Severity
from drylay.plan.model import Plan
from outlined_gardens import planned

ELL = ((0, 0), (3000, 0), (3000, 2395), (1500, 2395), (1500, 1195), (0, 1195))
ZED = ((0, 0), (1500, 0), (1500, 800), (3000, 800), (3000, 2395), (1500, 2395), (1500, 1195),
       (0, 1195))  # fmt: skip


def deck(corners: tuple[tuple[int, int], ...], edge_mm: float) -> Plan:
    points: list[dict[str, Any]] = [
        {"along_mm": x, "across_mm": y, "side": "open"} for x, y in corners
    ]
    points[0]["side"] = "house"
    field = {"from_along_mm": 0, "from_across_mm": 0, "along_mm": edge_mm, "across_mm": 9000,
             "angle_deg": 90}  # fmt: skip
    return planned(outline={"points": points}, laying={"fields": [field]}, groundwork={})


@pytest.mark.parametrize("edge_mm", [1500, 1498.5])
def test_boards_that_go_round_a_corner_end_in_line_with_the_wing(edge_mm: float) -> None:
    """An end gap of 4 and gaps of 5: 5 between fields, from 1495 to 1500."""
    plan = deck(ELL, edge_mm)
    assert plan.buildable
    main, other = plan.laying.zones
    assert min(corner.along_mm for corner in main.corners) == 1500
    assert max(corner.along_mm for corner in other.corners) == 1495
    (note,) = (each for each in plan.findings if each.code == "LAY-016")
    assert (note.severity, note.subject) == (Severity.NOTE, "field 1")
    assert (note.measured, note.limit) == (1497.5, edge_mm)


def test_an_edge_that_no_side_continues_is_not_told() -> None:
    assert not [each for each in deck(ELL, 1200).findings if each.code == "LAY-016"]


def test_an_edge_that_sides_continue_from_both_ways_stops_the_plan() -> None:
    (stop,) = (f for f in deck(ZED, 1502).findings if f.severity is Severity.STOP)
    assert (stop.code, stop.subject) == ("LAY-017", "field 1")
    assert (stop.measured, stop.limit) == (2, 5)
    assert "E2 and E6" in stop.message


def test_a_breaker_board_ends_half_a_gap_before_a_field() -> None:
    """Boards along the house to 1000 across, beyond that away from it; 5 between fields."""
    points: list[dict[str, Any]] = [
        {"along_mm": x, "across_mm": y, "side": "open"}
        for x, y in ((0, 0), (3000, 0), (3000, 2395), (0, 2395))
    ]
    points[0]["side"] = "house"
    field = {"from_along_mm": 0, "from_across_mm": 1000, "along_mm": 3000, "across_mm": 1395,
             "angle_deg": 90}  # fmt: skip
    laying = {"fields": [field], "breakers_mm": [1500]}
    plan = planned(outline={"points": points}, laying=laying, groundwork={})
    assert plan.buildable
    (board,) = (piece for piece in plan.laying.pieces if piece.kind == "breaker")
    assert [corner.across_mm for corner in board.corners].count(997.5) == 2
    assert {corner.along_mm for corner in board.corners} == {1427.5, 1572.5}
