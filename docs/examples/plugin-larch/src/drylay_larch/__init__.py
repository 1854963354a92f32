"""Larch: laid as treated softwood is, but for what larch.toml says."""

from drylay.materials.model import Family
from drylay.plugins.hooks import hookimpl
from drylay.plugins.table import table_family
from drylay_softwood.family import softwood


@hookimpl
def drylay_families() -> list[Family]:
    """Return the one family of this package."""
    return [table_family(__name__, "larch.toml", base=softwood())]
