"""A plan file of the first schema, as its release wrote it, is read, audited and papered today."""

from pathlib import Path

import pytest

import drylay
from drylay.errors import PlanFileError
from drylay.plan.model import SCHEMA_VERSION, Plan

OLD = Path(__file__).parent / "older" / "schema-1.json"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return drylay.plan_from_json(OLD.read_text(encoding="utf-8"))


def test_it_is_read_with_nothing_where_nothing_was_told(plan: Plan) -> None:
    assert plan.schema_version == SCHEMA_VERSION
    assert (plan.site, plan.groundwork, plan.work) == (None, None, None)
    assert plan.fixings.coach_screws.pilot_mm is None
    assert {line.unit for line in plan.buying.order} == {"pieces"}


def test_it_stands_before_the_audit_which_says_what_it_could_not_measure(plan: Plan) -> None:
    report = drylay.audit(plan)
    assert report.findings == ()
    because = " ".join(idle.because for idle in report.not_run)
    for part in ("work", "metals", "use classes"):
        assert part in because


def test_its_papers_tell_no_figure_that_nobody_knew(plan: Plan) -> None:
    papers = drylay.papers(plan)
    told = papers["summary.txt"].decode("utf-8") + papers["jobsheet.html"].decode("utf-8")
    assert "a pilot as their maker says" in " ".join(told.split())
    assert " 0 mm into" not in told
    assert "None" not in told


def test_it_may_be_compared_with_a_plan_of_today(plan: Plan) -> None:
    assert drylay.diff(plan, plan).empty
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    today = drylay.design(drylay.read_brief("docs/examples/garden.toml"), stock=stock)
    assert not drylay.diff(plan, today).empty


def test_a_damaged_file_of_the_first_schema_tells_its_faults() -> None:
    text = OLD.read_text(encoding="utf-8").replace('"deck_screws":', '"dek_screws":', 1)
    with pytest.raises(PlanFileError) as caught:
        drylay.plan_from_json(text)
    assert "fixings.deck_screws" in {fault.path for fault in caught.value.faults}
