"""Slips that merchants made: each told at its place, with a fix that is what they meant."""

from pathlib import Path

import pytest

from drylay.errors import Fault
from drylay.materials.loader import check_catalogue, load_catalogue

HEAD = """\
[catalogue]
name = "A yard"
currency = "GBP"
vat = "included"

"""
MAPPING = """\
[file]
encoding = "utf-8"
delimiter = ";"
decimal = ","
dates = "day.month.year"

[catalogue]
name = "A yard"
currency = "GBP"
vat = "included"

[[rows]]
kind = "{kind}"
constants = {{ {constants} }}

[rows.columns]
{columns}
"""
TILE = """\
[[tiles]]
code = "PT-1"
title = "Tile"
family = "tiles"
length_mm = 600
width_mm = 900
thickness_mm = 20
packs = [{ count = 1, price = "38.00" }]
"""


def faults_in(folder: Path, articles: str) -> tuple[Fault, ...]:
    """Return the faults of a stock file with these articles, which begin on line 6."""
    path = folder / "stock.toml"
    path.write_text(HEAD + articles, encoding="utf-8")
    return check_catalogue(path)


def sheet_faults(
    folder: Path, sheet: str | bytes, kind: str, constants: str, columns: str
) -> tuple[Fault, ...]:
    """Return the faults of a CSV list of one kind."""
    path = folder / "list.csv"
    path.write_bytes(sheet if isinstance(sheet, bytes) else sheet.encode("utf-8"))
    mapping = MAPPING.format(kind=kind, constants=constants, columns=columns)
    return check_catalogue(path, mapping=mapping.encode("utf-8"))


def at(fault: Fault) -> tuple[int, int, str]:
    """Return line, column and field."""
    return fault.line, fault.column, fault.path


def test_a_tile_with_its_sides_swapped_is_turned_round(tmp_path: Path) -> None:
    (fault,) = faults_in(tmp_path, TILE)
    assert at(fault) == (10, 13, "tiles[0].length_mm")
    assert fault.found == "600 with width_mm = 900"
    assert fault.wanted == "the longer side as length"
    assert fault.nearest == "length_mm = 900, width_mm = 600"
    assert faults_in(tmp_path, TILE.replace("= 600", "= 900")) == ()


def test_a_tile_swapped_in_a_csv_list_is_told_in_its_cell(tmp_path: Path) -> None:
    columns = (
        'code = "Item"\ntitle = "Name"\nlength_mm = { column = "L", unit = "cm" }\n'
        'width_mm = { column = "W", unit = "cm" }\neach = "Each"'
    )
    sheet = "Item;Name;L;W;Each\nPT-1;Tile;60;90;38,00\n"
    constants = 'family = "tiles", thickness_mm = 20'
    (fault,) = sheet_faults(tmp_path, sheet, "tiles", constants, columns)
    assert at(fault) == (2, 11, "length_mm (L)")  # PT-1;Tile; are ten characters
    assert fault.nearest == "length_mm = 900, width_mm = 600"


@pytest.mark.parametrize("side", [300.0, 600.0])
def test_a_square_or_longer_tile_passes(tmp_path: Path, side: float) -> None:
    assert faults_in(tmp_path, TILE.replace("900", f"{side:g}")) == ()


TIMBER = """\
[[timbers]]
code = "FT-1"
title = "Frame timber"
thickness_mm = 45
depth_mm = 145
treatment = "{treatment}"
{key}
lengths = [{{ length_mm = 3600, price = "17.30" }}]
"""


@pytest.mark.parametrize("word", ["none", "Untreated, planed", "not treated", "no treatment"])
def test_untreated_timber_has_no_use_class(tmp_path: Path, word: str) -> None:
    (fault,) = faults_in(tmp_path, TIMBER.format(treatment=word, key="use_class = 4"))
    assert at(fault) == (12, 13, "timbers[0].use_class")
    assert fault.found == f'4 with treatment = "{word}"'
    assert fault.nearest.startswith("leave out use_class")
    assert faults_in(tmp_path, TIMBER.format(treatment=word, key="durability_class = 1")) == ()


@pytest.mark.parametrize(
    ("treatment", "known"),
    [
        ("use class 4", 4),
        ("UC3b, green", 3),
        ("none", None),
        ("use class 3 or 4", None),  # which of the two is not said
        ("UC 12", None),
        ("nonesuch", None),
    ],
)
def test_a_treatment_of_one_class_counts_as_that_class(treatment: str, known: int | None) -> None:
    text = HEAD + TIMBER.format(treatment=treatment, key="")
    assert load_catalogue(text.encode()).timbers[0].use_class == known
    columns = 'code = "A"\ntitle = "A"\ntreatment = "T"\nlength_mm = { column = "L", unit = "m" }'
    constants = "thickness_mm = 45, depth_mm = 145, price = 20"
    mapping = MAPPING.format(kind="timbers", constants=constants, columns=columns).encode()
    sheet = f"A;T;L\nFT-1;{treatment};3,6\n".encode()
    assert load_catalogue(sheet, mapping=mapping).timbers[0].use_class == known


