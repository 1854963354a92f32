"""One plugin, asked one hook, by itself.

One manager for each entry point: where several plugins share a manager, the first that
raises keeps the rest from being asked and is not named.
"""

from difflib import get_close_matches
from typing import Protocol

import pluggy

from drylay.plugins import hooks
from drylay.plugins.datahooks import data_hooks
from drylay.plugins.model import Origin, PluginFault
from drylay.plugins.shapes import kind_of, told, told_apart


class Package(Protocol):
    """What is asked of the package an entry point belongs to."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def version(self) -> str:
        """Its release."""


class EntryPoint(Protocol):
    """What is asked of an entry point; those of `importlib.metadata` have it all."""

    @property
    def name(self) -> str:
        """The entry point's name."""

    @property
    def group(self) -> str:
        """The group it stands in, whose name tells the release of the hooks."""

    @property
    def dist(self) -> Package | None:
        """The package it belongs to."""

    def load(self) -> object:
        """Import what the entry point names."""


class _WrongShapeError(Exception):
    """The plugin is not what the hooks ask for; `kind` is one of `PLUGIN_FAULTS`."""

    def __init__(self, kind: str, wrong: str) -> None:
        self.kind = kind
        super().__init__(wrong)


def origin_of(entry_point: EntryPoint) -> Origin:
    """Return where what an entry point supplies comes from."""
    package = entry_point.dist
    if package is None:
        return Origin(plugin=entry_point.name)
    name, version = (record_of(package, each) for each in ("name", "version"))
    return Origin(plugin=entry_point.name, package=name, version=version)


def record_of(package: Package, each: str) -> str:
    """Return the name or release in a package's record, "" where that is spoilt."""
    try:
        return str(getattr(package, each) or "")
    except Exception:
        return ""


def supplied(entry_point: EntryPoint, hook: str) -> tuple[object, ...] | PluginFault:
    """Return what one plugin answers to one hook, nothing where it does not offer it.

    Whatever the plugin does instead, except being interrupted at the keyboard, comes back
    as its fault.
    """
    wrongs: tuple[str, ...] = ()
    kind, step = "import", "import"
    try:
        plugin = entry_point.load()
        kind, step = "hooks", "registration"
        manager = _manager(plugin)
        kind, step = "failed", hook
        return _asked(manager, hook)
    except _WrongShapeError as error:
        kind, wrong = error.kind, str(error)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # a plugin may raise what it likes: it spoils only itself
        wrong, wrongs = f"{step} failed: {told(error)}", told_apart(error)
    return PluginFault(origin=origin_of(entry_point), kind=kind, wrong=wrong, wrongs=wrongs)


def _manager(plugin: object) -> pluggy.PluginManager:
    manager = pluggy.PluginManager(hooks.PROJECT)
    manager.add_hookspecs(hooks)
    _refuse_unmarked(manager, plugin)
    manager.register(plugin)
    _refuse_misspelt(manager, plugin)
    if not manager.get_hookcallers(plugin):
        _register_data(manager, plugin)
    return manager


def _register_data(manager: pluggy.PluginManager, plugin: object) -> None:
    """Let a package that has no hooks of its own be asked for the files in it."""
    files = data_hooks(plugin)
    if files is None:
        wrong = (
            "offers no hook: no function in it carries hookimpl, and no TOML or CSV lies in it; if "
            "one lies beside it in the source, its build did not pack it"
        )
        raise _WrongShapeError("hooks", wrong)
    manager.register(files)


def _refuse_unmarked(manager: pluggy.PluginManager, plugin: object) -> None:
    for name in dir(plugin):
        if not name.startswith("drylay_") or not callable(getattr(plugin, name)):
            continue
        if manager.parse_hookimpl_opts(plugin, name) is None:
            wrong = f"{name} does not carry hookimpl, so it would not be asked"
            raise _WrongShapeError("hooks", wrong)


def _refuse_misspelt(manager: pluggy.PluginManager, plugin: object) -> None:
    try:
        manager.check_pending()
    except pluggy.PluginValidationError:
        callers = manager.get_hookcallers(plugin) or ()
        told_as = "; ".join(_misspelt(each.name) for each in callers if not each.has_spec())
        raise _WrongShapeError("hooks", f"misspelt hook: {told_as}") from None


def _misspelt(name: str) -> str:
    known = [each for each in dir(hooks) if each.startswith("drylay_")]
    near = get_close_matches(name, known, n=1)
    return f"found {name}, wanted {near[0] if near else 'one of ' + ', '.join(known)}"


def _asked(manager: pluggy.PluginManager, hook: str) -> tuple[object, ...]:
    caller: pluggy.HookCaller = getattr(manager.hook, hook)
    if not caller.get_hookimpls():
        return ()
    answers = caller()
    if not answers:
        raise _WrongShapeError("bad answer", f"{hook} answered None, wanted a list")
    answer = answers[0]
    if not isinstance(answer, (list, tuple)):
        raise _WrongShapeError("bad answer", f"{hook} answered {kind_of(answer)}, wanted a list")
    return tuple(answer)
