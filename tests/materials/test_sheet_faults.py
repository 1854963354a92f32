"""Everything that can be wrong with a CSV list and its mapping: file, line, column and field."""

from pathlib import Path

import pytest

from drylay.errors import CatalogueError, Fault
from drylay.materials.loader import check_catalogue, each_fault, load_catalogue

#: Two boards, a timber, screws, a clip; three lengths stand together, one apart. GTINs by hand:
#: 2000000000015 is 2x1 + 1x3 = 5, and 5 more make 10.
SHEET = """\
Item;Name;Group;T;W;L;Box;Price;Per m;Left;Pack;GTIN;Metal;Until;Centres
B1;Board one;Decking;28;145;3,6;;14,40;;12;4;2000000000015;;31.10.2027;400
B1;Board one;Decking;28;145;4,8;;20,15;;;;2000000000022;;31.10.2027;400
B2;"Board ""two\""";Decking;21;120;3,0;;;4,255;;;;;;
T1;Timber;Framing;45;145;3,6;;19,20;;;;;;;
B1;Board one;Decking;28;145;6,0;;27,00;;;;;;31.10.2027;400
S1;Screw;Screws;5;70;;100;14,60;;;;2000000000039;A2;;
S1;Screw;Screws;5;70;;500;63,00;;;;;A2;;
C1;Clip;Clips;;;;50;16,90;;;;;A2;;
G1;Bench;Furniture;;;;;189;;;;;;;
"""
MAPPING = """\
[file]
encoding = "utf-8"
delimiter = ";"
decimal = ","
dates = "day.month.year"
kind_column = "Group"
leave_out = ["Furniture"]

[catalogue]
name = "A yard"
currency = "EUR"
vat = "included"
valid_from = 2027-03-01

[columns]
code = "Item"
title = "Name"
price = "Price"
gtin = "GTIN"
count = "Box"
limit = "Left"
pack = "Pack"
metal = { column = "Metal", words = { A2 = "stainless A2" } }
length_mm = { column = "L", unit = "m" }
sold_until = "Until"

[[rows]]
says = "Decking"
kind = "boards"
constants = { family = "softwood" }
[rows.columns]
width_mm = { column = "W", unit = "mm" }
thickness_mm = { column = "T", unit = "mm" }
price_per_m = "Per m"
[[rows.rules]]
rule = "most_centres_mm"
column = "Centres"
unit = "mm"
source = { kind = "merchant record", title = "Sheet" }

[[rows]]
says = "Framing"
kind = "timbers"
[rows.columns]
depth_mm = { column = "W", unit = "mm" }
thickness_mm = { column = "T", unit = "mm" }

[[rows]]
says = "Screws"
kind = "screws"
[rows.columns]
shank_mm = { column = "T", unit = "mm" }
length_mm = { column = "W", unit = "mm" }

[[rows]]
says = "Clips"
kind = "clips"
constants = { role = "row" }
"""