BOARD = """\
[[boards]]
code = "DB-1"
title = "Board"
family = "softwood"
width_mm = {width}
thickness_mm = {thickness}
lengths = [{{ length_mm = 3600, price = "17.30" }}]
"""
SCREW = """\
[[screws]]
code = "DS-1"
title = "Screw"
shank_mm = 70
length_mm = {length}
metal = "stainless A2"
packs = [{{ count = 100, price = "14.00" }}]
"""


def test_sizes_out_of_bounds_that_stand_in_each_other_s_place_are_swapped(tmp_path: Path) -> None:
    both = "thickness_mm = 28, width_mm = 145"
    found = faults_in(tmp_path, BOARD.format(width=28, thickness=145))
    assert [(at(fault), fault.nearest) for fault in found] == [
        ((10, 12, "boards[0].width_mm"), both),
        ((11, 16, "boards[0].thickness_mm"), both),
    ]
    found = faults_in(tmp_path, SCREW.format(length=5))
    assert [(fault.line, fault.nearest) for fault in found] == [
        (9, "shank_mm = 5, length_mm = 70"),
        (10, "shank_mm = 5, length_mm = 70"),
    ]


def test_sizes_that_are_wrong_either_way_get_no_swap(tmp_path: Path) -> None:
    (fault,) = faults_in(tmp_path, SCREW.format(length=40))  # a shank of 70 or of 40 is none
    assert (fault.path, fault.nearest) == ("screws[0].shank_mm", "")


def test_sizes_swapped_in_a_csv_list_are_told_so(tmp_path: Path) -> None:
    columns = (
        'code = "A"\ntitle = "A"\nshank_mm = { column = "S", unit = "mm" }\n'
        'length_mm = { column = "L", unit = "cm" }\nprice = "P"'
    )
    constants = 'metal = "stainless A2", count = 100'
    found = sheet_faults(tmp_path, "A;S;L;P\nDS-1;70;0,5;14\n", "screws", constants, columns)
    assert [(at(fault), fault.nearest) for fault in found] == [
        ((2, 6, "shank_mm (S)"), "shank_mm = 5, length_mm = 70"),
        ((2, 9, "length_mm (L)"), "shank_mm = 5, length_mm = 70"),
    ]


def test_what_no_fix_is_known_for_gets_none(tmp_path: Path) -> None:
    rule = (
        'rules = [{ rule = "most_centres_mm", value = 4000, source = '
        '{ kind = "merchant record", title = "x" } }]\n'
    )
    (fault,) = faults_in(tmp_path, BOARD.format(width=145, thickness=28) + rule)
    assert (fault.found, fault.nearest) == ("4000", "")


LISTED = """\
[[boards]]
code = "{code}"
title = "Board"
family = "softwood"
thickness_mm = 28
width_mm = 145
lengths = [{{ length_mm = 3600, price = "{price}"{gtin} }}]
"""


def test_a_code_or_number_told_twice_says_where_it_stood_first(tmp_path: Path) -> None:
    gtin = ', gtin = "6291041500213"'
    one = LISTED.format(code="B1", price="9.90", gtin=gtin)
    codes, numbers = faults_in(tmp_path, one + one)
    # the head has five lines, the board seven with its code second and its lengths last
    assert codes.found == '"B1" a second time, as on line 7'
    assert numbers.found == '"6291041500213" a second time, as on line 12'
    as_given = {"code": "B1", "title": "Board"}
    told = {"catalogue": {"name": "A"}, "boards": [as_given], "timbers": [as_given]}
    assert any(f.found == '"B1" a second time, as in boards[0].code' for f in check_catalogue(told))


def test_a_fault_in_an_article_names_its_code(tmp_path: Path) -> None:
    good, bad = (LISTED.format(code=f"B{n}", price=p, gtin="") for n, p in ((1, "9.90"), (2, "x")))
    (fault,) = faults_in(tmp_path, good + bad)
    assert (fault.path, fault.article) == ("boards[1].lengths[0].price", "B2")
    assert "boards[1].lengths[0].price (B2): found" in str(fault)
    assert fault.to_dict()["article"] == "B2"


def test_a_rule_misspelt_is_told_without_the_list_of_all(tmp_path: Path) -> None:
    own = 'source = { kind = "assumption", title = "t" }'
    rule = f'[[boards.rules]]\nrule = "most_centers_mm"\nvalue = 450\n{own}\n'
    (fault,) = faults_in(tmp_path, LISTED.format(code="B1", price="9.90", gtin="") + rule)
    assert fault.nearest == 'rule = "most_centres_mm"'
    assert len(str(fault)) < 300
