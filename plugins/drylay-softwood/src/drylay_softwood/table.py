"""The table of softwood.toml: one row a number, each with its source."""

import tomllib
from importlib import resources
from math import inf
from typing import Any

from attrs import frozen

from drylay.plugins.hooks import NotCoveredError
from drylay.reasons import Source


@frozen(kw_only=True)
class Row:
    """One number of the table, for which boards it holds, and who says so."""

    name: str
    value: float
    source: Source
    thickness_from_mm: float = 0.0
    width_to_mm: float = inf
    metal: str = ""
    exposure: str = ""


@frozen(kw_only=True)
class Table:
    """All rows, in the order of the file."""

    title: str
    cautions: tuple[str, ...]
    rows: tuple[Row, ...]


def read_table() -> Table:
    """Return the table that lies in this package."""
    text = resources.files("drylay_softwood").joinpath("softwood.toml").read_text("utf-8")
    content = tomllib.loads(text)
    rows = tuple(map(_row, content["row"]))
    return Table(title=content["title"], cautions=tuple(content["cautions"]), rows=rows)


def row_for(table: Table, name: str, *, thickness_mm: float = inf, width_mm: float = 0.0) -> Row:
    """Return the row that holds for a board.

    Between two thicknesses the thinner one's row holds: nothing is interpolated.

    Raises:
        NotCoveredError: The board is thinner or wider than any row speaks of.
    """
    held = [
        row
        for row in table.rows
        if row.name == name
        and row.thickness_from_mm <= thickness_mm
        and width_mm <= row.width_to_mm
    ]
    if not held:
        raise NotCoveredError(_not_covered(table, name, thickness_mm, width_mm))
    return max(held, key=lambda row: row.thickness_from_mm)


def metal_row(table: Table, metal: str, exposure: str) -> Row:
    """Return the row on a metal in an exposure: its own, else that of all other metals.

    Raises:
        NotCoveredError: No row speaks of such a metal, or of such an exposure.
    """
    rows = [row for row in table.rows if row.name == "metal_allowed"]
    named = [row for row in rows if row.exposure == exposure and row.metal in {metal, ""}]
    if metal not in {row.metal for row in rows if row.metal} or not named:
        raise NotCoveredError(f"fixings of {metal or 'an unnamed metal'}, exposure {exposure!r}")
    return max(named, key=lambda row: row.metal)


def _row(content: dict[str, Any]) -> Row:
    read = {"value": float(content["value"]), "source": Source(**content["source"])}
    return Row(**content | read)


def _not_covered(table: Table, name: str, thickness_mm: float, width_mm: float) -> str:
    rows = [row for row in table.rows if row.name == name]
    thinnest = min(row.thickness_from_mm for row in rows)
    if not thinnest <= thickness_mm:
        return f"a board {thickness_mm:g} mm thick; the thinnest in the table is {thinnest:g} mm"
    widest = max(row.width_to_mm for row in rows)
    return f"a board {width_mm:g} mm wide; the widest in the table is {widest:g} mm"
