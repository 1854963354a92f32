"""Folders of outside tables: what is wrong with a file or row is told, nothing is trusted."""

import csv
import json
import math
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drylay.cli import codes, main
from drylay.errors import InputError
from drylay.strength import nds_allowed
from drylay.testing import timber_tables, us_tables
from drylay.testing.model import Cell, TableRead
from drylay.testing.table_texts import tables_plain, tables_text
from drylay.testing.timber_rows import standing_of
from drylay.testing.timber_tables import all_match, counts_of, known_files, read_timber_tables

FOLDER = Path(__file__).parents[1] / "reference" / "timber"
LEDGER = "us_ledger.csv"
HEADER = "id,fastener,joist_span_ft,spacing_in\n"


def written(folder: Path, name: str, content: str | bytes) -> TableRead:
    if isinstance(content, str):
        content = content.encode()
    (folder / name).write_bytes(content)
    (table,) = (table for table in read_timber_tables(folder) if table.table == name)
    return table


def test_a_row_that_is_not_in_the_open_tables_is_worked_out(tmp_path: Path) -> None:
    """Half of 375 lb over 50 psf: 12 x 375 / (50 x 7.5 / 2) = 24 in, by hand."""
    table = written(tmp_path, LEDGER, HEADER + "mine,lag,7.5,24\n")
    assert [standing_of(cell) for cell in table.cells] == ["matched"]
    assert all_match([table])


@pytest.mark.parametrize(
    ("row", "standing", "why"),
    [
        ("a,lag,8,24", "missed", ""),
        ("a,nail,8,23", "not worked out", "fastener: found 'nail', wanted one of lag, bolt"),
        ("a,lag,,23", "not worked out", "no joist_span_ft in this row"),
        ("a,lag,eight,23", "not worked out", "joist_span_ft is no number: 'eight'"),
        ("a,lag,-8,23", "not worked out", "joist_span_ft is out of range: '-8'"),
        ("a,lag,nan,23", "not worked out", "joist_span_ft is out of range: 'nan'"),
        ("a,lag,0,23", "not worked out", "joist_span_mm: found 0.0"),
        ("a,lag,1e308,23", "not worked out", "joist_span_mm: found inf"),
        ("a,lag,\u00b7,23", "not worked out", "joist_span_ft is kept back"),
        ("a,lag,8,\u00b7", "unread", "spacing_in is kept back"),
        ("a,lag,8,", "unread", "no spacing_in in this row"),
        ("a,lag,8,inf", "unread", "spacing_in is out of range: 'inf'"),
        ("a,lag,8", "unread", "no spacing_in in this row"),
    ],
)
def test_what_is_wrong_with_a_row_is_told_in_its_cell(tmp_path, row, standing, why) -> None:
    table = written(tmp_path, LEDGER, HEADER + row + "\n")
    (cell,) = table.cells
    assert standing_of(cell) == standing
    assert why in cell.why
    assert not all_match([table]) or standing != "missed"


@pytest.mark.parametrize(
    ("name", "content", "note"),
    [
        (LEDGER, "", "an empty file"),
        (LEDGER, "  \n", "an empty file"),
        (LEDGER, b"\xff\xfe\x00", "not UTF-8 (at byte 0)"),
        (LEDGER, HEADER + 'a,"lag,8,23\n', "no CSV: unexpected end of data"),
        (LEDGER, "x" * 200_000, "no CSV: field larger than field limit (131072)"),
        ("us_roofs.csv", "id\n1\n", "no table that drylay knows by its name"),
        ("check-values.toml", "value = 3", "no list of tables [[value]]"),
        ("check-values.toml", "[[value]\n", "no TOML:"),
        ("check-values.toml", "a = " + "[" * 5000, "no TOML:"),
    ],
)
def test_a_file_that_cannot_be_used_is_told(tmp_path, name, content, note) -> None:
    table = written(tmp_path, name, content)
    assert not table.usable
    assert any(each.startswith(note) for each in table.notes)
    assert not all_match([table])
    assert f"{name}: not used" in tables_text([table])


