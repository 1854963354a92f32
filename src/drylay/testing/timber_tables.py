"""Folders of outside tables, each cell worked out again and compared.

A file is known by its name. `TABLES` of `us_tables`, `wood_tables` and `ec5_tables` each map a
file's name to the function that works out its cells; a file that more than one of them knows
(`check-values.toml`) gets the cells of all. Rows come as text, column by column.
"""

from collections.abc import Mapping, Sequence
from importlib import import_module

from drylay.testing.timber_rows import Answering

#: The files of this package that hold a mapping `TABLES: dict[str, Answering]`.
HOLDERS: Sequence[str] = ("us_tables", "wood_tables", "ec5_tables")


def known_tables() -> Mapping[str, tuple[Answering, ...]]:
    """Return what works out the cells of each file that is known by its name."""
    known: dict[str, tuple[Answering, ...]] = {}
    for holder in HOLDERS:
        for name, answering in import_module(f"drylay.testing.{holder}").TABLES.items():
            known[name] = (*known.get(name, ()), answering)
    return known