#: In the sheet: the line, what is replaced there, what by; of the fault: line, column (0 where its
#: cell begins), field, a part of what was found, a part of what was wanted or of the nearest fix.
SHEET_FAULTS = [
    # the shape of a row
    (2, "B1;Board", "B1;;Board", 2, 73, "row", "16 cells", "15 cells"),
    (2, ";31.10.2027;400", "", 2, 60, "row", "13 cells", "15 cells"),
    (2, "Board one", '"Board one', 2, 4, "row", "quote", "quotes round a whole cell"),
    (2, "Board one", '"Board" one', 2, 10, "row", "quote", "doubled"),
    (2, "Board one", 'Board\rone', 2, 9, "row", "a line end in the middle", "LF or CRLF"),
    (2, "Board one", '"Board\none"', 2, 0, "title (Name)", '"Board\\none"', "one line"),
    # what kind of row
    (2, "Decking", "Deckng", 2, 0, "kind (Group)", '"Deckng"', "Decking"),
    (2, "Decking", "", 2, 0, "kind (Group)", "nothing", "leave_out"),
    (10, "Furniture", "furniture", 10, 0, "kind (Group)", '"furniture"', "leave_out"),
    # codes and names
    (4, "B2", "", 4, 0, "code (Item)", "nothing", "a code"),
    (4, "B2", "B\x01", 4, 0, "code (Item)", '"B\\u0001"', "one line"),
    (4, "B2", " B2", 4, 0, "code (Item)", '" B2"', "trim = true"),
    (4, "B2", "x" * 81, 4, 0, "code (Item)", "81 characters", "1 to 80"),
    (4, '"Board ""two"""', "", 4, 0, "title (Name)", "nothing", "a value for title"),
    (5, "T1", "B1", 5, 0, "code (Item)", '"B1" a second time, as Decking', "of its own"),
    (5, "T1", "S1", 7, 0, "code (Item)", "as Framing on line 5", "of its own"),
    # sizes
    (5, "45;145", "45 mm;145", 5, 0, "thickness_mm (T)", '"45 mm"', "a number of mm"),
    (5, "45;145", "4,5;145", 5, 0, "thickness_mm (T)", '"4,5"', "15 to 150"),
    (5, "45;145", "1,9;145", 5, 0, "thickness_mm (T)", '"1,9"', 'unit = "cm" in the mapping'),
    (5, "45;145", "45;14500", 5, 0, "depth_mm (W)", '"14500"', "500"),
    (5, "45;145", "45;145.0", 5, 0, "depth_mm (W)", '"145.0"', "145,0"),
    (5, "45;145", "45;nan", 5, 0, "depth_mm (W)", '"nan"', "a number of mm"),
    (5, "45;145", "45;1e3", 5, 0, "depth_mm (W)", '"1e3"', "a number of mm"),
    (5, "45;145", "45;" + "9" * 400, 5, 0, "depth_mm (W)", "400 characters", "a number"),
    (5, "45;145", "45;−145", 5, 0, "depth_mm (W)", '"−145"', "a number of mm"),
    (5, "45;145", "45;१४५", 5, 0, "depth_mm (W)", '"१४५"', "a number of mm"),
    (5, "45;145", ";145", 5, 0, "thickness_mm (T)", "nothing", "a value for thickness_mm"),
    (5, "45;145", "150;140", 5, 0, "thickness_mm (T)", "150 with", "narrow face"),
    (7, "5;70", "11;11", 7, 0, "shank_mm (T)", "11 with length_mm = 11", "thinner"),
    # lengths, packs, limits
    (5, "3,6", "3.6", 5, 0, "length_mm (L)", '"3.6"', "3,6"),
    (5, "3,6", "3600", 5, 0, "length_mm (L)", '"3600"', "13,5"),
    (5, "3,6", "0,036", 5, 0, "length_mm (L)", '"0,036"', "0,3"),
    (5, "3,6", "", 5, 0, "length_mm (L)", "nothing", "a length"),
    (3, "4,8", "3,6", 3, 0, "length_mm (L)", "3600 a second time for the article", "line 2"),
    (6, "6,0", "4,8", 6, 0, "length_mm (L)", "4800 a second time for the article", "once"),
    (8, "500", "100", 8, 0, "count (Box)", "100 a second time", "each count once"),
    (8, "500", "0", 8, 0, "count (Box)", '"0"', "1 to 100000"),
    (8, "500", "500,0", 8, 0, "count (Box)", '"500,0"', "500"),
    (8, "500", "", 8, 0, "count (Box)", "nothing", "count"),
    (2, ";12;4;", ";12;5;", 2, 0, "limit (Left)", "12 with pack = 5", "10"),
    (2, ";12;4;", ";-1;4;", 2, 0, "limit (Left)", '"-1"', "0 to 1000000"),
    (2, ";12;4;", ";12;0;", 2, 0, "pack (Pack)", '"0"', "1 to 1000"),
    # prices
    (5, "19,20", "19.20", 5, 0, "price (Price)", '"19.20"', "19,20"),
    (5, "19,20", "€ 19,20", 5, 0, "price (Price)", '"€ 19,20"', "19,20"),
    (5, "19,20", "1.019,20", 5, 0, "price (Price)", '"1.019,20"', "1019,20"),
    (5, "19,20", "19,205", 5, 0, "price (Price)", '"19,205"', "at most 2 decimals"),
    (5, "19,20", "0,00", 5, 0, "price (Price)", '"0,00"', "0,01 to"),
    (5, "19,20", "9" * 13, 5, 0, "price (Price)", "9" * 13, "money such as 14,40"),
    (5, "19,20", "", 5, 0, "price (Price)", "nothing", "a price"),
    (5, "19,20", "ask", 5, 0, "price (Price)", '"ask"', "money"),
    (4, ";4,255;", ";4,25555;", 4, 0, "price_per_m (Per m)", '"4,25555"', "at most 4 decimals"),
    (4, ";;4,255;", ";9,00;4,255;", 4, 0, "price (Price)", "a price beside price_per_m", "empty"),
    (4, ";;4,255;", ";;;", 4, 0, "price (Price)", "nothing", "a price"),
    # GTINs, days, words
    (2, "2000000000015", "2000000000016", 2, 0, "gtin (GTIN)", "16", "5 as its last digit"),
    (2, "2000000000015", "200000000001", 2, 0, "gtin (GTIN)", "0001", "4 as its last digit"),
    (2, "2000000000015", "2,00000E+12", 2, 0, "gtin (GTIN)", "E+12", "8, 12, 13 or 14 digits"),
    (2, "2000000000015", "2000000 000015", 2, 0, "gtin (GTIN)", "2000000 ", "2000000000015"),
    (7, "2000000000039", "2000000000015", 7, 0, "gtin (GTIN)", "a second time, as on line 2",
     "a GTIN of its own"),
    (2, "31.10.2027", "31.02.2027", 2, 0, "sold_until (Until)", "31.02.2027", "day.month.year"),
    (2, "31.10.2027", "10/31/2027", 2, 0, "sold_until (Until)", "10/31/2027", "day.month.year"),
    (2, "31.10.2027", "31.10.2207", 2, 0, "sold_until (Until)", "31.10.2207", "2000 to 2199"),
    (2, "31.10.2027", "28.02.2027", 2, 0, "sold_until (Until)", "until 2027-02-28", "both hold"),
    (7, "A2", "A3", 7, 0, "metal (Metal)", '"A3"', "one of the mapping's words: A2"),
    (7, ";A2;", ";;", 7, 0, "metal (Metal)", "nothing", "a value for metal"),
    (9, ";A2;", ";;", 9, 0, "metal (Metal)", "nothing with role", "the metal of the clip"),
    # rules
    (2, ";400", ";40", 2, 0, "most_centres_mm (Centres)", '"40"', "100"),
    (2, ";400", ";yes", 2, 0, "most_centres_mm (Centres)", '"yes"', "a number of mm"),
    # one article told in two ways
    (3, "Board one", "Board 1", 3, 0, "title (Name)", '"Board 1"', '"Board one", as on line 2'),
    (6, ";145;", ";144;", 6, 0, "width_mm (W)", '"144"', '"145", as on line 2'),
    (6, ";400", ";", 6, 0, "most_centres_mm (Centres)", "nothing", '"400", as on line 2'),
]  # fmt: skip

