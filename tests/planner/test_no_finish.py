"""Boards that want no finish: none is bought, brushed or left unsaid."""

from typing import Any

import pytest
from attrs import evolve

import drylay
from border_decks import brief as edged
from border_decks import families as edging
from border_decks import stock as edged_stock
from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.plan.model import Plan

COMPOSITE = drylay.read_brief("docs/examples/composite.toml")
YARD = drylay.load_catalogue("catalogs/sallowby.toml")
FINISH = next(each.code for each in YARD.coatings if each.use == "finish")


def named(**finish: Any) -> Brief:
    return evolve(COMPOSITE, finish=evolve(COMPOSITE.finish, article=FINISH, **finish))


def codes(plan: Plan) -> list[str]:
    return [finding.code for finding in plan.findings if finding.code.startswith("COT-00")]


def summary(plan: Plan) -> str:
    return " ".join(drylay.papers(plan)["summary.txt"].decode().split())


def findings(plan: Plan, brief: Brief) -> tuple[drylay.Finding, ...]:
    families = drylay.installed_families()
    return drylay.audit(plan, brief=brief, stock=YARD, families=families).findings


def test_a_finish_that_boards_want_not_is_neither_bought_nor_brushed_and_that_is_told() -> None:
    plan = drylay.design(named(), stock=YARD)
    assert plan.buildable
    assert plan.fixings.finish is None
    assert plan.fixings.board_finish_coats == 0
    assert plan.why("fixings.board_finish_coats").source.kind == "common practice"
    assert FINISH not in {line.article for line in plan.buying.order}
    assert "Brush the finish on" not in {task.title for task in plan.work.tasks}
    (caution,) = [finding for finding in plan.findings if finding.code == "COT-006"]
    assert (caution.severity, caution.measured) == (Severity.CAUTION, 0.0)
    assert FINISH in caution.message
    assert "The boards want no finish: none is in the order" in summary(plan)
    assert "The boards want no finish" in drylay.papers(plan)["jobsheet.html"].decode()
    assert findings(plan, named()) == ()


def test_without_one_named_the_papers_say_so_and_no_finding_does() -> None:
    plan = drylay.design(COMPOSITE, stock=YARD)
    assert "COT-006" not in codes(plan)
    assert "The boards want no finish" in summary(plan)


def test_coats_that_the_brief_wants_all_the_same_are_brushed_and_told() -> None:
    plan = drylay.design(named(coats=2), stock=YARD)
    assert (plan.fixings.finish.coats, plan.fixings.board_finish_coats) == (2, 2)
    assert {"COT-006", "COT-007"} & set(codes(plan)) == {"COT-007"}
    assert "none is brushed on them" not in summary(plan)
    assert "Brush the finish on" in {task.title for task in plan.work.tasks}
    assert findings(plan, named(coats=2)) == ()


@pytest.mark.parametrize("fault", ["silence", "a finish", "a wish"])
def test_the_audit_sees_a_finish_that_is_not_wanted(fault: str) -> None:
    plan, brushed = (drylay.design(named(**more), stock=YARD) for more in ({}, {"coats": 1}))
    kept = tuple(finding for finding in plan.findings if finding.code != "COT-006")
    planted, code = {
        "silence": (evolve(plan, findings=kept), "AUD-W36"),
        "a finish": (evolve(brushed, fixings=evolve(brushed.fixings, board_finish_coats=0)),
                     "AUD-661"),
        "a wish": (evolve(plan, fixings=evolve(plan.fixings, board_finish_coats=1)), "AUD-W09"),
    }[fault]  # fmt: skip
    assert code in {finding.code for finding in findings(planted, named())}


def test_the_border_alone_wants_none() -> None:
    """The field's tops as without a border: 4.8 m by what lies between two rows of 95 at 5."""
    families = edging(finish_coats=0)
    plan = drylay.design(edged(), stock=edged_stock(), families=families)
    finish, surface = plan.fixings.finish, plan.surface
    assert (plan.fixings.board_finish_coats, plan.fixings.border_finish_coats) == (2, 0)
    assert finish.border_m2 == 0.0
    field_mm = sum(row.width_mm for row in surface.rows if not row.border)
    assert finish.boards_m2 == pytest.approx(4.8 * field_mm / 1000)
    assert finish.coats == 2
    (caution,) = [finding for finding in plan.findings if finding.code == "COT-006"]
    assert "the border's boards want no finish" in caution.message
    assert "The border's boards want no finish" in summary(plan)
    report = drylay.audit(plan, brief=edged(), stock=edged_stock(), families=families)
    assert report.findings == ()
    lied = evolve(plan, fixings=evolve(plan.fixings, border_finish_coats=None))
    assert "AUD-661" in {finding.code for finding in drylay.audit(lied).findings}


def test_the_field_alone_wants_none() -> None:
    """The same families the other way round: two rows of 95, 4.8 m long, and a fascia if any."""
    turned = evolve(edged(), board=evolve(edged().board, article="EDGE"),
                    border=evolve(edged().border, article="DB-28-145"))  # fmt: skip
    families = edging(finish_coats=0)
    plan = drylay.design(turned, stock=edged_stock(), families=families)
    assert plan.buildable, plan.findings
    assert plan.fixings.finish.boards_m2 == 0.0
    assert plan.fixings.finish.border_m2 == pytest.approx(4.8 * 2 * 0.145)
    assert "boards' tops" not in summary(plan)
    assert drylay.audit(
        plan, brief=turned, stock=edged_stock(), families=families
    ).findings == ()  # fmt: skip
