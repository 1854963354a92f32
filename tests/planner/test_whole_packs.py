"""A deck from a stock that sells in whole packs, in batches, for so many days."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

import drylay
from drylay.materials.stock_model import Record

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
BRIEF = drylay.read_brief(ROOT / "docs" / "examples" / "garden.toml")


def packed(articles: tuple[Any, ...], pack: int) -> tuple[Any, ...]:
    """Return articles in packs; a limit in whole packs of them."""
    return tuple(
        evolve(
            article,
            lengths=tuple(
                evolve(each, pack=pack, limit=each.limit and each.limit // pack * pack)
                for each in article.lengths
            ),
        )
        for article in articles
    )


@pytest.fixture(scope="module")
def stock() -> drylay.Catalogue:
    return evolve(YARD, boards=packed(YARD.boards, 7), timbers=packed(YARD.timbers, 4))


@pytest.fixture(scope="module")
def plan(stock: drylay.Catalogue) -> drylay.Plan:
    return drylay.design(BRIEF, stock=stock)


def test_what_is_sold_in_packs_is_bought_in_whole_packs(plan: drylay.Plan) -> None:
    bought: dict[tuple[str, float], int] = {}
    for line in (*plan.buying.order, *plan.buying.spares):
        if line.length_mm is not None:
            size = (line.article, line.length_mm)
            bought[size] = bought.get(size, 0) + line.quantity
    packs = {"DB-28-145": 7, "FT-45-145": 4}
    assert {code for code, _ in bought} >= set(packs)
    for (code, length_mm), count in bought.items():
        assert count % packs.get(code, 1) == 0, (code, length_mm)
    sawn = [length for part in plan.buying.purchases for length in part.lengths]
    order = sum(line.quantity for line in plan.buying.order if line.length_mm is not None)
    assert order == len(sawn)


def test_what_is_sawn_costs_what_it_did_and_packs_stand_apart(plan: drylay.Plan) -> None:
    plain = drylay.design(BRIEF, stock=YARD)
    assert plan.buying.order_total == plain.buying.order_total
    assert plan.buying.spares_total > plain.buying.spares_total
    (told,) = [finding for finding in plan.findings if finding.code == "BUY-006"]
    more = sum(w.pack * w.packs - w.sawn - w.spare for w in plan.buying.whole_packs)
    assert more > 1
    assert told.message.startswith(f"{more} lengths more")
    assert [finding for finding in plain.findings if finding.code == "BUY-006"] == []


def test_the_audit_is_content_with_the_stock_and_not_with_another(
    plan: drylay.Plan, stock: drylay.Catalogue
) -> None:
    families = drylay.installed_families()
    report = drylay.audit(plan, brief=BRIEF, stock=stock, families=families)
    assert (report.sound, report.findings) == (True, ())
    report = drylay.audit(plan, brief=BRIEF, stock=YARD, families=families)
    assert "AUD-W29" in {finding.code for finding in report.findings}


def test_a_plan_with_packs_is_read_back_and_its_papers_tell_them(plan: drylay.Plan) -> None:
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
    summary = drylay.papers(plan, only=["summary.txt"])["summary.txt"].decode("utf-8")
    assert "sold in whole packs of 7" in " ".join(summary.split())
    assert drylay.papers(plan)  # every paper is made


def test_more_than_the_packs_left_is_not_planned_with(stock: drylay.Catalogue) -> None:
    boards = tuple(
        evolve(board, lengths=tuple(evolve(each, limit=7) for each in board.lengths))
        for board in stock.boards
    )
    plan = drylay.design(BRIEF, stock=evolve(stock, boards=boards))
    for whole in plan.buying.whole_packs if plan.buying else ():
        assert whole.article != "DB-28-145" or whole.packs == 1


def test_batches_and_days_of_what_is_bought_are_told() -> None:
    record = Record(batch="L7", note="x")
    boards = tuple(evolve(board, record=record) for board in YARD.boards)
    until = Record(sold_until=date(2027, 3, 31))
    timbers = tuple(evolve(timber, record=until) for timber in YARD.timbers)
    fascias = tuple(evolve(fascia, record=until) for fascia in YARD.fascias)
    sold = evolve(YARD, boards=boards, timbers=timbers, fascias=fascias)
    plan = drylay.design(BRIEF, stock=sold)
    assert [f.subject for f in plan.findings if f.code == "BUY-008"] == ["FT-45-145, FA-28-145"]
    told = {finding.code: finding for finding in plan.findings}
    assert told["BUY-007"].subject == "DB-28-145"
    assert told["BUY-007"].message.startswith("comes from batch L7: ask for that batch")
    assert told["BUY-008"].message.startswith("on sale at this price until 2027-03-31")
    assert plan.buildable


def test_the_order_tells_the_numbers_in_trade() -> None:
    one, *others = YARD.boards[0].lengths
    gtin = "6291041500213"
    lengths = (evolve(one, gtin="8904000210037"), *others)
    board = evolve(YARD.boards[0], lengths=lengths, record=Record(gtin=gtin))
    stock = evolve(YARD, boards=(board, *YARD.boards[1:]))
    plan = drylay.design(BRIEF, stock=stock)
    # only the shortest length has a number of its own
    numbers = {line.gtin for line in plan.buying.order if line.article == board.code}
    assert numbers == {gtin}
    assert {line.gtin for line in plan.buying.order if line.article != board.code} == {""}
    order = drylay.papers(plan, only=["order.csv"])["order.csv"].decode("utf-8")
    assert f",{board.code},{gtin}," in order
    families = drylay.installed_families()
    assert drylay.audit(plan, brief=BRIEF, stock=stock, families=families).findings == ()
    report = drylay.audit(plan, brief=BRIEF, stock=YARD, families=families)
    assert "AUD-W27" in {finding.code for finding in report.findings}
