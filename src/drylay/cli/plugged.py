"""Which plugins a command asks, as typed; and stock that a plugin brings along."""

from argparse import ArgumentParser, Namespace
from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from functools import reduce
from operator import or_
from typing import TypedDict

from attrs import evolve

from drylay.cli.days import on_day
from drylay.cli.files import StockReader, read_stock_files
from drylay.cli.screen import Screen, say
from drylay.cli.texts import not_used
from drylay.errors import CatalogueError, Fault, PluginsError
from drylay.materials.stock_model import Catalogue
from drylay.plugins.model import CatalogueSet, FamilySet, LocalRuleSet, PluginFault


class Choice(TypedDict):
    """What every function that looks for plugins is told."""

    blocked: tuple[str, ...]
    strict: bool


def add_options(made: ArgumentParser) -> None:
    """Add the options of every command that asks plugins."""
    made.add_argument(
        "--without-plugin",
        metavar="NAME",
        action="append",
        default=[],
        help="leave a plugin out, by its name or its package's; may be given more than once",
    )
    made.add_argument(
        "--strict", action="store_true", help="do nothing where any installed plugin is faulty"
    )


def chosen(arguments: Namespace) -> Choice:
    """Return which plugins to ask.

    Raises:
        PluginsError: A plugin to leave out is not there: it would be asked after all.
    """
    from drylay.planner.own_bases import own_bases
    from drylay.plugins.found import installed_names

    known = installed_names(own_bases())
    faults = tuple(
        Fault(
            path="--without-plugin",
            found=repr(name),
            wanted=f"an installed plugin: {', '.join(known) or 'there is none'}",
            nearest="".join(get_close_matches(name, known, n=1)),
        )
        for name in arguments.without_plugin
        if name not in known
    )
    if faults:
        raise PluginsError(faults)
    return Choice(blocked=tuple(arguments.without_plugin), strict=arguments.strict)


class RulesAsked(TypedDict):
    """Whose rules a plan is made by, and held against."""

    families: FamilySet
    local_rules: LocalRuleSet


def rules_asked(screen: Screen, choice: Choice) -> RulesAsked:
    """Return families and local rules to plan with; say on the side which plugins are not used."""
    from drylay.plugins.loading import installed_families, installed_local_rules

    families, local_rules = installed_families(**choice), installed_local_rules(**choice)
    _tell_faults(screen, (*families.faults, *local_rules.faults))
    return RulesAsked(families=families, local_rules=local_rules)


def stock_reader(arguments: Namespace, choice: Choice) -> StockReader:
    """Return what reads the stock that was named: files, or what plugins bring along."""
    if arguments.stock_of:
        return lambda: _stock_of(arguments.stock_of, choice, on=arguments.on)
    return lambda: read_stock_files(arguments.stock, mappings=arguments.mapping, on=arguments.on)


def _stock_of(names: Sequence[str], choice: Choice, *, on: str | None) -> Catalogue:
    """Return the stock catalogues that plugins of these names bring along, as one.

    Raises:
        CatalogueError: One brings none along, or they contradict each other.
    """
    from drylay.plugins.loading import installed_catalogues

    found = installed_catalogues(**choice)
    shelves: list[Catalogue] = []
    faults: list[Fault] = []
    for name in names:
        theirs = [
            each.catalogue
            for each in found.catalogues
            if name in {each.origin.plugin, each.origin.package}
        ]
        shelves += theirs
        faults += [] if theirs else _no_stock(name, found)
    if faults:
        raise CatalogueError(tuple(faults))
    return reduce(or_, on_day(shelves, on))


def _no_stock(name: str, found: CatalogueSet) -> list[Fault]:
    """Return why a plugin brings no stock along, a fault for each thing that is wrong with it."""
    known = sorted({each.origin.plugin for each in found.catalogues})
    wanted = f"a plugin that brings stock along: {', '.join(known) or 'there is none'}"
    wrongs = [
        f"{evolve(fault, wrong=wrong)}"
        for fault in found.faults
        if name in {fault.origin.plugin, fault.origin.package}
        for wrong in fault.wrongs or (fault.wrong,)
    ]
    if wrongs:
        return [_stock_fault(f"{name!r}; {wrong}", wanted) for wrong in wrongs]
    return [_stock_fault(repr(name), wanted, "".join(get_close_matches(name, known, n=1)))]


def _stock_fault(found: str, wanted: str, nearest: str = "") -> Fault:
    return Fault(path="--stock-of", found=found, wanted=wanted, nearest=nearest)


def _tell_faults(screen: Screen, faults: Iterable[PluginFault]) -> None:
    for fault in dict.fromkeys(faults):
        if fault.kind != "blocked":
            say(screen.err, "\n".join(not_used(fault)))
