"""The wet pendulum value to ask for: HSE slip bands, 36 and more is low slip potential."""

import pytest
from attrs import evolve

import drylay
from drylay.findings import Severity
from drylay.materials.stock_model import ArticleRule
from drylay.reasons import Source
from planner.test_board_asks import EXAMPLES, as_it_stands, asked, told


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_family_names_the_value_to_ask_for(example: str) -> None:
    plan = as_it_stands(example)
    (note,) = told(plan, "SLP-001")
    assert (note.severity, plan.surface.wet_slip_least) == (Severity.NOTE, 36)
    assert "36 or more" in note.message
    assert "bare feet" not in note.message
    assert "HSE slip bands" in note.source.title


def test_at_a_pool_the_value_for_bare_feet_is_asked_too() -> None:
    brief, stock = asked("hardwood", site={"exposure": "pool"})
    (note,) = told(drylay.design(brief, stock=stock), "SLP-001")
    assert "bare feet" in note.message


def test_a_record_may_ask_for_more() -> None:
    brief, stock = asked("softwood")
    own = ArticleRule(rule="wet_slip_least", value=45,
                      source=Source(kind="merchant record", title="a test's record"))  # fmt: skip
    boards = tuple(evolve(board, rules=(*board.rules, own)) for board in stock.boards)
    stock = evolve(stock, boards=boards)
    plan = drylay.design(brief, stock=stock)
    (note,) = told(plan, "SLP-001")
    assert "45 or more" in note.message
    families = drylay.installed_families()
    assert drylay.audit(plan, brief=brief, stock=stock, families=families).findings == ()
