"""Factors and fasteners of the US basis as printed: the tables of nds_factors.toml."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from drylay.reasons import Source


@cache
def _content() -> dict[str, Any]:
    text = resources.files("drylay.strength").joinpath("nds_factors.toml").read_text("utf-8")
    return tomllib.loads(text)


def table_names() -> tuple[str, ...]:
    """Return the names of all tables."""
    return tuple(_content())


def table_source(name: str) -> Source:
    """Return where a table is from."""
    return Source(**_content()[name]["source"])


def named_values(name: str) -> dict[str, float]:
    """Return the values of a table by what they are of."""
    return {key: float(value) for key, value in _content()[name].items() if key != "source"}


def rows_of(name: str) -> tuple[tuple[float, ...], ...]:
    """Return the rows of a table, as printed, in its order."""
    return tuple(tuple(map(float, row)) for row in _content()[name]["rows"])
