"""A CSV list read: the same stock as from TOML, in any order of rows, with flat memory."""

import random
import tracemalloc
import zipfile
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import CatalogueError
from drylay.materials.loader import check_catalogue, each_fault, load_catalogue
from drylay.materials.lookup import catalogue_digest
from drylay.materials.survey import survey_stock
from materials.test_sheet_faults import MAPPING, SHEET, faults_of

CATALOGS = Path(__file__).parents[2] / "catalogs"
SHEET_BYTES, MAPPING_BYTES = SHEET.encode(), MAPPING.encode()


def told(sheet: bytes, mapping: bytes = MAPPING_BYTES) -> list[tuple[int, int, str]]:
    found = check_catalogue(sheet, mapping=mapping)
    return [(fault.line, fault.column, fault.path) for fault in found]


def test_what_a_sheet_sells_is_read_as_it_stands() -> None:
    stock = load_catalogue(SHEET_BYTES, mapping=MAPPING_BYTES)
    one, two = stock.boards
    assert [(each.length_mm, str(each.price)) for each in one.lengths] == [
        (3600.0, "14.40"), (4800.0, "20.15"), (6000.0, "27.00"),
    ]  # fmt: skip
    assert (one.lengths[0].limit, one.lengths[0].pack) == (12, 4)
    assert one.lengths[1].gtin == "2000000000022"
    assert (one.rules[0].rule, one.rules[0].value, one.rules[0].source.title) == (
        "most_centres_mm", 400.0, "Sheet",
    )  # fmt: skip
    assert two.title == 'Board "two"'
    # 3 m at 4.255 are 12.765, up to the next cent
    assert (str(two.lengths[0].price), two.price_per_m) == ("12.77", Decimal("4.255"))
    assert str(one.record.sold_until) == "2027-10-31"
    assert str(two.record.sold_from) == "2027-03-01"  # the list's own first day
    (screw,) = stock.screws
    assert [(pack.count, str(pack.price)) for pack in screw.packs] == [
        (100, "14.60"), (500, "63.00"),
    ]  # fmt: skip
    assert (screw.metal, stock.clips[0].role) == ("stainless A2", "row")


def test_rows_may_stand_in_any_order() -> None:
    header, *rows = SHEET.splitlines()
    plain = catalogue_digest(load_catalogue(SHEET_BYTES, mapping=MAPPING_BYTES))
    for seed in range(20):
        shuffled = random.Random(seed).sample(rows, len(rows))
        sheet = "\n".join([header, *shuffled]).encode()
        assert catalogue_digest(load_catalogue(sheet, mapping=MAPPING_BYTES)) == plain


@st.composite
def boards(draw: st.DrawFn) -> list[dict[str, Any]]:
    codes = draw(st.lists(st.sampled_from("ABCDE"), min_size=1, unique=True))
    title = st.text(st.sampled_from('abc ;,"é½'), min_size=1, max_size=8).map(lambda t: f"t{t}t")
    lengths = st.lists(st.integers(300, 13_500), min_size=1, max_size=4, unique=True)
    cents = st.integers(1, 10**8)
    return [
        {
            "code": code,
            "title": draw(title),
            "family": "softwood",
            "width_mm": draw(st.integers(60, 800)) / 2,
            "thickness_mm": draw(st.integers(10, 29)),
            "lengths": [
                {"length_mm": each, "price": f"{draw(cents) / 100:.2f}"} for each in draw(lengths)
            ],
        }
        for code in codes
    ]


