"""Wood-plastic composite deck boards: the family, found by drylay through its entry point."""

from drylay.materials.model import Family
from drylay.plugins.hooks import hookimpl

__version__ = "0.1.0"


@hookimpl
def drylay_families() -> list[Family]:
    """Return the one family of this package."""
    from drylay_composite.family import composite

    return [composite()]
