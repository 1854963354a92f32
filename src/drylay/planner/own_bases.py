"""drylay's own two design bases, as plugins: asked through the hook like anybody's.

They are handed in here and are no entry points of the package, so that no stale record of an
installation can leave them out; a caller may, by the basis's id or all of `drylay`.
"""

from collections.abc import Callable
from importlib import import_module
from types import SimpleNamespace

from attrs import frozen

import drylay
from drylay.plugins.hooks import GROUP, hookimpl
from drylay.plugins.single import EntryPoint, Package
from drylay.strength.model import DesignBasis

#: Each named like its basis, which so keeps its id, and where the function lies that makes it.
OWN = {
    "eurocode-5": ("drylay.strength.ec5_basis", "eurocode_5"),
    "us-allowable-stress": ("drylay.strength.nds_basis", "us_allowable_stress"),
}


@frozen(kw_only=True)
class _Ours:
    """The package that these plugins belong to."""

    name: str = "drylay"
    version: str = drylay.__version__


@frozen(kw_only=True)
class _Own:
    """A plugin of drylay's own; what makes its basis is imported when it is asked."""

    name: str
    group: str = GROUP
    dist: Package | None = _Ours()

    def load(self) -> object:
        home, name = OWN[self.name]
        make: Callable[[], DesignBasis] = getattr(import_module(home), name)

        @hookimpl
        def drylay_design_bases() -> list[DesignBasis]:
            return [make()]

        return SimpleNamespace(drylay_design_bases=drylay_design_bases)


def own_bases() -> tuple[EntryPoint, ...]:
    """Return drylay's own design bases as the plugins they are."""
    return tuple(_Own(name=name) for name in OWN)
