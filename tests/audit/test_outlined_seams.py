"""Lines that boards end over as the audit tells them, worked by hand on the L."""

import pytest
from attrs import evolve

from audit.outlined_planting import board
from audit.outlined_sample import box, outlined_plan
from audit.planting import both, to
from audit.test_outlined_seen import found
from drylay.audit.exact import PER_MM
from drylay.audit.outlined_seams import border_lines, breaker_lines, longest_bare
from drylay.audit.plane import Shape
from drylay.plan.model import Plan

LINE = ((500 * PER_MM, 0), (500 * PER_MM, 2000 * PER_MM))


def timber(left: float, right: float, low: float, high: float) -> Shape:
    ring = ((left, low), (right, low), (right, high), (left, high))
    return tuple((round(x * PER_MM), round(y * PER_MM)) for x, y in ring)


@pytest.mark.parametrize(
    ("stretches", "bare"),
    [
        ([], 2000.0),
        ([(0, 2000)], 0.0),
        ([(0, 900), (1100, 2000)], 199.8),  # what only just misses by 0.1 lies under it
        ([(200, 900), (1000, 1300), (1200, 1900)], 199.9),
    ],
)
def test_how_long_a_line_is_bare(stretches: list[tuple[float, float]], bare: float) -> None:
    wood = [timber(500, 545, low, high) for low, high in stretches]
    beside = [timber(546, 591, 0, 2000), timber(455, 545, 2001, 2100)]
    assert longest_bare(*LINE, [*wood, *beside]) / PER_MM == pytest.approx(bare, abs=0.001)


def test_a_timber_askew_carries_a_line_where_it_crosses() -> None:
    """At 45 degrees it lies under the line from 936.36 to 1000, and 0.1 x root 2 either way."""
    askew = tuple(
        (x * PER_MM, y * PER_MM) for x, y in ((0, 500), (63.64, 500), (1063.64, 1500), (1000, 1500))
    )
    whole = tuple((round(x), round(y)) for x, y in askew)
    assert longest_bare(*LINE, [whole]) / PER_MM == pytest.approx(1000 - 0.141, abs=0.01)


def bordered(courses: int) -> Plan:
    return to("laying.border_courses", courses)(outlined_plan())


def test_lines_lie_under_edges_of_borders_that_boards_end_at() -> None:
    """The L's sides that lead away from the house: 100 in; with two courses 102 and 204 in."""
    one, two = (list(border_lines(bordered(courses))) for courses in (1, 2))
    assert len(two) == 2 * len(one)
    assert all(start[0] == end[0] for _, start, end in one)
    assert min(start[0] for _, start, _ in one) == 100 * PER_MM
    assert {min(start[0] for _, start, _ in two[at:at + len(one)]) for at in (0, len(one))} == {
        102.5 * PER_MM, 205 * PER_MM
    }  # fmt: skip


def test_lines_lie_under_both_edges_of_breaker_boards_but_not_of_narrow_ones() -> None:
    for wide, lines in ((100.0, [500.0, 600.0]), (60.0, [])):
        across = board("B1.1", kind="breaker", row="", mark="X1",
                       corners=box(500.0, 0.0, 500.0 + wide, 520.0))  # fmt: skip
        told = [start[0] / PER_MM for _, start, _ in breaker_lines(across(outlined_plan()))]
        assert sorted(told) == pytest.approx(lines, abs=0.01)


def test_a_line_with_no_timber_under_it_is_found() -> None:
    plan = bordered(1)
    assert found("AUD-991", to("subframe.members", ())(plan))
    members = plan.subframe.members  # type: ignore[union-attr]
    floor = evolve(members[0], kind="joist", corners=box(-100.0, -100.0, 3000.0, 3000.0))
    assert not found("AUD-991", both(to("subframe.members", (floor,)))(plan))