def test_a_file_too_large_and_a_folder_named_like_a_table_are_told(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr("drylay.testing.table_files.MOST_BYTES", 10)
    assert written(tmp_path, LEDGER, HEADER).notes == ("more than 10 bytes",)
    (tmp_path / "us_posts.csv").mkdir()
    tables = {table.table: table for table in read_timber_tables(tmp_path)}
    assert not tables["us_posts.csv"].usable


def test_columns_and_rows_that_do_not_fit_are_told(tmp_path) -> None:
    header = "id,fastener,joist_span_ft,spacing_in,colour,colour\n"
    table = written(tmp_path, LEDGER, "\ufeff" + header + "a,lag,8,23,red,red,x\nb,lag,8,23\n")
    assert table.notes == (
        "the column 'colour' stands there more than once, the last one counts",
        "row 1 has more cells than the header",
        "row 2 has fewer cells than the header",
        "unknown column 'colour'",
    )
    assert counts_of(table)["matched"] == 2
    assert written(tmp_path, LEDGER, HEADER).notes == ("a header and no rows",)


def test_a_row_without_a_name_is_told_by_its_place(tmp_path) -> None:
    table = written(tmp_path, LEDGER, HEADER + ",lag,8,23\n")
    assert table.cells[0].cell == "row 1:spacing_in"


@pytest.mark.parametrize("folder", ["nowhere", "."])
def test_a_folder_without_tables_is_refused(tmp_path, folder) -> None:
    with pytest.raises(InputError):
        read_timber_tables(tmp_path / folder)


@pytest.mark.parametrize(
    ("table", "row", "why"),
    [
        ("us_joists.csv", "id,kind,group,size,spacing_in,value_in\na,jump,SP,2x6,16,9", "'jump'"),
        ("us_joists.csv", "id,kind,group,size,spacing_in,value_in\na,span,XY,2x6,16,9", "found XY"),
        ("us_joists.csv", "id,kind,group,size,spacing_in,value_in\na,span,SP,2x7,16,9", "2x7"),
        (
            "us_joists_2021.csv",
            "id,kind,group,size,spacing_in,live_psf,cd,back_ft,value_in\na,hop,SP,2x6,16,50,1,,9",
            "'hop'",
        ),
        (
            "us_beams.csv",
            "id,group,plies,size,joist_span_ft,value_in\na,SP,2.5,2x6,8,9",
            "plies is no whole number",
        ),
        (
            "us_posts.csv",
            "id,species,size,live_psf,area_sqft,value_in\na,SP,6x14,40,40,9",
            "depth",
        ),
        ("wood_emc.csv", "id,temp_F,rh,emc_pct\na,5000,0.5,9", "air"),
        ("wood_dimchange.csv", "species,CR,CT\nMoonwood,0.001,0.002", "no shrinkage of this wood"),
        (
            "wood_shrinkage.csv",
            "species,radial_pct,tangential_pct,volumetric_pct\nMoonwood,1,2,3",
            "no shrinkage in drylay",
        ),
    ],
)
def test_what_is_not_covered_is_told_and_nothing_guessed(tmp_path, table, row, why) -> None:
    found = written(tmp_path, table, row + "\n")
    assert all(standing_of(cell) == "not worked out" for cell in found.cells)
    assert why in found.cells[0].why


def test_one_ply_and_live_loads_have_their_say(tmp_path) -> None:
    head = "id,group,plies,size,joist_span_ft,live_psf,value_in\n"
    rows = "a,SP,1,2x10,10,40,0\nb,SP,1,2x10,10,60,0\nc,SP,4,2x10,10,40,0\n"
    one, heavy, four = (cell.found for cell in written(tmp_path, "us_beams.csv", head + rows).cells)
    assert heavy < one < four


def test_the_beam_table_shears_at_whole_psi(tmp_path) -> None:
    """A 3x6 under joists of 16 ft: 4/3 x 106 x 13.75 / 52.08 = 37.3 in; with 106.7 psi 37.6.

    IRC 2018 table R507.5 prints 3-1, from memory.
    """
    head = "id,group,plies,size,joist_span_ft,value_in\n"
    (cell,) = written(tmp_path, "us_beams.csv", head + "a,OTHER,2,2x6,16,37\n").cells
    assert standing_of(cell) == "matched"


def test_shrinkage_and_coefficients_come_from_the_table_beside(tmp_path) -> None:
    """Beech, Wood Handbook tables 4-3 and 13-5, from memory: 5.5, 11.9 % and 0.00190, 0.00431."""
    (tmp_path / "wood_shrinkage.csv").write_text(
        "species,radial_pct,tangential_pct,volumetric_pct\nBeech,5.5,11.9,17.2\n"
    )
    moves = written(tmp_path, "wood_dimchange.csv", "species,CR,CT\nBeech,0.00190,0.00431\n")
    assert counts_of(moves)["matched"] == 2
    (shrinks,) = (t for t in read_timber_tables(tmp_path) if t.table == "wood_shrinkage.csv")
    assert counts_of(shrinks) == {"matched": 2, "missed": 0, "not worked out": 1, "unread": 0}


EXAMPLE = '[[value]]\nid = "{id}"\nrole = "{role}"\nname = "{name}"\nvalue = {value}\n'


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("AWC E2.3: 1/2 x 4 in lag screw withdrawal, southern pine, 1-1/2 in side piece", 955),
        ("AWC E2.1a: 0.131 in nail withdrawal in SPF, per inch", 20.67),
        ("worked footing: 5 x 10 ft, 50 psf, 3000 psf soil, square side", 11),
        ("same, round diameter", 13),
        ("CT western redcedar from S_T 5.0 % with 22 % start", 0.00234),
        ("FPL-RP-489 width shrinkage, green to 15 %", 2.8),
        ("FPL-RP-489 thickness shrinkage, green to 15 %", 2.35),
        ("145 mm flat-sawn western redcedar board, 12 to 20 %", 2.714),
        ("IRC 2021 beam, two 2x10 SPF, effective joist span 10 ft", 93),
        ("HUD example 5.1, 2x8 at 16 in, 30+10 psf: Ld", 13.8),
        ("example: 1.0 m stem, radius", 12),
        ("wet density implied", 133.3),
        ("8 in round hole 36 in deep", 1.047),
        ("AWC example E1.2a, 4x16 DFL SS, 20 ft, centre load: CL", 1313 / 1500),
    ],
)
def test_examples_are_worked_out_from_the_figures_in_their_names(tmp_path, name, value) -> None:
    """AWC, HUD, a village, the Wood Handbook and FPL-RP-489, as told in ORIGIN.md."""
    content = EXAMPLE.format(id="x", role="result", name=name, value=value) + "tol = 0.006\n"
    assert counts_of(written(tmp_path, "check-values.toml", content))["matched"] == 1


