"""drylay: brief in, checked buildable plan out, for timber decks in gardens.

The public names are listed once, here, and loaded when first used.
"""

import sys
from importlib import import_module
from types import ModuleType

TYPE_CHECKING = False  # importing `typing` would take longer than all of this

if TYPE_CHECKING:  # what type checkers read; a test holds it to the table below
    from drylay.brief.model import Brief as Brief
    from drylay.brief.reader import check_brief as check_brief
    from drylay.brief.reader import read_brief as read_brief
    from drylay.brief.starter import starter_brief as starter_brief
    from drylay.compare.families import across_families as across_families
    from drylay.compare.model import Comparison as Comparison
    from drylay.compare.years import yearly_cost as yearly_cost
    from drylay.cutting.errors import CutTaskError as CutTaskError
    from drylay.cutting.errors import NoPlan as NoPlan
    from drylay.cutting.stock import cut_stock as cut_stock
    from drylay.cutting.verify import verify as verify
    from drylay.errors import BriefError as BriefError
    from drylay.errors import Cancelled as Cancelled
    from drylay.errors import CatalogueError as CatalogueError
    from drylay.errors import DrylayError as DrylayError
    from drylay.errors import Fault as Fault
    from drylay.errors import InputError as InputError
    from drylay.errors import PapersError as PapersError
    from drylay.errors import PlanFileError as PlanFileError
    from drylay.errors import PlannerFault as PlannerFault
    from drylay.errors import PluginsError as PluginsError
    from drylay.errors import UnknownPathError as UnknownPathError
    from drylay.findings import Finding as Finding
    from drylay.findings import Severity as Severity
    from drylay.frame.model import Frame as Frame
    from drylay.frame.model import Joist as Joist
    from drylay.materials.loader import check_catalogue as check_catalogue
    from drylay.materials.loader import load_catalogue as load_catalogue
    from drylay.materials.model import Family as Family
    from drylay.materials.model import RuleQuery as RuleQuery
    from drylay.materials.stock_model import Catalogue as Catalogue
    from drylay.movement.air import equilibrium_moisture as equilibrium_moisture
    from drylay.movement.gaps import gap_range as gap_range
    from drylay.movement.gaps import gaps_through_year as gaps_through_year
    from drylay.movement.heat import end_gap as end_gap
    from drylay.movement.heat import thermal_growth_mm as thermal_growth_mm
    from drylay.movement.model import YearOfGaps as YearOfGaps
    from drylay.movement.species import wood_movement as wood_movement
    from drylay.movement.width import moisture_change as moisture_change
    from drylay.pieces.model import Piece as Piece
    from drylay.plan.codec import plan_from_json as plan_from_json
    from drylay.plan.codec import plan_to_json as plan_to_json
    from drylay.plan.diff import diff as diff
    from drylay.plan.model import Plan as Plan
    from drylay.planner.audited import audit as audit
    from drylay.planner.bases import installed_design_bases as installed_design_bases
    from drylay.planner.design import design as design
    from drylay.planner.folder import installed_papers as installed_papers
    from drylay.planner.folder import papers as papers
    from drylay.planner.folder import show as show
    from drylay.planner.folder import write_papers as write_papers
    from drylay.planner.plugged import installed_plugins as installed_plugins
    from drylay.planner.review import review as review
    from drylay.planner.review_model import Review as Review
    from drylay.plugins.loading import installed_catalogues as installed_catalogues
    from drylay.plugins.loading import installed_families as installed_families
    from drylay.plugins.loading import installed_local_rules as installed_local_rules
    from drylay.plugins.model import BasisSet as BasisSet
    from drylay.reasons import Decision as Decision
    from drylay.reasons import Ruling as Ruling
    from drylay.reasons import Source as Source
    from drylay.strength.model import DesignBasis as DesignBasis
    from drylay.supports.lines import place_joists as place_joists
    from drylay.surface.model import Row as Row
    from drylay.surface.model import WayOut as WayOut
    from drylay.surface.rows import fit_rows as fit_rows

