"""Readings: what a builder types is read whole, and every fault of it is told with its place."""

from pathlib import Path

import pytest

from drylay.correcting.model import ALL, EdgeReading
from drylay.correcting.reader import read_readings
from drylay.errors import InputError

GOOD = """
[[reading]]
row = 5
edge_left = "74.5 cm"
edge_right_mm = 746
date = "3 May"
widths_mm = [145.5, 146]
target_right = "3.044 m"
cut = ["B6.1", "B6.2", "B6.1"]

[[reading]]
row = 10
edge_left_mm = 1495
edge_right_mm = 1496
cut = true
"""


def test_a_file_is_read(tmp_path: Path) -> None:
    path = tmp_path / "readings.toml"
    path.write_text(GOOD, encoding="utf-8")
    first, second = read_readings(path)
    assert first == EdgeReading(
        rows_laid=5, left_mm=745.0, right_mm=746.0, date="3 May", widths_mm=(145.5, 146.0),
        target_right_mm=3044.0, cut=("B6.1", "B6.2"),
    )  # fmt: skip
    assert second.cut == ALL


BAD = {
    "no reading": ("", {"reading"}),
    "another table": (f"{GOOD}\n[readings]\nrow = 1", {"readings"}),
    "all keys left out": ("[[reading]]", {"reading[0].row", "reading[0].edge_left_mm",
                                          "reading[0].edge_right_mm"}),
    "rows that do not rise": (GOOD.replace("row = 10", "row = 5"), {"reading[1].row"}),
    "a width without its unit": (GOOD.replace('"74.5 cm"', '"74.5"'), {"reading[0].edge_left"}),
    "marks that are none": (GOOD.replace("true", "3"), {"reading[1].cut"}),
    "an empty list": (GOOD.replace("true", "[]"), {"reading[1].cut"}),
    "an unknown key": (GOOD.replace("date", "day"), {"reading[0].day"}),
    "no table": ("reading = [3]", {"reading[0]"}),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_every_fault_is_told_with_its_place(name: str) -> None:
    text, paths = BAD[name]
    with pytest.raises(InputError) as caught:
        read_readings(text.encode())  # type: ignore[arg-type]
    assert {fault.path for fault in caught.value.faults} == paths


def test_a_file_that_is_not_there_is_told() -> None:
    with pytest.raises(InputError, match="nowhere"):
        read_readings("nowhere.toml")