@given(boards=boards(), comma=st.booleans(), in_m=st.booleans(), dice=st.randoms())
def test_a_sheet_and_a_stock_file_of_the_same_are_the_same(
    boards: list[dict[str, Any]], comma: bool, in_m: bool, dice: random.Random
) -> None:
    head = {"name": "A yard", "currency": "EUR", "vat": "excluded"}
    wanted = load_catalogue({"catalogue": head, "boards": boards})
    mark = "," if comma else "."
    rows = [
        [board["code"], board["title"], f"{board['width_mm']}", str(board["thickness_mm"]),
         f"{each['length_mm'] / 1000:.3f}" if in_m else str(each["length_mm"]), each["price"]]
        for board in boards for each in board["lengths"]
    ]  # fmt: skip
    dice.shuffle(rows)
    quoted = [
        [code, '"' + title.replace('"', '""') + '"', *(cell.replace(".", mark) for cell in rest)]
        for code, title, *rest in rows
    ]
    sheet = "\n".join(["code;title;w;t;l;price", *(";".join(row) for row in quoted)])
    mm = {"unit": "mm"}
    mapping = {
        "file": {"encoding": "utf-8", "delimiter": ";", "decimal": mark},
        "catalogue": head,
        "rows": [{
            "kind": "boards",
            "constants": {"family": "softwood"},
            "columns": {
                "code": "code", "title": "title", "price": "price",
                "width_mm": {"column": "w", **mm}, "thickness_mm": {"column": "t", **mm},
                "length_mm": {"column": "l", "unit": "m" if in_m else "mm"},
            },
        }],
    }  # fmt: skip
    found = load_catalogue(sheet.encode(), mapping=mapping)
    assert catalogue_digest(found) == catalogue_digest(wanted)


@pytest.mark.parametrize(
    ("sheet", "faults"),
    [
        (b"\xef\xbb\xbf" + SHEET_BYTES, []),  # a byte order mark is no part of the first name
        (SHEET_BYTES.replace(b"\n", b"\r\n"), []),
        (SHEET_BYTES.replace(b"\n", b"\r\n", 3), []),  # two kinds of line ends
        (SHEET_BYTES.rstrip(b"\n"), []),
        (SHEET_BYTES + b"\n\r\n;;;;;;;;;;;;;;\n", []),  # rows of nothing
        (SHEET_BYTES.replace(b";Centres\n", b";Centres;;\n").replace(b"400\n", b"400;;\n"), None),
        (b"", [(0, 0, "catalogue")]),
        (SHEET_BYTES.split(b"\n")[0], [(0, 0, "catalogue")]),
        (SHEET.encode("utf-16"), None),
        (SHEET_BYTES.replace(b"Board one", b"Board \xfcne", 1), [(2, 10, "encoding"),
                                                                (3, 4, "title (Name)"),
                                                                (6, 4, "title (Name)")]),
        (SHEET_BYTES.replace(b"Centres", b"Metal"), [(23, 9, "columns.metal"),
                                                     (35, 1, "rows[0].rules[0]")]),
        (SHEET_BYTES.replace(b"Bench", b"x" * 1_100_000), None),
        (SHEET_BYTES.replace(b"Bench", b'"x\n' + b"x\n" * 60 + b'"'), None),
    ],
)  # fmt: skip
def test_whole_files_that_are_odd(sheet: bytes, faults: list[tuple[int, int, str]] | None) -> None:
    found = told(sheet)
    assert found == faults if faults is not None else found


def test_a_byte_order_mark_of_another_encoding_is_told() -> None:
    western = MAPPING_BYTES.replace(b'"utf-8"', b'"windows-1252"')
    (fault, *_) = check_catalogue(b"\xef\xbb\xbf" + SHEET_BYTES, mapping=western)
    assert (fault.line, fault.column, fault.found) == (1, 1, "UTF-8, by its byte order mark")
    sheet = SHEET.replace("Board one", "Bücher ½").encode("windows-1252")
    assert load_catalogue(sheet, mapping=western).boards[0].title == "Bücher ½"


