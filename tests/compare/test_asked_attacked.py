"""Under attack: questions of study files about decks, and what is told of them."""

from decimal import Decimal
from typing import Any

import pytest

import drylay
from compare.sheds import STOCK
from compare.study_made import noun
from compare.test_study_decks import STEP
from drylay.compare.merchant_model import KeptLengths, LengthsToKeep
from drylay.compare.study_answers import check_questions
from drylay.compare.study_file import read_study
from drylay.compare.study_plan import Study
from drylay.errors import InputError

HOLDING = {"what": "holding_prices"}
SPREADS = {"life.boards": "family", "stock.price_ratio": [0.9, 1.1]}


def asked(vary: dict[str, Any], *ask: dict[str, Any]) -> Study:
    varied = {"vary": vary} if vary else {}
    return read_study({"title": "x", "brief": STEP, "stock": STOCK, "ask": list(ask), **varied})


@pytest.mark.parametrize(("each", "cost", "count"), [
    (2400.0, "5000.00", 500),
    (4812.5, "1234567.00", 12345),
    (10000.5, "123456789012.00", 500_000),
], ids=["a few decks", "hundreds", "as many as may be"])  # fmt: skip
def test_a_table_of_lengths_is_no_wider_than_its_page(each: float, cost: str, count: int) -> None:
    """Once three lengths stood in a line however long they are told: 79 columns of 500 boards."""
    lengths_mm = tuple(each + at for at in range(7))
    money = Decimal(cost)
    choice = noun(
        KeptLengths, count=7, lengths_mm=lengths_mm, bought=tuple((mm, count) for mm in lengths_mm),
        cost=money, apart=money,
    )  # fmt: skip
    text = str(noun(LengthsToKeep, article="DB", currency="GBP", on_sale_mm=lengths_mm,
                    decks=(), choices=(choice,), cannot=()))  # fmt: skip
    assert max(map(len, text.splitlines())) <= 78
    assert all(f"{count} x {mm:g}" in text for mm in lengths_mm)


@pytest.mark.parametrize(("vary", "ask", "path"), [
    ({"cover": {}, "board.run": ["along"]}, HOLDING, r"vary\.cover"),
    ({"stock": {"without": {}}, "board.run": ["along"]}, HOLDING, r"vary\.stock\.without\.\w+"),
    ({"board.run": ["along"]}, {**HOLDING, "where": {"cover": {}}}, r"ask\[0\]\.where\.cover"),
    ({}, {"what": "uncertainty", "spreads": {**SPREADS, "life": {}}}, r"ask\[0\]\.spreads\.life"),
], ids=["vary", "stock", "where", "spreads"])  # fmt: skip
def test_a_section_without_a_key_is_a_fault(
    vary: dict[str, Any], ask: dict[str, Any], path: str
) -> None:
    """Once `where.cover = {}` chose every deck, without a word."""
    with pytest.raises(InputError, match=rf"{path}: found "):
        asked(vary, ask)


def test_what_is_drawn_is_told_once() -> None:
    """Once the later of two hid the other."""
    twice = {"stock.price_ratio": [0.9, 1.1], "stock": {"price_ratio": [0.5, 2.0]}}
    with pytest.raises(InputError, match=r"ask\[0\]\.spreads\.stock\.price_ratio: found the path"):
        asked({}, {"what": "uncertainty", "spreads": twice})


@pytest.mark.parametrize("section", ["x", 3, [1], True])
def test_a_section_that_takes_no_key_is_a_fault_of_the_deck(section: Any) -> None:
    """Once reading the file raised AttributeError, and a row of it was "failed"."""
    vary = {"joints": [section], "joints.most_per_row": [0]}
    with pytest.raises(InputError, match=r"ask\[0\]\.where, case 0, joints: found "):
        asked(vary, HOLDING)
    (row,) = drylay.compare(drylay.vary(drylay.read_brief(STEP), vary), stock=STOCK)
    assert (row["outcome"], row["codes"]) == ("refused", "joints")


def test_the_bar_stands_still_while_questions_are_checked() -> None:
    """Once it told of decks planned, before any was."""
    lengths = {"what": "lengths_to_keep", "article": "DB-28-145"}
    drawn = {"what": "uncertainty", "samples": 2, "spreads": SPREADS}
    study = asked({"cover.along_mm": [2350, 2950]}, HOLDING, lengths, drawn)
    seen: list[object] = []
    check_questions(study, progress=lambda *told: seen.append(told))
    assert seen == []


@pytest.mark.parametrize(("ask", "path"), [
    ({"what": "uncertainty", "spreads": SPREADS, "of": ["total", "told"]}, r"of: found .told."),
    ({"what": "uncertainty", "spreads": SPREADS, "of": ["buildable"]}, r"of: found .buildable."),
    ({"what": "uncertainty", "spreads": SPREADS, "of": "total"}, r"of: found .total., wanted a li"),
    ({"what": "uncertainty", "spreads": SPREADS, "ratios": [0.5, 2]}, r"ratios: found 2"),
    ({"what": "side_by_side", "by": "board.run", "of": ["buildable"]}, r"of: found .buildable."),
    ({"what": "pareto", "aims": {"total": "least", "board.run": "most"}}, r"aims\.board\.run: fo"),
    ({"what": "pareto", "aims": {"total": "least", "buildable": "most"}}, r"aims\.buildable: fou"),
])  # fmt: skip
def test_what_no_figure_can_come_of_is_told_as_the_file_is_read(
    ask: dict[str, Any], path: str
) -> None:
    """Once `buildable`, yes or no, was told after the last deck was planned."""
    with pytest.raises(InputError, match=rf"ask\[0\]\.{path}"):
        asked({"cover.along_mm": [2350], "board.run": ["along", "across"]}, ask)