_HOME = {
    # verbs
    "across_families": "drylay.compare.families",
    "audit": "drylay.planner.audited",
    "check_brief": "drylay.brief.reader",
    "check_catalogue": "drylay.materials.loader",
    "cut_stock": "drylay.cutting.stock",
    "design": "drylay.planner.design",
    "diff": "drylay.plan.diff",
    "end_gap": "drylay.movement.heat",
    "equilibrium_moisture": "drylay.movement.air",
    "fit_rows": "drylay.surface.rows",
    "gap_range": "drylay.movement.gaps",
    "gaps_through_year": "drylay.movement.gaps",
    "installed_catalogues": "drylay.plugins.loading",
    "installed_design_bases": "drylay.planner.bases",
    "installed_families": "drylay.plugins.loading",
    "installed_local_rules": "drylay.plugins.loading",
    "installed_papers": "drylay.planner.folder",
    "installed_plugins": "drylay.planner.plugged",
    "load_catalogue": "drylay.materials.loader",
    "moisture_change": "drylay.movement.width",
    "papers": "drylay.planner.folder",
    "place_joists": "drylay.supports.lines",
    "plan_from_json": "drylay.plan.codec",
    "plan_to_json": "drylay.plan.codec",
    "read_brief": "drylay.brief.reader",
    "review": "drylay.planner.review",
    "show": "drylay.planner.folder",
    "starter_brief": "drylay.brief.starter",
    "thermal_growth_mm": "drylay.movement.heat",
    "verify": "drylay.cutting.verify",
    "wood_movement": "drylay.movement.species",
    "write_papers": "drylay.planner.folder",
    "yearly_cost": "drylay.compare.years",
    # nouns
    "BasisSet": "drylay.plugins.model",
    "Brief": "drylay.brief.model",
    "Catalogue": "drylay.materials.stock_model",
    "Comparison": "drylay.compare.model",
    "Decision": "drylay.reasons",
    "DesignBasis": "drylay.strength.model",
    "Family": "drylay.materials.model",
    "Finding": "drylay.findings",
    "Frame": "drylay.frame.model",
    "Joist": "drylay.frame.model",
    "Piece": "drylay.pieces.model",
    "Plan": "drylay.plan.model",
    "Review": "drylay.planner.review_model",
    "Row": "drylay.surface.model",
    "RuleQuery": "drylay.materials.model",
    "Ruling": "drylay.reasons",
    "Severity": "drylay.findings",
    "Source": "drylay.reasons",
    "WayOut": "drylay.surface.model",
    "YearOfGaps": "drylay.movement.model",
    # errors
    "BriefError": "drylay.errors",
    "Cancelled": "drylay.errors",
    "CatalogueError": "drylay.errors",
    "CutTaskError": "drylay.cutting.errors",
    "DrylayError": "drylay.errors",
    "Fault": "drylay.errors",
    "InputError": "drylay.errors",
    "NoPlan": "drylay.cutting.errors",
    "PapersError": "drylay.errors",
    "PlanFileError": "drylay.errors",
    "PlannerFault": "drylay.errors",
    "PluginsError": "drylay.errors",
    "UnknownPathError": "drylay.errors",
}

__version__ = "0.1.0"
__all__ = ["__version__", *_HOME]  # noqa: PLE0604 - the keys are the names


def __getattr__(name: str) -> object:
    try:
        home = _HOME[name]
    except KeyError:
        raise AttributeError(f"module 'drylay' has no attribute {name!r}") from None
    return getattr(import_module(home), name)


def __dir__() -> list[str]:
    return sorted(__all__)


class _Root(ModuleType):
    """Keeps `drylay.papers` and `drylay.audit` the public verbs.

    The rooms `papers/` and `audit/` bear the same names, and importing a room would put it
    in the verb's place.
    """

    def __setattr__(self, name: str, value: object) -> None:
        if not (name in _HOME and isinstance(value, ModuleType)):
            super().__setattr__(name, value)


sys.modules[__name__].__class__ = _Root
