"""The design bases that timber can be screened by: drylay's own two, and those of plugins."""

from collections.abc import Iterable, Mapping

from attrs import evolve

from drylay.counting import counted
from drylay.planner.own_bases import own_bases
from drylay.plugins.collect import in_order, refuse_faults
from drylay.plugins.found import read_entry_points
from drylay.plugins.loading import offered_design_bases
from drylay.plugins.model import BasisSet
from drylay.plugins.single import EntryPoint
from drylay.strength.model import DesignBasis


@counted
def installed_design_bases(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[DesignBasis] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> BasisSet:
    """Return all design bases that timber can be screened by, and the plugins that failed.

    Eurocode 5 (`eurocode-5`) and US allowable stresses (`us-allowable-stress`) are drylay's own,
    asked like those of any plugin. Who claims one of these ids loses his own.

    Args:
        blocked: Names of entry points or packages that are not to be asked; `drylay` is the
            package of its own two.
        extra: Design bases handed in by the caller, looked at like any other.
        more: Plugins handed in by name: modules, or objects with hooks.
        entry_points: What to ask instead of everything installed and drylay's own.
        strict: Raise where any plugin is faulty.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    if entry_points is None:
        points, unreadable = read_entry_points()
        asked = (*own_bases(), *points)
    else:
        asked, unreadable = tuple(entry_points), []
    found = offered_design_bases(blocked=blocked, extra=extra, more=more, entry_points=asked)
    faults = in_order([*unreadable, *found.faults])
    if strict:
        refuse_faults(faults)
    return evolve(found, faults=faults)
