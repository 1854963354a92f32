"""Studies planned here: rows agree with whole designs; whatever becomes of a case is a row."""

import json
import threading
from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal
from math import ceil
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

import drylay
from compare.killers import one_rule
from compare.sheds import SHED, STOCK, cases, study
from drylay.compare import worker
from drylay.compare.cases import vary
from drylay.compare.compared import compare
from drylay.compare.study_model import OUTCOMES, Case, Row
from drylay.compare.study_row import WORDS, own_columns
from drylay.errors import Cancelled, InputError
from drylay.findings import Finding
from drylay.plan.model import Plan

BRIEF = drylay.read_brief(SHED)
ALONG, ACROSS = "cover.along_mm", "cover.across_mm"


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    return list(study())


def test_the_study_of_these_tests_has_what_they_are_about(rows: list[Row]) -> None:
    assert [row["case"] for row in rows] == list(range(15))
    assert [row["outcome"] for row in rows] == [
        *["planned", "planned", "refused"] * 3, "blocked", "blocked", "refused",
        "planned", "planned", "refused",
    ]  # fmt: skip


def test_a_row_has_the_figures_of_a_whole_design(rows: list[Row]) -> None:
    # proven: whatever `design` finds, found by another way of going about it
    for row in (rows[0], rows[9]):
        brief = BRIEF.replace(ALONG, row[ALONG]).replace(ACROSS, row[ACROSS])
        plan = drylay.design(brief, stock=STOCK)
        (proven,) = compare(brief, stock=STOCK)
        told = plan.measures()
        assert {name: proven[name] for name in told} == told
        assert (proven["brief_digest"], proven["stock_digest"]) == (
            plan.digests.brief,
            plan.digests.stock,
        )


def test_years_are_those_of_the_comparison_of_families() -> None:
    (row,) = compare(BRIEF, stock=STOCK, rate_ratio=0.04, hour_price="25")
    compared = drylay.across_families(BRIEF, {"as it is": {}}, stock=STOCK, rate_ratio=0.04,
                                      hour_price="25")  # fmt: skip
    (told,) = compared.measures()
    own = {"name", "first_cost", "surface_cost", "frame_cost", "mass_kg", "families"}
    assert {name: row[name] for name in told if name not in own} == {
        name: told[name] for name in told if name not in own
    }
    assert (row["total"], row["surface_outlay"], row["frame_outlay"], row["delivery_kg"]) == (
        told["first_cost"], told["surface_cost"], told["frame_cost"], told["mass_kg"],
    )  # fmt: skip


def test_all_rows_have_the_same_names_and_flat_values(rows: list[Row]) -> None:
    first = ("case", ALONG, ACROSS, "outcome", "codes", "told")
    for row in rows:
        assert tuple(row) == tuple(rows[0])
        assert tuple(row)[:6] == first
        assert set(row) - {ALONG, ACROSS} == own_columns()
        assert all(isinstance(value, str | int | float | Decimal | None) for value in row.values())
        assert row["outcome"] in OUTCOMES
        assert row["buildable"] is (row["outcome"] == "planned")


def test_no_name_of_a_measure_is_taken_twice() -> None:
    """A figure over the years must not stand where one of the plan's stood."""
    from drylay.compare.study_row import RESTS_ON, _nothing, _over_years

    names = [*_nothing(), *_over_years(None), *RESTS_ON, "case"]
    assert len(names) == len(set(names))


def test_what_cannot_be_planned_says_why(rows: list[Row]) -> None:
    blocked, refused = rows[9], rows[2]
    assert blocked["codes"] == blocked["stop_codes"]
    assert blocked["codes"] != ""
    assert str(blocked["codes"]).split()[0] in str(blocked["told"])
    assert (refused["codes"], refused["total"], refused["brief_digest"]) == (ACROSS, None, "")
    assert "found -1" in str(refused["told"])
    assert refused["stock_digest"] == rows[0]["stock_digest"]
    assert len({row["case_digest"] for row in rows}) == len(rows)


