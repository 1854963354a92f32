"""Mends under attack: what lay between the files of studies once each of them was mended."""

from collections.abc import Callable, Iterator
from decimal import Decimal, Inexact, localcontext
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import drylay
from compare.sheds import SHED, STOCK
from compare.study_made import noun
from compare.test_answers_attacked import words
from drylay.compare import pareto_chart, size_costs_chart
from drylay.compare.compared import compare
from drylay.compare.decks import YearTerms
from drylay.compare.merchant_model import KeptLengths, LengthsToKeep, PriceBreaks, PriceSpan
from drylay.compare.quantiles import sampled
from drylay.compare.rows_file import write_rows
from drylay.compare.sampled_lives import with_lives
from drylay.compare.study_file import read_study
from drylay.compare.study_model import Case, Row, SizeCosts, Uncertainty
from drylay.compare.study_row import MONEY, own_columns
from drylay.errors import InputError

BRIEF = drylay.read_brief(SHED)
ALONG = "cover.along_mm"


def planned(cases: object, **more: Any) -> Iterator[Row]:
    return compare(cases, **{"stock": STOCK, "mode": "quick", **more})  # type: ignore[arg-type]


# --- cases ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("more", [{}, {"executor": "threads", "workers": 1}])
@pytest.mark.parametrize("wrong", [3, ValueError("the caller's own")], ids=str)
def test_rows_before_a_case_that_is_none_are_told(wrong: Any, more: dict[str, Any]) -> None:
    """Once nothing was: cases are read ahead of the row that is asked for."""
    from concurrent.futures import ThreadPoolExecutor

    more = {**more, "executor": ThreadPoolExecutor} if more else {}

    def cases() -> Iterator[Any]:
        yield BRIEF
        yield BRIEF.replace(ALONG, 1800)
        if isinstance(wrong, Exception):
            raise wrong
        yield wrong

    told: list[Row] = []
    with pytest.raises((InputError, ValueError), match=r"cases\[2\]: found 3|the caller's own"):
        told.extend(planned(cases(), **more))
    assert [row["cover_along_mm"] for row in told] == [2450, 1800]


def test_no_case_is_made_before_its_row_is_asked_for() -> None:
    made: list[int] = []

    def cases() -> Iterator[Any]:
        for along_mm in (1800, 1920, 2040):
            made.append(along_mm)
            yield BRIEF.replace(ALONG, along_mm)

    assert next(planned(cases()))["cover_along_mm"] == 1800
    assert made == [1800]


@pytest.mark.parametrize("kind", [set, frozenset])
def test_cases_without_an_order_are_a_fault(kind: Callable[..., Any]) -> None:
    """Their rows would stand in another order each time: texts hash otherwise in each process."""
    with pytest.raises(InputError, match=f"cases: found {kind.__name__}, wanted cases"):
        planned(kind([BRIEF, BRIEF.replace(ALONG, 1800)]))


@pytest.mark.parametrize("made", [
    {"changes": ((ALONG, 1800),), "named": ((ALONG, "wide"),)},
    {"changes": (("title", "A"),), "named": (("brief.title", "B"),)},
    {"named": (("made_of", "oak"), ("made_of", "pine"))},
])  # fmt: skip
def test_a_word_for_a_row_hides_nothing_that_was_put_in(made: dict[str, Any]) -> None:
    """Once the row told the word, and nothing told what was built."""
    with pytest.raises(InputError, match=r"cases\[0\]\.named: found .* wanted a name of its own"):
        list(planned([Case(brief=BRIEF, **made)]))


def test_money_is_counted_the_same_whatever_the_caller_counts_with() -> None:
    """A thread may have set decimals of its own; a worker's are those of Python."""
    (wanted,) = planned(BRIEF)
    with localcontext() as own:
        own.prec, own.traps[Inexact] = 4, True
        assert list(planned(BRIEF)) == [wanted]


