"""Setting out an outline: ties give the pegs back, tapes meet well, a rectangle by hand."""

import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.work.model import SettingOut
from drylay.work.outlined_setting_out import SHARPEST_DEG, Place, angle_deg, set_out_corners

BOX: tuple[Place, ...] = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0))
L_SHAPE: tuple[Place, ...] = (
    (0.0, 0.0), (4000.0, 0.0), (4000.0, 2000.0), (2000.0, 2000.0), (2000.0, 5000.0), (0.0, 5000.0),
)  # fmt: skip


def clear(_one: Place, _other: Place) -> bool:
    return True


def out(corners: tuple[Place, ...]) -> SettingOut:
    return set_out_corners(corners, units="metric", clear=clear)


def told(found: SettingOut, *, check: bool) -> list[tuple[str, str, float]]:
    return [(tie.start, tie.end, tie.length_mm) for tie in found.ties if tie.check == check]


def test_a_rectangle_by_hand() -> None:
    """P3 from both ends of the base line; P4 where tapes from P1 and P3 meet square; a diagonal."""
    found = out(BOX)
    assert told(found, check=False) == [
        ("P1", "P2", 4000.0), ("P1", "P3", 5000.0), ("P2", "P3", 3000.0),
        ("P1", "P4", 3000.0), ("P3", "P4", 4000.0),
    ]  # fmt: skip
    assert told(found, check=True) == [("P2", "P4", 5000.0)]
    assert found.tie_count == 6
    assert (found.leg_along_mm, found.leg_across_mm, found.slant_mm) == (4000.0, 3000.0, 5000.0)


def test_no_three_four_five_on_a_splayed_corner() -> None:
    found = out(((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (500.0, 3000.0)))
    assert (found.leg_along_mm, found.leg_across_mm, found.slant_mm) == (None, None, None)


def test_no_tape_runs_through_a_house() -> None:
    """An L round a house's corner: from the far end of the wing nobody sees P1."""

    def outdoors(one: Place, other: Place) -> bool:
        return {one, other} != {L_SHAPE[1], L_SHAPE[4]}

    found = set_out_corners(L_SHAPE, units="metric", clear=outdoors)
    assert ("P2", "P5") not in {(tie.start, tie.end) for tie in found.ties}


def trilaterated(found: SettingOut, start: dict[str, Place]) -> dict[str, Place]:
    """Return the pegs again by circles about two of them, nearer to where they are told."""
    placed = dict(start)
    wanted = {peg.mark: (peg.along_mm, peg.across_mm) for peg in found.pegs}
    ties = [tie for tie in found.ties if not tie.check][1:]
    for one, other in zip(ties[::2], ties[1::2], strict=True):
        assert one.end == other.end
        (ax, ay), (bx, by) = placed[one.start], placed[other.start]
        base = math.hypot(bx - ax, by - ay)
        x = (one.length_mm**2 - other.length_mm**2 + base**2) / (2 * base)
        y = math.sqrt(max(one.length_mm**2 - x**2, 0.0))
        ex, ey = (bx - ax) / base, (by - ay) / base
        both = [(ax + x * ex - s * y * ey, ay + x * ey + s * y * ex) for s in (1, -1)]
        placed[one.end] = min(both, key=lambda at: math.dist(at, wanted[one.end]))
    return placed


STARS = st.lists(st.integers(1500, 6000), min_size=3, max_size=9)


def star(reaches: list[int]) -> tuple[Place, ...]:
    """Return a simple outline: corners all round a middle, each so far from it."""
    step = 2 * math.pi / len(reaches)
    return tuple(
        (round(r * math.cos(n * step) * 320) / 320, round(r * math.sin(n * step) * 320) / 320)
        for n, r in enumerate(reaches)
    )


@given(STARS)
def test_ties_give_the_pegs_back(reaches: list[int]) -> None:
    corners = star(reaches)
    found = out(corners)
    placed = trilaterated(found, {"P1": corners[0], "P2": corners[1]})
    for peg in found.pegs:
        assert math.dist(placed[peg.mark], (peg.along_mm, peg.across_mm)) < 1.0
    for tie in found.ties:
        assert tie.length_mm == pytest.approx(
            math.dist(placed[tie.start], placed[tie.end]), abs=2.0
        )


@given(STARS)
def test_tapes_meet_as_well_as_they_can(reaches: list[int]) -> None:
    corners = star(reaches)
    found = out(corners)
    ties = [tie for tie in found.ties if not tie.check]
    stand, at = ["P1", "P2"], {peg.mark: (peg.along_mm, peg.across_mm) for peg in found.pegs}
    for one, other in zip(ties[1::2], ties[2::2], strict=True):
        assert {one.start, other.start} <= set(stand)
        angle = angle_deg(at[one.end], at[one.start], at[other.start])
        best = max(
            min(a, 180 - a)
            for pair in combinations(stand, 2)
            for a in [angle_deg(at[one.end], *(at[mark] for mark in pair))]
        )
        assert min(angle, 180 - angle) >= min(best, SHARPEST_DEG) - 1e-4
        stand.append(one.end)
    assert len(stand) == len(corners)
    checked = {mark for tie in found.ties if tie.check for mark in (tie.start, tie.end)}
    assert set(stand[3:]) <= checked
