"""Rows as files: what is read back by others' readers is what was written."""

import csv
import json
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compare.sheds import study
from drylay.compare.rows_file import write_rows
from drylay.errors import InputError

NAMES = ("case", "made_of", "total", "gap", "ok", "m2")
ROWS = [
    dict(zip(NAMES, (0, 'oak, "old"', Decimal("10.50"), None, True, 0.1), strict=True)),
    dict(zip(NAMES, (1, "=HYPERLINK(1)", Decimal(-3), 2.5e-07, False, 1e22), strict=True)),
]


def test_json_lines_keep_money_digit_for_digit(tmp_path: Path) -> None:
    path = tmp_path / "rows.jsonl"
    assert write_rows(iter(ROWS), path) == 2
    read = [json.loads(line, parse_float=Decimal) for line in path.read_text().splitlines()]
    assert [list(row) for row in read] == [list(row) for row in ROWS]
    assert str(read[0]["total"]) == "10.50"
    assert [float(row["m2"]) for row in read] == [0.1, 1e22]
    assert (read[0]["ok"], read[0]["gap"], read[1]["made_of"]) == (True, None, "=HYPERLINK(1)")


def test_csv_has_one_head_and_what_a_reader_takes(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"
    write_rows(ROWS, path)
    with path.open(newline="", encoding="utf-8") as stream:
        read = list(csv.DictReader(stream))
    assert [row["made_of"] for row in read] == ['oak, "old"', "'=HYPERLINK(1)"]
    assert [row["total"] for row in read] == ["10.50", "-3"]
    assert [row["ok"] for row in read] == ["true", "false"]
    assert [row["gap"] for row in read] == ["", "0.00000025"]


@given(names=st.lists(st.text(min_size=1), min_size=1, unique=True), count=st.integers(1, 5))
def test_any_names_come_back(
    names: list[str], count: int, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("rows") / "rows.jsonl"
    write_rows([dict.fromkeys(names, 1)] * count, path)
    lines = path.read_text().splitlines()
    assert [json.loads(line) for line in lines] == [dict.fromkeys(names, 1)] * count


def test_a_study_goes_into_a_file_whole(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"
    assert write_rows(study(), path) == 15
    with path.open(newline="", encoding="utf-8") as stream:
        read = list(csv.DictReader(stream))
    assert [row["outcome"] for row in read].count("blocked") == 2
    assert [each.name for each in tmp_path.iterdir()] == ["rows.csv"]


@pytest.mark.parametrize(
    ("rows", "name", "wanted"),
    [
        (ROWS, "rows.xlsx", "ends in .csv or .jsonl"),
        ([], "rows.csv", "wanted rows"),
        ([ROWS[0], {"case": 1}], "rows.csv", r"rows\[1\]: found columns more: none; less: made_of"),
        ([ROWS[0], dict(reversed(ROWS[1].items()))], "rows.csv", "in another order"),
        (ROWS, "none/rows.csv", "a file that can be written"),
    ],
)
def test_what_cannot_be_written_is_told_and_nothing_is_left(
    rows: list[dict[str, object]], name: str, wanted: str, tmp_path: Path
) -> None:
    (tmp_path / "rows.csv").write_text("old")
    with pytest.raises(InputError, match=wanted):
        write_rows(rows, tmp_path / name)
    assert [(each.name, each.read_text()) for each in tmp_path.iterdir()] == [("rows.csv", "old")]
