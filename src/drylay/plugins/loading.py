"""What is installed: families and catalogues, each with the plugin it came from."""

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from importlib import metadata

from attrs import frozen

from drylay.materials.model import Family
from drylay.materials.stock_model import Catalogue
from drylay.plugins.hooks import GROUP
from drylay.plugins.model import (
    CatalogueSet,
    FamilySet,
    InstalledCatalogue,
    InstalledFamily,
    InstalledPaper,
    Origin,
    Paper,
    PaperSet,
    PluginFault,
)
from drylay.plugins.shapes import catalogue_wrongs, family_wrongs, paper_wrongs, told
from drylay.plugins.single import EntryPoint, origin_of, supplied

HANDED_IN = "handed in"
BLOCKED = "blocked by the caller"


@frozen(kw_only=True)
class _Supply:
    """Everything one plugin supplies, each under the id that must be its own."""

    origin: Origin
    things: tuple[tuple[str, object], ...]


def installed_families(
    *,
    blocked: Iterable[str] = (),
    extra: Iterable[Family] = (),
    entry_points: Iterable[EntryPoint] | None = None,
) -> FamilySet:
    """Return all families that can be planned with, and the plugins that failed.

    A plugin with anything wrong in it supplies nothing. Where two plugins claim one family
    id, the one whose entry point has that name keeps it; if that does not settle it, neither
    is used.

    Args:
        blocked: Names of entry points or packages that are not to be asked.
        extra: Families handed in by the caller, looked at like any other.
        entry_points: What to ask instead of everything installed.
    """
    supplies = _ask_all("drylay_families", _family_looked, blocked, entry_points)
    kept, faults = _settle([*supplies, *_handed(extra, _family_looked)])
    found = [
        InstalledFamily(family=thing, origin=origin)
        for thing, origin in kept
        if isinstance(thing, Family)
    ]
    return FamilySet(families=tuple(found), faults=faults)


def installed_catalogues(
    *,
    blocked: Iterable[str] = (),
    entry_points: Iterable[EntryPoint] | None = None,
) -> CatalogueSet:
    """Return all stock catalogues that plugins bring along, and the plugins that failed.

    Args:
        blocked: Names of entry points or packages that are not to be asked.
        entry_points: What to ask instead of everything installed.
    """
    supplies = _ask_all("drylay_catalogues", _catalogue_looked, blocked, entry_points)
    kept, faults = _settle(supplies)
    found = [
        InstalledCatalogue(catalogue=thing, origin=origin)
        for thing, origin in kept
        if isinstance(thing, Catalogue)
    ]
    return CatalogueSet(catalogues=tuple(found), faults=faults)


def offered_papers(
    *,
    ours: Collection[str],
    blocked: Iterable[str] = (),
    extra: Iterable[Paper] = (),
    entry_points: Iterable[EntryPoint] | None = None,
) -> PaperSet:
    """Return all papers that plugins make, and the plugins that failed.

    Names count as one where they differ in capitals only: some file systems cannot tell them
    apart.

    Args:
        ours: File names that no plugin may claim.
        blocked: Names of entry points or packages that are not to be asked.
        extra: Papers handed in by the caller, looked at like any other.
        entry_points: What to ask instead of everything installed.
    """
    taken = frozenset(name.lower() for name in ours)

    def look(thing: object) -> tuple[str, tuple[str, ...]]:
        return _paper_looked(thing, taken)

    supplies = _ask_all("drylay_papers", look, blocked, entry_points)
    kept, faults = _settle([*supplies, *_handed(extra, look)])
    found = [
        InstalledPaper(name=thing[0], make=thing[1], origin=origin)
        for thing, origin in kept
        if isinstance(thing, tuple)
    ]
    return PaperSet(papers=tuple(found), faults=faults)


#: Gives a supplied thing's id and everything wrong with it.
_Look = Callable[[object], tuple[str, tuple[str, ...]]]


def _family_looked(thing: object) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(family_wrongs(thing))
    return thing.id if isinstance(thing, Family) else "", wrongs


def _catalogue_looked(thing: object) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(catalogue_wrongs(thing))
    return thing.name if isinstance(thing, Catalogue) else "", wrongs


