"""What tasks on an outline say: where joists are marked from, ledges, panels that are barred."""

from functools import lru_cache
from typing import Any

import pytest
from attrs import evolve

import drylay
from drylay.papers.amounts import filled
from drylay.papers.summary import summary
from drylay.plan.model import Plan
from drylay.work.outlined_fixed import fixed_otherwise
from outlined_gardens import STOCK, doubled, doubled_brief

FRAME = {"article": "FT-45-145", "most_centres_mm": 400}
FIXINGS = {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"}
#: A wedge that stands askew to what it was measured from: its far rim begins elsewhere.
ASKEW = ((150, 62, "house"), (4738, 398, "boundary"), (3927, 3943, "open"), (506, 3693, "boundary"))
SQUARE = ((0, 0, "house"), (3000, 0, "open"), (3000, 2400, "open"), (0, 2400, "open"))


@lru_cache
def planned(points: tuple[tuple[int, int, str], ...], hatch_mm: int, at_mm: int) -> Plan:
    """Return the plan of a deck with a hatch that is so large, square, in millimetres."""
    hatch = {"kind": "hatch", "along_mm": at_mm, "across_mm": at_mm - 100,
             "size_along_mm": hatch_mm, "size_across_mm": hatch_mm}  # fmt: skip
    brief: dict[str, Any] = {
        "title": "hatch",
        "outline": {
            "points": [{"along_mm": x, "across_mm": y, "side": side} for x, y, side in points],
            "openings": [hatch],
        },
        "board": {"article": "DB-28-145"},
        "frame": FRAME,
        "fixings": FIXINGS,
        "joints": {"end_gap_mm": 4},
    }
    plan = drylay.design(drylay.read_brief(brief), stock=drylay.load_catalogue(STOCK))
    assert plan.buildable
    return plan


def wide() -> Plan:
    return planned(ASKEW, 350, 2100)


def narrow() -> Plan:
    return planned(SQUARE, 200, 1400)


def told(plan: Plan, kind: str) -> str:
    """Return the steps of a task as the papers tell them."""
    assert plan.work is not None
    (task,) = [task for task in plan.work.tasks if task.kind == kind]
    return "\n".join(filled(step, plan) for step in task.steps)


def holds(plan: Plan, kind: str) -> set[str]:
    assert plan.work is not None
    return {hold.mark for task in plan.work.tasks if task.kind == kind for hold in task.holds}


@pytest.mark.parametrize("kind", ["hatches", "hand_over"])
def test_a_panel_that_spans_too_far_is_barred_where_it_is_made_and_handed_over(kind: str) -> None:
    assert "OUT-025" in {finding.code for finding in wide().findings}
    assert "Nobody is to stand on the panel of O1" in told(wide(), kind)
    assert "panels_barred" in holds(wide(), kind)


@pytest.mark.parametrize("kind", ["hatches", "hand_over"])
def test_no_other_panel_is_barred(kind: str) -> None:
    assert "OUT-025" not in {finding.code for finding in narrow().findings}
    assert "stand on the panel" not in told(narrow(), kind)
    assert "panels_barred" not in holds(narrow(), kind)


def test_joists_are_marked_on_each_rim_from_one_line() -> None:
    frame = told(wide(), "frame")
    assert "together, from the same end" not in frame
    assert "all measured from one line: through P1, the way the joists run" in frame
    assert "through the datum corner" in told(narrow(), "frame")


def test_ledges_are_named_where_they_are_set_and_where_panels_lie() -> None:
    """By hand: the timbers whose middles lie between the ends of the hole, and in its depth."""
    plan = wide()
    assert plan.outline is not None
    assert plan.subframe is not None
    (hole,) = plan.outline.openings
    low, high = (pick(spot.along_mm for spot in hole.corners) for pick in (min, max))
    near, far = (pick(spot.across_mm for spot in hole.corners) for pick in (min, max))
    marks = [
        member.mark
        for member in plan.subframe.members
        if member.kind == "trimmer"
        and low < (member.start.along_mm + member.end.along_mm) / 2 < high
        and near < (member.start.across_mm + member.end.across_mm) / 2 < far
    ]
    assert len(marks) == 2
    assert f"Ledges ({' and '.join(marks)}) alone stand inside their holes" in told(plan, "frame")
    assert f"({' and '.join(marks)}, inside the hole O1)" in told(plan, "hatches")


def test_no_task_speaks_of_a_paper_that_an_outline_has_not() -> None:
    plan = wide()
    assert plan.work is not None
    texts = [text for task in plan.work.tasks for text in task.steps]
    texts += [hold.check for task in plan.work.tasks for hold in task.holds]
    texts += [tool.what for tool in plan.work.tools]
    assert not [text for text in texts if " rod" in text]
    assert "ways out" not in summary(plan)


def test_corners_that_coach_screws_do_not_hold_are_told() -> None:
    assert "Mitred corners of rims: draw the mitre tight, 2 frame screws" in told(wide(), "frame")
    assert "Mitred corners" not in told(narrow(), "frame")


def test_doubles_are_screwed_into_one_timber() -> None:
    """By hand: 2310 and 1063.5 less 60 at either end are 8 and 4 steps of 300 or less."""
    frame = told(doubled(), "frame")
    assert "SUB-015" not in {finding.code for finding in doubled().findings}
    assert "Screw doubles (D1 to J3, D2 to J6, D3 to U1, D4 to U6) into one timber" in frame
    assert "2 screws one above the other 60 mm from either end of what touches" in frame
    assert "none further apart than 300 mm" in frame
    # 120 through two timbers of 45 would leave 30 in the end, and 60 is the least
    alone = "drive those coach screws through that timber alone, heads and washers let in flush"
    assert frame.index(alone) < frame.index("Screw doubles")
    assert "let_in_bit" in tools(doubled())
    assert "let_in_bit" not in tools(narrow())
    assert "doubles" not in told(narrow(), "frame")


def test_a_bit_for_doubles_is_listed_where_the_frame_screws_have_another() -> None:
    assert "double_bit" not in tools(doubled())
    assert "double_bit" in tools(doubled_otherwise("FS-60-100", "FS-60-90"))
    assert "double_bit" in tools(doubled_otherwise("", ""))


def tools(plan: Plan) -> set[str]:
    """Return what tools the list of a plan has, by their marks."""
    assert plan.work is not None
    return {tool.mark for tool in plan.work.tools}


def doubled_otherwise(frame_screw: str, not_sold: str) -> Plan:
    """Return that deck with another frame screw ("" for none), and one screw off the market."""
    stock = drylay.load_catalogue(STOCK)
    named = {"frame_screw": frame_screw} if frame_screw else {}
    stock = stock.without(not_sold) if not_sold else stock
    return drylay.design(doubled_brief(**named), stock=stock)


def test_doubles_that_no_screw_on_sale_holds_are_told_to_want_some() -> None:
    """By hand: what a tape finds along the timbers of that name, put end to end."""
    stock = drylay.load_catalogue(STOCK).without("FS-60-90").without("DS-50-80")
    plan = drylay.design(doubled_brief(frame_screw="FS-60-100"), stock=stock)
    assert plan.fixings is not None
    assert plan.fixings.double_screws is None
    (found,) = [finding for finding in plan.findings if finding.code == "SUB-015"]
    assert found.severity.value == "caution"
    assert (found.subject, found.measured) == ("D1, D2, D3, D4", 2 * 2310 + 2 * 1063.5)
    assert "their screws are not in the order (SUB-015)" in told(plan, "frame")
    assert [each for each in plan.findings if each.code.startswith("AUD")] == []


def test_a_member_too_short_for_coach_screws_from_both_ends_has_frame_screws() -> None:
    """By hand: coach screws of 200 through 45 reach 155, so ends meet in under 310."""
    plan = narrow()
    assert plan.subframe is not None
    assert plan.fixings is not None
    first = next(each for each in plan.subframe.members if each.kind == "trimmer")
    for length_mm, is_told in ((309.0, True), (310.0, False)):
        members = (evolve(first, length_mm=length_mm),)
        deck = evolve(plan, subframe=evolve(plan.subframe, members=members),
                      fixings=evolve(plan.fixings, coach_screws=evolve(
                          plan.fixings.coach_screws, length_mm=200.0)))  # fmt: skip
        assert bool(fixed_otherwise(deck)) is is_told  # type: ignore[arg-type]