#: In the mapping: the line, the new line; of the fault: line, column, field, found, wanted.
MAPPING_FAULTS = [
    (1, "[files]", 1, 1, "files", 'key "files"', "file"),
    (2, "", 1, 1, "file.encoding", "nothing", "utf-8"),
    (2, 'encoding = "utf8"', 2, 12, "file.encoding", '"utf8"', 'encoding = "utf-8"'),
    (3, 'delimiter = "."', 3, 13, "file.delimiter", '"."', "tab"),
    (4, 'decimal = "comma"', 4, 11, "file.decimal", '"comma"', 'one of "."'),
    (5, 'dates = "dd.mm.yyyy"', 5, 9, "file.dates", '"dd.mm.yyyy"', "day.month.year"),
    (5, "", 25, 14, "columns.sold_until", "sold_until from a column", "file.dates"),
    (6, 'kind_column = "Grup"', 6, 15, "file.kind_column", '"Grup", a column that is not',
     '"Group"'),
    (6, "", 28, 8, "rows[0].says", 'says = "Decking"', "file.kind_column"),
    (7, 'leave_out = "Furniture"', 7, 13, "file.leave_out", '"Furniture"', "a list of texts"),
    (7, 'leave_out = ["Screws"]', 49, 8, "rows[2].says", '"Screws" in leave_out', "read, or left"),
    (11, 'currency = "eur"', 11, 12, "catalogue.currency", '"eur"', 'currency = "EUR"'),
    (12, "", 9, 1, "catalogue.vat", "nothing", "included"),
    (13, "valid_from = 2027-02-30", 13, 14, "file", "2027-02-30, and there is no such day",
     "calendar"),
    (13, 'valid_from = "30.02.2027"', 13, 14, "catalogue.valid_from", "30.02.2027", "ISO 8601"),
    (16, 'code = "Itm"', 16, 8, "columns.code", '"Itm", a column that is not', '"Item"'),
    (16, "code = 3", 16, 8, "columns.code", "3", "a column's name"),
    (16, "", 27, 1, "rows[0].code", "nothing for code", "a column or a constant"),
    (18, 'price = { column = "Price", unit = "EUR" }', 18, 36, "columns.price.unit", '"EUR"',
     "one of mm"),
    (18, 'price = { column = "Price", unit = "mm" }', 18, 9, "columns.price", "a unit for price",
     "leave out unit"),
    (23, 'metal = { column = "Metal", words = { A2 = "steel" } }', 23, 44,
     "columns.metal.words.A2", '"steel"', "one of plain steel"),
    (23, 'metal = { column = "Metal", words = 3 }', 23, 37, "columns.metal.words", "3", "a table"),
    (23, 'metel = { column = "Metal" }', 23, 1, "columns.metel", 'key "metel"', "metal"),
    (24, 'length_mm = "L"', 24, 13, "columns.length_mm", "a length without a unit", 'unit = "..."'),
    (24, 'length_mm = { column = "L", unit = "cubit" }', 24, 36, "columns.length_mm.unit",
     '"cubit"', "as written"),
    (28, "", 27, 1, "rows[0].says", "nothing", "what the kind column says"),
    (29, 'kind = "board"', 29, 8, "rows[0].kind", '"board"', 'kind = "boards"'),
    (30, "constants = { family = 3 }", 30, 24, "rows[0].constants.family", "3", 'family = "3"'),
    (30, 'constants = { family = "softwood", width_mm = 3 }', 30, 47,
     "rows[0].constants.width_mm", "3", "30 to 400"),
    (30, 'constants = { family = "x", width_mm = 99 }', 30, 40, "rows[0].constants.width_mm",
     "width_mm in columns and constants", "one of the two"),
    (30, "", 27, 1, "rows[0].family", "nothing for family", "a column or a constant"),
    (32, 'width = { column = "W", unit = "mm" }', 32, 1, "rows[0].columns.width", 'key "width"',
     "width_mm"),
    (36, 'rule = "centres"', 36, 8, "rows[0].rules[0].rule", '"centres"', "most_centres_mm"),
    (37, 'column = "Centre"', 35, 1, "rows[0].rules[0]", '"Centre", a column that', '"Centres"'),
    (38, "", 35, 1, "rows[0].rules[0]", "a length without a unit", "never guessed"),
    (39, "", 35, 1, "rows[0].rules[0].source", "nothing", "source = {"),
    (49, 'says = "Framing"', 49, 8, "rows[2].says", '"Framing" a second time', "each kind"),
    (50, 'kind = "gravels"', 48, 1, "rows[2].kg", "nothing for kg", "a column or a constant"),
    (58, 'constants = { role = "rows" }', 58, 22, "rows[3].constants.role", '"rows"', "row"),
]  # fmt: skip


