"""drylay: brief in, checked buildable plan out, for timber decks in gardens.

The public names are listed once, here, and loaded when first used.
"""

from importlib import import_module

_HOME = {
    # verbs
    "audit": "drylay.planner.audited",
    "check_brief": "drylay.brief.reader",
    "check_catalogue": "drylay.materials.loader",
    "cut_stock": "drylay.cutting.stock",
    "design": "drylay.planner.design",
    "diff": "drylay.plan.diff",
    "fit_rows": "drylay.surface.rows",
    "installed_families": "drylay.plugins.loading",
    "load_catalogue": "drylay.materials.loader",
    "papers": "drylay.papers.folder",
    "place_joists": "drylay.supports.lines",
    "plan_from_json": "drylay.plan.codec",
    "plan_to_json": "drylay.plan.codec",
    "read_brief": "drylay.brief.reader",
    "show": "drylay.papers.folder",
    "starter_brief": "drylay.brief.starter",
    "verify": "drylay.cutting.verify",
    "write_papers": "drylay.papers.folder",
    # nouns
    "Brief": "drylay.brief.model",
    "Catalogue": "drylay.materials.model",
    "Decision": "drylay.reasons",
    "Family": "drylay.materials.model",
    "Finding": "drylay.findings",
    "Frame": "drylay.frame.model",
    "Joist": "drylay.frame.model",
    "Piece": "drylay.pieces.model",
    "Plan": "drylay.plan.model",
    "Row": "drylay.surface.model",
    "RuleQuery": "drylay.materials.model",
    "Ruling": "drylay.reasons",
    "Severity": "drylay.findings",
    "Source": "drylay.reasons",
    "WayOut": "drylay.surface.model",
    # errors
    "BriefError": "drylay.errors",
    "Cancelled": "drylay.errors",
    "CatalogueError": "drylay.errors",
    "DrylayError": "drylay.errors",
    "Fault": "drylay.errors",
    "PlanFileError": "drylay.errors",
    "PlannerFault": "drylay.errors",
    "UnknownPathError": "drylay.errors",
}

__version__ = "0.1.0"
__all__ = ["__version__", *_HOME]


def __getattr__(name: str) -> object:
    try:
        home = _HOME[name]
    except KeyError:
        raise AttributeError(f"module 'drylay' has no attribute {name!r}") from None
    return getattr(import_module(home), name)


def __dir__() -> list[str]:
    return sorted(__all__)
