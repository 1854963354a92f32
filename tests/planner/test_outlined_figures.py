"""Stops of decks on an outline that tell a number, its limit and who says so."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from drylay.findings import Finding, Severity
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.planner import outlined_boards
from drylay.planner.outlined_narrow import narrowest_mm
from planner.test_outlined import deck

OTHER = {"from_along_mm": 0, "from_across_mm": 0, "along_mm": 3000, "across_mm": 2395,
         "angle_deg": 90}  # fmt: skip
LONG = ((0, 0), (6000, 0), (6000, 1795), (0, 1795))


def stops(plan: Plan, code: str) -> list[Finding]:
    return [each for each in plan.findings if (each.code, each.severity) == (code, Severity.STOP)]


@pytest.mark.parametrize(("rip", "limit"), [(True, 72.5), (False, 145.0)])
def test_a_field_that_others_take_all_of_tells_the_row_it_wants(rip: bool, limit: float) -> None:
    """Softwood is ripped to half a board at the narrowest (its table), else it is whole: 145."""
    (stop,) = stops(deck(laying={"fields": [OTHER]}, rows={"may_rip": rip}), "LAY-003")
    assert (stop.measured, stop.limit, stop.unit) == (0.0, limit, "mm")


@pytest.mark.parametrize(
    ("name", "broken", "measured", "limit", "unit"),
    [
        ("fewest_supports", lambda *_: 1, 1, 3, "supports"),
        ("lines_apart", lambda *_: 0.0, 0, 2, "joist lines"),
    ],
)
def test_joints_that_cannot_be_kept_apart_tell_how_far_they_are(  # noqa: PLR0917
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    broken: Callable[..., Any],
    measured: float,
    limit: float,
    unit: str,
) -> None:
    """Softwood's table: three supports to a piece, joints two bays apart."""
    assert deck(corners=LONG).buildable
    monkeypatch.setattr(outlined_boards, name, broken)
    (stop,) = stops(deck(corners=LONG), "LAY-013")
    assert (stop.measured, stop.limit, stop.unit) == (measured, limit, unit)
    assert stop.subject.startswith("B1")
    assert stop.source.title


def bordered(width_mm: float) -> Plan:
    """Return a deck so wide inside a border; boards run across what is left."""
    corners = ((0, 0), (width_mm, 0), (width_mm, 2395), (0, 2395))
    return deck(corners=corners, laying={"border_courses": 1})


@pytest.mark.parametrize(
    ("width_mm", "code", "limit"),
    [
        (299, "LAY-019", 30.0),
        (327.5, "LAY-019", 30.0),
        (328, "LAY-020", 72.5),
        (370, "LAY-020", 72.5),
        (370.5, "", 0.0),
    ],
)
def test_a_field_that_is_hardly_there_tells_how_wide_it_is(
    width_mm: float, code: str, limit: float
) -> None:
    """A board of 145 and an end gap of 4 at either end: 298 less. Screws keep 15 off two ends.

    Half a board is a sliver, by the family's table.
    """
    plan = bordered(width_mm)
    told = [each for each in plan.findings if each.code in {"LAY-019", "LAY-020"}]
    assert [(each.code, each.subject, each.measured, each.limit) for each in told] == (
        [(code, "Z1", width_mm - 298, limit)] if code else []
    )
    assert plan.buildable is (code != "LAY-019")
    assert "AUD-009" not in {each.code for each in plan.findings}


@pytest.mark.parametrize("turned_deg", [0.0, 30.0])
def test_the_least_way_between_two_parallels(turned_deg: float) -> None:
    """Of a right triangle of 30, 40 and 50: its height on the longest side, 24."""
    cos, sin = math.cos(math.radians(turned_deg)), math.sin(math.radians(turned_deg))
    corners = [
        Spot(along_mm=x * cos - y * sin, across_mm=x * sin + y * cos)
        for x, y in ((0, 0), (40, 0), (0, 30))
    ]
    assert narrowest_mm(corners) == pytest.approx(24.0, abs=0.004)


@pytest.mark.parametrize(("full_mm", "told"), [(100, True), (2999, False)])
def test_a_strip_that_is_longer_than_any_board_tells_both_lengths(full_mm: int, told: bool) -> None:
    """A step of 100 leaves 45 of the last row's 145: 6000, and 5400 at the most on sale.

    The row can be jointed where the board lies to both sides of its middle.
    """
    step = ((0, 0), (6000, 0), (6000, 2295), (full_mm, 2295), (full_mm, 2395), (0, 2395))
    plan = deck(corners=step)
    found = stops(plan, "LAY-018")
    assert bool(found) is told
    if told:
        (stop,) = found
        assert (stop.subject, stop.measured, stop.limit) == ("B16", 6000.0, 5400.0)
        assert stop.source.kind == "merchant record"
    no_joints = deck(corners=step, joints={"most_per_row": 0})
    assert stops(no_joints, "LAY-018") == []
    assert stops(no_joints, "BUY-001")
