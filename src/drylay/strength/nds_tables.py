"""Factors and fasteners of the US basis as printed: the tables of nds_factors.toml."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from drylay.reasons import Source
from drylay.strength.meant import one_of, refuse


@cache
def _content() -> dict[str, Any]:
    text = resources.files("drylay.strength").joinpath("nds_factors.toml").read_text("utf-8")
    return tomllib.loads(text)


@cache
def _names(*, rows: bool) -> tuple[str, ...]:
    return tuple(name for name, table in _content().items() if ("rows" in table) == rows)


def table_names() -> tuple[str, ...]:
    """Return the names of all tables."""
    return tuple(_content())


def table_source(name: str) -> Source:
    """Return where a table is from.

    Raises:
        InputError: There is no such table.
    """
    refuse(one_of(_content(), name=name))
    return Source(**_content()[name]["source"])


def named_values(name: str) -> dict[str, float]:
    """Return the values of a table by what they are of.

    Raises:
        InputError: There is no such table, or it has rows.
    """
    refuse(one_of(_names(rows=False), name=name))
    return {key: float(value) for key, value in _content()[name].items() if key != "source"}


def rows_of(name: str) -> tuple[tuple[float, ...], ...]:
    """Return the rows of a table, as printed, in its order.

    Raises:
        InputError: There is no such table, or it has no rows.
    """
    refuse(one_of(_names(rows=True), name=name))
    return tuple(tuple(map(float, row)) for row in _content()[name]["rows"])