def test_a_year_of_a_sample_is_counted_the_same_whatever_the_caller_counts_with() -> None:
    """Once it was rounded to the caller's places, and down: 116.08 to 116."""
    (row,) = planned(BRIEF)
    terms = YearTerms(rate_ratio=0.0, hour_price=None, digits=2)
    drawn = {"life.boards": 2, "life.frame": 2}
    wanted = with_lives(row, drawn, terms)
    with localcontext() as own:
        own.prec = 3
        assert with_lives(row, drawn, terms) == wanted


def test_a_span_may_be_of_numbers_of_numpy() -> None:
    span = {"from": np.float64(1800), "to": np.int64(1900), "by": np.float64(50)}
    study = {"title": "A study", "brief": SHED, "stock": STOCK, "vary": {ALONG: span}}
    assert [case.changes[0][1] for case in read_study(study).cases] == [1800.0, 1850.0, 1900.0]


# --- files ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("ending", ["csv", "jsonl"])
def test_what_keeps_rows_from_coming_is_not_told_of_their_file(ending: str, tmp_path: Path) -> None:
    """Once a full journal, or a file of the caller's own, was told as a fault of the rows' file."""

    def rows() -> Iterator[Row]:
        yield {"a": 1}
        (tmp_path / "none.csv").read_text()

    with pytest.raises(FileNotFoundError, match=r"none\.csv"):
        write_rows(rows(), tmp_path / f"rows.{ending}")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("ending", ["csv", "jsonl"])
@pytest.mark.parametrize("figure", [10**5000, Decimal("1E-5000000"), Decimal("1E+500")], ids=type)
def test_a_figure_without_end_is_a_fault_of_its_row(
    figure: Any, ending: str, tmp_path: Path
) -> None:
    with pytest.raises(InputError, match=r"rows\[0\]\.a: found"):
        write_rows([{"a": figure}], tmp_path / f"rows.{ending}")


def test_a_row_without_columns_is_no_head_of_a_table(tmp_path: Path) -> None:
    """Once the first row with columns was written beneath a head that has none."""
    rows: list[Row] = [{}, {"a": 1}]
    with pytest.raises(InputError, match="columns more: a"):
        write_rows(rows, tmp_path / "rows.jsonl")
    with pytest.raises(InputError, match="rows: found no column"):
        write_rows([{}], tmp_path / "rows.csv")


# --- what a size costs ----------------------------------------------------------------------------


def sizes(*costs: int | None, outcome: str = "planned") -> SizeCosts:
    rows: list[Row] = [
        {"x_mm": at, "total": None if cost is None else Decimal(cost), "outcome": outcome}
        for at, cost in enumerate(costs)
    ]
    return drylay.cost_by_size(rows, "x_mm")


@pytest.mark.parametrize(("costs", "told"), [
    ((10, None, 20), "changes only across sizes without a cost, and no step is told there."),
    ((10, None, 10), "never changes."), ((None, None), "is known of no size."),
])  # fmt: skip
def test_a_cost_that_changes_across_a_gap_is_not_said_never_to_change(
    costs: tuple[int | None, ...], told: str
) -> None:
    """Once it never changed, and cost 10 and 20 in the lines below."""
    found = sizes(*costs)
    assert f"It {told}" in " ".join(str(found).split())
    assert f"No step: the cost {told}" in words(size_costs_chart.svg_of(found))


def test_a_deck_of_unknown_cost_is_not_said_not_to_be_built() -> None:
    """A figure over the years may be unknown of decks that can well be built."""
    said = words(size_costs_chart.svg_of(sizes(10, None)))
    assert "no cost: it cannot be built at that size, or what it costs is not known." in said


# --- samples --------------------------------------------------------------------------------------


@pytest.mark.parametrize("order", [1, -1])
def test_money_and_a_count_that_come_to_the_same_are_not_told_as_one(order: int) -> None:
    """A gap of 0.00 and 0 joints are equal numbers: joints were told in pounds, the gap in none."""
    figures = [sampled("gap", [Decimal("0.00")] * 2, (0.5,)), sampled("joints", [0, 0], (0.5,))]
    rows: tuple[Row, ...] = ({"outcome": "planned", "codes": "", "mode": "quick"},) * 2
    told = str(noun(Uncertainty, title="Shed", currency="GBP", samples=2, seed=1, blocked=0,
                    figures=tuple(figures[::order]), rows=rows, assumed=()))  # fmt: skip
    assert "gap, GBP\n  in 1 of 2 samples no more than 0.00" in told
    assert "joints\n  in 1 of 2 samples no more than 0\n" in told


