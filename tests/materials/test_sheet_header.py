"""What is wrong with how a CSV list is saved or told is one fault, with what would mend it."""

from pathlib import Path

import pytest

from drylay.errors import Fault
from drylay.materials.loader import check_catalogue

MAPPING = """\
[file]
encoding = "utf-8"
delimiter = ";"
decimal = ","
skip_lines = 0

[catalogue]
name = "A yard"
currency = "EUR"
vat = "included"

[[rows]]
kind = "boards"
constants = { family = "softwood" }

[rows.columns]
code = "Artikel"
title = "Bezeichnung"
thickness_mm = { column = "Stärke", unit = "mm" }
width_mm = { column = "Breite", unit = "mm" }
length_mm = { column = "Länge", unit = "m" }
price = "Preis"
"""
SHEET = """\
Artikel;Bezeichnung;Stärke;Breite;Länge;Preis
L-28;Lärche;28;145;3,6;18,40
L-28;Lärche;28;145;4,8;25,10
"""


def faults_of(
    folder: Path, sheet: bytes | str, name: str = "list.csv", **form: object
) -> tuple[Fault, ...]:
    """Return the faults of a list; `form` is what the mapping says of how it is written."""
    mapping = MAPPING
    for key, told in form.items():
        old = next(line for line in MAPPING.splitlines() if line.startswith(key))
        mapping = mapping.replace(old, f"{key} = {told!r}")
    path = folder / name
    path.write_bytes(sheet if isinstance(sheet, bytes) else sheet.encode("utf-8"))
    return check_catalogue(path, mapping=mapping.encode("utf-8"))


def test_the_list_is_fine(tmp_path: Path) -> None:
    assert faults_of(tmp_path, SHEET) == ()
    assert faults_of(tmp_path, b"\xef\xbb\xbf" + SHEET.encode()) == ()
    assert faults_of(tmp_path, SHEET.encode("cp1252"), encoding="windows-1252") == ()


#: The list, what the mapping says; of the one fault: line, column, field, found, nearest fix.
ONE_FAULT = [
    # Artikel;Bezeichnung;St are 22 characters
    (SHEET.encode("cp1252"), {}, 1, 23, "encoding", "byte 0xe4 that is no letter",
     'encoding = "windows-1252" in the mapping, if that is how it was saved'),
    (SHEET, {"encoding": "windows-1252"}, 1, 1, "encoding", '"StÃ¤rke" in the first row, which is',
     'encoding = "utf-8" in the mapping'),
    (b"\xef\xbb\xbf" + SHEET.encode(), {"encoding": "windows-1252"}, 1, 1, "encoding",
     "UTF-8, by its byte order mark", 'encoding = "utf-8" in the mapping'),
    (SHEET.encode("utf-16"), {}, 1, 1, "encoding", "UTF-16", "save it as CSV UTF-8"),
    (b"PK\x03\x04\x14\x00\x06\x00\x08", {}, 1, 1, "catalogue", "a spreadsheet",
     "save it as CSV UTF-8"),
    (SHEET.replace(";", "\t"), {}, 1, 1, "row", "1 cell, ", 'delimiter = "tab" in the mapping'),
    (SHEET, {"delimiter": "|"}, 1, 1, "row", "1 cell, ", 'delimiter = ";" in the mapping'),
    (SHEET, {"delimiter": ","}, 1, 1, "row", "1 cell, ", 'delimiter = ";" in the mapping'),
    ("Price list\nSpring\n" + SHEET, {}, 1, 1, "row", '1 cell, "Price list" first',
     "skip_lines = 2 in the mapping"),
    (SHEET, {"skip_lines": 1}, 2, 1, "row", '6 cells, "L-28" first',
     "skip_lines = 0 in the mapping"),
    ("a;b\n1;2\n", {}, 1, 1, "row", '2 cells, "a" first', ""),
]  # fmt: skip


@pytest.mark.parametrize("case", ONE_FAULT, ids=lambda case: f"{case[5]}-{case[6]}"[:60])
def test_how_a_list_is_saved_is_one_fault(
    tmp_path: Path, case: tuple[bytes | str, dict[str, object], int, int, str, str, str]
) -> None:
    sheet, form, line, column, path, found, nearest = case
    (fault,) = faults_of(tmp_path, sheet, **form)
    assert (fault.line, fault.column, fault.path) == (line, column, path)
    assert found in fault.found
    assert fault.nearest == nearest


def test_a_column_that_alone_is_missing_is_told_as_before(tmp_path: Path) -> None:
    found = faults_of(tmp_path, SHEET.replace("Preis", "Prices"))
    assert [(fault.path, fault.nearest) for fault in found] == [
        ("rows[0].columns.price", '"Prices"')
    ]


def test_a_file_of_the_other_kind_says_which_it_is(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path, SHEET, name="stock.toml")
    assert (fault.found, fault.nearest) == ("a TOML file with a mapping", "leave out the mapping")
    path = tmp_path / "list.map.toml"
    path.write_text(MAPPING, encoding="utf-8")
    (fault,) = check_catalogue(path)
    assert (fault.line, fault.column, fault.path) == (1, 1, "catalogue")
    assert fault.found == "a mapping, [file]"
    book = tmp_path / "list.xlsx"
    book.write_bytes(b"PK\x03\x04\x14\x00")
    (fault,) = check_catalogue(book)
    assert (fault.line, fault.found) == (1, "a spreadsheet")
