"""Slips in rows of a CSV list: one fault for what is one slip, and a fix that is what was meant."""

from pathlib import Path

import pytest

from drylay.errors import Fault
from drylay.intake.shown import shown_text
from drylay.materials.loader import check_catalogue
from materials.test_merchant_slips import at, sheet_faults

COLUMNS = """\
code = "Item"
title = "Name"
width_mm = { column = "W", unit = "mm" }
length_mm = { column = "L", unit = "m" }
price = "Price"
note = "Note"
"""
CONSTANTS = 'family = "softwood", thickness_mm = 28'
HEADER = "Item;Name;W;L;Price;Note\n"


def board_faults(folder: Path, rows: str) -> tuple[Fault, ...]:
    """Return the faults of a list of boards whose rows begin on line 2."""
    return sheet_faults(folder, HEADER + rows, "boards", CONSTANTS, COLUMNS)


def test_a_text_over_several_lines_is_given_on_one(tmp_path: Path) -> None:
    (fault,) = board_faults(tmp_path, 'L-1;Board;145;3,6;18,40;"Lärche,\nnur ab  Lager"\n')
    assert at(fault) == (2, 25, "note (Note)")  # L-1;Board;145;3,6;18,40; are 24 characters
    assert fault.found == '"Lärche,\\nnur ab  Lager"'
    assert fault.nearest == '"Lärche, nur ab Lager"'


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Lärche\n", '"Lärche\\n"'),
        ("ä\u202eb", '"ä\\u202eb"'),
        ("\ud800ß", '"\\ud800ß"'),
        ("Größe", '"Größe"'),
    ],
)
def test_letters_are_shown_as_letters(text: str, told: str) -> None:
    assert shown_text(text) == told


@pytest.mark.parametrize(
    ("rows", "count"),
    [
        ("L-1;Board; planed;145;3,6;18,40;\n", 7),  # the last is empty, so nothing is beyond
        ("L-1;Board;145;3,6;18,40;a;b\n", 7),
        ("L-1;Board;145;3,6\n", 4),
    ],
)
def test_a_row_with_other_cells_than_the_first_is_one_fault(
    tmp_path: Path, rows: str, count: int
) -> None:
    (fault,) = board_faults(tmp_path, rows)
    assert (fault.line, fault.path) == (2, "row")
    assert fault.found == f"{count} cells"
    assert fault.wanted == "6 cells, as many as the first row"
    assert fault.nearest == ('quotes round a text that holds a ";"' if count > 6 else "")


def test_a_row_shifted_out_of_its_kind_is_told_by_its_cells(tmp_path: Path) -> None:
    mapping = """\
[file]
encoding = "utf-8"
delimiter = ";"
decimal = ","
kind_column = "Kind"
[catalogue]
name = "A yard"
currency = "EUR"
vat = "included"
[[rows]]
says = "Deck"
kind = "boards"
constants = { family = "softwood", thickness_mm = 28, width_mm = 145 }
[rows.columns]
code = "Item"
title = "Name"
length_mm = { column = "L", unit = "m" }
price = "Price"
note = "Note"
"""
    sheet = "Item;Name;Kind;L;Price;Note\nL-1;Board; planed;Deck;3,6;18,40;\n"
    path = tmp_path / "list.csv"
    path.write_text(sheet, encoding="utf-8")
    found = check_catalogue(path, mapping=mapping.encode())
    assert [(each.line, each.path, each.found) for each in found] == [(2, "row", "7 cells")]


def test_more_empty_cells_than_the_first_row_are_borne(tmp_path: Path) -> None:
    assert board_faults(tmp_path, "L-1;Board;145;3,6;18,40;;;;\n") == ()


def test_a_faulty_row_is_no_pattern_for_the_next(tmp_path: Path) -> None:
    rows = "L-1;Board;1450;3,6;18,40;\nL-1;Board;145;4,8;25,10;\nL-1;Board;145;6,0;31,00;\n"
    found = board_faults(tmp_path, rows)
    assert [(each.line, each.found) for each in found] == [(2, '"1450"')]
    twice = board_faults(tmp_path, rows.replace("1450", "144"))
    assert [(each.line, each.wanted) for each in twice] == [
        (3, '"144", as on line 2 of the same code')  # line 4 goes on as line 3 began
    ]


@pytest.mark.parametrize(
    ("written", "fix"),
    [
        ("2027-03-31", '31.03.2027, or dates = "year-month-day" in the mapping'),
        ("03/31/2027", '31.03.2027, or dates = "month/day/year" in the mapping'),
        ("04/03/2027", ""),  # April or March
        ("31.03.27", "31.03.2027, if that is meant"),
        ("31.02.2027", ""),
        ("soon", ""),
    ],
)
def test_a_day_written_in_another_way_has_its_fix(tmp_path: Path, written: str, fix: str) -> None:
    header, columns = HEADER.replace("Note", "Until"), COLUMNS.replace('note = "Note"', "")
    sheet = f"{header}L-1;Board;145;3,6;18,40;{written}\n"
    more = columns + 'sold_until = "Until"\n'
    (fault,) = sheet_faults(tmp_path, sheet, "boards", CONSTANTS, more)
    assert fault.nearest == fix


@pytest.mark.parametrize(
    ("written", "fix"),
    [
        ("36000291452", "036000291452"),  # the worked example of a UPC-A in trade, 0 and all
        ("9,6385E+07", "format the column as text"),
        ("9.6385e+07", "format the column as text"),
        ("36000291453", ""),
        ("00000000", "leave out gtin"),
        ("0000000000000", "leave out gtin"),
    ],
)
def test_a_number_that_a_spreadsheet_spoilt_is_told(tmp_path: Path, written: str, fix: str) -> None:
    header, columns = HEADER.replace("Note", "GTIN"), COLUMNS.replace('note = "Note"', "")
    sheet = f'{header}L-1;Board;145;3,6;18,40;"{written}"\n'
    (fault,) = sheet_faults(tmp_path, sheet, "boards", CONSTANTS, columns + 'gtin = "GTIN"\n')
    assert fix in fault.nearest
    assert bool(fix) == bool(fault.nearest)


def test_a_column_that_is_not_there_is_not_told_as_a_shorter_one(tmp_path: Path) -> None:
    sheet = HEADER.replace("Note", "EAN") + "L-1;Board;145;3,6;18,40;\n"
    columns = COLUMNS.replace('note = "Note"', 'note = "Bestand"')
    (fault,) = sheet_faults(tmp_path, sheet, "boards", CONSTANTS, columns)
    assert (fault.found, fault.nearest) == ('"Bestand", a column that is not in the first row', "")


def test_a_unit_is_wanted_and_none_is_offered(tmp_path: Path) -> None:
    columns = COLUMNS.replace('{ column = "W", unit = "mm" }', '"W"')
    (fault,) = sheet_faults(tmp_path, HEADER, "boards", CONSTANTS, columns)
    assert fault.wanted == (
        "its unit, which is never guessed, one of mm, cm, m, in, ft, as written"
    )
    assert fault.nearest == 'width_mm = { column = "W", unit = "..." }'