def test_a_stock_is_changed_by_its_paths() -> None:
    values = {"stock.price_ratio": [None, 1, 1.5], "stock.without.DB-28-145": [None, 3600]}
    rows = list(compare(vary(BRIEF, values), stock=STOCK, mode="quick"))
    assert [row["outcome"] for row in rows] == ["planned"] * 6
    assert rows[0]["total"] == rows[2]["total"]
    assert rows[0]["stock_digest"] == rows[2]["stock_digest"] != rows[4]["stock_digest"]
    half_more = Decimal(str(rows[0]["total"])) * Decimal("1.5")
    bought = 20  # no order of this deck has more lines; each may be rounded up by a penny a piece
    assert half_more <= Decimal(str(rows[4]["total"])) <= half_more + bought
    alone = drylay.design(BRIEF, stock=STOCK.without("DB-28-145", length_mm=3600))
    assert rows[1]["total"] == alone.measures()["total"]


def test_a_ratio_of_a_price_is_rounded_up_to_the_coin() -> None:
    (row,) = compare(vary(BRIEF, {"stock.price_ratio.DB-28-145": [101]}), stock=STOCK)
    assert (row["outcome"], row["codes"]) == ("refused", "stock.price_ratio.DB-28-145")
    from drylay.compare.shelf import shelf_of

    shelf = shelf_of(STOCK, [("stock.price_ratio.DB-28-145", 1.001)])
    pairs = zip(_lengths(STOCK), _lengths(shelf), strict=True)
    for before, after in pairs:  # a thousandth of each whole 10.00 is a penny
        assert after == before + Decimal("0.01") * ceil(before / 10)


def _lengths(stock: drylay.Catalogue) -> list[Decimal]:
    board = next(board for board in stock.boards if board.code == "DB-28-145")
    return [length.price for length in board.lengths]


def test_columns_of_words_are_told_apart_from_figures(rows: list[Row]) -> None:
    told = {name for row in rows for name, value in row.items() if isinstance(value, str)}
    assert told & own_columns() <= WORDS <= own_columns()
    assert not any(isinstance(row[name], int | float | Decimal) for row in rows for name in WORDS)


def test_codes_that_the_stock_does_not_hold_are_told_before_anything_is_planned() -> None:
    made_of = {"one": {"stock.without.DB-28-154": 3600}}
    values = {"stock.price_ratio.DB-28-14": [1], "made_of": made_of}
    with pytest.raises(InputError) as told:
        compare(vary(BRIEF, values), stock=STOCK, mode="slow", workers=0, rate_ratio=4,
                executor=3)  # type: ignore[arg-type]  # fmt: skip
    assert [fault.path for fault in told.value.faults] == [
        "rate_ratio", "stock.price_ratio.DB-28-14", "stock.without.DB-28-154", "mode", "executor",
        "workers",
    ]  # fmt: skip
    assert "DB-28-145" in told.value.faults[1].nearest


@pytest.mark.parametrize("given", [3, "garden.toml", {"title": "a deck"}])
def test_what_is_no_case_is_refused_at_once(given: Any) -> None:
    with pytest.raises(InputError, match="cases: found"):
        compare(given, stock=STOCK)
    with pytest.raises(InputError, match=r"cases\[1\]: found"):
        list(compare([BRIEF, given], stock=STOCK, mode="quick"))


def _raise(_plan: Plan) -> tuple[Finding, ...]:
    raise ValueError("a rule at 0x7f3a2b1c9d10 fell over")


