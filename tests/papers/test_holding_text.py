"""What papers say of the fixings: every figure is the plan's own."""

import re

import pytest

import drylay
from audit.real import example, stock
from drylay.papers.holding_text import fixing_rows, holding_told
from drylay.plan.model import Plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return drylay.design(example("long-terrace"), stock=stock("hobbleden"))


def test_one_row_for_every_fixing(plan: Plan) -> None:
    fixings = plan.fixings
    assert fixings is not None
    rows = fixing_rows(plan)
    assert [row[0] for row in rows] == [f"{each.what} {each.article}" for each in fixings.metals]
    assert [row[6] for row in rows] == [each.metal for each in fixings.metals]
    counts = [fixings.deck_screws.count, fixings.coach_screws.count, fixings.frame_screws.count,
              fixings.fascia_screws.count, fixings.hangers.count,
              fixings.hangers.screw_count]  # fmt: skip
    assert [int(row[2]) for row in rows] == counts


def test_a_driver_that_the_stock_does_not_name_is_on_the_box(plan: Plan) -> None:
    drivers = {row[0].rpartition(" ")[0]: row[5] for row in fixing_rows(plan)}
    assert drivers["frame screws"] == "star 30"
    assert drivers["deck screws"] == "as marked on the box"


def test_every_place_is_told(plan: Plan) -> None:
    (places,) = (text for text in holding_told(plan) if text.startswith("Fascia is screwed"))
    told = sorted(float(number) for number in re.findall(r"(?<=[:,] )[\d.]+(?=[,;.])", places))
    assert told == sorted(p.offset_mm for p in plan.fixings.fascia_screws.places)


def test_the_job_sheet_holds_the_table(plan: Plan) -> None:
    sheet = drylay.papers(plan, only=["jobsheet.html"])["jobsheet.html"].decode()
    for row in fixing_rows(plan):
        assert row[0] in sheet
        assert row[6] in sheet
