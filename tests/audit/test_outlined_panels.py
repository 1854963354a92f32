"""Battens and panels of hatches before the audit, where few plans lead it."""

import pytest
from attrs import evolve

from audit.outlined_panel_faults import Q, ripped
from audit.outlined_planting import board
from audit.outlined_real import garden
from audit.outlined_sample import box, outlined_plan, spots
from audit.planting import both, to, turned, without
from drylay.audit.closed import audit_plan
from drylay.audit.coats import ripped_edges
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import Flaw
from drylay.audit.outlined_openings import panels
from drylay.audit.outlined_panel_kg import CHECKS as WEIGHED
from drylay.audit.outlined_panel_kg import panels_weigh
from drylay.audit.outlined_panels import (
    CHECKS,
    battens_are_counted,
    battens_lie_in_place,
    tied_hatches,
)
from drylay.plan.model import Plan

HOLE = "outline.openings[1].corners"


def test_a_ripped_plan_is_sound() -> None:
    plan = ripped()
    assert plan.subframe is not None
    assert {batten.depth_mm for batten in plan.subframe.battens} == {71.0}  # (145 - 3) / 2
    assert audit_plan(plan).findings == ()


def test_ripped_edges_are_brushed_where_boards_want_no_preserver() -> None:
    """All battens, 45 thick: their area is told; and no more."""
    plan = ripped()
    assert plan.subframe is not None
    wide = sum(round(batten.length_mm * 320) * 45 * 320 for batten in plan.subframe.battens)
    bare = both(to("fixings.seal_board_ends", False),
                to("fixings.preserver.ripped_m2", wide / 320_000**2))(plan)  # fmt: skip
    assert list(ripped_edges(bare)) == []
    assert list(ripped_edges(to("fixings.preserver.ripped_m2", 0.0)(bare)))


@pytest.mark.parametrize("check", [check for _code, _title, check in (*CHECKS, *WEIGHED)])
def test_without_hatches_there_is_nothing_to_measure(check: object) -> None:
    untold = both(to(Q, ()), to("subframe.batten_count", None), without("outline.openings", 1))
    with pytest.raises(NothingToMeasure):
        list(check(untold(garden())))  # type: ignore[operator]


def test_battens_told_without_their_count_are_a_flaw() -> None:
    flaws: list[Flaw] = list(battens_are_counted(to("subframe.batten_count", None)(garden())))
    assert any("not the battens there are" in flaw.message for flaw in flaws)


def test_battens_come_hatch_by_hatch() -> None:
    def two_hatches(plan: Plan) -> Plan:
        assert plan.outline is not None
        hatch = plan.outline.openings[1]
        return to("outline.openings[0]", evolve(hatch, mark="O1"))(plan)

    mixed = both(two_hatches, to(f"{Q}[1].opening", "O1"))(garden())
    assert any("hatch by hatch" in flaw.message for flaw in battens_are_counted(mixed))
    assert not any(
        "hatch by hatch" in flaw.message for flaw in battens_are_counted(turned(Q, 0, 1)(garden()))
    )


def test_a_hole_of_another_shape_ties_nothing() -> None:
    three = spots((0.0, 0.0), (500.0, 0.0), (0.0, 500.0))
    speck = box(0.0, 0.0, 500.0, 0.0)
    for corners in (three, speck):
        assert tied_hatches(to(HOLE, corners)(garden())) == []
    level = spots((3590.0, 911.25), (3590.0, 911.25), (4210.0, 1673.75), (3590.0, 1673.75))
    assert list(battens_lie_in_place(to(HOLE, level)(garden())))


def test_one_batten_is_looked_at_for_itself() -> None:
    plan = garden()
    assert plan.subframe is not None
    alone = to(Q, plan.subframe.battens[:1])(plan)
    assert list(battens_lie_in_place(alone)) == []


def test_timber_of_one_density_weighs_by_that() -> None:
    def weighed(framed: float | None) -> list[float | None]:
        lighter = to("buying.delivery.density_kg_m3", 500.0)
        plan = both(lighter, to("buying.delivery.frame_density_kg_m3", framed))(garden())
        return [flaw.limit for flaw in panels_weigh(plan)]

    assert weighed(None) == weighed(500.0) != weighed(600.0)


def test_a_panel_without_boards_is_told() -> None:
    plan = garden()
    assert plan.laying is not None
    for piece in plan.laying.pieces:
        if piece.kind == "hatch":
            plan = board(piece.mark, kind="field")(plan)
    assert any("no boards" in flaw.message for flaw in panels(plan))


def test_the_l_has_no_panels() -> None:
    assert outlined_plan().subframe is not None
    assert "AUD-996" in {idle.code for idle in audit_plan(outlined_plan()).not_run}
