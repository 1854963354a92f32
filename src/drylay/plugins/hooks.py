"""The hooks a plugin may offer, and the mark it puts on its own functions.

A plugin is a package with an entry point in the group `drylay.v1` that names a module (or
another object) whose functions carry `hookimpl`. All hooks collect: each plugin is asked by
itself, and one that fails spoils only itself.
"""

import re
from collections.abc import Sequence

import pluggy

from drylay.errors import DrylayError
from drylay.materials.model import Family
from drylay.materials.stock_model import Catalogue
from drylay.plugins.model import LocalRule, Paper
from drylay.strength.model import DesignBasis

PROJECT = "drylay"
GROUP = "drylay.v1"
#: Groups that are meant for drylay's hooks, whatever release of them or spelling.
MEANT = re.compile(r"drylay[._-]?v?[._-]?\d+(\.\d+)*", re.IGNORECASE | re.ASCII)

hookspec = pluggy.HookspecMarker(PROJECT)
hookimpl = pluggy.HookimplMarker(PROJECT)


class NotCoveredError(DrylayError, LookupError):
    """What a rule raises for a question it has no answer to; the plan then stops there."""


@hookspec
def drylay_families() -> Sequence[Family]:
    """Return the families of boards this plugin has rules for."""
    return ()


@hookspec
def drylay_catalogues() -> Sequence[Catalogue]:
    """Return the stock catalogues this plugin brings along."""
    return ()


@hookspec
def drylay_local_rules() -> Sequence[LocalRule]:
    """Return the rules of a region or site: each a name, and what finds something in a plan."""
    return ()


@hookspec
def drylay_papers() -> Sequence[Paper]:
    """Return the papers this plugin makes: each a file name, and a function of one plan."""
    return ()


@hookspec
def drylay_design_bases() -> Sequence[DesignBasis]:
    """Return the design bases that this plugin screens timber by."""
    return ()
