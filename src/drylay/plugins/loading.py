"""What is installed: families, catalogues, local rules, papers, design bases, with their plugins.

All are asked alike. A plugin with anything wrong in what it supplies supplies nothing of that
kind. Where two plugins claim one id, the one whose entry point has that name keeps it; if that
does not settle it, neither is used. What all the functions here take:

- `blocked`: names of entry points or packages that are not to be asked, not even imported.
- `extra`: what the caller hands in, looked at like any other.
- `more`: plugins the caller hands in by name: modules, or objects whose functions carry
  `hookimpl`.
- `entry_points`: what to ask instead of everything installed.
- `strict`: raise `PluginsError`, with every fault, where any plugin is faulty.
"""

from collections.abc import Collection, Iterable, Mapping

from drylay.counting import counted
from drylay.materials.model import Family
from drylay.materials.stock_model import Catalogue
from drylay.plugins.basis_shapes import basis_wrongs
from drylay.plugins.collect import Search, collected
from drylay.plugins.model import (
    BasisSet,
    CatalogueSet,
    FamilySet,
    InstalledBasis,
    InstalledCatalogue,
    InstalledFamily,
    InstalledLocalRule,
    InstalledPaper,
    LocalRule,
    LocalRuleSet,
    Paper,
    PaperSet,
)
from drylay.plugins.shapes import catalogue_wrongs, family_wrongs, local_rule_wrongs, paper_wrongs
from drylay.plugins.single import EntryPoint
from drylay.plugins.stock_form import stock_form
from drylay.strength.model import DesignBasis


@counted
def installed_families(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[Family] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> FamilySet:
    """Return all families that can be planned with, and the plugins that failed.

    Args:
        blocked: Names of entry points or packages that are not to be asked.
        extra: Families handed in by the caller, looked at like any other.
        more: Plugins handed in by name: modules, or objects with hooks.
        entry_points: What to ask instead of everything installed.
        strict: Raise where any plugin is faulty.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    search = Search(
        blocked=blocked, extra=extra, more=more, entry_points=entry_points, strict=strict
    )
    found = collected("drylay_families", _family_looked, search)
    families = [
        InstalledFamily(family=thing, origin=origin)
        for thing, origin in found.kept
        if isinstance(thing, Family)
    ]
    return FamilySet(families=tuple(families), faults=found.faults)


@counted
def installed_catalogues(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[Catalogue] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> CatalogueSet:
    """Return all stock catalogues that plugins bring along, and the plugins that failed.

    Args: as `installed_families`.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    search = Search(
        blocked=blocked, extra=extra, more=more, entry_points=entry_points, strict=strict
    )
    found = collected("drylay_catalogues", _catalogue_looked, search)
    catalogues = [
        InstalledCatalogue(catalogue=thing, origin=origin)
        for thing, origin in found.kept
        if isinstance(thing, Catalogue)
    ]
    return CatalogueSet(catalogues=tuple(catalogues), faults=found.faults)


@counted
def installed_local_rules(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[LocalRule] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> LocalRuleSet:
    """Return all rules of a region or site that plugins bring along, and the plugins that failed.

    Args: as `installed_families`; an `extra` is a name, and a function that takes a plan and
        returns a list of findings.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    search = Search(
        blocked=blocked, extra=extra, more=more, entry_points=entry_points, strict=strict
    )
    found = collected("drylay_local_rules", _local_rule_looked, search)
    rules = [
        InstalledLocalRule(name=thing[0], look=thing[1], origin=origin)
        for thing, origin in found.kept
        if isinstance(thing, tuple)
    ]
    return LocalRuleSet(rules=tuple(rules), faults=found.faults)


def offered_papers(
    *,
    ours: Collection[str],
    blocked: Iterable[str] = (),
    extra: Iterable[Paper] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> PaperSet:
    """Return all papers that plugins make, and the plugins that failed.

    Names count as one where they differ in capitals only: some file systems cannot tell them
    apart.

    Args: as `installed_families`, and `ours`: file names that no plugin may claim.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    taken = frozenset(name.lower() for name in ours)

    def look(thing: object) -> tuple[str, tuple[str, ...]]:
        return _paper_looked(thing, taken)

    search = Search(
        blocked=blocked, extra=extra, more=more, entry_points=entry_points, strict=strict
    )
    found = collected("drylay_papers", look, search)
    papers = [
        InstalledPaper(name=thing[0], make=thing[1], origin=origin)
        for thing, origin in found.kept
        if isinstance(thing, tuple)
    ]
    return PaperSet(papers=tuple(papers), faults=found.faults)


def offered_design_bases(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[DesignBasis] = (),
    more: Mapping[str, object] | None = None,
    entry_points: Iterable[EntryPoint] | None = None,
    strict: bool = False,
) -> BasisSet:
    """Return all design bases that plugins offer, and the plugins that failed.

    Args: as `installed_families`. drylay's own two are among them only where they are handed in.

    Raises:
        PluginsError: `strict`, and a plugin is faulty; lists every fault.
    """
    search = Search(
        blocked=blocked, extra=extra, more=more, entry_points=entry_points, strict=strict
    )
    found = collected("drylay_design_bases", _basis_looked, search)
    bases = [
        InstalledBasis(basis=thing, origin=origin)
        for thing, origin in found.kept
        if isinstance(thing, DesignBasis)
    ]
    return BasisSet(bases=tuple(bases), faults=found.faults)


def _basis_looked(thing: object) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(basis_wrongs(thing))
    return thing.id if isinstance(thing, DesignBasis) and not wrongs else "", wrongs


def _family_looked(thing: object) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(family_wrongs(thing))
    return thing.id if isinstance(thing, Family) else "", wrongs


def _catalogue_looked(thing: object) -> tuple[str, tuple[str, ...]]:
    from drylay.materials.loader import check_catalogue

    wrongs = tuple(catalogue_wrongs(thing))
    if wrongs or not isinstance(thing, Catalogue):
        return "", wrongs
    # whoever made it, it is held to what a stock file is held to
    faults = check_catalogue(stock_form(thing))
    return thing.name, tuple(f"catalogue {thing.name}: {fault}" for fault in faults)


def _local_rule_looked(thing: object) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(local_rule_wrongs(thing))
    return str(thing[0]) if isinstance(thing, tuple) and not wrongs else "", wrongs


def _paper_looked(thing: object, taken: Collection[str]) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(paper_wrongs(thing))
    if wrongs or not isinstance(thing, tuple):
        return "", wrongs
    name = str(thing[0]).lower()
    return name, (f"claims {thing[0]}, which is drylay's own",) if name in taken else ()
