"""Hatches among boards at any angle, and where openings go that the frame has no room for."""

import re
from random import Random
from typing import Any

import pytest

import drylay
from drylay.findings import Severity
from drylay.plan.model import Plan
from outlined_gardens import planned

SIDES = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))


def deck(openings: list[dict[str, Any]], angle_deg: float = 0.0) -> Plan:
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(SIDES)]  # fmt: skip
    return planned(
        outline={"points": points, "openings": openings}, groundwork={},
        laying={"angle_deg": angle_deg},
    )  # fmt: skip


def opening(kind: str, along_mm: int, across_mm: int, size_mm: int = 400) -> dict[str, Any]:
    return {"kind": kind, "along_mm": along_mm, "across_mm": across_mm,
            "size_along_mm": size_mm, "size_across_mm": size_mm}  # fmt: skip


@pytest.mark.parametrize("angle_deg", [5, 30, 65, 84, 130])
def test_a_hatch_stands_among_boards_at_any_angle(angle_deg: int) -> None:
    """Ends in the angle of two timbers kept hatches off all but 0, 45 and 90 degrees."""
    dice = Random(angle_deg)
    plan = deck([opening("hatch", dice.randint(1700, 2300), dice.randint(1300, 1700))], angle_deg)
    assert [str(each) for each in plan.findings if each.severity is Severity.STOP] == []
    assert plan.outline.openings[0].panel_kg <= 20
    assert [str(each) for each in drylay.audit(plan).findings] == []


def test_an_opening_without_room_is_told_the_nearest_place_that_works() -> None:
    """A ledge that would end in a slim angle beside a joist: the hatch is told where to go."""
    hatch = opening("hatch", 2188, 1776, 407)
    (stop,) = [each for each in deck([hatch], 94).findings if each.severity is Severity.STOP]
    assert stop.code == "SUB-013"
    told = re.search(r"every 50 mm .* at along ([\d.]+), across ([\d.]+)$", stop.message)
    assert told is not None
    moved = hatch | {"along_mm": float(told[1]), "across_mm": float(told[2])}
    assert [each for each in deck([moved], 94).findings if each.severity is Severity.STOP] == []