def replaced(text: str, line: int, old: str, new: str) -> str:
    lines = text.split("\n")
    assert old in lines[line - 1]
    lines[line - 1] = lines[line - 1].replace(old, new, 1)
    return "\n".join(lines)


def faults_of(folder: Path, sheet: str | bytes, mapping: str = MAPPING) -> tuple[Fault, ...]:
    spring, beside = folder / "spring.csv", folder / "map.toml"
    spring.write_bytes(sheet if isinstance(sheet, bytes) else sheet.encode("utf-8"))
    beside.write_text(mapping, encoding="utf-8")
    faults = check_catalogue(spring, mapping=beside)
    assert sorted(map(str, each_fault(spring, mapping=beside))) == sorted(map(str, faults))
    if faults:
        with pytest.raises(CatalogueError) as caught:
            load_catalogue(spring, mapping=beside)
        assert caught.value.faults == faults
    return faults


def test_the_sheet_the_faults_are_planted_in_is_fine(tmp_path: Path) -> None:
    assert faults_of(tmp_path, SHEET) == ()


def planted(faults: tuple[Fault, ...], path: str, found: str) -> Fault:
    return next(fault for fault in faults if fault.path == path and found in fault.found)


def cell_begins(line: str, path: str) -> int:
    """Return where the cell of a column begins: no cell of this sheet holds a delimiter."""
    at = SHEET.split("\n", 1)[0].split(";").index(path.split("(")[1].rstrip(")"))
    return len(";".join(line.split(";")[:at])) + (2 if at else 1)


