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
    from drylay.compare.cases import vary as vary
    from drylay.compare.compared import compare as compare
    from drylay.compare.families import across_families as across_families
    from drylay.compare.holding import holding_prices as holding_prices
    from drylay.compare.lengths_kept import lengths_to_keep as lengths_to_keep
    from drylay.compare.model import Comparison as Comparison
    from drylay.compare.pareto import pareto as pareto
    from drylay.compare.price_breaks import price_breaks as price_breaks
    from drylay.compare.rows_file import write_rows as write_rows
    from drylay.compare.side_by_side import side_by_side as side_by_side
    from drylay.compare.size_costs import cost_by_size as cost_by_size
    from drylay.compare.step_model import StepPoints as StepPoints
    from drylay.compare.step_points import what_would_change as what_would_change
    from drylay.compare.study_errors import StudyStopped as StudyStopped
    from drylay.compare.study_file import read_study as read_study
    from drylay.compare.study_model import Case as Case
    from drylay.compare.study_run import run_study as run_study
    from drylay.compare.uncertainty import uncertainty as uncertainty
    from drylay.compare.years import yearly_cost as yearly_cost
    from drylay.correcting.model import EdgeReading as EdgeReading
    from drylay.correcting.reader import read_readings as read_readings
    from drylay.correcting.tolerance import forecast_edge as forecast_edge
    from drylay.cutting.errors import CutTaskError as CutTaskError
    from drylay.cutting.errors import NoPlan as NoPlan
    from drylay.cutting.stock import cut_stock as cut_stock
    from drylay.cutting.verify import verify as verify
    from drylay.errors import BriefError as BriefError
    from drylay.errors import Cancelled as Cancelled
    from drylay.errors import CatalogueError as CatalogueError
    from drylay.errors import DrylayError as DrylayError
    from drylay.errors import Fault as Fault
    from drylay.errors import GardenError as GardenError
    from drylay.errors import InputError as InputError
    from drylay.errors import PapersError as PapersError
    from drylay.errors import PlanFileError as PlanFileError
    from drylay.errors import PlannerFault as PlannerFault
    from drylay.errors import PluginsError as PluginsError
    from drylay.errors import SettingOutError as SettingOutError
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
    from drylay.planner.corrected import correct_plan as correct_plan
    from drylay.planner.design import design as design
    from drylay.planner.folder import installed_papers as installed_papers
    from drylay.planner.folder import papers as papers
    from drylay.planner.folder import show as show
    from drylay.planner.folder import write_papers as write_papers
    from drylay.planner.garden import look_at_garden as look_at_garden
    from drylay.planner.garden import read_garden as read_garden
    from drylay.planner.garden_model import GardenReport as GardenReport
    from drylay.planner.garden_papers import garden_papers as garden_papers
    from drylay.planner.plugged import installed_plugins as installed_plugins
    from drylay.planner.profiles import profiles as profiles
    from drylay.planner.review import review as review
    from drylay.planner.review_model import Review as Review
    from drylay.planner.seated import seated_costs as seated_costs
    from drylay.plugins.loading import installed_catalogues as installed_catalogues
    from drylay.plugins.loading import installed_families as installed_families
    from drylay.plugins.loading import installed_local_rules as installed_local_rules
    from drylay.plugins.model import BasisSet as BasisSet
    from drylay.reasons import Decision as Decision
    from drylay.reasons import Ruling as Ruling
    from drylay.reasons import Source as Source
    from drylay.regions.notes import region_notes as region_notes
    from drylay.seating.fits import fits_on as fits_on
    from drylay.seating.least import least_deck as least_deck
    from drylay.siting.sun import sun_at as sun_at
    from drylay.siting.verdict import best_places as best_places
    from drylay.siting.verdict import site_verdict as site_verdict
    from drylay.strength.model import DesignBasis as DesignBasis
    from drylay.supports.lines import place_joists as place_joists
    from drylay.surface.model import Row as Row
    from drylay.surface.model import WayOut as WayOut
    from drylay.surface.rows import fit_rows as fit_rows
    from drylay.survey.model import Tape as Tape
    from drylay.survey.report import survey_garden as survey_garden
    from drylay.survey.tapes import fit_tapes as fit_tapes
    from drylay.upkeep.calendar import inspection_calendar as inspection_calendar
    from drylay.upkeep.extension import extension as extension
    from drylay.upkeep.ics import calendar_ics as calendar_ics
    from drylay.upkeep.lift import boards_to_lift as boards_to_lift
    from drylay.upkeep.locate import locate as locate
    from drylay.upkeep.parts import UpkeepError as UpkeepError
    from drylay.upkeep.repair import repair as repair
    from drylay.upkeep.salvage import salvage as salvage
    from drylay.upkeep.waste import carbon as carbon
    from drylay.upkeep.waste import waste as waste
    from drylay.work.peg_moves import move_pegs as move_pegs


