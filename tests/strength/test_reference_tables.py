"""Every open cell of the outside tables matches, or is listed here with its reason."""

from pathlib import Path

import pytest
from attrs import evolve

from drylay.testing.timber_rows import standing_of
from drylay.testing.timber_tables import counts_of, read_timber_tables

FOLDER = Path(__file__).parents[1] / "reference" / "timber"
TABLES = {table.table: table for table in read_timber_tables(FOLDER)}

#: Cells of tables, as many as the files hold: rows times columns of answers.
CELLS = {
    "us_joists.csv": 72,
    "us_joists_2021.csv": 19,
    "us_beams.csv": 76,
    "us_footings.csv": 45,
    "us_ledger.csv": 15,
    "us_posts.csv": 9,
    "wood_dimchange.csv": 36,
    "wood_emc.csv": 12,
    "wood_shrinkage.csv": 69,
}
MISSED = {
    "us.post.SP.4x6.60:value_in": "the table, from memory, is an inch below the NDS column",
    "Teak:CR": "from memory in both tables, which do not agree",
    "Teak:CT": "from memory in both tables, which do not agree",
    "wood.mst.b": "the page contradicts its own formula, which gives 12.99",
}


@pytest.mark.parametrize("name", sorted(CELLS))
def test_every_open_cell_matches_or_is_listed(name: str) -> None:
    table = TABLES[name]
    assert len(table.cells) == CELLS[name]
    assert not table.notes
    missed = {cell.cell for cell in table.cells if standing_of(cell) == "missed"}
    assert missed <= set(MISSED)
    left = {cell.cell for cell in table.cells if standing_of(cell) == "not worked out"}
    assert all(cell.endswith(":volumetric_pct") for cell in left)
    assert counts_of(table)["unread"] == 0


def test_examples_match_or_are_listed() -> None:
    """Those of Eurocode 5 have a test of their own."""
    topics = ("us.", "wood.", "wpc.", "alu.", "site.")
    ours = [cell for cell in TABLES["check-values.toml"].cells if cell.cell.startswith(topics)]
    assert len(ours) == 69
    missed = {cell.cell for cell in ours if standing_of(cell) != "matched"}
    assert missed == {"wood.mst.b"}


def test_what_is_listed_does_miss() -> None:
    found = {
        cell.cell
        for table in TABLES.values()
        for cell in table.cells
        if standing_of(cell) == "missed"
    }
    assert found >= set(MISSED)


@pytest.mark.parametrize("name", sorted(CELLS))
def test_a_cell_that_is_an_inch_or_a_tenth_off_is_seen(name: str) -> None:
    cell = next(cell for cell in TABLES[name].cells if standing_of(cell) == "matched")
    step = {"in": 1.0, "%": 0.7, "1/%": 0.0001}[cell.unit]
    assert standing_of(evolve(cell, wanted=cell.wanted + step)) == "missed"
