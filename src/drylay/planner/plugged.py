"""What each installed plugin supplies, and which are faulty."""

from collections.abc import Iterable, Mapping

from drylay.counting import counted
from drylay.planner.bases import installed_design_bases
from drylay.planner.folder import installed_papers
from drylay.planner.own_bases import own_bases
from drylay.plugins.collect import refuse_faults
from drylay.plugins.found import plugins_to_ask, read_entry_points
from drylay.plugins.loading import installed_catalogues, installed_families, installed_local_rules
from drylay.plugins.model import InstalledPlugin, Origin, PluginFault
from drylay.plugins.single import EntryPoint, origin_of


@counted
def installed_plugins(
    *,
    blocked: Iterable[str] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> tuple[InstalledPlugin, ...]:
    """Return every plugin with what it supplies and what is wrong with it, in order of names.

    drylay's own two design bases are plugins too.

    Args:
        blocked: Names of entry points or packages that are not to be asked.
        more: Plugins handed in by name: modules, or objects with hooks.
        entry_points: What to ask instead of everything installed.
        strict: Raise where any plugin is faulty.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    barred = tuple([blocked] if isinstance(blocked, str) else blocked)
    given = () if entry_points is None else tuple(entry_points)
    points, unreadable = read_entry_points() if entry_points is None else (given, [])
    points = (*own_bases(), *points) if entry_points is None else points
    families = installed_families(blocked=barred, more=more, entry_points=points)
    catalogues = installed_catalogues(blocked=barred, more=more, entry_points=points)
    local_rules = installed_local_rules(blocked=barred, more=more, entry_points=points)
    papers = installed_papers(blocked=barred, more=more, entry_points=points)
    bases = installed_design_bases(blocked=barred, more=more, entry_points=points)
    faults = (
        *unreadable,
        *families.faults,
        *catalogues.faults,
        *local_rules.faults,
        *papers.faults,
        *bases.faults,
    )
    if strict:
        refuse_faults(faults)
    asked, _ = plugins_to_ask(blocked=barred, more=more, entry_points=points)
    origins = {*map(origin_of, asked), *(fault.origin for fault in faults)}
    return tuple(
        InstalledPlugin(
            origin=origin,
            families=tuple(f.family.id for f in families.families if f.origin == origin),
            catalogues=tuple(c.catalogue.name for c in catalogues.catalogues if c.origin == origin),
            papers=tuple(p.name for p in papers.papers if p.origin == origin),
            local_rules=tuple(r.name for r in local_rules.rules if r.origin == origin),
            design_bases=tuple(b.basis.id for b in bases.bases if b.origin == origin),
            faults=_of(origin, faults),
        )
        for origin in sorted(origins, key=lambda o: (o.plugin, o.package, o.version))
    )


def _of(origin: Origin, faults: Iterable[PluginFault]) -> tuple[PluginFault, ...]:
    """Return a plugin's faults, each once: one that cannot be imported fails at every hook."""
    return tuple(dict.fromkeys(fault for fault in faults if fault.origin == origin))