# --- lengths to keep ------------------------------------------------------------------------------


def test_decks_built_otherwise_are_told_once_with_the_lengths_that_are_kept() -> None:
    """At most three may be kept, and a third spares nothing: two are, and were told twice."""
    choices = tuple(
        noun(KeptLengths, count=count, lengths_mm=(2400.0, 3000.0), bought=(), otherwise=("Step",))
        for count in (2, 3)
    )
    told = str(noun(LengthsToKeep, article="DB", currency="GBP", decks=(("Step", 1),),
                    on_sale_mm=(2400.0, 3000.0, 3600.0), choices=choices, cannot=()))  # fmt: skip
    assert told.count("would be built otherwise") == 1
    assert "With 2 lengths kept" in " ".join(told.split())


# --- price breaks ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("names", "told"), [(("one", "two"), True), (("one", "one"), False)])
def test_which_of_several_decks_is_cheapest_is_said_to_go_by_the_whole_order(
    names: tuple[str, str], told: bool
) -> None:
    """Once the text said that what is sawn is the cheapest, of decks too: theirs is the order."""
    spans = tuple(noun(PriceSpan, name=name, bought=()) for name in names)
    text = str(noun(PriceBreaks, article="DB", length_mm=3000.0, currency="GBP", spans=spans))
    assert ("Of several decks the cheapest" in " ".join(text.split())) is told


# --- one file, two writers ------------------------------------------------------------------------


def test_two_that_write_one_file_do_not_mix_their_rows(tmp_path: Path) -> None:
    """Once the second's file took its place, and the first's rows went on beneath it."""
    pytest.importorskip("fcntl")  # elsewhere files are not kept apart
    path = tmp_path / "rows.csv"

    def rows() -> Iterator[Row]:
        yield {"a": 1}
        with pytest.raises(InputError, match=r"rows\.csv: path: found another that writes it"):
            write_rows([{"a": 8}, {"a": 9}], path)
        yield {"a": 2}

    assert write_rows(rows(), path) == 2
    assert path.read_bytes() == b"a\r\n1\r\n2\r\n"
    assert list(tmp_path.iterdir()) == [path]
    assert write_rows([{"a": 3}], path) == 1


# --- rows that come of a file ---------------------------------------------------------------------


def test_which_figures_are_money_is_known_by_name() -> None:
    """The names of a planned row's Decimals; of what this deck does not buy, names like theirs."""
    (row,) = planned(BRIEF, hour_price="12.50")
    held = {name for name, figure in row.items() if isinstance(figure, Decimal)}
    assert held == MONEY - {"fabric_cost", "fascia_cost"}
    assert {name for name in own_columns() if name.endswith(("_cost", "_outlay"))} <= MONEY


def test_counts_that_come_of_a_file_are_no_money() -> None:
    """Once a picture told cuts, joints and ratios in pounds: the page's own way to read rows back
    makes Decimals of all numbers."""
    rows: list[Row] = [
        {"case": at, "joints.most_per_row": Decimal(at), "stock.price_ratio": Decimal("1.1"),
         "outcome": "planned", "currency": "GBP", "total": Decimal(9 - at), "cuts": Decimal(at)}
        for at in (1, 2)
    ]  # fmt: skip
    aims = {"total": "least", "cuts": "least", "stock.price_ratio": "most"}
    said = words(pareto_chart.svg_of(drylay.pareto(rows, aims)))
    for part in ("first cost, GBP (", "cuts (", "stock price ratio (", "joints most per row 1;",
                 "first cost 8 GBP, cuts 1, stock price ratio 1.1"):  # fmt: skip
        assert part in said
    with pytest.raises(InputError, match=r"cuts: found 1, .*wanted money"):
        drylay.cost_by_size([{**row, "x_mm": 5} for row in rows], "x_mm", cost="cuts")
