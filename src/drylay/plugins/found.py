"""Which plugins there are: entry points of installed packages, and those handed in."""

from collections.abc import Iterable, Mapping
from importlib import metadata
from typing import Protocol

from attrs import frozen

from drylay.plugins.hooks import GROUP, MEANT
from drylay.plugins.model import Origin, PluginFault
from drylay.plugins.shapes import told
from drylay.plugins.single import EntryPoint, Package, origin_of, record_of

BLOCKED = "blocked by the caller"
#: What stands for the name of an entry point that cannot be read.
UNREADABLE = "(unreadable)"


@frozen(kw_only=True)
class _InHand:
    """A plugin that the caller hands in: a module, or an object with hooks."""

    name: str
    plugin: object
    group: str = GROUP
    dist: Package | None = None

    def load(self) -> object:
        return self.plugin


def plugins_to_ask(
    *,
    blocked: Iterable[str],
    more: Mapping[str, object] | None,
    entry_points: Iterable[EntryPoint] | None,
) -> tuple[list[EntryPoint], list[PluginFault]]:
    """Return the plugins to ask, and the faults of those that are not to be.

    These are the blocked ones, those written for another release of the hooks, and packages
    whose list of entry points cannot be read.
    """
    found, faults = read_entry_points() if entry_points is None else (tuple(entry_points), [])
    found = (*found, *(_InHand(name=name, plugin=each) for name, each in (more or {}).items()))
    barred = frozenset([blocked] if isinstance(blocked, str) else blocked)
    both = {_place(entry_point) for entry_point in found if entry_point.group == GROUP}
    asked: list[EntryPoint] = []
    for entry_point in found:
        origin = origin_of(entry_point)
        if barred & {origin.plugin, origin.package}:
            faults.append(PluginFault(origin=origin, kind="blocked", wrong=BLOCKED))
        elif entry_point.group == GROUP:
            asked.append(entry_point)
        elif _place(entry_point) not in both:
            faults.append(_another_release(origin, entry_point.group))
    return asked, faults


def installed_names(own: Iterable[EntryPoint] = ()) -> tuple[str, ...]:
    """Return the names of all installed plugins and of their packages, in their order.

    Those of `own` are among them, which no package records.
    """
    found, faults = read_entry_points()
    origins = [*map(origin_of, (*own, *found)), *(fault.origin for fault in faults)]
    names = {name for origin in origins for name in (origin.plugin, origin.package)}
    return tuple(sorted(names - {"", UNREADABLE}))


def _place(entry_point: EntryPoint) -> tuple[str, str]:
    origin = origin_of(entry_point)
    return origin.plugin, origin.package


def _another_release(origin: Origin, group: str) -> PluginFault:
    wrong = (
        f"written for the hooks {group}, and this drylay has {GROUP}: install releases of the two "
        "that go together"
    )
    return PluginFault(origin=origin, kind="another release", wrong=wrong)


def read_entry_points() -> tuple[tuple[EntryPoint, ...], list[PluginFault]]:
    """Return the entry points meant for drylay, and what cannot be read."""
    try:
        return _meant(metadata.entry_points()), []
    except Exception:  # one package with a spoilt list spoils it for all: so each by itself
        return _one_by_one()


def _one_by_one() -> tuple[tuple[EntryPoint, ...], list[PluginFault]]:
    found: dict[str, tuple[EntryPoint, ...]] = {}
    faults: list[PluginFault] = []
    for package in metadata.distributions():
        name = record_of(package, "name")
        if name in found:
            continue  # as imports do: the first on the path counts
        try:
            found[name] = _meant(package.entry_points)
        except Exception as error:
            found[name] = ()
            faults += _unreadable(package, name, error)
    return tuple(point for points in found.values() for point in points), faults


def _unreadable(package: metadata.Distribution, name: str, error: Exception) -> list[PluginFault]:
    """Return the fault of a spoilt list of entry points, if it speaks of drylay."""
    if "drylay" not in (package.read_text("entry_points.txt") or ""):
        return []
    wrong = f"its list of entry points cannot be read: {told(error)}"
    origin = Origin(plugin=UNREADABLE, package=name)
    return [PluginFault(origin=origin, kind="import", wrong=wrong)]


class _Points(Protocol):
    """Entry points, as `importlib.metadata` hands them over in any release of Python."""

    @property
    def groups(self) -> set[str]: ...

    def select(self, *, group: str) -> metadata.EntryPoints: ...


def _meant(points: _Points) -> tuple[EntryPoint, ...]:
    groups = [group for group in sorted(points.groups) if MEANT.fullmatch(group)]
    return tuple(point for group in groups for point in points.select(group=group))