def test_an_open_quote_hides_nothing_that_follows() -> None:
    lines = SHEET.splitlines()
    lines[1] = lines[1].replace("Board one", '"Board one')
    many = [f"Z{n};Board;Decking;28;145;3,6;;14.40;;;;;;;" for n in range(200)]
    found = told("\n".join([*lines, *many]).encode())
    assert found[0] == (2, 4, "row")
    assert [line for line, _, path in found if path == "price (Price)"] == list(range(11, 211))


def test_all_faults_of_a_long_list_are_told_and_none_is_left_out() -> None:
    header = SHEET.splitlines()[0]
    rows = [f"B{n};Board;Deckng;28;145;3,6;;14.40;;;;;;;" for n in range(5000)]
    faults = check_catalogue("\n".join([header, *rows]).encode(), mapping=MAPPING_BYTES)
    kinds = [fault.line for fault in faults if fault.path == "kind (Group)"]
    assert kinds == list(range(2, 5002))


def long_list(rows: int, folder: Path) -> Path:
    path = folder / f"{rows}.csv"
    lines = [f"B{n};Board {n};Decking;28;145;3,6;;14,40;;;;;;;" for n in range(rows)]
    path.write_text("\n".join([SHEET.splitlines()[0], *lines]), encoding="utf-8")
    return path


def peak(path: Path) -> int:
    tracemalloc.start()
    assert list(each_fault(path, mapping=MAPPING_BYTES)) == []
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most


def test_memory_stays_flat_whatever_the_length(tmp_path: Path) -> None:
    short, long = long_list(1000, tmp_path), long_list(8000, tmp_path)
    peak(short)  # caches of the process are filled once
    assert peak(long) < 1.2 * peak(short)


def test_faults_come_before_the_file_is_read_to_its_end(tmp_path: Path) -> None:
    path = long_list(2000, tmp_path)
    path.write_text(path.read_text(encoding="utf-8").replace("14,40", "14.40", 1), "utf-8")
    found = each_fault(path, mapping=MAPPING_BYTES)
    assert next(found).line == 2
    found.close()  # type: ignore[attr-defined] # a generator
    path.unlink()


@pytest.mark.parametrize(
    ("unit", "cell", "length_mm"),
    [
        # by hand: the inch is 25.4 mm, the foot 304.8
        ("in", "141,75", 3600.45), ("ft", "12", 3657.6), ("cm", "360,5", 3605.0),
        ("as written", "12 ft", 3657.6), ("as written", "3.6 m", 3600.0), ("mm", "3600", 3600.0),
    ],
)  # fmt: skip
def test_lengths_are_read_in_the_unit_told(unit: str, cell: str, length_mm: float) -> None:
    mapping = MAPPING.replace('column = "L", unit = "m"', f'column = "L", unit = "{unit}"')
    sheet = "\n".join([SHEET.splitlines()[0], f"B;Board;Decking;28;145;{cell};;1;;;;;;;"])
    stock = load_catalogue(sheet.encode(), mapping=mapping.encode())
    assert stock.boards[0].lengths[0].length_mm == pytest.approx(length_mm, abs=1 / 640)


