"""What all plugins supply for one hook: looked at, clashes settled, every fault kept."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from attrs import field, frozen

from drylay.errors import Fault, PluginsError
from drylay.plugins.found import plugins_to_ask
from drylay.plugins.model import Origin, PluginFault
from drylay.plugins.shapes import told
from drylay.plugins.single import EntryPoint, origin_of, supplied

HANDED_IN = "handed in"

#: Gives a supplied thing's id and everything wrong with it.
Look = Callable[[object], tuple[str, tuple[str, ...]]]


@frozen(kw_only=True)
class Search:
    """Which plugins to ask, and what the caller adds to them or leaves out."""

    blocked: Iterable[str] = ()
    extra: Iterable[object] = ()
    more: Mapping[str, object] | None = None
    entry_points: Iterable[EntryPoint] | None = None
    strict: bool = False


@frozen(kw_only=True)
class Collected:
    """What stands, in the order of its ids, with its plugin; and every fault."""

    kept: tuple[tuple[object, Origin], ...]
    faults: tuple[PluginFault, ...]


@frozen(kw_only=True)
class _Supply:
    """Everything one plugin supplies, each under the id that must be its own."""

    origin: Origin
    things: tuple[tuple[str, object], ...] = field(default=())


def collected(hook: str, look: Look, search: Search) -> Collected:
    """Return what plugins supply for a hook.

    Raises:
        PluginsError: The search is strict and a plugin is faulty; lists every fault.
    """
    asked, faults = plugins_to_ask(
        blocked=search.blocked, more=search.more, entry_points=search.entry_points
    )
    answers: list[_Supply | PluginFault] = [*faults]
    answers += [_ask_one(entry_point, hook, look) for entry_point in asked]
    answers += _handed(search.extra, look)
    found = _settle(answers)
    if search.strict:
        refuse_faults(found.faults)
    return found


def refuse_faults(faults: Iterable[PluginFault]) -> None:
    """Raise what faults there are, but for plugins that the caller blocked.

    Raises:
        PluginsError: There are any.
    """
    told_of = dict.fromkeys(fault for fault in faults if fault.kind != "blocked")
    if told_of:
        raise PluginsError(
            tuple(
                Fault(path=_named(fault.origin), found=wrong, wanted="a plugin without fault")
                for fault in told_of
                for wrong in fault.wrongs or (fault.wrong,)
            )
        )


def _named(origin: Origin) -> str:
    return f"plugin {origin.plugin}" + (f" of package {origin.package}" if origin.package else "")


def _handed(extra: Iterable[object], look: Look) -> list[_Supply | PluginFault]:
    """Return what the caller hands in, looked at as one plugin; nothing for nothing."""
    things = tuple(extra)
    return [_looked_at(Origin(plugin=HANDED_IN), things, look)] if things else []


def _ask_one(entry_point: EntryPoint, hook: str, look: Look) -> _Supply | PluginFault:
    answer = supplied(entry_point, hook)
    if isinstance(answer, PluginFault):
        return answer
    return _looked_at(origin_of(entry_point), answer, look)


def _looked_at(origin: Origin, things: Sequence[object], look: Look) -> _Supply | PluginFault:
    try:
        looked = [look(thing) for thing in things]
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        wrong = f"cannot be looked at: {told(error)}"
        return PluginFault(origin=origin, kind="bad answer", wrong=wrong)
    wrongs = [wrong for _, found in looked for wrong in found]
    names = [name for name, _ in looked]
    wrongs = wrongs or [f"supplies {name} twice" for name in _twice(names)]
    if wrongs:
        return _joined(origin, "bad answer", wrongs)
    return _Supply(origin=origin, things=tuple(zip(names, things, strict=True)))


def _joined(origin: Origin, kind: str, wrongs: Sequence[str]) -> PluginFault:
    each = tuple(wrongs) if len(wrongs) > 1 else ()
    return PluginFault(origin=origin, kind=kind, wrong="; ".join(wrongs), wrongs=each)


def _twice(names: Iterable[str]) -> list[str]:
    return sorted(name for name, count in Counter(names).items() if count > 1)


def _settle(answers: list[_Supply | PluginFault]) -> Collected:
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
    return Collected(
        kept=tuple((thing, origin) for _, thing, origin in kept),
        faults=in_order([*faults, *clashes]),
    )


def _clashes(supplies: list[_Supply]) -> Iterator[PluginFault]:
    shared = set(_twice(name for supply in supplies for name, _ in supply.things))
    for supply in supplies:
        claims = sorted(name for name, _ in supply.things if name in shared)
        lost = [name for name in claims if _owners(name, supplies) != [supply.origin]]
        if lost:
            wrongs = [f"claims {name}, which {_others(name, supply, supplies)}" for name in lost]
            yield _joined(supply.origin, "clash", wrongs)


def _others(name: str, supply: _Supply, supplies: list[_Supply]) -> str:
    """Return which other plugins supply `name`, with the verb."""
    others = [
        _named(other.origin)
        for other in supplies
        if other is not supply and name in dict(other.things)
    ]
    return f"{' and '.join(others)} {'supplies' if len(others) == 1 else 'supply'} too"


def _owners(name: str, supplies: list[_Supply]) -> list[Origin]:
    """Return which of those that supply `name` have an entry point of that name."""
    return [
        supply.origin
        for supply in supplies
        if supply.origin.plugin == name and name in dict(supply.things)
    ]


def in_order(faults: Iterable[PluginFault]) -> tuple[PluginFault, ...]:
    """Return faults in the order of their plugins."""
    return tuple(sorted(faults, key=lambda f: (f.origin.plugin, f.origin.package, f.wrong)))