def test_where_a_cell_begins_is_counted_by_hand() -> None:
    line = SHEET.split("\n")[1]  # B1;Board one;Decking;28;145;
    assert [cell_begins(line, f"x ({name})") for name in ("Item", "Name", "Group", "W")] == [
        1, 4, 14, 25,
    ]  # fmt: skip


@pytest.mark.parametrize("case", SHEET_FAULTS, ids=lambda case: f"{case[5]}-{case[2][:20]!r}")
def test_a_fault_in_a_sheet_is_found_where_it_is(tmp_path: Path, case: tuple[object, ...]) -> None:
    at, old, new, line, column, path, found, wanted = case
    sheet = replaced(SHEET, int(str(at)), str(old), str(new))
    fault = planted(faults_of(tmp_path, sheet), str(path), str(found))
    column = column or cell_begins(sheet.split("\n")[int(str(line)) - 1], str(path))
    assert (fault.file, fault.line, fault.column) == (str(tmp_path / "spring.csv"), line, column)
    assert str(wanted) in f"{fault.found} {fault.wanted} {fault.nearest}"


@pytest.mark.parametrize("case", MAPPING_FAULTS, ids=lambda case: f"{case[4]}-{case[1][:30]}")
def test_a_fault_in_a_mapping_is_found_where_it_is(
    tmp_path: Path, case: tuple[object, ...]
) -> None:
    at, new, line, column, path, found, wanted = case
    lines = MAPPING.split("\n")
    lines[int(str(at)) - 1] = str(new)
    fault = planted(faults_of(tmp_path, SHEET, "\n".join(lines)), str(path), str(found))
    assert (fault.file, fault.line, fault.column) == (str(tmp_path / "map.toml"), line, column)
    assert str(wanted) in f"{fault.wanted} {fault.nearest}"


def test_a_hundred_different_faults_are_planted() -> None:
    sheet = {(path, found) for *_, path, found, _ in SHEET_FAULTS}
    mapping = {(path, found) for *_, path, found, _ in MAPPING_FAULTS}
    assert len(sheet) >= 60
    assert len(sheet | mapping) >= 100