def test_trim_skipped_lines_words_and_single_pieces() -> None:
    mapping = """
[file]
encoding = "utf-8"
delimiter = "tab"
decimal = "."
trim = true
skip_lines = 2
[catalogue]
name = "A yard"
currency = "GBP"
vat = "included"
batch = "L7"
[[rows]]
kind = "tiles"
constants = { family = "tiles" }
[rows.columns]
code = "Code"
title = "Code"
length_mm = { column = "L", unit = "cm" }
width_mm = { column = "W", unit = "cm" }
thickness_mm = { column = "T", unit = "cm" }
each = "Each"
count = "Box"
price = "Price"
[[rows.rules]]
rule = "end_gap_mm"
column = "Gap"
unit = "mm"
source = { kind = "merchant record", title = "s" }
"""
    sheet = """Prices of spring
;;;
Code\tL\tW\tT\tEach\tBox\tPrice\tGap
 T1 \t60\t60\t2\t17.90\t\t\t4
T1\t60\t60\t2\t\t 60\t948.00 \t4
"""
    stock = load_catalogue(sheet.encode(), mapping=mapping.encode())
    (tile,) = stock.tiles
    assert (tile.code, tile.length_mm, tile.rules[0].value) == ("T1", 600.0, 4.0)
    assert [(pack.count, str(pack.price)) for pack in tile.packs] == [(1, "17.90"), (60, "948.00")]
    assert tile.record.batch == "L7"
    wrong = check_catalogue(sheet.replace("17.90\t\t", "17.90\t2\t").encode(),
                            mapping=mapping.encode())  # fmt: skip
    assert [(fault.line, fault.path) for fault in wrong] == [(4, "count (Box)")]
    ordered = sheet.replace("17.90\t\t\t", "\t\t\t")
    wrong = check_catalogue(ordered.encode(), mapping=mapping.encode())
    assert [(fault.line, fault.path) for fault in wrong] == [
        (4, "count (Box)"),
        (4, "price (Price)"),
    ]


def test_a_list_is_read_out_of_a_package_or_a_zip(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "p.zip", "w") as packed:
        packed.writestr("spring.csv", SHEET)
        packed.writestr("map.toml", MAPPING)
    inside = zipfile.Path(tmp_path / "p.zip")
    stock = load_catalogue(inside / "spring.csv", mapping=inside / "map.toml")
    assert stock == load_catalogue(SHEET_BYTES, mapping=MAPPING_BYTES)
    (fault,) = check_catalogue(inside / "none.csv", mapping=inside / "map.toml")
    assert fault.file == "none.csv"
    (fault,) = check_catalogue(inside / "none.toml")
    assert fault.path == "catalogue"


@pytest.mark.parametrize("source", ["none.csv", ".", 3, {}, None])
def test_what_is_no_sheet_is_refused(source: Any) -> None:
    assert check_catalogue(source, mapping=MAPPING_BYTES)
    with pytest.raises(CatalogueError):
        load_catalogue(source, mapping=MAPPING_BYTES)


@pytest.mark.parametrize("mapping", ["none.toml", 3, {}, {"rows": [{"kind": "boards"}]}, b"\xff"])
def test_what_is_no_mapping_is_refused(mapping: Any) -> None:
    assert check_catalogue(SHEET_BYTES, mapping=mapping)
    with pytest.raises(CatalogueError):
        load_catalogue(SHEET_BYTES, mapping=mapping)


def test_a_sheet_without_a_mapping_is_asked_for_one(tmp_path: Path) -> None:
    (tmp_path / "spring.CSV").write_text(SHEET, encoding="utf-8")
    (fault,) = check_catalogue(tmp_path / "spring.CSV")
    assert (fault.found, fault.nearest) == (
        "a CSV file alone",
        "mapping=..., --mapping MAP on the command line",
    )


def test_the_invented_list_we_ship_is_sound_and_surveyed() -> None:
    sheet, mapping = CATALOGS / "tarnbeck.csv", CATALOGS / "tarnbeck.map.toml"
    assert check_catalogue(sheet, mapping=mapping) == ()
    survey = survey_stock(sheet, mapping=mapping)
    assert survey.families == {"softwood": "TB-2814"}
    assert survey.rounded == 0  # 2.4, 3.6 and 4.8 m at 5.125 are 12.30, 18.45 and 24.60
    survey = survey_stock(SHEET_BYTES, mapping=MAPPING_BYTES)
    assert (survey.rounded, survey.first_rounded) == (1, "B2")


def test_a_check_tells_the_same_as_a_load(tmp_path: Path) -> None:
    wrong = SHEET.replace("14,40", "14.40").replace("A2", "A5").replace("3,0;", "30;")
    # lines 7 and 8 are one article, whose metal is told once
    assert [fault.line for fault in faults_of(tmp_path, wrong)] == [2, 4, 7, 9]