@pytest.mark.parametrize("tol", ['"x"', '"-1"', '"nan"', '""', "0"])
def test_a_tolerance_that_cannot_be_read_lets_nothing_pass(tmp_path, tol) -> None:
    """It is told in the cell by a miss of the least; it used to end the whole folder."""
    for name, value in (("deck live load", 40.0), ("overhang point load", 220.0)):
        right, wrong = (
            EXAMPLE.format(id="x", role="result", name=name, value=told) + f"tol = {tol}\n"
            for told in (value, value + 0.001)
        )
        assert counts_of(written(tmp_path, "check-values.toml", right))["matched"] == 1
        assert counts_of(written(tmp_path, "check-values.toml", wrong))["missed"] == 1


@pytest.mark.parametrize(
    "name",
    [
        "OAK No.2 Fb",
        "specific gravity, Oak",
        "HUD example 5.1, 2x8 at 16 in, 30+10 psf: Q",
        "145 mm flat-sawn moonwood board, 12 to 20 %",
        "IRC 2021 joist span factor, cantilever/span = 1/0",
        "nobody knows this",
    ],
)
def test_examples_that_nothing_knows_are_told(tmp_path, name) -> None:
    content = EXAMPLE.format(id="x", role="result", name=name, value=1)
    (cell,) = written(tmp_path, "check-values.toml", content).cells
    assert standing_of(cell) == "not worked out"
    assert cell.why


