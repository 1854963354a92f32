"""A merchant's answers call lengths as his decks are told: in feet where all of them are."""

from decimal import Decimal
from types import SimpleNamespace
from typing import Any

import pytest

import drylay
from compare.sheds import SHED
from compare.test_answers_attacked import breaks, holding, kept
from drylay.compare import (
    holding_chart,
    lengths_kept_chart,
    lengths_kept_told,
    price_breaks_chart,
)
from drylay.compare.merchant_asked import read_length
from drylay.compare.merchant_units import bought_called, length_called, lengths_called, units_of
from drylay.errors import Fault

MM = drylay.read_brief(SHED)
FEET = MM.replace("units", "imperial")


def test_feet_only_where_all_decks_are_told_in_them() -> None:
    assert units_of([FEET, FEET]) == "imperial"
    assert units_of([FEET, MM]) == units_of([MM]) == units_of([]) == "metric"


def test_sizes_of_decks_told_in_feet_are_too() -> None:
    """8 ft = 2438.4 mm, 10 ft = 3048; a metric deck among them, and all are in mm."""
    sold = ((2438.4, 5), (3048.0, 5), (3352.8, 7))
    rows = [{"cover.along_mm": mm, "total": Decimal(cost), "units": "imperial",
             "outcome": "planned"} for mm, cost in sold]  # fmt: skip
    told = str(drylay.cost_by_size(rows, "cover.along_mm"))
    assert "  8 ft to 10 ft  5\n  11 ft          7  2 more\n" in told
    rows += [{"cover.along_mm": 3400, "total": Decimal(8), "units": "metric", "outcome": "planned"}]
    assert "2438.4 to 3048 mm  5" in str(drylay.cost_by_size(rows, "cover.along_mm"))


def test_no_length_loses_its_end() -> None:
    """92 5/8 in are 2352.675 mm: seven digits, which once became 2352.68 in tables and faults."""
    long_mm = 92.625 * 25.4
    answer = kept()
    object.__setattr__(answer.choices[0], "lengths_mm", (long_mm,))
    object.__setattr__(answer.choices[0], "bought", ((long_mm, 9),))
    row = lengths_kept_told._row(answer, answer.choices[0])
    assert (row["lengths_mm"], row["bought"]) == ("2352.675", "9 x 2352.675")
    stud = SimpleNamespace(code="S", lengths=(SimpleNamespace(length_mm=long_mm),))
    wrong: list[Fault] = []
    read_length(stud, 2352, wrong)
    assert wrong[0].nearest == "2352.675"


def test_lengths_are_called_as_they_are_sold() -> None:
    """1 ft = 304.8 mm: 8 ft are 2438.4, 10 ft 3048."""
    assert length_called(2438.4, "imperial") == "8 ft"
    assert length_called(12192.25, "metric") == "12192.25 mm"
    assert lengths_called((2438.4, 3048.0), "imperial") == "8 ft, 10 ft"
    assert lengths_called((2400.0, 3000.0), "metric") == "2400, 3000 mm"
    assert bought_called(((2438.4, 3), (3048.0, 1)), "imperial") == "3 x 8 ft, 1 x 10 ft"
    assert bought_called(((2400.0, 3),), "metric") == "3 x 2400"
    assert bought_called((), "metric") == "none"


@pytest.mark.parametrize(("answer", "chart", "told"), [
    (kept(), lengths_kept_chart, "~7 ft 10 1/2 in"),
    (breaks(), price_breaks_chart, "~7 ft 10 1/2 in"),
    (holding(), holding_chart, "~17 ft 8 5/8 in"),
])  # fmt: skip
def test_texts_and_pictures_tell_them(answer: Any, chart: Any, told: str) -> None:
    """By hand: 2400 / 25.4 = 94.488 in, 7 ft 10.488; 5400 / 25.4 = 212.598 in, 17 ft 8.598."""
    text = {"metric": "", "imperial": ""}
    for units in text:
        object.__setattr__(answer, "units", units)
        text[units] = " ".join(f"{answer} {chart.svg_of(answer).decode()}".split())
    assert text["imperial"].count(told) > 1
    assert told not in text["metric"]
    assert " mm" not in text["imperial"].split("<svg")[0]
