"""Decks on an outline on their ground: levels, dig, roots, ties and tasks of whole plans."""

import math
import re
from typing import Any

import pytest

from drylay.audit.leaves import at
from drylay.findings import Severity
from drylay.papers.amounts import filled
from drylay.plan.model import Plan
from outlined_gardens import HATCH, POST, TREE, WING, garden, plain, planned

SQUARE = ((-500, -2500), (5000, -2500), (5000, 3000), (-500, 3000))


def levels(*heights: float, **more: Any) -> dict[str, Any]:
    points = [{"along_mm": x, "across_mm": y, "level_mm": z}
              for (x, y), z in zip(SQUARE, heights, strict=True)]  # fmt: skip
    return {"datum": "sill", "points": points, **more}


def codes(plan: Plan, severity: Severity | None = None) -> set[str]:
    told = plan.findings
    return {each.code for each in told if severity is None or each.severity is severity}


def test_the_dig_by_hand() -> None:
    """4.3 x 2.51 in front: 100 at the left and the front, 10 at the wall, 0 at the boundary.

    The wing 1.61 x 1.89 more: 13.8359; less the roots, 64 x tan(pi / 64) x 0.72^2.
    """
    dig = plain().groundwork.dig  # type: ignore[union-attr]
    assert dig is not None
    kept = 64 * math.tan(math.pi / 64) * 0.72**2
    assert dig.roots_m2 == pytest.approx(kept, abs=2e-6)
    assert dig.area_m2 == pytest.approx(4.3 * 2.51 + 1.61 * 1.89 - kept, abs=2e-6)
    assert (dig.along_mm, dig.across_mm) == (4300.0, 4400.0)
    assert (dig.margin_mm, dig.house_margin_mm) == (100.0, 10.0)
    (zone,) = dig.roots
    assert (zone.opening, zone.trunk_mm, zone.radius_mm) == ("O1", 60.0, 720.0)
    assert codes(plain()) >= {"GND-015", "GND-013", "GND-008"}


def test_no_tape_goes_through_the_house() -> None:
    out = plain().work.setting_out  # type: ignore[union-attr]
    tapes = {frozenset((tie.start, tie.end)) for tie in out.ties}
    # from P1 and P6 the wing's far corners lie behind the house's corner
    assert tapes.isdisjoint(frozenset(pair) for pair in (("P1", "P3"), ("P1", "P4"), ("P4", "P6")))
    assert [peg.mark for peg in out.pegs] == ["P1", "P2", "P3", "P4", "P5", "P6"]
    assert (out.pegs[1].along_mm, out.pegs[1].across_mm) == (2600.0, 0.0)


def test_hours_of_setting_out_by_hand() -> None:
    """11 ties: 1 + 0.55 and 2 + 1.1, halved for two, to the quarter hour outwards."""
    plan = plain()
    (task,) = [task for task in plan.work.tasks if task.kind == "set_out"]  # type: ignore[union-attr]
    assert len(plan.work.setting_out.ties) == 11  # type: ignore[union-attr]
    assert (task.least_h, task.most_h) == (0.75, 1.75)


def told(plan: Plan, kind: str) -> str:
    (task,) = [task for task in plan.work.tasks if task.kind == kind]  # type: ignore[union-attr]
    return " ".join(task.steps)


def test_tasks_speak_of_what_stands_in_the_deck() -> None:
    plan = plain()
    assert "whether the tree is protected" in told(plan, "check")
    assert "rope off the roots" in told(plan, "dig")
    assert "Frame the openings before any joist" in told(plan, "frame")
    assert "one person to lift" in told(plan, "hatches")
    kinds = [task.kind for task in plan.work.tasks]  # type: ignore[union-attr]
    assert kinds.index("boards") < kinds.index("hatches") < kinds.index("hand_over")


def test_every_text_is_filled_from_the_plan() -> None:
    plan = plain()
    for task in plan.work.tasks:  # type: ignore[union-attr]
        assert 0 <= task.least_h < task.most_h
        for text in (*task.steps, *(hold.check for hold in task.holds)):
            for path in re.findall(r"\{([^}]*)\}", text):
                assert at(plan, path) is not None
            assert "{" not in filled(text, plan)