def test_whatever_is_raised_is_a_row(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(worker, "glance", lambda _look, _brief: _raise(None))  # type: ignore[arg-type]
    (row,) = compare(BRIEF, stock=STOCK)
    assert (row["outcome"], row["codes"]) == ("failed", "ValueError")
    assert row["told"] == "ValueError: a rule at 0x... fell over"


def test_a_plan_that_the_audit_stops_is_no_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    def moved(look: Any, brief: Any) -> Plan:
        plan = glance(look, brief)
        first, second, *rest = plan.frame.joists
        joists = (first, evolve(second, offset_mm=second.offset_mm + 20), *rest)
        return evolve(plan, frame=evolve(plan.frame, joists=joists))

    glance: Any = worker.glance
    monkeypatch.setattr(worker, "glance", moved)
    (row,) = compare(BRIEF, stock=STOCK)
    assert row["outcome"] == "failed"
    assert str(row["codes"]).startswith("AUD-")
    assert row["total"] is None


def test_threads_of_an_executor_give_the_same_rows(rows: list[Row]) -> None:
    with ThreadPoolExecutor(2) as pool:
        assert list(study(executor=pool, workers=2)) == rows
        assert pool.submit(int, "3").result() == 3  # it is not ours to end


def test_a_study_is_cancelled_between_cases(rows: list[Row]) -> None:
    stop = threading.Event()
    for executor in (None, lambda: ThreadPoolExecutor(1)):
        stop.clear()
        told = study(cancel=stop, executor=executor, workers=1)
        assert next(told) == rows[0]
        stop.set()
        with pytest.raises(Cancelled):
            list(told)


def test_progress_counts_every_row() -> None:
    seen: list[tuple[str, int, int]] = []
    list(study(progress=lambda *told: seen.append(told)))
    assert seen == [("planned", done, 15) for done in range(1, 16)]
    seen.clear()
    list(compare(iter([BRIEF, Case(brief=BRIEF)]), stock=STOCK, mode="quick",
                 progress=lambda *told: seen.append(told)))  # fmt: skip
    assert seen == [("planned", 1, 0), ("planned", 2, 0)]


def test_what_no_worker_can_be_sent_is_told() -> None:
    with ThreadPoolExecutor(1) as pool, pytest.raises(InputError, match="cannot be sent"):
        list(study(executor=pool, local_rules=one_rule(lambda _plan: ())))


def test_cases_written_by_hand_share_their_columns() -> None:
    hand = [BRIEF, Case(brief=BRIEF, changes=((ALONG, 2000),)),
            Case(brief=BRIEF, changes=((ACROSS, 900),), named=(("by", "hand"),))]  # fmt: skip
    rows = list(compare(hand, stock=STOCK, mode="quick"))
    assert [(row[ALONG], row[ACROSS], row["by"]) for row in rows] == [
        (None, None, None), (2000, None, None), (None, 900, "hand"),
    ]  # fmt: skip
    assert {tuple(row) for row in rows} == {tuple(rows[0])}


def test_lists_and_tables_are_text_in_a_row() -> None:
    (row,) = compare(vary(BRIEF, {"cutting": [{"kerf_mm": 3}]}), stock=STOCK, mode="quick")
    assert json.loads(str(row["cutting"])) == {"kerf_mm": 3}
    assert row["outcome"] == "planned"


def test_other_releases_in_a_worker_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    from drylay.compare.study_errors import StudyStopped

    with ThreadPoolExecutor(1) as pool:
        told = study(executor=pool, workers=1)
        monkeypatch.setattr(worker, "own_version", lambda: "9.9.9")
        with pytest.raises(StudyStopped, match=r"a worker has \('9\.9\.9'"):
            list(told)


def test_money_and_journal_do_not_change_a_row(rows: list[Row], tmp_path: Path) -> None:
    journal = tmp_path / "run.jsonl"
    assert list(study(journal=journal)) == rows
    assert list(study(journal=journal)) == rows
    assert len(journal.read_text().splitlines()) == len(rows)


def test_a_deck_told_twice_is_planned_twice_and_journalled_once(tmp_path: Path) -> None:
    journal = tmp_path / "run.jsonl"
    twice = [*cases()[:2], *cases()[:2]]
    rows = list(compare(twice, stock=STOCK, mode="quick", journal=journal))
    assert [row["case"] for row in rows] == [0, 1, 2, 3]
    assert {**rows[0], "case": 2} == rows[2]
    assert len(journal.read_text().splitlines()) == 2
