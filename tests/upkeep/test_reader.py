"""Lists that people write: every fault with its place, nothing guessed."""

from pathlib import Path

import pytest

from drylay.upkeep.reader import FactorsError, OldBoardsError, read_factors, read_old_boards
from drylay.upkeep.stock_model import OldBoard

BOARDS = b"""
[[boards]]
mark = "A"
length = "3.6 m"
width_mm = 145
thickness_mm = 28
count = 4
first_hole_mm = 40
holes_apart_mm = 400
treatment = "copper"

[[boards]]
mark = "B"
length_mm = 2000
width_mm = 145
thickness_mm = 28
holes = ["40 mm", "1.2 m"]
"""
CSV = """mark,count,length,length_mm,width_mm,thickness_mm,holes_mm,treatment
A,4,3.6 m,,145,28,40 440,copper
B,,,2000,145,28,,none
"""
SAYS = 'source = { kind = "handbook", title = "a table (invented)" }'
FACTORS = b"""
[[factors]]
material = "treated timber"
per = "kg"
least_kg = 0.3
most_kg = 0.7
source = { kind = "handbook", title = "a table (invented)" }
"""


def test_boards_are_read_with_their_even_holes_placed() -> None:
    one, other = read_old_boards(BOARDS)
    assert one.holes_mm == (40.0, 440.0, 840.0, 1240.0, 1640.0, 2040.0, 2440.0, 2840.0, 3240.0)
    assert (one.length_mm, one.count, one.holes_apart_mm, one.treatment) == (
        3600.0, 4, 400.0, "copper",
    )  # fmt: skip
    assert (other.holes_mm, other.count, other.treatment) == ((40.0, 1200.0), 1, "not known")


def test_a_spreadsheet_saved_as_csv_is_read(tmp_path: Path) -> None:
    path = tmp_path / "old.csv"
    path.write_text(CSV, encoding="utf-8-sig")
    common = {"width_mm": 145.0, "thickness_mm": 28.0}
    assert read_old_boards(path) == (
        OldBoard(mark="A", length_mm=3600.0, count=4, holes_mm=(40.0, 440.0), treatment="copper",
                 **common),
        OldBoard(mark="B", length_mm=2000.0, treatment="none", **common),
    )  # fmt: skip


def test_faults_of_a_csv_name_their_line(tmp_path: Path) -> None:
    path = tmp_path / "old.CSV"
    path.write_text("mark,length_mm,width_mm,thickness_mm,colour\nA,3600,145,28,\nB,x,145,28,red\n")
    with pytest.raises(OldBoardsError) as caught:
        read_old_boards(path)
    told = {(fault.path, fault.line) for fault in caught.value.faults}
    assert told == {("boards[1].length_mm", 3), ("boards[1].colour", 3)}


@pytest.mark.parametrize(
    ("change", "wanted"),
    [(("length = \"3.6 m\"", "length_mm = 3.6"), 'length = "3.6 m"'),
     (("width_mm = 145", "width_mm = true"), "width_mm"),
     (("mark = \"A\"", ""), "boards[0].mark"),
     (("holes_apart_mm = 400", ""), "how far apart"),
     (("treatment = \"copper\"", "treatment = \"cupper\""), "copper"),
     (("first_hole_mm = 40", "first_hole_mm = 40\nholes_mm = [40]"), "one of them"),
     (("\"1.2 m\"", "\"2.2 m\""), "2000 mm long"),
     (("[[boards]]", "[[bords]]"), "an unknown key")],
)  # fmt: skip
def test_what_is_wrong_with_boards_is_told(change: tuple[str, str], wanted: str) -> None:
    raw = BOARDS.decode().replace(*change)
    with pytest.raises(OldBoardsError) as caught:
        read_old_boards(raw.encode())
    assert wanted in str(caught.value)
    assert all(fault.line for fault in caught.value.faults)


def test_no_file_no_list_and_no_text_are_told(tmp_path: Path) -> None:
    for source, wanted in (
        (tmp_path / "none.csv", "no such file"), (tmp_path / "none.toml", "no such file"),
        ({}, "a list of old boards"), ({"boards": []}, "a list of old boards"), (7, "type int"),
    ):  # fmt: skip
        with pytest.raises(OldBoardsError, match=wanted):
            read_old_boards(source)  # type: ignore[arg-type]
    latin = tmp_path / "latin.csv"
    latin.write_bytes(b"mark\n\xe9\n")
    with pytest.raises(OldBoardsError, match="not text"):
        read_old_boards(latin)
    large = tmp_path / "large.csv"
    large.write_bytes(b"mark\n" + b"a\n" * 600_000)
    with pytest.raises(OldBoardsError, match="at most 1000 kB"):
        read_old_boards(large)


def test_factors_are_read_with_their_source() -> None:
    (factor,) = read_factors(FACTORS)
    assert (factor.material, factor.per, factor.least_kg, factor.most_kg) == (
        "treated timber", "kg", 0.3, 0.7,
    )  # fmt: skip
    assert (factor.source.kind, factor.source.title) == ("handbook", "a table (invented)")


@pytest.mark.parametrize(
    ("change", "wanted"),
    [((SAYS, ""), "factors[0].source"),
     (("kind = \"handbook\", ", ""), "factors[0].source.kind"),
     (("\"handbook\"", "\"hearsay\""), "factors[0].source.kind"),
     (("least_kg = 0.3", "least_kg = 0.9"), "the least no more than the most"),
     (("per = \"kg\"", "per = \"t\""), "factors[0].per"),
     (("[[factors]]", "[[factor]]"), "an unknown key")],
)  # fmt: skip
def test_what_is_wrong_with_factors_is_told(change: tuple[str, str], wanted: str) -> None:
    with pytest.raises(FactorsError) as caught:
        read_factors(FACTORS.decode().replace(*change).encode())
    assert wanted in str(caught.value)


def test_no_factors_are_a_fault() -> None:
    for source in ({"factors": []}, {}, {"factors": ["x"]}, {"factors": 3}, {"factors": [None]}):
        with pytest.raises(FactorsError):
            read_factors(source)
    with pytest.raises(FactorsError, match="no such file"):
        read_factors("/nowhere/factors.toml")
