"""Every open cell of the outside tables of Eurocode 5, or the reason why not."""

import csv
import tomllib
from collections import Counter
from math import cos, radians, sin
from pathlib import Path

import pytest

from drylay.strength import ec5_values
from drylay.testing import timber_tables
from drylay.testing.ec5_tables import TABLES
from drylay.testing.ec5_values_table import check_values
from drylay.testing.timber_rows import standing_of

OUTSIDE = Path(__file__).parents[1] / "reference" / "timber"
#: Cells in each table, counted in the file: rows x columns of answers.
COUNTED = {
    "en338.csv": 17 * 12,
    "ec5_dowels.csv": 165 * 3,
    "ec5_joists_derived.csv": 64 * 7,
    "check-values.toml": 63,
}
#: Cells that do not match, and why: two misprints, and rows whose making nobody told.
LISTED = {
    "ec5.dowel.16.15.30:Rk_kN": "misprint",
    "ec5.dowel.20.75.30:Rk_kN": "misprint",
    "uk.commercial.q": "crowd use is a stop",
    "uk.quote.C24.400": "how the table was made",
    "uk.quote.6x2.400": "how the table was made",
    "uk.floor.47x120": "how the table was made",
    "uk.floor.47x170": "how the table was made",
    "uk.floor.47x195": "how the table was made",
    "uk.floor.47x220": "how the table was made",
}


def rows_of(table: str) -> list[dict[str, str]]:
    if table.endswith(".csv"):
        with (OUTSIDE / table).open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))
    text = (OUTSIDE / "check-values.toml").read_text(encoding="utf-8")
    return [{k: str(v) for k, v in row.items()} for row in tomllib.loads(text)["value"]]


@pytest.mark.parametrize("table", TABLES)
def test_every_open_cell_matches_or_is_listed(table: str) -> None:
    cells = TABLES[table](rows_of(table))
    assert len(cells) == COUNTED[table]
    missed = {cell.cell: cell.why for cell in cells if standing_of(cell) != "matched"}
    known = {cell.cell for cell in cells} & set(LISTED)
    assert set(missed) == known
    assert all(LISTED[cell] in why for cell, why in missed.items())


def test_a_wrong_cell_is_seen_in_each_table() -> None:
    for table, column in (
        ("en338.csv", "fc0_k"),
        ("ec5_dowels.csv", "t1_mm"),
        ("ec5_joists_derived.csv", "fin_L250"),
        ("check-values.toml", "value"),
    ):
        row = next(each for each in rows_of(table) if each.get("topic", "ec5") == "ec5")
        spoilt = row | {column: str(float(row[column]) * 1.1)}
        standings = Counter(map(standing_of, TABLES[table]([spoilt])))
        assert standings["missed"] == 1, table


def test_rows_that_cannot_be_read_are_told_not_raised() -> None:
    for table, answering in TABLES.items():
        broken = [{"topic": "ec5", "name": "kmod, solid timber, service class 3, never"}]
        for cell in answering([*broken, {"class": "X9", "topic": "ec5", "name": "nothing"}]):
            assert standing_of(cell) != "matched", table
            assert cell.why, table


def test_other_topics_are_left_to_others() -> None:
    assert check_values([{"topic": "us", "name": "kmod", "value": "1"}]) == ()
    assert check_values([{"topic": "guards_stairs", "name": "guard height", "value": "1"}]) == ()


def test_a_formula_of_distances_is_compared_at_thirty_degrees() -> None:
    row = {"topic": "ec5", "name": "EC5 Table 8.2 nail/screw distance a4t, pre-drilled"}
    (cell,) = check_values([row | {"value": "(3+4 sin a) d"}])
    assert cell.wanted == pytest.approx(3 + 4 * sin(radians(30)))
    assert cell.found == pytest.approx(5.0)
    (cell,) = check_values([row | {"value": "(3+2|cos a|) d"}])
    assert cell.wanted == pytest.approx(3 + 2 * cos(radians(30)))
    (cell,) = check_values([row | {"value": "three"}])
    assert standing_of(cell) == "unread"
    (cell,) = check_values([row | {"value": "5 d", "tol": "x"}])
    assert cell.tolerance == 0.0
    (cell,) = check_values([row | {"value": "nan"}])
    assert (standing_of(cell), cell.why) == ("unread", "value is out of range: 'nan'")
    (cell,) = check_values([row | {"value": "5.1", "note": "by hand"}])
    assert (standing_of(cell), cell.why) == ("missed", "the table says: by hand")


def test_the_tables_are_known_by_their_names() -> None:
    assert "ec5_tables" in timber_tables.HOLDERS
    assert set(TABLES) == set(COUNTED)
    assert set(TABLES) <= set(timber_tables.known_files())


def test_every_value_says_who_says_so_and_how_it_was_seen() -> None:
    for told in ec5_values.values():
        assert told.source.title
        assert told.source.clause
        assert dict(told.inputs)["standing"] in {
            "read in transcriptions", "from memory", "derived", "assumption",
        }  # fmt: skip
        if dict(told.inputs)["standing"] == "from memory":
            assert told.source.kind == "from memory"


@pytest.mark.parametrize(
    ("name", "wanted", "where"),
    [
        ("a joist 75x200 C24 at 500 mm, 4.5 m, g 0.5 q 1.5: bending utilisation", 0.45573,
         "(1.35 x 0.5 + 1.5 x 1.5) x 0.5 x 4.5^2 / 8 over 500000, over 24 x 0.8 x 1.1 / 1.3"),
        ("critical bending stress, 100x200, lef 4 m, E0.05 = E/2", 53.625,
         "0.78 x 100^2 x 5500 / (200 x 4000)"),
        ("withdrawal strength, d 6, lef 40, C16", 14.448,
         "0.212289 x 0.69150 x 98.421"),
        ("same, Fax,k", 6735.4, "13.155 x 8 x 64: worked apart"),
        ("UK net final deflection limit, members with brittle finish, span over", 250, "table"),
        ("cantilever, other members, length over", 75, "table"),
        ("Johansen mode a: screw 6x80, 40 mm board on joist, C24, pre-drilled, fu 600, no rope",
         6474.7, "0.082 x 0.94 x 350 x 40 x 6"),
    ],
)  # fmt: skip
def test_a_row_not_seen_before_is_worked_out_from_its_name(
    name: str, wanted: float, where: str
) -> None:
    row = {"topic": "ec5", "id": "new", "name": name, "value": str(wanted), "tol": "1e-4"}
    (cell,) = check_values([row])
    assert standing_of(cell) == "matched", (where, cell.found)
