"""Decks on an outline planned through: what they say, what stops them, that they stay the same."""

import re
from threading import Event
from typing import Any

import pytest

import drylay
from drylay.findings import Severity
from drylay.plan.model import Plan
from outlined_gardens import STOCK, garden, planned

Corners = tuple[tuple[int, int], ...]
PLAIN: Corners = ((0, 0), (3000, 0), (3000, 2395), (0, 2395))
ELL: Corners = ((0, 0), (3000, 0), (3000, 2395), (1500, 2395), (1500, 1195), (0, 1195))


def deck(corners: Corners = PLAIN, side: str = "open", **more: Any) -> Plan:
    """Return the plan of a deck of those corners, the first side the house's."""
    openings = more.pop("openings", [])
    points = [{"along_mm": x, "across_mm": y, "side": "house" if n == 0 else side}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    return planned(outline={"points": points, "openings": openings}, groundwork={}, **more)


def codes(plan: Plan, severity: Severity | None = None) -> set[str]:
    return {each.code for each in plan.findings if severity in (None, each.severity)}


def hatch(x: int, y: int, size: int = 400) -> dict[str, Any]:
    return {"kind": "hatch", "along_mm": x, "across_mm": y, "size_along_mm": size,
            "size_across_mm": size}  # fmt: skip


STOPS = {
    "LAY-001": {"corners": ((0, 0), (280, 0), (280, 2395), (0, 2395)),
                "laying": {"border_courses": 1}},
    "LAY-003": {"laying": {"fields": [{"from_along_mm": 0, "from_across_mm": 0, "along_mm": 3000,
                                       "across_mm": 2395, "angle_deg": 90}]}},
    "LAY-004": {"laying": {"fields": [{"from_along_mm": 1000, "from_across_mm": 800,
                                       "along_mm": 900, "across_mm": 750, "angle_deg": 90}]}},
    "OUT-009": {"laying": {"breakers_mm": [1500]}, "openings": [hatch(1500, 1200)]},
    "OUT-010": {"openings": [hatch(1500, 1200, 1500)]},
    "ROW-001": {"corners": ((0, 0), (3000, 0), (3000, 2450), (0, 2450)),
                "rows": {"may_rip": False, "prefer": ["as_wished"]}},
}  # fmt: skip


@pytest.mark.parametrize("code", sorted(STOPS))
def test_what_stops_a_deck_leaves_no_cut_list(code: str) -> None:
    plan = deck(**STOPS[code])
    assert code in codes(plan, Severity.STOP)
    assert (plan.laying, plan.subframe, plan.fixings, plan.buying, plan.work) == (None,) * 5


def test_a_side_too_short_for_a_border_is_told_with_its_least() -> None:
    """Two boards of 145 and a gap of 5 at either end: 2 x 295."""
    plan = deck(corners=((0, 0), (300, 0), (300, 2395), (0, 2395)), laying={"border_courses": 2})
    (stop,) = [each for each in plan.findings if each.code == "LAY-001"]
    assert (stop.subject, stop.measured, stop.limit) == ("E1", 300, 590)


def test_a_neck_too_narrow_for_its_borders_is_told_by_both_sides() -> None:
    """A board of 145 and a gap of 5, where boards lie alongside, at either side."""
    neck = ((0, 0), (900, 0), (900, 700), (1500, 700), (1500, 0), (2400, 0), (2400, 1650),
            (1500, 1650), (1500, 950), (900, 950), (900, 1650), (0, 1650))  # fmt: skip
    (stop,) = [each for each in deck(corners=neck, laying={"border_courses": 1}).findings
               if each.severity is Severity.STOP]  # fmt: skip
    assert (stop.code, stop.subject) == ("LAY-001", "E3 and E9")
    assert (stop.measured, stop.limit) == (250, 300)


@pytest.mark.parametrize("width", [290, 291, 298])
def test_a_border_with_no_room_for_a_gap_between_leaves_no_field(width: int) -> None:
    """Two boards of 145 and an end gap of 4 before either."""
    narrow = ((0, 0), (width, 0), (width, 2395), (0, 2395))
    plan = deck(corners=narrow, laying={"border_courses": 1})
    (stop,) = [each for each in plan.findings if each.severity is Severity.STOP]
    assert (stop.code, stop.subject, stop.measured) == ("LAY-001", "E1", width)


@pytest.mark.parametrize(("apart_mm", "stopped"), [(2, True), (148.5, True), (149, False)])
def test_breaker_boards_lie_a_board_and_a_gap_apart(apart_mm: float, stopped: bool) -> None:
    """A board of 145 and an end gap of 4."""
    plan = deck(laying={"breakers_mm": [1500, 1500 + apart_mm]})
    assert plan.buildable != stopped
    if stopped:
        (stop,) = [each for each in plan.findings if each.severity is Severity.STOP]
        assert (stop.code, stop.measured, stop.limit) == ("LAY-015", apart_mm, 149)
        assert "to 1649 mm or beyond" in stop.message


def test_a_hatch_off_its_rows_is_told_where_it_would_lie() -> None:
    """Breaker boards at 1500: the hatch of 400 about it moves to the left, and stays across."""
    wish = {"laying": {"breakers_mm": [1500]}, "openings": [hatch(1500, 1200)]}
    (stop,) = [each for each in deck(**wish).findings if each.code == "OUT-009"]
    told = re.search(r"middle at along ([\d.]+), across ([\d.]+)$", stop.message)
    assert told is not None
    assert (float(told[1]) < 1300, float(told[2])) == (True, 1200)
    assert stop.measured == pytest.approx(1500 - float(told[1]), abs=0.1)
    assert stop.limit == 0
    moved = {**wish, "openings": [hatch(float(told[1]), float(told[2]))]}
    assert "OUT-009" not in codes(deck(**moved), Severity.STOP)


@pytest.mark.parametrize(
    ("along_mm", "off_mm"),
    [(1866, 8.5), (1890, 32.5), (1902, 44.5), (1903, None)],
)
def test_a_hatch_that_leaves_no_room_for_a_timber_is_told_where_it_would_lie(
    along_mm: int, off_mm: float | None
) -> None:
    """The breaker board ends at 1572.5; the hole 200, 40 and a timber of 45 before the middle."""
    wish = {"laying": {"breakers_mm": [1500]}, "openings": [hatch(along_mm, 1200)]}
    plan = deck(**wish)
    assert plan.buildable == (off_mm is None)
    if off_mm is not None:
        (stop,) = [each for each in plan.findings if each.severity is Severity.STOP]
        assert (stop.code, stop.measured, stop.limit) == ("OUT-013", off_mm, 45)
        told = re.search(r"middle at along ([\d.]+), across ([\d.]+)$", stop.message)
        assert told is not None
        moved = {**wish, "openings": [hatch(float(told[1]), float(told[2]))]}
        assert deck(**moved).buildable


def test_a_hatch_just_at_the_border_leaves_no_pieces_and_one_a_little_off_does() -> None:
    """The border's inner edge is at 2855: 2564 + 285 is 6 off it, 2556 + 285 is 14 off."""
    for along_mm, code in ((2564, set()), (2556, {"OUT-013"}), (2524, set())):
        plan = deck(laying={"border_courses": 1}, openings=[hatch(along_mm, 1200)])
        assert codes(plan, Severity.STOP) == code


TOLD = {
    "LAY-006": {"corners": ELL},
    "LAY-007": {"laying": {"angle_deg": 45}},
    "LAY-008": {"laying": {"angle_deg": 45}},
    "LAY-009": {"corners": ((0, 0), (3000, 0), (3000, 2402), (0, 2395))},
    "LAY-011": {"laying": {"breakers_mm": [1500]}},
    "SUB-010": {"laying": {"angle_deg": 45}},
    "SUB-011": {"laying": {"angle_deg": 45}},
    "SIT-020": {},
    "OUT-011": {"side": "pool"},
    "OUT-012": {"side": "boundary"},
    "BDR-020": {"laying": {"border_courses": 1}, "rows": {"may_rip": True}},
    "BDR-021": {"laying": {"border_courses": 2}, "rows": {"may_rip": True}},
}


@pytest.mark.parametrize("code", sorted(TOLD))
def test_what_a_deck_tells(code: str) -> None:
    plan = deck(**TOLD[code])
    assert plan.buildable
    assert code in codes(plan)


def test_the_same_brief_gives_the_same_bytes_and_reads_back() -> None:
    one, other = deck(ELL), deck(ELL)
    assert drylay.plan_to_json(one) == drylay.plan_to_json(other)
    assert drylay.plan_from_json(drylay.plan_to_json(one)) == one


def test_every_limit_of_the_laying_has_its_reason() -> None:
    plan = deck()
    for name in ("gap_preferred_mm", "gap_least_mm", "gap_most_mm", "sliver_limit_mm",
                 "least_rip_mm", "end_gap_mm", "least_supports", "stagger_bays", "row_count",
                 "way_out", "fan_mm", "joint_count"):  # fmt: skip
        assert plan.why(f"laying.{name}").value == getattr(plan.laying, name)


def test_sixteen_rows_from_either_side() -> None:
    for first in ("near", "far"):
        laying = deck(laying={"first_row": first}).laying
        assert laying is not None
        assert (laying.row_count, laying.zones[0].gap_mm) == (16, 5.0)
        assert laying.face_m2 == pytest.approx(16 * 0.145 * 3)


def test_a_tree_without_growth_and_sway_told_passes_the_audit() -> None:
    """Left out, a tree grows 10 a year and sways 50 either way: 60 + 50 + 100 = 210."""
    brief = drylay.read_brief(garden())
    plan, stock = planned(), drylay.load_catalogue(STOCK)
    report = drylay.audit(plan, brief=brief, stock=stock)
    assert [each.code for each in report.findings if each.severity is Severity.STOP] == []
    assert plan.outline is not None
    alongs = [corner.along_mm for corner in plan.outline.openings[0].within]
    assert max(alongs) - min(alongs) == 210


def test_breaker_boards_only_where_they_are_needed() -> None:
    short = deck(laying={"breakers": "as_needed"}).laying
    assert short is not None
    assert short.breaker_count == 0
    long = deck(((0, 0), (6500, 0), (6500, 2395), (0, 2395)), laying={"breakers": "as_needed"})
    assert long.laying is not None
    assert long.laying.breaker_count > 0
    assert [joint.row for joint in long.laying.joints if joint.row.startswith("B")] == []


def test_progress_is_told_and_a_cancel_heard() -> None:
    brief, stock = drylay.read_brief(garden()), drylay.load_catalogue(STOCK)
    told: list[object] = []
    drylay.design(brief, stock=stock, progress=lambda *step: told.append(step))
    assert len(told) >= 3
    token = Event()
    token.set()
    with pytest.raises(drylay.Cancelled):
        drylay.design(brief, stock=stock, cancel=token)
