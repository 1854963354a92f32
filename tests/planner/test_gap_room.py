"""Room that gaps have: told where boards' own tolerance is more; limits printed as gaps are."""

from types import SimpleNamespace

import pytest
from attrs import evolve

from audit.sample_deck import surface
from drylay.papers.cover_text import gap_limits
from drylay.planner.gap_room import remarks, room_mm


def test_room_by_hand() -> None:
    """Four rows, three gaps of 5 from 4 to 8: 3 x 1 to close by, 3 x 3 to open by."""
    assert room_mm(surface()) == (3.0, 9.0)


@pytest.mark.parametrize(
    ("least_mm", "most_mm", "codes"),
    [
        (4.0, 8.0, []),  # 3 and 9 mm, where four boards 0.5 off want 2
        (4.5, 8.0, ["GAP-003"]),  # 1.5 mm
        (4.0, 5.5, ["GAP-004"]),  # 1.5 mm
        (5.0, 5.0, []),  # a clip's
    ],
)
def test_too_little_room_is_told(least_mm: float, most_mm: float, codes: list[str]) -> None:
    told = evolve(surface(), gap_least_mm=least_mm, gap_most_mm=most_mm)
    assert [finding.code for finding in remarks(SimpleNamespace(surface=told))] == codes


@pytest.mark.parametrize(
    ("gap_mm", "least_mm", "printed"),
    [
        (5.225, 5.221875, "~5.2 mm"),  # oak at Willow End: "5.3" would forbid its own gaps
        (5.5, 5.221875, "5.3 mm"),
        (5.0, 5.0, "5 mm"),
    ],
)
def test_no_limit_is_printed_above_a_gap_of_the_plan(
    gap_mm: float, least_mm: float, printed: str
) -> None:
    rows = tuple(evolve(row, gap_mm=gap_mm if row.gap_mm else 0.0) for row in surface().rows)
    told = evolve(surface(), rows=rows, gap_least_mm=least_mm)
    assert gap_limits(told, "metric")[0] == printed