def _paper_looked(thing: object, taken: Collection[str]) -> tuple[str, tuple[str, ...]]:
    wrongs = tuple(paper_wrongs(thing))
    if wrongs or not isinstance(thing, tuple):
        return "", wrongs
    name = str(thing[0]).lower()
    return name, (f"claims {thing[0]}, which is drylay's own",) if name in taken else ()


def _handed(extra: Iterable[object], look: _Look) -> list[_Supply | PluginFault]:
    """Return what the caller hands in, looked at as one plugin; nothing for nothing."""
    things = tuple(extra)
    return [_looked_at(Origin(plugin=HANDED_IN), things, look)] if things else []


def _ask_all(
    hook: str, look: _Look, blocked: Iterable[str], entry_points: Iterable[EntryPoint] | None
) -> list[_Supply | PluginFault]:
    barred = frozenset(blocked)
    asked = _installed() if entry_points is None else entry_points
    return [_ask_one(entry_point, hook, look, barred) for entry_point in asked]


def _installed() -> Sequence[EntryPoint]:
    return tuple(metadata.entry_points(group=GROUP))


def _ask_one(
    entry_point: EntryPoint, hook: str, look: _Look, barred: frozenset[str]
) -> _Supply | PluginFault:
    origin = origin_of(entry_point)
    if barred & {origin.plugin, origin.package}:
        return PluginFault(origin=origin, wrong=BLOCKED)
    answer = supplied(entry_point, hook)
    if isinstance(answer, PluginFault):
        return answer
    return _looked_at(origin, answer, look)


def _looked_at(origin: Origin, things: Sequence[object], look: _Look) -> _Supply | PluginFault:
    try:
        looked = [look(thing) for thing in things]
    except (Exception, SystemExit) as error:
        return PluginFault(origin=origin, wrong=f"cannot be looked at: {told(error)}")
    wrongs = [wrong for _, found in looked for wrong in found]
    names = [name for name, _ in looked]
    wrongs = wrongs or [f"supplies {name} twice" for name in _twice(names)]
    if wrongs:
        return PluginFault(origin=origin, wrong="; ".join(wrongs))
    return _Supply(origin=origin, things=tuple(zip(names, things, strict=True)))


def _twice(names: Iterable[str]) -> list[str]:
    return sorted(name for name, count in Counter(names).items() if count > 1)


def _settle(
    answers: list[_Supply | PluginFault],
) -> tuple[list[tuple[object, Origin]], tuple[PluginFault, ...]]:
    """Return what stands, in the order of its ids, and every fault, clashes among them."""
    supplies = [answer for answer in answers if isinstance(answer, _Supply)]
    faults = [answer for answer in answers if isinstance(answer, PluginFault)]
    clashes = list(_clashes(supplies))
    spoilt = {clash.origin for clash in clashes}
    kept = [
        (name, thing, supply.origin)
        for supply in supplies
        if supply.origin not in spoilt
        for name, thing in supply.things
    ]
    kept.sort(key=lambda item: item[0])
    return [(thing, origin) for _, thing, origin in kept], _in_order([*faults, *clashes])


def _clashes(supplies: list[_Supply]) -> Iterator[PluginFault]:
    shared = set(_twice(name for supply in supplies for name, _ in supply.things))
    for supply in supplies:
        claims = sorted(name for name, _ in supply.things if name in shared)
        lost = [name for name in claims if _owners(name, supplies) != [supply.origin]]
        if lost:
            wrong = f"claims {', '.join(lost)}, which another plugin supplies too"
            yield PluginFault(origin=supply.origin, wrong=wrong)


def _owners(name: str, supplies: list[_Supply]) -> list[Origin]:
    """Return which of those that supply `name` have an entry point of that name."""
    return [
        supply.origin
        for supply in supplies
        if supply.origin.plugin == name and name in dict(supply.things)
    ]


def _in_order(faults: Iterable[PluginFault]) -> tuple[PluginFault, ...]:
    return tuple(sorted(faults, key=lambda f: (f.origin.plugin, f.origin.package, f.wrong)))
