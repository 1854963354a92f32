"""One plugin, asked one hook, by itself.

One manager for each entry point: where several plugins share a manager, the first that
raises keeps the rest from being asked and is not named.
"""

from typing import Protocol

import pluggy

from drylay.plugins import hooks
from drylay.plugins.model import Origin, PluginFault
from drylay.plugins.shapes import kind_of, told


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
    def dist(self) -> Package | None:
        """The package it belongs to."""

    def load(self) -> object:
        """Import what the entry point names."""


class _WrongShapeError(Exception):
    """The plugin is not what the hooks ask for."""


def origin_of(entry_point: EntryPoint) -> Origin:
    """Return where what an entry point supplies comes from."""
    package = entry_point.dist
    if package is None:
        return Origin(plugin=entry_point.name)
    return Origin(plugin=entry_point.name, package=package.name, version=package.version)


def supplied(entry_point: EntryPoint, hook: str) -> tuple[object, ...] | PluginFault:
    """Return what one plugin answers to one hook, nothing where it does not offer it.

    Whatever the plugin does instead, except being interrupted at the keyboard, comes back
    as its fault.
    """
    step = "import"
    try:
        plugin = entry_point.load()
        step = "registration"
        manager = _manager(plugin)
        step = hook
        return _asked(manager, hook)
    except _WrongShapeError as error:
        wrong = str(error)
    except (Exception, SystemExit) as error:
        wrong = f"{step} failed: {told(error)}"
    return PluginFault(origin=origin_of(entry_point), wrong=wrong)


def _manager(plugin: object) -> pluggy.PluginManager:
    manager = pluggy.PluginManager(hooks.PROJECT)
    manager.add_hookspecs(hooks)
    _refuse_unmarked(manager, plugin)
    manager.register(plugin)
    _refuse_misspelt(manager)
    if not manager.get_hookcallers(plugin):
        raise _WrongShapeError("offers no hook: no function in it carries hookimpl")
    return manager


def _refuse_unmarked(manager: pluggy.PluginManager, plugin: object) -> None:
    for name in dir(plugin):
        if not name.startswith("drylay_") or not callable(getattr(plugin, name)):
            continue
        if manager.parse_hookimpl_opts(plugin, name) is None:
            raise _WrongShapeError(f"{name} does not carry hookimpl, so it would not be asked")


def _refuse_misspelt(manager: pluggy.PluginManager) -> None:
    try:
        manager.check_pending()
    except pluggy.PluginValidationError as error:
        raise _WrongShapeError(f"misspelt hook: {' '.join(str(error).split())}") from None


def _asked(manager: pluggy.PluginManager, hook: str) -> tuple[object, ...]:
    caller = getattr(manager.hook, hook)
    if not caller.get_hookimpls():
        return ()
    answers = caller()
    if not answers:
        raise _WrongShapeError(f"{hook} answered None, wanted a list")
    answer = answers[0]
    if not isinstance(answer, (list, tuple)):
        raise _WrongShapeError(f"{hook} answered {kind_of(answer)}, wanted a list")
    return tuple(answer)
