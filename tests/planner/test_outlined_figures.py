"""Stops of decks on an outline that tell a number, its limit and who says so."""

from collections.abc import Callable
from typing import Any

import pytest

from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.planner import outlined_boards
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