def test_rules_and_inputs_are_left_alone_and_counted(tmp_path) -> None:
    content = EXAMPLE.format(id="x", role="rule", name="nobody knows this", value=1)
    table = written(tmp_path, "check-values.toml", content)
    assert table.cells == ()
    assert table.notes == ("1 rows give rules and inputs that are no answers, and are left alone",)
    assert "no cells" in tables_text([table])


def always(value):
    return lambda *_, **__: value


@pytest.mark.parametrize(
    ("place", "name", "broken"),
    [
        (us_tables, "table_inches", lambda mm: math.floor(mm / 25.4)),
        (nds_allowed, "wet_factor", always(0.85)),
        (nds_allowed, "wet_factor", always(1.0)),
        (nds_allowed, "incising_factor", always(1.0)),
        (us_tables, "REPEATED_RATIO", 1.0),
        (us_tables, "TWO_PLY_TABLE_RATIO", 1.0),
        (us_tables, "OVERHANG_BEARING_MM", 0.0),
        (us_tables, "DECK_DEAD_KN_M2", 0.0),
    ],
    ids=["down", "always wet", "never wet", "not incised", "Cr", "two plies", "bearing", "dead"],
)
def test_without_each_piece_cells_miss(monkeypatch, place, name, broken) -> None:
    monkeypatch.setattr(place, name, broken)
    missed = [
        cell
        for table in read_timber_tables(FOLDER)
        if table.table in {"us_joists.csv", "us_beams.csv"}
        for cell in table.cells
        if standing_of(cell) == "missed"
    ]
    assert missed
    assert "the table says" in missed[0].why


def test_the_command_tells_every_table_and_what_misses(capsys) -> None:
    assert main(["timber-tables", str(FOLDER)]) == codes.STOPPED
    told = capsys.readouterr().out.splitlines()
    assert "us_joists.csv: 72 cells, 72 matched" in told
    assert any(
        line.startswith("  missed us.post.SP.4x6.60:value_in: wanted 167 in") for line in told
    )
    assert told[-1].startswith("all tables: ")


def test_the_command_answers_in_json(tmp_path, capsys) -> None:
    shutil.copy(FOLDER / LEDGER, tmp_path)
    with (tmp_path / LEDGER).open("a") as file:
        file.write("kept,lag,9,\u00b7,,,,,\n")
    assert main(["timber-tables", "--json", str(tmp_path)]) == codes.FINE
    (table,) = json.loads(capsys.readouterr().out)
    assert table["counts"] == {"matched": 15, "missed": 0, "not worked out": 0, "unread": 1}
    assert table["cells"][-1]["wanted"] is None
    assert table["cells"][-1]["found"] == 20


def test_the_command_refuses_what_is_no_folder(tmp_path, capsys) -> None:
    assert main(["timber-tables", str(tmp_path / "gone")]) == codes.UNUSABLE
    assert "no such file" in capsys.readouterr().err


def test_every_known_file_has_what_works_it_out() -> None:
    assert {path.name for path in FOLDER.glob("us_*.csv")} < set(known_files())


FIELDS = st.one_of(
    st.sampled_from(["", "0", "-1", "nan", "1e400", "2x6", "SP", "span", "\u00b7", "16", "No.2"]),
    st.text(max_size=6),
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=150)
@given(
    st.sampled_from(sorted(path.name for path in FOLDER.glob("*.csv"))),
    st.lists(st.lists(FIELDS, min_size=1, max_size=13), max_size=4),
)
def test_no_row_whatever_brings_more_than_an_answer(tmp_path, name, rows) -> None:
    header = (FOLDER / name).read_text().splitlines()[0].split(",")
    with (tmp_path / name).open("w", newline="", encoding="utf-8", errors="replace") as file:
        csv.writer(file).writerows([header, *rows])
    (table,) = read_timber_tables(tmp_path)
    (tmp_path / name).unlink()
    assert tables_text([table])
    assert json.dumps(tables_plain([table]), allow_nan=False)


def test_a_reason_is_asked_of_every_cell_that_is_no_match() -> None:
    silent = Cell(table="t", cell="c", wanted=1.0, found=None, unit="", tolerance=0.0)
    assert "no reason told" in tables_text([TableRead(table="t", cells=(silent,))])
    assert timber_tables.HOLDERS
