"""The family of treated softwood: its table is all there is to it."""

from drylay.materials.model import Family
from drylay.plugins.table import table_family


def softwood() -> Family:
    """Return the family, its table read afresh.

    Source: softwood.toml, each number its own.
    """
    return table_family("drylay_softwood", "softwood.toml")