def test_a_pool_wants_an_electrician_and_is_not_dug() -> None:
    pool = {"kind": "pool", "along_mm": 2000, "across_mm": 1200, "size_along_mm": 800,
            "size_across_mm": 500}  # fmt: skip
    plan = planned(outline={**garden()["outline"], "openings": [pool]})
    assert "licensed electrician" in told(plan, "check")
    assert plan.groundwork.dig.area_m2 == pytest.approx(13.8359 - 0.4, abs=2e-6)  # type: ignore[union-attr]


def test_a_border_is_laid_first_and_breakers_before_rows() -> None:
    plan = planned(
        laying={"border_courses": 1, "breakers": "as_needed"},
        outline={"points": garden()["outline"]["points"]},
        board={"article": "DB-28-145"},
    )
    assert plan.work is not None, codes(plan, Severity.STOP)
    steps = told(plan, "boards")
    assert steps.index("The border first") < steps.index("Field Z1")


def test_ground_within_the_outline_sets_the_top() -> None:
    """Ground 0.005 x across: highest at the front, 12, lowest at the wing's end, 9 down.

    12 less 10 (to the gravel's top) plus 28 (the packer), 145 and 28 on it is 203.
    """
    plan = planned(levels=levels(-12.5, -12.5, 15, 15, outfall=True))
    found = plan.site.levels  # type: ignore[union-attr]
    assert found is not None
    assert (found.ground_most_mm, found.ground_least_mm) == (12.0, -9.0)
    assert found.deck_top_mm == 203.0
    # from the front's corners to the wall: 12; from the wing's outer end along it: none
    assert found.fall_to_house_mm == 12.0
    assert plan.buildable


def test_ground_that_falls_to_the_house_stops_a_deck_beside_it() -> None:
    plan = planned(levels=levels(-25, -25, 30, 30))
    assert "LVL-015" in codes(plan, Severity.STOP)


def test_a_corner_far_from_all_levels_is_told_by_its_sides() -> None:
    points = [{"along_mm": x, "across_mm": y, "level_mm": -250 - x // 500}
              for x, y in ((0, 0), (4200, 0), (4200, 2400), (0, 2400))]  # fmt: skip
    plan = planned(levels={"datum": "sill", "points": points, "deck_top_mm": -20})
    (found,) = [each for each in plan.findings if each.code == "LVL-007"]
    assert "E2-E3, E3-E4" in found.message


def test_a_frame_that_lies_in_roots_ground_stops() -> None:
    """Its underside 5 over the dug bed, so 5 in the lawn, which roots keep from being dug."""
    ground = {"strip_mm": 50}
    flat = levels(0, 0, 0, 0, deck_top_mm=123 + 5, outfall=True)
    with_tree = planned(levels=flat, groundwork=ground)
    assert "GND-016" in codes(with_tree, Severity.STOP)
    bare = {**garden()["outline"], "openings": [POST, HATCH]}
    assert "GND-016" not in codes(planned(levels=flat, groundwork=ground, outline=bare))


def test_a_deck_all_in_roots_is_not_dug() -> None:
    tree = {**TREE, "trunk_mm": 380, "along_mm": 1500}
    plan = planned(outline={**garden()["outline"], "openings": [tree]})
    assert "GND-017" in codes(plan, Severity.CAUTION)
    assert plan.groundwork.dig is None  # type: ignore[union-attr]
    assert plan.groundwork.packing is not None  # type: ignore[union-attr]
    assert [p.what for p in plan.buying.purchases if p.what == "fabric"] == []  # type: ignore[union-attr]


def test_the_wing_is_as_drawn() -> None:
    assert plain().outline.gross_m2 == 12.96  # type: ignore[union-attr]
    assert len(WING) == 6


def faced(**more: Any) -> dict[str, Any]:
    """Return a clipped corner with fascia on every side but the house's."""
    corners = ((0, 0), (4200, 0), (4200, 1800), (3600, 2400), (0, 2400))
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house", "faced": n > 0}
              for n, (x, y) in enumerate(corners)]  # fmt: skip
    return {
        "outline": {"points": points},
        "fascia": {"article": "FA-28-145"},
        "fixings": {**garden()["fixings"], "fascia_screw": "WS-50-60"},
        **more,
    }


def test_a_fascia_near_the_ground_is_cautioned() -> None:
    """145 of fascia, 145 of timber, and no packers, nor levels to tell of any room."""
    plan = planned(**faced(groundwork={}))
    (told_once,) = [each for each in plan.findings if each.code == "FAS-001"]
    assert (told_once.measured, told_once.limit) == (145.0, 145.0)
    assert "FAS-001" not in codes(planned(**faced()))  # packers of 28
