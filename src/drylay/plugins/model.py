"""The nouns of plugins: what was found installed, and what was wrong with it."""

from collections.abc import Callable, Sequence

from attrs import field, frozen

from drylay.findings import Finding
from drylay.materials.model import Family
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.strength.model import DesignBasis

#: A paper as a plugin offers it: its file name, and what makes its bytes from a plan.
Paper = tuple[str, Callable[[Plan], bytes]]
#: A local rule as a plugin offers it: its name, and what finds something in a whole plan.
LocalRule = tuple[str, Callable[[Plan], Sequence[Finding]]]

#: What can be wrong with a plugin: it cannot be imported; what it offers are no hooks of these; a
#: hook failed; a hook answered with something else than it should; it claims what another has;
#: it is written for another release of the hooks; the caller blocked it.
PLUGIN_FAULTS = ("import", "hooks", "failed", "bad answer", "clash", "another release", "blocked")
#: Faults of a plugin that is known to offer what it was asked for.
OFFERED = ("failed", "bad answer", "clash")


@frozen(kw_only=True)
class Origin:
    """Where something came from: entry point, package and its release ("" if handed in)."""

    plugin: str
    package: str = ""
    version: str = ""


@frozen(kw_only=True)
class PluginFault:
    """A plugin that is not used, and what went wrong with it: one of `PLUGIN_FAULTS`, in words.

    `wrong` tells everything on one line; `wrongs` each thing by itself, where they are several.
    """

    origin: Origin
    kind: str
    wrong: str
    wrongs: tuple[str, ...] = ()

    def __str__(self) -> str:
        package = f" of package {self.origin.package}" if self.origin.package else ""
        return f"plugin {self.origin.plugin}{package}: {self.wrong}"


@frozen(kw_only=True)
class InstalledFamily:
    """A family, and the plugin it came from."""

    family: Family
    origin: Origin


@frozen(kw_only=True)
class FamilySet:
    """The families to plan with, by id, and the plugins that failed to supply theirs."""

    families: tuple[InstalledFamily, ...] = ()
    faults: tuple[PluginFault, ...] = ()


@frozen(kw_only=True)
class InstalledCatalogue:
    """A stock catalogue, and the plugin it came from."""

    catalogue: Catalogue
    origin: Origin


@frozen(kw_only=True)
class CatalogueSet:
    """The catalogues that plugins bring along, by name, and the plugins that failed."""

    catalogues: tuple[InstalledCatalogue, ...] = ()
    faults: tuple[PluginFault, ...] = ()


@frozen(kw_only=True)
class InstalledPaper:
    """A paper that a plugin makes, and the plugin."""

    name: str
    make: Callable[[Plan], bytes]
    origin: Origin


@frozen(kw_only=True)
class PaperSet:
    """The papers that plugins make, by name, and the plugins that failed to offer theirs."""

    papers: tuple[InstalledPaper, ...] = ()
    faults: tuple[PluginFault, ...] = ()


@frozen(kw_only=True)
class InstalledLocalRule:
    """A rule of a region or site, and the plugin it came from."""

    name: str
    look: Callable[[Plan], Sequence[Finding]]
    origin: Origin


@frozen(kw_only=True)
class LocalRuleSet:
    """The local rules to hold a plan against, by name, and the plugins that failed."""

    rules: tuple[InstalledLocalRule, ...] = ()
    faults: tuple[PluginFault, ...] = ()


@frozen(kw_only=True)
class InstalledBasis:
    """A design basis, and the plugin it came from."""

    basis: DesignBasis
    origin: Origin


@frozen(kw_only=True)
class BasisSet:
    """The design bases to screen timber by, by id, and the plugins that failed to supply theirs."""

    bases: tuple[InstalledBasis, ...] = ()
    faults: tuple[PluginFault, ...] = ()


@frozen(kw_only=True)
class InstalledPlugin:
    """One plugin: the names of what it supplies, and what is wrong with it."""

    origin: Origin
    families: tuple[str, ...] = ()
    catalogues: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    local_rules: tuple[str, ...] = ()
    design_bases: tuple[str, ...] = ()
    faults: tuple[PluginFault, ...] = ()


#: How a rule can fail to answer.
RULE_FAULTS = ("not covered", "failed", "bad answer")


@frozen(kw_only=True)
class RuleFault:
    """A family's rule that gave no usable answer.

    `kind` is one of `RULE_FAULTS`; `plugins` holds the plugin faults that may be why.
    """

    family: str
    rule: str
    kind: str
    wrong: str
    origin: Origin | None = None
    plugins: tuple[PluginFault, ...] = field(default=())

    def __str__(self) -> str:
        failed = "".join(f"; {fault}" for fault in self.plugins)
        return f"{self.family} {self.rule}: {self.kind}: {self.wrong}{failed}"