_HOME = {
    # verbs
    "across_families": "drylay.compare.families",
    "audit": "drylay.planner.audited",
    "best_places": "drylay.siting.verdict",
    "boards_to_lift": "drylay.upkeep.lift",
    "calendar_ics": "drylay.upkeep.ics",
    "carbon": "drylay.upkeep.waste",
    "check_brief": "drylay.brief.reader",
    "check_catalogue": "drylay.materials.loader",
    "compare": "drylay.compare.compared",
    "correct_plan": "drylay.planner.corrected",
    "cost_by_size": "drylay.compare.size_costs",
    "cut_stock": "drylay.cutting.stock",
    "design": "drylay.planner.design",
    "diff": "drylay.plan.diff",
    "end_gap": "drylay.movement.heat",
    "equilibrium_moisture": "drylay.movement.air",
    "extension": "drylay.upkeep.extension",
    "fit_rows": "drylay.surface.rows",
    "fit_tapes": "drylay.survey.tapes",
    "fits_on": "drylay.seating.fits",
    "forecast_edge": "drylay.correcting.tolerance",
    "gap_range": "drylay.movement.gaps",
    "gaps_through_year": "drylay.movement.gaps",
    "garden_papers": "drylay.planner.garden_papers",
    "holding_prices": "drylay.compare.holding",
    "inspection_calendar": "drylay.upkeep.calendar",
    "installed_catalogues": "drylay.plugins.loading",
    "installed_design_bases": "drylay.planner.bases",
    "installed_families": "drylay.plugins.loading",
    "installed_local_rules": "drylay.plugins.loading",
    "installed_papers": "drylay.planner.folder",
    "installed_plugins": "drylay.planner.plugged",
    "least_deck": "drylay.seating.least",
    "lengths_to_keep": "drylay.compare.lengths_kept",
    "load_catalogue": "drylay.materials.loader",
    "locate": "drylay.upkeep.locate",
    "look_at_garden": "drylay.planner.garden",
    "moisture_change": "drylay.movement.width",
    "move_pegs": "drylay.work.peg_moves",
    "papers": "drylay.planner.folder",
    "pareto": "drylay.compare.pareto",
    "place_joists": "drylay.supports.lines",
    "plan_from_json": "drylay.plan.codec",
    "plan_to_json": "drylay.plan.codec",
    "price_breaks": "drylay.compare.price_breaks",
    "profiles": "drylay.planner.profiles",
    "read_brief": "drylay.brief.reader",
    "read_garden": "drylay.planner.garden",
    "read_readings": "drylay.correcting.reader",
    "read_study": "drylay.compare.study_file",
    "region_notes": "drylay.regions.notes",
    "repair": "drylay.upkeep.repair",
    "review": "drylay.planner.review",
    "run_study": "drylay.compare.study_run",
    "salvage": "drylay.upkeep.salvage",
    "seated_costs": "drylay.planner.seated",
    "show": "drylay.planner.folder",
    "side_by_side": "drylay.compare.side_by_side",
    "site_verdict": "drylay.siting.verdict",
    "starter_brief": "drylay.brief.starter",
    "sun_at": "drylay.siting.sun",
    "survey_garden": "drylay.survey.report",
    "thermal_growth_mm": "drylay.movement.heat",
    "uncertainty": "drylay.compare.uncertainty",
    "vary": "drylay.compare.cases",
    "verify": "drylay.cutting.verify",
    "waste": "drylay.upkeep.waste",
    "what_would_change": "drylay.compare.step_points",
    "wood_movement": "drylay.movement.species",
    "write_papers": "drylay.planner.folder",
    "write_rows": "drylay.compare.rows_file",
    "yearly_cost": "drylay.compare.years",
    # nouns
    "BasisSet": "drylay.plugins.model",
    "Brief": "drylay.brief.model",
    "Case": "drylay.compare.study_model",
    "Catalogue": "drylay.materials.stock_model",
    "Comparison": "drylay.compare.model",
    "Decision": "drylay.reasons",
    "DesignBasis": "drylay.strength.model",
    "EdgeReading": "drylay.correcting.model",
    "Family": "drylay.materials.model",
    "Finding": "drylay.findings",
    "Frame": "drylay.frame.model",
    "GardenReport": "drylay.planner.garden_model",
    "Joist": "drylay.frame.model",
    "Piece": "drylay.pieces.model",
    "Plan": "drylay.plan.model",
    "Review": "drylay.planner.review_model",
    "Row": "drylay.surface.model",
    "RuleQuery": "drylay.materials.model",
    "Ruling": "drylay.reasons",
    "Severity": "drylay.findings",
    "Source": "drylay.reasons",
    "StepPoints": "drylay.compare.step_model",
    "Tape": "drylay.survey.model",
    "WayOut": "drylay.surface.model",
    "YearOfGaps": "drylay.movement.model",
    # errors
    "BriefError": "drylay.errors",
    "Cancelled": "drylay.errors",
    "CatalogueError": "drylay.errors",
    "CutTaskError": "drylay.cutting.errors",
    "DrylayError": "drylay.errors",
    "Fault": "drylay.errors",
    "GardenError": "drylay.errors",
    "InputError": "drylay.errors",
    "NoPlan": "drylay.cutting.errors",
    "PapersError": "drylay.errors",
    "PlanFileError": "drylay.errors",
    "PlannerFault": "drylay.errors",
    "PluginsError": "drylay.errors",
    "SettingOutError": "drylay.errors",
    "StudyStopped": "drylay.compare.study_errors",
    "UnknownPathError": "drylay.errors",
    "UpkeepError": "drylay.upkeep.parts",
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
    """Keeps `drylay.papers`, `drylay.audit` and `drylay.compare` the public verbs.

    The rooms `papers/`, `audit/` and `compare/` bear the same names, and importing a room would
    put it in the verb's place.
    """

    def __setattr__(self, name: str, value: object) -> None:
        if not (name in _HOME and isinstance(value, ModuleType)):
            super().__setattr__(name, value)


sys.modules[__name__].__class__ = _Root
